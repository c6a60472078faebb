"""Cutting a line into clauses: one thing and what became of it in each.

Stops and semicolons always cut. Commas and ``and`` may cut, and so may no sign at all, because
dictation writes none: of all ways to cut a sentence the one is taken in which the pieces say
most and leave least unexplained.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.cues import QUESTIONS, Hit, cues_of
from bareshell.whole.said.did_said import may_tell
from bareshell.whole.said.figures import Figure, Measure, figures_of
from bareshell.whole.said.hours import EACH, LEFT, TOTAL, phrase_length
from bareshell.whole.said.names import Kind
from bareshell.whole.said.subjects import Subjects, Wanted, sides_in, stems_by_word
from bareshell.whole.said.trade_words import FILLERS, SIDES, is_past
from bareshell.whole.said.words import Token

LONGEST_CLAUSE = 26

_JOB: Final = frozenset({Cue.DONE, Cue.PART, Cue.STARTED, Cue.STILL, Cue.UNDONE, Cue.OFF, Cue.DO})
_PROOF: Final = frozenset({Cue.HELD, Cue.BEGUN, Cue.FAILED, Cue.LEAK, Cue.TORQUED})
_PART: Final = frozenset(
    {Cue.SHORT, Cue.MISSING, Cue.WRONG, Cue.DAMAGED, Cue.ARRIVED, Cue.UNLIKE, Cue.CHECKED}
)
_SESSION: Final = frozenset({Cue.ALONE, Cue.COMPANY, Cue.BEGAN_AT, Cue.ENDED_AT})
_KEEPS_ITS_WORDS: Final = _PROOF | {Cue.READ, Cue.TEMP, Cue.PROPER}
"""Cues whose words may be a thing's own name too: a gap, a hold, joints dry."""

_TALK: Final = frozenset({Cue.LATER, Cue.MAYBE, Cue.OTHER_CAR})
_JOINERS: Final = frozenset(
    {"and", "then", "but", "also", "plus", "&", "+", "though", "however", "so"}
)


@dataclass(frozen=True, slots=True)
class Clause:
    """One piece of a line.

    Parameters
    ----------
    text : str
        As typed, the signs around it included, so that all clauses together are the line.
    texts : tuple of str
        Its words in plain small letters.
    hits, figures : tuple
        Its cues and figures; places count from the clause's own first word.
    wanted : Wanted
        What names a thing in it.
    joint : str
        How it hangs on the clause before: ``";"``, ``"?"``, ``","``, ``"and"``, ``"then"``,
        ``"but"`` or ``""``.
    asks : bool
        Whether its sentence is a question.
    raws : tuple of str
        The words as typed.
    runs : tuple of tuple of str
        Its names as they stand together, each a few stems; the last is the thing itself.
    gaps : tuple of str
        The signs before each of its words.
    free : tuple of str
        The stems that are no part of a cue.
    """

    text: str
    texts: tuple[str, ...]
    hits: tuple[Hit, ...]
    figures: tuple[Figure, ...]
    wanted: Wanted
    joint: str = ""
    asks: bool = False
    raws: tuple[str, ...] = ()
    cues: frozenset[Cue] = field(default=frozenset())
    runs: tuple[tuple[str, ...], ...] = ()
    gaps: tuple[str, ...] = ()
    free: tuple[str, ...] = ()

    def joined(self, other: Clause) -> Clause:
        """Return this clause with the one after it taken in."""
        step = len(self.texts)
        hits = tuple(Hit(h.cue, h.first + step, h.after + step, h.verb) for h in other.hits)
        figures = tuple(
            replace(f, first=f.first + step, after=f.after + step) for f in other.figures
        )
        return replace(
            self,
            text=self.text + other.text,
            texts=self.texts + other.texts,
            hits=self.hits + hits,
            figures=self.figures + figures,
            wanted=Wanted(
                self.wanted.stems + other.wanted.stems,
                self.wanted.sides | other.wanted.sides,
                self.wanted.both or other.wanted.both,
            ),
            raws=self.raws + other.raws,
            runs=self.runs + other.runs,
            gaps=self.gaps + other.gaps,
            free=self.free + other.free,
            cues=self.cues | other.cues,
        )

    def has(self, *cues: Cue) -> bool:
        """Whether any of some cues was found."""
        return not self.cues.isdisjoint(cues)

    def of(self, measure: Measure) -> tuple[Figure, ...]:
        """Return its figures of one sort."""
        return tuple(f for f in self.figures if f.measure is measure)


