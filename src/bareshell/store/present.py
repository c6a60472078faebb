"""The build as it stands now, kept up to date entry by entry.

Most entries are folded onto the build that is there. A withdrawal, or a settling, reaches
back: then everything after the entry it speaks of is folded again. So a build some hundred
entries old is kept beside the latest one, and taking back what was just said stays quick.
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from typing import Protocol

from bareshell.model.build import Build
from bareshell.model.changes import Settled, Unread, Withdrawn
from bareshell.model.entry import Entry
from bareshell.model.fold import fold
from bareshell.store.journal import Journal, Row, Tip
from bareshell.store.packing import without_collecting
from bareshell.store.snapshots import Snapshots

TAIL_LENGTH = 400
"""How many entries are kept unfolded behind the latest build, at the least."""

SNAPSHOT_EVERY = 250
"""How many entries may come before a new snapshot is made while a build is open."""

SNAPSHOT_AT_CLOSE = 50
"""How many new entries are worth a snapshot when a build is closed."""

_REACHING_KINDS = (Withdrawn.KIND, Settled.KIND)


class Source(Protocol):
    """What entries are read from: the journal, or the hold that a writer has on it."""

    def tip(self) -> Tip:
        """Return the last entry's number and id."""

    def rows(self, *, after: int = 0) -> tuple[Row, ...]:
        """Return the entries with numbers above ``after``."""

    def id_at(self, seq: int) -> str:
        """Return the id of the entry with a number; empty when there is none."""


class Present:
    """The build of a journal as it stands now. Any thread may ask.

    Parameters
    ----------
    journal : Journal
        The record.
    snapshots : Snapshots
        Where to begin from.
    """

    def __init__(self, journal: Journal, snapshots: Snapshots) -> None:
        self._journal = journal
        self._snapshots = snapshots
        self._lock = threading.RLock()
        self._span = Span(Build(), Tip())
        self._kept_seq = 0

    def build(self, source: Source | None = None) -> Build:
        """Return the build on the journal's last entry.

        Parameters
        ----------
        source : Source or None
            A writer's hold, when one asks; None for the journal as everybody sees it.

        Raises
        ------
        Newer
            When a writer asks and a newer bareshell wrote meanwhile: what it said is not in
            this build, so nothing can be decided on it.
        """
        tip = (source or self._journal).tip()
        with self._lock:
            if tip != self._span.tip:
                self._bring_up(source or self._journal)
            if source is not None and self._journal.newer is not None:
                raise self._journal.newer
            return self._span.latest

    def since(self, source: Source, row: Row) -> tuple[Build, tuple[Entry, ...]]:
        """Return a build from before an entry and all entries after it, up to the last.

        None of these entries reaches behind that build, so they can be played again without
        some of them.

        Parameters
        ----------
        source : Source
            The journal, or a writer's hold on it.
        row : Row
            The entry that must be among those returned.
        """
        with self._lock:
            self.build(source)
            if row.seq > self._span.base_tip.seq:
                return self._span.base, tuple(self._span.tail)
            build, rows = self._start(source, row.seq)[1:]
        return build, entries_of(rows)

    def landed(self, entries: Sequence[Entry], build: Build) -> None:
        """Stand on entries just written and the build they make, unless a reader came first."""
        with self._lock:
            if entries and self._span.tip.seq == entries[0].seq - 1:
                self._span.add(entries, build)
                self._keep_snapshot(SNAPSHOT_EVERY)

    def close(self) -> None:
        """Leave a snapshot behind for the next start."""
        with self._lock:
            self._keep_snapshot(SNAPSHOT_AT_CLOSE)

    def _bring_up(self, source: Source) -> None:
        """Come up to the journal's tip, from where we stand if that is still part of it."""
        held = self._span.tip
        if held.seq == 0 or source.id_at(held.seq) != held.id:
            # Nothing yet, or another journal stands there now: a backup was restored.
            self._load(source)
            return
        rows = source.rows(after=held.seq)
        near = {entry.id for entry in self._span.tail} | {row.id for row in rows}
        if _reaches_beyond(rows, near):
            self._load(source)
            return
        self._take(rows)

    def _load(self, source: Source) -> None:
        """Make the build from the newest snapshot that no later entry reaches behind."""
        tip, build, rows = self._start(source)
        self._span = Span(build, tip)
        self._kept_seq = tip.seq
        self._take(rows)

    def _take(self, rows: Sequence[Row]) -> None:
        """Fold in the rows that come next."""
        entries = entries_of(rows)
        if any(isinstance(entry.change, Unread) for entry in entries):
            self._journal.found_newer()
        self._span.add(entries)
        self._keep_snapshot(SNAPSHOT_EVERY)

    def _start(
        self, source: Source, before: int | None = None
    ) -> tuple[Tip, Build, tuple[Row, ...]]:
        """Return where to begin, the build there, and the entries from there on."""
        for build, tip in self._snapshots.newest_first(source.id_at, before):
            rows = source.rows(after=tip.seq)
            if not _reaches_beyond(rows, {row.id for row in rows}):
                return tip, build, rows
        return Tip(), Build(), source.rows()

    def _keep_snapshot(self, entries: int) -> None:
        tip = self._span.tip
        if self._journal.newer is None and tip.seq - self._kept_seq >= entries:
            self._snapshots.write(self._span.latest, tip)
            self._kept_seq = tip.seq


