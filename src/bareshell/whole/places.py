"""Places on the shelf: the order one walks past them, and the words of their labels."""

from __future__ import annotations

import re

__all__ = ["NO_PLACE", "lies_in", "walking_order"]

NO_PLACE = "no place noted"
"""What is said of a thing whose place nobody wrote down."""


def walking_order(place: str) -> tuple[bool, tuple[tuple[int, int | str], ...]]:
    """Sort places as one walks past them: bin 9 before bin 12, and what has none last.

    Examples
    --------
    >>> sorted(["bin 12", "", "bin 9", "Bench"], key=walking_order)
    ['Bench', 'bin 9', 'bin 12', '']
    """
    parts = re.split(r"(\d+)", place.casefold())
    words = tuple((0, int(part)) if part.isdigit() else (1, part) for part in parts if part)
    return place in ("", NO_PLACE), words


def lies_in(where: str, place: str) -> bool:
    """Whether something lies in a place, or in a box, bin or drawer of it.

    Examples
    --------
    >>> lies_in("Brake shelf, bin 9", "Brake shelf"), lies_in("Brake shelf 2", "Brake shelf")
    (True, False)
    """
    here = where or NO_PLACE
    return place in ("", here) or here.startswith(f"{place},")
