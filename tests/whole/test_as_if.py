"""No owner has a road that never ends for want of a heater or a friend: it is planned as if."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import Wait
from bareshell.model.session import Garage
from bareshell.plan.road import Road
from bareshell.plan.road import road as plan_road
from bareshell.whole.grounds import grounds_overview
from bareshell.whole.plan_problem import PlanQuestion, plan_question
from bareshell.whole.road_answer import road_overview
from bareshell.whole.road_parts import RoadOverview
from tests.stories import NOW, build_of, job, later, small_car, small_car_changes

COOL = Garage(monthly_c=(3, 3, 5, 8, 11, 14, 15, 15, 12, 9, 6, 4))


def _asked(build: Build) -> tuple[PlanQuestion, Road, RoadOverview]:
    question = plan_question(build, NOW)
    planned = plan_road(question.problem, seed=1, samples=20)
    return question, planned, road_overview(build, question, planned)


def _with_headlining(degrees: float, *, people: int = 1) -> Build:
    glued = job(
        "headlining", hours=2, people=people, system="interior", lowest_temperature_c=degrees,
        wait=Wait(24, lowest_temperature_c=degrees),
    )  # fmt: skip
    gate = next(
        change.gate
        for change in small_car_changes()
        if isinstance(change, c.GateSet) and change.gate.id == "road"
    )
    wanted = replace(gate, needs_jobs=(*gate.needs_jobs, "headlining"))
    return later(small_car(), c.GarageDescribed(COOL), c.JobSet(glued), c.GateSet(wanted))


def _alone() -> Build:
    changes = [
        change
        if not (isinstance(change, c.PatternSet) and change.pattern.people == 2)
        else c.PatternSet(replace(change.pattern, people=1))
        for change in small_car_changes()
    ]
    return build_of(changes)


def test_what_no_session_is_warm_enough_for_is_put_into_the_warmest_and_said_so() -> None:
    question, planned, road = _asked(_with_headlining(18))
    assert planned.reaches_road
    assert road.p50 is not None
    assert road.stranded == ()
    (said,) = [words for words in question.assumptions if "Headlining" in words]
    assert "18 °C, 24 h long after it" in said
    assert "as if the garage was heated for it" in said
    glued = [s for s in road.sessions if any(one.id == "headlining" for one in s.jobs)]
    warmest = max(slot.temperature_c or 0.0 for slot in question.problem.sessions.template)
    assert [session.temperature_c for session in glued] == [warmest]
    (line,) = [one for one in road.seasonal if one.job == "headlining"]
    assert (line.least_c, line.cure_hours) == (18, 24)
    assert "warmer than any session; heat the garage for it on" in line.words


def test_what_no_garage_is_heated_to_still_stands_in_the_way() -> None:
    question, planned, road = _asked(_with_headlining(45))
    assert not any("as if the garage" in words for words in question.assumptions)
    assert not planned.reaches_road
    assert road.p50 is None
    assert "'Headlining' wants 45 °C" in road.stranded[0]
    # What does not hang on it has its weeks all the same, and is counted as work left.
    assert road.rest_p50 is not None
    assert road.rest_p80 is not None
    assert road.rest_p50 <= road.rest_p80
    assert "Everything that does not hang on it is done by the week of" in road.rest
    _, _, without = _asked(small_car())
    assert road.hours_left == without.hours_left + 2
    assert without.rest == ""


def test_a_garage_that_is_warm_enough_is_taken_as_it_is() -> None:
    question, _, _ = _asked(_with_headlining(9))
    assert not any("as if" in words for words in question.assumptions)


def test_work_for_two_where_nobody_comes_is_planned_as_if_somebody_did_now_and_then() -> None:
    question, planned, road = _asked(_alone())
    assert planned.reaches_road
    assert road.p50 is not None
    (said,) = question.assumptions
    assert said.startswith("No session has a helper, and 'Tank' takes two people: planned as if")
    assert "once in 4 weeks" in said
    # The next two weeks are to be acted on: nobody is there who was not asked.
    two = [slot for slot in question.problem.sessions.slots if slot.people > 1]
    assert min(slot.start_minute for slot in two) >= timedelta(weeks=2) / timedelta(minutes=1)
    tank = next(s for s in road.sessions if any(one.id == "tank" for one in s.jobs))
    assert tank.people == 2
    assert tank.starts_at - NOW > timedelta(weeks=2)


def test_a_helper_who_does_come_is_left_as_the_record_has_it() -> None:
    question, _, _ = _asked(small_car())
    assert not any("No session has a helper" in words for words in question.assumptions)


def test_a_garage_without_sessions_has_its_work_left_all_the_same() -> None:
    changes = [one for one in small_car_changes() if not isinstance(one, c.PatternSet)]
    _, _, road = _asked(build_of(changes))
    assert road.p50 is None
    assert road.hours_left == _asked(small_car())[2].hours_left
    assert road.promise == ""
    assert "There is no garage session to plan into." in road.stranded[0]


def test_the_hours_left_are_opened_down_to_each_job_and_add_up() -> None:
    build = small_car()
    question, planned, road = _asked(build)
    opened = {one.key: one for one in grounds_overview(build, question, planned).grounds}
    work = opened["work"]
    assert work.value == road.hours_left
    systems = {one.name: one for one in work.beneath}
    fuel = {one.name: one for one in systems["fuel"].beneath}
    assert {"Tank", "Carb"} <= fuel.keys()
    assert "2.0 h estimated (1.0 to 4.0), times 1.00" in fuel["Tank"].rests_on
    total = sum(float(str(one.value)) for one in work.beneath)
    assert abs(total - road.hours_left) < 0.05 * len(work.beneath) + 1e-6
    assert opened["together"].value == road.helper_hours_left == 2.0
    assert [one.name for one in opened["together"].beneath] == ["Tank"]
    assert opened["bound"].value is not None
    assert opened["holds"].beneath


def test_a_last_day_to_order_is_opened_down_to_what_ordering_takes() -> None:
    build = later(small_car(), c.NeedNotHere("nuts"))
    question, planned, road = _asked(build)
    orders = next(
        one for one in grounds_overview(build, question, planned).grounds if one.key == "orders"
    )
    (nuts,) = [one for one in orders.beneath if one.key == "order-nuts"]
    days = {one.name: one.value for one in nuts.beneath}
    (line,) = road.order_by
    assert days["wanted"] == line.needed_on
    assert days["so that nine in ten are here in time"] == line.by(0.9) == nuts.value
    assert days["so that 19 in 20 are here in time"] == line.by(0.95)


def test_weeks_in_which_nothing_can_be_done_are_told_with_what_comes_next() -> None:
    build = _with_headlining(14)
    _, _, road = _asked(build)
    used = [n for n, session in enumerate(road.sessions) if session.jobs]
    gap = max(
        (road.sessions[b].starts_at - road.sessions[a].starts_at, a, b) for a, b in pairwise(used)
    )
    assert gap[0] > timedelta(weeks=4)
    first = road.sessions[gap[1] + 1].starts_at
    assert road.idle
    assert any(words.startswith(f"From {first.day} {first:%B}") for words in road.idle)
    assert any("waits for a warmer session" in words for words in road.idle)
    assert f"nothing can be done in {gap[2] - gap[1] - 1} sessions" in " ".join(road.idle)
