"""Two problems under one rule: what became possible, what no longer is, and the finish."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

from bareshell.plan.problem import Arrival, Link, PlanJob, PlanProblem, Way
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.side_by_side import side_by_side

DAY = 24 * 60
EVENINGS = SessionSource.repeating([SessionSlot(60, 150)])


def problem(*, hose_days: int | None) -> PlanProblem:
    """Fit a hose, then bleed; the hose is here, or comes in so many days."""
    waits = () if hose_days is None else ("hose",)
    arrivals = () if hose_days is None else (Arrival("hose", "Hose", hose_days * DAY),)
    jobs = (
        PlanJob("fit", "Fit the hose", "brakes", (Way(1, 30, 60, 90),), parts_to_start=waits),
        PlanJob("bleed", "Bleed", "brakes", (Way(1, 30, 60, 90),), after=(Link("fit"),)),
    )
    return PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), jobs, EVENINGS, arrivals)


def test_a_part_that_goes_astray_takes_the_job_and_the_days() -> None:
    found = side_by_side(problem(hose_days=None), problem(hose_days=10), seed=1, engine="plain")
    assert found.before.may_begin - found.after.may_begin == {"fit"}
    assert found.gain_days is not None
    assert found.gain_days <= -9.5


def test_the_two_are_each_other_s_mirror() -> None:
    here, away = problem(hose_days=None), problem(hose_days=10)
    there = side_by_side(here, away, seed=1, engine="plain")
    back = side_by_side(away, here, seed=1, engine="plain")
    assert there.gain_days is not None
    assert back.gain_days == -there.gain_days


def test_the_same_twice_differs_in_nothing() -> None:
    one = problem(hose_days=3)
    found = side_by_side(one, one, seed=1, engine="plain")
    assert (found.gain_days, found.standard_error_days) == (0.0, 0.0)
    assert found.before.may_begin == found.after.may_begin


def test_with_nothing_left_to_do_no_days_are_said() -> None:
    done = replace(problem(hose_days=None), jobs=())
    found = side_by_side(done, done, seed=1, engine="plain")
    assert (found.gain_days, found.before.may_begin, found.after.forecast) == (
        None, frozenset(), None)  # fmt: skip
