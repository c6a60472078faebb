"""A plan and its problem read side by side, for the rules that look at it block by block.

Shares no code with the walk that makes plans.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from bareshell.plan.problem import COLD_DOUBLING_C, COLD_REFERENCE_C, PlanJob, PlanProblem
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSlot

__all__ = ["Reading", "Rule", "Rules", "Violation"]


@dataclass(frozen=True, slots=True)
class Violation:
    """A rule that a plan breaks.

    Parameters
    ----------
    rule : str
        One of `bareshell.plan.checker.RULES`.
    job_id : str
        The job whose block breaks it; empty when it is about the car or the evening.
    sentence : str
        What is wrong, in plain words.
    """

    rule: str
    job_id: str
    sentence: str


class Reading:
    """A plan and its problem, looked up by name."""

    def __init__(self, problem: PlanProblem, schedule: Schedule) -> None:
        self.problem = problem
        self.blocks = tuple(sorted(schedule.blocks, key=lambda block: block.start_minute))
        self.jobs = {job.id: job for job in problem.jobs}
        self.last_session = max((block.session for block in self.blocks), default=-1)
        self.slots = problem.sessions.first(self.last_session + 1 + 400)
        self.work: dict[str, list[Block]] = {}
        for block in self.blocks:
            if block.kind == "work" and block.job_id in self.jobs:
                self.work.setdefault(block.job_id, []).append(block)
        self.finish = {key: blocks[-1] for key, blocks in self.work.items() if blocks[-1].finishes}
        self.turning = sorted(
            (block.end_minute, key)
            for key, block in self.finish.items()
            if self.jobs[key].body_begins or self.jobs[key].body_ends
        )

    def worked(self) -> Iterator[tuple[PlanJob, list[Block]]]:
        """Yield each job that is worked on, with its pieces in order."""
        for key, blocks in self.work.items():
            yield self.jobs[key], blocks

    def slot(self, block: Block) -> SessionSlot | None:
        """Look up the session of a block; None when there is no such session."""
        return self.slots[block.session] if 0 <= block.session < len(self.slots) else None

    def done_by(self, job_id: str, minute: int) -> bool:
        """Whether a job is out of the way: finished before this plan, or in it by then."""
        if job_id not in self.jobs:
            return True
        finish = self.finish.get(job_id)
        return finish is not None and finish.end_minute <= minute

    def title(self, job_id: str) -> str:
        """Read a job out."""
        return f"'{self.jobs[job_id].title}'" if job_id in self.jobs else f"'{job_id}'"

    def wait_over(self, before: Block, wait_minutes: int, *, stretch: bool) -> float:
        """When a wait after a piece of work is over; a thousandth of rounding is allowed.

        The coldest from its beginning to its own end counts for all of it, so it is read as far
        as the next session that begins after what has been read so far would be over.
        """
        slot = self.slot(before)
        if slot is None or not stretch:
            return before.end_minute + wait_minutes
        coldest = COLD_REFERENCE_C
        over = float(before.end_minute + wait_minutes)
        for index in range(before.session, len(self.slots)):
            here = self.slots[index]
            if index > before.session and here.start_minute >= over:
                break
            for known in (here.temperature_c, here.lowest_until_next_c):
                coldest = min(coldest, COLD_REFERENCE_C if known is None else known)
            colder = (COLD_REFERENCE_C - coldest) / COLD_DOUBLING_C
            over = before.end_minute + wait_minutes * max(1.0, 0.999 * 2.0**colder)
        return over

    def body_at(self, minute: int, but: str = "") -> frozenset[str]:
        """What is off or out at a moment, leaving one job out of account."""
        body = set(self.problem.body)
        for end, key in self.turning:
            if end <= minute and key != but:
                body |= self.jobs[key].body_begins
                body -= self.jobs[key].body_ends
        return frozenset(body)


Rule = Callable[[Reading], Iterator[Violation]]


class Rules(dict[str, Rule]):
    """Some rules by their names."""

    def named(self, name: str) -> Callable[[Callable[[Reading], Iterator[tuple[str, str]]]], Rule]:
        """Register a rule: a function that yields a job and a sentence for each breach."""

        def put(read: Callable[[Reading], Iterator[tuple[str, str]]]) -> Rule:
            def found(reading: Reading) -> Iterator[Violation]:
                for job_id, sentence in read(reading):
                    yield Violation(name, job_id, sentence)

            self[name] = found
            return found

        return put
