"""What changed in the next two weeks since a plan was given out, and why, in two sentences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from bareshell.plan import wording
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Block, Schedule

__all__ = [
    "WINDOW_DAYS",
    "Changed",
    "Intended",
    "Moved",
    "PlannedDay",
    "changed_between",
    "day_of",
    "first_blocks",
    "held_by",
    "last_day",
    "what_changed",
]

WINDOW_DAYS = 14
"""How far ahead a plan is kept to: people arrange themselves for about so long. [days]"""

FROM_OUTSIDE = frozenset({"part", "helper", "cold", "wait", "date"})
"""Causes that are not the owner's own hours; they are named before any other."""


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
class PlannedDay:
    """When the plan begins with a job, and what held it up until then.

    Parameters
    ----------
    day : date
        The owner's day.
    cause : str
        One of `bareshell.plan.schedule.CAUSES`; empty when it is not known.
    reason : str
        The same in a sentence; empty when there is none.
    """

    day: date
    cause: str = ""
    reason: str = ""


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
    blocks = first_blocks(schedule)
    called = {**(titles or {}), **{job.id: job.title for job in problem.jobs}}
    now = {
        job: PlannedDay(day_of(problem, block.start_minute), *held_by(problem, block))
        for job, block in blocks.items()
    }
    last = until or last_day(problem)
    return changed_between(earlier, now, called, day_of(problem, 0), last, done)


def held_by(problem: PlanProblem, block: Block) -> tuple[str, str]:
    """Say why a job is not begun sooner than the plan begins with it: the cause, and in words.

    Parameters
    ----------
    problem : PlanProblem
        What was planned.
    block : Block
        The first piece of the job.
    """
    cause, title = block.cause, problem.job(block.job_id or "").title
    if cause is None:
        return "", ""
    other = f"'{problem.jobs[cause.job].title}'" if cause.job >= 0 else ""
    part = problem.arrivals[cause.part].title if cause.part >= 0 else "a part"
    words = {
        "part": f"'{title}' waits for {part}.",
        "helper": f"'{title}' waits for the next session with the helper.",
        "cold": f"'{title}' waits for a warmer session.",
        "wait": f"'{title}' waits for {other} to cure or hold.",
        "date": f"'{title}' waits for what was done before it to cure or hold.",
        "session": f"What was left of the sessions before is too short for '{title}'.",
        "job": f"'{title}' comes after {other}, which is not done yet.",
        "owner": f"{other} comes before '{title}' and takes its time.",
    }
    return cause.kind, words.get(cause.kind, "")


def changed_between(
    earlier: Sequence[Intended],
    now: Mapping[str, PlannedDay],
    titles: Mapping[str, str],
    today: date,
    last: date,
    done: Iterable[str] = (),
) -> Changed:
    """Say what changed between a plan that was given out and one that is planned now.

    Parameters
    ----------
    earlier : sequence of Intended
        What was given out.
    now : mapping of str to PlannedDay
        When each job is planned now.
    titles : mapping of str to str
        What jobs are called.
    today, last : date
        The owner's day, and the last one that the earlier plan spoke of.
    done : iterable of str
        Jobs that are finished by now, or were taken up as planned.

    Examples
    --------
    >>> was = [Intended("wax", date(2031, 3, 4))]
    >>> now = {"wax": PlannedDay(date(2031, 3, 11), "part", "'Wax' waits for wax.")}
    >>> found = changed_between(was, now, {"wax": "Wax"}, date(2031, 3, 3), date(2031, 3, 16))
    >>> found.what, found.why
    ("'Wax' from Tue 4 Mar to Tue 11 Mar; no job stays where planned.", "'Wax' waits for wax.")
    """
    finished = frozenset(done)
    was = {one.job_id: one.day for one in reversed(earlier)}
    moved = [
        Moved(job, titles.get(job, job), day, now[job].day if job in now else None)
        for job, day in was.items()
        if job not in finished and (job not in now or now[job].day != day)
    ]
    came_in = [
        Moved(job, titles.get(job, job), None, planned.day)
        for job, planned in now.items()
        if was and job not in was and planned.day <= last
    ]
    begun = {one.job_id: at for at, one in reversed(list(enumerate(earlier)))}
    moved.sort(key=lambda one: (one.before or today, begun[one.job_id]))
    stayed = sum(job in now and now[job].day == day for job, day in was.items())
    return Changed(
        stayed,
        tuple(job for job in was if job in finished),
        (*moved, *came_in),
        _what(moved, came_in, stayed),
        _why(now, today, moved, came_in, done=bool(finished & set(was))),
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
    now: Mapping[str, PlannedDay],
    today: date,
    moved: Sequence[Moved],
    came_in: Sequence[Moved],
    *,
    done: bool,
) -> str:
    """Give the reason of the first job that is now later; the plan itself knows it."""
    if not moved and not came_in:
        return "What was written down since fits the plan."
    for one in moved:
        if one.after is None:
            return f"'{one.title}' is no longer to be done, or cannot be planned."
    later = [one for one in moved if one.before and one.after and one.after > one.before]
    first = next((one for one in later if now[one.job_id].cause in FROM_OUTSIDE), None)
    # Today's list is missed too once nothing more is planned for today.
    over = all(planned.day > today for planned in now.values())
    missed = next(
        (one for one in later if one.before and one.before < today + timedelta(days=over)), None
    )
    if first is None and missed is not None:
        return f"'{missed.title}' was to be begun on {_said(missed.before)} and was not."
    first = first or next(iter(later), None)
    reason = now[first.job_id].reason if first is not None else ""
    if reason:
        return reason
    if done and not later:
        return "More was done than planned, so what follows comes forward."
    return "The hours left, the sessions or the order of what is open are not what they were."


def first_blocks(schedule: Schedule) -> dict[str, Block]:
    """Return the first piece of each job, in the order in which they are begun."""
    first: dict[str, Block] = {}
    for block in schedule.blocks:
        if block.kind == "work" and block.job_id is not None:
            first.setdefault(block.job_id, block)
    return first


def day_of(problem: PlanProblem, minute: int) -> date:
    """Return the owner's day of a moment of the plan."""
    return problem.when(minute).astimezone(ZoneInfo(problem.time_zone)).date()


def last_day(problem: PlanProblem) -> date:
    """Return the last of the next two weeks."""
    return day_of(problem, 0) + timedelta(days=WINDOW_DAYS - 1)


def _said(day: date | None, since: date | None = None) -> str:
    if day is None:
        return "later"
    year = f" {day.year}" if since is not None and day.year != since.year else ""
    return f"{day:%a} {day.day} {day:%b}{year}"
