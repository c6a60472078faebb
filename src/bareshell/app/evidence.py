"""Many proofs at once: the way through a gate, the torque sheet, the rehearsal, the re-checks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.written import Pen, Written, filled, write_down
from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.looked import Seen
from bareshell.proofs.rechecks import comparisons, miles_by, rechecks
from bareshell.proofs.rehearsal import ITEMS, Rehearsed, rehearsal
from bareshell.proofs.torque_sheet import FixingState, TorqueRow, torque_sheet
from bareshell.proofs.way_through import Step, WayThrough, way_through
from bareshell.whole.tickets import limit_words
from bareshell.whole.torques import (
    BoltTorque,
    again_words,
    bolt_torques,
    given_torques,
    wrenches,
)


@dataclass(frozen=True, slots=True)
class Named:
    """A thing by its id and what it is called, with a word on it."""

    id: str
    title: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class GateWay:
    """The shortest way through a gate."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    gate: str
    title: str
    gates: tuple[Named, ...]
    steps: tuple[Step, ...]
    prove_again: tuple[Named, ...]
    uncover: tuple[Named, ...]
    temps: tuple[Named, ...]
    hours: float
    two_person_hours: float
    wait_hours: float

    @property
    def clear(self) -> bool:
        """Whether nothing stands between."""
        return not (self.steps or self.prove_again or self.uncover or self.temps)


@dataclass(frozen=True, slots=True)
class BoltFigures:
    """What one bolt may be tightened to, computed, with what it was reckoned from.

    ``computed`` is empty where it is not reckoned; ``ask`` then says what to find out.
    """

    need: str
    title: str
    quantity: int
    computed: str
    low_nm: float | None
    usual_nm: float | None
    high_nm: float | None
    proof_nm: float | None
    inputs: tuple[tuple[str, str], ...]
    arithmetic: str
    sources: tuple[str, ...]
    lubrication: str
    ask: tuple[str, ...]
    mind: tuple[str, ...]
    said: tuple[str, ...]
    read_from: str


@dataclass(frozen=True, slots=True)
class TorqueLine:
    """One line of the torque sheet."""

    proof: str
    what: str
    job: str
    job_title: str
    system: str
    figures: tuple[str, ...]
    state: str
    at: datetime | None
    by: str
    wrench: str
    readings: tuple[str, ...]
    words: str
    mark: str
    ticket: tuple[str, ...] = ()
    bolts: tuple[BoltFigures, ...] = ()
    wrenches: tuple[str, ...] = ()
    nipped_until: Named | None = None
    again: tuple[str, ...] = ()
    unsaid: str = ""

    @property
    def says(self) -> tuple[str, ...]:
        """How given and read figures stand beside the computed ones, bolt by bolt."""
        return tuple(said for bolt in self.bolts for said in bolt.said)


@dataclass(frozen=True, slots=True)
class TorquePage:
    """The torque sheet of the build."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    lines: tuple[TorqueLine, ...]

    @property
    def not_torqued(self) -> tuple[TorqueLine, ...]:
        """What is on the car and not torqued and marked."""
        counts = (str(FixingState.FITTED), str(FixingState.NIPPED), str(FixingState.SPENT))
        return tuple(line for line in self.lines if line.state in counts)


@dataclass(frozen=True, slots=True)
class RehearsalLine:
    """One item of the rehearsal: what the record says, and what somebody saw."""

    id: str
    area: str
    words: str
    people: int
    on_record: str
    proofs: tuple[Named, ...]
    open_jobs: tuple[str, ...]
    seen: str = ""
    seen_at: datetime | None = None
    seen_by: str = ""
    seen_words: str = ""
    version: int | None = None


@dataclass(frozen=True, slots=True)
class RehearsalPage:
    """The rehearsal of a roadworthiness inspection, lights first."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    items: tuple[RehearsalLine, ...]
    looked_at: int
    to_put_right: int


@dataclass(frozen=True, slots=True)
class RecheckLine:
    """One re-check."""

    job: str
    title: str
    system: str
    state: str
    at_miles: float | None
    on: date | None
    proofs: tuple[Named, ...]


@dataclass(frozen=True, slots=True)
class ComparedLine:
    """One figure at each time it was read: when, at how many miles, and what it was."""

    proof: str
    title: str
    quantity: str
    unit: str
    readings: tuple[tuple[datetime, float | None, float], ...]
    change: float


