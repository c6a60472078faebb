"""The walk with counted resources, on small projects whose optimum is known by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from bareshell.plan.searching import changed_weights, climb
from tests.plan.projects import (
    Project,
    Walker,
    broken_rules,
    compiled,
    read_sm,
    there_and_back,
    walk,
)

# Two machines in a row for three parts (Johnson 1954, from memory): the optimum of 3-2, 1-4 and
# 2-2 hours is 1-4, 2-2, 3-2, over after 9.
FLOW = Project(
    durations=(3, 2, 1, 4, 2, 2),
    after=((1,), (), (3,), (), (5,), ()),
    needs=((1, 0), (0, 1), (1, 0), (0, 1), (1, 0), (0, 1)),
    there=(1, 1),
)
# Six activities of two people each with four there, and one that takes all: 3 pairs of 2, then 1.
CREW = Project(
    durations=(2, 2, 2, 2, 2, 2, 1),
    after=((6,),) * 6 + ((),),
    needs=((2,),) * 6 + ((4,),),
    there=(4,),
)
# One long activity of one unit beside short ones of two: kept waiting, they would make it 9.
PACKED = Project(
    durations=(6, 3, 3),
    after=((), (), ()),
    needs=((1,), (2,), (2,)),
    there=(3,),
)
KNOWN = ((FLOW, 9), (CREW, 7), (PACKED, 6))

SMALL_FILE = """\
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           4
   4        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       2    0
  3      1     4       2    1
  4      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    3    1
************************************************************************
"""


def best_of(project: Project, moves: int = 150) -> tuple[int, tuple[int, ...]]:
    """The search that tunes the garage's rule, on a project."""
    run = compiled()
    forwards, backwards = Walker(project, run), Walker(project.turned_round(), run)
    dice = np.random.default_rng(1)
    often = np.full(len(project.durations), 1 / len(project.durations))
    found: list[tuple[int, tuple[int, ...]]] = []

    def cost(weights: np.ndarray) -> float:
        found.append(there_and_back(forwards, backwards, weights))
        return found[-1][0]

    start = np.array(project.tails(), dtype=np.int64) * 60
    for _ in climb(start, cost, lambda kept: changed_weights(kept, dice, often), moves):
        pass
    return min(found)


@pytest.mark.parametrize(("project", "optimum"), KNOWN)
def test_the_search_reaches_what_is_known_to_be_best(project: Project, optimum: int) -> None:
    over, starts = best_of(project)
    assert over == optimum
    assert broken_rules(project, starts) == []
    assert over == max(s + d for s, d in zip(starts, project.durations, strict=True))


@pytest.mark.parametrize(("project", "optimum"), KNOWN)
def test_nothing_that_keeps_the_rules_is_better_than_what_is_known(
    project: Project, optimum: int
) -> None:
    """By trying every start of every activity of the small ones."""
    if len(project.durations) > 6:
        assert optimum == 7  # six at two units each, two at a time, and the last behind them
        return
    spans = [range(optimum - length) for length in project.durations]
    assert all(broken_rules(project, starts) for starts in product(*spans))


@pytest.mark.parametrize("seed", range(20))
def test_every_walk_keeps_the_rules_and_the_compiled_one_is_the_same(seed: int) -> None:
    dice = np.random.default_rng(seed)
    count = 12
    project = Project(
        tuple(int(d) for d in dice.integers(0, 9, count)),
        tuple(
            tuple(then for then in range(first + 1, count) if dice.random() < 0.2)
            for first in range(count)
        ),
        tuple(tuple(int(n) for n in row) for row in dice.integers(0, 4, (count, 3))),
        (4, 3, 5),
    )
    plain, fast = Walker(project, walk), Walker(project, compiled())
    weights = dice.integers(0, 99, count)
    over = plain(weights)
    assert broken_rules(project, plain.starts.tolist()) == []
    assert over == fast(weights) >= max(project.tails())
    assert plain.starts.tolist() == fast.starts.tolist()
    back = Walker(project.turned_round(), compiled())
    best, starts = there_and_back(fast, back, weights)
    assert best <= over
    assert broken_rules(project, starts) == []


def test_each_rule_broken_once_is_caught() -> None:
    good = (3, 7, 0, 1, 1, 5)
    assert broken_rules(FLOW, good) == []
    assert "begins before 2 is over" in broken_rules(FLOW, (3, 7, 0, 0, 1, 5))[0]
    assert "units of resource 0" in broken_rules(FLOW, (0, 7, 0, 1, 3, 5))[0]
    assert "before the beginning" in broken_rules(FLOW, (3, 7, -1, 1, 1, 5))[0]


def test_time_runs_backwards_twice_to_the_same_project() -> None:
    turned = FLOW.turned_round().turned_round()
    assert turned == replace(FLOW, after=turned.after)
    assert [sorted(later) for later in turned.after] == [sorted(later) for later in FLOW.after]


def test_a_file_of_the_library_is_read() -> None:
    project = read_sm(SMALL_FILE)
    assert project.durations == (0, 3, 4, 0)
    assert project.after == ((1, 2), (3,), (3,), ())
    assert project.needs == ((0, 0), (2, 0), (2, 1), (0, 0))
    assert project.there == (3, 1)
    assert best_of(project)[0] == 7
