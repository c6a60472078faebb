"""Changes to temps, gates, departures, sessions, notes, and to the record itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.changes.base import Change, register
from bareshell.model.forecast import IssuedForecast
from bareshell.model.note import Lesson, Note, Photo
from bareshell.model.session import HeldSession, SessionException, SessionPattern
from bareshell.model.temp import Departure, Gate, Temp


@register
@dataclass(frozen=True, slots=True)
class TempSet(Change):
    """A temporary fix is known; added or corrected."""

    KIND: ClassVar[str] = "temp-set"

    temp: Temp

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"temp:{self.temp.id}"


@register
@dataclass(frozen=True, slots=True)
class TempRaised(Change):
    """A temporary fix was put on the car."""

    KIND: ClassVar[str] = "temp-raised"

    temp_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"temp:{self.temp_id}"


@register
@dataclass(frozen=True, slots=True)
class TempCleared(Change):
    """A temporary fix is gone from the car."""

    KIND: ClassVar[str] = "temp-cleared"

    temp_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"temp:{self.temp_id}"


@register
@dataclass(frozen=True, slots=True)
class GateSet(Change):
    """A gate was added or corrected."""

    KIND: ClassVar[str] = "gate-set"

    gate: Gate

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"gate:{self.gate.id}"


@register
@dataclass(frozen=True, slots=True)
class GatePassed(Change):
    """Somebody let the car through a gate, by name."""

    KIND: ClassVar[str] = "gate-passed"

    gate_id: str
    by: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"gate:{self.gate_id}"


@register
@dataclass(frozen=True, slots=True)
class DepartureSet(Change):
    """A way in which the car is no longer standard; added or corrected."""

    KIND: ClassVar[str] = "departure-set"

    departure: Departure

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"departure:{self.departure.id}"


@register
@dataclass(frozen=True, slots=True)
class DepartureReturned(Change):
    """The car was put back to standard there."""

    KIND: ClassVar[str] = "departure-returned"

    departure_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"departure:{self.departure_id}"


@register
@dataclass(frozen=True, slots=True)
class PatternSet(Change):
    """A repeating stretch of garage time; added or corrected."""

    KIND: ClassVar[str] = "pattern-set"

    pattern: SessionPattern

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"pattern:{self.pattern.id}"


@register
@dataclass(frozen=True, slots=True)
class PatternDropped(Change):
    """A repeating stretch of garage time is over."""

    KIND: ClassVar[str] = "pattern-dropped"

    pattern_id: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"pattern:{self.pattern_id}"


@register
@dataclass(frozen=True, slots=True)
class ExceptionSet(Change):
    """A day that is not as the pattern says."""

    KIND: ClassVar[str] = "exception-set"

    exception: SessionException

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"day:{self.exception.day.isoformat()}"


@register
@dataclass(frozen=True, slots=True)
class SessionHeld(Change):
    """A stretch of garage time took place."""

    KIND: ClassVar[str] = "session-held"

    session: HeldSession

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"session:{self.session.id}"


@register
@dataclass(frozen=True, slots=True)
class NoteWritten(Change):
    """Words kept as they were said."""

    KIND: ClassVar[str] = "note-written"

    note: Note

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"note:{self.note.id}"


@register
@dataclass(frozen=True, slots=True)
class LessonLearned(Change):
    """Something learned that heads the ticket of the job's twin."""

    KIND: ClassVar[str] = "lesson-learned"

    lesson: Lesson

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"lesson:{self.lesson.id}"


@register
@dataclass(frozen=True, slots=True)
class PhotoKept(Change):
    """A photograph was put with the build."""

    KIND: ClassVar[str] = "photo-kept"

    photo: Photo

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"photo:{self.photo.id}"


@register
@dataclass(frozen=True, slots=True)
class ForecastIssued(Change):
    """It was said when the road would be reached."""

    KIND: ClassVar[str] = "forecast-issued"

    forecast: IssuedForecast

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"forecast:{self.forecast.id}"


@register
@dataclass(frozen=True, slots=True)
class Withdrawn(Change):
    """An earlier entry is taken back; the build is folded again without it."""

    KIND: ClassVar[str] = "withdrawn"

    entry_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"entry:{self.entry_id}"


@register
@dataclass(frozen=True, slots=True)
class Settled(Change):
    """An entry that met a change made meanwhile is kept (folded now) or set aside."""

    KIND: ClassVar[str] = "settled"

    entry_id: str
    keep: bool
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"entry:{self.entry_id}"
