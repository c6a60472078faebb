"""Every picture: sound XML, no style attribute, escaped words, a sentence for its result."""

from __future__ import annotations

import string
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from functools import partial
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.draw import car, forecast, ladder, road_ahead, rule, session_box, spans
from bareshell.draw.definitions import definitions
from bareshell.draw.ladder import Rung
from bareshell.draw.marks import MARKS, mark
from bareshell.draw.measure import shortened, text_width
from bareshell.draw.road import JobSlice, Pin, RoadAhead, RoadWeek, SessionBox
from bareshell.draw.rule import SessionRule, Stretch
from bareshell.draw.spans import Arrival, Bind, Span
from bareshell.draw.supports import STANCES, ribbon_swatch, silhouette
from bareshell.draw.svg import Svg, escaped, text
from bareshell.draw.systems import HATCHES, edge, swatch
from tests.draw import samples

NASTY = """<b onload="x">&amp; 3/8" 'tee'\x00\x0b</b>"""


def read(drawing: Svg) -> ET.Element:
    """Read a drawing as strictly as any program would."""
    return ET.fromstring(drawing)  # noqa: S314  our own drawing


def nasty_road() -> RoadAhead:
    week = RoadWeek(
        samples.MONDAY,
        (
            SessionBox(
                datetime(2026, 11, 23, 19, 15, tzinfo=UTC),
                9,
                (JobSlice(NASTY, "brakes", 9),),
                tag=NASTY,
            ),
        ),
        (Pin(NASTY, date(2026, 11, 24)),),
        notes=(NASTY,),
    )
    return RoadAhead((week, RoadWeek(date(2026, 11, 30), away=NASTY)))


PICTURES: dict[str, Callable[[], Svg]] = {
    "road": lambda: road_ahead.road_ahead(samples.road()),
    "road of one week": lambda: road_ahead.road_ahead(samples.road(4)),
    "road with nasty words": lambda: road_ahead.road_ahead(nasty_road()),
    "lane": lambda: session_box.session_lane(samples.road().weeks[1].sessions[2], 5),
    "ladder": lambda: ladder.ladder(samples.rungs()),
    "ladder with nasty words": lambda: ladder.ladder((Rung(NASTY, "next", when=NASTY, temps=2),)),
    "rule": lambda: rule.session_rule(samples.evening()),
    "rule with nasty words": lambda: rule.session_rule(
        SessionRule(
            datetime(2026, 11, 25, 9, tzinfo=UTC), 30, (Stretch("<1>", NASTY, "fuel", 0, 30),)
        )
    ),
    "car": lambda: car.car_plan(car.ZONES),
    "forecast": lambda: forecast.forecast_dots(samples.forecast()),
    "binds": lambda: spans.binds_bar(samples.binds()),
    "binds with nasty words": lambda: spans.binds_bar((Bind(NASTY, 3),)),
    "regret": lambda: spans.regret_mark(Span(0, 1, 3), 5),
    "lever": lambda: spans.lever_mark(Span(-3, -1, 2), 35),
    "arrival": lambda: spans.arrival_mark(
        Arrival(date(2026, 12, 3), date(2026, 12, 1), date(2026, 12, 9)), date(2026, 11, 30), 28
    ),
    "share": lambda: spans.share_bar(0.98),
    "definitions": definitions,
    **{f"mark {key}": partial(mark, key) for key in MARKS},
    **{f"swatch {hatch.key}": partial(swatch, hatch.key) for hatch in HATCHES},
    **{f"edge {hatch.key}": partial(edge, hatch.key) for hatch in HATCHES},
    **{f"ribbon {stance.key}": partial(ribbon_swatch, stance.key) for stance in STANCES},
    **{f"silhouette {stance.key}": partial(silhouette, stance.key) for stance in STANCES},
}
WHOLE = ("road", "ladder", "rule", "car", "forecast", "binds")


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_sound_xml_that_the_content_policy_lets_through(name: str) -> None:
    drawing = PICTURES[name]()
    for node in read(drawing).iter():
        assert "style" not in node.attrib
        assert not any(key.startswith("on") for key in node.attrib)
    assert "<b" not in drawing
    assert "\x00" not in drawing


@pytest.mark.parametrize("name", WHOLE)
def test_a_whole_picture_says_its_result_in_a_sentence(name: str) -> None:
    root = read(PICTURES[name]())
    assert root.get("role") == "img"
    said = root.get("aria-label", "")
    assert said.endswith(".")
    assert len(said.split()) > 5


