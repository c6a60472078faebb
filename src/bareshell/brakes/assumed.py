"""What a figure is taken to be when nobody knows it: a usual value with a wide range.

Only figures for which a wide range still says something stand here. A bore, a mass or a ratio of
levers has no usual value; it is asked for. Each row is marked; almost all of them are
`common practice, no source`. Every use of a row is reported beside the answer it went into.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

from bareshell.calc import fluid, tyre
from bareshell.model.brake import Line, Part
from bareshell.model.trust import COMMON_PRACTICE

__all__ = ["Usual", "rests_on", "usual"]


@dataclass(frozen=True, slots=True)
class Usual:
    """A usual value, how far it may be off, and how far that was read.

    Parameters
    ----------
    value, low, high : float
        In SI units.
    mark : str
        Where it is from.
    """

    value: float
    low: float
    high: float
    mark: str = COMMON_PRACTICE


# kind | figure | value | low | high
_TABLE: Final = """
car | cg_height_m | 0.53 | 0.45 | 0.62
car | front_track_m | 1.30 | 1.15 | 1.50
car | rear_track_m | 1.30 | 1.15 | 1.50
pedal | efficiency | 0.90 | 0.80 | 1.0
pedal | return_n | 15 | 5 | 40
pedal | free_play_m | 0.006 | 0.003 | 0.015
pedal | floor_travel_m | 0.13 | 0.10 | 0.16
servo | vacuum_pa | 65000 | 50000 | 75000
servo | diaphragm_diameter_m | 0.20 | 0.15 | 0.25
servo | efficiency | 0.93 | 0.85 | 0.98
servo | spring_n | 100 | 50 | 200
servo | cut_in_n | 40 | 15 | 100
servo | dead_drag_n | 60 | 20 | 150
servo | lost_travel_m | 0.001 | 0.0003 | 0.002
master cylinder | primary_stroke_m | 0.030 | 0.024 | 0.036
master cylinder | floating_stroke_m | 0.014 | 0.010 | 0.018
master cylinder | port_closing_m | 0.0012 | 0.0008 | 0.002
master cylinder | primary_spring_n | 70 | 40 | 140
master cylinder | floating_spring_n | 50 | 30 | 110
master cylinder | seal_friction_n | 20 | 5 | 50
master cylinder | efficiency | 0.97 | 0.92 | 1.0
remote servo | threshold_pa | 500000 | 200000 | 1000000
remote servo | vacuum_pa | 65000 | 50000 | 75000
remote servo | diaphragm_diameter_m | 0.15 | 0.12 | 0.20
remote servo | slave_stroke_m | 0.045 | 0.03 | 0.08
remote servo | efficiency | 0.90 | 0.80 | 0.97
remote servo | spring_n | 80 | 30 | 200
valve | shift_pa | 1000000 | 500000 | 2000000
valve | residual_pa | 70000 | 40000 | 150000
caliper | efficiency | 0.97 | 0.93 | 1.0
caliper | threshold_pa | 50000 | 0 | 100000
caliper | pad_friction | 0.38 | 0.30 | 0.45
caliper | pad_clearance_m | 0.00015 | 0.00005 | 0.0003
caliper | flex_m3_pa | 5e-14 | 2e-14 | 1.5e-13
caliper | pad_stiffness_n_m | 1.5e8 | 8e7 | 4e8
drum | lining_friction | 0.36 | 0.29 | 0.43
drum | lining_arc_rad | 1.92 | 1.7 | 2.1
drum | shoe_clearance_m | 0.0004 | 0.0002 | 0.0008
drum | flex_m3_pa | 5e-14 | 2e-14 | 1.5e-13
wheel cylinder | efficiency | 0.96 | 0.90 | 1.0
wheel cylinder | threshold_pa | 200000 | 100000 | 400000
fluid | temperature_c | 20 | 10 | 30
fluid | air_m3 | 1e-7 | 0 | 5e-7
pipe | length_m | 1.2 | 0.4 | 3.0
pipe | outside_diameter_m | 0.00476 | 0.00475 | 0.00635
pipe | wall_m | 0.00071 | 0.0006 | 0.0009
hose | length_m | 0.32 | 0.2 | 0.45
hose | swell_ratio | 0.5 | 0.2 | 1.0
parking brake | linkage_efficiency | 0.75 | 0.6 | 0.9
parking brake | cable_length_m | 2.2 | 1.2 | 3.2
parking brake | cable_stiffness_n | 400000 | 200000 | 800000
parking brake | click_angle_rad | 0.06 | 0.045 | 0.08
parking brake | clicks | 12 | 8 | 16
"""

_TANDEM_FIRST_STROKE: Final = Usual(0.017, 0.012, 0.022)

# Drag at the drum over the force on one shoe, for linings near a friction of 0.4: the figures
# textbooks usually give, from memory, and a span about them.
_DRUM_FACTORS: Final = MappingProxyType(
    {
        "leading-trailing": Usual(2.1, 1.6, 2.6, "from memory"),
        "twin leading": Usual(3.0, 2.2, 3.8, "from memory"),
        "twin trailing": Usual(1.1, 0.8, 1.4, COMMON_PRACTICE),
        "duo-servo": Usual(4.8, 3.2, 6.5, "from memory"),
    }
)


@cache
def _rows() -> Mapping[tuple[str, str], Usual]:
    rows: dict[tuple[str, str], Usual] = {}
    for row in _TABLE.strip().splitlines():
        kind, name, *numbers = (cell.strip() for cell in row.split("|"))
        value, low, high = (float(number) for number in numbers)
        rows[kind, name] = Usual(value, low, high)
    return MappingProxyType(rows)


def usual(thing: Part | Line, name: str, known: Mapping[str, float]) -> Usual | None:
    """Return what a figure is taken to be when it is not known; None when it must be asked for.

    Parameters
    ----------
    thing : Part or Line
        Whose figure it is.
    name : str
        The figure.
    known : mapping of str to float
        What is known of the same thing already, in SI units: some figures go with others.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind
    >>> caliper = Part("front-left-caliper", "left front caliper", PartKind.CALIPER)
    >>> usual(caliper, "pad_friction", {})
    Usual(value=0.38, low=0.3, high=0.45, mark='common practice, no source')
    >>> usual(caliper, "a_bore_m", {}) is None
    True
    """
    going_with = _GOING_WITH.get((thing.kind.value, name))
    if going_with and (found := going_with(thing, known)):
        return found
    return _rows().get((thing.kind.value, name))


def rests_on(kind: str, name: str) -> str:
    """Name the figure that another one's usual value goes with; empty for none.

    Examples
    --------
    >>> rests_on("disc", "pad_height_m")
    'outer_diameter_m'
    """
    return _RESTS_ON.get((kind, name), "")


def _first_stroke(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
    del known
    tandem = isinstance(thing, Part) and any(port.chamber == "floating" for port in thing.ports)
    return _TANDEM_FIRST_STROKE if tandem else None


def _drum_factor(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
    del known
    return _DRUM_FACTORS.get(thing.choices.get("form", ""))


def _rolling_radius(axle: str) -> Callable[[Part | Line, Mapping[str, float]], Usual | None]:
    def read(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
        del known
        marking = thing.choices.get(f"{axle}_tyre", "").strip()
        if not marking:
            return None
        size = tyre.tyre_size(marking)
        low, middle, high = (
            tyre.rolling_radius(
                tyre.free_radius(size.section_width_m, aspect, size.rim_diameter_m),
                size.construction,
            )
            for aspect in (size.aspect_low, size.aspect_ratio, size.aspect_high)
        )
        # Makes of one size differ by about a per cent, and tread wears off.
        return Usual(middle, low * 0.985, high * 1.01, f"from the tyre's marking, {size.mark}")

    return read


def _shoe_arm(
    value: float, low: float, high: float
) -> Callable[[Part | Line, Mapping[str, float]], Usual | None]:
    """An arm of a shoe by the drum's size: near enough for travel, too coarse for its factor."""
    by_size = _in_proportion("diameter_m", value, low, high)

    def read(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
        return None if thing.choices.get("factor") == "from geometry" else by_size(thing, known)

    return read


def _in_proportion(
    to: str, value: float, low: float, high: float
) -> Callable[[Part | Line, Mapping[str, float]], Usual | None]:
    def read(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
        del thing
        base = known.get(to)
        if base is None:
            return None
        return Usual(base * value, base * low, base * high)

    return read


def _bulk_modulus(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
    grade = fluid.FLUID_GRADES.get(thing.choices.get("grade", ""))
    bases = (grade.base,) if grade else tuple(fluid.BULK_MODULI)
    spans = [fluid.bulk_modulus_span(known.get("temperature_c", 20.0), base) for base in bases]
    low = min(span.low_pa for span in spans)
    high = max(span.high_pa for span in spans)
    return Usual((low + high) / 2.0, low, high, "from memory")


def _caliper_fluid(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
    """Pistons that stand some ten millimetres out, as with part-worn pads."""
    area = sum(
        known.get(f"{row}_pistons", 0.0) * known.get(f"{row}_bore_m", 0.0) ** 2
        for row in ("a", "a_second", "b")
    )
    area *= 0.785 if thing.choices.get("form") == "sliding" else 2.0 * 0.785
    return Usual(area * 0.010, area * 0.004, area * 0.02) if area > 0.0 else None


def _cylinder_fluid(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
    del thing
    bore = known.get("bore_m")
    if bore is None:
        return None
    area = 0.785 * bore**2
    return Usual(area * 0.02, area * 0.01, area * 0.03)


def _cable_arm(thing: Part | Line, known: Mapping[str, float]) -> Usual | None:
    """A hand pulls a lever some 0.3 m from its pivot; the ratio gives the other arm."""
    del thing
    ratio = known.get("lever_ratio")
    return Usual(0.30 / ratio, 0.24 / ratio, 0.36 / ratio) if ratio else None


_GOING_WITH: Final[
    Mapping[tuple[str, str], Callable[[Part | Line, Mapping[str, float]], Usual | None]]
] = MappingProxyType(
    {
        ("car", "front_rolling_radius_m"): _rolling_radius("front"),
        ("car", "rear_rolling_radius_m"): _rolling_radius("rear"),
        ("car", "laden_cg_height_m"): _in_proportion("cg_height_m", 1.02, 0.95, 1.12),
        ("master cylinder", "primary_stroke_m"): _first_stroke,
        ("drum", "brake_factor"): _drum_factor,
        ("drum", "actuation_arm_m"): _shoe_arm(0.86, 0.80, 0.90),
        ("drum", "pivot_arm_m"): _shoe_arm(0.43, 0.39, 0.46),
        ("disc", "pad_height_m"): _in_proportion("outer_diameter_m", 0.17, 0.14, 0.20),
        ("caliper", "fluid_m3"): _caliper_fluid,
        ("wheel cylinder", "fluid_m3"): _cylinder_fluid,
        ("fluid", "bulk_modulus_pa"): _bulk_modulus,
        ("parking brake", "cable_arm_m"): _cable_arm,
    }
)

_RESTS_ON: Final = MappingProxyType(
    {
        ("car", "laden_cg_height_m"): "cg_height_m",
        ("drum", "actuation_arm_m"): "diameter_m",
        ("drum", "pivot_arm_m"): "diameter_m",
        ("disc", "pad_height_m"): "outer_diameter_m",
        ("caliper", "fluid_m3"): "a_bore_m",
        ("wheel cylinder", "fluid_m3"): "bore_m",
        ("parking brake", "cable_arm_m"): "lever_ratio",
    }
)
