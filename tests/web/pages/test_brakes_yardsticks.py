"""Picking yardsticks: nothing is picked for anybody, and what is picked is kept."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.brakes.starters import starter
from bareshell.model import changes as c
from tests.web.pages.conftest import Hands

PATH = "/brakes/yardsticks"


def test_a_market_suggests_with_reasons_and_ticks_nothing(hands: Hands, door: Door) -> None:
    door.record(c.BrakeSystemSet(starter("front-rear tandem")))

    page = hands.see(f"{PATH}?market=Germany")

    assert "Of Germany" in page
    assert "none picked yet" in page
    assert " checked" not in page
    assert door.build().yardsticks is None


def test_what_is_ticked_is_kept_and_shown_ticked(hands: Hands, door: Door) -> None:
    page = hands.send(PATH, PATH, yardstick=["un-r13-circuit", "uk-mot-service"])

    assert door.build().yardsticks == ("un-r13-circuit", "uk-mot-service")
    assert "2 picked" in page
    assert 'value="un-r13-circuit" checked' in page


def test_each_says_where_it_stands_and_how_far_it_was_read(hands: Hands) -> None:
    page = hands.see(PATH)

    assert "from memory" in page
    assert "Annex 4" in page
    assert "approves nothing" in page