@pytest.mark.parametrize("name", PICTURES)
def test_what_a_picture_refers_to_is_defined_once_on_the_page(name: str) -> None:
    defined = {node.get("id") for node in read(definitions()).iter() if node.get("id")}
    for node in read(PICTURES[name]()).iter():
        fill, used = node.get("fill", ""), node.get("href")
        if fill.startswith("url(#"):
            assert fill[5:-1] in defined
        if used:
            assert used[1:] in defined


def test_no_pattern_or_symbol_is_defined_twice() -> None:
    names = [node.get("id") for node in read(definitions()).iter() if node.get("id")]
    assert len(names) == len(set(names))


@given(st.text())
def test_any_words_become_sound_xml_that_reads_back(words: str) -> None:
    node = read(text(0, 0, words))
    kept = "".join(letter for letter in words if ord(letter) >= 32 or letter in "\t\n\r")
    kept = kept.replace("\ufffe", "").replace("\uffff", "")
    plain = "".join(node.itertext())
    assert plain == kept.replace("\r\n", "\n").replace("\r", "\n")


def test_escaping_leaves_no_way_out_of_an_attribute() -> None:
    assert not set(escaped(NASTY)) & set("<>\"'")


@given(st.text(st.sampled_from(string.ascii_letters + string.digits + " ,.-/")), st.floats(0, 400))
def test_shortened_words_fit(words: str, room: float) -> None:
    assert text_width(shortened(words, room)) <= room or shortened(words, room) == ""


def test_an_element_refuses_a_style_attribute() -> None:
    from bareshell.draw.svg import element

    with pytest.raises(ValueError, match="never a style attribute"):
        element("rect", style="fill: red")


def test_marks_repeat_every_state_word_of_the_model() -> None:
    from bareshell.draw.marks import mark_key
    from bareshell.model.job import JobStatus
    from bareshell.model.part import NeedState
    from bareshell.model.proof import ProofState

    for states in (ProofState, NeedState, JobStatus):
        keys = [mark_key(state) for state in states]
        assert len(set(keys)) == len(keys), "two states of one kind share a mark"
    for word in ("fitted", "nipped", "torqued and marked", "temp", "next"):
        assert mark(word)


def test_every_system_zone_and_support_of_the_model_can_be_drawn() -> None:
    from bareshell.draw.supports import stance_of
    from bareshell.draw.systems import hatch_of
    from bareshell.model.job import SYSTEMS
    from bareshell.model.position import Place, SupportKind, Zone

    assert {hatch_of(system).key for system in SYSTEMS} == {hatch.key for hatch in HATCHES}
    assert {stance_of(kind).word for kind in SupportKind} == {kind.value for kind in SupportKind}
    assert set(car.ZONES) == {zone.value for zone in Zone}
    for place in Place:
        if place is not Place.CAR:
            assert silhouette(place.value)


def test_the_legend_keeps_its_order() -> None:
    assert [hatch.word for hatch in HATCHES] == [
        "brakes",
        "electrics",
        "running gear",
        "engine and gearbox",
        "fuel, cooling, exhaust",
        "body and glass",
        "inside",
        "underbody",
        "checks and papers",
    ]


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: swatch("wings"), "No hatch is drawn for 'wings'"),
        (lambda: silhouette("trolley"), "No silhouette is drawn for 'trolley'"),
        (lambda: mark("fine"), "No mark is drawn for 'fine'"),
        (lambda: car.car_plan(["attic"]), "No place is drawn for 'attic'"),
        (lambda: spans.share_bar(98), "between 0 and 1"),
        (lambda: Span(3, 2, 1), "runs upwards"),
        (lambda: RoadWeek(date(2026, 11, 24)), "begins on a Monday"),
        (lambda: SessionBox(datetime(2026, 11, 24, tzinfo=UTC), 0), "longer than no time"),
        (lambda: RoadAhead(()), "at least one week"),
        (lambda: replace(samples.evening(), minutes=60), "end by minute 60"),
        (lambda: ladder.ladder((Rung("a", after=("b",)), Rung("b", after=("a",)))), "in a circle"),
        (lambda: ladder.ladder((Rung("a", after=("c",)),)), "no gate here"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_a_sentence(
    call: Callable[[], object], said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        call()
