"""The time zone this computer goes by, as a name that stays true when the clocks change."""

from __future__ import annotations

import os
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

UNKNOWN = "UTC"
_SET_HERE = Path("/etc/localtime")
_NAMED_HERE = Path("/etc/timezone")


def machine_zone(set_here: Path = _SET_HERE, named_here: Path = _NAMED_HERE) -> str:
    """Find the name of this computer's time zone.

    Parameters
    ----------
    set_here, named_here : Path
        Where a system keeps it: a link into its table of zones, and the name in words.

    Returns
    -------
    str
        An IANA name such as ``Europe/London``; ``UTC`` when the computer does not say.
    """
    for name in (_from_environment(), _from_link(set_here), _from_words(named_here)):
        if name and _is_known(name):
            return name
    return UNKNOWN


def _from_environment() -> str:
    return os.environ.get("TZ", "").removeprefix(":")


def _from_link(place: Path) -> str:
    """The link points into a table such as ``/usr/share/zoneinfo/Europe/London``."""
    if not place.is_symlink():
        return ""
    return str(place.resolve()).partition("zoneinfo/")[2]


def _from_words(place: Path) -> str:
    try:
        return place.read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError):
        return ""


def _is_known(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True
