"""Writing a build out: what can be had, what it is called, and an archive made for one reader."""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from bareshell.app.archive import Exported, export_archive
from bareshell.app.door import CACHE_FOLDER, Door
from bareshell.app.exchange import export_build_file
from bareshell.app.photo_files import PHOTOS_FOLDER, is_plain_name
from bareshell.app.written import slug
from bareshell.errors import Busy
from bareshell.io.sheets import SheetKind
from bareshell.store.faults import in_words
from bareshell.store.journal import JOURNAL_FILE
from bareshell.whole.garage_time import zone_of

FOLDER = "write-out"

LISTS: dict[str, SheetKind] = {
    "jobs": SheetKind.JOBS,
    "needs": SheetKind.NEEDS,
    "holdings": SheetKind.HOLDINGS,
    "orders": SheetKind.ORDERS,
}
"""The lists that can be written out, by the word in their address."""

_turn = threading.Lock()


@dataclass(frozen=True, slots=True)
class ListToWrite:
    """A list of the build: its word in the address, what it is, how many lines it has."""

    word: str
    kind: str
    lines: int


@dataclass(frozen=True, slots=True)
class WriteOut:
    """What a build can be written out as.

    Parameters
    ----------
    lists : tuple of ListToWrite
        The lists for a spreadsheet.
    entries, photos : int
        What an archive holds.
    archive_bytes : int
        About how large it gets. [B]
    photos_missing : int
        How many photographs have no file any more; an archive goes without them.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    lists: tuple[ListToWrite, ...]
    entries: int
    photos: int
    archive_bytes: int
    photos_missing: int


def write_out(door: Door) -> WriteOut:
    """Read what can be written out."""
    build = door.build()
    counts = (len(build.jobs), len(build.needs), len(build.holdings), len(build.orders))
    sizes = [_size(door.folder, photo.file) for photo in build.photos.values()]
    there = [size for size in sizes if size is not None]
    with in_words("the journal was not looked at"):
        journal = (door.folder / JOURNAL_FILE).stat().st_size
    return WriteOut(
        made_at=door.now(),
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        lists=tuple(
            ListToWrite(word, kind, count)
            for (word, kind), count in zip(LISTS.items(), counts, strict=True)
        ),
        entries=door.latest(),
        photos=len(there),
        archive_bytes=sum(there) + journal // 4,
        photos_missing=len(sizes) - len(there),
    )


def _size(folder: Path, name: str) -> int | None:
    if not is_plain_name(name):
        return None
    try:
        return (folder / PHOTOS_FOLDER / name).stat().st_size
    except OSError:
        return None


def file_name(door: Door, what: str, ending: str) -> str:
    """Name a file that is written out: the car, what it is, the day.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder, Door.open(folder, create=True) as door:
    ...     file_name(door, "jobs", "csv").startswith("build-jobs-20")
    True
    """
    build = door.build()
    name = slug(build.car.name)[:32].strip("-") if build.car and build.car.name else "build"
    day = door.now().astimezone(zone_of(build)).date().isoformat()
    return "-".join(part for part in (name, what, day) if part) + f".{ending}"


def make_archive(door: Door) -> Exported:
    """Make an archive in a file of its own, to be sent and then thrown away.

    Raises
    ------
    Busy
        When one is being made already.
    NoRoom
        When the disk is full.
    """
    folder = door.folder / CACHE_FOLDER / FOLDER
    with _alone(), in_words("no archive was made"):
        folder.mkdir(parents=True, exist_ok=True)
        _sweep(folder, door.now())
        path = folder / f"{os.urandom(8).hex()}.zip"
        return export_archive(door, path, {"build.toml": export_build_file(door).encode()})


def throw_away(path: Path) -> None:
    """Throw an archive away that was sent."""
    with suppress(OSError):
        path.unlink()


@contextmanager
def _alone() -> Iterator[None]:
    if not _turn.acquire(blocking=False):
        raise Busy("an archive is being made already", "try again when it is there")
    try:
        yield
    finally:
        _turn.release()


def _sweep(folder: Path, now: datetime) -> None:
    """Throw away what was left lying by a reader that went away in the middle."""
    for path in folder.iterdir():
        with suppress(OSError):
            if now.timestamp() - path.stat().st_mtime > 3600:
                path.unlink()
