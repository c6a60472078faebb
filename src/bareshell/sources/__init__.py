"""The bibliography as data: each standard, regulation, handbook and paper once, under a short id.

A docstring cites a source as ``[S:id]`` or ``[S:id, clause]``; pages and sheets print the same
entry with `source`. An id that is not here fails a test. Nothing is quoted: an entry says where
to look and how far we have read it.
"""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import Final

from bareshell.errors import NotFound
from bareshell.sources.brakes import BRAKES
from bareshell.sources.measures import MEASURES
from bareshell.sources.mechanics import MECHANICS
from bareshell.sources.planning import PLANNING
from bareshell.sources.record import Mark, Source
from bareshell.sources.trade import TRADE

__all__ = ["SOURCES", "Mark", "Source", "cited_in", "source"]

SOURCES: Final = MappingProxyType(
    {entry.id: entry for entry in MEASURES + MECHANICS + BRAKES + TRADE + PLANNING}
)
"""Every source by its id."""

_CITATION = re.compile(r"\[S:([a-z0-9-]+)(?:,\s*([^\]]*))?\]")


def source(source_id: str) -> Source:
    """Look up one source.

    Parameters
    ----------
    source_id : str
        As docstrings cite it.

    Returns
    -------
    Source
        The entry.

    Raises
    ------
    NotFound
        When there is no such id.

    Examples
    --------
    >>> source("uk-units-1995").cite()
    'The Units of Measurement Regulations 1995 (United Kingdom, SI 1995/1804, 1995; from memory)'
    """
    try:
        return SOURCES[source_id]
    except KeyError:
        raise NotFound(
            f"there is no source '{source_id}'", "the list of sources gives every id"
        ) from None


def cited_in(text: str) -> tuple[tuple[str, str], ...]:
    """Find the citations in a docstring.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    tuple of (str, str)
        Each id with the clause named beside it, or an empty string, in order.

    Examples
    --------
    >>> cited_in("A column of mercury is the conventional one [S:nist-sp-811, B.8].")
    (('nist-sp-811', 'B.8'),)
    """
    return tuple(
        (match[1], " ".join(match[2].split()) if match[2] else "")
        for match in _CITATION.finditer(text)
    )
