"""The calendar as any calendar reads it: taken apart here by the rules, not by the library.

Held against RFC 5545 (from memory): 3.1 lines of at most 75 octets ended by CR LF and folded with a
space, 3.3.11 escaped text, 3.6.1 an event has UID, DTSTAMP and DTSTART, 3.8.2.2 the end of a whole
day is the day after.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.plan.road import road as plan_road
from bareshell.report.calendar import CalendarHead, calendar_text
from bareshell.whole.days_ahead import DayAhead, days_ahead
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.road_answer import road_overview
from tests.stories import NOW, later, small_car

HEAD = CalendarHead("first-entry", "Test mule (invented)", NOW, "The road ahead; it changes.")
Line = tuple[str, dict[str, str], str]


def taken_apart(text: bytes) -> list[list[Line]]:
    """Unfold the lines and put each event's together; the calendar's own come first."""
    assert text.endswith(b"\r\n")
    lines = text.removesuffix(b"\r\n").split(b"\r\n")
    assert all(len(line) <= 75 for line in lines), "a line of more than 75 octets"
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    whole: list[bytes] = []
    for line in lines:
        if line.startswith((b" ", b"\t")):
            whole[-1] += line[1:]
        else:
            whole.append(line)
    read = [_read(one.decode()) for one in whole]
    assert read[0] == ("BEGIN", {}, "VCALENDAR")
    assert read[-1] == ("END", {}, "VCALENDAR")
    groups: list[list[Line]] = [[]]
    for name, parameters, value in read[1:-1]:
        if name == "BEGIN":
            assert value == "VEVENT"
            groups.append([])
        elif name != "END":
            groups[-1].append((name, parameters, value))
    return groups


def _read(line: str) -> Line:
    head, _, value = line.partition(":")
    name, *parameters = head.split(";")
    return name, dict(one.split("=", 1) for one in parameters), value


def _plain(value: str) -> str:
    """Undo the escapes of text."""
    out, escaped = "", False
    for letter in value:
        if escaped:
            out += "\n" if letter in "nN" else letter
            escaped = False
        elif letter == "\\":
            escaped = True
        else:
            out += letter
    return out


def _value(event: list[Line], name: str) -> str:
    (found,) = [value for key, _, value in event if key == name]
    return found


def _events(build: Build, at: datetime = NOW) -> dict[str, list[Line]]:
    question = plan_question(build, at)
    road = road_overview(build, question, plan_road(question.problem, seed=1, samples=20))
    _, *events = taken_apart(calendar_text(HEAD, days_ahead(build, road, at)))
    named = {_value(event, "UID"): event for event in events}
    assert len(named) == len(events), "two events share a UID"
    return named


def _titled(events: dict[str, list[Line]], begins: str) -> dict[str, list[Line]]:
    return {k: e for k, e in events.items() if _plain(_value(e, "SUMMARY")).startswith(begins)}


def test_every_line_keeps_to_the_rules_whatever_the_words_are() -> None:
    title = 'Fit; the "long" hose, 3/8, Brünner & Sønn \\ 中文 🔩 ' + "and so on " * 12
    words = "first line\nsecond, with a comma; and a semicolon\n" + "ü" * 200
    day = DayAhead("part/x", "part due", title, words, date(2026, 12, 31))
    head, event = taken_apart(calendar_text(HEAD, [day]))
    assert _plain(_value(event, "SUMMARY")) == title
    assert _plain(_value(event, "DESCRIPTION")) == words
    assert _value(head, "VERSION") == "2.0"
    assert _value(head, "PRODID")
    assert _plain(_value(head, "NAME")) == "Test mule (invented)"


def test_an_event_has_what_every_calendar_asks_for() -> None:
    for event in _events(small_car()).values():
        assert _value(event, "DTSTAMP") == "20260304T180000Z"
        starts = next(line for line in event if line[0] == "DTSTART")
        ends = next(line for line in event if line[0] == "DTEND")
        if starts[1].get("VALUE") == "DATE":
            day, after = (date.fromisoformat(line[2]) for line in (starts, ends))
            assert after - day == timedelta(days=1)
        else:
            assert starts[2].endswith("Z")
            assert starts[2] < ends[2]


def test_a_session_is_there_with_its_hours_on_the_garage_s_clock() -> None:
    sessions = _titled(_events(small_car()), "Garage: ")
    first = min(sessions.values(), key=lambda event: _value(event, "DTSTART"))
    starts = datetime.strptime(_value(first, "DTSTART"), "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    assert starts.astimezone(ZoneInfo("Europe/London")).strftime("%a %H:%M") == "Wed 19:00"
    assert "min" in _plain(_value(first, "DESCRIPTION"))
    assert "Planning help only" in _plain(_value(first, "DESCRIPTION"))


def test_a_part_is_there_on_its_day_and_keeps_its_name_when_the_day_moves() -> None:
    build = small_car()
    ((key, event),) = _titled(_events(build), "Due: Rear flexible hose").items()
    assert _value(event, "DTSTART") == "20260309"
    moved = later(build, c.OrderExpected("o1", date(2026, 3, 16)))
    ((again, event),) = _titled(_events(moved), "Due: Rear flexible hose").items()
    assert again == key
    assert _value(event, "DTSTART") == "20260316"


def test_a_part_that_must_be_ordered_is_there_on_its_last_day() -> None:
    wanting = later(small_car(), c.NeedNotHere("nuts"))
    (event,) = _titled(_events(wanting), "Order: Pipe nuts M10x1").values()
    assert "it is wanted on" in _plain(_value(event, "DESCRIPTION"))


def test_a_hold_is_there_when_it_can_be_read_and_gone_once_it_was() -> None:
    done = (c.JobFinished(key, 1) for key in ("rear-pipe", "rear-hose", "hold"))
    began = NOW - timedelta(hours=2)
    held = later(small_car(), *done, c.ProofBegun("rear-joint"), at=began)
    (event,) = _titled(_events(held), "Read: Rear tee dry under pressure").values()
    assert _value(event, "DTSTART") == f"{began + timedelta(hours=12):%Y%m%dT%H%M%SZ}"
    read = later(held, c.ProofHeld("rear-joint"), at=began + timedelta(hours=13))
    assert _titled(_events(read, began + timedelta(hours=14)), "Read: ") == {}


def test_another_build_has_other_names() -> None:
    day = DayAhead("part/hose", "part due", "Due: hose", "", date(2026, 3, 9))
    names = []
    for build in ("one", "other", "one"):
        head = CalendarHead(build, "A car", NOW)
        names.append(_value(taken_apart(calendar_text(head, [day]))[1], "UID"))
    assert names[0] == names[2] != names[1]
