"""What the brakes owe, on the pages, with scripts switched off: owed, wanted, opened."""

from __future__ import annotations

import pytest

from bareshell.app import brakes_proofs
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.brakes.joints import joint_schedule
from bareshell.brakes.starters import starter
from bareshell.model import changes as c
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.whole.brake_proofs import air_proof_id, joint_proof_id, screw_proof_id
from tests.brakes import edits as e
from tests.web.pages.conftest import Hands

CAR = starter("front-rear tandem", threads="metric")
JOINT, SCREW = "pipe-rear-left-1", "caliper-front-left-bleed"


@pytest.fixture
def described(door: Door) -> Door:
    door.record(c.BrakeSystemSet(CAR))
    return door


@pytest.fixture
def owing(described: Door) -> Door:
    brakes_proofs.owe(described, Pen())
    return described


def state(door: Door, proof: str) -> ProofState:
    return proof_standings(door.build())[proof].state


def test_what_is_owed_is_offered_and_written_by_one_press(hands: Hands, described: Door) -> None:
    assert "differ in" in hands.see("/brakes/joints")
    page = hands.send("/brakes/owed", "/brakes/owed/proofs")
    assert "proofs are owed now" in page
    assert joint_proof_id(JOINT) in described.build().proofs
    assert brakes_proofs.owed(described).proofs_to_write == 0
    assert "proof" not in brakes_proofs.offer_of(described)


def test_what_is_wanted_goes_on_the_parts_desk_by_one_press(hands: Hands, owing: Door) -> None:
    before = len(owing.build().needs)
    page = hands.send("/brakes/owed", "/brakes/owed/needs")
    assert "on the parts desk now" in page
    assert len(owing.build().needs) > before


def test_a_joint_that_was_undone_is_pressed_on_its_own_page(hands: Hands, owing: Door) -> None:
    proof, air = joint_proof_id(JOINT), air_proof_id("master-floating")
    owing.record([c.ProofHeld(proof), c.ProofHeld(air)])
    assert f'href="/brakes/joints/{JOINT}"' in hands.see("/brakes/joints")
    page = hands.send(f"/brakes/joints/{JOINT}", words="for the handbrake")
    assert "Its own leak proof is spent" in page
    assert state(owing, proof) is ProofState.SPENT
    assert state(owing, air) is ProofState.SPENT


def test_a_screw_that_was_opened_is_pressed_on_its_own_page(hands: Hands, owing: Door) -> None:
    owing.record([c.ProofHeld(screw_proof_id(SCREW)), c.ProofHeld(joint_proof_id(JOINT))])
    assert f'href="/brakes/screws/{SCREW}"' in hands.see("/brakes/bleed")
    hands.send(f"/brakes/screws/{SCREW}", when="yesterday 21:00")
    assert state(owing, screw_proof_id(SCREW)) is ProofState.HELD, "it was held only after that"
    hands.send(f"/brakes/screws/{SCREW}")
    assert state(owing, screw_proof_id(SCREW)) is ProofState.SPENT
    assert state(owing, joint_proof_id(JOINT)) is ProofState.HELD


def test_a_time_that_cannot_be_read_comes_back_with_the_words_kept(
    hands: Hands, owing: Door
) -> None:
    path = f"/brakes/joints/{JOINT}"
    page = hands.refused(path, path, 422, words="by mistake", when="at the hour of ghosts")
    assert "by mistake" in page


def test_a_port_with_an_odd_name_has_a_page_too(hands: Hands, door: Door) -> None:
    caliper = CAR.part("caliper-front-left")
    ports = tuple(
        type(p)("bleed #2/top", p.chamber, bleeds=True) if p.bleeds else p for p in caliper.ports
    )
    system = e.with_part(CAR, caliper.id, ports=ports)
    door.record(c.BrakeSystemSet(system))
    brakes_proofs.owe(door, Pen())
    odd = next(one for one in joint_schedule(system).screws if "#" in one.id)
    address = screw_proof_id(odd.id).partition(".")[2]
    assert f'href="/brakes/screws/{address}"' in hands.see("/brakes/bleed")
    assert odd.words in hands.see(f"/brakes/screws/{address}").replace("&#39;", "'")


def test_other_brakes_than_those_on_the_car_owe_nothing(hands: Hands, door: Door) -> None:
    from dataclasses import replace

    from bareshell.model.brake import Role

    door.record(c.BrakeSystemSet(replace(CAR, id="was", role=Role.STANDARD)))
    assert "Undoing" not in hands.see("/brakes/joints?system=was")
    assert "describe them as built" in hands.see("/brakes/owed", 404).lower()


def test_the_joints_of_one_circuit_stand_in_one_drawer_on_the_proofs_page(
    hands: Hands, owing: Door
) -> None:
    title = "Joint dry under pressure, primary circuit"
    assert owing.build().proofs
    page = hands.see("/proofs?find=joint")
    assert page.count(title) < 6
    assert "front left hose" in page
