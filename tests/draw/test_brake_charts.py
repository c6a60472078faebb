"""Curves, ladders, bars and pipes: drawn to measure, words clear of each other, a full sentence."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression

from bareshell.draw.brake_balance import adhesion_used, distribution
from bareshell.draw.brake_chart import Curve, axis, clipped
from bareshell.draw.brake_pedal import pedal_curve
from bareshell.draw.brake_pipes import pipe_sheet
from bareshell.draw.brake_rungs import FailureRung, failure_ladder
from bareshell.draw.brake_sheet import NARROW, WIDE, Box, spread
from bareshell.draw.brake_slope import parking_slope
from bareshell.draw.brake_travel import pedal_travel, travel_letters
from bareshell.draw.brake_trust import ShareRow, sensitivity_bars, share_strips
from bareshell.draw.brake_warmth import (
    Boiling,
    TemperatureHistory,
    boiling_curve,
    temperature_history,
)
from bareshell.draw.definitions import definitions
from tests.draw import brake_samples as samples
from tests.draw.brake_boxes import of_class, outside, overlapping, points, read, size, word_boxes

DRAWN: dict[str, tuple[Callable[..., str], Callable[[], Any]]] = {
    "adhesion": (adhesion_used, samples.adhesion),
    "distribution": (distribution, samples.distribution),
    "pedal": (pedal_curve, samples.pedal),
    "travel": (pedal_travel, samples.travel),
    "ladder": (failure_ladder, samples.ladder),
    "history": (temperature_history, samples.history),
    "boiling": (boiling_curve, samples.boiling),
    "sensitivity": (sensitivity_bars, samples.sensitivity),
    "shares": (share_strips, samples.shares),
    "slope": (parking_slope, samples.slope),
    "pipes": (pipe_sheet, samples.pipes),
}
PICTURES = {
    f"{name} {width:g}": partial(draw, sample(), width=width)
    for name, (draw, sample) in DRAWN.items()
    for width in (NARROW, WIDE)
}
SAYS = {
    "adhesion": "The front axle uses 0.45 at 0.4 g",
    "distribution": "ideal line",
    "pedal": "at 600 N",
    "travel": "circuit 1 lost: 135 mm, most of it a piston runs to its stop 110",
    "ladder": "front hose: 2.4 m/s2, short of 2.9",
    "history": "52 °C left",
    "boiling": "Today's fluid, by its age: 2.0 per cent of water, boils at 173 °C",
    "sensitivity": "Weigh the axles first",
    "shares": "met in 94 of 100 combinations",
    "slope": "Nose down: 15.1 per cent, ended by the tyres, short of 18 per cent",
    "pipes": "The length of 1 is not known",
}


@pytest.mark.parametrize("name", PICTURES)
def test_words_lie_on_no_other_words_and_within_the_picture(name: str) -> None:
    drawing = PICTURES[name]()
    assert overlapping(drawing) == []
    assert outside(drawing) == []


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_sound_xml_of_known_patterns_and_drawn_the_same_again(name: str) -> None:
    drawing = PICTURES[name]()
    assert drawing == PICTURES[name]()
    defined = {node.get("id") for node in read(definitions()).iter() if node.get("id")}
    for node in read(drawing).iter():
        assert "style" not in node.attrib
        fill, used = node.get("fill", ""), node.get("href", "#")
        assert not fill.startswith("url(#") or fill[5:-1] in defined
        assert used == "#" or used[1:] in defined
    assert size(drawing).right in (NARROW, WIDE)


@pytest.mark.parametrize("name", DRAWN)
def test_its_sentence_gives_the_result(name: str) -> None:
    draw, sample = DRAWN[name]
    said = read(draw(sample())).get("aria-label", "")
    assert SAYS[name] in said
    assert said.endswith(".")


@pytest.mark.parametrize(
    ("draw", "sample"),
    [
        (failure_ladder, samples.ladder),
        (sensitivity_bars, samples.sensitivity),
        (share_strips, samples.shares),
        (pipe_sheet, samples.pipes),
    ],
)
def test_rows_can_lead_somewhere(draw: Callable[..., str], sample: Callable[[], Any]) -> None:
    root = read(draw(sample(), href=lambda name: f"#{name}"))
    assert root.get("role") == "group"
    links = [node for node in root.iter() if node.tag == "a"]
    assert len(links) >= 3
    assert all(link.get("aria-label") for link in links)


# ---------------------------------------------------------------- drawn to measure


def ground(drawing: str) -> tuple[float, float, float, float]:
    """The left, bottom, right and top of the ruled ground."""
    for node, _ in of_class(drawing, "l"):
        corners = points(node.get("d", ""))
        if len(corners) == 3 and node.get("class") == "l":
            return corners[1][0], corners[1][1], corners[2][0], corners[0][1]
    raise AssertionError("no ground")


def curve(drawing: str, style: str) -> list[tuple[float, float]]:
    return [
        corner
        for node, _ in of_class(drawing, f"bk-c-{style}")
        for corner in points(node.get("d", ""))
    ]


def test_adhesion_is_read_off_where_it_was_worked_out() -> None:
    plate = samples.adhesion()
    drawing = adhesion_used(plate)
    left, bottom, right, top = ground(drawing)
    drawn = curve(drawing, "rear")
    for (z, k), (x, y) in zip(plate.rear, drawn, strict=True):
        assert (x - left) / (right - left) == pytest.approx(z, abs=2e-4)
        assert (bottom - y) / (bottom - top) == pytest.approx(k, abs=2e-4)


def test_the_yardstick_hatches_the_side_that_it_rules_out() -> None:
    drawing = adhesion_used(samples.adhesion())
    left, bottom, right, top = ground(drawing)
    hatched = of_class(drawing, "bk-hatched")[0][0]
    assert hatched.get("fill") == "url(#h-lost)"
    corners = points(hatched.get("d", ""))
    for z, k in ((0.1, 0.2), (0.61, 0.8), (0.1, 1.0), (0.61, 1.0)):
        at = (left + z * (right - left), bottom - k * (bottom - top))
        assert min(math.dist(at, corner) for corner in corners) < 0.1


def test_front_is_heavy_rear_dashed_and_standard_dotted() -> None:
    drawing = adhesion_used(samples.adhesion())
    assert curve(drawing, "front")
    assert curve(drawing, "rear")
    assert curve(drawing, "standard")
    words = [said for said, _ in word_boxes(drawing)]
    assert {"front", "rear", "standard rear"} <= set(words)


@pytest.mark.parametrize("width", [NARROW, WIDE])
def test_both_ways_of_the_distribution_have_one_scale(width: float) -> None:
    """Lines of constant deceleration therefore fall at 45 degrees."""
    drawing = distribution(samples.distribution(), width=width)
    slants = [points(node.get("d", "")) for node, _ in of_class(drawing, "bk-c-thin")]
    assert len(slants) >= 4
    for (x0, y0), (x1, y1) in slants:
        assert x1 - x0 == pytest.approx(y1 - y0, abs=0.05)


def test_travel_is_end_to_end_and_true_to_length() -> None:
    plate = samples.travel()
    drawing = pedal_travel(plate)
    rule = next(
        node.get("d", "") for node, _ in of_class(drawing, "l-thin") if "v10M" in node.get("d", "")
    )
    marks = [float(x) for x in __import__("re").findall(r"M([\d.]+) [\d.]+v", rule)]
    px_per_mm = (marks[1] - marks[0]) / 10
    bars = [
        (float(n.get("x", 0)), float(n.get("width", 0)), n.get("class"))
        for n, _ in [*of_class(drawing, "box"), *of_class(drawing, "bk-lost-run")]
    ]
    lengths = sorted(round(width / px_per_mm, 1) for _, width, _ in bars)
    wanted = sorted(piece.length_mm for row in plate.rows for piece in row.pieces)
    assert lengths == pytest.approx(wanted, abs=0.11)
    first = sorted(bars, key=lambda bar: bar[0])
    assert first[0][0] == 10
    assert [kind for _, _, kind in bars].count("bk-lost-run") == 1
    post = next(n for n, _ in of_class(drawing, "l-thick"))
    assert (points(post.get("d", ""))[0][0] - 10) / px_per_mm == pytest.approx(138, abs=0.1)


def test_a_piece_keeps_its_letter_in_every_row() -> None:
    letters = travel_letters(samples.travel().rows)
    assert letters["free play"] == "a"
    assert len(set(letters.values())) == len(letters) == 8
    words = [said for said, _ in word_boxes(pedal_travel(samples.travel()))]
    assert words.count("a") == 2
    assert words.count(letters["run"]) == 1


def test_a_rung_is_as_long_as_its_deceleration_and_broken_off_when_it_is_short() -> None:
    plate = samples.ladder()
    drawing = failure_ladder(plate)
    bars = [
        points(n.get("d", ""))
        for n, _ in of_class(drawing, "f-ink")
        if n.tag == "path" and n.get("d", "").startswith("M18 ")
    ]
    left = [rung for rung in plate.rungs if rung.deceleration_m_s2 is not None]
    assert len(bars) == len(left)
    square = {len(bar) for bar, rung in zip(bars, left, strict=True) if rung.meets}
    broken = {len(bar) for bar, rung in zip(bars, left, strict=True) if not rung.meets}
    assert square == {4}
    assert broken == {7}
    ends = [max(x for x, _ in bar) - 24 for bar, rung in zip(bars, left, strict=True) if rung.meets]
    assert ends[0] / ends[1] == pytest.approx(7.4 / 5.9, rel=0.01)


def test_the_ladder_uses_the_words_of_all_yardsticks() -> None:
    words = [said for said, _ in word_boxes(failure_ladder(samples.ladder()))]
    for said in ("meets 6.43", "meets 2.9", "short of 2.9", "not worked out", "pedal on the floor"):
        assert said in words
    exact = FailureRung("a", ("a",), "", 2.9, asked_m_s2=2.9)
    assert exact.verdict == "meets 2.9"
    assert replace(exact, deceleration_m_s2=2.89).verdict == "short of 2.9"


def test_the_margin_runs_from_the_hottest_fluid_to_where_it_may_boil() -> None:
    plate = samples.history()
    assert plate.peak is not None
    assert plate.margin_c == pytest.approx((155 - plate.peak[1], 172 - plate.peak[1]))
    drawing = temperature_history(plate)
    _, bottom, _, top = ground(drawing)
    step = (bottom - top) / 400  # the axis ends at 400 degrees
    measure = next(
        points(n.get("d", "").split("M")[1].join(("M", "")))
        for n, _ in of_class(drawing, "l-2")
        if "V" in n.get("d", "")
    )
    assert plate.margin_c is not None
    assert (measure[0][1] - measure[1][1]) / step == pytest.approx(plate.margin_c[0], abs=0.5)


def test_a_fluid_that_nobody_knows_has_no_boiling_line_and_says_so() -> None:
    plate = replace(samples.history(), boiling=None)
    drawing = temperature_history(plate)
    assert "Where the fluid boils is not known." in read(drawing).get("aria-label", "")
    assert "boils" not in " ".join(said for said, _ in word_boxes(drawing))


def test_a_boiling_range_out_of_order_is_refused() -> None:
    with pytest.raises(ValueError, match="runs upwards"):
        Boiling(150, 160, 170)


def test_todays_fluid_stands_on_the_curve() -> None:
    plate = samples.boiling()
    drawing = boiling_curve(plate)
    left, _, right, _ = ground(drawing)
    dot = next(n for n, _ in of_class(drawing, "f-ink") if n.tag == "circle")
    assert (float(dot.get("cx", 0)) - left) / (right - left) * 8 == pytest.approx(2.0, abs=0.02)
    near = min(
        math.dist((float(dot.get("cx", 0)), float(dot.get("cy", 0))), corner)
        for corner in curve(drawing, "front")
    )
    assert near < 6


@given(st.floats(0.01, 0.6), st.floats(0.01, 0.6))
def test_a_slope_is_drawn_at_its_true_angle(held: float, asked: float) -> None:
    plate = samples.slope()
    one = replace(plate.held[0], slope=held)
    drawing = parking_slope(replace(plate, held=(one,), asked=asked))
    solid = points(of_class(drawing, "l-thick")[0][0].get("d", ""))
    dashed = points(of_class(drawing, "l-short")[0][0].get("d", ""))
    for ends, slope in ((solid, held), (dashed, asked)):
        (x0, y0), (x1, y1) = ends
        assert (y0 - y1) / (x1 - x0) == pytest.approx(slope, abs=2e-3)
    assert overlapping(drawing) == []
    assert outside(drawing) == []


def test_the_wheels_that_hold_are_filled_and_the_nose_points_its_way() -> None:
    def filled(braked: str) -> int:
        drawing = parking_slope(replace(samples.slope(), braked=braked))
        return len([n for n, _ in of_class(drawing, "f-ink") if n.tag == "circle"])

    assert (filled("rear"), filled("front"), filled("all")) == (2, 2, 4)
    turned = [
        node.get("transform", "")
        for node in read(parking_slope(samples.slope())).iter()
        if "rotate" in node.get("transform", "")
    ]
    assert ["scale(-1 1)" in each for each in turned] == [False, True]


@pytest.mark.parametrize("width", [NARROW, WIDE])
def test_pipes_are_cut_to_one_scale(width: float) -> None:
    drawing = pipe_sheet(samples.pipes(), width=width)
    rows = [n.get("d", "") for n, _ in of_class(drawing, "bk-case")]
    lengths = [float(d.split("h")[1]) for d in rows]
    bar = next(n.get("d", "") for n, _ in of_class(drawing, "l") if "m0 -5v10" in n.get("d", ""))
    label = next(said for said, _ in word_boxes(drawing) if "all pipes" in said)
    px_per_mm = float(bar.split("h")[1].split("m")[0]) / float(label.split()[0])
    assert sum(lengths) / px_per_mm == pytest.approx(3180 + 210, rel=1e-3)
    assert lengths[-1] / px_per_mm == pytest.approx(210, rel=1e-2)


def test_nuts_go_on_before_the_flare() -> None:
    words = [said for said, _ in word_boxes(pipe_sheet(samples.pipes()))]
    assert words.index("nuts on") < words.index("flared")


def test_a_share_fills_its_strip_and_is_never_more_than_all() -> None:
    drawing = share_strips((ShareRow("a", "a", 0.25), ShareRow("b", "b", 0.0)))
    filled = [n for n in read(drawing).iter() if n.get("fill") == "url(#h-p1)"]
    whole = float(of_class(drawing, "box")[0][0].get("width", 0))
    assert [float(n.get("width", 0)) for n in filled] == pytest.approx([whole / 4])
    with pytest.raises(ValueError, match="between 0 and 1"):
        ShareRow("a", "a", 1.01)


# ---------------------------------------------------------------- what they are made with


@given(
    st.lists(st.tuples(st.floats(-50, 500), st.floats(4, 60)), min_size=1, max_size=12),
    st.floats(0, 40),
)
def test_things_in_a_row_keep_their_order_and_clear_of_each_other(
    rows: list[tuple[float, float]], low: float
) -> None:
    wanted, rooms = zip(*rows, strict=True)
    high = low + sum(rooms) + 100
    placed = spread(wanted, rooms, low, high)
    for (one, two), (a, b) in zip(pairwise(placed), pairwise(rooms), strict=True):
        assert two - one >= (a + b) / 2 - 1e-6
    assert placed[0] - rooms[0] / 2 >= low - 1e-6
    assert placed[-1] + rooms[-1] / 2 <= high + 1e-6


@given(st.lists(st.tuples(st.floats(0, 500), st.floats(4, 60)), min_size=1, max_size=12))
def test_things_in_a_row_stand_as_near_as_can_be(rows: list[tuple[float, float]]) -> None:
    """Against SciPy's isotonic regression, which solves the same least squares."""
    wanted, rooms = (np.array(each) for each in zip(*rows, strict=True))
    starts = np.cumsum(rooms) - rooms / 2
    best = isotonic_regression(wanted - starts).x + starts
    placed = spread(list(wanted), list(rooms), -1e6, 1e6)
    assert placed == pytest.approx(best, abs=1e-6)


