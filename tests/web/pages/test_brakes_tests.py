"""Readings of the brakes: typed in as the tester printed them, worked out, held up."""

from __future__ import annotations

import pytest

from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.model import changes as c
from tests.web.pages.conftest import Hands

PATH = "/brakes/tests"


@pytest.fixture
def described(door: Door) -> Door:
    door.record(c.BrakeSystemSet(small_car()))
    door.record(c.YardsticksChosen(("uk-mot-service", "uk-mot-imbalance")))
    return door


@pytest.mark.usefixtures("described")
def test_a_roller_sheet_comes_to_shares_and_verdicts(hands: Hands) -> None:
    form = f"{PATH}/roller%20sheet"
    path = f"{PATH}?kind=roller+sheet"
    page = hands.send(
        path,
        form.replace("%20", " "),
        figure_front_left_n="190 kgf",
        figure_front_right_n="110 kgf",
        figure_rear_left_n="80 kgf",
        figure_rear_right_n="70 kgf",
        figure_mass_kg="800 kg",
        figure_pedal_force_n="300 N",
    )

    assert "56%" in page, "450 kgf over 800 kg"
    assert "42%" in page, "80 of 190 missing on the right"
    assert "meets 50 %" in page
    assert "short of 70 %" in page
    assert "Beside the calculation" in page


def test_a_figure_that_cannot_be_is_refused_with_its_name(hands: Hands, described: Door) -> None:
    page = hands.refused(
        f"{PATH}?kind=decelerometer", f"{PATH}/decelerometer", 422, figure_deceleration_g="62"
    )

    assert "deceleration" in page
    assert not described.build().brake_readings


@pytest.mark.usefixtures("described")
def test_two_pushes_say_what_would_explain_them(hands: Hands) -> None:
    page = hands.send(
        f"{PATH}?kind=pedal+test",
        f"{PATH}/pedal test",
        figure_first_force_n="80 N",
        figure_first_travel_m="60 mm",
        figure_second_force_n="350 N",
        figure_second_travel_m="125 mm",
    )

    assert "ml of air at the most" in page
    assert "Keep the figures for 50 and 500 miles" in page


@pytest.mark.usefixtures("described")
def test_no_reading_of_that_kind_is_said_so(hands: Hands) -> None:
    assert "there is no reading" in hands.see(f"{PATH}?kind=vibes", 404).lower()
