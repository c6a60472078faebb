"""What a clause says of proofs: begun, held with a figure, failed, found leaking, disturbed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bareshell.model.changes import (
    ProofSpent,
)
from bareshell.model.proof import Limit, Proof, ProofKind, ProofState
from bareshell.model.standing import standing_of_proof
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import (
    LEAST,
    MOST_CHOICES,
    SURE,
    Desk,
    Piece,
    asked,
    heard,
    is_clear,
    noted,
    plain,
    rivals,
)
from bareshell.whole.said.figures import Figure, Measure
from bareshell.whole.said.job_said import JobSaid, job_wanted, side_unanswered
from bareshell.whole.said.names import Kind
from bareshell.whole.said.proof_judged import judged, outcome_of
from bareshell.whole.said.readings import fits, in_unit, time_limit
from bareshell.whole.said.results import Choice
from bareshell.whole.said.subjects import Match, other_thing

_PROVING = frozenset({Cue.HELD, Cue.BEGUN, Cue.FAILED, Cue.LEAK, Cue.TORQUED})


def read_proof(clause: Clause, desk: Desk) -> list[Piece | JobSaid] | None:
    """Read a clause as one about a proof, or return None when it is about none."""
    figures = clause.of(Measure.QUANTITY)
    if clause.cues.isdisjoint(_PROVING) and not figures:
        return _disturbed(clause, desk)
    matches = _matches(clause, desk)
    if not matches:
        return _leak_elsewhere(clause, desk)
    best = matches[0]
    fitting = any(fits(_proof(desk, best), figure) for figure in figures)
    if not _is_about(clause, best, desk, fitting=fitting):
        return _leak_elsewhere(clause, desk)
    alike = _alike(matches, desk)
    if len(alike) > 1 and outcome_of(clause) is not Cue.FAILED:
        pieces = [judged(clause, desk, _proof(desk, m), m.covered) for m in alike]
    elif len(alike) > 1 or _is_unsure(clause, desk, matches):
        pieces = [_which(clause, desk, alike if len(alike) > 1 else rivals(matches))]
    else:
        pieces = [judged(clause, desk, _proof(desk, best), best.covered)]
    return [*pieces, *_hours_of_the_job(clause, desk, _proof(desk, best))]


def _proof(desk: Desk, match: Match) -> Proof:
    return desk.build.proofs[match.subject.id].proof


def _alike(matches: Sequence[Match], desk: Desk) -> list[Match]:
    """Return the proofs that are shown by one and the same hold, when they match alike.

    Four pipes held under one pressure are four proofs; who says the lines held means all.
    """
    best = _proof(desk, matches[0])
    same = [
        m
        for m in matches
        if (own := _proof(desk, m)).title == best.title and own.proven_by == best.proven_by
    ]
    # One of them named clearly is that one; else the hold is meant, and with it all of them.
    return same[:1] if is_clear(same) else same


def _is_unsure(clause: Clause, desk: Desk, matches: Sequence[Match]) -> bool:
    best = matches[0]
    measured = any(fits(_proof(desk, best), f) for f in clause.of(Measure.QUANTITY))
    if not is_clear(matches) or best.covered < (0.35 if measured else SURE):
        return True
    if measured:
        return False
    if other_thing(clause.runs, best) or side_unanswered(clause, matches):
        return True
    if outcome_of(clause) is not Cue.HELD:
        return False
    if clause.has(Cue.TORQUED) and _proof(desk, best).kind is not ProofKind.TORQUE:
        return True
    # Without a figure the words must name the proof itself: "bolts torqued" is not the whole
    # of "plate the right way round; bolts torqued and locked".
    running = standing_of_proof(desk.build, desk.build.proofs[best.subject.id]).state
    return best.said < 0.5 and running is not ProofState.BEGUN


def _hours_of_the_job(clause: Clause, desk: Desk, proof: Proof) -> list[JobSaid]:
    """Give hours that no hold asks for to the job that was spoken of: 'bolts torqued, 2 h'."""
    hours = clause.of(Measure.HOURS)
    if proof.hold_hours is not None or not hours or not desk.job or time_limit(proof):
        return []
    return [JobSaid(clause, worked=hours[0].value, text="", named=False)]


def _is_about(clause: Clause, best: Match, desk: Desk, *, fitting: bool) -> bool:
    """Whether the clause tells of proving rather than of working on a job."""
    if best.score < LEAST or (clause.cues.isdisjoint(_PROVING) and not fitting):
        return False
    job = _job_match(clause, desk)
    if clause.has(Cue.DONE) and not fitting and job is not None and job.score >= best.score:
        return False
    if fitting or clause.has(Cue.BEGUN, Cue.FAILED, Cue.LEAK):
        return True
    if job is None:
        return True
    if clause.has(Cue.DONE, Cue.PART, Cue.STARTED, Cue.OFF):
        return False
    if clause.has(Cue.TORQUED) and job.subject.is_open and job.score >= 0.8 * best.score:
        return False
    return best.score >= 0.75 * job.score or (best.head and best.covered >= job.covered > 0.9)


def _job_match(clause: Clause, desk: Desk) -> Match | None:
    found = desk.subjects.found(job_wanted(clause), (Kind.JOB,))
    return found[0] if found else None


# --- which proof -----------------------------------------------------------------------------


def _matches(clause: Clause, desk: Desk) -> tuple[Match, ...]:
    found = desk.subjects.found(clause.wanted, (Kind.PROOF,))
    if not found and not clause.wanted.stems:
        found = _spoken_of(desk)
    weighed = [(m.score * _affinity(clause, desk, m.subject.id), m) for m in found]
    weighed.sort(key=lambda pair: (-pair[0], pair[1].subject.key))
    return tuple(replace(m, score=s) for s, m in weighed)


def _spoken_of(desk: Desk) -> tuple[Match, ...]:
    """Return the proofs that may be meant when nothing is named: running, or of the last job."""
    found: list[Match] = []
    for key, record in desk.build.proofs.items():
        state = standing_of_proof(desk.build, record).state
        mine = desk.job in (*record.proof.made_by, record.proof.proven_by) if desk.job else False
        if state is ProofState.BEGUN or mine:
            subject = desk.subjects.by_key[f"proof:{key}"]
            found.append(Match(subject, 0.5, 1.0, True, frozenset()))
    return tuple(found)


def _affinity(clause: Clause, desk: Desk, key: str) -> float:
    """How well a proof suits the figure, tonight's list, and what was spoken of."""
    record = desk.build.proofs[key]
    proof = record.proof
    factor = 1.0
    for figure in clause.of(Measure.QUANTITY):
        factor *= max((_suits(limit, figure) for limit in proof.limits), default=0.6)
    if clause.has(Cue.TORQUED):
        factor *= 1.3 if proof.kind is ProofKind.TORQUE else 0.7
    jobs = {*proof.made_by, *((proof.proven_by,) if proof.proven_by else ())}
    if desk.job in jobs:
        factor *= 1.25 if clause.joint == ";" else 2.0
    if key in desk.subjects.rank or jobs & desk.subjects.rank.keys():
        factor *= 1.15
    if standing_of_proof(desk.build, record).state is ProofState.BEGUN:
        factor *= 2.0 if clause.has(Cue.HELD, Cue.FAILED) else 1.3
    return factor


