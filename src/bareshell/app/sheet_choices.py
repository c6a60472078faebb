"""What a form says about the sheets of a file, read field by field into choices."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from enum import StrEnum
from typing import TypeVar

from bareshell.app.tray import Answers
from bareshell.errors import Problem
from bareshell.io.sheets import Choices, Meaning, Preview, RowChoice, RowState, SheetKind

__all__ = [
    "COMMA",
    "DAY_FIRST",
    "FOR_ALL",
    "LEAVE",
    "LEFT_OUT",
    "choices_of",
    "key_of",
    "merged",
    "rows_there",
]

LEFT_OUT = "-"
"""Chosen for a column: it is left out."""

LEAVE = "leave"
"""Chosen for a row that is there already: what is there stays as it is."""

DAY_FIRST = {"day": "the day comes first: 3/4 is 3 April", "month": "the month comes first"}
COMMA = {"comma": "a comma: 2,50", "point": "a point: 2.50"}

FOR_ALL: dict[str, Meaning] = {
    SheetKind.JOBS: Meaning.SYSTEM,
    SheetKind.NEEDS: Meaning.JOB,
    SheetKind.ORDERS: Meaning.SUPPLIER,
}
"""What can be said once for all rows of a list that do not say it themselves."""

_KEY = re.compile(r"(s[0-9a-f]{8})\.(.+)", re.DOTALL)
_LETTERS = re.compile(r"[A-Z]{1,3}")
_CURRENCY = re.compile(r"[A-Z]{3}")
_LONGEST = 200

_Word = TypeVar("_Word", bound=StrEnum)
_Read = TypeVar("_Read")


def key_of(sheet: str) -> str:
    """A sheet's short key in a form; its name may hold anything.

    Examples
    --------
    >>> key_of("Parts & co.") == key_of("Parts & co."), len(key_of("Parts"))
    (True, 9)
    """
    return "s" + hashlib.blake2s(sheet.encode(errors="replace"), digest_size=4).hexdigest()


def merged(before: Answers, sent: Answers) -> dict[str, tuple[str, ...]]:
    """Lay what a form says over what was chosen before.

    A box that is not ticked is not sent, so a sheet that was in the form loses its ticks, and a
    row that was in it loses its choice, unless the form says them again.

    Examples
    --------
    >>> before = {"s00000000.row.7": ("leave it out",), "s00000000.out": ("yes",)}
    >>> merged(before, {"s00000000.sheet": ("Parts",), "s00000000.shown": ("8 9",)})
    {'s00000000.row.7': ('leave it out',), 's00000000.sheet': ('Parts',)}
    """
    kept = dict(before)
    for name, values in sent.items():
        match = _KEY.fullmatch(name)
        if match is None:
            continue
        key, field = match.groups()
        if field == "sheet":
            for tick in ("out", "unreadable"):
                kept.pop(f"{key}.{tick}", None)
        elif field == "shown":
            for number in " ".join(values).split():
                kept.pop(f"{key}.row.{number}", None)
    for name, values in sent.items():
        match = _KEY.fullmatch(name)
        if match is None or match[2] == "shown":
            continue
        said = tuple(value.strip()[:_LONGEST] for value in values)
        if any(said):
            kept[name] = said
        else:
            kept.pop(name, None)
    return kept


def choices_of(answers: Answers) -> tuple[dict[str, Choices], tuple[Problem, ...]]:
    """Read what was chosen, by the sheets' names; what cannot be read is said and not used.

    Examples
    --------
    >>> found, wrong = choices_of(
    ...     {
    ...         "s00000000.sheet": ("Parts",),
    ...         "s00000000.col.C": ("quantity",),
    ...         "s00000000.header": ("top",),
    ...     }
    ... )
    >>> found["Parts"].columns, found["Parts"].header_row, wrong[0].where
    ({'C': <Meaning.QUANTITY: 'quantity'>}, None, "sheet 'Parts', row of the headers")
    """
    by_key: dict[str, dict[str, str]] = {}
    for name, values in answers.items():
        match = _KEY.fullmatch(name)
        if match is not None and values:
            by_key.setdefault(match[1], {})[match[2]] = values[0]
    wrong: list[Problem] = []
    found = {}
    for said in by_key.values():
        sheet = said.get("sheet", "")
        found[sheet] = _Said(sheet, said, wrong).choices()
    return found, tuple(wrong)


def rows_there(answers: Answers, seen: Iterable[Preview]) -> dict[str, dict[int, RowChoice]]:
    """What was chosen for all rows of a sheet that are there already, row by row."""
    found = {}
    for sheet in seen:
        said = answers.get(f"{key_of(sheet.sheet)}.there", ("",))[0]
        if said in (RowChoice.ADD, RowChoice.CORRECT):
            own = f"{key_of(sheet.sheet)}.row."
            found[sheet.sheet] = {
                row.number: RowChoice(said)
                for row in sheet.rows
                if row.state is RowState.THERE and f"{own}{row.number}" not in answers
            }
    return {sheet: rows for sheet, rows in found.items() if rows}


class _Said:
    """What was said of one sheet."""

    def __init__(self, sheet: str, said: Mapping[str, str], wrong: list[Problem]) -> None:
        self._sheet = sheet
        self._said = said
        self._wrong = wrong

    def choices(self) -> Choices:
        """Read all of it."""
        return Choices(
            kind=self._word("kind", SheetKind, "what it is a list of"),
            header_row=self._header(),
            columns=dict(self._columns()),
            for_all=dict(self._for_all()),
            day_first=self._either("days", "day", "month"),
            comma=self._either("comma", "comma", "point"),
            currency=self._currency(),
            rows=dict(self._rows()),
            leave_out_unreadable="unreadable" in self._said,
            leave_out="out" in self._said,
        )

    def _refuse(self, field: str, what: str, remedy: str) -> None:
        self._wrong.append(Problem(f"sheet '{self._sheet}', {field}", what, remedy))

    def _word(self, name: str, words: type[_Word], field: str) -> _Word | None:
        return self._read(name, words, field, f"choose {' or '.join(words)}")

    def _read(
        self, name: str, read: Callable[[str], _Read], field: str, remedy: str
    ) -> _Read | None:
        said = self._said.get(name, "")
        if not said:
            return None
        try:
            return read(said)
        except ValueError:
            self._refuse(field, f"'{said}' is none", remedy)
            return None

    def _header(self) -> int | None:
        return self._read(
            "header", _row_number, "row of the headers", "write its number, such as 3"
        )

    def _either(self, name: str, yes: str, no: str) -> bool | None:
        said = self._said.get(name, "")
        return None if said not in (yes, no) else said == yes

    def _currency(self) -> str:
        said = self._said.get("currency", "").upper()
        if said and not _CURRENCY.fullmatch(said):
            self._refuse("currency", f"'{said}' is none", "write its three letters, such as GBP")
            return ""
        return said

    def _columns(self) -> Iterator[tuple[str, Meaning | None]]:
        for name, said in self._part("col."):
            if said == LEFT_OUT:
                yield name, None
                continue
            meaning = self._word(f"col.{name}", Meaning, f"column {name}")
            if meaning is not None and _LETTERS.fullmatch(name):
                yield name, meaning

    def _for_all(self) -> Iterator[tuple[Meaning, str]]:
        for name, said in self._part("all."):
            if name in FOR_ALL.values():
                yield Meaning(name), said

    def _rows(self) -> Iterator[tuple[int, RowChoice]]:
        for name, said in self._part("row."):
            if name.isdecimal() and len(name) < 7 and said in tuple(RowChoice):
                yield int(name), RowChoice(said)

    def _part(self, start: str) -> Iterator[tuple[str, str]]:
        for name, said in self._said.items():
            if name.startswith(start) and said:
                yield name.removeprefix(start), said


def _row_number(said: str) -> int:
    number = int(said) if said.isdecimal() and len(said) < 7 else 0
    if number < 1:
        raise ValueError(said)
    return number
