"""What a person looks at: the record in words, and the desk as it stands."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest

from bareshell.app import reading
from bareshell.app.correcting import settle_number, take_back_number
from bareshell.app.door import Door
from bareshell.app.plain import document
from bareshell.app.shelving import found
from bareshell.errors import NotFound
from bareshell.model import changes as c
from tests.stories import NOW, small_car_changes


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW) as opened:
        opened.record(small_car_changes(), happened_at=NOW - timedelta(days=9))
        yield opened


def test_the_record_reads_newest_first_and_pages_on(door: Door) -> None:
    page = reading.record(door, limit=5)
    assert [line.seq for line in page.lines] == sorted(
        (line.seq for line in page.lines), reverse=True
    )
    assert page.older_before == page.lines[-1].seq
    older = reading.record(door, before=page.older_before, limit=5)
    assert older.lines[0].seq == page.lines[-1].seq - 1
    assert all(line.words for line in (*page.lines, *older.lines))


def test_what_was_typed_late_says_so(door: Door) -> None:
    door.record(c.JobFinished("carb", 2), happened_at=NOW - timedelta(days=2))
    line = reading.record(door, limit=1).lines[0]
    assert line.late
    assert line.happened_at < line.recorded_at


def test_an_entry_taken_back_stays_on_the_record_and_says_by_which(door: Door) -> None:
    door.record(c.JobFinished("carb", 2))
    said = take_back_number(door, None)
    assert "Carb" in said
    page = reading.record(door, limit=2)
    assert [line.state for line in page.lines] == ["about the record", "taken back"]
    assert page.lines[1].taken_back_by == page.lines[0].id
    with pytest.raises(NotFound):
        take_back_number(door, 10_000)


def test_two_who_changed_the_same_job_are_both_kept_and_one_is_to_settle(door: Door) -> None:
    known = door.build().versions["job:carb"]
    door.record(c.JobWorked("carb", 1, 1))
    door.record(c.JobFinished("carb", 2), base_versions={"job:carb": known})
    page = reading.record(door)
    assert [line.state for line in page.to_settle] == ["to settle"]
    settle_number(door, page.to_settle[0].seq, keep=True)
    assert reading.record(door).to_settle == ()
    assert door.build().jobs["carb"].state.is_done


def test_the_desk_finds_puts_away_and_counts(door: Door) -> None:
    before = reading.shelf(door)
    assert dict(before.counts) == {"not known": 4, "coming": 1}
    assert found(door, "nuts", None, "bin 4").said == "4 x Pipe nuts M10x1 here in bin 4."
    after = reading.shelf(door, tonight=("rear-pipe",))
    assert after.needs[0].id == "nuts"
    assert (after.needs[0].state, after.needs[0].where) == ("here", "bin 4")
    assert dict(after.places) == {"bin 4": 4}
    kit = after.kits[0]
    assert (kit.job, kit.here, kit.total) == ("rear-pipe", 1, 1)


def test_the_car_as_it_stood_is_read_like_the_car_as_it_stands(door: Door) -> None:
    door.record(c.JobFinished("carb", 2), happened_at=NOW - timedelta(days=1))
    past = reading.car(door, as_of=NOW - timedelta(days=2))
    states = {job.id: job.status for job in past.jobs}
    assert states["carb"] == "to do"
    assert {job.id: job.status for job in reading.car(door).jobs}["carb"] == "done"


def test_every_reading_is_data(door: Door) -> None:
    for one in (
        reading.proofs(door),
        reading.shelf(door),
        reading.car(door),
        reading.jobs(door),
        reading.record(door),
        reading.job(door, "hold"),
    ):
        assert document(one)["format"] == 1


def test_what_is_gone_from_the_shelf_is_still_called_by_its_name(door: Door) -> None:
    found(door, "nuts", 4, "bin 4")
    (key,) = door.build().holdings
    door.record(c.HoldingDropped(key, "fitted"))
    assert "Pipe nuts M10x1" in reading.record(door, limit=1).lines[0].words
