"""A build's folder that is damaged, locked, newer, full or closed: said, and nothing lost."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from bareshell.app.door import Door
from bareshell.cli.common import find_build
from bareshell.errors import BareshellError, NoRoom
from bareshell.store.faults import in_words
from tests.acceptance.at_the_terminal import Terminal, typed_in, unchanged
from tests.acceptance.conftest import latest

READING = ("jobs", "shelf", "proofs", "car", "log", "tonight", "road")
WRITING = (
    ("jobs", "mark", "carb", "done"),
    ("shelf", "here", "nuts"),
    ("proofs", "mark", "rear-joint", "begun"),
    ("car", "stands", "wheels"),
    ("car", "day", "2031-12-01"),
    ("undo", "--yes"),
)


@pytest.mark.parametrize("share", [0.0, 0.02, 0.3, 0.7, 0.9, 0.97])
def test_a_journal_cut_short_is_said_to_be_and_the_copy_brings_it_back(
    terminal: Terminal, garage: Path, share: float
) -> None:
    assert terminal("backup").code == 0
    (copy,) = (garage / "backups").glob("*.db")
    journal = garage / "journal.db"
    whole = journal.read_bytes()
    journal.write_bytes(whole[: int(len(whole) * share)])
    for command in READING:
        said = terminal(command)
        assert said.code == 6, command
        assert "estore the newest backup" in said.err
    for command, *words in WRITING:
        assert terminal(command, *words).code == 6
    looked = terminal("doctor")
    assert looked.code == 6
    assert "stops" in looked.out
    put = terminal("backup", "restore", copy, "--yes")
    assert "The journal is back at entry 27" in put.out
    assert terminal("jobs").code == 0
    assert latest(garage) == 27


def test_a_journal_of_a_newer_bareshell_is_read_and_not_changed(
    terminal: Terminal, garage: Path
) -> None:
    with closing(sqlite3.connect(garage / "journal.db")) as journal, journal:
        journal.execute("UPDATE words SET value = '9.1.0' WHERE name = 'written by'")
        journal.execute(
            "INSERT INTO entries VALUES (28, 'later', '2026-03-04T19:05:00.000000Z', "
            "'2026-03-04T19:05:00.000000Z', 'owner', 'dyno-run', 1, 'dyno:1', NULL, 'kept', '{}')"
        )
    for command in READING:
        assert terminal(command).code == 0
    assert "only a newer bareshell can read" in terminal("log").out
    for command, *words in WRITING:
        said = terminal(command, *words)
        assert said.code == 7
        assert "was written by bareshell 9.1.0" in said.err
        assert "it can be read, not changed. Install bareshell 9.1.0 or newer" in said.err
    assert terminal("backup").code == 0
    assert latest(garage) == 28


def test_what_several_wrote_at_once_all_landed(terminal: Terminal, garage: Path) -> None:
    program = "import sys; from bareshell.cli.main import main; sys.argv[0] = 'bareshell'; main()"
    with unchanged(lambda: len(terminal("jobs", "--json").data["jobs"])):  # type: ignore[arg-type]
        before = latest(garage)
        many = [
            subprocess.Popen(
                [sys.executable, "-c", program, "jobs", "--build", str(garage), "mark", "carb",
                 "worked", "--hours", "0.25"],
                stdout=subprocess.DEVNULL,
            )
            for _ in range(4)
        ]  # fmt: skip
        assert [one.wait() for one in many] == [0, 0, 0, 0]
    assert latest(garage) == before + 4
    with Door.open(garage) as door:
        assert door.build().jobs["carb"].state.hours_done == 1.0


def test_a_full_disk_is_called_that_even_before_the_journal_opens() -> None:
    error = sqlite3.OperationalError("disk I/O error")
    error.sqlite_errorcode = sqlite3.SQLITE_IOERR_SHMSIZE
    said = "the disk is full, so the build was not opened"
    with pytest.raises(NoRoom, match=said), in_words("the build was not opened"):
        raise error


# --- permission ------------------------------------------------------------------------------

NOBODY = 65534


@contextmanager
def nobody() -> Iterator[None]:
    """Be someone without rights for a while; who is not root is that already."""
    if os.geteuid() == 0:
        os.seteuid(NOBODY)
        try:
            yield
        finally:
            os.seteuid(0)
    else:
        yield


@pytest.fixture
def open_place() -> Iterator[Path]:
    """A folder that anybody may enter."""
    place = Path(tempfile.mkdtemp())
    place.chmod(0o755)
    yield place
    subprocess.run(["chmod", "-R", "u+rwX", str(place)], check=True)
    shutil.rmtree(place)


def test_a_folder_without_permission_is_said_to_be(garage: Path, open_place: Path) -> None:
    folder = Path(shutil.copytree(garage, open_place / "car"))
    there, shut = Terminal(folder), open_place / "shut"
    shut.mkdir(mode=0o700)
    calls = [("jobs",), ("log",), ("jobs", "mark", "carb", "done"), ("backup",)]
    for command, *words in calls:  # everything is loaded before the rights to load it are gone
        assert there(command, *words).code == 0
    assert typed_in("demo", open_place / "demo").code == 0
    subprocess.run(["chmod", "-R", "a-w", str(folder)], check=True)
    shut.chmod(0o000)
    with nobody():
        for command, *words in calls:
            said = there(command, *words)
            assert said.code == 1
            assert "who may write there" in said.err
        for command, *words in calls:
            said = Terminal(shut)(command, *words)
            assert said.code in (1, 3)
            assert said.err.endswith(".\n")
        made = typed_in("demo", shut / "demo")
        assert made.code == 1
        assert "Permission denied" in made.err
    folder.chmod(0o755)


@pytest.mark.parametrize("name", ["nonesuch", "/dev/null", "x" * 5000, "", ".."])
def test_a_build_that_is_none_is_said_to_be(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for command in (*READING, "doctor", "backup"):
        said = typed_in(command, "--build", name)
        assert said.code == 3
        assert "there is no build in" in said.err
        assert "bareshell new" in said.err
    assert not list(tmp_path.iterdir())


def test_standing_in_the_folder_or_beneath_it_is_enough(
    garage: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(garage / "photos")
    assert typed_in("jobs").code == 0
    monkeypatch.chdir(garage.parent)
    with pytest.raises(BareshellError, match="Name one with --build DIR"):
        find_build(None)
    monkeypatch.setenv("BARESHELL_BUILD", str(garage))
    assert typed_in("jobs").code == 0
    named = typed_in("jobs", "--build", "elsewhere")
    assert named.code == 3


# --- stopped half way ------------------------------------------------------------------------

STOPPED = """
import os, signal, sys, threading
from pathlib import Path
from bareshell.app.door import Door
from bareshell.cli.main import main

