"""The pieces of what is said of heat and fluid: plain figures with their ranges and words."""

from __future__ import annotations

from dataclasses import dataclass, field

from bareshell.brakes.fluid_state import FluidState
from bareshell.brakes.heat import HeatHistory


@dataclass(frozen=True, slots=True)
class LumpPeak:
    """The hottest that one piece of a brake gets.

    Parameters
    ----------
    key : str
        ``face``, ``metal``, ``lining``, ``body`` or ``fluid``.
    words : str
        What it is.
    temperature_c : float
        With every figure as entered or as usual. [degC]
    low_c, high_c : float
        The least and most among the combinations that were drawn from the ranges. [degC]
    at_s : float
        When, since the course began. [s]
    """

    key: str
    words: str
    temperature_c: float
    low_c: float
    high_c: float
    at_s: float


@dataclass(frozen=True, slots=True)
class WheelHeat:
    """One wheel's brake on a course.

    Parameters
    ----------
    share : float
        Its share of what the brakes take from the car. [-]
    energy_j : float
        Heat that came into it. [J]
    lumps : tuple of LumpPeak
        Rubbed face, disc or drum, linings, caliper or cylinder, fluid.
    grown_m : float or None
        How much the radius of a drum has grown at its hottest; None for a disc. [m]
    """

    wheel: str
    title: str
    form: str
    share: float
    energy_j: float
    lumps: tuple[LumpPeak, ...]
    grown_m: float | None

    def lump(self, key: str) -> LumpPeak:
        """Return one lump by its key."""
        return next(one for one in self.lumps if one.key == key)


@dataclass(frozen=True, slots=True)
class CourseHeat:
    """What the brakes are put through, and how hot they get on it and standing after it.

    Parameters
    ----------
    key : str
        ``stop``, ``fade`` or ``descent``.
    words : str
        What is driven.
    driven_s : float
        How long, before the car stands. [s]
    wheels : tuple of WheelHeat
        Empty when it was not worked out.
    hottest_wheel : str
        Where the fluid gets hottest.
    hottest_fluid : LumpPeak or None
        How hot.
    when : str
        When the fluid is hottest, in words.
    margin_low_k, margin_high_k : float or None
        From the hottest fluid to boiling: the worst of temperatures and boiling points together,
        and the best; below zero it boils. None when no boiling point is known. [K]
    margin : str
        How far the fluid stays from boiling, in words.
    cite, mark : str
        Where the course is prescribed, if anywhere, and how far that was read.
    because : str
        Why it was not worked out.
    """

    key: str
    words: str
    driven_s: float = 0.0
    wheels: tuple[WheelHeat, ...] = ()
    hottest_wheel: str = ""
    hottest_fluid: LumpPeak | None = None
    when: str = ""
    margin_low_k: float | None = None
    margin_high_k: float | None = None
    margin: str = ""
    cite: str = ""
    mark: str = ""
    because: str = ""
    history: HeatHistory | None = field(default=None, metadata={"twin": False})


@dataclass(frozen=True, slots=True)
class FluidToday:
    """The fluid as it is taken to be today.

    Parameters
    ----------
    age_years : float or None
        Since the first fill; None when nobody knows. [year]
    water_low, water_usual, water_high : float or None
        Share by weight. [-]
    boils_low_c, boils_usual_c, boils_high_c : float or None
        Boiling point. [degC]
    how, mark, words : str
        What it rests on, how far that was read, and a sentence.
    asks : tuple of str
        What somebody would do to know it better.
    """

    grade: str
    base: str
    age_years: float | None
    water_low: float | None
    water_usual: float | None
    water_high: float | None
    boils_low_c: float | None
    boils_usual_c: float | None
    boils_high_c: float | None
    how: str
    mark: str
    words: str
    asks: tuple[str, ...]
    state: FluidState | None = field(default=None, metadata={"twin": False})


@dataclass(frozen=True, slots=True)
class NeededFriction:
    """How much of their friction all linings must keep for a yardstick to be met."""

    yardstick: str
    words: str
    share: float


@dataclass(frozen=True, slots=True)
class HotBrakes:
    """What one push still does when linings have lost friction and drums have grown.

    Parameters
    ----------
    pedal_force_n : float
        The push. [N]
    cold_m_s2, hot_m_s2, low_m_s2, high_m_s2 : float
        Deceleration cold, hot, and the range that hot friction spans, as if no tyre slid. [m/s2]
    cold_travel_m, hot_travel_m, floor_m : float or None
        Travel of the pedal, and where it meets the floor; None when it cannot be worked out. [m]
    on_floor : bool or None
        Whether the pedal meets the floor hot.
    needed : tuple of NeededFriction
        For each yardstick about hot brakes that was picked.
    """

    pedal_force_n: float
    cold_m_s2: float
    hot_m_s2: float
    low_m_s2: float
    high_m_s2: float
    cold_travel_m: float | None
    hot_travel_m: float | None
    floor_m: float | None
    on_floor: bool | None
    needed: tuple[NeededFriction, ...]
