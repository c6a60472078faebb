"""What the solve reads: everything known, usual or missing, and nothing put in without a word."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.brakes.assumed import usual
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather, overridden, ranges
from bareshell.brakes.needs import PURPOSES, needs_of
from bareshell.brakes.starters import STARTERS, starter
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Line, Part, PartKind, Port, field_of
from bareshell.model.trust import COMMON_PRACTICE, Stated, Trust

LAYOUTS = tuple(STARTERS)


def by_id(system: BrakeSystem) -> dict[str, Part | Line]:
    things: list[Part | Line] = [*system.parts, *system.lines]
    return {each.id: each for each in things}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_figure_is_known_assumed_or_missing(layout: str) -> None:
    system = starter(layout)
    found = gather(system)
    wanted = {need.path for need in needs_of(system)}
    assumed = {each.path for each in found.assumed}
    missing = {each.path for each in found.missing}
    assert set(found.figures) <= wanted
    assert assumed <= set(found.figures)
    assert not missing & set(found.figures)
    things = by_id(system)
    for path in set(found.figures) - assumed:
        owner, _, name = path.partition(".")
        assert things[owner].figures[name].value == found.figures[path]


@pytest.mark.parametrize("layout", LAYOUTS)
def test_no_bore_mass_or_lever_is_ever_assumed(layout: str) -> None:
    assumed = {each.path.partition(".")[2] for each in gather(starter(layout)).assumed}
    never = {"bore_m", "a_bore_m", "driver_only_mass_kg", "laden_mass_kg", "ratio", "wheelbase_m",
             "lever_ratio", "drum_lever_ratio", "boost_ratio", "knee_pa", "slope",
             "front_share", "diameter_m", "outer_diameter_m"}  # fmt: skip
    assert not assumed & never


@pytest.mark.parametrize("layout", LAYOUTS)
def test_what_is_assumed_lies_within_its_range_and_within_what_can_be(layout: str) -> None:
    system = small_car(layout)
    things = by_id(system)
    found = gather(system)
    assert found.missing == ()
    for each in found.assumed:
        owner, _, name = each.path.partition(".")
        assert each.low <= each.value <= each.high, each.path
        assert each.low < each.high, each.path
        field = field_of(things[owner].kind, name)
        assert field.least <= each.low, each.path
        assert each.high <= field.most, each.path
        assert each.mark == COMMON_PRACTICE or "memory" in each.mark, each.path
        assert things[owner].title in each.words


@pytest.mark.parametrize("layout", LAYOUTS)
def test_what_is_missing_says_how_to_find_it_and_what_waits_for_it(layout: str) -> None:
    for each in gather(starter(layout)).missing:
        assert len(each.question) > 10
        assert each.purposes
        assert set(each.purposes) <= set(PURPOSES)
        assert each.problem().describe().endswith(".")


def test_a_starter_asks_for_no_figure_that_goes_with_another_it_asks_for() -> None:
    asked = {each.path for each in gather(starter("front-rear tandem")).missing}
    assert "disc-front-left.outer_diameter_m" in asked
    assert "disc-front-left.pad_height_m" not in asked
    assert "caliper-front-left.fluid_m3" not in asked


def test_ranges_are_those_stated_or_those_assumed() -> None:
    system = small_car()
    body = system.part("car")
    weighed = Stated(950.0, Trust.MEASURED, 940.0, 960.0)
    body = replace(body, figures={**body.figures, "driver_only_mass_kg": weighed})
    system = replace(system, parts=tuple(body if p.id == "car" else p for p in system.parts))
    found = {each.path: each for each in ranges(system, gather(system))}
    mass = found["car.driver_only_mass_kg"]
    assert (mass.low, mass.value, mass.high, mass.trust) == (940.0, 950.0, 960.0, Trust.MEASURED)
    exact = found["car.wheelbase_m"]
    assert exact.low == exact.value == exact.high
    pads = found["caliper-front-left.pad_clearance_m"]
    assert pads.low < pads.high
    assert found["caliper-front-left.fluid_m3"].trust is Trust.ASSUMED
    assert set(found) == set(gather(system).figures)


def test_a_tyre_s_marking_stands_in_for_its_radius() -> None:
    body = small_car().part("car")
    figures = {name: each for name, each in body.figures.items() if "radius_m" not in name}
    marked = replace(body, figures=figures, choices={"front_tyre": "155R13", "rear_tyre": ""})
    found = gather(BrakeSystem("x", "x", parts=(marked,)))
    radius = {each.path: each for each in found.assumed}["car.front_rolling_radius_m"]
    # Common diameter of 155R13: 578 mm (from memory); a radial rolls on 3.05 / pi of it.
    assert radius.value == pytest.approx(0.289 * 3.05 / 3.14159, rel=0.01)
    assert radius.low < radius.value < radius.high
    assert radius.mark.startswith("from the tyre's marking")
    assert "car.rear_rolling_radius_m" in {each.path for each in found.missing}


def test_the_fluid_s_stiffness_goes_with_its_grade() -> None:
    def modulus(grade: str) -> tuple[float, float]:
        fluid = Part("fluid", "fluid", PartKind.FLUID, choices={"grade": grade})
        found = usual(fluid, "bulk_modulus_pa", {"temperature_c": 20.0})
        assert found is not None
        return found.low, found.high

    silicone, glycol, unknown = modulus("DOT 5"), modulus("DOT 4"), modulus("unknown")
    assert silicone[1] < glycol[0]
    assert unknown[0] <= silicone[0]
    assert unknown[1] >= glycol[1]


def test_a_valve_is_asked_only_for_what_its_form_has() -> None:
    def asked(form: str, **choices: str) -> set[str]:
        ports = (Port("in", "in"), Port("out", "out"))
        part = Part("v", "v", PartKind.VALVE, ports=ports, choices={"form": form, **choices})
        return {need.name for need in needs_of(BrakeSystem("x", "x", parts=(part,)))}

    assert asked("limiting") == {"knee_pa"}
    assert asked("proportioning") == {"knee_pa", "slope"}
    assert asked("proportioning", bypass="yes") == {"knee_pa", "slope", "shift_pa"}
    assert asked("deceleration-sensing") == {"closing_deceleration_g"}
    assert asked("warning shuttle") == {"shift_pa"}
    assert asked("shut-off") == set()


def test_an_override_must_be_one_of_the_figures() -> None:
    figures = gather(small_car()).figures
    assert overridden(figures, [("pedal.ratio", 5.5)])["pedal.ratio"] == 5.5
    with pytest.raises(BadInput, match=r"pedal.ration: is none of the figures"):
        overridden(figures, [("pedal.ration", 5.5)])


def test_an_empty_system_is_a_list_of_questions() -> None:
    found = gather(BrakeSystem("x", "x"))
    assert found.figures == {}
    assert {each.path for each in found.missing} == {"car", "pedal", "master cylinder", "fluid"}
    with pytest.raises(BadInput, match="car: is not known"):
        found.asked_for("torque")
