"""The two-force pedal test: how much air is trapped, told from clearance and from what flexes.

A light push and a firm one, each with its travel. Clearance that the light push has closed costs
both the same; air is nearly squeezed flat by the first few bar; what flexes grows with the push.
Each explanation alone leaves its own pair of marks, and those that fit what was measured are
named. Where more than one fits, the test says so, and what would part them. A firm pedal is no
proof of a tight one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bareshell.brakes.measured import of_kind
from bareshell.brakes.pedal_expected import Between, Expected
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeReading, ReadingKind

__all__ = [
    "CAUTIONS",
    "Explained",
    "PedalResult",
    "Pushes",
    "pedal_result",
    "pushes_of",
]

CAUTIONS: Final = (
    (
        "A pedal that sinks under a steady push, or meets the floor, is a brake that does not "
        "hold: the car stays where it is until the cause is found."
    ),
    (
        "Measure with the engine off and the servo exhausted, unless it is said otherwise; press "
        "with a spring scale or a load cell, square to the pad."
    ),
)
"""What stands beside the test."""

CauseName = Literal["air", "clearance", "flex"]

_ATMOSPHERE_PA: Final = 101_325.0
_READ_TO_M: Final = 0.001  # a rule beside the pad; common practice, no source


@dataclass(frozen=True, slots=True)
class Pushes:
    """The two pushes as measured.

    Parameters
    ----------
    light_force_n, firm_force_n : float
        Forces on the pad. [N]
    light_travel_m, firm_travel_m : float
        Travels of the pad. [m]
    pumped_travel_m : float or None
        Travel at the firm force after some quick strokes. [m]
    floor_m : float or None
        Travel to the floor. [m]
    read_to_m : float
        How far a travel may be off. [m]
    """

    light_force_n: float
    firm_force_n: float
    light_travel_m: float
    firm_travel_m: float
    pumped_travel_m: float | None = None
    floor_m: float | None = None
    read_to_m: float = _READ_TO_M

    def __post_init__(self) -> None:
        """Refuse a pair that cannot be."""
        if not self.firm_force_n > self.light_force_n:
            raise BadInput(
                "force of the firm push",
                "is not above that of the light one",
                "press lightly first, then firmly",
            )
        if self.firm_travel_m < self.light_travel_m - 2.0 * self.read_to_m:
            raise BadInput(
                "travel of the firm push",
                "is below that of the light one",
                "read both from the pedal at rest; pump it no more between the two",
            )


@dataclass(frozen=True, slots=True)
class Explained:
    """One cause by itself, and whether it explains both pushes.

    Parameters
    ----------
    name : {"air", "clearance", "flex"}
        Which.
    fits : bool
        Whether some amount of it explains both.
    amount : Between or None
        That amount: air in cubic metres, clearance as metres of pedal, flex as times what was
        expected. None when none fits.
    words : str
        The same to a person.
    """

    name: CauseName
    fits: bool
    amount: Between | None
    words: str


@dataclass(frozen=True, slots=True)
class PedalResult:
    """What the two pushes say.

    Parameters
    ----------
    light_over_m, rise_over_m : Between
        Travel beyond what was expected: at the light push, and of the rise to the firm one. [m]
    causes : tuple of Explained
        Each cause by itself.
    as_expected : bool
        Whether both lie within what was expected.
    air_m3 : Between
        Air that the two pushes leave room for, clearance left open and nothing softer than was
        expected. [m3]
    air_pedal_m : Between
        What that air costs at the pad on the firm push. [m]
    least_air_seen_m3 : float
        Less than this the test cannot see. [m3]
    words : str
        What it says, in a sentence or two.
    next_step : str
        What would tell more, or what to do.
    """

    light_over_m: Between
    rise_over_m: Between
    causes: tuple[Explained, ...]
    as_expected: bool
    air_m3: Between
    air_pedal_m: Between
    least_air_seen_m3: float
    words: str
    next_step: str


def pushes_of(reading: BrakeReading) -> Pushes:
    """Take the two pushes from what was kept.

    Parameters
    ----------
    reading : BrakeReading
        Of kind ``pedal test``.

    Raises
    ------
    BadInput
        When the reading is of another kind, or one of the four figures is missing.
    """
    of_kind(reading, ReadingKind.PEDAL_TEST)
    figures = reading.figures
    return Pushes(
        _asked(figures, "first_force_n", "lighter force"),
        _asked(figures, "second_force_n", "heavier force"),
        _asked(figures, "first_travel_m", "travel at the lighter force"),
        _asked(figures, "second_travel_m", "travel at the heavier force"),
        figures.get("pumped_travel_m"),
        figures.get("floor_m"),
    )


def _asked(figures: Mapping[str, float], name: str, words: str) -> float:
    if name not in figures:
        raise BadInput(words, "was not read", "the test needs both forces and both travels")
    return figures[name]


# ------------------------------------------------------------------------ what it says


def pedal_result(pushes: Pushes, expected: Expected) -> PedalResult:
    """Say what two pushes tell of air, clearance and flex.

    Parameters
    ----------
    pushes : Pushes
        As measured.
    expected : Expected
        What they should take without any air.

    Returns
    -------
    PedalResult
        With what fits, and what would tell more.

    Raises
    ------
    BadInput
        When the pedal stood on the floor: nothing can be told then.

    Examples
    --------
    >>> expected = Expected(
    ...     Between(0.030, 0.032),
    ...     Between(0.020, 0.023),
    ...     Between(2e4, 4e4),
    ...     Between(60e5, 70e5),
    ...     Between(15e3, 16e3),
    ...     Between(0.001, 0.002),
    ...     Between(0.021, 0.025),
    ... )
    >>> pedal_result(Pushes(40.0, 350.0, 0.043, 0.064), expected).words
    'More clearance than was expected explains both pushes, and nothing else does.'
    """
    floor = expected.floor_m if pushes.floor_m is None else pushes.floor_m
    if pushes.firm_travel_m >= floor - pushes.read_to_m:
        raise BadInput(
            "travel of the firm push",
            "is that of the floor: the pedal stood on it, and nothing can be told of air",
            "adjust and bleed first, then test again",
        )
    read = pushes.read_to_m
    light = Between(
        pushes.light_travel_m - read - expected.light_m.high,
        pushes.light_travel_m + read - expected.light_m.low,
    )
    rise = pushes.firm_travel_m - pushes.light_travel_m
    over = Between(
        rise - 2.0 * read - expected.rise_m.high, rise + 2.0 * read - expected.rise_m.low
    )
    squeezed = _squeezed(expected)
    causes = (
        _by_air(light, over, expected, squeezed),
        _by_clearance(light, over, expected),
        _by_flex(light, over, expected),
    )
    fine = light.holds(0.0) and over.holds(0.0)
    per_m3 = Between(
        expected.pad_m_per_m3.low * squeezed.low, expected.pad_m_per_m3.high * squeezed.high
    )
    air = Between(max(over.low, 0.0) / per_m3.high, max(over.high, 0.0) / per_m3.low)
    pad = Between(air.low * expected.pad_m_per_m3.low, air.high * expected.pad_m_per_m3.high)
    words, next_step = _said((light, over, air), causes, fine, pushes, expected)
    seen = 2.0 * read / per_m3.low
    return PedalResult(light, over, causes, fine, air, pad, seen, words, next_step)


def _share(pressure_pa: float) -> float:
    """Share of trapped air's volume that a pressure squeezes away."""
    return pressure_pa / (pressure_pa + _ATMOSPHERE_PA)


