"""Pictures of the brakes on paper: a PDF that reads aloud, or a sentence when nothing writes it."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from functools import cache

import pytest

from bareshell.brakes.examples import small_car
from bareshell.brakes.starters import starter
from bareshell.brakes.yardsticks import chosen
from bareshell.draw.brake_drawn import PICTURES, ToDraw, alt_of, draw_plate, every_plate
from bareshell.errors import BadInput, NotFound
from bareshell.report.brake_paper import Paper, brake_paper
from bareshell.web.sheets import drawing_sheets
from bareshell.whole.brake_check import Asked, Head, brake_check
from bareshell.whole.brake_heat import heat_view
from bareshell.whole.brake_park import park_view
from bareshell.whole.brake_trust import TrustAsked, trust_view
from tests.brakes import edits as e

MADE = datetime(2026, 11, 25, 19, 0, tzinfo=UTC)
PAPER = Paper(
    "As built",
    "A car #1 [of none]",
    invented=True,
    made_at=MADE,
    cautions=("Mind *it*",),
    not_proved=("a figure proves nothing",),
)


@cache
def to_draw(failure: str = "") -> ToDraw:
    car = e.with_part(small_car(), "fluid", choices={"grade": "DOT 4"})
    head = Head(MADE)
    check = brake_check(car, head, Asked(failure=failure), chosen(["un-r13h-service"]))
    picked = chosen(["un-r13h-service"])
    return ToDraw(
        car,
        check,
        park_view(car, head),
        lambda: heat_view(car, head),
        lambda: trust_view(car, head, TrustAsked(count=200), picked),
        picked=picked,
    )


def test_every_picture_of_a_described_car_is_drawn_with_its_sentence() -> None:
    found = dict(every_plate(to_draw()))
    assert set(found) == set(PICTURES)
    for plates in found.values():
        for plate in plates:
            assert plate.title
            assert plate.caption
            assert len(alt_of(plate.drawing)) > 20


def test_pictures_that_lack_figures_are_left_out_and_say_what_they_lack_when_asked_for() -> None:
    bare = starter("single line")
    head = Head(MADE)
    of = ToDraw(
        bare,
        brake_check(bare, head),
        park_view(bare, head),
        lambda: heat_view(bare, head),
        lambda: trust_view(bare, head, TrustAsked(count=200), ()),
    )
    assert {"plan", "pipes", "bleed"} <= {what for what, _ in every_plate(of)}
    assert "pedal" not in {what for what, _ in every_plate(of)}
    with pytest.raises(BadInput, match="bore"):
        draw_plate("pedal", of)
    with pytest.raises(NotFound, match="Draw one of"):
        draw_plate("portrait", of)


def test_what_failed_is_on_the_plan() -> None:
    one = to_draw().check.failures[0].elements[0].id
    [plate] = draw_plate("plan", to_draw(one))
    assert "left" in plate.caption
    assert plate.caption != draw_plate("plan", to_draw())[0].caption


def test_the_paper_is_a_pdf_with_a_sentence_for_every_picture() -> None:
    plates = [plate for what in ("plan", "pedal") for plate in draw_plate(what, to_draw())]
    content = brake_paper(PAPER, plates, drawing_sheets())
    assert content.startswith(b"%PDF-")
    assert content.count(b"/Alt") >= len(plates), "each picture has words for those who listen"
    assert b"/Lang" in content
    assert b"2026" in content
    again = brake_paper(PAPER, plates, drawing_sheets())
    assert again == content, "the same paper is the same file"


def test_without_what_writes_it_the_paper_says_how_to_get_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(NotFound, match=r"bareshell\[paper\]"):
        brake_paper(PAPER, draw_plate("plan", to_draw()), drawing_sheets())
