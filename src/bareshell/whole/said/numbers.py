"""Numbers in a line, in figures or in words: 2, 2.5, 1 1/2, two and a half, nought point four."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bareshell.whole.said.words import Token

_ONES: Final = {
    word: value
    for value, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
        "sixteen seventeen eighteen nineteen".split(),
        1,
    )
}
_NOUGHTS: Final = frozenset({"nought", "naught", "zero", "oh"})
_TENS: Final = {
    word: value
    for value, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)
} | {"fourty": 4}
_SIGNS: Final = {
    "½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3,
    "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875,
}  # fmt: skip
_MORE: Final = {
    ("and", "a", "half"): 0.5,
    ("and", "half"): 0.5,
    ("and", "a", "quarter"): 0.25,
    ("and", "three", "quarters"): 0.75,
    ("and", "a", "bit"): 0.0,
}
_AMOUNTS: Final = {
    ("half", "a", "dozen"): 6.0,
    ("a", "couple", "of"): 2.0,
    ("a", "couple"): 2.0,
    ("couple", "of"): 2.0,
    ("a", "pair", "of"): 2.0,
    ("pair", "of"): 2.0,
    ("a", "dozen"): 12.0,
    ("three", "quarters", "of"): 0.75,
    ("three", "quarters"): 0.75,
    ("three", "quarter"): 0.75,
    ("a", "quarter", "of"): 0.25,
    ("quarter", "of"): 0.25,
    ("half", "of"): 0.5,
}


def texts_at(tokens: Sequence[Token], at: int, count: int) -> tuple[str, ...]:
    """Return the texts of some tokens, when nothing but a space parts them."""
    part = tokens[at : at + count]
    if len(part) < count or any(t.gap for t in part[1:]):
        return ()
    return tuple(t.text for t in part)


def number_at(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    """Read the number that begins at a token.

    Returns
    -------
    (float, int) or None
        The number and the token after it.

    Examples
    --------
    >>> from bareshell.whole.said.words import tokens_of
    >>> [number_at(tokens_of(s), 0) for s in ("2.5 h", "two and a half", "1 1/2 h", "twenty five")]
    [(2.5, 1), (2.5, 4), (1.5, 2), (25.0, 2)]
    >>> number_at(tokens_of("nought point four"), 0), number_at(tokens_of("clips"), 0)
    ((0.4, 3), None)
    """
    for length in (3, 2):
        amount = _AMOUNTS.get(texts_at(tokens, at, length))
        if amount is not None:
            return amount, at + length
    whole = _whole_at(tokens, at)
    if whole is None:
        return None
    value, after = whole
    if after < len(tokens) and value == int(value) and not tokens[after].gap:
        part = _part(tokens[after].text)
        if part is not None and part < 1:
            return value + part, after + 1
    for length in (3, 2):
        more = _MORE.get(texts_at(tokens, after, length))
        if more is not None and not tokens[after].gap:
            return value + more, after + length
    return value, after


def _whole_at(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    text = tokens[at].text
    if text[0].isdigit() or text in _SIGNS:
        value = _figures(text)
        return None if value is None else (value, at + 1)
    if text in _TENS:
        value = _TENS[text] * 10
        small = texts_at(tokens, at, 2)
        if small and _ONES.get(small[1], 10) < 10:
            return float(value + _ONES[small[1]]), at + 2
        return _with_point(tokens, float(value), at + 1)
    if text in _ONES:
        if texts_at(tokens, at, 2)[1:] == ("hundred",):
            return _ONES[text] * 100.0, at + 2
        return _with_point(tokens, float(_ONES[text]), at + 1)
    if text in _NOUGHTS and texts_at(tokens, at, 2)[1:] == ("point",):
        return _with_point(tokens, 0.0, at + 1)
    if text == "point" and len(texts_at(tokens, at, 2)) == 2:
        value, after = _with_point(tokens, 0.0, at)
        return None if after == at else (value, after)
    if text == "half":
        return 0.5, at + 1
    return None


def _with_point(tokens: Sequence[Token], whole: float, at: int) -> tuple[float, int]:
    """Read 'point two five' after a whole number."""
    if at >= len(tokens) or tokens[at].text != "point":
        return whole, at
    digits = ""
    after = at + 1
    while after < len(tokens) and not tokens[after].gap:
        text = tokens[after].text
        if text in _NOUGHTS:
            digits += "0"
        elif _ONES.get(text, 10) < 10:
            digits += str(_ONES[text])
        elif text.isascii() and text.isdigit():
            digits += text
        else:
            break
        after += 1
    return (float(f"{whole:.0f}.{digits}"), after) if digits else (whole, at)


def _figures(text: str) -> float | None:
    if text in _SIGNS:
        return _SIGNS[text]
    if "/" in text:
        return _part(text)
    plain = text.replace(",", ".")
    if ":" in plain or plain.count(".") > 1 or not plain.isascii() or len(plain) > 12:
        return None
    return float(plain)


def _part(text: str) -> float | None:
    if text in _SIGNS:
        return _SIGNS[text]
    top, slash, bottom = text.partition("/")
    digits = all(part.isascii() and part.isdigit() for part in (top, bottom))
    if not slash or not digits or not int(bottom):
        return None
    return int(top) / int(bottom)
