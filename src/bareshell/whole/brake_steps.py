"""How far the brakes have come from the first drop of fluid to 500 miles, by the record."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from bareshell.brakes.commissioning import COMMISSIONING, Step
from bareshell.brakes.fluid_mix import meetings
from bareshell.brakes.ways import ways_of
from bareshell.model import Build
from bareshell.model.brake import BrakeReading, BrakeSystem, PartKind, ReadingKind
from bareshell.model.job import JobStatus
from bareshell.model.standing import standing_of_proof
from bareshell.sources import source
from bareshell.whole.brake_jobs import BrakeJobs, Role
from bareshell.whole.brake_proofs import air_proof_id, circuit_names

__all__ = ["StepView", "steps_of"]

State = Literal["done", "started", "to do", "left out", "not known"]

_FIRM_PA: Final = 30e5
_MEASURED: Final = (ReadingKind.ROLLER, ReadingKind.DECELEROMETER, ReadingKind.STOP)

_JOBS: Final[Mapping[str, tuple[Role, ...]]] = {
    "assemble clean": ("front brakes", "rear brakes"),
    "bench bleed": ("bench bleed",),
    "joints": ("bay pipes", "long pipe", "rear pipes", "front hoses", "rear hoses"),
    "first fill": ("fill",),
    "bleed": ("first bleed",),
    "overnight hold": ("overnight hold",),
    "bleed again": ("second bleed",),
    "parking brake": ("parking",),
    "walking pace": ("walking pace",),
    "low speed": ("road test",),
    "bedding": ("bedding",),
}
"""The jobs whose being done says that a step is done."""

_GATES: Final[Mapping[str, str]] = {"50 miles": "50-miles", "500 miles": "500-miles"}
_WHEN: Final[Mapping[str, str]] = {"50 miles": "after 50 miles", "500 miles": "after 500 miles"}


@dataclass(frozen=True, slots=True)
class StepView:
    """One step of commissioning and what the record says of it.

    Parameters
    ----------
    state : {"done", "started", "to do", "left out", "not known"}
        By the record alone.
    says : tuple of str
        What the record says, in sentences without a stop.
    source : str
        Where the step is from; its mark when it is the trade's practice.
    """

    id: str
    number: int
    words: str
    because: str
    cautions: tuple[str, ...]
    keep: tuple[str, ...]
    gate: str
    source: str
    state: str
    says: tuple[str, ...]


def steps_of(
    system: BrakeSystem, build: Build, readings: Iterable[BrakeReading] = ()
) -> tuple[StepView, ...]:
    """Go through the steps of commissioning, with what the record says of each.

    Parameters
    ----------
    system : BrakeSystem
        The brakes on the car.
    build : Build
        Its jobs, proofs and gates.
    readings : iterable of BrakeReading
        What was read off the brakes, newest first.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> steps = steps_of(starter("single line"), Build())
    >>> steps[0].state, steps[5].id, steps[5].state
    ('to do', 'exhaust servo', 'left out')
    """
    desk = _Desk(system, build, tuple(readings))
    return tuple(_view(step, number, desk) for number, step in enumerate(COMMISSIONING, 1))


def _view(step: Step, number: int, desk: _Desk) -> StepView:
    state, says = desk.state_of(step.id)
    cited = source(step.source_id).cite() if step.source_id else step.mark
    return StepView(
        step.id,
        number,
        step.words,
        step.because,
        step.cautions,
        step.keep,
        step.gate,
        cited,
        state,
        says,
    )


_Found = tuple[State, tuple[str, ...]]


@dataclass(slots=True)
class _Desk:
    """One system beside one build's record."""

    system: BrakeSystem
    build: Build
    readings: tuple[BrakeReading, ...]
    jobs: BrakeJobs = field(init=False)

    def __post_init__(self) -> None:
        self.jobs = BrakeJobs(self.build)

    def state_of(self, step: str) -> _Found:
        """Say how a step stands, and what says so."""
        own = _OWN.get(step)
        if own is not None:
            return own(self)
        return self.by_jobs(step)

    def by_jobs(self, step: str) -> _Found:
        """Say how a step stands by the jobs that do it."""
        found = [self.build.jobs[job] for job in self.jobs.every(*_JOBS.get(step, ()))]
        asked = [one for one in found if one.state.status is not JobStatus.LEFT_OUT]
        if not asked:
            return "not known", ("no job of this build says so",)
        says = tuple(
            f"'{one.job.title}' is {one.state.status}"
            + (f", {one.state.finished_at:%d %b %Y}" if one.state.finished_at else "")
            for one in asked
        )
        if all(one.state.is_done for one in asked):
            return "done", says
        begun = any(one.state.is_done or one.state.started_at for one in asked)
        return ("started" if begun else "to do"), says

    def of_kind(self, *kinds: ReadingKind) -> tuple[BrakeReading, ...]:
        """Return the readings of some kinds, newest first."""
        return tuple(one for one in self.readings if one.kind in kinds)


