"""The demo's brakes hang together with the rest of its story."""

from __future__ import annotations

import pytest

from bareshell.brakes.figures import gather
from bareshell.brakes.graph import legs_of
from bareshell.model import Build
from bareshell.model.brake import Role
from bareshell.model.trust import Trust
from tests.demo.conftest import Played


@pytest.fixture
def build(demo: Played) -> Build:
    return demo.build


ROLES = {"as-built": Role.AS_BUILT, "standard": Role.STANDARD, "idea-smaller-cylinder": Role.IDEA}


def test_it_has_what_is_on_the_car_what_was_and_an_idea(build: Build) -> None:
    assert {key: system.role for key, system in build.brakes.items()} == ROLES


@pytest.mark.parametrize("key", ROLES)
def test_nothing_that_the_answers_need_is_left_open(build: Build, key: str) -> None:
    assert gather(build.brakes[key]).missing == ()


@pytest.mark.parametrize("key", ROLES)
def test_every_line_ends_at_a_port_and_every_departure_is_one_of_the_car(
    build: Build, key: str
) -> None:
    system = build.brakes[key]
    assert legs_of(system).floating == ()
    said = {part.departure for part in system.parts} | {line.departure for line in system.lines}
    assert said - {""} <= set(build.departures)


def test_what_left_the_works_has_no_departure_and_what_is_on_it_has_the_car_s(
    build: Build,
) -> None:
    assert {part.departure for part in build.brakes["standard"].parts} == {""}
    brought = {part.departure for part in build.brakes["as-built"].parts}
    assert {"front-discs", "two-circuits", "no-servo", "radials"} <= brought


def test_what_is_known_is_known_in_different_ways(build: Build) -> None:
    system = build.brakes["as-built"]
    trusts = {stated.trust for part in system.parts for stated in part.figures.values()}
    assert trusts == set(Trust)


def test_what_was_measured_on_the_bench_took_the_place_of_the_data_sheet(build: Build) -> None:
    bore = build.brakes["as-built"].part("caliper-front-left").figures["a_bore_m"]
    assert (bore.value, bore.trust) == (0.048, Trust.MEASURED)


def test_it_weighs_and_stands_as_the_car_is_described(build: Build) -> None:
    assert build.car is not None
    car = build.brakes["as-built"].part("car")
    for words, name, factor in (
        ("862 kg", "driver_only_mass_kg", 1.0),
        ("54 %", "driver_only_front_share", 100.0),
    ):
        assert words in build.car.words
        assert car.figures[name].value * factor == pytest.approx(float(words.split()[0]))
    assert "2,410 mm" in build.car.words
    assert car.figures["wheelbase_m"].value == pytest.approx(2.41)
    assert car.choices["front_tyre"] in build.car.words


def test_the_old_sheet_is_of_the_brakes_that_were_on_it_then(build: Build) -> None:
    assert build.brake_readings["sheet-in-the-glove-box"].system == "standard"
    assert {reading.kind.value for reading in build.brake_readings.values()} == {
        "roller sheet",
        "pressure hold",
    }
