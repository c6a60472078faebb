"""The two-force pedal test: how hard to press, what to expect, what was measured, what changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bareshell.brakes.figures import Figures, Gathered
from bareshell.brakes.pedal_expected import Expected, expected_of, light_force
from bareshell.brakes.pedal_test import PedalResult, Pushes, pedal_result, pushes_of
from bareshell.brakes.since_then import since_then
from bareshell.brakes.solve import solve
from bareshell.brakes.state import WHOLE, ServoDead, State
from bareshell.errors import BareshellError
from bareshell.model.brake import BrakeReading, BrakeSystem, PartKind, ReadingKind

__all__ = ["PedalAsked", "PedalCause", "PedalTold", "PedalView", "pedal_view"]

FIRM_N: Final = 300.0
"""The firm push that is asked for: well short of what hurts a seal (common practice, no source)."""

BEFORE: Final = "before the road"
_SOFT_FORCES_N: Final = (5.0, 200.0, 79)
_WITH_VACUUM: Final = "with vacuum"


@dataclass(frozen=True, slots=True)
class PedalAsked:
    """What to press, and what the pedal should do with no air in it, least and most.

    Parameters
    ----------
    light_force_n, firm_force_n : float
        The two pushes. [N]
    light_m, rise_m : tuple of two float
        Travel at the light push, and how much more the firm one takes. [m]
    floor_m : float or None
        Travel to the floor. [m]
    """

    light_force_n: float
    firm_force_n: float
    light_m: tuple[float, float]
    rise_m: tuple[float, float]
    floor_m: float | None


@dataclass(frozen=True, slots=True)
class PedalCause:
    """One cause by itself, and whether it explains both pushes."""

    name: str
    fits: bool
    words: str


@dataclass(frozen=True, slots=True)
class PedalTold:
    """One test and what it tells.

    Parameters
    ----------
    when : str
        Of those to be compared: ``before the road`` and so on; empty when nobody said.
    light_force_n, firm_force_n, light_m, firm_m : float or None
        As measured. [N], [m]
    words, next_step : str
        What it says, and what to do or what would tell more.
    causes : tuple of PedalCause
        Each cause by itself.
    air_m3, air_pedal_m : tuple of two float or None
        Air that the pushes leave room for, and what it costs at the pad; None when nothing can be
        told. [m3], [m]
    least_seen_m3 : float or None
        Less air than this the test cannot see. [m3]
    since, since_next : str
        The same of the change since the test before the road; empty when there is none before it.
    """

    id: str
    at: datetime
    when: str
    light_force_n: float | None
    firm_force_n: float | None
    light_m: float | None
    firm_m: float | None
    words: str
    next_step: str
    causes: tuple[PedalCause, ...] = ()
    air_m3: tuple[float, float] | None = None
    air_pedal_m: tuple[float, float] | None = None
    least_seen_m3: float | None = None
    since: str = ""
    since_next: str = ""
    as_expected: bool = False

    @property
    def only_air(self) -> bool:
        """Whether trapped air explains both pushes, and nothing else does."""
        return [one.name for one in self.causes if one.fits] == ["air"] and not self.as_expected


@dataclass(frozen=True, slots=True)
class PedalView:
    """The pedal test of brakes.

    Parameters
    ----------
    asked : PedalAsked or None
        What to press and expect; None while figures for it are missing.
    because : str
        Why nothing can be expected; empty when it can.
    tests : tuple of PedalTold
        What was measured, newest first.
    """

    asked: PedalAsked | None
    because: str
    tests: tuple[PedalTold, ...]


def pedal_view(
    system: BrakeSystem,
    gathered: Gathered,
    combinations: Figures,
    readings: Iterable[BrakeReading] = (),
) -> PedalView:
    """Lay the pedal test of brakes out.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    gathered : Gathered
        Its figures.
    combinations : mapping of str to float or array
        The same figures, as combinations of what is not known exactly: they give the ranges.
    readings : iterable of BrakeReading
        What was measured, newest first.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.trust import draw
    >>> car = small_car()
    >>> figures = gather(car)
    >>> view = pedal_view(car, figures, draw(car, figures, count=50).figures)
    >>> view.asked.firm_force_n, view.asked.light_m[0] < view.asked.light_m[1]
    (300.0, True)
    """
    tests = [one for one in readings if one.kind is ReadingKind.PEDAL_TEST]
    asked, because = None, ""
    try:
        asked = _asked(system, gathered, combinations)
    except BareshellError as error:
        because = error.describe()
    first = _first(tests)
    told = tuple(_told(system, combinations, one, first) for one in tests)
    return PedalView(asked, because, told)


def _exhausted(system: BrakeSystem) -> State:
    """The servo gives nothing: with vacuum the pedal tells nothing of what is behind it."""
    servos = system.of_kind(PartKind.SERVO, PartKind.REMOTE_SERVO)
    return State(frozenset({ServoDead()})) if servos else WHOLE


def _asked(system: BrakeSystem, gathered: Gathered, combinations: Figures) -> PedalAsked:
    import numpy as np

    state = _exhausted(system)
    airless = {**gathered.figures, "fluid.air_m3": 0.0}
    pushed = solve(system, airless, np.linspace(*_SOFT_FORCES_N), "driver only", state=state)
    light = light_force(pushed) or 50.0
    expected = _expected(system, combinations, (light, FIRM_N), state)
    floor = expected.floor_m
    return PedalAsked(
        round(light),
        FIRM_N,
        (expected.light_m.low, expected.light_m.high),
        (expected.rise_m.low, expected.rise_m.high),
        floor if np.isfinite(floor) else None,
    )


def _expected(
    system: BrakeSystem, combinations: Figures, forces: tuple[float, float], state: State
) -> Expected:
    import numpy as np

    return expected_of(solve(system, combinations, np.array(forces), "driver only", state=state))


def _first(tests: Sequence[BrakeReading]) -> BrakeReading | None:
    """Return the test that later ones are compared with: the latest of those before the road."""
    return next((one for one in tests if one.choices.get("when") == BEFORE), None)


def _told(
    system: BrakeSystem, combinations: Figures, reading: BrakeReading, first: BrakeReading | None
) -> PedalTold:
    figures = reading.figures
    base = PedalTold(
        reading.id,
        reading.at,
        reading.choices.get("when", ""),
        figures.get("first_force_n"),
        figures.get("second_force_n"),
        figures.get("first_travel_m"),
        figures.get("second_travel_m"),
        "",
        "",
    )
    state = WHOLE if reading.choices.get("servo") == _WITH_VACUUM else _exhausted(system)
    try:
        pushes = pushes_of(reading)
        forces = (pushes.light_force_n, pushes.firm_force_n)
        expected = _expected(system, combinations, forces, state)
        result = pedal_result(pushes, expected)
    except BareshellError as error:
        return replace(base, words="It tells nothing of air.", next_step=error.describe())
    told = _with_result(base, result)
    if first is None or first.id == reading.id or first.at >= reading.at:
        return told
    return _since(told, first, pushes, expected)


def _since(told: PedalTold, first: BrakeReading, now: Pushes, expected: Expected) -> PedalTold:
    try:
        change = since_then(pushes_of(first), now, expected)
    except BareshellError as error:
        return replace(told, since="It cannot be compared.", since_next=error.describe())
    return replace(told, since=change.words, since_next=change.next_step)


def _with_result(told: PedalTold, result: PedalResult) -> PedalTold:
    causes = tuple(PedalCause(one.name, one.fits, one.words) for one in result.causes)
    return replace(
        told,
        words=result.words,
        next_step=result.next_step,
        causes=causes,
        air_m3=(result.air_m3.low, result.air_m3.high),
        air_pedal_m=(result.air_pedal_m.low, result.air_pedal_m.high),
        least_seen_m3=result.least_air_seen_m3,
        as_expected=result.as_expected,
    )
