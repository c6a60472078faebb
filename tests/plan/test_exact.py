"""Against a general solver: no plan of ours beats a proven optimum, and the bound lies under it.

The rules are written here a third time, as a constraint model for OR-Tools CP-SAT (an independent
general-purpose library), for small garages without the clock's finer points. The solver proves
the soonest finish; our bound must not be above it and our plans must not be below it.
"""

from __future__ import annotations

import random
from functools import cache
from typing import Any

import pytest
from ortools.sat.python import cp_model

from bareshell.plan.bound import bound
from bareshell.plan.checker import check
from bareshell.plan.hours import planned_minutes
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Arrival, Change, Link, PlanProblem
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, bare, hours, job

SESSIONS = 24
TAKEN = 15


def small_garage(seed: int, *, moves: bool) -> PlanProblem:
    """Seven jobs with waits, parts, two-person work and, if asked for, two supports."""
    dice = random.Random(seed)
    jobs = []
    arrivals = []
    for number in range(7):
        before = [
            Link(f"j{other}", dice.choice((0, 0, 20 * 60, 50 * 60)))
            for other in range(number)
            if dice.random() < 0.3
        ]
        likely = dice.choice((0.5, 0.75, 1.0, 1.5, 2.0))
        people = 2 if dice.random() < 0.2 else 1
        parts: tuple[str, ...] = ()
        if dice.random() < 0.25:
            parts = (f"a{number}",)
            arrivals.append(Arrival(parts[0], parts[0], dice.randint(1, 8) * DAY))
        supports = None
        if moves and dice.random() < 0.6:
            supports = frozenset({dice.choice(("stands", "wheels"))})
        jobs.append(
            job(f"j{number}", likely, *before, ways=(hours(likely, people),),
                parts_to_start=parts, supports=supports)
        )  # fmt: skip
    slots = [
        SessionSlot(DAY * day, dice.choice((150, 165, 180)), people=2 if day % 3 == 2 else 1)
        for day in range(1, SESSIONS + 1)
    ]
    return bare(
        *jobs,
        arrivals=tuple(arrivals),
        sessions=SessionSource.repeating(slots),
        changes=(Change("stands", "wheels", 30), Change("wheels", "stands", 30)),
    )


class Model:
    """The rules as constraints: each job in one session, one pair of hands, nothing too soon."""

    def __init__(self, problem: PlanProblem, *, moves: bool) -> None:
        self.problem = problem
        self.model = cp_model.CpModel()
        self.slots = problem.sessions.first(SESSIONS)
        self.last = self.slots[-1].end_minute
        self.start: dict[str, Any] = {}
        self.length: dict[str, int] = {}
        intervals = []
        for one in problem.jobs:
            (self.length[one.id],) = planned_minutes(problem, one).values()
            intervals.append(self._one(one.id, one.ways[0].people))
        self.model.add_no_overlap(intervals)
        arrives = {arrival.id: arrival.expected_minute or 0 for arrival in problem.arrivals}
        for one in problem.jobs:
            for link in one.after:
                ready = self.start[link.job_id] + self.length[link.job_id] + link.wait_minutes
                self.model.add(self.start[one.id] >= ready)
            for part in one.parts_to_start:
                self.model.add(self.start[one.id] >= arrives[part])
        if moves:
            self._moves()
        self.finish = self.model.new_int_var(0, self.last, "finish")
        for key, start in self.start.items():
            self.model.add(self.finish >= start + self.length[key])
        self.model.minimize(self.finish)

    def _one(self, key: str, people: int) -> Any:
        """Put one job wholly into one session that has the people for it."""
        ranges = [
            [slot.start_minute + TAKEN, slot.end_minute - TAKEN - self.length[key]]
            for slot in self.slots
            if slot.people >= people and slot.minutes - 2 * TAKEN >= self.length[key]
        ]
        domain = cp_model.Domain.from_intervals(ranges)
        self.start[key] = self.model.new_int_var_from_domain(domain, key)
        return self.model.new_fixed_size_interval_var(self.start[key], self.length[key], key)

    def _moves(self) -> None:
        """Between two jobs on different supports lies the change, within one session."""
        fixed = {j.id: next(iter(j.supports)) for j in self.problem.jobs if j.supports}
        for a, on_a in fixed.items():
            for b, on_b in fixed.items():
                if a < b and on_a != on_b:
                    first = self.model.new_bool_var(f"{a} before {b}")
                    for one, other, lit in ((a, b, first), (b, a, ~first)):
                        ready = self.start[one] + self.length[one] + 30
                        self.model.add(self.start[other] >= ready).only_enforce_if(lit)
        for key, support in fixed.items():
            if support != self.problem.support:
                at_once = self.slots[0].start_minute + TAKEN + 30
                self.model.add(self.start[key] >= at_once)

    def proven(self) -> tuple[int, dict[str, int]]:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = 20.0
        assert solver.solve(self.model) == cp_model.OPTIMAL
        return round(solver.objective_value), {
            key: solver.value(start) for key, start in self.start.items()
        }


@cache
def without_moves(seed: int) -> tuple[PlanProblem, int, int, dict[str, int]]:
    """A garage, the best that the walk reaches, and the proven optimum with its starts."""
    problem = prepare(small_garage(seed, moves=False)).problem
    best, starts = Model(problem, moves=False).proven()
    return problem, best_of_many_rules(problem, seed), best, starts


def best_of_many_rules(problem: PlanProblem, seed: int) -> int:
    """The soonest finish that the walk reaches with any of many weights."""
    dice = random.Random(seed)
    weights = [tails(problem)]
    weights += [tuple(dice.randint(0, 999) for _ in problem.jobs) for _ in range(30)]
    finishes = [
        walk(problem, Policy(given, dice.choice((0, 20)))).finish_minute for given in weights
    ]
    return min(finish for finish in finishes if finish is not None)


@pytest.mark.parametrize("seed", range(12))
def test_without_moves_the_optimum_lies_between_bound_and_plan(seed: int) -> None:
    problem, ours, best, starts = without_moves(seed)
    floor = bound(problem).finish_minute
    assert floor is not None
    assert floor <= best <= ours
    assert check(problem, _schedule(problem, starts), complete=True) == []


@pytest.mark.parametrize("seed", range(12))
def test_with_moves_no_plan_beats_a_proven_floor(seed: int) -> None:
    """The model leaves out that a move needs a session's time, so its optimum is a floor."""
    problem = prepare(small_garage(seed, moves=True)).problem
    best, _ = Model(problem, moves=True).proven()
    floor = bound(problem).finish_minute
    assert floor is not None
    assert floor <= best <= best_of_many_rules(problem, seed)


def test_the_plan_is_often_the_optimum_itself() -> None:
    """A walk never waits for a heavier job that is nearly ready, so it cannot always be."""
    reached = [ours == best for _, ours, best, _ in map(without_moves, range(12))]
    assert sum(reached) >= 9


def _schedule(problem: PlanProblem, starts: dict[str, int]) -> Schedule:
    """Write the solver's plan down as one of ours, for our checker to read."""
    slots = problem.sessions.first(SESSIONS)
    blocks = []
    for key, start in sorted(starts.items(), key=lambda item: item[1]):
        one = problem.job(key)
        (minutes,) = planned_minutes(problem, one).values()
        session = next(i for i, s in enumerate(slots) if s.start_minute <= start < s.end_minute)
        blocks.append(
            Block("work", session, start, start + minutes, problem.support, problem.support,
                  one.ways[0].people, key, finishes=True)
        )  # fmt: skip
    return Schedule(tuple(blocks))
