"""The pictures of the brakes: on one page, as files, as a PDF."""

from __future__ import annotations

import sys
from dataclasses import replace

import pytest

from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.draw.brake_drawn import PICTURES
from bareshell.model import changes as c
from bareshell.model.brake import Role
from tests.brakes import edits as e
from tests.web.pages.conftest import Hands

CAR = replace(
    e.with_part(small_car(), "fluid", choices={"grade": "DOT 4"}),
    id="as-built",
    role=Role.AS_BUILT,
)


@pytest.fixture
def described(door: Door) -> Door:
    door.record(c.BrakeSystemSet(CAR))
    return door


def test_every_picture_is_on_the_page_and_had_as_a_file(hands: Hands, described: Door) -> None:
    assert described.build().brakes
    page = hands.see("/brakes/pictures")
    for what in PICTURES:
        assert f"/brakes/pictures/{what}.svg" in page
        answer = hands.client.get(f"/brakes/pictures/{what}.svg?light=garage")
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "image/svg+xml"
        assert answer.text.startswith("<?xml")
    assert hands.client.get("/brakes/pictures/portrait.svg").status_code == 404
    assert hands.client.get("/brakes/pictures/plan.svg?light=dusk").status_code == 404


def test_all_of_them_come_on_paper(hands: Hands, described: Door) -> None:
    assert described.build().brakes
    answer = hands.client.get("/brakes/pictures.pdf")
    assert answer.status_code == 200
    assert answer.content.startswith(b"%PDF-")


def test_without_what_writes_paper_the_page_says_how_to_get_it(
    hands: Hands, described: Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert described.build().brakes
    monkeypatch.setitem(sys.modules, "typst", None)
    answer = hands.client.get("/brakes/pictures.pdf")
    assert answer.status_code == 404
    assert "bareshell[paper]" in answer.text
