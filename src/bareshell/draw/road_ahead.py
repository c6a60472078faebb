"""The road ahead, drawn: one row for each week, one box for each session.

The whole road for a wide page and for paper. On a phone the near weeks are a list of lanes
instead; see `bareshell.draw.session_box.session_lane`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Final

from bareshell.draw.days import month, short_day, weekday
from bareshell.draw.measure import shortened, text_width
from bareshell.draw.road import GateMark, Landing, Pin, RoadAhead, SessionBox
from bareshell.draw.session_box import box, outline, ribbon
from bareshell.draw.supports import stance_of
from bareshell.draw.svg import Svg, circle, joined, path, picture, rect, text
from bareshell.draw.weeks import (
    LINE,
    MARGIN,
    MIDDLE,
    NEAR,
    NOTES,
    WIDTH,
    Layout,
    MarginLine,
    Row,
    lay_out,
    session_for,
)

_LETTERS: Final = "abcdefghijklmnopqrstuvwxyz"
_PEOPLE: Final = {2: "two people", 3: "three people", 4: "four people"}


def road_ahead(road: RoadAhead) -> Svg:
    """The whole road in one picture, 1100 wide.

    Parameters
    ----------
    road : RoadAhead
        The weeks from now on, without a hole, and the forecast's landings.

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    layout = lay_out(road)
    letters = _letters(layout)
    return picture(
        WIDTH,
        layout.height + (LINE if _beyond(road) else 0),
        road.sentence,
        _band(road, layout),
        _headings(layout),
        *(_row(row, road, layout, letters) for row in layout.rows),
        _landings(road, layout),
    )


def _headings(layout: Layout) -> Svg:
    return joined(
        text(0, 20, "week of", "t-soft"),
        *(text(column.x, 20, column.heading, "t-soft") for column in layout.columns),
        text(NOTES, 20, "parts due, gates, notes", "t-soft"),
        path(f"M0 30H{WIDTH:g}", "l"),
    )


def _first_landing(road: RoadAhead) -> date | None:
    return road.landings[0].monday if road.landings else None


def _beyond(road: RoadAhead) -> tuple[Landing, ...]:
    """List the landings that fall after the last week drawn."""
    last = road.weeks[-1].monday
    return tuple(landing for landing in road.landings if landing.monday > last)


def _band(road: RoadAhead, layout: Layout) -> Svg:
    """Lay a brass ground from the first landing's week to the last's."""
    first = _first_landing(road)
    rows = [
        row
        for row in layout.rows
        if first is not None and first <= row.week.monday <= road.landings[-1].monday
    ]
    if not rows:
        return Svg()
    return rect(0, rows[0].y, WIDTH, rows[-1].y + rows[-1].height - rows[0].y, "f-brass")


def _landings(road: RoadAhead, layout: Layout) -> Svg:
    """Draw a line under each landing's week, with its share at the right."""
    drawn = []
    rows = {row.week.monday: row for row in layout.rows}
    for index, landing in enumerate(road.landings):
        row = rows.get(landing.monday)
        if row is None:
            continue
        foot = row.y + row.height
        drawn.append(path(f"M0 {foot:g}H{WIDTH:g}", "l-thick" if index == 0 else "l"))
        drawn.append(text(WIDTH - 4, foot - 7, landing.word, "t-big", "end"))
    for index, landing in enumerate(_beyond(road)):
        words = f"{landing.word}: {short_day(landing.monday)}"
        drawn.append(text(WIDTH - 4 - 130 * index, layout.height, words, "t-name", "end"))
    return joined(*drawn)


def _row(row: Row, road: RoadAhead, layout: Layout, letters: dict[Pin, str]) -> Svg:
    first = _first_landing(road)
    dashed = first is not None and row.week.monday > first
    pieces = [_week_name(row, layout), _stance_name(row, layout)]
    places = layout.places(row.week)
    if not places:
        pieces.append(_away(row, layout))
    taken: list[tuple[float, float]] = []
    for session, x in places:
        pieces.append(_session(row, session, x, layout, dashed=dashed, taken=taken))
    if row.size is NEAR:
        pieces.append(_pins_in_place(row, layout, letters, taken))
        pieces.append(_helpers(row, layout, taken))
    pieces.extend(_margin(row, road, letters))
    return joined(*pieces)


