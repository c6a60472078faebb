"""Rows of a sheet below its header: which say something, and what each cell of them means."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from bareshell.errors import BadInput, Problem, Severity
from bareshell.io.sheets.figures import text_in
from bareshell.io.sheets.grid import Cell, Grid
from bareshell.io.sheets.meanings import Column, Meaning, plain

__all__ = ["Row", "Skipped", "rows_of"]

_TOTALS = re.compile(r"(?:grand |sub)?-?totals?|sum|summe|gesamt|total cost|total price|balance")


@dataclass(slots=True)
class Row:
    """One row that says something, with its cells by meaning and its problems.

    Parameters
    ----------
    number : int
        Its number in the sheet, from 1.
    cells : mapping
        The cells by what their column means.
    letters : mapping
        The letters of those columns.
    heading : str
        The heading that it stands under, if any.
    """

    number: int
    cells: Mapping[Meaning, Cell]
    letters: Mapping[Meaning, str]
    heading: str = ""
    notes: tuple[str, ...] = ()
    problems: list[Problem] = field(default_factory=list)

    def cell(self, meaning: Meaning) -> Cell:
        """Return what stands under a meaning; None when nothing does."""
        return self.cells.get(meaning)

    def text(self, meaning: Meaning) -> str:
        """Return it as words."""
        return text_in(self.cells.get(meaning))

    def where(self, meaning: Meaning | None = None) -> str:
        """Return the place, as a problem names it."""
        letters = self.letters.get(meaning) if meaning else None
        return (
            f"row {self.number}, cell {letters}{self.number}" if letters else f"row {self.number}"
        )

    def say(
        self,
        meaning: Meaning | None,
        what: str,
        remedy: str = "",
        severity: Severity = "stops",
    ) -> None:
        """Put down a problem of this row."""
        self.problems.append(Problem(self.where(meaning), what, remedy, severity))

    def refuse(self, meaning: Meaning, error: BadInput, severity: Severity = "stops") -> None:
        """Put down that a cell cannot be read."""
        self.say(meaning, error.problem, error.remedy, severity)

    def stops(self) -> bool:
        """Whether a problem keeps it from landing."""
        return any(problem.severity == "stops" for problem in self.problems)


@dataclass(frozen=True, slots=True)
class Skipped:
    """A row that is no thing of the list: a total, a heading, the header again."""

    number: int
    words: str


def rows_of(
    grid: Grid, header: int, columns: Sequence[Column], is_group: Callable[[str], bool]
) -> Iterator[Row | Skipped]:
    """Yield the rows below a header, blank ones passed over.

    Parameters
    ----------
    grid : Grid
        The sheet.
    header : int
        The row of the header, from 0.
    columns : sequence of Column
        What each column means.
    is_group : callable
        Whether words that stand alone name a group of rows: a system, or a job.
    """
    meant = [column for column in columns if column.meaning is not None]
    head = [plain(text_in(cell)) for cell in grid.rows[header]]
    letters = {c.meaning: c.letters for c in meant if c.meaning is not None}
    heading = ""
    for index, raw in enumerate(grid.rows[header + 1 :], header + 1):
        filled = [cell for cell in raw if cell is not None]
        if not filled:
            continue
        number = index + 1
        cells: dict[Meaning, Cell] = {
            column.meaning: raw[column.number] if column.number < len(raw) else None
            for column in meant
            if column.meaning is not None and column.meaning is not Meaning.NOTE
        }
        title = text_in(cells.get(Meaning.TITLE))
        if [plain(text_in(cell)) for cell in raw] == head:
            yield Skipped(number, "the header again")
        elif any(_TOTALS.fullmatch(plain(text_in(each))) for each in filled[:2]) or (
            not title and all(isinstance(each, int | float) for each in filled)
        ):
            yield Skipped(number, "a total")
        elif len(filled) == 1 and len(meant) > 1 and _is_heading(filled[0], title, is_group):
            heading = text_in(filled[0]).rstrip(":")
            yield Skipped(number, f"the heading '{heading}'")
        else:
            notes = tuple(
                text_in(raw[column.number])
                for column in meant
                if column.meaning is Meaning.NOTE
                and column.number < len(raw)
                and raw[column.number] is not None
            )
            yield Row(number, cells, letters, heading, notes)


def _is_heading(alone: Cell, title: str, is_group: Callable[[str], bool]) -> bool:
    """Whether words that stand alone in a row head the rows below: BRAKES, or "Brakes:"."""
    if not isinstance(alone, str):
        return False
    return not title or alone.isupper() or alone.endswith(":") or is_group(alone)
