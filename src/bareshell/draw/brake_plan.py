"""The car from above with its circuits in place, to scale; every part and line can be a link."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from bareshell.draw.brake_car import WHOLE, BleedMark, CarPlan, PlanFailure, PlanLine, PlanPart
from bareshell.draw.brake_margin import Placed, placed_notes
from bareshell.draw.brake_plan_words import notes_of
from bareshell.draw.brake_routes import arrow, at_share, length_of, rounded, wavy
from bareshell.draw.brake_sheet import (
    NARROW,
    Box,
    Href,
    Point,
    around,
    lines_of,
    link,
    listed,
    sheet,
)
from bareshell.draw.brake_stage import Stage, car_outline, scale_bar, set_stage, wheels
from bareshell.draw.brake_symbols import moved, octagon
from bareshell.draw.brake_ways import Ways, ways_of
from bareshell.draw.svg import Svg, circle, joined, number, path, rect, text

_TAG: Final = 9.0
_APART: Final = 8.0  # a sign that stands this far from its place is owned up to
_SHARES: Final = (0.5, 0.35, 0.65, 0.2, 0.8)


def circuit_plan(
    plan: CarPlan,
    *,
    failure: PlanFailure | None = None,
    bleeds: Sequence[BleedMark] = (),
    href: Href | None = None,
    flow: bool = False,
    width: float = NARROW,
) -> Svg:
    """The car from above, nose up, with both circuits.

    Parameters
    ----------
    plan : CarPlan
        The car and its brakes.
    failure : PlanFailure, optional
        What it is shown with: the failed element as an octagon with its word, the tags of lost
        circuits struck, wheels without a brake hatched and so called.
    bleeds : sequence of BleedMark
        The order of bleeding, numbered at the screws.
    href : callable, optional
        The address for an id; with it every part and line is a link that the keyboard reaches.
    flow : bool
        Whether arrows show where fluid runs when the pedal goes down.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    stage = set_stage(plan, width)
    ways = ways_of(stage)
    shown = failure or WHOLE
    notes = notes_of(stage, ways, shown, bleeds)
    placed, foot = placed_notes(notes, width, stage.sides, 34.0, stage.foot + 6.0)
    below, height = _foot(stage, ways, max(foot, stage.foot) + 22.0)
    taken = [stage.box(part.id) for part in plan.parts]
    taken += [box for block in placed for box in block.boxes()]
    marks = _marks(stage, ways, shown)
    taken += [around(mark, 13.0) for mark in marks]
    tags = _tags(stage, ways, shown, taken)
    return sheet(
        width,
        height,
        sentence(plan, failure, bleeds),
        car_outline(stage),
        wheels(stage, shown.without_brake),
        _rods(stage),
        *(_line(line, stage, ways, placed, href, shown) for line in plan.lines),
        joined(*(block.leader() for block in placed)),
        *(_part(part, stage, placed, href) for part in plan.parts),
        _arrows(plan, ways, taken) if flow else Svg(),
        tags,
        *(octagon(mark) for mark in marks),
        _screws(stage, bleeds, taken),
        below,
        linked=href is not None,
    )


def sentence(
    plan: CarPlan, failure: PlanFailure | None = None, bleeds: Sequence[BleedMark] = ()
) -> str:
    """What the plan shows, for those who cannot see it."""
    said = ["Car from above, nose up, to scale."]
    said += [circuit.sentence for circuit in plan.circuits]
    if bleeds:
        titles = {part.id: part.title for part in plan.parts}
        turns = [
            f"{mark.number} {titles.get(mark.part, mark.part)}, {mark.words}"
            for mark in bleeds
            if mark.number
        ]
        said.append(f"Order of bleeding: {'; '.join(turns)}.")
        ends = [titles.get(mark.part, mark.part) for mark in bleeds if not mark.number]
        if ends:
            said.append(f"No screw empties the leg to {listed(ends)}: vent it there.")
    if failure is not None:
        said.append(failure.sentence)
        if failure.without_brake:
            said.append(f"No brake at {listed(failure.without_brake)}.")
    return " ".join(said)