_COORDINATE = st.floats(-50, 50).map(lambda value: round(value, 3))


@given(_COORDINATE, _COORDINATE, _COORDINATE, _COORDINATE)
def test_a_stretch_is_cut_where_it_leaves_the_box(
    x0: float, y0: float, x1: float, y1: float
) -> None:
    """Against walking along it in small steps."""
    box = Box(-20, -10, 20, 10)
    steps = np.linspace(0.0, 1.0, 401)
    xs, ys = x0 + (x1 - x0) * steps, y0 + (y1 - y0) * steps
    inside = (xs >= box.left) & (xs <= box.right) & (ys >= box.top) & (ys <= box.bottom)
    cut = clipped((x0, y0), (x1, y1), box)
    if not inside.any():
        near = cut is None or math.dist(*cut) < 0.6  # a corner cut off between two steps
        assert near
        return
    assert cut is not None
    step = math.hypot(x1 - x0, y1 - y0) / 400
    first, last = steps[inside][0], steps[inside][-1]
    assert math.dist(cut[0], (x0 + (x1 - x0) * first, y0 + (y1 - y0) * first)) <= step + 1e-6
    assert math.dist(cut[1], (x0 + (x1 - x0) * last, y0 + (y1 - y0) * last)) <= step + 1e-6


@given(st.floats(-1e4, 1e4), st.floats(1e-3, 1e4), st.integers(3, 9))
def test_an_axis_holds_its_range_with_few_round_figures(low: float, span: float, most: int) -> None:
    made = axis("x", low, low + span, most=most)
    assert made.low <= low + 1e-6 * span
    assert made.high >= low + span - 1e-6 * span
    assert 2 <= len(made.ticks) <= most + 3
    mantissa = made.step / 10 ** math.floor(math.log10(made.step) + 1e-9)
    assert any(math.isclose(mantissa, each, rel_tol=1e-6) for each in (1, 2, 2.5, 5, 10))


def test_the_figures_of_an_axis_are_not_rounded_away() -> None:
    for step in (0.25, 0.5, 2.5, 0.02, 20):
        made = axis("x", 0, 5 * step, most=5)
        shown = {f"{value:.{made.places}f}" for value in made.ticks}
        assert [float(each) for each in sorted(shown, key=float)] == pytest.approx(made.ticks)


def test_a_line_nobody_could_tell_from_the_others_is_refused() -> None:
    with pytest.raises(ValueError, match="No line is drawn as 'red'"):
        Curve("a", ((0, 0), (1, 1)), "red")


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.lists(st.floats(0, 300), min_size=2, max_size=30), min_size=1, max_size=3),
    st.booleans(),
)
def test_a_history_of_any_shape_has_readable_words(series: list[list[float]], known: bool) -> None:
    curves = tuple(
        Curve(name, tuple((float(t), c) for t, c in enumerate(values)), style)
        for values, name, style in zip(
            series, ("front disc", "rear drum", "pads"), ("front", "rear", "line"), strict=False
        )
    )
    boils = Boiling(170, 150, 190) if known else None
    drawing = temperature_history(
        TemperatureHistory("a stop", curves, curves[0].points, "s", boils)
    )
    assert outside(drawing) == []
