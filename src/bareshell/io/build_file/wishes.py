"""From what a file says happened to the changes that would make it so.

Each function compares what an item states with how a build stands, and puts down wishes: a
change with its sentence. Nothing here is forced: what cannot honestly be written down (a proof
that becomes *owed* again, hours that were never worked) is put down as a problem instead.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime

from bareshell.errors import Problem
from bareshell.io.build_file.facts import (
    DeliveryFact,
    GateFacts,
    JobFacts,
    NeedFacts,
    OrderFacts,
    ProofFacts,
    TempFacts,
)
from bareshell.io.build_file.read import Item
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.job import JobState, JobStatus
from bareshell.model.proof import ProofEventKind, ProofStanding, ProofState
from bareshell.model.standing import standing_of_proof, temp_is_open

__all__ = [
    "FROM_FILE",
    "Wish",
    "Wishes",
    "gate_passed",
    "goods_in",
    "job_begun",
    "job_done",
    "job_undone",
    "need_looked_for",
    "order_cancelled",
    "proof_after_jobs",
    "proof_before_jobs",
    "proof_uncovered",
    "temp_on_car",
]

FROM_FILE = "from the build file"

_TOO_LITTLE_HOURS = 1e-4
_UNCOVERED = ProofEventKind.UNCOVERED


@dataclass(frozen=True, slots=True)
class Wish:
    """A change that an item of the file asks for, and how a person is told of it."""

    item: Item
    change: c.Change
    sentence: str
    at: datetime | None = None


@dataclass(slots=True)
class Wishes:
    """Wishes in the making, and the problems met on the way."""

    problems: list[Problem] = field(default_factory=list)

    def doubt(self, item: Item, words: str, what: str, remedy: str = "") -> None:
        """Put down what is not taken from the file, and why."""
        problem = Problem(f"{item.where}, {words}", what, remedy, "doubtful")
        if problem not in self.problems:
            self.problems.append(problem)


def same_second(one: datetime | None, other: datetime | None) -> bool:
    """Whether two moments are the same to the second, as the file writes them."""
    if one is None or other is None:
        return one is other
    return one.replace(microsecond=0) == other.replace(microsecond=0)


# --- jobs --------------------------------------------------------------------------------------


def job_undone(item: Item, build: Build, into: Wishes) -> Iterator[Wish]:
    """Yield what takes a job back: taken in again, not done after all, taken off again."""
    facts: JobFacts = item.facts
    state = build.jobs[item.key].state
    title = item.section.title(item.value)
    if facts.status is None:
        if any(each is not None for each in (facts.hours_done, facts.hours_left, facts.since)):
            into.doubt(item, "status", "it has none, so its hours and times say nothing")
        return
    if state.status is JobStatus.LEFT_OUT and facts.status is not JobStatus.LEFT_OUT:
        yield Wish(item, c.JobTakenIn(item.key), f"{title} is taken in again")
        return  # how it stood before shows once it is in: this is asked again then
    wanted_open = facts.status in (JobStatus.TO_DO, JobStatus.STARTED)
    has_work = state.is_done or (
        state.status is JobStatus.STARTED and facts.status is JobStatus.TO_DO
    )
    if facts.taken_off and not has_work and not state.taken_off:
        words = f"{title} was fitted before the record began"
        yield Wish(item, c.JobDoneBefore(item.key), words, facts.since)
        has_work = True
    if not wanted_open or not has_work:
        return
    if facts.taken_off:
        change: c.Change = c.JobTakenOff(item.key, FROM_FILE)
        yield Wish(item, change, f"{title} came off again", facts.since)
    else:
        yield Wish(item, c.JobNotDone(item.key, FROM_FILE), f"{title} is not done after all")


def job_done(item: Item, build: Build, into: Wishes) -> Iterator[Wish]:
    """Yield what a job's status says was done: worked, finished, done before, left out."""
    facts: JobFacts = item.facts
    state = build.jobs[item.key].state
    title = item.section.title(item.value)
    more = _more_hours(item, facts, state, into)
    match facts.status:
        case JobStatus.STARTED:
            left = facts.hours_left
            new_guess = left is not None and left != state.hours_left
            if more or new_guess:
                at = facts.since if state.status is not JobStatus.STARTED else None
                words = f"{title} is started, {_hours(more)} more done"
                yield Wish(item, c.JobWorked(item.key, more, left, FROM_FILE), words, at)
        case JobStatus.DONE if state.status is not JobStatus.DONE:
            words = f"{title} is done{f', {_hours(more)} more' if more else ''}"
            yield Wish(item, c.JobFinished(item.key, more, FROM_FILE), words, facts.since)
        case JobStatus.DONE if more:
            words = f"{title} took {_hours(more)} more"
            yield Wish(item, c.JobFinished(item.key, more, FROM_FILE), words, state.finished_at)
        case JobStatus.DONE_BEFORE if state.status is JobStatus.DONE:
            into.doubt(item, "status", "the record has it as done, which says more", "leave it so")
        case JobStatus.DONE_BEFORE | JobStatus.LEFT_OUT if state.status is not facts.status:
            if more:
                words = f"{title}: {_hours(more)} were worked on it"
                yield Wish(item, c.JobWorked(item.key, more, None, FROM_FILE), words, facts.since)
            if facts.status is JobStatus.LEFT_OUT:
                change: c.Change = c.JobLeftOut(item.key, FROM_FILE)
                yield Wish(item, change, f"{title} is left out", facts.since)
            else:
                words = f"{title} was done before the record began, unproven"
                yield Wish(item, c.JobDoneBefore(item.key), words, facts.since)
    if state.is_done and facts.status is state.status:
        _doubt_other_time(item, facts.since, state.finished_at, into)


