"""Which entries make the build of a moment: as the car stood, or as the record was."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from typing import Any

from bareshell.model import changes as c
from bareshell.model.entry import Entry, Standing
from bareshell.model.fold import withdrawn_ids

_DEFINES = (
    c.SupportSet,
    c.JobSet,
    c.NeedSet,
    c.HoldingSet,
    c.OrderSet,
    c.ProofSet,
    c.TempSet,
    c.GateSet,
    c.DepartureSet,
    c.BrakeSystemSet,
    c.PatternSet,
)
"""The changes that bring their subject into the build; the others need it to be there."""


def known_at(entries: Iterable[Entry], moment: datetime) -> tuple[Entry, ...]:
    """Return the entries that were written down by a moment: the record as it was."""
    return tuple(entry for entry in entries if entry.recorded_at <= moment)


def happened_by(entries: Sequence[Entry], moment: datetime) -> tuple[Entry, ...]:
    """Return the entries that make the car as it stood at a moment, as far as is known now.

    Those that say what had happened by then, corrected by every later withdrawal and
    settling. Where one speaks of something that was only written into the build later (a job
    finished in March of a record begun in May), that thing's first definition comes along.

    Parameters
    ----------
    entries : sequence of Entry
        The whole journal.
    moment : datetime
        With a time zone.
    """
    gone = withdrawn_ids(entries)
    first: dict[str, Entry] = {}
    for entry in entries:
        if (
            isinstance(entry.change, _DEFINES)
            and entry.standing is Standing.KEPT
            and entry.id not in gone
        ):
            first.setdefault(entry.change.subject, entry)
    corrections = (c.Withdrawn, c.Settled)
    chosen = {
        entry.seq: entry
        for entry in entries
        if entry.happened_at <= moment or isinstance(entry.change, corrections)
    }
    defined = {e.change.subject for e in chosen.values() if isinstance(e.change, _DEFINES)}
    open_ends = [e for e in chosen.values() if e.id not in gone]
    while open_ends:
        for subject in speaks_of(open_ends.pop().change):
            if subject not in defined and subject in first:
                defined.add(subject)
                chosen[first[subject].seq] = first[subject]
                open_ends.append(first[subject])
    return tuple(chosen[seq] for seq in sorted(chosen))


def speaks_of(change: c.Change) -> tuple[str, ...]:
    """Return the subjects that must be in a build for a change to make sense in it.

    Examples
    --------
    >>> from bareshell.model.part import Need
    >>> speaks_of(c.NeedSet(Need("olives", "Olives", "rear-pipe")))
    ('need:olives', 'job:rear-pipe')
    """
    others = _OTHERS.get(type(change))
    return (change.subject, *(others(change) if others else ()))


def _jobs(*jobs: str | None) -> tuple[str, ...]:
    return tuple(f"job:{job}" for job in jobs if job is not None)


def _gates(*gates: str) -> tuple[str, ...]:
    return tuple(f"gate:{gate}" for gate in gates)


def _need(need: str | None) -> tuple[str, ...]:
    return () if need is None else (f"need:{need}",)


_OTHERS: dict[type[c.Change], Callable[[Any], tuple[str, ...]]] = {
    c.CarPlaced: lambda change: (f"support:{change.placement.support}",),
    c.SupportMoveSet: lambda change: (
        f"support:{change.move.from_support}",
        f"support:{change.move.to_support}",
    ),
    c.JobSet: lambda change: _jobs(*change.job.after),
    c.NeedSet: lambda change: _jobs(change.need.job),
    c.HoldingSet: lambda change: _need(change.holding.need),
    c.OrderSet: lambda change: _need(change.line.need),
    c.ProofSet: lambda change: (
        *_jobs(*change.proof.made_by, change.proof.proven_by),
        *_jobs(*change.proof.covered_by, *change.proof.spent_by),
        *_gates(*change.proof.gates),
    ),
    c.TempSet: lambda change: _gates(change.temp.gate),
    c.GateSet: lambda change: (
        *_jobs(*change.gate.needs_jobs, *change.gate.blocks),
        *_gates(*change.gate.after),
    ),
    c.LessonLearned: lambda change: _jobs(change.lesson.job),
    **dict.fromkeys(
        (c.BrakePartSet, c.BrakePartDropped, c.BrakeLineSet, c.BrakeLineDropped),
        lambda change: (f"brakes:{change.system_id}",),
    ),
}
