"""The road ahead: every session until the car is on the road, and when that will be.

The sessions show the plan with everything as estimated, which is what to work by; the forecast
shows the spread of dates, which is what to believe. Both come from the same policy, and the first
session is tonight's list.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import log
from typing import TYPE_CHECKING

from bareshell.plan import wording
from bareshell.plan.arrays import DAY_MINUTES, expected_arrival
from bareshell.plan.asitis import AsItIs, expected_slot, laid_over
from bareshell.plan.bound import Bound, bound
from bareshell.plan.checker import Violation, check
from bareshell.plan.choosing import FIRST_MOVE_SAMPLES, choose_moves
from bareshell.plan.engine import EngineName
from bareshell.plan.forecast import Binds, Forecast, binds, forecast
from bareshell.plan.lateness import late_by
from bareshell.plan.policy import Policy
from bareshell.plan.problem import Arrival, PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.validate import Prepared, Snag
from bareshell.plan.walk import walk

if TYPE_CHECKING:
    from numpy import int64
    from numpy.typing import NDArray

__all__ = ["OrderBy", "Road", "RoadSession", "road"]

HERE_IN_TIME = 0.9
"""The share of parts that are to be here in time when they are ordered by the date given."""


@dataclass(frozen=True, slots=True)
class RoadSession:
    """One session on the road ahead.

    Parameters
    ----------
    index : int
        Its place among all sessions.
    slot : SessionSlot
        When, how long, with whom, how warm.
    blocks : tuple of Block
        Its moves; empty when nothing can be done in it.
    support_before, support_after : str
        How the car stands at its beginning and end.
    worked_minutes, change_minutes, idle_minutes : int
        Work of both, moving the car, and how long the owner is at neither. [min]
    helper_for : tuple of str
        Titles of what takes two people, and of what the helper does alone.
    """

    index: int
    slot: SessionSlot
    blocks: tuple[Block, ...]
    support_before: str
    support_after: str
    worked_minutes: int
    change_minutes: int
    idle_minutes: int
    helper_for: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OrderBy:
    """When a part is wanted, and by when to order it.

    Parameters
    ----------
    arrival_id, title : str
        The part.
    wanted_minute : int
        When the first job is planned that wants it. [minutes from the origin]
    due_minute : int
        When it is due, or would be if it were ordered now. [minutes from the origin]
    order_by_minute : int, optional
        Latest day to order it so that nine of ten such parts are here in time; None when it is
        ordered. Below 0 when it is already late. [minutes from the origin]
    sentence : str
        The same in plain words.
    """

    arrival_id: str
    title: str
    wanted_minute: int
    due_minute: int
    order_by_minute: int | None
    sentence: str


@dataclass(frozen=True, slots=True)
class Road:
    """The road ahead.

    Parameters
    ----------
    sessions : tuple of RoadSession
        Every session until the last job.
    schedule : Schedule
        Every move, with everything exactly as estimated.
    forecast : Forecast, optional
        When the road is reached; None when nothing can be planned.
    reaches_road : bool
        False when a job of the goal had to be set aside: then all dates are for what is left.
    bound : Bound
        Before when no order of jobs can get there.
    gap_share : float, optional
        How much later than the bound the plan is, as a share of the bound. [-]
    order_by : tuple of OrderBy
        The parts, the most urgent first.
    binds : tuple of Binds
        What set the date, counted over all fates.
    prepared, policy, snags, violations, engine, samples, seed
        As for `bareshell.plan.tonight.Tonight`.
    finishes : array of int64, optional
        When the goal was reached in each fate, so that two roads can be compared fate by fate;
        None when nothing can be planned. [minutes from the origin]
    """

    sessions: tuple[RoadSession, ...]
    schedule: Schedule
    forecast: Forecast | None
    reaches_road: bool
    bound: Bound
    gap_share: float | None
    order_by: tuple[OrderBy, ...]
    binds: tuple[Binds, ...]
    prepared: Prepared
    policy: Policy
    snags: tuple[Snag, ...]
    violations: tuple[Violation, ...]
    engine: EngineName
    samples: int
    seed: int
    finishes: NDArray[int64] | None = field(default=None, compare=False, repr=False)

    @property
    def problem(self) -> PlanProblem:
        """What was planned."""
        return self.prepared.problem


def road(
    problem: PlanProblem,
    as_it_is: AsItIs | None = None,
    *,
    seed: int,
    samples: int = 2000,
    policy: Policy | None = None,
    threads: int = 2,
    engine: EngineName | None = None,
) -> Road:
    """Plan every session to the road and forecast when it is reached.

    Parameters
    ----------
    problem : PlanProblem
        As expected.
    as_it_is : AsItIs, optional
        How the first session really is.
    seed, samples : int
        Which fates, and how many: 2,000 for a page, 10,000 for a report.
    policy : Policy, optional
        A rule tuned before.
    threads, engine
        As for `bareshell.plan.ready.ready`.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax the sills", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, 18, tzinfo=UTC), (wax,), evenings)
    >>> ahead = road(plan, seed=1, engine="plain")
    >>> len(ahead.sessions), ahead.gap_share, ahead.violations
    (1, 0.0, ())
    """
    if expected_slot(problem) is not None or (as_it_is and as_it_is.minutes is not None):
        problem = laid_over(problem, as_it_is or AsItIs())
    made = ready(problem, seed=seed, policy=policy, threads=threads, engine=engine)
    forced = choose_moves(made, samples=FIRST_MOVE_SAMPLES).forced if made.problem.jobs else ()
    schedule = walk(made.problem, made.policy, forced=forced).schedule
    violations = check(made.problem, schedule, complete=not schedule.left_over)
    least = bound(made.problem)
    gap = None
    if least.finish_minute and schedule.finish_minute is not None:
        gap = schedule.finish_minute / least.finish_minute - 1.0
    spread: Forecast | None = None
    what_binds: tuple[Binds, ...] = ()
    finishes: NDArray[int64] | None = None
    if made.problem.jobs:
        outcome = made.engine.run(made.policy, seed=seed, samples=samples, forced=forced)
        spread, finishes = forecast(made.problem, outcome), outcome.finish
        what_binds = binds(made.problem, outcome.binding, len(outcome.finish))
    return Road(
        _sessions(made.problem, schedule),
        schedule,
        spread,
        made.reaches_goal,
        least,
        gap,
        _order_by(made.problem, schedule),
        what_binds,
        made.prepared,
        made.policy,
        made.prepared.snags,
        tuple(violations),
        made.engine.name,
        spread.samples if spread else 0,
        seed,
        finishes,
    )


def _sessions(problem: PlanProblem, schedule: Schedule) -> tuple[RoadSession, ...]:
    titles = {job.id: job.title for job in problem.jobs}
    count = max((block.session for block in schedule.blocks), default=-1) + 1
    by_session: dict[int, list[Block]] = {}
    for block in schedule.blocks:
        by_session.setdefault(block.session, []).append(block)
    support = problem.support
    out: list[RoadSession] = []
    for index, slot in enumerate(problem.sessions.first(count)):
        blocks = tuple(by_session.get(index, ()))
        before, support = support, blocks[-1].support_after if blocks else support
        worked = sum(block.minutes for block in blocks if block.kind == "work")
        changes = sum(block.minutes for block in blocks if block.kind == "change")
        owner = sum(block.minutes for block in blocks if not block.by_helper)
        usable = slot.minutes - problem.set_up_minutes - problem.clear_up_minutes
        together = dict.fromkeys(
            titles[block.job_id]
            for block in blocks
            if (block.people > 1 or block.by_helper) and block.job_id
        )
        out.append(
            RoadSession(
                index,
                slot,
                blocks,
                before,
                support,
                worked,
                changes,
                max(0, usable - owner),
                tuple(together),
            )
        )
    return tuple(out)


def _order_by(problem: PlanProblem, schedule: Schedule) -> tuple[OrderBy, ...]:
    """Say for each part when it is wanted and when it must be ordered, the most urgent first."""
    begins: dict[str, int] = {}
    ends: dict[str, int] = {}
    for block in schedule.blocks:
        if block.kind == "work" and block.job_id:
            begins.setdefault(block.job_id, block.start_minute)
            ends[block.job_id] = block.start_minute
    wanted: dict[str, int] = {}
    for job in problem.jobs:
        if job.id in begins:
            for parts, at in ((job.parts_to_start, begins), (job.parts_to_finish, ends)):
                for part in parts:
                    wanted[part] = min(wanted.get(part, at[job.id]), at[job.id])
    found = [
        _one_order(problem, arrival, wanted[arrival.id])
        for arrival in problem.arrivals
        if arrival.id in wanted
    ]
    return tuple(sorted(found, key=_urgency))


def _urgency(order: OrderBy) -> tuple[bool, int, str]:
    at = order.wanted_minute if order.order_by_minute is None else order.order_by_minute
    return (order.order_by_minute is None, at, order.arrival_id)


def _one_order(problem: PlanProblem, arrival: Arrival, wanted: int) -> OrderBy:
    due = expected_arrival(arrival)
    first = wording.date(problem, wanted)
    if arrival.expected_minute is not None or arrival.lead_minutes is None:
        overdue = arrival.expected_minute is not None and arrival.expected_minute <= 0
        state = "overdue" if overdue else f"due on {wording.date(problem, due)}"
        sentence = f"{arrival.title}: {state}, wanted on {first}."
        return OrderBy(arrival.id, arrival.title, wanted, due, None, sentence)
    order_by = wanted - arrival.lead_minutes - _allowance(arrival)
    if order_by < DAY_MINUTES:
        sentence = f"{arrival.title}: order it now; it is wanted on {first}."
    else:
        when = wording.date(problem, order_by)
        sentence = f"{arrival.title}: order it by {when}; it is wanted on {first}."
    return OrderBy(arrival.id, arrival.title, wanted, due, order_by, sentence)


def _allowance(arrival: Arrival) -> int:
    """Add the delay that all but one in ten such parts stay under."""
    tenth = 1.0 - HERE_IN_TIME
    if arrival.belief is not None:
        return int(late_by(arrival.belief, HERE_IN_TIME) * DAY_MINUTES + 0.5)
    if arrival.late_share <= tenth:
        return 0
    return int(arrival.late_mean_days * DAY_MINUTES * log(arrival.late_share / tenth) + 0.5)
