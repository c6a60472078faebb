"""Doors: hung, latched, sealed, glazed, waxed and lined."""

from __future__ import annotations

from bareshell.model.job import Caution
from bareshell.model.part import NeededTo
from bareshell.model.proof import AboutKind, ProofKind
from bareshell.model.spec import PlainSpec, RubberSpec
from bareshell.trade.cautions import (
    EYES_GLASS,
    HEAVY,
    PAINT_EDGES,
    SOLVENT,
    TORQUE_TONIGHT,
)
from bareshell.trade.row import Owed, Row, Uses, between, cure, fixing, goods
from bareshell.trade.zones import (
    DOORS,
)

FITTINGS = "body fittings"
GLASS = "glass"
SEAM, FIXED = AboutKind.SEAM, AboutKind.FIXING
FINISH = NeededTo.FINISH
OWN_FIGURE = "the car's own figure; mark"

ROWS: tuple[Row, ...] = (
    Row(
        "doors-hang",
        "Hang and align the doors",
        FITTINGS,
        (2, 4, 8),
        after="paint-harden threads-chase damp-doors fast-plate",
        later="threads-chase damp-doors",
        people=2,
        alone="padded door cradle on a jack",
        zones=DOORS,
        split=1.5,
        safety=True,
        tools=("gap gauge", "tape", "padded jack"),
        tightens=(f"Hinge bolts: {OWN_FIGURE}",),
        cautions=(HEAVY, PAINT_EDGES, TORQUE_TONIGHT),
        proofs=(
            Owed(
                "Gap even at 4 to 5 mm all round; hinge bolts torqued and marked",
                ProofKind.TORQUE,
                FIXED,
                "door hinges",
                gates="road",
                limits=(between("door gap", "mm", 4, 5),),
            ),
        ),
        needs=(
            fixing("Hinge bolts", 12, None, NeededTo.START),
            fixing("Hinge shims", 8, PlainSpec()),
        ),
    ),
    Row(
        "door-latches",
        "Fit locks, handles, strikers and check straps",
        FITTINGS,
        (2, 4, 7),
        after="doors-hang",
        zones=DOORS,
        split=1,
        safety=True,
        cautions=(
            Caution("Hands and lives", "A door held by its first notch opens in a bend: try both."),
        ),
        proofs=(
            Owed(
                "Both stages of the latch hold; opens from both sides",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "door latches",
                covers="door-membrane",
                gates="road",
            ),
        ),
        needs=(
            fixing("Lock and striker screws", 16),
            fixing("Handle clips", 8, PlainSpec()),
            goods("Latch grease", "1 sachet", needed_to=FINISH),
        ),
    ),
    Row(
        "door-seals",
        "Fit the door aperture seals",
        FITTINGS,
        (1, 2, 4),
        after="doors-hang",
        zones=DOORS,
        split=0.5,
        lowest_c=12,
        cautions=(SOLVENT,),
        twin="boot-seal",
        proofs=(
            Owed(
                "A strip of paper is gripped all round",
                ProofKind.SEEN,
                SEAM,
                "door seals",
                gates="cabin",
            ),
        ),
        needs=(
            Uses("Door seals", 2, RubberSpec()),
            goods("Rubber adhesive", "1 tube", 12, 12),
        ),
    ),
    Row(
        "door-glass",
        "Fit glass channels, regulator, quarter light and door glass",
        GLASS,
        (3, 6, 10),
        after="door-latches",
        later="door-latches",
        zones=DOORS,
        split=1,
        cautions=(EYES_GLASS,),
        proofs=(
            Owed(
                "Goes its full way by one finger's pressure; does not rattle",
                ProofKind.SEEN,
                AboutKind.ASSEMBLY,
                "door glass",
                covers="door-membrane",
            ),
        ),
        needs=(
            Uses("Glass channel", 4, RubberSpec()),
            fixing("Channel clips", 16, PlainSpec()),
            goods("Regulator grease", "1 sachet", needed_to=FINISH),
        ),
    ),
    Row(
        "door-glass-set",
        "Adjust the door glass to its seals",
        GLASS,
        (1, 2, 4),
        after="door-glass door-seals",
        zones=DOORS,
        split=0.5,
        cautions=(EYES_GLASS,),
        proofs=(
            Owed(
                "Top edge meets the seal all along",
                ProofKind.SEEN,
                SEAM,
                "door glass edge",
                covers="door-membrane",
            ),
        ),
    ),
    Row(
        "door-wax",
        "Wax inside the doors after the glass is set",
        "underbody",
        (0.5, 1, 2),
        after="door-glass-set",
        zones=DOORS,
        wait=cure(24, 15, "wax skins"),
        lowest_c=15,
        dirty=True,
        tools=("lances", "covers for the glass"),
        cautions=(SOLVENT,),
        proofs=(
            Owed(
                "Film along the bottom seam; drains open",
                ProofKind.SEEN,
                SEAM,
                "door bottoms",
                covers="door-membrane",
            ),
        ),
        needs=(goods("Cavity wax for the doors", "half a litre", 15, 36),),
    ),
    Row(
        "door-hose",
        "Hose the doors: in at the glass, out at the drains",
        FITTINGS,
        (0.5, 0.7, 1.5),
        after="door-wax",
        zones=DOORS,
        wait=cure(12, 5, "the doors dry out"),
        tools=("hose", "lamp"),
        proofs=(
            Owed(
                "Nothing wet inside the line of the inner skin",
                ProofKind.SEEN,
                SEAM,
                "doors under water",
                covers="door-membrane",
            ),
        ),
    ),
    Row(
        "door-membrane",
        "Fit the waterproof membranes",
        FITTINGS,
        (0.5, 1, 2),
        after="door-hose door-latches",
        later="door-hose",
        zones=DOORS,
        split=0.5,
        lowest_c=12,
        proofs=(
            Owed(
                "Stuck all round, lapped into the drain side",
                ProofKind.SEEN,
                SEAM,
                "door membranes",
                covers="door-cards",
            ),
        ),
        needs=(
            goods("Door membrane", "2 sheets"),
            goods("Butyl cord", "5 metres", 12),
        ),
    ),
)
