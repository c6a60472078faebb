"""The session that is asked about: the next one, or one as the person says it really is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bareshell.errors import BadInput, Refused
from bareshell.model import Build
from bareshell.plan.problem import PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.whole.garage_time import AFTER_THE_LAST, beside_of, zone_of
from bareshell.whole.plan_problem import PlanQuestion, plan_question
from bareshell.whole.season import NIGHT_DROP_C, season_of
from bareshell.whole.sheet_parts import SessionAsked, SessionFacts

LONGEST_MINUTES = 16 * 60
SHORTEST_MINUTES = 15
COLDEST_C, WARMEST_C = -30.0, 50.0
GONE_AFTER = timedelta(days=1)
FAR_AHEAD = timedelta(weeks=52)
"""Sessions are written out a little further than this."""


@dataclass(frozen=True, slots=True)
class AskedSession:
    """What the plan is asked about one session: the problem with it in front, and its facts."""

    question: PlanQuestion
    problem: PlanProblem
    facts: SessionFacts


def asked_session(build: Build, now: datetime, asked: SessionAsked | None) -> AskedSession:
    """Put the session that is asked about in front of all others.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    asked : SessionAsked or None
        What the person says about the session; what is left open is as the pattern has it.

    Raises
    ------
    BadInput
        When what is said cannot be: minutes, people, temperature, an unknown support.
    Refused
        When there is no session to come and none was described.
    """
    asked = asked or SessionAsked()
    _check(build, asked, now)
    question = plan_question(build, now)
    problem = question.problem
    written = problem.sessions.first(1)
    if not written and asked.minutes is None:
        raise Refused(
            "no session",
            "there is no session to come in this build",
            "say how long you have, such as 150 minutes, or give the garage its evenings",
        )
    usual = written[0] if written else None
    slot = _slot(build, problem, usual, asked)
    support = asked.support or problem.support
    sessions = problem.sessions.with_first(slot)
    changed = replace(problem, sessions=sessions, support=support)
    return AskedSession(question, changed, _facts(build, changed, slot, asked, now))


def _check(build: Build, asked: SessionAsked, now: datetime) -> None:
    _check_start(asked.starts_at, now)
    if asked.minutes is not None and not SHORTEST_MINUTES <= asked.minutes <= LONGEST_MINUTES:
        raise BadInput(
            "how long",
            f"{asked.minutes} minutes is no session",
            f"give {SHORTEST_MINUTES} to {LONGEST_MINUTES} minutes",
        )
    if asked.people is not None and asked.people not in (1, 2):
        raise BadInput("who is there", f"{asked.people} people", "say 1, or 2 with a helper")
    if asked.support is not None and asked.support not in build.supports:
        known = ", ".join(build.supports) or "none yet"
        raise BadInput(
            "how the car stands", f"there is no support '{asked.support}'", f"name one of: {known}"
        )
    temperature = asked.temperature_c
    if temperature is not None and not COLDEST_C <= temperature <= WARMEST_C:
        raise BadInput(
            "temperature in the garage",
            f"{temperature:g} °C cannot be",
            "give it in degrees Celsius, such as 8",
        )


def _check_start(starts_at: datetime | None, now: datetime) -> None:
    if starts_at is None:
        return
    problem = "is past" if starts_at < now - GONE_AFTER else "is more than a year ahead"
    if not now - GONE_AFTER <= starts_at <= now + FAR_AHEAD:
        raise BadInput(
            "when it starts",
            f"{starts_at:%d %b %Y %H:%M} {problem}",
            "give a day from today on, such as Saturday 10:00",
        )


def _slot(
    build: Build, problem: PlanProblem, usual: SessionSlot | None, asked: SessionAsked
) -> SessionSlot:
    if asked.starts_at is not None:
        start = max(0, round((asked.starts_at - problem.origin).total_seconds() / 60))
    elif usual is not None and asked.minutes is None:
        start = usual.start_minute
    else:
        # "I have 90 minutes" means now, unless the evening's own session is about to begin.
        soon = usual is not None and usual.start_minute <= 12 * 60
        start = usual.start_minute if usual is not None and soon else 0
    minutes = asked.minutes or (usual.minutes if usual else SHORTEST_MINUTES)
    people = asked.people or (usual.people if usual else 1)
    zone = zone_of(build)
    day = (problem.origin + timedelta(minutes=start)).astimezone(zone).date()
    season = season_of(build, zone)
    temperature = season.working_c(day) if asked.temperature_c is None else asked.temperature_c
    lowest = season.lowest_c(day, day + AFTER_THE_LAST)
    if asked.temperature_c is not None and build.garage.heated_to_c is None:
        lowest = asked.temperature_c - NIGHT_DROP_C
    return SessionSlot(
        start_minute=start,
        minutes=minutes,
        people=people,
        temperature_c=temperature,
        lowest_until_next_c=min(lowest, temperature),
        kind=usual.kind if usual and usual.start_minute == start else "session",
        certain=True,
        beside=beside_of(asked.helper or build.garage.helper),
    )


def _facts(
    build: Build, problem: PlanProblem, slot: SessionSlot, asked: SessionAsked, now: datetime
) -> SessionFacts:
    zone = zone_of(build)
    starts = problem.when(slot.start_minute).astimezone(zone)
    ends = problem.when(slot.end_minute).astimezone(zone)
    said = [
        name
        for name in ("minutes", "people", "support", "temperature_c", "starts_at", "helper")
        if getattr(asked, name) is not None
    ]
    support = build.supports.get(problem.support)
    return SessionFacts(
        number=sum(1 for s in build.sessions.values() if s.started_at <= now) + 1,
        starts_at=starts,
        ends_at=ends,
        minutes=slot.minutes,
        people=slot.people,
        support=problem.support,
        support_title=support.title if support else "not known",
        temperature_c=slot.temperature_c,
        kind=slot.kind,
        overridden=(*said, *sorted(asked.mood)),
        helper=str(asked.helper or build.garage.helper) if slot.people > 1 else "",
    )
