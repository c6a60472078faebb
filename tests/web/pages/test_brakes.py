"""The brakes on their pages, with scripts switched off: checked, failed, parked, bled, drawn."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from bareshell.app import brakes_reading
from bareshell.app.door import Door
from bareshell.app.plain import document
from bareshell.brakes.examples import small_car
from bareshell.model import changes as c
from bareshell.model.brake import Role
from bareshell.whole.brake_check import Asked
from tests.web.pages.conftest import Hands

CAR = small_car()
STANDARD = replace(small_car("single line"), id="standard", title="as it was", role=Role.STANDARD)
WITHOUT_BORE = replace(
    CAR,
    parts=tuple(replace(one, figures={}) if one.id == "master" else one for one in CAR.parts),
)

PAGES = (
    "/brakes",
    "/brakes?with=leak-pipe-rear&force=300&load=driver+only&road=0.5",
    "/brakes/compare",
    "/brakes/heat",
    "/brakes/park",
    "/brakes/park?hand=300&slope=12&road=0.3&load=driver+only",
    "/brakes/bleed",
    "/brakes/commissioning",
    "/brakes/joints",
    "/brakes/owed",
    "/brakes/tests",
    "/brakes/pictures",
    "/brakes/circuit",
    "/brakes/circuit/master",
    "/brakes/circuit/hose-rear",
    "/brakes/yardsticks",
    "/brakes/begin",
    "/add/brake-part",
    "/add/brake-line",
)
"""Every page of the brakes; that of trust is slow and has tests of its own."""


@pytest.fixture
def described(door: Door) -> Door:
    door.record(
        [
            c.BrakeSystemSet(CAR),
            c.BrakeSystemSet(STANDARD),
            c.YardsticksChosen(("un-r13-service", "un-r13-circuit", "un-r13-adhesion")),
        ]
    )
    return door


@pytest.mark.usefixtures("described")
@pytest.mark.parametrize("path", PAGES)
def test_each_page_shows_and_has_a_twin(hands: Hands, path: str) -> None:
    page = hands.see(path)
    bare, _, query = path.partition("?")
    body = hands.client.get(f"{bare}.json{'?' + query if query else ''}").json()

    assert body["format"] == 1
    assert 'class="limits"' in page
    assert "onclick" not in page
    assert " style=" not in page


@pytest.mark.parametrize("path", PAGES)
def test_a_build_that_describes_no_brakes_says_how_to_begin(empty_hands: Hands, path: str) -> None:
    if path.startswith(("/brakes/begin", "/brakes/yardsticks")):
        empty_hands.see(path)
        return
    front = path.partition("?")[0] == "/brakes"
    page = empty_hands.see(path, 200 if front else 404)
    assert "what brakes the car has" in page or "what brakes are on the car" in page
    assert "/brakes/begin" in page or "page of the brakes" in page


def test_the_twin_of_the_check_says_what_the_reading_says(hands: Hands, described: Door) -> None:
    found = brakes_reading.check(described, "", Asked(failure="leak-pipe-rear"))
    body = hands.client.get("/brakes.json?with=leak-pipe-rear").json()

    assert set(body) == {"format"} | {field.name for field in fields(found)}
    told = document(found)
    for name in ("now", "failures", "locks", "curve", "assumed"):
        assert body[name] == told[name], name


@pytest.mark.usefixtures("described")
def test_a_failure_is_told_drawn_and_held_up(hands: Hands) -> None:
    page = hands.see("/brakes?with=leak-pipe-rear")

    assert "Front wheels brake. Rear wheels do not." in page
    assert "the failed element" in page, "in the legend of the picture"
    assert "2.9 m/s² here" in page
    assert "selected>" in page
    assert "they let no car through" in page


@pytest.mark.usefixtures("described")
def test_the_same_brakes_stand_beside_the_standard_ones(hands: Hands) -> None:
    page = hands.see("/brakes")

    assert "As built against standard" in page
    assert "Force of the foot for 4.9 m/s2, laden" in page
    other = hands.see(f"/brakes/compare?system={STANDARD.id}")
    assert "As it was / " in other or "as it was / " in other


@pytest.mark.usefixtures("described")
@pytest.mark.parametrize(
    ("path", "status", "said"),
    [
        ("/brakes?force=0", 422, "force of the foot"),
        ("/brakes?force=hard", 422, "force of the foot"),
        ("/brakes?load=full", 422, "load"),
        ("/brakes?road=7", 422, "adhesion of the road"),
        ("/brakes?with=meteor", 404, "no failure &#39;meteor&#39;"),
        ("/brakes?system=spare", 404, "spare"),
        ("/brakes/park?slope=900", 422, "slope"),
        ("/brakes/circuit/boot-lid", 404, "boot-lid"),
        ("/brakes/compare?with=spare", 404, "spare"),
        ("/add/brake-part?kind=spoiler", 422, "kind"),
    ],
)
def test_what_cannot_be_asked_is_refused_in_a_sentence(
    hands: Hands, path: str, status: int, said: str
) -> None:
    assert said in hands.see(path, status).casefold()


def test_missing_figures_stop_an_answer_and_are_asked_for(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(WITHOUT_BORE))
    page = hands.see("/brakes")

    assert "Not worked out yet" in page
    assert "Bore (" in page or "bore (" in page.casefold()
    assert "m/s²</p>" not in page


@pytest.mark.usefixtures("described")
def test_nothing_is_met_where_nobody_picked_a_yardstick(hands: Hands, described: Door) -> None:
    described.record(c.YardsticksChosen(()))
    page = hands.see("/brakes")

    assert "nothing is held up" in page
    assert "yardsticks met" not in page


@pytest.mark.usefixtures("described")
def test_the_parking_brake_holds_less_where_the_road_is_wet(hands: Hands) -> None:
    def slope(road: str) -> float:
        body = hands.client.get(f"/brakes/park.json?road={road}").json()
        return float(min(body["up"]["slope"], body["down"]["slope"]))

    assert slope("0.2") < slope("0.8")


@pytest.mark.usefixtures("described")
def test_bleeding_names_every_screw_and_warns_of_the_fluid(hands: Hands) -> None:
    page = hands.see("/brakes/bleed")
    screws = [part for part in CAR.parts for port in part.ports if port.bleeds]

    body = hands.client.get("/brakes/bleed.json").json()
    assert len(body["plan"]["steps"]) == len(screws)
    assert "Eyes" in page


@pytest.mark.usefixtures("described")
def test_the_pipe_sheet_has_every_pipe_and_its_paper_form(hands: Hands) -> None:
    page = hands.see("/brakes/joints")
    body = hands.client.get("/brakes/joints.json").json()

    assert len(body["sheet"]["pipes"]) == len(body["sheet"]["cuts"]["pipes"])
    for pipe in body["sheet"]["cuts"]["pipes"]:
        assert pipe["title"] in page
    assert "wide-only" in page, "what is printed"


@pytest.mark.usefixtures("described")
def test_two_things_may_fail_at_once_and_both_are_marked(hands: Hands, described: Door) -> None:
    page = hands.see("/brakes?two=yes")
    assert "Each two things at once" in page
    both = brakes_reading.check(described, asked=Asked(two_at_once=True)).failures[-1]
    assert both.left == "nothing but the parking brake"

    shown = hands.see(f"/brakes?with={both.id.replace('+', '%2B')}")

    assert f"With this: {both.words}" in shown
    assert "Each two things at once" in shown
    single = brakes_reading.check(described).failures
    assert min(one.deceleration_m_s2 for one in single) > both.deceleration_m_s2
