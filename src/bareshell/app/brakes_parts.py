"""Parts of the brakes as forms: figures with trust and range, choices, place, ports."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from bareshell.app.brakes_found import system_of, thing_of
from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.written import Pen, Written, filled, said_before, slug, write_down
from bareshell.brakes.typed import PLAIN, figure_text, read_stated, stated_text
from bareshell.errors import NotFound
from bareshell.model import changes as c
from bareshell.model.brake import (
    BrakeSystem,
    Field,
    Fitting,
    LineKind,
    Part,
    PartKind,
    Port,
    Wheel,
    choices_of,
    fields_of,
)
from bareshell.model.trust import Stated, Trust

Laid = dict[str, tuple[str, ...]]

DEFAULT_PORTS: Final[Mapping[PartKind, tuple[Port, ...]]] = {
    PartKind.MASTER: (Port("primary", "primary"), Port("floating", "floating")),
    PartKind.REMOTE_SERVO: (Port("in", "in"), Port("out", "out")),
    PartKind.VALVE: (Port("in", "in"), Port("out", "out")),
    PartKind.TEE: (Port("in"), Port("left"), Port("right")),
    PartKind.CALIPER: (Port("in", "a"), Port("bleed", "a", bleeds=True)),
    PartKind.WHEEL_CYLINDER: (Port("in", "a"), Port("bleed", "a", bleeds=True)),
    PartKind.STUB: (Port("a"),),
}
"""The ports that a new part begins with."""

MOST_PORTS: Final = 8
_TOPS: Final[Mapping[str, bool | None]] = {"": None, "yes": True, "no": False}


@dataclass(frozen=True, slots=True)
class FigureField:
    """One figure of a part or line, for its form.

    Parameters
    ----------
    name, words : str
        As in the table of its kind.
    unit : str
        What a bare figure is taken to be in; empty where it has no unit.
    example : str
        An entry that would do.
    """

    name: str
    words: str
    unit: str
    example: str


def figure_fields(kind: PartKind | LineKind) -> tuple[FigureField, ...]:
    """Return the figures of a kind of part or line, for its form.

    Examples
    --------
    >>> figure_fields(PartKind.BALANCE_BAR)[0].unit, figure_fields(PartKind.MASTER)[0].unit
    ('', 'mm')
    """
    return tuple(
        FigureField(field.name, field.words, unit_of(field), _example(field))
        for field in fields_of(kind).values()
    )


def unit_of(field: Field) -> str:
    """Return the unit that stands behind a figure's box; a bare figure is meant in it."""
    if field.quantity in PLAIN:
        return ""
    return figure_text(field.likely_high, field).rpartition(" ")[2]


def _example(field: Field) -> str:
    middle = (field.likely_low + field.likely_high) / 2
    return figure_text(float(f"{middle:.2g}"), field)


# --- laying out ------------------------------------------------------------------------------


def lay_part(part: Part) -> Laid:
    """Lay a part out as the fields of a form; what is unknown stays empty."""
    laid: Laid = {
        "title": (part.title,),
        "kind": (part.kind.value,),
        "wheel": (part.wheel.value if part.wheel else "",),
        "behind": (_millimetres(part.at_m, 0),),
        "right": (_millimetres(part.at_m, 1),),
        "departure": (part.departure,),
        "note": (part.note,),
    }
    laid |= lay_figures(part.kind, part.figures, part.choices)
    for number, port in enumerate(part.ports):
        laid |= lay_port(number, port)
    return laid


def _millimetres(at_m: tuple[float, float] | None, which: int) -> str:
    return "" if at_m is None else f"{at_m[which] * 1000:g} mm"


def lay_figures(
    kind: PartKind | LineKind, figures: Mapping[str, Stated], choices: Mapping[str, str]
) -> Laid:
    """Lay figures and choices out: each figure with its range and its trust."""
    laid: Laid = {}
    for name, stated in figures.items():
        field = fields_of(kind)[name]
        laid[f"figure_{name}"] = (bare_text(stated.value, field),)
        laid[f"range_{name}"] = (range_text(stated, field),)
        laid[f"trust_{name}"] = (stated.trust.value,)
    for name, chosen in choices.items():
        laid[f"choice_{name}"] = (chosen,)
    return laid


