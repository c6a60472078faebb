"""Changes that say what was seen on the car, and how far it has run."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.changes.base import Change, register
from bareshell.model.looked import Seen


@register
@dataclass(frozen=True, slots=True)
class ItemLookedAt(Change):
    """Somebody looked at an item of the rehearsal, by name."""

    KIND: ClassVar[str] = "item-looked-at"

    item: str
    seen: Seen
    by: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"item:{self.item}"


@register
@dataclass(frozen=True, slots=True)
class MilesRead(Change):
    """The miles since the car went back on the road were read."""

    KIND: ClassVar[str] = "miles-read"

    miles: float
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return "miles"
