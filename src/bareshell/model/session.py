"""Garage time: when there are sessions, who is there, and how cold it is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum

TEMPERATE_MONTHLY_C = (6.0, 6.0, 8.0, 11.0, 14.0, 17.0, 19.0, 19.0, 16.0, 12.0, 9.0, 7.0)
"""Inside an unheated garage in a temperate northern place, January first: assumed, +-5.
Common practice, no source; the owner's own readings replace it. [degC]"""


@dataclass(frozen=True, slots=True)
class SessionPattern:
    """A repeating stretch of garage time.

    Parameters
    ----------
    id, title : str
        Short name and what a person calls it ("Wednesday evening").
    rule : str
        How it repeats, as an RFC 5545 recurrence rule: ``FREQ=WEEKLY;BYDAY=MO,WE``.
    starts : time
        Local clock time of the start.
    minutes : int
        How long it lasts, set-up and clear-up included. [min]
    people : int
        1 for the owner alone, 2 with a helper.
    first_day : date
        The day from which the rule counts.
    """

    id: str
    title: str
    rule: str
    starts: time
    minutes: int
    people: int = 1
    first_day: date = date(2020, 1, 6)

    def __post_init__(self) -> None:
        """Refuse a session that ends before it starts."""
        if self.minutes <= 0:
            raise ValueError(
                f"session {self.title or self.id}: it ends before it starts "
                f"({self.minutes} minutes); give more than 0 minutes"
            )
        if self.people not in (1, 2):
            raise ValueError(f"session {self.title or self.id}: people is 1 or 2")


@dataclass(frozen=True, slots=True)
class SessionException:
    """A day that is not as the pattern says: lost, longer, with another number of people.

    ``minutes`` 0 means no session that day. With ``starts`` it can add one.
    """

    day: date
    minutes: int = 0
    people: int | None = None
    starts: time | None = None
    words: str = ""

    def __post_init__(self) -> None:
        """Refuse negative minutes."""
        if self.minutes < 0:
            raise ValueError(f"{self.day}: a session cannot last {self.minutes} minutes")


@dataclass(frozen=True, slots=True)
class HeldSession:
    """A stretch of garage time that took place."""

    id: str
    started_at: datetime
    ended_at: datetime
    people: int = 1
    temperature_c: float | None = None
    words: str = ""

    def __post_init__(self) -> None:
        """Refuse a session that ends before it starts."""
        if self.ended_at < self.started_at:
            raise ValueError(
                f"session: it ends ({self.ended_at:%d %b %H:%M}) before it starts "
                f"({self.started_at:%d %b %H:%M}); swap the two or correct one"
            )


class HelperWork(StrEnum):
    """What a helper may do alone, beside the owner."""

    NOTHING = "lends a hand only"
    MARKED = "jobs marked for a helper"
    ANY = "any one-person job"


@dataclass(frozen=True, slots=True)
class Garage:
    """The bay: how cold it is and how long each session loses at both ends.

    ``heated_to_c`` is what the heating reaches; None for an unheated bay, where
    ``monthly_c`` (January first) is expected; ``heated_nights`` says that it stays on until the
    next session, as a cure wants it. ``helper`` says what whoever helps may do alone,
    save what is dangerous alone.
    """

    heated_to_c: float | None = None
    monthly_c: tuple[float, ...] = TEMPERATE_MONTHLY_C
    set_up_minutes: int = 15
    clear_up_minutes: int = 15
    helper: HelperWork = HelperWork.NOTHING
    heated_nights: bool = False

    def __post_init__(self) -> None:
        """Twelve months, and no negative minutes."""
        if len(self.monthly_c) != 12:
            raise ValueError(f"monthly temperatures: {len(self.monthly_c)} given, 12 needed")
        if self.set_up_minutes < 0 or self.clear_up_minutes < 0:
            raise ValueError("set-up and clear-up minutes cannot be negative")
