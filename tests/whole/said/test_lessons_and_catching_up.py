"""Lessons head the other side's ticket; weeks of silence are followed by a few questions."""

from __future__ import annotations

from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.note import Lesson
from bareshell.model.session import HeldSession
from bareshell.whole.said.catching_up import MOST_QUESTIONS, Question, catching_up
from bareshell.whole.said.lessons import ticket_lessons
from bareshell.whole.said.understand import understand
from bareshell.whole.said.weigh import folded
from tests.whole.said.invented_builds import (
    AT,
    TONIGHT,
    ZONE,
    build_under_pressure,
    kept,
    small_build,
)

SMALL = small_build()


def learned(key: str, at: datetime, job: str, words: str) -> tuple[datetime, c.Change]:
    return at, c.LessonLearned(Lesson(key, at, words, job))


# --- lessons ------------------------------------------------------------------------------------


def test_the_other_sides_lesson_heads_the_ticket_then_its_own() -> None:
    build = kept(
        [
            learned("l1", AT - timedelta(days=9), "caliper-r", "own: pads before pins"),
            learned("l2", AT - timedelta(days=5), "caliper-l", "second: shim first"),
            learned("l3", AT - timedelta(days=7), "caliper-l", "first: clean the slides"),
            learned("l4", AT, "heater-fit", "something else"),
        ],
        SMALL,
    )
    assert [lesson.words.split(":")[0] for lesson in ticket_lessons(build, "caliper-r")] == [
        "first",
        "second",
        "own",
    ]
    assert ticket_lessons(build, "no-such") == ()


def test_a_twin_named_by_one_side_only_is_a_twin() -> None:
    build = kept([learned("l1", AT, "hose-r", "turn the hose, not the nut")], SMALL)
    assert [lesson.words for lesson in ticket_lessons(build, "hose-l")]


def test_a_lesson_said_at_the_end_of_a_session_reaches_the_other_side() -> None:
    understood = understand(
        "offside caliper on 1 h. note for the other side: pins before pads",
        SMALL,
        TONIGHT,
        AT,
        ZONE,
    )
    assert "heads the ticket of 'Fit front caliper, pads, pins and clips, nearside'" in (
        understood.heard[-1].sentence
    )
    build = folded(SMALL, understood.dated)
    assert [lesson.words for lesson in ticket_lessons(build, "caliper-l")] == ["pins before pads"]


# --- after weeks of silence ---------------------------------------------------------------------

LATER = AT + timedelta(days=60)


def asked(build: Build = SMALL, planned: tuple[str, ...] = TONIGHT) -> tuple[Question, ...]:
    return catching_up(build, planned, AT, LATER)


def test_nothing_is_asked_before_three_silent_weeks() -> None:
    assert catching_up(SMALL, TONIGHT, AT, AT + timedelta(days=20)) == ()
    assert catching_up(SMALL, TONIGHT, AT, AT + timedelta(days=22)) != ()
    assert catching_up(SMALL, TONIGHT, None, LATER) == ()
    session = HeldSession("s", LATER - timedelta(days=2), LATER - timedelta(days=2, hours=-2))
    busy = kept([(session.ended_at, c.SessionHeld(session))], SMALL)
    assert catching_up(busy, TONIGHT, AT, LATER) == ()


def test_at_most_eight_are_asked_and_a_hold_left_running_comes_first() -> None:
    planned = tuple(SMALL.jobs)
    questions = asked(build_under_pressure(), planned)
    assert len(questions) == MOST_QUESTIONS
    assert questions[0].about == "proof:rear-tee"
    assert "under pressure still" in questions[0].text
    assert [q.worth for q in questions] == sorted((q.worth for q in questions), reverse=True)


def test_every_kind_of_thing_is_asked_after() -> None:
    kinds = {q.about.split(":")[0] for q in asked(build_under_pressure(), TONIGHT[:2])}
    assert kinds == {"proof", "job", "order", "temp"}


def test_a_part_that_was_due_is_asked_after_and_one_without_a_date_is_not() -> None:
    about = {q.about for q in asked(planned=("heater-fit",))}
    assert {"order:o-rubbers", "order:o-cylinders"} <= about
    assert "order:o-relay" not in about


def test_jobs_that_are_done_are_not_asked_after() -> None:
    about = {q.about for q in asked(planned=("caliper-l", "heater-fit"))}
    assert "job:heater-fit" in about
    assert "job:caliper-l" not in about


def test_an_answer_says_honestly_that_nobody_knows_the_day() -> None:
    question = next(q for q in asked() if q.about == "job:heater-fit")
    done, begun, not_yet = question.choices
    (change,) = done.changes
    assert isinstance(change, c.JobFinished)
    assert change.hours is None
    assert change.words.startswith("done some time before Sun 24 January 2027, after Wed 25 Nov")
    assert "lies covered, unproven" in done.label
    assert isinstance(begun.changes[0], c.JobWorked)
    assert not_yet.changes == ()


def test_every_answer_would_be_taken_by_the_build() -> None:
    build = build_under_pressure()
    for question in catching_up(build, tuple(build.jobs), AT, LATER):
        for choice in question.choices:
            folded(build, [(LATER, change) for change in choice.changes])
