"""The fluid as it is now: its water, the span of its boiling point, and the margin to the heat.

Age runs from the first fill, whether the car has moved or not. What publications say of water and
boiling points disagrees, so everything is a span; a strip, a refractometer or a boiling tester
reads what is in the car and narrows it. Age proves nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import reduce
from types import MappingProxyType
from typing import Final, Literal

from bareshell.calc import fluid
from bareshell.calc.values import Value, least, most
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Part, PartKind
from bareshell.sources import Mark

__all__ = [
    "CAUTIONS",
    "PUBLISHED_POINTS",
    "FluidState",
    "Margin",
    "Span",
    "age_years",
    "boiling_curve",
    "fluid_part",
    "fluid_state",
    "margin_to",
]

CAUTIONS: Final = (
    (
        "Glycol fluid strips paint at once and harms eyes: goggles on, wings covered, water at "
        "hand. Silicone does not, and does not mix with it."
    ),
    (
        "Fluid from an opened can takes up water on the shelf. Use a fresh can, and never what "
        "was bled out."
    ),
    (
        "A margin worked out here rests on published spans and on what heat was taken to do. "
        "Where the pedal grows long or soft, stop, let it cool and look."
    ),
)
"""What stands beside every boiling point."""

_DAYS_OF_YEAR: Final = 365.25
_TESTER_ERROR_K: Final = 5.0  # of a boiling tester, common practice, no source
_WATER_ERROR: Final = 0.005  # of a strip or refractometer, common practice, no source
_GRADES: Final = ("DOT 3", "DOT 4", "DOT 5", "DOT 5.1")

How = Literal["a sample was boiled", "water was measured", "from its age", "nothing is known"]


@dataclass(frozen=True, slots=True)
class Span:
    """Least, usual and most."""

    low: Value
    usual: Value
    high: Value


@dataclass(frozen=True, slots=True)
class FluidState:
    """The fluid as it is taken to be.

    Parameters
    ----------
    grade : str
        As entered; ``unknown`` when nobody knows.
    base : str
        ``glycol``, ``silicone`` or ``mineral``; empty when it is not known.
    age_years : float or array or None
        Since the first fill; None when it is not known. [year]
    water : Span or None
        Share by weight; None for a base that takes up none, or of which nothing was published. [-]
    boiling_c : Span or None
        Boiling point; None when there is no published figure to take it from. [degC]
    how : str
        What it rests on.
    mark : str
        How far the figures behind it were read.
    words : str
        What to say of it, in a sentence.
    asks : tuple of str
        What somebody would do to know it better.
    """

    grade: str
    base: str
    age_years: Value | None
    water: Span | None
    boiling_c: Span | None
    how: How
    mark: Mark
    words: str
    asks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Margin:
    """How far the hottest fluid stays below boiling.

    Parameters
    ----------
    low_k, high_k : float or array
        From the least boiling point and from the most; below zero it boils. [K]
    words : str
        What to say of it, for the first of many.
    """

    low_k: Value
    high_k: Value
    words: str


def fluid_part(system: BrakeSystem) -> Part | None:
    """Return the part that says what fluid is in the brakes; None when nobody entered one."""
    return next(iter(system.of_kind(PartKind.FLUID)), None)


def age_years(part: Part, as_of: date | None) -> float | None:
    """Say how old the fluid is: from the day of its first fill, or as somebody stated.

    Parameters
    ----------
    part : Part
        The fluid.
    as_of : date or None
        Today, handed in.

    Returns
    -------
    float or None
        Years; None when nobody knows. [year]

    Raises
    ------
    BadInput
        When the day of the first fill is no date, or has not come yet.

    Examples
    --------
    >>> filled = Part("fluid", "fluid", PartKind.FLUID, choices={"filled_on": "2024-05-01"})
    >>> round(age_years(filled, date(2026, 11, 1)), 1)
    2.5
    """
    filled = part.choices.get("filled_on", "").strip()
    if filled and as_of is not None:
        try:
            day = date.fromisoformat(filled)
        except ValueError:
            raise BadInput(
                "day of the first fill", f"'{filled}' is no date", "write it as 2026-11-25"
            ) from None
        if day > as_of:
            raise BadInput(
                "day of the first fill",
                f"{filled} has not come yet",
                "leave it open until the fluid is in",
            )
        return (as_of - day).days / _DAYS_OF_YEAR
    stated = part.figures.get("age_years")
    return None if stated is None else stated.value


def fluid_state(
    part: Part | None,
    as_of: date | None = None,
    *,
    water_share: Value | None = None,
    boiling_c: Value | None = None,
) -> FluidState:
    """Say what the fluid is like now, as far as it can be known.

    What was measured counts before age: a sample that was boiled, then water that was read.

    Parameters
    ----------
    part : Part or None
        The fluid; None when nobody entered one.
    as_of : date or None
        Today, for its age.
    water_share, boiling_c : float or array, optional
        A newer measurement, or samples, in place of the part's own. [-, degC]

    Returns
    -------
    FluidState
        With spans where publications disagree.

    Raises
    ------
    BadInput
        When the day of the first fill is no date.

    Examples
    --------
    >>> dot4 = Part("fluid", "fluid", PartKind.FLUID, choices={"grade": "DOT 4"})
    >>> state = fluid_state(dot4, water_share=0.02)
    >>> round(state.boiling_c.low), round(state.boiling_c.high)
    (160, 232)
    """
    grade = "unknown" if part is None else part.choices.get("grade", "unknown")
    age = None if part is None else age_years(part, as_of)
    stated = {} if part is None else {name: it.value for name, it in part.figures.items()}
    measured = boiling_c if boiling_c is not None else stated.get("boiling_c")
    water = water_share if water_share is not None else stated.get("water_share")
    base = "mineral" if grade == "mineral" else ""
    if grade in fluid.FLUID_GRADES:
        base = fluid.FLUID_GRADES[grade].base
    if measured is not None:
        return _boiled(grade, base, age, water, measured)
    if base == "mineral":
        return FluidState(
            grade,
            base,
            age,
            None,
            None,
            "nothing is known",
            "common practice, no source",
            "No published boiling point of mineral fluid was read: its maker's figure counts.",
            ("boil a sample in a tester, or look for the maker's figure",),
        )
    how: How = "water was measured" if water is not None else "from its age"
    if water is None and age is None and base != "silicone":
        how = "nothing is known"
    return _by_water(grade, base, age, _water(base, age, water), how)


def _boiled(
    grade: str, base: str, age: Value | None, water: Value | None, measured: Value
) -> FluidState:
    span = Span(measured - _TESTER_ERROR_K, measured, measured + _TESTER_ERROR_K)
    wet = None if water is None else _water(base, age, water)
    words = f"A sample boiled at {_first(measured):.0f} C; a tester may be some 5 C off."
    how: How = "a sample was boiled"
    return FluidState(grade, base, age, wet, span, how, "common practice, no source", words)


def _water(base: str, age: Value | None, water: Value | None) -> Span:
    """Water as measured, as its age suggests, or anything that has been published."""
    import numpy as np

    if water is not None and base == "silicone":
        return Span(water, water, water)
    if water is not None:
        low = np.maximum(np.asarray(water) - _WATER_ERROR, 0.0)
        return Span(_plain(low), water, water + _WATER_ERROR)
    if base == "silicone":
        return Span(0.0, 0.0, 0.0)
    if age is None:
        return Span(0.0, 0.035, 0.08)
    found = fluid.water_share_span(age)
    return Span(found.low, found.usual, found.high)


def _by_water(grade: str, base: str, age: Value | None, water: Span, how: How) -> FluidState:
    import numpy as np

    known = grade in fluid.FLUID_GRADES
    grades = (grade,) if known else _GRADES
    wettest = [fluid.boiling_point_span(water.high, each).low_c for each in grades]
    driest = [fluid.boiling_point_span(water.low, each).high_c for each in grades]
    low, high = reduce(least, wettest), reduce(most, driest)
    entry = fluid.FLUID_GRADES[grades[0]]
    if base == "silicone":
        usual: Value = entry.dry_c
    else:
        usual = fluid.boiling_point(water.usual, entry.dry_c, entry.wet_c)
    asks = []
    if not known:
        asks.append("find out what fluid is in it; colour never proves it")
    if how != "water was measured":
        asks.append("read its water with a strip or a refractometer, or boil a sample")
    words = _sentence(grade, base, how, age)
    mark: Mark = entry.mark if known else "read second-hand"
    boiling = Span(_plain(low), _plain(np.clip(usual, low, high)), _plain(high))
    return FluidState(grade, base, age, water, boiling, how, mark, words, tuple(asks))


def _sentence(grade: str, base: str, how: How, age: Value | None) -> str:
    if base == "silicone":
        return (
            "Silicone takes up hardly any water; what gets in lies free at the lowest point, in "
            "the calipers, and boils at 100 C."
        )
    named = grade if grade != "unknown" else "Fluid of unknown grade, taken as any of the DOT ones"
    if how == "water was measured":
        return f"{named}, with the water that was measured."
    if age is not None:
        return (
            f"{named}, {_first(age):.1f} years since the first fill. Published figures of water "
            "disagree widely: the span holds them all."
        )
    return f"{named}, of unknown age: the span holds everything from new to very wet."


def margin_to(state: FluidState, hottest_fluid_c: Value) -> Margin | None:
    """Say how far the hottest fluid stays below boiling.

    Parameters
    ----------
    state : FluidState
        The fluid.
    hottest_fluid_c : float or array
        The highest temperature that it reaches, the rest after the stop included. [degC]

    Returns
    -------
    Margin or None
        None when no boiling point is known.

    Examples
    --------
    >>> dot4 = Part("fluid", "fluid", PartKind.FLUID, choices={"grade": "DOT 4"})
    >>> margin_to(fluid_state(dot4, water_share=0.02), 150.0).words
    'Stays 10 to 82 C below boiling.'
    """
    if state.boiling_c is None:
        return None
    low: Value = state.boiling_c.low - hottest_fluid_c
    high = state.boiling_c.high - hottest_fluid_c
    worst, best = _first(low), _first(high)
    if worst >= 0.0:
        words = f"Stays {worst:.0f} to {best:.0f} C below boiling."
    elif best < 0.0:
        words = f"Boils: {-best:.0f} to {-worst:.0f} C above its boiling point."
    else:
        words = (
            f"May boil: between {-worst:.0f} C above its boiling point and {best:.0f} C below it, "
            "by what is published."
        )
    return Margin(low, high, words)


def boiling_curve(grade: str, points: int = 33) -> tuple[tuple[float, float, float], ...]:
    """Give the span of the boiling point over the water in a fluid, for a picture.

    Parameters
    ----------
    grade : str
        A grade that has published figures.
    points : int
        How many, from none to 8 per cent of water.

    Returns
    -------
    tuple of (float, float, float)
        Water by weight, least and most boiling point. [-, degC, degC]

    Raises
    ------
    BadInput
        When there is no such grade.

    Examples
    --------
    >>> boiling_curve("DOT 3", 2)[0][0], boiling_curve("DOT 3", 2)[1][0]
    (0.0, 0.08)
    """
    rows = []
    for step in range(points):
        water = 0.08 * step / (points - 1)
        span = fluid.boiling_point_span(water, grade)
        rows.append((water, float(span.low_c), float(span.high_c)))
    return tuple(rows)


PUBLISHED_POINTS: Final = MappingProxyType(
    {0.01: 187.0, 0.02: 160.0, 0.03: 145.0, 0.037: 140.0, 0.06: 118.0, 0.08: 100.0}
)
"""Water and boiling point of DOT 3 as published in the trade (read second-hand), for a picture."""


def _first(value: Value) -> float:
    import numpy as np

    return float(np.ravel(value)[0])


def _plain(value: object) -> Value:
    import numpy as np

    array = np.asarray(value, dtype=np.float64)
    return float(array) if array.ndim == 0 else array
