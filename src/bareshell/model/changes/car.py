"""Changes to the car, the garage and how the car stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.car import Car
from bareshell.model.changes.base import Change, register
from bareshell.model.position import Placement, Support, SupportMove
from bareshell.model.session import Garage


@register
@dataclass(frozen=True, slots=True)
class CarDescribed(Change):
    """The car's own data were written or corrected."""

    KIND: ClassVar[str] = "car-described"
    VERSION: ClassVar[int] = 2

    car: Car

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return "car:car"


@register
@dataclass(frozen=True, slots=True)
class GarageDescribed(Change):
    """The bay's warmth and the minutes lost at both ends of a session."""

    KIND: ClassVar[str] = "garage-described"
    VERSION: ClassVar[int] = 3

    garage: Garage

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return "garage:garage"


@register
@dataclass(frozen=True, slots=True)
class SupportSet(Change):
    """A way the car can stand was added or corrected."""

    KIND: ClassVar[str] = "support-set"

    support: Support

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"support:{self.support.id}"


@register
@dataclass(frozen=True, slots=True)
class SupportDropped(Change):
    """A way the car can stand is no longer there."""

    KIND: ClassVar[str] = "support-dropped"

    support_id: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"support:{self.support_id}"


@register
@dataclass(frozen=True, slots=True)
class SupportMoveSet(Change):
    """What it takes to bring the car from one support to another."""

    KIND: ClassVar[str] = "support-move-set"
    VERSION: ClassVar[int] = 2

    move: SupportMove

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"move:{self.move.from_support}>{self.move.to_support}"


@register
@dataclass(frozen=True, slots=True)
class CarPlaced(Change):
    """The car was left standing so."""

    KIND: ClassVar[str] = "car-placed"

    placement: Placement
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return "placement:car"
