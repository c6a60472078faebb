"""Roller sheets, decelerometers, measured stops and slopes, with verdicts and beside the sums."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather, ranges
from bareshell.brakes.measured import CAUTIONS, RollerSheet, roller_result, roller_sheet
from bareshell.brakes.measured_against import (
    Difference,
    Range,
    against_calculation,
    calculated_forces,
)
from bareshell.brakes.measured_road import decelerometer_verdicts, parking_tried, stop_result
from bareshell.brakes.solve import solve
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.yardsticks import chosen
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeReading, PartKind, ReadingKind, Wheel

NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)
KGF, KMH = 9.80665, 1 / 3.6
FL, FR, RL, RR = Wheel
MOT = chosen(
    [
        "uk-mot-service",
        "uk-mot-parking",
        "uk-mot-secondary",
        "uk-mot-imbalance",
        "uk-mot-imbalance-steered",
    ]
)
forces = st.floats(0.0, 400.0)


def sheet_of(
    *kgf: float, locked: str = "", mass: float | None = 1000.0, **more: object
) -> RollerSheet:
    names = {"FL": FL, "FR": FR, "RL": RL, "RR": RR}
    return RollerSheet(
        {wheel: each * KGF for wheel, each in zip(Wheel, kgf, strict=False)},
        frozenset(names[name] for name in locked.split()),
        mass,
        **more,  # type: ignore[arg-type]
    )


def said(verdicts: tuple[Verdict, ...]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for each in verdicts:
        found.setdefault(each.yardstick.id, []).append(each.words)
    return found


def reading(kind: ReadingKind, figures: dict[str, float], **choices: str) -> BrakeReading:
    return BrakeReading("r", kind, NOON, figures, choices)


# ------------------------------------------------------------------------ roller sheets


def test_a_sheet_in_kilograms_force() -> None:
    """MOT manual 1.2.2 (read): efforts over test weight. 200, 180, 100, 90 kgf on 1000 kg: 57 %."""
    result = roller_result(sheet_of(200, 180, 100, 90), MOT)
    assert result.efficiency == pytest.approx(0.57)
    assert result.front_share == pytest.approx(380 / 570)
    assert [axle.words for axle in result.axles] == ["front axle", "rear axle"]
    assert result.axles[0].imbalance == pytest.approx(0.1)
    assert result.axles[0].weaker == "right"
    assert said(result.verdicts) == {
        "uk-mot-service": ["meets 50 %"],
        "uk-mot-parking": ["not worked out"],
        "uk-mot-imbalance": ["meets 70 %", "meets 70 %"],
        "uk-mot-imbalance-steered": ["meets 50 %"],
    }


@given(st.lists(forces, min_size=4, max_size=4), st.floats(500.0, 2000.0))
def test_kilograms_and_newtons_give_one_efficiency(kgf: list[float], mass: float) -> None:
    result = roller_result(sheet_of(*kgf, mass=mass), MOT)
    assert result.efficiency == pytest.approx(sum(kgf) / mass)


@pytest.mark.parametrize(
    ("locked", "service"), [("FL FR RL", "meets 50 %"), ("FL FR", "short of 50 %")]
)
def test_three_of_four_locked_counts_and_two_of_four_does_not(locked: str, service: str) -> None:
    """MOT manual 1.2.1 (read)."""
    result = roller_result(sheet_of(100, 100, 50, 50, locked=locked), MOT)
    assert said(result.verdicts)["uk-mot-service"] == [service]
    unweighed = roller_result(sheet_of(100, 100, 50, 50, locked=locked, mass=None), MOT)
    expected = service if service.startswith("meets") else "not worked out"
    assert said(unweighed.verdicts)["uk-mot-service"] == [expected]
    assert unweighed.verdicts[0].reached is None


@pytest.mark.parametrize(
    ("efforts", "locked", "words"),
    [
        ((200, 140, 90, 90), "", ["meets 70 %", "meets 70 %"]),
        ((200, 139, 90, 90), "", ["short of 70 %", "meets 70 %"]),
        ((200, 139, 90, 90), "FR", ["not worked out", "meets 70 %"]),
        ((200, 200, 40, 0), "", ["meets 70 %", "not worked out"]),
    ],
)
def test_imbalance_axle_by_axle(efforts: tuple[float, ...], locked: str, words: list[str]) -> None:
    """MOT manual 1.2.1 (read); boundaries computed."""
    result = roller_result(sheet_of(*efforts, locked=locked), MOT)
    assert said(result.verdicts)["uk-mot-imbalance"] == words


def test_a_wheel_that_reads_nothing_is_still_on_the_sheet() -> None:
    """Rear 40 and 0 kgf: imbalance is left aside, a wheel that does not record is not."""
    result = roller_result(sheet_of(200, 200, 40, 0), MOT)
    rear = result.axles[1]
    assert (rear.right_n, rear.imbalance) == (0.0, 1.0)


def test_the_parking_brake_two_of_two_locked_or_by_effort() -> None:
    """MOT manual 1.4.2 (read): 16 %; two of two locked meets it, one of two does not."""
    for locked, effort, words in (
        ((True, True), 10.0, "meets 16 %"),
        ((True, False), 10.0, "short of 16 %"),
        ((False, False), 80.0, "meets 16 %"),
    ):
        sheet = sheet_of(
            200, 200, 90, 90, parking_n=(effort * KGF, effort * KGF), parking_locked=locked
        )
        result = roller_result(sheet, MOT)
        assert said(result.verdicts)["uk-mot-parking"] == [words]
    assert result.parking_efficiency == pytest.approx(0.16)
    assert [axle.words for axle in result.axles][-1] == "parking brake"


def test_the_hand_brake_of_a_single_line_is_its_secondary() -> None:
    """MOT manual 1.3 (read): 25 % for single-line systems, and only for those."""
    sheet = sheet_of(200, 200, 90, 90, parking_n=(110 * KGF, 110 * KGF))
    split = said(roller_result(sheet, MOT).verdicts)
    single = said(roller_result(sheet, MOT, parking_is_secondary=True).verdicts)
    assert "uk-mot-secondary" not in split
    assert single["uk-mot-secondary"] == ["short of 25 %"]


def test_a_sheet_as_it_was_kept() -> None:
    kept = reading(
        ReadingKind.ROLLER,
        {"front_left_n": 2000.0, "rear_left_n": 900.0, "parking_left_n": 700.0, "mass_kg": 1000.0},
        front_left="locked",
        rear_left="turned",
        parking_left="locked",
    )
    sheet = roller_sheet(kept)
    assert sheet.efforts_n == {FL: 2000.0, RL: 900.0}
    assert sheet.locked == frozenset({FL})
    assert sheet.parking_n == (700.0, 0.0)
    assert sheet.parking_locked == (True, False)
    with pytest.raises(BadInput, match="no effort of any wheel"):
        roller_sheet(reading(ReadingKind.ROLLER, {"mass_kg": 1000.0}))
    with pytest.raises(BadInput, match="not a roller sheet"):
        roller_sheet(reading(ReadingKind.PARKING, {"slope": 0.1}))
    assert any("not the inspection" in caution for caution in CAUTIONS)


# ------------------------------------------------------------------------ on the road


def test_a_decelerometer_s_half_of_gravity() -> None:
    """50 % is 4.90 m/s2; StVZO's 5.0 m/s2 reads 51 % (computed)."""
    both = chosen(["uk-mot-service", "de-stvzo-service", "uk-mot-parking", "un-r13-circuit"])
    assert said(decelerometer_verdicts(0.505, both)) == {
        "uk-mot-service": ["meets 50 %"],
        "de-stvzo-service": ["short of 5.0 m/s2"],
    }
    assert list(said(decelerometer_verdicts(0.17, both, "parking"))) == ["uk-mot-parking"]
    assert list(said(decelerometer_verdicts(0.17, both, "secondary"))) == ["un-r13-circuit"]


