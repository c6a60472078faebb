"""Trial fit as a page: all of it in the address, nothing kept before one presses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.web.session.by_hand import form_to, press
from tests.web.session.made_up_plan import MadeUpPlan

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from bareshell.app.door import Door

PATH = "/road-ahead/trial"


def test_without_a_change_there_are_the_forms_and_no_second_road(
    site: TestClient, plan: MadeUpPlan
) -> None:
    html = site.get(PATH).text
    assert "Change something in a copy" in html
    assert "Keep these changes" not in html
    assert "trial" not in plan.asked


def test_each_form_leads_to_an_address_that_holds_the_change(site: TestClient) -> None:
    for fields, code in (
        ({"add": "without", "job": "Door seal"}, "without%3Adoor-seal"),
        ({"add": "hours", "job": "carb", "hours": "4"}, "hours%3Acarb%3D4"),
        ({"add": "part", "need": "hose", "day": "2026-03-20"}, "part%3Ahose%3D2026-03-20"),
        ({"add": "part", "need": "hose", "day": "", "here": "yes"}, "part%3Ahose%3Dhere"),
        (
            {"add": "session", "weekday": "SU", "starts": "10:00", "minutes": "240"},
            "session%3ASU%3D10%3A00%2F240%2F1",
        ),
        ({"add": "day", "day": "2026-03-07", "minutes": "0"}, "day%3A2026-03-07%3D0"),
        ({"add": "helper", "day": "", "pattern": "eve"}, "helper%3Aeve"),
        ({"add": "helps", "helps": "any"}, "helps%3Aany"),
        ({"add": "heated", "degrees": "15"}, "heated%3A15"),
        ({"add": "lowest", "job": "Seam", "degrees": "5"}, "lowest%3Aseam%3D5"),
    ):
        sent = site.get(PATH, params={"try": "helps:marked", **fields}, follow_redirects=False)
        assert sent.status_code == 303, fields
        assert sent.headers["location"] == f"{PATH}?try=helps%3Amarked&try={code}"


def test_two_roads_stand_side_by_side_with_a_way_to_take_each_change_out(
    site: TestClient,
) -> None:
    html = site.get(f"{PATH}?try=without:door-seal&try=heated:15").text
    assert "<b>'Door seal' left out</b>" in html.replace("&#39;", "'")
    assert f'href="{PATH}?try=heated%3A15">take it out' in html
    assert "The road is nearer by 7.0 days, give or take 1.0 days." in html
    assert "never" in html
    assert "and 2 after these" in html
    assert "Never reached in the copy" in html
    twin = site.get(f"{PATH}.json?try=heated:15").json()
    assert twin["steps"] == [
        {"code": "heated:15", "kind": "heated", "words": "the garage heated to 15 °C"}
    ]


def test_what_cannot_be_comes_back_in_its_form_with_what_was_typed(site: TestClient) -> None:
    sent = site.get(PATH, params={"add": "hours", "job": "Carb", "hours": "many"})
    assert sent.status_code == 422
    assert 'value="many"' in sent.text
    assert 'value="Carb"' in sent.text
    assert site.get(PATH, params={"add": "paint"}).status_code == 422
    gone = site.get(f"{PATH}?try=without:nothing")
    assert gone.status_code == 422
    assert "there is no job" in gone.text.casefold()
    assert site.get(f"{PATH}.json?try=without:nothing").status_code == 404


def test_nothing_is_written_down_before_it_is_kept(site: TestClient, door: Door) -> None:
    count = door.latest()
    html = site.get(f"{PATH}?try=without:door-seal&try=heated:15").text
    assert door.latest() == count
    press(site, form_to(html, PATH))
    assert door.latest() == count + 2
    assert door.build().garage.heated_to_c == 15.0
    assert "Kept: &#39;Door seal&#39; left out" in site.get("/road-ahead").text


def test_levers_that_one_can_pull_lead_to_their_trial(site: TestClient) -> None:
    html = site.get("/road-ahead/levers").text
    assert "/road-ahead/trial?try=part%3Ahose%3D-7" in html
