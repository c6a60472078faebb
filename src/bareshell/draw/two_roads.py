"""Two roads side by side: the gates of each on a rail of days, each gate joined to itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from bareshell.draw.days import month, short_day
from bareshell.draw.measure import shortened
from bareshell.draw.svg import Svg, circle, joined, path, picture, text

_WIDTH: Final = 380.0
_LEFT_RAIL: Final = 212.0
_RIGHT_RAIL: Final = 304.0
_NAMES: Final = 194.0
_HEAD: Final = 44.0
_APART: Final = 40.0
_LEAD: Final = 14.0
_PX_A_DAY: Final = 1.3
_LEAST: Final = 180.0
_MOST: Final = 620.0
_MARK: Final = 4.5


@dataclass(frozen=True, slots=True)
class GatePassed:
    """A gate, and the day on which each road is through it; None where it never is."""

    title: str
    before: date | None
    after: date | None


@dataclass(frozen=True, slots=True)
class TwoRoads:
    """The gates of two roads.

    Parameters
    ----------
    gates : tuple of GatePassed
        Those that one road at least goes through.
    """

    gates: tuple[GatePassed, ...]

    def __post_init__(self) -> None:
        """There is nothing to draw without a day."""
        if not any(gate.before or gate.after for gate in self.gates):
            raise ValueError("Two roads need a gate with a day.")

    @property
    def sentence(self) -> str:
        """What the picture shows, for those who cannot see it."""
        said = [
            f"{gate.title}: {_said(gate.before)} as things are, {_said(gate.after)} in the copy"
            for gate in self.gates
        ]
        return "The days of the gates on two roads. " + "; ".join(said) + "."


def two_roads(roads: TwoRoads) -> Svg:
    """Two rails of days, the days running down, and a line from each gate to itself.

    Parameters
    ----------
    roads : TwoRoads
        The gates. A line that rises to the right is a gate reached sooner in the copy.

    Returns
    -------
    drawing : Svg
        Made for a phone; needs no definitions.
    """
    days = [day for gate in roads.gates for day in (gate.before, gate.after) if day]
    scale = _Scale.over(days)
    left = _spread([scale.y(gate.before) for gate in roads.gates if gate.before])
    right = _spread([scale.y(gate.after) for gate in roads.gates if gate.after])
    foot = max(scale.foot, *left, *right) + 24
    lost = [gate for gate in roads.gates if not (gate.before and gate.after)]
    drawn = [_rail(x, scale) for x in (_LEFT_RAIL, _RIGHT_RAIL)]
    drawn += [_joint(gate, scale) for gate in roads.gates]
    drawn += [_years(scale), _names(roads.gates, left, scale)]
    drawn.append(_days(roads.gates, right, scale))
    drawn.append(text(_LEFT_RAIL, 20, "as things are", "t-soft", "middle"))
    drawn.append(text(_RIGHT_RAIL, 20, "in the copy", "t-soft", "middle"))
    for number, gate in enumerate(lost):
        where = "in the copy" if gate.before else "as things are"
        words = shortened(f"{gate.title}: never {where}", _WIDTH)
        drawn.append(text(0, foot + 18 * (number + 1), words, "t-ox"))
    height = foot + 18 * len(lost) + 6
    return picture(_WIDTH, height, roads.sentence, *drawn, class_="narrow")


@dataclass(frozen=True, slots=True)
class _Scale:
    """How days lie down the rails."""

    first: date
    last: date
    px: float

    @classmethod
    def over(cls, days: Sequence[date]) -> _Scale:
        first, last = min(days), max(days)
        span = max(1, (last - first).days)
        return cls(first, last, min(_MOST, max(_LEAST, span * _PX_A_DAY)) / span)

    def y(self, day: date) -> float:
        return _HEAD + (day - self.first).days * self.px

    @property
    def foot(self) -> float:
        return self.y(self.last)


def _rail(x: float, scale: _Scale) -> Svg:
    """A rail with a tick at the beginning of each month, a longer one at each year's."""
    drawn = [path(f"M{x:g} {_HEAD - 8:g}V{scale.foot + 8:g}", "l")]
    at = (scale.first.replace(day=1) + timedelta(days=32)).replace(day=1)
    inwards = 1 if x == _LEFT_RAIL else -1
    while at <= scale.last:
        y, long = scale.y(at), at.month == 1
        drawn.append(path(f"M{x:g} {y:g}h{inwards * (12 if long else 5):g}", "l-thin"))
        at = (at + timedelta(days=32)).replace(day=1)
    return joined(*drawn)


def _years(scale: _Scale) -> Svg:
    middle = (_LEFT_RAIL + _RIGHT_RAIL) / 2
    first_days = (date(year, 1, 1) for year in range(scale.first.year + 1, scale.last.year + 1))
    return joined(
        *(
            text(middle, scale.y(day) + 5, f"{month(day)} {day.year}", "t-soft halo", "middle")
            for day in first_days
        )
    )


def _joint(gate: GatePassed, scale: _Scale) -> Svg:
    drawn = []
    if gate.before and gate.after:
        a, b = scale.y(gate.before), scale.y(gate.after)
        drawn.append(path(f"M{_LEFT_RAIL:g} {a:g}L{_RIGHT_RAIL:g} {b:g}", "l"))
    if gate.before:
        drawn.append(circle(_LEFT_RAIL, scale.y(gate.before), _MARK, "f-ink"))
    if gate.after:
        drawn.append(circle(_RIGHT_RAIL, scale.y(gate.after), _MARK, "f-ink"))
    return joined(*drawn)


def _names(gates: Sequence[GatePassed], places: Sequence[float], scale: _Scale) -> Svg:
    """Name each gate of the left rail, with its day, the names far enough apart to read."""
    drawn = []
    days = sorted(((one.before, one.title) for one in gates if one.before), key=lambda one: one[0])
    for (day, title), y in zip(days, places, strict=True):
        at = _LEFT_RAIL - _LEAD - 4
        drawn.append(_leader(_LEFT_RAIL - _MARK, scale.y(day), _LEFT_RAIL - _LEAD, y))
        drawn.append(text(at, y - 2, shortened(title, _NAMES, slab=True), "t-name", "end"))
        drawn.append(text(at, y + 14, f"{short_day(day)} {day.year}", "t-soft", "end"))
    return joined(*drawn)


def _days(gates: Sequence[GatePassed], places: Sequence[float], scale: _Scale) -> Svg:
    drawn = []
    days = sorted(one.after for one in gates if one.after)
    for day, y in zip(days, places, strict=True):
        at = _RIGHT_RAIL + _LEAD
        drawn.append(_leader(_RIGHT_RAIL + _MARK, scale.y(day), at, y))
        drawn.append(text(at + 4, y - 2, short_day(day), "t-name"))
        drawn.append(text(at + 4, y + 14, str(day.year), "t-soft"))
    return joined(*drawn)


def _leader(x: float, y: float, to_x: float, to_y: float) -> Svg:
    return path(f"M{x:g} {y:g}L{to_x:g} {to_y:g}", "l-thin")


def _spread(places: Sequence[float]) -> list[float]:
    """Move labels down until none stands on another.

    Examples
    --------
    >>> _spread([100.0, 0.0, 10.0])
    [0.0, 40.0, 100.0]
    """
    spread: list[float] = []
    for place in sorted(places):
        spread.append(max(place, spread[-1] + _APART) if spread else place)
    return spread


def _said(day: date | None) -> str:
    return f"{short_day(day)} {day.year}" if day else "never"
