"""The parking brake: both ways on a slope, from hand to tyre, and the lever's travel."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import Figures, gather, overridden
from bareshell.brakes.parking import ParkingAnswer, parking
from bareshell.brakes.state import CableBroken, State
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, PartKind, Wheel
from bareshell.model.trust import Stated
from tests.brakes.bare_cars import G, car, part

REARS = (Wheel.REAR_LEFT, Wheel.REAR_RIGHT)


def known(system: BrakeSystem, **figures: float) -> Figures:
    changes = [(path.replace("__", "."), value) for path, value in figures.items()]
    return overridden(gather(system).figures, changes)


def drums(
    wheels: tuple[Wheel, ...] = REARS, form: str = "leading-trailing", **figures: float
) -> BrakeSystem:
    """A car of 10 kN that drums hold, with a/L of 0.45 and h/L of 0.22."""
    chosen = {"diameter_m": 0.2, "brake_factor": 2.0} | figures
    parts = [car(10e3, 2.0, 0.9, 0.44)]
    parts += [
        part(f"drum-{place}", PartKind.DRUM, chosen, wheel=wheel, form=form)
        for place, wheel in enumerate(wheels)
    ]
    acts_on = "rear wheels" if wheels[0] in REARS else "front wheels"
    lever = {
        "lever_ratio": 6.0,
        "linkage_ratio": 1.0,
        "linkage_efficiency": 0.8,
        "drum_lever_ratio": 4.0,
    }
    parts.append(part("lever", PartKind.PARKING, lever, acts_on=acts_on, hold="mechanical"))
    return BrakeSystem("parked", "parked", parts=tuple(parts))


def held(system: BrakeSystem, hand: Any = 300.0, **asked: Any) -> ParkingAnswer:
    return parking(system, gather(system).figures, hand, **asked)


def test_the_chain_from_hand_to_road_by_hand() -> None:
    found = held(drums())
    cable = 300.0 * 6.0 * 0.8 / 2.0
    torque = (4.0 * cable + 3.0 * cable) / 2.0 * 2.0 * 0.1  # strut and pivot, factor 2, radius
    assert found.cable_force_n == pytest.approx(cable)
    assert found.nose_up.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(torque)
    assert found.nose_up.force_n == pytest.approx(2 * torque / 0.3)
    assert found.share_of_weight == pytest.approx(2 * torque / 0.3 / 10e3)
    assert found.nose_up.force_slope == pytest.approx(math.tan(math.asin(2 * torque / 0.3 / 10e3)))


@pytest.mark.parametrize(("slope", "up", "down"), [(0.16, 0.330, 0.386), (0.20, 0.405, 0.493)])
def test_adhesion_that_a_slope_asks_of_rear_tyres(slope: float, up: float, down: float) -> None:
    """From statics (computed elsewhere by hand): a/L 0.45, h/L 0.22; 16 and 20 per cent."""
    found = held(drums(), slope_asked=slope)
    assert found.nose_up.adhesion_asked == pytest.approx(up, abs=6e-4)
    assert found.nose_down.adhesion_asked == pytest.approx(down, abs=6e-4)


def test_front_tyres_hold_better_nose_down() -> None:
    fronts = (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)
    found = held(drums(fronts), slope_asked=0.16)
    assert found.nose_up.adhesion_asked == pytest.approx(0.16 / (0.55 - 0.16 * 0.22))
    assert found.nose_down.adhesion_asked == pytest.approx(0.16 / (0.55 + 0.16 * 0.22))
    assert found.nose_down.adhesion_slope > found.nose_up.adhesion_slope


@pytest.mark.parametrize("wheels", [REARS, (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)])
@pytest.mark.parametrize("friction", [0.3, 0.8])
def test_the_steepest_slope_asks_for_all_that_the_road_offers(
    wheels: tuple[Wheel, ...], friction: float
) -> None:
    system = drums(wheels)
    found = held(system, 400.0, friction_of_road=friction)
    for direction in ("nose_up", "nose_down"):
        slope = float(getattr(found, direction).adhesion_slope)
        again = held(system, 400.0, slope_asked=slope)
        assert getattr(again, direction).adhesion_asked == pytest.approx(friction)


def test_sixteen_per_cent_of_the_weight_holds_a_little_more_than_that_slope() -> None:
    """A roller test's 16 per cent is force over weight: it holds 16.2 per cent (computed)."""
    system = drums()
    per_newton = float(held(system, 1.0).nose_up.force_n)
    found = held(system, 1600.0 / per_newton)
    assert found.share_of_weight == pytest.approx(0.16)
    assert found.nose_up.force_slope == pytest.approx(0.1621, abs=5e-5)
    assert not found.nose_up.holds  # not the twenty per cent that newer rules ask for


