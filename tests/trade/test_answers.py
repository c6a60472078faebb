"""Twelve questions, and answers as people give them."""

from __future__ import annotations

from datetime import UTC, date, datetime, time

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput, Problem
from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.position import SupportKind
from bareshell.model.session import SessionPattern
from bareshell.trade.answers import Answers, Stretch, read_answers
from bareshell.trade.garage import (
    garage_of,
    patterns_of,
    placement_of,
    supports_of,
)
from bareshell.trade.questions import NOT_SURE, QUESTIONS
from bareshell.trade.row import FORCED_INDUCTION

LEAST = {"name": "the old saloon", "layout": "rear"}
WEDNESDAY = datetime(2031, 3, 5, 20, 0, tzinfo=UTC)


def test_there_are_at_most_twelve_and_each_says_how_to_find_the_answer() -> None:
    assert len(QUESTIONS) <= 12
    assert len({question.id for question in QUESTIONS}) == len(QUESTIONS)
    for question in QUESTIONS:
        assert question.ask.endswith("?")
        assert question.help.endswith(".")
        assert question.default is None
        assert bool(question.choices) == (question.kind in ("one", "many"))


def test_only_name_and_layout_must_be_known() -> None:
    assert [q.id for q in QUESTIONS if not q.may_be_unsure] == ["name", "layout"]
    assert read_answers(LEAST) == Answers("the old saloon", Layout.REAR)


def test_not_sure_is_the_same_as_no_answer() -> None:
    unsure = {q.id: NOT_SURE for q in QUESTIONS if q.may_be_unsure}
    assert read_answers({**LEAST, **unsure}) == read_answers(LEAST)
    assert read_answers({**LEAST, "engine": "Not sure"}).engine_in is None


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.id)
def test_every_choice_that_is_offered_can_be_chosen(question: object) -> None:
    offered = next(q for q in QUESTIONS if q is question)
    for choice in offered.choices:
        for said in (choice.value, choice.words, *choice.also, choice.value.upper()):
            if offered.id == "heated" and said == choice.words and choice.value != "no":
                continue  # a form sends the degrees, not the sentence
            read_answers({**LEAST, offered.id: said})


def test_answers_are_read_as_people_write_them() -> None:
    read = read_answers(
        {
            "name": "  the   old saloon ",
            "layout": "FWD",
            "systems": ["brakes, fuel", "blower"],
            "supports": "scissor, stands",
            "standing": "on its wheels",
            "engine": "yes",
            "pedal": "spongy",
            "glass": "no",
            "helper": "fortnightly",
            "days": "sat, mon,wednesday",
            "hours": "7 to 9:30 pm; 10-15",
            "heated": "16 C",
        }
    )
    assert read == Answers(
        "the old saloon",
        Layout.FRONT,
        frozenset({"brakes", "fuel"}),
        frozenset({FORCED_INDUCTION}),
        frozenset({SupportKind.SCISSOR_LIFT, SupportKind.STANDS}),
        SupportKind.WHEELS,
        engine_in=True,
        pedal="soft",
        glass_in=False,
        helper="every two weeks",
        days=("monday", "wednesday", "saturday"),
        weekday=Stretch(time(19, 0), 150),
        weekend=Stretch(time(10, 0), 300),
        heated=True,
        heated_to_c=16.0,
    )


@pytest.mark.parametrize(
    ("said", "starts", "minutes"),
    [
        ("19:15 to 21:45", time(19, 15), 150),
        ("19.15-21.45", time(19, 15), 150),
        ("19:15 2.5 h", time(19, 15), 150),
        ("7pm for 2 hours", time(19, 0), 120),
        ("10 to 3 pm", time(10, 0), 300),
        ("12am to 1am", time(0, 0), 60),
        ("22:30 to 00:15", time(22, 30), 105),
    ],
)
def test_hours_are_read(said: str, starts: time, minutes: int) -> None:
    assert read_answers({**LEAST, "hours": said}).weekday == Stretch(starts, minutes)


