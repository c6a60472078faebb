"""Every yardstick by its id, and which of them somebody may want for a car.

Nothing is chosen silently: `suggested` says which were meant for cars like this one, and why; the
owner picks. What applies in law is for local law, and for the vehicle's own papers.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from bareshell.brakes.yardstick import Subject, Yardstick
from bareshell.brakes.yardsticks_de import DE
from bareshell.brakes.yardsticks_uk import UK
from bareshell.brakes.yardsticks_un import UN
from bareshell.brakes.yardsticks_us import US
from bareshell.errors import BadInput, NotFound

__all__ = [
    "CAUTIONS",
    "FAMILIES",
    "MARKETS",
    "YARDSTICKS",
    "Suggestion",
    "chosen",
    "suggested",
    "yardstick",
]

YARDSTICKS: Final = MappingProxyType({each.id: each for each in UN + US + UK + DE})
"""Every yardstick by its id."""

FAMILIES: Final = tuple(dict.fromkeys(each.family for each in YARDSTICKS.values()))
"""The regulations, in the order they are listed."""

MARKETS: Final = MappingProxyType(
    {
        "United Kingdom": ("UK annual inspection", "UK construction rules"),
        "Germany": ("StVZO s.41",),
        "European Union": ("UN R13-H", "UN R13, for cars before 13-H"),
        "United States": ("FMVSS 135", "FMVSS 105"),
    }
)
"""The regulations of a market, by its name."""

CAUTIONS: Final = (
    (
        "Yardsticks are published requirements that you picked. Meeting one in a calculation, or "
        "on one evening's test, is no approval of the car and nobody's permission to drive it."
    ),
    (
        "Where a figure is marked as recalled or read second-hand, look it up before you rely on "
        "it. Local law and the vehicle's own papers outrank everything here."
    ),
    (
        "A competent person looks at the brakes, measures and signs before the car moves under "
        "its own power."
    ),
)
"""What stands beside every verdict, on the page and on paper."""

_TWO_CONTROLS: Final = frozenset({"uk-mot-first-control", "uk-mot-second-control"})
_ONE_CONTROL: Final = frozenset({"uk-mot-service-2010", "uk-mot-service"})


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A yardstick that somebody may want, and why.

    Parameters
    ----------
    yardstick : Yardstick
        Which.
    because : str
        Why, in a sentence.
    """

    yardstick: Yardstick
    because: str


def yardstick(yardstick_id: str) -> Yardstick:
    """Look up one yardstick.

    Raises
    ------
    NotFound
        When there is none of that id.

    Examples
    --------
    >>> yardstick("un-r13-circuit").words
    '2.9 m/s2 from 80 km/h with a part of the brakes failed'
    """
    try:
        return YARDSTICKS[yardstick_id]
    except KeyError:
        raise NotFound(
            f"there is no yardstick '{yardstick_id}'", "the list of yardsticks gives every id"
        ) from None


def chosen(ids: Iterable[str], *subjects: Subject) -> tuple[Yardstick, ...]:
    """Look up those that were picked, in the order of the list; of some subjects only, if named.

    Raises
    ------
    NotFound
        When one of the ids is not known.

    Examples
    --------
    >>> [each.id for each in chosen(["uk-mot-service", "un-r13-circuit"], Subject.CIRCUIT)]
    ['un-r13-circuit']
    """
    wanted = {yardstick(each).id for each in ids}
    return tuple(
        each
        for each in YARDSTICKS.values()
        if each.id in wanted and (not subjects or each.subject in subjects)
    )


def suggested(
    market: str,
    first_used: date | None,
    *,
    single_line: bool | None = None,
    one_control_on_four_wheels: bool = True,
) -> tuple[Suggestion, ...]:
    """Say which yardsticks were meant for cars like this one.

    Parameters
    ----------
    market : str
        A name of `MARKETS`.
    first_used : date or None
        When the car was first used; None when nobody knows, and then no age leaves any out.
    single_line : bool or None
        Whether one line feeds all brakes; None when nobody has said.
    one_control_on_four_wheels : bool
        Whether one control brakes four wheels.

    Returns
    -------
    tuple of Suggestion
        To pick from; none is chosen.

    Raises
    ------
    BadInput
        When there is no such market.

    Examples
    --------
    >>> found = suggested("United Kingdom", date(1972, 5, 1), single_line=False)
    >>> [each.yardstick.id for each in found if each.yardstick.subject is Subject.SERVICE]
    ['uk-mot-service', 'uk-cu-service']
    """
    if market not in MARKETS:
        raise BadInput("market", f"there is no '{market}'", f"known are {', '.join(MARKETS)}")
    found = []
    for each in YARDSTICKS.values():
        if each.family not in MARKETS[market]:
            continue
        if _of_layout(each, single_line=single_line, one_control=one_control_on_four_wheels):
            because = _by_age(each, first_used)
            if because:
                found.append(Suggestion(each, because))
    return tuple(found)


def _of_layout(one: Yardstick, *, single_line: bool | None, one_control: bool) -> bool:
    """Whether a yardstick is meant for brakes laid out so."""
    if one.id in _TWO_CONTROLS:
        return not one_control
    if one.id in _ONE_CONTROL:
        return one_control
    if one.id == "uk-mot-secondary":
        return single_line is not False
    return one.id != "uk-mot-parking" or not single_line


def _by_age(one: Yardstick, first_used: date | None) -> str:
    """Why a yardstick was meant for a car of that age; empty when it was not."""
    if first_used is None:
        return f"of {one.jurisdiction}; which cars it is meant for hangs on the day of first use"
    if one.used_from and first_used < one.used_from:
        return ""
    if one.used_before and first_used >= one.used_before:
        return ""
    return f"of {one.jurisdiction}, for a car first used on {first_used.isoformat()}"
