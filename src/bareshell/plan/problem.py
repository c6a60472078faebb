"""What planning is asked: jobs, parts to come, proofs, gates, sessions, how the car stands.

A `PlanProblem` is complete in itself: it knows nothing of journals or builds. Whoever makes one
leaves out what is done and turns a wait that is still running into `PlanJob.earliest_minute`.

Times are whole minutes from `PlanProblem.origin`, which is now; nothing is rounded to a grid.

Rules that every plan keeps, and that `bareshell.plan.checker` reads independently:

*wait stretches with cold*
    A wait marked so doubles for each `COLD_DOUBLING_C` below `COLD_REFERENCE_C`; it is never
    shorter than written (common practice, no source). The lowest temperature from the finish of
    the job before it to the end of the stretched wait counts: of the session it was finished in,
    of each that begins before the wait is over, and of the time between
    (`SessionSlot.coldest_c`).
*lowest temperature*
    Holds in every session the job is worked in. With a cure it also holds in each session that
    begins before the cure is over, and in between; a cure may stretch with cold as a wait does.
*the helper*
    Makes two-person work possible. Beside the owner, where the session says so
    (`SessionSlot.beside`), a helper may also do a one-person job alone, but does not move the car
    alone. While anybody works on the car, or it is being moved, it is not moved.
*the body*
    What is off or out (``"engine out"``) may be asked for, or ruled out, by a job or by a way of
    moving the car; a job that is finished begins or ends such a state.
*started jobs*
    Carry on from `minutes_done`; at least a tenth of the likely time is taken to be left.
*overdue parts*
    A part whose date has passed and which is not here is expected after its usual delay.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bareshell.errors import BadInput
from bareshell.plan.jobs import Link, PlanJob, Way
from bareshell.plan.lateness import SourceBelief
from bareshell.plan.sessions import SessionSource

__all__ = [
    "COLD_DOUBLING_C",
    "COLD_REFERENCE_C",
    "Arrival",
    "Change",
    "Gate",
    "Link",
    "Luck",
    "Pace",
    "PlanJob",
    "PlanProblem",
    "Proof",
    "Way",
]

COLD_REFERENCE_C = 18.0
"""The temperature waits are written for (common practice, no source). [degC]"""

COLD_DOUBLING_C = 9.0
"""A wait doubles for each so many degrees colder (common practice, no source). [degC]"""

MOST_BODY_STATES = 5
"""On how many body states the ways of moving the car may depend: each doubles their table."""


@dataclass(frozen=True, slots=True)
class Arrival:
    """A part that jobs want and that is not on the shelf, or that nobody recorded.

    Parameters
    ----------
    id, title : str
        Its key and what the restorer reads.
    expected_minute : int, optional
        When it is due; None when nobody knows. [minutes from the origin]
    lead_minutes : int, optional
        For a part not yet ordered: how long after ordering it comes. It is planned as if it were
        ordered now, and `Road.order_by` says how long that may wait. [min]
    late_share : float
        How many in a hundred such parts come late, as a share. [-]
    late_mean_days : float
        How late these are on average. [days]
    known : bool
        False when nobody recorded whether it is on the shelf: *not known* is not *missing*, so
        it blocks nothing and is only mentioned.
    belief : SourceBelief, optional
        What is believed of where it comes from; with it the forecast also knows how little that
        may be, and that one source is late with everything. None takes the two figures above
        as certain and every part as right.
    """

    id: str
    title: str
    expected_minute: int | None = None
    lead_minutes: int | None = None
    late_share: float = 0.3
    late_mean_days: float = 7.0
    known: bool = True
    belief: SourceBelief | None = None

    def __post_init__(self) -> None:
        if not 0.0 <= self.late_share <= 1.0:
            raise BadInput(
                f"late share of '{self.title}'", f"is {self.late_share}", "give a share from 0 to 1"
            )
        if self.late_mean_days < 0 or (self.lead_minutes or 0) < 0:
            raise BadInput(f"delay of '{self.title}'", "is below 0", "give 0 or more")


@dataclass(frozen=True, slots=True)
class Proof:
    """Evidence that something is right, owed before a job hides it.

    Parameters
    ----------
    id, title : str
        Its key and what the restorer reads.
    proven_by : tuple of str
        The jobs, not yet finished, that together prove it.
    held : bool
        Whether it is held now.
    """

    id: str
    title: str
    proven_by: tuple[str, ...] = ()
    held: bool = False


@dataclass(frozen=True, slots=True)
class Gate:
    """A named point that the jobs it blocks do not pass until all it needs is done and held.

    Parameters
    ----------
    id, title : str
        Its key and what the restorer reads: ``"under-car"``.
    needs_jobs, needs_proofs : tuple of str
        What must be finished, and which proofs must be held.
    blocks : tuple of str
        The jobs that wait for it; no other job does.
    """

    id: str
    title: str
    needs_jobs: tuple[str, ...] = ()
    needs_proofs: tuple[str, ...] = ()
    blocks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """Moving the car from one support to another.

    Parameters
    ----------
    before, after : str
        The two supports; only in this direction.
    minutes : int
        How long it takes. [min]
    people : int
        2 when it is not done alone.
    body_needs, body_bars : frozenset of str
        What must be off or out for it, and what must not: a car without wheels does not roll.
    """

    before: str
    after: str
    minutes: int
    people: int = 1
    body_needs: frozenset[str] = frozenset()
    body_bars: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        if self.minutes < 0 or self.people not in (1, 2):
            raise BadInput(
                f"change from {self.before} to {self.after}",
                f"takes {self.minutes} minutes and {self.people} people",
                "give 0 minutes or more, and 1 or 2 people",
            )


@dataclass(frozen=True, slots=True)
class Pace:
    """How this owner's hours run against the estimates, in one system.

    Parameters
    ----------
    system : str
        Empty for every system that has no pace of its own.
    factor : float
        1.3 when jobs take a third longer than estimated. [-]
    spread : float, optional
        How far it may be off, as the standard deviation of its logarithm: of the common pace, or
        of what a system has of its own. None takes it from `Luck`. [-]
    common_share : float
        How much of an error in the common pace this one shares: 1 for a system with no record,
        towards 0 the more its own jobs tell. [-]
    """

    system: str = ""
    factor: float = 1.0
    spread: float | None = None
    common_share: float = 1.0

    def __post_init__(self) -> None:
        if not 0.1 <= self.factor <= 10.0:
            raise BadInput("pace", f"is {self.factor}", "give a factor from 0.1 to 10")
        if self.spread is not None and not 0.0 <= self.spread <= 2.0:
            raise BadInput("spread of the pace", "is out of range", "give 0 to 2")
        if not 0.0 <= self.common_share <= 1.0:
            raise BadInput("share of the common pace", "is out of range", "give 0 to 1")


@dataclass(frozen=True, slots=True)
class Luck:
    """How uncertain the future is, beyond the hours of each job and the delay of each part.

    Parameters
    ----------
    pace_spread, system_spread : float
        Spread (standard deviation of the logarithm) of one pace factor common to all jobs, and
        of one more for each system. [-]
    lost_week_share, lost_session_share : float
        Share of whole weeks, and of single sessions, that do not take place. [-]
    no_show_share : float
        Share of helper sessions to which no helper comes. [-]
    lost_week_weight, lost_session_weight, no_show_weight : float
        How many weeks and sessions each of these shares rests on, prior knowledge included; the
        forecast lets the share itself vary by that much (a beta distribution). 0 takes it as
        certain. [-]
    spread_shape, spread_scale : float
        How sure it is that hours spread as the three hours of each job say: their variance is
        multiplied by an inverse-gamma variable of this shape and scale. Shape 0 takes them at
        their word. [-]
    """

    pace_spread: float = 0.15
    system_spread: float = 0.10
    lost_week_share: float = 0.05
    lost_session_share: float = 0.08
    no_show_share: float = 0.15
    lost_week_weight: float = 0.0
    lost_session_weight: float = 0.0
    no_show_weight: float = 0.0
    spread_shape: float = 0.0
    spread_scale: float = 0.0

    def __post_init__(self) -> None:
        weights = (self.lost_week_weight, self.lost_session_weight, self.no_show_weight)
        if min(*weights, self.spread_shape, self.spread_scale) < 0:
            raise BadInput("weight of a share", "is below 0", "give 0 or more")
        for what, share in (
            ("share of lost weeks", self.lost_week_share),
            ("share of lost sessions", self.lost_session_share),
            ("share of helper no-shows", self.no_show_share),
        ):
            if not 0.0 <= share <= 0.95:
                raise BadInput(what, f"is {share}", "give a share from 0 to 0.95")
        if not (0.0 <= self.pace_spread <= 2.0 and 0.0 <= self.system_spread <= 2.0):
            raise BadInput("spread of the pace", "is out of range", "give 0 to 2")


@dataclass(frozen=True, slots=True)
class PlanProblem:
    """Everything a plan is made from.

    Parameters
    ----------
    origin : datetime
        Now, aware; minute 0 of every time.
    jobs : tuple of PlanJob
        What is not finished.
    sessions : SessionSource
        The garage time there will be.
    arrivals, proofs, gates, changes, paces : tuple
        As their own classes say.
    support : str
        How the car stands now.
    body : frozenset of str
        What is off or out now: ``"engine out"``.
    goal : tuple of str
        The jobs with which the car is on the road; empty when every job counts. Jobs that lead
        to none of these fill the time that is over.
    set_up_minutes, clear_up_minutes : int
        Taken from the start and the end of each session. [min]
    stay_up_minutes : int
        How far past the end the owner stays to finish what takes longer than planned. [min]
    luck : Luck
        How uncertain the future is.
    time_zone : str
        In which dates are read out.
    support_titles : tuple of (str, str)
        Each support and what the restorer calls it; one that is not here is read out by its key.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.sessions import SessionSlot
    >>> job = PlanJob("wax", "Wax the sills", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> PlanProblem(datetime(2031, 3, 4, 18, tzinfo=UTC), (job,), evenings).job("wax").title
    'Wax the sills'
    """

    origin: datetime
    jobs: tuple[PlanJob, ...]
    sessions: SessionSource
    arrivals: tuple[Arrival, ...] = ()
    proofs: tuple[Proof, ...] = ()
    gates: tuple[Gate, ...] = ()
    changes: tuple[Change, ...] = ()
    support: str = ""
    goal: tuple[str, ...] = ()
    set_up_minutes: int = 15
    clear_up_minutes: int = 15
    stay_up_minutes: int = 30
    paces: tuple[Pace, ...] = ()
    luck: Luck = field(default_factory=Luck)
    time_zone: str = "UTC"
    body: frozenset[str] = frozenset()
    support_titles: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        if self.origin.utcoffset() is None:
            raise BadInput("origin of the plan", "has no time zone", "give an aware date and time")
        if min(self.set_up_minutes, self.clear_up_minutes, self.stay_up_minutes) < 0:
            raise BadInput("set-up, clear-up or staying up", "is below 0", "give 0 minutes or more")
        for what, ids in (
            ("jobs", [job.id for job in self.jobs]),
            ("parts", [arrival.id for arrival in self.arrivals]),
            ("proofs", [proof.id for proof in self.proofs]),
            ("gates", [gate.id for gate in self.gates]),
        ):
            if len(set(ids)) != len(ids):
                twice = next(key for key in ids if ids.count(key) > 1)
                raise BadInput(what, f"'{twice}' is there twice", "give each one its own key")
        asked = {state for c in self.changes for state in c.body_needs | c.body_bars}
        if len(asked) > MOST_BODY_STATES:
            raise BadInput(
                "body states that moving the car depends on",
                f"are {len(asked)}",
                f"name at most {MOST_BODY_STATES}",
            )

    def job(self, job_id: str) -> PlanJob:
        """Find a job by its key."""
        for job in self.jobs:
            if job.id == job_id:
                return job
        raise BadInput("job", f"there is no '{job_id}' in this plan", "name one that is not done")

    def when(self, minute: int) -> datetime:
        """Turn minutes from the origin into a date and time, in the origin's own zone."""
        return self.origin + timedelta(minutes=minute)