@dataclass(frozen=True, slots=True)
class RecheckPage:
    """What miles and months bring."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    miles: float | None
    rechecks: tuple[RecheckLine, ...]
    compared: tuple[ComparedLine, ...]
    version: int | None = None


def way(door: Door, gate_id: str) -> GateWay:
    """Find the shortest way through a gate.

    Raises
    ------
    NotFound
        When there is no such gate.
    """
    build, now = door.build(), door.now()
    found: WayThrough = way_through(build, gate_id, now)
    return GateWay(
        *head_of(build, now),
        found.gate,
        found.title,
        tuple(Named(key, build.gates[key].gate.title) for key in found.gates),
        found.steps,
        _proofs(build, found.prove_again),
        _proofs(build, found.uncover),
        tuple(_temp(build, key) for key in found.temps),
        found.hours,
        found.two_person_hours,
        sum(step.wait_hours for step in found.steps),
    )


def torque(door: Door) -> TorquePage:
    """Read the torque sheet."""
    build, now = door.build(), door.now()
    return TorquePage(
        *head_of(build, now), tuple(_torque_line(build, row) for row in torque_sheet(build, now))
    )


def rehearse(door: Door) -> RehearsalPage:
    """Read the rehearsal."""
    build, now = door.build(), door.now()
    lines = tuple(_rehearsal_line(build, one) for one in rehearsal(build, now))
    return RehearsalPage(
        *head_of(build, now),
        lines,
        sum(1 for line in lines if line.seen),
        sum(1 for line in lines if line.seen == Seen.WRONG),
    )


def again(door: Door) -> RecheckPage:
    """Read what is to be looked at again, and how figures compare."""
    build, now = door.build(), door.now()
    return RecheckPage(
        *head_of(build, now),
        miles_by(build, now),
        tuple(
            RecheckLine(
                due.job,
                due.title,
                due.system,
                str(due.state),
                due.at_miles,
                due.on,
                _proofs(build, due.proofs),
            )
            for due in rechecks(build, now)
        ),
        _compared(build),
        build.versions.get("miles"),
    )


def read_before(door: Door, proof_id: str) -> tuple[ComparedLine, ...]:
    """Return every figure of a proof that was read more than once, oldest reading first."""
    return tuple(one for one in _compared(door.build()) if one.proof == proof_id)


def _compared(build: Build) -> tuple[ComparedLine, ...]:
    return tuple(
        ComparedLine(one.proof, one.title, one.quantity, one.unit, one.readings, one.change)
        for one in comparisons(build)
    )


def look_at(door: Door, item_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down what somebody saw of an item of the rehearsal.

    The fields are ``seen`` (*looked right*, *to be put right*, *not on this car*), ``by``,
    ``words`` and ``when``.

    Raises
    ------
    NotFound
        When the rehearsal has no such item.
    BadInput
        When nobody is named, or nothing says what must be put right.
    """
    item = next((one for one in ITEMS if one.id == item_id), None)
    if item is None:
        raise NotFound(f"the rehearsal has no item '{item_id}'", "choose one from its page")
    form = filled(door, fields)
    said, by, words = form.text("seen"), form.text("by", "name"), form.text("words")
    when = form.moment("when", "when")
    if said not in tuple(Seen):
        form.wrong("what was seen", f"'{said}' is none of them", f"choose {', '.join(Seen)}")
    form.check()
    change = c.ItemLookedAt(item_id, Seen(said), by, words)
    return write_down(door, change, pen, f"{item.title}: {said}.", happened_at=when)


def read_miles(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down the miles run since the car went back on the road.

    Raises
    ------
    BadInput
        When it is no figure.
    """
    form = filled(door, fields)
    miles = form.figure("miles", "miles")
    if miles is None and not form.text("miles"):
        form.wrong("miles", "it is missing", "write the miles since it went back on the road")
    when = form.moment("when", "when")
    form.check()
    change = c.MilesRead(miles or 0.0, form.text("words"))
    said = f"{change.miles:g} miles are written down."
    return write_down(door, change, pen, said, happened_at=when)


def head_of(build: Build, now: datetime) -> tuple[datetime, int, str, bool]:
    """Return what every reading begins with: when, the record's number, the car, invented or not.

    Examples
    --------
    >>> from datetime import UTC
    >>> head_of(Build(), datetime(2026, 1, 1, tzinfo=UTC))[1:]
    (0, '', False)
    """
    return now, build.seq, build.car_name, build.invented


def _proofs(build: Build, keys: Iterable[str]) -> tuple[Named, ...]:
    return tuple(
        Named(key, proof.called, "; ".join(limit_words(limit) for limit in proof.limits))
        for key in keys
        for proof in (build.proofs[key].proof,)
    )


def _temp(build: Build, key: str) -> Named:
    temp = build.temps[key].temp
    return Named(key, temp.title, f"replaced by {temp.replaced_by}" if temp.replaced_by else "")


def _torque_line(build: Build, row: TorqueRow) -> TorqueLine:
    bolts = bolt_torques(build, row)
    several = len(bolts) > 1 and bool(given_torques(row))
    until = build.jobs.get(row.nipped_until)
    return TorqueLine(
        row.proof,
        row.what,
        row.job,
        build.jobs[row.job].job.title if row.job in build.jobs else row.job,
        row.system,
        tuple(limit_words(limit) for limit in row.figures),
        str(row.state),
        row.at,
        row.by,
        row.wrench,
        row.readings,
        row.words,
        row.mark,
        row.lines,
        tuple(_bolt(one) for one in bolts),
        wrenches(row, bolts),
        Named(row.nipped_until, until.job.title if until else row.nipped_until)
        if row.nipped_until
        else None,
        tuple(again_words(due) for due in row.owed_again),
        _UNSAID if several else "",
    )


_UNSAID = (
    "The given figure does not say which of these bolts it is for: name the bolts of the proof."
)


def _bolt(one: BoltTorque) -> BoltFigures:
    torque = one.torque
    return BoltFigures(
        one.need,
        one.title,
        one.quantity,
        torque.words,
        torque.low_nm,
        torque.usual_nm,
        torque.high_nm,
        torque.proof_nm,
        torque.inputs,
        torque.arithmetic,
        torque.sources,
        torque.lubrication,
        torque.ask,
        torque.mind,
        one.said,
        one.read_from,
    )


def _rehearsal_line(build: Build, one: Rehearsed) -> RehearsalLine:
    look = build.looks.get(one.item.id)
    return RehearsalLine(
        one.item.id,
        one.item.area,
        one.item.words,
        one.item.people,
        one.standing,
        tuple(Named(each.proof, each.title, str(each.state)) for each in one.evidence),
        one.jobs_open,
        str(look.seen) if look else "",
        look.at if look else None,
        look.by if look else "",
        look.words if look else "",
        build.versions.get(f"item:{one.item.id}"),
    )
