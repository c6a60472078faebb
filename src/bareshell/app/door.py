"""The one door to a build: everything that is read or written goes through it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import Self

from bareshell.app.backup import DailyBackup
from bareshell.app.intake import Said, Taken, check_is_the_same, checked_id, take_in
from bareshell.app.taking_back import check_can_be_taken_back
from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model import Build, Entry, decide, fold
from bareshell.model.changes import Change, Settled, Withdrawn
from bareshell.model.fold import withdrawn_ids
from bareshell.model.moment import happened_by, known_at
from bareshell.store.faults import in_words
from bareshell.store.journal import JOURNAL_FILE, Journal, Row, Writing, row_of
from bareshell.store.present import Present, entries_of
from bareshell.store.snapshots import Snapshots
from bareshell.store.wire import as_kept

CACHE_FOLDER = ".cache"
"""In the build's folder: what can be thrown away at any time."""

Clock = Callable[[], datetime]
NewId = Callable[[], str]


def _clock() -> datetime:
    return datetime.now(UTC)


def _new_id() -> str:
    return os.urandom(16).hex()


@dataclass(frozen=True, slots=True)
class Receipt:
    """What came of writing down.

    Parameters
    ----------
    entries : tuple of Entry
        The entries that are new in the journal.
    repeated : tuple of str
        Ids that had landed before; nothing was written for them.
    to_settle : tuple of str
        Those of the new ones that met a change made meanwhile: kept, not folded.
    """

    entries: tuple[Entry, ...]
    repeated: tuple[str, ...] = ()
    to_settle: tuple[str, ...] = ()


