"""How warm the bay will be: monthly figures, readings, nights; and what waits make of it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.session import Garage, HeldSession
from bareshell.whole.garage_time import sessions_between
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.season import NIGHT_DROP_C, Season, expected_temperature_c, season_of
from tests.stories import NOW, build_of, later, small_car, small_car_changes

LONDON = ZoneInfo("Europe/London")
COLD = Garage(monthly_c=(4.0, 4.0, 7.0, 10.0, 14.0, 17.0, 19.0, 19.0, 16.0, 12.0, 7.0, 5.0))


def held(number: int, celsius: float | None, day: datetime = NOW) -> HeldSession:
    start = day - timedelta(days=7 * number)
    return HeldSession(f"s{number}", start, start + timedelta(hours=2), 1, celsius)


def read_as(*readings: float, garage: Garage = COLD) -> Build:
    build = later(small_car(), c.GarageDescribed(garage))
    for number, celsius in enumerate(readings, 1):
        build = later(build, c.SessionHeld(held(number, celsius)), at=NOW - timedelta(days=1))
    return build


def test_without_readings_the_monthly_figures_stand() -> None:
    assert season_of(read_as(), LONDON) == Season(COLD, 0.0, 0)


def test_readings_shift_the_year_the_more_the_more_there_are() -> None:
    def warmer(count: int) -> float:
        days = [(NOW - timedelta(days=7 * n)).date() for n in range(1, count + 1)]
        return season_of(
            read_as(*(expected_temperature_c(COLD, day) + 4.0 for day in days)), LONDON
        ).shift_c

    assert warmer(1) == pytest.approx(4.0 / 5)
    assert warmer(4) == pytest.approx(2.0)
    assert warmer(12) == pytest.approx(3.0)


def test_a_reading_far_off_was_of_something_else() -> None:
    assert season_of(read_as(30.0), LONDON).readings == 0


def test_what_was_read_beside_the_heater_says_nothing_of_the_season() -> None:
    heated = Garage(heated_to_c=18.0, monthly_c=COLD.monthly_c)
    long_ago = later(small_car(), c.GarageDescribed(heated), at=NOW - timedelta(days=90))
    read = [c.SessionHeld(held(number, 18.0)) for number in (1, 2)]
    assert season_of(later(long_ago, *read), LONDON).readings == 0


def test_what_was_read_before_there_was_a_heater_still_tells_of_the_season() -> None:
    before = read_as(8.0, 9.0)
    heated = later(before, c.GarageDescribed(Garage(heated_to_c=18.0, monthly_c=COLD.monthly_c)))
    assert season_of(heated, LONDON).shift_c == season_of(before, LONDON).shift_c != 0.0
    corrected = later(heated, c.GarageDescribed(Garage(heated_to_c=20.0)))
    assert corrected.heated_since == heated.heated_since


def test_a_bay_heated_through_the_nights_is_never_colder_than_its_heating() -> None:
    day = date(2031, 1, 10)
    work = Season(Garage(heated_to_c=16.0, monthly_c=COLD.monthly_c))
    nights = Season(Garage(heated_to_c=16.0, monthly_c=COLD.monthly_c, heated_nights=True))
    assert work.working_c(day) == nights.working_c(day) == 16.0
    assert work.lowest_c(day, day) < 4.0
    assert nights.lowest_c(day, day) == 16.0
    assert nights.lowest_c(date(2031, 7, 20), date(2031, 7, 21)) > 15.9


def test_the_lowest_is_a_night_of_the_colder_end_or_of_a_turn_between() -> None:
    season = Season(COLD)
    autumn = season.lowest_c(date(2031, 10, 1), date(2031, 10, 20))
    assert autumn == pytest.approx(season.mean_c(date(2031, 10, 20)) - NIGHT_DROP_C)
    over = season.lowest_c(date(2031, 12, 20), date(2032, 3, 1))
    coldest = min(season.mean_c(date(2031, 12, 20) + timedelta(days=n)) for n in range(72))
    assert over == pytest.approx(coldest - NIGHT_DROP_C)


def test_a_session_knows_the_coldest_until_the_next_one() -> None:
    build = build_of([*small_car_changes(), c.GarageDescribed(COLD)])
    start = datetime(2026, 10, 1, tzinfo=UTC)
    slots = sessions_between(build, start, start + timedelta(days=40))
    for slot, then in pairwise(slots):
        assert slot.temperature_c is not None
        assert slot.lowest_until_next_c is not None
        assert then.temperature_c is not None
        expected = min(slot.temperature_c, then.temperature_c) - NIGHT_DROP_C
        assert slot.lowest_until_next_c == pytest.approx(expected, abs=0.5)


def test_a_wait_grows_until_it_meets_no_colder_night() -> None:
    """A week's cure begun as the frost comes on meets colder nights the longer it takes."""
    begun = datetime(2031, 10, 20, 18, tzinfo=UTC)
    season = Season(COLD)
    takes = season.stretched_minutes(7 * 1440, begun, LONDON)
    last = (begun + timedelta(minutes=takes)).date()
    colder = 18.0 - season.lowest_c(begun.date(), last)
    assert takes == pytest.approx(7 * 1440 * 2 ** (colder / 9.0), rel=0.001)
    at_first = 18.0 - season.lowest_c(begun.date(), begun.date())
    assert takes > 7 * 1440 * 2 ** (at_first / 9.0)
    assert season.stretched_minutes(7 * 1440, datetime(2031, 7, 20, tzinfo=UTC), LONDON) < takes


def test_a_warm_bay_stretches_nothing() -> None:
    warm = Season(Garage(monthly_c=(25.0,) * 12))
    assert warm.stretched_minutes(1440, NOW, LONDON) == 1440


def test_the_plan_is_asked_with_the_season_that_was_learned() -> None:
    plain = plan_question(read_as(), NOW).problem.sessions.first(1)[0]
    days = [(NOW - timedelta(days=7 * n)).date() for n in range(1, 13)]
    warmer = read_as(*(expected_temperature_c(COLD, day) + 4.0 for day in days))
    learned = plan_question(warmer, NOW).problem.sessions.first(1)[0]
    assert plain.temperature_c is not None
    assert learned.temperature_c == pytest.approx(plain.temperature_c + 3.0, abs=0.01)
