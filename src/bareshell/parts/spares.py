"""How many more to order than are wanted: the fixing you are bound to lose, order two.

Rules of the bench, each with its reason; the owner may order otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Final

from bareshell.model.spec import (
    BoltSpec,
    PipeSpec,
    RubberSpec,
    SealSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.units import known_thread

__all__ = ["SMALL_M", "Spare", "spares_for"]

SMALL_M: Final = 0.0065
"""Threads up to here roll under benches: M6, 1/4 in and below [S:trade-practice]. [m]"""


@dataclass(frozen=True, slots=True)
class Spare:
    """How many more, and why."""

    more: int
    why: str = ""


def spares_for(spec: Spec, quantity: int, *, fixing: bool) -> Spare:
    """Say how many more than wanted to order [S:trade-practice].

    Parameters
    ----------
    spec : Spec
        What is wanted.
    quantity : int
        How many are wanted.
    fixing : bool
        Whether it is a fastener, clip or pin.

    Examples
    --------
    >>> spares_for(SplitPinSpec(diameter_m=0.0024), 2, fixing=True)
    Spare(more=2, why='split pins hold once')
    >>> spares_for(BoltSpec(thread="M5"), 1, fixing=True).why
    'the one you are bound to lose: order two'
    """
    match spec:
        case SplitPinSpec():
            return Spare(max(2, quantity), "split pins hold once")
        case SealSpec():
            if "copper" in (spec.material or "").casefold():
                return Spare(ceil(quantity / 2), "washers seal once")
            return Spare(0)
        case UnionSpec():
            return Spare(max(1, ceil(0.2 * quantity)), "a flare is spoilt now and then")
        case PipeSpec() | RubberSpec():
            return Spare(0, "length: a fifth more for spoil, in the metres")
        case BoltSpec():
            return _bolts(spec, quantity, fixing=fixing)
        case _:
            return (
                Spare(max(1, ceil(0.1 * quantity)), "small things get lost") if fixing else Spare(0)
            )


def _bolts(spec: BoltSpec, quantity: int, *, fixing: bool) -> Spare:
    thread = known_thread(spec.thread) if spec.thread else None
    small = thread is None or thread.diameter_m <= SMALL_M
    if "ny" in (spec.lock or "").casefold():
        return Spare(max(1, ceil(0.1 * quantity)), "a nylon insert holds once")
    if not (fixing and small):
        return Spare(0)
    if quantity == 1:
        return Spare(1, "the one you are bound to lose: order two")
    return Spare(max(1, ceil(0.1 * quantity)), "small threads roll under benches")
