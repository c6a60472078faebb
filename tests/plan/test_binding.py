"""What binds, on garages small enough to know the answer: how many days each cause alone lost.

In each there is other work enough for every evening until then, so that whoever looks only at what
was done first that evening would lay the delay to the owner's own hours.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.plan.engine import Engine, EngineName
from bareshell.plan.forecast import binds
from bareshell.plan.policy import Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Arrival, Link, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource
from bareshell.plan.validate import prepare
from tests.plan.garages import DAY, bare, evenings, hours, job

ENGINES: tuple[EngineName, ...] = ("compiled", "plain")
OTHER = job("other", 60.0, splittable=True)


def lost(problem: PlanProblem, engine: EngineName) -> dict[str, float]:
    """Days by cause, and by part, with nothing left to luck."""
    sure = tuple(
        replace(
            one, ways=tuple(hours(w.likely_minutes / 60, w.people, spread=1.0) for w in one.ways)
        )
        for one in problem.jobs
    )
    plannable = prepare(replace(problem, jobs=sure)).problem
    policy = Policy(tails(plannable))
    outcome = Engine(plannable, engine=engine).run(policy, seed=1, samples=4)
    found = binds(plannable, outcome.binding, 4)
    assert all(one.share == 1.0 for one in found)
    return {one.ref: one.days for one in found if one.kind != "job" and one.days}


@pytest.mark.parametrize("engine", ENGINES)
def test_a_single_late_part(engine: EngineName) -> None:
    """Due on the sixtieth day and on no shelf: it loses sixty days, and nothing else any."""
    problem = bare(
        job("fit", parts_to_start=("x",)),
        job("end", 1.0, "fit"),
        replace(OTHER, ways=(hours(40.0),)),
        arrivals=(Arrival("x", "tank straps", 60 * DAY, late_share=0.0),),
    )
    days = lost(problem, engine)
    assert set(days) == {"part", "x"}
    assert days["part"] == days["x"] == pytest.approx(60, abs=3)  # to the next evening


@pytest.mark.parametrize("engine", ENGINES)
def test_a_helper_every_fourth_week(engine: EngineName) -> None:
    """Three jobs for two, one after another, each a Saturday: twice four weeks are lost to it."""
    two = (hours(5.0, people=2),)
    problem = bare(
        job("a", ways=two),
        job("b", 1.0, "a", ways=two),
        job("c", 1.0, "b", ways=two),
        OTHER,
        sessions=evenings(helper_every=4, temperatures=False),
    )
    days = lost(problem, engine)
    assert max(days, key=lambda cause: days[cause]) == "helper"
    # The first Saturday is the sixth day; a Saturday's work is a quarter of a day.
    assert days["helper"] == pytest.approx(2 * 28, abs=6)
    assert sum(days.values()) == pytest.approx(2 * 28 + 5, abs=2)


@pytest.mark.parametrize("engine", ENGINES)
def test_a_cold_winter(engine: EngineName) -> None:
    """Warm for a week, cold for twenty, then warm; strip before seal takes the warm week."""
    slots = [
        SessionSlot(at * WEEK_MINUTES // 2 + DAY, 210, temperature_c=5.0 if 2 <= at < 42 else 15.0)
        for at in range(104)
    ]
    problem = bare(
        job("strip", 2.5, started=True),
        job("seal", 1.0, "strip", min_temperature_c=10.0),
        job("end", 1.0, "seal"),
        OTHER,
        sessions=SessionSource.repeating(slots, weeks=52),
    )
    days = lost(problem, engine)
    assert set(days) == {"cold"}
    assert days["cold"] == pytest.approx(20 * 7, abs=4)


@pytest.mark.parametrize("engine", ENGINES)
def test_a_wait_between_two_evenings(engine: EngineName) -> None:
    problem = bare(
        job("coat"), job("fit", 1.0, Link("coat", 30 * DAY)), replace(OTHER, ways=(hours(20.0),))
    )
    days = lost(problem, engine)
    assert set(days) == {"wait"}
    assert days["wait"] == pytest.approx(30, abs=3)


@pytest.mark.parametrize("engine", ENGINES)
def test_nine_weeks_away_with_an_hour_to_spare_before(engine: EngineName) -> None:
    """The second job does not fit what the first leaves of the evening: no session held it up."""
    slots = [SessionSlot(DAY, 150), SessionSlot(DAY + 63 * DAY, 150)]
    problem = bare(
        job("a", 1.0), job("b", 1.9, "a"), sessions=SessionSource.repeating(slots, weeks=52)
    )
    days = lost(problem, engine)
    assert set(days) == {"session"}
    assert days["session"] == pytest.approx(63, abs=1)