def job_begun(item: Item, build: Build, _into: Wishes) -> Iterator[Wish]:
    """Yield the start of a job; it comes last, since a rule of the garage may forbid it."""
    state = build.jobs[item.key].state
    if item.facts.status is JobStatus.STARTED and state.status is not JobStatus.STARTED:
        words = f"{item.section.title(item.value)} is started"
        yield Wish(item, c.JobStarted(item.key), words, item.facts.since)


def _more_hours(item: Item, facts: JobFacts, state: JobState, into: Wishes) -> float | None:
    if facts.hours_done is None:
        return None
    more = facts.hours_done - state.hours_done
    if more < -_TOO_LITTLE_HOURS:
        into.doubt(
            item,
            "hours_done",
            f"the record has {_hours(state.hours_done)} and the file {_hours(facts.hours_done)}",
            "take the entry with the wrong hours back",
        )
    return round(more, 6) if more > _TOO_LITTLE_HOURS else None


def _hours(hours: float | None) -> str:
    return f"{hours or 0:.6g} h"


def _doubt_other_time(
    item: Item, stated: datetime | None, held: datetime | None, into: Wishes
) -> None:
    if stated is not None and not same_second(stated, held):
        into.doubt(
            item,
            "since",
            "the record has another time",
            "take the entry with the wrong time back and write it anew",
        )


# --- parts -------------------------------------------------------------------------------------


def need_looked_for(item: Item, build: Build, into: Wishes) -> Iterator[Wish]:
    """Yield that a need was looked for and not found."""
    facts: NeedFacts = item.facts
    known = build.not_here.get(item.key)
    if facts.not_here is None or same_second(facts.not_here, known):
        return
    if known is not None and known > facts.not_here:
        into.doubt(item, "not_here", "it was looked for again later")
        return
    words = f"{item.section.title(item.value)} was looked for and is not here"
    yield Wish(item, c.NeedNotHere(item.key, FROM_FILE), words, facts.not_here)


def goods_in(item: Item, build: Build, into: Wishes) -> Iterator[Wish]:
    """Yield the deliveries that the record does not have yet."""
    facts: OrderFacts = item.facts
    held = [
        (each.at.replace(microsecond=0), each.outcome, each.quantity, each.words)
        for each in build.orders[item.key].deliveries
    ]
    for each in sorted(facts.deliveries or (), key=lambda delivery: delivery.at):
        alike = (each.at.replace(microsecond=0), each.outcome, each.quantity, each.words)
        if alike in held:
            held.remove(alike)
        elif each.holding in build.holdings:
            into.doubt(
                item,
                "deliveries",
                f"holding '{each.holding}' is on the shelf already, so this delivery was not taken",
                "leave its holding out, or check the delivery in on its page",
            )
        else:
            yield from _delivery(item, each)


def _delivery(item: Item, each: DeliveryFact) -> Iterator[Wish]:
    title = item.section.title(item.value)
    change = c.GoodsChecked(
        item.key, each.outcome, each.quantity, words=each.words, holding=each.holding
    )
    yield Wish(item, change, f"{title}: {each.quantity} came, {each.outcome}", each.at)
    if each.used_up and each.holding:
        words = f"{title}: nothing of that delivery is on the shelf any more"
        yield Wish(item, c.HoldingDropped(each.holding, FROM_FILE), words, each.at)


def order_cancelled(item: Item, build: Build, into: Wishes) -> Iterator[Wish]:
    """Yield that an order was cancelled."""
    facts: OrderFacts = item.facts
    cancelled = build.orders[item.key].cancelled
    if facts.cancelled and not cancelled:
        words = f"{item.section.title(item.value)} is cancelled"
        yield Wish(item, c.OrderCancelled(item.key, FROM_FILE), words)
    elif facts.cancelled is False and cancelled:
        into.doubt(item, "cancelled", "a cancelled order does not come back", "write a new order")


