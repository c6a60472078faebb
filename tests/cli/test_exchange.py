"""Files in and out on the command line: shown first, all or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from tests.stories import NOW, small_car_changes


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    """A build folder with the small car."""
    folder = tmp_path / "car"
    with Door.open(folder, create=True, clock=lambda: NOW) as door:
        door.record(small_car_changes())
    return folder


def _run(*words: str | Path) -> Result:
    return CliRunner().invoke(bareshell, [str(word) for word in words])


def _latest(folder: Path) -> int:
    with Door.open(folder) as door:
        return door.latest()


def test_a_build_file_goes_out_and_comes_back_without_a_difference(
    garage: Path, tmp_path: Path
) -> None:
    file = tmp_path / "car.toml"
    assert _run("export", "build-file", file, "--build", garage).exit_code == 0
    seen = _run("import", file, "--build", garage)
    assert "Nothing would change" in seen.output


def test_a_changed_line_is_shown_and_lands_only_when_told(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "car.toml"
    _run("export", "build-file", file, "--build", garage)
    text = file.read_text("utf-8").replace("minutes = 45", "minutes = 50")
    file.write_text("# my own remark\n" + text, "utf-8")
    before = _latest(garage)
    looked = _run("import", file, "--build", garage, "--look")
    assert "becomes 50" in looked.output
    assert _latest(garage) == before
    landed = _run("import", file, "--build", garage, "--yes")
    assert "1 change written down" in landed.output
    _run("export", "build-file", file, "--build", garage)
    assert "# my own remark" in file.read_text("utf-8")


def test_a_list_of_parts_comes_in_by_meaning(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "parts.csv"
    file.write_text("Part,Qty,Job\nClevis pins 8 mm,4,Rear hose\n", "utf-8")
    landed = _run("import", file, "--build", garage, "--yes")
    assert landed.exit_code == 0, landed.output
    assert "Clevis pins" in _run("shelf", "--build", garage).output


def test_a_sheet_of_something_else_is_named_as_such(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "weather.csv"
    file.write_text("Rainfall,Wind\n3,SW\n4,NW\n", "utf-8")
    before = _latest(garage)
    seen = _run("import", file, "--build", garage, "--yes")
    assert _latest(garage) == before
    assert "stops" in seen.output or seen.exit_code != 0


def test_the_whole_build_goes_out_and_comes_back_the_same(garage: Path, tmp_path: Path) -> None:
    file, back = tmp_path / "all.zip", tmp_path / "back"
    assert _run("export", "archive", file, "--build", garage).exit_code == 0
    assert _run("import", file, "--into", back).exit_code == 0
    with Door.open(garage) as old, Door.open(back) as new:
        assert old.entries() == new.entries()
        assert old.build() == new.build()


def test_an_archive_is_never_mixed_into_a_build(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "all.zip"
    _run("export", "archive", file, "--build", garage)
    assert "--into" in str(_run("import", file, "--build", garage).exception)


def test_a_list_is_never_written_over_a_file_that_is_there(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "jobs.xlsx"
    assert _run("export", "jobs", file, "--build", garage).exit_code == 0
    assert "already" in str(_run("export", "jobs", file, "--build", garage).exception)
    assert "neither xlsx nor csv" in str(
        _run("export", "jobs", tmp_path / "jobs.pdf", "--build", garage).exception
    )
