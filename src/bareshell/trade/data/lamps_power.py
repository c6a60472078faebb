"""Lamps, first power and what is measured with it."""

from __future__ import annotations

from bareshell.model.job import Caution
from bareshell.model.part import NeededTo
from bareshell.model.position import Wheels
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import CableSpec, ElectricalSpec
from bareshell.trade.cautions import (
    BATTERY,
    CHARGING,
    TURNING,
    UNDER_CAR,
    WIRING_FIRE,
)
from bareshell.trade.row import Left, Owed, Row, Uses, at_most, fixing
from bareshell.trade.zones import BAY, BOOT, CABIN, FRONT, REAR, UNDERNEATH

ELECTRICS = "electrics"
CIRCUIT, WIRE = AboutKind.CIRCUIT, AboutKind.WIRE
FINISH = NeededTo.FINISH

ROWS: tuple[Row, ...] = (
    Row(
        "headlamps",
        "Fit front lamps, bowls and gaskets",
        ELECTRICS,
        (1, 2, 4),
        after="loom-main",
        zones=FRONT,
        split=0.5,
        safety=True,
        tools=("meter",),
        cautions=(
            Caution("Hands and lives", "A lamp without a proved earth dims when it is wanted."),
        ),
        twin="rear-lamps",
        proofs=(
            Owed(
                "Adjusters move; each lamp's earth proved by meter",
                ProofKind.MEASURED,
                CIRCUIT,
                "front lamps",
                limits=(at_most("resistance of the earth", "ohm", 0.1),),
            ),
        ),
        needs=(
            Uses("Headlamps", 2, ElectricalSpec(what="headlamp", volts=12.0)),
            Uses("Front lamp gaskets", 4),
            fixing("Front lamp screws", 12),
        ),
    ),
    Row(
        "rear-lamps",
        "Fit rear and number-plate lamps",
        ELECTRICS,
        (1, 2, 4),
        after="loom-rear",
        zones=REAR | BOOT,
        split=0.5,
        safety=True,
        tools=("meter",),
        cautions=(
            Caution("Hands and lives", "A stop lamp is seen or not seen: earth proved, lens dry."),
        ),
        twin="headlamps",
        proofs=(
            Owed(
                "Gaskets sit all round; each lamp's earth proved by meter",
                ProofKind.MEASURED,
                CIRCUIT,
                "rear lamps",
                limits=(at_most("resistance of the earth", "ohm", 0.1),),
            ),
        ),
        needs=(
            Uses("Rear lamps", 2, ElectricalSpec(what="rear lamp", volts=12.0)),
            Uses("Rear lamp gaskets", 4),
            fixing("Rear lamp screws", 10),
        ),
    ),
    Row(
        "lamps-connect",
        "Connect all lamps, horn, wipers and pumps",
        ELECTRICS,
        (1, 2, 4),
        after="headlamps rear-lamps loom-test wiper-fit",
        later="loom-test wiper-fit",
        zones=FRONT | REAR | BAY | CABIN | BOOT,
        split=0.5,
        safety=True,
        cautions=(BATTERY,),
        proofs=(
            Owed(
                "Each terminal pulled by hand and stays; each lamp body's earth proved",
                ProofKind.SEEN,
                CIRCUIT,
                "lamp terminals",
            ),
        ),
        needs=(
            Uses("Bulbs, a full set", 1, ElectricalSpec(what="bulbs", volts=12.0)),
            Uses("Horn", spec=ElectricalSpec(what="horn", volts=12.0)),
            fixing("Bullet connectors", 40, ElectricalSpec(connector="bullet")),
        ),
    ),
    Row(
        "power-up",
        "First power: one circuit at a time through a small fuse or a lamp in series",
        ELECTRICS,
        (1, 2, 5),
        after="lamps-connect dash-fit fuse-box engine-wires col-switches",
        later="dash-fit col-switches",
        zones=CABIN | BAY | BOOT,
        safety=True,
        tools=("battery", "test lamp", "meter", "extinguisher"),
        cautions=(WIRING_FIRE, BATTERY, CHARGING),
        proofs=(
            Owed(
                "No draw with all off, the isolator cuts, no wire grows warm",
                ProofKind.MEASURED,
                CIRCUIT,
                "first power",
                gates="cabin first-start",
                limits=(at_most("draw with all off", "mA", 30),),
            ),
        ),
        temp=Left("Small test fuses", "elec-test", "cabin", "fuses of the proper rating"),
        needs=(
            Uses("Battery", spec=ElectricalSpec(what="battery", volts=12.0)),
            Uses("Small test fuses", 6, ElectricalSpec(what="fuse", amps=5.0)),
        ),
    ),
    Row(
        "elec-test",
        "Work every circuit in turn, with the engine off",
        ELECTRICS,
        (1, 2, 4),
        after="power-up",
        people=2,
        alone="mirrors, or a phone on a tripod",
        zones=CABIN | FRONT | REAR | BAY,
        safety=True,
        cautions=(
            TURNING,
            Caution("Electric", "Coil and leads bite with the ignition on: hands off them."),
        ),
        proofs=(
            Owed(
                "List ticked circuit by circuit with the engine off",
                ProofKind.SEEN,
                CIRCUIT,
                "every circuit",
                gates="cabin",
            ),
        ),
        needs=(Uses("Spare bulbs", 4, ElectricalSpec(what="bulbs", volts=12.0), needed_to=FINISH),),
    ),
    Row(
        "volt-drop",
        "Measure voltage drop in headlamp, pump, starter and earth circuits",
        ELECTRICS,
        (0.5, 1, 2),
        after="elec-test",
        zones=FRONT | BAY | BOOT,
        tools=("meter", "long test lead"),
        cautions=(BATTERY,),
        proofs=(
            Owed(
                "Drop under load: lamps 0.4 V, starter lead 0.5 V, earths 0.2 V at most",
                ProofKind.MEASURED,
                CIRCUIT,
                "loaded circuits",
                gates="road",
                limits=(
                    at_most("drop in the lamp circuit", "V", 0.4),
                    at_most("drop in the starter lead", "V", 0.5),
                    at_most("drop in an earth", "V", 0.2),
                ),
            ),
        ),
    ),
    Row(
        "stop-switch",
        "Set the stop-lamp switch",
        ELECTRICS,
        (0.2, 0.5, 1),
        after="elec-test pedal-box",
        later="elec-test",
        zones=CABIN | REAR,
        safety=True,
        cautions=(
            Caution(
                "Hands and lives",
                "A switch that holds the pedal down drags the brakes on; one set too far leaves "
                "the lamps dark.",
            ),
        ),
        proofs=(
            Owed(
                "Lights at the pedal's first movement, goes out again, never holds the pedal",
                ProofKind.SEEN,
                CIRCUIT,
                "stop-lamp switch",
                gates="first-move",
            ),
        ),
        needs=(Uses("Stop-lamp switch", spec=ElectricalSpec(what="switch")),),
    ),
    Row(
        "speedo",
        "Fit the speedometer drive; compare with the rolling radius",
        ELECTRICS,
        (0.3, 0.6, 1.2),
        after="tyres-wheels dash-fit mounts",
        later="dash-fit mounts",
        zones=UNDERNEATH | CABIN,
        cautions=(UNDER_CAR,),
        proofs=(
            Owed(
                "Never reads low for the tyres that are fitted",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "speedometer",
                gates="road",
            ),
        ),
        needs=(Uses("Speedometer cable", spec=CableSpec()),),
    ),
    Row(
        "lamp-aim",
        "Aim the headlamps",
        ELECTRICS,
        (0.3, 0.7, 1.5),
        after="load-settle volt-drop",
        later="volt-drop",
        zones=FRONT,
        wheels=Wheels.LOADED,
        level=True,
        safety=True,
        tools=("flat wall", "tape", "rule"),
        cautions=(
            Caution(
                "Hands and lives",
                "Aim by the marks that apply where the car is registered; a lamp set high blinds.",
            ),
        ),
        proofs=(
            Owed(
                "Cut-off or bright spot on its marks, both sides alike",
                ProofKind.MEASURED,
                AboutKind.ASSEMBLY,
                "headlamp aim",
                gates="road",
            ),
        ),
    ),
)
