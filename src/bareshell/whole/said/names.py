"""The words by which each thing of a build is named, and what each word weighs."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache
from typing import Final

from bareshell.model import Build
from bareshell.model.job import JobStatus
from bareshell.whole.said.trade_words import SIDES, base_of
from bareshell.whole.said.words import content_stems, is_number, merged, stem_of, tokens_of


class Kind(StrEnum):
    """What sort of thing a subject is."""

    JOB = "job"
    PROOF = "proof"
    NEED = "need"
    ORDER = "order"
    TEMP = "temp"
    SUPPORT = "support"


_LATER: Final = re.compile(
    r"[,:;(]|\b(?:and|through|with|to|before|beneath|along|between|in|on|at|for|under|of|from)\b"
)
_SECOND_WORD, _LENT_WORD, _FAR_WORD = 0.6, 0.45, 0.25
"""What a word counts for that comes later in a title, is lent by the job, or by a job's parts."""


@dataclass(frozen=True, slots=True)
class Subject:
    """One thing of the build and the words that name it.

    Parameters
    ----------
    kind, id, title : Kind, str, str
        What it is.
    words : dict of str to float
        Its stems and what each weighs: 1 for what it is, less for what belongs to it.
    sides : dict of str to str
        Which one it is: ``{"side": "left", "end": "front"}``.
    verbs : tuple of str
        The work it is, for a job.
    is_open : bool
        Whether there is still something to do about it.
    nouns : frozenset of str
        The stems that are the thing itself: valve of "pressure-limiting valve".
    """

    kind: Kind
    id: str
    title: str
    words: dict[str, float] = field(compare=False)
    sides: dict[str, str] = field(default_factory=dict, compare=False)
    verbs: tuple[str, ...] = ()
    is_open: bool = True
    nouns: frozenset[str] = frozenset()

    @property
    def key(self) -> str:
        """Its name among all subjects, as changes write it."""
        return f"{self.kind}:{self.id}"


def subjects_of(build: Build) -> Iterable[Subject]:
    """Name everything of a build that a line can speak of; jobs left out are not spoken of."""
    yield from _jobs(build)
    yield from _proofs(build)
    yield from _parts(build)
    for key, record in build.temps.items():
        words, sides, _ = _title_words(record.temp.title)
        for stem in ("temporary", "temp"):
            words.pop(stem, None)
        _lend(words, record.temp.replaced_by, _SECOND_WORD)
        yield Subject(Kind.TEMP, key, record.temp.title, words, sides)
    for key, support in build.supports.items():
        words, _, _ = _title_words(support.title)
        _lend(words, f"{support.kind}", 1.0)
        yield Subject(Kind.SUPPORT, key, support.title, words)


def _jobs(build: Build) -> Iterable[Subject]:
    needed: dict[str, list[str]] = {}
    for need in build.needs.values():
        needed.setdefault(need.job, []).append(need.title)
    for key, record in build.jobs.items():
        if record.state.status is JobStatus.LEFT_OUT:
            continue
        title = record.job.title
        words, sides, verbs = _title_words(title, with_verbs=True)
        _lend_id(words, key)
        for part in needed.get(key, ()):
            _lend(words, part, _FAR_WORD)
        nouns = _nouns(title, len(verbs)) | frozenset(_stems_in(key.replace("-", " ")))
        yield Subject(Kind.JOB, key, title, words, sides, verbs, record.state.is_open, nouns)


def _proofs(build: Build) -> Iterable[Subject]:
    for key, record in build.proofs.items():
        proof = record.proof
        words, sides, _ = _title_words(proof.title)
        _lend(words, proof.about, 1.0)
        for owner in (*proof.made_by, *((proof.proven_by,) if proof.proven_by else ())):
            _lend_job(words, sides, build, owner)
        yield Subject(Kind.PROOF, key, proof.title, words, sides)


