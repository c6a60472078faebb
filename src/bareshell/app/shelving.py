"""Putting what was found on the shelf: one way, for the pages and the command line."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.app.written import BEFORE, Pen, Written, write_down
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
    pen: Pen | None = None,
    *,
    field: str = "quantity",
) -> Written:
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
    pen : Pen or None
        Who writes; the same form sent again says the same.
    field : str
        What the count is called where it was typed.

    Raises
    ------
    NotFound
        When the build has no such need.
    BadInput
        When fewer than one were found.
    """
    pen, build = pen or Pen(), door.build()
    if need_id not in build.needs:
        raise NotFound(f"there is no need '{need_id}'", "look for it on the shelf page")
    need, key = build.needs[need_id], _holding_key(door, need_id, pen)
    if quantity is None:
        known = build.holdings.get(key)  # the same form sent again says the same
        missing = max(1, need.quantity - need_standings(build)[need_id].here)
        quantity = known.quantity if known else missing
    if quantity < 1:
        raise BadInput(
            field, f"{quantity} is not found", "give 1 or more, or say that it is not here"
        )
    holding = Holding(key, need.title, quantity, need.spec, need_id, where, Trust.ASSUMED)
    place = f" in {where}" if where else ""
    return write_down(door, HoldingSet(holding), pen, f"{quantity} x {need.title} here{place}.")


def sent_before(door: Door, pen: Pen, subject: str) -> Written | None:
    """Recognise a form that was sent twice and moves counts: the second time they have moved.

    Parameters
    ----------
    door : Door
        The build.
    pen : Pen
        Who writes.
    subject : str
        What it was about.
    """
    if pen.entry_id and door.named((pen.entry_id,)):
        return Written((BEFORE,), subject, repeated=True)
    return None


def _holding_key(door: Door, need_id: str, pen: Pen) -> str:
    """Name a holding for its need: the same form sent again names the same one."""
    end = pen.entry_id[-8:] if pen.entry_id else str(door.build().seq + 1)
    return f"{need_id}.{end}"
