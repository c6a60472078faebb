"""Road ahead as a page: weeks, never one date; everything in the picture also in words."""

from __future__ import annotations

import itertools
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from bareshell.app.plain import document
from bareshell.draw.weeks import week_of
from bareshell.web.pages.road_view import figures, road_view
from tests.stories import NOW, small_car
from tests.web.session.made_up_plan import MadeUpPlan, made_up_road

if TYPE_CHECKING:
    import pytest
    from starlette.testclient import TestClient

    from bareshell.app.door import Door

UTC = ZoneInfo("UTC")


def test_the_page_and_its_twin_say_the_same(site: TestClient, door: Door, plan: MadeUpPlan) -> None:
    html = site.get("/road-ahead").text
    assert site.get("/road-ahead.json").json() == document(plan.road(door))
    assert "P50:" in html
    assert "P80: on the road by the end of this week in eight in ten, give or take 1.4" in html
    assert "Before 12 April no order of jobs" in html
    assert "Clutch hose, 3/8 UNF to M10x1" in html
    assert "A second pair of hands" in html


def test_every_session_of_the_picture_is_listed_in_words(
    site: TestClient, door: Door, plan: MadeUpPlan
) -> None:
    html = site.get("/road-ahead").text
    listed = html[html.index("Every session in words") :]
    for session in plan.road(door).sessions:
        assert f"{session.starts_at:%a} {session.starts_at.day} {session.starts_at:%b %Y}" in listed
        for job in session.jobs:
            assert job.title in listed


def test_the_picture_has_a_row_for_each_week_without_a_hole() -> None:
    road = made_up_road(small_car(), NOW)
    view = road_view(road, UTC)
    assert view.picture is not None
    mondays = [week.monday for week in view.picture.weeks]
    assert mondays[0] == week_of(NOW.date())
    assert all(b - a == timedelta(days=7) for a, b in itertools.pairwise(mondays))
    drawn = sum(len(week.sessions) for week in view.picture.weeks)
    assert drawn == len(road.sessions)
    assert [landing.word for landing in view.picture.landings] == ["P50", "P80", "P95"]


def test_a_session_stands_on_the_day_of_the_owners_clock() -> None:
    road = made_up_road(small_car(), NOW)
    late = replace(road.sessions[0], starts_at=NOW.replace(hour=23, minute=30))
    view = road_view(replace(road, sessions=(late,)), ZoneInfo("Pacific/Auckland"))
    assert view.picture is not None
    (box,) = (box for week in view.picture.weeks for box in week.sessions)
    assert box.starts.date() == NOW.date() + timedelta(days=1)


def test_a_road_that_is_never_reached_is_said_and_not_drawn_past_the_sessions() -> None:
    road = replace(made_up_road(small_car(), NOW), p50=None, p80=None, p95=None, futures=())
    shown = figures(road)
    assert [one.figure for one in shown[:3]] == ["not known"] * 3
    assert "no session ever reaches it" in shown[0].words
    view = road_view(road, UTC)
    assert view.forecast is None
    assert view.picture is not None
    assert view.picture.landings == ()


def test_a_far_week_is_a_month_with_its_year() -> None:
    road = replace(made_up_road(small_car(), NOW), p50=date(2028, 8, 28))
    assert figures(road)[0].figure == "Aug 2028"
    assert "28 August 2028" in figures(road)[0].words


def test_years_of_sessions_are_cut_and_the_cut_is_said() -> None:
    view = road_view(made_up_road(small_car(), NOW, weeks=130), UTC)
    assert view.weeks == 104
    assert view.hidden_weeks == 26


def test_a_full_week_of_deliveries_is_counted_not_piled_up() -> None:
    road = made_up_road(small_car(), NOW)
    one = road.arrivals[0]
    many = tuple(replace(one, title=f"part {n}") for n in range(9))
    view = road_view(replace(road, arrivals=many), UTC)
    assert view.picture is not None
    week = next(week for week in view.picture.weeks if week.pins)
    assert len(week.pins) == 5
    assert "and 4 more due, listed below" in week.notes


def test_without_a_session_the_page_says_how_to_get_one(
    site: TestClient, door: Door, plan: MadeUpPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    bare = replace(
        plan.road(door), sessions=(), p50=None, p80=None, p95=None, futures=(), binds=(),
        stranded=("'Headlining' waits for a garage of 18 °C that never comes",),
    )  # fmt: skip
    monkeypatch.setattr(plan, "road", lambda _door: bare)
    html = site.get("/road-ahead").text
    assert "No session to come has a job that can be done." in html
    assert "Headlining" in html
