"""Going through a gate when the job that is the going-through of it is finished."""

from __future__ import annotations

from collections.abc import Iterable

from bareshell.app.door import Door
from bareshell.model.changes import GatePassed
from bareshell.model.standing import GateStanding, gate_standings

SHOWN = 4


def go_through(door: Door, finished: Iterable[str], by: str | None = None) -> tuple[str, ...]:
    """Pass the gates whose own jobs were just finished, as far as nothing stands between.

    The job itself is on the record whatever happens, because it was done; the gate is passed
    only when its proofs are good and its temps are gone.

    Parameters
    ----------
    door : Door
        The build, with the jobs already written down as finished.
    finished : iterable of str
        The jobs.
    by : str or None
        Who lets the car through; None for the door's author.

    Returns
    -------
    tuple of str
        For each such gate, that it is passed or what still stands between.
    """
    said = []
    for key in finished:
        build = door.build()
        record = build.jobs.get(key)
        gate = record.job.gate if record is not None else None
        if record is None or gate is None or not record.state.is_done:
            continue
        if gate not in build.gates or build.gates[gate].passed is not None:
            continue
        standing = gate_standings(build, door.now())[gate]
        title = standing.gate.title
        if standing.is_clear:
            door.record(GatePassed(gate, by or door.author, f"with '{record.job.title}'"))
            said.append(f"The car is through the gate '{title}'.")
        else:
            said.append(f"The gate '{title}' is not passed: {_between(door, standing)}.")
    return tuple(said)


def _between(door: Door, standing: GateStanding) -> str:
    build = door.build()
    names = [f"gate '{build.gates[g].gate.title}'" for g in standing.gates]
    names += [f"job '{build.jobs[j].job.title}'" for j in standing.jobs]
    names += [f"proof '{build.proofs[p].proof.called}'" for p in standing.proofs]
    names += [f"temp '{build.temps[t].temp.title}'" for t in standing.temps]
    more = f" and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return ", ".join(names[:SHOWN]) + more + " still to clear"
