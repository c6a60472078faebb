"""Small moves: after an entry the next two weeks change as little as the finish allows.

Of several rules that lead to the road as soon, as far as anybody can tell, the one is gone by that
has the fewest jobs on another day than the plan that was last given out; and what did change is
said in two sentences.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from bareshell.plan import wording
from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.policy import Fate, Policy
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready
from bareshell.plan.sampling import as_planned
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.walk import walk

__all__ = ["Changed", "Intended", "Moved", "Steady", "fortnight", "steady", "what_changed"]

WINDOW_DAYS = 14
"""How far ahead a plan is kept to: people arrange themselves for about so long. [days]"""

CLEAR_DAYS = 0.5
"""Leaving the plan must bring the road nearer by more than this, and beyond doubt. [days]"""

MOST_LIFTS = 5
"""So many jobs at most are lifted one by one to leave fewer that moved."""

MOST_COMPARED = 4
"""So many rules at most are held against the free one by their finish."""

FROM_OUTSIDE = frozenset({"part", "helper", "cold", "wait", "date"})
"""Causes that are not the owner's own hours; they are named before any other."""

SAMPLES = 400
"""On how many fates keeping to the plan is compared with leaving it."""


@dataclass(frozen=True, slots=True)
class Intended:
    """A job, and the day on which the plan begins with it.

    Parameters
    ----------
    job_id : str
        The job.
    day : date
        The owner's day.
    """

    job_id: str
    day: date


@dataclass(frozen=True, slots=True)
class Steady:
    """By which rule to go on.

    Parameters
    ----------
    policy : Policy
        The rule.
    moves : int
        How many jobs of the two weeks it has on another day than the plan that was given out,
        those that come in and fall out included.
    free_moves : int
        How many the rule that is gone by freely would have.
    cost_days, standard_error_days : float
        How much later the road is reached on average than by the free rule, and how far that
        may be off. [days]
    """

    policy: Policy
    moves: int
    free_moves: int
    cost_days: float = 0.0
    standard_error_days: float = 0.0


@dataclass(frozen=True, slots=True)
class Moved:
    """A job that is now on another day.

    Parameters
    ----------
    job_id, title : str
        The job.
    before, after : date, optional
        From when to when; None for not within the two weeks.
    """

    job_id: str
    title: str
    before: date | None
    after: date | None


@dataclass(frozen=True, slots=True)
class Changed:
    """What changed in the next two weeks since a plan was given out.

    Parameters
    ----------
    stayed : int
        How many jobs are on the day they were on.
    done : tuple of str
        Jobs of the plan that are done, by key.
    moved : tuple of Moved
        Jobs on another day, those that came in, and those that fell out.
    what, why : str
        The same in plain words: one sentence each.
    """

    stayed: int
    done: tuple[str, ...]
    moved: tuple[Moved, ...]
    what: str
    why: str


def fortnight(
    problem: PlanProblem, schedule: Schedule, days: int = WINDOW_DAYS
) -> tuple[Intended, ...]:
    """List the jobs of the next two weeks in the order in which they are begun.

    Parameters
    ----------
    problem : PlanProblem
        For the days.
    schedule : Schedule
        The plan, with everything as estimated.
    days : int
        How far ahead. [days]

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> from bareshell.plan.walk import walk
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> fortnight(plan, walk(plan, Policy((60,))).schedule)
    (Intended(job_id='wax', day=datetime.date(2031, 3, 4)),)
    """
    begun = {
        job: block
        for job, block in _first_blocks(schedule).items()
        if block.start_minute < days * DAY_MINUTES
    }
    return tuple(Intended(job, _day(problem, b.start_minute)) for job, b in begun.items())


def steady(
    made: Ready,
    intended: Sequence[Intended],
    *,
    until: date | None = None,
    samples: int = SAMPLES,
) -> Steady:
    """Find the rule that moves the fewest jobs of the next two weeks and costs nothing clear.

    Parameters
    ----------
    made : Ready
        The problem as it is now, with the rule that would be gone by freely.
    intended : sequence of Intended
        What was given out, in order.
    until : date, optional
        The last day that it spoke of; two weeks from now when left out.
    samples : int
        On how many fates the finish is compared.

    Returns
    -------
    Steady
        Another rule only where it moves fewer jobs; else the free one.
    """
    here = {job.id for job in made.problem.jobs}
    open_jobs = [one for one in intended if one.job_id in here]
    near = _Near(made.problem, open_jobs, until)
    free_moves = near.moves(made.policy) if open_jobs else 0
    if not free_moves:
        return Steady(made.policy, free_moves, free_moves)
    rules = _rules(made.policy, [one.job_id for one in open_jobs], made.problem)
    best = sorted(((near.moves(rule), at) for at, rule in enumerate(rules)), key=lambda one: one)
    tried = [(moves, rules[at]) for moves, at in best if moves < free_moves]
    if tried:
        tried.insert(0, near.fewer(*tried[0]))
    # Without a compiler there is no time to compare finishes: what was given out stands.
    if made.engine.name == "plain":
        return Steady(tried[0][1], tried[0][0], free_moves) if tried else _free(made, free_moves)
    finish = made.engine.run(made.policy, seed=made.seed, samples=samples).finish
    for moves, rule in tried[:MOST_COMPARED]:
        after = made.engine.run(rule, seed=made.seed, samples=samples).finish
        cost, error = paired_days(after, finish)
        if cost <= max(2 * error, CLEAR_DAYS):
            return Steady(rule, moves, free_moves, cost, error)
    return _free(made, free_moves)