def test_the_pull_that_a_slope_needs_holds_just_that_slope() -> None:
    system = drums()
    needs = float(held(system, slope_asked=0.2).nose_up.hand_force_n)
    assert held(system, needs * 1.001, slope_asked=0.2).nose_up.holds
    assert not held(system, needs * 0.999, slope_asked=0.2).nose_up.holds
    ice = held(system, slope_asked=0.2, friction_of_road=0.1)
    assert ice.nose_up.hand_force_n == math.inf
    assert ice.nose_up.limited_by == "tyres"


def test_two_leading_shoes_hold_badly_the_other_way() -> None:
    found = held(drums(form="twin leading", brake_factor=3.0))
    assert found.nose_up.force_n < 0.5 * found.nose_down.force_n


def test_a_lever_s_strut_helps_the_shoe_that_leads() -> None:
    """From the shoes' arms: forwards the strut presses the leading shoe, backwards the other."""
    figures = {
        "lining_friction": 0.35,
        "lining_arc_rad": math.radians(110.0),
        "actuation_arm_m": 0.17,
        "pivot_arm_m": 0.085,
        "friction_arm_m": 0.09,
    }
    base = drums()
    shoes = {"diameter_m": 0.2} | figures
    parts = tuple(
        part(p.id, PartKind.DRUM, shoes, wheel=p.wheel, form="leading-trailing",
             factor="from geometry") if p.kind is PartKind.DRUM else p
        for p in base.parts
    )  # fmt: skip
    found = held(replace(base, parts=parts))
    half = math.radians(55.0)
    k = 4 * math.sin(half) / (2 * half + math.sin(2 * half)) * 0.35
    leads, trails = k * 0.17 / (0.085 - k * 0.09), k * 0.17 / (0.085 + k * 0.09)
    cable = float(found.cable_force_n)
    down, up = (4 * leads + 3 * trails) * 0.1 * cable, (4 * trails + 3 * leads) * 0.1 * cable
    assert found.nose_down.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(down)
    assert found.nose_up.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(up)


def test_a_lever_on_a_caliper_clamps_its_disc() -> None:
    base = drums()
    kept = tuple(p for p in base.parts if p.kind is not PartKind.DRUM)
    calipers = []
    for place, wheel in enumerate(REARS):
        calipers += [
            part(f"caliper-{place}", PartKind.CALIPER,
                 {"pad_friction": 0.4, "efficiency": 0.9}, wheel=wheel, form="sliding"),
            part(f"disc-{place}", PartKind.DISC, {"effective_radius_m": 0.11}, wheel=wheel),
        ]  # fmt: skip
    found = held(replace(base, parts=(*kept, *calipers)))
    clamp = float(found.cable_force_n) * 4.0 * 0.9
    assert found.nose_up.wheel_torque_nm[Wheel.REAR_LEFT] == pytest.approx(2 * 0.4 * clamp * 0.11)


def on_the_shaft() -> BrakeSystem:
    base = drums()
    body = replace(base.part("car"), choices={"driven": "rear"})
    lever = replace(
        base.part("lever"),
        choices={"acts_on": "transmission", "hold": "mechanical"},
        figures=dict(base.part("lever").figures) | {"final_drive_ratio": Stated(4.0)},
    )
    drum = part("shaft-drum", PartKind.DRUM, {"diameter_m": 0.2, "brake_factor": 2.0},
                form="leading-trailing")  # fmt: skip
    return replace(base, parts=(body, drum, lever))


def test_a_brake_on_the_shaft_is_multiplied_by_the_final_drive() -> None:
    shaft, wheels = held(on_the_shaft()), held(drums())
    # All of the pull goes to one drum, whose torque the final drive multiplies for both wheels.
    ratio = float(shaft.nose_up.force_n) / float(wheels.nose_up.force_n)
    assert ratio == pytest.approx(4.0)
    assert set(shaft.nose_up.wheel_torque_nm) == set(REARS)
    broken = held(on_the_shaft(), state=State.of(CableBroken("both")))
    assert broken.nose_up.force_n == 0.0


