"""Draw a brake system of an invented car piece by piece: what the starters are made with.

A sketch knows where things usually stand and how they are usually joined. It knows no bore, no
spring and no thread unless it is told the family of threads: those are for the owner to find. The
length of a pipe follows from the way it is drawn and is stated as assumed, with a wide range.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from bareshell.model.brake import Fitting, Line, LineEnd, LineKind, Part, PartKind, Port, Wheel
from bareshell.model.trust import COMMON_PRACTICE, Stated, Trust

Threads = Literal["", "inch", "metric"]
"""The family of threads of the whole car; empty when nobody has looked."""

Point = tuple[float, float]
End = tuple[str, str]
"""A part's id and the name of one of its ports."""

WHEELBASE_M = 2.4
TRACK_M = 1.28
"""The invented car that positions are drawn for; another car stretches the drawing."""

_SLACK = 1.1
_UNSURE = 0.25

_NUT = {
    "": Fitting(sex="male"),
    "inch": Fitting("3/8-24 UNF", "male", flare="double 45 degree"),
    "metric": Fitting("M10x1", "male", flare="convex single"),
}
_TAPPED = {
    "": Fitting(sex="female"),
    "inch": Fitting("3/8-24 UNF", "female", seat="45 degree"),
    "metric": Fitting("M10x1", "female", seat="convex"),
}
_HOSE_TAIL = {
    "": Fitting(sex="male", seat="washer"),
    "inch": Fitting("3/8-24 UNF", "male", seat="washer"),
    "metric": Fitting("M10x1", "male", seat="washer"),
}
_HOSE_PORT = {
    "": Fitting(sex="female", seat="washer"),
    "inch": Fitting("3/8-24 UNF", "female", seat="washer"),
    "metric": Fitting("M10x1", "female", seat="washer"),
}


@dataclass
class Sketch:
    """Parts and lines of a car that is being drawn.

    Parameters
    ----------
    wheelbase_m, track_m : float
        The car the drawing is stretched to. [m]
    driver_on : {"right", "left"}
        The side of the pedals, and with them of all that hangs on the bulkhead.
    threads : {"", "inch", "metric"}
        The family of threads.
    """

    wheelbase_m: float = WHEELBASE_M
    track_m: float = TRACK_M
    driver_on: Literal["right", "left"] = "right"
    threads: Threads = ""
    parts: list[Part] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)

    def place(self, behind: float, right: float) -> Point:
        """Put a point of the invented car on this one."""
        return (
            round(behind * self.wheelbase_m / WHEELBASE_M, 3),
            round(right * self.track_m / TRACK_M, 3),
        )

    def beside_driver(self, behind: float, right: float) -> Point:
        """Put a point that goes with the pedals; ``right`` is for a car driven from the right."""
        return self.place(behind, right if self.driver_on == "right" else -right)

    def add(
        self,
        part_id: str,
        title: str,
        kind: PartKind,
        at: Point | None = None,
        *,
        wheel: Wheel | None = None,
        ports: Sequence[Port] = (),
        choices: Mapping[str, str] | None = None,
        figures: Mapping[str, Stated] | None = None,
    ) -> str:
        """Add a part and return its id."""
        part = Part(
            part_id,
            title,
            kind,
            wheel,
            at,
            figures=dict(figures or {}),
            choices=dict(choices or {}),
            ports=tuple(ports),
        )
        self.parts.append(part)
        return part_id

    def tapped(self, name: str, chamber: str = "") -> Port:
        """Make a port that a pipe's nut screws into."""
        return Port(name, chamber, fitting=_TAPPED[self.threads])

    def for_hose(self, name: str, chamber: str = "") -> Port:
        """Make a port that a hose's tail screws into, on a washer."""
        return Port(name, chamber, fitting=_HOSE_PORT[self.threads])

    def bleed(self, name: str, chamber: str) -> Port:
        """Make a bleed screw; whether it sits at the top is for somebody to look."""
        thread = _NUT[self.threads].thread
        return Port(name, chamber, bleeds=True, fitting=Fitting(thread, "male", seat="cone"))

    def pipe(
        self, line_id: str, title: str, start: End, end: End, route: Sequence[Point] = ()
    ) -> None:
        """Lay a pipe between two ports, along points that `place` gave."""
        nut = _NUT[self.threads]
        length = self._length(start[0], end[0], route)
        self.lines.append(
            Line(
                line_id,
                title,
                LineKind.PIPE,
                (LineEnd(*start, nut), LineEnd(*end, nut)),
                figures={"length_m": length},
                route_m=tuple(route),
            )
        )

    def hose(self, line_id: str, title: str, bracket: str, end: End) -> None:
        """Hang a hose between a bracket, where its own end is tapped, and a port."""
        ends = (
            LineEnd(bracket, "hose", _TAPPED[self.threads]),
            LineEnd(*end, _HOSE_TAIL[self.threads]),
        )
        self.lines.append(Line(line_id, title, LineKind.HOSE, ends))

    def bracket(self, part_id: str, title: str, at: Point) -> str:
        """Add a bracket at which a pipe's nut screws straight into a hose's end."""
        return self.add(
            part_id,
            title,
            PartKind.TEE,
            at,
            ports=(Port("pipe"), Port("hose")),
            choices={"form": "hose bracket"},
        )

    def tee(self, part_id: str, title: str, at: Point, *, hose: bool = False) -> str:
        """Add a three-way piece: ``in``, ``left`` and ``right``."""
        first = self.for_hose("in") if hose else self.tapped("in")
        return self.add(
            part_id,
            title,
            PartKind.TEE,
            at,
            ports=(first, self.tapped("left"), self.tapped("right")),
            choices={"form": "three-way"},
        )

    def _length(self, start: str, end: str, route: Sequence[Point]) -> Stated:
        at = {part.id: part.at_m for part in self.parts}
        points = [point for point in (at[start], *route, at[end]) if point is not None]
        flat = sum(math.dist(*pair) for pair in pairwise(points))
        length = max(round(flat * _SLACK + 0.1, 2), 0.15)
        low, high = (round(length * share, 2) for share in (1 - _UNSURE, 1 + _UNSURE))
        return Stated(length, Trust.ASSUMED, low, high)


MARK = f"an invented car; {COMMON_PRACTICE}"
"""The mark of everything that a starter says."""