def _free(made: Ready, moves: int) -> Steady:
    return Steady(made.policy, moves, moves)


class _Near:
    """Walks through the next two weeks alone, and counts what moved."""

    def __init__(
        self, problem: PlanProblem, intended: Sequence[Intended], until: date | None
    ) -> None:
        self.problem = problem
        self.was = {one.job_id: one.day for one in reversed(intended)}
        end = WINDOW_DAYS * DAY_MINUTES
        if intended:
            end = max(end, (max(self.was.values()) - _day(problem, 0)).days * DAY_MINUTES)
        slots = problem.sessions.first(len(problem.sessions.kinds))
        # One session more, so that the car is left as it will want it.
        count = sum(slot.start_minute < end for slot in slots) + 1
        planned = as_planned(problem, count)
        self.fate = Fate(
            planned.factor[0].tolist(), planned.arrives[0].tolist(), planned.people[0].tolist()
        )
        self.last = until or _last_day(problem)

    def days(self, policy: Policy) -> dict[str, date]:
        """Say on which day each job of the two weeks is begun."""
        schedule = walk(self.problem, policy, self.fate).schedule
        blocks = _first_blocks(schedule)
        return {job: _day(self.problem, block.start_minute) for job, block in blocks.items()}

    def moves(self, policy: Policy) -> int:
        """Count the jobs that are on another day, came in or fell out."""
        now = self.days(policy)
        moved = sum(now.get(job) != day for job, day in self.was.items())
        return moved + sum(day <= self.last for job, day in now.items() if job not in self.was)

    def fewer(self, moves: int, policy: Policy) -> tuple[int, Policy]:
        """Lift one job that moved at a time as long as that leaves fewer that did."""
        for _ in range(MOST_LIFTS):
            now = self.days(policy)
            moved = [job for job, day in self.was.items() if now.get(job) != day]
            tried = [_lifted(policy, [job], self.problem) for job in moved[:MOST_LIFTS]]
            counted = [(self.moves(rule), at) for at, rule in enumerate(tried)]
            if not counted or min(counted)[0] >= moves:
                break
            moves, at = min(counted)
            policy = tried[at]
        return moves, policy


def _rules(policy: Policy, intended: Sequence[str], problem: PlanProblem) -> list[Policy]:
    """List rules that may follow the plan: its jobs first, in its order, or with other knobs."""
    knobs = (
        policy,
        *(replace(policy, stickiness=value) for value in (20, 60, 5, 0)),
        *(replace(policy, helper_first=value) for value in (2400, 600, 0)),
        *(replace(policy, finish_first=value) for value in (240, 0)),
    )
    lifted = [_lifted(rule, intended, problem) for rule in knobs]
    ordered = _lifted(policy, intended, problem, in_order=True)
    return [*knobs[1:], *lifted, ordered]


def _lifted(
    policy: Policy, jobs: Sequence[str], problem: PlanProblem, *, in_order: bool = False
) -> Policy:
    """Put some jobs above all others, as they are among themselves or in this very order."""
    longest = max((change.minutes for change in problem.changes), default=0)
    step = 1 + policy.finish_first + policy.helper_first + policy.stickiness * longest
    above = max(policy.priority) - min(policy.priority) + step
    ids = tuple(job.id for job in problem.jobs)
    place = {job: step * (len(jobs) - at) if in_order else 0 for at, job in enumerate(jobs)}
    priority = tuple(
        weight + above + place[job] if job in place else weight
        for job, weight in zip(ids, policy.priority, strict=True)
    )
    return replace(policy, priority=priority, job_ids=ids)


