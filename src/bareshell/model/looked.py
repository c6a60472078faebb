"""What somebody looked at on the car, and how far it has run."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Seen(StrEnum):
    """What was seen of an item of the rehearsal."""

    RIGHT = "looked right"
    WRONG = "to be put right"
    ABSENT = "not on this car"


@dataclass(frozen=True, slots=True)
class Look:
    """One item of the rehearsal as somebody last saw it.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> Look("horn", datetime(2026, 3, 1, tzinfo=UTC), Seen.RIGHT, "owner").seen.value
    'looked right'
    """

    item: str
    at: datetime
    seen: Seen
    by: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class MilesReading:
    """How far the car had run since it went back on the road, in miles."""

    at: datetime
    miles: float
    words: str = ""
