"""What the readers of clauses share: the build, its words, the moment, and what went before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, tzinfo
from typing import Final

from bareshell.model import Build
from bareshell.model.changes import Change
from bareshell.model.job import Job
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.names import Kind
from bareshell.whole.said.results import Asked, Choice, Heard, note
from bareshell.whole.said.subjects import Match, Subjects

SURE: Final = 0.55
"""The share of the words that a thing must answer for before it is taken without asking."""

LEAST: Final = 0.17
"""A match weaker than this is no match: a word in passing."""

CLEAR: Final = 0.82
"""The second candidate must stay below this share of the first, or the person is asked."""

MOST_CHOICES: Final = 5
LONGEST_TITLE: Final = 200


@dataclass(slots=True)
class SessionFacts:
    """What the line says about the session itself."""

    started: datetime | None = None
    ended: datetime | None = None
    people: int | None = None
    temperature_c: float | None = None
    words: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Desk:
    """The reader's desk.

    ``meant`` holds the jobs that the last clause about work may mean, while it is not clear.
    """

    build: Build
    subjects: Subjects
    tonight: Sequence[str]
    at: datetime
    zone: tzinfo
    job: str = ""
    part: str = ""
    part_for: str = ""
    temp: str = ""
    short: dict[str, str] = field(default_factory=dict)
    jobs: list[str] = field(default_factory=list)
    near: set[str] = field(default_factory=set)
    meant: frozenset[str] = frozenset()
    session: SessionFacts = field(default_factory=SessionFacts)

    def title(self, job: str) -> str:
        """Return what a person calls a job."""
        return self.build.jobs[job].job.title

    def definition(self, job: str) -> Job:
        """Return a job as it is defined."""
        return self.build.jobs[job].job

    def speak_of(self, job: str) -> None:
        """Keep in mind which job is spoken of, for what follows without a name."""
        self.job = job
        if job not in self.jobs:
            self.jobs.append(job)

    def aside(self) -> Desk:
        """Return a desk for a sentence that may only ask: nothing it says is kept in mind."""
        return replace(self, short={}, jobs=[*self.jobs], near={*self.near}, session=SessionFacts())

    def note(self, words: str, about: str = "") -> Change:
        """Make a note of some words."""
        return note(self.at, words, about)


@dataclass(slots=True)
class Piece:
    """One thing read from a clause, before the whole line has been weighed.

    ``stays`` says that the person gave its place in the order ("then ...").
    """

    heard: Heard | None = None
    asked: Asked | None = None
    left: str = ""
    stays: bool = False


def plain(text: str) -> str:
    """Take the signs from both ends of a clause.

    Examples
    --------
    >>> plain(" and two clips short, ")
    'and two clips short'
    """
    return text.strip(" \t\r\n,;.:-–—")


def as_title(text: str) -> str:
    """Make a title of some words: a capital first, and no longer than a title may be.

    Examples
    --------
    >>> as_title("drill a drain hole")
    'Drill a drain hole'
    """
    short = text if len(text) <= LONGEST_TITLE else text[: LONGEST_TITLE - 1].rstrip() + "\u2026"
    return short[:1].upper() + short[1:]


def without_joiner(text: str) -> str:
    """Take ``and``, ``then``, ``but`` and the like from the beginning."""
    words = plain(text).split(" ", 1)
    if len(words) == 2 and words[0].lower() in ("and", "then", "but", "also", "plus", "&", "so"):
        return plain(words[1])
    return plain(text)


def heard(
    kind: str,
    title: str,
    said: str,
    changes: Sequence[Change],
    clause: Clause,
    confidence: float = 1.0,
    at: datetime | None = None,
) -> Piece:
    """Make a piece that was understood."""
    sentence = f"{title}: {said}" if title else said
    return Piece(
        Heard(
            sentence, kind, title, tuple(changes), round(min(1.0, confidence), 2),
            plain(clause.text), at,
        ),
        stays=clause.joint == "then",
    )  # fmt: skip


def asked(
    question: str,
    choices: Sequence[Choice],
    clause: Clause,
    *,
    title: str = "",
    about: str = "",
    words: str | None = None,
) -> Piece:
    """Make a piece that must be asked."""
    kept = plain(clause.text) if words is None else words
    return Piece(asked=Asked(question, tuple(choices), kept, title, about))


def noted(desk: Desk, clause: Clause, why: str = "") -> Piece:
    """Keep a clause's words: about the job it names or follows, or about nothing yet."""
    words = plain(clause.text)
    goes_on = desk.job if clause.joint not in (";", "?") else ""
    job = goes_on or job_named(desk, clause)
    if not job:
        return Piece(left=words)
    title = desk.title(job)
    said = f'kept as a note: "{words}"' if not why else f'{why}; kept as a note: "{words}"'
    return heard("note", title, said, (desk.note(words, f"job:{job}"),), clause, 0.7)


def job_named(desk: Desk, clause: Clause) -> str:
    """Return the job that a clause clearly names, or nothing."""
    matches = desk.subjects.found(clause.wanted, (Kind.JOB,))
    if not matches or matches[0].score < LEAST or matches[0].covered < 0.7:
        return ""
    return matches[0].subject.id if is_clear(matches) and matches[0].head else ""


def is_clear(matches: Sequence[Match]) -> bool:
    """Whether the best match stands clear of the next."""
    return len(matches) < 2 or matches[1].score < CLEAR * matches[0].score


def rivals(matches: Sequence[Match]) -> tuple[Match, ...]:
    """Return the matches near enough to the best to be asked about."""
    best = matches[0].score
    near = [m for m in matches if m.score >= 0.6 * best]
    return tuple(near[:MOST_CHOICES])