@dataclass(slots=True)
class Sentence:
    """A stretch of tokens that is cut into clauses, with all that was found in it.

    ``perhaps`` says that it begins as a question does and may tell of work all the same.
    """

    line: str
    tokens: Sequence[Token]
    subjects: Subjects
    asks: bool
    perhaps: bool = False
    figures: tuple[Figure, ...] = ()
    hits: tuple[Hit, ...] = ()
    stems: list[tuple[str, ...]] = field(default_factory=list)
    taken: list[bool] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Read figures, cues and words once."""
        size = len(self.tokens)
        self.figures = figures_of(self.line, self.tokens)
        self.taken = [False] * size
        for figure in self.figures:
            self.taken[figure.first : figure.after] = [True] * (figure.after - figure.first)
        self.hits = cues_of(self.tokens, self.taken)
        self.stems = self._stems()

    def _stems(self) -> list[tuple[str, ...]]:
        stems = stems_by_word([t.text for t in self.tokens], self.subjects)
        mute = list(self.taken)
        cued = [False] * len(self.tokens)
        for hit in self.hits:
            for at in range(hit.first, hit.after):
                cued[at] = True
                own = hit.cue in _KEEPS_ITS_WORDS and not is_past(self.tokens[at].text)
                mute[at] |= not own and not (hit.cue in (Cue.DO, Cue.PART) and bool(hit.verb))
        for at, token in enumerate(self.tokens):
            # A verb of no list, as in "piped up", is no name.
            a_verb = len(token.text) > 4 and token.text.endswith("ed")
            mute[at] |= a_verb and not any(self.subjects.has(s) for s in stems[at])
        return [
            () if mute[at] else tuple(s for s in group if not cued[at] or self.subjects.has(s))
            for at, group in enumerate(stems)
        ]


def sentences_of(line: str, tokens: Sequence[Token], subjects: Subjects) -> list[Sentence]:
    """Cut a line where stops, semicolons and question marks stand."""
    found: list[Sentence] = []
    first = 0
    for at in range(1, len(tokens) + 1):
        if at < len(tokens) and tokens[at].gap not in (";", "?"):
            continue
        ends = (
            line[tokens[at - 1].end :]
            if at == len(tokens)
            else line[tokens[at - 1].end : tokens[at].start]
        )
        part = tokens[first:at]
        marked = "?" in ends
        asks = marked or (part[0].text in QUESTIONS and _asks(part))
        perhaps = asks and not marked and may_tell(part)
        found.append(Sentence(line, part, subjects, asks and not perhaps, perhaps))
        first = at
    return found


def _asks(part: Sequence[Token]) -> bool:
    """Whether a sentence that begins with is, did, when is a question without its mark."""
    if part[0].text in ("have", "has", "had"):
        return len(part) > 1 and part[1].text in ("i", "we", "you", "it", "they")
    follows = {t.text for t in part[1:3]}
    return bool(follows & {"the", "my", "that", "i", "we", "it", "there", "this", "did", "is"})


def clauses_of(sentence: Sentence, start: int, end: int) -> list[Clause]:
    """Cut a sentence into clauses; ``start`` and ``end`` are its place in the line."""
    cuts = _best_cuts(sentence)
    found: list[Clause] = []
    for first, after in cuts:
        begins = start if first == 0 else sentence.tokens[first].start
        ends = end if after == len(sentence.tokens) else sentence.tokens[after].start
        found.append(_clause(sentence, first, after, sentence.line[begins:ends]))
    return found


def _clause(sentence: Sentence, first: int, after: int, text: str) -> Clause:
    tokens = sentence.tokens[first:after]
    hits = tuple(
        Hit(h.cue, h.first - first, h.after - first, h.verb)
        for h in sentence.hits
        if first <= h.first and h.after <= after
    )
    figures = tuple(
        Figure(f.measure, f.value, f.first - first, f.after - first, f.unit, f.quantity)
        for f in sentence.figures
        if first <= f.first and f.after <= after
    )
    texts = tuple(t.text for t in tokens)
    free = [
        "" if sentence.taken[first + n] or _in_a_phrase(hits, n) else text_
        for n, text_ in enumerate(texts)
    ]
    for figure in figures:
        if figure.measure is Measure.HOURS and figure.after < len(free):
            free[figure.after] = "" if free[figure.after] == "left" else free[figure.after]
    free = [
        "" if t in ("left", "right") and not _beside_a_thing(sentence, first + n) else t
        for n, t in enumerate(free)
    ]
    stems = tuple(s for group in sentence.stems[first:after] for s in group)
    sides, both = sides_in(free)
    wanted = Wanted(stems, sides, both or bool({"both", "pair"} & set(texts)))
    return Clause(
        text,
        texts,
        hits,
        figures,
        wanted,
        _joint(sentence, first),
        sentence.asks,
        tuple(t.raw for t in tokens),
        frozenset(h.cue for h in hits),
        _runs(sentence, first, after),
        tuple(t.gap for t in tokens),
        tuple(
            s
            for at in range(first, after)
            if not any(h.first <= at < h.after for h in sentence.hits)
            for s in sentence.stems[at]
        ),
    )


def _runs(sentence: Sentence, first: int, after: int) -> tuple[tuple[str, ...], ...]:
    """Return the stems that stand side by side: 'petrol tap', 'hose clips'."""
    runs: list[list[str]] = []
    joined = False
    for at in range(first, after):
        token = sentence.tokens[at]
        stems = sentence.stems[at]
        if not stems or (token.text.endswith("ly") and not sentence.subjects.has(stems[-1])):
            joined = joined and not token.gap and _inside_a_thing(sentence, at)
            continue
        if joined and not token.gap:
            runs[-1] += stems
        else:
            runs.append(list(stems))
        joined = True
    return tuple(tuple(run) for run in runs)


def _inside_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether a word without a stem is the rest of a phrase that is one thing."""
    token = sentence.tokens[at]
    cued = any(h.first <= at < h.after for h in sentence.hits)
    return not (sentence.taken[at] or cued or token.text in FILLERS or token.text in SIDES)


