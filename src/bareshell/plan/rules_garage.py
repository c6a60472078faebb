"""The rules of the evening and of the car: who is there, until when, and how the car stands."""

from __future__ import annotations

from collections.abc import Iterator

from bareshell.plan.problem import Change
from bareshell.plan.reading import Reading, Rules
from bareshell.plan.schedule import Block

__all__ = ["GARAGE_RULES"]

GARAGE_RULES = Rules()
"""Each by its name."""

# --- the evening ------------------------------------------------------------------------------


@GARAGE_RULES.named("session")
def _blocks_lie_in_their_session(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot is None:
            yield block.job_id or "", "it is put into a session that does not exist"
        elif not slot.start_minute <= block.start_minute <= block.end_minute <= slot.end_minute:
            yield block.job_id or "", "it lies outside its session"


@GARAGE_RULES.named("set-up")
def _setting_up_comes_first(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot and block.start_minute < slot.start_minute + r.problem.set_up_minutes:
            yield block.job_id or "", "it begins before the bay is set up"


@GARAGE_RULES.named("clear-up")
def _clearing_up_comes_last(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot and block.end_minute > slot.end_minute - r.problem.clear_up_minutes:
            yield block.job_id or "", "it leaves no time to clear up"


@GARAGE_RULES.named("one pair of hands")
def _the_owner_does_one_thing_at_a_time(r: Reading) -> Iterator[tuple[str, str]]:
    busy_until = 0
    for block in r.blocks:
        if block.by_helper:
            continue
        if block.start_minute < busy_until:
            yield block.job_id or "", "it begins while the owner is still busy"
        busy_until = max(busy_until, block.end_minute)


@GARAGE_RULES.named("the helper's hands")
def _the_helper_does_one_thing_at_a_time(r: Reading) -> Iterator[tuple[str, str]]:
    busy_until = 0
    for block in r.blocks:
        if not block.by_helper and block.people == 1:
            continue
        if block.start_minute < busy_until:
            yield block.job_id or "", "it begins while the helper is still busy"
        busy_until = max(busy_until, block.end_minute)


@GARAGE_RULES.named("helper")
def _two_person_work_has_two_people(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        slot = r.slot(block)
        if slot and block.people > slot.people:
            yield block.job_id or "", "it takes two people and only one is there"


@GARAGE_RULES.named("the helper's own work")
def _a_helper_alone_does_only_what_they_may(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        if not block.by_helper:
            continue
        slot, job = r.slot(block), r.jobs.get(block.job_id or "")
        if block.kind == "change":
            yield block.job_id or "", "the helper moves the car alone"
        elif slot is None or slot.people == 1 or not slot.beside:
            yield block.job_id or "", "no helper is there to do it alone"
        elif job is not None and not job.helper_alone:
            if slot.beside == "marked":
                yield job.id, f"{r.title(job.id)} is not marked for a helper alone"
            elif job.dangerous_alone:
                yield job.id, f"{r.title(job.id)} is not to be done alone, by a helper least of all"


# --- how the car stands -----------------------------------------------------------------------


@GARAGE_RULES.named("support")
def _work_is_done_where_it_can_be_reached(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for block in blocks:
            if job.supports is not None and block.support_after not in job.supports:
                yield job.id, f"{r.title(job.id)} cannot be reached on {block.support_after}"
            if block.support_before != block.support_after:
                yield job.id, "the car moves by itself while it is worked on"


@GARAGE_RULES.named("one place")
def _the_car_is_where_it_was_left(r: Reading) -> Iterator[tuple[str, str]]:
    stands = r.problem.support
    for block in r.blocks:
        if block.support_before != stands:
            yield (
                block.job_id or "",
                f"the car is taken to stand on {block.support_before}, but it is on {stands}",
            )
        stands = block.support_after


@GARAGE_RULES.named("the car at rest")
def _nobody_works_on_a_car_that_is_moved(r: Reading) -> Iterator[tuple[str, str]]:
    moves = [block for block in r.blocks if block.kind == "change"]
    for job, blocks in r.worked():
        if job.supports is None:
            continue
        for block in blocks:
            if any(
                move.start_minute < block.end_minute and block.start_minute < move.end_minute
                for move in moves
            ):
                yield job.id, f"{r.title(job.id)} is worked on while the car is moved"


@GARAGE_RULES.named("moving the car")
def _moving_the_car_takes_its_time(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        if block.kind != "change":
            continue
        least = _least_minutes(r, block)
        if least is None:
            yield block.job_id or "", "there is no way to move the car like that"
        elif block.minutes < least:
            yield block.job_id or "", f"moving the car takes {least} min, not {block.minutes}"


def _least_minutes(r: Reading, move: Block) -> int | None:
    """Walk outwards from one support, always on from the nearest (Dijkstra 1959)."""
    body = r.body_at(move.start_minute)
    best = {move.support_before: 0}
    todo = [move.support_before]
    while todo:
        here = min(todo, key=lambda name: best[name])
        todo.remove(here)
        for change in r.problem.changes:
            if change.before != here or not _can_be_made(change, move.people, body):
                continue
            far = best[here] + change.minutes
            if far < best.get(change.after, far + 1):
                best[change.after] = far
                todo.append(change.after)
    return best.get(move.support_after)


def _can_be_made(change: Change, people: int, body: frozenset[str]) -> bool:
    return (
        change.people <= people
        and all(state in body for state in change.body_needs)
        and not any(state in body for state in change.body_bars)
    )
