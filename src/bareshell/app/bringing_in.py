"""Bringing a file in through a form: what it is, what was chosen of it, what would land.

The form has the same fields for every sheet, each behind the sheet's own short key:
``k.kind``, ``k.header``, ``k.col.C``, ``k.all.job``, ``k.days``, ``k.comma``, ``k.currency``,
``k.there``, ``k.row.14``, ``k.unreadable``, ``k.out``; ``k.sheet`` is the sheet's name and
``k.shown`` the numbers of the rows that the form had. An empty field leaves it to the reader.
"""

from __future__ import annotations

import hashlib
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import IO

from bareshell.app.door import Door, Receipt
from bareshell.app.exchange import (
    ImportKind,
    ImportLine,
    ImportPreview,
    accept_import,
    preview_import,
)
from bareshell.app.sheet_choices import LEAVE, choices_of, key_of, merged, rows_there
from bareshell.app.tray import Answers, Tray, Waiting
from bareshell.errors import BadInput, Conflict, Damaged, Problem
from bareshell.io.sheets import Choices, Preview, RowChoice, RowState
from bareshell.io.sheets.grid import LARGEST_BYTES
from bareshell.io.sheets.meanings import Column
from bareshell.io.sheets.preview import Question

NAME_MOST = 120

_Alike = Mapping[str, Mapping[int, RowChoice]]


@dataclass(frozen=True, slots=True)
class FileWaiting:
    """A file that was brought and not let in yet."""

    token: str
    name: str
    kind: str
    touched_at: datetime


@dataclass(frozen=True, slots=True)
class BringInDesk:
    """What somebody brought and has not let in yet."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    waiting: tuple[FileWaiting, ...]


@dataclass(frozen=True, slots=True)
class RowSeen:
    """A row as it was understood, and what becomes of it.

    ``doubled`` says that the build has such a thing already, whatever was chosen of it.
    """

    number: int
    words: str
    state: str
    same_as: str = ""
    doubled: bool = False
    problems: tuple[Problem, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether it keeps everything from landing."""
        return any(problem.severity == "stops" for problem in self.problems)


@dataclass(frozen=True, slots=True)
class SheetSeen:
    """One sheet as it was understood.

    Parameters
    ----------
    key : str
        What its fields begin with in the form.
    sheet : str
        Its name.
    kind : str
        What it is taken for a list of; empty when that cannot be told.
    header_row : int or None
        The number of its header's row.
    columns : tuple of Column
        Every column with what it is taken to mean.
    rows : tuple of RowSeen
        Those that want a look first, then the others, each in the sheet's own order.
    problems : tuple of Problem
        What is wrong with the sheet as a whole.
    questions : tuple of Question
        What only a person can say.
    left_out : bool
        Whether all of it was left out.
    stops : bool
        Whether it keeps the file from landing.
    """

    key: str
    sheet: str
    kind: str
    header_row: int | None
    columns: tuple[Column, ...]
    rows: tuple[RowSeen, ...]
    problems: tuple[Problem, ...]
    questions: tuple[Question, ...]
    left_out: bool
    stops: bool

    def count(self, state: str) -> int:
        """How many rows there are of a state."""
        return sum(row.state == state for row in self.rows)


