"""The check-up finds what could one day lose a record, and is quiet about the rest."""

from __future__ import annotations

import io
import os
import shutil
import sqlite3
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from types import SimpleNamespace

import pytest
from PIL import Image

from bareshell.app import doctor as checkup
from bareshell.app.backup import back_up, backups
from bareshell.app.doctor import doctor, file_system
from bareshell.app.door import Door
from bareshell.app.photos import keep_photo, photo_file
from bareshell.errors import Problem
from bareshell.model import changes as c
from tests.stories import NOW, small_car_changes

DAY = timedelta(days=1)


def _picture(colour: str) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (64, 48), colour).save(file, "JPEG")
    return file.getvalue()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small car's build with a photo and a backup, on a roomy disk of this machine."""
    roomy = SimpleNamespace(free=50_000_000_000)
    monkeypatch.setattr(shutil, "disk_usage", lambda _path: roomy)
    monkeypatch.setattr(checkup, "MOUNTS", tmp_path / "mounts")
    (tmp_path / "mounts").write_text("/dev/sda1 / ext4 rw 0 0\n")
    with Door.open(tmp_path / "build", clock=lambda: NOW, create=True) as door:
        door.record(small_car_changes(), happened_at=NOW - 30 * DAY)
        keep_photo(door, _picture("red"), photo_id="p-red")
    back_up(tmp_path / "build", NOW)
    return tmp_path / "build"


def _found(folder: Path, **rest: bool) -> tuple[Problem, ...]:
    return doctor(folder, NOW + timedelta(hours=1), **rest)


def _only(problems: tuple[Problem, ...]) -> Problem:
    assert len(problems) == 1, [problem.describe() for problem in problems]
    return problems[0]


def test_a_build_that_is_well_is_left_in_peace(folder: Path) -> None:
    before = (folder / "journal.db").read_bytes()
    assert _found(folder, every_photo=True) == ()
    assert (folder / "journal.db").read_bytes() == before


def test_no_build_is_told(tmp_path: Path) -> None:
    assert _only(doctor(tmp_path, NOW)).severity == "stops"
    assert list(tmp_path.iterdir()) == []


def test_a_spoilt_journal_stops(folder: Path) -> None:
    whole = (folder / "journal.db").read_bytes()
    for spoilt in (b"\xa5" * 9000, whole[:6000], whole[:8192] + b"\xa5" * 4096 + whole[12288:]):
        (folder / "journal.db").write_bytes(spoilt)
        found = _found(folder)
        assert found[0].severity == "stops"
        assert found[0].where == "journal"
        assert "backup" in found[0].remedy


def _sql(folder: Path, *statements: str) -> None:
    with closing(sqlite3.connect(folder / "journal.db", isolation_level=None)) as connection:
        for statement in statements:
            connection.execute(statement)


def test_entries_that_are_gone_or_do_not_read_are_told(folder: Path) -> None:
    _sql(
        folder,
        "DROP TRIGGER entries_refuse_delete",
        "DROP TRIGGER entries_refuse_update",
        "UPDATE entries SET body = '{}' WHERE seq IN (2, 3)",
    )
    found = _found(folder)
    assert [problem.where for problem in found] == ["entry 2", "entry 3"]
    _sql(folder, "DELETE FROM entries WHERE seq = 4")
    assert any(
        "entries" in problem.what and problem.where == "journal" for problem in _found(folder)
    )


def test_many_that_do_not_read_are_counted(folder: Path) -> None:
    _sql(
        folder,
        "DROP TRIGGER entries_refuse_update",
        "UPDATE entries SET body = '{}' WHERE seq <= 9",
    )
    found = _found(folder)
    assert len(found) == 6
    assert found[-1].what.startswith("4 more")


def test_an_entry_that_waits_is_told_in_words(folder: Path) -> None:
    with Door.open(folder, clock=lambda: NOW, back_up=False) as door:
        door.record(c.JobWorked("rear-pipe", 1.0))
        door.record(c.JobFinished("rear-pipe"), base_versions={"job:rear-pipe": 1})
    problem = _only(_found(folder))
    assert "'Rear pipe' was finished" in problem.what
    assert problem.severity == "doubtful"


def test_a_clock_that_is_behind_is_told(folder: Path) -> None:
    problem = _only(doctor(folder, NOW - 2 * DAY))
    assert problem.where == "clock"


def test_photos_that_are_gone_or_altered_are_told(folder: Path) -> None:
    with Door.open(folder, clock=lambda: NOW, back_up=False) as door:
        path = photo_file(door, "p-red")[0]
        name = path.name
        path.write_bytes(_picture("blue"))
        assert _found(folder) == (), "a quick look does not read every photo"
        assert "not what was kept" in _only(_found(folder, every_photo=True)).what
        path.unlink()
        problem = _only(_found(folder))
        assert (problem.where, problem.what) == (f"photo {name}", "the file is not there")
        for n in range(9):
            key = keep_photo(door, _picture(f"#0{n}0{n}0{n}")).entries[0].id
            photo_file(door, key)[0].unlink()
    found = _found(folder)
    assert len(found) == 6
    assert found[-1].what == "5 more are missing or changed"


