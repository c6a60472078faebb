"""What changed in a definition, in words: "after becomes rear-axle (was nothing)"."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time

from bareshell.io.build_file.kinds import Plain, Setting
from bareshell.io.build_file.shape import Record

__all__ = ["changed_words", "in_words"]

_LONGEST = 80


def in_words(value: Plain | None) -> str:
    """Say a value of the file as a person would.

    Examples
    --------
    >>> in_words(["a", "b"]), in_words(True), in_words(None), in_words({"hours": 12})
    ('a, b', 'yes', 'nothing', 'hours 12')
    """
    if value is None or value in ("", [], {}):
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        found = ", ".join(
            f"{key.replace('_', ' ')} {in_words(each)}" for key, each in value.items()
        )
    elif isinstance(value, list):
        nested = any(isinstance(each, dict | list) for each in value)
        found = ("; " if nested else ", ").join(in_words(each) for each in value)
    elif isinstance(value, datetime):
        found = f"{value:%Y-%m-%d %H:%M}"
    elif isinstance(value, date | time):
        found = value.isoformat()
    else:
        found = " ".join(str(value).split())
    return found if len(found) <= _LONGEST else f"{found[: _LONGEST - 3]}..."


def changed_words(record: Record, old: Mapping[str, Plain], new: Mapping[str, Plain]) -> str:
    """Say which keys of a definition changed, from what to what."""
    setting = Setting()
    said = []
    for field in record.fields:
        before, after = old.get(field.key), new.get(field.key)
        if before != after:
            default = record.default(field, setting)
            was = in_words(default if before is None else before)
            becomes = in_words(default if after is None else after)
            said.append(f"{field.key.replace('_', ' ')} becomes {becomes} (was {was})")
    return "; ".join(said)