def _suits(limit: Limit, figure: Figure) -> float:
    value = in_unit(figure.value, figure.unit, limit.unit)
    if value is None:
        return 0.3
    ends = [end for end in (limit.low, limit.high) if end]
    if not ends:
        return 1.0
    if value <= 0:
        return 0.7
    apart = min(max(value / end, end / value) for end in ends)
    return 1.4 if apart <= 2.5 else 0.8 if apart <= 10 else 0.25


# --- leaks with no proof, and proofs disturbed ---------------------------------------------------


def _which(clause: Clause, desk: Desk, near: Sequence[Match]) -> Piece:
    choices: list[Choice] = []
    for match in near[:MOST_CHOICES]:
        proof = desk.build.proofs[match.subject.id].proof
        piece = judged(clause, desk, proof, match.covered)
        if piece.heard is not None:
            choices.append(Choice(piece.heard.sentence, piece.heard.changes))
        elif piece.asked is not None:
            choices += [c for c in piece.asked.choices if c.changes][:1]
    question = "which proof is meant?" if len(near) > 1 else "is this proof meant?"
    return asked(f'"{plain(clause.text)}": {question}', choices, clause)


def _leak_elsewhere(clause: Clause, desk: Desk) -> list[Piece | JobSaid] | None:
    """Keep a leak at a place that no proof is owed for: it must not be lost."""
    if not clause.has(Cue.LEAK) or outcome_of(clause) is not Cue.FAILED:
        return None
    return [noted(desk, clause, "a leak, and no proof is recorded for that place")]


def _disturbed(clause: Clause, desk: Desk) -> list[Piece | JobSaid] | None:
    """Read 'had to undo the rear tee': what was proved there is spent."""
    if not clause.has(Cue.OFF) or clause.has(Cue.DONE):
        return None
    proofs = desk.subjects.found(clause.wanted, (Kind.PROOF,))
    job = _job_match(clause, desk)
    if not proofs or not is_clear(proofs) or proofs[0].covered < SURE or not proofs[0].head:
        return None
    if job is not None and job.score >= 0.7 * proofs[0].score:
        return None
    record = desk.build.proofs[proofs[0].subject.id]
    state = standing_of_proof(desk.build, record).state
    if state not in (ProofState.HELD, ProofState.BEGUN, ProofState.SUBSTITUTED):
        return None
    change = ProofSpent(record.proof.id, plain(clause.text))
    return [heard("proof", record.proof.title, "disturbed, so it is spent and owed again",
                  (change,), clause, proofs[0].covered)]  # fmt: skip
