"""The demo has everything a page can show, in lifelike numbers, whenever it is made."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

from bareshell.model.job import JobStatus
from bareshell.model.part import NeedState
from bareshell.model.proof import ProofEventKind, ProofState
from bareshell.model.standing import (
    gate_standings,
    need_standings,
    open_temps,
    proof_standings,
)
from bareshell.whole.pace import pace_belief
from tests.demo.conftest import Played


def _by_status(demo: Played) -> Counter[JobStatus]:
    return Counter(record.state.status for record in demo.build.jobs.values())


def _proofs(demo: Played) -> Counter[ProofState]:
    return Counter(standing.state for standing in proof_standings(demo.build).values())


def test_some_230_jobs_of_which_about_110_are_done(demo: Played) -> None:
    by_status = _by_status(demo)
    wanted = sum(by_status.values()) - by_status[JobStatus.LEFT_OUT]
    assert 225 <= wanted <= 245
    done = by_status[JobStatus.DONE] + by_status[JobStatus.DONE_BEFORE]
    assert 100 <= done <= 120
    assert 2 <= by_status[JobStatus.STARTED] <= 5
    assert 5 <= by_status[JobStatus.LEFT_OUT] <= 10
    assert 5 <= by_status[JobStatus.DONE_BEFORE] <= 8


def test_more_than_half_of_the_hours_are_behind(demo: Played) -> None:
    hours = {True: 0.0, False: 0.0}
    for record in demo.build.jobs.values():
        if record.state.status is not JobStatus.LEFT_OUT:
            hours[record.state.is_done] += record.job.ways[0].hours.likely_hours
    assert 0.5 <= hours[True] / sum(hours.values()) <= 0.65


def test_hours_taken_carry_a_pace_for_each_system(demo: Played) -> None:
    pace = {p.system: p.factor for p in pace_belief(demo.build).paces}
    assert pace["brakes"] > 1.25
    assert pace["paperwork"] < 1.05
    assert pace["paperwork"] < pace["underbody"] + 0.1 < pace["brakes"]


def test_about_300_parts_and_fixings_in_every_state(demo: Played) -> None:
    assert 250 <= len(demo.build.needs) <= 420
    states = Counter(standing.state for standing in need_standings(demo.build).values())
    assert set(states) == set(NeedState)
    assert states[NeedState.NOT_KNOWN] >= 40
    assert states[NeedState.HERE] >= 50
    assert states[NeedState.COMING] >= 6
    assert states[NeedState.WRONG] >= 2
    fixings = [need for need in demo.build.needs.values() if need.fixing]
    assert len(fixings) >= 25


def test_every_holding_lies_somewhere_by_name(demo: Played) -> None:
    for holding in demo.build.holdings.values():
        assert holding.where or holding.away, holding.id


def test_deliveries_show_all_five_outcomes(demo: Played) -> None:
    outcomes = {
        delivery.outcome.name
        for record in demo.build.orders.values()
        for delivery in record.deliveries
    }
    assert outcomes == {"RIGHT", "WRONG", "SHORT", "DAMAGED", "UNLIKE"}


def test_orders_are_due_soon_late_and_without_a_date(demo: Played) -> None:
    coming = [r.line for r in demo.build.orders.values() if r.outstanding]
    dates = [line.expected_on for line in coming]
    assert None in dates
    assert any(day and day < demo.today for day in dates)
    assert any(day and demo.today < day <= demo.today + timedelta(days=4) for day in dates)


def test_an_old_unit_must_go_back_soon(demo: Played) -> None:
    due = [
        r.line.exchange.return_by
        for r in demo.build.orders.values()
        if r.line.exchange and not r.line.exchange.returned_on
    ]
    assert due
    latest = demo.today + timedelta(days=14)
    assert all(day is not None and demo.today < day <= latest for day in due)


def test_something_was_counted_out_to_the_platers(demo: Played) -> None:
    away = [holding for holding in demo.build.holdings.values() if holding.away]
    assert away
    assert all("ounted out" in holding.note for holding in away)


def test_proofs_stand_in_every_state(demo: Played) -> None:
    states = _proofs(demo)
    assert states[ProofState.HELD] >= 60
    assert states[ProofState.OWED] >= 30
    assert states[ProofState.BEGUN] >= 1
    assert states[ProofState.SPENT] >= 1
    assert states[ProofState.SUBSTITUTED] == 3
    # What the previous owner closed up and nobody measured.
    assert states[ProofState.COVERED] == 2


def test_many_held_proofs_have_figures_within_their_limits(demo: Played) -> None:
    figures = 0
    for key, standing in proof_standings(demo.build).items():
        if standing.state is not ProofState.HELD:
            continue
        figures += len(standing.readings)
        for limit in demo.build.proofs[key].proof.limits:
            for reading in standing.readings:
                if reading.quantity == limit.quantity:
                    assert reading.unit == limit.unit
                    assert limit.admits(reading.value), (key, reading)
    assert figures >= 30


def test_a_failed_proof_was_mended(demo: Played) -> None:
    mended = [
        key
        for key, record in demo.build.proofs.items()
        if any(event.kind is ProofEventKind.FAILED for event in record.events)
    ]
    assert mended
    standings = proof_standings(demo.build)
    assert all(standings[key].state is ProofState.HELD for key in mended)


def test_done_jobs_owe_a_few_proofs(demo: Played) -> None:
    standings = proof_standings(demo.build)
    owing = {
        job
        for key, record in demo.build.proofs.items()
        if standings[key].state is ProofState.OWED
        for job in record.proof.made_by
        if demo.build.jobs[job].state.status is JobStatus.DONE and not record.proof.proven_by
    }
    assert 2 <= len(owing) <= 8


def test_no_cover_of_the_record_buried_anything_unproven(demo: Played) -> None:
    standings = proof_standings(demo.build)
    for key, record in demo.build.proofs.items():
        if standings[key].state is not ProofState.COVERED:
            continue
        over = [demo.build.jobs[j] for j in record.proof.covered_by]
        assert all(r.state.status is not JobStatus.DONE for r in over), key


def test_four_to_six_temps_are_open_and_one_is_gone(demo: Played) -> None:
    now = open_temps(demo.build)
    assert 4 <= len(now) <= 6
    raised = {key for key, record in demo.build.temps.items() if record.events}
    assert raised - set(now)


def test_some_gates_are_passed_and_the_road_is_not(demo: Played) -> None:
    standings = gate_standings(demo.build)
    passed = [gate for gate in standings.values() if gate.passed]
    assert 1 < len(passed) < len(standings) / 2
    # Whoever was let through was let through rightly, and it still holds.
    assert all(gate.is_clear for gate in passed)
    assert not standings["road"].passed


def test_departures_say_where_the_originals_are(demo: Played) -> None:
    departures = demo.build.departures.values()
    assert len(departures) >= 5
    brakes = [d for d in departures if d.system == "brakes"]
    assert len(brakes) >= 3
    for departure in departures:
        assert departure.what_was
        assert departure.what_is
        assert departure.where_original != "not known"
        assert departure.to_return
        assert set(departure.jobs) <= set(demo.build.jobs)


def test_one_entry_waits_to_be_settled_and_one_was_taken_back(demo: Played) -> None:
    assert len(demo.build.to_settle) == 1
    kinds = Counter(type(entry.change).__name__ for entry in demo.entries)
    assert kinds["Withdrawn"] == 1


def test_a_lesson_waits_for_a_twin_that_is_to_do(demo: Played) -> None:
    jobs = demo.build.jobs
    twins = [jobs[lesson.job].job.twin for lesson in demo.build.lessons.values()]
    assert any(twin and jobs[twin].state.is_open for twin in twins)


def test_the_garage_is_unheated_and_has_a_scissor_lift(demo: Played) -> None:
    assert demo.build.garage.heated_to_c is None
    kinds = {support.kind.value for support in demo.build.supports.values()}
    assert {"scissor lift", "stands", "wheels", "level floor"} <= kinds
    assert demo.build.placement is not None


def test_the_cold_ones_are_cold_in_winter(demo: Played) -> None:
    cold = [
        record.job.id
        for record in demo.build.jobs.values()
        if record.state.is_open
        and (record.job.lowest_temperature_c or -30)
        > demo.build.garage.monthly_c[demo.today.month - 1]
    ]
    warm_months = {date(2026, 7, 1).month, date(2026, 8, 1).month}
    assert len(cold) >= 5 or demo.today.month in warm_months


def test_forecasts_were_kept_and_the_date_slipped_as_dates_do(demo: Played) -> None:
    kept = sorted(demo.build.forecasts.values(), key=lambda one: one.made_at)
    assert len(kept) == 10
    assert kept[-1].p50 > kept[0].p50
    assert all(one.p50 <= one.p80 <= one.p95 for one in kept)
    assert 6 <= (demo.today - kept[-1].made_at.date()).days < 14
    for one in kept:
        assert {work.job for work in one.planned} <= demo.build.jobs.keys()
        assert all(work.day >= one.made_at.date() for work in one.planned)
    passed = {key for key, record in demo.build.gates.items() if record.passed}
    assert {gate.gate for one in kept for gate in one.gates} <= passed


def test_every_joint_of_the_brakes_owes_its_proof_and_those_in_the_hold_are_begun(
    demo: Played,
) -> None:
    proofs = proof_standings(demo.build)
    joints = {key: one for key, one in proofs.items() if key.startswith("brake-joint.")}
    begun = [key for key, standing in joints.items() if standing.state is ProofState.BEGUN]
    assert len(joints) > 15
    assert 5 < len(begun) < len(joints)
    titles = {demo.build.proofs[key].proof.title for key in joints}
    assert len(titles) == 2, "they stand together, circuit by circuit"
    assert "brake-vent.blank-servo" in proofs
    readings = demo.build.brake_readings.values()
    assert {one.kind.value for one in readings} >= {"pressure hold", "roller sheet"}
