"""Times as they are said at the end of an evening."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.units import parse_hours, show_hours, show_wait
from tests.units.polite import is_polite, refusal


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("2.5 h", 2.5),
        ("2,5 h", 2.5),
        ("2½ hours", 2.5),
        ("2h30", 2.5),
        ("2 h 30", 2.5),
        ("2h 30m", 2.5),
        ("2 hrs 30 mins", 2.5),
        ("2 hours and 30 minutes", 2.5),
        ("2 hours, 30 minutes", 2.5),
        ("2:30", 2.5),
        ("0:20", 1 / 3),
        ("90 min", 1.5),
        ("90min", 1.5),
        ("90m", 1.5),
        ("an hour and a half", 1.5),
        ("one and a half hours", 1.5),
        ("One hour", 1.0),
        ("an hour", 1.0),
        ("half an hour", 0.5),
        ("half hour", 0.5),
        ("a half hour", 0.5),
        ("a quarter of an hour", 0.25),
        ("quarter of an hour", 0.25),
        ("three quarters of an hour", 0.75),
        ("three-quarters of an hour", 0.75),
        ("an hour and a quarter", 1.25),
        ("an hour and three quarters", 1.75),
        ("two hours", 2.0),
        ("two and a half hours", 2.5),
        ("a couple of hours", 2.0),
        ("an hour and twenty minutes", 4 / 3),
        ("twenty-five minutes", 25 / 60),
        ("forty five mins", 0.75),
        ("30 s", 30 / 3600),
        ("1/2 h", 0.5),
        ("0 min", 0.0),
    ],
)
def test_a_time_worked(said: str, hours: float) -> None:
    assert parse_hours(said, "time taken") == pytest.approx(hours)


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("overnight 12 h", None),
        ("2 days", 48.0),
        ("a week", 168.0),
        ("a fortnight", 336.0),
        ("1 day 12 h", 36.0),
        ("10 days", 240.0),
    ],
)
def test_a_wait_by_the_clock_may_be_in_days(said: str, hours: float | None) -> None:
    if hours is None:
        with pytest.raises(BadInput):
            parse_hours(said, "wait", days=True)
    else:
        assert parse_hours(said, "wait", days=True) == pytest.approx(hours)


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("", "nothing was given"),
        ("45", "has no unit of time"),
        ("a while", "is no length of time"),
        ("2 days", "has no fixed length"),
        ("3 months", "has no fixed length"),
        ("30 min 2 h", "do not go down"),
        ("2 h 3 h", "do not go down"),
        ("-2 h", "is below zero"),
        ("2 bananas", "is no unit of time"),
        ("1,500 min", "could be"),
        ("2 h please", "is no length of time"),
    ],
)
def test_what_is_no_time_worked_is_refused(said: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as told:
        parse_hours(said, "time taken")
    assert told.value.field == "time taken"
    assert told.value.remedy


def test_the_unit_printed_beside_the_field_is_taken() -> None:
    assert parse_hours("45", "time taken", bare="min") == 0.75
    assert parse_hours("2", "time taken", bare="h") == 2.0


@given(minutes=st.integers(0, 6000))
def test_a_time_shown_reads_back_to_the_minute(minutes: int) -> None:
    assert parse_hours(show_hours(minutes / 60), "time") == pytest.approx(minutes / 60)


@given(hours=st.integers(0, 24 * 60))
def test_a_wait_shown_reads_back_to_the_hour(hours: int) -> None:
    assert parse_hours(show_wait(float(hours)), "wait", days=True) == pytest.approx(hours)


@given(st.text(max_size=40))
def test_no_entry_breaks_the_reader(said: str) -> None:
    assert is_polite(refusal(lambda: parse_hours(said, "time", days=True)), "time")
