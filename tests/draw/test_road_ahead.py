"""The road ahead: width is hours, a column is a weekday, a hatch is a system."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.draw.road import JobSlice, Pin, RoadAhead, RoadWeek, SessionBox, StanceSlice
from bareshell.draw.road_ahead import road_ahead
from bareshell.draw.systems import fill_of
from bareshell.draw.weeks import RIGHT, lay_out, session_for
from tests.draw import samples

SVG = "{http://www.w3.org/2000/svg}"


def rects(drawing: str, kind: str) -> list[ET.Element]:
    root = ET.fromstring(drawing)  # noqa: S314  our own drawing
    return [node for node in root.iter("rect") if node.get("class") == kind]


def words(drawing: str) -> list[str]:
    root = ET.fromstring(drawing)  # noqa: S314  our own drawing
    return ["".join(node.itertext()) for node in root.iter("text")]


def week(*sessions: tuple[int, int, float], monday: date = samples.MONDAY) -> RoadWeek:
    """A week of (weekday, hour, hours)."""
    boxes = []
    for day, hour, hours in sessions:
        on = monday + timedelta(days=day)
        boxes.append(SessionBox(datetime(on.year, on.month, on.day, hour, tzinfo=UTC), hours))
    return RoadWeek(monday, tuple(boxes))


def test_boxes_are_as_wide_as_their_hours() -> None:
    road = samples.road()
    layout = lay_out(road)
    widths = sorted(float(node.get("width", 0)) for node in rects(road_ahead(road), "f-sheet"))
    hours = sorted(box.hours for row in road.weeks for box in row.sessions)
    patches = len(widths) - len(hours)  # grounds of job names are sheets too
    assert patches > 0
    drawn = {round(hour * layout.px_per_hour, 2) for hour in hours}
    assert drawn <= {round(width, 2) for width in widths}


@given(
    st.lists(
        st.tuples(st.integers(0, 6), st.sampled_from([8, 14, 19]), st.floats(0.25, 12)),
        min_size=1,
        max_size=9,
        unique_by=lambda row: (row[0], row[1]),
    )
)
def test_any_pattern_of_sessions_fits_and_never_overlaps(
    sessions: list[tuple[int, int, float]],
) -> None:
    road = RoadAhead((week(*sessions),))
    layout = lay_out(road)
    spans = sorted(
        (x, x + session.hours * layout.px_per_hour) for session, x in layout.places(road.weeks[0])
    )
    assert len(spans) == len(sessions)
    assert spans[-1][1] <= RIGHT + 0.01
    for (_, end), (start, _) in pairwise(spans):
        assert end < start


def test_a_lost_evening_is_a_gap_and_not_filled_up() -> None:
    full = week((0, 19, 2.5), (2, 19, 2.5), (5, 10, 5))
    lost = replace(week((0, 19, 2.5), (5, 10, 5)), monday=samples.MONDAY)
    later = samples.MONDAY + timedelta(weeks=1)
    second = week((0, 19, 2.5), (5, 10, 5), monday=later)
    layout = lay_out(RoadAhead((full, second)))
    first_places = {box.starts.weekday(): x for box, x in layout.places(full)}
    second_places = {box.starts.weekday(): x for box, x in layout.places(second)}
    assert second_places[0] == first_places[0]
    assert second_places[5] == first_places[5]
    assert 2 not in second_places
    assert lost.sessions


def test_each_job_is_drawn_in_the_hatch_of_its_system_and_in_proportion() -> None:
    box = SessionBox(
        datetime(2026, 11, 25, 19, tzinfo=UTC),
        4.0,
        (JobSlice("pipes", "brakes", 3.0), JobSlice("loom", "electrics", 1.0)),
    )
    road = RoadAhead((RoadWeek(samples.MONDAY, (box,)),))
    root = ET.fromstring(road_ahead(road))  # noqa: S314  our own drawing
    widths = {node.get("fill"): float(node.get("width", 0)) for node in root.iter("rect")}
    assert widths[fill_of("brakes")] == pytest.approx(3 * widths[fill_of("electrics")])


def test_time_that_no_job_takes_stays_blank() -> None:
    box = SessionBox(
        datetime(2026, 11, 25, 19, tzinfo=UTC), 4.0, (JobSlice("pipes", "brakes", 1.0),)
    )
    road = RoadAhead((RoadWeek(samples.MONDAY, (box,)),))
    layout = lay_out(road)
    root = ET.fromstring(road_ahead(road))  # noqa: S314  our own drawing
    hatched = sum(
        float(node.get("width", 0))
        for node in root.iter("rect")
        if (node.get("fill") or "").startswith("url(#h-")
    )
    assert hatched == pytest.approx(layout.px_per_hour * 1.0)


def test_near_weeks_are_larger_than_far_ones() -> None:
    rows = lay_out(samples.road()).rows
    assert rows[0].size.box > rows[6].size.box > rows[20].size.box


def test_rows_follow_each_other_and_make_room_for_their_notes() -> None:
    crowded = replace(
        samples.road().weeks[20], notes=tuple(f"note {number}" for number in range(6))
    )
    road = samples.road()
    weeks = (*road.weeks[:20], crowded, *road.weeks[21:])
    rows = lay_out(replace(road, weeks=weeks)).rows
    for upper, lower in pairwise(rows):
        assert lower.y == pytest.approx(upper.y + upper.height)
    assert rows[20].height > 6 * 20


def test_after_the_first_landing_boxes_are_dashed() -> None:
    road = samples.road()
    after = sum(len(row.sessions) for row in road.weeks if row.monday > road.landings[0].monday)
    assert after > 0
    assert len(rects(road_ahead(road), "l l-dash")) == after
    assert not rects(road_ahead(replace(road, landings=())), "l l-dash")


def test_landings_are_weeks_and_stand_in_the_sentence() -> None:
    road = samples.road()
    assert {"P50", "P80", "P95"} <= set(words(road_ahead(road)))
    assert "P80 the week of 26 July 2027" in road.sentence


def test_a_landing_beyond_the_last_week_is_still_named() -> None:
    short = replace(samples.road(20), landings=samples.LANDINGS)
    assert "P95: 23 Aug" in words(road_ahead(short))


def test_two_people_get_a_second_outline_and_a_word() -> None:
    drawn = words(road_ahead(samples.road(4)))
    assert drawn.count("two people") == 2


def test_the_way_the_car_stands_is_named_only_where_it_changes() -> None:
    drawn = words(road_ahead(samples.road(4)))
    assert drawn.count("lift") == 1
    assert drawn.count("stands") == 1


def test_a_change_within_a_session_is_a_change_of_ribbon() -> None:
    box = SessionBox(
        datetime(2026, 11, 25, 19, tzinfo=UTC),
        4.0,
        stances=(StanceSlice("stands", 1.0), StanceSlice("wheels", 3.0)),
    )
    drawing = road_ahead(RoadAhead((RoadWeek(samples.MONDAY, (box,)),)))
    assert "url(#r-stands)" in drawing
    assert "url(#r-wheels)" in drawing


@pytest.mark.parametrize(
    ("due", "weekday"),
    [
        (date(2026, 11, 23), 0),  # arrives in the day, the session is in the evening
        (date(2026, 11, 24), 2),
        (date(2026, 11, 28), None),  # Saturday's session is in the morning
    ],
)
def test_a_pin_stands_before_the_first_session_that_can_use_its_part(
    due: date, weekday: int | None
) -> None:
    row = week((0, 19, 2.5), (2, 19, 2.5), (5, 10, 5))
    found = session_for(Pin("part", due), row)
    assert (found.starts.weekday() if found else None) == weekday


def test_pins_in_one_place_share_a_head_and_keep_their_letters() -> None:
    drawn = words(road_ahead(samples.road(4)))
    assert "a b" in drawn
    assert drawn.count("a") == drawn.count("b") == 1  # in the margin


def test_a_week_away_says_so() -> None:
    assert "away" in words(road_ahead(samples.road()))


def test_the_same_input_gives_the_same_picture() -> None:
    by_day: dict[str, set[str]] = defaultdict(set)
    for _ in range(2):
        by_day["road"].add(road_ahead(samples.road()))
    assert len(by_day["road"]) == 1
