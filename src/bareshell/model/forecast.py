"""Forecasts as they were issued, kept so that they can be held against what came."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class PlannedWork:
    """A job, and the day on which the plan had it finished or worked on."""

    day: date
    job: str


@dataclass(frozen=True, slots=True)
class IssuedGate:
    """By when a gate would be reached in half, eight in ten and 19 in 20 futures."""

    gate: str
    p50: date
    p80: date
    p95: date


@dataclass(frozen=True, slots=True)
class IssuedForecast:
    """When the road would be reached, as it was said on a day.

    Parameters
    ----------
    id : str
        The day on which it was said, as 2026-11-25; said again that day, it takes its place.
    made_at : datetime
        When.
    p50, p80, p95 : date
        By these days the road is reached in half, eight in ten and 19 in 20 futures.
    futures : tuple of date
        Twenty evenly spread finishes.
    samples, seed : int
        From how many futures, and which.
    hours_left : float
        Likely work that was left. [h]
    gates : tuple of IssuedGate
        The same for the gates on the way.
    planned : tuple of PlannedWork
        What the plan had in the next two weeks, in order.
    """

    id: str
    made_at: datetime
    p50: date
    p80: date
    p95: date
    futures: tuple[date, ...] = ()
    samples: int = 0
    seed: int = 0
    hours_left: float = 0.0
    gates: tuple[IssuedGate, ...] = ()
    planned: tuple[PlannedWork, ...] = ()
