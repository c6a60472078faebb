"""The page of trust, and shares beside the verdicts once they are there."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bareshell.app import brakes_trust
from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.brakes.starters import starter
from bareshell.model import changes as c
from bareshell.model.brake import Role
from bareshell.model.trust import Stated, Trust
from bareshell.web.beside import StillWorking
from bareshell.web.trust_desk import TrustDesk
from bareshell.whole.brake_trust import TrustAsked, TrustView
from tests.brakes import edits as e
from tests.web.pages.conftest import Hands

if TYPE_CHECKING:
    from fastapi import FastAPI

PATH = "/brakes/trust"
SHARE = Stated(0.47, Trust.ASSUMED, 0.41, 0.54)
UNWEIGHED = e.with_part(small_car(), "car", figures={"laden_front_share": SHARE})
CAR = replace(UNWEIGHED, id="as-built", role=Role.AS_BUILT)
FEW = "?samples=400"


@pytest.fixture(autouse=True)
def described(door: Door) -> None:
    door.record(c.BrakeSystemSet(CAR))
    door.record(c.YardsticksChosen(("un-r13h-adhesion", "uk-mot-imbalance")))


class SlowHand:
    """Works it out from fewer combinations, and only once it is let go."""

    def __init__(self) -> None:
        self.let_go = threading.Event()
        self.asked: list[tuple[str, TrustAsked]] = []

    def __call__(self, door: Door, system_id: str, asked: TrustAsked) -> TrustView:
        self.asked.append((system_id, asked))
        assert self.let_go.wait(30)
        return brakes_trust.trust(door, system_id, replace(asked, count=400))


@pytest.fixture
def slow(app: FastAPI) -> Iterator[SlowHand]:
    """A desk at which things take their time."""
    hand = SlowHand()
    app.state.trust_desk = TrustDesk(hand, patience_s=0.05)
    yield hand
    hand.let_go.set()
    app.state.trust_desk.close()
    del app.state.trust_desk


def test_what_to_measure_first_leads_to_the_figures_form(hands: Hands) -> None:
    page = hands.see(PATH + FEW)
    assert "Measure first:" in page
    address = "/brakes/circuit/car#figure-laden_front_share"
    assert f'href="{address}"' in page
    assert 'id="figure-laden_front_share"' in hands.see("/brakes/circuit/car")


def test_each_answer_says_its_share_its_worst_and_that_it_is_no_chance(hands: Hands) -> None:
    page = hands.see(PATH + FEW)
    assert "of 100 combinations" in page
    assert "The worst combination" in page
    assert "A share of combinations is no chance" in page
    assert "Only a roller test shows it" in page
    assert "The pedal stays off the floor whatever one thing fails" in page
    assert 'id="un-r13h-adhesion"' in page
    assert 'href="#un-r13h-adhesion"' in page


def test_the_twin_holds_what_the_page_says(hands: Hands) -> None:
    answer = hands.client.get(f"{PATH}.json{FEW}&seed=3")
    assert answer.status_code == 200
    found = answer.json()
    assert (found["count"], found["seed"]) == (400, 3)
    one = next(each for each in found["answers"] if each["id"] == "un-r13h-adhesion")
    assert 0.0 < one["share"] < 1.0
    assert one["settles"][0]["path"] == "car.laden_front_share"
    assert len(one["worst_inputs"]) == found["unknowns"]


def test_other_brakes_of_the_build_are_told_and_linked_as_theirs(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(replace(CAR, id="idea", title="another idea", role=Role.IDEA)))
    page = hands.see(f"{PATH}{FEW}&system=idea")
    assert "another idea" in page
    assert 'href="/brakes/circuit/car?system=idea#figure-laden_front_share"' in page


def test_brakes_without_figures_ask(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(replace(starter("single line"), id="bare", role=Role.IDEA)))
    page = hands.see(f"{PATH}{FEW}&system=bare")
    assert "Not known" in page
    assert "of 100 combinations" not in page


@pytest.mark.parametrize("wrong", ["samples=3", "samples=1.5e3.2", "samples=500.5", "road=9"])
def test_what_cannot_be_drawn_is_refused_in_words(hands: Hands, wrong: str) -> None:
    answer = hands.client.get(f"{PATH}?{wrong}")
    assert answer.status_code == 422
    assert "combinations" in answer.text or "Adhesion" in answer.text


# ------------------------------------------------------------------ beside the pages


def test_the_check_does_not_wait_and_shows_shares_once_they_are_there(
    hands: Hands, slow: SlowHand
) -> None:
    page = hands.see("/brakes")
    assert "is being worked out" in page
    assert "of 100 combinations" not in page
    slow.let_go.set()
    answer = hands.client.get("/brakes.json")
    verdicts = {one["id"]: one for one in answer.json()["verdicts"]}
    assert 0.0 < verdicts["un-r13h-adhesion"]["share"] < 1.0
    assert verdicts["uk-mot-imbalance"]["share"] is None
    page = hands.see("/brakes")
    assert "is being worked out" not in page
    assert verdicts["un-r13h-adhesion"]["share_words"] in page
    assert "What would settle it" in page
    assert "#figure-laden_front_share" in page
    assert 'href="/brakes/trust#un-r13h-adhesion"' in page
    assert slow.asked == [("as-built", TrustAsked())], "it was worked out twice"


def test_another_road_is_another_question(hands: Hands, slow: SlowHand) -> None:
    slow.let_go.set()
    assert hands.client.get("/brakes.json?road=0.5").status_code == 200
    assert 'href="/brakes/trust?road=0.5#un-r13h-adhesion"' in hands.see("/brakes?road=0.5")
    assert slow.asked == [("as-built", TrustAsked(friction_of_road=0.5))]


def test_an_entry_makes_it_another_question(hands: Hands, slow: SlowHand, door: Door) -> None:
    slow.let_go.set()
    before = hands.client.get("/brakes.json").json()
    weighed = e.with_part(CAR, "car", figures={"laden_front_share": Stated(0.47, Trust.MEASURED)})
    door.record(c.BrakeSystemSet(weighed))
    after = hands.client.get("/brakes.json").json()
    shares = [found["verdicts"][0]["share"] for found in (before, after)]
    assert shares[0] != shares[1]
    assert len(slow.asked) == 2


def test_it_is_begun_before_anybody_looks(slow: SlowHand, app: FastAPI, door: Door) -> None:
    slow.let_go.set()
    app.state.trust_desk.warm_up(None)
    app.state.trust_desk.warm_up(door)
    assert app.state.trust_desk.trust(door, "as-built", wait_s=30.0).count == 400
    assert slow.asked == [("as-built", TrustAsked())]


def test_a_page_that_would_wait_goes_on_being_worked_out(
    slow: SlowHand, app: FastAPI, door: Door
) -> None:
    desk = app.state.trust_desk
    with pytest.raises(StillWorking) as waiting:
        desk.trust(door, "as-built")
    assert "still being worked out" in str(waiting.value)
    assert desk.soon(door, "as-built") is None
    slow.let_go.set()
    assert desk.trust(door, "as-built", wait_s=30.0).count == 400
    assert len(slow.asked) == 1