def steady(speed_kmh: float, slowing: float, delay_s: float = 0.36) -> dict[str, float]:
    """A stop at a steady deceleration after a delay, with the two points on the way."""
    v = speed_kmh * KMH
    run = {share: delay_s * v + v**2 * (1 - share**2) / (2 * slowing) for share in (0.8, 0.1, 0.0)}
    return {
        "speed_m_s": v,
        "distance_m": run[0.0],
        "upper_speed_m_s": 0.8 * v,
        "upper_distance_m": run[0.8],
        "lower_speed_m_s": 0.1 * v,
        "lower_distance_m": run[0.1],
    }


@given(st.floats(30.0, 130.0), st.floats(1.0, 9.0))
def test_the_mean_of_a_steady_stop_is_its_deceleration(speed: float, slowing: float) -> None:
    """R13 Annex 4 1.1.2 (read: GRRF-56-3): (v_b^2 - v_e^2) / (25.92 (s_e - s_b)) in km/h."""
    figures = steady(speed, slowing)
    result = stop_result(reading(ReadingKind.STOP, figures), ())
    run = figures["lower_distance_m"] - figures["upper_distance_m"]
    published = ((0.8 * speed) ** 2 - (0.1 * speed) ** 2) / (25.92 * run)
    assert result.mean_fully_developed_m_s2 == pytest.approx(slowing)
    assert result.mean_fully_developed_m_s2 == pytest.approx(published)
    assert result.over_distance_m_s2 is not None
    assert result.over_distance_m_s2 < slowing
    assert result.notes == ()


