"""Backups: made by themselves, let go of in time, and put back when all else is lost."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bareshell.app.backup import Backup, back_up, backups, no_longer_kept, restore
from bareshell.app.door import Door
from bareshell.errors import Busy, Damaged, NoRoom, NotFound
from bareshell.model import changes as c
from bareshell.model.note import Note
from bareshell.store import backup as copying
from tests.stories import NOW, small_car_changes

DAY = timedelta(days=1)


class Clock:
    """A clock that a test sets."""

    time = NOW

    def __call__(self) -> datetime:
        return self.time


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def folder(tmp_path: Path, clock: Clock) -> Path:
    """The small car's build, begun today."""
    with Door.open(tmp_path / "build", clock=clock, create=True) as door:
        door.record(small_car_changes(), happened_at=NOW - 30 * DAY)
    return tmp_path / "build"


def _note(number: int) -> c.NoteWritten:
    return c.NoteWritten(Note(f"n-{number}", NOW, "words"))


def test_the_first_entry_of_a_day_makes_a_backup(folder: Path, clock: Clock) -> None:
    assert backups(folder) == ()
    with Door.open(folder, clock=clock) as door:
        for day in range(4):
            for n in range(3):
                door.record(_note(10 * day + n))
            assert len(backups(folder)) == day
            clock.time += DAY
    newest = backups(folder)[0]
    assert newest.made_at == NOW + 3 * DAY
    assert copying.check_journal(newest.path) == door_count(folder) - 2


def door_count(folder: Path) -> int:
    with Door.open(folder) as door:
        return door.latest()


def test_a_backup_is_one_file_that_opens_by_itself(folder: Path, tmp_path: Path) -> None:
    made = back_up(folder, NOW)
    assert [path.name for path in made.path.parent.iterdir()] == [made.path.name]
    (tmp_path / "elsewhere").mkdir()
    made.path.rename(tmp_path / "elsewhere" / "journal.db")
    with Door.open(folder) as door, Door.open(tmp_path / "elsewhere") as other:
        assert other.build() == door.build()


def test_a_backup_is_made_while_others_write(folder: Path) -> None:
    with Door.open(folder) as door:
        door.record(_note(1))
        made = back_up(folder, NOW)
        door.record(_note(2))
        assert copying.check_journal(made.path) == door.latest() - 1


def test_when_the_backup_fails_the_entry_still_lands(folder: Path, clock: Clock) -> None:
    (folder / "backups").rmdir()
    (folder / "backups").write_text("a file stands in the way")
    clock.time += 2 * DAY
    with Door.open(folder, clock=clock) as door:
        before = door.latest()
        door.record(_note(1))
        assert door.latest() == before + 1


def test_a_full_disk_leaves_no_half_of_a_backup(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = sqlite3.connect

    def small(path: Path, **rest: object) -> sqlite3.Connection:
        connection = real(path, **rest)  # type: ignore[call-overload]
        if str(path).endswith(".part"):
            connection.execute("PRAGMA max_page_count = 2")
        return connection  # type: ignore[no-any-return]

    monkeypatch.setattr(sqlite3, "connect", small)
    with pytest.raises(NoRoom):
        back_up(folder, NOW)
    assert list((folder / "backups").iterdir()) == []


def test_what_is_kept() -> None:
    """The latest ten, and each month's last for two years."""
    days = [datetime(2023, 1, 1, tzinfo=UTC) + n * DAY for n in range(1200)]
    listed = [Backup(Path(f"{day:%Y%m%d}"), day) for day in reversed(days)]
    gone = no_longer_kept(listed)
    kept = [one for one in listed if one not in gone]
    assert kept[:10] == listed[:10]
    months = {(one.made_at.year, one.made_at.month) for one in kept}
    assert len(months) == 24
    for one in kept[10:]:
        assert (one.made_at + DAY).day == 1, "the last of its month"
    assert no_longer_kept(kept) == ()


def test_old_ones_go_when_a_new_one_is_made(folder: Path) -> None:
    made = [back_up(folder, NOW + day * DAY) for day in range(13)]
    assert backups(folder) == tuple(reversed(made[-10:]))


def test_putting_one_back(folder: Path) -> None:
    made = back_up(folder, NOW)
    with Door.open(folder) as door:
        wanted = door.build()
        door.record(c.JobFinished("rear-pipe", 1.0))
        latest = door.build()
        done = restore(folder, made.path, NOW + DAY)
        assert done.entries == wanted.seq
        assert not done.was_spoilt
        assert door.build() == wanted, "a door that is open sees it at once"
        door.record(c.JobStarted("rear-pipe"))
        assert door.build().seq == latest.seq
        assert door.build().jobs["rear-pipe"].state.status.value == "started"
    restore(folder, done.kept_aside, NOW + 2 * DAY)
    with Door.open(folder) as door:
        assert door.build() == latest, "what was there before can be had again"


@pytest.mark.parametrize("ruin", ["noise", "gone", "cut", "middle"])
def test_rehearsed_when_the_journal_is_lost(folder: Path, ruin: str) -> None:
    with Door.open(folder) as door:
        door.record([_note(n) for n in range(300)])
        wanted = door.build()
    made = back_up(folder, NOW)
    journal = folder / "journal.db"
    whole = journal.read_bytes()
    if ruin == "noise":
        journal.write_bytes(b"\xa5" * 5000)
    elif ruin == "gone":
        journal.unlink()
    elif ruin == "cut":
        journal.write_bytes(whole[: len(whole) // 2])
    else:
        half = len(whole) // 2
        journal.write_bytes(whole[:half] + b"\xa5" * 8192 + whole[half + 8192 :])
    done = restore(folder, made.path, NOW + DAY)
    assert done.was_spoilt
    if ruin != "gone":
        assert done.kept_aside.exists(), "even a spoilt record is not thrown away"
    with Door.open(folder) as door:
        assert door.build() == wanted
        door.record(_note(999))
    with closing(sqlite3.connect(journal)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone()[0] == "wal"


def test_a_spoilt_backup_is_refused_and_nothing_is_touched(folder: Path) -> None:
    made = back_up(folder, NOW)
    made.path.write_bytes(made.path.read_bytes()[:5000])
    before = (folder / "journal.db").read_bytes()
    with pytest.raises(Damaged):
        restore(folder, made.path, NOW)
    assert (folder / "journal.db").read_bytes() == before


def test_a_backup_that_is_not_there_is_told(folder: Path) -> None:
    with pytest.raises(NotFound, match="no backup"):
        restore(folder, folder / "backups" / "journal-20200101T000000Z.db", NOW)


def test_nothing_is_put_back_under_somebody_who_writes(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = back_up(folder, NOW)
    monkeypatch.setattr(copying, "BUSY_SECONDS", 0.05)
    with closing(sqlite3.connect(folder / "journal.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Busy):
            restore(folder, made.path, NOW)
        other.execute("ROLLBACK")
    with Door.open(folder) as door:
        assert door.build().jobs
