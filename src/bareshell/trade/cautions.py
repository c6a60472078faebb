"""What can hurt, harm first: the cautions that many jobs and supports share.

Common practice, no source. They name the hazard and what to do; they are no risk assessment,
and local law and the maker of each tool, lift and fluid come first.
"""

from __future__ import annotations

from bareshell.model.job import Caution

HARMS = (
    "Crush",
    "Pressure",
    "Eyes",
    "Skin and paint",
    "Hands and lives",
    "Fire",
    "Breath",
    "Back",
    "Electric",
)
"""The words a caution may begin with, as every page shows them."""

UNDER_CAR = Caution(
    "Crush",
    "On rated stands or on the lift's own locks, rocked by hand first. Never beneath a car that "
    "only a jack or a ram holds up.",
)
WHEELS_OFF = Caution(
    "Crush",
    "Stands under strong points, the jack lowered off. A wheel laid flat beneath the sill is the "
    "second line.",
)
HEAVY_BENEATH = Caution(
    "Crush",
    "Keep hands and head out from under it until two bolts hold; the jack's saddle slips sideways.",
)
ON_HOIST = Caution(
    "Crush",
    "Hoist leg, chain and sling rated above the load; nobody beneath it, no hand between it and "
    "the body.",
)
ROLLING = Caution(
    "Crush",
    "It rolls and nothing stops it: chocks to hand, level ground, nobody in front or behind.",
)
SPRING = Caution(
    "Crush",
    "A squeezed spring is stored force. Rated compressors, opposed and level; never left loaded, "
    "never in line with a face.",
)
TURNING = Caution(
    "Hands and lives",
    "Sleeves, hair and leads clear of fan, belts and shafts; the key in your pocket while hands "
    "are in there.",
)
HYDRAULIC = Caution(
    "Pressure",
    "Fluid only, never air. Load by steps and look at each; face away from the joints, nobody "
    "beneath while the pedal is pressed hard.",
)
LOW_AIR = Caution(
    "Pressure",
    "Air stores its force: through a regulator and a relief, at the low figure only, and never as "
    "a test of strength.",
)
SCALD = Caution(
    "Pressure",
    "Never open a hot cooling system: it throws boiling water. Let it go cold, then a quarter turn "
    "and wait.",
)
EYES_CUTTING = Caution("Eyes", "Glasses on while you cut, drill, flare or wire-brush.")
EYES_BENEATH = Caution("Eyes", "Glasses on beneath the car: rust, swarf and fluid fall.")
EYES_FLUID = Caution(
    "Eyes", "Glasses on: fluid spurts from an open port or a bleed screw. Water to hand to rinse."
)
EYES_SPRUNG = Caution("Eyes", "Glasses on: return springs and clips let go without warning.")
EYES_GLASS = Caution(
    "Eyes", "Glasses and gloves on: glass under strain lets go all at once, edges cut."
)
FLUID_PAINT = Caution(
    "Skin and paint",
    "Brake fluid lifts fresh paint in minutes: covers on, a wet rag to hand, gloves on.",
)
PAINT_EDGES = Caution(
    "Skin and paint", "Edges padded, pockets and buckles covered: a shell chips at every corner."
)
SKIN_GOODS = Caution(
    "Skin and paint", "Gloves on: it sticks to skin and does not come off paint once it has set."
)
FUEL = Caution(
    "Fire",
    "No flame, spark or bulb that can break; battery off, doors open, extinguisher within reach.",
)
SOLVENT = Caution(
    "Fire",
    "The vapour is heavy and burns: doors open, no heater with a flame, wet rags in a metal bin.",
)
WIRING_FIRE = Caution(
    "Fire",
    "A pinched live wire burns a car down. Battery off until each circuit has its own small fuse.",
)
FUMES = Caution(
    "Breath", "Doors open and a mask for solvents; work out of it when your head swims."
)
LINING_DUST = Caution(
    "Breath",
    "Old lining, gasket and underseal dust may hold asbestos: wet it, never blow it; mask on.",
)
EXHAUST_GAS = Caution(
    "Breath", "Exhaust gas kills indoors: doors open, the pipe led outside, stop at a headache."
)
HEAVY = Caution("Back", "Lift with a hoist or a second person; slide rather than carry.")
LONG_REACH = Caution("Back", "Kneel on a pad and shift often: an awkward reach is felt next day.")
BATTERY = Caution(
    "Electric",
    "Rings and watch off. A spanner from the live post to the body welds and burns; earth lead "
    "off first, on last.",
)
CHARGING = Caution(
    "Electric",
    "A charging battery gives off gas that explodes: charger off before clips on or off.",
)
TORQUE_TONIGHT = Caution(
    "Hands and lives",
    "Run on by hand is not fitted. Torque by the car's own figure, log and paint-mark it the same "
    "evening, or tag it.",
)
STEERING_LIVES = Caution(
    "Hands and lives",
    "Steering has no second chance: new locking parts, tapers dry, every split pin in before the "
    "wheel goes on.",
)
BRAKE_PARTS = Caution(
    "Hands and lives",
    "Clean hands and the fluid's own rubber grease only: mineral oil swells the seals and the "
    "brakes lock or leak.",
)
BRAKE_JOINT = Caution(
    "Hands and lives",
    "Thread, seat and flare must agree on both sides. A near thread holds for two turns and lets "
    "go under the foot.",
)
BRAKE_FIGURES = Caution(
    "Hands and lives",
    "A figure taken from memory ends up in the brakes: measured, marked on the part, or written "
    "down as assumed.",
)
RECORD_TRUTH = Caution(
    "Hands and lives",
    "Write what was seen, not what was meant: somebody will drive on the strength of this line.",
)
ON_THE_ROAD = Caution(
    "Hands and lives",
    "Other people are out there too: follow local law and cover, daylight and an empty road first, "
    "turn back at the first change in the pedal.",
)
