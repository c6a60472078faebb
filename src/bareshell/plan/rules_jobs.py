"""The rules of the jobs: how they are done, what comes before them, parts, warmth, the body."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from bareshell.plan.reading import Reading, Rules

__all__ = ["JOB_RULES"]

JOB_RULES = Rules()
"""Each by its name."""

DAY_MINUTES = 24 * 60


# --- the job itself ---------------------------------------------------------------------------


@JOB_RULES.named("way")
def _a_job_is_done_in_one_of_its_ways(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        known = {way.people for way in job.ways}
        for block in blocks:
            if block.people not in known:
                yield job.id, f"{r.title(job.id)} has no way with {block.people} people"


@JOB_RULES.named("whole time")
def _a_finished_job_had_its_hours(r: Reading) -> Iterator[tuple[str, str]]:
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


@JOB_RULES.named("in one piece")
def _what_cannot_be_split_is_not(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if not job.splittable and (len(blocks) > 1 or not blocks[0].finishes):
            yield job.id, f"{r.title(job.id)} is left half done, and it cannot be"


@JOB_RULES.named("least piece")
def _no_piece_is_uselessly_short(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        # A minute is allowed: all but the finish may be done while a part to finish is awaited.
        least = job.least_piece_minutes - 1
        if job.splittable and any(b.minutes < least and not b.finishes for b in blocks):
            yield job.id, f"{r.title(job.id)} is begun for less than its least useful piece"


@JOB_RULES.named("one piece at a time")
def _nobody_works_on_what_another_is_at(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if any(a.end_minute > b.start_minute for a, b in pairwise(blocks)):
            yield job.id, f"{r.title(job.id)} is worked on twice at once"


@JOB_RULES.named("once")
def _nothing_is_done_twice(r: Reading) -> Iterator[tuple[str, str]]:
    for block in r.blocks:
        if block.kind == "work" and block.job_id not in r.jobs:
            yield block.job_id or "", "it is no open job of this build"
    for job, blocks in r.worked():
        if any(b.finishes for b in blocks[:-1]):
            yield job.id, f"{r.title(job.id)} goes on after it is finished"


# --- what must come before --------------------------------------------------------------------


@JOB_RULES.named("after")
def _what_comes_before_is_done(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for link in job.after:
            if not r.done_by(link.job_id, blocks[0].start_minute):
                yield job.id, f"{r.title(job.id)} begins before {r.title(link.job_id)} is done"


@JOB_RULES.named("wait")
def _waits_are_over(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for link in job.after:
            before = r.finish.get(link.job_id)
            if before is None or not link.wait_minutes:
                continue
            over = r.wait_over(before, link.wait_minutes, stretch=link.stretch_with_cold)
            if blocks[0].start_minute < over - 1:
                yield job.id, f"{r.title(job.id)} begins in the wait after {r.title(link.job_id)}"


@JOB_RULES.named("date")
def _nothing_begins_before_its_date(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if blocks[0].start_minute < job.earliest_minute:
            yield job.id, f"{r.title(job.id)} begins before what it waits for is over"


@JOB_RULES.named("proof before cover")
def _nothing_is_buried_unproven(r: Reading) -> Iterator[tuple[str, str]]:
    proofs = {proof.id: proof for proof in r.problem.proofs}
    for job, blocks in r.worked():
        for key in job.proofs_before:
            proof = proofs.get(key)
            if proof is None or proof.held:
                continue
            by = proof.proven_by
            if not by or not all(r.done_by(j, blocks[0].start_minute) for j in by):
                yield job.id, f"{r.title(job.id)} would hide '{proof.title}', which is not held"


@JOB_RULES.named("gate")
def _nothing_passes_a_shut_gate(r: Reading) -> Iterator[tuple[str, str]]:
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


def _here_at(r: Reading, key: str) -> int | None:
    """When a part is planned to be here; None for never."""
    arrival = next((a for a in r.problem.arrivals if a.id == key), None)
    if arrival is None or not arrival.known:
        return 0
    if arrival.expected_minute is None:
        return arrival.lead_minutes
    if arrival.expected_minute > 0:
        return arrival.expected_minute
    return round(arrival.late_mean_days * DAY_MINUTES)


@JOB_RULES.named("part to start")
def _parts_to_start_are_here(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for key in job.parts_to_start:
            here = _here_at(r, key)
            if here is None or blocks[0].start_minute < here:
                yield job.id, f"{r.title(job.id)} begins before its parts are here"


@JOB_RULES.named("part to finish")
def _parts_to_finish_are_here(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        if not blocks[-1].finishes:
            continue
        for key in job.parts_to_finish:
            here = _here_at(r, key)
            if here is None or blocks[-1].end_minute < here:
                yield job.id, f"{r.title(job.id)} is finished before its parts are here"


@JOB_RULES.named("temperature")
def _it_is_warm_enough_to_work(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for block in blocks:
            slot = r.slot(block)
            if job.min_temperature_c is None or slot is None or slot.temperature_c is None:
                continue
            if slot.temperature_c < job.min_temperature_c:
                yield job.id, f"{r.title(job.id)} is done in the cold"


@JOB_RULES.named("cure")
def _it_stays_warm_through_the_cure(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        last = blocks[-1]
        if not last.finishes or not job.cure_minutes or job.min_temperature_c is None:
            continue
        over = r.wait_over(last, job.cure_minutes, stretch=job.cure_stretches)
        for slot in r.slots[last.session :]:
            if slot.start_minute >= over - 1:
                break
            known = [t for t in (slot.temperature_c, slot.lowest_until_next_c) if t is not None]
            if known and min(known) < job.min_temperature_c:
                yield job.id, f"{r.title(job.id)} would cure in the cold"
                break


# --- what is off or out -----------------------------------------------------------------------


@JOB_RULES.named("body")
def _the_body_is_as_the_work_wants_it(r: Reading) -> Iterator[tuple[str, str]]:
    for job, blocks in r.worked():
        for block in blocks:
            for minute in (block.start_minute, block.end_minute - 1):
                body = r.body_at(minute, but=job.id)
                for state in sorted(job.body_needs - body):
                    yield job.id, f"{r.title(job.id)} wants '{state}', and it is not so"
                for state in sorted(job.body_bars & body):
                    yield job.id, f"{r.title(job.id)} is not done with '{state}'"
