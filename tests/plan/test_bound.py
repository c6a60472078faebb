"""The bound: no plan beats it, and it is right where the answer can be had by trying all."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.plan.bound import Bound, bound, gap, jackson
from bareshell.plan.calendar import Calendar, enough_sessions
from bareshell.plan.engine import Engine
from bareshell.plan.moves_forced import forced_moves
from bareshell.plan.network import network
from bareshell.plan.policy import Policy
from bareshell.plan.problem import Arrival, Link, PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.supports import change_times
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, ORIGIN, Shape, bare, evenings, garage, hours, job


def shape_of(seed: int) -> Shape:
    """Every kind of garage: helpers, cold, bodies, many parts, much moving."""
    return Shape(
        jobs=12 + seed * 7 % 50,
        beside=("", "marked", "any")[seed % 3],
        marked=0.4,
        body=seed % 4 == 1,
        helper=0.25 if seed % 5 else 0.1,
        helper_every=1 + seed % 2,
        supports=(0.5, 0.9, 0.0)[seed % 3],
        cold=(0.08, 0.3)[seed % 2],
        parts=(0.16, 0.4)[seed % 2],
    )


@pytest.mark.parametrize("seed", range(24))
def test_no_plan_beats_the_bound_nor_any_part_of_it(seed: int) -> None:
    """Not the finish; not the dates of a single job; not the moving before it."""
    problem = prepare(garage(seed, shape_of(seed))).problem
    floor = bound(problem).finish_minute
    assert floor is not None
    calendar = Calendar(problem, enough_sessions(problem, sum(Calendar(problem, ()).lengths)))
    everything = set(range(len(problem.jobs)))
    heads, finishes = calendar.heads(everything)
    forced = forced_moves(problem, calendar.graph, everything)
    dice = random.Random(seed)
    for stickiness in (0, 20):
        weights = tuple(dice.randrange(5000) for _ in problem.jobs)
        policy = Policy(weights, stickiness, together=dice.randrange(80, 220))
        walked = walk(problem, policy)
        assert walked.finish_minute is not None
        assert floor <= walked.finish_minute
        blocks = walked.schedule.blocks
        tails = calendar.tails(everything, finishes, max(b.end_minute for b in blocks))
        assert tails is not None
        for index, one in enumerate(problem.jobs):
            own = [b for b in blocks if b.job_id == one.id and b.kind == "work"]
            begins, ends = own[0].start_minute, own[-1].end_minute
            assert heads[index] <= begins <= tails[1][index]
            assert (finishes[index] or 0) <= ends <= tails[0][index]
            moved = sum(b.minutes for b in blocks if b.kind == "change" and b.start_minute < ends)
            assert forced.before[index] <= moved


@pytest.mark.parametrize("seed", range(0, 60, 5))
def test_no_rule_of_many_beats_the_bound(seed: int) -> None:
    """The compiled walk, with sixty rules for each garage."""
    problem = prepare(garage(seed, shape_of(seed))).problem
    floor = bound(problem).finish_minute
    assert floor is not None
    engine, dice = Engine(problem), random.Random(seed)
    for _ in range(60):
        weights = tuple(dice.randrange(5000) for _ in problem.jobs)
        finish = engine.planned_finish(Policy(weights, dice.choice((0, 10, 20))))
        assert finish is None or finish >= floor


def test_what_does_not_lead_to_the_goal_sets_no_date_for_what_does() -> None:
    """Polish, and a long wait after it, hold nobody up."""
    polish = job("polish", 1.0, Link("road", 60 * DAY))
    problem = bare(job("road", 1.0), polish, job("show", 1.0, "polish"), goal=("road",))
    finish = walk(prepare(problem).problem, Policy((9, 9, 9))).finish_minute
    assert bound(problem).finish_minute == finish


def small_moves(seed: int) -> PlanProblem:
    """Six jobs in some order on three supports."""
    dice = random.Random(seed)
    jobs = []
    for number in range(6):
        before = [f"j{other}" for other in range(number) if dice.random() < 0.35]
        supports = frozenset(dice.sample(("lift", "stands", "wheels"), dice.choice((1, 1, 2))))
        jobs.append(job(f"j{number}", 0.5, *before, supports=supports))
    return bare(*jobs)


def least_moving(problem: PlanProblem) -> int:
    """The least moving over every order of the jobs and every choice of supports."""
    times = change_times(problem)
    names = [one.id for one in problem.jobs]
    best = 1 << 30
    for order in permutations(range(len(names))):
        place = {names[node]: at for at, node in enumerate(order)}
        if any(place[link.job_id] > place[one.id] for one in problem.jobs for link in one.after):
            continue
        costs = {problem.support: 0}
        for node in order:
            costs = {
                there: min(cost + times.minutes(here, there, 2) for here, cost in costs.items())
                for there in problem.jobs[node].supports or ()
            }
        best = min(best, *costs.values())
    return best


@pytest.mark.parametrize("seed", range(12))
def test_the_moving_that_is_forced_is_the_least_of_all_orders(seed: int) -> None:
    problem = small_moves(seed)
    found = forced_moves(problem, network(problem), set(range(6)))
    assert found.total == least_moving(problem)


def test_moves_lift_the_bound_where_hours_set_it() -> None:
    chain = [
        job(f"j{n}", 2.0, *([f"j{n - 1}"] if n else []), splittable=True,
            supports=frozenset({("stands", "wheels")[n % 2]}))
        for n in range(12)
    ]  # fmt: skip
    problem = prepare(bare(*chain)).problem
    still, moved = bound(problem, moves=False).finish_minute, bound(problem).finish_minute
    assert still is not None
    assert moved is not None
    assert moved > still


def test_a_helper_beside_the_owner_halves_what_they_can_share_and_no_more() -> None:
    def saturday(*jobs: PlanJob) -> int | None:
        slot = SessionSlot(DAY, 270, people=2, beside="marked")
        source = SessionSource.repeating([slot])
        return bound(prepare(bare(*jobs, sessions=source)).problem).finish_minute

    marked = [job(f"m{n}", 2.0, helper_alone=True) for n in range(2)]
    own = [job(f"o{n}", 2.0) for n in range(2)]
    assert saturday(*marked) == DAY + 15 + 120
    assert saturday(*own) == DAY + 15 + 240
    assert saturday(*marked, *own) == DAY + 15 + 240
    two = [job(f"t{n}", 2.0, ways=(hours(2.0, people=2),)) for n in range(2)]
    assert saturday(*two) == DAY + 15 + 240


def test_a_cure_that_only_the_summer_keeps_warm_lifts_the_bound() -> None:
    work = job("work", 60.0, splittable=True)
    quick = bare(work, job("seal", 1.0, "work", min_temperature_c=5.0), sessions=evenings())
    seal = job("seal", 1.0, "work", min_temperature_c=14.0, cure_minutes=3 * DAY)
    slow = bare(job("work", 400.0, splittable=True), seal, sessions=evenings())
    early, late = bound(quick).finish_minute, bound(slow).finish_minute
    assert early is not None
    assert late is not None
    # 400 hours from March on end in the next winter: the seal waits for May.
    assert ORIGIN + timedelta(minutes=late) > datetime(2032, 4, 20, tzinfo=UTC)


def test_the_gap_is_said_in_plain_words() -> None:
    problem = prepare(bare(job("a", 1.0), job("b", 1.5))).problem
    least = bound(problem)
    finish = walk(problem, Policy((1, 2))).finish_minute
    assert finish is not None
    found = gap(problem, least, finish)
    assert found is not None
    assert found.days < 1.0
    assert "no other order of jobs is a day better" in found.sentence
    later = gap(problem, least, finish + 9 * DAY)
    assert later is not None
    assert "by more than 9 days" in later.sentence
    assert gap(problem, Bound(None, ""), finish) is None


@given(
    st.lists(
        st.tuples(st.integers(0, 8), st.integers(1, 5), st.integers(0, 9)),
        min_size=1,
        max_size=5,
    )
)
def test_jackson_is_never_above_the_best_of_all_orders(work: list[tuple[int, int, int]]) -> None:
    best = min(_finish(order) for order in permutations(work))
    assert jackson(work) <= best


@given(st.lists(st.tuples(st.just(0), st.integers(1, 9), st.integers(0, 9)), min_size=1))
def test_with_everything_released_at_once_it_is_the_longest_tail_first(
    work: list[tuple[int, int, int]],
) -> None:
    """Jackson 1955: with equal release dates the longest-tail order itself is best."""
    assert jackson(work) == _finish(sorted(work, key=lambda item: -item[2]))


def _finish(order: object) -> int:
    now = latest = 0
    for head, length, tail in order:  # type: ignore[attr-defined]
        now = max(now, head) + length
        latest = max(latest, now + tail)
    return latest


def test_a_wait_and_a_late_part_lift_the_bound() -> None:
    quick = bound(bare(job("a", 1.0), job("b", 1.0, "a"))).finish_minute
    waits = bound(bare(job("a", 1.0), job("b", 1.0, Link("a", 30 * DAY)))).finish_minute
    late = bound(
        bare(
            job("a", 1.0, parts_to_start=("x",)),
            job("b", 1.0, "a"),
            arrivals=(Arrival("x", "x", 50 * DAY),),
        )
    ).finish_minute
    assert quick is not None
    assert waits is not None
    assert late is not None
    assert quick < waits < late


def test_two_person_work_waits_for_the_helper() -> None:
    two = job("a", 1.0, ways=(hours(1.0, people=2),))
    often = bound(bare(two, sessions=evenings(helper_every=1, temperatures=False)))
    rarely = bound(bare(two, sessions=evenings(helper_every=8, temperatures=False)))
    assert often.finish_minute is not None
    assert rarely.finish_minute is not None
    assert often.finish_minute <= rarely.finish_minute


def test_it_is_said_in_plain_words() -> None:
    said = bound(bare(job("a", 1.0))).sentence
    assert said.startswith("With hours and arrivals exactly as estimated, no order of jobs")
