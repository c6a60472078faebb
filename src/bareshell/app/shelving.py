"""Putting what was found on the shelf."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.errors import BadInput, NotFound
from bareshell.model.changes import HoldingSet
from bareshell.model.part import Holding
from bareshell.model.standing import need_standings
from bareshell.model.trust import Trust


def found(
    door: Door,
    need_id: str,
    quantity: int | None = None,
    where: str = "",
    *,
    entry_id: str | None = None,
) -> str:
    """Write down that what a job wants is here.

    Parameters
    ----------
    door : Door
        The build.
    need_id : str
        What the job wants.
    quantity : int or None
        How many were found; None for as many as are still wanted.
    where : str
        The shelf or bin it lies in.
    entry_id : str or None
        The writer's own id for the entry.

    Returns
    -------
    str
        What was written down.

    Raises
    ------
    NotFound
        When the build has no such need.
    BadInput
        When fewer than one were found.
    """
    build = door.build()
    if need_id not in build.needs:
        raise NotFound(f"there is no need '{need_id}'", "look for it on the shelf page")
    need, standing = build.needs[need_id], need_standings(build)[need_id]
    count = quantity if quantity is not None else max(1, need.quantity - standing.here)
    if count < 1:
        raise BadInput(
            "quantity", f"{count} is not found", "give 1 or more, or say that it is not here"
        )
    holding = Holding(
        id=f"{need_id}.{build.seq + 1}",
        title=need.title,
        quantity=count,
        spec=need.spec,
        need=need_id,
        where=where,
        trust=Trust.ASSUMED,
    )
    door.record(HoldingSet(holding), ids=[entry_id] if entry_id else None)
    place = f" in {where}" if where else ""
    return f"{count} x {need.title} here{place}."
