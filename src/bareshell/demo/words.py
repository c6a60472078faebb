"""What the demo's owner said: notes, lessons, departures, and a line at the end of a session."""

from __future__ import annotations

from typing import Final

from bareshell.model.temp import Departure

DEPARTURES: Final = (
    Departure(
        "front-discs",
        "Front discs for drums",
        "brakes",
        "203 mm twin leading shoe drums on both front wheels",
        "227 mm solid discs with two-piston calipers, 48.0 mm, on another strut",
        "Loft, left, box D1: drums, backplates, cylinders and shoes, complete",
        "Change both struts, hubs and hoses; the flexible hoses are not the same length",
        (
            "front-hubs",
            "caliper-bench",
            "disc-fit",
            "caliper-fit",
            "front-hoses",
            "hose-bracket-left",
            "hose-bracket-right",
        ),
    ),
    Departure(
        "two-circuits",
        "Two brake circuits for one",
        "brakes",
        "Single master cylinder, 22.2 mm, one line to all four drums",
        "Tandem master cylinder, 19.05 mm, front and rear circuits, pressure-limiting valve "
        "to the rear",
        "Loft, left, box D2: cylinder, seized, and its two-stud plate",
        "Take the adaptor plate off, join the circuits with the old five-way union",
        ("tandem-adaptor", "mc-fit", "pipe-bay", "pipe-under", "valve-fit", "circuit-lamp"),
    ),
    Departure(
        "no-servo",
        "Remote servo left off",
        "brakes",
        "Remote servo in the line between master cylinder and wheels, on the left inner wing",
        "No servo; pedal as it is, to be measured before the road",
        "Loft, left, box D2: servo, bracket and vacuum pipe, dry",
        "Four bracket holes and the vacuum tapping are blanked, not welded",
        ("servo-blanks",),
    ),
    Departure(
        "alternator",
        "Alternator for dynamo",
        "electrics",
        "Dynamo, 22 A, with a control box on the bulkhead",
        "Alternator, 36 A, regulator inside; the control box stays as an empty junction",
        "Loft, left, box D3: dynamo and control box, working",
        "Bracket unbolts; the old wires are still in the loom, ends taped and named",
        ("alternator-bracket", "alternator-wires", "rotating-bench"),
    ),
    Departure(
        "negative-earth",
        "Negative earth for positive",
        "electrics",
        "Positive earth",
        "Negative earth; clock and ammeter turned round on the bench",
        "nothing to keep",
        "Turn battery, clock and ammeter round again",
        ("instr-bench", "battery-leads"),
    ),
    Departure(
        "fuses",
        "Eight fuses for two",
        "electrics",
        "Two fuses for the whole car",
        "Eight fuses, headlamps fused left and right",
        "Loft, left, box D3: two-way box",
        "The old box fits the old two holes",
        ("fuse-box",),
    ),
    Departure(
        "radials",
        "Radial tyres for cross-ply",
        "wheels",
        "Cross-ply 5.60-13",
        "Radial 155 R 13, the same five rims",
        "tyres thrown away",
        "Any cross-ply of that size; never mixed on one axle",
        ("tyres-wheels",),
    ),
)

LESSONS: Final = {
    "hose-bracket-left": (
        "The strut's flange is 4 mm thick where the drawing says 3: take the 20 mm bolt, and "
        "offer the hose up at full lock before tightening."
    ),
    "front-hubs": "Press the outer race in with the old one upside down on top; it went in square.",
    "pipe-under": "Bend the long pipe on the floor, on a chalk line; in the car it is too late.",
}
"""What was learned in a job."""

ON_THE_JOB: Final = {
    "shell-mount": "rocked it by hand at each corner before anyone went beneath",
    "parts-count": "forty-one boxes, eleven things nobody can name",
    "drains": "both rear sill drains were painted shut",
    "threads-chase": "two captive nuts in the left seat rail replaced by the painter, good",
    "front-frame": "diagonals within 1 mm",
    "flare-trial": "first two cracked, die had a burr; third cut open, good",
    "tandem-adaptor": "8 mm plate, filed to the bulkhead's curve",
    "pedal-box": "new bushes, the old clevis was oval by 0.6",
    "axle-fit-rwd": "helper steadied the nose with a strap",
    "on-wheels": "rolled it out and back, no brakes, helper at the chocks",
    "halfshafts-rwd": "left seal went in twice",
    "rear-brakes": "came with 22 mm cylinders first; the 19.05 ones are on",
    "pipe-under": "one piece, nine clips",
    "pipe-bay": "kept 60 mm off where the exhaust will run",
    "caliper-fit": "bleed screws uppermost, both sides looked at twice",
    "doors-hang": "left door needed two shims at the lower hinge",
    "gearbox-bench": "second gear ring worn, kept; the rest good",
    "lines-hold": "all ends plugged, 70 bar on the gauge, left for the night",
}
"""What was written with a job when it was finished."""

AT_THE_END: Final = (
    "swept up, lamp off",
    "tired, stopped early enough to tidy",
    "good evening, everything went together",
    "half the time looking for one socket",
    "bench left clear",
    "rain through the door again, moved the boxes",
    "next: what lies on the tray by the vice",
    "torque wrench put back to zero",
)
"""Lines written at the end of a session."""

LAST_LINE: Final = (
    "Lines plugged at all four wheel ends, 70 bar on the gauge. Left on the stands, tissue on "
    "every joint. Next: read the gauge, then the right hose bracket."
)

NOTES: Final = (
    (300, "", "Box 23 smells of petrol. The tank float is in there, not in box 9."),
    (
        214,
        "job:brake-calc",
        "Without the servo the foot does more; the smaller cylinder gives most of it back.",
    ),
    (160, "job:seats-bench", "The left runner is from another car; spacer 3 mm."),
    (96, "", "Borrowed fan heater from next door for the curing nights. Give it back."),
    (61, "job:windscreen", "The rubber people never answer letters; ring in the morning."),
    (
        33,
        "job:headlining",
        "Wants eighteen degrees and two people: the warm months, or the heater back.",
    ),
    (12, "", "Ratchet strap on the boot lid: someone will drive off with it on."),
    (5, "order:o-starter", "The old starter must be in the post by the end of next week."),
)
"""Notes: how many days ago, about what, and the words."""

FROM_THE_HELPER: Final = (
    "Left my gloves on the wing. The boot lid rattles on the strap, I would not trust it."
)

AT_THE_GATE: Final = {
    "pushed-roll": "to the lane and back by hand, helper at the chocks, no brakes",
    "headlining": "roof wires live, cords in, damping tapped",
}
"""What was said when the car was let through a gate."""
