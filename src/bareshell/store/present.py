"""The build as it stands now, kept up to date entry by entry.

Most entries are folded onto the build that is there. A withdrawal, or a settling, reaches
back: then everything after the entry it speaks of is folded again. So a build some hundred
entries old is kept beside the latest one, and taking back what was just said stays quick.
"""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.model.build import Build
from bareshell.model.changes import Settled, Withdrawn
from bareshell.model.entry import Entry
from bareshell.model.fold import fold
from bareshell.store.journal import Row, Tip

TAIL_LENGTH = 400
"""How many entries are kept unfolded behind the latest build, at the least."""


class Present:
    """The latest build, an older one, and the entries between the two."""

    def __init__(self, base: Build | None = None, base_id: str = "") -> None:
        self.base = base if base is not None else Build()
        self.base_tip = Tip(self.base.seq, base_id)
        self.tail: list[Entry] = []
        self.latest = self.base

    @property
    def tip(self) -> Tip:
        """The last entry that is folded in."""
        return Tip(self.tail[-1].seq, self.tail[-1].id) if self.tail else self.base_tip

    def reaches_before(self, new: Sequence[Entry]) -> bool:
        """Whether an entry among ``new`` speaks of one from before the base."""
        near = {entry.id for entry in self.tail}
        near.update(entry.id for entry in new)
        return any(key not in near for key in _spoken_of(new))

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
        elif _spoken_of(new):
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


def _spoken_of(entries: Sequence[Entry]) -> set[str]:
    """Return the ids of the entries that withdrawals and settlings among some speak of."""
    return {e.change.entry_id for e in entries if isinstance(e.change, Withdrawn | Settled)}


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
    return tuple(row.entry() for row in rows)
