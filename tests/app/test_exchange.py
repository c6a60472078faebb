"""Bringing files in through the door: shown first, all of it or nothing, and written out again."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from bareshell.app import exchange
from bareshell.app.door import Door
from bareshell.app.exchange import (
    ImportKind,
    accept_import,
    export_build_file,
    export_sheet,
    preview_import,
    save_build_file,
)
from bareshell.errors import BadInput, BareshellError, Conflict, Damaged, NotFound
from bareshell.io.sheets import Choices, Meaning, SheetKind
from bareshell.model import changes as c
from bareshell.model.job import Job
from tests.io.sheet_files import xlsx
from tests.stories import NOW, small_car_changes

LATER = NOW + timedelta(hours=3)

BUILD_FILE = """\
format = 1

[[job]]
id = "horn"
title = "Fit the horn"
system = "electrics"
status = "done"
since = 2026-03-01T15:00:00Z
hours_done = 0.5

[[need]]
id = "horn-bracket"
title = "Horn bracket"
job = "horn"
"""

PARTS = b"Part,Qty,Job\nHorn relay,1,Fit the horn\nTank strap,x2,Tank\n"


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path / "build", clock=lambda: LATER, create=True) as opened:
        opened.record(tuple(small_car_changes()), happened_at=NOW - timedelta(days=30))
        yield opened


def test_a_build_file_is_shown_then_lands_as_entries(door: Door) -> None:
    before = door.latest()
    preview = preview_import(door, BUILD_FILE.encode(), "mine.toml")
    assert preview.kind is ImportKind.BUILD_FILE
    assert [(line.sentence, line.where) for line in preview.lines] == [
        ("New: job 'Fit the horn'.", "line 3"),
        ("New: need 'Horn bracket'.", "line 11"),
        ("Job 'Fit the horn' is done, 0.5 h more.", "line 3"),
    ]
    assert door.latest() == before
    receipt = accept_import(door, preview, author="Sam")
    assert [entry.author for entry in receipt.entries] == ["Sam"] * 3
    assert receipt.entries[2].happened_at == datetime.fromisoformat("2026-03-01T15:00:00Z")
    assert receipt.entries[0].happened_at == LATER
    assert door.build().jobs["horn"].state.is_done
    # Taken twice, it lands once.
    assert accept_import(door, preview).entries == ()


def test_a_problem_stops_all_of_it(door: Door) -> None:
    before = door.latest()
    spoilt = BUILD_FILE.replace('job = "horn"', 'job = "hron"')
    preview = preview_import(door, spoilt.encode(), "mine.toml")
    assert not preview.can_land
    with pytest.raises(BadInput, match="line 11, need 'Horn bracket', job: there is no job 'hron'"):
        accept_import(door, preview)
    assert door.latest() == before


def test_what_changed_meanwhile_is_shown_again_before_it_lands(door: Door) -> None:
    preview = preview_import(door, BUILD_FILE.encode(), "mine.toml")
    door.record(c.JobSet(Job("horn", "Horn", "electrics")))
    with pytest.raises(Conflict, match="other things would land now"):
        accept_import(door, preview)
    # A change that makes no difference to what lands does not matter.
    fresh = preview_import(door, BUILD_FILE.encode(), "mine.toml")
    door.record(c.JobFinished("carb", 1))
    assert accept_import(door, fresh).entries


def test_a_list_lands_with_the_choices_that_were_made(door: Door) -> None:
    preview = preview_import(door, PARTS, "parts.csv")
    assert preview.kind is ImportKind.SHEET
    assert not preview.can_land
    [row] = [problem.where for problem in preview.stopped_by]
    assert row == "row 2, cell C2"
    with pytest.raises(BadInput, match="there is no job 'Fit the horn'"):
        accept_import(door, preview)
    receipt = accept_import(door, preview, choices={"parts": Choices(leave_out_unreadable=True)})
    assert len(receipt.entries) == 1
    assert door.build().needs["tank-strap"].quantity == 2


def test_choices_can_be_shown_before_they_land(door: Door) -> None:
    choices = {"parts": Choices(columns={"C": None}, for_all={Meaning.JOB: "carb"})}
    preview = preview_import(door, PARTS, "parts.csv", choices=choices)
    assert [line.where for line in preview.lines] == [
        "sheet 'parts', row 2",
        "sheet 'parts', row 3",
    ]
    assert len(accept_import(door, preview).entries) == 2
    assert {door.build().needs[key].job for key in ("horn-relay", "tank-strap")} == {"carb"}


def test_what_a_file_is_shows_in_its_content(door: Door, tmp_path: Path) -> None:
    workbook = xlsx({"Parts": (("Part", "Qty", "Job"), ("Strap", 2, "Tank"))})
    misnamed = tmp_path / "parts.txt"
    misnamed.write_bytes(workbook)
    assert preview_import(door, misnamed).kind is ImportKind.SHEET
    assert preview_import(door, misnamed).name == "parts.txt"
    assert preview_import(door, BUILD_FILE.encode(), "notes.txt").kind is ImportKind.BUILD_FILE
    assert preview_import(door, b"\xef\xbb\xbf" + BUILD_FILE.encode()).kind is ImportKind.BUILD_FILE
    for start, what in ((b"%PDF-1.7", "a PDF"), (b"\x89PNG\r\n", "a picture")):
        with pytest.raises(BadInput, match=f"it is {what}, which is not read here"):
            preview_import(door, start + b"...", "list.csv")
    with pytest.raises(Damaged, match="cut short"):
        preview_import(door, workbook[:-100], "parts.xlsx")
    with pytest.raises(NotFound, match="there is no file"):
        preview_import(door, tmp_path / "none.csv")


def test_an_archive_is_told_and_never_mixed_in(door: Door, tmp_path: Path) -> None:
    from bareshell.app.archive import export_archive

    archive = tmp_path / "build.zip"
    export_archive(door, archive, {"build.toml": export_build_file(door).encode()})
    preview = preview_import(door, archive)
    assert preview.kind is ImportKind.ARCHIVE
    assert not preview.can_land
    with pytest.raises(BadInput, match=r"bring it back as a build of its own|archive of a whole"):
        accept_import(door, preview)


def test_a_file_too_large_is_refused_before_it_is_read(
    door: Door, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(exchange, "LARGEST_BYTES", 100)
    large = tmp_path / "large.csv"
    large.write_bytes(b"Part,Qty\n" * 100)
    with pytest.raises(BadInput, match="too large for a list or a build file"):
        preview_import(door, large)
    with pytest.raises(BadInput, match="too large for a list or a build file"):
        preview_import(door, b"x" * 101, "large.csv")


def test_a_build_file_written_and_brought_in_again_changes_nothing(
    door: Door, tmp_path: Path
) -> None:
    path = save_build_file(door, tmp_path / "build.toml")
    own = path.read_text(encoding="utf-8").replace("[car]", "# my car\n[car]")
    path.write_text(own, encoding="utf-8")
    door.record(c.JobFinished("carb", 1.5))
    save_build_file(door, path)
    text = path.read_text(encoding="utf-8")
    assert "# my car\n[car]" in text
    assert 'title = "Carb"' in text
    assert "hours_done = 1.5" in text
    preview = preview_import(door, path)
    assert preview.lines == ()
    assert preview.problems == ()
    assert [each.name for each in tmp_path.iterdir() if each.name.startswith(".")] == []


def test_a_build_travels_by_its_build_file(door: Door, tmp_path: Path) -> None:
    door.record((c.JobFinished("rear-pipe", 2), c.ProofHeld("rear-joint", (), "dry")))
    text = export_build_file(door)
    with Door.open(tmp_path / "other", clock=lambda: LATER, create=True) as other:
        accept_import(other, preview_import(other, text.encode(), "build.toml"))
        assert export_build_file(other) == text


def test_a_file_that_is_no_build_file_is_not_written_over(door: Door, tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear Sam,\nthe parts came.\n", encoding="utf-8")
    with pytest.raises(BadInput, match="build file, line 1"):
        save_build_file(door, path)
    assert path.read_text(encoding="utf-8").startswith("Dear Sam")
    with pytest.raises(BareshellError, match="was not written"):
        save_build_file(door, tmp_path / "no such folder" / "build.toml")


def test_lists_come_out_and_are_there_already(door: Door) -> None:
    data = export_sheet(door, SheetKind.JOBS, "xlsx")
    preview = preview_import(door, data, "jobs.xlsx")
    assert preview.dated == ()
    assert preview.stopped_by == ()
    assert export_sheet(door, SheetKind.NEEDS, "csv").decode("utf-8-sig").startswith("Id,Part,Size")
