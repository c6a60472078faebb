"""The sessions that took place: as many as the work took, the last one with the pressure hold."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import count

from bareshell.demo.days import held_days
from bareshell.demo.jobs import DONE_BEFORE, LEFT_OUT
from bareshell.demo.order_of_work import LAST_NIGHT, ONLY_BEGUN, PUT_OFF, RAINY_DAY, TAKEN_UP
from bareshell.demo.walk import Piece, Session, hours_taken, walk
from bareshell.model.job import Job
from bareshell.model.network import joined
from bareshell.model.proof import Proof
from bareshell.model.temp import Gate

_FEWEST_SESSIONS = 100
_SET_UP = timedelta(minutes=15)


def past_sessions(
    today: date, jobs: Mapping[str, Job], gated: Mapping[str, Iterable[str]]
) -> tuple[Session, ...]:
    """Walk through just as many sessions as the work took; the last one is the pressure hold.

    Parameters
    ----------
    today : date
        The day on which the demo is made.
    jobs : mapping
        Every job of the build.
    gated : mapping
        For each job that a gate holds up, what must be done before the gate.
    """
    after = {
        key: (*job.after, *gated.get(key, ()), *PUT_OFF.get(key, ())) for key, job in jobs.items()
    }
    before = joined(after, LEFT_OUT)
    for number in count(_FEWEST_SESSIONS):
        days = held_days(today, number)
        sessions, left = walk(days[:-1], TAKEN_UP, jobs, before, DONE_BEFORE, ONLY_BEGUN)
        if not left:
            break
    last = days[-1]
    hours = min(hours_taken(jobs[LAST_NIGHT], 1), last.work_hours)
    hold = Piece(LAST_NIGHT, last.begins + _SET_UP, hours, first=True, last=True)
    return (*_filled(sessions, jobs[RAINY_DAY]), Session(last, (hold,)))


def _filled(sessions: Sequence[Session], job: Job) -> tuple[Session, ...]:
    """Go back to a job that was only begun in every session after that had an hour over."""
    filled: list[Session] = []
    latest: Piece | None = None
    for session in sessions:
        pieces = list(session.pieces)
        room = session.day.work_hours - sum(piece.hours for piece in pieces)
        if latest is not None and room >= job.least_piece_hours:
            begins = pieces[-1].ends if pieces else session.day.begins + _SET_UP
            pieces.append(replace(latest, begins=begins, hours=room, first=False))
        latest = next((p for p in pieces if p.job == job.id and p.hours_left), latest)
        filled.append(replace(session, pieces=tuple(pieces)))
    return tuple(filled)


def before_gates(gates: Iterable[Gate], proofs: Iterable[Proof]) -> dict[str, set[str]]:
    """Return for each job that a gate holds up what must be done, or made and proved, first."""
    asked: dict[str, set[str]] = {}
    for proof in proofs:
        for gate in proof.gates:
            asked.setdefault(gate, set()).update(proof.made_by)
    return {
        job: {*gate.needs_jobs, *asked.get(gate.id, ())} - {job}
        for gate in gates
        for job in gate.blocks
    }


def end_of(sessions: Sequence[Session], job: str) -> datetime:
    """Return when a job was finished."""
    return next(p.ends for s in sessions for p in s.pieces if p.job == job and p.last)
