"""What the road ahead is made of, as plain frozen data: picture, page, JSON and paper."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bareshell.whole.forecast_parts import IssuedLine, PaceLine, ScoreLine


@dataclass(frozen=True, slots=True)
class RoadJob:
    """A job, or a piece of one, in a session; ``by_helper`` when the helper does it alone."""

    id: str
    title: str
    system: str
    starts_at: datetime
    minutes: int
    people: int
    finishes: bool
    by_helper: bool = False


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
class OrderBy:
    """By when a part that is not on order must be ordered so that nothing waits for it."""

    need: str
    title: str
    order_by: date
    needed_on: date
    words: str = ""


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
