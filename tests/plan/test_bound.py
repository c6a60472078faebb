"""The bound: no plan beats it, and it is right where the answer can be had by trying all."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.plan.bound import bound, jackson
from bareshell.plan.policy import Policy
from bareshell.plan.problem import Arrival, Link
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job


@pytest.mark.parametrize("seed", range(30))
def test_no_plan_beats_the_bound(seed: int) -> None:
    problem = prepare(garage(seed, Shape(jobs=40))).problem
    floor = bound(problem).finish_minute
    assert floor is not None
    for stickiness in (0, 20):
        policy = Policy(tuple(range(len(problem.jobs), 0, -1)), stickiness)
        finish = walk(problem, policy).finish_minute
        assert finish is None or finish >= floor


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