def _beside_a_thing(sentence: Sentence, at: int) -> bool:
    """Whether left or right stands beside a name: left hose, not 'parks right' nor 'Right, ...'."""
    for near in (at - 1, at + 1):
        if not 0 <= near < len(sentence.tokens) or sentence.tokens[max(at, near)].gap:
            continue
        text = sentence.tokens[near].text
        named = any(sentence.subjects.knows(s) for s in sentence.stems[near])
        if named or text in SIDES or text in ("hand", "side", "one", "ones"):
            return True
    return False


def _in_a_phrase(hits: Sequence[Hit], at: int) -> bool:
    return any(h.first <= at < h.after and h.after - h.first > 1 for h in hits)


def _joint(sentence: Sentence, first: int) -> str:
    token = sentence.tokens[first]
    if first == 0:
        return token.gap or ";"
    word = token.text
    if word in ("and", "&", "plus", "+", "also"):
        return "and"
    if word in ("then", "but"):
        return word
    return token.gap


# --- where to cut ----------------------------------------------------------------------------


def _best_cuts(sentence: Sentence) -> list[tuple[int, int]]:
    """Choose the cuts in which the pieces say most (one walk over all ends, best start each)."""
    size = len(sentence.tokens)
    best = [0.0] + [float("-inf")] * size
    back = [0] * (size + 1)
    for first in range(size):
        if best[first] == float("-inf") or not _may_begin(sentence, first):
            continue
        scorer = _Scorer(sentence, first)
        for after in range(first + 1, min(size, first + LONGEST_CLAUSE) + 1):
            scorer.take(after - 1)
            if after < size and not _may_begin(sentence, after):
                continue
            score = best[first] + scorer.score(after) - _cost_of_cut(sentence, first)
            if score > best[after] + 1e-9:
                best[after], back[after] = score, first
    cuts: list[tuple[int, int]] = []
    at = size
    while at:
        cuts.append((back[at], at))
        at = back[at]
    return cuts[::-1]


def _may_begin(sentence: Sentence, at: int) -> bool:
    """A clause never begins inside a figure or a phrase that is one cue."""
    for figure in sentence.figures:
        after = figure.after
        if figure.measure is Measure.HOURS:
            follows = [t.text for t in sentence.tokens[after : after + 5]]
            after += phrase_length(follows, LEFT + EACH + TOTAL)
        if figure.first < at < after:
            return False
    return not any(h.first < at < h.after for h in sentence.hits)


def _cost_of_cut(sentence: Sentence, first: int) -> float:
    if first == 0:
        return 0.0
    token = sentence.tokens[first]
    if token.gap:
        return 0.0
    if any(h.cue in _TALK and h.first < first <= h.after + 6 for h in sentence.hits):
        # What would, should or may be is one stretch of talk until a sign ends it.
        return 2.5 if _talk_runs_on(sentence, first) else 0.15
    return 0.15 if token.text in _JOINERS else 0.9


def _talk_runs_on(sentence: Sentence, first: int) -> bool:
    """Whether no sign parts a place from the last word of talk before it."""
    last = max(h.first for h in sentence.hits if h.cue in _TALK and h.first < first)
    signs = any(sentence.tokens[at].gap for at in range(last + 1, first + 1))
    return not signs and sentence.tokens[first].text not in _JOINERS