def _squeezed(expected: Expected) -> Between:
    """What share of the air is squeezed away between the two pushes."""
    low = _share(expected.firm_pa.low) - _share(expected.light_pa.high)
    high = _share(expected.firm_pa.high) - _share(expected.light_pa.low)
    if not low > 0.0:
        raise BadInput(
            "pressures of the two pushes",
            "lie too close together to tell air from anything",
            "press more lightly the first time, and more firmly the second",
        )
    return Between(low, high)


def _common(one: Between, other: Between) -> Between | None:
    low, high = max(one.low, other.low, 0.0), min(one.high, other.high)
    return Between(low, high) if low <= high else None


def _by_air(light: Between, over: Between, expected: Expected, squeezed: Between) -> Explained:
    rate = expected.pad_m_per_m3
    at_light = Between(
        rate.low * _share(expected.light_pa.low), rate.high * _share(expected.light_pa.high)
    )
    between = Between(rate.low * squeezed.low, rate.high * squeezed.high)
    amount = _common(_divided(light, at_light), _divided(over, between))
    if amount is None:
        return Explained("air", fits=False, amount=None, words="air alone does not explain both")
    said = f"{_ml(amount.low)} to {_ml(amount.high)} ml of air would explain both"
    return Explained("air", fits=True, amount=amount, words=said)


