"""What was read off the brakes, and the yardsticks they are held against."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from bareshell.app.brakes_parts import FigureField, unit_of, with_unit
from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.written import Pen, Written, filled, new_key, write_down
from bareshell.brakes.typed import figure_text, read_one
from bareshell.brakes.yardsticks import YARDSTICKS
from bareshell.errors import BadInput
from bareshell.model import changes as c
from bareshell.model.brake import (
    BrakeReading,
    Choice,
    ReadingKind,
    reading_choices,
    reading_fields,
)
from bareshell.whole.brake_words import describe_reading

KINDS: Mapping[ReadingKind, str] = {
    ReadingKind.PEDAL_TEST: "Two forces on the pedal, and how far it went at each.",
    ReadingKind.ROLLER: "The sheet of a roller tester, wheel by wheel.",
    ReadingKind.DECELEROMETER: "A decelerometer in the car, or on the seat.",
    ReadingKind.STOP: "A stop measured on a road that is yours to use.",
    ReadingKind.HOLD: "A closed line left under pressure, with the joints looked at.",
    ReadingKind.BLEEDING: "One screw bled: how much came, and what came last.",
    ReadingKind.PARKING: "The car left standing on a slope.",
    ReadingKind.DESCENT: "Temperatures after a long descent.",
    ReadingKind.BEDDING: "Stops made to bed new linings in.",
    ReadingKind.FLUID: "A sample of the fluid, boiled or measured.",
}
"""Each kind of reading and what it is."""


@dataclass(frozen=True, slots=True)
class ReadingForm:
    """What the form of a kind of reading asks for."""

    kind: ReadingKind
    words: str
    figures: tuple[FigureField, ...]
    choices: tuple[Choice, ...]

    @property
    def names(self) -> dict[str, str]:
        """The field of the form for each name that may be typed: with its unit's letters or not."""
        figures = {one.name: f"figure_{one.name}" for one in self.figures}
        short = {name.rpartition("_")[0]: field for name, field in figures.items() if "_" in name}
        choices = {one.name: f"choice_{one.name}" for one in self.choices}
        return {**short, **figures, **choices}


def reading_form(kind: ReadingKind) -> ReadingForm:
    """Return what is asked for a kind of reading.

    Examples
    --------
    >>> [one.name for one in reading_form(ReadingKind.FLUID).figures]
    ['boiling_c', 'water_share']
    """
    figures = tuple(
        FigureField(
            field.name,
            field.words,
            unit_of(field),
            figure_text(float(f"{(field.likely_low + field.likely_high) / 2:.2g}"), field),
        )
        for field in reading_fields(kind).values()
    )
    return ReadingForm(kind, KINDS[kind], figures, tuple(reading_choices(kind).values()))


def take_reading(door: Door, kind: ReadingKind, fields: Fields, pen: Pen) -> Written:
    """Write a reading down.

    Parameters
    ----------
    door : Door
        The build.
    kind : ReadingKind
        How it was taken.
    fields : mapping
        ``figure_...`` and ``choice_...`` for each that is known, ``when``, ``words``, ``by`` and
        ``system`` when it was not read off the brakes that are on the car.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When nothing was read, or a figure cannot be.
    """
    reading = read_reading(door, kind, fields, pen)
    said = f"{kind.value.capitalize()}: {describe_reading(reading)}."
    change = c.BrakeReadingTaken(reading)
    return write_down(door, change, pen, said, happened_at=min(reading.at, door.now()))


def read_reading(door: Door, kind: ReadingKind, fields: Fields, pen: Pen) -> BrakeReading:
    """Read what was filled in as a reading; nothing is kept. See `take_reading`.

    Raises
    ------
    BadInput
        When nothing was read, or a figure cannot be.
    """
    form, build = filled(door, fields), door.build()
    figures = _figures(form, kind)
    choices = _choices(form, kind)
    when = form.moment("when", "when") or door.now()
    system = form.text("system")
    if system and system not in build.brakes:
        form.wrong("brakes", f"there are no brakes '{system}'", "choose one from the list")
    if not figures and not choices:
        form.wrong("figures", "nothing was read", "fill in at least one")
    key = new_key(door, "brake-reading", _name(kind, when), build.brake_readings, pen.entry_id)
    words, by = form.text("words"), form.text("by")
    return form.make(
        kind.value, lambda: BrakeReading(key, kind, when, figures, choices, words, by, system)
    )


def _name(kind: ReadingKind, when: datetime) -> str:
    return f"{kind.value} {when:%Y-%m-%d}"


def _figures(form: Filled, kind: ReadingKind) -> dict[str, float]:
    figures: dict[str, float] = {}
    for name, field in reading_fields(kind).items():
        typed = form.text(f"figure_{name}")
        if not typed:
            continue
        full = with_unit(typed, unit_of(field))
        value = form.attempt(lambda: read_one(full, field, field.words)[0], None)  # noqa: B023
        if value is not None:
            figures[name] = value
    return figures


def _choices(form: Filled, kind: ReadingKind) -> dict[str, str]:
    choices: dict[str, str] = {}
    for name, choice in reading_choices(kind).items():
        chosen = form.text(f"choice_{name}")
        if chosen and choice.options and chosen not in choice.options:
            listed = f"choose one of: {', '.join(choice.options)}"
            form.wrong(choice.words, f"'{chosen}' is none of its words", listed)
        elif chosen:
            choices[name] = chosen
    return choices


def choose_yardsticks(door: Door, ids: Sequence[str], pen: Pen) -> Written:
    """Choose the yardsticks that results are held against.

    Raises
    ------
    BadInput
        When one of them is not known.
    """
    unknown = [name for name in ids if name not in YARDSTICKS]
    if unknown:
        raise BadInput(
            "yardsticks", f"there is no yardstick '{unknown[0]}'", "choose from the list"
        )
    change = c.YardsticksChosen(tuple(dict.fromkeys(ids)))
    said = f"{len(change.ids)} chosen." if change.ids else "None is chosen: nothing is held up."
    return write_down(door, change, pen, said)
