"""Where in a line the words stand that say what became of a thing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bareshell.whole.said.cue_words import PHRASES_OF, Cue
from bareshell.whole.said.trade_words import PHRASES, UNSURE_PAST, WORK, base_of, is_past
from bareshell.whole.said.words import Token, is_number, slip_between

# Read with a job's own words before them and nothing that they could belong to after.
_PARTICLES: Final = {
    "in": Cue.DONE,
    "on": Cue.DONE,
    "up": Cue.DONE,
    "down": Cue.DONE,
    "off": Cue.OFF,
    "out": Cue.OFF,
}

_ENDS_A_PARTICLE: Final = frozenset(
    "and then but also plus with today tonight now again finally at about after too both nice "
    "nicely fine ok okay well easily eventually last took taking just only yesterday this for as "
    "so all no not without apart except & + looks looking works working parks first second "
    "straight sweet lovely good great perfect perfectly still while because that which it they "
    "then those this".split()
)

_NEGATIONS: Final = frozenset(
    "not no never cant cannot couldnt didnt doesnt dont hadnt hasnt havent isnt arent wasnt werent "
    "wont wouldnt shouldnt neither nor without aint nothing nobody nowhere".split()
)

_WITH_NUMBERS: Final = frozenset({Cue.COMPANY, Cue.ALONE, Cue.NOTHING, Cue.PART})
"""Cues whose phrases hold a number word: two of us."""

KIN: Final = frozenset(
    "brother dad father son daughter wife husband mate friend neighbour neighbor mum mother "
    "uncle nephew niece girlfriend boyfriend partner lad kids grandson cousin sister helper "
    "grandad".split()
)
"""Who helps in a garage."""

_THINGS_IN_ING: Final = frozenset(
    "wiring lining bearing fitting steering piping timing casting bushing pressing".split()
)

QUESTIONS: Final = frozenset(
    "is are was were did does do has have had can could should would will when where what which "
    "who why how".split()
)


@dataclass(frozen=True, slots=True)
class Hit:
    """A cue and the tokens that say it."""

    cue: Cue
    first: int
    after: int
    verb: str = ""


@lru_cache(maxsize=1)
def _by_first_word() -> dict[str, list[tuple[tuple[str, ...], Cue]]]:
    found: dict[str, list[tuple[tuple[str, ...], Cue]]] = {}
    for cue, text in PHRASES_OF.items():
        for item in text.replace("\n", " ").split(";"):
            words = tuple(item.split())
            if words:
                found.setdefault(words[0], []).append((words, cue))
    for phrases in found.values():
        phrases.sort(key=lambda p: -len(p[0]))
    return found


def cues_of(tokens: Sequence[Token], taken: Sequence[bool]) -> tuple[Hit, ...]:
    """Find the cues of a line, the longest phrase first; figures (``taken``) are no cues.

    A single word may be several cues; which one is meant the clause decides.

    Examples
    --------
    >>> from bareshell.whole.said.words import tokens_of
    >>> found = tokens_of("heater in, valve not done")
    >>> [(str(h.cue), h.first) for h in cues_of(found, [False] * len(found))]
    [('done', 1), ('not done', 3)]
    """
    texts = [_as_known(t.text) for t in tokens]
    found: list[Hit] = []
    at = 0
    while at < len(texts):
        thing = _thing_at(texts, at)
        hits = _phrases_at(texts, tokens, taken, at)
        if thing and max((h.after for h in hits), default=0) <= at + thing:
            at += thing
            continue
        if taken[at] and not hits:
            at += 1
            continue
        if not hits:
            hits = _single(texts, tokens, taken, at)
        found += hits
        at = max((h.after for h in hits), default=at + 1)
    return tuple(found)


def _thing_at(texts: Sequence[str], at: int) -> int:
    """Return how many words are one thing here, as split pins are: none of them is a cue."""
    return next((n for n in (3, 2) if tuple(texts[at : at + n]) in PHRASES), 0)


@lru_cache(maxsize=4096)
def _as_known(text: str) -> str:
    """Mend a slip of the fingers in the words that say what happened: finsihed, fittted."""
    if len(text) < 6 or text in _by_first_word() or base_of(text) or is_number(text):
        return text
    for known in ("finished", "fitted", "completed", "started", "temporary", "missing", "arrived",
                  "damaged", "holding", "leaking", "weeping", "removed", "installed", "bolted",
                  "connected", "measured", "lesson", "torqued"):  # fmt: skip
        if slip_between(text, known):
            return known
    return text


def _phrases_at(
    texts: Sequence[str], tokens: Sequence[Token], taken: Sequence[bool], at: int
) -> list[Hit]:
    best = 0
    found: list[Hit] = []
    for words, cue in _by_first_word().get(texts[at], ()):
        size = len(words)
        if size < best:
            break
        after = at + size
        if tuple(texts[at:after]) != words or any(t.gap for t in tokens[at + 1 : after]):
            continue
        if any(taken[at:after]) and cue not in _WITH_NUMBERS:
            continue
        to_a_thing = texts[after : after + 1] in (["the"], ["my"], ["a"])
        if words in (("hold", "on"), ("pressure", "on")) and to_a_thing:
            continue  # "pressure on the pipes" does not say that it was put there just now
        best = size
        found.append(Hit(cue, at, after))
    if found and best == 1 and texts[at] in _NEGATIONS:
        return found
    if found and best == 1 and is_past(texts[at]) and base_of(texts[at]) not in (None, "read"):
        found.append(Hit(Cue.DONE, at, at + 1, base_of(texts[at]) or ""))
    return found


def _single(
    texts: Sequence[str], tokens: Sequence[Token], taken: Sequence[bool], at: int
) -> list[Hit]:
    text = texts[at]
    if text in _NEGATIONS:
        return [Hit(Cue.UNDONE, at, at + 1, "not")]
    if text in KIN and texts[at + 1 : at + 2] == ["'s"]:
        return [Hit(Cue.OTHER_CAR, at, at + 1)]
    if _is_company(texts, tokens, at):
        return [Hit(Cue.COMPANY, at, at + 1)]
    if text in _PARTICLES:
        return (
            [Hit(_PARTICLES[text], at, at + 1)] if _stands_alone(texts, tokens, taken, at) else []
        )
    base = base_of(text)
    if base is None:
        return []
    if is_past(text) and (text not in UNSURE_PAST or _is_verb_here(texts, tokens, at)):
        cue = Cue.TORQUED if "torque" in WORK.get(base, ()) else Cue.DONE
        return [Hit(cue, at, at + 1, base)]
    if text.endswith("ing") and text not in _THINGS_IN_ING:
        return [Hit(Cue.PART, at, at + 1, base)]
    if text == base and _begins(texts, tokens, at):
        return [Hit(Cue.DO, at, at + 1, base)]
    return []


def _is_company(texts: Sequence[str], tokens: Sequence[Token], at: int) -> bool:
    """Whether a word names somebody who was there: my brother, with Alex."""
    if texts[at] in KIN:
        return True
    name = tokens[at].raw
    a_name = len(name) > 2 and name[:1].isupper() and name[1:].islower()
    with_me = texts[max(0, at - 2) : at] in (["me", "and"], ["me", "&"], ["i", "and"])
    return a_name and at > 0 and (texts[at - 1] == "with" or with_me)


def _begins(texts: Sequence[str], tokens: Sequence[Token], at: int) -> bool:
    return at == 0 or bool(tokens[at].gap) or texts[at - 1] in ("and", "then", "also", "but")


def _is_verb_here(texts: Sequence[str], tokens: Sequence[Token], at: int) -> bool:
    """Whether set, put, cut stand where a verb stands."""
    if at + 1 == len(texts) or tokens[at + 1].gap:
        return at > 0 and not tokens[at].gap
    if _begins(texts, tokens, at) or texts[at - 1] in ("i", "we", "is", "are", "'s", "have", "got"):
        return True
    return texts[at + 1] in ("and", "in", "to", "up")


def _stands_alone(
    texts: Sequence[str], tokens: Sequence[Token], taken: Sequence[bool], at: int
) -> bool:
    """Whether a particle says that a thing is in or on, and does not lead to another word."""
    if at == 0 or (tokens[at].gap in (";", "?")):
        return False
    if at + 1 == len(texts) or tokens[at + 1].gap or taken[at + 1]:
        return True
    return texts[at + 1] in _ENDS_A_PARTICLE
