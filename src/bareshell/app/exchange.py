"""Bringing lists and build files in, and writing them out: always shown before anything lands."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from pathlib import Path

from bareshell.app.door import Door, Receipt
from bareshell.errors import BadInput, Conflict, NotFound, Problem
from bareshell.io.build_file import compare, read_build_file, write_build_file
from bareshell.io.build_file.sections import BY_NAME
from bareshell.io.build_file.write import zone_of
from bareshell.io.sheets import (
    Choices,
    Preview,
    RowState,
    SheetFormat,
    SheetKind,
    accept,
    preview_sheets,
    read_grids,
    write_sheet,
)
from bareshell.io.sheets.csv_text import decoded
from bareshell.io.sheets.grid import LARGEST_BYTES
from bareshell.model.changes import Change
from bareshell.store.faults import in_words
from bareshell.store.files import whole

__all__ = [
    "ImportKind",
    "ImportLine",
    "ImportPreview",
    "accept_import",
    "export_build_file",
    "export_sheet",
    "form_of",
    "preview_import",
    "put",
    "save_build_file",
    "save_sheet",
]


class ImportKind(StrEnum):
    """What a file that is brought in turned out to be."""

    BUILD_FILE = "build file"
    SHEET = "sheet"
    ARCHIVE = "archive"


@dataclass(frozen=True, slots=True)
class ImportLine:
    """One thing that would change, in words, and where the file asks for it."""

    sentence: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class ImportPreview:
    """What a file was understood to say, and what would land of it; nothing has.

    Parameters
    ----------
    name : str
        The file's name.
    kind : ImportKind
        What it is.
    lines : tuple of ImportLine
        What would change, in order.
    dated : tuple of (datetime or None, Change)
        The changes, each with when it happened; None for now.
    problems : tuple of Problem
        What is wrong or doubtful; those that stop keep all of it from landing.
    sheets : tuple of Preview
        For a spreadsheet: each sheet with its columns, rows and questions.
    seq : int
        The journal's last entry when this was made.
    source : bytes
        The file itself, to be read again when a choice or the build has changed.
    choices : mapping of str to Choices
        What the person said so far, by sheet.
    """

    name: str
    kind: ImportKind
    lines: tuple[ImportLine, ...] = ()
    dated: tuple[tuple[datetime | None, Change], ...] = ()
    problems: tuple[Problem, ...] = ()
    sheets: tuple[Preview, ...] = ()
    seq: int = 0
    source: bytes = b""
    choices: Mapping[str, Choices] = field(default_factory=dict)

    @property
    def stopped_by(self) -> tuple[Problem, ...]:
        """What keeps it from landing; open questions about a sheet too."""
        asked = [each for sheet in self.sheets for each in sheet.stopped_by]
        others = [each for each in self.problems if each.severity == "stops"]
        return tuple(dict.fromkeys((*asked, *others)))

    @property
    def can_land(self) -> bool:
        """Whether there is something to land and nothing that stops it."""
        return bool(self.dated) and not self.stopped_by


# --- bringing in ---------------------------------------------------------------------------------


def preview_import(
    door: Door,
    source: Path | str | bytes,
    name: str = "",
    *,
    choices: Mapping[str, Choices] | None = None,
) -> ImportPreview:
    """Read a file that a person brings, and say what would change; nothing is kept.

    What it is shows in its content: a build file, a spreadsheet or CSV list, an archive.

    Parameters
    ----------
    door : Door
        The build that it would enter.
    source : Path, str or bytes
        Where the file is, or what is in it.
    name : str
        Its name, when only the content is given.
    choices : mapping of str to Choices, optional
        What the person said about each sheet.

    Raises
    ------
    NotFound
        When there is no such file.
    BadInput
        When it is nothing that can be brought in.
    Damaged
        When it is cut short, spoilt or locked.
    """
    data, called = _content(source, name)
    seq = door.latest()
    kind = _kind_of(data, called)
    if kind is ImportKind.ARCHIVE:
        return ImportPreview(called, kind, problems=(_an_archive(),), seq=seq, source=data)
    if kind is ImportKind.BUILD_FILE:
        return _build_file(door, data, called, seq)
    return _sheets(door, data, called, seq, choices or {})


def accept_import(
    door: Door,
    preview: ImportPreview,
    *,
    choices: Mapping[str, Choices] | None = None,
    author: str | None = None,
) -> Receipt:
    """Let what was shown land: all of it, or nothing.

    Parameters
    ----------
    door : Door
        The build.
    preview : ImportPreview
        What the person has seen.
    choices : mapping of str to Choices, optional
        What they chose over it, by sheet; the file is then read again with that.
    author : str or None
        Who says so; None for the door's own author.

    Returns
    -------
    Receipt
        The entries; none when nothing differs any more.

    Raises
    ------
    BadInput
        When a problem or an open question stops it; all of these are said.
    Conflict
        When the build changed meanwhile, so that something else would land than was shown.
    """
    if choices is not None or door.latest() != preview.seq:
        chosen = preview.choices if choices is None else choices
        fresh = preview_import(door, preview.source, preview.name, choices=chosen)
        if choices is None and fresh.dated and fresh.lines != preview.lines:
            raise Conflict(
                "the build",
                "was changed after this was shown, and other things would land now",
                "look at what would change now, then decide",
            )
        preview = fresh
    if preview.stopped_by:
        raise BadInput.together(preview.stopped_by)
    if not preview.dated:
        return Receipt(())
    now = door.now()
    return door.record_dated([(at or now, change) for at, change in preview.dated], author=author)


def _content(source: Path | str | bytes, name: str) -> tuple[bytes, str]:
    if isinstance(source, bytes):
        _check_size(len(source), name)
        return source, name or "the file"
    path = Path(source)
    if not path.is_file():
        raise NotFound(f"there is no file '{path}'", "name a file that is there")
    with in_words(f"'{path.name}' was not read"):
        _check_size(path.stat().st_size, path.name)
        return path.read_bytes(), name or path.name


def _check_size(size: int, name: str) -> None:
    # An archive with its photographs is larger by far; it is not brought in here.
    if size > LARGEST_BYTES:
        raise BadInput(
            f"'{name}'",
            f"{size / 1e6:.0f} MB is too large for a list or a build file",
            "a whole build with its photographs is brought back as an archive, not here",
        )


_SECTION_LINE = re.compile(
    rf"^\s*(?:\[\[?\s*(?:{'|'.join(BY_NAME)})\s*\]\]?|(?:format|complete)\s*=)", re.MULTILINE
)
_FOREIGN = {
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a photograph",
    b"SQLite format 3\x00": "a database",
}


def _kind_of(data: bytes, name: str) -> ImportKind:
    """Tell what a file is from its content; its name decides only between two kinds of text."""
    for start, what in _FOREIGN.items():
        if data.startswith(start):
            raise BadInput(
                f"'{name}'",
                f"it is {what}, which is not read here",
                "bring in an .xlsx, .ods or .csv list, or a build file",
            )
    if data.startswith(b"PK\x03\x04"):
        try:
            with zipfile.ZipFile(io.BytesIO(data)) as packed:
                names = packed.namelist()
        except (zipfile.BadZipFile, RuntimeError, ValueError):
            return ImportKind.SHEET  # reading it will say how it is spoilt
        is_archive = "manifest.json" in names and "journal.jsonl" in names
        return ImportKind.ARCHIVE if is_archive else ImportKind.SHEET
    if name.casefold().endswith(".toml"):
        return ImportKind.BUILD_FILE
    if data[:8].startswith(b"\xd0\xcf\x11\xe0") or not data.strip():
        return ImportKind.SHEET
    if _SECTION_LINE.search(decoded(data, name)):
        return ImportKind.BUILD_FILE
    return ImportKind.SHEET


def _an_archive() -> Problem:
    return Problem(
        "",
        "this is an archive of a whole build, with its record",
        "bring it back as a build of its own; it cannot be mixed into this one",
    )


def _build_file(door: Door, data: bytes, name: str, seq: int) -> ImportPreview:
    build = door.build()
    parsed = read_build_file(decoded(data, name), zone=zone_of(build))
    found = compare(build, parsed, door.now())
    lines = tuple(
        ImportLine(each.sentence, f"line {each.line}" if each.line else "")
        for each in found.differences
    )
    dated = tuple((each.happened_at, each.change) for each in found.differences)
    return ImportPreview(
        name, ImportKind.BUILD_FILE, lines, dated, found.problems, seq=seq, source=data
    )


def _sheets(
    door: Door, data: bytes, name: str, seq: int, choices: Mapping[str, Choices]
) -> ImportPreview:
    build = door.build()
    grids = read_grids(data, name)
    now = door.now().astimezone(zone_of(build))
    seen = preview_sheets(build, grids, now, choices=choices, file_name=name)
    shown = [sheet for sheet in seen if not sheet.left_out]
    lines = tuple(
        ImportLine(f"{row.words}.", f"sheet '{sheet.sheet}', row {row.number}")
        for sheet in shown
        for row in sheet.rows
        if row.state in (RowState.NEW, RowState.CORRECTED)
    )
    problems = tuple(each for sheet in shown for each in sheet.every_problem)
    stopped = any(sheet.stopped_by for sheet in shown)
    dated = () if stopped else accept(*shown)
    return ImportPreview(
        name, ImportKind.SHEET, lines, dated, problems, seen, seq, data, dict(choices)
    )


# --- writing out ---------------------------------------------------------------------------------


def export_build_file(door: Door, existing: str | None = None) -> str:
    """Return the build as a build file.

    Parameters
    ----------
    door : Door
        The build.
    existing : str or None
        The text of a person's own build file: its comments, order and spelling are kept.

    Raises
    ------
    BadInput
        When the existing text is not TOML.
    """
    return write_build_file(door.build(), existing)


def save_build_file(door: Door, path: Path | str) -> Path:
    """Write the build into a file; into one that is there already, keeping what a person wrote.

    The new text is put in place whole: a full disk or a power cut leaves the old file.

    Raises
    ------
    BadInput
        When the file that is there is no build file.
    NoRoom
        When the disk is full.
    """
    path = Path(path)
    existing = None
    with in_words(f"'{path.name}' was not written"):
        if path.exists():
            existing = decoded(path.read_bytes(), path.name)
    return put(path, export_build_file(door, existing).encode())


def save_sheet(door: Door, what: SheetKind, path: Path | str) -> Path:
    """Write a list of the build into a new file, whole or not at all.

    Raises
    ------
    BadInput
        When its ending says neither ``.xlsx`` nor ``.csv``, or there is such a file already.
    NoRoom
        When the disk is full.
    """
    path = Path(path)
    form = form_of(path)
    if path.exists():
        raise BadInput(str(path), "there is a file of that name already", "name a new one")
    return put(path, export_sheet(door, what, form))


def form_of(path: Path) -> SheetFormat:
    """Tell from a file's ending in which form a list is written.

    Raises
    ------
    BadInput
        When it says neither.

    Examples
    --------
    >>> form_of(Path("list.CSV"))
    'csv'
    """
    form = path.suffix.lower().lstrip(".")
    if form not in ("xlsx", "csv"):
        raise BadInput(str(path), "its ending says neither xlsx nor csv", "end it in .xlsx or .csv")
    return "xlsx" if form == "xlsx" else "csv"


def put(path: Path, data: bytes) -> Path:
    """Put a file in its place whole: a full disk or a power cut leaves what was there.

    Raises
    ------
    NotFound
        When the folder it is to lie in is not there.
    NoRoom
        When the disk is full.
    """
    if not path.absolute().parent.is_dir():
        raise NotFound(
            f"'{path.name}' was not written: there is no folder '{path.parent}'",
            "make the folder first",
        )
    with in_words(f"'{path.name}' was not written"), whole(path) as beside:
        beside.write_bytes(data)
    return path


def export_sheet(door: Door, what: SheetKind, form: SheetFormat = "xlsx") -> bytes:
    """Return a list of the build as a spreadsheet or CSV file.

    Parameters
    ----------
    door : Door
        The build.
    what : SheetKind
        Which list: jobs, parts wanted, parts on the shelf, orders.
    form : {"xlsx", "csv"}
        In which form.

    Raises
    ------
    BadInput
        When the form is neither.
    """
    return write_sheet(door.build(), what, form)
