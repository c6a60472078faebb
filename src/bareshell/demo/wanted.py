"""What the demo's jobs want, as measured on this car: the needs that the owner wrote himself.

They stand in place of the starter network's own needs for the jobs that are named here.
Figures are invented, in sizes that such cars do have.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Final

from bareshell.demo.measured import bolt, clamped, clevis, goods, want, wire
from bareshell.demo.wanted_brakes import BRAKES
from bareshell.model.duty import Duty, LoadPath, Lubrication
from bareshell.model.part import Guess, Money, Need
from bareshell.model.spec import BearingSpec, CableSpec, GlassSpec, RubberSpec

BODY: Final = (
    want("heater-seal", "Heater to bulkhead seal", "heater-fit", 1, RubberSpec(), start=True),
    want("heater-clips", "Heater clips and screws", "heater-fit", 6, fixing=True),
    want(
        "screen-rubber",
        "Windscreen rubber",
        "windscreen",
        1,
        RubberSpec(),
        start=True,
        note="Profile drawn at full size; the old one shrank.",
    ),
    want(
        "screen-glass",
        "Windscreen, laminated",
        "windscreen",
        1,
        GlassSpec(where="windscreen", tint="clear"),
        start=True,
    ),
    want("screen-cord", "Braided cord, 4 mm", "windscreen", 6, note="Metres."),
    want("rear-screen-rubber", "Rear screen rubber", "rear-screen", 1, RubberSpec(), start=True),
    want("head-cloth", "Headlining, sewn", "headlining", 1, start=True),
    want(
        "head-glue",
        "Contact adhesive for the headlining",
        "headlining",
        2,
        goods("contact adhesive", "1 l", 12, 15.0),
        start=True,
    ),
    want("head-clips", "Gripper strips", "headlining", 8, fixing=True),
    want(
        "door-rubber",
        "Door aperture seals, by the metre",
        "door-seals",
        8,
        RubberSpec(),
        start=True,
    ),
    want(
        "door-glue",
        "Rubber adhesive",
        "door-seals",
        1,
        goods("rubber adhesive", "250 ml", 12, 12.0),
    ),
    want(
        "latch-screws",
        "Countersunk screws for locks and strikers",
        "door-latches",
        16,
        bolt("M6x1.0", None, 16, "8.8"),
        start=True,
        fixing=True,
        duty=clamped(LoadPath.CATCH),
    ),
    want(
        "check-pins",
        "Check strap pins",
        "door-latches",
        2,
        clevis(6.35, 16.0),
        fixing=True,
        duty=Duty(LoadPath.CATCH, turns=True),
    ),
    want("rear-lens-left", "Rear lamp lens, left", "rear-lamps", 1, start=True),
    want("rear-lens-right", "Rear lamp lens, right", "rear-lamps", 1),
    want("rear-gaskets", "Rear lamp gaskets", "rear-lamps", 2, RubberSpec(), start=True),
    want("rear-lamp-screws", "Lens screws", "rear-lamps", 8, fixing=True),
    want("headlamp-bowls", "Headlamp bowls", "headlamps", 2, start=True),
    want("headlamp-gaskets", "Bowl gaskets", "headlamps", 2, RubberSpec()),
    want("headlamp-screws", "Adjusting screws with nylon nuts", "headlamps", 6, fixing=True),
    want("bumper-irons", "Bumper irons, plated", "bumpers", 4, start=True),
    want(
        "bumper-bolts",
        "Dome-headed bumper bolts",
        "bumpers",
        6,
        bolt("7/16-20 UNF", None, 32, "5"),
        fixing=True,
        duty=clamped(LoadPath.BODY),
    ),
    want("badge-clips", "Badge and strip clips", "brightwork", 46, fixing=True),
    want("catch-spring", "Bonnet catch spring", "bonnet-latch", 1),
    want(
        "catch-bolts",
        "Bonnet catch bolts",
        "bonnet-latch",
        4,
        bolt("1/4-28 UNF", None, 19, "5"),
        fixing=True,
        duty=clamped(LoadPath.CATCH),
    ),
    want("p-clips", "P-clips, rubber lined, 8 mm", "fuel-hoses", 40, fixing=True),
)

ENGINE: Final = (
    want("starter", "Starter motor", "engine-wires", 1, start=True),
    want(
        "earth-strap",
        "Engine earth strap",
        "engine-wires",
        1,
        wire("braided strap", 25.0),
        start=True,
    ),
    want(
        "charge-cable",
        "Charging cable, 6 mm2, brown",
        "alternator-wires",
        3,
        wire("cable", 6.0, 42.0),
        note="Metres.",
    ),
    want(
        "charge-plug",
        "Alternator plug, three way",
        "alternator-wires",
        1,
        wire("connector", connector="three-way, 9.5 mm and 6.3 mm blades"),
        start=True,
    ),
    want(
        "alternator",
        "Alternator, 36 A, regulator inside",
        "alternator-bracket",
        1,
        wire("alternator", amps=36.0),
        start=True,
    ),
    want("bracket-angle", "Steel angle, 40 by 40 by 5", "alternator-bracket", 1),
    want("manifold-gasket", "Manifold gasket", "engine-dress", 1),
    want("pump-gasket", "Water pump gasket", "engine-dress", 1),
    want("thermostat", "Thermostat, 82 degrees", "engine-dress", 1, start=True),
    want(
        "fan-belt",
        "Fan belt, 10 by 900",
        "engine-dress",
        1,
        note="Longer than standard: the alternator sits further out.",
    ),
    want("clutch-plate", "Clutch driven plate, 184 mm", "clutch-fit", 1, start=True),
    want(
        "spigot-bush",
        "Spigot bush",
        "clutch-fit",
        1,
        BearingSpec(inside_m=0.015, outside_m=0.020, width_m=0.020),
    ),
    want(
        "flywheel-bolts",
        "Flywheel bolts",
        "clutch-fit",
        6,
        bolt("3/8-24 UNF", 8.0, 25, "8"),
        fixing=True,
        duty=clamped(LoadPath.DRIVE, lubrication=Lubrication.OILED),
    ),
    want("engine-mounts", "Engine mounts", "engine-install-rwd", 2, RubberSpec(), start=True),
    want(
        "mount-bolts",
        "Engine mount bolts",
        "engine-install-rwd",
        8,
        bolt("3/8-24 UNF", None, 32, "8"),
        fixing=True,
        duty=clamped(LoadPath.DRIVE, lubrication=None),
    ),
    want("box-mount", "Gearbox mount", "gearbox-mount-rwd", 1, RubberSpec(), start=True),
    want(
        "prop-bolts",
        "Propshaft bolts with locking nuts",
        "propshaft-rwd",
        8,
        bolt("5/16-24 UNF", 12.0, 28, "8", "distorted thread"),
        fixing=True,
        duty=clamped(LoadPath.DRIVE),
    ),
    want(
        "throttle-cable",
        "Throttle cable",
        "throttle",
        1,
        CableSpec(inner_length_m=0.98, outer_length_m=0.74, end_a="ball, 6 mm", end_b="plain"),
        start=True,
    ),
    want("top-hose", "Radiator top hose", "hoses", 1, start=True),
    want("bottom-hose", "Radiator bottom hose", "hoses", 1, start=True),
    want("tank-straps", "Tank strap bolts and insulation", "tank-fit", 2, fixing=True),
    want("filler-seal", "Filler neck seal", "tank-fit", 1, RubberSpec(), start=True),
    want("seat-cloth", "Seat covers, sewn", "seats-bench", 4, start=False),
)

GUESSED: Final = {
    "rear-screen-rubber": (38, 60),
    "check-pins": (2, 4),
    "rear-lens-left": (18, 45),
    "rear-lamp-screws": (1, 3),
    "headlamp-screws": (3, 8),
    "p-clips": (9, 14),
    "spigot-bush": (4, 9),
    "prop-bolts": (14, 22),
    "hb-clevis": (4, 7),
}
"""What the owner thinks that things not ordered yet may cost, in pounds."""


def _guessed(need: Need) -> Need:
    if need.id not in GUESSED:
        return need
    low, high = (Money(Decimal(pounds), "GBP") for pounds in GUESSED[need.id])
    return replace(need, guess=Guess(low, high))


NEEDS: Final = tuple(_guessed(need) for need in (*BRAKES, *BODY, *ENGINE))
"""Every need that the owner wrote."""
