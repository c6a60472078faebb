"""Days and moments as they are said, and the two nights a year when the clocks change."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.relativedelta import MO, SA, relativedelta
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.units import parse_date, parse_moment, show_date
from tests.units.polite import is_polite, refusal

TUESDAY = date(2026, 3, 3)
LONDON = ZoneInfo("Europe/London")
EVENING = datetime(2026, 3, 3, 21, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("2026-03-07", date(2026, 3, 7)),
        ("7 March 2026", date(2026, 3, 7)),
        ("7th March", date(2026, 3, 7)),
        ("the 7th of March", date(2026, 3, 7)),
        ("Sat 7 Mar", date(2026, 3, 7)),
        ("7 mar 26", date(2026, 3, 7)),
        ("7mar", date(2026, 3, 7)),
        ("March 7, 2026", date(2026, 3, 7)),
        ("Sept 7", date(2026, 9, 7)),
        ("7.3.26", date(2026, 3, 7)),
        ("07/07/2026", date(2026, 7, 7)),
        ("27/3/2026", date(2026, 3, 27)),
        ("3/27/2026", date(2026, 3, 27)),
        ("2 March", date(2027, 3, 2)),
        ("29 February", date(2028, 2, 29)),
        ("today", TUESDAY),
        ("tonight", TUESDAY),
        ("Tomorrow", date(2026, 3, 4)),
        ("yesterday", date(2026, 3, 2)),
        ("Saturday", date(2026, 3, 7)),
        ("on saturday", date(2026, 3, 7)),
        ("this Tuesday", TUESDAY),
        ("last Tuesday", date(2026, 2, 24)),
        ("thurs", date(2026, 3, 5)),
        ("in 3 weeks", date(2026, 3, 24)),
        ("in a fortnight", date(2026, 3, 17)),
        ("10 days ago", date(2026, 2, 21)),
    ],
)
def test_a_day_as_it_is_said_on_a_tuesday(said: str, day: date) -> None:
    assert parse_date(said, "delivery", today=TUESDAY) == day


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("Saturday", date(2026, 2, 28)),
        ("Tuesday", TUESDAY),
        ("7 March", date(2025, 3, 7)),
        ("2 March", date(2026, 3, 2)),
        ("29 February", date(2024, 2, 29)),
        ("coming Saturday", date(2026, 3, 7)),
    ],
)
def test_work_done_looks_back(said: str, day: date) -> None:
    assert parse_date(said, "work done", today=TUESDAY, towards="past") == day


@pytest.mark.parametrize(
    ("order", "day"),
    [("day first", date(2026, 4, 3)), ("month first", date(2026, 3, 4))],
)
def test_the_owners_order_settles_a_date_in_figures(order: str, day: date) -> None:
    assert order in {"day first", "month first"}
    read = parse_date(
        "3/4/26",
        "delivery",
        today=TUESDAY,
        order="day first" if order == "day first" else "month first",
    )
    assert read == day


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("", "nothing was given"),
        ("soon", "is no day"),
        ("31 April", "no such day"),
        ("29 February 2026", "no such day"),
        ("2026-13-01", "no such day"),
        ("3/4/26", "could be 3 April or 4 March"),
        ("next Saturday", "could be Sat 7 March 2026 or the week after"),
        ("in 5 hours", "not a whole number of days"),
        ("in 2 months", "no fixed length"),
        ("40/40/26", "no such day"),
    ],
)
def test_what_is_no_day_or_could_be_two_is_refused(said: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as told:
        parse_date(said, "delivery", today=TUESDAY)
    assert told.value.field == "delivery"
    assert told.value.remedy


# A general library's own arithmetic of weekdays (dateutil.relativedelta).
@given(st.dates(date(2000, 1, 1), date(2060, 1, 1)))
def test_a_weekday_agrees_with_a_library(today: date) -> None:
    assert parse_date("Saturday", "d", today=today) == today + relativedelta(weekday=SA(1))
    assert parse_date("Monday", "d", today=today, towards="past") == today + relativedelta(
        weekday=MO(-1)
    )


@given(st.dates(date(1950, 1, 1), date(2100, 1, 1)), st.dates(date(2000, 1, 1), date(2060, 1, 1)))
def test_a_day_shown_reads_back(day: date, today: date) -> None:
    assert parse_date(show_date(day), "d", today=today) == day


@pytest.mark.parametrize(
    ("said", "moment"),
    [
        ("now", "2026-03-03T21:00:00+00:00"),
        ("19:30", "2026-03-03T19:30:00+00:00"),
        ("7.30pm", "2026-03-03T19:30:00+00:00"),
        ("7 pm", "2026-03-03T19:00:00+00:00"),
        ("12 am", "2026-03-03T00:00:00+00:00"),
        ("12 pm", "2026-03-03T12:00:00+00:00"),
        ("19h30", "2026-03-03T19:30:00+00:00"),
        ("yesterday 19:30", "2026-03-02T19:30:00+00:00"),
        ("yesterday at 7.30 pm", "2026-03-02T19:30:00+00:00"),
        ("last night 22:15", "2026-03-02T22:15:00+00:00"),
        ("Saturday, 10:00", "2026-02-28T10:00:00+00:00"),
        ("1 March 2026 at 10:00", "2026-03-01T10:00:00+00:00"),
        ("2026-03-01T10:00", "2026-03-01T10:00:00+00:00"),
        ("2026-07-01 10:00", "2026-07-01T10:00:00+01:00"),
        ("an hour ago", "2026-03-03T20:00:00+00:00"),
        ("20 minutes ago", "2026-03-03T20:40:00+00:00"),
        ("in half an hour", "2026-03-03T21:30:00+00:00"),
    ],
)
def test_a_moment_as_it_is_said_in_the_evening(said: str, moment: str) -> None:
    assert parse_moment(said, "held at", now=EVENING, zone=LONDON).isoformat() == moment


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("yesterday", "has no time of day"),
        ("25:00", "no such time"),
        ("13 pm", "no such time"),
        ("19:75", "no such time"),
        ("soon 19:30", "is no day"),
        ("19:30 EST", "EST is not the garage's time"),
    ],
)
def test_what_is_no_moment_is_refused(said: str, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_moment(said, "held at", now=EVENING, zone=LONDON)


def test_the_hour_that_never_was_is_refused() -> None:
    with pytest.raises(BadInput, match="never was"):
        parse_moment("2026-03-29 01:30", "held at", now=EVENING, zone=LONDON)


def test_the_hour_that_was_twice_is_asked_about_and_can_be_answered() -> None:
    with pytest.raises(BadInput, match="was twice") as told:
        parse_moment("2026-10-25 01:30", "held at", now=EVENING, zone=LONDON)
    assert "01:30 BST" in told.value.remedy
    assert "01:30 GMT" in told.value.remedy
    first = parse_moment("2026-10-25 01:30 BST", "held at", now=EVENING, zone=LONDON)
    second = parse_moment("2026-10-25 01:30 GMT", "held at", now=EVENING, zone=LONDON)
    assert second.astimezone(UTC) - first.astimezone(UTC) == timedelta(hours=1)


def test_today_is_the_garages_day_not_the_servers() -> None:
    auckland = ZoneInfo("Pacific/Auckland")  # already the 4th there
    read = parse_moment("today 08:00", "held at", now=EVENING, zone=auckland)
    assert read.date() == date(2026, 3, 4)


@given(st.text(max_size=40))
def test_no_entry_breaks_the_readers(said: str) -> None:
    day = refusal(lambda: parse_date(said, "d", today=TUESDAY))
    moment = refusal(lambda: parse_moment(said, "d", now=EVENING, zone=LONDON))
    assert is_polite(day, "d")
    assert is_polite(moment, "d")
