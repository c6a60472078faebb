"""Where every line of the circuit runs on the picture, and where a mark on it stands."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.draw.brake_car import PlanLine
from bareshell.draw.brake_routes import at_share, by_habit, length_of
from bareshell.draw.brake_sheet import Point
from bareshell.draw.brake_stage import Stage


@dataclass(frozen=True, slots=True)
class Ways:
    """Where every line runs, in pixels, and the titles of those that could not be drawn."""

    by_id: dict[str, tuple[Point, ...]]
    undrawn: tuple[str, ...]

    def middle_of(self, element: str) -> Point | None:
        """The middle of a line, or for one of its joints (``rear-pipe-0``) that end."""
        if (way := self.by_id.get(element)) is not None:
            return at_share(way, 0.5)[0]
        line, _, end = element.rpartition("-")
        way = self.by_id.get(line)
        if way is None or end not in ("0", "1"):
            return None
        reach = min(0.4, 11.0 / max(length_of(way), 1.0))  # beside the part that it is screwed to
        return at_share(way, reach if end == "0" else 1 - reach)[0]


def ways_of(stage: Stage) -> Ways:
    """Where each line runs: as it was entered, else straight for a hose, else by habit."""
    found: dict[str, tuple[Point, ...]] = {}
    undrawn: list[str] = []
    later: list[PlanLine] = []
    for line in stage.plan.lines:
        ends = [_end(stage, end) for end in line.ends]
        middle = [stage.at(point) for point in line.route_m]
        points = [point for point in (ends[0], *middle, ends[1]) if point is not None]
        if len(points) < 2:
            undrawn.append(line.title)
        elif middle or line.kind != "pipe":
            found[line.id] = tuple(points)
        else:
            later.append(line)
    boxes = {part.id: stage.box(part.id) for part in stage.plan.parts}
    for line in later:
        start, end = (_end(stage, each) for each in line.ends)
        if start is not None and end is not None:
            others = [box for name, box in boxes.items() if name not in _parts_of(line)]
            found[line.id] = by_habit(start, end, list(found.values()), others)
    return Ways(found, tuple(undrawn))


def _parts_of(line: PlanLine) -> tuple[str, str]:
    return line.ends[0][0], line.ends[1][0]


def _end(stage: Stage, end: tuple[str, str]) -> Point | None:
    part, chamber = end
    if part not in stage.places:
        return None
    return stage.signs[part].chamber_at(stage.places[part], chamber)
