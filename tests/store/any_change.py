"""Any change at all, made from the dataclasses' own types."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time
from decimal import Decimal
from enum import Enum
from typing import Any

from hypothesis import reject
from hypothesis import strategies as st

from bareshell.model.brake import (
    BrakeReading,
    Line,
    LineKind,
    Part,
    PartKind,
    ReadingKind,
    choices_of,
    fields_of,
    reading_choices,
    reading_fields,
)
from bareshell.model.job import SYSTEMS
from bareshell.model.trust import Stated, ThreePoint, Trust

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
    if hint is BrakeReading:
        return readings()
    if hint in (Part, Line):
        return brake_things(typing.cast("type[Part | Line]", hint))
    if is_dataclass(hint):
        return made(typing.cast("type[Any]", hint))
    if origin is typing.Literal:
        return st.sampled_from(inner)
    if origin is tuple and inner[-1] is not Ellipsis:
        return st.tuples(*(any_of(part) for part in inner))
    if origin is tuple:
        return st.lists(any_of(inner[0]), min_size=1, max_size=2).map(tuple)
    if origin is frozenset:
        return st.frozensets(any_of(inner[0]), max_size=3)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([st.none() if x is types.NoneType else any_of(x) for x in inner])
    raise TypeError(hint)


@st.composite
def brake_things(draw: st.DrawFn, cls: type[Part | Line]) -> Part | Line:
    """Any part or line whose figures and choices are among those that its kind may have."""
    kind = draw(any_of(PartKind if cls is Part else LineKind))
    figures = {
        name: Stated(
            draw(st.floats(field.least, field.most)),
            draw(any_of(Trust)),
            draw(st.sampled_from([None, field.least])),
            draw(st.sampled_from([None, field.most])),
        )
        for name, field in draw(_some(fields_of(kind)))
    }
    chosen = {
        name: draw(st.sampled_from(choice.options) if choice.options else WORDS)
        for name, choice in draw(_some(choices_of(kind)))
    }
    hints = typing.get_type_hints(cls)
    key = draw(WORDS.filter(lambda word: bool(word) and "." not in word))
    fixed = {"id": key, "kind": kind, "figures": figures, "choices": chosen}
    others = {
        spec.name: draw(any_of(hints[spec.name])) for spec in fields(cls) if spec.name not in fixed
    }
    if "ports" in others:
        named = {port.name: port for port in others["ports"] if port.name}
        others["ports"] = tuple(named.values())
    return cls(**fixed, **others)


@st.composite
def readings(draw: st.DrawFn) -> BrakeReading:
    """Any brake reading whose figures and choices are among those that its kind may have."""
    kind = draw(any_of(ReadingKind))
    return BrakeReading(
        draw(WORDS.filter(bool)),
        kind,
        draw(PLAIN[datetime]),
        {
            name: draw(st.floats(field.least, field.most))
            for name, field in draw(_some(reading_fields(kind)))
        },
        {
            name: draw(st.sampled_from(choice.options) if choice.options else WORDS)
            for name, choice in draw(_some(reading_choices(kind)))
        },
        draw(WORDS),
        draw(WORDS),
        draw(WORDS),
    )


def _some(table: Mapping[str, Any]) -> st.SearchStrategy[list[tuple[str, Any]]]:
    if not table:
        return st.just([])
    rows = st.sampled_from(sorted(table.items(), key=lambda row: row[0]))
    return st.lists(rows, max_size=3, unique_by=lambda row: row[0])


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
