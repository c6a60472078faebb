"""What is made of a sheet before anything of it is kept: columns, rows, problems, questions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

from bareshell.errors import BadInput, Problem
from bareshell.io.sheets.meanings import Column, Meaning, SheetKind
from bareshell.model.changes import Change

__all__ = ["Choices", "Preview", "Question", "RowChoice", "RowRead", "RowState", "accept"]


class RowState(StrEnum):
    """What becomes of a row."""

    NEW = "new"
    CORRECTED = "corrects what is there"
    THERE = "there already"
    LEFT_OUT = "left out"
    UNREADABLE = "cannot be read"


class RowChoice(StrEnum):
    """What a person wants done with a row."""

    ADD = "add it all the same"
    CORRECT = "correct what is there"
    LEAVE_OUT = "leave it out"


@dataclass(frozen=True, slots=True)
class Choices:
    """What a person said about a sheet, over what was guessed.

    Parameters
    ----------
    kind : SheetKind or None
        What it is a list of.
    header_row : int or None
        The number of the header's row, as the sheet counts: from 1.
    columns : mapping of str to (Meaning or None)
        By a column's letters: what it means; None to leave it out.
    for_all : mapping of Meaning to str
        What holds for every row that says nothing: the job, the system, the supplier.
    day_first : bool or None
        Whether 3/4 is the third of April.
    comma : bool or None
        Whether a comma parts the whole from the fraction.
    currency : str
        The currency of bare figures and of signs that several share; empty for the build's own.
    rows : mapping of int to RowChoice
        By a row's number: what to do with it.
    leave_out_unreadable : bool
        Whether rows that cannot be read are left out, rather than stopping all of it.
    leave_out : bool
        Whether the whole sheet is left out.
    """

    kind: SheetKind | None = None
    header_row: int | None = None
    columns: Mapping[str, Meaning | None] = field(default_factory=dict)
    for_all: Mapping[Meaning, str] = field(default_factory=dict)
    day_first: bool | None = None
    comma: bool | None = None
    currency: str = ""
    rows: Mapping[int, RowChoice] = field(default_factory=dict)
    leave_out_unreadable: bool = False
    leave_out: bool = False


@dataclass(frozen=True, slots=True)
class Question:
    """Something only a person can say.

    ``about`` is the name of the field of ``Choices`` that answers it.
    """

    about: str
    sentence: str
    answers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RowRead:
    """One row as it was understood.

    Parameters
    ----------
    number : int
        Its number in the sheet, from 1.
    words : str
        What it says, as a sentence.
    state : RowState
        What becomes of it.
    changes : tuple of (datetime or None, Change)
        What lands, each with when it happened.
    same_as : str
        The id of what is in the build already, when it is.
    problems : tuple of Problem
        What is wrong or doubtful in it, with the cell.
    """

    number: int
    words: str
    state: RowState
    changes: tuple[tuple[datetime | None, Change], ...] = ()
    same_as: str = ""
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Preview:
    """A sheet as it was understood, and what would land.

    Parameters
    ----------
    sheet : str
        Its name.
    kind : SheetKind or None
        What it is taken for a list of; None when that cannot be told.
    header_row : int or None
        The number of its header's row, from 1.
    columns : tuple of Column
        Every column with what it is taken to mean.
    rows : tuple of RowRead
        Every row that says something.
    problems : tuple of Problem
        What is wrong with the sheet as a whole.
    questions : tuple of Question
        What must be answered before it can land.
    left_out : bool
        Whether a person left the whole sheet out.
    landing : tuple of int
        The numbers of the rows in the order in which they land; empty for the sheet's own.
    """

    sheet: str
    kind: SheetKind | None
    header_row: int | None
    columns: tuple[Column, ...] = ()
    rows: tuple[RowRead, ...] = ()
    problems: tuple[Problem, ...] = ()
    questions: tuple[Question, ...] = ()
    left_out: bool = False
    landing: tuple[int, ...] = ()

    @property
    def every_problem(self) -> tuple[Problem, ...]:
        """The problems of the sheet and of every row of it, in order."""
        return (*self.problems, *(each for row in self.rows for each in row.problems))

    @property
    def stopped_by(self) -> tuple[Problem, ...]:
        """What keeps it from landing: problems that stop, and questions not answered."""
        if self.left_out:
            return ()
        asked = tuple(
            Problem(f"sheet '{self.sheet}'", each.sentence, " or ".join(each.answers))
            for each in self.questions
        )
        stops = (each for each in self.every_problem if each.severity == "stops")
        return (*asked, *stops)

    @property
    def changes(self) -> tuple[tuple[datetime | None, Change], ...]:
        """What would land, in order."""
        if self.left_out:
            return ()
        turn = {number: place for place, number in enumerate(self.landing)}
        rows = sorted(self.rows, key=lambda row: turn.get(row.number, row.number))
        return tuple(each for row in rows for each in row.changes)

    def count(self, state: RowState) -> int:
        """Return how many rows there are of a state."""
        return sum(row.state is state for row in self.rows)


def accept(*previews: Preview) -> tuple[tuple[datetime | None, Change], ...]:
    """Return what lands of previews that a person has seen: all of it, or nothing.

    Raises
    ------
    BadInput
        When a problem or an open question stops any of them; all of these are said.
    """
    stopped = [each for preview in previews for each in preview.stopped_by]
    if stopped:
        raise BadInput.together(stopped)
    return tuple(each for preview in previews for each in preview.changes)
