"""What reading rows needs to know, and the cells that mean the same in every kind of list."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from bareshell.errors import BadInput
from bareshell.io.sheets import figures as f
from bareshell.io.sheets.alike import alike, find_named, nearest_titles
from bareshell.io.sheets.figures import Written
from bareshell.io.sheets.grid import Cell
from bareshell.io.sheets.meanings import Meaning, SheetKind
from bareshell.io.sheets.preview import Choices
from bareshell.io.sheets.rows import Row
from bareshell.model.build import Build
from bareshell.model.spec import PlainSpec, Spec
from bareshell.whole.spec_words import spec_words

__all__ = [
    "USED",
    "Desk",
    "day_of",
    "did_you_mean",
    "given",
    "need_of",
    "note_of",
    "quantity_of",
    "read_cell",
    "spec_of",
]

USED: dict[SheetKind, frozenset[Meaning]] = {
    SheetKind.JOBS: frozenset(
        (
            Meaning.TITLE,
            Meaning.ID,
            Meaning.SYSTEM,
            Meaning.AFTER,
            Meaning.HOURS,
            Meaning.HOURS_DONE,
            Meaning.PEOPLE,
            Meaning.DONE,
            Meaning.NOTE,
        )
    ),
    SheetKind.NEEDS: frozenset(
        (
            Meaning.TITLE,
            Meaning.ID,
            Meaning.JOB,
            Meaning.QUANTITY,
            Meaning.SIZE,
            Meaning.NUMBER,
            Meaning.NEEDED_TO,
            Meaning.RECEIVED,
            Meaning.WHERE,
            Meaning.NOTE,
        )
    ),
    SheetKind.HOLDINGS: frozenset(
        (
            Meaning.TITLE,
            Meaning.ID,
            Meaning.QUANTITY,
            Meaning.SIZE,
            Meaning.NUMBER,
            Meaning.WHERE,
            Meaning.CONDITION,
            Meaning.NEED,
            Meaning.NOTE,
        )
    ),
    SheetKind.ORDERS: frozenset(
        (
            Meaning.TITLE,
            Meaning.ID,
            Meaning.QUANTITY,
            Meaning.SIZE,
            Meaning.NUMBER,
            Meaning.SUPPLIER,
            Meaning.ORDERED_ON,
            Meaning.EXPECTED_ON,
            Meaning.RECEIVED,
            Meaning.PRICE,
            Meaning.NEED,
            Meaning.NOTE,
        )
    ),
}
"""What a list of each kind takes in; anything else of a row is kept in its note."""


@dataclass(slots=True)
class Desk:
    """What reading rows needs to know, and what was found out on the way.

    Parameters
    ----------
    build : Build
        The build as it stands, with what earlier sheets of the file would add.
    written : Written
        How the sheet was written.
    choices : Choices
        What the person said.
    job_titles : mapping
        Titles of jobs by id, those of this very sheet too.
    without : dict
        How many rows had nothing under a meaning that matters.
    """

    build: Build
    written: Written
    choices: Choices
    job_titles: dict[str, str] = field(default_factory=dict)
    without: dict[str, int] = field(default_factory=dict)

    def count(self, words: str) -> None:
        """Count a row for which something was assumed; said once for the whole sheet."""
        self.without[words] = self.without.get(words, 0) + 1

    def for_all(self, meaning: Meaning) -> str:
        """Return what holds for every row that says nothing."""
        return self.choices.for_all.get(meaning, "")


# --- cells that mean the same everywhere ---------------------------------------------------------


def read_cell(row: Row, meaning: Meaning, reader: Callable[[Cell], Any]) -> Any:  # noqa: ANN401 - any value
    """Read a cell; None when nothing stands there or it cannot be read, which is said."""
    cell = row.cell(meaning)
    if cell is None:
        return None
    try:
        return reader(cell)
    except BadInput as error:
        row.refuse(meaning, error)
        return None


def quantity_of(row: Row, desk: Desk) -> int | None:
    """Return how many a row says; None when it does not, which is said."""
    cell = row.cell(Meaning.QUANTITY)
    if cell is None:
        desk.count("have no quantity: 1 is taken")
        return None
    try:
        found = f.quantity_in(cell, "quantity")
    except BadInput as error:
        length = re.fullmatch(
            r"\s*[\d.,]+\s*(m|mm|cm|ft|l|ml|litres?|kg|g|rolls?|tins?|tubes?)\.?\s*", str(cell)
        )
        if length is None:
            row.refuse(Meaning.QUANTITY, error)
        else:
            row.say(
                Meaning.QUANTITY,
                f"'{f.text_in(cell)}' is an amount, not a number of things",
                "1 is taken and the amount kept with its size",
                "doubtful",
            )
        return None
    if found is None:
        row.say(Meaning.QUANTITY, f"'{f.text_in(cell)}' is not known", "1 is taken", "doubtful")
    return found


def _amount(row: Row) -> str:
    """Return what stands under quantity when it is an amount: "2 m"."""
    try:
        f.quantity_in(row.cell(Meaning.QUANTITY) or 1, "quantity")
    except BadInput:
        return row.text(Meaning.QUANTITY)
    return ""


def spec_of(row: Row) -> Spec | None:
    """Return what a row says of size and part number, as a specification in words."""
    number = row.text(Meaning.NUMBER) if row.text(Meaning.TITLE) else ""
    words = [row.text(Meaning.SIZE), f"no. {number}" if number else "", _amount(row)]
    said = ", ".join(each for each in words if each)
    return PlainSpec(words=said) if said else None


def note_of(row: Row, kind: SheetKind) -> str:
    """Return a row's notes, with what stands under columns that this kind does not take."""
    others = [
        f"{meaning}: {row.text(meaning)}"
        for meaning in row.cells
        if meaning not in USED[kind] and row.text(meaning)
    ]
    return "; ".join((*row.notes, *others))


