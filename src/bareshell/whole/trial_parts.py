"""Two roads side by side: the one there is, and the one of a changed copy."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class TrialLine:
    """One thing that is changed in the copy: as it is written, and in words."""

    code: str
    kind: str
    words: str


@dataclass(frozen=True, slots=True)
class RoadSide:
    """One of the two roads in a few figures.

    Parameters
    ----------
    p50, p80, p95 : date or None
        The Mondays of the weeks by which half, eight in ten and 19 in 20 futures are on the road.
    hours_left, helper_hours_left : float
        Likely work left, and how much of it takes two people. [h]
    sessions : int
        How many sessions have work in them.
    helper_sessions : int
        In how many of them a helper is counted on.
    support_changes : int
        How often the car is moved.
    futures : tuple of date
        Twenty evenly spread finishes.
    """

    p50: date | None
    p80: date | None
    p95: date | None
    hours_left: float
    helper_hours_left: float
    sessions: int
    helper_sessions: int
    support_changes: int
    futures: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True)
class TwoDays:
    """Something that is on another day in the copy; None for not at all."""

    id: str
    title: str
    before: date | None
    after: date | None


@dataclass(frozen=True, slots=True)
class TrialOverview:
    """What a changed copy of the build comes to, beside the build as it is.

    Parameters
    ----------
    steps : tuple of TrialLine
        What is changed.
    before, after : RoadSide
        The two roads.
    gain_days, standard_error_days : float or None
        How much nearer the road is on average in the copy, future by future, and how far that may
        be off; None when one of the two never reaches it. [days]
    word : str
        ``nearer``, ``farther``, ``no clear effect`` or ``not reached``.
    words : str
        The same in a sentence.
    ladder : tuple of TwoDays
        Every gate to come, with its day on either road.
    gates : tuple of TwoDays
        Those whose day is another.
    orders : tuple of TwoDays
        Last days to order, where they are others.
    moved : tuple of TwoDays
        Jobs that are begun on another day, those of the next weeks first.
    moved_in_all : int
        How many there are; only the first are listed.
    stranded : tuple of str
        What is never reached in the copy and is as things are.
    samples, seed : int
        Over how many futures, and which.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    steps: tuple[TrialLine, ...]
    before: RoadSide
    after: RoadSide
    gain_days: float | None = None
    standard_error_days: float | None = None
    word: str = "no clear effect"
    words: str = ""
    ladder: tuple[TwoDays, ...] = ()
    gates: tuple[TwoDays, ...] = ()
    orders: tuple[TwoDays, ...] = ()
    moved: tuple[TwoDays, ...] = ()
    moved_in_all: int = 0
    stranded: tuple[str, ...] = ()
    samples: int = 0
    seed: int = 0
