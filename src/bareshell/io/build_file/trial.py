"""Trying changes out one after another, as the door would take them, without keeping any."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime

from bareshell.errors import BadInput, BareshellError
from bareshell.model.build import Build
from bareshell.model.changes import Change
from bareshell.model.decide import decide
from bareshell.model.entry import Entry
from bareshell.model.fold import Draft, play

__all__ = ["Trial"]


@dataclass(slots=True)
class Trial:
    """A build that changes are tried on; the one it was made from is not touched.

    Parameters
    ----------
    start : Build
        The build as it stands.
    now : datetime
        When that is, with its zone.

    Examples
    --------
    >>> from bareshell.model.changes import JobSet
    >>> from bareshell.model.job import Job
    >>> trial = Trial(Build(), datetime(2026, 3, 4, tzinfo=UTC))
    >>> trial.take(JobSet(Job("bleed", "Bleed the brakes", "brakes"))) is None
    True
    >>> list(trial.build.jobs)
    ['bleed']
    """

    start: Build
    now: datetime
    build: Build = field(init=False)
    draft: Draft = field(init=False)

    def __post_init__(self) -> None:
        self.draft = Draft.of(self.start)
        self.build = self.draft.freeze()

    def take(self, change: Change, at: datetime | None = None) -> BareshellError | None:
        """Decide a change and fold it in; return why not, when it is refused."""
        try:
            decide(self.build, change)
        except BareshellError as error:
            return error
        seq = self.draft.seq + 1
        moment = (at or self.now).astimezone(UTC)
        entry = Entry(seq, f"trial-{seq}", moment, self.now, "trial", change)
        self.draft.seq = seq
        play(self.draft, entry, seq)
        self.build = self.draft.freeze()
        return None


def problem_of(error: BareshellError) -> tuple[str, str]:
    """Return what an error says and what would be right, without the field it names."""
    if isinstance(error, BadInput):
        return f"{error.field}: {error.problem}", error.remedy
    return error.message, error.remedy
