"""What a newer bareshell wrote and this one cannot read: listed, never folded."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from bareshell.model.changes.base import Change


@dataclass(frozen=True, slots=True)
class Unread(Change):
    """A change of a kind or version that this bareshell does not know.

    It is no kind of its own and never enters a journal: it stands in a list of entries where
    the real one would, so that nobody takes the list for whole.

    Parameters
    ----------
    kind, version : str, int
        What the newer bareshell calls it.
    about : str
        Its subject, as ``kind:id``.
    body : str
        Its fields as they are written in the journal.
    """

    KIND: ClassVar[str] = "unread"

    kind: str
    version: int
    about: str
    body: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return self.about
