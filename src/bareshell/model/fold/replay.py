"""Playing entries into a build: what is withdrawn stays out, what is unsettled waits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from bareshell.model.build import Build
from bareshell.model.changes import Settled, Withdrawn
from bareshell.model.entry import Entry, Standing
from bareshell.model.fold.draft import Draft
from bareshell.model.fold.handlers import HANDLERS

FOLD_VERSION = 1


def withdrawn_ids(entries: Sequence[Entry]) -> frozenset[str]:
    """Return the ids of the entries that are taken back.

    A withdrawal can itself be withdrawn; the latest word stands, so the entries are read
    from the last to the first.
    """
    gone: set[str] = set()
    for entry in reversed(entries):
        if isinstance(entry.change, Withdrawn) and entry.id not in gone:
            gone.add(entry.change.entry_id)
    return frozenset(gone)


def fold(entries: Iterable[Entry], start: Build | None = None) -> Build:
    """Play entries, in the order of their numbers, into a build.

    Parameters
    ----------
    entries : iterable of Entry
        With ``start``, those after it; a withdrawal or a settling in them may reach back
        beyond ``start``, so the caller plays from the beginning when there is one.
    start : Build or None
        The build to go on from; None for an empty one.

    Examples
    --------
    >>> fold([]).seq
    0
    """
    listed = tuple(entries)
    gone = withdrawn_ids(listed)
    waiting = {e.id: e for e in listed if e.standing is Standing.TO_SETTLE}
    draft = Draft.of(start) if start is not None else Draft()
    for entry in listed:
        draft.seq = entry.seq
        if entry.id in gone or isinstance(entry.change, Withdrawn):
            continue
        if entry.standing is Standing.TO_SETTLE:
            draft.to_settle.add(entry.id)
        elif isinstance(entry.change, Settled):
            _settle(draft, entry, entry.change, waiting)
        else:
            _play(draft, entry, entry.seq)
    return draft.freeze()


def _settle(draft: Draft, entry: Entry, change: Settled, waiting: dict[str, Entry]) -> None:
    draft.to_settle.discard(change.entry_id)
    kept = waiting.get(change.entry_id)
    if change.keep and kept is not None:
        _play(draft, kept, entry.seq)


def _play(draft: Draft, entry: Entry, version: int) -> None:
    HANDLERS[type(entry.change)](draft, entry.change, entry)
    draft.versions[entry.change.subject] = version
