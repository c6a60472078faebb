"""Backups: one a day by itself, any time on request, and putting one back.

A backup is one file in ``backups/``: the whole record, without the photographs, which are
never changed once kept. To carry everything elsewhere, export an archive.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bareshell.errors import BareshellError, Damaged, NotFound
from bareshell.store.backup import check_journal, copy_journal, put_back, replace_spoilt
from bareshell.store.faults import in_words
from bareshell.store.journal import JOURNAL_FILE, Journal

FOLDER = "backups"
KEPT_LATEST = 10
KEPT_MONTHS = 24
EVERY = timedelta(days=1)

_NAME = re.compile(r"journal-(\d{8}T\d{6}Z)(?:-\d+)?\.db")


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup: its file and when it was made, in UTC."""

    path: Path
    made_at: datetime


@dataclass(frozen=True, slots=True)
class PutBack:
    """What putting a backup back did.

    Parameters
    ----------
    entries : int
        How many entries the record has now.
    kept_aside : Path
        Where the record is that stood there before.
    was_spoilt : bool
        Whether that one could not be read any more.
    """

    entries: int
    kept_aside: Path
    was_spoilt: bool


def backups(folder: Path) -> tuple[Backup, ...]:
    """Return the backups of a build, newest first."""
    found = []
    for path in (folder / FOLDER).glob("journal-*.db"):
        name = _NAME.fullmatch(path.name)
        if name:
            made_at = datetime.strptime(name[1], "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
            found.append(Backup(path, made_at))
    return tuple(sorted(found, key=lambda one: (one.made_at, one.path.name), reverse=True))


def back_up(folder: Path, now: datetime) -> Backup:
    """Make a backup now, and let go of those that are no longer kept.

    Raises
    ------
    Damaged
        When the journal cannot be read in full.
    NoRoom
        When the disk is full; no half of a backup is left.
    """
    with in_words("no backup was made"):
        (folder / FOLDER).mkdir(exist_ok=True)
    made_at = now.astimezone(UTC).replace(microsecond=0)
    path = _free_name(folder / FOLDER, made_at)
    copy_journal(folder / JOURNAL_FILE, path)
    for old in no_longer_kept(backups(folder)):
        with suppress(OSError):
            old.path.unlink()
    return Backup(path, made_at)


def no_longer_kept(listed: Sequence[Backup]) -> tuple[Backup, ...]:
    """Return the backups to let go: all but the latest ten and each month's last, two years back.

    Parameters
    ----------
    listed : sequence of Backup
        Newest first.
    """
    kept = {one.path for one in listed[:KEPT_LATEST]}
    months: dict[tuple[int, int], Path] = {}
    for one in listed:
        months.setdefault((one.made_at.year, one.made_at.month), one.path)
    kept.update(list(months.values())[:KEPT_MONTHS])
    return tuple(one for one in listed if one.path not in kept)


def restore(folder: Path, backup: Path, now: datetime) -> PutBack:
    """Put a backup back. What stood there before is kept aside, as a backup or as it was.

    Raises
    ------
    NotFound
        When there is no such backup.
    Damaged
        When the backup itself does not read; nothing was touched.
    Busy
        When another process writes to the build.
    """
    if not backup.is_file():
        raise NotFound(f"there is no backup '{backup.name}'", "name one of this build's backups")
    journal = folder / JOURNAL_FILE
    entries = check_journal(backup)
    with in_words("the backup was not put back"):
        (folder / FOLDER).mkdir(exist_ok=True)
    try:
        before = _free_name(folder / FOLDER, now.astimezone(UTC).replace(microsecond=0))
        copy_journal(journal, before)
        put_back(backup, journal)
    except (Damaged, NotFound):
        aside = folder / FOLDER / f"spoilt-{now.astimezone(UTC):%Y%m%dT%H%M%S%fZ}.db"
        replace_spoilt(backup, journal, aside)
        return PutBack(entries, aside, was_spoilt=True)
    return PutBack(entries, before, was_spoilt=False)


class DailyBackup:
    """Makes a backup with the first entry of a day, once a record is a day old.

    It never stops anybody from writing: what went wrong is seen by the check-up, which finds
    the newest backup too old.
    """

    def __init__(self, folder: Path, journal: Journal) -> None:
        self._folder = folder
        self._journal = journal
        self._looked: datetime | None = None

    def after_entry(self, now: datetime) -> None:
        """Make a backup if one is due."""
        if self._looked is not None and timedelta(0) <= now - self._looked < EVERY:
            return
        listed = backups(self._folder)
        newest = listed[0].made_at if listed else None
        if newest is None:
            first = self._journal.rows(limit=1)
            newest = first[0].entry().recorded_at if first else now
        if timedelta(0) <= now - newest < EVERY:
            self._looked = newest
            return
        self._looked = now
        with suppress(BareshellError):
            back_up(self._folder, now)


def _free_name(folder: Path, made_at: datetime) -> Path:
    stem = f"journal-{made_at:%Y%m%dT%H%M%SZ}"
    path, number = folder / f"{stem}.db", 2
    while path.exists():
        path, number = folder / f"{stem}-{number}.db", number + 1
    return path
