"""The journal's file: what it refuses, what it survives, and who may use it at once."""

from __future__ import annotations

import json
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from bareshell import __version__
from bareshell.app.door import Door
from bareshell.errors import BareshellError, Busy, Damaged, Newer, NoRoom, NotFound
from bareshell.model import Standing
from bareshell.model import changes as c
from bareshell.model.note import Note
from bareshell.store import schema
from bareshell.store.journal import Journal
from tests.store.every_change import BEGAN, EVERY


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A build with an entry of every kind."""
    with Door.open(tmp_path / "build", create=True) as door:
        door.record(EVERY)
    return tmp_path / "build"


def _sql(folder: Path, *statements: str) -> None:
    with closing(sqlite3.connect(folder / "journal.db", isolation_level=None)) as connection:
        for statement in statements:
            connection.execute(statement)


def _note(number: int, words: str = "words") -> c.NoteWritten:
    return c.NoteWritten(Note(f"m-{number}", BEGAN, words))


# --- the file --------------------------------------------------------------------------------


def test_every_kind_of_entry_comes_back_as_it_was(folder: Path) -> None:
    with Door.open(folder) as door:
        assert [entry.change for entry in door.entries()] == list(EVERY)


def test_a_folder_without_a_build_is_told(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match="no build"):
        Door.open(tmp_path)
    assert list(tmp_path.iterdir()) == [], "looking makes nothing"


@pytest.mark.parametrize("content", [b"", b"not a database, only some words " * 99])
def test_a_file_that_is_no_journal_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "journal.db").write_bytes(content)
    with pytest.raises(Damaged):
        Door.open(tmp_path)
    assert (tmp_path / "journal.db").read_bytes() == content


def test_some_other_programs_database_is_left_alone(tmp_path: Path) -> None:
    _sql(tmp_path, "CREATE TABLE recipes (name)")
    before = (tmp_path / "journal.db").read_bytes()
    with pytest.raises(Damaged, match="not a bareshell journal"):
        Door.open(tmp_path, create=True)
    assert (tmp_path / "journal.db").read_bytes() == before


@pytest.mark.parametrize("statement", ["UPDATE entries SET author = 'x'", "DELETE FROM entries"])
def test_the_file_itself_refuses_to_change_an_entry(folder: Path, statement: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="only ever added"):
        _sql(folder, statement)


def test_a_journal_that_had_fewer_steps_gets_the_rest_and_keeps_its_entries(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps = list(schema.MIGRATIONS)
    monkeypatch.setattr(schema, "MIGRATIONS", steps[:1])
    with Door.open(tmp_path, create=True) as door:
        door.record(_note(1))
    monkeypatch.setattr(schema, "MIGRATIONS", steps)
    with closing(sqlite3.connect(tmp_path / "journal.db")) as connection:
        assert schema.pending(connection) == tuple(step.name for step in steps[1:])
    with Door.open(tmp_path) as door:
        assert door.latest() == 1
    with closing(sqlite3.connect(tmp_path / "journal.db")) as connection:
        assert schema.pending(connection) == ()


def test_a_step_that_fails_leaves_the_journal_as_it_was(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def half(connection: sqlite3.Connection) -> None:
        connection.execute("CREATE TABLE half (a)")
        connection.execute("CREATE TABLE half (a)")

    steps = [*schema.MIGRATIONS, schema.Migration("half", half)]
    with monkeypatch.context() as patch:
        patch.setattr(schema, "MIGRATIONS", steps)
        with pytest.raises(BareshellError, match="half"):
            Door.open(folder)
    with Door.open(folder) as door:
        assert door.latest() == len(EVERY)
        door.record(_note(1))


# --- a newer bareshell wrote here ------------------------------------------------------------


def _from_the_future(folder: Path, kind: str, version: int, body: str, standing: str) -> None:
    with closing(sqlite3.connect(folder / "journal.db", isolation_level=None)) as connection:
        connection.execute("UPDATE words SET value = '99.1.0' WHERE name = 'written by'")
        connection.execute(
            "INSERT INTO entries SELECT max(seq) + 1, 'future', '2026-03-05T18:00:00.000000Z', "
            "'2026-03-05T18:00:00.000000Z', 'owner', ?, ?, 'job:tank', NULL, ?, ? FROM entries",
            (kind, version, standing, body),
        )


@pytest.mark.parametrize(
    ("kind", "version", "standing"),
    [
        ("job-blessed", 1, "kept"),
        ("job-started", 2, "kept"),
        ("job-started", 1, "asleep"),
    ],
)
def test_a_newer_entry_is_listed_not_folded_and_nothing_is_written(
    folder: Path, kind: str, version: int, standing: str
) -> None:
    with Door.open(folder) as door:
        before = door.build()
    body = '{"job_id":"tank"}'
    _from_the_future(folder, kind, version, body, standing)
    with Door.open(folder) as door:
        last = door.entries()[-1]
        assert last.change == c.Unread(kind, version, "job:tank", body)
        assert last.standing is Standing.KEPT
        assert door.build().jobs == before.jobs
        assert door.latest() == len(EVERY) + 1
        with pytest.raises(Newer, match=r"99\.1\.0") as caught:
            door.record(c.JobStarted("tank"))
        assert __version__ in caught.value.message
        with pytest.raises(Newer):
            door.take_back(door.entries()[0].id)
        assert door.latest() == len(EVERY) + 1


def test_a_newer_layout_is_read_and_not_written(folder: Path) -> None:
    _sql(
        folder,
        "ALTER TABLE entries ADD COLUMN weather TEXT",
        "UPDATE words SET value = '99.1.0' WHERE name = 'written by'",
        f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}",
    )
    with Door.open(folder) as door:
        assert [entry.change for entry in door.entries()] == list(EVERY)
        assert door.build().jobs["rear-pipe"].state.is_done
        with pytest.raises(Newer, match=r"99\.1\.0"):
            door.record(_note(1))
    with closing(sqlite3.connect(folder / "journal.db")) as connection:
        assert schema.applied(connection) == len(schema.MIGRATIONS) + 1


@pytest.mark.parametrize("what", ["an entry", "a layout"])
def test_a_newer_bareshell_that_writes_meanwhile_ends_our_writing(folder: Path, what: str) -> None:
    with Door.open(folder) as door:
        door.record(_note(1))
        if what == "an entry":
            _from_the_future(folder, "job-blessed", 1, '{"job_id":"tank"}', "kept")
        else:
            _sql(folder, f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}")
        latest = door.latest()
        for _ in range(2):
            with pytest.raises(Newer):
                door.record(_note(2))
        with pytest.raises(Newer):
            door.take_back(door.entries()[0].id)
        assert door.latest() == latest
        assert "m-1" in door.build().notes, "reading goes on"


# --- a full disk -----------------------------------------------------------------------------


def test_a_full_disk_takes_nothing_by_halves_and_works_again_later(folder: Path) -> None:
    with Door.open(folder) as door:
        writer = door._journal._writer
        assert writer is not None
        pages = writer.execute("PRAGMA page_count").fetchone()[0]
        writer.execute(f"PRAGMA max_page_count = {pages + 2}")
        before, seen = door.latest(), door.build()
        long = [_note(n, "words " * 300) for n in range(50)]
        with pytest.raises(NoRoom, match="disk is full"):
            door.record(long)
        assert door.latest() == before
        assert door.build() == seen
        with pytest.raises(NoRoom):
            door.record(long)
        writer.execute("PRAGMA max_page_count = 1000000")
        door.record(long)
        assert door.latest() == before + 50
        assert len(door.build().notes) == len(seen.notes) + 50


# --- several at once -------------------------------------------------------------------------

WRITER = """
import sys
from datetime import UTC, datetime
from bareshell.app.door import Door
from bareshell.model.changes import NoteWritten
from bareshell.model.note import Note
name = sys.argv[2]
with Door.open(sys.argv[1]) as door:
    for n in range(40):
        door.record(NoteWritten(Note(f"{name}-{n}", datetime.now(UTC), "x")), ids=[f"{name}-{n}"])
