"""The demo's brakes as they are on the car: two circuits, front discs, no servo. All invented."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bareshell.brakes.sketch import End, Point, Sketch
from bareshell.demo.brake_figures import stated
from bareshell.model.brake import (
    BrakeSystem,
    Fitting,
    Line,
    LineEnd,
    LineKind,
    Part,
    PartKind,
    Port,
    Role,
    Wheel,
)
from bareshell.model.trust import YOURS, Stated, Trust

AS_BUILT: Final = "as-built"
_WHEELBASE_M = 2.41
_DISCS, _CIRCUITS, _NO_SERVO, _TYRES = "front-discs", "two-circuits", "no-servo", "radials"
_OF_THE_ROLL: Final = {
    "outside_diameter_m": Stated(0.00475, Trust.DATA_SHEET),
    "wall_m": Stated(0.0009, Trust.DATA_SHEET),
}
_NUT_M10: Final = Fitting("M10x1", "male", flare="convex single")
_HOSE_M10: Final = Fitting("M10x1", "female", seat="convex")
_TAIL_M10: Final = Fitting("M10x1", "male", seat="washer")
_PORT_M10: Final = Fitting("M10x1", "female", seat="washer")
_SCREW: Final = Fitting("M8x1.25", "male", seat="cone")

# part or line | figure | as it was typed on the evening it was found
_FIGURES: Final = """
car | wheelbase_m | 2410 mm, data sheet
car | driver_only_mass_kg | 862 kg (845 to 890), data sheet
car | driver_only_front_share | 54 % (52 to 56)
car | laden_mass_kg | 1240 kg, data sheet
car | laden_front_share | 45 % (43 to 47)
car | cg_height_m | 530 mm (480 to 580)
car | laden_cg_height_m | 560 mm (500 to 620)
car | front_track_m | 1265 mm measured
car | rear_track_m | 1250 mm measured
car | front_rolling_radius_m | 279 mm (274 to 284)
car | rear_rolling_radius_m | 279 mm (274 to 284)
car | scrub_radius_m | 24 mm (15 to 35)
car | top_speed_m_s | 137 km/h, data sheet
pedal | ratio | 4.4 (4.3 to 4.5) measured
pedal | return_n | 14 N (10 to 20) measured
pedal | free_play_m | 5.3 mm (4 to 7) measured
pedal | floor_travel_m | 142 mm (138 to 146) measured
master | bore_m | 19.05 mm, marked on the part
master | primary_stroke_m | 16.5 mm (15.5 to 17.5) measured
master | floating_stroke_m | 15 mm (13 to 17)
master | port_closing_m | 1.2 mm (0.9 to 1.6) measured
valve-rear | knee_pa | 21 bar (19 to 23), marked on the part
shuttle | shift_pa | 10 bar (6 to 16)
caliper-front-left | a_bore_m | 48 mm (47.95 to 48.05) measured
caliper-front-right | a_bore_m | 48 mm (47.95 to 48.05) measured
caliper-front-left | a_pistons | 1 measured
caliper-front-right | a_pistons | 1 measured
caliper-front-left | fluid_m3 | 38 ml (32 to 44) measured
caliper-front-right | fluid_m3 | 38 ml (32 to 44) measured
caliper-front-left | pad_friction | 0.38 (0.32 to 0.44)
caliper-front-right | pad_friction | 0.38 (0.32 to 0.44)
caliper-front-left | wheel_clearance_m | 6 mm measured
caliper-front-right | wheel_clearance_m | 5.5 mm measured
disc-front-left | outer_diameter_m | 227 mm measured
disc-front-right | outer_diameter_m | 227 mm measured
disc-front-left | pad_height_m | 38 mm measured
disc-front-right | pad_height_m | 38 mm measured
disc-front-left | thickness_m | 9.4 mm measured
disc-front-right | thickness_m | 9.5 mm measured
disc-front-left | rubbing_inner_diameter_m | 147 mm measured
disc-front-right | rubbing_inner_diameter_m | 147 mm measured
disc-front-left | mass_kg | 3.3 kg measured
disc-front-right | mass_kg | 3.3 kg measured
drum-rear-left | diameter_m | 203.2 mm measured
drum-rear-right | diameter_m | 203.3 mm measured
drum-rear-left | lining_width_m | 32 mm measured
drum-rear-right | lining_width_m | 32 mm measured
drum-rear-left | lining_friction | 0.36 (0.3 to 0.42)
drum-rear-right | lining_friction | 0.36 (0.3 to 0.42)
drum-rear-left | shoe_clearance_m | 0.4 mm (0.25 to 0.6)
drum-rear-right | shoe_clearance_m | 0.4 mm (0.25 to 0.6)
drum-rear-left | actuation_arm_m | 151 mm measured
drum-rear-right | actuation_arm_m | 151 mm measured
drum-rear-left | pivot_arm_m | 76 mm measured
drum-rear-right | pivot_arm_m | 76 mm measured
drum-rear-left | friction_arm_m | 106 mm (103 to 109) measured
drum-rear-right | friction_arm_m | 106 mm (103 to 109) measured
drum-rear-left | lining_arc_rad | 110 deg measured
drum-rear-right | lining_arc_rad | 110 deg measured
drum-rear-left | mass_kg | 4.6 kg measured
drum-rear-right | mass_kg | 4.6 kg measured
cylinder-rear-left | bore_m | 19.05 mm, marked on the part
cylinder-rear-right | bore_m | 19.05 mm, marked on the part
fluid | age_years | 0 years measured
reservoir | volume_m3 | 120 ml (100 to 140)
parking | lever_ratio | 5.2 measured
parking | linkage_ratio | 1 (0.95 to 1.05) measured
parking | linkage_efficiency | 0.65 (0.5 to 0.8)
parking | drum_lever_ratio | 3.4 (3.3 to 3.5) measured
parking | cable_length_m | 1450 mm measured
parking | cable_arm_m | 42 mm measured
parking | click_angle_rad | 3.2 deg (3 to 3.5)
parking | clicks | 12 measured
parking | hand_force_n | 250 N (180 to 350)
pipe-front-circuit | length_m | 340 mm (300 to 400)
pipe-rear-circuit | length_m | 310 mm (280 to 360)
pipe-to-union | length_m | 420 mm measured
pipe-front-left | length_m | 1380 mm measured
pipe-front-right | length_m | 480 mm measured
pipe-to-valve | length_m | 510 mm measured
pipe-rear | length_m | 2450 mm measured
pipe-rear-left | length_m | 640 mm measured
pipe-rear-right | length_m | 720 mm measured
old-servo-pipe | length_m | 260 mm measured
hose-front-left | length_m | 330 mm, data sheet
hose-front-right | length_m | 330 mm, data sheet
hose-front-left | reach_m | 285 mm measured
hose-rear | length_m | 265 mm, data sheet
"""

_CHOICES: Final = """
car | front_tyre | 155 R 13
car | rear_tyre | 155 R 13
car | first_used | 1972-05-01
car | driven | rear
master | bores | alike
master | seals | EPDM
master | held | nothing
valve-rear | seals | unknown
valve-rear | held | unknown
caliper-front-left | form | fixed
caliper-front-right | form | fixed
caliper-front-left | seals | EPDM
caliper-front-right | seals | EPDM
caliper-front-left | held | nothing
caliper-front-right | held | nothing
disc-front-left | form | solid
disc-front-right | form | solid
drum-rear-left | factor | from geometry
drum-rear-right | factor | from geometry
drum-rear-left | adjuster | by hand
drum-rear-right | adjuster | by hand
cylinder-rear-left | seals | EPDM
cylinder-rear-right | seals | EPDM
cylinder-rear-left | held | nothing
cylinder-rear-right | held | nothing
fluid | grade | DOT 4
reservoir | held | nothing
"""

_DEPARTED: Final = {
    "car": _TYRES,
    **dict.fromkeys(
        (
            "master",
            "reservoir",
            "shuttle",
            "union",
            "valve-rear",
            "pipe-front-circuit",
            "pipe-rear-circuit",
            "pipe-to-union",
            "pipe-to-valve",
            "pipe-rear",
        ),
        _CIRCUITS,
    ),
    **{
        f"{what}-front-{side}": _DISCS
        for what in ("disc", "caliper", "hose", "bracket", "pipe")
        for side in ("left", "right")
    },
    **dict.fromkeys(("old-servo-pipe", "blank-servo"), _NO_SERVO),
}
"""Which departure from standard brought each part or line that is not standard."""

_NOTES: Final = {
    "old-servo-pipe": (
        "What is left of the pipe that came back from the remote servo, cut and plugged where it "
        "left the wing: a leg that nothing flows through."
    ),
    "shuttle": "Not fitted yet: the two short pipes to it are still to be made.",
    "hose-front-right": "Its bracket is not on yet, so its reach could not be measured.",
    "fluid": "One sealed litre on the shelf, nothing filled yet.",
    "pipe-rear": "One piece, nine clips; the valve sits at the bulkhead end.",
}


def as_built() -> BrakeSystem:
    """Describe the brakes that are on the demo's car.

    Examples
    --------
    >>> built = as_built()
    >>> built.part("master").figures["bore_m"].value
    0.01905
    """
    sketch = Sketch(_WHEELBASE_M, threads="inch")
    _around(sketch)
    _bay(sketch)
    for wheel, side in ((Wheel.FRONT_LEFT, -1), (Wheel.FRONT_RIGHT, 1)):
        _front(sketch, wheel, side)
    _rear(sketch)
    parts = tuple(_finished(part) for part in sketch.parts)
    lines = tuple(_finished_line(line) for line in sketch.lines)
    built = BrakeSystem(
        AS_BUILT,
        "As built: two circuits, front discs, no servo",
        Role.AS_BUILT,
        parts,
        lines,
        mark=YOURS,
        note="An invented car; no figure is any real car's.",
    )
    return stated(built, _FIGURES, _CHOICES)


def _around(sketch: Sketch) -> None:
    sketch.add("car", "the car", PartKind.CAR)
    sketch.add(
        "pedal",
        "pedal",
        PartKind.PEDAL,
        sketch.beside_driver(0.74, 0.38),
        choices={"pushes": "master"},
    )
    sketch.add("fluid", "fluid", PartKind.FLUID)
    sketch.add(
        "parking",
        "handbrake",
        PartKind.PARKING,
        sketch.place(1.3, 0.0),
        choices={"acts_on": "rear wheels", "hold": "mechanical", "control": "hand"},
    )


def _bay(sketch: Sketch) -> None:
    """Draw the bulkhead and the bay: cylinder, switch, union, valve, and the old servo's pipe."""
    sketch.add(
        "master",
        "tandem master cylinder",
        PartKind.MASTER,
        sketch.beside_driver(0.45, 0.38),
        ports=(sketch.tapped("primary", "primary"), sketch.tapped("floating", "floating")),
        choices={"form": "tandem"},
    )
    sketch.add(
        "reservoir",
        "reservoir, two chambers",
        PartKind.RESERVOIR,
        sketch.beside_driver(0.45, 0.38),
        choices={"feeds": "master primary, master floating"},
    )
    ways = [(chamber, way) for chamber in ("front", "rear") for way in ("in", "out")]
    sketch.add(
        "shuttle",
        "pressure-difference switch",
        PartKind.VALVE,
        sketch.beside_driver(0.3, 0.5),
        ports=tuple(sketch.tapped(f"{chamber} {way}", chamber) for chamber, way in ways),
        choices={"form": "warning shuttle"},
    )
    sketch.add(
        "union",
        "four-way union on the right wing",
        PartKind.TEE,
        sketch.beside_driver(0.02, 0.48),
        ports=tuple(sketch.tapped(name) for name in ("in", "left", "right", "old servo")),
        choices={"form": "three-way"},
    )
    sketch.add(
        "valve-rear",
        "rear limiting valve",
        PartKind.VALVE,
        sketch.beside_driver(0.52, 0.52),
        ports=(sketch.tapped("in", "in"), sketch.tapped("out", "out")),
        choices={"form": "limiting", "bypass": "no"},
    )
    sketch.add(
        "blank-servo",
        "plug on the old servo pipe",
        PartKind.STUB,
        sketch.place(-0.16, 0.34),
        ports=(sketch.tapped("a"),),
        choices={"form": "blanked pipe"},
    )
    _bay_pipes(sketch)


