"""The journal: one SQLite file to which entries are only ever added.

One connection writes, behind a lock; every thread reads on a connection of its own. A commit
is on the disk before anybody is told (``synchronous=FULL`` costs a fraction of a millisecond).
"""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import astuple, dataclass
from pathlib import Path

from bareshell import __version__
from bareshell.errors import Damaged, Newer, NotFound
from bareshell.model.changes import CHANGES, Unread
from bareshell.model.entry import Entry, Standing
from bareshell.store import schema, wire
from bareshell.store.faults import in_words
from bareshell.store.files import make_durable

JOURNAL_FILE = "journal.db"
BUSY_SECONDS = 5.0
"""How long a writer waits for another before it gives up. [s]"""

_SELECT = (
    "SELECT seq, id, happened_at, recorded_at, author, kind, version, subject, base_version, "
    "standing, body FROM entries "
)
_INSERT = "INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"


_STANDINGS = frozenset(Standing)


@dataclass(frozen=True, slots=True)
class Row:
    """One entry exactly as the journal holds it."""

    seq: int
    id: str
    happened_at: str
    recorded_at: str
    author: str
    kind: str
    version: int
    subject: str
    base_version: int | None
    standing: str
    body: str

    def entry(self) -> Entry:
        """Read the row into an entry.

        Raises
        ------
        Damaged
            When it cannot be read.
        """
        known = self.standing in _STANDINGS
        change = (
            wire.decode(self.kind, self.version, self.subject, self.body)
            if known
            else Unread(self.kind, self.version, self.subject, self.body)
        )
        return Entry(
            self.seq,
            self.id,
            wire.moment(self.happened_at),
            wire.moment(self.recorded_at),
            self.author,
            change,
            self.base_version,
            Standing(self.standing) if known else Standing.KEPT,
        )


def row_of(entry: Entry, body: str) -> Row:
    """Return the row of a new entry whose change was written as ``body``."""
    return Row(
        entry.seq,
        entry.id,
        wire.written(entry.happened_at),
        wire.written(entry.recorded_at),
        entry.author,
        entry.change.KIND,
        entry.change.VERSION,
        entry.change.subject,
        entry.base_version,
        entry.standing.value,
        body,
    )


@dataclass(frozen=True, slots=True)
class Tip:
    """The number and id of a journal's last entry; 0 and empty for an empty one."""

    seq: int = 0
    id: str = ""


class Journal:
    """An open journal. Use ``Journal.open``; close it when done.

    Attributes
    ----------
    path : Path
        The file.
    newer : Newer or None
        Why it may only be read, when a newer bareshell wrote to it.
    """

    def __init__(self, path: Path, busy_seconds: float) -> None:
        self.path = path
        self.newer: Newer | None = None
        self._busy_seconds = busy_seconds
        self._write_lock = threading.RLock()
        self._readers_lock = threading.Lock()
        self._readers: dict[int, sqlite3.Connection] = {}
        self._writer: sqlite3.Connection | None = None

    @classmethod
    def open(
        cls, path: Path, *, create: bool = False, busy_seconds: float = BUSY_SECONDS
    ) -> Journal:
        """Open a journal, laying its tables when it is new or older than this bareshell.

        Raises
        ------
        NotFound
            When there is none and ``create`` is false.
        Damaged
            When the file is no journal.
        """
        journal = cls(path, busy_seconds)
        with in_words("the build was not opened"):
            if not create and not path.exists():
                raise NotFound(
                    f"there is no build in '{path.parent}'",
                    "name the folder of a build, or begin a new one",
                )
            try:
                journal._open(create=create)
            except BaseException:
                journal.close()
                raise
        return journal

    def _open(self, *, create: bool) -> None:
        writer = self._connect()
        self._writer = writer
        is_new = schema.is_empty(writer)
        if is_new:
            if not create:
                raise Damaged(
                    f"the journal in '{self.path.parent}' is empty",
                    "restore the newest backup of it",
                )
        else:
            schema.check_is_ours(writer, self.path.name)
            schema.check_is_whole(writer, self.path)
            if schema.is_newer(writer):
                self.newer = self._newer(writer)
                return
        if writer.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
            writer.execute("PRAGMA journal_mode = WAL")
        schema.migrate(writer)
        if is_new:
            make_durable(self.path.parent)
        if self._holds_unread(writer):
            self.newer = self._newer(writer)

    def _connect(self) -> sqlite3.Connection:
        # Transactions are begun and ended by hand: the driver's own would begin them late,
        # after the reading that the decision rests on.
        connection = sqlite3.connect(
            self.path, timeout=self._busy_seconds, isolation_level=None, check_same_thread=False
        )
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA trusted_schema = OFF")
        return connection

    @staticmethod
    def _newer(connection: sqlite3.Connection) -> Newer:
        return Newer("this build", schema.written_by(connection), __version__)

    @staticmethod
    def _holds_unread(connection: sqlite3.Connection) -> bool:
        """Whether some entry is of a kind or version that this bareshell does not know."""
        found = connection.execute(
            "SELECT kind, standing, max(version) FROM entries GROUP BY kind, standing"
        )
        return any(
            kind not in CHANGES or version > CHANGES[kind].VERSION or standing not in _STANDINGS
            for kind, standing, version in found
        )

    def _stop_if_newer(self, connection: sqlite3.Connection) -> None:
        """Another process may have brought a newer layout while we had the journal open."""
        if schema.is_newer(connection):
            raise self.found_newer()

    def found_newer(self) -> Newer:
        """Note that a newer bareshell wrote here while we had it open; return why we stop."""
        if self.newer is None:
            with in_words("the build was not read"):
                self.newer = self._newer(self._reader())
        return self.newer

    def close(self) -> None:
        """Close every connection; the last one out folds the write-ahead log into the file."""
        with self._write_lock, self._readers_lock:
            for connection in self._readers.values():
                connection.close()
            self._readers.clear()
            if self._writer is not None:
                self._writer.close()
                self._writer = None

    # --- reading -----------------------------------------------------------------------------

    def _reader(self) -> sqlite3.Connection:
        """Return this thread's own connection; thread numbers are used again, so few stay."""
        key = threading.get_ident()
        with self._readers_lock:
            found = self._readers.get(key)
            if found is None:
                found = self._readers[key] = self._connect()
                found.execute("PRAGMA query_only = ON")
            return found

    def tip(self) -> Tip:
        """Return the last entry's number and id; cheap."""
        with in_words("the build was not read"):
            return _tip(self._reader())

    def rows(
        self,
        *,
        after: int = 0,
        before: int | None = None,
        limit: int | None = None,
        subject: str | None = None,
        newest_first: bool = False,
    ) -> tuple[Row, ...]:
        """Return entries as they are held, with numbers above ``after`` and below ``before``."""
        with in_words("the build was not read"):
            return _rows(self._reader(), after, before, limit, subject, newest_first=newest_first)

    def id_at(self, seq: int) -> str:
        """Return the id of the entry with a number; empty when there is none."""
        with in_words("the build was not read"):
            return _id_at(self._reader(), seq)

    def by_id(self, ids: Iterable[str]) -> dict[str, Row]:
        """Return those of some ids that the journal holds."""
        with in_words("the build was not read"):
            return _by_id(self._reader(), ids)

    # --- writing -----------------------------------------------------------------------------

    @contextmanager
    def writing(self) -> Iterator[Writing]:
        """Hold the journal alone; what is added enters as one, or not at all.

        Raises
        ------
        Newer
            When a newer bareshell wrote to it.
        Busy
            When another process writes and does not finish in time.
        NoRoom
            When the disk is full; nothing was kept.
        """
        if self.newer is not None:
            raise self.newer
        with self._write_lock:
            with in_words("nothing was written down"):
                connection = self._writer
                if connection is None:
                    raise sqlite3.ProgrammingError("it is closed")
                connection.execute("BEGIN IMMEDIATE")
                writing = Writing(connection)
                try:
                    self._stop_if_newer(connection)
                    yield writing
                    if writing.wrote:
                        schema.note_writer(connection)
                    connection.execute("COMMIT")
                except BaseException:
                    if connection.in_transaction:
                        connection.execute("ROLLBACK")
                    raise
            for act in writing.afterwards:
                act()


