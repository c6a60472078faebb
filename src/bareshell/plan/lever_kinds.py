"""What could be done about the date, one thing at a time: each as a change to the problem.

A lever changes the question, never the answer: the changed problem goes through the same walk on
the same luck, so what it gains is measured, not reckoned.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.lateness import Share
from bareshell.plan.problem import Arrival, Link, PlanJob, PlanProblem, Way
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource

__all__ = [
    "Lever",
    "LeverKind",
    "garage_kept_warm",
    "helper_comes_too",
    "helper_every_time",
    "hours_as_estimated",
    "job_left_out",
    "job_lent",
    "nothing_lost",
    "part_sooner",
    "parts_in_time",
    "session_more",
]

LeverKind = Literal["part", "helper", "session", "warmth", "lent", "left out", "habit"]
"""What a lever is about; a *habit* is the way this owner and his suppliers are."""

CLOCK_CHANGE = 120
"""Sessions so near to one another in the week are the same in summer and winter. [min]"""

SENT_OUT = ", sent out"
"""Ends the key of the minute's work of sending a job out."""

NEVER = Share(1e-6, 1.0)
"""A share of next to nothing."""


@dataclass(frozen=True, slots=True)
class Lever:
    """One thing that could be different.

    Parameters
    ----------
    kind : str
        One of `LeverKind`.
    ref : str
        The job, the part or the session it is about; empty for none.
    title : str
        What is different, to be read after "with": ``"tank straps a week earlier"``.
    change : callable
        Makes the problem as it would be.
    """

    kind: LeverKind
    ref: str
    title: str
    change: Callable[[PlanProblem], PlanProblem]


def part_sooner(arrival: Arrival, days: float = 7.0) -> Lever:
    """Have a part so many days earlier than it is due, or its order placed so much sooner.

    Parameters
    ----------
    arrival : Arrival
        One of the problem.
    days : float
        How much sooner; what is overdue is here now. [days]
    """
    minutes = round(days * DAY_MINUTES)

    def sooner(problem: PlanProblem) -> PlanProblem:
        arrivals = tuple(
            _sooner(one, minutes) if one.id == arrival.id else one for one in problem.arrivals
        )
        return replace(problem, arrivals=arrivals)

    overdue = arrival.expected_minute is not None and arrival.expected_minute <= 0
    when = "here now" if overdue else "a week earlier" if days == 7 else f"{days:g} days earlier"
    return Lever("part", arrival.id, f"{arrival.title} {when}", sooner)


def _sooner(arrival: Arrival, minutes: int) -> Arrival:
    if arrival.expected_minute is None:
        return replace(arrival, lead_minutes=max(0, (arrival.lead_minutes or 0) - minutes))
    if arrival.expected_minute <= 0:
        return replace(arrival, expected_minute=1, late_share=0.0, belief=None)
    return replace(arrival, expected_minute=max(1, arrival.expected_minute - minutes))


def helper_comes_too(slot: SessionSlot, when: str) -> Lever:
    """Have the helper at one more session.

    Parameters
    ----------
    slot : SessionSlot
        A session to come, as the problem has it.
    when : str
        The day, read out.
    """

    def helped(problem: PlanProblem) -> PlanProblem:
        sessions = _each(
            problem.sessions,
            lambda one: replace(one, people=2) if one.start_minute == slot.start_minute else one,
            template=False,
        )
        return replace(problem, sessions=sessions)

    return Lever("helper", str(slot.start_minute), f"the helper on {when} too", helped)


def helper_every_time(kind: str) -> Lever:
    """Have the helper at every session of a kind, such as every Saturday."""

    def helped(problem: PlanProblem) -> PlanProblem:
        sessions = _each(
            problem.sessions, lambda one: replace(one, people=2) if one.kind == kind else one
        )
        return replace(problem, sessions=sessions)

    return Lever("helper", kind, f"the helper at every session of '{kind}'", helped)


def session_more(like: SessionSlot, days_later: int) -> Lever:
    """Have one session more a week: each week's like this one again, alone.

    Parameters
    ----------
    like : SessionSlot
        A session of the problem that comes every week.
    days_later : int
        So many days after it, where there is no session yet. [days]
    """
    shift = days_later * DAY_MINUTES

    def more(problem: PlanProblem) -> PlanProblem:
        source = problem.sessions
        first = source.template_start_minute
        slots = _with_more(source.slots, like.start_minute, shift, first)
        template = _with_more(
            source.template, like.start_minute - first, shift, source.template_minutes
        )
        return replace(problem, sessions=replace(source, slots=slots, template=template))

    ref = f"{like.start_minute}+{days_later}"
    return Lever("session", ref, f"one session more a week, as '{like.kind}'", more)


def _with_more(
    slots: tuple[SessionSlot, ...], like: int, shift: int, end: int
) -> tuple[SessionSlot, ...]:
    """Add a session to each week that has one at this minute of the week."""
    added = [
        replace(slot.moved(shift), people=1, certain=False)
        for slot in slots
        if _same_in_week(slot.start_minute, like)
    ]
    free = [
        one
        for one in added
        if (not end or one.end_minute <= end)
        and all(s.end_minute <= one.start_minute or one.end_minute <= s.start_minute for s in slots)
    ]
    return tuple(sorted((*slots, *free), key=lambda slot: slot.start_minute))


