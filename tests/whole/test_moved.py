"""What an entry did to the next two weeks, read off two readings of the road."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.plan.road import road as plan_road
from bareshell.whole.moved import first_days, moved_since
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.road_answer import road_overview
from bareshell.whole.road_parts import RoadOverview
from tests.stories import NOW, later, small_car

SOON = NOW + timedelta(minutes=30)


def _road(build: Build, at: datetime) -> RoadOverview:
    question = plan_question(build, at)
    return road_overview(build, question, plan_road(question.problem, seed=1, samples=20))


def test_a_part_that_comes_later_moves_its_job_and_is_named() -> None:
    build = small_car()
    late = later(build, c.OrderExpected("o1", date(2026, 3, 27)), at=SOON)
    found = moved_since(late, _road(build, NOW), _road(late, SOON))
    moved = {one.job_id: one for one in found.moved}
    assert "rear-hose" in moved
    assert moved["rear-hose"].after is not None
    assert moved["rear-hose"].after >= date(2026, 3, 27)
    assert found.why == "'Rear hose' waits for Rear flexible hose."


def test_doing_what_was_planned_moves_nothing() -> None:
    build = small_car()
    done = later(build, c.JobStarted("rear-pipe"), c.JobFinished("rear-pipe", 1.5), at=SOON)
    found = moved_since(done, _road(build, NOW), _road(done, SOON))
    assert found.done == ("rear-pipe",)
    assert "rear-pipe" not in {one.job_id for one in found.moved}


def test_an_entry_that_changes_nothing_says_so() -> None:
    build = small_car()
    found = moved_since(build, _road(build, NOW), _road(build, NOW))
    assert found.what == "Nothing in the next two weeks has moved."


def test_every_job_on_the_road_says_what_held_it_up() -> None:
    build = small_car()
    days = first_days(build, _road(build, NOW))
    hose = days["rear-hose"][1]
    assert (hose.cause, hose.why) == ("part", "'Rear hose' waits for Rear flexible hose.")
    assert days["rear-pipe"][1].why == ""
