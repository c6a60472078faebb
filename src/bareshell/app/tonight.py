"""Tonight: what to do in this session, and why not something else."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from bareshell.app.door import Door
from bareshell.app.following import rule_to_follow
from bareshell.app.open_job import open_job
from bareshell.errors import BadInput, BareshellError
from bareshell.model import Build
from bareshell.model.session import HelperWork
from bareshell.plan.asitis import AsItIs, expected_slot
from bareshell.plan.checker import Violation
from bareshell.plan.exact import pack_tonight
from bareshell.plan.problem import PlanProblem
from bareshell.plan.tonight import Tonight
from bareshell.plan.tonight import tonight as plan_tonight
from bareshell.units import parse_moment
from bareshell.whole.asked import AskedSession, asked_session
from bareshell.whole.garage_time import zone_of
from bareshell.whole.moved import changed_since
from bareshell.whole.sheet import Answer, tonight_sheet
from bareshell.whole.sheet_parts import MOODS, Packed, SessionAsked, TonightSheet, WhyNot
from bareshell.whole.tonight_answer import answer_of, why_not_of

SEED = 7
"""The same question gets the same answer: the futures drawn are always these."""

HELPER = {"hand": HelperWork.NOTHING, "marked": HelperWork.MARKED, "any": HelperWork.ANY}
"""What a helper may do alone, in the command line's one word each."""


def asked_from(
    door: Door,
    *,
    minutes: int | None = None,
    people: int | None = None,
    support: str | None = None,
    temperature_c: float | None = None,
    starts: str | None = None,
    mood: frozenset[str] = frozenset(),
    helper: HelperWork | None = None,
    exactly: bool = False,
) -> SessionAsked:
    """Make what a person set about a session; a start without a day is today's.

    Parameters
    ----------
    door : Door
        The build, for its clock and its zone.
    minutes, people, support, temperature_c
        As ``SessionAsked`` has them.
    starts : str or None
        As it is said: ``19:30``, ``Saturday 10:00``, ``2026-12-05 10:00``; on the garage's clock.
    mood : frozenset of str
        Of ``MOODS``.
    helper : HelperWork or None
        What whoever helps may do alone.
    exactly : bool
        Whether a solver packs the session.
    """
    unknown = mood - set(MOODS)
    if unknown:
        raise BadInput("mood", f"'{min(unknown)}' is none", f"say one of: {', '.join(MOODS)}")
    starts_at = None
    if starts is not None:
        zone = zone_of(door.build())
        starts_at = parse_moment(
            starts, "when it starts", now=door.now(), zone=zone, towards="future"
        )
    return SessionAsked(minutes, people, support, temperature_c, starts_at, mood, helper, exactly)


def tonight(door: Door, asked: SessionAsked | None = None) -> TonightSheet:
    """Plan the session: the next one, or the one the person says it is.

    Raises
    ------
    BadInput, Refused
        When what is said cannot be, or there is no session at all.
    Unchecked
        When the checker finds the plan to break a rule; it is not shown.
    """
    build, session, planned = _planned(door, asked)
    answer = answer_of(build, planned)
    if asked is None or asked == SessionAsked():
        changed = changed_since(build, planned.problem, planned.schedule)
        if changed is not None:
            answer = replace(answer, changed=changed.what, because=changed.why)
    if asked is not None and asked.exactly:
        answer = _packed(answer, planned)
    return tonight_sheet(build, session, answer)


def why_not(door: Door, asked: SessionAsked | None, job_id: str) -> WhyNot:
    """Say why a job is not tonight, link by link down to the root.

    Parameters
    ----------
    door : Door
        The build.
    asked : SessionAsked or None
        The evening, if it is not as usual.
    job_id : str
        The job by its id, its title or a part of it.

    Raises
    ------
    NotFound
        When no job is called so.
    BadInput
        When several open ones are, or it is open no longer.
    """
    build, _, planned = _planned(door, asked)
    if job_id not in build.jobs and all(job.id != job_id for job in planned.problem.jobs):
        job_id = open_job(build, job_id, "why not")
    return why_not_of(build, planned, job_id)


_BY_HAND = "choose a job by hand from the list, and "


class Unchecked(BareshellError):
    """The plan broke a rule of the garage; a fault of ours, and the plan is not shown."""

    kind = "unchecked"


def _packed(answer: Answer, planned: Tonight) -> Answer:
    """Put what a solver packs in place of the list, and say what it does to the road."""
    beside = pack_tonight(planned)
    found = beside.exact
    only_checked(found.violations, instead=_BY_HAND)
    packed = Packed(found.status, found.worked_minutes, beside.sentence)
    if not found.schedule.blocks:
        return replace(answer, packed=packed)
    return replace(answer, packed=packed, blocks=found.schedule.in_session(0))


def only_checked(violations: Sequence[Violation], *, instead: str = "") -> None:
    """Let a plan through that the checker found nothing wrong with.

    Parameters
    ----------
    violations : sequence of Violation
        What the checker found.
    instead : str
        What the person can do meanwhile.

    Raises
    ------
    Unchecked
        When it found anything.
    """
    if violations:
        broken = violations[0]
        raise Unchecked(
            f"the plan broke the rule '{broken.rule}' ({broken.sentence}), so it is not shown",
            f"{instead}report this with the journal's export",
        )


def _planned(door: Door, asked: SessionAsked | None) -> tuple[Build, AskedSession, Tonight]:
    build = door.build()
    # A whole minute, so that a plan asked for twice in a minute is the same plan.
    now = door.now().replace(second=0, microsecond=0)
    session = asked_session(build, now, asked)
    mood = asked.mood if asked else frozenset()
    as_it_is = AsItIs(
        already_set_up=is_set_up(build, session.problem, now),
        nothing_dirty=MOODS[0] in mood,
        nothing_dangerous_alone=MOODS[1] in mood,
    )
    # The plan that was given out is followed here as on the road ahead: one plan, one rule.
    rule = rule_to_follow(build, session.question.problem, now, seed=SEED)
    planned = plan_tonight(session.problem, as_it_is, seed=SEED, policy=rule)
    only_checked(planned.violations, instead=_BY_HAND)
    return build, session, planned


def is_set_up(build: Build, problem: PlanProblem, now: datetime) -> bool:
    """Whether the first session is on and work has begun: then the bay is set up already."""
    slot = expected_slot(problem)
    if slot is None or slot.start_minute > 0:
        return False
    since = now - timedelta(hours=3)
    return any(
        record.state.started_at is not None
        and record.state.is_open
        and since <= record.state.started_at <= now
        for record in build.jobs.values()
    )
