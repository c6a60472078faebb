"""Changes to the brakes as they are described, and what was read off them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.brake import BrakeReading, BrakeSystem, Line, Part
from bareshell.model.changes.base import Change, register


@register
@dataclass(frozen=True, slots=True)
class BrakeSystemSet(Change):
    """Brakes were described whole: begun, brought in from a file, or copied to an idea."""

    KIND: ClassVar[str] = "brake-system-set"

    system: BrakeSystem

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brakes:{self.system.id}"


@register
@dataclass(frozen=True, slots=True)
class BrakeSystemDropped(Change):
    """A description of brakes is not wanted any more."""

    KIND: ClassVar[str] = "brake-system-dropped"

    system_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brakes:{self.system_id}"


@register
@dataclass(frozen=True, slots=True)
class BrakePartSet(Change):
    """A part of the brakes was added or corrected."""

    KIND: ClassVar[str] = "brake-part-set"

    system_id: str
    part: Part

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brake-part:{self.system_id}/{self.part.id}"


@register
@dataclass(frozen=True, slots=True)
class BrakePartDropped(Change):
    """A part is not in these brakes; the lines that were screwed to it end loose."""

    KIND: ClassVar[str] = "brake-part-dropped"

    system_id: str
    part_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brake-part:{self.system_id}/{self.part_id}"


@register
@dataclass(frozen=True, slots=True)
class BrakeLineSet(Change):
    """A pipe or hose was added or corrected."""

    KIND: ClassVar[str] = "brake-line-set"

    system_id: str
    line: Line

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brake-line:{self.system_id}/{self.line.id}"


@register
@dataclass(frozen=True, slots=True)
class BrakeLineDropped(Change):
    """A pipe or hose is not in these brakes."""

    KIND: ClassVar[str] = "brake-line-dropped"

    system_id: str
    line_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brake-line:{self.system_id}/{self.line_id}"


@register
@dataclass(frozen=True, slots=True)
class BrakeReadingTaken(Change):
    """Something was read off the brakes: a pedal's travel, a roller sheet, a gauge."""

    KIND: ClassVar[str] = "brake-reading-taken"

    reading: BrakeReading

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"brake-reading:{self.reading.id}"


@register
@dataclass(frozen=True, slots=True)
class YardsticksChosen(Change):
    """The yardsticks that results are held against were chosen."""

    KIND: ClassVar[str] = "yardsticks-chosen"

    ids: tuple[str, ...]

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return "yardsticks:yardsticks"