def bare_text(value: float, field: Field) -> str:
    """Write a figure as it stands in its box: without the unit that is printed behind it.

    Examples
    --------
    >>> bare_text(0.019, fields_of(PartKind.MASTER)["bore_m"])
    '19'
    """
    text, unit = figure_text(value, field), unit_of(field)
    return text.removesuffix(unit).strip() if unit else text


def range_text(stated: Stated, field: Field) -> str:
    """Write the range of a figure as it is typed; nothing when it has none.

    Examples
    --------
    >>> bore = fields_of(PartKind.MASTER)["bore_m"]
    >>> range_text(Stated(0.019, Trust.ASSUMED, 0.0185, 0.0195), bore)
    '18.5 to 19.5 mm'
    """
    found = re.search(r"\((.+)\)", stated_text(stated, field))
    return found[1] if found else ""


def lay_port(number: int, port: Port) -> Laid:
    """Lay a port out as the fields of one row."""
    top = {True: "yes", False: "no", None: ""}[port.at_top]
    return {
        f"port{number}": (port.name,),
        f"chamber{number}": (port.chamber,),
        f"bleeds{number}": ("yes",) if port.bleeds else (),
        f"top{number}": (top,),
        **lay_fitting(f"port{number}_", port.fitting),
    }


def lay_fitting(before: str, fitting: Fitting) -> Laid:
    """Lay one side of a joint out."""
    return {
        f"{before}thread": (fitting.thread,),
        f"{before}sex": (fitting.sex,),
        f"{before}seat": (fitting.seat,),
        f"{before}flare": (fitting.flare,),
    }


# --- reading back ----------------------------------------------------------------------------


