"""Many proofs at once, the way back and how the car is left, as somebody sees them on a phone."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.looked import Seen
from bareshell.model.part import Need
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind, Reading
from bareshell.model.spec import BoltSpec
from bareshell.model.temp import Departure
from tests.web.pages.conftest import Hand, Hands

PAGES = ("/torque", "/rehearsal", "/again", "/way-back", "/left")


@pytest.mark.parametrize("path", PAGES)
def test_an_empty_build_shows_every_one_of_them(empty_hands: Hands, path: str) -> None:
    page = empty_hands.see(path)

    assert "<h1>" in page
    assert empty_hands.client.get(f"{path}.json").json()["format"] == 1


def test_the_way_through_a_gate_names_jobs_in_order_and_what_is_proved_by_hand(
    hands: Hands, door: Door
) -> None:
    page = hands.see("/gates/under-car/way")
    assert page.index("Rear pipe") < page.index("Rear hose") < page.index("Hold")
    assert "Door seal" not in page

    door.record([c.JobFinished(name, 1) for name in ("rear-pipe", "rear-hose", "hold")])
    page = hands.see("/gates/under-car/way")
    assert "Prove by hand" in page
    assert "rear tee: Rear tee dry under pressure" in page
    assert "/gates/under-car/way" in hands.see("/gates/under-car")


def test_a_gate_that_is_not_there_is_said_so(hands: Hands) -> None:
    assert "there is no gate" in hands.see("/gates/nowhere/way", 404).lower()


def test_the_torque_sheet_tells_fitted_from_torqued_and_marked(hands: Hands, door: Door) -> None:
    bolts = Proof(
        "bolts", "Bracket bolts torqued", ProofKind.TORQUE, AboutKind.FIXING, made_by=("carb",)
    )
    door.record([c.ProofSet(bolts), c.JobFinished("carb", 2)])
    assert "On the car, not torqued and marked" in hands.see("/torque")

    door.record(c.ProofHeld("bolts", (Reading("torque", 22, "N.m", "small wrench"),), "owner"))
    page = hands.see("/torque")
    assert "On the car, not torqued and marked" not in page
    assert "small wrench" in page


def test_the_torque_sheet_computes_what_it_knows_and_asks_for_the_rest(
    hands: Hands, door: Door
) -> None:
    bolts = Proof(
        "bolts", "Bracket bolts torqued", ProofKind.TORQUE, AboutKind.FIXING, made_by=("carb",),
        limits=(Limit("torque", "N m", 60.0, 65.0),),
    )  # fmt: skip
    need = Need("bolt", "Bracket bolt", "carb", 2, spec=BoltSpec(thread="M8x1.25"), fixing=True)
    door.record([c.ProofSet(bolts), c.NeedSet(need)])
    page = hands.see("/torque")
    assert "grade not known: read the head marks" in page
    assert "lubrication not known" in page

    hands.send("/needs/bolt/edit", "/needs/bolt/edit", spec_grade="8.8",
               duty_seat="firm metal faces", duty_lubrication="oiled")  # fmt: skip
    page = hands.see("/torque")
    assert "computed <b" in page
    assert "12.7 to 33.1 N.m" in page
    assert "The given 60 to 65 N.m stands above the computed 12.7 to 33.1 N.m" in page
    assert "0.75 x 580 MPa" in page
    bolt = hands.client.get("/torque.json").json()["lines"][0]["bolts"][0]
    assert bolt["usual_nm"] == pytest.approx(19.1, abs=0.05)


def test_a_proof_is_told_what_it_only_nips_and_whose_bolts_it_is_about(
    hands: Hands, door: Door
) -> None:
    need = Need("bolt", "Bracket bolt", "carb", 2, spec=BoltSpec(), fixing=True)
    proof = Proof("pivot", "Pivot nipped", ProofKind.TORQUE, made_by=("carb",))
    door.record([c.NeedSet(need), c.ProofSet(proof)])
    title = door.build().jobs["rear-hose"].job.title
    hands.send("/proofs/pivot/edit", "/proofs/pivot/edit", nipped_until=title,
               fixings="Bracket bolt")  # fmt: skip
    page = hands.see("/proofs/pivot")
    assert "only nipped until" in page
    assert 'href="/torque#pivot"' in page
    kept = door.build().proofs["pivot"].proof
    assert (kept.nipped_until, kept.fixings) == ("rear-hose", ("bolt",))

    door.record([c.JobFinished("carb", 2), c.ProofHeld("pivot", (), "owner")])
    page = hands.see("/torque")
    assert "Final torque owed in" in page
    assert title in page


def test_an_item_is_looked_at_by_name_and_what_is_wrong_must_be_said(
    hands: Hands, door: Door
) -> None:
    page = hands.refused("/rehearsal", "/rehearsal/horn", 422, seen=str(Seen.WRONG), by="owner")
    assert "Say what must be put right" in page

    hands.send("/rehearsal", "/rehearsal/horn", seen=str(Seen.WRONG), by="owner", words="rattles")
    assert door.build().looks["horn"].words == "rattles"
    assert "rattles" in hands.see("/rehearsal")


def test_miles_bring_a_recheck_due(hands: Hands, door: Door) -> None:
    hands.send("/again", "/again", miles="52.5")
    assert door.build().miles[-1].miles == 52.5
    assert "52.5" in hands.see("/again")

    assert "is no number" in hands.refused("/again", "/again", 422, miles="far")


def test_the_way_back_can_be_put_into_the_build_once(hands: Hands, door: Door) -> None:
    away = Departure("pipe", "Other pipe", "brakes", "steel", "copper-nickel", jobs=("rear-pipe",))
    door.record([c.DepartureSet(away), c.JobFinished("rear-pipe", 2)])
    path = "/departures/pipe/back"
    assert "where the original is" in hands.see(path).lower()

    page = hands.send(path, path)

    assert "This way back is in the build" in page
    assert "back-pipe-fit-rear-pipe" in door.build().jobs
    assert "Other pipe" in hands.see("/way-back")


def test_the_card_after_a_gap_says_what_is_late(hands: Hands, hand: Hand, door: Door) -> None:
    door.record(c.JobStarted("rear-pipe"))
    hand.now += timedelta(days=21)

    page = hands.see("/left")

    assert "21 days ago" in page
    assert "Should have come by now" in page
    assert "Loose, half done" in page
