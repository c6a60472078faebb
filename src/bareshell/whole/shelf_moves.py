"""Moves on the shelf that keep every count: putting some aside, sending some away."""

from __future__ import annotations

from dataclasses import replace

from bareshell.errors import BadInput, NotFound
from bareshell.model import Build
from bareshell.model import changes as c

__all__ = ["put_aside"]


def put_aside(
    build: Build, holding_id: str, need_id: str | None, count: int, part_id: str, note: str = ""
) -> tuple[c.HoldingSet, ...]:
    """Put some of a holding aside for a need; the rest stays what it was.

    Parameters
    ----------
    build : Build
        The build.
    holding_id : str
        Where they lie.
    need_id : str or None
        What they are for; None frees them.
    count : int
        How many.
    part_id : str
        The id of what is parted off, where not all are taken.
    note : str
        Added to the note of what is put aside.

    Raises
    ------
    NotFound
        When there is no such holding.
    BadInput
        When so many do not lie there.

    Examples
    --------
    >>> from bareshell.model.part import Holding
    >>> build = Build(holdings={"pins": Holding("pins", "Pins", 5)})
    >>> [
    ...     (one.holding.quantity, one.holding.need)
    ...     for one in put_aside(build, "pins", "hb", 2, "pins.a")
    ... ]
    [(3, None), (2, 'hb')]
    """
    if holding_id not in build.holdings:
        raise NotFound(f"there is no holding '{holding_id}'", "look for it on the shelf page")
    holding = build.holdings[holding_id]
    if not 1 <= count <= holding.quantity:
        raise BadInput(
            "how many",
            f"{count} of '{holding.title}' cannot be taken: {holding.quantity} lie there",
            f"give 1 to {holding.quantity}, or count again",
        )
    words = "; ".join(part for part in (holding.note, note) if part)
    if count == holding.quantity:
        return (c.HoldingSet(replace(holding, need=need_id, note=words)),)
    rest = replace(holding, quantity=holding.quantity - count)
    part = replace(holding, id=part_id, quantity=count, need=need_id, note=words)
    return c.HoldingSet(rest), c.HoldingSet(part)
