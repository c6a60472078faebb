"""What became of a proof: begun, held with a figure that meets its limit, failed, or asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from bareshell.model.changes import (
    Change,
    ProofBegun,
    ProofFailed,
    ProofHeld,
    ProofSubstituted,
)
from bareshell.model.proof import Proof, ProofKind, ProofState, Reading
from bareshell.model.standing import standing_of_proof
from bareshell.units import show_hours, show_wait
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.clock import moment_of
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import (
    Desk,
    Piece,
    asked,
    heard,
    plain,
)
from bareshell.whole.said.figures import Figure, Measure
from bareshell.whole.said.readings import TIMES, Taken, taken_from, time_limit
from bareshell.whole.said.results import Choice
from bareshell.whole.tickets import limit_words


def called(desk: Desk, proof: Proof) -> str:
    """Call a proof by its title, and by what it is about where others have the same title."""
    others = [r for r in desk.build.proofs.values() if r.proof.title == proof.title]
    if len(others) < 2:
        return proof.title
    made = [desk.title(j) for j in proof.made_by if j in desk.build.jobs]
    about = proof.about or ", ".join(made)
    return f"{proof.title} ({about})" if about else proof.title


def judged(clause: Clause, desk: Desk, proof: Proof, confidence: float) -> Piece:
    """Say what became of a proof: begun, failed, held, or a question where it is not plain."""
    proof = replace(proof, title=called(desk, proof))
    taken, strange = taken_from(clause, proof)
    words = plain(clause.text)
    readings = tuple(t.reading for t in taken)
    told = "".join(f", {t.said}" for t in taken)
    if strange:
        return _ask_unit(clause, proof, strange[0])
    outcome = outcome_of(clause)
    if outcome is Cue.FAILED:
        change = ProofFailed(proof.id, readings, words)
        return heard("proof", proof.title, f"failed{told}", (change,), clause, confidence)
    if outcome is Cue.BEGUN:
        when = _moment(clause, desk)
        since = f" at {when.astimezone(desk.zone):%H:%M}" if when else ""
        if proof.hold_hours:
            told += f"; read it after {show_wait(proof.hold_hours)}"
        change_begun = ProofBegun(proof.id, readings, words)
        return heard("proof", proof.title, f"begun{since}{told}", (change_begun,), clause,
                     confidence, when)  # fmt: skip
    return _held(clause, desk, proof, taken, confidence)


def outcome_of(clause: Clause) -> Cue:
    """Weigh whether a clause tells of a proof held, begun or failed."""
    nots = [h.first for h in clause.hits if h.cue is Cue.UNDONE and h.verb == "not"]

    def turned(cue: Cue) -> bool:
        return any(0 < h.first - n <= 3 for h in clause.hits if h.cue is cue for n in nots)

    if clause.has(Cue.FAILED):
        return Cue.FAILED
    if clause.has(Cue.LEAK):
        return Cue.HELD if turned(Cue.LEAK) else Cue.FAILED
    if clause.has(Cue.BEGUN):
        return Cue.BEGUN
    if clause.has(Cue.HELD) and turned(Cue.HELD):
        return Cue.FAILED
    return Cue.HELD


def _moment(clause: Clause, desk: Desk) -> datetime | None:
    clocks = clause.of(Measure.CLOCK)
    if not clocks:
        return None
    return moment_of(clocks[0].value, clocks[0].unit, desk.at, desk.zone)


def _ask_unit(clause: Clause, proof: Proof, figure: Figure) -> Piece:
    limits = "; ".join(limit_words(limit) for limit in proof.limits)
    return asked(
        f"'{proof.title}': {figure.value:g} {figure.unit} is no figure for its limit "
        f"({limits}). Say it in that unit, or keep the words as a note.",
        (),
        clause,
        title=proof.title,
        about=f"proof:{proof.id}",
    )


def _held(
    clause: Clause, desk: Desk, proof: Proof, taken: Sequence[Taken], confidence: float
) -> Piece:
    words = plain(clause.text)
    readings = tuple(t.reading for t in taken)
    missed = [t for t in taken if not t.meets]
    if missed:
        return _missed(clause, proof, missed, readings)
    standing = standing_of_proof(desk.build, desk.build.proofs[proof.id])
    if standing.hidden and not standing.state.is_good:
        return _hidden(clause, proof, readings)
    lasted, open_question = _lasted(clause, desk, proof)
    limit = time_limit(proof)
    if limit is not None and lasted is not None:
        seconds = float(f"{lasted * 3600 / TIMES[limit.unit]:.4g}")
        figure = Taken(limit, seconds, show_hours(lasted), limit.admits(seconds))
        taken, readings = [*taken, figure], (*readings, figure.reading)
        if not figure.meets:
            return _missed(clause, proof, [figure], readings)
    elif lasted is not None:
        readings = (*readings, Reading("time held", round(lasted, 4), "h"))
    missing = _figure_missing(proof, taken, standing.readings)
    told = "".join(f", {t.said}" for t in taken)
    if lasted is not None and limit is None:
        told += f", for {show_hours(lasted)}"
    held: tuple[Change, ...] = (ProofHeld(proof.id, readings, words),)
    if open_question or missing:
        return _ask_held(clause, proof, held, readings, lasted, missing=missing)
    if proof.limits and not taken:
        told += "; no figure was said"
    return heard("proof", proof.title, f"held{told}", held, clause, confidence)


def _missed(
    clause: Clause, proof: Proof, missed: Sequence[Taken], readings: tuple[Reading, ...]
) -> Piece:
    said = ", ".join(t.said for t in missed)
    limits = "; ".join(limit_words(t.limit) for t in missed)
    return asked(
        f"'{proof.title}': {said} was said, and the limit is {limits}. "
        "Did it fail, or was it a different figure?",
        (
            Choice(f"{proof.title}: failed, {said}",
                   (ProofFailed(proof.id, readings, plain(clause.text)),)),
            Choice("It was a different figure: keep the words, I will say it again", ()),
        ),
        clause,
        title=proof.title,
        about=f"proof:{proof.id}",
    )  # fmt: skip


def _hidden(clause: Clause, proof: Proof, readings: tuple[Reading, ...]) -> Piece:
    words = plain(clause.text)
    return asked(
        f"'{proof.title}' lies hidden, so holding now does not show the joint itself. "
        "Is this a substitute proof, or was it seen before it was covered?",
        (
            Choice(f"{proof.title}: substitute proof, '{words}'",
                   (ProofSubstituted(proof.id, words, readings),)),
        ),
        clause,
        title=proof.title,
        about=f"proof:{proof.id}",
    )  # fmt: skip


def _lasted(clause: Clause, desk: Desk, proof: Proof) -> tuple[float | None, bool]:
    """Return how long it held, and whether that is an open question."""
    said = [f.value for f in clause.of(Measure.HOURS)]
    lasted = said[0] if said else None
    if proof.hold_hours is None:
        return (lasted if time_limit(proof) else None), False
    standing = standing_of_proof(desk.build, desk.build.proofs[proof.id])
    if lasted is None and standing.state is ProofState.BEGUN and standing.since is not None:
        when = _moment(clause, desk) or desk.at
        lasted = max(0.0, (when - standing.since).total_seconds() / 3600)
    if lasted is None:
        overnight = "overnight" in clause.texts and proof.hold_hours <= 12
        return None, not overnight
    return lasted, lasted < 0.98 * proof.hold_hours


def _figure_missing(proof: Proof, taken: Sequence[Taken], before: Sequence[Reading]) -> bool:
    """Whether a figure ought to have been read and none was, now or when it was begun."""
    if proof.kind not in (ProofKind.MEASURED, ProofKind.HELD_PRESSURE) or not proof.limits:
        return False
    return not taken and not any(
        limit.quantity == r.quantity and limit.unit == r.unit and limit.admits(r.value)
        for limit in proof.limits
        for r in before
    )


def _ask_held(
    clause: Clause,
    proof: Proof,
    held: tuple[Change, ...],
    readings: tuple[Reading, ...],
    lasted: float | None,
    *,
    missing: bool,
) -> Piece:
    limits = "; ".join(limit_words(limit) for limit in proof.limits)
    wanted = show_wait(proof.hold_hours) if proof.hold_hours else ""
    if missing:
        question = f"'{proof.title}': what did it read? The limit is {limits}."
        label = "held all the same, no figure was read"
    elif lasted is None:
        question = f"'{proof.title}': did it hold for the whole {wanted}?"
        label = f"held, for the whole {wanted}"
    else:
        question = (
            f"'{proof.title}': {show_hours(lasted)} was said, and {wanted} is asked. "
            "Is it still running?"
        )
        label = f"held; {show_hours(lasted)} is all there was"
    begun = ProofBegun(proof.id, readings, plain(clause.text))
    choices = [Choice(f"{proof.title}: {label}", held)]
    if proof.kind is ProofKind.HELD_PRESSURE:
        choices.append(Choice(f"{proof.title}: begun, still running", (begun,)))
    if lasted is not None and not missing and proof.hold_hours:
        choices.reverse()
    return asked(question, choices, clause, title=proof.title, about=f"proof:{proof.id}")
