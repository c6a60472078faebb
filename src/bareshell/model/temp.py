"""Temporary fixes, gates and departures from standard."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

ROAD_GATE = "road"
"""The gate before the public road: the finish that the plan works towards."""


@dataclass(frozen=True, slots=True)
class Temp:
    """A temporary fix: what it is, what replaces it, the gate before which it must be gone.

    Parameters
    ----------
    id, title : str
        Short name and what a person calls it.
    replaced_by : str
        What takes its place, in words.
    gate : str
        The gate before which it must be gone.
    raised_by, cleared_by : str or None
        The job whose finishing raises it, and the one whose finishing clears it.
    need : str or None
        The need on the parts desk that replaces it.
    """

    id: str
    title: str
    replaced_by: str = ""
    gate: str = ROAD_GATE
    raised_by: str | None = None
    cleared_by: str | None = None
    need: str | None = None


@dataclass(frozen=True, slots=True)
class TempEvent:
    """A temp was raised (True) or cleared (False) by hand."""

    at: datetime
    seq: int
    raised: bool
    words: str = ""

    def __lt__(self, other: TempEvent) -> bool:
        """Earlier in time; at the same moment, earlier in the journal."""
        return (self.at, self.seq) < (other.at, other.seq)


@dataclass(frozen=True, slots=True)
class TempRecord:
    """A temp with what was done to it by hand (its jobs raise and clear it too)."""

    temp: Temp
    events: tuple[TempEvent, ...] = ()

    def with_event(self, event: TempEvent) -> TempRecord:
        """Return the record with one more event, put where it happened in time."""
        return replace(self, events=tuple(sorted((*self.events, event))))


@dataclass(frozen=True, slots=True)
class Gate:
    """A named point nobody passes until its proofs are good and its temps are gone.

    Parameters
    ----------
    id, title : str
        Short name and what a person calls it.
    after : tuple of str
        Gates that come before it; together they form a partial order.
    needs_jobs : tuple of str
        Jobs that must be done.
    blocks : tuple of str
        The jobs that may not start before it is passed; no others are held up.
    sentence : str
        What passing it means.
    """

    id: str
    title: str
    after: tuple[str, ...] = ()
    needs_jobs: tuple[str, ...] = ()
    blocks: tuple[str, ...] = ()
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class GatePassing:
    """Who let the car through a gate, and when."""

    at: datetime
    by: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class GateRecord:
    """A gate and, once it was passed, by whom and when."""

    gate: Gate
    passed: GatePassing | None = None


@dataclass(frozen=True, slots=True)
class Departure:
    """A way in which the car is no longer standard, and what it takes to go back."""

    id: str
    title: str
    system: str
    what_was: str
    what_is: str
    where_original: str = "not known"
    to_return: str = ""
    jobs: tuple[str, ...] = ()
