"""What opening the brakes spends of their proofs, and what the proofs say was vented.

Undoing a joint spends its leak proof and the air proof of its circuit. Opening a bleed screw
spends only the air proof and that screw's own leak proof; the next pedal test renews both. What a
whole bleeding job spends is written in the proofs themselves, as jobs that spend them.
"""

from __future__ import annotations

from collections.abc import Iterable

from bareshell.brakes.joints import joint_schedule
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, PartKind
from bareshell.model.proof import ProofState
from bareshell.model.standing import standing_of_proof
from bareshell.whole.brake_proofs import (
    air_proof_id,
    joint_proof_id,
    screw_proof_id,
    vent_proof_id,
)

__all__ = ["joint_undone", "screw_opened", "spent_by", "vented_blanks"]


def vented_blanks(system: BrakeSystem, build: Build) -> tuple[str, ...]:
    """Return the blanks whose far end stands proved to be vented, as a bleed plan asks.

    Parameters
    ----------
    system : BrakeSystem
        The brakes as built.
    build : Build
        Its proofs.
    """
    return tuple(
        part.id
        for part in system.of_kind(PartKind.STUB)
        if (key := vent_proof_id(part.id)) in build.proofs
        and standing_of_proof(build, build.proofs[key]).state.is_good
    )


def joint_undone(system: BrakeSystem, joint: str) -> tuple[str, ...]:
    """Return the proofs that undoing a joint spends: its leak proof and its circuit's air proof.

    Parameters
    ----------
    system : BrakeSystem
        The brakes.
    joint : str
        Id of the joint.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> joint_undone(starter("twin cylinders"), "pipe-rear-0")
    ('brake-joint.pipe-rear-0', 'brake-air.master-rear-primary')
    """
    for each in joint_schedule(system).joints:
        if each.id == joint:
            return (joint_proof_id(joint), *(air_proof_id(it) for it in each.circuits))
    return ()


def screw_opened(system: BrakeSystem, screw: str) -> tuple[str, ...]:
    """Return the proofs that opening a bleed screw spends: its own and its circuit's air proof.

    Parameters
    ----------
    system : BrakeSystem
        The brakes.
    screw : str
        Id of the screw.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> screw_opened(starter("twin cylinders"), "caliper-front-left-bleed")
    ('brake-screw.caliper-front-left-bleed', 'brake-air.master-front-primary')
    """
    for each in joint_schedule(system).screws:
        if each.id == screw:
            return (screw_proof_id(screw), *(air_proof_id(it) for it in each.circuits))
    return ()


def spent_by(build: Build, proofs: Iterable[str], words: str) -> tuple[c.ProofSpent, ...]:
    """Return the changes that spend those of some proofs that stand to be spent.

    Parameters
    ----------
    build : Build
        The build.
    proofs : iterable of str
        From `joint_undone` or `screw_opened`.
    words : str
        What was opened.
    """
    live = (ProofState.HELD, ProofState.BEGUN, ProofState.SUBSTITUTED)
    return tuple(
        c.ProofSpent(key, words)
        for key in dict.fromkeys(proofs)
        if key in build.proofs and standing_of_proof(build, build.proofs[key]).state in live
    )