def given(**values: object) -> dict[str, Any]:
    """Return only the values that a row gives."""
    return {key: value for key, value in values.items() if value not in (None, "")}


def day_of(row: Row, meaning: Meaning, desk: Desk, *, past: bool) -> date | None:
    """Return a day of a row; one that cannot be read is kept in its note."""
    cell = row.cell(meaning)
    if cell is None or (f.is_unclear_day(cell) and desk.written.order is None):
        return None  # asked once for the whole sheet
    try:
        found = f.day_in(cell, meaning, desk.written, past=past)
    except BadInput as error:
        row.refuse(meaning, error, "doubtful")
        row.notes = (*row.notes, f"{meaning}: {f.text_in(cell)}")
        return None
    if found is not None and isinstance(cell, int | float):
        desk.count("have a day as a bare number, taken as a spreadsheet's own count of days")
    return found


def need_of(row: Row, desk: Desk) -> str | None:
    """Return the need that a thing is for: the one that is said, or the only one alike."""
    said = row.text(Meaning.NEED)
    titles = {key: need.title for key, need in desk.build.needs.items()}
    if said:
        key, sure = find_named(said, titles)
        if key is None:
            row.say(
                Meaning.NEED, f"there is no need '{said}'", did_you_mean(said, titles), "doubtful"
            )
        elif not sure:
            row.say(Meaning.NEED, f"taken for the need '{titles[key]}'", "", "doubtful")
        return key
    wanted = alike(row.text(Meaning.TITLE), row.text(Meaning.SIZE))
    same = [
        key
        for key, need in desk.build.needs.items()
        if wanted in (alike(need.title), alike(need.title, spec_words(need.spec)))
    ]
    return same[0] if len(same) == 1 else None


def did_you_mean(typed: str, titles: Mapping[str, str]) -> str:
    """Return a question naming the titles most like what was typed."""
    near = nearest_titles(typed, titles.values())
    return f"did you mean {' or '.join(repr(each) for each in near)}?" if near else ""
