"""Any change at all, made from the dataclasses' own types."""

from __future__ import annotations

import types
import typing
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time
from decimal import Decimal
from enum import Enum
from typing import Any

from hypothesis import reject
from hypothesis import strategies as st

from bareshell.model.job import SYSTEMS
from bareshell.model.trust import ThreePoint

FROM, TO = datetime(1900, 1, 2), datetime(2200, 1, 1)  # noqa: DTZ001 - the zone is drawn too

WORDS = st.text(st.characters(codec="utf-8"), max_size=12)
FIGURES = st.floats(allow_nan=False, allow_infinity=False, width=64)
BY_NAME: dict[tuple[str, object], st.SearchStrategy[Any]] = {
    ("people", int): st.sampled_from([1, 2]),
    ("system", str): st.sampled_from(SYSTEMS),
    ("units", str): st.sampled_from(["metric", "imperial"]),
    ("currency", str): st.sampled_from(["GBP", "EUR"]),
    ("quantity", int): st.integers(1, 10**6),
    ("minutes", int): st.integers(1, 10**5),
    ("set_up_minutes", int): st.integers(0, 100),
    ("clear_up_minutes", int): st.integers(0, 100),
    ("monthly_c", tuple[float, ...]): st.lists(FIGURES, min_size=12, max_size=12).map(tuple),
    ("hours", float): st.floats(0, 1e6),
    ("least_piece_hours", float): st.floats(0.01, 100),
    ("id", str): WORDS.filter(bool),
    ("title", str): WORDS.filter(str.strip),
    ("name", str): WORDS.filter(str.strip),
}
PLAIN: dict[object, st.SearchStrategy[Any]] = {
    str: WORDS,
    int: st.integers(-(2**63), 2**63),
    float: FIGURES,
    bool: st.booleans(),
    date: st.dates(),
    time: st.times(),
    datetime: st.datetimes(FROM, TO, timezones=st.just(UTC)),
    Decimal: st.decimals(allow_nan=False, allow_infinity=False),
}


def any_of(hint: Any) -> st.SearchStrategy[Any]:
    """Any value that a type hint of the model allows."""
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if hint in PLAIN:
        return PLAIN[hint]
    if hint is ThreePoint:
        three = st.lists(st.floats(0, 1e4), min_size=3, max_size=3).map(sorted)
        return three.map(lambda hours: ThreePoint(*hours))
    if isinstance(hint, type) and issubclass(hint, Enum):
        return st.sampled_from(list(hint))
    if is_dataclass(hint):
        return made(typing.cast("type[Any]", hint))
    if origin is typing.Literal:
        return st.sampled_from(inner)
    if origin is tuple:
        return st.lists(any_of(inner[0]), min_size=1, max_size=2).map(tuple)
    if origin is frozenset:
        return st.frozensets(any_of(inner[0]), max_size=3)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([st.none() if x is types.NoneType else any_of(x) for x in inner])
    raise TypeError(hint)


@st.composite
def made(draw: st.DrawFn, cls: type[Any]) -> Any:
    """Any instance of a dataclass that its own rules allow."""
    hints = typing.get_type_hints(cls)
    values = {}
    for spec in fields(cls):
        named = BY_NAME.get((spec.name, hints[spec.name]))
        values[spec.name] = draw(any_of(hints[spec.name]) if named is None else named)
    try:
        return cls(**values)
    except ValueError:
        reject()
