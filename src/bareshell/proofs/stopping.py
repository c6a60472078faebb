"""Being stopped well: what is loose and what is open as a session ends, and after a gap.

A car left for three weeks is taken up by somebody who has forgotten. What is half tight, which
end is open, what stands under pressure and what cures: it is read from the record, so that nobody
has to remember to write it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.model.job import JobEventKind, JobStatus
from bareshell.model.proof import ProofKind, ProofState
from bareshell.model.standing import (
    is_asked_for,
    need_standings,
    open_temps,
    proof_standings,
)
from bareshell.proofs.torque_sheet import FixingState, torque_sheet

GAP = timedelta(days=10)
"""After so long without a session somebody needs the card. Common practice, no source."""

_WET = frozenset({"brakes", "fuel", "cooling", "gearbox and clutch"})


@dataclass(frozen=True, slots=True)
class Left:
    """One thing that is left as it is, with where to look.

    Parameters
    ----------
    what, words : str
        What it is, and how it stands.
    subject : str
        The subject in the record, as ``job:hold``.
    at : datetime or None
        Since when, or when something falls due.
    """

    what: str
    words: str
    subject: str
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class StoppedNote:
    """How the car is left.

    Parameters
    ----------
    made_at : datetime
        When it was read.
    loose : tuple of Left
        Jobs begun or taken apart, and fixings that are fitted or nipped but not torqued.
    open : tuple of Left
        Ends that may stand open: fluid systems in part done, undone joints.
    holding : tuple of Left
        Holds that run, and when they may be read.
    curing : tuple of Left
        Waits that run, and when they end.
    temps : tuple of Left
        Temporary fixes on the car.
    """

    made_at: datetime
    loose: tuple[Left, ...] = ()
    open: tuple[Left, ...] = ()
    holding: tuple[Left, ...] = ()
    curing: tuple[Left, ...] = ()
    temps: tuple[Left, ...] = ()


@dataclass(frozen=True, slots=True)
class BackCard:
    """What somebody reads who comes back after a gap.

    Parameters
    ----------
    note : StoppedNote
        How the car stands now.
    last_at : datetime or None
        When anything was last done in the garage.
    gap_days : int or None
        Whole days since then.
    stands_on : str
        How the car stands, in words.
    last_words : tuple of str
        What was said at the end.
    spent_meanwhile : tuple of Left
        Proofs that grew too old while nobody was there.
    due_in : tuple of Left
        Orders that should have come by now.
    """

    note: StoppedNote
    last_at: datetime | None = None
    gap_days: int | None = None
    stands_on: str = ""
    last_words: tuple[str, ...] = ()
    spent_meanwhile: tuple[Left, ...] = ()
    due_in: tuple[Left, ...] = ()

    @property
    def is_due(self) -> bool:
        """Whether the gap is long enough that the card should be shown by itself."""
        return self.last_at is not None and self.note.made_at - self.last_at >= GAP


def stopped_note(build: Build, now: datetime) -> StoppedNote:
    """Read how the car is left.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> stopped_note(Build(), datetime(2026, 1, 1, tzinfo=UTC)).loose
    ()
    """
    return StoppedNote(
        now,
        (*_half_done(build), *_not_torqued(build, now)),
        tuple(_open_ends(build)),
        tuple(_holding(build, now)),
        tuple(_curing(build, now)),
        tuple(_temps(build)),
    )


def back_card(build: Build, now: datetime) -> BackCard:
    """Read what somebody needs who comes back.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> back_card(Build(), datetime(2026, 1, 1, tzinfo=UTC)).is_due
    False
    """
    last = _last_in_the_garage(build, now)
    placement = build.placement
    support = build.supports.get(placement.support) if placement else None
    return BackCard(
        stopped_note(build, now),
        last,
        (now - last).days if last else None,
        support.title if support else "",
        tuple(_last_words(build, last)),
        tuple(_grown_old(build, last, now)),
        tuple(_overdue(build, now)),
    )


def been_away(build: Build, now: datetime) -> bool:
    """Whether nobody worked on the car for so long that somebody needs the card.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> been_away(Build(), datetime(2026, 1, 1, tzinfo=UTC))
    False
    """
    last = _last_in_the_garage(build, now)
    return last is not None and now - last >= GAP


def _half_done(build: Build) -> Iterator[Left]:
    for key, record in build.jobs.items():
        if record.state.status is JobStatus.STARTED:
            hours = record.state.hours_left
            left = f", {hours:g} h left" if hours else ""
            yield Left(record.job.title, f"begun{left}", f"job:{key}", record.state.started_at)
        elif record.state.taken_off and record.state.status is JobStatus.TO_DO:
            off = next(e for e in reversed(record.events) if e.kind is JobEventKind.TAKEN_OFF)
            yield Left(record.job.title, "taken off again", f"job:{key}", off.at)


def _not_torqued(build: Build, now: datetime) -> Iterator[Left]:
    for row in torque_sheet(build, now):
        if row.state in (FixingState.FITTED, FixingState.NIPPED, FixingState.SPENT) and row.proof:
            yield Left(
                row.what, f"{row.state}, not torqued and marked", f"proof:{row.proof}", row.at
            )


def _open_ends(build: Build) -> Iterator[Left]:
    for key, record in build.jobs.items():
        job, state = record.job, record.state
        if job.system in _WET and (state.status is JobStatus.STARTED or state.taken_off):
            yield Left(job.title, "its ends may stand open: cap them", f"job:{key}")


def _holding(build: Build, now: datetime) -> Iterator[Left]:
    for key, standing in proof_standings(build, now).items():
        proof = build.proofs[key].proof
        if standing.state is ProofState.BEGUN and proof.kind is not ProofKind.TORQUE:
            ends = None
            if standing.since and proof.hold_hours:
                ends = standing.since + timedelta(hours=proof.hold_hours)
            words = "may be read" if ends is None or ends <= now else "stands; not to be opened"
            yield Left(proof.called, words, f"proof:{key}", ends)


def _curing(build: Build, now: datetime) -> Iterator[Left]:
    for key, record in build.jobs.items():
        wait, done = record.job.wait, record.state.finished_at
        if wait is None or done is None or record.state.status is not JobStatus.DONE:
            continue
        ends = done + timedelta(hours=wait.hours)
        if ends > now:
            cold = "; longer in the cold" if wait.stretches_with_cold else ""
            yield Left(record.job.title, f"{wait.why or 'waits'}{cold}", f"job:{key}", ends)


def _temps(build: Build) -> Iterator[Left]:
    for key in open_temps(build):
        temp = build.temps[key].temp
        gate = build.gates[temp.gate].gate.title if temp.gate in build.gates else temp.gate
        instead = f"; instead of it: {temp.replaced_by}" if temp.replaced_by else ""
        yield Left(temp.title, f"gone before the gate “{gate}”{instead}", f"temp:{key}")


def _last_in_the_garage(build: Build, now: datetime) -> datetime | None:
    moments = [held.ended_at for held in build.sessions.values()]
    moments += [
        event.at
        for record in build.jobs.values()
        for event in record.events
        if event.kind in (JobEventKind.STARTED, JobEventKind.WORKED, JobEventKind.FINISHED)
    ]
    return max((at for at in moments if at <= now), default=None)


def _last_words(build: Build, last: datetime | None) -> Iterator[str]:
    if last is None:
        return
    held = [s for s in build.sessions.values() if s.words]
    if held:
        yield max(held, key=lambda session: session.ended_at).words
    since = last - timedelta(hours=24)
    notes = sorted((n for n in build.notes.values() if n.at >= since), key=lambda note: note.at)
    yield from (note.words for note in notes[-3:])


def _grown_old(build: Build, last: datetime | None, now: datetime) -> Iterator[Left]:
    if last is None:
        return
    then = proof_standings(build, last)
    for key, standing in proof_standings(build, now).items():
        record = build.proofs[key]
        good_then = then[key].state.is_good
        if good_then and not standing.state.is_good and is_asked_for(build, record):
            words = standing.words or str(standing.state)
            yield Left(record.proof.called, words, f"proof:{key}")


def _overdue(build: Build, now: datetime) -> Iterator[Left]:
    standings = need_standings(build)
    for key, record in build.orders.items():
        expected = record.line.expected_on
        if record.outstanding and expected is not None and expected < now.date():
            need = build.needs.get(record.line.need or "")
            waits = ""
            if need is not None and need.job in build.jobs and standings[need.id].here == 0:
                waits = f"; “{build.jobs[need.job].job.title}” waits for it"
            who = record.line.supplier or "nobody named"
            yield Left(
                record.line.title, f"expected {expected:%d %b %Y} from {who}{waits}", f"order:{key}"
            )
