"""Ending a session: one line or a few taps are read, shown, and kept in one go.

Nothing is kept by reading: a preview says how each part was taken, what must be asked and
which words stay as a note; keeping writes exactly that, all of it or nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bareshell.app.door import Door, Receipt
from bareshell.app.gates import go_through
from bareshell.app.written import entry_ids
from bareshell.errors import NotFound, Refused
from bareshell.model import Build, Entry, Standing
from bareshell.model import changes as c
from bareshell.model.fold import withdrawn_ids
from bareshell.model.network import in_order, predecessors
from bareshell.model.session import HeldSession
from bareshell.model.standing import proof_standings
from bareshell.whole.garage_time import zone_of
from bareshell.whole.said.catching_up import Question, catching_up
from bareshell.whole.said.ending import with_session
from bareshell.whole.said.results import Understood
from bareshell.whole.said.taps import Tap, offered_hours, tapped
from bareshell.whole.said.understand import understand
from bareshell.whole.words import describe_entry

BEFORE_AND_AFTER = timedelta(hours=1)
"""What happened this long before or after a session still belongs to it."""


# --- one line ----------------------------------------------------------------------------------


def preview_line(
    door: Door, line: str, tonight: Sequence[str] = (), at: datetime | None = None
) -> Understood:
    """Read one line about what was done; nothing is kept.

    Parameters
    ----------
    door : Door
        The build.
    line : str
        As typed or dictated. Beginning with a day ("friday evening: ...") it is about that
        day's session.
    tonight : sequence of str
        The jobs of tonight's list, best first.
    at : datetime or None
        When it happened, if not now. Aware.

    Returns
    -------
    Understood
        The session itself is added from the pattern when the line tells of work and nobody
        has recorded the session yet.
    """
    build = door.build()
    zone = zone_of(build)
    understood = understand(line, build, tonight, at or door.now(), zone)
    return with_session(understood, build, zone)


def keep_line(
    door: Door,
    understood: Understood,
    ids: Sequence[str] | None = None,
    happened_at: datetime | None = None,
    *,
    answers: Mapping[int, int] | None = None,
    author: str | None = None,
) -> Receipt:
    """Keep what a line was understood as: all of it, or nothing when a part is refused.

    Parameters
    ----------
    door : Door
        The build.
    understood : Understood
        As it was previewed.
    ids : sequence of str or None
        Ids made by the writer: one for each change, or a single one from which the others are
        made. Sent twice, the line lands once.
    happened_at : datetime or None
        In place of the line's own time. Aware.
    answers : mapping of int to int, optional
        The number of each question that was answered, to the number of its choice.
    author : str or None
        Who says so.

    Returns
    -------
    Receipt
        What was written; questions nobody answered and words that were not understood are
        kept as notes.

    Raises
    ------
    BareshellError
        When a part of it is refused, because the build has moved on since the preview.
    """
    settled = understood.answered(answers or {})
    if happened_at is not None:
        heard = tuple(replace(h, at=None) for h in settled.heard)
        settled = replace(settled, at=happened_at, heard=heard)
    return _keep(door, settled, ids, author)


def _keep(
    door: Door, understood: Understood, ids: Sequence[str] | None, author: str | None
) -> Receipt:
    dated = understood.dated
    if not dated:
        return Receipt(())
    keys = _keys(ids, len(dated))
    if keys is not None and (held := door.named(keys)):
        # What a line means depends on the build; a line that is sent again is the same line,
        # whatever it would mean by now.
        return Receipt((), tuple(entry.id for entry in held))
    receipt = door.record_dated(dated, ids=keys, base_versions=understood.seen, author=author)
    finished = [e.change.job_id for e in receipt.entries if isinstance(e.change, c.JobFinished)]
    go_through(door, finished, author)
    return receipt


def _keys(ids: Sequence[str] | None, count: int) -> list[str] | None:
    if ids is None or not ids:
        return None
    if len(ids) == count:
        return list(ids)
    return entry_ids(ids[0], count)


# --- taps ------------------------------------------------------------------------------------


def preview_taps(door: Door, taps: Sequence[Tap], at: datetime | None = None) -> Understood:
    """Read taps; nothing is kept.

    Raises
    ------
    NotFound, BadInput
        When a tap names nothing the build has, or a figure cannot be read.
    """
    build = door.build()
    return tapped(taps, build, at or door.now(), zone_of(build))


def keep_taps(
    door: Door,
    taps: Sequence[Tap],
    ids: Sequence[str] | None = None,
    at: datetime | None = None,
    *,
    answers: Mapping[int, int] | None = None,
    author: str | None = None,
) -> Receipt:
    """Keep taps: all of them, or none.

    Raises
    ------
    Refused
        When something must be asked first, such as a figure that misses its limit; preview
        the taps and send the answers along.
    """
    understood = preview_taps(door, taps, at).answered(answers or {})
    if understood.asked:
        question = understood.asked[0]
        labels = "; ".join(choice.label for choice in question.choices)
        raise Refused("to be asked first", question.question, labels or "put it differently")
    return _keep(door, understood, ids, author)


def hours_to_offer(door: Door, job_id: str) -> float | None:
    """Return the hours [h] to offer when a job is stopped now, or None."""
    return offered_hours(door.build(), job_id, door.now())


# --- after weeks of silence ----------------------------------------------------------------------


def did_this_happen(door: Door, planned: Sequence[str] = ()) -> tuple[Question, ...]:
    """Return at most eight questions that bring the record level after three silent weeks.

    Parameters
    ----------
    door : Door
        The build.
    planned : sequence of str
        The jobs that the plan would have had done by now, likeliest first.
    """
    newest = door.entries(limit=1, newest_first=True)
    last = newest[0].recorded_at if newest else None
    return catching_up(door.build(), planned, last, door.now())


def keep_answers(
    door: Door,
    questions: Sequence[Question],
    answers: Mapping[str, int],
    ids: Sequence[str] | None = None,
    *,
    author: str | None = None,
) -> Receipt:
    """Keep the answers to "did this happen?": proofs first, then jobs in their order.

    Parameters
    ----------
    questions : sequence of Question
        As they were asked.
    answers : mapping of str to int
        What each is about, to the number of the choice.
    """
    rank = {job: n for n, job in enumerate(in_order(predecessors(door.build())), 1)}
    chosen: list[tuple[int, c.Change]] = []
    for question in questions:
        number = answers.get(question.about, -1)
        if not 0 <= number < len(question.choices):
            continue
        kind, _, key = question.about.partition(":")
        place = rank.get(key, 0) if kind == "job" else {"proof": -1, "temp": 10**6}.get(kind, 0)
        chosen += [(place, change) for change in question.choices[number].changes]
    ordered = [change for _, change in sorted(chosen, key=lambda pair: pair[0])]
    if not ordered:
        return Receipt(())
    return door.record(ordered, ids=_keys(ids, len(ordered)), author=author)


# --- what a session came to ----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SessionSummary:
    """What one session came to.

    Parameters
    ----------
    made_at : datetime
        When it was read.
    session : HeldSession
        When it was, who was there, how cold it was.
    hours : float
        How long it lasted. [h]
    hours_told : float
        Hours of work that were written down. [h]
    finished, part_done, taken_off : tuple of str
        Titles of jobs.
    proofs : tuple of str
        What proofs showed, in words.
    lines : tuple of str
        Everything that was written down for it, in the order it happened.
    begun : tuple of str
        Proofs that are running and must be read.
    """

    made_at: datetime
    session: HeldSession
    hours: float
    hours_told: float
    finished: tuple[str, ...]
    part_done: tuple[str, ...]
    taken_off: tuple[str, ...]
    proofs: tuple[str, ...]
    lines: tuple[str, ...]
    begun: tuple[str, ...]


def session_summary(door: Door, session_id: str | None = None) -> SessionSummary:
    """Read what a session came to.

    Parameters
    ----------
    door : Door
        The build.
    session_id : str or None
        None for the last one held.

    Raises
    ------
    NotFound
        When there is no such session, or none at all yet.
    """
    build = door.build()
    held = _session(build, session_id)
    entries = _within(door, build, held)
    zone = zone_of(build)
    local = replace(
        held,
        started_at=held.started_at.astimezone(zone),
        ended_at=held.ended_at.astimezone(zone),
    )
    proving = (c.ProofHeld, c.ProofFailed, c.ProofBegun, c.ProofSpent, c.ProofSubstituted)
    standings = proof_standings(build, door.now())
    return SessionSummary(
        made_at=door.now(),
        session=local,
        hours=(held.ended_at - held.started_at).total_seconds() / 3600,
        hours_told=round(sum(_hours(entry.change) for entry in entries), 2),
        finished=_titles(build, entries, c.JobFinished),
        part_done=_titles(build, entries, c.JobWorked),
        taken_off=_titles(build, entries, c.JobTakenOff),
        proofs=tuple(describe_entry(e, build) for e in entries if isinstance(e.change, proving)),
        lines=tuple(describe_entry(entry, build) for entry in entries),
        begun=tuple(
            build.proofs[key].proof.title
            for key, standing in standings.items()
            if standing.state.value == "begun"
        ),
    )


def _session(build: Build, session_id: str | None) -> HeldSession:
    if session_id is not None:
        if session_id not in build.sessions:
            raise NotFound(f"there is no session '{session_id}'", "look for it in the record")
        return build.sessions[session_id]
    if not build.sessions:
        raise NotFound("no session is written down yet", "say in one line how the first one went")
    return max(build.sessions.values(), key=lambda held: held.ended_at)


def _within(door: Door, build: Build, held: HeldSession) -> tuple[Entry, ...]:
    """Return the entries about what happened in a session, the withdrawn ones left out."""
    entries = door.entries()
    gone = withdrawn_ids(entries)
    first, last = held.started_at - BEFORE_AND_AFTER, held.ended_at + BEFORE_AND_AFTER
    about_the_record = (c.Withdrawn, c.Settled, c.SessionHeld)
    found = [
        e
        for e in entries
        if first <= e.happened_at <= last
        and e.id not in gone
        and not isinstance(e.change, about_the_record)
        and not (e.standing is Standing.TO_SETTLE and e.id in build.to_settle)
    ]
    return tuple(sorted(found, key=lambda e: (e.happened_at, e.seq)))


def _hours(change: c.Change) -> float:
    if isinstance(change, c.JobFinished | c.JobWorked):
        return change.hours or 0.0
    return 0.0


def _titles(
    build: Build,
    entries: Sequence[Entry],
    kind: type[c.JobFinished | c.JobWorked | c.JobTakenOff],
) -> tuple[str, ...]:
    jobs = [e.change.job_id for e in entries if isinstance(e.change, kind)]
    return tuple(build.jobs[j].job.title for j in dict.fromkeys(jobs) if j in build.jobs)