# --- proofs, temps, gates ----------------------------------------------------------------------


def proof_uncovered(item: Item, build: Build, _into: Wishes) -> Iterator[Wish]:
    """Yield that what hid a proof was taken away by hand."""
    facts: ProofFacts = item.facts
    known = [each.at for each in build.proofs[item.key].events if each.kind is _UNCOVERED]
    if facts.uncovered is None or any(same_second(facts.uncovered, each) for each in known):
        return
    words = f"{item.section.title(item.value)} can be seen again"
    yield Wish(item, c.ProofUncovered(item.key, FROM_FILE), words, facts.uncovered)


def proof_before_jobs(
    item: Item, build: Build, later: ProofStanding, into: Wishes
) -> Iterator[Wish]:
    """Yield what was proved before the jobs of the same file hid it.

    ``later`` is how the proof would stand with those jobs done and nothing else.
    """
    facts: ProofFacts = item.facts
    title = item.section.title(item.value)
    words, readings = facts.words or FROM_FILE, facts.readings or ()
    again = _is_newer(item, later, into)
    if facts.state is later.state and not again:
        return
    if facts.state is ProofState.HELD:
        change: c.Change = c.ProofHeld(item.key, readings, words)
        yield Wish(item, change, f"{title} is held", facts.since)
    elif facts.state is ProofState.BEGUN:
        change = c.ProofBegun(item.key, readings, words)
        yield Wish(item, change, f"{title} is begun", facts.since)
    elif facts.state is ProofState.SPENT:
        if standing_of_proof(build, build.proofs[item.key]).state is ProofState.OWED:
            change = c.ProofHeld(item.key, readings, f"held once, {FROM_FILE}")
            yield Wish(item, change, f"{title} was held once", facts.since)
        change = c.ProofSpent(item.key, words)
        yield Wish(item, change, f"{title} is spent", facts.since)


def proof_after_jobs(item: Item, later: ProofStanding) -> Iterator[Wish]:
    """Yield what happened to a proof whose thing lay hidden by then, or had failed."""
    facts: ProofFacts = item.facts
    title = item.section.title(item.value)
    readings = facts.readings or ()
    again = facts.state is ProofState.FAILED and _is_newer(item, later, Wishes())
    if facts.state is later.state and not again:
        return
    if facts.state is ProofState.FAILED:
        change: c.Change = c.ProofFailed(item.key, readings, facts.words or FROM_FILE)
        yield Wish(item, change, f"{title} failed", facts.since)
    elif facts.state is ProofState.SUBSTITUTED:
        # Without a name it is refused, and that is said.
        change = c.ProofSubstituted(item.key, facts.words or "", readings, FROM_FILE)
        yield Wish(item, change, f"{title} has a substitute proof: {facts.words}", facts.since)


def _is_newer(item: Item, later: ProofStanding, into: Wishes) -> bool:
    """Whether the file has evidence of the same outcome that came after the record's."""
    facts: ProofFacts = item.facts
    states = (ProofState.HELD, ProofState.BEGUN, ProofState.FAILED)
    if facts.state is not later.state or facts.state not in states:
        return False
    if facts.since is not None and later.since is not None and facts.since > later.since:
        return not same_second(facts.since, later.since)
    readings = facts.readings is not None and facts.readings != later.readings
    if readings or (facts.words is not None and facts.words != later.words):
        into.doubt(
            item,
            "readings",
            "the record has other readings or words for the same proof",
            "take that entry back and write it anew, or give the new one its own since",
        )
    return False


def temp_on_car(item: Item, build: Build, _into: Wishes) -> Iterator[Wish]:
    """Yield that a temporary fix was put on or taken away."""
    facts: TempFacts = item.facts
    is_open = temp_is_open(build, build.temps[item.key])
    title = item.section.title(item.value)
    if facts.on_car and not is_open:
        yield Wish(item, c.TempRaised(item.key, FROM_FILE), f"{title} is on the car")
    elif facts.on_car is False and is_open:
        yield Wish(item, c.TempCleared(item.key, FROM_FILE), f"{title} is gone from the car")


def gate_passed(item: Item, build: Build, into: Wishes) -> Iterator[Wish]:
    """Yield that somebody let the car through a gate."""
    facts: GateFacts = item.facts
    passed = build.gates[item.key].passed
    if facts.passed is None:
        return
    if passed is None:
        words = f"{item.section.title(item.value)} was passed, by {facts.passed.by}"
        change = c.GatePassed(item.key, facts.passed.by, facts.passed.words)
        yield Wish(item, change, words, facts.passed.at)
    elif not same_second(passed.at, facts.passed.at) or passed.by != facts.passed.by:
        into.doubt(item, "passed", f"the record has it passed by {passed.by} at another time")
