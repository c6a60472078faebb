"""From the first drop of fluid to 500 miles: what is done in which order, and what can hurt.

The order is the trade's (`common practice, no source` where no other mark stands); the maker's own
outranks it. Nothing is skipped because the step before went well.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.sources import Mark

__all__ = ["COMMISSIONING", "COMPARED", "Compared", "Step"]

_COMMON: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Step:
    """One step on the way.

    Parameters
    ----------
    id, words : str
        Short name, and what is done.
    because : str
        Why here and not later.
    cautions : tuple of str
        The harm first.
    keep : tuple of str
        What to write down.
    gate : str
        The gate that it stands before; empty when it stands before none by itself.
    source_id : str
        Where it is from; empty for the trade's practice.
    mark : str
        How far that was read.
    """

    id: str
    words: str
    because: str
    cautions: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()
    gate: str = ""
    source_id: str = ""
    mark: Mark = _COMMON


COMMISSIONING: Final = (
    Step(
        "choose fluid",
        "Choose the fluid, and see that every seal and hose is made for it",
        "Before the first part is wetted: afterwards every rubber has to be renewed to change it.",
        ("Wrong fluid swells cups until pistons jam: it shows after days, on the road.",),
        ("grade of the fluid", "rubber of every seal", "what used parts held before"),
    ),
    Step(
        "assemble clean",
        "Assemble dry or with what is made for that fluid; no mineral grease on brake rubber",
        "A smear of mineral grease ruins glycol's seals, and the other way about.",
        ("Eyes: springs and pistons leave under load. Goggles on.",),
    ),
    Step(
        "bench bleed",
        "Bench bleed the master cylinder: 8 to 10 slow strokes of about 25 mm, ports looped or "
        "plugged before each release, front end a little down, then up, then level",
        "Air in the cylinder's end comes out on the bench and hardly ever in the car.",
        ("Eyes and paint: fluid squirts from open ports. Goggles, and the car covered.",),
        (),
        "",
        "army-tm-bench-bleed",
        "read",
    ),
    Step(
        "joints",
        "Tighten every joint, count them against the schedule, wipe each dry",
        "A leak can only be seen on a joint that was dry.",
        ("Pipe nuts strip: a nut that binds in the first turns is the wrong thread.",),
        ("each joint torqued and marked",),
    ),
    Step(
        "first fill",
        "Fill with fresh fluid and write down the day",
        "The fluid's age runs from here, whether the car moves or not.",
        ("Eyes and paint: glycol fluid harms both at once. Goggles on, wings covered.",),
        ("day of the first fill", "grade and maker of the fluid"),
    ),
    Step(
        "exhaust servo",
        "Engine off, press the pedal some 30 times until no vacuum is left",
        "With vacuum the pedal tells nothing of what is behind it.",
        (),
        (),
        "",
        "bleeding-manuals",
        "read second-hand",
    ),
    Step(
        "bleed",
        "Bleed by the plan: the farthest wheel first unless the maker or the split says otherwise, "
        "at most 1 bar at the reservoir, never let it run dry",
        "Order, strokes and fluid come from the circuit; a blanked leg only once its far end has "
        "been vented.",
        (
            "Pressure: a bleeder's cap that slips floods the bay. Release before it is touched.",
            "Never use again what came out: it has taken up water and air.",
        ),
        ("fluid drawn at each screw", "strokes", "what came last: clear or bubbles"),
        "",
        "bleeding-manuals",
        "read second-hand",
    ),
    Step(
        "graded holds",
        "Hold the pressure from light to hard, and look at every joint each time",
        "A joint that weeps shows at a light pressure for longer, or at a hard one at once.",
        ("Skin and eyes: fluid under pressure cuts. Release before a nut is touched.",),
        ("each joint dry or wet", "gauge and temperature, before and after"),
    ),
    Step(
        "overnight hold",
        "Prop the pedal lightly over night, dry paper under every joint",
        "Some joints weep a drop in eight hours and none in eight minutes.",
        ("A propped pedal is a loaded spring: nobody gets in, and a note hangs on the wheel.",),
        ("each joint dry or wet", "temperature, evening and morning"),
    ),
    Step(
        "bleed again",
        "Bleed again",
        "A night under pressure gathers what air is left where a screw can let it out.",
        (),
        ("what came last at each screw",),
    ),
    Step(
        "pedal test",
        "Measure the pedal's travel at two forces",
        "It estimates the air that is left and tells it from clearance and flex; it renews the "
        "proof that opening a screw spent.",
        ("A pedal that sinks or meets the floor: the car stays where it is.",),
        ("both forces, both travels", "travel to the floor"),
        "first move under own power",
    ),
    Step(
        "parking brake",
        "Set shoes first, then the cable, and count the clicks",
        "A cable that is tightened over loose shoes holds on the bench and not on a hill.",
        ("Crush: wheels chocked while the lever is off.",),
        ("clicks", "whether each wheel turns free with the lever off"),
        "first move under own power",
    ),
    Step(
        "walking pace",
        "Drive at walking pace on the flat and stop, again and again, both brakes",
        "Everything that was overlooked shows itself here, where a chock still stops the car.",
        ("Hands and lives: nobody in front of or behind the car, a hand on the parking brake.",),
        ("pull to a side", "pedal afterwards", "every joint looked at again"),
        "first move under own power",
    ),
    Step(
        "low speed",
        "Stop from 20 mph on a level empty road, lightly, then more firmly",
        "Pull, grab and lag show before the speed at which they hurt.",
        ("Hands and lives: a road with nobody on it; stop at the first thing that is wrong.",),
        ("pull to a side", "which wheel locks first, if any"),
        "road",
    ),
    Step(
        "bedding",
        "Bed the linings in by their maker's series, with its rests",
        "New linings bite less than they will, and differ from side to side until they are bedded.",
        ("Burns: discs and drums are hot for long after. No parking brake on hot drums.",),
        ("stops made", "temperature of each disc or drum afterwards"),
        "road",
    ),
    Step(
        "after bedding",
        "Look at every joint, the level and the wheel nuts; adjust the shoes; test the pedal again",
        "Heat and use have moved everything once.",
        (),
        ("both forces, both travels", "clicks", "level against the mark"),
        "road",
    ),
    Step(
        "measured",
        "Roller tester or decelerometer, both brakes",
        "Side against side and axle against axle cannot be felt.",
        ("Hands and lives: only where the instrument's own instructions allow it.",),
        ("efforts of each wheel, and which locked", "mass of the car", "force on the pedal"),
        "road",
    ),
    Step(
        "50 miles",
        "After 50 miles: joints, level, wheel nuts, clearances, pedal test, temperatures",
        "What settles, settles early.",
        ("Hands and lives: a figure that moved is looked into before the next drive.",),
        ("all the figures kept before the road",),
        "50 miles",
    ),
    Step(
        "500 miles",
        "After 500 miles: the same, and the linings' wear side against side",
        "What wears unevenly shows by now.",
        (),
        ("all the figures kept before the road", "thickness of each lining"),
        "500 miles",
    ),
)
"""The order of work, from the choice of fluid to 500 miles."""


@dataclass(frozen=True, slots=True)
class Compared:
    """A figure that is kept before the road and looked at again after 50 and 500 miles.

    Parameters
    ----------
    id, words : str
        Short name, and what it is.
    how : str
        How to take it so that it compares.
    read_to : str
        Less than this is no change.
    grown : str
        What it points at when it has grown.
    fallen : str
        What it points at when it has fallen.
    """

    id: str
    words: str
    how: str
    read_to: str
    grown: str
    fallen: str


COMPARED: Final = (
    Compared(
        "pedal light",
        "travel at the light push",
        "the same force, engine off, servo exhausted, cold brakes",
        "2 mm",
        "wear, shoes out of adjustment, loose wheel bearings, or air",
        "shoes that drag: look whether each wheel turns free",
    ),
    Compared(
        "pedal rise",
        "how much more the firm push takes",
        "the same force, right after the light push",
        "3 mm",
        "air, a hose that swells, tapered pads, a caliper loose on its mounting",
        "linings that have bedded in",
    ),
    Compared(
        "clicks",
        "clicks of the parking brake",
        "the same pull of the hand",
        "1 click",
        "a cable that stretches, linings that wear",
        "shoes or cable that bind: look whether each wheel turns free",
    ),
    Compared(
        "level",
        "level in the reservoir, down from the mark",
        "on level ground, the cap closed before it is shaken",
        "2 mm",
        "linings that wear, or a leak: look at every joint before it is topped up",
        "somebody topped it up: find out why",
    ),
    Compared(
        "temperature left to right",
        "difference between left and right after five like stops",
        "a thermometer on the disc or drum at once, both sides within a minute",
        "20 C",
        "a caliper or shoe that binds on the hotter side, or does not work on the cooler",
        "nothing",
    ),
    Compared(
        "linings",
        "thickness of each lining",
        "at its thinnest, the same place",
        "0.5 mm",
        "measured elsewhere than before",
        "wear: compare left with right and inner with outer",
    ),
)
"""What is written down before the road, and compared at 50 and 500 miles."""
