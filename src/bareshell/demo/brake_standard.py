"""The demo car's brakes as new: one line, drums all round, a remote servo. All invented."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bareshell.brakes.sketch import Sketch
from bareshell.brakes.starters import starter
from bareshell.demo.brake_figures import stated
from bareshell.model.brake import BrakeSystem, LineKind, PartKind, Role
from bareshell.model.trust import Stated, Trust

STANDARD: Final = "standard"
_WHEELBASE_M = 2.41
_OF_THE_WORKS: Final = {
    "outside_diameter_m": Stated(0.00476, Trust.DATA_SHEET),
    "wall_m": Stated(0.00071, Trust.DATA_SHEET),
}
_FRONT_CYLINDERS: Final = tuple(
    f"cylinder-front-{side}-{which}" for side in ("left", "right") for which in ("upper", "lower")
)
_REAR_CYLINDERS: Final = ("cylinder-rear-left", "cylinder-rear-right")
_FRONT_DRUMS: Final = ("drum-front-left", "drum-front-right")
_REAR_DRUMS: Final = ("drum-rear-left", "drum-rear-right")

_FIGURES: Final = """
car | wheelbase_m | 2410 mm, data sheet
car | driver_only_mass_kg | 858 kg (840 to 885), data sheet
car | driver_only_front_share | 54 % (52 to 56)
car | laden_mass_kg | 1240 kg, data sheet
car | laden_front_share | 45 % (43 to 47)
car | cg_height_m | 530 mm (480 to 580)
car | laden_cg_height_m | 560 mm (500 to 620)
car | front_track_m | 1240 mm, data sheet
car | rear_track_m | 1250 mm, data sheet
car | front_rolling_radius_m | 287 mm (281 to 293)
car | rear_rolling_radius_m | 287 mm (281 to 293)
car | scrub_radius_m | 32 mm (20 to 45)
car | top_speed_m_s | 137 km/h, data sheet
pedal | ratio | 4.4 (4.3 to 4.5) measured
pedal | return_n | 14 N (10 to 20) measured
pedal | free_play_m | 5 mm (3 to 8)
pedal | floor_travel_m | 142 mm (138 to 146) measured
master | bore_m | 22.2 mm, marked on the part
master | primary_stroke_m | 33 mm (30 to 36)
master | port_closing_m | 1.2 mm (0.9 to 1.8)
remote | boost_ratio | 1.9 (1.7 to 2.1), data sheet
remote | threshold_pa | 5 bar (3 to 8)
remote | slave_bore_m | 17.5 mm, data sheet
remote | vacuum_pa | 0.62 bar (0.5 to 0.7)
fluid | age_years | 3 years (1 to 6)
reservoir | volume_m3 | 180 ml (150 to 210)
parking | lever_ratio | 6.4 measured
parking | linkage_ratio | 1.6 (1.5 to 1.7) measured
parking | drum_lever_ratio | 4.2 (4 to 4.4) measured
parking | cable_length_m | 1450 mm measured
parking | cable_arm_m | 42 mm measured
parking | click_angle_rad | 3.2 deg (3 to 3.5)
parking | clicks | 12 measured
parking | hand_force_n | 250 N (180 to 350)
hose-front-left | length_m | 290 mm, data sheet
hose-front-right | length_m | 290 mm, data sheet
hose-rear | length_m | 265 mm, data sheet
"""

_OF_DRUMS: Final = """
diameter_m | 203.2 mm measured
lining_friction | 0.36 (0.3 to 0.42)
shoe_clearance_m | 0.4 mm (0.25 to 0.6)
actuation_arm_m | 151 mm measured
pivot_arm_m | 76 mm measured
friction_arm_m | 106 mm (103 to 109) measured
lining_arc_rad | 110 deg measured
"""

_CHOICES: Final = """
car | front_tyre | 5.60-13
car | rear_tyre | 5.60-13
car | first_used | 1972-05-01
car | driven | rear
master | seals | natural
remote | seals | natural
fluid | grade | DOT 3
"""


def as_it_left_the_works() -> BrakeSystem:
    """Describe the brakes that the demo's car left the works with.

    Examples
    --------
    >>> as_it_left_the_works().part("remote").kind.value
    'remote servo'
    """
    drawn = starter(
        "single line",
        system_id=STANDARD,
        title="Standard: one line, drums all round, remote servo",
        role=Role.STANDARD,
        wheelbase_m=_WHEELBASE_M,
        threads="inch",
    )
    drawn = _with_remote_servo(drawn)
    lines = tuple(
        replace(
            line,
            figures={**line.figures, **_OF_THE_WORKS},
            choices={**line.choices, "material": "steel"},
        )
        if line.kind is LineKind.PIPE
        else line
        for line in drawn.lines
    )
    drawn = replace(
        drawn,
        lines=lines,
        mark="the car's own parts, in the loft, and its invented data sheet",
        note="An invented car; no figure is any real car's.",
    )
    return stated(drawn, _FIGURES + _of_the_wheels(), _CHOICES + _chosen_for_the_wheels())


def _with_remote_servo(drawn: BrakeSystem) -> BrakeSystem:
    """Put the servo, which sat on the left wing, into the pipe from the cylinder."""
    sketch = Sketch(_WHEELBASE_M, threads="inch")
    sketch.parts = list(drawn.parts)
    sketch.lines = [line for line in drawn.lines if line.id != "pipe-master"]
    sketch.add(
        "remote",
        "remote servo on the left wing",
        PartKind.REMOTE_SERVO,
        sketch.place(0.1, -0.44),
        ports=(sketch.tapped("in", "in"), sketch.tapped("out", "out")),
    )
    across = [sketch.place(0.5, 0.2), sketch.place(0.5, -0.3)]
    sketch.pipe("pipe-master", "pipe to the servo", ("master", "out"), ("remote", "in"), across)
    back = [sketch.place(0.42, -0.3), sketch.place(0.42, 0.3)]
    sketch.pipe(
        "pipe-servo", "pipe back from the servo", ("remote", "out"), ("tee-bulkhead", "in"), back
    )
    return replace(drawn, parts=tuple(sketch.parts), lines=tuple(sketch.lines))


def _of_the_wheels() -> str:
    rows = [f"{cylinder} | bore_m | 20.64 mm measured" for cylinder in _FRONT_CYLINDERS]
    rows += [f"{cylinder} | bore_m | 19.05 mm, marked on the part" for cylinder in _REAR_CYLINDERS]
    for drums, width, mass in ((_FRONT_DRUMS, 45, 5.2), (_REAR_DRUMS, 32, 4.6)):
        for drum in drums:
            rows += [f"{drum} | {row}" for row in _OF_DRUMS.strip().splitlines()]
            rows.append(f"{drum} | lining_width_m | {width} mm measured")
            rows.append(f"{drum} | mass_kg | {mass} kg measured")
    return "\n".join(rows)


def _chosen_for_the_wheels() -> str:
    rows = [f"{cylinder} | seals | natural" for cylinder in (*_FRONT_CYLINDERS, *_REAR_CYLINDERS)]
    for drum in (*_FRONT_DRUMS, *_REAR_DRUMS):
        rows += [f"{drum} | factor | from geometry", f"{drum} | adjuster | by hand"]
    return "\n".join(rows)