def _rods(stage: Stage) -> Svg:
    """The rods of the pedal, the servo and the cylinder."""
    drawn = []
    for one, two in stage.plan.pushes:
        if one in stage.places and two in stage.places:
            (x1, y1), (x2, y2) = stage.places[one], stage.places[two]
            drawn.append(
                path(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}", "l-thick bk-rod")
            )
    return joined(*drawn)


# ---------------------------------------------------------------- lines


def _line(
    line: PlanLine,
    stage: Stage,
    ways: Ways,
    placed: Sequence[Placed],
    href: Href | None,
    failure: PlanFailure,
) -> Svg:
    way = ways.by_id.get(line.id)
    if way is None:
        return Svg()
    d = wavy(way) if line.kind == "hose" else rounded(way)
    failed = line.id in failure.elements
    open_ends = [
        circle(way[index][0], way[index][1], 4, "box bk-open")
        for index, end in ((0, line.ends[0]), (-1, line.ends[1]))
        if end[0] not in stage.places
    ]
    circuit = f"circuit {line.circuit}" if line.circuit else "no circuit reaches it"
    called = f"{line.title}, {line.kind}, {circuit}"
    words = joined(*(block.drawn(line.id) for block in placed))
    return link(
        href(line.id) if href else None,
        called,
        path(d, "bk-hit bk-hit-line") if href else Svg(),
        drawn_line(d, line.kind, line.circuit, failed=failed),
        *open_ends,
        words,
    )


def drawn_line(d: str, kind: str, circuit: int, *, failed: bool = False) -> Svg:
    """A line of the circuit in its style.

    Parameters
    ----------
    d : str
        Its path.
    kind : str
        ``pipe``, ``hose`` or ``screwed straight in``.
    circuit : int
        1 cased, 2 long dashes, 3 dash and dot, 4 short dashes; 0 dotted.
    failed : bool
        Whether it is the element that has failed.
    """
    if kind == "hose":
        return joined(path(d, "bk-under"), path(d, "bk-hose bk-ox" if failed else "bk-hose"))
    if circuit == 1:
        return joined(
            path(d, "bk-under"),
            path(d, "bk-case bk-ox" if failed else "bk-case"),
            path(d, "bk-core"),
        )
    style = ("bk-none", "", "bk-long", "bk-dashdot", "bk-short")[min(circuit, 4)]
    return joined(path(d, "bk-under"), path(d, f"bk-line {style}{' bk-ox' if failed else ''}"))


def tag(circuit: int, at: Point, *, lost: bool = False) -> Svg:
    """The number of a circuit in its shape; struck through when the circuit is lost."""
    shapes = (
        circle(0, 0, _TAG, "box"),
        rect(-8.5, -8.5, 17, 17, "box"),
        path("M0 -12L12 8.5H-12Z", "box"),
        path("M0 -12.5L12.5 0L0 12.5L-12.5 0Z", "box"),
    )
    struck = path("M-13 13L13 -13", "bk-strike") if lost else Svg()
    return moved(
        at,
        shapes[min(circuit, 4) - 1],
        struck,
        text(0, 5, str(circuit), "t-name halo" if lost else "t-name", "middle"),
    )


def _tags(stage: Stage, ways: Ways, failure: PlanFailure, taken: list[Box]) -> Svg:
    """Number the lines of each circuit where nothing else stands, the long ones first."""
    drawn = []
    lines = [line for line in stage.plan.lines if line.circuit and line.id in ways.by_id]
    lines.sort(key=lambda line: (line.kind != "pipe", -length_of(ways.by_id[line.id])))
    tagged: dict[int, int] = {}
    for line in lines:
        way = ways.by_id[line.id]
        enough = tagged.get(line.circuit, 0) >= 1 and length_of(way) < 60
        if enough or tagged.get(line.circuit, 0) >= 4:
            continue
        for share in _SHARES:
            at, _ = at_share(way, share)
            box = around(at, _TAG + 3.0)
            if not any(box.meets(other) for other in taken):
                taken.append(box)
                drawn.append(tag(line.circuit, at, lost=line.circuit in failure.lost_circuits))
                tagged[line.circuit] = tagged.get(line.circuit, 0) + 1
                break
    return joined(*drawn)


