"""What is left of a photograph once it was cleaned."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph as it is kept.

    Parameters
    ----------
    data : bytes
        The file.
    content_type, ending : str
        What it is, for a browser and for its name.
    width, height : int
        In pixels, upright.
    sha256 : str
        Of ``data``, in hexadecimal.
    taken_at : datetime or None
        When the camera says it was taken; with a zone only when the camera knew it.
    """

    data: bytes
    content_type: str
    ending: str
    width: int
    height: int
    sha256: str
    taken_at: datetime | None = None
