"""Ending a session: one line is read, shown, and kept in one go; what the session came to.

Nothing is kept by reading: a preview says how each part was taken, what must be asked and
which words stay as a note; keeping writes exactly that, all of it or nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bareshell.app.door import Door, Receipt
from bareshell.app.gates import go_through
from bareshell.app.written import entry_ids
from bareshell.model import Build, Entry, Standing
from bareshell.model import changes as c
from bareshell.model.fold import withdrawn_ids
from bareshell.model.network import in_order, predecessors
from bareshell.model.proof import ProofState
from bareshell.model.session import HeldSession
from bareshell.model.standing import proof_standings
from bareshell.whole.garage_time import zone_of
from bareshell.whole.said.catching_up import Question, catching_up
from bareshell.whole.said.ending import with_session
from bareshell.whole.said.results import Understood
from bareshell.whole.said.understand import understand

BEFORE_AND_AFTER: Final = timedelta(hours=1)
"""What happened this long before or after a session still belongs to it."""

_NAMED: Final = 3
_SLIP_HOURS: Final = 0.25
"""Hours are told to the quarter; so much more than a session lasted is no slip."""


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


def session_told(door: Door, receipt: Receipt) -> tuple[str, ...]:
    """Say what the session came to that was just written down; nothing where none was.

    Parameters
    ----------
    door : Door
        The build.
    receipt : Receipt
        What was written.

    Returns
    -------
    tuple of str
        How many of its hours are told of jobs, since the owner's pace is learned from those, and
        which proofs are running and must be read.
    """
    ended = [e.change.session for e in receipt.entries if isinstance(e.change, c.SessionHeld)]
    if not ended:
        return ()
    build, held = door.build(), ended[-1]
    lasted = (held.ended_at - held.started_at).total_seconds() / 3600
    told = sum(_hours(entry.change) for entry in _within(door, build, held))
    said = [_hours_sentence(lasted, told, held.people)]
    standings = proof_standings(build, door.now())
    running = [key for key, each in standings.items() if each.state is ProofState.BEGUN]
    if running:
        titles = [f"'{build.proofs[key].proof.title}'" for key in running[:_NAMED]]
        more = f" and {len(running) - _NAMED} more" if len(running) > _NAMED else ""
        said.append(f"Running, and to be read: {', '.join(titles)}{more}.")
    return tuple(said)


def _hours_sentence(lasted: float, told: float, people: int) -> str:
    if told <= 0:
        return f"It lasted {lasted:.3g} h; no hours of it are told of a job, to learn your pace by."
    if told > people * (lasted + _SLIP_HOURS):
        return (
            f"It lasted {lasted:.3g} h, and {told:.3g} h are told of its jobs: "
            "look whether some were told twice."
        )
    return f"It lasted {lasted:.3g} h; {told:.3g} h of it are told of jobs."


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
