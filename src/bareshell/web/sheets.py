"""The style sheets that drawings go by, for a picture that is written to a file."""

from __future__ import annotations

from pathlib import Path
from typing import Final

NAMES: Final = ("look.css", "brakes.css")
"""In the order in which a page loads them."""


def drawing_sheets() -> tuple[str, ...]:
    """Return the text of each.

    Examples
    --------
    >>> all(drawing_sheets())
    True
    """
    folder = Path(__file__).parent / "static"
    return tuple((folder / name).read_text("utf-8") for name in NAMES)
