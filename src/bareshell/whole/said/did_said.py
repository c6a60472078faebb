"""Sentences that begin with "did the" and carry no question mark: told, perhaps, or asked."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile
from typing import Final

from bareshell.whole.said.trade_words import base_of
from bareshell.whole.said.words import Token

_HAPPENS: Final = frozenset(
    "go come hold leak arrive work turn drip weep pass fail start stick move match get read need "
    "have look feel sit stay drop rise fall break crack burst snap blow do".split()
)
"""What a thing may do by itself: "did the matrix hold" asks."""

_HOURS: Final = frozenset("h hr hrs hour hours min mins minute minutes".split())


def may_tell(tokens: Sequence[Token]) -> bool:
    """Whether 'did the lamps, 2 hours' may tell of work, though it begins as a question does.

    Examples
    --------
    >>> from bareshell.whole.said.words import tokens_of
    >>> [may_tell(tokens_of(s)) for s in ("did the lamps, 2 hours", "did the matrix hold")]
    [True, False]
    """
    texts = [t.text for t in tokens]
    if len(texts) < 3 or texts[0] != "did" or texts[1] not in ("the", "my"):
        return False
    first = [texts[2], *(t.text for t in takewhile(lambda t: not t.gap, tokens[3:]))]
    after = [w for before, w in pairwise(first) if before not in ("and", "&")]
    if any(word in _HAPPENS for word in after):
        return False
    timed = bool(_HOURS & set(texts))
    return timed or not any(base_of(word) == word for word in after)
