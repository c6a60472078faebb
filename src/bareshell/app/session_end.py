"""Ending a session with a few ticks: what is done, how the car is left, that it is over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Final

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.gates import go_through
from bareshell.app.sessions import session_told
from bareshell.app.written import SETTLE_LATER, Pen, Written, filled, id_for
from bareshell.errors import BadInput, NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import JobEventKind
from bareshell.model.position import Placement
from bareshell.model.session import HeldSession
from bareshell.model.standing import proof_standings, proofs_beneath
from bareshell.whole.garage_time import zone_of
from bareshell.whole.said.desk import SessionFacts
from bareshell.whole.said.session_said import held_session
from bareshell.whole.spent_said import spent_by_work
from bareshell.whole.stretch import stretch_hours

_LONGEST: Final = timedelta(hours=14)
_LANDED: Final = "This was written down already; it stands once."


def end_session(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down everything that was ticked, or nothing when one of it is refused.

    The fields are ``done`` (ids of jobs), for each of them ``hours:ID`` and ``version:ID`` as it
    was seen, ``support`` on which the car is left, ``over`` when the session is, with ``people``
    and ``temperature`` where they were other than the pattern has them. A job that was begun
    by a tap and has no hours gets those since then.

    Parameters
    ----------
    door : Door
        The build.
    fields : mapping of str to sequence of str
        The form.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When nothing is ticked, or a figure cannot be read.
    NotFound
        When a job is not there.
    """
    form, build, now = filled(door, fields), door.build(), door.now()
    jobs = tuple(dict.fromkeys(form.every("done")))
    for job in jobs:
        if job not in build.jobs:
            raise NotFound(f"there is no job '{job}' in this build", "load the page again")
    hours = {job: _hours(form, build, job, now) for job in jobs}
    changes = _changes(form, build, now, hours)
    form.check()
    if not changes:
        raise BadInput("what is done", "nothing is ticked", "tick what is done, then press")
    if pen.entry_id and any(door.entry(key) for key in _ids(pen, changes) if key):
        return Written((_LANDED,), changes[0].subject, repeated=True)
    seen = {f"job:{job}": version for job in jobs if (version := _version(form, job)) is not None}
    ids = [key for key in _ids(pen, changes) if key] or None
    receipt = door.record(changes, ids=ids, base_versions=seen, author=pen.author)
    gates = go_through(door, jobs, pen.author)
    told = session_told(door, receipt)
    said = (*_sentences(build, door.build(), changes, hours), *gates, *told)
    if receipt.to_settle:
        said = (*said, SETTLE_LATER)
    return Written(said, changes[0].subject, to_settle=bool(receipt.to_settle))


def _hours(form: Filled, build: Build, job: str, now: datetime) -> float | None:
    title = build.jobs[job].job.title
    typed = form.hours(f"hours:{job}", f"hours of '{title}'")
    return stretch_hours(build, job, now) if typed is None else typed


def _version(form: Filled, job: str) -> int | None:
    said = form.text(f"version:{job}")
    return int(said) if said.isdigit() and len(said) < 12 else None


def _changes(
    form: Filled, build: Build, now: datetime, hours: Mapping[str, float | None]
) -> list[c.Change]:
    changes: list[c.Change] = [c.JobFinished(job, spent) for job, spent in hours.items()]
    support = form.text("support")
    if support and support not in build.supports:
        form.wrong("how the car is left", f"'{support}' is no way it stands here", "choose again")
    elif support:
        off = build.placement.off if build.placement else frozenset()
        changes.append(c.CarPlaced(Placement(support, off)))
    if form.tick("over"):
        held = _held(form, build, now)
        if held is None:
            form.wrong(
                "the session is over",
                "no session of the pattern was on, and nothing was begun here",
                "say its times in the one line: 'from 19:15 to 21:45'",
            )
        else:
            changes.append(c.SessionHeld(held))
    return changes


def _held(form: Filled, build: Build, now: datetime) -> HeldSession | None:
    """The session that ends now: by the pattern, else since the first thing that was begun."""
    people = form.whole("people", "who is there", 1, 2)
    warmth = form.temperature_c("temperature", "in the garage")
    zone = zone_of(build)
    held = held_session(build, now, zone, SessionFacts(people=people, temperature_c=warmth))
    if held is not None:
        return held
    begun = [
        event.at
        for record in build.jobs.values()
        for event in record.events
        if event.kind is JobEventKind.STARTED and timedelta() < now - event.at <= _LONGEST
    ]
    if not begun:
        return None
    facts = SessionFacts(min(begun), now, people, warmth)
    return held_session(build, now, zone, facts)


def _ids(pen: Pen, changes: list[c.Change]) -> list[str | None]:
    return [id_for(pen.entry_id, f"{change.KIND} {change.subject}") for change in changes]


def _sentences(
    before: Build, after: Build, changes: list[c.Change], hours: Mapping[str, float | None]
) -> Iterator[str]:
    """Say what was written down, and what that brought with it."""
    finished = [change.job_id for change in changes if isinstance(change, c.JobFinished)]
    for job in finished:
        spent = hours[job]
        told = f", {spent:g} h" if spent is not None else ", hours not said"
        yield f"'{after.jobs[job].job.title}' is done{told}."
    yield from _buried(before, after, finished)
    yield from spent_by_work(before, after)
    for change in changes:
        if isinstance(change, c.CarPlaced):
            yield f"The car is left on {after.supports[change.placement.support].title}."
        if isinstance(change, c.SessionHeld):
            zone = zone_of(after)
            start, end = (
                moment.astimezone(zone)
                for moment in (change.session.started_at, change.session.ended_at)
            )
            yield f"The session is written down, {start:%H:%M} to {end:%H:%M}."


def _buried(before: Build, after: Build, finished: list[str]) -> Iterator[str]:
    was, now = proof_standings(before), proof_standings(after)
    for job in finished:
        for key in proofs_beneath(after, job):
            if now[key].hidden and not now[key].state.is_good and not was[key].hidden:
                title = after.proofs[key].proof.called
                yield f"It hides '{title}', which now stands covered, unproven at every gate."
