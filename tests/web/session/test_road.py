"""Road ahead as a page: weeks, never one date; everything in the picture also in words."""

from __future__ import annotations

import itertools
import threading
import time
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from bareshell.app.plain import document
from bareshell.draw.weeks import week_of
from bareshell.web.pages import road
from bareshell.web.pages.road_view import figures, road_view
from tests.stories import NOW, small_car
from tests.web.session.by_hand import form_to, press
from tests.web.session.made_up_plan import MadeUpPlan, made_up_road

if TYPE_CHECKING:
    import pytest
    from starlette.testclient import TestClient

    from bareshell.app.door import Door
    from bareshell.whole.forecast_parts import LeversOverview
    from tests.web.conftest import Clock

UTC = ZoneInfo("UTC")


def test_the_page_and_its_twin_say_the_same(site: TestClient, door: Door, plan: MadeUpPlan) -> None:
    html = site.get("/road-ahead").text
    assert site.get("/road-ahead.json").json() == document(plan.road(door))
    assert "P50:" in html
    assert "P80: on the road by the end of this week in eight in ten, give or take 1.4" in html
    assert "Before 12 April no order of jobs" in html
    assert "Clutch hose, 3/8 UNF to M10x1" in html
    assert "A second pair of hands" in html


def test_last_days_to_order_are_told_for_the_share_one_chooses(site: TestClient) -> None:
    usual = site.get("/road-ahead").text
    assert "ordered by then, nine in ten are here in time" in usual
    assert "Tue 24 Mar" in usual
    sure = site.get("/road-ahead?sure=0.95").text
    assert "ordered by then, 19 in 20 are here in time" in sure
    assert "Tue 24 Mar" not in sure
    assert "<b>now</b>, since 3 Mar" in sure
    assert site.get("/road-ahead?sure=soon").text.count("nine in ten are here in time") == 2


def test_the_gap_the_season_and_whom_to_ask_are_in_words(site: TestClient) -> None:
    html = site.get("/road-ahead").text
    assert "Another order of jobs could gain at most 24 days on this one." in html
    assert "Wants 10 °C or more; so warm from 3 May." in html
    assert "Ask for this day: Saturday 7 March. 31 h of two-person work are left." in html


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


