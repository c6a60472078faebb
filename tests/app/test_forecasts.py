"""Forecasts kept and held against what comes; the plan given out is followed; levers, grounds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

import pytest

from bareshell.app.correcting import BY_ITSELF, take_back_number
from bareshell.app.door import Door
from bareshell.app.forecasts import keep_forecast, keep_if_due, levers
from bareshell.app.plain import document
from bareshell.app.road import grounds, road
from bareshell.app.tonight import tonight
from bareshell.app.written import Pen
from bareshell.errors import BadInput, Refused
from bareshell.model import changes as c
from bareshell.model.forecast import IssuedForecast
from bareshell.model.session import HeldSession
from bareshell.whole.forecast_answer import may_be_left_out, may_be_lent
from bareshell.whole.forecast_parts import Grounds
from bareshell.whole.issued import score_gates
from tests.stories import NOW, job, small_car_changes
from tests.web.conftest import Clock


@pytest.fixture
def clock() -> Clock:
    return Clock(NOW)


@pytest.fixture
def door(tmp_path: Path, clock: Clock) -> Iterator[Door]:
    with Door.open(tmp_path / "car", create=True, clock=clock, back_up=False) as opened:
        opened.record(small_car_changes(), happened_at=NOW - timedelta(days=30))
        yield opened


# --- keeping -------------------------------------------------------------------------------------


def test_a_forecast_is_kept_as_it_is_shown(door: Door) -> None:
    shown = road(door)
    written = keep_forecast(door)
    assert written.subject == "forecast:2026-03-04"
    kept = door.build().forecasts["2026-03-04"]
    (line,) = road(door).issued
    assert (line.p50, line.p80, line.p95) == (shown.p50, shown.p80, shown.p95)
    assert kept.futures == shown.futures
    assert kept.hours_left == shown.hours_left
    assert [gate.gate for gate in kept.gates] == ["under-car", "road"]
    first = {work.job for work in kept.planned if work.day == NOW.date()}
    assert first == {one.id for one in shown.sessions[0].jobs}
    days = [work.day for work in kept.planned]
    assert max(days) < NOW.date() + timedelta(days=14)


def test_two_in_a_day_are_one_and_a_form_sent_twice_lands_once(door: Door) -> None:
    keep_forecast(door)
    keep_forecast(door, Pen("helper", "form-1"))
    assert keep_forecast(door, Pen("helper", "form-1")).repeated
    assert len(door.build().forecasts) == 1
    kinds = [entry.change.KIND for entry in door.entries()]
    assert kinds.count("forecast-issued") == 2


def test_one_is_kept_about_every_week_and_does_not_stand_before_what_a_person_wrote(
    door: Door, clock: Clock
) -> None:
    assert keep_if_due(door) is not None
    clock.forward(timedelta(days=3))
    assert keep_if_due(door) is None
    door.record(c.JobFinished("carb", 2))
    clock.forward(timedelta(days=4))
    assert keep_if_due(door) is not None
    assert len(door.build().forecasts) == 2
    newest = door.entries(newest_first=True, limit=1)[0]
    assert newest.author == BY_ITSELF
    assert "Carb" in take_back_number(door, None)


def test_where_no_session_leads_to_the_road_there_is_nothing_to_keep(tmp_path: Path) -> None:
    bare = [ch for ch in small_car_changes() if not isinstance(ch, c.PatternSet)]
    with Door.open(tmp_path / "bare", create=True, clock=lambda: NOW, back_up=False) as opened:
        opened.record(bare)
        with pytest.raises(Refused, match="no forecast to keep"):
            keep_forecast(opened)
        assert keep_if_due(opened) is None
        assert road(opened).p50 is None
        assert levers(opened).levers == ()
        assert grounds(opened).grounds


def test_a_forecast_that_falls_is_not_kept(door: Door) -> None:
    fell = IssuedForecast("x", NOW, date(2026, 6, 2), date(2026, 6, 1), date(2026, 7, 1))
    with pytest.raises(BadInput, match="do not rise"):
        door.record(c.ForecastIssued(fell))


# --- what came -----------------------------------------------------------------------------------


def test_what_was_planned_is_held_against_what_was_done(door: Door, clock: Clock) -> None:
    keep_forecast(door)
    build = door.build()
    # Letting the car through a gate has no hours to tell.
    planned = {w.job for w in build.forecasts["2026-03-04"].planned} & build.jobs.keys()
    clock.forward(timedelta(days=3))
    door.record(c.JobFinished("rear-pipe", 1.5))
    assert "rear-pipe" in planned
    (line,) = road(door).issued
    assert (line.planned, line.done, line.over) == (len(planned), 1, False)
    clock.forward(timedelta(days=14))
    door.record(c.JobFinished("rear-hose", 1))
    (line,) = road(door).issued
    assert (line.done, line.over) == (1, True)


def test_a_gate_is_held_against_the_first_forecast_of_it(door: Door, clock: Clock) -> None:
    keep_forecast(door)
    clock.forward(timedelta(days=4))
    jobs = ("rear-pipe", "rear-hose", "hold")
    door.record([c.JobFinished(one, 1) for one in jobs])
    clock.forward(timedelta(days=1))
    door.record([c.ProofHeld("rear-joint"), c.GatePassed("under-car", "the owner")])
    found = score_gates(door.build())
    assert found.cases == 1
    assert found.crps >= 0
    assert {one.what for one in road(door).scores} >= {"day of a gate"}


# --- following -----------------------------------------------------------------------------------


def test_tonight_and_the_road_follow_the_plan_that_was_given_out(door: Door) -> None:
    keep_forecast(door)
    kept = door.build().forecasts["2026-03-04"]
    first = [work for work in kept.planned if work.day == NOW.date()]
    others = [work for work in kept.planned if work.day != NOW.date()]
    assert first
    assert others
    assert [one.id for one in road(door).sessions[0].jobs] == [work.job for work in first]
    assert {one.id for one in tonight(door).jobs} == {work.job for work in first}
    shown = road(door)
    assert shown.changed == "Nothing in the next two weeks has moved."
    assert shown.because == "What was written down since fits the plan."


def test_what_changed_is_said_with_its_reason(door: Door, clock: Clock) -> None:
    keep_forecast(door)
    clock.forward(timedelta(hours=1))
    door.record(c.OrderExpected("o1", date(2026, 3, 27), "they rang"))
    shown = road(door)
    assert "'Rear hose' from" in shown.changed
    assert shown.because == "'Rear hose' waits for Rear flexible hose."
    clock.forward(timedelta(days=20))
    assert road(door).changed == "", "its two weeks are over"


def test_what_is_left_out_or_proved_since_is_called_by_its_name(door: Door, clock: Clock) -> None:
    door.record([c.JobFinished(one, 1) for one in ("rear-pipe", "rear-hose", "hold")])
    clock.forward(timedelta(days=2))
    keep_forecast(door)
    planned = {work.job for work in door.build().forecasts["2026-03-06"].planned}
    assert {"prove:rear-joint", "carb"} <= planned
    clock.forward(timedelta(days=1))
    door.record([c.ProofHeld("rear-joint"), c.JobLeftOut("carb")])
    shown = road(door)
    assert "'Carb' is off the list" in shown.changed
    assert "prove:" not in shown.changed
    assert shown.issued[0].planned == len([job for job in planned if ":" not in job])


# --- levers and grounds --------------------------------------------------------------------------


def test_levers_are_measured_in_days_and_say_what_holds_it_up(door: Door) -> None:
    found = levers(door)
    assert found.levers
    gains = [one.gain_days for one in found.levers]
    assert gains == sorted(gains, reverse=True)
    assert {one.word for one in found.levers} <= {"nearer", "farther", "no clear effect"}
    assert found.work_days <= found.mean_days
    assert found.binds
    assert all(0 <= one.criticality <= 1 for one in found.indices)
    assert document(found)["levers"][0].keys() >= {"gain_days", "standard_error_days"}
    assert levers(door) == found


def test_only_trim_that_nothing_asks_for_may_wait_and_only_bench_work_is_lent(door: Door) -> None:
    door.record(
        [
            c.JobSet(job("carpet", system="interior")),
            c.JobSet(job("belts", system="interior")),
            c.JobSet(job("edge-trim", system="body fittings")),
            c.GateSet(replace(door.build().gates["road"].gate, needs_jobs=("belts",))),
        ]
    )
    build = door.build()
    assert may_be_left_out(build) >= {"carpet", "edge-trim"}
    assert not may_be_left_out(build) & {"belts", "rear-pipe", "hold", "tank", "rear-hose"}
    assert may_be_lent(build) == {"carb"}
    door.record(c.JobStarted("carb"))
    assert may_be_lent(door.build()) == frozenset()


def _every(ground: Grounds) -> Iterator[Grounds]:
    yield ground
    for one in ground.beneath:
        yield from _every(one)


def test_every_number_says_what_it_rests_on_and_how_far_to_trust_it(door: Door) -> None:
    before = {g.name: g for top in grounds(door).grounds for g in _every(top)}
    assert all(g.rests_on for g in before.values())
    assert {g.trust for g in before.values()} == {"assumed", "measured", "reckoned"}
    assert before["your pace"].trust == "assumed"
    door.record([c.JobFinished("rear-pipe", 3), c.JobFinished("carb", 4)])
    after = {g.name: g for top in grounds(door).grounds for g in _every(top)}
    assert after["your pace"].trust == "measured"
    assert after["pace on brakes"].beneath[0].name == "Rear pipe"
    assert after["pace on brakes"].beneath[0].rests_on == "3.0 h told, 1.5 h estimated"
    assert float(str(after["your pace"].value)) > 1
    days = [g for name, g in after.items() if "by the week of" in name]
    assert [g.value for g in days] == [road(door).p50, road(door).p80, road(door).p95]


def test_paces_and_scores_come_with_the_road(door: Door) -> None:
    assert [pace.system for pace in road(door).paces] == [""]
    begins = datetime.combine(date(2026, 2, 18), time(19), UTC)
    door.record(c.SessionHeld(HeldSession("s", begins, begins + timedelta(hours=2))))
    door.record([c.JobFinished("rear-pipe", 3), c.JobFinished("carb", 4)])
    shown = road(door)
    assert [pace.system for pace in shown.paces] == ["", "brakes", "fuel"]
    (hours,) = [one for one in shown.scores if one.what == "hours of a job"]
    assert hours.cases == 2
    assert hours.word == "too few to tell"
