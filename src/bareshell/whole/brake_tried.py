"""What was read off the brakes, worked out: verdicts, causes, and beside the calculation."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.brakes.answer import Answer
from bareshell.brakes.figures import gather, ranges
from bareshell.brakes.holds import Closed, Seen, closed_circuit, judged_reading
from bareshell.brakes.joints import joint_schedule
from bareshell.brakes.measured import roller_result, roller_sheet
from bareshell.brakes.measured_against import Difference, against_calculation, calculated_forces
from bareshell.brakes.measured_road import decelerometer_verdicts, parking_tried, stop_result
from bareshell.brakes.pedal_expected import Expected, expected_of
from bareshell.brakes.pedal_test import pedal_result, pushes_of
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.solve import answered
from bareshell.brakes.trust import draw
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.yardstick import Yardstick
from bareshell.brakes.yardsticks import CAUTIONS
from bareshell.errors import BadInput, NotFound
from bareshell.model.brake import BrakeReading, BrakeSystem, PartKind, ReadingKind
from bareshell.whole.brake_check import NOT_PROVED, Head, verdict_view
from bareshell.whole.brake_parts import SystemName, VerdictView
from bareshell.whole.brake_words import describe_reading

DRAWN: Final = 512
"""So many combinations of what is not known give the range of what was expected."""


@dataclass(frozen=True, slots=True)
class BesideView:
    """One figure that was both read and worked out."""

    where: str
    unit: str
    measured: float
    low: float
    value: float
    high: float
    within: bool
    words: str
    look_at: tuple[str, ...]
    inputs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ReadingView:
    """One reading, worked out.

    Parameters
    ----------
    said : str
        The reading as it was taken.
    figures : tuple of (str, str)
        What follows from it: a name and a figure with its unit.
    words : tuple of str
        What it says, in sentences.
    """

    id: str
    kind: str
    at: datetime
    by: str
    said: str
    figures: tuple[tuple[str, str], ...]
    words: tuple[str, ...]
    verdicts: tuple[VerdictView, ...]
    beside: tuple[BesideView, ...]


@dataclass(frozen=True, slots=True)
class TriedView:
    """Every reading of the brakes, newest first."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    readings: tuple[ReadingView, ...]
    yardsticks_chosen: bool
    cautions: tuple[str, ...] = CAUTIONS
    not_proved: tuple[str, ...] = (
        "a test shows what the brakes did that day, at that load, on those linings",
        *NOT_PROVED[-1:],
    )


def tried_view(
    system: BrakeSystem,
    head: Head,
    readings: Iterable[BrakeReading],
    yardsticks: Iterable[Yardstick] | None,
) -> TriedView:
    """Work every reading out.

    Parameters
    ----------
    system : BrakeSystem
        The brakes they were read off.
    head : Head
        Whose they are.
    readings : iterable of BrakeReading
        Newest first.
    yardsticks : iterable of Yardstick or None
        Those that were picked; None when nobody picked.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> noon = datetime(2026, 6, 1, 12, tzinfo=UTC)
    >>> read = BrakeReading("d", ReadingKind.DECELEROMETER, noon, {"deceleration_g": 0.62})
    >>> tried_view(small_car(), Head(noon), [read], None).readings[0].figures
    (('deceleration', '6.08 m/s2'),)
    """
    bench = _Bench(system, tuple(yardsticks or ()))
    return TriedView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        system.id,
        system.title,
        system.role.value,
        head.systems,
        tuple(bench.worked_out(one) for one in readings),
        yardsticks is not None,
    )