@pytest.mark.parametrize(
    ("sharing", "left"), [("free compensator", 0.0), ("separate cables", 0.5), ("", 0.0)]
)
def test_one_broken_cable(sharing: str, left: float) -> None:
    base = drums()
    lever = base.part("lever")
    if sharing:
        lever = replace(lever, choices={**lever.choices, "sharing": sharing})
    system = replace(base, parts=tuple(lever if p.id == "lever" else p for p in base.parts))
    whole = held(system)
    broken = held(system, state=State.of(CableBroken("left")))
    assert broken.nose_up.force_n == pytest.approx(left * float(whole.nose_up.force_n))
    assert broken.nose_up.wheel_torque_nm[Wheel.REAR_LEFT] == 0.0
    if left:
        # One tyre of two: half the road's adhesion counts.
        asked = float(broken.nose_up.adhesion_asked) / float(whole.nose_up.adhesion_asked)
        assert asked == pytest.approx(2.0)


def test_travel_and_clicks_by_hand() -> None:
    system = small_car()
    figures = known(
        system,
        parking__cable_length_m=2.0,
        parking__cable_stiffness_n=4e5,
        parking__cable_arm_m=0.05,
        parking__click_angle_rad=0.06,
    )
    found = parking(system, figures, 300.0)
    drum = "drum-rear-left"
    tip = figures[f"{drum}.shoe_clearance_m"] * (
        figures[f"{drum}.actuation_arm_m"] / figures[f"{drum}.pivot_arm_m"]
    )
    clearance = tip * (2.0 * figures["parking.drum_lever_ratio"] - 1.0)
    stretch = float(found.cable_force_n) * 2.0 / 4e5
    assert found.clearance_travel_m == pytest.approx(clearance)
    assert found.stretch_m == pytest.approx(stretch)
    assert found.travel_m == pytest.approx(clearance + stretch)
    assert found.clicks == pytest.approx((clearance + stretch) / 0.05 / 0.06)
    assert found.clicks_suffice is True


def test_a_lever_that_would_have_to_swing_too_far_says_so() -> None:
    system = small_car()
    slack = {f"drum-rear-{side}__shoe_clearance_m": 0.008 for side in ("left", "right")}
    found = parking(system, known(system, **slack), 400.0)
    assert math.isnan(float(found.clicks or 0.0))
    assert found.clicks_suffice is False


def test_many_samples_and_pulls_at_once() -> None:
    system = small_car()
    figures: dict[str, Any] = dict(known(system))
    figures["parking.linkage_efficiency"] = np.array([0.6, 0.75, 0.9])
    found = parking(system, figures, np.array([200.0, 400.0]))
    assert np.shape(found.nose_up.slope) == (3, 2)
    alone = parking(system, {**figures, "parking.linkage_efficiency": 0.9}, 400.0)
    assert np.asarray(found.nose_up.slope)[2, 1] == pytest.approx(float(alone.nose_up.slope))
    assert np.asarray(found.clicks)[2, 1] == pytest.approx(float(alone.clicks or 0.0))
    assert np.asarray(found.nose_down.limited_by).shape == (3, 2)


def test_the_driver_alone_is_easier_to_hold() -> None:
    system = small_car()
    loads = [parking(system, known(system), 300.0, load=load) for load in ("driver only", "laden")]
    assert loads[0].nose_up.force_slope > loads[1].nose_up.force_slope


def test_what_cannot_be_worked_out_is_said() -> None:
    system = small_car()
    bare = replace(system, parts=tuple(p for p in system.parts if p.id != "parking"))
    with pytest.raises(BadInput, match="parking brake: is not there"):
        parking(bare, known(bare), 300.0)
    lever = system.part("parking")
    fluid = replace(lever, choices={**lever.choices, "hold": "hydraulic"})
    system2 = replace(system, parts=tuple(fluid if p is lever else p for p in system.parts))
    with pytest.raises(BadInput, match="holds by fluid"):
        parking(system2, known(system2), 300.0)
    figures = {name: each for name, each in known(system).items() if name != "parking.lever_ratio"}
    with pytest.raises(BadInput, match="ratio of the hand lever"):
        parking(system, figures, 300.0)


def test_without_the_cable_s_figures_it_still_holds() -> None:
    system = small_car()
    figures = {
        name: each for name, each in known(system).items() if name != "parking.cable_length_m"
    }
    found = parking(system, figures, 300.0)
    assert found.clicks is None
    assert [each.path for each in found.not_worked_out] == ["parking.cable_length_m"]
    assert found.nose_up.force_n > 0.0


def test_a_drum_that_is_not_there_is_asked_for() -> None:
    base = drums()
    system = replace(base, parts=tuple(p for p in base.parts if p.kind is not PartKind.DRUM))
    assert any(
        each.words == "brake at the rear left that lever works" for each in gather(system).missing
    )
    assert G > 9.8
