"""Playing entries into a build: what is withdrawn stays out, what is unsettled waits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from bareshell.model.build import Build
from bareshell.model.changes import Settled, Unread, Withdrawn
from bareshell.model.entry import Entry, Standing
from bareshell.model.fold.draft import Draft
from bareshell.model.fold.handlers import HANDLERS

FOLD_VERSION = 5


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

    What a newer bareshell wrote (``Unread``) is passed over: it is listed, not folded.

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
    draft = Draft.of(start) if start is not None else Draft()
    for entry, version in plays(listed, draft, withdrawn_ids(listed)):
        play(draft, entry, version)
    return draft.freeze()


def plays(
    entries: Sequence[Entry], draft: Draft, gone: frozenset[str]
) -> Iterator[tuple[Entry, int]]:
    """Walk through entries and hand out, one by one, those that are to be played into a draft.

    Parameters
    ----------
    entries : sequence of Entry
        In the order of their numbers.
    draft : Draft
        Kept up to date in everything but what playing an entry does.
    gone : frozenset of str
        The ids of those that are taken back (``withdrawn_ids``).

    Yields
    ------
    entry, version : Entry, int
        What to play next, and the number that its subject has from then on.
    """
    by_id = {e.id: e for e in entries}
    for entry in entries:
        draft.seq = entry.seq
        change = entry.change
        if isinstance(change, Withdrawn):
            # Taking an entry back touches its subject too: who knew it as it was before
            # must hear of it.
            draft.versions[_touched(entry, by_id)] = entry.seq
        elif entry.id in gone or isinstance(change, Unread):
            continue
        elif entry.standing is Standing.TO_SETTLE:
            draft.to_settle.add(entry.id)
        elif isinstance(change, Settled):
            draft.to_settle.discard(change.entry_id)
            kept = by_id.get(change.entry_id)
            if change.keep and kept is not None and kept.id not in gone:
                yield kept, entry.seq
        else:
            yield entry, entry.seq


def _touched(entry: Entry, by_id: dict[str, Entry]) -> str:
    """Follow a withdrawal, of a withdrawal perhaps, to the subject of what it speaks of."""
    while isinstance(entry.change, Withdrawn | Settled):
        spoken_of = by_id.get(entry.change.entry_id)
        if spoken_of is None or spoken_of.seq >= entry.seq:
            break  # no journal of ours says such a thing, but a file from elsewhere might
        entry = spoken_of
    return entry.change.subject


def play(draft: Draft, entry: Entry, version: int) -> None:
    """Fold one entry into a draft; ``version`` is the number that its subject has from now."""
    HANDLERS[type(entry.change)](draft, entry.change, entry)
    draft.versions[entry.change.subject] = version
