"""Changes to jobs: what they are, and what was done."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.changes.base import Change, register
from bareshell.model.job import Job


@register
@dataclass(frozen=True, slots=True)
class JobSet(Change):
    """A job was added, or its definition corrected; its history stays."""

    KIND: ClassVar[str] = "job-set"
    VERSION: ClassVar[int] = 2

    job: Job

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job.id}"


@register
@dataclass(frozen=True, slots=True)
class JobStarted(Change):
    """A job was begun."""

    KIND: ClassVar[str] = "job-started"

    job_id: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobWorked(Change):
    """Part of a job was done; hours are those of this stretch, hours_left the owner's guess."""

    KIND: ClassVar[str] = "job-worked"

    job_id: str
    hours: float | None = None
    hours_left: float | None = None
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobFinished(Change):
    """A job was finished; hours are those of this last stretch."""

    KIND: ClassVar[str] = "job-finished"

    job_id: str
    hours: float | None = None
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobTakenOff(Change):
    """What a job fitted came off again: its proofs are spent and the job is there to do again."""

    KIND: ClassVar[str] = "job-taken-off"

    job_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobDoneBefore(Change):
    """A job was done before the record began; nothing of it is proven."""

    KIND: ClassVar[str] = "job-done-before"

    job_id: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobNotDone(Change):
    """A job that was taken for done is not."""

    KIND: ClassVar[str] = "job-not-done"

    job_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobLeftOut(Change):
    """A job is left out of this build; what came before it now leads to what came after."""

    KIND: ClassVar[str] = "job-left-out"

    job_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"


@register
@dataclass(frozen=True, slots=True)
class JobTakenIn(Change):
    """A job that was left out is wanted after all."""

    KIND: ClassVar[str] = "job-taken-in"

    job_id: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"job:{self.job_id}"