@dataclass(slots=True)
class _Found:
    """What came of one reading."""

    figures: tuple[tuple[str, str], ...] = ()
    words: tuple[str, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    beside: tuple[Difference, ...] = ()


class _Bench:
    """Works readings out, against one system and the yardsticks that were picked."""

    def __init__(self, system: BrakeSystem, yardsticks: tuple[Yardstick, ...]) -> None:
        self.system = system
        self.yardsticks = yardsticks
        self._ready: Prepared | None = None
        self._ways: Mapping[ReadingKind, Callable[[BrakeReading], _Found]] = {
            ReadingKind.ROLLER: self._roller,
            ReadingKind.DECELEROMETER: self._decelerometer,
            ReadingKind.STOP: self._stop,
            ReadingKind.PARKING: self._parking,
            ReadingKind.PEDAL_TEST: self._pedal,
            ReadingKind.HOLD: self._hold,
        }

    def worked_out(self, reading: BrakeReading) -> ReadingView:
        """Work one reading out; what cannot be is said, and the reading stands all the same."""
        way = self._ways.get(reading.kind)
        try:
            found = way(reading) if way else _Found()
        except BadInput as error:
            found = _Found(words=(f"Not worked out: {error}",))
        return ReadingView(
            reading.id,
            reading.kind.value,
            reading.at,
            reading.by,
            describe_reading(reading),
            found.figures,
            tuple(words for words in found.words if words),
            tuple(verdict_view(verdict) for verdict in found.verdicts),
            tuple(_beside(one) for one in found.beside),
        )

    def _roller(self, reading: BrakeReading) -> _Found:
        sheet = roller_sheet(reading)
        result = roller_result(sheet, self.yardsticks, parking_is_secondary=self._is_single_line())
        shares = (
            ("brake force over weight", result.efficiency),
            ("parking brake force over weight", result.parking_efficiency),
            ("share of the front", result.front_share),
            *((f"imbalance, {axle.words}", axle.imbalance) for axle in result.axles),
        )
        figures = tuple((name, f"{share:.0%}") for name, share in shares if share is not None)
        return _Found(figures, (), result.verdicts, tuple(self._beside_roller(reading)))

    def _beside_roller(self, reading: BrakeReading) -> Iterator[Difference]:
        sheet = roller_sheet(reading)
        force = sheet.pedal_force_n if sheet.pedal_force_n is not None else 200.0
        try:
            answer = self._solved((force,))
        except BadInput:
            return
        gathered = gather(self.system)
        yield from against_calculation(
            sheet, calculated_forces(answer), self.system, ranges(self.system, gathered)
        )

    def _decelerometer(self, reading: BrakeReading) -> _Found:
        share = reading.figures.get("deceleration_g")
        if share is None:
            return _Found(words=("No deceleration was read.",))
        brake = reading.choices.get("brake", "service")
        verdicts = decelerometer_verdicts(share, self.yardsticks, brake)  # type: ignore[arg-type]
        return _Found((("deceleration", f"{share * 9.80665:.2f} m/s2"),), (), verdicts)

    def _stop(self, reading: BrakeReading) -> _Found:
        result = stop_result(reading, self.yardsticks)
        named = (
            ("mean fully developed deceleration", result.mean_fully_developed_m_s2),
            ("over the whole distance", result.over_distance_m_s2),
        )
        figures = tuple((name, f"{slow:.2f} m/s2") for name, slow in named if slow is not None)
        return _Found(figures, result.notes, result.verdicts)

    def _parking(self, reading: BrakeReading) -> _Found:
        tried = parking_tried([reading], self.yardsticks)
        words = tuple(f"It did not hold {slope:.0%} facing {way}." for way, slope in tried.failed)
        return _Found((), words, tried.verdicts)

    def _pedal(self, reading: BrakeReading) -> _Found:
        pushes = pushes_of(reading)
        expected = self._expected((pushes.light_force_n, pushes.firm_force_n))
        result = pedal_result(pushes, expected)
        figures = (("air can be told from", f"{result.least_air_seen_m3 * 1e6:.1f} ml"),)
        fitting = () if result.as_expected else result.causes
        causes = tuple(cause.words for cause in fitting if cause.fits)
        return _Found(figures, (result.words, *causes, result.next_step))

    def _hold(self, reading: BrakeReading) -> _Found:
        circuit = reading.choices.get("circuit", "")
        schedule = joint_schedule(self.system).joints
        mine = [one for one in schedule if not circuit or circuit in one.circuits]
        unseen: dict[str, Seen] = {one.words: "not looked at" for one in mine}
        result = judged_reading(reading, unseen, self._closed(reading, circuit))
        return _Found((), (result.words, result.gauge))

    def _closed(self, reading: BrakeReading, circuit: str) -> Closed | None:
        began = reading.figures.get("first_pressure_pa")
        if not circuit or began is None:
            return None
        try:
            return closed_circuit(self._drawn(), circuit, began)
        except (BadInput, NotFound):
            return None

    def _expected(self, forces_n: tuple[float, float]) -> Expected:
        return expected_of(self._solved(forces_n))

    def _solved(self, forces_n: tuple[float, ...]) -> Answer:
        import numpy as np

        return answered(self._drawn(), np.array(forces_n), "driver only")

    def _drawn(self) -> Prepared:
        if self._ready is None:
            drawn = draw(self.system, gather(self.system), count=DRAWN)
            self._ready = prepare(self.system, drawn.figures)
        return self._ready

    def _is_single_line(self) -> bool:
        masters = self.system.of_kind(PartKind.MASTER)
        return len(masters) == 1 and masters[0].choices.get("form") == "single"


def _beside(one: Difference) -> BesideView:
    span = one.calculated
    return BesideView(
        one.where, one.unit, one.measured, span.low, span.value, span.high, one.within, one.words,
        one.look_at, one.inputs,
    )  # fmt: skip
