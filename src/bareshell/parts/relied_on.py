"""From when a fixing is relied on: the first moment its load path carries somebody's life.

A temp ends there, not at some later convenience: a stand-in handbrake pin must be gone before the
car is ever left held by the handbrake, which is long before the road. The moments are common
practice [S:trade-practice]; a need may name an earlier gate of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from bareshell.model.duty import Duty, LoadPath

__all__ = ["MOMENTS", "Moment", "moment_of"]


@dataclass(frozen=True, slots=True)
class Moment:
    """The first moment something is relied on.

    Parameters
    ----------
    words : str
        The moment, so that "until" or "before" reads with it.
    gate : str
        The gate that ends a temp before it: the usual one, or the one that a need names.
    usual : str
        The usual gate, by its id in the starter network; empty where ``gate`` is it.
    next_gate : str
        The gate that ends it where the usual one was passed before there was anything to rely on;
        empty where passing it means that it is relied on.
    """

    words: str
    gate: str
    usual: str = ""
    next_gate: str = ""

    @property
    def usual_gate(self) -> str:
        """The gate that stands just before the moment."""
        return self.usual or self.gate


MOMENTS: Final = MappingProxyType(
    {
        LoadPath.HANDBRAKE: Moment(
            "the car is first left held by it", "pushed-roll", next_gate="first-move"
        ),
        LoadPath.SUSPENSION: Moment("the car first stands on its wheels", "pushed-roll"),
        LoadPath.WHEEL: Moment("the car first rolls on it", "pushed-roll"),
        LoadPath.BELT: Moment("anybody is first driven in it", "first-move"),
        LoadPath.DRIVE: Moment("the engine first runs", "first-start"),
        LoadPath.FUEL: Moment("fuel or fluid first stands in it", "under-car"),
        LoadPath.CATCH: Moment("the car first moves under its own power", "first-move"),
        LoadPath.WIRING: Moment("the car first goes on the road", "road"),
        LoadPath.BODY: Moment("the car first goes on the road", "road"),
    }
)
"""By load path; those in which nothing ever stands in are not among them."""


def moment_of(duty: Duty | None) -> Moment | None:
    """Say from when a fixing is relied on; None when nobody said what for, or nothing may stand in.

    Examples
    --------
    >>> moment_of(Duty(LoadPath.HANDBRAKE)).words
    'the car is first left held by it'
    >>> moment_of(Duty(LoadPath.STEERING)) is None
    True
    """
    if duty is None or duty.load_path is None:
        return None
    usual = MOMENTS.get(duty.load_path)
    if usual is None or not duty.gate:
        return usual
    return replace(usual, gate=duty.gate, usual=usual.gate)
