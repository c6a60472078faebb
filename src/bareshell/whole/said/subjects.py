"""The things of a build that a line can speak of, and how well some words name each."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Final

from bareshell.model import Build
from bareshell.model.network import predecessors
from bareshell.model.standing import proof_standings
from bareshell.whole.proving import held_together
from bareshell.whole.said.names import Kind, Subject, subjects_of
from bareshell.whole.said.trade_words import FILLERS, PHRASES, SIDES, base_of
from bareshell.whole.said.words import (
    Token,
    content_stems,
    merged,
    other_stems,
    slip_between,
    stem_of,
    tokens_of,
)

_SAME, _SLIP, _SHORTENED = 0.85, 0.8, 0.7
"""What another word for a thing counts for, one with a slip in it, one cut short."""


WHOLE: Final = "="
"""Stands before a thing's key where its title was said in full."""

LEAST_TITLE: Final = 4
"""A shorter title may stand in a line by chance ("before first start"): signs must part it."""


@lru_cache(maxsize=8192)
def _texts_of(title: str) -> tuple[str, ...]:
    return tuple(t.text for t in tokens_of(title))


def _by_title(subjects: Sequence[Subject]) -> dict[str, list[tuple[tuple[str, ...], str]]]:
    found: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for subject in subjects:
        title = _texts_of(subject.title)
        if len(title) > 1:
            found.setdefault(title[0], []).append((title, subject.key))
    for titles in found.values():
        titles.sort(key=lambda pair: -len(pair[0]))
    return found


@dataclass(frozen=True, slots=True)
class Wanted:
    """Words that ought to name a thing: stems, sides, and whether both sides are meant."""

    stems: tuple[str, ...]
    sides: dict[str, str] = field(default_factory=dict, compare=False)
    both: bool = False


@dataclass(frozen=True, slots=True)
class Match:
    """How well some words name a subject.

    ``score`` orders candidates; ``covered`` is the share of the words' weight that the subject
    answers for, ``said`` the share of its own name that was said; ``head`` tells whether one
    of the matched words is what the subject is, rather than something that belongs to it.
    """

    subject: Subject
    score: float
    covered: float
    head: bool
    matched: frozenset[str]
    said: float = 1.0


def _ranked(build: Build, tonight: Sequence[str]) -> dict[str, int]:
    """Rank what is on tonight's list; a reading stands for every joint it settles at once."""
    standings = proof_standings(build)
    ranked: dict[str, int] = {}
    for number, key in enumerate(tonight):
        bare = key.split(":", 1)[-1]
        together = held_together(build, standings, bare) if bare in build.proofs else (bare,)
        for one in together:
            ranked.setdefault(one, number)
    return ranked


