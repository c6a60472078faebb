"""Taps: the same facts from buttons, for gloves and cold hands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, tzinfo
from enum import StrEnum

from bareshell.errors import BadInput, NotFound
from bareshell.model import Build
from bareshell.model.changes import (
    Change,
    JobFinished,
    JobNotDone,
    JobStarted,
    JobTakenOff,
    JobWorked,
)
from bareshell.model.job import JobEventKind
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.cues import Hit
from bareshell.whole.said.desk import Desk, Piece
from bareshell.whole.said.figures import MOST_WORK_HOURS, Figure, Measure, figure_typed
from bareshell.whole.said.job_told import hours_words
from bareshell.whole.said.proof_judged import judged
from bareshell.whole.said.results import Heard, Understood
from bareshell.whole.said.subjects import Subjects, Wanted
from bareshell.whole.said.weigh import weighed


class TapAction(StrEnum):
    """What a button says of a job or of one of its proofs."""

    START = "start"
    STOP = "stop"
    FINISHED = "finished"
    TAKEN_OFF = "taken off"
    NOT_DONE = "not done"
    PROOF_BEGUN = "proof begun"
    PROOF_HELD = "proof held"
    PROOF_FAILED = "proof failed"


_OF_PROOFS = (TapAction.PROOF_BEGUN, TapAction.PROOF_HELD, TapAction.PROOF_FAILED)


@dataclass(frozen=True, slots=True)
class Tap:
    """One tap.

    Parameters
    ----------
    job : str
        The job; for a proof, the job in whose ticket it was tapped, or empty.
    action : TapAction
        What was tapped.
    hours, hours_left : float or None
        Hours of this stretch and hours still to do. [h]
    proof : str
        The proof, for an action about one.
    figure : str
        What was read, with its unit, as typed: ``"71 bar"``.
    held_hours : float or None
        How long a proof held. [h]
    words : str
        Anything else.
    """

    job: str
    action: TapAction
    hours: float | None = None
    hours_left: float | None = None
    proof: str = ""
    figure: str = ""
    held_hours: float | None = None
    words: str = ""


def tapped(taps: Sequence[Tap], build: Build, at: datetime, zone: tzinfo) -> Understood:
    """Read taps as a line is read: the same sentences, the same questions, the same changes.

    Parameters
    ----------
    taps : sequence of Tap
        In the order in which they were tapped.
    build : Build
        The build as it stands.
    at : datetime
        When. Aware.
    zone : tzinfo
        The garage's zone.

    Returns
    -------
    Understood
        A figure that misses its limit is asked about, and a start that a rule forbids is too.

    Raises
    ------
    NotFound
        When a tap names a job or proof that the build does not have.
    BadInput
        When hours or a figure cannot be used.
    """
    desk = Desk(build, Subjects(build, ()), (), at, zone)
    pieces = [_piece(tap, desk) for tap in taps]
    heard, asked, left = weighed(pieces, desk)
    seen = {
        c.subject: build.versions[c.subject]
        for h in heard
        for c in h.changes
        if c.subject in build.versions
    }
    return Understood("", at, heard, asked, left, seen)


def offered_hours(build: Build, job_id: str, now: datetime) -> float | None:
    """Return the hours to offer at a stop: from the start tap till now, to five minutes.

    Parameters
    ----------
    build : Build
        The build.
    job_id : str
        The job.
    now : datetime
        When it is stopped. Aware.

    Returns
    -------
    float or None
        Hours; None when it was not started, or so long ago that nobody worked through. [h]
    """
    record = build.jobs.get(job_id)
    if record is None:
        return None
    started: datetime | None = None
    for event in record.events:
        if event.at > now:
            break
        started = event.at if event.kind is JobEventKind.STARTED else None
    if started is None:
        return None
    hours = (now - started).total_seconds() / 3600
    if hours > MOST_WORK_HOURS:
        return None
    return round(hours * 12) / 12


def _piece(tap: Tap, desk: Desk) -> Piece:
    if tap.action in _OF_PROOFS:
        return _of_a_proof(tap, desk)
    if tap.job not in desk.build.jobs:
        raise NotFound(f"there is no job '{tap.job}' in this build", "tap a job it has")
    title = desk.title(tap.job)
    for name, hours in (("hours", tap.hours), ("hours left", tap.hours_left)):
        if hours is not None and not 0 <= hours <= 1000:
            raise BadInput(
                f"{name} of '{title}'", f"{hours:g} cannot be", "write hours such as 2.5"
            )
    kind, said, change = _of_a_job(tap)
    return Piece(Heard(f"{title}: {said}", kind, title, (change,), 1.0, tap.words), stays=True)


def _of_a_job(tap: Tap) -> tuple[str, str, Change]:
    told = hours_words(tap.hours, tap.hours_left)
    match tap.action:
        case TapAction.START:
            return "part done", "started", JobStarted(tap.job)
        case TapAction.STOP:
            worked = JobWorked(tap.job, tap.hours, tap.hours_left, tap.words)
            return "part done", f"part done{told}", worked
        case TapAction.FINISHED:
            return "finished", f"finished{told}", JobFinished(tap.job, tap.hours, tap.words)
        case TapAction.TAKEN_OFF:
            off = JobTakenOff(tap.job, tap.words)
            return "taken off", "taken off again, it is there to do again", off
        case _:
            return "not done", "not done after all", JobNotDone(tap.job, tap.words)


def _of_a_proof(tap: Tap, desk: Desk) -> Piece:
    if tap.proof not in desk.build.proofs:
        raise NotFound(f"there is no proof '{tap.proof}' in this build", "tap a proof it has")
    proof = desk.build.proofs[tap.proof].proof
    cue = {
        TapAction.PROOF_BEGUN: Cue.BEGUN,
        TapAction.PROOF_HELD: Cue.HELD,
        TapAction.PROOF_FAILED: Cue.FAILED,
    }[tap.action]
    words = tap.words or " ".join(w for w in (tap.figure, str(tap.action)) if w)
    figures = list(_figures(tap, proof.title, proof.limits[0].unit if proof.limits else ""))
    if tap.held_hours is not None:
        figures.append(Figure(Measure.HOURS, tap.held_hours, 0, 0))
    hit = Hit(cue, 0, 1)
    clause = Clause(words, (str(cue),), (hit,), tuple(figures), Wanted(()), "then",
                    cues=frozenset({cue}))  # fmt: skip
    return judged(clause, desk, proof, 1.0)


def _figures(tap: Tap, title: str, unit: str) -> Sequence[Figure]:
    """Read the typed figure; the unit printed beside the field is the limit's own."""
    if not tap.figure.strip():
        return ()
    typed = figure_typed(tap.figure, title)
    if typed is None:
        raise BadInput(f"figure of '{title}'", f"'{tap.figure}' is no figure",
                       f"write it with its unit, such as 1 {unit or 'bar'}")  # fmt: skip
    value, mark, quantity = typed
    return (Figure(Measure.QUANTITY, value, 0, 0, mark or unit, quantity),)
