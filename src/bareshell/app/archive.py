"""Exporting a whole build into one archive, and making a build of an archive again."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from bareshell import __version__
from bareshell.app.door import Door
from bareshell.app.intake import checked_id
from bareshell.app.photo_files import PHOTOS_FOLDER, is_plain_name
from bareshell.errors import BadInput, Damaged, NotFound, Problem, Refused
from bareshell.io.archive import EXTRA_FILES, JOURNAL, Archive, ArchiveWriter
from bareshell.model import fold
from bareshell.model.changes import PhotoKept
from bareshell.model.note import Photo
from bareshell.store.faults import in_words, no_room
from bareshell.store.files import make_durable, whole
from bareshell.store.journal import JOURNAL_FILE, Journal, Row
from bareshell.store.present import entries_of

README_TEXT = """\
This is the whole record of one car being put back together.

journal.jsonl   Every entry ever written, one a line, oldest first. Each line is JSON:
                seq           its number
                id            its own name; the same entry always has the same
                happened_at   when it happened, and
                recorded_at   when it was written down, both in UTC
                author        who wrote it
                kind          what sort of thing it says (such as job-finished)
                version       the version of that sort's form
                subject       what it is about, as kind:id
                base_version  the number of the subject's entry that the writer knew, or null
                standing      "kept", or "to settle" when its subject had moved meanwhile
                body          what it says
                Nothing is ever changed or left out. An entry of kind "withdrawn" takes an
                earlier one back; one of kind "settled" keeps or sets aside one "to settle".
photos/         The photographs; entries of kind "photo-kept" name them, with their SHA-256.
build.toml      When it is there: the build as it stood at the end, in a form to be read and
                edited by hand.
manifest.json   What is in this archive, with the size and SHA-256 of each file.

The build is what these entries make when they are played in order. bareshell does that:
import this archive into an empty folder and the build is as it was.
"""

_FIELDS = tuple(spec.name for spec in fields(Row))


@dataclass(frozen=True, slots=True)
class Exported:
    """What went into an archive.

    Parameters
    ----------
    path : Path
        The archive.
    entries, photos : int
        How many of each.
    problems : tuple of Problem
        Photographs that could not go in.
    """

    path: Path
    entries: int
    photos: int
    problems: tuple[Problem, ...] = ()


def export_archive(door: Door, to: Path, extra: Mapping[str, bytes] | None = None) -> Exported:
    """Write the whole build into one archive.

    Parameters
    ----------
    door : Door
        The build.
    to : Path
        The file to make; it is there only once it is whole.
    extra : mapping of str to bytes, optional
        ``build.toml``, when whoever asks has made one.

    Raises
    ------
    Refused
        When there is a file of that name already.
    NoRoom
        When the disk is full; no half of an archive is left.
    """
    if to.exists():
        raise Refused(
            "nothing is written over", f"there is a file '{to.name}' already", "name a new one"
        )
    unknown = set(extra or ()) - set(EXTRA_FILES)
    if unknown:
        raise BadInput("archive", f"'{min(unknown)}' is no file of an archive", "")
    rows = door.rows()
    problems: list[Problem] = []
    names = []
    for name in sorted({photo.file for photo in _every_photo(rows)}):
        if is_plain_name(name) and (door.folder / PHOTOS_FOLDER / name).is_file():
            names.append(name)
        else:
            problems.append(
                Problem(f"photo {name}", "the file is not there", "look for it", "doubtful")
            )
    with (
        in_words("no archive was made"),
        whole(to) as beside,
        beside.open("wb") as file,
        ArchiveWriter(file, door.now(), __version__) as writer,
    ):
        writer.add_lines(JOURNAL, (_line(row) for row in rows))
        for name, data in (extra or {}).items():
            writer.add_bytes(name, data)
        for name in names:
            writer.add_file(f"photos/{name}", door.folder / PHOTOS_FOLDER / name)
        writer.finish(len(rows), rows[-1].id if rows else "", README_TEXT)
    return Exported(to, len(rows), len(names), tuple(problems))


def _every_photo(rows: Sequence[Row]) -> list[Photo]:
    """Return all photos ever kept: one that was taken back may be put back in again."""
    entries = entries_of([row for row in rows if row.kind == PhotoKept.KIND])
    return [entry.change.photo for entry in entries if isinstance(entry.change, PhotoKept)]


def import_archive(archive: Path, folder: Path) -> int:
    """Make a build of an archive, in a folder that has none yet.

    The new build has the same entries, with their numbers, ids and times. Everything is
    unpacked and checked beside the folder first; it appears whole or not at all.

    Returns
    -------
    int
        How many entries it has.

    Raises
    ------
    Refused
        When the folder has something in it.
    NotFound
        When there is no such archive.
    Damaged, BadInput, Newer
        When the archive cannot be used; the folder is as it was.
    NoRoom
        When the disk is full; the folder is as it was.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refused(
            "nothing is written over",
            f"there is something in '{folder}' already",
            "name a new folder, or an empty one",
        )
    if not archive.is_file():
        raise NotFound(f"there is no file '{archive}'", "name an archive that is there")
    with (
        in_words("the archive was not brought in"),
        Archive.open(archive) as opened,
        _beside(folder) as beside,
    ):
        _check_room(opened, beside)
        (beside / PHOTOS_FOLDER).mkdir()
        (beside / "backups").mkdir()
        for name in opened.photos:
            with (beside / PHOTOS_FOLDER / name).open("wb") as file:
                opened.copy_photo(name, file)
                file.flush()
                os.fsync(file.fileno())
        count = _bring_in(opened, beside / JOURNAL_FILE)
        make_durable(beside)
        if folder.exists():
            folder.rmdir()
        beside.rename(folder)
        make_durable(folder.parent)
    return count


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """Hand out a folder to fill next to where the build will be; gone again if that fails."""
    folder.parent.mkdir(parents=True, exist_ok=True)
    beside = folder.with_name(f".{folder.name}.{os.urandom(4).hex()}.part")
    beside.mkdir()
    try:
        yield beside
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _check_room(archive: Archive, folder: Path) -> None:
    wanted = sum(item.bytes for item in archive.manifest.files.values())
    if wanted * 1.2 > shutil.disk_usage(folder).free:
        raise no_room("the archive was not brought in")


