"""The proofs of the demo: figures that were read, and the few that went differently."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bareshell.demo.days import spread
from bareshell.model.proof import Limit, Proof, ProofKind, Reading

READ: Final[Mapping[str, tuple[Reading, ...]]] = {
    "tool-check": (
        Reading("torque asked for", 50.0, "N m", "hung weight"),
        Reading("torque given", 48.6, "N m", "small wrench"),
    ),
    "brake-survey": (
        Reading("caliper piston", 48.0, "mm", "calipers"),
        Reading("disc", 227.0, "mm", "calipers"),
        Reading("drum, rear", 203.2, "mm", "inside calipers"),
    ),
    "earth-points": (Reading("resistance", 0.03, "ohm", "meter, leads zeroed"),),
    "front-hubs": (
        Reading("end float, taper bearings", 0.06, "mm", "dial gauge"),
        Reading("end float, taper bearings", 0.07, "mm", "dial gauge"),
    ),
    "halfshafts-rwd": (Reading("end float", 0.15, "mm", "dial gauge"),),
    "axle-bench-rwd": (
        Reading("backlash", 0.14, "mm", "dial gauge"),
        Reading("pinion preload", 1.3, "N m", "small wrench"),
    ),
    "front-frame": (Reading("torque, four bolts", 61.0, "N m", "big wrench"),),
    "mc-fit": (Reading("free play of the rod", 1.2, "mm", "feeler"),),
    "pedal-box": (Reading("side play at the pad", 0.4, "mm", "feeler"),),
    "tank-prep": (Reading("air pressure", 0.15, "bar", "hand pump gauge"),),
    "rad-bench": (Reading("pressure under water", 1.0, "bar", "hand pump gauge"),),
    "heater-bench": (Reading("pressure under water", 1.0, "bar", "hand pump gauge"),),
    "caliper-bench": (Reading("piston, all four", 48.0, "mm", "calipers"),),
    "rear-brakes": (Reading("wheel cylinder bore", 19.05, "mm", "cast mark"),),
    "doors-hang": (
        Reading("door gap", 4.4, "mm", "feeler"),
        Reading("door gap", 4.7, "mm", "feeler"),
    ),
    "tyres-wheels": (Reading("age of the tyre", 1.5, "years", "date code"),),
    "wheel-fixings": (Reading("thread engaged, in diameters", 1.2, "", "calipers"),),
    "on-wheels": (Reading("wheel nut torque", 65.0, "N m", "big wrench"),),
    "sender-test": (
        Reading("empty", 240.0, "ohm", "meter"),
        Reading("full", 31.0, "ohm", "meter"),
    ),
    "tandem-adaptor-flat": (Reading("gap under the straight edge", 0.03, "mm", "feeler"),),
    "hose-bracket-left-torque": (Reading("torque", 22.0, "N m", "small wrench"),),
}
"""Readings by proof, where the owner wrote figures down."""

STILL_OWED: Final = frozenset({"hb-cables", "fuse-box", "battery-leads"})
"""Jobs that are done and whose own proof nobody has held yet."""

FAILED_FIRST: Final[Mapping[str, tuple[str, tuple[Reading, ...], str]]] = {
    "disc-fit": (
        "left disc 0.17 mm; hub face had paint on it",
        (
            Reading("run-out at the rim", 0.17, "mm", "dial gauge"),
            Reading("run-out at the rim", 0.08, "mm", "dial gauge, right"),
        ),
        "hub face scraped clean, disc turned one hole",
    ),
    "floor-plugs": (
        "wet round two plugs in the left rear footwell after four minutes",
        (),
        "plugs out, seats scraped clean, sealed again; dry after ten minutes",
    ),
}
"""Proofs that failed the first time: what was seen, the figures, and what mended it."""

MENDED: Final[Mapping[str, tuple[Reading, ...]]] = {
    "disc-fit": (
        Reading("run-out at the rim", 0.06, "mm", "dial gauge, left"),
        Reading("run-out at the rim", 0.08, "mm", "dial gauge, right"),
    ),
}

SUBSTITUTES: Final[Mapping[str, str]] = {
    "rec-shell-photos": "the painter's own dated photographs of the seams, put in the folder",
    "seams": "lamp beneath in the dark, every seam walked along from inside: no light",
    "seams.water": "hosed from above for ten minutes, floor and sills dry inside",
}
"""Named substitute proofs for what lay under the coat before the record began."""


ALSO_SHOWN: Final[Mapping[str, tuple[str, ...]]] = {"shell-water": ("seams",)}
"""Proofs of what was made before the record, and the job in which they were shown all the same."""


def hold_begun(temperature_c: float) -> tuple[Reading, ...]:
    """Return what was read when the rigid lines were left under pressure for the night."""
    return (
        Reading("pressure at the start", 70.0, "bar", "gauge at the rear union"),
        Reading("temperature of the bay", temperature_c, "degC", "wall thermometer"),
    )


WORDS: Final[Mapping[ProofKind, tuple[str, ...]]] = {
    ProofKind.MEASURED: ("measured and written down", "measured twice, the same both times"),
    ProofKind.HELD_PRESSURE: ("gauge steady, every joint wiped and dry", "soaped, no bubble"),
    ProofKind.TORQUE: ("torqued and marked with paint", "torqued in order, marks across"),
    ProofKind.SEEN: (
        "looked at under the lamp",
        "looked at all round, photograph kept on the phone",
    ),
    ProofKind.TWO_PERSON: ("one called, one checked",),
    ProofKind.ROAD: ("driven and felt",),
}


def words_for(proof: Proof) -> str:
    """Return what the owner wrote with a proof, always the same for the same proof."""
    choices = WORDS[proof.kind]
    return choices[sum(proof.id.encode()) % len(choices)]


def readings_for(proof: Proof) -> tuple[Reading, ...]:
    """Return the figures that were read: written above, or inside what its limits admit."""
    if proof.id in MENDED:
        return MENDED[proof.id]
    if proof.id in READ:
        return READ[proof.id]
    return tuple(_within(limit, proof.id) for limit in proof.limits)


def _within(limit: Limit, key: str) -> Reading:
    share = (spread(f"{key} {limit.quantity}") + 1) / 2
    if limit.low is not None and limit.high is not None:
        value = limit.low + (limit.high - limit.low) * (0.2 + 0.6 * share)
    elif limit.high is not None:
        value = limit.high * (0.3 + 0.5 * share)
    else:
        value = (limit.low or 0.0) * (1.05 + 0.3 * share)
    return Reading(limit.quantity, float(f"{value:.3g}"), limit.unit)
