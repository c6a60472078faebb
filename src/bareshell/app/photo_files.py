"""Where a build's photographs lie, and which names they may have."""

from __future__ import annotations

import re

PHOTOS_FOLDER = "photos"
THUMBNAILS_FOLDER = "thumbnails"

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,119}")


def is_plain_name(name: str) -> bool:
    """Whether a file's name is only a name, leading nowhere.

    Examples
    --------
    >>> is_plain_name("2026-03-04-0123456789ab.jpg"), is_plain_name("../journal.db")
    (True, False)
    """
    return _PLAIN.fullmatch(name) is not None and ".." not in name
