"""A small car seen from above, nose up, with the places of a job marked on it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from bareshell.draw.svg import Svg, joined, path, picture
from bareshell.draw.systems import fill_of

_WIDTH: Final = 76.0
_HEIGHT: Final = 150.0
_OUTLINE: Final = (
    "M20 14Q38 4 56 14Q64 30 63 60V104Q64 128 58 138Q38 146 18 138Q12 128 13 104V60Q12 30 20 14Z"
)
_GLASS: Final = "M19 50Q38 42 57 50L54 62H22ZM22 108H54L57 120Q38 125 19 120ZM22 62V108M54 62V108"
_WHEELS: Final = "M11 24V42M65 24V42M11 104V122M65 104V122"

_POINTS: Final[dict[str, tuple[tuple[float, float], ...]]] = {
    "front": ((38, 12),),
    "engine bay": ((38, 32),),
    "front wheel ends": ((11, 33), (65, 33)),
    "cabin": ((38, 80),),
    "doors": ((13, 78), (63, 78)),
    "rear wheel ends": ((11, 113), (65, 113)),
    "boot": ((38, 130),),
    "rear": ((38, 140),),
}
_AREAS: Final[dict[str, str]] = {
    "roof": "M24 65H52V105H24Z",
    "underneath": "M20 20H56V132H20Z",
}

ZONES: Final = (*_POINTS, *_AREAS)
"""Every zone that can be marked."""


def zone_sentence(zones: Iterable[str]) -> str:
    """Where on the car, in words.

    Examples
    --------
    >>> zone_sentence(["rear wheel ends", "boot"])
    'Where on the car: rear wheel ends and boot.'
    >>> zone_sentence([])
    'Where on the car: no place named.'
    """
    names = list(zones)
    if not names:
        return "Where on the car: no place named."
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return f"Where on the car: {listed}."


def car_plan(zones: Iterable[str]) -> Svg:
    """The small plan of a bench ticket.

    Parameters
    ----------
    zones : iterable of str
        Zones of the car that the work reaches, in the trade's words (``engine bay``).

    Raises
    ------
    ValueError
        For a zone nobody has placed yet; the sentence lists the known ones.
    """
    names = tuple(zones)
    unknown = [name for name in names if name not in ZONES]
    if unknown:
        raise ValueError(f"No place is drawn for {unknown[0]!r}. Known are: {', '.join(ZONES)}.")
    marked = [_area(_AREAS[name], name) for name in names if name in _AREAS]
    marked += [_spot(x, y) for name in names for x, y in _POINTS.get(name, ())]
    return picture(
        _WIDTH,
        _HEIGHT,
        zone_sentence(names),
        path(_OUTLINE, "l"),
        path(_GLASS, "l-thin"),
        path(_WHEELS, "l-thick"),
        joined(*marked),
        class_="where",
    )


def _spot(x: float, y: float) -> Svg:
    return path(f"M{x:g} {y - 8:g}L{x + 8:g} {y:g}L{x:g} {y + 8:g}L{x - 8:g} {y:g}Z", "place")


def _area(d: str, name: str) -> Svg:
    """A place that is an area: what is overhead hatched, what is beneath dashed."""
    if name == "underneath":
        return path(d, "place-beneath")
    return path(d, "place-area", fill=fill_of("brakes"))
