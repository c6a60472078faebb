"""Deciding a change: everything is checked here, in full, before it enters the journal.

Each check raises a sentence for the person. What was *done* is nearly never refused, because
it is true; what is about to be *started*, and definitions that would break the build, are.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

from bareshell.errors import BadInput, NotFound, Refused
from bareshell.model import changes as c
from bareshell.model.bounds import check_bounds
from bareshell.model.build import Build
from bareshell.model.corrected import (
    check_gate_corrected,
    check_proof_corrected,
    check_proof_dropped,
)
from bareshell.model.decide_brakes import CHECKS as OF_BRAKES
from bareshell.model.job import JobStatus
from bareshell.model.looked import Seen
from bareshell.model.network import find_cycle, predecessors
from bareshell.model.part import GoodsIn
from bareshell.model.position import BODY_STATES
from bareshell.model.proof import ProofState
from bareshell.model.standing import gate_standings, proofs_beneath, standing_of_proof

FARTHEST_MILES = 1_000_000.0

Check = Callable[[Build, Any], None]
CHECKS: dict[type[c.Change], Check] = {**OF_BRAKES}


def decide(build: Build, change: c.Change, at: datetime | None = None) -> None:
    """Check a change against the build as it stands.

    Parameters
    ----------
    build : Build
        The build that the change would enter.
    change : Change
        The fact; its own fields were checked when it was made.
    at : datetime or None
        When it happened, aware: a proof that stays good for so many days counts at a gate, or
        under a cover, only so long. None where no moment is meant; then none is too old.

    Raises
    ------
    NotFound
        When it speaks of a job, part, proof or gate that the build does not have.
    BadInput
        When it would break the build: a cycle, an unknown predecessor; or says what cannot be
        kept at all (`bareshell.model.bounds`).
    Refused
        When a rule of the garage forbids it: starting a job that would hide an unproven
        joint, passing a gate with something still standing before it.

    Examples
    --------
    >>> from bareshell.model.job import Job
    >>> decide(Build(), c.JobSet(Job("bleed", "Bleed the brakes", "brakes")))
    """
    check = CHECKS.get(type(change))
    if check is not None:
        check(build, change)
    check_bounds(change)
    if at is not None and isinstance(change, c.GatePassed):
        _gate_clear(build, change, at)
    elif at is not None and isinstance(change, c.JobStarted):
        _nothing_unproven_beneath(build, change, at)


def checks(*kinds: type[c.Change]) -> Callable[[Check], Check]:
    """Register a function as the check of kinds of change."""

    def put(check: Check) -> Check:
        for kind in kinds:
            CHECKS[kind] = check
        return check

    return put


def _known(what: str, key: str, mapping: Any) -> None:
    if key not in mapping:
        raise NotFound(f"there is no {what} '{key}' in this build", f"name a {what} it has")


# --- jobs -----------------------------------------------------------------------------------


@checks(c.JobSet)
def _job_set(build: Build, change: c.JobSet) -> None:
    job = change.job
    for before in job.after:
        if before not in build.jobs:
            raise BadInput(
                f"job '{job.title}', after",
                f"there is no job '{before}'",
                "name a job of this build, or add that one first",
            )
    if job.id not in build.jobs:
        return  # nothing waits for a job that is new, so it closes no circle
    after = {key: record.job.after for key, record in build.jobs.items()}
    after[job.id] = job.after
    cycle = find_cycle(after)
    if cycle:
        titles = {key: record.job.title for key, record in build.jobs.items()}
        titles[job.id] = job.title
        round_trip = " -> ".join(titles[k] for k in (*cycle, cycle[0]))
        raise BadInput(
            f"job '{job.title}', after",
            f"these jobs would wait for each other: {round_trip}",
            "take one of these steps out",
        )


@checks(c.JobStarted)
def _job_started(build: Build, change: c.JobStarted) -> None:
    _known("job", change.job_id, build.jobs)
    title = build.jobs[change.job_id].job.title
    state = build.jobs[change.job_id].state
    if state.is_done:
        raise Refused(
            "done already",
            f"'{title}' is done already",
            "take it off again first if it must be done again",
        )
    if state.status is JobStatus.LEFT_OUT:
        raise Refused("left out", f"'{title}' is left out of this build", "take it in again first")
    _nothing_unproven_beneath(build, change, None)
    for record in build.gates.values():
        if change.job_id in record.gate.blocks and record.passed is None:
            raise Refused(
                "gate",
                f"'{title}' waits for the gate '{record.gate.title}'",
                "pass that gate first",
            )


def _nothing_unproven_beneath(build: Build, change: c.JobStarted, at: datetime | None) -> None:
    title = build.jobs[change.job_id].job.title
    for key in proofs_beneath(build, change.job_id):
        standing = standing_of_proof(build, build.proofs[key], at)
        if not standing.state.is_good and standing.state is not ProofState.COVERED:
            proof = build.proofs[key].proof
            raise Refused(
                "proof before cover",
                f"'{title}' would hide an unproven joint: '{proof.title}' is "
                f"{standing.state.value}",
                "prove it first; a joint is never buried unproven",
            )


@checks(c.JobWorked, c.JobFinished, c.JobDoneBefore, c.JobLeftOut, c.JobTakenIn)
def _job_known(build: Build, change: Any) -> None:
    _known("job", change.job_id, build.jobs)
    for name in ("hours", "hours_left"):
        hours = getattr(change, name, None)
        if hours is not None and not 0 <= hours <= 1000:
            raise BadInput(
                f"job '{build.jobs[change.job_id].job.title}', {name.replace('_', ' ')}",
                f"{hours:g} is not a number of hours",
                "give hours from 0 to 1000, such as 2.5",
            )


@checks(c.JobTakenOff, c.JobNotDone)
def _job_undone(build: Build, change: Any) -> None:
    _known("job", change.job_id, build.jobs)
    state = build.jobs[change.job_id].state
    if not state.is_done and state.status is not JobStatus.STARTED:
        raise Refused(
            "not fitted",
            f"'{build.jobs[change.job_id].job.title}' is not on the car, it is {state.status}",
            "record it as done first if it was fitted and came off again",
        )


# --- parts ----------------------------------------------------------------------------------


@checks(c.NeedSet)
def _need_set(build: Build, change: c.NeedSet) -> None:
    if change.need.job not in build.jobs:
        raise BadInput(
            f"need '{change.need.title}', job",
            f"there is no job '{change.need.job}'",
            "name the job that wants it",
        )


@checks(c.NeedDropped, c.NeedNotHere)
def _need_known(build: Build, change: Any) -> None:
    _known("need", change.need_id, build.needs)


@checks(c.HoldingSet)
def _holding_set(build: Build, change: c.HoldingSet) -> None:
    _need_of(build, "holding", change.holding.title, change.holding.need)


@checks(c.HoldingDropped)
def _holding_known(build: Build, change: c.HoldingDropped) -> None:
    _known("holding", change.holding_id, build.holdings)


@checks(c.OrderSet)
def _order_set(build: Build, change: c.OrderSet) -> None:
    _need_of(build, "order", change.line.title, change.line.need)
    line = change.line
    if line.expected_on and line.ordered_on and line.expected_on < line.ordered_on:
        raise BadInput(
            f"order '{line.title}', expected on",
            f"{line.expected_on} is before it was ordered, on {line.ordered_on}",
            "give a date on or after the day of the order, or leave it unknown",
        )


def _need_of(build: Build, what: str, title: str, need: str | None) -> None:
    if need is not None and need not in build.needs:
        raise BadInput(
            f"{what} '{title}', need",
            f"there is no need '{need}'",
            "name a need of this build or leave it open",
        )


@checks(c.OrderExpected, c.OrderCancelled, c.ExchangeReturned)
def _order_known(build: Build, change: Any) -> None:
    _known("order", change.order_id, build.orders)


@checks(c.GoodsChecked)
def _goods_checked(build: Build, change: c.GoodsChecked) -> None:
    _known("order", change.order_id, build.orders)
    record = build.orders[change.order_id]
    if change.quantity < 1:
        raise BadInput("quantity", f"{change.quantity} came", "give how many came, 1 or more")
    if change.outcome is GoodsIn.SHORT and change.quantity >= record.outstanding:
        raise BadInput(
            "quantity",
            f"{change.quantity} of {record.outstanding} outstanding is not short",
            "give how many came, or say that the delivery is right",
        )


# --- proofs ---------------------------------------------------------------------------------


@checks(c.ProofSet)
def _proof_set(build: Build, change: c.ProofSet) -> None:
    proof = change.proof
    for job in (
        *proof.made_by,
        *proof.covered_by,
        *proof.spent_by,
        *((proof.proven_by,) if proof.proven_by else ()),
    ):
        if job not in build.jobs:
            raise BadInput(
                f"proof '{proof.title}'", f"there is no job '{job}'", "name a job of this build"
            )
    for gate in proof.gates:
        if gate not in build.gates:
            raise BadInput(
                f"proof '{proof.title}', gates",
                f"there is no gate '{gate}'",
                "name a gate of this build",
            )
    after = predecessors(build) if proof.proven_by and proof.covered_by else {}
    for cover in proof.covered_by:
        if proof.proven_by and _comes_before(after, cover, proof.proven_by):
            raise BadInput(
                f"proof '{proof.title}', covered by",
                f"'{build.jobs[cover].job.title}' would hide it and must be done before "
                f"'{build.jobs[proof.proven_by].job.title}', in which it is proved",
                "let the proving job come first",
            )
    check_proof_corrected(build, proof)


def _comes_before(after: dict[str, tuple[str, ...]], first: str, then: str) -> bool:
    seen: set[str] = set()
    stack = [then]
    while stack:
        for before in after.get(stack.pop(), ()):
            if before == first:
                return True
            if before not in seen:
                seen.add(before)
                stack.append(before)
    return False


@checks(c.ProofBegun, c.ProofHeld, c.ProofFailed, c.ProofSpent, c.ProofUncovered)
def _proof_known(build: Build, change: Any) -> None:
    _known("proof", change.proof_id, build.proofs)


@checks(c.ProofDropped)
def _proof_dropped(build: Build, change: c.ProofDropped) -> None:
    _known("proof", change.proof_id, build.proofs)
    check_proof_dropped(build, change.proof_id)


@checks(c.ProofSubstituted)
def _proof_substituted(build: Build, change: c.ProofSubstituted) -> None:
    _known("proof", change.proof_id, build.proofs)
    if not change.name.strip():
        raise BadInput(
            "substitute proof",
            "it has no name",
            "say what was done instead, such as 'held 70 bar for 12 h, gauge steady'; "
            "a reason alone closes nothing",
        )
    standing = standing_of_proof(build, build.proofs[change.proof_id])
    if standing.state is not ProofState.COVERED:
        raise Refused(
            "no substitute needed",
            f"'{build.proofs[change.proof_id].proof.title}' is {standing.state.value}, not "
            "covered, unproven",
            "prove it directly; a substitute is only for what can no longer be reached",
        )


# --- temps, gates, the rest -----------------------------------------------------------------


@checks(c.TempSet)
def _temp_set(build: Build, change: c.TempSet) -> None:
    if change.temp.gate not in build.gates:
        raise BadInput(
            f"temp '{change.temp.title}', gate",
            f"there is no gate '{change.temp.gate}'",
            "name the gate before which it must be gone: " + ", ".join(build.gates),
        )


@checks(c.TempRaised, c.TempCleared)
def _temp_known(build: Build, change: Any) -> None:
    _known("temp", change.temp_id, build.temps)


@checks(c.GateSet)
def _gate_set(build: Build, change: c.GateSet) -> None:
    gate = change.gate
    for job in (*gate.needs_jobs, *gate.blocks):
        if job not in build.jobs:
            raise BadInput(
                f"gate '{gate.title}'", f"there is no job '{job}'", "name a job of this build"
            )
    after = {key: record.gate.after for key, record in build.gates.items()}
    for before in gate.after:
        if before not in after:
            raise BadInput(
                f"gate '{gate.title}', after",
                f"there is no gate '{before}'",
                "add that gate first",
            )
    after[gate.id] = gate.after
    cycle = find_cycle(after)
    if cycle:
        raise BadInput(
            f"gate '{gate.title}', after",
            "these gates would wait for each other: " + " -> ".join((*cycle, cycle[0])),
            "take one of these steps out",
        )
    check_gate_corrected(build, gate)


@checks(c.GatePassed)
def _gate_passed(build: Build, change: c.GatePassed) -> None:
    _known("gate", change.gate_id, build.gates)
    if not change.by.strip():
        raise BadInput("by", "nobody is named", "say who lets the car through this gate")
    _gate_clear(build, change, None)


def _gate_clear(build: Build, change: c.GatePassed, at: datetime | None) -> None:
    standing = gate_standings(build, at)[change.gate_id]
    if standing.is_clear:
        return
    between = [f"gate '{build.gates[g].gate.title}'" for g in standing.gates]
    between += [f"job '{build.jobs[j].job.title}'" for j in standing.jobs]
    between += [f"proof '{build.proofs[p].proof.called}'" for p in standing.proofs]
    between += [f"temp '{build.temps[t].temp.title}'" for t in standing.temps]
    shown = "; ".join(between[:6]) + (f"; and {len(between) - 6} more" if len(between) > 6 else "")
    raise Refused(
        "gate",
        f"the gate '{standing.gate.title}' is not clear: {shown}",
        "clear these first; no reason opens a gate",
    )


@checks(c.CarPlaced)
def _car_placed(build: Build, change: c.CarPlaced) -> None:
    _known("support", change.placement.support, build.supports)
    unknown = change.placement.off - set(BODY_STATES)
    if unknown:
        raise BadInput(
            "off the car",
            f"'{min(unknown)}' is not one of the things that can be off it",
            f"say one or more of: {', '.join(BODY_STATES)}",
        )


@checks(c.SupportDropped)
def _support_dropped(build: Build, change: c.SupportDropped) -> None:
    _known("support", change.support_id, build.supports)
    if len(build.supports) == 1:
        raise Refused(
            "a car stands on something",
            "the car must stand on something",
            "add another support first",
        )
    if build.placement is not None and build.placement.support == change.support_id:
        raise Refused(
            "a car stands on something",
            f"the car stands on '{build.supports[change.support_id].title}' now",
            "write down where it stands instead, then take this away",
        )


@checks(c.SupportMoveSet)
def _move_set(build: Build, change: c.SupportMoveSet) -> None:
    _known("support", change.move.from_support, build.supports)
    _known("support", change.move.to_support, build.supports)


@checks(c.PatternDropped)
def _pattern_known(build: Build, change: c.PatternDropped) -> None:
    _known("session pattern", change.pattern_id, build.patterns)


@checks(c.LessonLearned)
def _lesson(build: Build, change: c.LessonLearned) -> None:
    _known("job", change.lesson.job, build.jobs)
    if not change.lesson.words.strip():
        raise BadInput("lesson", "it has no words", "say what was learned")


@checks(c.ForecastIssued)
def _forecast(_build: Build, change: c.ForecastIssued) -> None:
    said = change.forecast
    foretold = [("forecast", (said.p50, said.p80, said.p95))]
    foretold += [(f"forecast of gate '{g.gate}'", (g.p50, g.p80, g.p95)) for g in said.gates]
    for what, (half, eight_in_ten, nineteen_in_twenty) in foretold:
        if not half <= eight_in_ten <= nineteen_in_twenty:
            raise BadInput(
                what,
                f"{half}, {eight_in_ten} and {nineteen_in_twenty} do not rise",
                "give the days for half, eight in ten and 19 in 20 futures, each no earlier",
            )


@checks(c.DepartureReturned)
def _departure_known(build: Build, change: c.DepartureReturned) -> None:
    _known("departure", change.departure_id, build.departures)


@checks(c.ItemLookedAt)
def _looked(_build: Build, change: c.ItemLookedAt) -> None:
    if not change.by.strip():
        raise BadInput("name", "it is empty", "say who looked")
    if change.seen is Seen.WRONG and not change.words.strip():
        raise BadInput("words", "nothing says what is wrong", "say what must be put right")


@checks(c.MilesRead)
def _miles(_build: Build, change: c.MilesRead) -> None:
    if not 0 <= change.miles <= FARTHEST_MILES:
        raise BadInput(
            "miles",
            f"{change.miles:g} is not what a car runs",
            f"give the miles since it went back on the road, 0 to {FARTHEST_MILES:g}",
        )
