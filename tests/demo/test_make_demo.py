"""Making the demo writes it through the door, as anybody's entries."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from bareshell.app.demo import make_demo
from bareshell.app.door import Door
from bareshell.demo import demo_story
from bareshell.errors import Conflict
from bareshell.model import Entry, Standing
from bareshell.model.changes import JobStarted, Withdrawn
from bareshell.model.standing import proof_standings

TODAY = date(2026, 11, 26)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("demo") / "build"
    make_demo(place, TODAY).close()
    return place


@pytest.fixture
def door(folder: Path) -> Iterator[Door]:
    with Door.open(folder) as opened:
        yield opened


def test_the_journal_holds_the_story(door: Door) -> None:
    def told(entry: Entry) -> tuple[datetime, datetime, str, object]:
        return entry.happened_at, entry.recorded_at, entry.author, entry.change

    story = demo_story(TODAY)
    entries = door.entries()
    assert [told(entry) for entry in entries] == [
        (one.happened_at, one.recorded_at, one.author, one.change) for one in story
    ]
    kept = [(e.id, s.id) for e, s in zip(entries, story, strict=True)]
    assert all(mine == theirs for mine, theirs in kept if "back" not in mine)


def test_one_entry_waits_and_one_is_out(door: Door) -> None:
    waiting = [entry for entry in door.entries() if entry.standing is Standing.TO_SETTLE]
    assert {entry.id for entry in waiting} == door.build().to_settle
    assert len(waiting) == 1
    (back,) = [e.change for e in door.entries() if isinstance(e.change, Withdrawn)]
    assert back.entry_id in {entry.id for entry in door.entries()}


def test_made_twice_it_is_the_same(folder: Path, tmp_path: Path) -> None:
    with Door.open(folder) as one, make_demo(tmp_path / "again", TODAY) as other:
        assert one.entries() == other.entries()
        assert one.build() == other.build()


def test_a_folder_that_holds_a_build_is_left_alone(folder: Path) -> None:
    before = (folder / "journal.db").read_bytes()
    with pytest.raises(Conflict, match="holds a build already"):
        make_demo(folder, TODAY)
    assert (folder / "journal.db").read_bytes() == before


def test_the_car_goes_back_in_time(door: Door) -> None:
    build = door.build()
    then = datetime.combine(TODAY - timedelta(days=120), datetime.min.time(), UTC)
    before = door.as_of(then)
    done = sum(record.state.is_done for record in build.jobs.values())
    assert 20 < sum(r.state.is_done for r in before.jobs.values()) < done


def test_what_lies_over_the_hold_cannot_be_begun_until_it_is_read(door: Door) -> None:
    build = door.build()
    begun = {k for k, s in proof_standings(build).items() if s.state.value == "begun"}
    covers = {
        cover
        for key in begun
        for cover in build.proofs[key].proof.covered_by
        if build.jobs[cover].state.is_open
    }
    assert covers
    for cover in covers:
        with pytest.raises(Exception, match="would hide an unproven joint"):
            door.try_out(JobStarted(cover))
