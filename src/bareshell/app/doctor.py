"""The check-up: everything about a build's folder that could one day lose a record."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path

from bareshell.app.backup import backups
from bareshell.app.door import CACHE_FOLDER, Door
from bareshell.app.photo_files import PHOTOS_FOLDER, is_plain_name
from bareshell.errors import BareshellError, Problem
from bareshell.model import Build
from bareshell.store.backup import check_journal
from bareshell.store.checkup import look_over, unfinished_bytes, unreadable
from bareshell.store.journal import JOURNAL_FILE, Journal
from bareshell.store.snapshots import Snapshots
from bareshell.whole.words import describe_entry

MOUNTS = Path("/proc/mounts")
NETWORK_KINDS = re.compile(r"^(nfs\d*|cifs|smb\w*|9p|ncpfs?|afs|ceph|davfs2?|virtiofs|fuse\..*)$")
"""Kinds of file system that keep their files on another machine, or behind a program that may;
locks and durable writes cannot be relied on there (from memory)."""

SYNC_WORDS = re.compile(r"(?:^|[^a-z])(sync|synced|cloud|drive)(?:[^a-z]|$)", re.IGNORECASE)
SYNC_MARKS = re.compile(r"conflict", re.IGNORECASE)
SHOWN = 5
"""How many faults of one sort are told one by one."""

LITTLE_ROOM_BYTES = 300_000_000
NO_ROOM_BYTES = 20_000_000
BACKUP_TOO_OLD = timedelta(days=7)
CLOCK_SLACK = timedelta(minutes=5)
SLOW_START_ENTRIES = 2000
LONG_LOG_BYTES = 64_000_000


def doctor(
    folder: Path, now: datetime, *, every_photo: bool = False, open_here: bool = False
) -> tuple[Problem, ...]:
    """Look a build's folder over.

    Parameters
    ----------
    folder : Path
        The build's folder.
    now : datetime
        The time, with a zone.
    every_photo : bool
        Whether to read every photograph and compare it with its record; else only whether
        it is there.

    Returns
    -------
    tuple of Problem
        What was found, what stops first. None of it means that nothing else can be wrong: a
        disk can die tomorrow, so keep an archive elsewhere.
    """
    journal = folder / JOURNAL_FILE
    if not journal.is_file():
        return (Problem("folder", f"there is no build in '{folder}'", "name a build's folder"),)
    unfinished = unfinished_bytes(journal)
    findings = look_over(journal)
    problems = [*findings.problems]
    if findings.last_recorded_at and findings.last_recorded_at > now + CLOCK_SLACK:
        problems.append(
            Problem(
                "clock",
                "this machine's clock is behind the last entry "
                f"({findings.last_recorded_at:%Y-%m-%d %H:%M} UTC)",
                "set the clock",
                "doubtful",
            )
        )
    problems += _log_left(unfinished, open_here=open_here)
    if not any(problem.severity == "stops" for problem in problems):
        problems += _inside(folder, every_photo=every_photo)
    problems += _backups(folder, findings.entries, findings.last_recorded_at)
    problems += _place(folder)
    order = {"stops": 0, "doubtful": 1, "note": 2}
    return tuple(sorted(problems, key=lambda problem: order[problem.severity]))


def _log_left(unfinished: int, *, open_here: bool) -> Iterator[Problem]:
    if unfinished > LONG_LOG_BYTES:
        yield Problem(
            "journal",
            f"{unfinished // 1_000_000} MB wait to be folded into it",
            "close every bareshell on this build, then open it once",
            "doubtful",
        )
    elif unfinished and not open_here:
        yield Problem(
            "journal",
            "another bareshell has it open, or the last one was cut off",
            "nothing is lost; what it wrote is folded in when the build is next opened and closed",
            "note",
        )


def _inside(folder: Path, *, every_photo: bool) -> Iterator[Problem]:
    """Look at what can only be seen with the journal open."""
    journal = Journal.open(folder / JOURNAL_FILE)
    try:
        if journal.newer is not None:
            yield Problem("journal", journal.newer.message, journal.newer.remedy, "doubtful")
        spoilt = unreadable(journal)
        if spoilt:
            yield from spoilt
            return
        yield from _slow_start(folder, journal)
    finally:
        journal.close()
    with Door.open(folder, back_up=False) as door:
        build = door.build()
        yield from _to_settle(door, build)
        yield from _photos(folder, build, every_photo=every_photo)


def _slow_start(folder: Path, journal: Journal) -> Iterator[Problem]:
    tip = journal.tip()
    newest = next(Snapshots(folder / CACHE_FOLDER).newest_first(journal.id_at), None)
    behind = tip.seq - (newest[1].seq if newest else 0)
    if behind > SLOW_START_ENTRIES:
        yield Problem(
            "snapshot",
            f"the newest one is {behind} entries old, so starting is slow",
            f"see that '{CACHE_FOLDER}' in the build's folder can be written to",
            "note",
        )


def _to_settle(door: Door, build: Build) -> Iterator[Problem]:
    for entry in door.entries():
        if entry.id in build.to_settle:
            yield Problem(
                f"entry {entry.seq}",
                f"it waits to be settled: {describe_entry(entry, build)}",
                "keep it or set it aside",
                "doubtful",
            )


def _photos(folder: Path, build: Build, *, every_photo: bool) -> Iterator[Problem]:
    photos = folder / PHOTOS_FOLDER
    faults = []
    for photo in build.photos.values():
        if not is_plain_name(photo.file):
            faults.append((photo.file, "its file name leads elsewhere"))
        elif not (photos / photo.file).is_file():
            faults.append((photo.file, "the file is not there"))
        elif every_photo and _digest(photos / photo.file) != photo.sha256:
            faults.append((photo.file, "the file is not what was kept"))
    for name, fault in faults[:SHOWN]:
        yield Problem(f"photo {name}", fault, "put it back from an archive", "doubtful")
    if len(faults) > SHOWN:
        yield Problem(
            "photos",
            f"{len(faults) - SHOWN} more are missing or changed",
            "put them back from an archive",
            "doubtful",
        )
    known = {photo.file for photo in build.photos.values()}
    strays = [p.name for p in photos.iterdir() if p.name not in known] if photos.is_dir() else []
    if strays:
        yield Problem(
            "photos",
            f"{len(strays)} files belong to no entry, such as '{min(strays)}'",
            "they do no harm; a photo taken back leaves its file here",
            "note",
        )


def _digest(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _backups(folder: Path, entries: int, last: datetime | None) -> Iterator[Problem]:
    listed = backups(folder)
    if last is None:
        return
    if not listed:
        if entries > 1:
            yield Problem("backups", "there is none yet", "make one", "note")
        return
    if last - listed[0].made_at > BACKUP_TOO_OLD:
        yield Problem(
            "backups",
            f"the newest is from {listed[0].made_at:%Y-%m-%d}, the last entry from {last:%Y-%m-%d}",
            "make one, and see that 'backups' can be written to",
            "doubtful",
        )
    try:
        check_journal(listed[0].path)
    except BareshellError as error:
        yield Problem("backups", error.message, "make a new one", "doubtful")


# --- where the folder is ---------------------------------------------------------------------


def _place(folder: Path) -> Iterator[Problem]:
    looks: tuple[Callable[[Path], Iterator[Problem]], ...] = (_room, _writable, _network, _synced)
    for look in looks:
        yield from look(folder.resolve())


def _room(folder: Path) -> Iterator[Problem]:
    free = shutil.disk_usage(folder).free
    if free < LITTLE_ROOM_BYTES:
        yield Problem(
            "disk",
            f"only {free // 1_000_000} MB are free",
            "free some space before the next session",
            "stops" if free < NO_ROOM_BYTES else "doubtful",
        )


def _writable(folder: Path) -> Iterator[Problem]:
    for path in (folder, folder / JOURNAL_FILE):
        if not os.access(path, os.W_OK):
            yield Problem(
                "folder", f"'{path.name}' cannot be written to", "look at who may write there"
            )


def _network(folder: Path) -> Iterator[Problem]:
    kind = file_system(folder)
    if NETWORK_KINDS.fullmatch(kind):
        yield Problem(
            "folder",
            f"it may lie on another machine (file system '{kind}'); two machines writing at "
            "once can spoil the journal there",
            "keep the build on a disk of the machine that runs bareshell",
            "doubtful",
        )


def file_system(folder: Path, mounts: Path | None = None) -> str:
    """Return the kind of file system a folder lies on; empty when this system does not say."""
    try:
        lines = (mounts or MOUNTS).read_text("utf-8", "replace").splitlines()
    except OSError:
        return ""
    best, kind = -1, ""
    for line in lines:
        _, point, found, *_ = (*line.split(" "), "", "", "")
        mount = Path(re.sub(r"\\([0-7]{3})", lambda code: chr(int(code[1], 8)), point))
        depth = len(mount.parts)
        if folder.is_relative_to(mount) and depth >= best:
            best, kind = depth, found
    return kind


def _synced(folder: Path) -> Iterator[Problem]:
    marks = [path.name for path in folder.iterdir() if SYNC_MARKS.search(path.name)]
    words = [part for part in folder.parts if SYNC_WORDS.search(part)]
    if marks:
        yield Problem(
            "folder",
            f"a program that copies files between machines has been here ('{marks[0]}')",
            "move the build out of that program's folder; carry it as an archive instead",
            "doubtful",
        )
    elif words:
        yield Problem(
            "folder",
            f"by its name ('{words[0]}') it may be copied to other machines while it is in use, "
            "which can spoil the journal",
            "if so, move the build elsewhere; carry it as an archive instead",
            "note",
        )
