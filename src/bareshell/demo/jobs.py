"""What this build adds to the starter network, leaves out of it, and found already done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from bareshell.model.job import Caution, Job, Way
from bareshell.model.position import Place, Wheels, Zone
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind
from bareshell.model.temp import Temp
from bareshell.model.trust import YOURS, ThreePoint

LEFT_OUT: Final[Mapping[str, str]] = {
    "anti-roll": "this car has none",
    "cam-run": "camshaft and followers are the old ones, kept in their places",
    "dash-top": "the crash roll goes in from behind, after the screen",
    "head-cold": "the gasket in it is of the kind that is not tightened again",
    "rec-wiring": "kept in the wiring notebook instead",
    "screen-seal": "the rubbers on this car are fitted dry",
    "side-glass": "four doors, and every side window drops into one",
    "speedo": "same gears and same rolling circumference as standard",
}
"""Jobs of the starter network that this build does without, each with the owner's reason."""

DONE_BEFORE: Final = (
    "seams",
    "underbody-coat",
    "engine-inspect",
    "engine-machine",
    "engine-short",
    "engine-top",
    "engine-seal",
)
"""Done by the painter and by the previous owner, before the record began."""


def _job(
    key: str,
    title: str,
    system: str,
    after: tuple[str, ...],
    hours: tuple[float, float, float],
    **more: object,
) -> Job:
    ways = (Way(1, ThreePoint(*hours)),)
    return replace(Job(key, title, system, after, ways, mark=YOURS), **more)  # type: ignore[arg-type]


_BAY = frozenset({Zone.ENGINE_BAY})
_FRONT_ENDS = frozenset({Zone.WHEEL_ENDS_FRONT})
_EYES = Caution("Eyes", "Swarf flies from the drill and the file: wear goggles.")

JOBS: Final = (
    _job(
        "tandem-adaptor",
        "Make the adaptor plate for the tandem cylinder",
        "brakes",
        ("brake-calc", "hole-audit"),
        (2, 3, 6),
        place=Place.BENCH,
        splittable=True,
        cautions=(_EYES,),
        tools=("8 mm steel plate", "centre punch", "hacksaw", "files", "calipers"),
        note="The bulkhead has the single cylinder's two-stud pattern; the tandem wants four.",
    ),
    _job(
        "servo-blanks",
        "Blank the remote servo's bracket holes and its vacuum tapping",
        "brakes",
        ("hole-audit", "bulkhead-pad"),
        (0.5, 1, 2),
        zones=_BAY,
        off=frozenset({"engine out"}),
        tools=("grommets", "blanking plate", "sealer"),
    ),
    _job(
        "hose-bracket-left",
        "Fit the left front hose bracket for the disc strut",
        "brakes",
        ("uprights", "brake-survey"),
        (0.2, 0.3, 0.7),
        zones=_FRONT_ENDS,
        wheels=Wheels.HANGING,
        twin="hose-bracket-right",
        tightens=("bracket to strut, two M8, 22 N m",),
        note="The drum strut had its hose lower down; with the caliper the old place rubs.",
    ),
    _job(
        "hose-bracket-right",
        "Fit the right front hose bracket for the disc strut",
        "brakes",
        ("uprights", "brake-survey"),
        (0.2, 0.3, 0.7),
        zones=_FRONT_ENDS,
        wheels=Wheels.HANGING,
        twin="hose-bracket-left",
        tightens=("bracket to strut, two M8, 22 N m",),
        note="The drum strut had its hose lower down; with the caliper the old place rubs.",
    ),
    _job(
        "circuit-lamp",
        "Fit the pressure-difference switch and its warning lamp",
        "brakes",
        ("mc-fit", "loom-main", "lines-hold"),
        (0.5, 1.25, 2.5),
        zones=_BAY,
        cautions=(
            Caution(
                "Hands and lives",
                "A new joint in each circuit: the hold counts again from here.",
            ),
        ),
        tools=("switch", "two short pipes", "lamp and holder"),
    ),
    _job(
        "alternator-bracket",
        "Make the alternator bracket and line up the pulleys",
        "engine",
        ("rotating-bench",),
        (1.5, 2.5, 5),
        place=Place.BENCH,
        splittable=True,
        cautions=(_EYES,),
        tools=("steel angle", "straight edge", "spacers"),
    ),
    _job(
        "alternator-wires",
        "Rewire charging for the alternator; leave the control box as a junction",
        "electrics",
        ("loom-main", "fuse-box"),
        (1, 2, 4),
        zones=_BAY,
        splittable=True,
        tools=("6 mm2 cable", "crimp terminals", "meter"),
        note="Negative earth now: check the instruments' polarity before power goes on.",
    ),
)
"""Jobs that only this car has, because its brakes and its charging are not as it left the works."""

AFTER_THESE_TOO: Final[Mapping[str, tuple[str, ...]]] = {
    "mc-fit": ("tandem-adaptor",),
    "front-hoses": ("hose-bracket-left", "hose-bracket-right"),
    "brake-fill": ("circuit-lamp",),
    "engine-wires": ("alternator-bracket", "alternator-wires"),
}
"""Predecessors that jobs of the starter network get on this car."""

PROOFS: Final = (
    Proof(
        "tandem-adaptor-flat",
        "Adaptor plate flat and square: no light under a straight edge",
        ProofKind.MEASURED,
        AboutKind.ASSEMBLY,
        "adaptor plate",
        ("tandem-adaptor",),
        None,
        ("mc-fit",),
        (),
        (Limit("gap under the straight edge", "mm", None, 0.05, YOURS),),
        mark=YOURS,
    ),
    Proof(
        "hose-bracket-left-torque",
        "Left hose bracket torqued and marked",
        ProofKind.TORQUE,
        AboutKind.FIXING,
        "left hose bracket",
        ("hose-bracket-left",),
        None,
        (),
        (),
        (Limit("torque", "N m", 20.0, 24.0, YOURS),),
        mark=YOURS,
    ),
    Proof(
        "hose-bracket-right-torque",
        "Right hose bracket torqued and marked",
        ProofKind.TORQUE,
        AboutKind.FIXING,
        "right hose bracket",
        ("hose-bracket-right",),
        None,
        (),
        (),
        (Limit("torque", "N m", 20.0, 24.0, YOURS),),
        mark=YOURS,
    ),
)

ASKED_AT: Final[Mapping[str, tuple[str, ...]]] = {
    "engine-short": ("first-start",),
    "engine-top": ("first-start",),
}
"""Gates that the owner lets ask for proofs of the starter network that name none. What nobody
measured inside this engine is then asked for where it matters, and not at every gate."""

TEMPS: Final = (
    Temp(
        "strap-on-boot",
        "Ratchet strap holding the boot lid shut",
        "the boot lock and its striker",
        "road",
    ),
    Temp(
        "timber-under-box",
        "Timber packing where the gearbox crossmember goes",
        "the crossmember and its mount",
        "road",
    ),
)
"""Temporary fixes that the owner raised by hand; the starter network's own come on top."""


def with_local_changes(job: Job) -> Job:
    """Return a job of the starter network as it is on this car."""
    extra = AFTER_THESE_TOO.get(job.id, ())
    return replace(job, after=(*job.after, *extra)) if extra else job


def asked_at(proof: Proof) -> Proof:
    """Return a proof of the starter network with the gates that ask for it on this car."""
    return replace(proof, gates=ASKED_AT.get(proof.id, proof.gates))