class Span:
    """A build, the entries after it, and the build they make."""

    def __init__(self, base: Build, base_tip: Tip) -> None:
        self.base = base
        self.base_tip = base_tip
        self.tail: list[Entry] = []
        self.latest = base

    @property
    def tip(self) -> Tip:
        """The last entry that is folded in."""
        return Tip(self.tail[-1].seq, self.tail[-1].id) if self.tail else self.base_tip

    def add(self, new: Sequence[Entry], latest: Build | None = None) -> None:
        """Fold in entries that come straight after the tip and reach no further than the base.

        Parameters
        ----------
        new : sequence of Entry
            In the order of their numbers.
        latest : Build or None
            What they make of the build, when whoever decided them knows it already.
        """
        self.tail.extend(new)
        if latest is not None:
            self.latest = latest
        elif any(isinstance(entry.change, Withdrawn | Settled) for entry in new):
            self.latest = fold(self.tail, self.base)
        else:
            self.latest = fold(new, self.latest)
        self._shorten()

    def _shorten(self) -> None:
        """Move the base on once the tail is twice as long as it need be."""
        if len(self.tail) <= 2 * TAIL_LENGTH:
            return
        cut = _cut(self.tail, len(self.tail) - TAIL_LENGTH)
        if cut < TAIL_LENGTH:
            return
        self.base = fold(self.tail[:cut], self.base)
        self.base_tip = Tip(self.tail[cut - 1].seq, self.tail[cut - 1].id)
        self.tail = self.tail[cut:]


def _reaches_beyond(rows: Sequence[Row], near: set[str]) -> bool:
    """Whether an entry takes back or settles one that is not among ``near``."""
    reaching = (row.entry().change for row in rows if row.kind in _REACHING_KINDS)
    return any(
        change.entry_id not in near
        for change in reaching
        if isinstance(change, Withdrawn | Settled)
    )


def _cut(tail: Sequence[Entry], cut: int) -> int:
    """Return where to cut so that nothing after the cut speaks of anything before it."""
    places = {entry.id: place for place, entry in enumerate(tail)}
    lowest = cut
    for place in range(len(tail) - 1, -1, -1):
        if place < lowest:
            break
        change = tail[place].change
        if isinstance(change, Withdrawn | Settled):
            lowest = min(lowest, places.get(change.entry_id, lowest))
    return lowest


def entries_of(rows: Sequence[Row]) -> tuple[Entry, ...]:
    """Read rows into entries."""
    with without_collecting():
        return tuple(row.entry() for row in rows)
