"""Looking a journal over, from the file up to the last entry; nothing is changed."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from bareshell.errors import BareshellError, Problem
from bareshell.store import schema, wire
from bareshell.store.faults import in_words
from bareshell.store.journal import Journal

_SHOWN = 5


@dataclass(frozen=True, slots=True)
class Findings:
    """What looking a journal over brought to light.

    Parameters
    ----------
    problems : tuple of Problem
        What is wrong, worst first.
    entries : int
        How many entries there are.
    last_recorded_at : datetime or None
        When the last one was written down.
    """

    problems: tuple[Problem, ...]
    entries: int = 0
    last_recorded_at: datetime | None = None


def unfinished_bytes(journal: Path) -> int:
    """Return how much of the write-ahead log was not folded in yet, in bytes.

    Ask before opening the journal: closing it again folds the log in.
    """
    log = journal.with_name(journal.name + "-wal")
    return log.stat().st_size if log.exists() else 0


def look_over(path: Path) -> Findings:
    """Look a journal over: the file, its tables, the numbers, and whether every entry reads."""
    try:
        with in_words("it was not looked over"):
            connection = sqlite3.connect(path, isolation_level=None)
            try:
                connection.execute("PRAGMA query_only = ON")
                return _look_over(connection, path)
            finally:
                connection.close()
    except BareshellError as error:
        return Findings((Problem("journal", error.message, error.remedy),))


def _look_over(connection: sqlite3.Connection, path: Path) -> Findings:
    schema.check_is_ours(connection, path.name)
    found = [row[0] for row in connection.execute("PRAGMA integrity_check(5)")]
    if found != ["ok"]:
        return Findings(
            (Problem("journal", f"the file is spoilt: {'; '.join(found)}", "restore a backup"),)
        )
    problems = []
    if schema.is_newer(connection):
        problems.append(
            Problem(
                "journal",
                f"bareshell {schema.written_by(connection)} laid it out anew",
                "install that version, or newer, to write to it",
            )
        )
    count, last, when = connection.execute(
        "SELECT count(*), max(seq), (SELECT recorded_at FROM entries ORDER BY seq DESC LIMIT 1) "
        "FROM entries"
    ).fetchone()
    if (last or 0) != count:
        problems.append(
            Problem("journal", f"of {last} entries {count} are there", "restore a backup")
        )
    return Findings(tuple(problems), count, wire.moment(when) if when else None)


def unreadable(journal: Journal) -> tuple[Problem, ...]:
    """Return a problem for each entry that cannot be read, the first few of them."""
    found = []
    for row in journal.rows():
        try:
            row.entry()
        except BareshellError as error:
            found.append(Problem(f"entry {row.seq}", error.message, error.remedy))
    rest = len(found) - _SHOWN
    more = (Problem("journal", f"{rest} more entries cannot be read", "restore a backup"),)
    return tuple(found[:_SHOWN]) + (more if rest > 0 else ())
