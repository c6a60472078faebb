"""Records: which key of the file is which field of the model, with its kind, as data.

Defaults are the model's own; a key that is at its default is not written, and one that is not
there means the default.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import MISSING, dataclass
from typing import Any

from bareshell.errors import BadInput
from bareshell.io.build_file.kinds import Kind, Mismatch, Plain, Setting, Spot, nearest, shown

__all__ = ["Field", "Record", "default_of", "one", "several"]


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a record: the model's field, its kind, and what it says."""

    key: str
    attr: str
    kind: Kind
    says: str


@dataclass(frozen=True, slots=True)
class Record:
    """A dataclass of the model as a table of the file."""

    cls: type[Any]
    fields: tuple[Field, ...]

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys that the table may have."""
        return tuple(field.key for field in self.fields)

    def read(self, table: Mapping[str, object], spot: Spot, also: Iterable[str] = ()) -> Any:  # noqa: ANN401 - any record
        """Make the record of a table.

        Parameters
        ----------
        table : mapping
            As it was read from the file.
        spot : Spot
            Where it stands; its problems go there.
        also : iterable of str
            Keys of the same table that are read elsewhere.

        Raises
        ------
        Mismatch
            Without words, when a problem stops it.
        """
        known = {field.key: field for field in self.fields}
        values: dict[str, object] = {}
        good = True
        for key, value in table.items():
            if key in known:
                try:
                    values[known[key].attr] = _value(known[key], value, spot)
                except Mismatch:
                    good = False
            elif key not in also:
                every = (*known, *also)
                hint = nearest(key, every) or f"the keys here are: {', '.join(every)}"
                spot.at(key, key).say("there is no such key here", hint)
                good = False
        for field in self.fields:
            if field.key not in table and default_of(self.cls, field.attr) is MISSING:
                spot.say(f"it has no {field.key}", f"write {field.key} = ({field.kind.takes})")
                good = False
        if not good:
            raise Mismatch
        try:
            return self.cls(**values)
        except ValueError as error:
            spot.say(str(error))
            raise Mismatch from error

    def write(self, value: object, setting: Setting) -> dict[str, Plain]:
        """Return the table of a record, in the order of its fields, defaults left out."""
        table: dict[str, Plain] = {}
        for field in self.fields:
            own = getattr(value, field.attr)
            if own is None:
                continue
            plain = field.kind.write(own, setting)
            if plain != self.default(field, setting):
                table[field.key] = plain
        return table

    def default(self, field: Field, setting: Setting) -> Plain | None:
        """Return the canonical form of a field's default; None when it has none to write."""
        default = default_of(self.cls, field.attr)
        return None if default is MISSING or default is None else field.kind.write(default, setting)


def _value(field: Field, value: object, spot: Spot) -> object:
    inner = spot.at(field.key, field.key)
    try:
        return field.kind.read(value, inner)
    except Mismatch as error:
        if error.what:
            inner.say(error.what, error.remedy)
        raise
    except BadInput as error:
        inner.say(error.problem, error.remedy)
        raise Mismatch from error


def default_of(cls: type[Any], attr: str) -> Any:  # noqa: ANN401 - any field's default
    """Return the default of a dataclass's field, or ``MISSING`` when it has none."""
    spec = cls.__dataclass_fields__[attr]
    return spec.default if spec.default_factory is MISSING else spec.default_factory()


def one(record: Record) -> Kind:
    """Return the kind of a record inside a record: ``wait = { hours = 12 }``."""

    def read(value: object, spot: Spot) -> object:
        if not isinstance(value, dict):
            raise Mismatch(
                f"{shown(value)} is not a table",
                f"write it in curly brackets: {{ {record.keys[0]} = ... }}",
            )
        return record.read(value, spot)

    return Kind(f"table of {', '.join(record.keys)}", read, record.write)


def several(record: Record, word: str) -> Kind:
    """Return the kind of a list of records: ``ways = [{ people = 1, hours = [1, 2, 4] }]``.

    ``word`` is what one of them is called in a problem.
    """

    def read(value: object, spot: Spot) -> tuple[object, ...]:
        if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
            raise Mismatch(
                f"{shown(value)} is not a list of tables", f"write [{{ {record.keys[0]} = ... }}]"
            )
        found = []
        for number, each in enumerate(value):
            try:
                found.append(record.read(each, spot.at(number, f"{word} {number + 1}")))
            except Mismatch:
                continue
        if len(found) < len(value):
            raise Mismatch
        return tuple(found)

    return Kind(
        f"list of tables of {', '.join(record.keys)}",
        read,
        lambda value, setting: [record.write(each, setting) for each in value],
    )