def test_a_stop_from_a_hundred_is_held_by_deceleration_and_by_distance() -> None:
    """70 m and 6.43 m/s2 go together (from memory; 70 m read for FMVSS 135)."""
    picked = chosen(["un-r13h-service", "fmvss-135-cold", "un-r13h-circuit"])
    result = stop_result(reading(ReadingKind.STOP, steady(100.0, 6.5)), picked)
    assert said(result.verdicts) == {
        "un-r13h-service": ["meets 6.4 m/s2", "meets 70 m"],
        "fmvss-135-cold": ["meets 6.4 m/s2", "meets 70 m"],
    }
    short = stop_result(reading(ReadingKind.STOP, steady(100.0, 6.3)), picked)
    assert said(short.verdicts)["un-r13h-service"] == ["short of 6.4 m/s2", "short of 70 m"]
    slow = stop_result(reading(ReadingKind.STOP, steady(50.0, 6.5)), picked)
    assert said(slow.verdicts)["un-r13h-service"] == ["meets 6.4 m/s2", "not worked out"]


def test_speed_and_distance_alone_are_a_least_figure_and_said_to_be() -> None:
    figures = {"speed_m_s": 20.0, "distance_m": 40.0}
    result = stop_result(reading(ReadingKind.STOP, figures), chosen(["de-stvzo-service"]))
    assert result.mean_fully_developed_m_s2 is None
    assert result.over_distance_m_s2 == pytest.approx(5.0)
    assert said(result.verdicts) == {"de-stvzo-service": ["meets 5.0 m/s2"]}
    assert "full on at once" in result.notes[0]


def test_points_that_are_not_the_regulation_s_are_told() -> None:
    figures = steady(100.0, 6.0) | {"upper_speed_m_s": 0.7 * 100 * KMH}
    result = stop_result(reading(ReadingKind.STOP, figures), ())
    assert result.notes == ("The upper speed is 0.70 of the first, where the regulation has 0.8.",)
    with pytest.raises(BadInput, match="speed at the start"):
        stop_result(reading(ReadingKind.STOP, {"distance_m": 30.0}), ())
    turned = steady(100.0, 6.0) | {"lower_distance_m": 1.0}
    with pytest.raises(BadInput, match="do not grow"):
        stop_result(reading(ReadingKind.STOP, turned), ())


def test_the_highway_code_s_distances_are_one_deceleration() -> None:
    """20 to 70 mph: 20, 45, 80, 125, 180, 245 ft (read second-hand): 6.56 m/s2 each."""
    for mph, feet in ((20, 20), (30, 45), (40, 80), (50, 125), (60, 180), (70, 245)):
        figures = {"speed_m_s": mph * 0.44704, "distance_m": feet * 0.3048}
        result = stop_result(reading(ReadingKind.STOP, figures), ())
        assert result.over_distance_m_s2 == pytest.approx(6.56, abs=0.005)


def hold(slope: float, facing: str, held: str) -> BrakeReading:
    return reading(ReadingKind.PARKING, {"slope": slope}, facing=facing, held=held)


