"""Where things go in the picture of the road ahead: columns of days and rows of weeks.

A session stands in the column of its weekday, so a lost evening is a visible gap. The scale is
one for the whole picture: a wider box is always a longer session. Near weeks are drawn large
because one acts on them, far weeks small because they will change.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from bareshell.draw.days import weekday
from bareshell.draw.measure import text_width
from bareshell.draw.road import GateMark, Pin, RoadAhead, RoadWeek, SessionBox

WIDTH: Final = 1100.0
LEFT: Final = 142.0  # where the first column begins
RIGHT: Final = 806.0  # where the last column must end
MARGIN: Final = 830.0  # heads of the pins in the margin
NOTES: Final = 848.0  # words in the margin
GAP: Final = 20.0  # between columns
PX_PER_HOUR_MOST: Final = 62.0
HEADING: Final = 46.0  # height of the line of column names
LINE: Final = 21.0  # from one note to the next

MarginLine = Pin | GateMark | str


@dataclass(frozen=True, slots=True)
class Column:
    """The place of one weekday."""

    weekday: int
    x: float
    width: float
    heading: str


@dataclass(frozen=True, slots=True)
class Size:
    """How large a row is drawn: its height, its boxes, and where they begin in it."""

    name: str
    row: float
    box: float
    top: float
    first_note: float
    outline: float


NEAR: Final = Size("near", row=84, box=40, top=24, first_note=13, outline=4)
MIDDLE: Final = Size("middle", row=38, box=19, top=8, first_note=14, outline=2.5)
FAR: Final = Size("far", row=29, box=12, top=4, first_note=11, outline=2.5)


@dataclass(frozen=True, slots=True)
class Row:
    """One week with its size and its place down the page."""

    week: RoadWeek
    index: int
    size: Size
    y: float
    height: float
    lines: tuple[MarginLine, ...]

    @property
    def box_y(self) -> float:
        """The upper edge of the boxes, in px."""
        return self.y + self.size.top


@dataclass(frozen=True, slots=True)
class Layout:
    """The whole picture, measured but not yet drawn."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    px_per_hour: float
    height: float

    def places(self, week: RoadWeek) -> tuple[tuple[SessionBox, float], ...]:
        """The sessions of a week with the left edge of each; two in a day follow each other."""
        found = []
        for column in self.columns:
            x = column.x
            for session in _on(week, column.weekday):
                found.append((session, x))
                x += session.hours * self.px_per_hour + GAP / 2
        return tuple(found)


def lay_out(road: RoadAhead) -> Layout:
    """Measure the picture.

    Parameters
    ----------
    road : RoadAhead
        The weeks.

    Returns
    -------
    layout : Layout
        Columns, rows and the one scale.
    """
    spans = _spans(road)
    gaps = GAP * (len(spans) - 1) + GAP / 2 * sum(extra for _, extra in spans.values())
    hours = sum(longest for longest, _ in spans.values())
    scale = min(PX_PER_HOUR_MOST, (RIGHT - LEFT - gaps) / hours) if hours else PX_PER_HOUR_MOST
    columns = []
    x = LEFT
    for day, (longest, extra) in sorted(spans.items()):
        width = longest * scale + extra * GAP / 2
        columns.append(Column(day, x, width, _heading(road, day, width)))
        x += width + GAP
    rows = _rows(road)
    end = rows[-1].y + rows[-1].height
    return Layout(tuple(columns), rows, scale, end + 20)


def _on(week: RoadWeek, day: int) -> tuple[SessionBox, ...]:
    """List the sessions of one weekday in the order of their hours."""
    found = [session for session in week.sessions if session.starts.weekday() == day]
    return tuple(sorted(found, key=lambda session: session.starts))


def _spans(road: RoadAhead) -> dict[int, tuple[float, int]]:
    """Find for each weekday the most hours in one week, and how many sessions share that day."""
    spans: dict[int, tuple[float, int]] = {}
    for week in road.weeks:
        for day in {session.starts.weekday() for session in week.sessions}:
            on_day = _on(week, day)
            longest, extra = spans.get(day, (0.0, 0))
            total = sum(session.hours for session in on_day)
            spans[day] = (max(longest, total), max(extra, len(on_day) - 1))
    return spans


def _heading(road: RoadAhead, day: int, room: float) -> str:
    """Name a column as fully as its width allows."""
    sessions = [session for week in road.weeks for session in _on(week, day)]
    name = weekday(sessions[0].starts.date())
    parts = Counter(_part_of_day(session.starts.hour) for session in sessions)
    lengths = Counter(session.hours for session in sessions)
    usual = lengths.most_common(1)[0][0]
    length = f"{usual:g} h" if len(lengths) == 1 else f"mostly {usual:g} h"
    part = parts.most_common(1)[0][0] if len(parts) == 1 else ""
    for heading in (f"{name} {part} {length}", f"{name} {length}", f"{name} {part}"):
        words = " ".join(heading.split())
        if text_width(words) <= room:
            return words
    return name


def _part_of_day(hour: int) -> str:
    return "morning" if hour < 12 else "afternoon" if hour < 17 else "evening"


def _rows(road: RoadAhead) -> tuple[Row, ...]:
    rows = []
    y = HEADING
    for index, week in enumerate(road.weeks):
        size = NEAR if index < 4 else MIDDLE if index < 12 else FAR
        lines: tuple[MarginLine, ...] = (
            *sorted(week.pins, key=lambda pin: pin.due),
            *sorted(week.gates, key=lambda gate: gate.day),
            *week.notes,
        )
        needed = size.top + size.first_note + LINE * (len(lines) - 1) + 9
        height = max(size.row, needed)
        rows.append(Row(week, index, size, y, height, lines))
        y += height
    return tuple(rows)


def session_for(pin: Pin, week: RoadWeek) -> SessionBox | None:
    """The first session of the week that can use a part, or None when there is none.

    A part that comes during a day is counted on from the day after, unless the session is in
    the evening.
    """
    for session in sorted(week.sessions, key=lambda box: box.starts):
        day = session.starts.date()
        if day > pin.due or (day == pin.due and session.starts.hour >= 17):
            return session
    return None


def week_of(day: date) -> date:
    """The Monday of a day's week.

    Examples
    --------
    >>> week_of(date(2026, 11, 25))
    datetime.date(2026, 11, 23)
    """
    return day - timedelta(days=day.weekday())