class Subjects:
    """Every thing of one build that can be spoken of, indexed by its words."""

    def __init__(self, build: Build, tonight: Sequence[str]) -> None:
        self.build = build
        before = predecessors(build)
        self.ready = {
            key for key in before if all(build.jobs[b].state.is_done for b in before[key])
        }
        self.rank = _ranked(build, tonight)
        self.all: tuple[Subject, ...] = tuple(subjects_of(build))
        self.by_key = {subject.key: subject for subject in self.all}
        self._with: dict[str, list[tuple[int, float]]] = {}
        for at, subject in enumerate(self.all):
            for stem, weight in subject.words.items():
                self._with.setdefault(stem, []).append((at, weight))
        things = max(2, len({s.title for s in self.all}))
        self._weight = {
            stem: max(0.15, math.log(1 + things / len(found)) / math.log(1 + things))
            for stem, found in self._with.items()
        }
        for at, subject in enumerate(self.all):
            self._with[WHOLE + subject.key] = [(at, 2.0)]
            self._weight[WHOLE + subject.key] = 1.0
        self._titles = _by_title(self.all)
        self._verbs = Counter(verb for subject in self.all for verb in set(subject.verbs))
        self._near: dict[str, tuple[tuple[str, float], ...]] = {}

    def named_in_full(self, tokens: Sequence[Token]) -> tuple[Token, ...]:
        """Put each title that stands in a line in full together: it is one word, a name."""
        found: list[Token] = []
        at = 0
        while at < len(tokens):
            key, size = self._title_at(tokens, at)
            if size:
                whole = tokens[at : at + size]
                raw = " ".join(t.raw for t in whole)
                found.append(replace(whole[0], text=WHOLE + key, end=whole[-1].end, raw=raw))
            else:
                found.append(tokens[at])
            at += max(size, 1)
        return tuple(found)

    def _title_at(self, tokens: Sequence[Token], at: int) -> tuple[str, int]:
        for title, key in self._titles.get(tokens[at].text, ()):
            after = at + len(title)
            if tuple(t.text for t in tokens[at:after]) != title:
                continue
            begins = at == 0 or bool(tokens[at].gap)
            ends = after == len(tokens) or bool(tokens[after].gap)
            if len(title) >= LEAST_TITLE or (begins and ends):
                return key, len(title)
        return "", 0

    def knows(self, stem: str) -> bool:
        """Whether any thing of the build answers to a word, slips and other words included."""
        return bool(self.meanings(stem))

    def names_it(self, match: Match) -> bool:
        """Whether the thing itself was named, not only what stands before or beside it."""
        said = {m for stem in match.matched for m, _ in self.meanings(stem)}
        return bool(said & (match.subject.nouns | {WHOLE + match.subject.key}))

    def has(self, stem: str) -> bool:
        """Whether a word stands in the build just so."""
        return stem in self._with

    def weight(self, stem: str) -> float:
        """How much a word tells: 1 for one that names a single thing."""
        near = self.meanings(stem)
        return max((self._weight[s] * share for s, share in near), default=1.0)

    def meanings(self, stem: str) -> tuple[tuple[str, float], ...]:
        """Return the build's own stems that a word may mean, each with its share."""
        if stem not in self._near:
            self._near[stem] = self._meanings(stem)
        return self._near[stem]

    def _meanings(self, stem: str) -> tuple[tuple[str, float], ...]:
        found = {stem: 1.0} if stem in self._with else {}
        for other in other_stems().get(stem, ()):
            if other in self._with:
                found.setdefault(other, _SAME)
        if not found:
            found = self._joined_or_parted(stem)
        if not found and (stem in FILLERS or base_of(stem)):
            return ()
        if not found:
            found = {s: _SLIP for s in self._with if slip_between(stem, s)}
        if not found:
            found = self._shortened(stem)
        if not found:
            known = {s for s in other_stems() if slip_between(stem, s)}
            found = {o: _SLIP * _SAME for s in known for o in other_stems()[s] if o in self._with}
        return tuple(found.items())

    def _joined_or_parted(self, stem: str) -> dict[str, float]:
        """Read fusebox as fuse box, and down pipe as downpipe."""
        for cut in range(3, len(stem) - 2):
            halves = (stem_of(stem[:cut]), stem_of(stem[cut:]))
            if all(h in self._with for h in halves):
                return dict.fromkeys(halves, 1.0)
        return {}

    def _shortened(self, stem: str) -> dict[str, float]:
        """Read speedo as speedometer, when only one word begins so."""
        whole = [s for s in self._with if s.startswith(stem) and len(s) >= len(stem) + 3]
        return {whole[0]: _SHORTENED} if len(stem) > 2 and len(whole) == 1 else {}

    def parted(self, stem: str) -> bool:
        """Whether a word is two of the build's words written together."""
        return stem not in self._with and len(self._joined_or_parted(stem)) == 2

    def joins(self, first: str, second: str) -> str | None:
        """Return the build's one word for two that stand apart, when it has one."""
        whole = stem_of(first + second)
        return whole if whole in self._with and len(whole) > 5 else None

    def worth(self, stem: str) -> dict[int, float]:
        """Return what a word is worth to each thing, by the thing's place in ``all``."""
        found: dict[int, float] = {}
        for meaning, share in self.meanings(stem):
            for at, weight in self._with[meaning]:
                worth = self._weight[meaning] * share * weight
                found[at] = max(found.get(at, 0.0), worth)
        return found

    def found(
        self, wanted: Wanted, kinds: Iterable[Kind], verb: str | None = None
    ) -> tuple[Match, ...]:
        """Return the subjects that some words may name, best first.

        Parameters
        ----------
        wanted : Wanted
            The words.
        kinds : iterable of Kind
            What sorts of thing are asked for.
        verb : str, optional
            The work that was said to be done, in its base form.
        """
        wanted_kinds = frozenset(kinds)
        mass: dict[int, dict[str, float]] = {}
        best: dict[int, float] = {}
        for stem in dict.fromkeys(wanted.stems):
            for at, worth in self.worth(stem).items():
                if self.all[at].kind in wanted_kinds:
                    mass.setdefault(at, {})[stem] = worth
                    words = self.all[at].words
                    head = max((words.get(m, 0.0) for m, _ in self.meanings(stem)), default=0.0)
                    head = 1.0 if stem.startswith(WHOLE) else head
                    best[at] = max(best.get(at, 0.0), head)
        total = sum(self._told(stem) for stem in dict.fromkeys(wanted.stems)) or 1.0
        found = [
            self._match(self.all[at], own, best[at], total, wanted, verb)
            for at, own in mass.items()
        ]
        return tuple(sorted(found, key=lambda m: (-m.score, m.subject.key)))

    def _told(self, stem: str) -> float:
        # A word the build has never heard says little against a match; a word that names
        # something else in the build says much.
        return self.weight(stem) if self.knows(stem) else 0.12

    def _match(
        self,
        subject: Subject,
        own: dict[str, float],
        heaviest: float,
        total: float,
        wanted: Wanted,
        verb: str | None,
    ) -> Match:
        score = sum(own.values())
        told = sum(self._told(stem) for stem in own)
        covered = told / total
        title = sum(self._weight[s] * w for s, w in subject.words.items() if w >= 1) or 1.0
        said = min(1.0, score / title)
        score *= (0.4 + 0.6 * covered) * (0.75 + 0.25 * said)
        score *= _side_factor(subject.sides, wanted.sides)
        if subject.id in self.rank:
            score *= 1.4 - min(0.15, 0.01 * self.rank[subject.id])
        elif subject.kind is Kind.JOB and subject.id not in self.ready:
            score *= 0.88
        if subject.kind in (Kind.NEED, Kind.ORDER):
            score *= 0.5 + 0.5 * said
        if verb is not None and subject.verbs:
            # A verb that few jobs have, as bleed, tells more than fit does.
            rarity = 0.8 / math.sqrt(self._verbs.get(verb, 1))
            score *= 1.0 + rarity if verb in subject.verbs else 1.0
        return Match(subject, score, covered, heaviest >= 1, frozenset(own), said)


