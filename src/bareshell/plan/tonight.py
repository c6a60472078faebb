"""Tonight: the moves that bring the road nearest in this session, and what else would do as well.

The list is the beginning of the same plan that the road ahead shows, made by the same policy; it
differs from it only where this session is not as expected. It goes through the checker before
anybody sees it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bareshell.plan import wording
from bareshell.plan.asitis import AsItIs, expected_slot, laid_over
from bareshell.plan.checker import Violation, check
from bareshell.plan.choosing import FIRST_MOVE_SAMPLES, Candidate, choose_moves
from bareshell.plan.engine import EngineName
from bareshell.plan.hours import planned_minutes, quickest
from bareshell.plan.policy import Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready, ready
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.validate import Prepared, Snag
from bareshell.plan.walk import walk

__all__ = ["Alternative", "Move", "MoveKind", "Tonight", "tonight"]

MoveKind = Literal["set up", "work", "move the car", "wait", "clear up"]
"""What a stretch of the session goes into."""


@dataclass(frozen=True, slots=True)
class Move:
    """One stretch of the session.

    Parameters
    ----------
    kind : str
        One of `MoveKind`.
    start_minute, end_minute : int
        From when to when. [minutes from the origin]
    sentence : str
        What to do, in plain words.
    support : str
        How the car stands afterwards.
    people : int
        How many it takes.
    job_id, title : str
        The job; empty when there is none.
    finishes : bool
        Whether the job is finished with it.
    left_minutes : int
        Planned work left on the job afterwards. [min]
    kit : str
        What this way of doing the job wants to hand.
    by_helper : bool
        Whether the helper does it alone, while the owner is at the moves around it.
    """

    kind: MoveKind
    start_minute: int
    end_minute: int
    sentence: str
    support: str
    people: int = 1
    job_id: str = ""
    title: str = ""
    finishes: bool = False
    left_minutes: int = 0
    kit: str = ""
    by_helper: bool = False

    @property
    def minutes(self) -> int:
        """How long it takes."""
        return self.end_minute - self.start_minute


@dataclass(frozen=True, slots=True)
class Alternative:
    """A job that could come first tonight.

    Parameters
    ----------
    job_id, title : str
        The job.
    chosen : bool
        Whether it is the one that comes first on the list.
    regret_days, standard_error_days : float
        How much later the road is reached on average when it comes first, and how far that may
        be off. [days]
    samples : int
        On how many fates it was compared.
    as_good : bool
        Whether the difference means nothing.
    sentence : str
        The same in plain words.
    """

    job_id: str
    title: str
    chosen: bool
    regret_days: float
    standard_error_days: float
    samples: int
    as_good: bool
    sentence: str


@dataclass(frozen=True, slots=True)
class Tonight:
    """Tonight's list.

    Parameters
    ----------
    session : SessionSlot, optional
        The session as it really is; None when there is none.
    moves : tuple of Move
        What to do, from setting up to clearing up.
    alternatives : tuple of Alternative
        What could come first, the chosen one at the front.
    leave_support : str
        How the car stands when the session is over.
    free_minutes : int
        Time in which nothing more can be done. [min]
    schedule : Schedule
        The whole plan that the list is the beginning of.
    prepared : Prepared
        What was planned and what was asked.
    as_it_is : AsItIs
        What was known of the session.
    policy : Policy
        What was gone by.
    snags : tuple of Snag
        What stood in the way of planning.
    violations : tuple of Violation
        Rules that the checker found broken. Anything here is a fault in bareshell: the list is
        not to be followed.
    engine : {"compiled", "plain"}
        Which walk answered.
    samples, seed : int
        On how many fates the first move was compared, and which.
    """

    session: SessionSlot | None
    moves: tuple[Move, ...]
    alternatives: tuple[Alternative, ...]
    leave_support: str
    free_minutes: int
    schedule: Schedule
    prepared: Prepared
    as_it_is: AsItIs
    policy: Policy
    snags: tuple[Snag, ...]
    violations: tuple[Violation, ...]
    engine: EngineName
    samples: int
    seed: int

    @property
    def problem(self) -> PlanProblem:
        """What was planned."""
        return self.prepared.problem

    @property
    def job_ids(self) -> tuple[str, ...]:
        """The jobs on the list, in order."""
        worked = (move.job_id for move in self.moves if move.kind == "work")
        return tuple(dict.fromkeys(worked))


def tonight(
    problem: PlanProblem,
    as_it_is: AsItIs | None = None,
    *,
    seed: int,
    samples: int = FIRST_MOVE_SAMPLES,
    policy: Policy | None = None,
    threads: int = 2,
    engine: EngineName | None = None,
) -> Tonight:
    """Say what to do in this session.

    Parameters
    ----------
    problem : PlanProblem
        As expected.
    as_it_is : AsItIs, optional
        How the session really is, and what the owner is in the mood for.
    seed, samples : int
        Which fates the first move is compared on, and how many.
    policy : Policy, optional
        A rule tuned before.
    threads, engine
        As for `bareshell.plan.ready.ready`.

    Returns
    -------
    Tonight
        The list; without moves when there is nothing to do or no session.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax the sills", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, 18, tzinfo=UTC), (wax,), evenings)
    >>> for move in tonight(plan, seed=1, engine="plain").moves:
    ...     print(move.minutes, move.sentence)
    15 Set up.
    60 'Wax the sills': 1 h, and it is finished.
    60 1 h left in which nothing more fits.
    15 Clear up.
    """
    as_it_is = as_it_is or AsItIs()
    if expected_slot(problem) is None and as_it_is.minutes is None:
        made = ready(problem, seed=seed, policy=policy, threads=threads, engine=engine)
        return _nothing(made, as_it_is)
    asked = laid_over(problem, as_it_is)
    made = ready(asked, seed=seed, policy=policy, threads=threads, engine=engine)
    if not made.problem.jobs:
        return _nothing(made, as_it_is, asked.sessions.slots[0])
    chosen = choose_moves(made, samples=samples)
    schedule = walk(made.problem, made.policy, forced=chosen.forced).schedule
    violations = check(made.problem, schedule, complete=not schedule.left_over)
    slot = made.problem.sessions.slots[0]
    blocks = schedule.in_session(0)
    moves = _Telling(made.problem, slot, as_it_is).moves(blocks)
    return Tonight(
        slot,
        moves,
        tuple(_alternative(made, chosen.candidates, candidate) for candidate in chosen.candidates),
        moves[-1].support if moves else made.problem.support,
        sum(move.minutes for move in moves if move.kind == "wait"),
        schedule,
        made.prepared,
        as_it_is,
        made.policy,
        made.prepared.snags,
        tuple(violations),
        made.engine.name,
        chosen.samples,
        seed,
    )


def _nothing(made: Ready, as_it_is: AsItIs, slot: SessionSlot | None = None) -> Tonight:
    return Tonight(
        slot,
        (),
        (),
        made.problem.support,
        0,
        Schedule((), None, ()),
        made.prepared,
        as_it_is,
        made.policy,
        made.prepared.snags,
        (),
        made.engine.name,
        0,
        made.seed,
    )


def _alternative(
    made: Ready, candidates: tuple[Candidate, ...], candidate: Candidate
) -> Alternative:
    job = made.problem.jobs[candidate.job]
    chosen = candidate is candidates[0]
    if chosen:
        alone = len(candidates) == 1
        sentence = "Nothing else could begin now." if alone else "First on the list."
    elif candidate.as_good:
        sentence = "As good a beginning."
    else:
        sentence = (
            f"Taking it first puts the road back by {wording.days(candidate.regret_days)}, give "
            f"or take {wording.days(2 * candidate.standard_error_days)}."
        )
    return Alternative(
        job.id,
        job.title,
        chosen,
        candidate.regret_days,
        candidate.standard_error_days,
        candidate.samples,
        candidate.as_good,
        sentence,
    )


class _Telling:
    """Tells the moves of one session, with the time between them."""

    def __init__(self, problem: PlanProblem, slot: SessionSlot, as_it_is: AsItIs) -> None:
        self.problem = problem
        self.slot = slot
        self.set_up = 0 if as_it_is.already_set_up else problem.set_up_minutes
        self.jobs = {job.id: job for job in problem.jobs}
        self.left = {job.id: planned_minutes(problem, job) for job in problem.jobs}

    def moves(self, blocks: tuple[Block, ...]) -> tuple[Move, ...]:
        """Tell the whole session; nothing when there is nothing to do in it."""
        if not blocks:
            return ()
        begin = self.slot.start_minute + self.problem.set_up_minutes
        end = self.slot.end_minute - self.problem.clear_up_minutes
        support = self.problem.support
        out: list[Move] = []
        if self.set_up:
            out.append(Move("set up", begin - self.set_up, begin, "Set up.", support))
        now = begin
        for block in blocks:
            if block.by_helper:
                out.append(self._move(block))
                continue
            if block.start_minute > now:
                out.append(self._wait(now, block.start_minute, support))
            out.append(self._move(block))
            now, support = block.end_minute, block.support_after
        if now < end:
            out.append(self._wait(now, end, support, last=True))
        cleared = max(now, end) + self.problem.clear_up_minutes
        if self.problem.clear_up_minutes:
            out.append(Move("clear up", max(now, end), cleared, "Clear up.", support))
        return tuple(out)

    def _wait(self, start: int, end: int, support: str, *, last: bool = False) -> Move:
        if last:
            sentence = f"{wording.stretch(end - start)} left in which nothing more fits."
        else:
            sentence = f"Nothing can begin before {wording.clock(self.problem, end)}."
        return Move("wait", start, end, sentence, support)

    def _move(self, block: Block) -> Move:
        job = self.jobs[block.job_id or ""]
        if block.kind == "change":
            sentence = (
                f"Put the car from {wording.support(self.problem, block.support_before)} on "
                f"{wording.support(self.problem, block.support_after)} "
                f"({wording.stretch(block.minutes)}{', two people' if block.people > 1 else ''})."
            )
            return Move(
                "move the car",
                block.start_minute,
                block.end_minute,
                sentence,
                block.support_after,
                block.people,
                job.id,
                job.title,
            )
        left = 0 if block.finishes else max(0, self.left[job.id][block.people] - block.minutes)
        self.left[job.id] = dict.fromkeys(self.left[job.id], left)
        together = ", two people" if block.people > 1 else ""
        who = "The helper meanwhile, " if block.by_helper else ""
        takes = wording.stretch(block.minutes)
        sentence = f"{who}'{job.title}': {takes}{together}, and it is finished."
        if not block.finishes:
            sentence = (
                f"{who}'{job.title}': {takes} of it{together}; "
                f"{wording.stretch(left)} left after that."
            )
        return Move(
            "work",
            block.start_minute,
            block.end_minute,
            sentence,
            block.support_after,
            block.people,
            job.id,
            job.title,
            block.finishes,
            left,
            quickest(job)[block.people].kit,
            block.by_helper,
        )
