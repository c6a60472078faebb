"""Reservoirs held against what their pistons take until the linings are worn."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather
from bareshell.brakes.prepared import prepare
from bareshell.brakes.yardstick import Subject
from bareshell.brakes.yardsticks import yardstick
from bareshell.model.brake import BrakeSystem
from bareshell.model.trust import Stated
from bareshell.whole.brake_others import others_of, reservoir_verdict
from tests.brakes import edits as e

ASKED = yardstick("fmvss-135-reservoir")
CAR = small_car()


def holding(litres: float, **worn: float) -> BrakeSystem:
    """The car with a reservoir of a size, and with measured linings."""
    system = e.with_part(CAR, "reservoir", figures={"volume_m3": Stated(litres / 1000)})
    for part in system.parts:
        for name, most in worn.items():
            fits = name.startswith("pad") == part.id.startswith("caliper")
            if fits and part.id.startswith(("caliper", "drum")):
                system = e.with_part(system, part.id, figures={name: Stated(most)})
    return system


def test_a_large_reservoir_meets_it_and_a_thimble_does_not() -> None:
    large = reservoir_verdict(prepare(holding(0.5), gather(holding(0.5)).figures), ASKED)
    small = reservoir_verdict(prepare(holding(0.01), gather(holding(0.01)).figures), ASKED)

    assert large.met
    assert not small.met
    assert large.required == small.required


def test_what_worn_pads_take_is_their_pistons_times_their_wear() -> None:
    # By hand: pistons follow their pads, so a millimetre more of wear on each of both pads takes
    # the area of one side times 2 mm; a sliding caliper's piston goes both ways by itself.
    thin, thick = (holding(0.5, pad_wear_m=wear, lining_wear_m=0.0) for wear in (0.006, 0.007))
    needed = [
        float(reservoir_verdict(prepare(one, gather(one).figures), ASKED).required)  # type: ignore[arg-type]
        for one in (thin, thick)
    ]
    calipers = [part for part in CAR.parts if part.id.startswith("caliper")]
    prepared = prepare(thin, gather(thin).figures)
    area = sum(float(prepared.elements.piston_area(thin.part(part.id), "a")) for part in calipers)

    assert needed[1] - needed[0] == pytest.approx(area * 0.002, rel=1e-6)


def test_usual_wear_is_said_and_measured_wear_is_not() -> None:
    usual = reservoir_verdict(prepare(holding(0.5), gather(holding(0.5)).figures), ASKED)
    known = holding(0.5, pad_wear_m=0.008, lining_wear_m=0.003)
    measured = reservoir_verdict(prepare(known, gather(known).figures), ASKED)

    assert "wear of linings taken as usual" in usual.because
    assert "taken as usual" not in measured.because


def test_one_that_says_nothing_of_what_it_feeds_is_not_held_up() -> None:
    reservoir = replace(CAR.part("reservoir"), choices={})
    parts = tuple(reservoir if part.id == "reservoir" else part for part in CAR.parts)
    system = replace(CAR, parts=parts)
    found = others_of(system)[Subject.RESERVOIR](ASKED)

    assert found.margin is None
    assert "no reservoir says which chambers it feeds" in found.because
