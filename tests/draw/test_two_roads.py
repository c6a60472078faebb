"""Two roads side by side: sound, in words too, and true to their days."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.draw.svg import Svg
from bareshell.draw.two_roads import GatePassed, TwoRoads, two_roads

DAY = date(2031, 3, 4)
DAYS = st.one_of(st.none(), st.integers(0, 900).map(lambda days: DAY + timedelta(days=days)))


def dots(drawing: Svg) -> list[tuple[float, float]]:
    return [
        (float(node.attrib["cx"]), float(node.attrib["cy"]))
        for node in ET.fromstring(drawing).iter()  # noqa: S314  our own drawing
        if node.tag == "circle"
    ]


def test_a_gate_reached_sooner_stands_higher_on_the_rail_of_the_copy() -> None:
    road = GatePassed("road", DAY + timedelta(days=200), DAY + timedelta(days=80))
    cabin = GatePassed("cabin", DAY, DAY)
    (_, c1), (_, c2), (x1, r1), (x2, r2) = dots(two_roads(TwoRoads((cabin, road))))
    assert x1 < x2
    assert r2 < r1
    assert c1 == c2
    assert r1 - c1 == pytest.approx(2.5 * (r2 - c2))


def test_a_gate_that_the_copy_never_reaches_is_named() -> None:
    roads = TwoRoads((GatePassed("road", DAY, None), GatePassed("cabin", DAY, DAY)))
    assert "road: never in the copy" in two_roads(roads)
    assert "4 Mar 2031 as things are, never in the copy" in roads.sentence


def test_without_a_day_there_is_nothing_to_draw() -> None:
    with pytest.raises(ValueError, match="a gate with a day"):
        TwoRoads((GatePassed("road", None, None),))


@given(st.lists(st.tuples(DAYS, DAYS).filter(any), min_size=1, max_size=12))
def test_no_two_days_are_written_over_each_other(pairs: list[tuple[date, date]]) -> None:
    gates = tuple(GatePassed(f"gate {n}", *pair) for n, pair in enumerate(pairs))
    drawing = ET.fromstring(two_roads(TwoRoads(gates)))  # noqa: S314  our own drawing
    written: dict[str, list[float]] = {}
    for node in drawing.iter():
        if node.tag == "text" and node.attrib.get("class") == "t-name":
            written.setdefault(node.attrib["x"], []).append(float(node.attrib["y"]))
    for places in written.values():
        ordered = sorted(places)
        assert all(b - a >= 30 for a, b in pairwise(ordered))
