"""The fan of kept forecasts: sound, in words too, and true to its days."""

from __future__ import annotations

import re
from datetime import date, timedelta
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.draw.fan import Fan, FanIssue, fan
from bareshell.draw.svg import Svg

DAY = date(2026, 3, 4)


def issue(day: int, p50: int, more: int = 40) -> FanIssue:
    said = DAY + timedelta(days=day)
    half = DAY + timedelta(days=p50)
    return FanIssue(said, half, half + timedelta(days=more), half + timedelta(days=3 * more))


def read(drawing: Svg) -> ET.Element:
    return ET.fromstring(drawing)  # noqa: S314  our own drawing


def dots(drawing: Svg) -> list[tuple[float, float]]:
    return [
        (float(node.attrib["cx"]), float(node.attrib["cy"]))
        for node in read(drawing).iter()
        if node.tag == "circle"
    ]


def test_later_forecasts_stand_to_the_right_and_later_dates_higher() -> None:
    drawn = dots(fan(Fan((issue(0, 200), issue(7, 190), issue(14, 230)))))
    assert len(drawn) == 3
    xs, ys = zip(*drawn, strict=True)
    assert list(xs) == sorted(xs)
    assert ys[1] > ys[0] > ys[2]  # down the page is sooner


def test_what_it_shows_is_said_in_a_sentence() -> None:
    one = Fan((issue(0, 200),))
    assert one.sentence.startswith("Said on 4 March 2026: on the road by 20 September 2026")
    two = Fan((issue(0, 200), issue(7, 230)), reached=DAY + timedelta(days=240))
    assert two.sentence.startswith("2 forecasts. Said on 4 March 2026: by 20 September 2026")
    assert two.sentence.endswith("It came on 30 October 2026.")
    assert read(fan(two)).get("aria-label") == two.sentence


@given(
    st.lists(
        st.tuples(st.integers(0, 900), st.integers(0, 4000), st.integers(0, 400)),
        min_size=1,
        max_size=30,
    ),
    st.booleans(),
)
def test_any_forecasts_are_drawn_inside_the_plate(
    said: list[tuple[int, int, int]], came: bool
) -> None:
    issues = tuple(issue(*one) for one in sorted(said))
    drawing = fan(Fan(issues, DAY + timedelta(days=500) if came else None))
    root = read(drawing)
    width, height = (float(value) for value in root.attrib["viewBox"].split()[2:])
    for x, y in dots(drawing):
        assert 0 <= x <= width
        assert 0 <= y <= height
    for node in root.iter():
        assert "style" not in node.attrib
        if node.tag == "text":
            assert -1 <= float(node.attrib["x"]) <= width + 1
        if node.tag == "path":
            for number in re.findall(r"-?\d+(?:\.\d+)?", node.attrib["d"]):
                assert -1 <= float(number) <= max(width, height) + 1


def test_nothing_to_draw_and_a_forecast_that_falls_are_refused() -> None:
    with pytest.raises(ValueError, match="at least one forecast"):
        Fan(())
    with pytest.raises(ValueError, match="A forecast rises"):
        FanIssue(DAY, DAY + timedelta(days=9), DAY, DAY)
