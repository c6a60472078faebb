"""What correcting a proof or a gate may not do: show a thing, or let it past a gate.

What a proof asks for, and which gate comes after which, is the owner's to correct. But a joint
that lies hidden and was never shown has two ways out, uncovering it and a named substitute
proof; writing its definition anew is no third one.
"""

from __future__ import annotations

from dataclasses import replace

from bareshell.errors import Refused
from bareshell.model.build import Build
from bareshell.model.job import JobStatus
from bareshell.model.proof import Proof, ProofState
from bareshell.model.standing import gates_before, is_asked_for, standing_of_proof
from bareshell.model.temp import Gate

_STAYS = (ProofState.COVERED, ProofState.FAILED)
_TWO_WAYS = "uncover it, or give it a named substitute proof; then correct it"


def check_proof_corrected(build: Build, proof: Proof) -> None:
    """Check that a correction of a proof shows nothing and takes nothing from a gate.

    Raises
    ------
    Refused
        When the correction alone would make it good, bring it from under its cover, or take
        what is covered or failed away from a gate that asks for it.
    """
    record = build.proofs.get(proof.id)
    if record is None or record.proof == proof:
        return
    old = standing_of_proof(build, record)
    if old.state.is_good:
        return
    new = standing_of_proof(build, replace(record, proof=proof))
    title = record.proof.called
    if new.state.is_good:
        raise Refused(
            "shown, not corrected",
            f"'{title}' is {old.state.value}; this correction alone would call it "
            f"{new.state.value}",
            _TWO_WAYS if old.hidden else "show it again, write that down, then correct it",
        )
    uncovered = old.state is ProofState.COVERED and new.state is not ProofState.COVERED
    if uncovered and _may_be_there(build, record.proof):
        raise Refused(
            "covered, unproven",
            f"'{title}' lies hidden and was never shown; this correction alone would bring it "
            "from under its cover",
            _TWO_WAYS,
        )
    lost = _gates_lost(build, record.proof, proof)
    if old.state in _STAYS and lost:
        raise Refused(
            old.state.value,
            f"'{title}' is {old.state.value} and the gate '{lost[0]}' asks for it",
            _TWO_WAYS if old.hidden else "put it right first, then correct it",
        )


def _may_be_there(build: Build, proof: Proof) -> bool:
    """Whether the thing may be on the car: not when no job that makes it stands begun or done."""
    makers = [build.jobs[job].state for job in proof.made_by if job in build.jobs]
    return not makers or any(m.is_done or m.status is JobStatus.STARTED for m in makers)


def may_be_corrected(build: Build, proof: Proof) -> bool:
    """Whether `check_proof_corrected` lets a correction by."""
    try:
        check_proof_corrected(build, proof)
    except Refused:
        return False
    return True


def _gates_lost(build: Build, old: Proof, new: Proof) -> list[str]:
    """Return the titles of the gates at which a covered proof would be named no more."""
    return [
        record.gate.title
        for key, record in build.gates.items()
        if _names(build, old, key) and not _names(build, new, key)
    ]


def _names(build: Build, proof: Proof, gate: str) -> bool:
    here = {gate, *gates_before(build, gate)}
    return not proof.gates or any(each in here for each in proof.gates)


def check_proof_dropped(build: Build, proof_id: str) -> None:
    """Check that what lies hidden and was never shown is not merely asked for no more.

    Raises
    ------
    Refused
        When it is covered, unproven, or failed and hidden.
    """
    record = build.proofs[proof_id]
    standing = standing_of_proof(build, record)
    if not standing.hidden or standing.state not in _STAYS or not is_asked_for(build, record):
        return
    raise Refused(
        standing.state.value,
        f"'{record.proof.called}' lies hidden and is {standing.state.value}; it cannot simply be "
        "asked for no more",
        "uncover it, or give it a named substitute proof; then drop it",
    )


def check_gate_corrected(build: Build, gate: Gate) -> None:
    """Check that a new order of the gates takes no covered joint from a later gate.

    Raises
    ------
    Refused
        When a gate that names a joint as covered, unproven would name it no more.
    """
    record = build.gates.get(gate.id)
    if record is None or set(record.gate.after) <= set(gate.after):
        return
    moved = replace(build, gates={**build.gates, gate.id: replace(record, gate=gate)})
    for proved in build.proofs.values():
        standing = standing_of_proof(build, proved)
        if standing.state not in _STAYS or not is_asked_for(build, proved):
            continue
        for key, other in build.gates.items():
            if _names(build, proved.proof, key) and not _names(moved, proved.proof, key):
                raise Refused(
                    standing.state.value,
                    f"the gate '{other.gate.title}' would no longer name "
                    f"'{proved.proof.called}', which is {standing.state.value}",
                    _TWO_WAYS,
                )