"""


def test_two_processes_and_this_one_write_and_nothing_is_lost(folder: Path) -> None:
    others = [
        subprocess.Popen([sys.executable, "-c", WRITER, str(folder), name]) for name in ("a", "b")
    ]
    with Door.open(folder) as door:
        n = 0
        while any(other.poll() is None for other in others):
            door.record(_note(n), ids=[f"c-{n}"])
            n += 1
        assert [other.returncode for other in others] == [0, 0]
        entries = door.entries()
        wanted = {f"{name}-{k}" for name in ("a", "b") for k in range(40)}
        assert wanted | {f"c-{k}" for k in range(n)} <= {entry.id for entry in entries}
        assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1))
        assert wanted <= door.build().notes.keys()


@pytest.fixture
def held(folder: Path) -> Iterator[sqlite3.Connection]:
    """Another process in the middle of writing."""
    with closing(sqlite3.connect(folder / "journal.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        yield other


def test_who_cannot_write_in_time_is_told_and_may_try_again(
    folder: Path, held: sqlite3.Connection
) -> None:
    journal = Journal.open(folder / "journal.db", busy_seconds=0.05)
    try:
        with pytest.raises(Busy, match="another bareshell"), journal.writing():
            pass
        assert journal.tip().seq == len(EVERY), "reading goes on meanwhile"
        held.execute("ROLLBACK")
        with journal.writing() as writing:
            assert writing.tip() == journal.tip()
    finally:
        journal.close()


def test_many_threads_read_while_one_writes(folder: Path) -> None:
    faults: list[str] = []
    done = threading.Event()

    def read(door: Door) -> None:
        last = 0
        while not done.is_set():
            build = door.build()
            notes = len(build.notes)
            if build.seq < last or notes - 1 != build.seq - len(EVERY):
                faults.append(f"{build.seq} after {last} with {notes} notes")
            last = build.seq

    with Door.open(folder) as door:
        threads = [threading.Thread(target=read, args=(door,)) for _ in range(4)]
        for thread in threads:
            thread.start()
        for n in range(60):
            door.record(_note(n))
        done.set()
        for thread in threads:
            thread.join()
        assert door.build().seq == len(EVERY) + 60
    assert faults == []


# --- sudden ends -----------------------------------------------------------------------------


def test_killed_at_any_moment_it_opens_and_holds_all_that_was_acknowledged(tmp_path: Path) -> None:
    """Thirty writers are killed in turn; power cuts, where the disk itself lies, are not shown."""
    script = Path(__file__).with_name("killed_writers.py")
    told = subprocess.run(
        [sys.executable, str(script), str(tmp_path / "build"), "30"],
        check=True,
        capture_output=True,
        text=True,
        timeout=120,
    ).stdout
    rounds = [json.loads(line) for line in told.splitlines()]
    assert len(rounds) == 30
    acknowledged: set[str] = set()
    for one in rounds:
        acknowledged.update(one["acknowledged"])
        assert one["integrity"] == "ok"
        assert acknowledged <= set(one["held"])
        assert one["seqs"] == list(range(1, len(one["held"]) + 1))
        assert one["whole_batches"], "a call's entries are all there or none is"
        assert one["folded"] == one["held"]
    assert len(acknowledged) >= 30, "the writers did write before they were killed"


# --- snapshots -------------------------------------------------------------------------------


def _snapshots(folder: Path) -> list[Path]:
    return sorted((folder / ".cache").glob("snapshot-*.json"))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda path: path.write_bytes(b""),
        lambda path: path.write_bytes(path.read_bytes()[:-1]),
        lambda path: path.write_bytes(path.read_bytes().replace(b"Carpet", b"Garnet")),
        lambda path: path.write_bytes(b"{}\n{}"),
        lambda path: path.write_bytes(b"\xff" * 100),
        lambda path: path.write_bytes(
            path.read_bytes().replace(b'"code": "', b'"code": "other code, ')
        ),
        lambda path: path.write_bytes(path.read_bytes().replace(b'"id": "', b'"id": "x')),
    ],
    ids=["empty", "cut", "altered", "bare", "noise", "made by other code", "another journal's"],
)
def test_a_snapshot_that_cannot_be_trusted_is_passed_over(folder: Path, spoil: object) -> None:
    assert callable(spoil)
    with Door.open(folder) as door:
        wanted = door.build()
    path = _snapshots(folder)[-1]
    before = path.read_bytes()
    spoil(path)
    assert path.read_bytes() != before
    with Door.open(folder) as door:
        assert door.build() == wanted
        assert door.build().jobs["carpet"].job.title == "Carpet"


def test_a_snapshot_is_used_when_it_can_be(folder: Path) -> None:
    """Shown by one that says something else, with its own sum right: its word is taken."""
    import hashlib

    with Door.open(folder) as door:
        door.build()
    path = _snapshots(folder)[-1]
    line, _, body = path.read_bytes().partition(b"\n")
    body = body.replace(b'"Carpet"', b'"Garnet"')
    head = json.loads(line)
    head["sha256"] = hashlib.sha256(body).hexdigest()
    path.write_bytes(json.dumps(head).encode() + b"\n" + body)
    with Door.open(folder) as door:
        assert door.build().jobs["carpet"].job.title == "Garnet"


def test_few_snapshots_are_kept(folder: Path) -> None:
    for start in range(0, 1200, 300):
        with Door.open(folder) as door:
            door.record([_note(n) for n in range(start, start + 300)])
    assert 1 <= len(_snapshots(folder)) <= 3


def test_a_folder_for_snapshots_that_cannot_be_made_stops_nobody(folder: Path) -> None:
    for path in _snapshots(folder):
        path.unlink()
    (folder / ".cache").rmdir()
    (folder / ".cache").write_text("a file stands in the way")
    with Door.open(folder) as door:
        door.record([_note(n) for n in range(300)])
        assert door.build().seq == len(EVERY) + 300
