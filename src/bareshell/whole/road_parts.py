"""What the road ahead is made of, as plain frozen data: picture, page, JSON and paper."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bareshell.whole.forecast_parts import IssuedLine, PaceLine, ScoreLine


@dataclass(frozen=True, slots=True)
class RoadJob:
    """A job, or a piece of one, in a session.

    ``by_helper`` when the helper does it alone. For its first piece ``cause`` and ``why`` say what
    held it up until then, as a word and as a sentence; both are empty when nothing did.
    """

    id: str
    title: str
    system: str
    starts_at: datetime
    minutes: int
    people: int
    finishes: bool
    by_helper: bool = False
    cause: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class RoadStance:
    """How the car stands through a stretch of a session."""

    support: str
    title: str
    kind: str
    minutes: int


@dataclass(frozen=True, slots=True)
class RoadSession:
    """One session to come, as planned; ``needed`` is False after the road is reached."""

    number: int
    starts_at: datetime
    minutes: int
    people: int
    temperature_c: float | None
    kind: str
    jobs: tuple[RoadJob, ...]
    stances: tuple[RoadStance, ...] = ()
    moved: tuple[str, ...] = ()
    helper_minutes: int = 0


@dataclass(frozen=True, slots=True)
class RoadArrival:
    """A part that is due, and the job that waits for it; ``latest`` is nine in ten."""

    need: str
    title: str
    job_title: str
    due: date | None
    latest: date | None = None


@dataclass(frozen=True, slots=True)
class OrderDay:
    """The last day to order a part so that a share of such orders is here in time."""

    share: float
    day: date


@dataclass(frozen=True, slots=True)
class OrderBy:
    """By when a part that is not on order must be ordered so that nothing waits for it.

    ``order_by`` is for nine in ten such orders in time; ``days`` has the others one can choose.
    """

    need: str
    title: str
    order_by: date
    needed_on: date
    words: str = ""
    days: tuple[OrderDay, ...] = ()

    def by(self, share: float) -> date:
        """Return the last day for a share of orders in time; that for nine in ten otherwise."""
        return next((one.day for one in self.days if one.share == share), self.order_by)


@dataclass(frozen=True, slots=True)
class SeasonLine:
    """A job that the cold keeps from the next session.

    Parameters
    ----------
    job, title : str
        The job.
    least_c : float
        What it wants. [degC]
    cure_hours : float
        For how long after it; 0 while it is worked on only. [h]
    people : int
        The fewest it takes.
    opens, closes : date or None
        The first session warm enough for it, and the first after that which is too cold again.
    planned : date or None
        When the plan begins with it.
    words : str
        The same in a sentence.
    """

    job: str
    title: str
    least_c: float
    cure_hours: float
    people: int
    opens: date | None
    closes: date | None
    planned: date | None
    words: str


@dataclass(frozen=True, slots=True)
class RoadGate:
    """A gate and the day on which the plan comes to it."""

    id: str
    title: str
    day: date


@dataclass(frozen=True, slots=True)
class Bind:
    """What the finish waited for, as a share of the futures."""

    kind: str
    share: float
    words: str


@dataclass(frozen=True, slots=True)
class RoadOverview:
    """Every session to the road, when it may be reached, and what that rests on.

    Parameters
    ----------
    p50, p80, p95 : date or None
        Half, eight in ten and nineteen in twenty futures reach the road by the end of the
        week that begins on this Monday; None when no session ever reaches it.
    sampling_error_days : float
        Standard error of p80 from the number of futures. [days]
    futures : tuple of date
        Twenty evenly spread finishes, for the twenty dots.
    hours_left, helper_hours_left : float
        Likely work left, and how much of it takes two people. [h]
    promise : str
        The bound in words: before when no order of jobs gets the car on the road.
    p50_error_days, p95_error_days : float
        The same as `sampling_error_days` for p50 and p95. [days]
    paces : tuple of PaceLine
        How the owner's hours run against the estimates, the common pace first.
    issued : tuple of IssuedLine
        The forecasts that were kept, the oldest first.
    scores : tuple of ScoreLine
        How forecasts of jobs, parts and gates have done.
    changed, because : str
        What changed in the next two weeks since a forecast was last kept, and why; empty when
        none is so recent.
    gap_days : int or None
        How much earlier the road could be reached at most by any other order of jobs. [days]
    gap : str
        The same in a sentence.
    seasonal : tuple of SeasonLine
        Work that waits for warmth, by when it is planned.
    rest_p50, rest_p80 : date or None
        Where the road is not reached as it stands: by the end of which weeks everything else is
        done in half and in eight of ten futures; None where it is reached.
    idle : tuple of str
        Weeks in which nothing can be done, and what the next work waits for.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    p50: date | None
    p80: date | None
    p95: date | None
    sampling_error_days: float = 0.0
    futures: tuple[date, ...] = ()
    hours_left: float = 0.0
    helper_hours_left: float = 0.0
    proofs_owed: int = 0
    sessions: tuple[RoadSession, ...] = ()
    arrivals: tuple[RoadArrival, ...] = ()
    order_by: tuple[OrderBy, ...] = ()
    gates: tuple[RoadGate, ...] = ()
    binds: tuple[Bind, ...] = ()
    away_weeks: tuple[date, ...] = ()
    support_changes: int = 0
    promise: str = ""
    stranded: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    engine: str = ""
    samples: int = 0
    seed: int = 0
    p50_error_days: float = 0.0
    p95_error_days: float = 0.0
    paces: tuple[PaceLine, ...] = ()
    issued: tuple[IssuedLine, ...] = ()
    scores: tuple[ScoreLine, ...] = ()
    changed: str = ""
    because: str = ""
    gap_days: int | None = None
    gap: str = ""
    seasonal: tuple[SeasonLine, ...] = ()
    rest_p50: date | None = None
    rest_p80: date | None = None
    idle: tuple[str, ...] = ()

    @property
    def rest(self) -> str:
        """Say when everything that can be planned is done, where the road is not reached."""
        if self.rest_p50 is None or self.rest_p80 is None:
            return ""
        return (
            "Everything that does not hang on it is done by the week of "
            f"{self.rest_p50.day} {self.rest_p50:%B %Y} in half of {self.samples:,} futures, by "
            f"that of {self.rest_p80.day} {self.rest_p80:%B %Y} in eight of ten."
        )
