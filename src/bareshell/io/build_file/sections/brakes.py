"""The brakes: what they are, what was read off them, which yardsticks were chosen.

A part and a line are written as in a brake file, under the same keys.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Final, TypeVar

from bareshell.io.build_file.figures import moment
from bareshell.io.build_file.kinds import (
    Kind,
    Mismatch,
    Plain,
    Setting,
    Spot,
    ident,
    nearest,
    one_of,
    shown,
    text,
    texts,
)
from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.shape import Field, Record
from bareshell.model import changes as c
from bareshell.model.brake import (
    BrakeReading,
    BrakeSystem,
    Line,
    Part,
    ReadingKind,
    Role,
    reading_fields,
)
from bareshell.model.brake import Field as Figure

__all__ = ["BRAKE_SECTIONS"]

# The brake file's own rooms are imported where they are used: they are built on this one.


def _tables(value: object, word: str) -> list[dict[str, object]]:
    if isinstance(value, list) and all(isinstance(each, dict) for each in value):
        return value
    raise Mismatch(f"{shown(value)} is not a list of tables", f"write each as [[brakes.{word}]]")


def _parts() -> Kind:
    def read(value: object, spot: Spot) -> tuple[Part, ...]:
        from bareshell.io.brake_file.pieces import Pieces

        pieces = Pieces()
        return _every(value, spot, "part", pieces.part)

    def write(value: tuple[Part, ...], _setting: Setting) -> Plain:
        from bareshell.io.brake_file.pieces import write_part

        return [write_part(part) for part in value]

    return Kind("tables as a brake file's `[[part]]`", read, write)


def _lines() -> Kind:
    def read(value: object, spot: Spot) -> tuple[Line, ...]:
        from bareshell.io.brake_file.pieces import Pieces

        pieces = Pieces()
        return _every(value, spot, "line", pieces.line)

    def write(value: tuple[Line, ...], _setting: Setting) -> Plain:
        from bareshell.io.brake_file.pieces import write_line

        return [write_line(line) for line in value]

    return Kind("tables as a brake file's `[[line]]`", read, write)


Piece = TypeVar("Piece", Part, Line)


def _every(
    value: object, spot: Spot, word: str, read: Callable[[Mapping[str, object], Spot], Piece]
) -> tuple[Piece, ...]:
    """Read every table of a list; what is wrong with each is put down."""
    found = []
    tables = _tables(value, word)
    for number, table in enumerate(tables):
        key = table.get("id")
        words = f"{word} '{key}'" if isinstance(key, str) else f"{word} {number + 1}"
        try:
            found.append(read(table, spot.at(number, words)))
        except Mismatch:
            continue
    if len(found) < len(tables):
        raise Mismatch
    return tuple(found)


# --- what was read ---------------------------------------------------------------------------


@cache
def _figures_by_key() -> Mapping[str, Figure]:
    """Every figure of every kind of reading by its key; one key means one thing in all of them."""
    from bareshell.io.brake_file.keys import key_of

    return {key_of(field): field for kind in ReadingKind for field in reading_fields(kind).values()}


def _figures() -> Kind:
    def read(value: object, spot: Spot) -> dict[str, float]:
        from bareshell.brakes.typed import read_one

        known = _figures_by_key()
        found = {}
        for key, typed in _table(value, '{ front_left = "1850 N" }').items():
            if key not in known:
                hint = nearest(key, known) or "the guide lists what each kind of reading may have"
                raise Mismatch(f"there is no figure '{key}'", hint)
            field = known[key]
            found[field.name] = read_one(str(typed), field, spot.words)[0]
        return found

    def write(value: Mapping[str, float], _setting: Setting) -> Plain:
        from bareshell.brakes.typed import figure_text
        from bareshell.io.brake_file.keys import key_of

        by_name = {field.name: field for field in _figures_by_key().values()}
        return {
            key_of(by_name[name]): figure_text(figure, by_name[name])
            for name, figure in value.items()
        }

    return Kind("table of figures with their units", read, write)


def _words() -> Kind:
    def read(value: object, _spot: Spot) -> dict[str, str]:
        table = _table(value, '{ rear_left = "locked" }')
        for key, word in table.items():
            if not isinstance(word, str):
                raise Mismatch(f"{key} is {shown(word)}, not words", "put it in quotation marks")
        return {key: str(word) for key, word in table.items()}

    return Kind("table of words", read, lambda value, _setting: dict(value))


def _table(value: object, example: str) -> dict[str, object]:
    if isinstance(value, dict):
        return value
    raise Mismatch(f"{shown(value)} is not a table", f"write it as {example}")


# --- the sections ----------------------------------------------------------------------------

BRAKES: Final = Section(
    "brakes",
    "brakes",
    "Brakes of the car: as built, as standard, or an idea. Their parts and lines are written as "
    "in a [brake file](brake-file.md).",
    Record(
        BrakeSystem,
        (
            Field("id", "id", ident(), "their short name"),
            Field("title", "title", text(), "what you call them"),
            Field("role", "role", one_of(Role), "what they stand for"),
            Field("mark", "mark", text(), "where what is said of them comes from"),
            Field("note", "note", text(), "anything else"),
            Field("part", "parts", _parts(), "their parts"),
            Field("line", "lines", _lines(), "their pipes and hoses"),
        ),
    ),
    lambda build: build.brakes,
    lambda value: str(value.id),
    c.BrakeSystemSet,
    left_out=lambda build, key: (
        (f"the brakes '{build.brakes[key].title}' are dropped", c.BrakeSystemDropped(key))
        if key in build.brakes
        else None
    ),
)

READING: Final = Section(
    "brake_reading",
    "brake reading",
    "Something that was read off the brakes: a pedal's travel, a roller sheet, a gauge.",
    Record(
        BrakeReading,
        (
            Field("id", "id", ident(), "its short name"),
            Field("kind", "kind", one_of(ReadingKind), "how it was taken"),
            Field("at", "at", moment(), "when"),
            Field("figures", "figures", _figures(), "what was read"),
            Field("choices", "choices", _words(), "what was chosen among words"),
            Field("words", "words", text(), "what was seen"),
            Field("by", "by", text(), "who saw it"),
            Field("of", "system", text("id of brakes"), "off which brakes, if not as built"),
        ),
    ),
    lambda build: build.brake_readings,
    lambda value: str(value.id),
    c.BrakeReadingTaken,
    dated="at",
)

YARDSTICKS: Final = Section(
    "yardsticks",
    "yardsticks",
    "The yardsticks that results are held against.",
    Record(c.YardsticksChosen, (Field("ids", "ids", texts(), "their short names"),)),
    lambda build: (
        {} if build.yardsticks is None else {"yardsticks": c.YardsticksChosen(build.yardsticks)}
    ),
    lambda _value: "yardsticks",
    lambda value: value,
    single=True,
)

BRAKE_SECTIONS = (BRAKES, READING, YARDSTICKS)
"""The sections of the brakes."""