record = Door.record_dated
count = 0


def until_it_stops(self, dated, **rest):
    global count
    count += 1
    if count == 40:
        os.kill(os.getpid(), signal.SIGKILL)
    return record(self, dated, **rest)


Door.record_dated = until_it_stops
sys.argv = ["bareshell", "demo", sys.argv[1]]
main()
"""


def test_a_demo_that_was_killed_half_way_is_made_whole_the_next_time(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    killed = subprocess.run(
        [sys.executable, "-c", STOPPED, str(folder)], check=False, capture_output=True
    )
    assert killed.returncode == -9
    assert typed_in("jobs", "--build", folder).code == 3
    assert typed_in("demo", folder).code == 0
    whole = latest(folder)
    assert typed_in("demo", tmp_path / "other").code == 0
    assert latest(tmp_path / "other") == whole


def test_answers_refused_late_leave_no_folder(tmp_path: Path) -> None:
    folder = tmp_path / "car"
    said = typed_in("new", folder, "--answer", f"name={'x' * 400}", "--answer", "layout=rear")
    assert said.code == 2
    assert not folder.exists()
    folder.mkdir()
    (folder / "my notes.txt").write_text("keep me")
    assert typed_in("new", folder, "--answer", "name=it", "--answer", "layout=rear").code == 0
    names = {path.name for path in folder.iterdir()} - {".cache"}
    assert names == {"backups", "journal.db", "my notes.txt", "photos"}
    assert (folder / "my notes.txt").read_text() == "keep me"
