"""Garage time: the sessions there are, written out for a while and then repeating for ever.

A plan must never run out of calendar (a forecast that drops the samples which did would be too
early), so the last year that was written out is repeated without end: same weekdays, same season.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from bareshell.errors import BadInput

__all__ = ["BESIDE", "WEEK_MINUTES", "Beside", "SessionSlot", "SessionSource"]

WEEK_MINUTES = 7 * 24 * 60
"""Minutes in a week."""

Beside = Literal["", "marked", "any"]

BESIDE: tuple[Beside, ...] = ("", "marked", "any")
"""What a helper may do alone, the least first."""


@dataclass(frozen=True, slots=True)
class SessionSlot:
    """One stretch of garage time.

    Parameters
    ----------
    start_minute : int
        When it begins. [minutes from the origin]
    minutes : int
        How long it lasts, set-up and clear-up included. [min]
    people : int
        1 for the owner alone, 2 with the helper.
    beside : {"", "marked", "any"}
        What the helper may do alone beside the owner: nothing, so that they only lend a hand to
        two-person work; the jobs marked for it (`PlanJob.helper_alone`); or any one-person job
        save those that are not to be done alone. Without a helper it says nothing.
    temperature_c : float, optional
        Expected temperature while working; None when nobody knows, which blocks nothing. [degC]
    lowest_until_next_c : float, optional
        Lowest temperature expected between this session and the next one, when it differs: a
        garage that is heated for the evening and left to the frost. [degC]
    kind : str
        The owner's word for it: ``"weekday evening"``.
    certain : bool
        True for a session that takes place as written: the forecast never loses it, nor its
        helper. Tonight's own session is one.

    Examples
    --------
    >>> SessionSlot(start_minute=0, minutes=150).end_minute
    150
    """

    start_minute: int
    minutes: int
    people: int = 1
    temperature_c: float | None = None
    lowest_until_next_c: float | None = None
    kind: str = ""
    certain: bool = False
    beside: Beside = ""

    def __post_init__(self) -> None:
        if self.minutes <= 0:
            raise BadInput("session", f"lasts {self.minutes} minutes", "give it a length above 0")
        if self.people not in (1, 2):
            raise BadInput(
                "people in the session", f"is {self.people}", "write 1 (alone) or 2 (helper there)"
            )
        if self.beside not in BESIDE:
            raise BadInput(
                "what the helper may do alone",
                f"is '{self.beside}'",
                "write marked or any, or none",
            )
        if self.people == 1:
            # Without a helper it says nothing.
            object.__setattr__(self, "beside", "")

    @property
    def end_minute(self) -> int:
        """When it ends, in minutes from the origin."""
        return self.start_minute + self.minutes

    @property
    def coldest_c(self) -> float | None:
        """The lowest temperature in degC from its start to the next session's start."""
        known = [t for t in (self.temperature_c, self.lowest_until_next_c) if t is not None]
        return min(known) if known else None

    def moved(self, minutes: int) -> SessionSlot:
        """Make the same session some minutes later."""
        return replace(self, start_minute=self.start_minute + minutes)


@dataclass(frozen=True, slots=True)
class SessionSource:
    """Every session there will ever be.

    Parameters
    ----------
    slots : tuple of SessionSlot
        The sessions written out one by one, in order, none overlapping.
    template : tuple of SessionSlot
        What repeats afterwards; starts counted from `template_start_minute`. Empty when there
        are no sessions beyond `slots`.
    template_start_minute : int
        Where the first repetition begins; not before the last slot has ended. [minutes from the
        origin]
    template_minutes : int
        After how long the template repeats, a whole number of weeks. [min]

    Examples
    --------
    >>> tuesdays = SessionSource.repeating([SessionSlot(60, 150)])
    >>> [slot.start_minute for slot in tuesdays.first(3)]
    [60, 10140, 20220]
    """

    slots: tuple[SessionSlot, ...] = ()
    template: tuple[SessionSlot, ...] = ()
    template_start_minute: int = 0
    template_minutes: int = 52 * WEEK_MINUTES

    def __post_init__(self) -> None:
        _check_order(self.slots, "sessions")
        _check_order(self.template, "repeating sessions")
        if not self.template:
            return
        if self.template_minutes <= 0 or self.template_minutes % WEEK_MINUTES:
            raise BadInput(
                "repeat of the sessions",
                f"is every {self.template_minutes} minutes",
                "repeat after a whole number of weeks",
            )
        if self.template[0].start_minute < 0 or self.template[-1].end_minute > (
            self.template_minutes
        ):
            raise BadInput(
                "repeating sessions", "reach over the repeat", "keep them inside one repeat"
            )
        if self.slots and self.template_start_minute < self.slots[-1].end_minute:
            raise BadInput(
                "repeating sessions",
                "begin before the last written-out session has ended",
                "begin the repeat after it",
            )

    @classmethod
    def repeating(cls, slots: Iterable[SessionSlot], weeks: int = 0) -> SessionSource:
        """Write the given sessions out once and repeat the last of them without end.

        Parameters
        ----------
        slots : iterable of SessionSlot
            In order. Expand at least a year of the owner's pattern, so that the seasons repeat.
        weeks : int
            How many weeks make one repeat; 0 takes as many whole weeks as the sessions span,
            at most 52.

        Examples
        --------
        >>> source = SessionSource.repeating([SessionSlot(0, 120), SessionSlot(10080, 120)])
        >>> source.template_minutes // WEEK_MINUTES
        2
        """
        given = tuple(slots)
        if not given:
            return cls()
        first, last = given[0].start_minute, given[-1].end_minute
        spanned = -(-(last - first) // WEEK_MINUTES)
        period = (weeks or min(spanned, 52)) * WEEK_MINUTES
        begin = first + -(-(last - first) // WEEK_MINUTES) * WEEK_MINUTES
        template = tuple(
            slot.moved(period - begin) for slot in given if slot.start_minute >= begin - period
        )
        return cls(given, template, begin, period)

    @property
    def endless(self) -> bool:
        """Whether sessions go on for ever."""
        return bool(self.template)

    @property
    def kinds(self) -> tuple[SessionSlot, ...]:
        """Each session that is ever offered, the repeating ones once."""
        return self.slots + self.template

    def __iter__(self) -> Iterator[SessionSlot]:
        yield from self.slots
        begin = self.template_start_minute
        while self.template:
            for slot in self.template:
                yield slot.moved(begin)
            begin += self.template_minutes

    def first(self, count: int) -> tuple[SessionSlot, ...]:
        """Write out the first sessions; fewer when there are no more."""
        out: list[SessionSlot] = []
        for slot in self:
            if len(out) >= count:
                break
            out.append(slot)
        return tuple(out)

    def with_first(self, slot: SessionSlot) -> SessionSource:
        """Put a session at the front, in place of every written-out one it touches or follows.

        Examples
        --------
        >>> source = SessionSource.repeating([SessionSlot(60, 150)])
        >>> source.with_first(SessionSlot(75, 60, people=2)).first(2)[0].people
        2
        """
        written = self.first(len(self.slots) + len(self.template))
        later = tuple(old for old in written if old.start_minute >= slot.end_minute)
        begin = self.template_start_minute + (
            self.template_minutes if len(written) > len(self.slots) else 0
        )
        return SessionSource((slot, *later), self.template, begin, self.template_minutes)


def _check_order(slots: tuple[SessionSlot, ...], field: str) -> None:
    for earlier, later in pairwise(slots):
        if later.start_minute < earlier.end_minute:
            raise BadInput(
                field,
                f"the one at minute {later.start_minute} begins before the one before has ended",
                "give them in order, none overlapping",
            )