_ANY_THING: Final = frozenset(
    "run box housing case casing kit gear bit stuff lot section body thing bodywork".split()
)


def other_thing(runs: Iterable[Sequence[str]], match: Match) -> str:
    """Return the noun by which something else was named than a match: the tap of petrol tap.

    Where words stand together the last is the thing itself; a match that answers only for the
    words before it is a match for what the thing belongs to.
    """
    for run in runs:
        matched = [stem for stem in run if stem in match.matched]
        if matched and run[-1] not in match.matched and run[-1] not in _ANY_THING:
            return run[-1]
    return ""


def _side_factor(sides: dict[str, str], wanted: dict[str, str]) -> float:
    factor = 1.0
    for axis, value in wanted.items():
        if axis not in sides:
            factor *= 0.8
        elif sides[axis] == value:
            factor *= 1.15
        else:
            factor *= 0.15
    return factor


def stems_by_word(texts: Sequence[str], subjects: Subjects) -> list[tuple[str, ...]]:
    """Return for each word the stems by which it names a thing; sides and fillers name none.

    Two or three words that are one thing stand with the first of them.
    """
    found: list[tuple[str, ...]] = []
    at = 0
    while at < len(texts):
        if texts[at].startswith(WHOLE):
            found.append((texts[at],))
            at += 1
            continue
        size, means = _phrase(texts, at, subjects)
        stems = content_stems([m for m in means if m not in SIDES])
        parted = [
            part
            for stem in stems
            for part in (
                [m for m, _ in subjects.meanings(stem)] if subjects.parted(stem) else [stem]
            )
        ]
        found += [tuple(parted)] + [()] * (size - 1)
        at += size
    return found


def _phrase(texts: Sequence[str], at: int, subjects: Subjects) -> tuple[int, tuple[str, ...]]:
    for size in (3, 2):
        part = tuple(texts[at : at + size])
        means = PHRASES.get(part)
        if means is not None and len(part) == size:
            return size, means
    joined_letter = merged(texts[at : at + 2])
    if len(joined_letter) == 1 and len(texts[at : at + 2]) == 2:
        return 2, joined_letter
    pair = texts[at : at + 2]
    if len(pair) == 2 and not any(w in FILLERS or w in SIDES for w in pair):
        joined = subjects.joins(*pair)
        if joined is not None and not all(subjects.knows(stem_of(w)) for w in pair):
            return 2, (joined,)
    return 1, PHRASES.get((texts[at],), (texts[at],))


def sides_in(texts: Sequence[str]) -> tuple[dict[str, str], bool]:
    """Read which one is meant, and whether two opposite ones are: left, offside front, n/s and o/s.

    Examples
    --------
    >>> sides_in(["offside", "front"]), sides_in(["ns", "and", "os"])
    (({'side': 'right', 'end': 'front'}, False), ({}, True))
    """
    found: dict[str, set[str]] = {}
    words = merged(texts)
    for at, text in enumerate(words):
        if text in SIDES and not (text == "back" and not _is_side(words, at)):
            for axis, value in SIDES[text]:
                found.setdefault(axis, set()).add(value)
    one = {axis: next(iter(values)) for axis, values in found.items() if len(values) == 1}
    return one, len(found.get("side", ())) > 1


def wanted_from(texts: Sequence[str], subjects: Subjects) -> Wanted:
    """Sort some words into what names a thing and what says which one."""
    stems = tuple(stem for group in stems_by_word(texts, subjects) for stem in group)
    sides, both = sides_in(texts)
    return Wanted(stems, sides, both or bool({"both", "pair"} & set(texts)))


def _is_side(texts: Sequence[str], at: int) -> bool:
    """Whether back says which end: the back axle, not back in or put back."""
    follows = texts[at + 1] if at + 1 < len(texts) else ""
    return bool(follows) and follows not in FILLERS