def _arrows(plan: CarPlan, ways: Ways, taken: list[Box]) -> Svg:
    """Arrows along the lines, where no sign and no tag stands; a long line has two."""
    drawn = []
    for line in plan.lines:
        way = ways.by_id.get(line.id)
        if way is None or not line.flows:
            continue
        wanted = 2 if length_of(way) > 150 else 1
        for share in (0.75, 0.3, 0.55, 0.45, 0.65, 0.2, 0.85):
            at, _ = at_share(way, share)
            box = around(at, 6.0)
            if wanted and not any(box.meets(other) for other in taken):
                taken.append(around(at, 16.0))
                drawn.append(path(arrow(way, share, back=line.flows < 0), "bk-arrow"))
                wanted -= 1
    return joined(*drawn)


# ---------------------------------------------------------------- parts


def _part(part: PlanPart, stage: Stage, placed: Sequence[Placed], href: Href | None) -> Svg:
    at, sign = stage.places[part.id], stage.signs[part.id]
    box = sign.box(at)
    grow_x, grow_y = (max(4.0, 13.0 - (side / 2)) for side in sign.size)
    hit = rect(
        box.left - grow_x,
        box.top - grow_y,
        box.right - box.left + 2 * grow_x,
        box.bottom - box.top + 2 * grow_y,
        "bk-hit",
        rx=3,
    )
    called = ", ".join(dict.fromkeys(w for w in (part.title, part.name, *part.notes) if w))
    return link(
        href(part.id) if href else None,
        f"{called}, taken off" if part.removed else called,
        hit if href else Svg(),
        sign.ghost(at) if part.removed else sign.drawn(at),
        joined(*(block.drawn(part.id) for block in placed)),
    )


def _marks(stage: Stage, ways: Ways, failure: PlanFailure) -> list[Point]:
    """Where the octagons of what has failed stand."""
    found = (stage.places.get(element) or ways.middle_of(element) for element in failure.elements)
    return [at for at in found if at is not None]


def _screws(stage: Stage, bleeds: Sequence[BleedMark], taken: list[Box]) -> Svg:
    """Number each turn of the bleeding at its screw, beside the sign and clear of the others."""
    drawn = []
    for mark in bleeds:
        if mark.part not in stage.places:
            continue
        at = _beside(stage, mark.part, taken)
        taken.append(around(at, 11))
        shape = circle(0, 0, 10.5, "bk-turn") if mark.number else rect(-10, -10, 20, 20, "bk-turn")
        sign = joined(shape, text(0, 5, mark.sign, "t-name t-on-ink", "middle"))
        drawn.append(moved(at, sign))
    return joined(*drawn)


def _beside(stage: Stage, part: str, taken: Sequence[Box]) -> Point:
    """A spot about a sign that covers least of what stands there, the nearest of such."""
    x, y = stage.places[part]
    width, height = stage.signs[part].size
    inward = math.copysign(1.0, stage.width / 2 - x)

    def burden(spot: tuple[float, float, float]) -> float:
        box = around((spot[0], spot[1]), 11)
        return 100.0 * sum(box.meets(other) for other in taken) + spot[2]

    spots = [
        (
            x + inward * math.cos(turn) * (width / 2 + out),
            y + math.sin(turn) * (height / 2 + out),
            out + abs(turn),
        )
        for out in (13.0, 22.0, 34.0)
        for turn in (math.radians(15.0 * step) for step in range(-12, 12))
    ]
    best = min(spots, key=burden)
    return best[0], best[1]


# ---------------------------------------------------------------- foot


def _foot(stage: Stage, ways: Ways, y: float) -> tuple[Svg, float]:
    """The scale and what has to be said of the plan."""
    notes = list(stage.plan.notes)
    if any(math.dist(at, stage.at(part.at_m)) > _APART for part, at in stage.stood()):
        notes.append("Signs that would lie on each other stand a little apart.")
    if ways.undrawn:
        notes.append(f"Not drawn, since no end and no route is known: {listed(ways.undrawn)}.")
    said, below = lines_of(notes, 2, y + 30, stage.width - 4)
    return joined(scale_bar(stage, y), said), (below if notes else y + 14.0)
