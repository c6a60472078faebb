"""A job: one piece of work on the car, as it is defined and as it went."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from bareshell.model.position import Place, Wheels, Zone
from bareshell.model.trust import YOURS, ThreePoint

SYSTEMS = (
    "brakes",
    "electrics",
    "suspension",
    "steering",
    "wheels",
    "engine",
    "gearbox and clutch",
    "fuel",
    "cooling",
    "exhaust",
    "body fittings",
    "glass",
    "interior",
    "underbody",
    "commissioning",
    "paperwork",
)
"""The systems a job can belong to, in the order they are listed everywhere."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way of doing a job: how many people, how long, with which kit."""

    people: int
    hours: ThreePoint
    kit: str = ""

    def __post_init__(self) -> None:
        """A way takes the owner alone or the owner and a helper."""
        if self.people not in (1, 2):
            raise ValueError(f"a way of doing a job takes one or two people, not {self.people}")


@dataclass(frozen=True, slots=True)
class Wait:
    """Clock hours that must pass after a job before what follows may start.

    Parameters
    ----------
    hours : float
        At the product's own temperature. [h]
    stretches_with_cold : bool
        Whether the wait grows below ``lowest_temperature_c`` (cures do, holds do not).
    lowest_temperature_c : float or None
        The temperature that must hold through the whole wait. [degC]
    why : str
        What is waited for: "sealer skins", "overnight pressure hold".
    """

    hours: float
    stretches_with_cold: bool = False
    lowest_temperature_c: float | None = None
    why: str = ""

    def __post_init__(self) -> None:
        """Refuse a negative wait."""
        if self.hours < 0:
            raise ValueError(f"a wait cannot be {self.hours} hours")


