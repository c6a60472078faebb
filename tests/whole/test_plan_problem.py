"""From a build to the plan's question: nothing is lost on the way and nothing made up."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.job import Wait
from bareshell.model.part import GoodsIn, Holding
from bareshell.model.position import Place, Placement, SupportMove, Wheels, Zone
from bareshell.model.proof import Proof
from bareshell.model.session import Garage, HelperWork, SessionException, SessionPattern
from bareshell.plan.problem import Link, PlanJob, PlanProblem
from bareshell.plan.tonight import tonight
from bareshell.plan.validate import validate
from bareshell.whole.asked import asked_session
from bareshell.whole.garage_time import sessions_between
from bareshell.whole.pace import pace_belief
from bareshell.whole.plan_problem import plan_question, supports_for
from bareshell.whole.season import expected_temperature_c
from bareshell.whole.sheet_parts import SessionAsked
from bareshell.whole.tickets import TicketDesk
from tests.stories import NOW, build_of, garage_changes, job, later, small_car, small_car_changes


def _problem_job(build: Build, name: str) -> PlanJob:
    return plan_question(build, NOW).problem.job(name)


def test_a_part_on_order_is_waited_for_and_an_unrecorded_one_blocks_nothing() -> None:
    problem = plan_question(small_car(), NOW).problem
    arrivals = {a.id: a for a in problem.arrivals}
    assert arrivals["hose"].expected_minute == 5 * 1440 - 60  # 9 March 17:00
    assert arrivals["nuts"].known is False
    assert problem.job("rear-hose").parts_to_start == ("hose",)
    assert problem.job("rear-pipe").parts_to_finish == ("nuts",)


def test_not_here_turns_an_unrecorded_part_into_one_to_order_and_a_find_frees_it() -> None:
    looked = later(small_car(), c.NeedNotHere("nuts"))
    arrival = {a.id: a for a in plan_question(looked, NOW).problem.arrivals}["nuts"]
    assert arrival.known
    assert arrival.lead_minutes
    found = later(
        looked,
        c.HoldingSet(Holding("h1", "Pipe nuts", 4, need="nuts")),
        at=NOW + timedelta(minutes=5),
    )
    assert "nuts" not in {a.id for a in plan_question(found, NOW).problem.arrivals}


def test_a_wrong_delivery_is_planned_as_if_ordered_again() -> None:
    build = later(small_car(), c.GoodsChecked("o1", GoodsIn.WRONG, 1))
    arrival = {a.id: a for a in plan_question(build, NOW).problem.arrivals}["hose"]
    assert arrival.expected_minute is None
    assert arrival.lead_minutes
    again = later(build, c.OrderExpected("o1", date(2026, 3, 20)), at=NOW + timedelta(minutes=1))
    replacement = {a.id: a for a in plan_question(again, NOW).problem.arrivals}["hose"]
    assert replacement.expected_minute == 16 * 1440 - 60


def test_a_wait_that_is_still_running_holds_what_follows() -> None:
    build = later(
        small_car(),
        c.JobFinished("rear-pipe", 1),
        c.JobFinished("rear-hose", 1),
        c.JobFinished("hold", 0.5),
        at=NOW - timedelta(hours=2),
    )
    tank = _problem_job(build, "tank")
    assert tank.after == ()
    assert tank.earliest_minute == 10 * 60


def test_the_cold_stretches_a_cure_that_began_in_it_but_not_a_hold() -> None:
    cold = Garage(monthly_c=(3.0,) * 12)
    changes = [*small_car_changes(), c.GarageDescribed(cold),
               c.JobSet(job("coat", "seam", system="underbody"))]  # fmt: skip
    build = later(build_of(changes), c.JobFinished("seam", 1), at=NOW)
    # The nights are 18 degrees colder than written for, which doubles twice: 24 h become 96 h.
    assert _problem_job(build, "coat").earliest_minute == 96 * 60


def test_where_nobody_said_what_the_car_stands_on_all_is_planned_and_that_is_said() -> None:
    changes = [
        change
        for change in small_car_changes()
        if not isinstance(change, (c.SupportSet, c.SupportMoveSet, c.CarPlaced))
    ]
    question = plan_question(build_of(changes), NOW)
    assert any("what the car can stand on" in said for said in question.assumptions)
    assert "support" not in {snag.rule for snag in validate(question.problem)}


def test_only_work_off_the_car_goes_on_while_it_is_moved() -> None:
    """Whatever can be done on every support still needs the car to stand still."""
    build = small_car()
    on_the_car = job("look", place=Place.CAR)
    assert supports_for(build, on_the_car) == frozenset(
        s.id for s in build.supports.values() if s.kind.value not in ("road", "test station")
    )
    assert supports_for(build, job("clean", place=Place.BENCH)) is None


def test_hours_left_by_the_owner_replace_the_estimate() -> None:
    build = later(small_car(), c.JobWorked("carb", 3, hours_left=1))
    carb = _problem_job(build, "carb")
    assert carb.started
    assert carb.minutes_done == 0
    assert carb.ways[0].likely_minutes == 60


def test_a_job_hides_what_is_owed_and_the_plan_knows_who_proves_it() -> None:
    problem = plan_question(small_car(), NOW).problem
    assert problem.job("tank").proofs_before == ("rear-joint",)
    assert problem.proofs[0].proven_by == ("hold",)
    asked, gate = (g for g in problem.gates if g.title == "under-car")
    assert (asked.needs_jobs, asked.needs_proofs) == (("hold",), ("rear-joint",))
    assert asked.blocks == gate.needs_jobs == ("pass:under-car",)
    assert gate.blocks == ("tank",)


def test_proving_is_work_of_its_own_once_its_job_is_done_and_nobody_wrote_it_down() -> None:
    build = later(
        small_car(),
        c.JobFinished("rear-pipe", 1),
        c.JobFinished("rear-hose", 1),
        c.JobFinished("hold", 0.5),
        at=NOW - timedelta(days=2),
    )
    problem = plan_question(build, NOW).problem
    prove, read = problem.job("prove:rear-joint"), problem.job("read:rear-joint")
    assert prove.title == "Prove: Rear tee dry under pressure"
    assert read.after == (Link("prove:rear-joint", 12 * 60),)
    assert problem.proofs[0].proven_by == ("read:rear-joint",)
    begun = later(build, c.ProofBegun("rear-joint"), at=NOW - timedelta(hours=4))
    assert _problem_job(begun, "read:rear-joint").earliest_minute == 8 * 60


def test_what_one_hold_proves_is_read_in_one_go() -> None:
    joint = Proof(
        "hose-joint",
        "Hose end dry under pressure",
        made_by=("rear-hose",),
        proven_by="hold",
        covered_by=("tank",),
        hold_hours=12,
    )
    build = later(
        small_car(),
        c.ProofSet(joint),
        *(c.JobFinished(key, 1) for key in ("rear-pipe", "rear-hose", "hold")),
        at=NOW - timedelta(hours=5),
    )
    both = (c.ProofBegun("rear-joint"), c.ProofBegun("hose-joint"))
    begun = later(build, *both, at=NOW - timedelta(hours=4))
    problem = plan_question(begun, NOW).problem
    assert [j.id for j in problem.jobs if j.id.startswith("read:")] == ["read:rear-joint"]
    assert {proof.proven_by for proof in problem.proofs} == {("read:rear-joint",)}
    ticket = TicketDesk(begun, NOW).ticket(
        "read:rear-joint", NOW, NOW + timedelta(minutes=10), finishes=True, people=1
    )
    assert [line.id for line in ticket.proves] == ["rear-joint", "hose-joint"]


def test_a_buried_unproven_joint_holds_up_no_job() -> None:
    joint = Proof("seam-joint", "Seam seen", made_by=("seam",), covered_by=("door-seal", "tank"))
    done = (c.JobFinished(j, 1) for j in ("seam", "door-seal"))
    problem = plan_question(later(small_car(), c.ProofSet(joint), *done), NOW).problem
    assert problem.job("tank").proofs_before == ("rear-joint",)


def test_work_is_done_where_it_can_be_reached() -> None:
    build = small_car()
    assert supports_for(build, build.jobs["rear-pipe"].job) == frozenset({"stands"})
    assert supports_for(build, build.jobs["door-seal"].job) == frozenset({"stands", "wheels"})
    assert supports_for(build, build.jobs["carb"].job) is None
    assert supports_for(build, build.jobs["drive"].job) == frozenset({"road"})


def test_a_wish_gives_way_when_the_garage_cannot_meet_it_but_a_zone_does_not() -> None:
    build = small_car()
    loaded = job("loaded", zones=frozenset({Zone.UNDERNEATH}), wheels=Wheels.LOADED)
    assert supports_for(build, loaded) == frozenset({"stands"})
    only_wheels = later(build, c.CarPlaced(Placement("wheels")), c.SupportDropped("stands"))
    found = supports_for(only_wheels, loaded)
    assert found == frozenset({"a support that opens underneath"})


def test_sessions_follow_the_pattern_the_clock_change_and_the_exceptions() -> None:
    build = build_of(garage_changes())
    lost = later(build, c.ExceptionSet(SessionException(date(2026, 3, 7))))
    london = ZoneInfo("Europe/London")
    start = datetime(2026, 3, 1, tzinfo=UTC)
    slots = sessions_between(lost, start, start + timedelta(weeks=5))
    local = [(start + timedelta(minutes=s.start_minute)).astimezone(london) for s in slots]
    assert {moment.strftime("%a %H:%M") for moment in local} == frozenset(
        {"Wed 19:00", "Sat 10:00"}
    )
    assert date(2026, 3, 7) not in {moment.date() for moment in local}
    assert {s.people for s in slots if s.minutes == 300} == {2}


def test_a_clock_read_in_the_middle_of_a_minute_keeps_the_hour() -> None:
    build = build_of(garage_changes())
    start = datetime(2026, 3, 4, 12, 0, 37, tzinfo=UTC)
    (slot,) = sessions_between(build, start, start + timedelta(days=1))
    assert (start + timedelta(minutes=slot.start_minute)).strftime("%H:%M") == "19:00"


def test_a_helper_pattern_joins_the_saturday_it_meets() -> None:
    build = build_of(
        [
            *garage_changes(),
            c.PatternSet(SessionPattern("sun", "Sunday", "FREQ=WEEKLY;BYDAY=SU", time(10), 120)),
            c.PatternSet(
                SessionPattern(
                    "help", "helper", "FREQ=WEEKLY;INTERVAL=2;BYDAY=SU", time(10, 30), 120, 2
                )
            ),
        ]
    )
    start = datetime(2026, 3, 1, 0, 0, tzinfo=UTC)
    sundays = [
        s for s in sessions_between(build, start, start + timedelta(weeks=4)) if s.kind == "Sunday"
    ]
    assert sorted(s.people for s in sundays) == [1, 1, 2, 2]
    assert max(s.minutes for s in sundays) == 150


def test_a_rule_nobody_can_read_is_named_before_it_is_kept() -> None:
    odd = c.PatternSet(SessionPattern("x", "Odd", "EVERY TUESDAY", time(19), 60))
    with pytest.raises(BadInput, match="FREQ=WEEKLY"):
        build_of([odd])


@pytest.mark.parametrize(
    ("patterns", "day", "endless"),
    [
        ({"eve": "FREQ=WEEKLY;BYDAY=TU"}, None, True),
        ({"eve": "FREQ=WEEKLY;BYDAY=TU;UNTIL=20260501"}, None, False),
        ({"eve": "FREQ=WEEKLY;BYDAY=TU;UNTIL=20260501", "sat": "FREQ=MONTHLY"}, None, True),
        ({}, date(2026, 3, 14), False),
    ],
)
def test_single_days_and_what_ends_in_spring_are_no_promise_of_more(
    patterns: dict[str, str], day: date | None, *, endless: bool
) -> None:
    build = build_of(
        [
            *garage_changes(),
            c.PatternDropped("eve"),
            c.PatternDropped("sat"),
            *(
                c.PatternSet(SessionPattern(key, key, rule, time(19), 150))
                for key, rule in patterns.items()
            ),
            *([c.ExceptionSet(SessionException(day, 300, 1, time(10)))] if day else []),
            c.JobSet(job("a", place=Place.BENCH)),
        ]
    )
    problem = plan_question(build, NOW).problem
    assert problem.sessions.endless == endless
    said = [snag.sentence for snag in validate(problem) if snag.rule == "sessions end"]
    assert bool(said) != endless
    assert all("planned as if they went on as before" in one for one in said)


def test_work_too_cold_for_evenings_that_end_is_planned_for_the_warmest_of_them() -> None:
    build = build_of(
        [
            *garage_changes(),
            c.PatternDropped("sat"),
            c.PatternSet(
                SessionPattern("eve", "eve", "FREQ=WEEKLY;BYDAY=TU;UNTIL=20260501", time(19), 150)
            ),
            c.JobSet(replace(job("a", place=Place.BENCH), lowest_temperature_c=20.0)),
        ]
    )
    question = plan_question(build, NOW)
    assert any("as if the garage was heated" in one for one in question.assumptions)
    assert [snag.rule for snag in validate(question.problem)] == ["sessions end"]


def test_heating_counts_for_the_work_and_not_for_the_night() -> None:
    build = build_of([*garage_changes(), c.GarageDescribed(Garage(heated_to_c=18.0))])
    slot = plan_question(build, NOW).problem.sessions.first(1)[0]
    assert slot.temperature_c == 18.0
    assert slot.lowest_until_next_c is not None
    assert slot.lowest_until_next_c < 12


def test_temperature_goes_smoothly_through_the_year() -> None:
    garage = Garage()
    days = [date(2026, 1, 1) + timedelta(days=i) for i in range(365)]
    values = [expected_temperature_c(garage, day) for day in days]
    assert max(abs(a - b) for a, b in pairwise(values)) < 0.3
    assert abs(values[0] - values[-1]) < 0.3


def test_a_slow_owner_is_planned_as_a_slow_owner() -> None:
    changes = [
        *garage_changes(),
        *(c.JobSet(job(f"j{i}", hours=2)) for i in range(20)),
        *(c.JobFinished(f"j{i}", 3) for i in range(19)),
    ]
    paces = {p.system: p.factor for p in pace_belief(build_of(changes)).paces}
    assert 1.3 < paces[""] <= 1.5
    assert paces[""] <= paces["brakes"] <= 1.5


def test_nobody_said_how_the_car_stands_is_an_assumption_that_is_said() -> None:
    changes = [ch for ch in garage_changes() if not isinstance(ch, c.CarPlaced)]
    question = plan_question(build_of(changes), NOW)
    assert question.assumptions == ("Nobody said how the car stands; taken as stands.",)


def test_what_the_road_gate_and_those_under_it_ask_for_is_the_goal() -> None:
    problem = plan_question(small_car(), NOW).problem
    # What the under-car gate asks for, the road's two, what takes the caps off before the road,
    # and going through each.
    gates = {"pass:under-car", "pass:road"}
    assert set(problem.goal) == {"hold", "wheels-on", "carb", "rear-hose"} | gates
    lamps = Proof("lamps", "Every lamp seen lit", made_by=("door-seal",), gates=("under-car",))
    asked = later(small_car(), c.ProofSet(lamps), c.JobFinished("door-seal", 1))
    assert "prove:lamps" in plan_question(asked, NOW).problem.goal


def test_what_lies_hidden_and_unproven_is_work_before_its_gate_and_said() -> None:
    assert plan_question(small_car(), NOW).assumptions == ()
    buried = later(small_car(), c.JobFinished("rear-pipe", 1), c.JobFinished("tank", 2))
    question = plan_question(buried, NOW)
    (said,) = question.assumptions
    assert said.startswith("Hidden and unproven: 'Rear tee dry under pressure'. It is planned as")
    work = question.problem.job("uncover:rear-joint")
    # A substitute at best; at worst the tank, two people's two hours, comes off and goes back.
    assert (work.ways[0].people, work.ways[0].optimistic_minutes) == (2, 20)
    assert work.ways[0].pessimistic_minutes == 45 + 180
    (proof,) = question.problem.proofs
    assert proof.proven_by == ("uncover:rear-joint",)
    shown = later(buried, c.ProofSubstituted("rear-joint", "held 70 bar for 12 h"))
    assert plan_question(shown, NOW).assumptions == ()


def test_a_cure_keeps_its_lowest_temperature() -> None:
    seam = _problem_job(small_car(), "seam")
    assert (seam.min_temperature_c, seam.cure_minutes) == (10, 24 * 60)


def test_a_car_with_no_name_is_refused() -> None:
    with pytest.raises(ValueError, match="name"):
        Car("  ")


def test_a_negative_wait_is_refused() -> None:
    with pytest.raises(ValueError, match="wait"):
        Wait(-1)


# --- the helper and the body ---------------------------------------------------------------------


def _helped(usually: HelperWork, tonight_: HelperWork | None = None) -> PlanProblem:
    build = build_of([*small_car_changes(), c.GarageDescribed(Garage(helper=usually))])
    return asked_session(build, NOW, SessionAsked(300, 2, helper=tonight_)).problem


def test_what_a_helper_does_alone_is_said_once_for_the_garage_and_anew_for_a_session() -> None:
    problem = _helped(HelperWork.MARKED)
    slots = problem.sessions.first(6)
    assert {(slot.people, slot.beside) for slot in slots} == {(2, "marked"), (1, "")}
    assert _helped(HelperWork.NOTHING, HelperWork.ANY).sessions.first(1)[0].beside == "any"


def test_a_helper_who_may_do_anything_works_beside_the_owner() -> None:
    alone = tonight(_helped(HelperWork.NOTHING), seed=1, engine="plain")
    beside = tonight(_helped(HelperWork.ANY), seed=1, engine="plain")
    assert not any(block.by_helper for block in alone.schedule.in_session(0))
    assert any(block.by_helper for block in beside.schedule.in_session(0))


def test_what_must_be_off_and_never_is_gives_way_and_is_said() -> None:
    seal = job("seal", off=frozenset({"engine out"}), off_is_necessary=True)
    question = plan_question(later(small_car(), c.JobSet(seal)), NOW)
    assert question.problem.job("seal").body_needs == frozenset()
    (said,) = question.assumptions
    assert said.startswith("'Seal' cannot be done but with engine out")
    lift = job("lift-out", takes_off=frozenset({"engine out"}))
    waits = plan_question(later(small_car(), c.JobSet(seal), c.JobSet(lift)), NOW)
    assert waits.problem.job("seal").body_needs == {"engine out"}
    assert waits.assumptions == ()


def test_what_is_off_now_is_what_was_said_and_what_was_done_since() -> None:
    lift = job("lift-out", takes_off=frozenset({"engine out"}), puts_back=frozenset({"seats out"}))
    move = SupportMove("stands", "wheels", 40, 2, frozenset({"engine out"}))
    build = later(
        small_car(),
        c.JobSet(lift),
        c.SupportMoveSet(move),
        c.CarPlaced(Placement("stands", frozenset({"seats out"}))),
        at=NOW - timedelta(days=1),
    )
    assert plan_question(build, NOW).problem.body == {"seats out"}
    problem = plan_question(later(build, c.JobFinished("lift-out", 2)), NOW).problem
    assert problem.body == {"engine out"}
    change = next(one for one in problem.changes if one.after == "wheels")
    assert change.body_needs == {"engine out"}


def test_a_heater_cools_no_summer() -> None:
    build = build_of([*garage_changes(), c.GarageDescribed(Garage(heated_to_c=12.0))])
    problem = plan_question(build, NOW).problem
    slots = problem.sessions.first(60)
    warmth = [slot.temperature_c or 0.0 for slot in slots]
    assert min(warmth) == 12.0
    assert max(warmth) > 17
    asked = asked_session(build, NOW, SessionAsked(starts_at=NOW.replace(month=7)))
    assert asked.facts.temperature_c is not None
    assert asked.facts.temperature_c > 17