def _parts(build: Build) -> Iterable[Subject]:
    for key, need in build.needs.items():
        words, sides, _ = _title_words(need.title)
        _lend_job(words, sides, build, need.job)
        job = build.jobs.get(need.job)
        is_open = job is None or job.state.is_open
        yield Subject(Kind.NEED, key, need.title, words, sides, (), is_open)
    for key, order in build.orders.items():
        words, sides, _ = _title_words(order.line.title)
        wanted = build.needs.get(order.line.need or "")
        if wanted is not None:
            _lend(words, wanted.title, 1.0)
            _lend_job(words, sides, build, wanted.job)
        yield Subject(Kind.ORDER, key, order.line.title, words, sides, (), order.outstanding > 0)


def _title_words(
    title: str, *, with_verbs: bool = False
) -> tuple[dict[str, float], dict[str, str], tuple[str, ...]]:
    words, sides, verbs = _weighed_title(title, with_verbs=with_verbs)
    return dict(words), dict(sides), verbs


@lru_cache(maxsize=8192)
def _weighed_title(
    title: str, *, with_verbs: bool
) -> tuple[dict[str, float], dict[str, str], tuple[str, ...]]:
    """Weigh the words of a title: what it is first, what belongs to it less, its verbs apart."""
    texts = [t.text for t in tokens_of(title)]
    verbs: list[str] = []
    while with_verbs and texts and (base_of(texts[0]) or (verbs and texts[0] in ("and", "or"))):
        if len(texts) == 1:
            break
        base = base_of(texts.pop(0))
        if base is not None:
            verbs.append(base)
    rest = _after_verbs(title, len(verbs)) if verbs else title
    cut = _LATER.search(rest, 1)
    first = rest[: cut.start()] if cut else rest
    words: dict[str, float] = {}
    _lend(words, first, 1.0)
    _lend(words, rest, _SECOND_WORD)
    for verb in verbs:
        words.setdefault(stem_of(verb), _LENT_WORD)
    return words, _sides_of(title), tuple(verbs)


@lru_cache(maxsize=8192)
def _nouns(title: str, verbs: int) -> frozenset[str]:
    """Return the last word of what a title names first."""
    rest = _after_verbs(title, verbs) if verbs else title
    cut = _LATER.search(rest, 1)
    stems = _stems_in(rest[: cut.start()] if cut else rest)
    return frozenset(stems[-1:])


def _after_verbs(title: str, count: int) -> str:
    """Return what stands after the verbs that a title begins with."""
    at = 0
    found = tokens_of(title)
    for index, token in enumerate(found):
        if count == 0 and token.text not in ("and", "or"):
            return title[token.start :]
        if base_of(token.text):
            count -= 1
        at = index
    return title[found[at].start :]


def _sides_of(title: str) -> dict[str, str]:
    """Read which one a title means; when it names two of an axis it means neither."""
    sides: dict[str, set[str]] = {}
    for token in tokens_of(title):
        for axis, value in SIDES.get(token.text, ()):
            sides.setdefault(axis, set()).add(value)
    return {axis: values.pop() for axis, values in sides.items() if len(values) == 1}


def _lend(words: dict[str, float], text: str, weight: float) -> None:
    for stem in _stems_in(text):
        words[stem] = max(words.get(stem, 0.0), weight)


@lru_cache(maxsize=8192)
def _stems_in(text: str) -> tuple[str, ...]:
    texts = [t.text for t in tokens_of(text) if t.text not in SIDES and not is_number(t.text)]
    return content_stems(merged(texts))


def _lend_id(words: dict[str, float], key: str) -> None:
    """Let a short name say what its job is first of all, and add what the title does not say."""
    for stem in _stems_in(key.replace("-", " ").replace("_", " ").replace(".", " ")):
        words[stem] = 1.0 if stem in words else _SECOND_WORD


def _lend_job(words: dict[str, float], sides: dict[str, str], build: Build, job: str) -> None:
    """Lend a thing the words of the job it belongs to, at less than half their weight."""
    record = build.jobs.get(job)
    if record is None:
        return
    own, where, _ = _title_words(record.job.title, with_verbs=True)
    for stem, weight in own.items():
        words.setdefault(stem, weight * _LENT_WORD)
    for axis, value in where.items():
        sides.setdefault(axis, value)