def _bring_in(archive: Archive, path: Path) -> int:
    with closing(archive.lines()) as lines:
        rows = [_row(line, number) for number, line in enumerate(lines, 1)]
    if len(rows) != archive.manifest.entries:
        raise Damaged(
            f"of {archive.manifest.entries} entries the archive has {len(rows)}",
            "copy it again, or use another",
        )
    if len({row.id for row in rows}) != len(rows):
        raise Damaged("two entries of the archive have the same id", "use another archive")
    _check_opens(rows)
    journal = Journal.open(path, create=True)
    try:
        with journal.writing() as writing:
            writing.append(rows)
    finally:
        journal.close()
    return len(rows)


def _check_opens(rows: Sequence[Row]) -> None:
    """Read and play everything once, so that nothing comes in that could not be opened again."""
    entries = entries_of(rows)
    for row, entry in zip(rows, entries, strict=True):
        checked_id(entry.id)
        if entry.change.subject != row.subject:
            raise Damaged(f"entry {row.seq} of the archive is about something else than it says")
    try:
        fold(entries)
    except (LookupError, ValueError, TypeError) as error:
        raise Damaged(
            "the entries of the archive do not make a build", "use another archive"
        ) from error


def _line(row: Row) -> str:
    values: dict[str, Any] = {name: getattr(row, name) for name in _FIELDS}
    values["body"] = json.loads(row.body)
    return json.dumps(values, ensure_ascii=False, separators=(",", ":"))


def _row(line: str, number: int) -> Row:
    where = f"line {number} of '{JOURNAL}' in the archive"
    try:
        values = json.loads(line)
        if not isinstance(values, dict) or set(values) != set(_FIELDS):
            raise Damaged(f"{where} is no entry", "use another archive")
        body = json.dumps(values.pop("body"), ensure_ascii=False, separators=(",", ":"))
        row = Row(**values, body=body)
    except (ValueError, RecursionError) as error:
        raise Damaged(f"{where} cannot be read", "use another archive") from error
    for name in _FIELDS:
        value, kinds = getattr(row, name), _KINDS.get(name, str)
        if not isinstance(value, kinds) or isinstance(value, bool):
            raise Damaged(f"{where}: its {name.replace('_', ' ')} is none", "use another archive")
    if row.seq != number:
        raise Damaged(f"{where} is entry {row.seq}; entries are missing", "use another archive")
    return row


_KINDS: dict[str, type | tuple[type, ...]] = {
    "seq": int,
    "version": int,
    "base_version": (int, type(None)),
}
