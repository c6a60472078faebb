"""Against a general solver: the rules written as constraints, and held against walk and bound.

Twice over. First a model of our own kept apart from everything (`Plainest`), for garages without
the clock's finer points; then the one that the product packs evenings with, which knows every rule.
OR-Tools CP-SAT (an independent general-purpose library) proves the soonest finish; no plan of ours
may lie below it and no bound above it, our plans must be among what it takes for possible, and its
plans must pass our checker.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest
from ortools.sat.python import cp_model

from bareshell.plan.bound import bound
from bareshell.plan.checker import check
from bareshell.plan.exact import Exact, pack, pack_tonight, soonest
from bareshell.plan.exact_model import Model
from bareshell.plan.hours import planned_minutes
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Arrival, Change, Link, PlanJob, PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.schedule import Block, Schedule
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.steps import Walked
from bareshell.plan.tonight import tonight
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, Shape, bare, garage, hours, job

SESSIONS = 24
TAKEN = 15


def small_garage(seed: int) -> PlanProblem:
    """Seven jobs with waits, parts and two-person work."""
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
        jobs.append(
            job(f"j{number}", likely, *before, ways=(hours(likely, people),),
                parts_to_start=parts)
        )  # fmt: skip
    slots = [
        SessionSlot(DAY * day, dice.choice((150, 165, 180)), people=2 if day % 3 == 2 else 1)
        for day in range(1, SESSIONS + 1)
    ]
    return bare(
        *jobs,
        arrivals=tuple(arrivals),
        sessions=SessionSource.repeating(slots),
    )


class Plainest:
    """The rules as constraints: each job in one session, one pair of hands, nothing too soon."""

    def __init__(self, problem: PlanProblem) -> None:
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

    def proven(self) -> tuple[int, dict[str, int]]:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = 20.0
        assert solver.solve(self.model) == cp_model.OPTIMAL
        return round(solver.objective_value), {
            key: solver.value(start) for key, start in self.start.items()
        }


@pytest.mark.parametrize("seed", range(4))
def test_two_writings_of_the_rules_prove_the_same_optimum(seed: int) -> None:
    problem = prepare(small_garage(seed)).problem
    best, starts = Plainest(problem).proven()
    found = soonest(problem, sessions=SESSIONS)
    assert (found.status, found.finish_minute) == ("proven", best)
    assert found.violations == ()
    assert check(problem, _schedule(problem, starts), complete=True) == []


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


# Every rule ---------------------------------------------------------------------------------------

WINDOW = 18


def _ways(dice: random.Random, kind: str, likely: float) -> dict[str, Any]:
    roll = dice.random()
    if roll < 0.45 and roll >= 0.2 and kind in ("beside", "plain"):
        return {"ways": (hours(likely), hours(likely * 0.6, 2))}
    people = 2 if roll < 0.2 else 1
    if dice.random() < 0.3:
        least = dice.choice((20, 45))
        return {
            "ways": (hours(likely * 2.5, people),),
            "splittable": True,
            "least_piece_minutes": least,
        }
    return {"ways": (hours(likely, people),)}


def _asks(dice: random.Random, kind: str) -> dict[str, Any]:
    """What a job of this kind of garage asks of the car, the helper and the weather."""
    more: dict[str, Any] = {}
    if kind == "moves" and dice.random() < 0.7:
        supports = dice.sample(("stands", "wheels", "lift"), dice.choice((1, 1, 2)))
        more["supports"] = frozenset(supports)
    if kind == "beside":
        more["helper_alone"] = dice.random() < 0.5
        more["dangerous_alone"] = dice.random() < 0.2
        if dice.random() < 0.4:
            more["supports"] = frozenset({dice.choice(("stands", "wheels"))})
    if kind == "cold" and dice.random() < 0.5:
        more["min_temperature_c"] = dice.choice((8.0, 12.0))
        more["cure_minutes"] = dice.choice((0, 12 * 60, 40 * 60))
        more["cure_stretches"] = dice.random() < 0.5
    return more


def whole_garage(seed: int, kind: str) -> PlanProblem:
    """Six jobs under every rule that a kind of garage has."""
    dice = random.Random(f"{kind}{seed}")
    jobs: list[PlanJob] = []
    arrivals: list[Arrival] = []
    for number in range(6):
        before = [
            Link(
                f"j{other}",
                dice.choice((0, 0, 20 * 60, 50 * 60)),
                kind == "cold" and dice.random() < 0.6,
            )
            for other in range(number)
            if dice.random() < 0.3
        ]
        likely = dice.choice((0.5, 0.75, 1.0, 1.5, 2.0))
        more = _ways(dice, kind, likely) | _asks(dice, kind)
        if dice.random() < 0.3:
            arrivals.append(Arrival(f"a{number}", f"a{number}", dice.randint(1, 6) * DAY))
            want = "parts_to_start" if dice.random() < 0.6 else "parts_to_finish"
            more[want] = (f"a{number}",)
        jobs.append(job(f"j{number}", likely, *before, **more))
    return bare(
        *jobs,
        arrivals=tuple(arrivals),
        sessions=SessionSource.repeating(_days(dice, seed, kind)),
        changes=(
            Change("stands", "wheels", 30),
            Change("wheels", "stands", 25),
            Change("wheels", "lift", 15),
            Change("lift", "wheels", 15),
            Change("stands", "lift", 20, people=2),
        ),
    )


def _days(dice: random.Random, seed: int, kind: str) -> list[SessionSlot]:
    slots = []
    for day in range(1, WINDOW + 1):
        warmth = 10 + 4 * ((day * 7) % 5 - 2) if kind == "cold" else None
        slot = SessionSlot(
            DAY * day,
            dice.choice((150, 165, 180)),
            2 if day % 3 == 2 else 1,
            warmth,
            None if warmth is None else warmth - dice.choice((0, 2, 4)),
            beside=("any", "marked")[seed % 2] if kind == "beside" else "",
        )
        slots.append(slot)
    return slots


@cache
def solved(seed: int, kind: str) -> tuple[PlanProblem, Walked, Exact]:
    """A garage, the best walk of many, and what the solver finds."""
    problem = prepare(whole_garage(seed, kind)).problem
    dice = random.Random(seed)
    walks = [walk(problem, Policy(tails(problem)))]
    for _ in range(30):
        weights = tuple(dice.randint(0, 999) for _ in problem.jobs)
        policy = Policy(weights, dice.choice((0, 5, 20)), together=dice.choice((100, 150, 200)))
        walks.append(walk(problem, policy))
    best = min(walks, key=lambda walked: walked.finish_minute or 1 << 40)
    return problem, best, soonest(problem, sessions=WINDOW, effort=0.7)


KINDS = ("plain", "moves", "beside", "cold")
# Those whose work ends within the sessions that the solver is given.
CASES = [(seed, kind) for kind in KINDS for seed in range(4)]


@pytest.mark.parametrize(("seed", "kind"), CASES)
def test_the_optimum_lies_between_bound_and_plan_and_both_keep_each_others_rules(
    seed: int, kind: str
) -> None:
    problem, best, found = solved(seed, kind)
    floor = bound(problem).finish_minute
    assert floor is not None
    assert best.finish_minute is not None
    assert found.finish_minute is not None
    assert found.bound_minute is not None
    assert found.violations == ()
    assert check(problem, best.schedule, complete=True) == []
    if found.status == "proven":
        assert floor <= found.finish_minute <= best.finish_minute
    assert floor <= found.finish_minute
    assert found.bound_minute <= best.finish_minute
    assert accepts(problem, best.schedule)


def test_the_plan_is_mostly_the_optimum_itself() -> None:
    """A walk never waits for a heavier job that is nearly ready, so it cannot always be."""
    results = [solved(seed, kind) for seed, kind in CASES]
    proven = [(best, found) for _, best, found in results if found.status == "proven"]
    reached = [best.finish_minute == found.finish_minute for best, found in proven]
    assert len(proven) >= len(CASES) - 4
    assert sum(reached) >= 0.75 * len(reached)


def accepts(problem: PlanProblem, schedule: Schedule) -> bool:
    """Whether the model takes one of our plans as it is."""
    sessions = max(block.session for block in schedule.blocks) + 1
    model = Model(cp_model, problem, problem.sessions.first(sessions),
                  tuple(range(len(problem.jobs))))  # fmt: skip
    at = {one.id: node for node, one in enumerate(problem.jobs)}
    wanted = [block for block in schedule.blocks if block.kind == "work"]
    for node, pieces in model.pieces.items():
        for piece in pieces:
            mine = next(
                (
                    block
                    for block in wanted
                    if at[block.job_id or ""] == node
                    and (block.session, block.people, block.by_helper)
                    == (piece.session, piece.people, piece.by_helper)
                ),
                None,
            )
            model.m.add(piece.there == (mine is not None))
            if mine is not None:
                wanted.remove(mine)
                model.m.add(piece.start == mine.start_minute)
                model.m.add(piece.end == mine.end_minute)
    return wanted == [] and model.solved(1, 1.0) is not None


# Packing an evening -------------------------------------------------------------------------------


def evening(seed: int) -> tuple[PlanProblem, tuple[int, ...]]:
    shape = Shape(jobs=40, helper=0.2, helper_every=1, beside=("", "any")[seed % 2], marked=0.3,
                  body=seed % 4 == 1)  # fmt: skip
    made = ready(garage(seed, shape), seed=1, engine="plain")
    return made.problem, made.policy.priority


@pytest.mark.parametrize("seed", range(6))
def test_an_evening_is_packed_at_least_as_full_as_the_walk_fills_it(seed: int) -> None:
    problem, weights = evening(seed)
    found = pack(problem, weights)
    assert found.status == "proven"
    assert found.violations == ()
    assert {block.session for block in found.schedule.blocks} == {0}
    walked = walk(problem, Policy(weights)).schedule.in_session(0)
    assert _worth(problem, weights, found.schedule.blocks) >= _worth(problem, weights, walked)


def _worth(problem: PlanProblem, weights: tuple[int, ...], blocks: tuple[Block, ...]) -> float:
    """Minutes by urgency, as `pack` counts them."""
    order = sorted(range(len(weights)), key=lambda node: weights[node])
    worth = {problem.jobs[node].id: 100 + 50 * at // (len(order) - 1)
             for at, node in enumerate(order)}  # fmt: skip
    total = 0.0
    for block in blocks:
        if block.kind == "change":
            total -= 10 * block.minutes
            continue
        shares = planned_minutes(problem, problem.job(block.job_id or ""))
        by_minute = min(shares.values()) * worth[block.job_id or ""] // shares[block.people]
        total += block.minutes * by_minute + block.finishes * 5 * worth[block.job_id or ""]
    return total


def test_packing_repeats() -> None:
    problem, weights = evening(3)
    assert pack(problem, weights) == pack(problem, weights)


def test_it_finds_what_a_walk_in_order_of_weight_misses() -> None:
    """The heaviest job leaves half an hour over; the next two fill the evening between them."""
    jobs = (job("heavy", 1.5), job("a", 1.25), job("b", 0.75))
    problem = prepare(bare(*jobs)).problem
    weights = (100, 95, 90)
    assert [b.job_id for b in walk(problem, Policy(weights)).schedule.in_session(0)] == ["heavy"]
    found = pack(problem, weights)
    assert set(found.job_ids) == {"a", "b"}
    assert found.sentence.startswith("Fills 2 h of 2 h and finishes 2 jobs")


def test_several_sessions_are_packed_together() -> None:
    problem, weights = evening(3)
    found = pack(problem, weights, sessions=2, effort=1.0)
    assert found.violations == ()
    assert {block.session for block in found.schedule.blocks} == {0, 1}


def test_tonight_is_packed_beside_the_list_and_both_are_walked_through_the_same_fates() -> None:
    problem = bare(job("heavy", 1.5), job("a", 1.25), job("b", 0.75), job("end", 9.0, "heavy"))
    evening = tonight(problem, seed=1)
    found = pack_tonight(evening, samples=100)
    assert found.exact.violations == ()
    assert found.samples == 100
    assert "(the list works for" in found.sentence
    assert found.sentence.endswith((" days.", "no odds to the road."))
    nothing = pack_tonight(tonight(bare(), seed=1))
    assert nothing.sentence == "There is nothing to pack."


def test_where_nothing_fits_it_is_said() -> None:
    problem = prepare(bare(job("a", 1.0, earliest_minute=40 * DAY))).problem
    assert pack(problem, (1,)).status == "nothing fits"


def test_without_the_solver_it_is_said_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ortools.sat.python", None)
    problem = prepare(bare(job("a"))).problem
    for ask in (lambda: pack(problem, (1,)), lambda: soonest(problem, sessions=5)):
        answered: Callable[[], Exact] = ask
        assert answered().status == "not to be had"
        assert "OR-Tools, which is not installed" in answered().sentence


def test_the_car_is_moved_before_what_changes_how_it_can_be_moved() -> None:
    out = frozenset({"engine out"})
    problem = bare(
        job("engine", 0.5, body_ends=out, supports=frozenset({"stands"})),
        job("sill", 0.5, supports=frozenset({"spit"})),
        changes=(Change("stands", "spit", 15, body_needs=out), Change("spit", "stands", 15)),
        body=out,
    )
    plannable = prepare(problem).problem
    found = pack(plannable, (90, 10))
    assert found.violations == ()
    assert set(found.job_ids) == {"engine", "sill"}
