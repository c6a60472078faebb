"""What a line was understood as: heard, asked, and left as it was said."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from bareshell.model.changes import Change, NoteWritten
from bareshell.model.note import Note


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to a question, in the person's words, and what it would record.

    An answer that records nothing keeps the words as a note.
    """

    label: str
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Heard:
    """One thing that was understood.

    Parameters
    ----------
    sentence : str
        What the person reads before it is kept.
    kind : str
        ``"finished"``, ``"part done"``, ``"taken off"``, ``"not done"``, ``"part"``,
        ``"proof"``, ``"temp"``, ``"new job"``, ``"lesson"``, ``"note"``, ``"car"`` or
        ``"session"``.
    title : str
        The thing it is about.
    changes : tuple of Change
        What is recorded, in order; empty when nothing is.
    confidence : float
        From 0 to 1: how surely the words name this thing.
    words : str
        The part of the line it was read from.
    at : datetime or None
        When it happened, if the line gave it a time of its own.
    """

    sentence: str
    kind: str
    title: str
    changes: tuple[Change, ...]
    confidence: float = 1.0
    words: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing that must be asked before it can be recorded.

    ``words`` is the part of the line it came from; while it is unanswered they are kept as a
    note. It is empty when the words are recorded already and the question goes further.
    ``faint`` says that the words may tell of no work at all: no session is taken from them.
    """

    question: str
    choices: tuple[Choice, ...]
    words: str = ""
    title: str = ""
    about: str = ""
    faint: bool = False


@dataclass(frozen=True, slots=True)
class Understood:
    """A line as it was understood; nothing of it is kept yet.

    Parameters
    ----------
    line : str
        As typed.
    at : datetime
        When it happened: as given, or as the line itself begins ("friday evening: ...").
    heard : tuple of Heard
        In the order in which they are recorded.
    asked : tuple of Asked
        Questions; an unanswered one keeps its words as a note.
    left : tuple of str
        Words that were not understood; each is kept as a note.
    seen : mapping of str to int
        The version of each subject that the reader knew.
    """

    line: str
    at: datetime
    heard: tuple[Heard, ...] = ()
    asked: tuple[Asked, ...] = ()
    left: tuple[str, ...] = ()
    seen: Mapping[str, int] | None = None

    @property
    def dated(self) -> tuple[tuple[datetime, Change], ...]:
        """What is recorded, in order, each change with when it happened."""
        found = [(h.at or self.at, change) for h in self.heard for change in h.changes]
        notes = [note(self.at, a.words, a.about) for a in self.asked if a.words]
        notes += [note(self.at, words) for words in self.left]
        return (*found, *((self.at, change) for change in notes))

    @property
    def changes(self) -> tuple[Change, ...]:
        """What is recorded, in order: what was heard, then notes of what was not settled."""
        return tuple(change for _, change in self.dated)

    def answered(self, answers: Mapping[int, int]) -> Understood:
        """Settle questions.

        Parameters
        ----------
        answers : mapping of int to int
            The number of a question to the number of the choice; what is not answered, or
            has no such choice, stays asked.
        """
        heard = list(self.heard)
        asked: list[Asked] = []
        for number, question in enumerate(self.asked):
            chosen = answers.get(number, -1)
            if not 0 <= chosen < len(question.choices):
                asked.append(question)
                continue
            choice = question.choices[chosen]
            changes = choice.changes
            if not changes and question.words:
                changes = (note(self.at, question.words, question.about),)
            title = question.title or question.question
            heard.append(Heard(choice.label, "answer", title, changes, 1.0, question.words))
        return replace(self, heard=tuple(heard), asked=tuple(asked))


def small_id(kind: str, at: datetime, words: Iterable[str]) -> str:
    """Make an id from what was said and when: said again, it is the same thing.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> moment = datetime(2026, 11, 25, tzinfo=UTC)
    >>> small_id("note", moment, ["bolt seized"]) == small_id("note", moment, ["bolt seized"])
    True
    """
    text = "\n".join((at.isoformat(), *words))
    return f"{kind}-{hashlib.blake2s(text.encode(errors='replace'), digest_size=5).hexdigest()}"


def note(at: datetime, words: str, about: str = "") -> NoteWritten:
    """Make a note of some words."""
    return NoteWritten(Note(small_id("note", at, (words, about)), at, words, about))
