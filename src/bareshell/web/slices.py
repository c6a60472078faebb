"""One part of a long list at a time: a phone in the garage is never sent two thousand lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

_Item = TypeVar("_Item")

PART = 40
"""How many lines are shown at a time."""


@dataclass(frozen=True, slots=True)
class Slice(Generic[_Item]):
    """A part of a list, and where in the list it lies.

    Parameters
    ----------
    items : tuple
        What is shown.
    number, pages : int
        Which part it is, of how many.
    total : int
        How many lines the list has.
    first, last : int
        The lines shown, counted from 1; both 0 when there are none.
    """

    items: tuple[_Item, ...]
    number: int
    pages: int
    total: int
    first: int
    last: int


def part_of(items: Sequence[_Item], number: int, size: int = PART) -> Slice[_Item]:
    """Cut a part out of a list; a number beyond the last part is the last part.

    Examples
    --------
    >>> part = part_of(range(100), 3)
    >>> part.number, part.pages, part.first, part.last, part.items[0]
    (3, 3, 81, 100, 80)
    >>> part_of([], 7).total
    0
    """
    pages = max(1, -(-len(items) // size))
    number = min(max(1, number), pages)
    shown = tuple(items[(number - 1) * size : number * size])
    first = (number - 1) * size + 1 if shown else 0
    return Slice(shown, number, pages, len(items), first, first + len(shown) - 1 if shown else 0)
