"""Words and pictures kept with the build."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Note:
    """Words as they were said, about a subject ("job:rear-pipe") or about nothing yet."""

    id: str
    at: datetime
    words: str
    about: str = ""


@dataclass(frozen=True, slots=True)
class Lesson:
    """Something learned in one job that heads the ticket of its twin."""

    id: str
    at: datetime
    words: str
    job: str


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph's record: the file's name in the build's folder, its hash, what it shows."""

    id: str
    at: datetime
    file: str
    sha256: str
    about: str = ""
    words: str = ""
