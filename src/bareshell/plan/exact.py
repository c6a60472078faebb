"""The next sessions packed exactly, by a solver, when asked to.

The walk goes from moment to moment and never looks ahead inside an evening; a solver looks at the
evening whole. Here the rules are written once more, as constraints for OR-Tools CP-SAT (an extra,
imported only when this is called): who is there, in which session and in which order, how the car
stands, parts, warmth, cures. What it finds goes through the checker like any other plan. It repeats
exactly: one worker, a seed, and a limit in the solver's own count of work, never in seconds.

Over all sessions until the road the same constraints give the soonest finish of a small build,
which the tests hold the walk and the bound against.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from bareshell.plan.checker import Violation, check
from bareshell.plan.choosing import NO_ODDS_DAYS
from bareshell.plan.engine import Engine
from bareshell.plan.exact_model import Model, Solved
from bareshell.plan.network import network
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Schedule
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.tonight import Tonight
from bareshell.plan.wording import days
from bareshell.plan.wording import stretch as said

if TYPE_CHECKING:
    from types import ModuleType

    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Exact", "PackedTonight", "pack", "pack_tonight", "soonest"]

Status = Literal["proven", "best found", "nothing fits", "not to be had"]
"""How far an answer goes: nothing is better; the best that was found by the limit; there is nothing
that could be done; the solver is not installed."""

COMPARED_ON = 400
"""On how many fates the packed evening is held against the list."""

NOT_THERE = (
    "Exact packing needs the solver OR-Tools, which is not installed here. The list above does "
    "without it. To have it, install bareshell with its extra 'exact'."
)


@dataclass(frozen=True, slots=True)
class Exact:
    """What the solver found.

    Parameters
    ----------
    status : str
        One of `Status`.
    schedule : Schedule
        Its moves; empty when there are none.
    violations : tuple of Violation
        Rules that the checker found broken; anything here is a fault, and it is not to be shown.
    worked_minutes : int
        Work in it, of both people. [min]
    finish_minute : int, optional
        The soonest finish, when that was asked for. [minutes from the origin]
    bound_minute : int, optional
        Before when the solver says that it cannot be finished. [minutes from the origin]
    sentence : str
        The same in plain words.
    """

    status: Status
    schedule: Schedule = field(default_factory=Schedule)
    violations: tuple[Violation, ...] = ()
    worked_minutes: int = 0
    finish_minute: int | None = None
    bound_minute: int | None = None
    sentence: str = NOT_THERE

    @property
    def job_ids(self) -> tuple[str, ...]:
        """The jobs in it, in the order in which they are begun."""
        worked = (block.job_id for block in self.schedule.blocks if block.kind == "work")
        return tuple(dict.fromkeys(key for key in worked if key is not None))


def pack(
    problem: PlanProblem,
    weights: tuple[int, ...],
    *,
    sessions: int = 1,
    seed: int = 1,
    effort: float = 4.0,
) -> Exact:
    """Pack the next sessions as full as they can be, the weightier jobs first.

    A minute of the weightiest job counts half as much again as one of the least, and an idle
    minute nothing: so the evening is filled, and among ways of filling it the more urgent is
    taken.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem, tonight its first session.
    weights : tuple of int
        One for each job (`Policy.priority`).
    sessions : int
        How many sessions; one is tonight.
    seed : int
        For the solver.
    effort : float
        How long it may go on, in the solver's own count of work (about seconds). [-]
    """
    solver = _solver()
    if solver is None:
        return Exact("not to be had")
    model = Model(solver, problem, problem.sessions.first(sessions), _likely(problem, weights))
    order = sorted(range(len(weights)), key=lambda node: weights[node])
    worth = {node: 100 + 50 * at // max(1, len(order) - 1) for at, node in enumerate(order)}
    model.fill(worth)
    return _answer(problem, problem.sessions.first(sessions), model.solved(seed, effort))


@dataclass(frozen=True, slots=True)
class PackedTonight:
    """Tonight packed exactly, beside the list that the policy makes.

    Parameters
    ----------
    exact : Exact
        What the solver found.
    nearer_days, standard_error_days : float
        How much sooner the road is reached on average when its jobs are taken up in its order
        instead of the list's, and how far that may be off. [days]
    samples : int
        On how many fates they were compared; 0 when there is nothing to compare.
    sentence : str
        The same in plain words.
    """

    exact: Exact
    nearer_days: float
    standard_error_days: float
    samples: int
    sentence: str


def pack_tonight(
    evening: Tonight, *, samples: int = COMPARED_ON, effort: float = 4.0
) -> PackedTonight:
    """Pack tonight exactly, and say what that does to the road.

    The fullest evening is not always the one that brings the road nearest: so both are walked
    through the same fates.

    Parameters
    ----------
    evening : Tonight
        Tonight's list.
    samples : int
        On how many fates they are compared.
    effort : float
        As for `pack`.
    """
    problem = evening.problem
    if not problem.jobs:
        return PackedTonight(Exact("nothing fits"), 0.0, 0.0, 0, "There is nothing to pack.")
    found = pack(problem, evening.policy.priority, seed=evening.seed, effort=effort)
    if not found.job_ids:
        return PackedTonight(found, 0.0, 0.0, 0, found.sentence)
    engine = Engine(problem, engine=evening.engine)
    at = {job.id: index for index, job in enumerate(problem.jobs)}

    def finish(keys: tuple[str, ...]) -> NDArray[np.int64]:
        forced = [at[key] for key in keys]
        return engine.run(evening.policy, seed=evening.seed, samples=samples, forced=forced).finish

    listed = finish(evening.job_ids)
    nearer, error = paired_days(listed, finish(found.job_ids))
    listed_minutes = sum(m.minutes for m in evening.moves if m.kind == "work" and not m.by_helper)
    words = f"{found.sentence[:-1]} (the list works for {said(listed_minutes)})."
    return PackedTonight(found, nearer, error, len(listed), f"{words} {_effect(nearer, error)}")


def _effect(nearer: float, error: float) -> str:
    if abs(nearer) <= max(2 * error, NO_ODDS_DAYS):
        return "Done so, it makes no odds to the road."
    way = "nearer" if nearer > 0 else "further off"
    return f"Done so, the road comes {days(abs(nearer))} {way}, give or take {days(2 * error)}."


def soonest(problem: PlanProblem, *, sessions: int, seed: int = 1, effort: float = 20.0) -> Exact:
    """Find the soonest finish of a small build, over so many sessions.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem of a few jobs.
    sessions : int
        Within which it can be done.
    seed, effort
        As for `pack`.
    """
    solver = _solver()
    if solver is None:
        return Exact("not to be had")
    model = Model(
        solver, problem, problem.sessions.first(sessions), tuple(range(len(problem.jobs)))
    )
    model.reach_the_goal()
    return _answer(problem, problem.sessions.first(sessions), model.solved(seed, effort))


def _solver() -> ModuleType | None:
    """Load the solver; None where it is not installed."""
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        return None
    loaded: ModuleType = cp_model
    return loaded


MOST_CANDIDATES = 60


def _likely(problem: PlanProblem, weights: tuple[int, ...]) -> tuple[int, ...]:
    """Pick the jobs that might be done soon: what little comes before, the weightiest first."""
    graph = network(problem)
    into = graph.leading_in()
    depth: dict[int, int] = {}
    for node in graph.in_order():
        before = max((depth[edge.before] for edge in into[node]), default=0)
        depth[node] = before + (node < len(problem.jobs))
    near = [node for node in range(len(problem.jobs)) if depth.get(node, 9) <= 4]
    near.sort(key=lambda node: (depth[node] > 1, -weights[node]))
    kept = set(near[:MOST_CANDIDATES])
    # A job without all that comes before it could not be done anyway.
    for node in graph.in_order():
        if node in kept and any(
            e.before < len(problem.jobs) and e.before not in kept for e in into[node]
        ):
            kept.discard(node)
    return tuple(sorted(kept))


def _answer(problem: PlanProblem, slots: tuple[SessionSlot, ...], solved: Solved | None) -> Exact:
    """Have the moves looked at, and say what they come to."""
    if solved is None or not solved.blocks:
        return Exact("nothing fits", sentence="Nothing can be done within these sessions.")
    schedule = Schedule(solved.blocks, solved.over)
    worked = sum(b.minutes * b.people for b in solved.blocks if b.kind == "work")
    return Exact(
        "proven" if solved.proven else "best found",
        schedule,
        tuple(check(problem, schedule)),
        worked,
        solved.over,
        solved.bound,
        _in_words(problem, slots, schedule, proven=solved.proven),
    )


def _in_words(
    problem: PlanProblem, slots: tuple[SessionSlot, ...], schedule: Schedule, *, proven: bool
) -> str:
    taken = problem.set_up_minutes + problem.clear_up_minutes
    room = sum(max(0, slot.minutes - taken) for slot in slots)
    owner = sum(block.minutes for block in schedule.blocks if not block.by_helper)
    finished = sum(block.finishes for block in schedule.blocks)
    best = "no order fills it better" if proven else "the best that was found"
    return (
        f"Fills {said(owner)} of {said(room)} and finishes {finished} "
        f"{'job' if finished == 1 else 'jobs'}: {best}."
    )
