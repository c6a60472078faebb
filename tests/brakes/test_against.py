"""A whole system held against yardsticks: under the load, the foot and the failure they name."""

from __future__ import annotations

import numpy as np
import pytest

from bareshell.brakes.against import held_against, slowed
from bareshell.brakes.cases import single_cases
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather, overridden
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.state import ServoDead, State
from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.yardstick import Subject
from bareshell.brakes.yardsticks import YARDSTICKS, yardstick
from bareshell.model.brake import BrakeSystem


def ready(system: BrakeSystem) -> Prepared:
    return prepare(system, gather(system).figures)


def one(system: BrakeSystem, name: str) -> Verdict:
    (found,) = held_against(ready(system), [yardstick(name)])
    return found


@pytest.mark.parametrize("layout", ["single line", "front-rear tandem", "diagonal tandem"])
@pytest.mark.parametrize("name", YARDSTICKS)
def test_every_yardstick_is_held_or_says_why_not(layout: str, name: str) -> None:
    found = one(small_car(layout), name)
    assert found.words
    assert found.margin is not None or found.because


def test_a_single_line_has_nothing_left_when_a_pipe_bursts() -> None:
    found = one(small_car("single line"), "un-r13-circuit")
    assert found.reached == 0.0
    assert found.words == "short of 2.9 m/s2"
    assert "bursts" in found.because


def test_a_split_by_axle_is_judged_by_its_weaker_half() -> None:
    """What is left of the worst single burst is less than what is left of any other."""
    system = small_car("front-rear tandem")
    found = one(system, "un-r13-circuit")
    car = ready(system)
    left = [
        slowed(car, 500.0, load, state=case.state)
        for case in single_cases(system)
        if case.kind == "pipe or hose burst"
        for load in ("driver only", "laden")
    ]
    assert found.reached == pytest.approx(min(left))


def test_where_both_loads_are_asked_the_lesser_counts() -> None:
    car = ready(small_car())
    (found,) = held_against(car, [yardstick("un-r13h-service")])
    loads = [slowed(car, 500.0, load) for load in ("driver only", "laden")]
    assert found.reached == pytest.approx(min(loads))


def test_no_wheel_may_lock_for_it() -> None:
    """On a slippery road the foot is held back: the tyres, not the brakes, set the figure."""
    car = ready(small_car())
    assert slowed(car, 1500.0, "driver only", friction_of_road=0.3) <= 0.3 * 9.80665 + 1e-9


def test_a_dead_servo_is_asked_only_of_a_car_that_has_one() -> None:
    assert one(small_car("single line"), "un-r13-servo").margin is None
    with_servo = small_car("front-rear tandem")
    found = one(with_servo, "un-r13-servo")
    loads = [
        slowed(ready(with_servo), 500.0, load, state=State.of(ServoDead()))
        for load in ("driver only", "laden")
    ]
    assert found.reached == pytest.approx(min(loads))


def test_what_is_not_known_is_named_instead_of_guessed() -> None:
    system = small_car()
    figures = dict(gather(system).figures)
    del figures["car.laden_mass_kg"]
    (found,) = held_against(prepare(system, figures), [yardstick("un-r13h-service")])
    assert found.words == "not worked out"
    assert "mass fully laden" in found.because


def test_many_cars_at_once_answer_as_each_alone() -> None:
    system = small_car("front-rear tandem")
    known = gather(system).figures
    friction = np.linspace(0.28, 0.46, 5)
    paths = [path for path in known if path.endswith("pad_friction")]
    picked = [yardstick(name) for name in ("un-r13h-service", "un-r13-circuit", "un-r13-adhesion")]
    many = held_against(prepare(system, overridden(known, [(p, friction) for p in paths])), picked)
    for at, value in enumerate(friction):
        alone = held_against(
            prepare(system, overridden(known, [(p, float(value)) for p in paths])), picked
        )
        for each, single in zip(many, alone, strict=True):
            assert each.margin is not None
            assert np.ravel(each.margin)[at] == pytest.approx(single.margin, abs=1e-6)


def test_what_is_worked_out_elsewhere_is_asked_there() -> None:
    picked = yardstick("un-r13h-hot")
    others = {Subject.HOT: lambda each: not_worked_out(each, "asked elsewhere")}
    (found,) = held_against(ready(small_car()), [picked], others=others)
    assert found.because == "asked elsewhere"
