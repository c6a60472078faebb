"""What is not known exactly: figures with a range, those that are unknown alike taken as one.

Both front pads are of one batch: whatever their friction is, it is the same left and right. Figures
of one kind on one axle that were entered alike (value, range and trust) are therefore one unknown
and vary together. Those that were each measured, or entered differently left and right, have an
error of their own each and vary apart; so do the lengths of pipes, which are cut one by one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.figures import InputRange
from bareshell.brakes.needs import Need
from bareshell.model.brake import LineKind, Part, field_of
from bareshell.model.trust import Trust

__all__ = ["Unknown", "grouped"]

_EXACT: Final = frozenset({"count"})
"""Quantities that are counted, and so never lie between two numbers."""


@dataclass(frozen=True, slots=True)
class Unknown:
    """One thing that is not known exactly.

    Parameters
    ----------
    paths : tuple of str
        The figures that it stands for.
    words : str
        What it is.
    low, value, high : float
        The range that is believed, and what is taken when one figure is wanted. [SI]
    trust : Trust
        Where it comes from.
    how : str
        How a person finds it.
    """

    paths: tuple[str, ...]
    words: str
    low: float
    value: float
    high: float
    trust: Trust
    how: str

    @property
    def path(self) -> str:
        """The first of its figures, for links and as its name."""
        return self.paths[0]


def grouped(ranges: Iterable[InputRange], needs: Mapping[str, Need]) -> tuple[Unknown, ...]:
    """Put figures together that are unknown alike, and leave out what is exact.

    Parameters
    ----------
    ranges : iterable of InputRange
        From `bareshell.brakes.figures.ranges`.
    needs : mapping of str to Need
        By path.
    """
    groups: dict[tuple[object, ...], list[InputRange]] = {}
    for each in ranges:
        need = needs[each.path]
        if each.low < each.high and field_of(need.owner.kind, need.name).quantity not in _EXACT:
            groups.setdefault(_alike(each, need), []).append(each)
    return tuple(_unknown(group, needs[group[0].path]) for group in groups.values())


def _alike(each: InputRange, need: Need) -> tuple[object, ...]:
    owner = need.owner
    cut = owner.kind is LineKind.PIPE and need.name == "length_m"
    if each.trust is Trust.MEASURED or cut:
        return (each.path,)
    wheel = owner.wheel if isinstance(owner, Part) else None
    axle = None if wheel is None else wheel.is_front
    return owner.kind, need.name, axle, each.low, each.value, each.high, each.trust


def _unknown(group: list[InputRange], need: Need) -> Unknown:
    first = group[0]
    words = first.words
    if len(group) > 1:
        words = f"{words.removesuffix(')')} and {len(group) - 1} like it)"
    return Unknown(
        tuple(each.path for each in group),
        words,
        first.low,
        first.value,
        first.high,
        first.trust,
        need.how,
    )
