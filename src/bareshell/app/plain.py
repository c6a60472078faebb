"""A reading as data: what every ``.json`` page and every ``--json`` command hands out.

One function makes both, so that a page and a command asked the same thing answer the same.
"""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import fields, is_dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from enum import Enum
from numbers import Integral, Real
from typing import Any

FORMAT = 1
"""The version of every JSON answer; fields are only ever added to one format."""


def document(reading: object) -> dict[str, Any]:
    """Make the JSON document of a reading: its fields, and the format they are in.

    Examples
    --------
    >>> from dataclasses import dataclass
    >>> @dataclass
    ... class Bench:
    ...     length_mm: float
    >>> document(Bench(1800.0))
    {'format': 1, 'length_mm': 1800}
    """
    return {"format": FORMAT, **plain(reading)}


def plain(value: object) -> Any:  # noqa: ANN401  JSON is whatever it is
    """A value as JSON can carry it.

    Parameters
    ----------
    value : object
        Dataclasses become objects, times ISO 8601 text, decimals text (so that no digit is
        lost), enumerations their value, sets sorted lists. A field whose metadata says
        ``twin=False`` is left out.

    Raises
    ------
    TypeError
        For anything else, and for a number that is none.

    Examples
    --------
    >>> plain({"due": date(2026, 12, 3), "cost": Decimal("12.50"), "systems": frozenset("ba")})
    {'due': '2026-12-03', 'cost': '12.50', 'systems': ['a', 'b']}
    """
    if isinstance(value, Enum):
        return plain(value.value)
    if value is None or isinstance(value, (bool, str)):
        return value
    if isinstance(value, Integral):  # the numbers of numeric libraries too
        return int(value)
    if isinstance(value, Real):
        return _number(float(value))
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, (datetime, date, time)):
        return value.isoformat()
    if isinstance(value, timedelta):
        return f"PT{_number(value.total_seconds())}S"
    if is_dataclass(value) and not isinstance(value, type):
        return {
            field.name: plain(getattr(value, field.name))
            for field in fields(value)
            if field.metadata.get("twin", True)
        }
    if isinstance(value, Mapping):
        return {str(plain(key)): plain(item) for key, item in value.items()}
    if isinstance(value, AbstractSet):
        return sorted((plain(item) for item in value), key=json.dumps)
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    raise TypeError(f"{type(value).__name__} has no form in JSON.")


def _number(number: float) -> int | float:
    if not math.isfinite(number):
        raise TypeError(f"{number} is no number for JSON; unknown is None.")
    return int(number) if number.is_integer() and abs(number) < 2**53 else number