@dataclass(frozen=True, slots=True)
class Looked:
    """A file that waits to be let in, and what would land of it.

    Parameters
    ----------
    name, kind : str
        The file, and what it is.
    told : str
        For an archive: what it holds.
    changes : int
        How many entries would land.
    lines : tuple of ImportLine
        What would change, in words.
    stopped_by : tuple of Problem
        What keeps it from landing.
    problems : tuple of Problem
        What is doubtful, or only to be known.
    sheets : tuple of SheetSeen
        For a spreadsheet.
    mark : str
        Stands for all that would land; it is sent along when it is let in.
    landed : tuple of int
        The first and last entry, once it is in the record.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    name: str
    kind: str
    told: str = ""
    changes: int = 0
    lines: tuple[ImportLine, ...] = ()
    stopped_by: tuple[Problem, ...] = ()
    problems: tuple[Problem, ...] = ()
    sheets: tuple[SheetSeen, ...] = ()
    mark: str = ""
    landed: tuple[int, ...] = ()

    @property
    def can_land(self) -> bool:
        """Whether there is something to land and nothing that stops it."""
        return bool(self.changes) and not self.stopped_by


# --- taking a file --------------------------------------------------------------------------------


def take(door: Door, holder: str, file: IO[bytes], size: int, name: str) -> Waiting:
    """Take a file into the tray, once it is known to be something that can be brought in.

    Parameters
    ----------
    door : Door
        The build.
    holder : str
        Who brings it.
    file : binary file
        What was sent; it can be read from any place.
    size : int
        How long it is. [B]
    name : str
        What it was called where it came from.

    Raises
    ------
    BadInput
        When it is nothing that can be brought in, is cut short, or too large.
    """
    called = plain_name(name)
    tray, now = Tray(door.folder), door.now()
    held = _archive_words(file)
    if held:
        return tray.put(holder, called, ImportKind.ARCHIVE, b"", now, told=held)
    if size > LARGEST_BYTES:
        raise BadInput(
            f"'{called}'",
            f"{size / 1e6:.0f} MB is too large for a list or a build file",
            "save only the sheet with the list, without pictures",
        )
    file.seek(0)
    data = file.read()
    seen = _preview(door, data, called, {})
    answers = {f"{key_of(one.sheet)}.sheet": (one.sheet,) for one in seen.sheets}
    return tray.put(holder, called, seen.kind, data, now, answers=answers)


def plain_name(name: str) -> str:
    r"""Bring the name that a browser sends to the file's own, leading nowhere.

    Examples
    --------
    >>> plain_name("C:\\lists\\parts.xlsx"), plain_name("../../parts.csv"), plain_name("")
    ('parts.xlsx', 'parts.csv', 'the file')
    """
    last = name.replace("\\", "/").rpartition("/")[2]
    shown = "".join(letter for letter in last if letter.isprintable()).strip()
    return shown[-NAME_MOST:] or "the file"


def _archive_words(file: IO[bytes]) -> str:
    """Say what an archive of a build holds; nothing for any other file."""
    file.seek(0)
    if file.read(4) != b"PK\x03\x04":
        return ""
    try:
        with zipfile.ZipFile(file) as packed:
            names = packed.namelist()
    except (zipfile.BadZipFile, RuntimeError, ValueError, OSError):
        return ""  # reading it as a spreadsheet will say how it is spoilt
    if not {"manifest.json", "journal.jsonl"} <= set(names):
        return ""
    photos = sum(name.startswith("photos/") for name in names)
    pictures = "1 photograph" if photos == 1 else f"{photos or 'no'} photographs"
    return f"the whole record of a build, with {pictures}"


def _preview(door: Door, data: bytes, name: str, choices: Mapping[str, Choices]) -> ImportPreview:
    """Preview a file; one that is spoilt is something wrong with what was sent."""
    try:
        return preview_import(door, data, name, choices=choices)
    except Damaged as error:
        raise BadInput("", error.message, error.remedy) from error


def desk(door: Door, holder: str) -> BringInDesk:
    """Read what somebody brought and has not let in yet."""
    build = door.build()
    return BringInDesk(
        made_at=door.now(),
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        waiting=tuple(
            FileWaiting(one.token, one.name, one.kind, one.touched_at)
            for one in Tray(door.folder).waiting(holder, door.now())
        ),
    )


# --- looking at it --------------------------------------------------------------------------------


def look(door: Door, waiting: Waiting) -> Looked:
    """Say what would land of a file in the tray, with what was chosen so far."""
    if waiting.landed or waiting.told:
        found = _looked(door, waiting.name, waiting.kind)
        return replace(found, told=waiting.told, landed=waiting.landed)
    seen, wrong, alike = _read_again(door, waiting)
    return looked_at(door, seen, wrong, alike, waiting.answers)


def looked_at(
    door: Door,
    seen: ImportPreview,
    wrong: tuple[Problem, ...] = (),
    alike: _Alike | None = None,
    answers: Answers | None = None,
) -> Looked:
    """Put what a file was understood to say into the reading that pages and commands show.

    Parameters
    ----------
    door : Door
        The build.
    seen : ImportPreview
        The file as it was understood.
    wrong : tuple of Problem
        What of the choices cannot be read.
    alike : mapping, optional
        By sheet, the rows that follow what was said for all rows that are there already.
    answers : mapping, optional
        What a form says.
    """
    stopped = (*wrong, *_stopping(seen))
    alike, answers = alike or {}, answers or {}
    return replace(
        _looked(door, seen.name, seen.kind),
        changes=len(seen.dated),
        lines=seen.lines,
        stopped_by=stopped,
        problems=tuple(_not_stopping(seen)),
        sheets=tuple(_sheet(one, alike.get(one.sheet, {}), answers) for one in seen.sheets),
        mark=mark_of(seen.lines),
    )


def _looked(door: Door, name: str, kind: str) -> Looked:
    build = door.build()
    return Looked(door.now(), build.seq, build.car_name, build.invented, name, kind)


def _read_again(door: Door, waiting: Waiting) -> tuple[ImportPreview, tuple[Problem, ...], _Alike]:
    """Read a file with what was chosen.

    Returns
    -------
    ImportPreview, tuple of Problem, mapping
        What would land, what of the choices cannot be read, and the rows that were there
        already and follow what was said for all such rows.
    """
    data = Tray(door.folder).data(waiting)
    choices, wrong = choices_of(waiting.answers)
    seen = _preview(door, data, waiting.name, choices)
    alike = rows_there(waiting.answers, seen.sheets)
    if alike:
        choices = {
            sheet: replace(said, rows={**alike.get(sheet, {}), **said.rows})
            for sheet, said in choices.items()
        }
        seen = _preview(door, data, waiting.name, choices)
    return seen, wrong, alike


def _stopping(seen: ImportPreview) -> Iterator[Problem]:
    """What keeps a file from landing; of several sheets, each problem names its own."""
    if not seen.sheets:
        yield from seen.stopped_by
    for sheet in seen.sheets:
        if sheet.left_out:
            continue
        for asked in sheet.questions:
            answers = " or ".join(asked.answers)
            yield Problem(f"sheet '{sheet.sheet}'", f"{asked.sentence}?", answers)
        yield from _placed(seen, sheet, stops=True)


def _not_stopping(seen: ImportPreview) -> Iterator[Problem]:
    if not seen.sheets:
        yield from (one for one in seen.problems if one.severity != "stops")
    for sheet in seen.sheets:
        if not sheet.left_out:
            yield from _placed(seen, sheet, stops=False)


def _placed(seen: ImportPreview, sheet: Preview, *, stops: bool) -> Iterator[Problem]:
    for one in sheet.every_problem:
        if (one.severity == "stops") == stops:
            named = len(seen.sheets) == 1 or one.where.startswith("sheet ")
            yield one if named else replace(one, where=f"sheet '{sheet.sheet}', {one.where}")


def mark_of(lines: Iterable[ImportLine]) -> str:
    """A mark of all that would land: what lands must be what was seen.

    Examples
    --------
    >>> mark_of([ImportLine("New: job 'Horn'.")]) == mark_of([ImportLine("New: job 'Horns'.")])
    False
    """
    words = "\n".join(f"{line.sentence}|{line.where}" for line in lines)
    return hashlib.blake2s(words.encode(errors="replace"), digest_size=8).hexdigest()


_LATER = {RowState.NEW: 2, RowState.CORRECTED: 2, RowState.LEFT_OUT: 3}


def _sheet(seen: Preview, alike: Mapping[int, RowChoice], answers: Answers) -> SheetSeen:
    key = key_of(seen.sheet)

    def doubled(number: int, same_as: str) -> bool:
        said = answers.get(f"{key}.row.{number}", ("",))[0]
        return bool(same_as) or number in alike or said in (RowChoice.ADD, RowChoice.CORRECT, LEAVE)

    rows = [
        RowSeen(
            row.number,
            row.words,
            row.state,
            row.same_as,
            doubled(row.number, row.same_as),
            row.problems,
        )
        for row in seen.rows
    ]

    def turn(row: RowSeen) -> tuple[int, int]:
        wants_a_look = any(problem.severity != "note" for problem in row.problems)
        first = 0 if row.stops else 1 if wants_a_look else _LATER.get(RowState(row.state), 1)
        return first, row.number

    return SheetSeen(
        key=key,
        sheet=seen.sheet,
        kind=seen.kind or "",
        header_row=seen.header_row,
        columns=seen.columns,
        rows=tuple(sorted(rows, key=turn)),
        problems=seen.problems,
        questions=seen.questions,
        left_out=seen.left_out,
        stops=bool(seen.stopped_by),
    )


# --- choosing and letting in ----------------------------------------------------------------------


def choose(door: Door, waiting: Waiting, sent: Answers) -> Waiting:
    """Keep what a form says, with what was chosen of rows that the form did not have."""
    return Tray(door.folder).keep(
        replace(waiting, answers=merged(waiting.answers, sent), touched_at=door.now())
    )


def let_in(
    door: Door, waiting: Waiting, mark: str, author: str | None
) -> tuple[Waiting, Receipt | None]:
    """Let a file land: all of it, or nothing.

    Parameters
    ----------
    door : Door
        The build.
    waiting : Waiting
        The file, with what was chosen.
    mark : str
        The mark of what was shown.
    author : str or None
        Who lets it in.

    Returns
    -------
    Waiting, Receipt or None
        The file as it now is; no receipt when it had landed before.

    Raises
    ------
    BadInput
        When something stops it; all of that is said.
    Conflict
        When something else would land than was shown.
    """
    tray = Tray(door.folder)
    with tray.alone():
        waiting = tray.find(waiting.token, waiting.holder, door.now())
        if waiting.landed:
            return waiting, None
        seen, wrong, _ = _read_again(door, waiting)
        if stopped := (*wrong, *seen.stopped_by):
            raise BadInput.together(stopped)
        if mark != mark_of(seen.lines):
            raise Conflict(
                "the build",
                "was changed after this was shown, and other things would land now",
                "nothing landed; look at what would land now, then press again",
            )
        receipt = accept_import(door, seen, author=author)
        if not receipt.entries:
            raise BadInput("", "nothing in it differs from the build", "there is nothing to let in")
        numbers = [entry.seq for entry in receipt.entries]
        return tray.landed(waiting, numbers[0], numbers[-1]), receipt
