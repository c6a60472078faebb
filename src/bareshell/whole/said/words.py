"""A line cut into words, and how alike two words are."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from bareshell.whole.said.trade_words import FILLERS, PHRASES, SAME_THING

MOST_WORDS = 400
"""No evening's line is longer; what comes after is kept as it was typed."""

_TOKEN = re.compile(
    r"\d+(?:[.,:]\d+)+|\d+/\d+|\d+|[½¼¾⅓⅔⅛⅜⅝⅞]|[^\W\d_]+(?:['’`][^\W\d_]+)*|[°%ΩΩ&+\"″”]"
)
_TAIL = re.compile(r"^(.+?)(['’`](?:s|re|ll|ve|m|d))$", re.IGNORECASE)
_HARD = re.compile(r"[;!?\n\r]|\.(?=\s|$)|(?<=[a-z)]{2})\.(?=[a-z]{2})|…", re.IGNORECASE)
_SOFT = re.compile(r"[,:()\[\]•*]|\s[-–—]+(?=\s|$)|--+|[–—]|/(?=\s)|\.")
_SHORT_FORMS = {"n/s/f": "nsf", "o/s/f": "osf", "n/s/r": "nsr", "o/s/r": "osr"}
_SHORT_FORMS |= {"n/s": "ns", "o/s": "os", "w/o": "without", "l/h": "lh", "r/h": "rh"}
_SHORT = re.compile(r"\b(?:[no]/s(?:/[fr])?|w/o|[lr]/h)\b", re.IGNORECASE)
_DICTATED: dict[tuple[str, ...], str] = {
    ("full", "stop"): ";",
    ("semi", "colon"): ";",
    ("new", "line"): ";",
}
_DICTATED |= {("semicolon",): ";", ("comma",): ","}


@dataclass(frozen=True, slots=True)
class Token:
    """One word or sign of a line.

    Parameters
    ----------
    text : str
        In plain small letters, without apostrophes inside: ``didnt``.
    start, end : int
        Its place in the line as typed.
    gap : str
        What parts it from the token before: ``";"`` ends a sentence, ``"?"`` a question,
        ``","`` parts softly, ``""`` is only a space.
    raw : str
        As typed.
    glued : bool
        Whether nothing at all stands between it and the token before.
    """

    text: str
    start: int
    end: int
    gap: str
    raw: str
    glued: bool = False


def tokens_of(line: str) -> tuple[Token, ...]:
    """Cut a line into tokens.

    Examples
    --------
    >>> [t.text for t in tokens_of("Heater's in, 2h30. Didn’t bleed")]
    ['heater', "'s", 'in', '2', 'h', '30', 'didnt', 'bleed']
    """
    found: list[Token] = []
    last = 0
    short = {m.start(): m for m in _SHORT.finditer(line)}
    position = 0
    while position < len(line) and len(found) < MOST_WORDS:
        match = short.get(position) or _TOKEN.search(line, position)
        if match is None:
            break
        start = min((s for s in short if position <= s <= match.start()), default=match.start())
        match = short.get(start, match)
        for text, begins, ends in _pieces(match):
            gap = _gap(line[last:begins])
            raw = line[begins:ends]
            found.append(Token(text, begins, ends, gap, raw, bool(found) and begins == last))
            last = ends
        position = match.end()
    return _without_dictated_stops(found)


def _pieces(match: re.Match[str]) -> Iterable[tuple[str, int, int]]:
    raw, start = match[0], match.start()
    if raw.lower() in _SHORT_FORMS:
        yield _SHORT_FORMS[raw.lower()], start, match.end()
        return
    tail = _TAIL.match(raw)
    if tail:
        cut = start + len(tail[1])
        yield _plain(tail[1]), start, cut
        yield "'" + tail[2][1:].lower(), cut, match.end()
    else:
        yield _plain(raw), start, match.end()


def _plain(raw: str) -> str:
    return re.sub(r"['’`]", "", raw).lower()


def _gap(between: str) -> str:
    if "?" in between:
        return "?"
    if _HARD.search(between):
        return ";"
    return "," if _SOFT.search(between) else ""


