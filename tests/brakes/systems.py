"""Brake systems to try things on: any at all, and one invented car of which everything is known."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from bareshell.brakes.starters import STARTERS, starter
from bareshell.model.brake import (
    BrakeSystem,
    Field,
    Fitting,
    Line,
    LineEnd,
    LineKind,
    Part,
    PartKind,
    Port,
    Role,
    Wheel,
    choices_of,
    fields_of,
)
from bareshell.model.trust import Stated, Trust

WORDS = st.text("abcdefghijklmnopqrstuvwxyz '\"#[]=,\n\\éß-", max_size=20)
POINTS = st.tuples(*(st.floats(-5, 8).map(lambda value: round(value, 3) + 0.0) for _ in range(2)))
FITTINGS = st.builds(
    Fitting,
    thread=st.sampled_from(("", "M10x1", "3/8-24 UNF", "7/16-20 UNF")),
    sex=st.sampled_from(("", "male", "female")),
    seat=st.sampled_from(("", "45 degree", "convex", "washer")),
    flare=st.sampled_from(("", "double 45 degree", "convex single")),
)


@st.composite
def stated(draw: st.DrawFn, field: Field) -> Stated:
    """Draw any figure that a field may hold, in steps of a millionth of all it may be."""
    if field.quantity == "count":
        inside = st.integers(int(field.least), int(field.most)).map(float)
    else:
        step = (field.most - field.least) / 1e6
        inside = st.integers(0, 1_000_000).map(lambda steps: field.least + steps * step)
    three = draw(st.lists(inside, min_size=3, max_size=3).map(sorted))
    low, value, high = (min(float(f"{each:.12g}"), field.most) for each in three)
    ranged = draw(st.booleans())
    return Stated(
        value, draw(st.sampled_from(Trust)), low if ranged else None, high if ranged else None
    )


@st.composite
def known(draw: st.DrawFn, kind: PartKind | LineKind) -> dict[str, Any]:
    """Draw some figures and choices of a kind of part."""
    fields, choices = fields_of(kind), choices_of(kind)
    named = draw(st.sets(st.sampled_from(sorted(fields)), max_size=3)) if fields else set()
    chosen = draw(st.sets(st.sampled_from(sorted(choices)), max_size=2)) if choices else set()
    return {
        "figures": {name: draw(stated(fields[name])) for name in sorted(named)},
        "choices": {
            name: draw(st.sampled_from(choices[name].options) if choices[name].options else WORDS)
            for name in sorted(chosen)
        },
    }


@st.composite
def new_parts(draw: st.DrawFn) -> Part:
    """Draw a part that no starter has."""
    kind = draw(st.sampled_from(PartKind))
    ports = [
        Port(name, draw(WORDS), draw(st.booleans()), draw(st.none() | st.booleans()), fitting)
        for name, fitting in draw(
            st.dictionaries(st.sampled_from(("in", "out", "front in", "x")), FITTINGS, max_size=3)
        ).items()
    ]
    return Part(
        "added-part",
        draw(WORDS.filter(bool)),
        kind,
        draw(st.none() | st.sampled_from(Wheel)),
        draw(st.none() | POINTS),
        ports=tuple(ports),
        departure=draw(WORDS),
        note=draw(WORDS),
        **draw(known(kind)),
    )


@st.composite
def new_lines(draw: st.DrawFn) -> Line:
    """Draw a line that no starter has, its ends anywhere or nowhere."""
    kind = draw(st.sampled_from(LineKind))
    ends = [
        LineEnd(*draw(st.sampled_from((("", ""), ("master", "spare"), ("nobody", "in")))), fitting)
        for fitting in (draw(FITTINGS), draw(FITTINGS))
    ]
    return Line(
        "added-line",
        draw(WORDS.filter(bool)),
        kind,
        (ends[0], ends[1]),
        route_m=tuple(draw(st.lists(POINTS, max_size=3))),
        departure=draw(WORDS),
        note=draw(WORDS),
        **draw(known(kind)),
    )


@st.composite
def any_systems(draw: st.DrawFn) -> BrakeSystem:
    """Draw a starter that somebody has been at: figures, fittings, pieces gone and come."""
    base = starter(
        draw(st.sampled_from(sorted(STARTERS))),
        driver_on=draw(st.sampled_from(("right", "left"))),
        threads=draw(st.sampled_from(("", "inch", "metric"))),
        role=draw(st.sampled_from(Role)),
        title=draw(WORDS),
    )
    ids = [*(part.id for part in base.parts), *(line.id for line in base.lines)]
    touched = draw(st.sets(st.sampled_from(ids), max_size=4))
    gone = draw(st.sets(st.sampled_from(ids), max_size=2))
    parts = [_part_touched(draw, part) if part.id in touched else part for part in base.parts]
    lines = [_line_touched(draw, line) if line.id in touched else line for line in base.lines]
    return replace(
        base,
        parts=(
            *(part for part in parts if part.id not in gone),
            *draw(st.lists(new_parts(), max_size=1)),
        ),
        lines=(
            *(line for line in lines if line.id not in gone),
            *draw(st.lists(new_lines(), max_size=1)),
        ),
        note=draw(st.just(base.note) | WORDS),
    )


def _part_touched(draw: st.DrawFn, part: Part) -> Part:
    ports = [replace(port, at_top=draw(st.none() | st.booleans())) for port in part.ports]
    if draw(st.booleans()):
        ports = ports[:1]
    return replace(
        part,
        title=draw(st.just(part.title) | WORDS.filter(bool)),
        at_m=draw(st.just(part.at_m) | st.none() | POINTS),
        ports=tuple(ports),
        note=draw(st.just(part.note) | WORDS),
        **draw(known(part.kind)),
    )


def _line_touched(draw: st.DrawFn, line: Line) -> Line:
    first, second = line.ends
    if draw(st.booleans()):
        first = replace(first, fitting=draw(FITTINGS))
    if draw(st.booleans()):
        second = LineEnd()
    return replace(
        line,
        ends=(first, second),
        route_m=draw(st.just(line.route_m) | st.just(())),
        departure=draw(st.just(line.departure) | WORDS),
        **draw(known(line.kind)),
    )
