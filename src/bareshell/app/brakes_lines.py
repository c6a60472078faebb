"""Pipes and hoses of the brakes as forms: both ends, figures, the way they run."""

from __future__ import annotations

import re
from typing import Final

from bareshell.app.brakes_found import system_of, thing_of
from bareshell.app.brakes_parts import (
    Laid,
    lay_figures,
    lay_fitting,
    new_thing_id,
    read_figures,
    read_fitting,
)
from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.written import Pen, Written, filled, said_before, write_down
from bareshell.errors import NotFound
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind
from bareshell.units import parse_length

MOST_BENDS: Final = 40
_BEND = re.compile(r"\s*(-?[\d.]+)\s*(?:mm)?\s*[,;]\s*(-?[\d.]+)\s*(?:mm)?\s*")


def ports_of(system: BrakeSystem) -> tuple[tuple[str, str], ...]:
    """Return every port that a line may end at, as (``part: port``, words)."""
    return tuple(
        (f"{part.id}:{port.name}", f"{part.title}, {port.name}")
        for part in system.parts
        for port in part.ports
        if not port.bleeds
    )


def lay_line(line: Line) -> Laid:
    """Lay a line out as the fields of a form; what is unknown stays empty."""
    laid: Laid = {
        "title": (line.title,),
        "kind": (line.kind.value,),
        "departure": (line.departure,),
        "note": (line.note,),
        "route": ("\n".join(f"{x * 1000:g}, {y * 1000:g}" for x, y in line.route_m),),
    }
    for number, end in enumerate(line.ends):
        laid[f"end{number}"] = (f"{end.part}:{end.port}" if end.part else "",)
        laid |= lay_fitting(f"end{number}_", end.fitting)
    return laid | lay_figures(line.kind, line.figures, line.choices)


def set_line(door: Door, system_id: str, line_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add a pipe or hose to brakes, or correct one."""
    form, system = filled(door, fields), system_of(door.build(), system_id)
    old = line_of(system, line_id) if line_id is not None else None
    kind = form.choice("kind", "kind of line", LineKind, old.kind if old else LineKind.PIPE)
    title = form.text("title", "what you call it")
    ends = (_end(form, system, 0), _end(form, system, 1))
    figures, choices = read_figures(form, kind, title or kind.value)
    route = _route(form)
    key = line_id or new_thing_id(door, system, "brake-line", title, pen)
    departure, note = form.text("departure"), form.text("note")
    line = form.make(
        title, lambda: Line(key, title, kind, ends, figures, choices, route, departure, note)
    )
    return write_down(door, c.BrakeLineSet(system.id, line), pen, f"'{title}' is written down.")


def line_of(system: BrakeSystem, line_id: str) -> Line:
    """Return a line, or say that there is none."""
    thing = thing_of(system, line_id)
    if not isinstance(thing, Line):
        raise NotFound(f"'{thing.title}' is a {thing.kind}, not a line", "look among the parts")
    return thing


def drop_line(door: Door, system_id: str, line_id: str, fields: Fields, pen: Pen) -> Written:
    """Take a pipe or hose out of brakes."""
    if before := said_before(door, f"brake-line:{system_id}/{line_id}", pen):
        return before
    system = system_of(door.build(), system_id)
    title = line_of(system, line_id).title
    change = c.BrakeLineDropped(system.id, line_id, filled(door, fields).text("words"))
    return write_down(door, change, pen, f"'{title}' is out of these brakes.")


def _end(form: Filled, system: BrakeSystem, number: int) -> LineEnd:
    said = form.text(f"end{number}")
    fitting = read_fitting(form, f"end{number}_")
    part, _, port = said.partition(":")
    if said and said not in dict(ports_of(system)):
        form.wrong(f"end {number + 1}", f"'{said}' is no port of these brakes", "choose one")
        return LineEnd(fitting=fitting)
    return LineEnd(part, port, fitting)


def _route(form: Filled) -> tuple[tuple[float, float], ...]:
    points = []
    for number, row in enumerate(form.lines("route"), 1):
        match = _BEND.fullmatch(row)
        if match is None or number > MOST_BENDS:
            form.wrong(
                "way it runs",
                f"row {number}, '{row}', cannot be read",
                f"write at most {MOST_BENDS} rows such as 1200, -400: millimetres behind the "
                "front axle and right of the middle",
            )
            break
        first, second = (
            round(parse_length(f"{each} mm", "way it runs", signed=True), 6)
            for each in match.groups()
        )
        points.append((first, second))
    return tuple(points)
