"""Re-checks: what has to be looked at again after so many miles or months, and how it compares.

Rubber settles, linings bed, a gasket creeps: what was torqued on the bench is looked at again on
the road. Miles count from the first one after the rebuild. A re-check is behind only when its
proof was held again once the miles were run, or a gate beyond the road gate was passed then, by
name: whatever the owner calls that gate.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from dateutil.relativedelta import relativedelta

from bareshell.model import Build
from bareshell.model.job import JobRecord
from bareshell.model.proof import ProofEvent, ProofEventKind, Reading
from bareshell.model.standing import gates_before
from bareshell.model.temp import ROAD_GATE


class RecheckState(StrEnum):
    """How a re-check stands."""

    LATER = "later"
    DUE = "due"
    AGAIN = "looked at again"


@dataclass(frozen=True, slots=True)
class Due:
    """One re-check.

    Parameters
    ----------
    job, title, system : str
        The job that causes it.
    state : RecheckState
        How it stands.
    at_miles : float or None
        The miles at which it falls due, counted from the first after the rebuild. [mile]
    on : date or None
        The day on which it falls due.
    proofs : tuple of str
        Ids of the proofs to hold again.
    """

    job: str
    title: str
    system: str
    state: RecheckState
    at_miles: float | None = None
    on: date | None = None
    proofs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Compared:
    """One figure of a proof at each time it was held.

    Parameters
    ----------
    proof, title, quantity, unit : str
        What was read.
    readings : tuple of (datetime, float or None, float)
        When, the miles by then (None before the first), and the figure in ``unit``.
    """

    proof: str
    title: str
    quantity: str
    unit: str
    readings: tuple[tuple[datetime, float | None, float], ...]

    @property
    def change(self) -> float:
        """The latest figure less the first."""
        return self.readings[-1][2] - self.readings[0][2]


def miles_by(build: Build, moment: datetime) -> float | None:
    """Return the miles run by a moment; None before anybody read them.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> miles_by(Build(), datetime(2026, 1, 1, tzinfo=UTC)) is None
    True
    """
    read = [reading.miles for reading in build.miles if reading.at <= moment]
    return read[-1] if read else None


def rechecks(build: Build, now: datetime) -> tuple[Due, ...]:
    """Return every re-check that finished jobs cause: what is due first, then what comes.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> rechecks(Build(), datetime(2026, 1, 1, tzinfo=UTC))
    ()
    """
    proofs: dict[str, list[str]] = {}
    for key, proved in build.proofs.items():
        for job in {*proved.proof.made_by, *filter(None, (proved.proof.proven_by,))}:
            proofs.setdefault(job, []).append(key)
    found = [
        due
        for key, record in build.jobs.items()
        if record.state.is_done and record.state.finished_at is not None
        for due in _of_job(build, record, tuple(proofs.get(key, ())), now)
    ]
    order = {RecheckState.DUE: 0, RecheckState.LATER: 1, RecheckState.AGAIN: 2}
    return tuple(sorted(found, key=lambda due: (order[due.state], due.at_miles or 0.0)))


def _of_job(
    build: Build, record: JobRecord, proofs: tuple[str, ...], now: datetime
) -> Iterator[Due]:
    job = record.job
    done = record.state.finished_at
    if done is None:
        return
    held = [at for key in proofs for at in _held(build.proofs[key].events)]
    for recheck in job.rechecks:
        if recheck.miles is not None:
            at_miles = (miles_by(build, done) or 0.0) + recheck.miles
            state = _by_miles(build, at_miles, held, now)
            yield Due(job.id, job.title, job.system, state, at_miles, None, proofs)
        if recheck.months is not None:
            last = max([done, *(at for at in held if at <= now)])
            on = (last + relativedelta(months=recheck.months)).date()
            state = RecheckState.DUE if on <= now.date() else RecheckState.LATER
            yield Due(job.id, job.title, job.system, state, None, on, proofs)


def _by_miles(build: Build, at_miles: float, held: list[datetime], now: datetime) -> RecheckState:
    reached = next((r.at for r in build.miles if r.miles >= at_miles and r.at <= now), None)
    if reached is None:
        return RecheckState.LATER
    # The miles are often read after the look itself: the day counts, not the hour.
    looked = (*held, *_passed_beyond_the_road(build))
    again = any(at.date() >= reached.date() for at in looked)
    return RecheckState.AGAIN if again else RecheckState.DUE


def _passed_beyond_the_road(build: Build) -> Iterator[datetime]:
    """When a gate that comes after the road gate was passed."""
    return (
        record.passed.at
        for key, record in build.gates.items()
        if record.passed is not None and ROAD_GATE in gates_before(build, key)
    )


def _held(events: tuple[ProofEvent, ...]) -> Iterator[datetime]:
    return (event.at for event in events if event.kind is ProofEventKind.HELD)


def comparisons(build: Build) -> tuple[Compared, ...]:
    """Return every figure that was read more than once in holding a proof, oldest first.

    Examples
    --------
    >>> comparisons(Build())
    ()
    """
    found = []
    for key, record in build.proofs.items():
        series: dict[tuple[str, str], list[tuple[datetime, float | None, float]]] = {}
        for event in record.events:
            if event.kind in (ProofEventKind.HELD, ProofEventKind.FAILED):
                for reading in event.readings:
                    line = series.setdefault(_what(reading), [])
                    line.append((event.at, miles_by(build, event.at), reading.value))
        found += [
            Compared(key, record.proof.called, quantity, unit, tuple(line))
            for (quantity, unit), line in series.items()
            if len(line) > 1
        ]
    return tuple(found)


def _what(reading: Reading) -> tuple[str, str]:
    return reading.quantity, reading.unit