def _by_clearance(light: Between, over: Between, expected: Expected) -> Explained:
    closed = expected.closed_at_light
    later = Between(1.0 - closed.high, 1.0 - closed.low)
    amount = _common(_divided(light, closed), _divided(over, later))
    if amount is None:
        words = "clearance alone does not explain both: it would cost both pushes the same"
        return Explained("clearance", fits=False, amount=None, words=words)
    said = f"{_mm(amount.low)} to {_mm(amount.high)} mm of pedal more in clearance or free play"
    return Explained("clearance", fits=True, amount=amount, words=f"{said} would explain both")


def _by_flex(light: Between, over: Between, expected: Expected) -> Explained:
    rise = Between(
        max(expected.flex_firm_m.low - expected.flex_light_m.low, 0.0),
        max(expected.flex_firm_m.high - expected.flex_light_m.high, 0.0),
    )
    more = _common(_divided(light, expected.flex_light_m), _divided(over, rise))
    if more is None:
        words = "hoses and parts that give more do not explain both"
        return Explained("flex", fits=False, amount=None, words=words)
    amount = Between(1.0 + more.low, 1.0 + more.high)
    said = f"hoses and parts giving {amount.low:.1f} to {amount.high:.1f} times what was expected"
    return Explained("flex", fits=True, amount=amount, words=f"{said} would explain both")


def _divided(excess: Between, rate: Between) -> Between:
    """Amounts whose effect can lie within an excess, for any rate within its own range."""
    low = max(excess.low, 0.0)
    least = low / rate.high if rate.high > 0.0 else (0.0 if low == 0.0 else float("inf"))
    if excess.high < 0.0:
        return Between(0.0, -1.0)
    most = excess.high / rate.low if rate.low > 0.0 else float("inf")
    return Between(least, most)


_NAMED: Final[Mapping[str, str]] = {
    "air": "Trapped air explains",
    "clearance": "More clearance than was expected explains",
    "flex": "Hoses or parts that give more than was expected explain",
}
_DO: Final[Mapping[str, str]] = {
    "air": "Bleed again, dead legs and blanked ends first, and repeat the test.",
    "clearance": "Adjust shoes and free play, look for worn linings and loose wheel bearings.",
    "flex": (
        "Look for an old hose that swells, a caliper loose on its mounting, tapered pads or a "
        "bulkhead that gives."
    ),
}


def _said(
    over: tuple[Between, Between, Between],
    causes: tuple[Explained, ...],
    fine: bool,  # noqa: FBT001
    pushes: Pushes,
    expected: Expected,
) -> tuple[str, str]:
    light, rise, air = over
    if fine:
        most = causes[0].amount
        room = f" There is room for {_ml(most.high)} ml of air at the most." if most else ""
        return f"Both pushes are as expected.{room}", "Keep the figures for 50 and 500 miles."
    if light.high < 0.0 or rise.high < 0.0:
        words = "The pedal travels less than was expected: something entered is too soft or wide."
        return words, "Look at clearances, hoses and master cylinder as they were entered."
    fitting = [each for each in causes if each.fits]
    if pushes.pumped_travel_m is not None and len(fitting) > 1:
        rose = pushes.firm_travel_m - pushes.pumped_travel_m > 2.0 * pushes.read_to_m
        if not rose:
            # What pumping does not change is no clearance (common practice, no source).
            fitting = [each for each in fitting if each.name != "clearance"]
    if len(fitting) == 1:
        only = fitting[0].name
        return f"{_NAMED[only]} both pushes, and nothing else does.", _DO[only]
    if not fitting:
        mixed = ""
        if air.low > 0.0:
            mixed = (
                f" If nothing gives more than was expected, {_ml(air.low)} to {_ml(air.high)} ml "
                "of air and clearance together do."
            )
        return (
            f"No single cause explains both pushes: more than one is at work.{mixed}",
            "Adjust the clearances first, bleed, then repeat the test; what is left is flex.",
        )
    return f"The two pushes cannot tell {_listed(fitting)} apart.", _to_part(expected)


def _listed(fitting: Sequence[Explained]) -> str:
    names = [each.name for each in fitting]
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _to_part(expected: Expected) -> str:
    """What would tell more, where two causes leave the same marks."""
    if expected.closed_at_light.low < 0.95:
        return (
            "To part them, press a little more firmly the first time: the clearances were not all "
            "closed."
        )
    if expected.light_pa.high > 1.5 * _ATMOSPHERE_PA:
        return (
            "To part them, press so lightly the first time that linings only just touch, and put "
            "a gauge on a bleed screw: air shows at the first bar."
        )
    return "To part them, measure the clearances themselves, and repeat with a firmer second push."


def _ml(volume_m3: float) -> str:
    return f"{1e6 * volume_m3:.1f}"


def _mm(length_m: float) -> str:
    return f"{1e3 * length_m:.0f}"
