"""What may have been told, but not surely: it is asked about, and never recorded by itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bareshell.model.changes import NoteWritten
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import MOST_CHOICES, Desk, Piece
from bareshell.whole.said.names import Kind, Subject
from bareshell.whole.said.results import Asked, Choice
from bareshell.whole.said.subjects import Match
from bareshell.whole.said.trade_words import FILLERS, SIDES
from bareshell.whole.said.words import tokens_of

_WHICH_ONE: Final = ("side", "end")
"""The sides by which a person names a job: the rear, the offside."""


def only_asked(piece: Piece) -> Piece:
    """Make a question of what was heard; words that would be a note stay one."""
    told = piece.heard
    if told is None:
        return piece
    if all(isinstance(change, NoteWritten) for change in told.changes):
        return Piece(left=told.words)
    choices = (Choice(told.sentence, told.changes),)
    return Piece(asked=Asked(f'"{told.words}": was this done?', choices, told.words, told.title))


def faintly(piece: Piece) -> Piece:
    """Let a question take no session: its words may tell of no work at all."""
    if piece.asked is None:
        return piece
    return replace(piece, asked=replace(piece.asked, faint=True))


def jobs_of_a_side(clause: Clause, desk: Desk) -> tuple[Match, ...]:
    """Return the open jobs that 'rear done' may mean, tonight's first, then those ready."""
    wanted = {a: v for a, v in clause.wanted.sides.items() if a in _WHICH_ONE}
    if not wanted or clause.wanted.stems:
        return ()
    rank, ready = desk.subjects.rank, desk.subjects.ready
    open_jobs = [s for s in desk.subjects.all if s.kind is Kind.JOB and s.is_open]
    found = [s for s in open_jobs if all(_is_of(s, a, v) for a, v in wanted.items())]
    found.sort(key=lambda s: (rank.get(s.id, len(rank)), s.id not in ready))
    return tuple(Match(s, 0.0, 0.0, False, frozenset()) for s in found[:MOST_CHOICES])


def _is_of(subject: Subject, axis: str, value: str) -> bool:
    """Whether a title says a side, and not 'put right what ...' or 'going back to ...'."""
    if subject.sides.get(axis) != value:
        return False
    tokens = tokens_of(subject.title)
    for at, token in enumerate(tokens):
        if (axis, value) not in SIDES.get(token.text, ()) or token.text == "back":
            continue
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        may_be_other = token.text in ("left", "right") and after is not None and not after.gap
        if not may_be_other or (after is not None and after.text not in FILLERS):
            return True
    return False


def tells_work(what: Cue | None, hours: float | None) -> bool:
    """Whether a cue, or hours, say that work was done."""
    return what is Cue.DONE or (what in (None, Cue.PART) and hours is not None)