def set_part(door: Door, system_id: str, part_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add a part to brakes, or correct one.

    A form that says nothing of ports leaves them as they are; a new part gets those that its
    kind usually has.
    """
    form, system = filled(door, fields), system_of(door.build(), system_id)
    old = part_of(system, part_id) if part_id is not None else None
    kind = old.kind if old else form.choice("kind", "kind of part", PartKind, PartKind.TEE)
    title = form.text("title", "what you call it")
    wheel = form.choice("wheel", "wheel", Wheel, Wheel.FRONT_LEFT) if form.has("wheel") else None
    at_m = _place(form)
    figures, choices = read_figures(form, kind, title or kind.value)
    ports = _ports(form, old)
    key = part_id or new_thing_id(door, system, "brake-part", title, pen)
    part = form.make(
        title,
        lambda: Part(
            key,
            title,
            kind,
            wheel,
            at_m,
            figures,
            choices,
            ports if ports is not None else DEFAULT_PORTS.get(kind, ()),
            form.text("departure"),
            form.text("note"),
        ),
    )
    return write_down(door, c.BrakePartSet(system.id, part), pen, f"'{title}' is written down.")


def part_of(system: BrakeSystem, part_id: str) -> Part:
    """Return a part, or say that there is none."""
    thing = thing_of(system, part_id)
    if not isinstance(thing, Part):
        raise NotFound(f"'{thing.title}' is a {thing.kind}, not a part", "look among the lines")
    return thing


def drop_part(door: Door, system_id: str, part_id: str, fields: Fields, pen: Pen) -> Written:
    """Take a part out of brakes; the lines that were screwed to it end loose."""
    if before := said_before(door, f"brake-part:{system_id}/{part_id}", pen):
        return before
    system = system_of(door.build(), system_id)
    title = part_of(system, part_id).title
    change = c.BrakePartDropped(system.id, part_id, filled(door, fields).text("words"))
    return write_down(door, change, pen, f"'{title}' is out of these brakes.")


def read_figures(
    form: Filled, kind: PartKind | LineKind, where: str
) -> tuple[dict[str, Stated], dict[str, str]]:
    """Read figures with their ranges and trusts, and choices; an empty box is not known."""
    figures: dict[str, Stated] = {}
    for name, field in fields_of(kind).items():
        typed = form.text(f"figure_{name}")
        if typed:
            stated = form.attempt(lambda: _stated(form, name, typed, field), None)  # noqa: B023
            if stated is not None:
                figures[name] = stated
    choices: dict[str, str] = {}
    for name, choice in choices_of(kind).items():
        chosen = form.text(f"choice_{name}")
        if not chosen:
            continue
        if choice.options and chosen not in choice.options:
            listed = f"choose one of: {', '.join(choice.options)}"
            form.wrong(f"{where}, {choice.words}", f"'{chosen}' is none of its words", listed)
        else:
            choices[name] = chosen
    return figures, choices


def _stated(form: Filled, name: str, typed: str, field: Field) -> Stated:
    """Read one figure from its three boxes: the value, what it may lie between, how it is known."""
    unit = unit_of(field)
    between = form.text(f"range_{name}")
    said = with_unit(typed, unit) + (f" ({between})" if between else "")
    trust = form.text(f"trust_{name}")
    known = set(Trust)
    stated = read_stated(f"{said}, {trust}" if trust in known else said, field, "").stated
    if trust and trust not in known:
        words = f"choose one of: {', '.join(Trust)}"
        form.wrong(field.words, f"'{trust}' does not say how it is known", words)
    return stated


def with_unit(typed: str, unit: str) -> str:
    """Put the unit that the form prints behind a bare figure.

    Examples
    --------
    >>> with_unit("227", "mm"), with_unit("9 in", "mm"), with_unit("3/4", "mm")
    ('227 mm', '9 in', '3/4')
    """
    bare = typed.replace(",", ".").replace(".", "", 1).lstrip("+-").isdigit()
    return f"{typed} {unit}" if bare and unit else typed


def _place(form: Filled) -> tuple[float, float] | None:
    from bareshell.units import parse_length

    def read(name: str, words: str) -> float | None:
        typed = form.text(name)
        if not typed:
            return None
        length = form.attempt(lambda: parse_length(typed, words, bare="mm", signed=True), None)
        return None if length is None else round(length, 6)

    behind = read("behind", "behind the front axle")
    right = read("right", "right of the middle")
    if form.has("behind") != form.has("right"):
        form.wrong("place", "one half of it is missing", "say how far behind and how far right")
    return None if behind is None or right is None else (behind, right)


def _ports(form: Filled, old: Part | None) -> tuple[Port, ...] | None:
    """Read the rows of ports; None when the form has none of them."""
    if not form.tick("has_ports"):
        return old.ports if old else None
    return tuple(_rows(form))


def _rows(form: Filled) -> Iterator[Port]:
    for number in range(MOST_PORTS):
        name = form.text(f"port{number}")
        if not name:
            continue
        top = form.text(f"top{number}")
        if top not in _TOPS:
            form.wrong(
                f"port {name}", f"'{top}' does not say whether it is at the top", "say yes or no"
            )
        yield Port(
            name,
            form.text(f"chamber{number}"),
            form.tick(f"bleeds{number}"),
            _TOPS.get(top),
            read_fitting(form, f"port{number}_"),
        )


def read_fitting(form: Filled, before: str) -> Fitting:
    """Read one side of a joint; the thread is kept as the trade writes it."""
    thread = form.text(f"{before}thread")
    if thread:
        from bareshell.units import parse_thread

        form.attempt(lambda: parse_thread(thread, "thread"), None)
    return Fitting(
        thread,
        form.text(f"{before}sex"),
        form.text(f"{before}seat"),
        form.text(f"{before}flare"),
    )


def new_thing_id(door: Door, system: BrakeSystem, kind: str, title: str, pen: Pen) -> str:
    """Find an id for a new part or line; the same form sent again finds the same one."""
    taken = {part.id for part in system.parts} | {line.id for line in system.lines}
    name = slug(title)
    number = 1
    while True:
        key = name if number == 1 else f"{name}-{number}"
        subject = f"{kind}:{system.id}/{key}"
        if key not in taken or said_before(door, subject, pen) is not None:
            return key
        number += 1
