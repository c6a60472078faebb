"""What a clause says of proofs: begun, held with a figure, failed, found leaking, disturbed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bareshell.model.changes import (
    Change,
    ProofBegun,
    ProofFailed,
    ProofHeld,
    ProofSpent,
    ProofSubstituted,
)
from bareshell.model.proof import Limit, Proof, ProofKind, ProofState, Reading
from bareshell.model.standing import standing_of_proof
from bareshell.units import show_hours, show_wait
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.clock import moment_of
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
from bareshell.whole.said.figures import Figure, Measure, unit_named
from bareshell.whole.said.job_said import JobSaid, job_wanted, side_unanswered
from bareshell.whole.said.results import Choice
from bareshell.whole.said.subjects import Kind, Match, other_thing
from bareshell.whole.tickets import limit_words

_TIMES: Final = {"s": 1.0, "min": 60.0, "h": 3600.0}
_PROVING = frozenset({Cue.HELD, Cue.BEGUN, Cue.FAILED, Cue.LEAK, Cue.TORQUED})


@dataclass(frozen=True, slots=True)
class Taken:
    """A figure as it was said and in the limit's own unit."""

    limit: Limit
    value: float
    said: str
    meets: bool

    @property
    def reading(self) -> Reading:
        """The figure as it is recorded, in the unit in which the limit is written."""
        return Reading(self.limit.quantity, self.value, self.limit.unit)


def read_proof(clause: Clause, desk: Desk) -> list[Piece | JobSaid] | None:
    """Read a clause as one about a proof, or return None when it is about none."""
    figures = clause.of(Measure.QUANTITY)
    if clause.cues.isdisjoint(_PROVING) and not figures:
        return _disturbed(clause, desk)
    matches = _matches(clause, desk)
    if not matches:
        return _leak_elsewhere(clause, desk)
    best = matches[0]
    fits = any(_fits(_proof(desk, best), figure) for figure in figures)
    if not _is_about(clause, best, desk, fits=fits):
        return _leak_elsewhere(clause, desk)
    alike = _alike(matches, desk)
    if len(alike) > 1 and _outcome(clause) is not Cue.FAILED:
        pieces = [judged(clause, desk, _proof(desk, m), m.covered) for m in alike]
    elif len(alike) > 1 or _is_unsure(clause, desk, matches):
        pieces = [_which(clause, desk, alike if len(alike) > 1 else rivals(matches))]
    else:
        pieces = [judged(clause, desk, _proof(desk, best), best.covered)]
    return [*pieces, *_hours_of_the_job(clause, desk, _proof(desk, best))]


def called(desk: Desk, proof: Proof) -> str:
    """Call a proof by its title, and by what it is about where others have the same title."""
    others = [r for r in desk.build.proofs.values() if r.proof.title == proof.title]
    if len(others) < 2:
        return proof.title
    made = [desk.title(j) for j in proof.made_by if j in desk.build.jobs]
    about = proof.about or ", ".join(made)
    return f"{proof.title} ({about})" if about else proof.title


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
    measured = any(_fits(_proof(desk, best), f) for f in clause.of(Measure.QUANTITY))
    if not is_clear(matches) or best.covered < (0.35 if measured else SURE):
        return True
    if measured:
        return False
    if other_thing(clause.runs, best) or side_unanswered(clause, matches):
        return True
    if _outcome(clause) is not Cue.HELD:
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
    if proof.hold_hours is not None or not hours or not desk.job or _time_limit(proof):
        return []
    return [JobSaid(clause, worked=hours[0].value, text="", named=False)]


def _time_limit(proof: Proof) -> Limit | None:
    return next((limit for limit in proof.limits if limit.unit in _TIMES), None)


def _fits(proof: Proof, figure: Figure) -> bool:
    """Whether a figure is of the sort that a proof reads."""
    if any(in_unit(figure.value, figure.unit, limit.unit) is not None for limit in proof.limits):
        return True
    own = {ProofKind.TORQUE: "torque", ProofKind.HELD_PRESSURE: "pressure"}.get(proof.kind)
    return own == figure.quantity and not proof.limits


def _is_about(clause: Clause, best: Match, desk: Desk, *, fits: bool) -> bool:
    """Whether the clause tells of proving rather than of working on a job."""
    if best.score < LEAST or (clause.cues.isdisjoint(_PROVING) and not fits):
        return False
    if fits or clause.has(Cue.BEGUN, Cue.FAILED, Cue.LEAK):
        return True
    job = _job_match(clause, desk)
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


def in_unit(value: float, unit: str, wanted: str) -> float | None:
    """Bring a figure into another unit of the same quantity, or return None.

    Examples
    --------
    >>> in_unit(190, "lbf.ft", "N.m"), in_unit(1, "bar", "N.m")
    (257.6, None)
    """
    if unit == wanted:
        return value
    here, there = unit_named(unit), unit_named(wanted)
    if here is None or there is None or here[0] != there[0]:
        return None
    return float(f"{value * here[1] / there[1]:.4g}")


# --- what became of it -------------------------------------------------------------------------


def judged(clause: Clause, desk: Desk, proof: Proof, confidence: float) -> Piece:
    proof = replace(proof, title=called(desk, proof))
    taken, strange = _taken(clause, proof)
    words = plain(clause.text)
    readings = tuple(t.reading for t in taken)
    told = "".join(f", {t.said}" for t in taken)
    if strange:
        return _ask_unit(clause, proof, strange[0])
    outcome = _outcome(clause)
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


def _outcome(clause: Clause) -> Cue:
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


def _taken(clause: Clause, proof: Proof) -> tuple[list[Taken], list[Figure]]:
    """Hold each figure against the limit of its own quantity; strange ones have none."""
    taken: list[Taken] = []
    strange: list[Figure] = []
    for figure in clause.of(Measure.QUANTITY):
        for limit in proof.limits:
            value = in_unit(figure.value, figure.unit, limit.unit)
            if value is not None:
                said = f"{figure.value:g} {figure.unit}"
                if figure.unit != limit.unit:
                    said += f" = {value:g} {limit.unit}"
                taken.append(Taken(limit, value, said, limit.admits(value)))
                break
        else:
            if proof.limits:
                strange.append(figure)
            elif _fits(proof, figure):
                limit = Limit(figure.quantity, figure.unit)
                said = f"{figure.value:g} {figure.unit}"
                taken.append(Taken(limit, figure.value, said, True))
    return taken, strange


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
    limit = _time_limit(proof)
    if limit is not None and lasted is not None:
        seconds = float(f"{lasted * 3600 / _TIMES[limit.unit]:.4g}")
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
        return _ask_held(clause, proof, held, readings, missing, lasted)
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
        return (lasted if _time_limit(proof) else None), False
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
    missing: bool,
    lasted: float | None,
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
    if not clause.has(Cue.LEAK) or _outcome(clause) is not Cue.FAILED:
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
