"""How much fluid stands in what, and what a stroke of the pedal moves: figures with their spans.

What is known is taken as stated; what is not is taken as usual, listed, and spans a range. What
has no usual value is asked for.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Final

from bareshell.brakes.assumed import Usual, usual
from bareshell.brakes.assumed_heat import usual_in_heat
from bareshell.brakes.figures import Assumed
from bareshell.calc.air import entrained_air_volume
from bareshell.calc.master import stroke_for_volume, stroke_volume
from bareshell.calc.volume import pipe_fill_volume
from bareshell.model.brake import BrakeSystem, Line, LineKind, Part, PartKind, field_of

__all__ = ["Amounts", "Span"]

ATMOSPHERE_PA: Final = 101_325.0

_HOSE_BORE: Final = Usual(0.0032, 0.0025, 0.0048)
"""Bore of a hose that nobody measured: common practice, no source. [m]"""


@dataclass(frozen=True, slots=True)
class Span:
    """A figure with the ends of its range.

    Parameters
    ----------
    value, low, high : float
        In SI units.
    """

    value: float
    low: float
    high: float

    def __add__(self, other: Span) -> Span:
        """Add; the ends add too, since nothing is known of how they go together."""
        return Span(self.value + other.value, self.low + other.low, self.high + other.high)

    def times(self, factor: float) -> Span:
        """Scale by a number above zero."""
        return Span(self.value * factor, self.low * factor, self.high * factor)


NOTHING: Final = Span(0.0, 0.0, 0.0)


def _corners(function: Callable[..., float], *spans: Span) -> Span:
    """Return what a function gives at the values, and its least and most at the corners."""
    corners: list[tuple[float, ...]] = [()]
    for span in spans:
        corners = [(*corner, end) for corner in corners for end in (span.low, span.high)]
    found = [function(*corner) for corner in corners]
    return Span(function(*(span.value for span in spans)), min(found), max(found))


@dataclass(slots=True)
class Amounts:
    """Figures of a system as the bleed plan needs them.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    assumed : list of Assumed
        What was taken as usual, each once; it grows as figures are asked for.
    asked : list of str
        What has no usual value and is not known, each once.
    """

    system: BrakeSystem
    assumed: list[Assumed] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)

    def figure(self, thing: Part | Line, name: str) -> Span | None:
        """Return a figure, stated or usual; None when it must be asked for."""
        stated = thing.figures.get(name)
        if stated is not None:
            low = stated.value if stated.low is None else stated.low
            high = stated.value if stated.high is None else stated.high
            return Span(stated.value, low, high)
        known = {key: each.value for key, each in thing.figures.items()}
        found = usual(thing, name, known) or usual_in_heat(thing, name, known)
        if thing.kind is LineKind.HOSE and name == "bore_m":
            found = _HOSE_BORE
        words = f"{field_of(thing.kind, name).words} ({thing.title})"
        if found is None:
            if words not in self.asked:
                self.asked.append(words)
            return None
        path = f"{thing.id}.{name}"
        if all(each.path != path for each in self.assumed):
            self.assumed.append(
                Assumed(path, words, found.value, found.low, found.high, found.mark)
            )
        return Span(found.value, found.low, found.high)

    def length(self, line_id: str) -> float:
        """Return the length of a line in metres, to find the shortest way by; 0 when not known."""
        line = self.system.line(line_id)
        if line.kind is LineKind.DIRECT:
            return 0.0
        span = self.figure(line, "length_m")
        return span.value if span else 0.0

    def of_line(self, line_id: str) -> Span:
        """Return the fluid that stands in a line, in cubic metres."""
        line = self.system.line(line_id)
        if line.kind is LineKind.DIRECT:
            return NOTHING
        length = self.figure(line, "length_m")
        if line.kind is LineKind.HOSE:
            bore = self.figure(line, "bore_m")
            sizes = (bore, NOTHING) if bore else None
        else:
            outside, wall = (self.figure(line, n) for n in ("outside_diameter_m", "wall_m"))
            sizes = (outside, wall) if outside and wall else None
        if length is None or sizes is None:
            return NOTHING
        return _corners(_pipe_volume, sizes[0], sizes[1], length)

    def of_part(self, part_id: str) -> Span:
        """Return the fluid that stands in a caliper or cylinder; none for others."""
        part = self.system.part(part_id)
        if part.kind not in (PartKind.CALIPER, PartKind.WHEEL_CYLINDER):
            return NOTHING
        return self.figure(part, "fluid_m3") or NOTHING

    def total(self, lines: Iterable[str], parts: Iterable[str] = ()) -> Span:
        """Return the fluid that stands in some lines and parts together, in cubic metres."""
        found = NOTHING
        for line in lines:
            found += self.of_line(line)
        for part in parts:
            found += self.of_part(part)
        return found

    def stroke(self, circuit: tuple[str, str]) -> Span | None:
        """Return the fluid that one full stroke moves in a master chamber, in cubic metres."""
        master = self.system.part(circuit[0])
        bore = self._bore(master, circuit[1])
        name = "floating_stroke_m" if circuit[1] == "floating" else "primary_stroke_m"
        stroke = self.figure(master, name)
        if bore is None or stroke is None:
            return None
        return _corners(stroke_volume, stroke, bore)

    def pedal_of_air(self, air: Span, circuit: tuple[str, str], pressure_pa: float) -> Span | None:
        """Return the pedal's travel that air in a circuit takes by a pressure, in metres."""
        bore = self._bore(self.system.part(circuit[0]), circuit[1])
        pedals = self.system.of_kind(PartKind.PEDAL)
        ratio = self.figure(pedals[0], "ratio") if pedals else None
        if bore is None or ratio is None:
            return None

        def travel(air_m3: float, bore_m: float, pedal_ratio: float) -> float:
            taken = entrained_air_volume(pressure_pa, air_m3, ATMOSPHERE_PA)
            return stroke_for_volume(taken, bore_m) * pedal_ratio

        return _corners(travel, air, bore, ratio)

    def _bore(self, master: Part, chamber: str) -> Span | None:
        stepped = chamber == "floating" and "floating_bore_m" in master.figures
        return self.figure(master, "floating_bore_m" if stepped else "bore_m")


def _pipe_volume(outside_m: float, wall_m: float, length_m: float) -> float:
    wall = min(wall_m, outside_m * 0.49)
    return float(pipe_fill_volume(outside_m, wall, length_m)) if math.isfinite(length_m) else 0.0
