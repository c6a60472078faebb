"""Putting the record right by the number a person reads beside an entry."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.errors import NotFound
from bareshell.model import Entry
from bareshell.model.changes import Withdrawn
from bareshell.whole.words import describe_entry

BY_ITSELF = "bareshell"
"""The author of what bareshell writes down unasked: a forecast after a session. It does not stand
between a person and what they wrote last."""


def take_back_number(door: Door, number: int | None, words: str = "") -> str:
    """Take back the entry with a number; None for the newest that a person wrote.

    Raises
    ------
    NotFound
        When there is no such entry.
    Refused
        When a later entry could not stand without it; it is named.
    """
    entry = _entry(door, number) if number is not None else _newest(door)
    said = describe_entry(entry, door.build())
    door.take_back(entry.id, words)
    return f"Taken back: {said}"


def settle_number(door: Door, number: int, words: str = "", *, keep: bool) -> str:
    """Keep the entry with a number, which met a change made meanwhile, or set it aside."""
    entry = _entry(door, number)
    door.settle(entry.id, keep, words)
    return f"{'Kept' if keep else 'Set aside'}: {describe_entry(entry, door.build())}"


def _entry(door: Door, number: int) -> Entry:
    found = door.entries(after=number - 1, limit=1)
    if not found or found[0].seq != number:
        raise NotFound(f"there is no entry {number}", "read the numbers on the record")
    return found[0]


def _newest(door: Door) -> Entry:
    gone: set[str] = set()
    for entry in door.entries(limit=200, newest_first=True):
        if isinstance(entry.change, Withdrawn):
            gone.add(entry.change.entry_id)
        elif entry.id not in gone and entry.author != BY_ITSELF:
            return entry
    raise NotFound("there is nothing to take back", "the record is empty")
