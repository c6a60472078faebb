"""The page of heat and fluid: temperatures with ranges, the margin, what must not meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta

import pytest

from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, Role
from bareshell.model.trust import Stated, Trust
from tests.brakes import edits as e
from tests.stories import NOW
from tests.web.pages.conftest import Hand, Hands

PATH = "/brakes/heat"
TOP = Stated(38.0, Trust.DATA_SHEET)


def brakes(**fluid: str) -> BrakeSystem:
    bare = replace(small_car(), id="as-built", role=Role.AS_BUILT)
    known = e.with_part(bare, "fluid", choices={"grade": "DOT 4", **fluid})
    figures = {**known.part("car").figures, "top_speed_m_s": TOP}
    return replace(
        known,
        parts=tuple(
            replace(one, figures=figures) if one.id == "car" else one for one in known.parts
        ),
    )


def twin(hands: Hands, query: str = "") -> Mapping[str, object]:
    answer = hands.client.get(f"{PATH}.json{query}")
    assert answer.status_code == 200, answer.text
    return dict(answer.json())


def course(found: Mapping[str, object], key: str) -> Mapping[str, object]:
    listed = found["courses"]
    assert isinstance(listed, list)
    return dict(next(one for one in listed if one["key"] == key))


def hottest(found: Mapping[str, object], key: str) -> float:
    fluid = course(found, key)["hottest_fluid"]
    assert isinstance(fluid, dict)
    return float(fluid["temperature_c"])


def test_three_courses_are_shown_each_with_its_picture_and_its_ranges(
    hands: Hands, door: Door
) -> None:
    door.record(c.BrakeSystemSet(brakes()))

    page = hands.see(PATH)

    for words in ("One stop from", "Fifteen snubs", "6 km down 8 %", "Fluid today"):
        assert words in page
    assert "Annex 3, 1.5.1" in page
    assert "from memory" in page
    assert "Boiling point of DOT 4" in page
    assert page.count("Temperatures against time") >= 3
    for one in twin(hands)["courses"]:  # type: ignore[attr-defined]
        for wheel in one["wheels"]:
            for lump in wheel["lumps"]:
                assert lump["low_c"] <= lump["temperature_c"] <= lump["high_c"]


def test_a_steeper_longer_or_laden_descent_is_hotter(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(brakes()))
    usual = hottest(twin(hands), "descent")

    assert hottest(twin(hands, "?slope=12"), "descent") > usual
    assert hottest(twin(hands, "?length=9"), "descent") > usual
    assert hottest(twin(hands, "?load=driver+only"), "descent") < usual
    assert hottest(twin(hands, "?air=30+C"), "descent") > usual


def test_the_fluid_is_hottest_after_the_car_has_stopped(hands: Hands, door: Door) -> None:
    """Heat goes on creeping from disc to fluid: common practice, no source."""
    door.record(c.BrakeSystemSet(brakes()))

    found = course(twin(hands), "stop")

    assert "after the car has stopped" in str(found["when"])
    fluid = found["hottest_fluid"]
    assert isinstance(fluid, dict)
    assert fluid["at_s"] > float(str(found["driven_s"]))


def test_the_stop_takes_the_energy_of_the_car(hands: Hands, door: Door) -> None:
    """Half the mass times the speed squared, with what the wheels add (any book of mechanics)."""
    door.record(c.BrakeSystemSet(brakes()))
    figures = brakes().part("car").figures
    mass = figures["laden_mass_kg"].value

    found = course(twin(hands, "?from=90+km/h"), "stop")

    wheels = found["wheels"]
    assert isinstance(wheels, list)
    into = sum(one["energy_j"] for one in wheels)
    assert into == pytest.approx(0.5 * mass * 1.04 * 25.0**2, rel=0.02)


def test_the_margin_is_worse_for_older_fluid(hands: Hands, door: Door, hand: Hand) -> None:
    door.record(c.BrakeSystemSet(brakes(filled_on="2026-02-01")))
    fresh = course(twin(hands), "descent")["margin_low_k"]

    hand.now = NOW + timedelta(days=3 * 365)
    old = twin(hands)

    assert float(str(course(old, "descent")["margin_low_k"])) < float(str(fresh)) - 20
    fluid = old["fluid"]
    assert isinstance(fluid, dict)
    assert fluid["age_years"] == pytest.approx(3.1, abs=0.1)


def test_fluids_that_would_meet_are_said_before_anything_is_wetted(
    hands: Hands, door: Door
) -> None:
    used = e.with_part(brakes(), "caliper-front-left", choices={"held": "DOT 5"})
    door.record(c.BrakeSystemSet(used))

    page = hands.see(PATH)

    assert "the DOT 5 that it held before would meet DOT 4" in page
    assert "do not wet it" in page


def test_unknown_fluid_is_shown_as_anything_and_asked_about(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(brakes(grade="unknown")))

    page = hands.see(PATH)

    assert "taken as any of the DOT ones" in page
    assert "colour never proves it" in page.lower()
    assert "No boiling curve is drawn" in page


def test_mineral_fluid_has_no_margin_and_says_so(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(brakes(grade="mineral")))

    assert "where it boils is not known" in hands.see(PATH)
    assert course(twin(hands), "stop")["margin_low_k"] is None


def test_without_a_top_speed_only_the_series_waits(hands: Hands, door: Door) -> None:
    bare = replace(small_car(), id="as-built", role=Role.AS_BUILT)
    door.record(c.BrakeSystemSet(bare))

    page = hands.see(PATH)

    assert "Not worked out: top speed of the car" in page
    assert course(twin(hands), "stop")["wheels"]


def test_hot_brakes_are_held_against_what_was_picked(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(brakes()))
    assert "held against nothing" in hands.see(PATH)

    door.record(c.YardsticksChosen(("un-r13h-hot", "uk-mot-service")))

    page = hands.see(PATH)
    assert "The linings must keep" in page
    verdicts = twin(hands)["verdicts"]
    assert isinstance(verdicts, list)
    assert [one["id"] for one in verdicts] == ["un-r13h-hot"]


@pytest.mark.parametrize(
    ("query", "words"),
    [
        ("?slope=0", "slope"),
        ("?from=900+km/h", "speed at the beginning"),
        ("?length=nine", "length of the descent"),
        ("?stand=-3", "time of standing"),
        ("?air=warm", "air"),
        ("?load=full", "load"),
    ],
)
def test_what_cannot_be_is_refused_by_name(
    hands: Hands, door: Door, query: str, words: str
) -> None:
    door.record(c.BrakeSystemSet(brakes()))

    answer = hands.client.get(PATH + query)

    assert answer.status_code == 422
    assert words in answer.text.lower()