def _bay_pipes(sketch: Sketch) -> None:
    """Lay the pipes of the bay, and what is left of the old servo's."""
    for name, title, start, end, bend in (
        ("front-circuit", "front circuit pipe", ("master", "primary"), ("shuttle", "front in"),
         (0.36, 0.42)),
        ("rear-circuit", "rear circuit pipe", ("master", "floating"), ("shuttle", "rear in"),
         (0.4, 0.46)),
        ("to-union", "pipe to the four-way union", ("shuttle", "front out"), ("union", "in"),
         (0.16, 0.52)),
        ("to-valve", "pipe to the rear valve", ("shuttle", "rear out"), ("valve-rear", "in"),
         (0.42, 0.54)),
    ):  # fmt: skip
        _lay(sketch, name, title, start, end, (sketch.beside_driver(*bend),))
    sketch.pipe(
        "old-servo-pipe",
        "end of the old servo pipe",
        ("union", "old servo"),
        ("blank-servo", "a"),
        [sketch.place(-0.06, 0.4)],
    )


def _lay(
    sketch: Sketch, name: str, title: str, start: End, end: End, route: tuple[Point, ...] = ()
) -> None:
    sketch.pipe(f"pipe-{name}", title, start, end, route)


def _front(sketch: Sketch, wheel: Wheel, side: int) -> None:
    """Draw a front corner: disc, caliper, its hose on a bracket of the strut, its pipe."""
    slug = wheel.value.replace(" ", "-")
    sketch.add(
        f"disc-{slug}",
        f"{wheel} disc",
        PartKind.DISC,
        sketch.place(0.0, 0.57 * side),
        wheel=wheel,
    )
    caliper = sketch.add(
        f"caliper-{slug}",
        f"{wheel} caliper",
        PartKind.CALIPER,
        sketch.place(0.12, 0.55 * side),
        wheel=wheel,
        ports=(
            Port("in", "a", fitting=_PORT_M10),
            Port("bleed", "a", bleeds=True, at_top=True, fitting=_SCREW),
        ),
    )
    bracket = sketch.bracket(
        f"bracket-{slug}", f"{wheel} hose bracket", sketch.place(0.03, 0.42 * side)
    )
    sketch.lines.append(
        Line(
            f"hose-{slug}",
            f"{wheel} hose",
            LineKind.HOSE,
            (LineEnd(bracket, "hose", _HOSE_M10), LineEnd(caliper, "in", _TAIL_M10)),
        )
    )
    across = (sketch.place(-0.24, 0.3), sketch.place(-0.24, -0.34))
    along = across if side < 0 else (sketch.place(-0.04, 0.45),)
    way = "left" if side < 0 else "right"
    _lay(sketch, slug, f"{wheel} pipe", ("union", way), (bracket, "pipe"), along)


