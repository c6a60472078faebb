"""The ladder, the evening's rule, the forecast and the small measures."""

from __future__ import annotations

from datetime import UTC, date, datetime
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.draw.car import car_plan, zone_sentence
from bareshell.draw.forecast import ForecastDots, forecast_dots
from bareshell.draw.ladder import Rung, ladder, levels, sentence
from bareshell.draw.rule import SessionRule, Stretch, session_rule
from bareshell.draw.spans import Bind, Span, binds_bar, regret_mark, share_bar, whole_scale
from tests.draw import samples


def read(drawing: str) -> ET.Element:
    return ET.fromstring(drawing)  # noqa: S314  our own drawing


def heights(drawing: str) -> dict[str, float]:
    """The height of each name beside the ladder."""
    return {
        "".join(node.itertext()): float(node.get("y", 0))
        for node in read(drawing).iter("text")
        if node.get("class") == "t-rung"
    }


def test_the_ladder_is_climbed_from_below() -> None:
    drawn = heights(ladder(samples.rungs()))
    assert drawn["under-car"] > drawn["engine bay"] > drawn["first start"] > drawn["road"]
    assert drawn["road"] > drawn["50 miles"] > drawn["500 miles"]


@given(st.data())
def test_no_gate_is_drawn_below_one_it_comes_after(data: st.DataObject) -> None:
    count = data.draw(st.integers(1, 9))
    rungs = []
    for index in range(count):
        before = [f"gate{number}" for number in range(index)]
        after = data.draw(st.lists(st.sampled_from(before), unique=True)) if before else []
        rungs.append(Rung(f"gate{index}", after=tuple(after)))
    shuffled = tuple(data.draw(st.permutations(rungs)))
    drawn = heights(ladder(shuffled))
    for rung in rungs:
        for below in rung.after:
            assert drawn[below] > drawn[rung.name]


def test_gates_of_one_height_are_bracketed_as_free_in_order() -> None:
    drawing = ladder(samples.rungs())
    assert drawing.count("any order") == 2
    assert levels(samples.rungs())["headlining"] == levels(samples.rungs())["engine bay"]


def test_a_gate_that_skips_a_height_says_what_it_comes_after() -> None:
    said = " ".join("".join(node.itertext()) for node in read(ladder(samples.rungs())).iter("text"))
    assert "after headlining" in said
    assert "after first move under own power and cabin" in said


def test_every_proof_hangs_as_one_mark_and_temps_as_a_tag() -> None:
    rung = Rung("road", "later", held=3, owed=4, spent=1, failed=1, covered=1, begun=1, temps=7)
    assert len(rung.marks) == 11
    drawing = read(ladder((rung,)))
    assert "7" in ["".join(node.itertext()) for node in drawing.iter("text")]
    outlines = [node for node in drawing.iter("rect") if node.get("class") == "l"]
    assert len(outlines) == 4 + 1 + 1  # owed, spent, begun


def test_what_is_wanting_is_said_in_words() -> None:
    rung = Rung("road", owed=4, spent=1, failed=1, covered=1)
    assert rung.wanting == "4 owed, 1 spent, 1 failed, 1 covered, unproven"
    assert "nothing wanting" in ladder((Rung("road", "next", held=2),))


def test_the_sentence_names_what_is_passed_and_what_is_next() -> None:
    said = sentence(samples.rungs())
    assert "Passed: under-car." in said
    assert "Next: engine bay, 5 held, 2 owed, 1 spent, 1 temp." in said
    assert "Next: headlining, 2 held, 1 begun." in said


def test_lengths_on_the_rule_are_true() -> None:
    drawn = [
        node
        for node in read(session_rule(samples.evening())).iter("rect")
        if (node.get("fill") or "").startswith("url(#h-")
    ]
    shares = [float(node.get("width", "0%").rstrip("%")) for node in drawn]
    assert shares == pytest.approx([100 * m / 150 for m in (55, 15, 55, 10, 15)], abs=0.01)


def test_a_short_stretch_has_its_number_above_the_bar() -> None:
    def middle(words: str) -> float:
        found = [n for n in read(session_rule(samples.evening())).iter("text") if n.text == words]
        return float(found[0].get("y", 0))

    assert middle("4") < middle("1")


