"""The car itself and the person's way of reading it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bareshell.model.part import Money


class Layout(StrEnum):
    """Which wheels are driven."""

    REAR = "rear-wheel drive"
    FRONT = "front-wheel drive"


OPTIONAL_SYSTEMS = (
    "brakes",
    "electrics",
    "suspension",
    "steering",
    "wheels",
    "engine",
    "gearbox and clutch",
    "fuel",
    "cooling",
    "exhaust",
    "body fittings",
    "glass",
    "interior",
    "underbody",
)
"""Systems that a car, or the work on it, may be without (an air-cooled car has no cooling)."""


@dataclass(frozen=True, slots=True)
class Car:
    """What is known of the car.

    Parameters
    ----------
    name : str
        What the owner calls it.
    layout : Layout
        Which wheels are driven.
    systems : frozenset of str
        The systems that are part of this build.
    options : frozenset of str
        Things only some cars have: ``forced induction``.
    invented : bool
        True for the demo build; every page says so.
    zone : str
        The time zone that the owner's clock shows (IANA name).
    currency : str
        ISO 4217 letters.
    units : str
        ``metric`` or ``imperial``: what is shown first.
    words : str
        Anything else: year, colour, history.
    budget : Money or None
        What it may cost from here on, all in; None when nobody set one.
    """

    name: str
    layout: Layout = Layout.REAR
    systems: frozenset[str] = frozenset(OPTIONAL_SYSTEMS)
    options: frozenset[str] = frozenset()
    invented: bool = False
    zone: str = "Europe/London"
    currency: str = "GBP"
    units: str = "metric"
    words: str = ""
    budget: Money | None = None

    def __post_init__(self) -> None:
        """A car has a name and a known system of units."""
        if not self.name.strip():
            raise ValueError("the car needs a name, any name")
        if self.units not in ("metric", "imperial"):
            raise ValueError(f"units is {self.units!r}; it must be metric or imperial")
