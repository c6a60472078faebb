"""The rules of the garage read a second time, from the problem alone.

Shares no code with the walk that makes plans: it looks at a finished plan, block by block, and
says which rule each block breaks. Nothing reaches a person before it went through here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from bareshell.plan.problem import (
    COLD_DOUBLING_C,
    COLD_REFERENCE_C,
    Link,
    PlanJob,
    PlanProblem,
)
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSlot

__all__ = ["RULES", "Violation", "check"]

DAY_MINUTES = 24 * 60


@dataclass(frozen=True, slots=True)
class Violation:
    """A rule that a plan breaks.

    Parameters
    ----------
    rule : str
        One of `RULES`.
    job_id : str
        The job whose block breaks it; empty when it is about the car or the evening.
    sentence : str
        What is wrong, in plain words.
    """

    rule: str
    job_id: str
    sentence: str


def check(problem: PlanProblem, schedule: Schedule, *, complete: bool = False) -> list[Violation]:
    """Say every rule that a plan breaks, everything going exactly as estimated.

    Parameters
    ----------
    problem : PlanProblem
        What was asked.
    schedule : Schedule
        The plan; the blocks of a single session are enough.
    complete : bool
        Whether every job must be finished in it.

    Returns
    -------
    list of Violation
        Empty when the plan keeps every rule.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings, support="lift")
    >>> early = Block("work", 0, 60, 120, "lift", "lift", 1, "wax", finishes=True)
    >>> [broken.rule for broken in check(plan, Schedule((early,)))]
    ['set-up']
    """
    reading = _Reading(problem, schedule)
    found = [broken for rule in _RULES.values() for broken in rule(reading)]
    if complete:
        found += _everything_once(reading)
    return found


class _Reading:
    """A plan and its problem, looked up by name."""

    def __init__(self, problem: PlanProblem, schedule: Schedule) -> None:
        self.problem = problem
        self.blocks = schedule.blocks
        self.jobs = {job.id: job for job in problem.jobs}
        self.last_session = max((block.session for block in self.blocks), default=-1)
        self.slots = problem.sessions.first(self.last_session + 1 + 400)
        self.work: dict[str, list[Block]] = {}
        for block in self.blocks:
            if block.kind == "work" and block.job_id in self.jobs:
                self.work.setdefault(block.job_id, []).append(block)
        self.finish = {key: blocks[-1] for key, blocks in self.work.items() if blocks[-1].finishes}

    def worked(self) -> Iterator[tuple[PlanJob, list[Block]]]:
        for key, blocks in self.work.items():
            yield self.jobs[key], blocks

    def slot(self, block: Block) -> SessionSlot | None:
        return self.slots[block.session] if 0 <= block.session < len(self.slots) else None

    def done_by(self, job_id: str, minute: int) -> bool:
        """Whether a job is out of the way: finished before this plan, or in it by then."""
        if job_id not in self.jobs:
            return True
        finish = self.finish.get(job_id)
        return finish is not None and finish.end_minute <= minute

    def title(self, job_id: str) -> str:
        return f"'{self.jobs[job_id].title}'" if job_id in self.jobs else f"'{job_id}'"


Rule = Callable[[_Reading], Iterator[Violation]]
_RULES: dict[str, Rule] = {}


def _rule(name: str) -> Callable[[Callable[[_Reading], Iterator[tuple[str, str]]]], Rule]:
    """Register a rule: a function that yields a job and a sentence for each breach."""

    def put(read: Callable[[_Reading], Iterator[tuple[str, str]]]) -> Rule:
        def rule(reading: _Reading) -> Iterator[Violation]:
            for job_id, sentence in read(reading):
                yield Violation(name, job_id, sentence)

        _RULES[name] = rule
        return rule

    return put


# --- the evening ------------------------------------------------------------------------------


@_rule("session")
def _blocks_lie_in_their_session(r: _Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot is None:
            yield block.job_id or "", "it is put into a session that does not exist"
        elif not slot.start_minute <= block.start_minute <= block.end_minute <= slot.end_minute:
            yield block.job_id or "", "it lies outside its session"


@_rule("set-up")
def _setting_up_comes_first(r: _Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot and block.start_minute < slot.start_minute + r.problem.set_up_minutes:
            yield block.job_id or "", "it begins before the bay is set up"


@_rule("clear-up")
def _clearing_up_comes_last(r: _Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot and block.end_minute > slot.end_minute - r.problem.clear_up_minutes:
            yield block.job_id or "", "it leaves no time to clear up"


@_rule("one pair of hands")
def _the_owner_does_one_thing_at_a_time(r: _Reading) -> Iterator[tuple[str, str]]:
    busy_until = 0
    for block in r.blocks:
        if block.start_minute < busy_until:
            yield block.job_id or "", "it begins while the owner is still busy"
        busy_until = max(busy_until, block.end_minute)


@_rule("helper")
def _two_person_work_has_two_people(r: _Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot and block.people > slot.people:
            yield block.job_id or "", "it takes two people and only one is there"


# --- the job itself ---------------------------------------------------------------------------


@_rule("way")
def _a_job_is_done_in_one_of_its_ways(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        known = {way.people for way in job.ways}
        for block in blocks:
            if block.people not in known:
                yield job.id, f"{r.title(job.id)} has no way with {block.people} people"


@_rule("whole time")
def _a_finished_job_had_its_hours(r: _Reading) -> Iterator[tuple[str, str]]:
    paces = {pace.system: pace.factor for pace in r.problem.paces}
    for job, blocks in r.worked():
        if not blocks[-1].finishes:
            continue
        pace = paces.get(job.system, paces.get("", 1.0))
        done = 0.0
        first = True
        for block in blocks:
            likely = [way.likely_minutes for way in job.ways if way.people == block.people]
            if not likely:
                break
            total = max(1, round(min(likely) * pace))
            if first and job.minutes_done:
                done = min(job.minutes_done / total, 0.9)
            first = False
            # Half a minute of rounding for each piece is nobody's fault.
            done += (block.minutes + 1.0) / total
        else:
            if done < 1.0:
                yield job.id, f"{r.title(job.id)} is called done after {done:.0%} of its time"


@_rule("in one piece")
def _what_cannot_be_split_is_not(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if not job.splittable and (len(blocks) > 1 or not blocks[0].finishes):
            yield job.id, f"{r.title(job.id)} is left half done, and it cannot be"


@_rule("least piece")
def _no_piece_is_uselessly_short(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        # A minute is allowed: all but the finish may be done while a part to finish is awaited.
        least = job.least_piece_minutes - 1
        if job.splittable and any(b.minutes < least and not b.finishes for b in blocks):
            yield job.id, f"{r.title(job.id)} is begun for less than its least useful piece"


@_rule("once")
def _nothing_is_done_twice(r: _Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        if block.kind == "work" and block.job_id not in r.jobs:
            yield block.job_id or "", "it is no open job of this build"
    for job, blocks in r.worked():
        if any(b.finishes for b in blocks[:-1]):
            yield job.id, f"{r.title(job.id)} goes on after it is finished"


# --- what must come before --------------------------------------------------------------------


@_rule("after")
def _what_comes_before_is_done(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for link in job.after:
            if not r.done_by(link.job_id, blocks[0].start_minute):
                yield job.id, f"{r.title(job.id)} begins before {r.title(link.job_id)} is done"


@_rule("wait")
def _waits_are_over(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for link in job.after:
            before = r.finish.get(link.job_id)
            if before is None or not link.wait_minutes:
                continue
            needed = before.end_minute + link.wait_minutes * _stretch(r, before, link)
            if blocks[0].start_minute < needed - 1:
                yield job.id, f"{r.title(job.id)} begins in the wait after {r.title(link.job_id)}"


def _stretch(r: _Reading, before: Block, link: Link) -> float:
    slot = r.slot(before)
    if not link.stretch_with_cold or slot is None:
        return 1.0
    known = [t for t in (slot.temperature_c, slot.lowest_until_next_c) if t is not None]
    colder = COLD_REFERENCE_C - min(known) if known else 0.0
    # A thousandth of rounding is allowed.
    return float(max(1.0, 0.999 * 2.0 ** (max(0.0, colder) / COLD_DOUBLING_C)))


@_rule("date")
def _nothing_begins_before_its_date(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if blocks[0].start_minute < job.earliest_minute:
            yield job.id, f"{r.title(job.id)} begins before what it waits for is over"


@_rule("proof before cover")
def _nothing_is_buried_unproven(r: _Reading) -> Iterator[tuple[str, str]]:
    proofs = {proof.id: proof for proof in r.problem.proofs}
    for job, blocks in r.worked():
        for key in job.proofs_before:
            proof = proofs.get(key)
            if proof is None or proof.held:
                continue
            by = proof.proven_by
            if not by or not all(r.done_by(j, blocks[0].start_minute) for j in by):
                yield job.id, f"{r.title(job.id)} would hide '{proof.title}', which is not held"


@_rule("gate")
def _nothing_passes_a_shut_gate(r: _Reading) -> Iterator[tuple[str, str]]:
    proofs = {proof.id: proof for proof in r.problem.proofs}
    for job, blocks in r.worked():
        start = blocks[0].start_minute
        for gate in r.problem.gates:
            if job.id not in gate.blocks and gate.id not in job.gates_before:
                continue
            late = [j for j in gate.needs_jobs if not r.done_by(j, start)]
            late += [
                p
                for p in gate.needs_proofs
                if p in proofs
                and not proofs[p].held
                and not (
                    proofs[p].proven_by and all(r.done_by(j, start) for j in proofs[p].proven_by)
                )
            ]
            if late:
                yield job.id, f"{r.title(job.id)} passes the gate '{gate.title}' while it is shut"


# --- parts and warmth -------------------------------------------------------------------------


def _here_at(r: _Reading, key: str) -> int | None:
    """When a part is planned to be here; None for never."""
    arrival = next((a for a in r.problem.arrivals if a.id == key), None)
    if arrival is None or not arrival.known:
        return 0
    if arrival.expected_minute is None:
        return arrival.lead_minutes
    if arrival.expected_minute > 0:
        return arrival.expected_minute
    return round(arrival.late_mean_days * DAY_MINUTES)


@_rule("part to start")
def _parts_to_start_are_here(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for key in job.parts_to_start:
            here = _here_at(r, key)
            if here is None or blocks[0].start_minute < here:
                yield job.id, f"{r.title(job.id)} begins before its parts are here"


@_rule("part to finish")
def _parts_to_finish_are_here(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if not blocks[-1].finishes:
            continue
        for key in job.parts_to_finish:
            here = _here_at(r, key)
            if here is None or blocks[-1].end_minute < here:
                yield job.id, f"{r.title(job.id)} is finished before its parts are here"


@_rule("temperature")
def _it_is_warm_enough_to_work(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for block in blocks:
            slot = r.slot(block)
            if job.min_temperature_c is None or slot is None or slot.temperature_c is None:
                continue
            if slot.temperature_c < job.min_temperature_c:
                yield job.id, f"{r.title(job.id)} is done in the cold"


@_rule("cure")
def _it_stays_warm_through_the_cure(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        last = blocks[-1]
        if not last.finishes or not job.cure_minutes or job.min_temperature_c is None:
            continue
        for slot in r.slots[last.session :]:
            if slot.start_minute >= last.end_minute + job.cure_minutes:
                break
            known = [t for t in (slot.temperature_c, slot.lowest_until_next_c) if t is not None]
            if known and min(known) < job.min_temperature_c:
                yield job.id, f"{r.title(job.id)} would cure in the cold"
                break


# --- how the car stands -----------------------------------------------------------------------


@_rule("support")
def _work_is_done_where_it_can_be_reached(r: _Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for block in blocks:
            if job.supports is not None and block.support_after not in job.supports:
                yield job.id, f"{r.title(job.id)} cannot be reached on {block.support_after}"
            if block.support_before != block.support_after:
                yield job.id, "the car moves by itself while it is worked on"


@_rule("one place")
def _the_car_is_where_it_was_left(r: _Reading) -> Iterator[tuple[str, str]]:
    stands = r.problem.support
    for block in r.blocks:
        if block.support_before != stands:
            yield (
                block.job_id or "",
                f"the car is taken to stand on {block.support_before}, but it is on {stands}",
            )
        stands = block.support_after


@_rule("moving the car")
def _moving_the_car_takes_its_time(r: _Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        if block.kind != "change":
            continue
        least = _least_minutes(r, block.support_before, block.support_after, block.people)
        if least is None:
            yield block.job_id or "", "there is no way to move the car like that"
        elif block.minutes < least:
            yield block.job_id or "", f"moving the car takes {least} min, not {block.minutes}"


def _least_minutes(r: _Reading, start: str, goal: str, people: int) -> int | None:
    """Walk outwards from one support, always on from the nearest (Dijkstra 1959)."""
    best = {start: 0}
    todo = [start]
    while todo:
        here = min(todo, key=lambda name: best[name])
        todo.remove(here)
        for change in r.problem.changes:
            if change.before != here or change.people > people:
                continue
            far = best[here] + change.minutes
            if far < best.get(change.after, far + 1):
                best[change.after] = far
                todo.append(change.after)
    return best.get(goal)


def _everything_once(r: _Reading) -> Iterator[Violation]:
    for key in r.jobs:
        if key not in r.finish:
            yield Violation("everything", key, f"{r.title(key)} is not in the plan")


RULES = (*_RULES, "everything")
"""The name of every rule; "everything" is asked only of a whole plan."""