def _week_name(row: Row, layout: Layout) -> Svg:
    day = short_day(row.week.monday)
    if row.size is NEAR:
        ahead = "this week" if row.index == 0 else f"in {row.index} week{'s' * (row.index > 1)}"
        y = row.box_y
        return joined(text(0, y + 18, day, "t-big"), text(0, y + 38, ahead, "t-soft"))
    before = layout.rows[row.index - 1].week.monday
    new_month = month(before) != month(row.week.monday)
    y = row.box_y + row.size.box - (3 if row.size is MIDDLE else 0)
    return text(0, y, day, "t-name" if new_month else "t-soft")


def _stances(row: Row) -> list[str]:
    """List the short words for how the car stands through a week, each change once."""
    return [stance_of(support).short for support in row.week.stances]


def _stance_name(row: Row, layout: Layout) -> Svg:
    """Name how the car stands in the first week and wherever it changes."""
    here = _stances(row)
    before = next(
        (stood[-1] for past in reversed(layout.rows[: row.index]) if (stood := _stances(past))),
        None,
    )
    if not here or here == [before]:
        return Svg()
    fresh = here[1:] if here[0] == before else here
    room = 132 - (0 if row.size is NEAR else 58)
    words = " to ".join(fresh) if len(fresh) < 3 else f"{fresh[0]} to {fresh[-1]}"
    if text_width(words, slab=True) > room:
        words = fresh[-1]
    y = row.box_y + row.size.box + (12 if row.size is NEAR else 3 if row.size is MIDDLE else 0)
    return text(132, y, shortened(words, room, slab=True), "t-name", "end")


def _away(row: Row, layout: Layout) -> Svg:
    last = layout.columns[-1] if layout.columns else None
    first_x = layout.columns[0].x if layout.columns else 142.0
    width = (last.x + last.width if last else 806.0) - first_x
    height = max(row.size.box, 17.0)
    y = row.box_y + (row.size.box - height) / 2
    words = row.week.away or "no sessions"
    return joined(
        rect(first_x, y, width, height, "f-shade"),
        text(first_x + 8, y + height / 2 + 5, words, "t-soft"),
    )


def _session(
    row: Row,
    session: SessionBox,
    x: float,
    layout: Layout,
    *,
    dashed: bool,
    taken: list[tuple[float, float]],
) -> Svg:
    """One session with its ground, box, ribbon and the word above it."""
    size, y, scale = row.size, row.box_y, layout.px_per_hour
    width = session.hours * scale
    pieces = []
    if session.now:
        head = 22 if size is NEAR else 4
        pieces.append(rect(x - 7, y - head, width + 14, size.box + head + 12, "f-brass"))
    tag = "tonight" if session.now else session.tag
    if tag and size is NEAR:
        room = width + 6
        words = shortened(tag, room, slab=session.now)
        pieces.append(text(x, y - 8, words, "t-name" if session.now else "t-soft"))
        taken.append((x, x + text_width(words, slab=session.now)))
    pieces.append(box(session, x, y, size.box, scale, dashed=dashed, named=size is NEAR))
    pieces.append(outline(session, x, y, size.box, scale, out=size.outline))
    below = 6.5 if session.people > 1 and size is NEAR else 4.0
    pieces.append(ribbon(session, x, y + size.box + below, scale))
    return joined(*pieces)


def _letters(layout: Layout) -> dict[Pin, str]:
    """Letter the pins of the near weeks, which are drawn in place as well as in the margin."""
    pins = [
        line
        for row in layout.rows
        if row.size is NEAR
        for line in row.lines
        if isinstance(line, Pin)
    ]
    return {pin: _letter(index) for index, pin in enumerate(pins)}


def _letter(index: int) -> str:
    first, second = divmod(index, len(_LETTERS))
    return (_LETTERS[first - 1] if first else "") + _LETTERS[second]


