"""Commissioning on its page, with scripts switched off."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.app import brakes_proofs
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.brakes.examples import small_car
from bareshell.brakes.starters import STARTERS, starter
from bareshell.model import changes as c
from bareshell.model.brake import BrakeReading, ReadingKind, Role
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.whole.brake_proofs import joint_proof_id
from tests.brakes import edits as e
from tests.web.pages.conftest import Hands

HERE = "/brakes/commissioning"
CAR = replace(
    e.with_part(small_car(), "fluid", choices={"grade": "DOT 4"}),
    id="as-built",
    role=Role.AS_BUILT,
)


@pytest.fixture
def described(door: Door) -> Door:
    door.record(c.BrakeSystemSet(CAR))
    brakes_proofs.owe(door, Pen())
    return door


def test_the_order_comes_with_its_cautions_and_what_is_next(hands: Hands, described: Door) -> None:
    assert described.build().brakes
    page = hands.see(HERE)
    assert "Next:" in page
    assert "goggles" in page.lower()
    assert "each degree" in page
    assert 'class="now"' in page


@pytest.mark.parametrize("name", STARTERS)
def test_brakes_without_a_figure_have_the_page_too(hands: Hands, door: Door, name: str) -> None:
    door.record(c.BrakeSystemSet(replace(starter(name), id="as-built", role=Role.AS_BUILT)))
    page = hands.see(HERE)
    assert "not worked out" in page
    assert "Bleed again" in page


def test_a_hold_is_written_down_with_the_joint_that_was_wet(hands: Hands, described: Door) -> None:
    page = hands.send(
        HERE,
        "/brakes/commissioning/hold",
        choice_circuit="master-floating",
        figure_first_pressure_pa="10",
        figure_minutes="5",
        wet=["pipe-rear-left-1"],
    )
    assert "Release the pressure" in page
    standing = proof_standings(described.build())[joint_proof_id("pipe-rear-left-1")]
    assert standing.state is ProofState.FAILED


def test_a_hold_of_which_nobody_looked_at_a_joint_proves_none(
    hands: Hands, described: Door
) -> None:
    described.record(
        c.BrakeReadingTaken(
            BrakeReading(
                "hold-1",
                ReadingKind.HOLD,
                described.now(),
                {"first_pressure_pa": 10e5, "last_pressure_pa": 10e5},
                {"circuit": "master-floating"},
            )
        )
    )
    assert "not proven" in hands.see(HERE)


def test_a_pedal_test_is_told_on_the_page(hands: Hands, described: Door) -> None:
    page = hands.send(
        HERE,
        "/brakes/commissioning/pedal",
        figure_first_force_n="70",
        figure_first_travel_m="40",
        figure_second_force_n="300",
        figure_second_travel_m="75",
        choice_when="before the road",
    )
    assert len(described.build().brake_readings) == 1
    assert "Room for air" in page


def test_what_cannot_be_read_comes_back_with_the_rest_kept(hands: Hands, described: Door) -> None:
    page = hands.refused(
        HERE,
        "/brakes/commissioning/pedal",
        422,
        figure_first_force_n="a lot",
        figure_first_travel_m="40",
    )
    assert 'value="40"' in page
    assert not described.build().brake_readings


def test_a_bedding_series_is_chosen_by_its_address(hands: Hands, described: Door) -> None:
    assert described.build().brakes
    page = hands.see(f"{HERE}?series=two+rounds")
    assert "gets hottest" in page
    hands.see(f"{HERE}?series=none+such", 404)