@pytest.mark.parametrize(
    "said",
    ["evenings", "25:00 to 26:00", "19:15 to 18:00", "19:15", "1 h; 2 h; 3 h", "19:15 for 0 h"],
)
def test_hours_that_cannot_be_read_say_what_would_be_right(said: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_answers({**LEAST, "hours": said})
    assert refused.value.field == "From when to when?"
    assert "19:15 to 21:45" in refused.value.remedy


def test_everything_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(BadInput) as refused:
        read_answers(
            {
                "name": " ",
                "layout": NOT_SURE,
                "engine": "perhaps",
                "supports": "crane",
                "pedal": ["hard", "soft"],
                "days": "monday, not sure",
                "hours": "late",
                "heated": "cosy",
                "colour": "red",
            }
        )
    fields = [problem.where for problem in refused.value.problems]
    assert fields == [
        "colour",
        "What do you call the car?",
        "Which wheels are driven?",
        "What can the car stand on in your garage?",
        "Is the engine in?",
        "Press the brake pedal: what does it do?",
        "On which days are you in the garage?",
        "From when to when?",
        "Is the garage heated?",
    ]
    assert all(problem.remedy for problem in refused.value.problems)


@given(st.dictionaries(st.sampled_from([q.id for q in QUESTIONS]), st.text(max_size=40)))
def test_whatever_is_typed_is_read_or_refused_in_a_sentence(said: dict[str, str]) -> None:
    problems: tuple[Problem, ...] = ()
    try:
        read = read_answers(said)
    except BadInput as refused:
        problems = refused.problems
    else:
        assert read.name == " ".join(said["name"].split())
    assert all(problem.what and problem.remedy for problem in problems)


# --- the garage -------------------------------------------------------------------------------


def test_not_sure_keeps_every_system_and_a_figure_of_warmth_open() -> None:
    read = read_answers(LEAST)
    assert read.systems is None
    assert garage_of(read) is None
    assert placement_of(read) is None
    assert patterns_of(read, WEDNESDAY, "UTC") == ()
    assert set(OPTIONAL_SYSTEMS) >= {"brakes"}


def test_an_unheated_garage_is_known_to_be_unheated() -> None:
    garage = garage_of(read_answers({**LEAST, "heated": "no"}))
    assert garage is not None
    assert garage.heated_to_c is None


def test_what_it_stands_on_is_there_even_when_it_was_not_ticked() -> None:
    read = read_answers({**LEAST, "supports": "stands", "standing": "two-post lift"})
    assert SupportKind.TWO_POST_LIFT in {support.kind for support in supports_of(read)}


def test_what_is_out_stands_with_how_the_car_was_left() -> None:
    read = read_answers({**LEAST, "standing": "stands", "engine": "out", "glass": "in"})
    placement = placement_of(read)
    assert placement is not None
    assert (placement.support, placement.off) == ("stands", frozenset({"engine out"}))


def _days(pattern: SessionPattern, until: date) -> list[date]:
    start = datetime.combine(pattern.first_day, time())
    rule = rrulestr(pattern.rule, dtstart=start)
    return [moment.date() for moment in rule.between(start, datetime.combine(until, time()), True)]


def test_a_usual_week_repeats_as_the_recurrence_standard_says() -> None:
    # The rules are read by dateutil, an independent reader of RFC 5545.
    read = read_answers(
        {
            **LEAST,
            "days": "monday, wednesday, saturday",
            "hours": "19:15 to 21:45; 10:00 to 15:00",
            "helper": "every two weeks",
        }
    )
    weekdays, weekend, helper = patterns_of(read, WEDNESDAY, "Europe/London")
    assert weekdays.title == "Monday and Wednesday evenings"
    assert (weekdays.starts, weekdays.minutes, weekdays.people) == (time(19, 15), 150, 1)
    assert _days(weekdays, date(2031, 3, 19)) == [date(2031, 3, day) for day in (10, 12, 17, 19)]
    assert (weekend.starts, weekend.minutes, weekend.people) == (time(10, 0), 300, 1)
    assert helper.people == 2
    fortnights = [date(2031, 3, 8), date(2031, 3, 22), date(2031, 4, 5)]
    assert _days(helper, date(2031, 4, 6)) == fortnights
    assert set(_days(helper, date(2031, 6, 1))) < set(_days(weekend, date(2031, 6, 1)))


def test_a_helper_once_a_month_comes_on_the_first_of_these_days() -> None:
    read = read_answers(
        {**LEAST, "days": "tuesday, thursday", "hours": "19 to 21", "helper": "once a month"}
    )
    weekdays, helper = patterns_of(read, WEDNESDAY, "UTC")
    found = _days(helper, date(2031, 6, 30))
    assert found == [date(2031, month, day) for month, day in ((3, 6), (4, 3), (5, 1), (6, 5))]
    assert all(day.weekday() == 3 for day in found)
    assert helper.starts == weekdays.starts


def test_the_week_begins_with_the_day_on_the_garage_wall() -> None:
    late = datetime(2031, 3, 4, 23, 30, tzinfo=UTC)  # Wednesday already, further east
    read = read_answers({**LEAST, "days": "tuesday", "hours": "19 to 21"})
    assert patterns_of(read, late, "UTC")[0].first_day == date(2031, 3, 4)
    assert patterns_of(read, late, "Europe/Helsinki")[0].first_day == date(2031, 3, 11)
