"""What was said of the brakes, in garage words; see ``words``."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from bareshell.model import changes as c
from bareshell.model.brake import (
    BrakeReading,
    Choice,
    Field,
    Role,
    choices_of,
    fields_of,
    reading_choices,
    reading_fields,
)
from bareshell.model.trust import Stated
from bareshell.units.show_quantity import show_quantity
from bareshell.whole.names import Names

MOST_FIGURES = 3
"""So many figures of a part are said in one clause; the rest are counted."""

_STANDS_FOR = {
    Role.AS_BUILT: "on the car",
    Role.STANDARD: "as it left the works",
    Role.IDEA: "an idea",
}


def _said(words: str) -> str:
    return f": {words.strip()}" if words.strip() else ""


def _system_set(_names: Names, change: c.BrakeSystemSet) -> str:
    system = change.system
    count = f"{len(system.parts)} parts, {len(system.lines)} lines"
    return f"brakes '{system.title}' were described ({_STANDS_FOR[system.role]}; {count})"


def _system_dropped(names: Names, change: c.BrakeSystemDropped) -> str:
    dropped = names.title("brakes", change.system_id)
    return f"the description of the brakes {dropped} was dropped{_said(change.words)}"


def _part_set(names: Names, change: c.BrakePartSet) -> str:
    part = change.part
    said = _figures(part.figures, part.choices, fields_of(part.kind), choices_of(part.kind))
    system = names.title("brakes", change.system_id)
    return f"brake part '{part.title}' of {system} was written down{said}"


def _line_set(names: Names, change: c.BrakeLineSet) -> str:
    line = change.line
    system = names.title("brakes", change.system_id)
    said = _figures(line.figures, line.choices, fields_of(line.kind), choices_of(line.kind))
    return f"brake {line.kind.value} '{line.title}' of {system} was written down{said}"


def _part_dropped(names: Names, change: c.BrakePartDropped) -> str:
    part = names.title("brake-part", f"{change.system_id}/{change.part_id}")
    system = names.title("brakes", change.system_id)
    return f"brake part {part} was taken out of {system}{_said(change.words)}"


def _line_dropped(names: Names, change: c.BrakeLineDropped) -> str:
    line = names.title("brake-line", f"{change.system_id}/{change.line_id}")
    system = names.title("brakes", change.system_id)
    return f"brake line {line} was taken out of {system}{_said(change.words)}"


def describe_reading(reading: BrakeReading) -> str:
    """Say in words what was read: its figures, then what was chosen.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.model.brake import ReadingKind
    >>> at = datetime(2026, 3, 4, tzinfo=UTC)
    >>> describe_reading(BrakeReading("d", ReadingKind.PARKING, at, {"clicks": 6.0}))
    'clicks of the lever 6'
    """
    fields, choices = reading_fields(reading.kind), reading_choices(reading.kind)
    said = [
        f"{field.words} {show_quantity(field.quantity, reading.figures[name])}"
        for name, field in fields.items()
        if name in reading.figures
    ]
    said += [
        f"{choice.words}: {reading.choices[name]}"
        for name, choice in choices.items()
        if reading.choices.get(name)
    ]
    return ", ".join(said)


def _reading_taken(_names: Names, change: c.BrakeReadingTaken) -> str:
    reading = change.reading
    read = describe_reading(reading)
    figures = f" ({read})" if read else ""
    return f"{reading.kind.value} was written down{figures}{_said(reading.words)}"


def _yardsticks(_names: Names, change: c.YardsticksChosen) -> str:
    if not change.ids:
        return "no yardsticks were chosen for the brakes"
    many = "yardstick was" if len(change.ids) == 1 else "yardsticks were"
    return f"{len(change.ids)} {many} chosen for the brakes"


def _figures(
    figures: Mapping[str, Stated],
    choices: Mapping[str, str],
    fields: Mapping[str, Field],
    open_choices: Mapping[str, Choice],
) -> str:
    said = [
        f"{fields[name].words} {show_quantity(fields[name].quantity, stated.value)}"
        for name, stated in figures.items()
    ]
    said += [f"{open_choices[name].words} {chosen}" for name, chosen in choices.items()]
    if not said:
        return ""
    more = f" and {len(said) - MOST_FIGURES} more" if len(said) > MOST_FIGURES else ""
    return f": {', '.join(said[:MOST_FIGURES])}{more}"


TELLERS: dict[type[c.Change], Callable[[Names, Any], str]] = {
    c.BrakeSystemSet: _system_set,
    c.BrakeSystemDropped: _system_dropped,
    c.BrakePartSet: _part_set,
    c.BrakePartDropped: _part_dropped,
    c.BrakeLineSet: _line_set,
    c.BrakeLineDropped: _line_dropped,
    c.BrakeReadingTaken: _reading_taken,
    c.YardsticksChosen: _yardsticks,
}
