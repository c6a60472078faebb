"""The road ahead as data: weeks, sessions, what arrives, and where the forecast lands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bareshell.draw.days import full_day


@dataclass(frozen=True, slots=True)
class JobSlice:
    """The part of one job that falls into a session.

    Parameters
    ----------
    name : str
        A short name, as it would be said across the garage.
    system : str
        The system of the trade; decides the hatch.
    hours : float
        How much of the session it takes. [h]
    """

    name: str
    system: str
    hours: float


@dataclass(frozen=True, slots=True)
class StanceSlice:
    """How the car stands through a stretch of a session."""

    support: str
    hours: float


@dataclass(frozen=True, slots=True)
class SessionBox:
    """One session: a box as wide as its hours.

    Parameters
    ----------
    starts : datetime
        Local time at which it begins.
    hours : float
        How long it lasts. [h]
    jobs : tuple of JobSlice
        What is done, in order; what they leave over stays blank.
    stances : tuple of StanceSlice
        How the car stands, in order.
    people : int
        Who is there.
    tag : str
        A word above the box, such as ``done``.
    now : bool
        True for tonight's session.
    """

    starts: datetime
    hours: float
    jobs: tuple[JobSlice, ...] = ()
    stances: tuple[StanceSlice, ...] = ()
    people: int = 1
    tag: str = ""
    now: bool = False

    def __post_init__(self) -> None:
        """A box has a width."""
        if not self.hours > 0:
            raise ValueError(f"A session lasts longer than no time at all, not {self.hours} h.")


@dataclass(frozen=True, slots=True)
class Pin:
    """A part that is due.

    Parameters
    ----------
    part : str
        What comes.
    due : date
        When it is likely here.
    latest : date, optional
        When nine in ten would be here.
    """

    part: str
    due: date
    latest: date | None = None


@dataclass(frozen=True, slots=True)
class GateMark:
    """A gate and the day the plan passes it."""

    name: str
    day: date


@dataclass(frozen=True, slots=True)
class RoadWeek:
    """One row: a week from its Monday."""

    monday: date
    sessions: tuple[SessionBox, ...] = ()
    pins: tuple[Pin, ...] = ()
    gates: tuple[GateMark, ...] = ()
    notes: tuple[str, ...] = ()
    away: str = ""

    def __post_init__(self) -> None:
        """A row holds its own sessions only, and begins on a Monday."""
        if self.monday.weekday() != 0:
            raise ValueError(f"A week begins on a Monday; {self.monday} is none.")
        last = self.monday + timedelta(days=6)
        for session in self.sessions:
            if not self.monday <= session.starts.date() <= last:
                raise ValueError(f"{session.starts} does not fall in the week of {self.monday}.")

    @property
    def stances(self) -> tuple[str, ...]:
        """How the car stands through the week, each change once."""
        words: list[str] = []
        for session in sorted(self.sessions, key=lambda box: box.starts):
            for part in session.stances:
                if not words or words[-1] != part.support:
                    words.append(part.support)
        return tuple(words)


@dataclass(frozen=True, slots=True)
class Landing:
    """A share of the forecast and the week in which it is on the road.

    Parameters
    ----------
    word : str
        ``P50``, ``P80`` or ``P95``.
    monday : date
        The Monday of that week.
    meaning : str
        The share in words, such as ``half of futures by here``.
    """

    word: str
    monday: date
    meaning: str = ""


@dataclass(frozen=True, slots=True)
class RoadAhead:
    """All the weeks to the road, with the forecast's landings in order."""

    weeks: tuple[RoadWeek, ...]
    landings: tuple[Landing, ...] = ()

    def __post_init__(self) -> None:
        """A picture needs at least one row."""
        if not self.weeks:
            raise ValueError("A road ahead needs at least one week to draw.")

    @property
    def longest_session(self) -> float:
        """The hours of the longest session, to which lanes are drawn. [h]."""
        return max((box.hours for week in self.weeks for box in week.sessions), default=1.0)

    @property
    def systems(self) -> frozenset[str]:
        """Every system that is drawn, for the legend."""
        return frozenset(
            job.system for week in self.weeks for box in week.sessions for job in box.jobs
        )

    @property
    def supports(self) -> tuple[str, ...]:
        """Every way the car stands, in the order it comes to stand so."""
        return tuple(dict.fromkeys(support for week in self.weeks for support in week.stances))

    @property
    def sentence(self) -> str:
        """What the picture shows, for those who cannot see it."""
        count = len(self.weeks)
        sessions = sum(len(week.sessions) for week in self.weeks)
        hours = sum(box.hours for week in self.weeks for box in week.sessions)
        words = (
            f"{count} {'week' if count == 1 else 'weeks'} from {full_day(self.weeks[0].monday)}: "
            f"{sessions} {'session' if sessions == 1 else 'sessions'}, {hours:g} hours."
        )
        if self.landings:
            landings = ", ".join(
                f"{landing.word} the week of {full_day(landing.monday)}"
                for landing in self.landings
            )
            words += f" On the road: {landings}."
        return words