def _rear(sketch: Sketch) -> None:
    """Draw the rear: the long pipe beneath, one hose to the axle, both drums."""
    bracket = sketch.bracket("bracket-rear", "rear hose bracket", sketch.place(2.04, 0.16))
    way = ((0.62, 0.5), (1.0, 0.46), (1.8, 0.42), (1.98, 0.2))
    along = tuple(sketch.beside_driver(*point) for point in way)
    _lay(sketch, "rear", "long pipe to the rear", ("valve-rear", "out"), (bracket, "pipe"), along)
    tee = sketch.tee("tee-axle", "tee on the axle", sketch.place(2.32, 0.1), hose=True)
    sketch.hose("hose-rear", "hose from body to axle", bracket, (tee, "in"))
    for wheel, branch, side in ((Wheel.REAR_LEFT, "left", -1), (Wheel.REAR_RIGHT, "right", 1)):
        slug = wheel.value.replace(" ", "-")
        sketch.add(
            f"drum-{slug}",
            f"{wheel} drum",
            PartKind.DRUM,
            sketch.place(2.4, 0.58 * side),
            wheel=wheel,
            choices={"form": "leading-trailing"},
        )
        cylinder = sketch.add(
            f"cylinder-{slug}",
            f"{wheel} cylinder",
            PartKind.WHEEL_CYLINDER,
            sketch.place(2.4, 0.53 * side),
            wheel=wheel,
            ports=(
                sketch.tapped("in", "a"),
                Port("bleed", "a", bleeds=True, at_top=True, fitting=_SCREW),
            ),
            choices={"form": "double-ended"},
        )
        along = (sketch.place(2.35, 0.3 * side),)
        _lay(sketch, slug, f"{wheel} pipe on the axle", (tee, branch), (cylinder, "in"), along)


def _finished(part: Part) -> Part:
    return replace(part, departure=_DEPARTED.get(part.id, ""), note=_NOTES.get(part.id, part.note))


def _finished_line(line: Line) -> Line:
    first, last = line.ends
    if line.id in ("pipe-front-left", "pipe-front-right"):
        # One nut of each family on these two: 3/8-24 into the union, M10 into the hose.
        last = replace(last, fitting=_NUT_M10)
    choices = {"material": "copper-nickel"} if line.kind is LineKind.PIPE else {}
    if line.id == "old-servo-pipe":
        choices = {"material": "steel"}
    figures = dict(line.figures)
    if line.kind is LineKind.PIPE:
        figures |= _OF_THE_ROLL
    return replace(
        line,
        ends=(first, last),
        figures=figures,
        choices=choices,
        departure=_DEPARTED.get(line.id, ""),
        note=_NOTES.get(line.id, line.note),
    )
