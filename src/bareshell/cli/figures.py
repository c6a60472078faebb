"""Readings as a person types them: a figure and its unit."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from bareshell.errors import BadInput

if TYPE_CHECKING:
    from bareshell.model.proof import Reading

_FIGURE = re.compile(
    r"^\s*(?:(?P<what>[A-Za-z][^=]*?)\s*=\s*)?(?P<value>-?\d+(?:[.,]\d+)?)\s*(?P<unit>\S.*)?$"
)


def parse_readings(figures: Iterable[str]) -> tuple[Reading, ...]:
    """Read figures such as ``71 bar`` or ``run-out = 0.08 mm``.

    Raises
    ------
    BadInput
        When one is no figure with a unit.

    Examples
    --------
    >>> parse_readings(["71 bar"])
    (Reading(quantity='', value=71.0, unit='bar', instrument=''),)
    """
    from bareshell.model.proof import Reading

    found = []
    for figure in figures:
        match = _FIGURE.match(figure)
        if match is None or not match["unit"]:
            raise BadInput(
                "figure", f"'{figure}' has no figure with a unit", "write it as '71 bar'"
            )
        value = float(match["value"].replace(",", "."))
        found.append(Reading((match["what"] or "").strip(), value, match["unit"].strip()))
    return tuple(found)
