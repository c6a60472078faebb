"""Sizes in words, offered as figures on a page and taken one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.model import changes as c
from bareshell.model.part import Holding
from bareshell.model.spec import BoltSpec, PlainSpec
from tests.web.pages.conftest import Hands

if TYPE_CHECKING:
    from bareshell.app.door import Door

PAGE = "/shelf/sizes"


def two_tins(door: Door) -> None:
    door.record(
        [
            c.HoldingSet(Holding("tin", "Bolts", 20, PlainSpec(words="M8 x 25 8.8"), note="rusty")),
            c.HoldingSet(Holding("clips", "Trim clips", 3, PlainSpec(words="grey"))),
        ]
    )


def test_what_can_be_read_is_offered_and_the_rest_is_left(hands: Hands, door: Door) -> None:
    two_tins(door)
    assert hands.form(PAGE, PAGE).fields["take"] == ["need:nuts", "holding:tin"]
    assert hands.client.get(f"{PAGE}.json").json()["rows"][1]["read_as"] == "bolt"


def test_taking_one_keeps_its_words_and_counts_once(hands: Hands, door: Door) -> None:
    two_tins(door)
    form = hands.form(PAGE, PAGE)
    for _ in range(2):
        assert hands.post(form).status_code == 303
    tin = door.build().holdings["tin"]
    assert isinstance(tin.spec, BoltSpec)
    assert (tin.spec.thread, tin.spec.grade) == ("M8", "8.8")
    assert tin.note == "rusty; in words: M8 x 25 8.8"
    assert isinstance(door.build().holdings["clips"].spec, PlainSpec)


def test_nothing_ticked_and_nothing_readable_are_said(hands: Hands, door: Door) -> None:
    two_tins(door)
    assert "None is ticked" in hands.refused(PAGE, PAGE, 422, take=[])
    page = hands.refused(PAGE, PAGE, 422, take="holding:clips")
    assert "Its size can be read no longer" in page
