"""What a weighing gives, held against the statics of a tilted frame, and what it cannot give."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bareshell.brakes.examples import small_car
from bareshell.brakes.weighed import SCALE_KG, Weighing, weighed
from bareshell.errors import BadInput
from bareshell.model.brake import Part
from bareshell.model.trust import Trust

CAR = small_car().part("car")
WHEELBASE = CAR.figures["wheelbase_m"].value


def raised(height_m: float, front_kg: float, rear_kg: float, rise_m: float) -> float:
    """What the front scales show of a car of a known height, by moments about the front hubs."""
    total = front_kg + rear_kg
    behind = WHEELBASE * rear_kg / total
    front_m, rear_m = (CAR.figures[f"{axle}_rolling_radius_m"].value for axle in ("front", "rear"))
    above_hubs = height_m - (front_m + (rear_m - front_m) * behind / WHEELBASE)
    tilt = math.asin(rise_m / WHEELBASE)
    arm = behind * math.cos(tilt) - above_hubs * math.sin(tilt)
    return total - total * arm / (WHEELBASE * math.cos(tilt))


@pytest.mark.parametrize("height_m", [0.45, 0.53, 0.7])
@pytest.mark.parametrize(("front_kg", "rear_kg"), [(505.0, 395.0), (430.0, 520.0)])
@pytest.mark.parametrize("laden", [False, True])
def test_the_height_is_that_of_the_tilted_frame(
    height_m: float, front_kg: float, rear_kg: float, laden: bool
) -> None:
    shown = raised(height_m, front_kg, rear_kg, 0.6)
    found = weighed(CAR, Weighing(front_kg, rear_kg, laden, shown, 0.6))
    stated = found["laden_cg_height_m" if laden else "cg_height_m"]
    assert stated.value == pytest.approx(height_m, abs=1e-3)
    assert stated.trust is Trust.MEASURED
    assert stated.low is not None
    assert stated.high is not None
    assert stated.low < height_m < stated.high
    load = "laden" if laden else "driver_only"
    assert found[f"{load}_mass_kg"].value == front_kg + rear_kg
    assert found[f"{load}_front_share"].value == pytest.approx(
        front_kg / (front_kg + rear_kg), abs=1e-4
    )


def test_a_smaller_rise_leaves_a_wider_range() -> None:
    def width(rise_m: float) -> float:
        shown = raised(0.6, 505.0, 395.0, rise_m)
        one = weighed(CAR, Weighing(505.0, 395.0, False, shown, rise_m))["cg_height_m"]
        assert one.low is not None
        assert one.high is not None
        return one.high - one.low

    assert width(0.3) > 1.8 * width(0.6)


def test_scales_that_are_off_by_what_they_may_stay_within_the_range() -> None:
    shown = raised(0.55, 505.0, 395.0, 0.6)
    for slip in (-SCALE_KG, SCALE_KG):
        one = weighed(CAR, Weighing(505.0 - slip, 395.0, False, shown + slip, 0.6))["cg_height_m"]
        assert one.low is not None
        assert one.high is not None
        assert one.low - 0.005 <= 0.55 <= one.high + 0.005


def test_two_axles_alone_give_mass_and_share_and_say_nothing_of_the_height() -> None:
    found = weighed(replace(CAR, figures={}), Weighing(505.0, 395.0))
    assert set(found) == {"driver_only_mass_kg", "driver_only_front_share"}


@pytest.mark.parametrize(
    ("car", "weighing", "said"),
    [
        (CAR, Weighing(505.0, 395.0, False, 540.0), "only one of its two figures"),
        (CAR, Weighing(505.0, 395.0, False, 480.0, 0.6), "Raise the rear higher"),
        (CAR, Weighing(505.0, 395.0, False, 800.0, 0.3), "which no car has"),
        (CAR, Weighing(505.0, 395.0, False, 540.0, WHEELBASE + 1), "below the wheelbase"),
        (CAR, Weighing(0.0, 395.0), "is no weight of a car"),
        (replace(CAR, figures={}), Weighing(505.0, 395.0, False, 540.0, 0.6), "wheelbase"),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_be_right(
    car: Part, weighing: Weighing, said: str
) -> None:
    with pytest.raises(BadInput) as refused:
        weighed(car, weighing)
    assert said in refused.value.describe()
