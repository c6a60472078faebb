"""Whose hours they are: those that went in, those still to do, each job's, or all together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final


def _phrases(text: str) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(item.split()) for item in text.replace("\n", " ").split(";"))


LEFT: Final = _phrases(
    "left; remaining; more; to go; to do; to finish; needed; 's work left; work left; s work left;"
    "or so left; or so to go; of work left; yet; should finish; will finish; 'll finish;"
    "should do it; still to do; still to go"
)
EACH: Final = _phrases("each; apiece; a side; per side; a piece")
TOTAL: Final = _phrases(
    "total; altogether; all told; in all; in total; all in; for the lot; between them; for both;"
    "for all; the lot"
)
LEFT_BEFORE: Final = frozenset({"still", "needs", "need", "leaves", "leaving", "remaining"})


def begins_with(texts: Sequence[str], phrases: Iterable[tuple[str, ...]]) -> bool:
    """Whether some words begin with one of some phrases.

    Examples
    --------
    >>> begins_with(("to", "go", "no", "time"), LEFT)
    True
    """
    return phrase_length(texts, phrases) > 0


def phrase_length(texts: Sequence[str], phrases: Iterable[tuple[str, ...]]) -> int:
    """Return how many words the longest phrase has that some words begin with, or 0."""
    return max((len(p) for p in phrases if tuple(texts[: len(p)]) == p), default=0)