@dataclass(frozen=True, slots=True)
class Recheck:
    """A later look that a job causes: after so many miles or so many months."""

    miles: int | None = None
    months: int | None = None


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt: the harm first, then what to do about it.

    ``harm`` is one of the words the pages show: Crush, Pressure, Eyes, Skin and paint,
    Hands and lives, Fire, Breath, Back, Electric.
    """

    harm: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Job:
    """A piece of work as it is defined.

    Parameters
    ----------
    id, title, system : str
        Short name, what a person calls it, and one of ``SYSTEMS``.
    after : tuple of str
        Jobs that must be done first.
    ways : tuple of Way
        The ways it can be done; the plan chooses.
    place : Place
        On the car, at the bench, at the desk, on the road, at a test station.
    zones : frozenset of Zone
        What it must reach on the car.
    wheels : Wheels
        Whether the wheels must hang, must carry the car, or either.
    level : bool
        Whether the car must stand level.
    off : frozenset of str
        What is better off the car (``BODY_STATES``).
    off_is_necessary : bool
        Whether ``off`` is physically necessary rather than merely easier.
    splittable : bool
        Whether it can be stopped and taken up another evening.
    least_piece_hours : float
        The shortest useful piece of a splittable job. [h]
    wait : Wait or None
        What must pass after it.
    lowest_temperature_c : float or None
        Below this it cannot be done. [degC]
    weather : str
        Anything else asked of the day: "dry, daylight".
    tools : tuple of str
        What to fetch that is neither part nor fixing.
    tightens : tuple of str
        What is torqued in it, as a line for the ticket.
    cautions : tuple of Caution
        What can hurt in it.
    dirty, dangerous_alone : bool
        For evenings when neither is wanted.
    helper_alone : bool
        Whether a helper may do it alone, beside the owner.
    takes_off, puts_back : frozenset of str
        What of ``BODY_STATES`` is so once it is done, and what no longer is.
    rechecks : tuple of Recheck
        Later looks it causes.
    gate : str or None
        The gate that this job is the going-through of, if it is one.
    twin : str or None
        The same job on the other side of the car.
    mark : str
        Where its figures come from.
    note : str
        Free words.
    """

    id: str
    title: str
    system: str
    after: tuple[str, ...] = ()
    ways: tuple[Way, ...] = (Way(1, ThreePoint(1, 2, 4)),)
    place: Place = Place.CAR
    zones: frozenset[Zone] = frozenset()
    wheels: Wheels = Wheels.EITHER
    level: bool = False
    off: frozenset[str] = frozenset()
    off_is_necessary: bool = False
    splittable: bool = False
    least_piece_hours: float = 0.5
    wait: Wait | None = None
    lowest_temperature_c: float | None = None
    weather: str = ""
    tools: tuple[str, ...] = ()
    tightens: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    dirty: bool = False
    dangerous_alone: bool = False
    rechecks: tuple[Recheck, ...] = ()
    gate: str | None = None
    twin: str | None = None
    mark: str = YOURS
    note: str = ""
    helper_alone: bool = False
    takes_off: frozenset[str] = frozenset()
    puts_back: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        """Check what a job can know about itself."""
        if not self.id:
            raise ValueError("a job needs an id")
        if not self.title.strip():
            raise ValueError(f"job {self.id} needs a title")
        if self.system not in SYSTEMS:
            raise ValueError(
                f"job {self.id}: system is {self.system!r}; it must be one of {', '.join(SYSTEMS)}"
            )
        if not self.ways:
            raise ValueError(f"job {self.id} needs at least one way of doing it")
        if self.id in self.after:
            raise ValueError(f"job {self.id} cannot come after itself")
        if self.takes_off & self.puts_back:
            raise ValueError(
                f"job {self.id}: '{min(self.takes_off & self.puts_back)}' cannot both come off in "
                "it and go back; name one of the two"
            )
        if self.least_piece_hours <= 0:
            raise ValueError(f"job {self.id}: the least useful piece must be more than 0 hours")


class JobStatus(StrEnum):
    """How a job stands."""

    TO_DO = "to do"
    STARTED = "started"
    DONE = "done"
    DONE_BEFORE = "done before the record, unproven"
    LEFT_OUT = "left out"


class JobEventKind(StrEnum):
    """What happened to a job."""

    STARTED = "started"
    WORKED = "worked"
    FINISHED = "finished"
    TAKEN_OFF = "taken off again"
    DONE_BEFORE = "done before the record"
    NOT_DONE = "not done after all"
    LEFT_OUT = "left out"
    TAKEN_IN = "taken in again"


@dataclass(frozen=True, slots=True)
class JobEvent:
    """One thing that happened to a job; sorts by when it happened."""

    at: datetime
    seq: int
    kind: JobEventKind
    hours: float | None = None
    hours_left: float | None = None
    words: str = ""

    def __lt__(self, other: JobEvent) -> bool:
        """Earlier in time; at the same moment, earlier in the journal."""
        return (self.at, self.seq) < (other.at, other.seq)


@dataclass(frozen=True, slots=True)
class JobState:
    """How a job stands, worked out from its events in the order they happened."""

    status: JobStatus = JobStatus.TO_DO
    hours_done: float = 0.0
    hours_left: float | None = None
    started_at: datetime | None = None
    finished_at: datetime | None = None
    taken_off: bool = False

    @property
    def is_done(self) -> bool:
        """Whether what follows may rely on it."""
        return self.status in (JobStatus.DONE, JobStatus.DONE_BEFORE)

    @property
    def is_open(self) -> bool:
        """Whether there is still work in it."""
        return self.status in (JobStatus.TO_DO, JobStatus.STARTED)


def job_state(events: tuple[JobEvent, ...]) -> JobState:
    """Work out how a job stands from its events, sorted by when they happened.

    Leaving out and taking in again stand outside the order of the work itself:
    a job that was half done when it was left out is half done when it comes back.
    """
    state = JobState()
    left_out = False
    for event in events:
        if event.kind is JobEventKind.LEFT_OUT:
            left_out = True
        elif event.kind is JobEventKind.TAKEN_IN:
            left_out = False
        else:
            state = _after_event(state, event)
    return replace(state, status=JobStatus.LEFT_OUT) if left_out else state


def _after_event(state: JobState, event: JobEvent) -> JobState:
    hours = state.hours_done + (event.hours or 0.0)
    started = state.started_at or event.at
    match event.kind:
        case JobEventKind.STARTED:
            if state.status is JobStatus.STARTED:
                return state
            return replace(state, status=JobStatus.STARTED, started_at=event.at)
        case JobEventKind.WORKED:
            if state.is_done and not event.hours_left:
                # An hour remembered later adds to the hours; it does not undo the job.
                return replace(state, hours_done=hours)
            return replace(
                state,
                status=JobStatus.STARTED,
                hours_done=hours,
                hours_left=event.hours_left,
                started_at=started,
            )
        case JobEventKind.FINISHED:
            return replace(
                state,
                status=JobStatus.DONE,
                hours_done=hours,
                hours_left=0.0,
                started_at=started,
                finished_at=event.at,
                taken_off=False,
            )
        case JobEventKind.DONE_BEFORE:
            return replace(state, status=JobStatus.DONE_BEFORE, finished_at=event.at)
        case _:  # taken off again, not done after all: the work is there to do again
            return JobState(taken_off=event.kind is JobEventKind.TAKEN_OFF)


@dataclass(frozen=True, slots=True)
class JobRecord:
    """A job with everything that happened to it."""

    job: Job
    events: tuple[JobEvent, ...] = ()
    state: JobState = JobState()

    def with_event(self, event: JobEvent) -> JobRecord:
        """Return the record with one more event, put where it happened in time."""
        events = tuple(sorted((*self.events, event)))
        return replace(self, events=events, state=job_state(events))