class Writing:
    """The journal while one writer holds it."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self.wrote = False
        self.afterwards: list[Callable[[], None]] = []

    def on_commit(self, act: Callable[[], None]) -> None:
        """Do something once what was added is on the disk, and only then."""
        self.afterwards.append(act)

    def tip(self) -> Tip:
        """Return the last entry's number and id."""
        return _tip(self._connection)

    def rows(self, *, after: int = 0) -> tuple[Row, ...]:
        """Return the entries with numbers above ``after``."""
        return _rows(self._connection, after, None, None, None, newest_first=False)

    def id_at(self, seq: int) -> str:
        """Return the id of the entry with a number; empty when there is none."""
        return _id_at(self._connection, seq)

    def by_id(self, ids: Iterable[str]) -> dict[str, Row]:
        """Return those of some ids that the journal holds."""
        return _by_id(self._connection, ids)

    def append(self, rows: Sequence[Row]) -> None:
        """Add entries, numbers and all."""
        self._connection.executemany(_INSERT, [astuple(row) for row in rows])
        self.wrote = self.wrote or bool(rows)


def _tip(connection: sqlite3.Connection) -> Tip:
    row = connection.execute("SELECT seq, id FROM entries ORDER BY seq DESC LIMIT 1").fetchone()
    return Tip(row[0], row[1]) if row else Tip()


def _id_at(connection: sqlite3.Connection, seq: int) -> str:
    row = connection.execute("SELECT id FROM entries WHERE seq = ?", (seq,)).fetchone()
    return str(row[0]) if row else ""


def _rows(
    connection: sqlite3.Connection,
    after: int,
    before: int | None,
    limit: int | None,
    subject: str | None,
    *,
    newest_first: bool,
) -> tuple[Row, ...]:
    where = "WHERE seq > ? "
    arguments: list[int | str] = [_within(after)]
    if before is not None:
        where += "AND seq < ? "
        arguments.append(_within(before))
    if subject is not None:
        where += "AND subject = ? "
        arguments.append(subject)
    order = "ORDER BY seq DESC LIMIT ?" if newest_first else "ORDER BY seq LIMIT ?"
    arguments.append(-1 if limit is None else limit)
    found = connection.execute(_SELECT + where + order, arguments)
    return tuple(Row(*row) for row in found)


def _within(number: int) -> int:
    """Bring a number that nobody counts to within what SQLite can compare."""
    return max(-(2**62), min(number, 2**62))


def _by_id(connection: sqlite3.Connection, ids: Iterable[str]) -> dict[str, Row]:
    found = {}
    for key in ids:
        row = connection.execute(_SELECT + "WHERE id = ?", (key,)).fetchone()
        if row is not None:
            found[key] = Row(*row)
    return found
