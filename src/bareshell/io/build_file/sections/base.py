"""What every section of a build file has."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bareshell.io.build_file.shape import Record
from bareshell.model.build import Build
from bareshell.model.changes import Change

__all__ = ["Section"]


@dataclass(frozen=True, slots=True)
class Section:
    """A section of the file: ``[car]`` once, or ``[[job]]`` for each job.

    Parameters
    ----------
    name : str
        The name in its header.
    what : str
        What one of them is called in a sentence.
    says : str
        What the section is for, for the guide.
    record : Record
        Its keys: the definition.
    held : callable
        The definitions that a build has, by id.
    key_of : callable
        The id of a definition.
    change : callable
        The change that sets a definition.
    single : bool
        Whether there is only one.
    facts, facts_of : Record or None, callable or None
        The keys that say what happened, and how a build answers them.
    left_out : callable or None
        What it means that a whole file has no such item: a sentence and the change, or None
        when it is out of the build already. None where nothing may be concluded.
    dated : str
        The field of the definition that says when it happened, if one does.
    """

    name: str
    what: str
    says: str
    record: Record
    held: Callable[[Build], Mapping[str, Any]]
    key_of: Callable[[Any], str]
    change: Callable[[Any], Change]
    single: bool = False
    facts: Record | None = None
    facts_of: Callable[[Build, str], Any] | None = None
    left_out: Callable[[Build, str], tuple[str, Change] | None] | None = None
    dated: str = ""

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key that one of them may have."""
        return (*self.record.keys, *(self.facts.keys if self.facts else ()))

    def title(self, value: object) -> str:
        """Return what one of them is called in a sentence: ``job 'Bleed the brakes'``."""
        if self.single:
            return f"the {self.what}"
        title = getattr(value, "title", "") or self.key_of(value)
        return f"{self.what} '{title}'"

    def happened_at(self, value: object) -> datetime | None:
        """Return when a definition says it happened, where it does."""
        return getattr(value, self.dated) if self.dated else None
