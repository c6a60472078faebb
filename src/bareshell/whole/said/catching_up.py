"""After weeks of silence: at most eight questions bring the record level."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from bareshell.model import Build
from bareshell.model.changes import (
    Change,
    GoodsChecked,
    JobFinished,
    JobWorked,
    OrderExpected,
    ProofFailed,
    ProofHeld,
    TempCleared,
)
from bareshell.model.job import JobStatus
from bareshell.model.network import predecessors
from bareshell.model.part import GoodsIn, OrderRecord
from bareshell.model.proof import ProofState
from bareshell.model.standing import need_standings, open_temps, standing_of_proof
from bareshell.units import show_date, show_wait
from bareshell.whole.garage_time import zone_of
from bareshell.whole.said.results import Choice
from bareshell.whole.tickets import limit_words

SILENCE: Final = timedelta(days=21)
MOST_QUESTIONS: Final = 8


@dataclass(frozen=True, slots=True)
class Question:
    """One question, whether something happened, with its answers.

    Parameters
    ----------
    text : str
        The question.
    about : str
        What it is about: ``job:heater-fit``, ``proof:rear-tee``, ``order:seals``.
    choices : tuple of Choice
        The answers, each with what it would record; "not yet" and "don't know" record nothing.
    worth : float
        How much an answer would bring the record level; they are asked in this order.
    """

    text: str
    about: str
    choices: tuple[Choice, ...]
    worth: float


def catching_up(
    build: Build, planned: Sequence[str], last_entry_at: datetime | None, now: datetime
) -> tuple[Question, ...]:
    """Return what to ask when nothing was written down for three weeks.

    Parameters
    ----------
    build : Build
        The build as the record has it.
    planned : sequence of str
        The jobs that the plan would have had done by now, likeliest first.
    last_entry_at : datetime or None
        When something was last written down; None for never. Aware.
    now : datetime
        When it is asked. Aware.

    Returns
    -------
    tuple of Question
        At most eight, the most worthwhile first: a proof left running comes before all, for
        something may stand under pressure. Empty while the silence is shorter. What an answer
        records carries no time of its own: its words say "some time before" the day of asking.
    """
    heard = [s.ended_at for s in build.sessions.values() if s.ended_at <= now]
    heard += [last_entry_at] if last_entry_at is not None else []
    if not heard or now - max(heard) < SILENCE:
        return ()
    since = max(heard)
    when = (
        f"some time before {show_date(now.astimezone(zone_of(build)).date())}, after "
        + show_date(since.astimezone(zone_of(build)).date())
    )
    questions = [
        *_running(build, now, when),
        *_jobs(build, planned, when),
        *_due(build, planned, now, when),
        *_temps(build, planned, when),
    ]
    questions.sort(key=lambda q: (-q.worth, q.about))
    return tuple(questions[:MOST_QUESTIONS])


# --- proofs begun and not read ---------------------------------------------------------------


def _running(build: Build, now: datetime, when: str) -> Iterable[Question]:
    for key, record in build.proofs.items():
        standing = standing_of_proof(build, record, now)
        if standing.state is not ProofState.BEGUN or standing.since is None:
            continue
        proof = record.proof
        day = show_date(standing.since.astimezone(zone_of(build)).date())
        limits = "; ".join(limit_words(limit) for limit in proof.limits)
        asks = f" (limit: {limits})" if limits else ""
        if proof.hold_hours:
            asks += f", to be held for {show_wait(proof.hold_hours)}"
        text = (
            f"'{proof.title}' was begun on {day}{asks} and never read. How did it end? "
            "If it stands under pressure still, read it before anything is opened."
        )
        choices = (
            Choice(f"{proof.title}: it held", (ProofHeld(key, (), f"read {when}"),)),
            Choice(f"{proof.title}: it did not hold", (ProofFailed(key, (), f"read {when}"),)),
            Choice("It was never read: it stays begun until it is read or begun anew", ()),
        )
        yield Question(text, f"proof:{key}", choices, 10.0)


# --- jobs ------------------------------------------------------------------------------------


def _jobs(build: Build, planned: Sequence[str], when: str) -> Iterable[Question]:
    """Ask after jobs by how likely they are done and how much hangs on them."""
    follows = _followers(build)
    began = {k for k, r in build.jobs.items() if r.state.status is JobStatus.STARTED}
    listed = list(dict.fromkeys((*planned, *sorted(began))))
    for rank, key in enumerate(listed):
        record = build.jobs.get(key)
        if record is None or not record.state.is_open:
            continue
        likely = max(0.25, 1.0 - 0.06 * rank) + (0.4 if key in began else 0.0)
        worth = likely * (1.0 + 0.12 * min(follows.get(key, 0), 12))
        title = record.job.title
        finished: tuple[Change, ...] = (JobFinished(key, None, f"done {when}"),)
        choices = (
            Choice(f"{title}: done{_hides(build, key)}", finished),
            Choice(f"{title}: begun, not finished", (JobWorked(key, None, None, f"begun {when}"),)),
            Choice("Not yet", ()),
        )
        begun = " was begun" if key in began else ""
        text = f"'{title}'{begun}: is it done?" if begun else f"Is '{title}' done?"
        yield Question(text, f"job:{key}", choices, worth)


def _hides(build: Build, job: str) -> str:
    """Say what would then lie covered, unproven."""
    hidden = [
        r.proof.title
        for r in build.proofs.values()
        if job in r.proof.covered_by and not standing_of_proof(build, r).state.is_good
    ]
    return f" (then '{hidden[0]}' lies covered, unproven)" if hidden else ""


def _followers(build: Build) -> dict[str, int]:
    """Count the open jobs that wait, sooner or later, for each job."""
    after = predecessors(build)
    direct: dict[str, list[str]] = {}
    for job, before in after.items():
        for b in before:
            direct.setdefault(b, []).append(job)
    counts: dict[str, int] = {}
    for job in after:
        seen: set[str] = set()
        stack = list(direct.get(job, ()))
        while stack:
            nxt = stack.pop()
            if nxt not in seen:
                seen.add(nxt)
                stack += direct.get(nxt, ())
        counts[job] = sum(build.jobs[j].state.is_open for j in seen)
    return counts


# --- parts and temps ---------------------------------------------------------------------------


def _due(build: Build, planned: Sequence[str], now: datetime, when: str) -> Iterable[Question]:
    today = now.astimezone(zone_of(build)).date()
    wanted = set(planned)
    for key, record in build.orders.items():
        due = record.line.expected_on
        if not record.outstanding or due is None or due > today:
            continue
        need = build.needs.get(record.line.need or "")
        late = min((today - due).days / 21, 1.0)
        worth = 0.8 + 0.6 * late + (0.8 if need is not None and need.job in wanted else 0.0)
        yield Question(
            f"'{record.line.title}' was expected on {show_date(due)}. Has it come?",
            f"order:{key}",
            _delivery_choices(key, record, when),
            worth,
        )


def _delivery_choices(key: str, record: OrderRecord, when: str) -> tuple[Choice, ...]:
    title, count = record.line.title, record.outstanding
    words = f"came {when}"
    return (
        Choice(f"{title}: {count} came, right when checked",
               (GoodsChecked(key, GoodsIn.RIGHT, count, "", words),)),
        Choice(f"{title}: came, wrong", (GoodsChecked(key, GoodsIn.WRONG, count, "", words),)),
        Choice(f"{title}: came, damaged", (GoodsChecked(key, GoodsIn.DAMAGED, count, "", words),)),
        Choice(f"{title}: not come, nobody knows when",
               (OrderExpected(key, None, "not come when it was asked after"),)),
        Choice("Not yet, or not looked", ()),
    )  # fmt: skip


def _temps(build: Build, planned: Sequence[str], when: str) -> Iterable[Question]:
    """Ask after temps whose replacing job or part may have come meanwhile."""
    needs = need_standings(build)
    for key in open_temps(build):
        temp = build.temps[key].temp
        here = temp.need in needs and needs[temp.need].here > 0
        gate = build.gates.get(temp.gate)
        worth = 0.6 + (0.8 if temp.cleared_by in planned else 0.0) + (0.5 if here else 0.0)
        before = f", to be gone before '{gate.gate.title}'" if gate is not None else ""
        yield Question(
            f"The temporary fix '{temp.title}'{before}: is it gone?",
            f"temp:{key}",
            (
                Choice(f"{temp.title}: gone", (TempCleared(key, f"gone {when}"),)),
                Choice("Still on the car", ()),
            ),
            worth,
        )
