"""One entry of the demo's record, and the book that collects them in order."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from bareshell.model.changes import Change

OWNER = "owner"
HELPER = "helper"


@dataclass(frozen=True, slots=True)
class Told:
    """One entry as it was told: what happened when, and when it was written down.

    Parameters
    ----------
    id : str
        The same for the same entry each time the demo is made for the same day.
    happened_at, recorded_at : datetime
        When it happened and when it was written down, in UTC.
    change : Change
        The fact.
    author : str
        Who wrote it.
    knew : str or None
        The last entry about the same thing that the writer had seen, where it was not the
        latest: such an entry waits to be settled.
    """

    id: str
    happened_at: datetime
    recorded_at: datetime
    change: Change
    author: str = OWNER
    knew: str | None = None


@dataclass(slots=True)
class Book:
    """Collects entries in any order and hands them out as they were written down."""

    _told: list[Told] = field(default_factory=list)

    def tell(
        self,
        happened_at: datetime,
        change: Change,
        *,
        recorded_at: datetime | None = None,
        author: str = OWNER,
        knew: str | None = None,
    ) -> str:
        """Write one entry and return its id; written down when it happened, if nothing is said."""
        written = recorded_at or happened_at
        if written < happened_at:
            raise ValueError(f"{change.subject} would be written down before it happened")
        key = f"demo-{len(self._told) + 1:05d}"
        self._told.append(Told(key, happened_at, written, change, author, knew))
        return key

    def entries(self) -> tuple[Told, ...]:
        """Return the entries in the order in which they were written down."""
        return tuple(sorted(self._told, key=lambda told: told.recorded_at))
