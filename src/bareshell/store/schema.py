"""The tables of a journal, and the small steps that made them what they are.

A step runs in one transaction together with the note that it ran. A journal with more steps
than this bareshell knows was written by a newer one.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from bareshell import __version__
from bareshell.errors import Damaged

APPLICATION_ID = 0x62617265
"""What a bareshell journal carries in its header; the letters are "bare"."""

Step = Callable[[sqlite3.Connection], None]


@dataclass(frozen=True, slots=True)
class Migration:
    """One step, with its name."""

    name: str
    run: Step


MIGRATIONS: list[Migration] = []


def migration(run: Step) -> Step:
    """Register a step; the order of the functions in this module is the order they run in."""
    MIGRATIONS.append(Migration(run.__name__, run))
    return run


@migration
def first_tables(connection: sqlite3.Connection) -> None:
    """Lay the journal itself and the few words about it."""
    connection.execute(
        """
        CREATE TABLE entries (
            seq          INTEGER PRIMARY KEY,
            id           TEXT NOT NULL UNIQUE,
            happened_at  TEXT NOT NULL,
            recorded_at  TEXT NOT NULL,
            author       TEXT NOT NULL,
            kind         TEXT NOT NULL,
            version      INTEGER NOT NULL CHECK (version > 0),
            subject      TEXT NOT NULL,
            base_version INTEGER,
            standing     TEXT NOT NULL,
            body         TEXT NOT NULL
        ) STRICT
        """
    )
    connection.execute("CREATE INDEX entries_by_subject ON entries (subject, seq)")
    connection.execute("CREATE TABLE words (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT")


@migration
def nothing_is_ever_changed(connection: sqlite3.Connection) -> None:
    """Let the file itself refuse what nobody may do to a record."""
    for verb in ("UPDATE", "DELETE"):
        connection.execute(
            f"""
            CREATE TRIGGER entries_refuse_{verb.lower()} BEFORE {verb} ON entries
            BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END
            """
        )


def applied(connection: sqlite3.Connection) -> int:
    """Return how many steps a journal has had."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def is_empty(connection: sqlite3.Connection) -> bool:
    """Whether the file has nothing in it yet."""
    found = connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]
    return found == 0 and applied(connection) == 0


def pending(connection: sqlite3.Connection) -> tuple[str, ...]:
    """Return the names of the steps that a journal has not had."""
    return tuple(step.name for step in MIGRATIONS[applied(connection) :])


def migrate(connection: sqlite3.Connection) -> tuple[str, ...]:
    """Run the steps that a journal has not had; return their names.

    Each runs in a transaction of its own together with the count that says it ran, so a
    journal cut short between two of them goes on where it stopped.
    """
    done = []
    while applied(connection) < len(MIGRATIONS):
        connection.execute("BEGIN IMMEDIATE")
        try:
            count = applied(connection)  # another process may have come first
            if count < len(MIGRATIONS):
                MIGRATIONS[count].run(connection)
                connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
                connection.execute(f"PRAGMA user_version = {count + 1}")
                done.append(MIGRATIONS[count].name)
            connection.execute("COMMIT")
        except BaseException:
            connection.execute("ROLLBACK")
            raise
    return tuple(done)


def check_is_ours(connection: sqlite3.Connection, name: str) -> None:
    """Refuse a database that some other program made.

    Raises
    ------
    Damaged
        When it is not a bareshell journal.
    """
    mark = connection.execute("PRAGMA application_id").fetchone()[0]
    if mark != APPLICATION_ID:
        raise Damaged(
            f"'{name}' is a database, but not a bareshell journal",
            "name the folder of a build, or restore a backup of its journal",
        )


def check_is_whole(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse a file that ends in the middle of a page: SQLite reads what is gone as nothing.

    Raises
    ------
    Damaged
        When it does.
    """
    if path.stat().st_size % int(connection.execute("PRAGMA page_size").fetchone()[0]):
        raise Damaged("the journal is cut short", "restore the newest backup")


def is_newer(connection: sqlite3.Connection) -> bool:
    """Whether a newer bareshell has laid out this journal."""
    return applied(connection) > len(MIGRATIONS)


def written_by(connection: sqlite3.Connection) -> str:
    """Return the newest version of bareshell that wrote to a journal."""
    row = connection.execute("SELECT value FROM words WHERE name = 'written by'").fetchone()
    return str(row[0]) if row else __version__


def note_writer(connection: sqlite3.Connection) -> None:
    """Note that this bareshell writes to the journal, unless a newer one did already."""
    if version_key(written_by(connection)) <= version_key(__version__):
        connection.execute(
            "INSERT INTO words VALUES ('written by', ?) "
            "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
            (__version__,),
        )


def version_key(version: str) -> tuple[int, ...]:
    """Return a version as numbers, for comparing.

    Examples
    --------
    >>> version_key("0.10.0") > version_key("0.9.1")
    True
    """
    return tuple(int(part) if part.isdigit() else 0 for part in version.split("."))
