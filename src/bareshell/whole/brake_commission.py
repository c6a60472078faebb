"""Commissioning on one page: the order, graded holds, the pedal test, bedding, 50 and 500 miles."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.brakes.against import FOOT_N
from bareshell.brakes.answer import Load
from bareshell.brakes.bedding import BEDDING, Warmed, bedding_series, warmed_by
from bareshell.brakes.bedding import CAUTIONS as BEDDING_CAUTIONS
from bareshell.brakes.commissioning import COMPARED, Compared
from bareshell.brakes.figures import Figures, Gathered, gather
from bareshell.brakes.heat_body import HeatInput, heat_input, shares_of_answer
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.holds import CAUTIONS as HOLD_CAUTIONS
from bareshell.brakes.pedal_test import CAUTIONS as PEDAL_CAUTIONS
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.reservoir import reservoir_needs
from bareshell.brakes.solve import answered
from bareshell.brakes.trust import draw
from bareshell.errors import BareshellError
from bareshell.model import Build
from bareshell.model.brake import BrakeReading, BrakeSystem, ReadingKind
from bareshell.sources import source
from bareshell.whole.brake_check import NOT_PROVED, Head
from bareshell.whole.brake_held import CircuitHolds, circuit_holds, shift_of_pipes
from bareshell.whole.brake_owed import Standing
from bareshell.whole.brake_parts import SystemName
from bareshell.whole.brake_pedal import PedalTold, PedalView, pedal_view
from bareshell.whole.brake_steps import StepView, steps_of

__all__ = ["SERIES", "BeddingView", "CommissioningView", "ComparedView", "commissioning_view"]

COMBINATIONS: Final = 200
"""So many combinations of what is not known exactly give the ranges of holds and pedal test."""

SERIES: Final = "thirty stops"
"""The bedding series that is shown when none is asked for."""

AMBIENT_C: Final = 15.0
_LOAD: Final[Load] = "driver only"


@dataclass(frozen=True, slots=True)
class WarmWheel:
    """How hot one brake gets in a bedding series, in degrees Celsius."""

    wheel: str
    metal_c: float
    lining_c: float


@dataclass(frozen=True, slots=True)
class BeddingView:
    """A published bedding series and what it does to these brakes.

    Parameters
    ----------
    warmed : tuple of WarmWheel
        Of the series that was asked for; empty when it cannot be worked out, and ``because`` says
        why.
    """

    id: str
    words: str
    stops: int
    deceleration_m_s2: float
    source: str
    mark: str
    note: str
    warmed: tuple[WarmWheel, ...]
    said: str
    because: str


@dataclass(frozen=True, slots=True)
class ComparedView:
    """A figure that is kept before the road, and what was read of it since.

    Parameters
    ----------
    values : tuple of (str, float)
        When, and what was read: metres for travels, a count for clicks.
    unit : str
        ``m`` or nothing.
    """

    id: str
    words: str
    how: str
    read_to: str
    grown: str
    fallen: str
    values: tuple[tuple[str, float], ...]
    unit: str


@dataclass(frozen=True, slots=True)
class ReservoirView:
    """What a reservoir must hold from new linings to worn ones, and what it holds."""

    title: str
    needed_m3: float
    there_is_m3: float | None
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CommissioningView:
    """Everything from the first drop of fluid to 500 miles.

    Parameters
    ----------
    next_step : str
        The first step that the record does not say is done; empty after the last.
    pipes_low_pa_k, pipes_high_pa_k : float or None
        What a gauge on plugged bare pipes rises for each degree. [Pa/K]
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    steps: tuple[StepView, ...]
    next_step: str
    reservoirs: tuple[ReservoirView, ...]
    holds: tuple[CircuitHolds, ...]
    pipes_low_pa_k: float | None
    pipes_high_pa_k: float | None
    pedal: PedalView
    bedding: tuple[BeddingView, ...]
    compared: tuple[ComparedView, ...]
    hold_cautions: tuple[str, ...] = HOLD_CAUTIONS
    pedal_cautions: tuple[str, ...] = PEDAL_CAUTIONS
    bedding_cautions: tuple[str, ...] = BEDDING_CAUTIONS
    not_proved: tuple[str, ...] = NOT_PROVED