class Door:
    """A build that is open. Any thread may use it.

    Parameters
    ----------
    folder : Path
        The build's folder: ``journal.db``, ``photos/``, ``backups/``.

    Examples
    --------
    >>> import tempfile
    >>> from bareshell.model.changes import JobSet
    >>> from bareshell.model.job import Job
    >>> with tempfile.TemporaryDirectory() as folder, Door.open(folder, create=True) as door:
    ...     receipt = door.record(JobSet(Job("bleed", "Bleed the brakes", "brakes")))
    ...     door.build().jobs["bleed"].job.title, door.latest()
    ('Bleed the brakes', 1)
    """

    def __init__(
        self, folder: Path, journal: Journal, clock: Clock, new_id: NewId, author: str
    ) -> None:
        self.folder = folder
        self.author = author
        self._journal = journal
        self._clock = clock
        self._new_id = new_id
        self._present = Present(journal, Snapshots(folder / CACHE_FOLDER))
        self._daily: DailyBackup | None = None

    @classmethod
    def open(
        cls,
        folder: Path | str,
        *,
        clock: Clock | None = None,
        new_id: NewId | None = None,
        author: str = "owner",
        create: bool = False,
        back_up: bool = True,
    ) -> Door:
        """Open a build.

        Parameters
        ----------
        folder : Path or str
            Its folder.
        clock, new_id : callable or None
            Where the time and new ids come from; None for this machine's own.
        author : str
            Who writes, unless an entry says otherwise.
        create : bool
            Whether to lay a new journal when there is none.
        back_up : bool
            Whether the first entry of a day makes a backup; a build that is being made up, with
            a clock that runs through months in a second, needs none.

        Raises
        ------
        NotFound
            When there is no build and ``create`` is false.
        Damaged
            When its journal cannot be read.
        """
        folder = Path(folder)
        if create:
            with in_words("the build's folder was not made"):
                for name in ("photos", "backups"):
                    (folder / name).mkdir(parents=True, exist_ok=True)
        journal = Journal.open(folder / JOURNAL_FILE, create=create)
        door = cls(folder, journal, clock or _clock, new_id or _new_id, author)
        door._daily = DailyBackup(folder, journal) if back_up else None
        return door

    def close(self) -> None:
        """Close the build."""
        self._present.close()
        self._journal.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    # --- reading -----------------------------------------------------------------------------

    def now(self) -> datetime:
        """Return the time, in UTC."""
        return self._clock().astimezone(UTC)

    def latest(self) -> int:
        """Return the number of the journal's last entry; cheap."""
        return self._journal.tip().seq

    def build(self) -> Build:
        """Return the build as it stands, whoever wrote to it last."""
        return self._present.build()

    def entries(
        self,
        *,
        after: int = 0,
        before: int | None = None,
        limit: int | None = None,
        subject: str | None = None,
        newest_first: bool = False,
    ) -> tuple[Entry, ...]:
        """Return entries of the journal, also those taken back or waiting to be settled.

        Parameters
        ----------
        after, before : int
            Numbers above the one and below the other.
        limit : int or None
            At most so many.
        subject : str or None
            Only those about this subject, such as ``job:rear-pipe``.
        newest_first : bool
            The order, and the end that ``limit`` counts from.
        """
        return entries_of(
            self._journal.rows(
                after=after, before=before, limit=limit, subject=subject, newest_first=newest_first
            )
        )

    def entry(self, entry_id: str) -> Entry | None:
        """Return the entry with an id, or None when there is none."""
        row = self._journal.by_id([entry_id]).get(entry_id)
        return None if row is None else row.entry()

    def rows(self) -> tuple[Row, ...]:
        """Return every entry exactly as the journal holds it, for carrying it elsewhere."""
        return self._journal.rows()

    def named(self, ids: Iterable[str]) -> tuple[Entry, ...]:
        """Return those of some ids that the journal holds, in the order of their numbers."""
        rows = sorted(self._journal.by_id(ids).values(), key=lambda row: row.seq)
        return entries_of(rows)

    def as_of(self, moment: datetime, *, known: bool = False) -> Build:
        """Return the build as it stood at a moment.

        Parameters
        ----------
        moment : datetime
            With a time zone.
        known : bool
            False: the car as it stood then, with what was written down or corrected since.
            True: the record as it was then, with what nobody had written down yet left out.
        """
        if moment.tzinfo is None:
            raise BadInput("moment", "it has no time zone", "give one")
        entries = self.entries()
        return fold(known_at(entries, moment) if known else happened_by(entries, moment))

    # --- writing -----------------------------------------------------------------------------

    def record(
        self,
        changes: Change | Sequence[Change],
        *,
        happened_at: datetime | None = None,
        ids: Sequence[str] | None = None,
        base_versions: Mapping[str, int] | None = None,
        author: str | None = None,
    ) -> Receipt:
        """Write changes down: all of them, or none when one is refused.

        Parameters
        ----------
        changes : Change or sequence of Change
            In the order they are to enter; each is decided on what the ones before it made.
        happened_at : datetime or None
            When it happened, with a time zone; None for now.
        ids : sequence of str or None
            Ids made by the writer, one for each change. Sent twice, they land once.
        base_versions : mapping of str to int, optional
            For subjects, the version the writer knew (``Build.versions``; 0 for none).
        author : str or None
            Who says so; None for the door's own author.

        Raises
        ------
        BareshellError
            When one is refused, the disk is full, or another process writes: nothing entered.
        """
        listed = (changes,) if isinstance(changes, Change) else tuple(changes)
        dated = [(happened_at, change) for change in listed]
        return self._record(dated, ids, base_versions, author)

    def record_dated(
        self,
        dated: Sequence[tuple[datetime, Change]],
        *,
        ids: Sequence[str] | None = None,
        base_versions: Mapping[str, int] | None = None,
        author: str | None = None,
    ) -> Receipt:
        """Write changes down, each with the time at which it happened; see ``record``."""
        return self._record(dated, ids, base_versions, author)

    def _record(
        self,
        dated: Sequence[tuple[datetime | None, Change]],
        ids: Sequence[str] | None,
        base_versions: Mapping[str, int] | None,
        author: str | None,
    ) -> Receipt:
        said = self._said(dated, ids)
        with self._journal.writing() as writing:
            held = writing.by_id(ids) if ids is not None else {}
            taken = take_in(
                self._present.build(writing),
                said,
                known={key: row.entry() for key, row in held.items()},
                base_versions=base_versions or {},
                author=author or self.author,
                now=self.now(),
            )
            writing.append(taken.rows)
            writing.on_commit(lambda: self._present.landed(taken.entries, taken.build))
        if self._daily is not None and taken.entries:
            self._daily.after_entry(self.now())
        return Receipt(tuple(taken.entries), tuple(taken.repeated), tuple(taken.to_settle))

    def _said(
        self, dated: Sequence[tuple[datetime | None, Change]], ids: Sequence[str] | None
    ) -> list[Said]:
        if ids is not None and len(ids) != len(dated):
            raise BadInput("ids", f"{len(ids)} came for {len(dated)} changes", "give one for each")
        keys = ids if ids is not None else [self._new_id() for _ in dated]
        return [Said(key, change, at) for key, (at, change) in zip(keys, dated, strict=True)]

    def try_out(self, changes: Change | Sequence[Change]) -> Build:
        """Return the build as changes would leave it; nothing is written down.

        Raises
        ------
        BareshellError
            When one is refused.
        """
        listed = (changes,) if isinstance(changes, Change) else tuple(changes)
        said = [Said(f"tried-out-{number}", change) for number, change in enumerate(listed)]
        taken: Taken = take_in(
            self.build(), said, known={}, base_versions={}, author=self.author, now=self.now()
        )
        return taken.build

    def take_back(
        self, entry_id: str, words: str = "", *, as_id: str | None = None, author: str | None = None
    ) -> Receipt:
        """Take an entry back: the build is made again without it.

        A withdrawal is an entry too, and can be taken back in its turn.

        Parameters
        ----------
        entry_id, words : str
            Which entry, and why.
        as_id : str or None
            An id for the withdrawal, made by the writer; sent twice, it lands once.
        author : str or None
            Who says so; None for the door's own author.

        Raises
        ------
        NotFound
            When there is no such entry.
        Refused
            When it is taken back already, or a later entry could not stand without it; that
            one is named.
        """
        withdrawal = Withdrawn(entry_id, words)
        with self._journal.writing() as writing:
            asked = [key for key in (entry_id, as_id) if key is not None]
            rows = writing.by_id(asked)
            if held := _held(rows, as_id, withdrawal):
                return Receipt((), (held,))
            base, entries = self._present.since(writing, _named(rows, entry_id))
            if entry_id in withdrawn_ids(entries):
                raise Refused("taken back", "this entry is taken back already", "leave it so")
            receipt = self._append(writing, withdrawal, as_id, author)
            gone = withdrawn_ids((*entries, *receipt.entries))
            check_can_be_taken_back(base, entries, gone)
        return receipt

    def settle(
        self,
        entry_id: str,
        keep: bool,  # noqa: FBT001 - keep or set aside is the whole question
        words: str = "",
        *,
        as_id: str | None = None,
        author: str | None = None,
    ) -> Receipt:
        """Keep an entry that met a change made meanwhile, or set it aside.

        Parameters
        ----------
        entry_id, words : str
            Which entry, and why.
        keep : bool
            True to fold it in now, False to set it aside; it stays in the record either way.
        as_id, author : str or None
            See ``take_back``.

        Raises
        ------
        NotFound
            When there is no such entry.
        Refused
            When it does not wait to be settled.
        BareshellError
            When it is to be kept and cannot be, as the build now stands.
        """
        settling = Settled(entry_id, keep, words)
        with self._journal.writing() as writing:
            asked = [key for key in (entry_id, as_id) if key is not None]
            rows = writing.by_id(asked)
            if held := _held(rows, as_id, settling):
                return Receipt((), (held,))
            build = self._present.build(writing)
            entry = _named(rows, entry_id).entry()
            if entry_id not in build.to_settle:
                raise Refused(
                    "nothing to settle", "this entry does not wait to be settled", "leave it so"
                )
            if keep:
                decide(build, entry.change)
            return self._append(writing, settling, as_id, author)

    def _append(
        self, writing: Writing, change: Change, as_id: str | None, author: str | None
    ) -> Receipt:
        now = self.now()
        key = checked_id(as_id or self._new_id())
        body, kept = as_kept(change)
        entry = Entry(writing.tip().seq + 1, key, now, now, author or self.author, kept)
        writing.append([row_of(entry, body)])
        return Receipt((entry,))


def _held(rows: Mapping[str, Row], as_id: str | None, change: Change) -> str | None:
    """Return the id of the entry that was sent, when it was sent before."""
    if as_id is None or as_id not in rows:
        return None
    check_is_the_same(Said(as_id, change), rows[as_id].entry())
    return as_id


def _named(rows: Mapping[str, Row], entry_id: str) -> Row:
    if entry_id not in rows:
        raise NotFound(f"there is no entry '{entry_id}' in this build", "look for it in the record")
    return rows[entry_id]
