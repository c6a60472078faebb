"""What a line says of the session itself: when, who was there, how cold it was."""

from __future__ import annotations

from datetime import datetime, timedelta, tzinfo

from bareshell.model import Build
from bareshell.model.changes import SessionHeld
from bareshell.model.session import HeldSession
from bareshell.units import parse_temperature_c
from bareshell.whole.garage_time import sessions_between
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.clock import SINCE, UNTIL, moment_of
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import LEAST, Desk, SessionFacts
from bareshell.whole.said.figures import Figure, Measure
from bareshell.whole.said.names import Kind
from bareshell.whole.said.results import Heard

LATEST_AFTER = timedelta(hours=4)
"""A line typed longer than this after a session of the pattern is not the end of it."""


def read_session(clause: Clause, desk: Desk) -> bool:
    """Take what a clause says of the session; True when it says nothing else.

    A clause may tell both, as in "bled the brakes with my brother".
    """
    facts = desk.session
    took = _people(clause, facts)
    tells_work = _tells_work(clause, desk)
    for figure in clause.of(Measure.DEGREES):
        if not tells_work:
            facts.temperature_c = _celsius(figure, desk)
            took = True
    if not clause.of(Measure.QUANTITY):
        took = _times(clause, desk, alone=not tells_work) or took
    if took and not tells_work:
        facts.words.append(clause.text)
        return True
    return False


def _tells_work(clause: Clause, desk: Desk) -> bool:
    """Whether a clause names something of the build besides."""
    matches = desk.subjects.found(clause.wanted, (Kind.JOB, Kind.PROOF, Kind.NEED, Kind.TEMP))
    return bool(matches) and matches[0].score >= LEAST and matches[0].covered >= 0.4


def _people(clause: Clause, facts: SessionFacts) -> bool:
    if clause.has(Cue.COMPANY):
        facts.people = 2
    elif clause.has(Cue.ALONE):
        facts.people = 1
    else:
        return False
    return True


def _celsius(figure: Figure, desk: Desk) -> float:
    scale = figure.unit
    if not scale:
        imperial = desk.build.car is not None and desk.build.car.units == "imperial"
        # Nobody works in a garage at 40 degrees Celsius, nor writes one degree Fahrenheit.
        scale = "F" if figure.value > 40 or (imperial and figure.value > 25) else "C"
    return round(parse_temperature_c(f"{figure.value:g} {scale}", "temperature"), 1)


def _times(clause: Clause, desk: Desk, *, alone: bool) -> bool:
    clocks = clause.of(Measure.CLOCK)
    if not clocks:
        return False
    facts = desk.session
    if len(clocks) == 2 and _is_span(clause, clocks):
        facts.ended = moment_of(clocks[1].value, clocks[1].unit, desk.at, desk.zone)
        facts.started = moment_of(clocks[0].value, clocks[0].unit, facts.ended, desk.zone)
        return True
    if not alone:
        return False
    moment = moment_of(clocks[0].value, clocks[0].unit, desk.at, desk.zone)
    before = clause.texts[clocks[0].first - 1] if clocks[0].first else ""
    if clause.has(Cue.ENDED_AT) or before in UNTIL:
        facts.ended = moment
    elif clause.has(Cue.BEGAN_AT) or before in SINCE:
        facts.started = moment
    else:
        return False
    return True


def _is_span(clause: Clause, clocks: tuple[Figure, ...]) -> bool:
    between = clause.texts[clocks[0].after : clocks[1].first]
    near = between in ((), ("to",), *((word,) for word in UNTIL))
    return near or clause.has(Cue.BEGAN_AT, Cue.ENDED_AT)


# --- the session that the line ends --------------------------------------------------------------


def session_heard(desk: Desk) -> Heard | None:
    """Return the session as the line tells it, filled up from the pattern."""
    facts = desk.session
    if not facts.words and facts == SessionFacts():
        return None
    held = held_session(desk.build, desk.at, desk.zone, facts)
    if held is None:
        return None
    return heard_session(held, desk.zone, facts)


def heard_session(held: HeldSession, zone: tzinfo, facts: SessionFacts) -> Heard:
    """Say a session, and which of it the pattern gave."""
    start, end = held.started_at.astimezone(zone), held.ended_at.astimezone(zone)
    text = f"{start:%H:%M} to {end:%H:%M}"
    if facts.started is None and facts.ended is None:
        text += " (times from the pattern)"
    elif facts.started is None:
        text += " (start from the pattern)"
    text += f", {'alone' if held.people == 1 else 'two people'}"
    if held.temperature_c is not None:
        text += f", {held.temperature_c:g} C"
    return Heard(f"Session: {text}", "session", "Session", (SessionHeld(held),), 0.9, held.words)


def held_session(
    build: Build, at: datetime, zone: tzinfo, facts: SessionFacts | None = None
) -> HeldSession | None:
    """Return the session that ends about ``at``: as said, else as the pattern has it.

    Parameters
    ----------
    build : Build
        With its patterns and the sessions recorded already.
    at : datetime
        When the line was said. Aware.
    zone : tzinfo
        The garage's zone.
    facts : SessionFacts, optional
        What was said of it.

    Returns
    -------
    HeldSession or None
        None when neither the line nor the pattern gives its times. A session recorded already
        for that time keeps its id and what is not said anew.
    """
    said = facts or SessionFacts()
    slot = _slot_before(build, at)
    start = said.started or (slot[0] if slot else None)
    end = said.ended or (min(slot[1], at) if slot else at if said.started else None)
    if start is None or end is None or not start < end or end - start > timedelta(hours=18):
        return None
    old = next(
        (s for s in build.sessions.values() if s.started_at < end and start < s.ended_at), None
    )
    people = said.people or (old.people if old else slot[2] if slot else 1)
    temperature = said.temperature_c
    words = "; ".join(word.strip(" ,;.") for word in said.words)
    if old is not None:
        start = said.started or min(start, old.started_at)
        end = said.ended or max(end, old.ended_at)
        temperature = temperature if temperature is not None else old.temperature_c
        words = "; ".join(w for w in (old.words, words) if w)
    local = start.astimezone(zone)
    key = old.id if old else f"session-{local:%Y-%m-%d-%H%M}"
    return HeldSession(key, start, end, people, temperature, words)


def _slot_before(build: Build, at: datetime) -> tuple[datetime, datetime, int] | None:
    """Return the pattern's session that was running at a moment, or ended shortly before."""
    origin = at - timedelta(hours=30)
    best: tuple[datetime, datetime, int] | None = None
    for slot in sessions_between(build, origin, at + timedelta(minutes=1)):
        start = origin + timedelta(minutes=slot.start_minute)
        end = start + timedelta(minutes=slot.minutes)
        if start < at <= end + LATEST_AFTER:
            best = (start, end, slot.people)
    return best
