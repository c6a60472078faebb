"""Ending a session through the door: preview, keep, send again, take stock."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bareshell.app.door import Door
from bareshell.app.sessions import (
    did_this_happen,
    keep_answers,
    keep_line,
    preview_line,
    session_told,
)
from bareshell.model import changes as c
from bareshell.model.car import Car
from tests.whole.said import invented_builds as invented
from tests.whole.said.telling import notes, told

AT, TONIGHT = invented.AT, invented.TONIGHT
FLAGSHIP = "heater in 2.5 h; two hose clips short; matrix held 1 bar 10 min"


class Wall:
    """A clock that a test can move."""

    def __init__(self) -> None:
        self.time = AT

    def __call__(self) -> datetime:
        return self.time


@pytest.fixture
def wall() -> Wall:
    return Wall()


@pytest.fixture
def door(tmp_path: Path, wall: Wall) -> Iterator[Door]:
    long_ago = invented.LONG_AGO
    definitions: list[c.Change] = [
        c.CarDescribed(Car("The invented saloon", invented=True)),
        *invented.SUPPORTS, *invented.JOBS, *invented.GATES, *invented.PROOFS, *invented.NEEDS,
        *invented.ORDERS, *invented.TEMPS, *invented.PATTERNS,
    ]  # fmt: skip
    done: list[c.Change] = [c.JobFinished(key, 3.0) for key in invented.DONE]
    with Door.open(tmp_path / "car", clock=wall, create=True, back_up=False) as opened:
        opened.record_dated([(long_ago, change) for change in definitions])
        opened.record_dated([(long_ago + timedelta(days=1), change) for change in done])
        yield opened


def test_reading_a_line_keeps_nothing(door: Door) -> None:
    before = door.latest()
    understood = preview_line(door, FLAGSHIP, TONIGHT)
    assert told(understood) == (
        "held matrix 1 bar 0.167 h",
        "done heater-fit 2.5 h",
        "here heater-clips 2",
        "session 19:00-21:30",
    )
    assert door.latest() == before


def test_keeping_a_line_writes_exactly_what_was_shown(door: Door) -> None:
    understood = preview_line(door, FLAGSHIP, TONIGHT)
    receipt = keep_line(door, understood, ["line-1"])
    assert [entry.change for entry in receipt.entries] == list(understood.changes)
    build = door.build()
    assert build.jobs["heater-fit"].state.is_done
    assert [s.started_at.hour for s in build.sessions.values()] == [19]


def test_a_line_sent_twice_lands_once_whatever_it_would_mean_by_then(door: Door) -> None:
    receipt = keep_line(door, preview_line(door, FLAGSHIP, TONIGHT), ["line-1"])
    latest = door.latest()
    again = keep_line(door, preview_line(door, FLAGSHIP, TONIGHT), ["line-1"])
    assert again.entries == ()
    assert len(again.repeated) >= 1
    assert set(again.repeated) <= {entry.id for entry in receipt.entries}
    assert door.latest() == latest


def test_an_id_for_each_change_is_used_as_it_is(door: Door) -> None:
    understood = preview_line(door, "fuse box done 1 h", TONIGHT)
    ids = [f"own-{n}" for n in range(len(understood.changes))]
    receipt = keep_line(door, understood, ids)
    assert [entry.id for entry in receipt.entries] == ids


def test_an_unanswered_question_is_kept_as_a_note_and_an_answer_as_the_fact(door: Door) -> None:
    understood = preview_line(door, "heater 2 h", TONIGHT)
    assert notes(understood) == ("heater 2 h",)
    keep_line(door, understood, answers={0: 1})
    state = door.build().jobs["heater-fit"].state
    assert (state.status.value, state.hours_done) == ("started", 2.0)


def test_fridays_session_typed_on_sunday_happens_on_friday(door: Door, wall: Wall) -> None:
    wall.time = datetime(2026, 11, 29, 17, 0, tzinfo=UTC)
    keep_line(door, preview_line(door, "friday evening: fuse box done 1.5 h", TONIGHT))
    finished = door.build().jobs["fuse-box"].state.finished_at
    assert finished == datetime(2026, 11, 27, 21, 30, tzinfo=UTC)
    assert [s.id for s in door.build().sessions.values()] == ["session-2026-11-27-1930"]


def test_the_writer_may_say_when(door: Door) -> None:
    when = AT - timedelta(days=2)
    keep_line(door, preview_line(door, "fuse box done", TONIGHT), happened_at=when)
    assert door.build().jobs["fuse-box"].state.finished_at == when


def test_a_line_about_a_job_that_moved_meanwhile_waits_to_be_settled(door: Door) -> None:
    understood = preview_line(door, "spent 1 h on the fuse box", TONIGHT)
    keep_line(door, preview_line(door, "fuse box done", TONIGHT))
    again = keep_line(door, understood)
    assert len(again.to_settle) == 1


def test_a_hold_begun_earlier_is_dated_by_its_own_clock(door: Door) -> None:
    keep_line(door, preview_line(door, "hold on 71 bar at 21:20", TONIGHT))
    (event,) = door.build().proofs["rear-tee"].events
    assert event.at == datetime(2026, 11, 25, 21, 20, tzinfo=UTC)


def test_weeks_of_silence_are_followed_by_questions_and_answers_enter_in_order(
    door: Door, wall: Wall
) -> None:
    keep_line(
        door, preview_line(door, "valve done, pipes rear done, rear tee on hold 71 bar", TONIGHT)
    )
    assert did_this_happen(door, TONIGHT) == ()
    wall.time = AT + timedelta(days=40)
    questions = did_this_happen(door, ("dash-fit", "heater-fit"))
    answers = {q.about: 0 for q in questions}
    receipt = keep_answers(door, questions, answers, ["catch-up"])
    kinds = [entry.change.KIND for entry in receipt.entries]
    assert kinds[0] == "proof-held"
    jobs = [e.change.job_id for e in receipt.entries if isinstance(e.change, c.JobFinished)]
    assert jobs.index("heater-fit") < jobs.index("dash-fit")
    assert did_this_happen(door, TONIGHT) == ()


def told_of(door: Door, line: str) -> tuple[str, ...]:
    return session_told(door, keep_line(door, preview_line(door, line, TONIGHT)))


def test_the_end_of_a_session_says_how_many_of_its_hours_are_told(door: Door) -> None:
    line = "fuse box done 1 h, exhaust half done 30 min, offside caliper bolts torqued 80 Nm, 8 deg"
    assert told_of(door, line) == ("It lasted 2.5 h; 1.5 h of it are told of jobs.",)


def test_hours_that_were_told_before_the_end_count_and_those_taken_back_do_not(door: Door) -> None:
    keep_line(door, preview_line(door, "exhaust half done 30 min", TONIGHT))
    [first] = [e for e in door.entries() if isinstance(e.change, c.JobWorked)]
    door.take_back(first.id, "it was the other car")
    for held in [e for e in door.entries() if isinstance(e.change, c.SessionHeld)]:
        door.take_back(held.id)
    assert told_of(door, "fuse box done") == (
        "It lasted 2.5 h; no hours of it are told of a job, to learn your pace by.",
    )


def test_more_hours_than_the_session_lasted_are_asked_about(door: Door) -> None:
    [said] = told_of(door, "fuse box done 2 h, exhaust half done 2 h")
    assert said.startswith("It lasted 2.5 h, and 4 h are told of its jobs")
    assert "told twice" in said


def test_a_hold_that_runs_is_named_at_the_end(door: Door) -> None:
    keep_line(door, preview_line(door, "valve done, pipes rear done", TONIGHT))
    for held in [e for e in door.entries() if isinstance(e.change, c.SessionHeld)]:
        door.take_back(held.id)
    said = told_of(door, "hold on 71 bar at 21:20")
    title = door.build().proofs["rear-tee"].proof.title
    assert said[-1] == f"Running, and to be read: '{title}'."


def test_what_ends_no_session_says_nothing_of_one(door: Door) -> None:
    assert session_told(door, door.record([c.JobStarted("fuse-box")])) == ()
