"""Tickets of work that only a gate asks for: going through, a temp off, a hidden joint shown."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from bareshell.model import Build
from bareshell.model.job import Caution, Job
from bareshell.whole.gates_ahead import CLEAR, THROUGH, UNCOVER, covers_over
from bareshell.whole.sheet_parts import ProofLine, Ticket

__all__ = ["OF_GATES", "gate_ticket"]

OF_GATES = (THROUGH, CLEAR, UNCOVER)
"""What the key of such work begins with."""


def gate_ticket(
    build: Build,
    job_id: str,
    starts_at: datetime,
    ends_at: datetime,
    line: Callable[[str], ProofLine],
    cautions: Callable[[Job], tuple[Caution, ...]],
    *,
    finishes: bool,
    people: int,
) -> Ticket:
    """Make the ticket of going through a gate, of taking a temp off, or of uncovering.

    Parameters
    ----------
    build : Build
        The build.
    job_id : str
        One of ``OF_GATES`` and the id of the gate, the temp or the proof.
    starts_at, ends_at : datetime
        Its place in the session.
    line : callable
        Shows a proof.
    cautions : callable
        Says what can hurt in a job.
    finishes : bool
        Whether it is expected to be done at the end.
    people : int
        How many it takes.
    """
    prefix = next(one for one in OF_GATES if job_id.startswith(one))
    key = job_id.removeprefix(prefix)
    title, note, like = _told(build, prefix, key)
    return Ticket(
        id=job_id,
        title=title,
        system=like.system if like else "commissioning",
        starts_at=starts_at,
        ends_at=ends_at,
        minutes=round((ends_at - starts_at).total_seconds() / 60),
        finishes=finishes,
        people=people,
        cautions=cautions(like) if like else (),
        proves=(line(key),) if prefix == UNCOVER else (),
        clears=(title_of_temp(build, key),) if prefix == CLEAR else (),
        zones=tuple(sorted(str(zone) for zone in like.zones)) if like else (),
        place=str(like.place) if like else "",
        note=note,
    )


def title_of_temp(build: Build, temp: str) -> str:
    """Return what a temp is called."""
    return build.temps[temp].temp.title


def _told(build: Build, prefix: str, key: str) -> tuple[str, str, Job | None]:
    if prefix == THROUGH:
        gate = build.gates[key].gate
        behind = [build.jobs[j].job.title for j in gate.blocks if j in build.jobs]
        waits = f" Behind it waits '{behind[0]}'." if behind else ""
        note = f"Look it over, then let the car through by name on the gate's page.{waits}"
        return f"Through the gate: {gate.title}", note, None
    if prefix == CLEAR:
        temp = build.temps[key].temp
        instead = f"In its place: {temp.replaced_by}. " if temp.replaced_by else ""
        gate_title = build.gates[temp.gate].gate.title if temp.gate in build.gates else temp.gate
        note = (
            f"{instead}It must be gone before the gate '{gate_title}'; write it down on its page."
        )
        raised = build.jobs.get(temp.raised_by or "")
        return f"Take the temp off: {temp.title}", note, raised.job if raised else None
    proof = build.proofs[key].proof
    covers = [build.jobs[job].job for job in covers_over(build, key)]
    off = " and ".join(f"'{job.title}'" for job in covers) or "what hides it"
    note = (
        f"It lies hidden under {off}. Uncover it and prove it, or name a substitute proof that "
        "shows the same; a reason alone closes nothing."
    )
    return f"Uncover and prove: {proof.called}", note, covers[0] if covers else None
