"""Writing down what happened to a proof, and saying what came of it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from bareshell.app.door import Door
from bareshell.app.figures import is_in_another_unit, misses
from bareshell.app.written import Pen, Written, write_down
from bareshell.errors import BadInput, NotFound
from bareshell.model.changes import (
    Change,
    ProofBegun,
    ProofFailed,
    ProofHeld,
    ProofSpent,
    ProofSubstituted,
    ProofUncovered,
)
from bareshell.model.proof import Proof, ProofState, Reading
from bareshell.model.standing import standing_of_proof
from bareshell.whole.tickets import limit_words


def mark_proof(
    door: Door,
    proof_id: str,
    what: str,
    readings: Sequence[Reading] = (),
    words: str = "",
    *,
    entry_id: str | None = None,
    base_version: int | None = None,
) -> tuple[str, ...]:
    """Write down what happened to a proof.

    Parameters
    ----------
    door : Door
        The build.
    proof_id : str
        The proof.
    what : str
        ``begun``, ``held``, ``failed``, ``spent``, ``uncovered`` or ``substitute``; a
        substitute's name is in ``words``.
    readings : sequence of Reading
        What was read; a figure that misses the proof's limit cannot be held.
    words : str
        Anything to keep with it.
    entry_id, base_version : str, int
        The writer's own id for the entry, and the version of the proof it knew.

    Returns
    -------
    tuple of str
        What was written down and how the proof stands now.

    Raises
    ------
    NotFound, BadInput
        When there is no such proof, or a figure misses its limit.
    """
    pen = Pen(entry_id=entry_id, base=base_version)
    return marked(door, proof_id, what, readings, words, pen).words


def marked(
    door: Door,
    proof_id: str,
    what: str,
    readings: Sequence[Reading],
    words: str,
    pen: Pen,
    happened_at: datetime | None = None,
) -> Written:
    """Write down what happened to a proof, as ``mark_proof``, with a known hand and time."""
    build = door.build()
    if proof_id not in build.proofs:
        raise NotFound(f"there is no proof '{proof_id}'", "look for it among the proofs")
    proof = build.proofs[proof_id].proof
    if what == "held":
        check_limits(proof, readings)
    change = change_about(proof_id, what, tuple(readings), words)
    return write_down(
        door, change, pen, lambda: _after(door, proof_id, what), happened_at=happened_at
    )


def _after(door: Door, proof_id: str, what: str) -> tuple[str, ...]:
    build = door.build()
    record = build.proofs[proof_id]
    standing = standing_of_proof(build, record)
    said = f"'{record.proof.title}' is {standing.state.value}."
    if what == "held" and standing.state is ProofState.COVERED:
        return (
            said,
            (
                "It lies hidden, so a hold proves nothing there: uncover it, or give it a named "
                "substitute proof."
            ),
        )
    asked = {"", *(limit.quantity for limit in record.proof.limits)}
    figured = any(reading.quantity in asked for reading in standing.readings)
    if what == "held" and record.proof.limits and not figured:
        return (
            said,
            f"No figure stands beside it; its limit is {limits_words(record.proof)}.",
        )
    return (said,)


def limits_words(proof: Proof) -> str:
    """Say every limit of a proof."""
    return "; ".join(limit_words(limit) for limit in proof.limits)


def change_about(proof_id: str, what: str, readings: tuple[Reading, ...], words: str) -> Change:
    """Make the change that a word about a proof means.

    Raises
    ------
    BadInput
        When it is none of the words for it.
    """
    match what:
        case "begun":
            return ProofBegun(proof_id, readings, words)
        case "held":
            return ProofHeld(proof_id, readings, words)
        case "failed":
            return ProofFailed(proof_id, readings, words)
        case "spent":
            return ProofSpent(proof_id, words)
        case "uncovered":
            return ProofUncovered(proof_id, words)
        case "substitute":
            return ProofSubstituted(proof_id, words, readings)
        case _:
            raise BadInput(
                "what happened",
                f"'{what}' is none of the words for it",
                "say begun, held, failed, spent, uncovered or substitute",
            )


def check_limits(proof: Proof, readings: Sequence[Reading]) -> None:
    """Refuse to call a proof held when a figure misses its limit, or cannot be held against it.

    Raises
    ------
    BadInput
        With the figure and the limit.
    """
    for reading in readings:
        meant = [one for one in proof.limits if reading.quantity in ("", one.quantity)]
        if meant and all(is_in_another_unit(limit, reading) for limit in meant):
            raise BadInput(
                f"figure of '{proof.title}'",
                f"{reading.value:g} {reading.unit} cannot be held against its limit, "
                f"{limits_words(proof)}",
                f"write it in {' or '.join(dict.fromkeys(one.unit for one in meant))}",
            )
    for limit in proof.limits:
        for reading in readings:
            if misses(limit, reading):
                raise BadInput(
                    f"figure of '{proof.title}'",
                    f"{reading.value:g} {reading.unit} misses its limit, {limit_words(limit)}",
                    "write it down as failed, or correct the figure",
                )