def commissioning_view(
    system: BrakeSystem,
    build: Build,
    head: Head,
    readings: Iterable[BrakeReading] = (),
    standings: Iterable[Standing] = (),
    series: str = SERIES,
) -> CommissioningView:
    """Lay the commissioning of brakes out.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    build : Build
        The record; an empty one for a brake file alone.
    head : Head
        Whose they are.
    readings : iterable of BrakeReading
        What was read off them, newest first.
    standings : iterable of Standing
        How the joints' proofs stand.
    series : str
        The bedding series whose temperatures are worked out.

    Raises
    ------
    NotFound
        When there is no such series.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> made = Head(datetime(2026, 3, 4, tzinfo=UTC))
    >>> view = commissioning_view(small_car(), Build(), made)
    >>> view.next_step, len(view.holds), len(view.bedding)
    ('choose fluid', 2, 5)
    """
    taken = tuple(readings)
    gathered = gather(system)
    ready = prepare(system, gathered.figures)
    figures = _combinations(system, gathered)
    many = prepare(system, figures)
    most = _most_pressure(ready)
    steps = steps_of(system, build, taken)
    shift = shift_of_pipes(system)
    pedal = pedal_view(system, gathered, figures, taken)
    ahead = (one.id for one in steps if one.state not in ("done", "left out", "not known"))
    return CommissioningView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        system.id,
        system.title,
        system.role.value,
        head.systems,
        steps,
        next(ahead, ""),
        tuple(_reservoirs(ready)),
        circuit_holds(system, many, most, taken, standings),
        shift[0] if shift else None,
        shift[1] if shift else None,
        pedal,
        tuple(_bedding(system, ready, series)),
        tuple(_compared(one, pedal.tests, taken) for one in COMPARED),
    )


def _combinations(system: BrakeSystem, gathered: Gathered) -> Figures:
    return draw(system, gathered, count=COMBINATIONS).figures


def _most_pressure(ready: Prepared) -> float | None:
    """Return the pressure that a hard foot makes; None when figures for it are missing."""
    if ready.missing_for("pressure") or ready.topology().troubles:
        return None
    answer = answered(ready, FOOT_N, _LOAD)
    return max((float(each) for each in answer.circuit_pressure_pa.values()), default=None)


def _reservoirs(ready: Prepared) -> Iterator[ReservoirView]:
    try:
        found = reservoir_needs(ready)
    except BareshellError:
        return  # what is missing for it is said where the pedal test is
    for one in found:
        yield ReservoirView(one.title, float(one.needed_m3), one.there_is_m3, one.assumed)


# --- bedding -----------------------------------------------------------------------------------


def _bedding(system: BrakeSystem, ready: Prepared, chosen: str) -> Iterator[BeddingView]:
    bedding_series(chosen)
    for series in BEDDING.values():
        found, because = None, ""
        if series.id == chosen:
            given, because = _warming(system, ready)
            found = warmed_by(series, given, ambient_c=AMBIENT_C) if given else None
        yield BeddingView(
            series.id,
            series.words,
            series.stops,
            series.deceleration_m_s2,
            source(series.source_id).cite(),
            series.mark,
            series.note,
            () if found is None else tuple(_warm(found)),
            "" if found is None else found.words,
            because,
        )


def _warm(found: Warmed) -> Iterator[WarmWheel]:
    for wheel, metal in found.metal_c.items():
        yield WarmWheel(wheel.value, float(metal), float(found.lining_c[wheel]))


def _warming(system: BrakeSystem, ready: Prepared) -> tuple[HeatInput | None, str]:
    import numpy as np

    try:
        ready.ask("pressure", "torque", _LOAD)
        answer = answered(ready, np.linspace(10.0, FOOT_N, 50), _LOAD)
        shares = shares_of_answer(answer, 3.0)
        return heat_input(system, gather_heat(system, _LOAD).figures, shares, _LOAD), ""
    except BareshellError as error:
        return None, error.describe()


# --- 50 and 500 miles --------------------------------------------------------------------------


def _compared(
    one: Compared, tests: Sequence[PedalTold], readings: Sequence[BrakeReading]
) -> ComparedView:
    values: list[tuple[str, float]] = []
    unit = "m" if one.id.startswith("pedal") else ""
    for test in reversed(tests):
        if test.light_m is None or test.firm_m is None or not one.id.startswith("pedal"):
            continue
        value = test.light_m if one.id == "pedal light" else test.firm_m - test.light_m
        values.append((test.when or f"{test.at:%d %b %Y}", value))
    if one.id == "clicks":
        values += [
            (f"{each.at:%d %b %Y}", each.figures["clicks"])
            for each in reversed(readings)
            if each.kind is ReadingKind.PARKING and "clicks" in each.figures
        ]
    return ComparedView(
        one.id, one.words, one.how, one.read_to, one.grown, one.fallen, tuple(values), unit
    )