def _same_in_week(minute: int, other: int) -> bool:
    """Whether two moments are at one hour of the week, give or take the clocks' changing."""
    apart = (minute - other) % WEEK_MINUTES
    return min(apart, WEEK_MINUTES - apart) <= CLOCK_CHANGE


def garage_kept_warm(celsius: float, *, nights: bool) -> Lever:
    """Heat the garage in every session that is colder, and through the nights if asked.

    Parameters
    ----------
    celsius : float
        What the heating reaches. [degC]
    nights : bool
        Whether it stays on until the next session, as a cure wants it.
    """

    def warm(slot: SessionSlot) -> SessionSlot:
        now, coldest = slot.temperature_c, slot.lowest_until_next_c
        if now is not None:
            now = max(now, celsius)
        if nights and coldest is not None:
            coldest = max(coldest, celsius)
        return replace(slot, temperature_c=now, lowest_until_next_c=coldest)

    def heated(problem: PlanProblem) -> PlanProblem:
        return replace(problem, sessions=_each(problem.sessions, warm))

    how = "kept at" if nights else "heated, while you work, to"
    about = f"{celsius:g}/nights" if nights else f"{celsius:g}"
    return Lever("warmth", about, f"the garage {how} {celsius:g} °C", heated)


def job_lent(job: PlanJob, days: float = 14.0) -> Lever:
    """Have somebody else do a job: it takes clock time and none of the owner's.

    Parameters
    ----------
    job : PlanJob
        One of the problem.
    days : float
        From sending it away to having it back. [days]
    """
    out = f"{job.id}{SENT_OUT}"

    def lent(problem: PlanProblem) -> PlanProblem:
        hand = (Way(1, 1, 1, 1),)
        at = next(index for index, one in enumerate(problem.jobs) if one.id == job.id)
        whole = problem.jobs[at]
        sent = replace(
            whole, id=out, ways=hand, supports=None, min_temperature_c=None, cure_minutes=0,
            minutes_done=0, started=False, splittable=False, parts_to_finish=(),
        )  # fmt: skip
        back = replace(
            sent,
            id=whole.id,
            after=(Link(out, round(days * DAY_MINUTES)),),
            parts_to_start=(),
            parts_to_finish=whole.parts_to_finish,
        )
        return replace(problem, jobs=(*problem.jobs[:at], sent, back, *problem.jobs[at + 1 :]))

    return Lever("lent", job.id, f"'{job.title}' done by somebody else in {days:g} days", lent)


def job_left_out(job: PlanJob) -> Lever:
    """Leave a job for after the road; what came after it comes after what was before it."""

    def dropped(problem: PlanProblem) -> PlanProblem:
        gone = next(one for one in problem.jobs if one.id == job.id)
        jobs = tuple(_past(one, gone) for one in problem.jobs if one.id != job.id)
        gates = tuple(
            replace(
                gate, needs_jobs=_but(gate.needs_jobs, job.id), blocks=_but(gate.blocks, job.id)
            )
            for gate in problem.gates
        )
        goal = _but(problem.goal, job.id)
        if problem.goal and not goal:
            return problem  # the last thing the road asks for cannot be left out
        return replace(problem, jobs=jobs, gates=gates, goal=goal)

    return Lever("left out", job.id, f"'{job.title}' left until after the road", dropped)


def _past(job: PlanJob, gone: PlanJob) -> PlanJob:
    if all(link.job_id != gone.id for link in job.after):
        return job
    links = {link.job_id: link for link in gone.after}
    links |= {link.job_id: link for link in job.after if link.job_id != gone.id}
    return replace(job, after=tuple(links.values()))


def _but(ids: tuple[str, ...], left_out: str) -> tuple[str, ...]:
    return tuple(one for one in ids if one != left_out)


def hours_as_estimated() -> Lever:
    """Have every job take what was estimated, give or take its own luck."""

    def estimated(problem: PlanProblem) -> PlanProblem:
        paces = tuple(replace(pace, factor=1.0) for pace in problem.paces)
        return replace(problem, paces=paces)

    return Lever("habit", "pace", "hours that keep to your estimates", estimated)


def nothing_lost() -> Lever:
    """Have every usual session take place, and the helper come when expected."""

    def kept(problem: PlanProblem) -> PlanProblem:
        luck = replace(
            problem.luck, lost_week_share=0.0, lost_session_share=0.0, no_show_share=0.0,
            lost_week_weight=0.0, lost_session_weight=0.0, no_show_weight=0.0,
        )  # fmt: skip
        return replace(problem, luck=luck)

    return Lever("habit", "sessions", "no session lost and no helper absent", kept)


def parts_in_time() -> Lever:
    """Have every part come on its day, and right."""

    def prompt(problem: PlanProblem) -> PlanProblem:
        return replace(problem, arrivals=tuple(map(_prompt, problem.arrivals)))

    return Lever("habit", "parts", "every part on its day, and right", prompt)


def _prompt(arrival: Arrival) -> Arrival:
    belief = arrival.belief
    if belief is not None:
        belief = replace(belief, late=NEVER, wrong=NEVER)
    return replace(arrival, late_share=0.0, belief=belief)


def _each(
    source: SessionSource,
    change: Callable[[SessionSlot], SessionSlot],
    *,
    template: bool = True,
) -> SessionSource:
    return replace(
        source,
        slots=tuple(map(change, source.slots)),
        template=tuple(map(change, source.template)) if template else source.template,
    )
