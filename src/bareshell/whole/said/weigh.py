"""The whole line weighed: the order of what happened, every change tried, what lies covered."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime

from bareshell.errors import BareshellError
from bareshell.model import Build, Entry, decide, fold
from bareshell.model.changes import (
    Change,
    JobFinished,
    JobSet,
    JobStarted,
    JobTakenOff,
    JobWorked,
    NeedSet,
    ProofBegun,
    ProofHeld,
)
from bareshell.model.job import Job, Way
from bareshell.model.part import Need
from bareshell.model.proof import ProofState
from bareshell.model.standing import gate_standings, proof_standings, proofs_beneath
from bareshell.model.trust import YOURS, ThreePoint
from bareshell.whole.said.desk import Desk, Piece, as_title
from bareshell.whole.said.results import Asked, Choice, Heard, small_id


def folded(build: Build, changes: Iterable[tuple[datetime, Change]]) -> Build:
    """Fold changes into a build, for trying: nothing is kept."""
    entries = [
        Entry(build.seq + n, f"try-{n}", at, at, "said", change)
        for n, (at, change) in enumerate(changes, 1)
    ]
    return fold(entries, build) if entries else build


def weighed(
    pieces: Sequence[Piece], desk: Desk
) -> tuple[tuple[Heard, ...], tuple[Asked, ...], tuple[str, ...]]:
    """Put what was read in the order in which it counts, try each change, and say what follows.

    A proof that a job of the same line would hide is taken as done before that job, and says
    so, unless the person said "then". A change that the build refuses is asked about.
    """
    ordered = _proofs_first(list(pieces), desk.build)
    heard: list[Heard] = []
    asked: list[Asked] = []
    left: list[str] = []
    build = desk.build
    for piece in ordered:
        if piece.left:
            left.append(piece.left)
        if piece.asked is not None:
            asked.append(piece.asked)
        if piece.heard is None:
            continue
        build, told, question = _tried(build, piece.heard, desk.at)
        if told is not None:
            heard.append(told)
        if question is not None:
            asked.append(question)
    asked = [_with_tried_choices(build, question, desk.at) for question in asked]
    asked += _what_is_left_to_fit(build, heard, desk)
    return tuple(heard), tuple(asked), tuple(left)


# --- order -----------------------------------------------------------------------------------


def _proofs_first(pieces: list[Piece], build: Build) -> list[Piece]:
    for at in range(len(pieces)):
        piece = pieces[at]
        if piece.heard is None or piece.stays:
            continue
        covers = {
            job
            for change in piece.heard.changes
            if isinstance(change, ProofHeld | ProofBegun)
            for job in build.proofs[change.proof_id].proof.covered_by
        }
        first = next((n for n in range(at) if _finishes(pieces[n]) & covers), None)
        if first is None:
            continue
        hiding = next(iter(_finishes(pieces[first]) & covers))
        title = build.jobs[hiding].job.title
        words = f"{piece.heard.sentence}; taken as proved before '{title}' hid it"
        moved = replace(piece, heard=replace(piece.heard, sentence=words))
        pieces = [*pieces[:first], moved, *pieces[first:at], *pieces[at + 1 :]]
    return pieces


def _finishes(piece: Piece) -> set[str]:
    if piece.heard is None:
        return set()
    return {c.job_id for c in piece.heard.changes if isinstance(c, JobFinished)}


# --- trying ------------------------------------------------------------------------------------


def _tried(build: Build, told: Heard, at: datetime) -> tuple[Build, Heard | None, Asked | None]:
    moment = told.at or at
    try:
        after = _evolved(build, told.changes, moment)
    except BareshellError as error:
        return _put_differently(build, told, moment, error)
    return after, replace(told, sentence=told.sentence + _consequences(build, after, told)), None


def _evolved(build: Build, changes: Sequence[Change], at: datetime) -> Build:
    for change in changes:
        decide(build, change)
        build = folded(build, [(at, change)])
    return build


def _put_differently(
    build: Build, told: Heard, at: datetime, error: BareshellError
) -> tuple[Build, Heard | None, Asked | None]:
    """Record what was done although a rule forbids beginning it: it was begun, and that is true."""
    changes = told.changes
    if len(changes) == 1 and isinstance(changes[0], JobStarted):
        job = changes[0].job_id
        record = build.jobs[job]
        if record.state.is_open:
            worked = JobWorked(job, None, None, told.words)
            sentence = f"{told.sentence}. Mind: {error.message}"
            return (
                folded(build, [(at, worked)]),
                replace(told, sentence=sentence, changes=(worked,)),
                None,
            )
    question = f"{error.message}. Say it differently, or keep the words as a note."
    return build, None, Asked(question, (), told.words, told.title)


def _with_tried_choices(build: Build, question: Asked, at: datetime) -> Asked:
    """Keep the choices that the build would take, each saying what it would hide."""
    kept: list[Choice] = []
    for choice in question.choices:
        try:
            after = _evolved(build, choice.changes, at)
        except BareshellError:
            continue
        told = Heard("", "answer", "", choice.changes)
        kept.append(Choice(choice.label + _consequences(build, after, told), choice.changes))
    return replace(question, choices=tuple(kept))


# --- what follows from it ------------------------------------------------------------------------


def _consequences(before: Build, after: Build, told: Heard) -> str:
    """Say what now lies covered, unproven, and what a job that came off has spent."""
    parts: list[str] = []
    for change in told.changes:
        if isinstance(change, JobFinished):
            parts += _covered(before, after, change.job_id)
        elif isinstance(change, JobTakenOff):
            parts += _spent(before, after)
        elif isinstance(change, ProofHeld) and _is_hidden(after, change.proof_id):
            parts.append("It lay hidden by then, so it stays covered, unproven")
    return "".join(f". {part}" for part in parts)


def _is_hidden(build: Build, proof: str) -> bool:
    return proof_standings(build)[proof].state is ProofState.COVERED


def _covered(before: Build, after: Build, job: str) -> list[str]:
    was, now = proof_standings(before), proof_standings(after)
    parts: list[str] = []
    for key in proofs_beneath(after, job):
        if now[key].state is not ProofState.COVERED or was[key].state is ProofState.COVERED:
            continue
        gates = [s.gate.title for s in gate_standings(after).values() if key in s.proofs]
        where = f"; it stands so at {_listed(gates)}" if gates else ""
        title = after.proofs[key].proof.title
        parts.append(f"Beneath it '{title}' now stands covered, unproven{where}")
    return parts


def _spent(before: Build, after: Build) -> list[str]:
    was, now = proof_standings(before), proof_standings(after)
    parts = []
    for key, standing in now.items():
        title = after.proofs[key].proof.title
        if standing.state is ProofState.SPENT and was[key].state is not ProofState.SPENT:
            parts.append(f"'{title}' is spent by it and owed again")
        elif was[key].hidden and not standing.hidden:
            parts.append(f"'{title}' can be seen again")
    return parts


def _listed(titles: Sequence[str]) -> str:
    quoted = [f"'{title}'" for title in titles]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + f" and {quoted[-1]}"


# --- finished, and a part of it short ----------------------------------------------------------


def _what_is_left_to_fit(build: Build, heard: Sequence[Heard], desk: Desk) -> list[Asked]:
    """Ask what is left to do where a job is done and parts for it were said to be short."""
    recorded = {change for told in heard for change in told.changes}
    finished = {c.job_id for c in recorded if isinstance(c, JobFinished)}
    asked: list[Asked] = []
    for key in desk.short:
        need = build.needs[key]
        if need.job not in finished:
            continue
        title = build.jobs[need.job].job.title
        later = _later_job(build, need, desk)
        asked.append(
            Asked(
                f"'{title}' is finished and some of its '{need.title}' are short. "
                "Is something left to fit?",
                (
                    Choice(f"Yes: a small job is left, '{later[0]}'", later[1]),
                    Choice("No: it is complete without them", ()),
                ),
                "",
                title,
                f"job:{need.job}",
            )
        )
    return asked


def _later_job(build: Build, need: Need, desk: Desk) -> tuple[str, tuple[Change, ...]]:
    done = build.jobs[need.job].job
    title = as_title(f"Fit the missing {need.title[:1].lower() + need.title[1:]}: {done.title}")
    key = small_id("job", desk.at, (title,))
    hours = ThreePoint(0.1, 0.25, 0.75)
    job = Job(key, title, done.system, (), (Way(1, hours),), done.place, done.zones, done.wheels,
              mark=YOURS)  # fmt: skip
    wanted = replace(need, id=small_id("need", desk.at, (title,)), job=key, quantity=1)
    return title, (JobSet(job), NeedSet(wanted))