def test_a_build_with_nothing_left_is_not_told_to_find_evenings(
    site: TestClient, door: Door, plan: MadeUpPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    over = replace(
        plan.road(door), sessions=(), p50=None, p80=None, p95=None, futures=(), binds=(),
        stranded=(), hours_left=0.0,
    )  # fmt: skip
    monkeypatch.setattr(plan, "road", lambda _door: over)
    html = site.get("/road-ahead").text
    assert "No work is left to plan: every job is done or left out." in html
    assert "usual evenings" not in html
    assert "no session ever reaches it" not in html


def test_the_road_says_what_would_move_it_and_whether_to_believe_it(
    site: TestClient, plan: MadeUpPlan
) -> None:
    html = site.get("/road-ahead").text
    moves = html[html.index('id="levers"') : html.index('id="believe"')]
    assert "One session more a week" in moves
    assert "21</b> days nearer" in moves
    assert "no clear effect" in moves
    assert "1.9</b> days farther" in moves
    believe = html[html.index('id="believe"') :]
    assert "1.3</b> times the estimates" in believe
    assert "Of 40 forecasts of the hours of a job" in believe
    assert "No forecast is kept yet" in believe
    assert plan.asked.count("levers") == 1


def test_a_forecast_that_is_kept_is_drawn_and_kept_once(site: TestClient, door: Door) -> None:
    html = site.get("/road-ahead").text
    form = form_to(html, "/road-ahead/keep")
    assert press(site, form).status_code == 303
    assert press(site, form).status_code == 303
    assert len(door.build().forecasts) == 1
    assert door.entries(newest_first=True, limit=1)[0].change.KIND == "forecast-issued"
    believe = site.get("/road-ahead").text
    believe = believe[believe.index('id="believe"') :]
    assert "Each post is one forecast" in believe
    assert "Said on 4 March 2026" in believe
    listed = site.get("/road-ahead.json").json()["issued"]
    assert [one["day"] for one in listed] == ["2026-03-04"]


def test_the_levers_have_a_page_of_their_own_and_its_twin(
    site: TestClient, door: Door, plan: MadeUpPlan
) -> None:
    html = site.get("/road-ahead/levers").text
    assert site.get("/road-ahead/levers.json").json() == document(plan.levers(door))
    assert "Of 200 days to the road on average, 150 are work" in html
    assert "12 days, 44 in 100" in html
    assert "200 days off without it, 179 with it" in html
    assert 'href="/jobs/carb"' in html
    assert "Prove: Rear tee dry" in html
    assert 'href="/jobs/prove' not in html, "work nobody wrote down has no page"
    assert "for its gate and for local law" in html
    assert "not clear" in html


def test_every_number_is_opened_down_to_what_it_rests_on(
    site: TestClient, door: Door, plan: MadeUpPlan
) -> None:
    html = site.get("/road-ahead/grounds").text
    assert site.get("/road-ahead/grounds.json").json() == document(plan.grounds(door))
    assert html.index("1 September 2026") < html.index("Pace on brakes") < html.index("9 finished")
    assert "not known" in html
    assert "Parts nobody recorded are taken as here" in html


def test_levers_that_take_their_time_do_not_hold_up_the_road(
    site: TestClient, plan: MadeUpPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    let_go = threading.Event()
    quick = plan.levers

    def slow(door: Door) -> LeversOverview:
        assert let_go.wait(20)
        return quick(door)

    monkeypatch.setattr(plan, "levers", slow)
    monkeypatch.setattr(road, "LEVERS_PATIENCE_S", 0.05)
    html = site.get("/road-ahead").text
    let_go.set()
    assert "Look at it on its own page" in html
    assert "Every session in words" in html
    assert "One session more a week" in site.get("/road-ahead/levers").text


def test_a_session_that_is_over_keeps_a_forecast_beside_the_pages(
    site: TestClient, plan: MadeUpPlan, hand_clock: Clock
) -> None:
    html = site.get("/tonight").text
    hand_clock.forward(timedelta(hours=3))
    assert press(site, form_to(html, "/tonight/went"), support="wheels").status_code == 303
    assert "keep if due" not in plan.asked
    html = site.get("/tonight").text
    assert press(site, form_to(html, "/tonight/went"), over="yes").status_code == 303
    for _ in range(200):
        if "keep if due" in plan.asked:
            break
        time.sleep(0.01)
    assert plan.asked.count("keep if due") == 1


def test_what_changed_since_a_forecast_is_said_with_its_reason(
    site: TestClient, door: Door, plan: MadeUpPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert press(site, form_to(site.get("/road-ahead").text, "/road-ahead/keep")).status_code == 303
    told = replace(
        plan.road(door), changed="'Tank' from Wed 4 Mar to Sat 7 Mar; 3 jobs stay where planned.",
        because="'Tank' waits for tank straps.",
    )  # fmt: skip
    monkeypatch.setattr(plan, "road", lambda _door: told)
    html = site.get("/road-ahead").text
    assert "Since the forecast of 4 Mar:" in html
    assert "waits for tank straps." in html


def test_the_calendar_is_sent_as_one_and_its_address_is_on_the_page(site: TestClient) -> None:
    sent = site.get("/calendar.ics")
    assert sent.headers["content-type"] == "text/calendar; charset=utf-8"
    assert sent.text.startswith("BEGIN:VCALENDAR\r\n")
    assert "SUMMARY:Due: Rear flexible hose" in sent.text
    html = site.get("/road-ahead").text
    assert "/calendar.ics" in html[html.index("In a calendar") :]
