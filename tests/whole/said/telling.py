"""Changes in a short notation, so that a table of lines can be read at a glance."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from bareshell.model import changes as c
from bareshell.whole.said.results import Understood
from tests.whole.said.invented_builds import ZONE


def told(understood: Understood, zone: ZoneInfo = ZONE) -> tuple[str, ...]:
    """Return every fact that a line would record, notes left aside."""
    return tuple(
        words for change in understood.changes if (words := _words(change, zone)) is not None
    )


def notes(understood: Understood) -> tuple[str, ...]:
    """Return the words that a line would keep as notes."""
    return tuple(ch.note.words for ch in understood.changes if isinstance(ch, c.NoteWritten))


def _hours(hours: float | None) -> str:
    return "" if hours is None else f" {round(hours, 2):g} h"


def _readings(change: c.ProofHeld | c.ProofBegun | c.ProofFailed) -> str:
    return "".join(f" {round(r.value, 3):g} {r.unit}" for r in change.readings)


def _words(change: c.Change, zone: ZoneInfo) -> str | None:
    if isinstance(change, c.NoteWritten | c.TempSet):
        return None
    if isinstance(change, c.SessionHeld):
        return _session(change, zone)
    return _of_jobs(change) or _of_parts(change) or _of_proofs(change) or _of_the_rest(change)


def _of_jobs(change: c.Change) -> str:
    match change:
        case c.JobFinished():
            return f"done {change.job_id}{_hours(change.hours)}"
        case c.JobWorked():
            left = "" if change.hours_left is None else f",{_hours(change.hours_left)} left"
            return f"worked {change.job_id}{_hours(change.hours)}{left}"
        case c.JobStarted():
            return f"started {change.job_id}"
        case c.JobTakenOff():
            return f"off {change.job_id}"
        case c.JobNotDone():
            return f"undone {change.job_id}"
        case c.JobSet():
            likely = change.job.ways[0].hours.likely_hours
            return f"new job {change.job.title} / {change.job.system} / {likely:g} h"
    return ""


def _of_parts(change: c.Change) -> str:
    match change:
        case c.NeedNotHere():
            return f"none {change.need_id}"
        case c.HoldingSet():
            return f"here {change.holding.need} {change.holding.quantity}"
        case c.GoodsChecked():
            return f"goods {change.order_id} {change.outcome} {change.quantity}"
    return ""


def _of_proofs(change: c.Change) -> str:
    match change:
        case c.ProofHeld():
            return f"held {change.proof_id}{_readings(change)}"
        case c.ProofBegun():
            return f"begun {change.proof_id}{_readings(change)}"
        case c.ProofFailed():
            return f"failed {change.proof_id}{_readings(change)}"
        case c.ProofSpent():
            return f"spent {change.proof_id}"
    return ""


def _of_the_rest(change: c.Change) -> str:
    match change:
        case c.TempRaised():
            return f"temp {change.temp_id.split('-')[0]}"
        case c.TempCleared():
            return f"temp gone {change.temp_id}"
        case c.LessonLearned():
            return f"lesson {change.lesson.job}"
        case c.CarPlaced():
            return f"on {change.placement.support}"
    return f"{change.KIND} {change.subject}"


def _session(change: c.SessionHeld, zone: ZoneInfo) -> str:
    held = change.session
    start, end = held.started_at.astimezone(zone), held.ended_at.astimezone(zone)
    people = f" people {held.people}" if held.people != 1 else ""
    degrees = f" {held.temperature_c:g} C" if held.temperature_c is not None else ""
    return f"session {start:%H:%M}-{end:%H:%M}{people}{degrees}"
