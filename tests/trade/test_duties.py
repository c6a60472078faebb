"""What the fixings of the starter network are relied on for, where the job makes it plain."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bareshell.model.car import Layout
from bareshell.model.duty import NO_STAND_IN, LoadPath, Seat
from bareshell.model.part import Need
from bareshell.model.spec import BoltSpec, PinSpec, SplitPinSpec
from bareshell.parts.questions import duty_questions
from bareshell.parts.stand_in import StandInWord, judge_stand_in
from bareshell.trade.answers import Answers
from bareshell.trade.beginning import first_changes
from bareshell.trade.data import ROWS
from bareshell.trade.duties import duty_of, named
from bareshell.trade.network import OPTIONS, starter

NEEDS: dict[str, Need] = {
    need.id: need for layout in Layout for need in starter(layout, options=OPTIONS).needs
}


def test_every_name_in_the_table_is_a_need_of_the_network() -> None:
    assert set(named()) <= set(NEEDS)
    assert all(NEEDS[key].duty == duty for key, duty in named().items())


@pytest.mark.parametrize(
    ("need", "path"),
    [
        ("pedal-box.clevis-pins-for-the-pedals", LoadPath.PEDAL),
        ("mc-fit.cylinder-flange-nuts", LoadPath.PEDAL),
        ("caliper-fit.caliper-bolts", LoadPath.CALIPER),
        ("front-hoses.hose-clips-at-the-front-brackets", LoadPath.FUEL),
        ("uprights.ball-joint-nuts", LoadPath.STEERING),
        ("column-fit.pinch-bolts-and-lock-nuts", LoadPath.STEERING),
        ("front-frame.front-frame-mount-bolts", LoadPath.SUSPENSION),
        ("front-arms.front-arm-bolts-and-lock-nuts", LoadPath.SUSPENSION),
        ("hb-connect.clevis-pins-at-the-wheels", LoadPath.HANDBRAKE),
        ("belt-anchors.belt-anchor-bolts", LoadPath.BELT),
    ],
)
def test_where_the_job_makes_it_plain_nobody_is_asked(need: str, path: LoadPath) -> None:
    duty = NEEDS[need].duty
    assert duty is not None
    assert duty.load_path is path
    assert "load_path" not in [one.field for one in duty_questions(duty)]


def test_every_bolt_and_pin_of_pedal_steering_and_brakes_has_its_path() -> None:
    rows = {row.id: row for row in ROWS}
    bare = {"flare-trial.trial-nuts", "fluid-choose.label-for-the-reservoir-cap"}
    unsaid = [
        key
        for key, need in NEEDS.items()
        if need.fixing
        and rows[need.job].system in ("brakes", "steering", "suspension", "wheels")
        and isinstance(need.spec, BoltSpec | PinSpec | SplitPinSpec)
        and need.duty is None
        and key not in bare
    ]
    assert unsaid == []


@pytest.mark.parametrize(
    "need", [key for key, n in NEEDS.items() if n.duty and n.duty.load_path in NO_STAND_IN]
)
def test_nothing_is_offered_for_the_time_being_for_pedal_steering_or_caliper(need: str) -> None:
    wanted = NEEDS[need]
    if isinstance(wanted.spec, PinSpec):
        right = replace(wanted.spec, diameter_m=0.008, grip_to_hole_m=0.022, material="mild steel")
        offered = BoltSpec(thread="M8", grip_length_m=0.022, length_m=0.04, grade="8.8",
                           lock="nyloc")  # fmt: skip
        found = judge_stand_in(right, offered, wanted.duty)
        assert found.word is StandInWord.WILL_NOT_DO
    elif isinstance(wanted.spec, BoltSpec):
        right_bolt = BoltSpec(thread="M8", grip_length_m=0.02, length_m=0.035, grade="10.9")
        offered = BoltSpec(thread="M8", grip_length_m=0.01, length_m=0.035, grade="8.8")
        found = judge_stand_in(right_bolt, offered, wanted.duty)
        assert found.word is not StandInWord.TEMP


def test_before_a_bolt_that_clamps_is_ordered_nobody_asks_for_planes_and_plies() -> None:
    clamped = [n for n in NEEDS.values() if isinstance(n.spec, BoltSpec) and n.duty is not None]
    assert len(clamped) > 50
    assert [n.id for n in clamped if duty_questions(n.duty)] == []


def test_a_trial_nut_stays_unknown_and_is_asked_for() -> None:
    assert duty_of("flare-trial.trial-nuts") is None


def test_soft_seats_of_the_brakes_are_named() -> None:
    assert NEEDS["pipe-bay.pipe-nuts-for-the-bay"].duty.seat is Seat.UNION  # type: ignore[union-attr]
    assert NEEDS["uprights.ball-joint-nuts"].duty.seat is Seat.TAPER  # type: ignore[union-attr]
    assert NEEDS["driveshafts-fwd.new-hub-nuts"].duty.seat is Seat.BEARING  # type: ignore[union-attr]


def test_pivots_are_nipped_until_ride_height_and_wheel_nuts_are_named() -> None:
    proofs = {one.id: one for one in starter(Layout.REAR).proofs}
    for key in ("front-arms", "rear-springs", "axle-fit-rwd"):
        assert proofs[key].nipped_until == "bush-torque"
    assert proofs["wheel-torque"].fixings == ("wheel-fixings.wheel-nuts-or-bolts",)
    assert all(key in NEEDS for one in proofs.values() for key in one.fixings)


def test_without_the_suspension_no_proof_waits_for_a_job_that_is_not_there() -> None:
    network = starter(Layout.FRONT, ())
    jobs, needs = {job.id for job in network.jobs}, {need.id for need in network.needs}
    assert all(key in needs for one in network.proofs for key in one.fixings)
    assert all(one.nipped_until in jobs for one in network.proofs if one.nipped_until)


def test_a_build_that_begins_is_told_so() -> None:
    at = datetime(2031, 3, 4, tzinfo=UTC)
    told = {
        change.need.id: change.need.duty
        for change in first_changes(Answers("it", Layout.REAR), at, "UTC")
        if hasattr(change, "need")
    }
    assert told["caliper-fit.caliper-bolts"] == duty_of("caliper-fit.caliper-bolts")
