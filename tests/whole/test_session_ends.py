"""What each session loses at both ends, as the record shows it."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.session import Garage, HeldSession
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.session_ends import session_ends
from tests.stories import NOW, later, small_car


def evening(
    build: Build, number: int, begins: float, ends: float, *, minutes: int = 150, job: str = "carb"
) -> Build:
    """A session with work from so many minutes after its start to so many before its end."""
    start = NOW - timedelta(days=30 + number)
    worked = c.JobWorked(job, (minutes - begins - ends) / 60)
    build = later(build, worked, at=start + timedelta(minutes=minutes - ends))
    held = HeldSession(f"s{number}", start, start + timedelta(minutes=minutes))
    return later(build, c.SessionHeld(held), at=NOW - timedelta(days=20))


def test_without_a_record_the_garages_own_figures_stand() -> None:
    build = later(small_car(), c.GarageDescribed(Garage(set_up_minutes=20, clear_up_minutes=5)))
    found = session_ends(build)
    assert (found.set_up_minutes, found.clear_up_minutes) == (20, 5)


def test_both_ends_are_learned_the_more_the_more_sessions_there_are() -> None:
    build, figures = small_car(), []
    for number in range(12):
        build = evening(build, number, 35, 25)
        found = session_ends(build)
        figures.append((found.set_up_minutes, found.clear_up_minutes))
    assert figures[0] == (19, 17)
    assert figures[3] == (25, 20)
    assert figures[11] == (30, 22)
    assert (found.set_up_seen, found.clear_up_seen) == (12, 12)


def test_what_was_written_down_all_at_the_end_shows_nothing_of_it() -> None:
    found = session_ends(evening(small_car(), 1, 0, 0))
    assert (found.set_up_seen, found.clear_up_seen) == (0, 0)
    assert (found.set_up_minutes, found.clear_up_minutes) == (15, 15)


def test_an_hour_of_tea_is_not_setting_up() -> None:
    assert session_ends(evening(small_car(), 1, 100, 10)).set_up_seen == 0


def test_one_odd_evening_counts_for_no_more_than_twice_the_usual() -> None:
    build = small_car()
    for number in range(6):
        build = evening(build, number, 20, 10)
    usual = session_ends(build).set_up_minutes
    odd = session_ends(evening(build, 7, 85, 10)).set_up_minutes
    assert usual <= odd <= usual + 3


def test_a_job_that_was_begun_shows_when_work_began() -> None:
    start = NOW - timedelta(days=3)
    build = later(small_car(), c.JobStarted("carb"), at=start + timedelta(minutes=40))
    held = HeldSession("s1", start, start + timedelta(minutes=150))
    build = later(build, c.SessionHeld(held), at=NOW - timedelta(days=2))
    assert session_ends(build).set_up_minutes == pytest.approx(20)


def test_the_plan_is_asked_with_what_was_learned() -> None:
    build = small_car()
    for number in range(12):
        build = evening(build, number, 35, 25)
    problem = plan_question(build, NOW).problem
    assert (problem.set_up_minutes, problem.clear_up_minutes) == (30, 22)
