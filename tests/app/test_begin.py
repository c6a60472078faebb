"""The first ten minutes, through the one door."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from bareshell.app.begin import begin, correct_frontier, doubts, questions
from bareshell.app.door import Door
from bareshell.errors import BadInput, Conflict
from bareshell.model.job import JobStatus
from bareshell.model.standing import gate_standings
from bareshell.store.journal import JOURNAL_FILE

NOW = datetime(2031, 3, 5, 20, 0, tzinfo=UTC)
SAID = {
    "name": "the old saloon",
    "layout": "rear",
    "standing": "stands",
    "supports": "scissor lift, stands",
    "engine": "out",
    "days": "monday, wednesday, saturday",
    "hours": "19:15 to 21:45; 10:00 to 15:00",
    "helper": "every two weeks",
    "heated": "no",
}


def _clock() -> datetime:
    return NOW


def test_a_few_answers_make_a_whole_build_that_opens_again(tmp_path: Path) -> None:
    with begin(tmp_path / "car", SAID, clock=_clock, zone="Europe/Paris") as door:
        build = door.build()
        assert build.car is not None
        assert (build.car.name, build.car.zone) == ("the old saloon", "Europe/Paris")
        assert len(build.jobs) == 238
        assert len(build.patterns) == 3
    with Door.open(tmp_path / "car") as again:
        assert again.build().jobs.keys() == build.jobs.keys()
        assert {entry.happened_at for entry in again.entries()} == {NOW}


def test_bad_answers_make_nothing_at_all(tmp_path: Path) -> None:
    with pytest.raises(BadInput) as refused:
        begin(tmp_path / "car", {"engine": "perhaps"})
    assert len(refused.value.problems) == 3
    with pytest.raises(BadInput, match="time zone"):
        begin(tmp_path / "car", SAID, zone="Nowhere/Else")
    assert not (tmp_path / "car").exists()


def test_a_build_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    begin(tmp_path, SAID).close()
    with pytest.raises(Conflict):
        begin(tmp_path, SAID)


def test_when_nothing_could_be_written_no_half_build_is_left(tmp_path: Path) -> None:
    def stopped() -> datetime:
        raise RuntimeError("the clock stopped")

    with pytest.raises(RuntimeError):
        begin(tmp_path, SAID, clock=stopped)
    assert not (tmp_path / JOURNAL_FILE).exists()
    begin(tmp_path, SAID).close()


def test_taps_put_the_first_build_right_in_one_go(tmp_path: Path) -> None:
    with begin(tmp_path, SAID, clock=_clock) as door:
        shown = {doubt.job: doubt for doubt in doubts(door)}
        assert shown["shell-mount"].taken_for_done
        assert not shown["drains"].taken_for_done
        assert shown["drains"].title == "Find and clear every drain hole and tube; mark them"
        receipt = correct_frontier(door, done=["drains"], not_done=[])
        assert len(receipt.entries) >= 1
        build = door.build()
        assert build.jobs["drains"].state.status is JobStatus.DONE_BEFORE
        correct_frontier(door, not_done=["drains"])
        assert door.build().jobs["drains"].state.status is JobStatus.TO_DO
        before = door.latest()
        with pytest.raises(BadInput):
            correct_frontier(door, done=["seams"], not_done=["drains"])
        assert door.latest() == before


def test_no_gate_of_a_first_build_is_open(tmp_path: Path) -> None:
    with begin(tmp_path, {**SAID, "standing": "wheels", "pedal": "hard"}) as door:
        assert not any(s.is_clear or s.passed for s in gate_standings(door.build()).values())


def test_the_questions_are_at_most_twelve() -> None:
    assert 0 < len(questions()) <= 12
