"""Legends of the brake pictures: a small piece of each line and sign before its words."""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.draw.brake_car import BleedMark, CarPlan, PlanFailure, style_words
from bareshell.draw.brake_plan import drawn_line, tag
from bareshell.draw.brake_routes import arrow, wavy
from bareshell.draw.brake_symbols import octagon
from bareshell.draw.svg import Svg, circle, decoration, path, rect, text

KeyLine = tuple[Svg, str]
"""What stands before the words, and the words."""


def circuit_key(
    plan: CarPlan,
    failure: PlanFailure | None = None,
    *,
    flow: bool = False,
    bleeds: Sequence[BleedMark] = (),
) -> tuple[KeyLine, ...]:
    """What the car plan needs explained, and no more.

    Parameters
    ----------
    plan : CarPlan
        What is drawn.
    failure : PlanFailure, optional
        What it is shown with.
    flow : bool
        Whether arrows are drawn.
    bleeds : sequence of BleedMark
        The order of bleeding, when it is drawn.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> from bareshell.draw.brake_places import plan_of
    >>> [words for _, words in circuit_key(plan_of(starter("single line")))]
    ['circuit 1, all wheels: cased line, ring', 'flexible hose']
    """
    key: list[KeyLine] = []
    for circuit in plan.circuits:
        name = f"circuit {circuit.number}{f', {circuit.title}' if circuit.title else ''}"
        line = drawn_line("M1 12H56", "pipe", circuit.number)
        lost = failure is not None and circuit.number in failure.lost_circuits
        piece = _piece(58, 24, line, tag(circuit.number, (28, 12), lost=lost))
        said = f"{name}: {style_words(circuit.number)}"
        key.append((piece, f"{said}, struck: no pressure" if lost else said))
    if any(line.circuit == 0 for line in plan.lines):
        key.append((_piece(58, 12, drawn_line("M1 6H56", "pipe", 0)), "no circuit reaches it"))
    if any(line.kind == "hose" for line in plan.lines):
        key.append((_piece(58, 16, path(wavy(((1, 8), (57, 8))), "bk-hose")), "flexible hose"))
    if flow:
        way = ((0.0, 8.0), (18.0, 8.0))
        key.append((_piece(18, 16, path(arrow(way, 0.5), "bk-arrow")), "flow, pedal going down"))
    if any(part.removed for part in plan.parts):
        ghost = (rect(1, 1, 18, 18, "bk-ghost", rx=4), path("M4 16L16 4", "l"))
        key.append((_piece(20, 20, *ghost), "taken off"))
    if any(part.by_habit for part in plan.parts):
        key.append((_piece(30, 12, path("M1 6H29", "bk-lead l-dot")), "place not entered"))
    if failure is not None and failure.elements:
        key.append((_piece(26, 26, octagon((13, 13))), "the failed element"))
    if failure is not None and failure.without_brake:
        bare = (rect(1, 1, 18, 18, "bk-tyre bk-bare"), rect(1, 1, 18, 18, fill="url(#h-lost)"))
        key.append((_piece(20, 20, *bare), "no brake here"))
    if any(mark.number for mark in bleeds):
        turn = (circle(11, 11, 10.5, "bk-turn"), text(11, 16, "1", "t-name t-on-ink", "middle"))
        key.append((_piece(22, 22, *turn), "turn of a bleed screw"))
    if any(not mark.number for mark in bleeds):
        vent = (rect(1, 1, 20, 20, "bk-turn"), text(11, 16, "v", "t-name t-on-ink", "middle"))
        key.append((_piece(22, 22, *vent), "no screw empties it: vent this end"))
    return tuple(key)


def _piece(width: float, height: float, *drawn: Svg) -> Svg:
    return decoration(width, height, *drawn, class_=f"bk-key bk-key-{int(width)}")
