"""The session as it really is: what the person says wins over the pattern, the rest stays."""

from __future__ import annotations

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bareshell.errors import BadInput, Refused
from bareshell.model import changes as c
from bareshell.whole.asked import asked_session
from bareshell.whole.sheet_parts import SessionAsked
from tests.stories import NOW, build_of, garage_changes, small_car

LONDON = ZoneInfo("Europe/London")


def test_unsaid_it_is_the_next_session_of_the_pattern() -> None:
    facts = asked_session(small_car(), NOW, None).facts
    assert facts.starts_at == datetime(2026, 3, 4, 19, 0, tzinfo=LONDON)
    assert (facts.minutes, facts.people, facts.support) == (150, 1, "stands")
    assert facts.overridden == ()


def test_what_is_said_wins_and_is_named() -> None:
    asked = SessionAsked(minutes=90, people=2, support="wheels", temperature_c=8)
    session = asked_session(small_car(), NOW, asked)
    assert session.facts.minutes == 90
    assert session.problem.support == "wheels"
    first = session.problem.sessions.first(1)[0]
    assert (first.minutes, first.people, first.temperature_c) == (90, 2, 8)
    assert first.certain
    assert session.facts.overridden == ("minutes", "people", "support", "temperature_c")


def test_ninety_minutes_on_another_day_means_now() -> None:
    thursday = NOW + timedelta(days=1)
    facts = asked_session(small_car(), thursday, SessionAsked(minutes=90)).facts
    assert facts.starts_at == thursday


def test_the_sessions_after_tonight_stay_as_they_were() -> None:
    session = asked_session(small_car(), NOW, SessionAsked(minutes=60))
    written = session.problem.sessions.first(3)
    assert [slot.minutes for slot in written] == [60, 300, 150]


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        (SessionAsked(minutes=3), "how long"),
        (SessionAsked(minutes=3000), "how long"),
        (SessionAsked(people=3), "who is there"),
        (SessionAsked(support="crane"), "how the car stands"),
        (SessionAsked(temperature_c=90), "temperature"),
    ],
)
def test_what_cannot_be_is_named_with_what_would_be_right(asked: SessionAsked, field: str) -> None:
    with pytest.raises(BadInput, match=field) as error:
        asked_session(small_car(), NOW, asked)
    assert error.value.remedy


def test_without_any_session_the_remedy_is_said_and_minutes_are_enough() -> None:
    changes = [ch for ch in garage_changes() if not isinstance(ch, c.PatternSet)]
    build = build_of(changes)
    with pytest.raises(Refused, match="no session to come"):
        asked_session(build, NOW, None)
    assert asked_session(build, NOW, SessionAsked(minutes=60)).facts.starts_at == NOW
