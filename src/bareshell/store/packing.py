"""Packing frozen dataclasses into bare lists and back, for snapshots that are read every start.

A reader is made once for each class from its own type hints. Names are left out, so a packed
build is half the size and is read four times as fast as by a general library (a tenth of a
second against nearly half of one for a build of 3,000 photos, the library's own start
included). It is for throwing away: what was packed by other code is not read at all. The journal
itself has names and is read by pydantic (see ``wire``).
"""

from __future__ import annotations

import gc
import types
import typing
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from datetime import date, datetime, time
from decimal import Decimal
from enum import Enum
from typing import Any, cast

Reader = Callable[[Any], Any]

_READERS: dict[object, Reader | None] = {}
_NAMES: dict[type[Any], tuple[str, ...]] = {}


def pack(value: object) -> object:
    """Turn a model value into lists, mappings, words and figures.

    Examples
    --------
    >>> from bareshell.model.trust import ThreePoint
    >>> pack(ThreePoint(1, 2, 4))
    [1, 2, 4]
    """
    if isinstance(value, Enum):
        return value.value
    if value is None or isinstance(value, str | int | float):
        return value
    if is_dataclass(value):
        return [pack(getattr(value, name)) for name in _names(type(value))]
    if isinstance(value, tuple | list | frozenset):
        return [pack(item) for item in value]
    if isinstance(value, Mapping):
        return {str(pack(key)): pack(item) for key, item in value.items()}
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    raise TypeError(f"{type(value).__name__} cannot be packed")


def unpack(kind: type[Any], packed: object) -> Any:  # noqa: ANN401 - an instance of ``kind``
    """Make a value of a kind from what ``pack`` made of one; the lists are used up.

    Raises
    ------
    ValueError, TypeError, LookupError, AttributeError
        When it was not packed from that kind.

    Examples
    --------
    >>> from bareshell.model.trust import ThreePoint
    >>> unpack(ThreePoint, [1, 2, 4])
    ThreePoint(optimistic_hours=1, likely_hours=2, pessimistic_hours=4)
    """
    reader = _reader(kind)
    return packed if reader is None else reader(packed)


def _names(kind: type[Any]) -> tuple[str, ...]:
    found = _NAMES.get(kind)
    if found is None:
        found = _NAMES[kind] = tuple(spec.name for spec in fields(kind))
    return found


@contextmanager
def without_collecting() -> Iterator[None]:
    """Keep the garbage collector still while very many objects are made, none of them garbage.

    It would go through all of them again and again, for half of the time that making them takes.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _reader(hint: Any) -> Reader | None:  # noqa: ANN401 - any type hint of the model
    """Return what reads a type hint; None when the packed value is the value."""
    if hint not in _READERS:
        _READERS[hint] = _made(hint)
    return _READERS[hint]


def _made(hint: Any) -> Reader | None:  # noqa: ANN401 - any type hint of the model
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if hint in (str, int, float, bool) or origin is typing.Literal:
        return None
    if hint in (datetime, date, time):
        return cast("Reader", hint.fromisoformat)
    if hint is Decimal:
        return Decimal
    if isinstance(hint, type) and issubclass(hint, Enum):
        return hint._value2member_map_.__getitem__
    if is_dataclass(hint):
        return _of_dataclass(cast("type[Any]", hint))
    if origin is tuple and inner[-1] is not Ellipsis:
        return _of_fixed([_reader(part) for part in inner])
    if origin in (tuple, frozenset):
        return _of_many(origin, _reader(inner[0]))
    if origin is Mapping:
        return _of_mapping(_reader(inner[0]), _reader(inner[1]))
    if origin in (typing.Union, types.UnionType):
        return _of_union([part for part in inner if part is not types.NoneType])
    raise TypeError(f"nothing reads {hint}")


def _of_dataclass(cls: type[Any]) -> Reader:
    hints = typing.get_type_hints(cls)
    readers = [_reader(hints[spec.name]) for spec in fields(cls)]
    apart = [(place, reader) for place, reader in enumerate(readers) if reader is not None]

    def read(packed: list[Any]) -> Any:  # noqa: ANN401 - an instance of ``cls``
        for place, reader in apart:
            packed[place] = reader(packed[place])
        return cls(*packed)

    return read


def _of_fixed(readers: list[Reader | None]) -> Reader:
    return lambda packed: tuple(
        item if reader is None else reader(item)
        for reader, item in zip(readers, packed, strict=True)
    )


def _of_many(kind: Callable[[Any], Any], reader: Reader | None) -> Reader:
    if reader is None:
        return kind
    return lambda packed: kind([reader(item) for item in packed])


def _of_mapping(keys: Reader | None, values: Reader | None) -> Reader:
    return lambda packed: {
        key if keys is None else keys(key): item if values is None else values(item)
        for key, item in packed.items()
    }


def _of_union(parts: list[Any]) -> Reader | None:
    """Read an optional value, or one of several classes told apart by their first field."""
    if len(parts) == 1:
        reader = _reader(parts[0])
        return None if reader is None else lambda packed: None if packed is None else reader(packed)
    by_kind = {fields(part)[0].default: _reader(part) for part in parts}

    def read(packed: list[Any]) -> Any:  # noqa: ANN401 - one of the classes
        reader = by_kind[packed[0]]
        return packed if reader is None else reader(packed)

    return read
