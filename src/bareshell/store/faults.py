"""What SQLite and the disk complain of, as sentences for a person."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from bareshell.errors import BareshellError, Busy, Damaged, NoRoom

_BUSY = {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}
_SPOILT = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
_NO_ROOM = {sqlite3.SQLITE_IOERR_SHMSIZE}
"""What SQLite says when the disk has no room even for the index of its log."""
_CLOSED = {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM}


@contextmanager
def in_words(what: str) -> Iterator[None]:
    """Turn faults of SQLite and of the disk into errors with a remedy.

    Parameters
    ----------
    what : str
        What was being done, to end "so ...": ``"the entry was not taken"``.
    """
    try:
        yield
    except sqlite3.Error as error:
        raise _of_sqlite(error, what) from error
    except OSError as error:
        raise of_disk(error, what) from error


def _of_sqlite(error: sqlite3.Error, what: str) -> BareshellError:
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code == sqlite3.SQLITE_FULL or getattr(error, "sqlite_errorcode", 0) in _NO_ROOM:
        return no_room(what)
    if code in _BUSY:
        return Busy(
            f"another bareshell is writing to this build, so {what}", "try again in a moment"
        )
    if code in _SPOILT:
        return Damaged(f"the journal is spoilt ({error}), so {what}", "restore the newest backup")
    if code in _CLOSED:
        return BareshellError(
            f"the build's folder cannot be written to ({error}), so {what}",
            "look at who may write there, and whether the disk is mounted for reading only",
        )
    return BareshellError(f"the journal answered '{error}', so {what}", "look at the disk")


def of_disk(error: OSError, what: str) -> BareshellError:
    """Turn a fault of the disk into an error with a remedy."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return no_room(what)
    return BareshellError(
        f"the disk answered '{error.strerror or error}', so {what}",
        "look at the disk and at who may write there",
    )


def no_room(what: str) -> NoRoom:
    """Say that the disk is full."""
    return NoRoom(f"the disk is full, so {what}", "free some space and try again")