class _Scorer:
    """What a growing clause says: things named, cues, figures, and words left unexplained."""

    def __init__(self, sentence: Sentence, first: int) -> None:
        self.sentence = sentence
        self.first = first
        self.mass: dict[int, float] = {}
        self.seen: set[str] = set()
        self.known = 0.0
        self.strange = 0

    def take(self, at: int) -> None:
        """Take one more word in."""
        subjects = self.sentence.subjects
        for stem in self.sentence.stems[at]:
            if stem in self.seen:
                continue
            self.seen.add(stem)
            worths = subjects.worth(stem)
            if not worths:
                self.strange += 1
                continue
            self.known += max(worths.values())
            for thing, worth in worths.items():
                self.mass[thing] = self.mass.get(thing, 0.0) + worth

    def score(self, after: int) -> float:
        """How much the clause up to here says."""
        sentence = self.sentence
        cues = {h.cue for h in sentence.hits if self.first <= h.first and h.after <= after}
        figures = [f for f in sentence.figures if self.first <= f.first and f.after <= after]
        measures = [f.measure for f in figures]
        mass = max(self.mass.values(), default=0.0)
        mass += self._verb_agrees(after, mass)
        groups = sum(
            bool(cues & group) for group in (_JOB, _PROOF, _PART, _SESSION, {Cue.STANDING})
        ) + (Measure.QUANTITY in measures and not cues & _PROOF)
        acts = groups > 0 or Measure.HOURS in measures or Measure.QUANTITY in measures
        # A bodge names several things, and none of them is what it is about.
        beside = 0.4 if Cue.TEMP in cues else 1.2
        score = mass - beside * max(0.0, self.known - mass) - 0.12 * self.strange - 0.9
        if mass >= 0.2 and acts:
            score += 1.0
        elif acts and not cues & _SESSION:
            score -= 0.6
        if self._is_session(cues, measures) and mass < 0.2:
            score += 0.9
        hours = measures.count(Measure.HOURS) - bool(cues & _PROOF)
        score -= 1.2 * max(0, hours - 1 - self._says_left(after))
        score -= 0.45 * max(0, groups - 1)
        score -= 1.0 * (measures.count(Measure.DEGREES) > 0 and mass >= 0.2)
        score -= 0.45 * self._hours_lead(figures, mass)
        return score - 0.9 * self._acts_again(after)

    def _hours_lead(self, figures: Sequence[Figure], mass: float) -> bool:
        """Whether hours stand first with no sign before them: then they are the last thing's."""
        if self.first == 0 or mass < 0.2 or self.sentence.tokens[self.first].gap:
            return False
        hours = [f.first for f in figures if f.measure is Measure.HOURS]
        size = len(self.sentence.tokens)
        named = next((at for at in range(self.first, size) if self.sentence.stems[at]), size)
        return bool(hours) and hours[0] < named

    def _verb_agrees(self, after: int, mass: float) -> float:
        """How much it helps that the work told is that of a job named: tested, of a test."""
        verbs = {h.verb for h in self.sentence.hits if self.first <= h.first and h.after <= after}
        likely = (t for t, value in self.mass.items() if value >= 0.5 * mass)
        things = self.sentence.subjects.all
        return 0.3 if any(verbs & set(things[t].verbs) - {"fit", ""} for t in likely) else 0.0

    def _is_session(self, cues: set[Cue], measures: list[Measure]) -> bool:
        timed = bool(cues & {Cue.BEGAN_AT, Cue.ENDED_AT}) and Measure.CLOCK in measures
        timed = timed and Measure.QUANTITY not in measures
        with_support = Cue.STANDING in cues and any(
            self.sentence.subjects.all[at].kind is Kind.SUPPORT for at in self.mass
        )
        return (
            Measure.DEGREES in measures
            or measures.count(Measure.CLOCK) == 2
            or bool(cues & {Cue.ALONE, Cue.COMPANY})
            or timed
            or with_support
        )

    def _says_left(self, after: int) -> bool:
        words = {t.text for t in self.sentence.tokens[self.first : after]}
        return bool(words & {"left", "go", "remaining", "more", "still", "needs", "need"})

    def _acts_again(self, after: int) -> int:
        """Count the times that a thing is named after one thing's doing was told already."""
        told = named = False
        again = 0
        mass: dict[int, float] = {}
        for at in range(self.first, after):
            stems = self.sentence.stems[at]
            worths = [w for s in stems if (w := self.sentence.subjects.worth(s))]
            if worths:
                if told and named and not self._same_thing(mass, worths):
                    again += 1
                    told = False
                named = True
                for worth in worths:
                    for thing, value in worth.items():
                        mass[thing] = mass.get(thing, 0.0) + value
            if any(
                h.after == at + 1
                and h.cue in _JOB | _PART
                and h.cue is not Cue.DO
                and h.cue is not Cue.PART
                for h in self.sentence.hits
            ):
                told = named
        return min(again, 2)

    def _same_thing(self, mass: dict[int, float], worths: Sequence[dict[int, float]]) -> bool:
        """Whether words go on naming the thing that was named before them."""
        best = max(mass.values(), default=0.0)
        likely = [thing for thing, value in mass.items() if value >= 0.3 * best]
        return any(thing in worth for worth in worths for thing in likely)
