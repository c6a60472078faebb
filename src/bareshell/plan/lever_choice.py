"""Which levers are worth measuring in this garage: those about what bound the date most."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from bareshell.plan import wording
from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.engine import Outcome
from bareshell.plan.hours import planned_minutes
from bareshell.plan.lever_kinds import (
    Lever,
    garage_kept_warm,
    helper_comes_too,
    helper_every_time,
    hours_as_estimated,
    job_left_out,
    job_lent,
    nothing_lost,
    part_sooner,
    parts_in_time,
    session_more,
)
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot

__all__ = ["MOST_LEVERS", "usual_levers"]

MOST_LEVERS = 10
"""So many levers are measured unless others are asked for."""

LOOK_AHEAD = 12
"""Among so many sessions one more with the helper is looked for: some four weeks."""

WARM_C = 18.0
"""What a heater is taken to reach when no job asks for more (common practice, no source). [degC]"""


def usual_levers(
    problem: PlanProblem,
    outcome: Outcome,
    *,
    may_be_left_out: Iterable[str] = (),
    may_be_lent: Iterable[str] = (),
    most: int = MOST_LEVERS,
) -> tuple[Lever, ...]:
    """Choose the levers that are worth measuring.

    Parameters
    ----------
    problem : PlanProblem
        As it was walked through.
    outcome : Outcome
        What bound the date.
    may_be_left_out, may_be_lent : iterable of str
        Jobs that the car can go on the road without, and jobs that somebody else could do; a
        plan cannot know either.
    most : int
        How many at most; what bound the date most comes first, and each kind is there.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.engine import Engine
    >>> from bareshell.plan.policy import Policy
    >>> from bareshell.plan.problem import Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> plan = PlanProblem(
    ...     datetime(2031, 3, 4, tzinfo=UTC),
    ...     (wax,),
    ...     SessionSource.repeating([SessionSlot(60, 150, kind="Tuesday")]),
    ... )
    >>> walked = Engine(plan, engine="plain").run(Policy((60,)), seed=1, samples=3)
    >>> [lever.title for lever in usual_levers(plan, walked)]
    ["one session more a week, as 'Tuesday'", 'no session lost and no helper absent',
    'hours that keep to your estimates']
    """
    by_kind = (
        _parts(problem, outcome),
        _more_time(problem),
        _helper(problem),
        _warmth(problem),
        _jobs(problem, outcome, set(may_be_lent), job_lent),
        _jobs(problem, outcome, set(may_be_left_out), job_left_out),
        _habits(problem),
    )
    chosen: list[Lever] = []
    # The first of every kind, then the second of every kind, until there are enough.
    for turn in range(max(map(len, by_kind))):
        chosen += [levers[turn] for levers in by_kind if turn < len(levers)]
    return tuple(chosen[:most])


def _parts(problem: PlanProblem, outcome: Outcome) -> list[Lever]:
    lost = zip(outcome.binding.part_minutes, problem.arrivals, strict=True)
    held = sorted(((m, a.id, a) for m, a in lost if m), key=lambda one: (-one[0], one[1]))
    return [part_sooner(arrival) for _, _, arrival in held]


def _more_time(problem: PlanProblem) -> list[Lever]:
    """Double the shortest session that comes every week, on the first free day after it."""
    every = problem.sessions.template
    if not every:
        return []
    period = problem.sessions.template_minutes
    weeks = max(1, period // WEEK_MINUTES)
    slots = [slot.moved(problem.sessions.template_start_minute) for slot in every]
    by_place: dict[tuple[int, int], list[SessionSlot]] = {}
    for slot in slots:
        by_place.setdefault((_day_of(slot), slot.minutes), []).append(slot)
    # A session that is not there most weeks is no habit to build on.
    weekly = [found for found in by_place.values() if 2 * len(found) >= weeks]
    if not weekly:
        return []
    like = min(weekly, key=lambda found: (found[0].minutes, found[0].start_minute))[0]
    taken = {_day_of(slot) for slot in slots}
    for days in range(1, 7):
        if (_day_of(like) + days) % 7 not in taken:
            return [session_more(like, days)]
    return []


def _day_of(slot: SessionSlot) -> int:
    return slot.start_minute // DAY_MINUTES % 7


def _helper(problem: PlanProblem) -> list[Lever]:
    """Ask the helper for one long session soon, or for every one of its kind."""
    wanted = any(way.people > 1 for job in problem.jobs for way in job.ways)
    wanted = wanted or any(change.people > 1 for change in problem.changes)
    if not wanted:
        return []
    ahead = problem.sessions.first(LOOK_AHEAD)[1:]
    alone = [slot for slot in ahead if slot.people == 1]
    if not alone:
        return []
    longest = max(slot.minutes for slot in alone)
    slot = next(slot for slot in alone if slot.minutes == longest)
    found = [helper_comes_too(slot, wording.date(problem, slot.start_minute))]
    if slot.kind and any(one.kind == slot.kind for one in problem.sessions.template):
        found.append(helper_every_time(slot.kind))
    return found


def _warmth(problem: PlanProblem) -> list[Lever]:
    wanted = [job for job in problem.jobs if job.min_temperature_c is not None]
    if not wanted:
        return []
    celsius = max(WARM_C, *(job.min_temperature_c or WARM_C for job in wanted))
    cold = [s for s in problem.sessions.kinds if (s.coldest_c or celsius) < celsius]
    if not cold:
        return []
    nights = [garage_kept_warm(celsius, nights=True)]
    if all(slot.temperature_c is None or slot.temperature_c >= celsius for slot in cold):
        return nights
    return [*nights, garage_kept_warm(celsius, nights=False)]


def _jobs(
    problem: PlanProblem, outcome: Outcome, of: set[str], lever: Callable[[PlanJob], Lever]
) -> list[Lever]:
    """Take the jobs that were on the binding chain with the most hours."""
    weighed = [
        (share * min(planned_minutes(problem, job).values()), job)
        for share, job in zip(outcome.binding.job_samples, problem.jobs, strict=True)
        if job.id in of and share
    ]
    weighed.sort(key=lambda one: (-one[0], one[1].id))
    return [lever(job) for _, job in weighed]


def _habits(problem: PlanProblem) -> Sequence[Lever]:
    found = [nothing_lost(), hours_as_estimated()]
    if any(arrival.known for arrival in problem.arrivals):
        found.append(parts_in_time())
    return found