def _pins_in_place(
    row: Row, layout: Layout, letters: dict[Pin, str], taken: list[tuple[float, float]]
) -> Svg:
    """Stand each pin before the first session that can use its part."""
    places = layout.places(row.week)
    standing: dict[float, list[str]] = {}
    for pin in row.week.pins:
        user = session_for(pin, row.week)
        x = next((at for session, at in places if session is user), None)
        if x is None:
            x = (
                layout.columns[-1].x + layout.columns[-1].width + 2 * 10
                if layout.columns
                else 142.0
            )
        standing.setdefault(x - 10, []).append(letters[pin])
    pieces = []
    for x, names in standing.items():
        pieces.append(path(f"M{x:g} {row.box_y - 6:g}V{row.box_y + row.size.box + 6:g}", "l l-2"))
        words = " ".join(sorted(names))
        width = _head_width(words)
        pieces.append(_head(x, row.box_y - 13, words))
        taken.append((x - width / 2, x + width / 2))
    return joined(*pieces)


def _head_width(words: str) -> float:
    return max(18.0, text_width(words, slab=True) + 8)


def _head(x: float, y: float, words: str) -> Svg:
    """The head of a pin with its letters."""
    width = _head_width(words)
    return joined(
        rect(x - width / 2, y - 9, width, 18, "f-ink", rx=9),
        text(x, y + 4.5, words, "t-name t-on-ink", "middle"),
    )


def _helpers(row: Row, layout: Layout, taken: list[tuple[float, float]]) -> Svg:
    """Say who is there above a box, where nothing else stands; the outline says it anyway."""
    pieces = []
    for session, x in layout.places(row.week):
        if session.people < 2:
            continue
        words = _PEOPLE.get(session.people, f"{session.people} people")
        end = x + session.hours * layout.px_per_hour
        start = end - text_width(words)
        free = all(end < left or start > right for left, right in taken)
        if free and start >= x - 2:
            pieces.append(text(end, row.box_y - 8, words, None, "end"))
    return joined(*pieces)


def _margin(row: Row, road: RoadAhead, letters: dict[Pin, str]) -> Iterator[Svg]:
    """Write what arrives, which gates are passed, and notes, one line each."""
    y = row.box_y + row.size.first_note
    landing = next((mark for mark in road.landings if mark.monday == row.week.monday), None)
    lines: tuple[MarginLine, ...] = row.lines
    if landing is not None and landing.meaning and not lines:
        lines = (landing.meaning,)
    room = WIDTH - NOTES - (62 if landing is not None else 0)
    for line in lines:
        yield _margin_line(line, y, room, letters)
        y += LINE


def _margin_line(line: MarginLine, y: float, room: float, letters: dict[Pin, str]) -> Svg:
    if isinstance(line, Pin):
        due = f"{weekday(line.due)} {short_day(line.due)}"
        late = f", to {short_day(line.latest)}" if line.latest and line.latest > line.due else ""
        words = f"{due} {line.part}{late}"
        if text_width(words) > room:
            part = shortened(line.part, room - text_width(f"{due} {late}"))
            words = f"{due} {part}{late}" if part else shortened(f"{due} {line.part}", room)
        head = (
            _head(MARGIN, y - 5, letters[line])
            if line in letters
            else circle(MARGIN, y - 5, 5.5, "f-ink")
        )
        return joined(
            path(f"M{MARGIN - 18:g} {y - 5:g}H{MARGIN:g}", "l"), head, text(NOTES, y, words)
        )
    if isinstance(line, GateMark):
        words = _gate_words(line, room)
        gate = f"M{MARGIN - 7:g} {y - 13:g}V{y + 3:g}M{MARGIN + 7:g} {y - 13:g}V{y + 3:g}"
        return joined(
            path(f"{gate}M{MARGIN - 7:g} {y - 5:g}H{MARGIN + 7:g}", "l-thick"),
            text(NOTES, y, words, "t-name"),
        )
    return text(NOTES, y, shortened(line, room))


def _gate_words(gate: GateMark, room: float) -> str:
    """Write a gate with as much of its day as there is room for."""
    days = (f", {weekday(gate.day)} {short_day(gate.day)}", f", {short_day(gate.day)}")
    for day in days:
        if text_width(gate.name + day, slab=True) <= room:
            return gate.name + day
    short = shortened(gate.name, room - text_width(days[1], slab=True), slab=True)
    return short + days[1]