@pytest.mark.parametrize("minutes", [45, 150, 300, 480, 600, 960])
def test_clock_times_stay_apart_on_the_narrowest_page(minutes: int) -> None:
    rule = SessionRule(
        datetime(2026, 11, 25, 9, 0, tzinfo=UTC), minutes, (Stretch("1", "x", "fuel", 0, minutes),)
    )
    marks = [
        float(node.get("x", "0%").rstrip("%"))
        for node in read(session_rule(rule)).iter("text")
        if ":" in (node.text or "")
    ]
    assert marks
    width_px = 320
    for left, right in pairwise(marks):
        assert (right - left) / 100 * width_px > 42  # "21:15" at 14 px and a gap


def test_the_rule_reads_the_evening_aloud() -> None:
    said = samples.evening().sentence
    assert said.startswith("19:15 to 21:45. 19:15 to 20:10 number 1, Finish the two axle pipes;")


def test_a_place_on_the_car_is_marked_and_named() -> None:
    both = read(car_plan(("rear wheel ends",)))
    assert len([node for node in both.iter("path") if node.get("class") == "place"]) == 2
    assert both.get("aria-label") == "Where on the car: rear wheel ends."
    assert zone_sentence(("doors", "roof", "boot")) == "Where on the car: doors, roof and boot."


def test_each_dot_is_one_future() -> None:
    forecast = samples.forecast()
    dots = list(read(forecast_dots(forecast)).iter("circle"))
    assert len(dots) == len(forecast.futures)


@given(
    st.lists(st.dates(date(2027, 1, 4), date(2034, 1, 1)), min_size=1, max_size=20),
)
def test_dots_never_touch_however_far_futures_spread(futures: list[date]) -> None:
    drawing = read(forecast_dots(ForecastDots(tuple(futures), (), 2000)))
    places = sorted(
        (float(node.get("cx", 0)), float(node.get("cy", 0))) for node in drawing.iter("circle")
    )
    for index, (x, y) in enumerate(places):
        assert 9 <= x <= 371
        for other_x, other_y in places[index + 1 :]:
            assert (x - other_x) ** 2 + (y - other_y) ** 2 >= 19**2


def test_a_dot_stands_left_of_the_landing_it_falls_before() -> None:
    forecast = samples.forecast()
    drawing = read(forecast_dots(forecast))
    posts = [n.get("d", "") for n in drawing.iter("path") if n.get("class") == "l"]
    post = float(posts[1].split()[0].lstrip("M"))  # the first is the ground line
    before = sum(1 for day in forecast.futures if day < date(2027, 7, 5))
    left = sum(1 for node in drawing.iter("circle") if float(node.get("cx", 0)) < post)
    assert left == before


def test_regrets_share_one_scale_and_lie_in_order() -> None:
    cheap, dear = Span(0, 0, 0.4), Span(1.6, 2.4, 3.3)
    scale = whole_scale((cheap, dear))

    def likely(span: Span) -> float:
        marks = [
            n for n in read(regret_mark(span, scale)).iter("path") if n.get("class") == "f-ink"
        ]
        return float(marks[0].get("d", "").split()[0].lstrip("M"))

    assert likely(dear) - likely(cheap) == pytest.approx(174 * 2.4 / scale, abs=0.1)


@given(st.floats(0, 1))
def test_a_share_bar_is_as_long_as_the_share(share: float) -> None:
    filled = [n for n in read(share_bar(share)).iter("rect") if n.get("fill")]
    assert float(filled[0].get("width", 0)) == pytest.approx(298 * share, abs=0.01)


def test_parts_of_the_bar_are_as_wide_as_their_share() -> None:
    drawing = read(binds_bar(samples.binds()))
    widths = [float(n.get("width", 0)) for n in drawing.iter("rect") if n.get("class") == "box"]
    assert widths == pytest.approx([376 * part / 100 for part in (44, 28, 16, 12)])
    assert drawing.get("aria-label", "").endswith(
        "helper in 44, warm days in 28, hours in 16, parts in 12."
    )


def test_a_bar_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one future"):
        binds_bar((Bind("helper", 0),))