def what_changed(
    earlier: Sequence[Intended],
    problem: PlanProblem,
    schedule: Schedule,
    done: Iterable[str] = (),
    until: date | None = None,
    titles: Mapping[str, str] | None = None,
) -> Changed:
    """Say what changed in the next two weeks since a plan was given out, and why.

    Parameters
    ----------
    earlier : sequence of Intended
        What was given out.
    problem : PlanProblem
        As it is now.
    schedule : Schedule
        The plan as it is now.
    done : iterable of str
        Jobs that are finished by now, or were taken up as planned.
    until : date, optional
        The last day that it spoke of; two weeks from now when left out.
    titles : mapping of str to str, optional
        What jobs are called that the problem no longer has.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.sessions import SessionSource
    >>> nothing = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource())
    >>> what_changed((), nothing, Schedule()).what
    'Nothing in the next two weeks has moved.'
    """
    finished = frozenset(done)
    blocks = _first_blocks(schedule)
    called = {**(titles or {}), **{job.id: job.title for job in problem.jobs}}
    now = {job: _day(problem, block.start_minute) for job, block in blocks.items()}
    today = _day(problem, 0)
    last = until or _last_day(problem)
    was = {one.job_id: one.day for one in reversed(earlier)}
    moved = [
        Moved(job, called.get(job, job), day, now.get(job))
        for job, day in was.items()
        if job not in finished and now.get(job) != day
    ]
    came_in = [
        Moved(job, called[job], None, day)
        for job, day in now.items()
        if was and job not in was and day <= last
    ]
    begun = {one.job_id: at for at, one in reversed(list(enumerate(earlier)))}
    moved.sort(key=lambda one: (one.before or today, begun[one.job_id]))
    stayed = sum(now.get(job) == day for job, day in was.items())
    found = (*moved, *came_in)
    return Changed(
        stayed,
        tuple(job for job in was if job in finished),
        found,
        _what(moved, came_in, stayed),
        _why(problem, blocks, moved, came_in, finished & set(was)),
    )


def _what(moved: Sequence[Moved], came_in: Sequence[Moved], stayed: int) -> str:
    if not moved and not came_in:
        return "Nothing in the next two weeks has moved."
    told = []
    if moved:
        shown = (
            f"'{one.title}' from {_said(one.before)} to {_said(one.after, one.before)}"
            if one.after
            else f"'{one.title}' is off the list"
            for one in moved
        )
        told.append(wording.listed(shown, 2))
    if came_in:
        new = wording.listed((f"'{one.title}'" for one in came_in), 2)
        told.append(f"{new} {'comes' if len(came_in) == 1 else 'come'} in")
    stays = f"{stayed or 'no'} {'jobs stay' if stayed > 1 else 'job stays'} where planned"
    return f"{'; '.join(told)}; {stays}."


def _why(
    problem: PlanProblem,
    blocks: dict[str, Block],
    moved: Sequence[Moved],
    came_in: Sequence[Moved],
    done: frozenset[str],
) -> str:
    """Give the reason of the first job that is now later; the plan itself knows it."""
    if not moved and not came_in:
        return "What was written down since fits the plan."
    for one in moved:
        if one.after is None:
            return f"'{one.title}' is no longer to be done, or cannot be planned."
    later = [one for one in moved if one.before and one.after and one.after > one.before]
    causes = {one.job_id: blocks[one.job_id].cause for one in later}
    outside = (one for one in later if (c := causes[one.job_id]) and c.kind in FROM_OUTSIDE)
    first = next(outside, None)
    missed = next((one for one in later if one.before and one.before < _day(problem, 0)), None)
    if first is None and missed is not None:
        return f"'{missed.title}' was to be begun on {_said(missed.before)} and was not."
    first = first or next(iter(later), None)
    reason = _reason(problem, blocks, first) if first is not None else ""
    if reason:
        return reason
    if done:
        return "More was done than planned, so what follows comes forward."
    return "The hours left, the sessions or the order of what is open are not what they were."


def _reason(problem: PlanProblem, blocks: dict[str, Block], one: Moved) -> str:
    cause = blocks[one.job_id].cause
    if cause is None:
        return ""
    other = f"'{problem.jobs[cause.job].title}'" if cause.job >= 0 else ""
    part = problem.arrivals[cause.part].title if cause.part >= 0 else "a part"
    return {
        "part": f"'{one.title}' waits for {part}.",
        "helper": f"'{one.title}' waits for the next session with the helper.",
        "cold": f"'{one.title}' waits for a warmer session.",
        "wait": f"'{one.title}' waits for {other} to cure or hold.",
        "date": f"'{one.title}' waits for what was done before it to cure or hold.",
        "session": f"What was left of the sessions before is too short for '{one.title}'.",
        "job": f"'{one.title}' comes after {other}, which is not done yet.",
        "owner": f"{other} comes before '{one.title}' and takes its time.",
    }.get(cause.kind, "")


def _first_blocks(schedule: Schedule) -> dict[str, Block]:
    first: dict[str, Block] = {}
    for block in schedule.blocks:
        if block.kind == "work" and block.job_id is not None:
            first.setdefault(block.job_id, block)
    return first


def _day(problem: PlanProblem, minute: int) -> date:
    return problem.when(minute).astimezone(ZoneInfo(problem.time_zone)).date()


def _last_day(problem: PlanProblem) -> date:
    return _day(problem, 0) + timedelta(days=WINDOW_DAYS - 1)


def _said(day: date | None, since: date | None = None) -> str:
    if day is None:
        return "later"
    year = f" {day.year}" if since is not None and day.year != since.year else ""
    return f"{day:%a} {day.day} {day:%b}{year}"
