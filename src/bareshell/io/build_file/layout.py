"""How values and sections look in the file: short lists on a line, long ones a line each."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time
from re import compile as pattern

from bareshell.io.build_file.kinds import Plain

__all__ = ["key_text", "table_text", "value_text"]

_WIDTH = 96
_BARE = pattern(r"[A-Za-z0-9_-]+")


def key_text(key: str) -> str:
    """Write a key, in quotation marks where it needs them.

    Examples
    --------
    >>> key_text("after"), key_text("rear pipe")
    ('after', '"rear pipe"')
    """
    return key if _BARE.fullmatch(key) else _string(key)


def value_text(value: Plain, before: int = 0) -> str:
    """Write a value; ``before`` is how much of its line is taken already.

    Examples
    --------
    >>> value_text(["rear-axle", "rear-tee"])
    '["rear-axle", "rear-tee"]'
    >>> print(
    ...     value_text([{"people": 1, "hours": [1, 2, 4]}, {"people": 2, "hours": [1, 1, 2]}], 60)
    ... )
    [
      { people = 1, hours = [1, 2, 4] },
      { people = 2, hours = [1, 1, 2] },
    ]
    """
    on_one_line = _inline(value)
    several_tables = isinstance(value, list) and len(value) > 1 and isinstance(value[0], dict)
    if isinstance(value, list) and value:
        if several_tables or before + len(on_one_line) > _WIDTH:
            return "[\n" + "".join(f"  {_inline(each)},\n" for each in value) + "]"
    elif isinstance(value, str) and "\n" in value:
        return _paragraphs(value)
    return on_one_line


def table_text(table: Mapping[str, Plain]) -> str:
    """Write the lines of a section, a key each."""
    lines = []
    for key, value in table.items():
        name = key_text(key)
        lines.append(f"{name} = {value_text(value, len(name) + 3)}\n")
    return "".join(lines)


def _inline(value: Plain) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _string(value)
    if isinstance(value, list):
        return f"[{', '.join(_inline(each) for each in value)}]"
    if isinstance(value, dict):
        inside = ", ".join(f"{key_text(key)} = {_inline(each)}" for key, each in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, datetime):
        return value.isoformat(timespec="seconds").replace("+00:00", "Z")
    if isinstance(value, date | time):
        return value.isoformat()
    return repr(value)


def _string(value: str) -> str:
    from tomlkit import string

    return string(value).as_string()


def _paragraphs(value: str) -> str:
    """Write words of several lines as they stand, where nothing in them gets in the way."""
    from tomlkit import string

    if "\r" in value or any(not each.isprintable() and each not in "\n\t" for each in value):
        return _string(value)
    # A line break after the opening marks is no part of the words.
    written = string(value, multiline=True).as_string()
    return written if written.startswith('"""\n') else f'"""\n{written[3:]}'
