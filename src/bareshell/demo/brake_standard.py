"""The demo car's brakes as new: one line, drums all round, a remote servo. All invented.

What is on the car still is drawn once, in `brake_built`, and taken from there: the two sets of
brakes then differ only in what a departure brought or took away.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bareshell.brakes.sketch import Sketch
from bareshell.demo.brake_built import as_built
from bareshell.demo.brake_figures import stated
from bareshell.model.brake import BrakeSystem, Line, LineKind, PartKind, Port, Role, Wheel
from bareshell.model.trust import Stated, Trust

STANDARD: Final = "standard"
_WHEELBASE_M = 2.41
_KEPT: Final = (
    "pedal",
    "fluid",
    "parking",
    "bracket-rear",
    "tee-axle",
    "drum-rear-left",
    "drum-rear-right",
    "cylinder-rear-left",
    "cylinder-rear-right",
    "hose-rear",
    "pipe-rear-left",
    "pipe-rear-right",
)
_OF_THE_WORKS: Final = {
    "outside_diameter_m": Stated(0.00476, Trust.DATA_SHEET),
    "wall_m": Stated(0.00071, Trust.DATA_SHEET),
}
_FRONTS: Final = ((Wheel.FRONT_LEFT, -1), (Wheel.FRONT_RIGHT, 1))

_FIGURES: Final = """
car | front_rolling_radius_m | 287 mm (281 to 293)
car | rear_rolling_radius_m | 287 mm (281 to 293)
master | bore_m | 22.2 mm, marked on the part
master | primary_stroke_m | 33 mm (30 to 36)
master | port_closing_m | 1.2 mm (0.9 to 1.8)
remote | boost_ratio | 1.9 (1.7 to 2.1), data sheet
remote | threshold_pa | 5 bar (3 to 8)
remote | slave_bore_m | 17.5 mm, data sheet
remote | vacuum_pa | 0.62 bar (0.5 to 0.7)
reservoir | volume_m3 | 180 ml (150 to 210)
hose-front-left | length_m | 290 mm, data sheet
hose-front-right | length_m | 290 mm, data sheet
"""

_OF_FRONT_DRUMS: Final = """
diameter_m | 203.2 mm measured
lining_width_m | 45 mm measured
lining_friction | 0.36 (0.3 to 0.42)
shoe_clearance_m | 0.4 mm (0.25 to 0.6)
actuation_arm_m | 151 mm measured
pivot_arm_m | 76 mm measured
friction_arm_m | 106 mm (103 to 109) measured
lining_arc_rad | 110 deg measured
mass_kg | 5.2 kg measured
"""

_CHOICES: Final = """
car | front_tyre | 5.60-13
car | rear_tyre | 5.60-13
master | seals | natural
remote | seals | natural
"""


def as_it_left_the_works() -> BrakeSystem:
    """Describe the brakes that the demo's car left the works with.

    Examples
    --------
    >>> as_it_left_the_works().part("remote").kind.value
    'remote servo'
    """
    built = as_built()
    sketch = Sketch(_WHEELBASE_M, threads="inch")
    car = replace(built.part("car"), departure="")
    sketch.parts = [car, *(part for part in built.parts if part.id in _KEPT)]
    _bay(sketch)
    for wheel, side in _FRONTS:
        _front(sketch, wheel, side)
    along = [sketch.beside_driver(*at) for at in ((0.62, 0.5), (1.0, 0.46), (1.8, 0.42))]
    sketch.pipe(
        "pipe-rear", "long pipe to the rear", ("union", "rear"), ("bracket-rear", "pipe"), along
    )
    lines = [*(_of_steel(line) for line in sketch.lines)]
    lines += [line for line in built.lines if line.id in _KEPT]
    drawn = BrakeSystem(
        STANDARD,
        "Standard: one line, drums all round, remote servo",
        Role.STANDARD,
        tuple(sketch.parts),
        tuple(lines),
        mark="the car's own parts, in the loft, and its invented data sheet",
        note="An invented car; no figure is any real car's.",
    )
    return stated(drawn, _FIGURES + _of_the_wheels(), _CHOICES + _chosen_for_the_wheels())


def _bay(sketch: Sketch) -> None:
    """Draw the cylinder, the servo on the left wing and the five-way union."""
    at = sketch.beside_driver(0.45, 0.38)
    sketch.add(
        "master",
        "master cylinder",
        PartKind.MASTER,
        at,
        ports=(sketch.tapped("out", "primary"),),
        choices={"form": "single"},
    )
    feeds = {"feeds": "master primary"}
    sketch.add("reservoir", "reservoir", PartKind.RESERVOIR, at, choices=feeds)
    sketch.add(
        "remote",
        "remote servo on the left wing",
        PartKind.REMOTE_SERVO,
        sketch.place(0.1, -0.44),
        ports=(sketch.tapped("in", "in"), sketch.tapped("out", "out")),
    )
    sketch.add(
        "union",
        "five-way union",
        PartKind.TEE,
        sketch.beside_driver(0.02, 0.48),
        ports=tuple(sketch.tapped(name) for name in ("in", "left", "right", "rear")),
        choices={"form": "three-way"},
    )
    across = [sketch.place(0.5, 0.2), sketch.place(0.5, -0.3)]
    sketch.pipe("pipe-master", "pipe to the servo", ("master", "out"), ("remote", "in"), across)
    back = [sketch.place(0.42, -0.3), sketch.place(0.42, 0.3)]
    end = ("union", "in")
    sketch.pipe("pipe-servo", "pipe back from the servo", ("remote", "out"), end, back)


def _front(sketch: Sketch, wheel: Wheel, side: int) -> None:
    """Draw a twin leading drum with a bridge pipe between its two cylinders, and its hose."""
    slug = wheel.value.replace(" ", "-")
    form = {"form": "twin leading"}
    at = sketch.place(0.0, 0.57 * side)
    sketch.add(f"drum-{slug}", f"{wheel} drum", PartKind.DRUM, at, wheel=wheel, choices=form)
    single = {"form": "single-ended"}
    lower = sketch.add(
        f"cylinder-{slug}-lower",
        f"{wheel} lower cylinder",
        PartKind.WHEEL_CYLINDER,
        sketch.place(0.08, 0.55 * side),
        wheel=wheel,
        ports=(sketch.for_hose("in", "a"), sketch.tapped("bridge", "a")),
        choices=single,
    )
    upper = sketch.add(
        f"cylinder-{slug}-upper",
        f"{wheel} upper cylinder",
        PartKind.WHEEL_CYLINDER,
        sketch.place(-0.08, 0.55 * side),
        wheel=wheel,
        ports=(
            sketch.tapped("in", "a"),
            Port("bleed", "a", bleeds=True, at_top=True, fitting=sketch.bleed("b", "a").fitting),
        ),
        choices=single,
    )
    sketch.pipe(f"bridge-{slug}", f"{wheel} bridge pipe", (lower, "bridge"), (upper, "in"))
    bracket = sketch.bracket(
        f"bracket-{slug}", f"{wheel} hose bracket", sketch.place(0.05, 0.42 * side)
    )
    sketch.hose(f"hose-{slug}", f"{wheel} hose", bracket, (lower, "in"))
    across = [sketch.place(-0.24, 0.3), sketch.place(-0.24, -0.34)]
    way = "left" if side < 0 else "right"
    along = across if side < 0 else [sketch.place(-0.04, 0.45)]
    sketch.pipe(f"pipe-{slug}", f"{wheel} pipe", ("union", way), (bracket, "pipe"), along)


def _of_steel(line: Line) -> Line:
    if line.kind is not LineKind.PIPE:
        return line
    figures = {**line.figures, **_OF_THE_WORKS}
    return replace(line, figures=figures, choices={"material": "steel"})


def _of_the_wheels() -> str:
    rows = []
    for wheel, _ in _FRONTS:
        slug = wheel.value.replace(" ", "-")
        rows += [
            f"cylinder-{slug}-{end} | bore_m | 20.64 mm measured" for end in ("lower", "upper")
        ]
        rows += [f"drum-{slug} | {row}" for row in _OF_FRONT_DRUMS.strip().splitlines()]
    return "\n".join(rows)


def _chosen_for_the_wheels() -> str:
    rows = []
    for wheel, _ in _FRONTS:
        slug = wheel.value.replace(" ", "-")
        rows += [f"cylinder-{slug}-{end} | seals | natural" for end in ("lower", "upper")]
        rows += [f"drum-{slug} | factor | from geometry", f"drum-{slug} | adjuster | by hand"]
    return "\n".join(rows)