def test_a_slope_counts_when_it_was_held_both_ways() -> None:
    picked = chosen(["uk-mot-gradient", "un-r13h-parking", "uk-mot-parking"])
    up_only = parking_tried([hold(0.20, "up", "yes")], picked)
    assert said(up_only.verdicts) == {
        "un-r13h-parking": ["not worked out"],
        "uk-mot-gradient": ["not worked out"],
    }
    assert "nose down" in up_only.verdicts[0].because
    tried = [hold(0.20, "up", "yes"), hold(0.17, "down", "yes"), hold(0.22, "down", "no")]
    both = parking_tried(tried, picked)
    assert said(both.verdicts) == {
        "un-r13h-parking": ["short of 20 %"],
        "uk-mot-gradient": ["meets 16 %"],
    }
    assert (both.up, both.down, both.failed) == (0.20, 0.17, (("down", 0.22),))


# ------------------------------------------------------------------------ beside the sums


def calculated(share: float = 0.1) -> dict[Wheel, Range]:
    return {
        wheel: Range(force * (1 - share), force, force * (1 + share))
        for wheel, force in zip(Wheel, (1900.0, 1900.0, 800.0, 800.0), strict=True)
    }


def measured(*newtons: float, locked: str = "", pedal: float | None = 300.0) -> RollerSheet:
    return sheet_of(*(each / KGF for each in newtons), locked=locked, pedal_force_n=pedal)


def out_of(sheet: RollerSheet) -> list[str]:
    return [each.where for each in against_calculation(sheet, calculated()) if not each.within]


def test_what_was_worked_out_and_read_alike_points_at_nothing() -> None:
    found = against_calculation(measured(1900, 1880, 810, 800), calculated())
    assert len(found) == 8
    assert all(each.within and not each.look_at for each in found)


def test_one_bad_wheel_points_at_that_wheel() -> None:
    found = out_of(measured(1900, 1200, 800, 800))
    assert "front axle, left over both" in found
    assert "front right" in found
    assert "rear axle, left over both" not in found


def test_one_weak_axle_points_at_the_axle() -> None:
    found = out_of(measured(1900, 1900, 400, 400))
    assert "front share" in found
    assert not any("left over both" in each for each in found)


def test_all_four_weak_alike_points_at_the_foot_and_what_is_behind_it() -> None:
    found = against_calculation(measured(1500, 1500, 640, 640), calculated())
    out = {each.where: each for each in found if not each.within}
    assert "all four wheels" in out
    assert "front share" not in out
    assert "foot" in out["all four wheels"].look_at[0]


def test_without_the_force_of_the_foot_only_shares_are_compared() -> None:
    found = against_calculation(measured(950, 950, 400, 400, pedal=None), calculated())
    assert [each.unit for each in found] == ["share", "share", "share"]
    assert all(each.within for each in found)


def test_a_locked_wheel_is_left_out() -> None:
    found = against_calculation(measured(1500, 1500, 800, 800, locked="FL FR"), calculated())
    assert all("front" not in each.where for each in found)


def test_the_inputs_that_a_difference_points_at_are_those_nobody_measured() -> None:
    car = small_car()
    gathered = gather(car)
    answer = solve(car, gathered.figures, 300.0, "driver only")
    worked_out = calculated_forces(answer)
    assert set(worked_out) == set(answer.wheel_force_n)
    sheet = RollerSheet(
        {wheel: force.value * (0.6 if wheel is RL or wheel is RR else 1.0)
         for wheel, force in worked_out.items()},
        pedal_force_n=300.0,
    )  # fmt: skip
    inputs = ranges(car, gathered)
    found = {each.where: each for each in against_calculation(sheet, worked_out, car, inputs)}
    rear: Difference = found["rear left"]
    assert not rear.within
    assert all(car.part(path.partition(".")[0]).wheel is RL for path in rear.inputs)
    assert {path.partition(".")[0] for path in found["front share"].inputs} <= {
        part.id for part in car.parts if part.wheel or part.kind is PartKind.VALVE
    }
    assert "cylinder-rear-left.threshold_pa" in found["front share"].inputs
    assert "master.efficiency" in found["all four wheels"].inputs
    by_path = {each.path: each for each in inputs}
    widths = [
        (by_path[path].high - by_path[path].low) / by_path[path].value
        for path in found["front share"].inputs
    ]
    assert widths == sorted(widths, reverse=True)
