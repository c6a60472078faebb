"""An entry of the journal: a change with its id, times, author and the version it knew."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bareshell.model.changes.base import Change


class Standing(StrEnum):
    """How an entry stands in the journal."""

    KEPT = "kept"
    TO_SETTLE = "to settle"


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the journal.

    Parameters
    ----------
    seq : int
        Its number in this journal, from 1.
    id : str
        Made by whoever wrote it; sent twice, it lands once.
    happened_at, recorded_at : datetime
        When the thing happened and when it was written down, in UTC.
    author : str
        Who wrote it.
    change : Change
        The fact.
    base_version : int or None
        The version of the subject that the writer knew; None when it does not matter.
    standing : Standing
        Kept, or waiting to be settled because its subject moved meanwhile.
    """

    seq: int
    id: str
    happened_at: datetime
    recorded_at: datetime
    author: str
    change: Change
    base_version: int | None = None
    standing: Standing = Standing.KEPT

    def __post_init__(self) -> None:
        """Times are zoned, or subtracting them would lie twice a year."""
        if self.happened_at.tzinfo is None or self.recorded_at.tzinfo is None:
            raise ValueError("an entry's times must carry a time zone")
