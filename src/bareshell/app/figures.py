"""Figures read while proving, brought to the unit that the limit is written in."""

from __future__ import annotations

import re

from bareshell.errors import BadInput
from bareshell.model.proof import Limit, Reading
from bareshell.units import parse_temperature_c, read_figure, read_quantity
from bareshell.units.reading import unit_called
from bareshell.units.tables import QUANTITIES, QuantityName, Unit

_CELSIUS = frozenset({"c", "°c", "degc", "deg c"})
_FIGURE_AND_UNIT = re.compile(r"([+-]?[\d.,]+(?:[ -]?\d+/\d+)?)\s*(.*)")


def figure_in(text: str, unit: str, what: str) -> float:
    """Read a figure as typed and give it in the unit that is printed beside the field.

    Parameters
    ----------
    text : str
        Such as ``"71"``, ``"71 bar"``, ``"1030 psi"``.
    unit : str
        The unit beside the field; a bare figure is meant in it.
    what : str
        The field's name, for the error.

    Raises
    ------
    BadInput
        When it is no figure, or its unit is of another kind.

    Examples
    --------
    >>> figure_in("71", "bar", "pressure"), round(figure_in("1030 psi", "bar", "pressure"), 2)
    (71.0, 71.02)
    >>> figure_in("12.6 V", "V", "battery")
    12.6
    """
    if unit.casefold() in _CELSIUS:
        bare = text.strip().lstrip("-\N{MINUS SIGN}").replace(".", "", 1).isdigit()
        return parse_temperature_c(f"{text} C" if bare else text, what)
    known = _known(unit)
    if known is None:
        return _plain(text, unit, what)
    quantity, found = known
    return read_quantity(text, quantity, what, bare=found.mark, signed=True).si / found.si


def misses(limit: Limit, reading: Reading) -> bool:
    """Whether a figure that was read lies outside a limit on the same quantity.

    A figure of another quantity, or in a unit that cannot be brought to the limit's, misses
    nothing: it is kept beside it.

    Examples
    --------
    >>> misses(Limit("pressure", "bar", low=70), Reading("pressure", 900, "psi"))
    True
    >>> misses(Limit("pressure", "bar", low=70), Reading("temperature", 8, "degC"))
    False
    """
    if reading.quantity and reading.quantity != limit.quantity:
        return False
    if reading.unit == limit.unit:
        return not limit.admits(reading.value)
    mine, theirs = _known(limit.unit), _known(reading.unit)
    if mine is None or theirs is None or mine[0] != theirs[0]:
        return False
    return not limit.admits(reading.value * theirs[1].si / mine[1].si)


def is_in_another_unit(limit: Limit, reading: Reading) -> bool:
    """Whether a figure is meant for a limit and cannot be brought to the limit's unit.

    Examples
    --------
    >>> is_in_another_unit(Limit("pressure", "bar", low=70), Reading("", 71, "furlongs"))
    True
    >>> is_in_another_unit(Limit("pressure", "bar", low=70), Reading("", 1030, "psi"))
    False
    """
    if reading.quantity not in ("", limit.quantity) or reading.unit == limit.unit:
        return False
    mine, theirs = _known(limit.unit), _known(reading.unit)
    return mine is None or theirs is None or mine[0] != theirs[0]


def _known(unit: str) -> tuple[QuantityName, Unit] | None:
    for name in QUANTITIES:
        try:
            return name, unit_called(name, unit)
        except (KeyError, BadInput):
            continue
    return None


def _plain(text: str, unit: str, what: str) -> float:
    match = _FIGURE_AND_UNIT.fullmatch(text.strip())
    if match is None:
        return read_figure(text, what)
    if match[2] and match[2].casefold() != unit.casefold():
        raise BadInput(
            what,
            f"'{text}' is not in {unit}" if unit else f"'{text}' has a unit and needs none",
            f"write it in {unit}" if unit else "write the figure alone",
        )
    return read_figure(match[1], what)