def test_a_stray_photo_is_a_note(folder: Path) -> None:
    (folder / "photos" / "stray.jpg").write_bytes(b"x")
    problem = _only(_found(folder))
    assert problem.severity == "note"
    assert "stray.jpg" in problem.what


def test_what_a_killed_bareshell_left_is_a_note(folder: Path) -> None:
    with Door.open(folder, clock=lambda: NOW) as door:
        door.record(c.JobStarted("rear-pipe"))
        for ending in ("", "-wal"):
            shutil.copy(folder / f"journal.db{ending}", folder / f"copy{ending}")
    for ending in ("", "-wal"):
        (folder / f"copy{ending}").replace(folder / f"journal.db{ending}")
    problem = _only(_found(folder))
    assert problem.severity == "note"
    assert "nothing is lost" in problem.remedy
    assert _found(folder) == (), "looking folded it in"


def test_no_backup_an_old_one_and_a_spoilt_one_are_told(folder: Path) -> None:
    newest = backups(folder)[0].path
    with Door.open(folder, clock=lambda: NOW + 20 * DAY, back_up=False) as door:
        door.record(c.JobStarted("rear-pipe"))
    assert "the newest is from 2026-03-04" in _only(doctor(folder, NOW + 20 * DAY)).what
    newest.write_bytes(newest.read_bytes()[:5000])
    assert any("spoilt" in problem.what for problem in doctor(folder, NOW + 20 * DAY))
    newest.unlink()
    assert _only(doctor(folder, NOW + 20 * DAY)).severity == "note"


@pytest.mark.parametrize(("free", "severity"), [(100_000_000, "doubtful"), (5_000_000, "stops")])
def test_a_full_disk_is_told_before_it_is_full(
    folder: Path, monkeypatch: pytest.MonkeyPatch, free: int, severity: str
) -> None:
    monkeypatch.setattr(shutil, "disk_usage", lambda _path: SimpleNamespace(free=free))
    problem = _only(_found(folder))
    assert (problem.where, problem.severity) == ("disk", severity)


@pytest.mark.parametrize(
    ("kind", "told"),
    [("nfs4", True), ("cifs", True), ("fuse.sshfs", True), ("9p", True),
     ("ext4", False), ("btrfs", False), ("tmpfs", False), ("apfs", False)],
)  # fmt: skip
def test_a_disk_of_another_machine_is_told(folder: Path, kind: str, told: bool) -> None:
    mounts = folder.parent / "mounts"
    mounts.write_text(f"/dev/sda1 / ext4 rw 0 0\nthere:/x {folder.parent} {kind} rw 0 0\n")
    assert [kind in problem.what for problem in _found(folder)] == ([True] if told else [])


def test_the_nearest_mount_decides(tmp_path: Path) -> None:
    """A space in a mount point is written as its octal code (the manual page of fstab(5))."""
    mounts = tmp_path / "mounts"
    mounts.write_text(
        "/dev/a / ext4 rw 0 0\n"
        "there:/x /my\\040net nfs4 rw 0 0\n"
        "/dev/b /my\\040net/disk xfs rw 0 0\n"
    )
    assert file_system(Path("/my net/build"), mounts) == "nfs4"
    assert file_system(Path("/my net/disk/build"), mounts) == "xfs"
    assert file_system(Path("/my network/build"), mounts) == "ext4"
    assert file_system(Path("/x"), tmp_path / "none") == ""


def test_a_folder_that_is_copied_about_is_told(folder: Path) -> None:
    (folder / "journal (conflicted copy).db").write_bytes(b"")
    assert "between machines" in _only(_found(folder)).what
    (folder / "journal (conflicted copy).db").unlink()
    moved = folder.parent / "My Cloud" / "build"
    moved.parent.mkdir()
    folder.rename(moved)
    problem = _only(_found(moved))
    assert problem.severity == "note"
    assert "My Cloud" in problem.what


def test_a_folder_that_cannot_be_written_to_is_told(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.access

    def access(path: Path, mode: int) -> bool:
        return False if path == folder else real(path, mode)

    monkeypatch.setattr(os, "access", access)
    assert "cannot be written to" in _only(_found(folder)).what


def test_a_newer_journal_is_told(folder: Path) -> None:
    _sql(
        folder,
        "UPDATE words SET value = '99.1.0' WHERE name = 'written by'",
        "PRAGMA user_version = 99",
    )
    assert any("99.1.0" in problem.what for problem in _found(folder))
