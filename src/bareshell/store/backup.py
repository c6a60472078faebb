"""Copies of a journal, made and put back by SQLite's own backup, while others read and write."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic

from bareshell.errors import Busy, Damaged, NotFound
from bareshell.store import schema
from bareshell.store.faults import in_words
from bareshell.store.files import whole
from bareshell.store.journal import BUSY_SECONDS

_SIDE_FILES = ("-wal", "-shm", "-journal")


def copy_journal(journal: Path, to: Path) -> None:
    """Copy a journal into one self-contained file, checked before it gets its name.

    Raises
    ------
    NotFound
        When there is none.
    Damaged
        When the journal cannot be read, or its copy does not read.
    NoRoom
        When the disk is full; no file is left behind.
    """
    if not journal.is_file():
        raise NotFound(f"there is no journal '{journal}'", "name the folder of a build")
    with in_words("no copy of the journal was made"), whole(to) as beside:
        with _opened(journal) as source, _opened(beside) as target:
            _copy(source, target)
            # One file, with nothing beside it to forget when it is carried elsewhere.
            target.execute("PRAGMA journal_mode = DELETE")
        check_journal(beside)


def check_journal(path: Path) -> int:
    """Check a journal from end to end; return how many entries it has.

    Raises
    ------
    Damaged
        Saying what is wrong with it.
    """
    with in_words("it cannot be used"), _opened(path) as connection:
        found = [row[0] for row in connection.execute("PRAGMA integrity_check(3)")]
        if found != ["ok"]:
            raise Damaged(f"'{path.name}' is spoilt: {'; '.join(found)}", "use another backup")
        schema.check_is_ours(connection, path.name)
        return int(connection.execute("SELECT count(*) FROM entries").fetchone()[0])


def put_back(backup: Path, journal: Path) -> None:
    """Make a journal what it was in a backup, in one step that others see whole.

    Raises
    ------
    Damaged
        When the journal is too spoilt for that; see ``replace_spoilt``.
    Busy
        When another process is writing.
    """
    check_journal(backup)
    with (
        in_words("the backup was not put back"),
        _opened(backup) as source,
        _opened(journal) as target,
    ):
        schema.applied(target)  # fails here, before anything is touched, when it is no database
        if target.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
            target.execute("PRAGMA journal_mode = WAL")
        _copy(source, target)


def replace_spoilt(backup: Path, journal: Path, aside: Path) -> None:
    """Put a backup where a spoilt journal stood, and keep that aside, whatever it holds.

    Parameters
    ----------
    backup, journal : Path
        What is put back, and where.
    aside : Path
        Where the spoilt file goes; what SQLite kept beside it goes with it.
    """
    check_journal(backup)
    with in_words("the backup was not put back"):
        for ending in ("", *_SIDE_FILES):
            spoilt = journal.with_name(journal.name + ending)
            if spoilt.exists():
                spoilt.replace(aside.with_name(aside.name + ending))
        with whole(journal) as beside, _opened(backup) as source, _opened(beside) as target:
            _copy(source, target)


def _copy(source: sqlite3.Connection, target: sqlite3.Connection) -> None:
    """Copy page by page, giving up when somebody writes and does not finish in time."""
    until = monotonic() + BUSY_SECONDS

    def so_far(status: int, _left: int, _pages: int) -> None:
        # The library itself would go on trying for ever.
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED) and monotonic() > until:
            raise Busy("another bareshell is writing to this build", "close it and try again")

    source.backup(target, progress=so_far)


@contextmanager
def _opened(path: Path) -> Iterator[sqlite3.Connection]:
    connection = sqlite3.connect(path, timeout=BUSY_SECONDS, isolation_level=None)
    try:
        connection.execute("PRAGMA synchronous = FULL")
        yield connection
    finally:
        connection.close()