def _without_dictated_stops(found: list[Token]) -> tuple[Token, ...]:
    """Take 'full stop' and 'comma', as dictation writes them, for the signs they name."""
    kept: list[Token] = []
    pending, at = "", 0
    while at < len(found):
        for length in (2, 1):
            words = tuple(t.text for t in found[at : at + length])
            if len(words) == length and words in _DICTATED and kept:
                pending = _DICTATED[words]
                at += length
                break
        else:
            token = found[at]
            if pending and token.gap in ("", ","):
                token = Token(token.text, token.start, token.end, pending, token.raw)
            kept.append(token)
            pending = ""
            at += 1
    return tuple(kept)


@lru_cache(maxsize=8192)
def stem_of(word: str) -> str:
    """Take the endings off a word, so that hoses and hose, hanging and hang are one.

    Examples
    --------
    >>> [stem_of(w) for w in ("hoses", "clips", "glasses", "assemblies", "brakes", "fitted", "tee")]
    ['hose', 'clip', 'glass', 'assembly', 'brake', 'fit', 'tee']
    """
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("sses", "shes", "ches", "xes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    for ending in ("ing", "ed"):
        stem = word[: -len(ending)]
        if word.endswith(ending) and len(stem) > 2 and re.search("[aeiouy]", stem):
            if ending == "ing" and word in {"lining", "wiring", "steering", "bearing", "timing"}:
                return word
            if stem[-1] == stem[-2] and stem[-1] not in "ls":
                return stem[:-1]
            return stem
    return word


def is_number(text: str) -> bool:
    """Whether a token is written in figures."""
    return text[:1].isdigit() or text in "½¼¾⅓⅔⅛⅜⅝⅞"


def content_stems(texts: Sequence[str]) -> tuple[str, ...]:
    """Return the stems that say which thing is meant, phrases brought to one word.

    Examples
    --------
    >>> content_stems("the parking brake cables of the car".split())
    ('handbrake', 'cable')
    """
    return tuple(
        stem_of(word)
        for word in merged(texts)
        if word not in FILLERS and not is_number(word) and len(word) > 1
    )


def merged(texts: Sequence[str]) -> tuple[str, ...]:
    """Put two or three words that are one thing together."""
    found: list[str] = []
    at = 0
    while at < len(texts):
        for length in (3, 2):
            means = PHRASES.get(tuple(texts[at : at + length]))
            if means is not None and at + length <= len(texts):
                found += means
                at += length
                break
        else:
            if _is_a_shape(texts, at):
                found.append(texts[at] + texts[at + 1])
                at += 2
                continue
            found += PHRASES.get((texts[at],), (texts[at],))
            at += 1
    return tuple(found)


def _is_a_shape(texts: Sequence[str], at: int) -> bool:
    """Whether a letter names a shape with the word after it: P clip, U bolt, O ring."""
    follows = texts[at + 1] if at + 1 < len(texts) else ""
    letter = len(texts[at]) == 1 and texts[at].isalpha() and texts[at] not in "aixhmcfvn"
    return letter and len(follows) > 2 and follows not in FILLERS and follows.isalpha()


@lru_cache(maxsize=1)
def other_stems() -> dict[str, tuple[str, ...]]:
    """Return the other words for a thing, by stem."""
    found: dict[str, tuple[str, ...]] = {}
    for word, others in SAME_THING.items():
        stems = (stem_of(o) for o in others)
        stem = stem_of(word)
        found[stem] = tuple(dict.fromkeys((*found.get(stem, ()), *stems)))
    return found


def slip_between(typed: str, meant: str) -> bool:
    """Whether one word is the other with a slip of the fingers.

    One letter wrong, left out, put in, or two changed about; in a word of eight letters or
    more, two such slips. The first letter is taken as right.

    Examples
    --------
    >>> slip_between("heatr", "heater"), slip_between("clam", "clip"), slip_between("hub", "hob")
    (True, False, False)
    """
    longest = max(len(typed), len(meant))
    if longest < 5 or min(len(typed), len(meant)) < 4 or typed[0] != meant[0]:
        return False
    allowed = 2 if longest >= 8 else 1
    if abs(len(typed) - len(meant)) > allowed:
        return False
    return _slips(typed, meant) <= allowed


def _slips(a: str, b: str) -> int:
    before: list[int] = []
    row = list(range(len(b) + 1))
    for i, left in enumerate(a, 1):
        older, before, row = before, row, [i]
        for j, right in enumerate(b, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (left != right))
            if i > 1 and j > 1 and left == b[j - 2] and a[i - 2] == right:
                cost = min(cost, older[j - 2] + 1)
            row.append(cost)
    return row[-1]
