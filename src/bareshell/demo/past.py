"""The sessions that took place: as many as the work took, the last one with the pressure hold."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import count

from bareshell.demo.days import held_days
from bareshell.demo.jobs import DONE_BEFORE, LEFT_OUT
from bareshell.demo.order_of_work import LAST_NIGHT, ONLY_BEGUN, RAINY_DAY, TAKEN_UP
from bareshell.demo.walk import Piece, Session, hours_taken, walk
from bareshell.model.job import Job
from bareshell.model.network import joined
from bareshell.model.proof import Proof
from bareshell.model.temp import Gate

_FEWEST_SESSIONS = 90
_ANY_HOURS = 1000.0
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
    after = {key: (*job.after, *gated.get(key, ())) for key, job in jobs.items()}
    before = joined(after, LEFT_OUT)
    rainy_day, hours_left = RAINY_DAY
    begun = {**ONLY_BEGUN, rainy_day: (_ANY_HOURS, hours_left)}
    for number in count(_FEWEST_SESSIONS):
        days = held_days(today, number)
        sessions, left = walk(days[:-1], (*TAKEN_UP, rainy_day), jobs, before, DONE_BEFORE, begun)
        if set(left) <= {rainy_day}:
            break
    last = days[-1]
    hours = min(hours_taken(jobs[LAST_NIGHT], 1), last.work_hours)
    hold = Piece(LAST_NIGHT, last.begins + _SET_UP, hours, first=True, last=True)
    return (*_guessed(sessions, rainy_day, hours_left), Session(last, (hold,)))


def _guessed(sessions: Sequence[Session], job: str, hours_left: float) -> tuple[Session, ...]:
    """Put the owner's guess of what is left with the last piece of a job that has no end."""
    worked = [n for n, s in enumerate(sessions) if any(p.job == job for p in s.pieces)]
    if not worked:
        return tuple(sessions)
    pieces = sessions[worked[-1]].pieces
    said = tuple(replace(p, hours_left=hours_left) if p.job == job else p for p in pieces)
    return tuple(replace(s, pieces=said) if n == worked[-1] else s for n, s in enumerate(sessions))


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