def _fluid(desk: _Desk) -> _Found:
    found = meetings(desk.system)
    stops = tuple(f"{one.where}: {one.what}" for one in found if one.severity == "stops")
    if stops:
        return "to do", stops
    grades = [one.choices.get("grade", "") for one in desk.system.of_kind(PartKind.FLUID)]
    grade = next((one for one in grades if one and one != "unknown"), "")
    if not grade:
        return "to do", ("nobody has said which fluid goes in",)
    doubtful = sum(one.severity == "doubtful" for one in found)
    many = "is 1 thing" if doubtful == 1 else f"are {doubtful} things"
    asked = (f"there {many} to be asked about seals and what parts held",) if doubtful else ()
    return ("started" if doubtful else "done"), (f"{grade} is written down", *asked)


def _servo(desk: _Desk) -> _Found:
    if not desk.system.of_kind(PartKind.SERVO, PartKind.REMOTE_SERVO):
        return "left out", ("these brakes have no servo",)
    return "not known", ("nothing on the record says so: do it each time",)


def _bleed(desk: _Desk) -> _Found:
    state, says = desk.by_jobs("bleed")
    screws = {screw.id for screw in ways_of(desk.system).screws}
    came: dict[str, str] = {}
    for one in reversed(desk.of_kind(ReadingKind.BLEEDING)):
        came[one.choices.get("screw", "")] = one.choices.get("came", "")
    clear = sum(came.get(screw) == "clear" for screw in screws)
    if came:
        says = (*says, f"{clear} of {len(screws)} screws came clear, as written down")
    return ("started" if came and state == "to do" else state), says


def _holds(desk: _Desk) -> _Found:
    held = desk.of_kind(ReadingKind.HOLD)
    circuits = circuit_names(desk.system)
    firm = {
        one.choices.get("circuit", "")
        for one in held
        if one.choices.get("joints") == "all dry"
        and one.figures.get("first_pressure_pa", 0.0) >= _FIRM_PA
    }
    missing = [title for key, title in circuits.items() if key not in firm]
    says = tuple(f"no firm hold with every joint dry of the {title} yet" for title in missing)
    if held:
        says = (f"{len(held)} {'hold is' if len(held) == 1 else 'holds are'} written down", *says)
    if circuits and not missing:
        return "done", says
    return ("started" if held else "to do"), says


def _pedal(desk: _Desk) -> _Found:
    tests = desk.of_kind(ReadingKind.PEDAL_TEST)
    proofs = [key for one in circuit_names(desk.system) if (key := air_proof_id(one))]
    known = [desk.build.proofs[key] for key in proofs if key in desk.build.proofs]
    good = sum(standing_of_proof(desk.build, one).state.is_good for one in known)
    says: tuple[str, ...] = ()
    if tests:
        says = (f"measured {tests[0].at:%d %b %Y}",)
    if known:
        says = (*says, f"{good} of {len(known)} circuits stand held free of air")
    if tests and good == len(known):
        return "done", says
    return ("started" if tests else "to do"), says


def _parking(desk: _Desk) -> _Found:
    state, says = desk.by_jobs("parking brake")
    tried = desk.of_kind(ReadingKind.PARKING)
    if tried:
        says = (*says, f"tried on a slope {tried[0].at:%d %b %Y}")
    return state, says


def _bedding(desk: _Desk) -> _Found:
    state, says = desk.by_jobs("bedding")
    stops = desk.of_kind(ReadingKind.BEDDING)
    if stops:
        says = (*says, f"stops written down {stops[0].at:%d %b %Y}")
    return ("started" if stops and state != "done" else state), says


def _after_bedding(desk: _Desk) -> _Found:
    bedded, tests = desk.of_kind(ReadingKind.BEDDING), desk.of_kind(ReadingKind.PEDAL_TEST)
    if bedded and tests and tests[0].at > bedded[0].at:
        return "done", (f"the pedal was measured again {tests[0].at:%d %b %Y}",)
    return "to do", ()


def _measured(desk: _Desk) -> _Found:
    found = desk.of_kind(*_MEASURED)
    says = tuple(f"{one.kind.value}, {one.at:%d %b %Y}" for one in found)
    return ("done" if found else "to do"), says


def _compared(step: str) -> Callable[[_Desk], _Found]:
    def found(desk: _Desk) -> _Found:
        tests = [
            one
            for one in desk.of_kind(ReadingKind.PEDAL_TEST)
            if one.choices.get("when") == _WHEN[step]
        ]
        gate = desk.build.gates.get(_GATES[step])
        passed = gate.passed if gate else None
        says = (f"the pedal was measured {tests[0].at:%d %b %Y}",) if tests else ()
        if passed:
            return "done", (*says, f"the gate was passed {passed.at:%d %b %Y}")
        return ("started" if tests else "to do"), says

    return found


_OWN: Final[Mapping[str, Callable[[_Desk], _Found]]] = {
    "choose fluid": _fluid,
    "exhaust servo": _servo,
    "bleed": _bleed,
    "graded holds": _holds,
    "pedal test": _pedal,
    "parking brake": _parking,
    "bedding": _bedding,
    "after bedding": _after_bedding,
    "measured": _measured,
    "50 miles": _compared("50 miles"),
    "500 miles": _compared("500 miles"),
}
"""Steps that more than a job speaks of."""
