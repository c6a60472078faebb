"""Files in and out on the command line: shown first, all or nothing."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from bareshell.model.changes import JobSet


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


DIRTY = """My parts;;;;
;;;;
updated in March;;;;
Thing;How many?;Price (each);From who;Due
Track rod ends;2 pr;£12.50;Hartlewane;30/4/26
Wiper arms;1;12,50 EUR;A club stall;?
Door checks;3;approx 8;;end of May
TOTAL;;62.50;;
"""


def test_a_dirty_list_is_understood_row_by_row(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "on order.csv"
    file.write_text(DIRTY, "utf-8")
    seen = json.loads(_run("import", file, "--build", garage, "--look", "--json").output)
    (sheet,) = seen["sheets"]
    assert (sheet["kind"], sheet["header_row"]) == ("orders", 4)
    meanings = {one["header"]: one["meaning"] for one in sheet["columns"]}
    assert meanings["Price (each)"] == "price each"
    said = [line["sentence"] for line in seen["lines"]]
    assert said[0].startswith("4 x Track rod ends, from Hartlewane, expected 2026-04-30, 50.00 GBP")
    assert "12.50 EUR" in said[1]
    assert "24 GBP" in said[2]
    problems = [one["what"] for one in seen["problems"]]
    assert "4 x 12.50 is 50.00 GBP for all of them" in problems
    assert any("'end of May' is no day" in one for one in problems)
    assert seen["stopped_by"] == []
    assert _latest(garage) == _latest(garage)


def test_json_only_looks(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "on order.csv"
    file.write_text(DIRTY, "utf-8")
    before = _latest(garage)
    assert _run("import", file, "--build", garage, "--yes", "--json").exit_code == 0
    assert _latest(garage) == before


def test_what_rows_do_not_say_can_be_said_for_all(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "bare.csv"
    file.write_text('Part,Qty,Cost,ETA\nHorn ring,1,"4,50",03/04/2026\n', "utf-8")
    words = ["--list", "orders", "--for-all", "supplier=Fennimoss", "--currency", "eur",
             "--comma", "--month-first", "--look"]  # fmt: skip
    seen = _run("import", file, "--build", garage, *words).output
    assert "1 x Horn ring, from Fennimoss, expected 2026-03-04, 4.50 EUR" in seen
    wrong = _run("import", file, "--build", garage, "--for-all", "nonsense")
    assert "supplier=WORDS" in str(wrong.exception)


@pytest.mark.parametrize("what", ["needs", "holdings", "orders", "jobs"])
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_a_list_goes_out_and_comes_back_without_a_change(
    garage: Path, tmp_path: Path, what: str, form: str
) -> None:
    file = tmp_path / f"list.{form}"
    assert _run("export", what, file, "--build", garage).exit_code == 0
    before = _latest(garage)
    for there in ([], ["--there", "correct"]):
        seen = _run("import", file, "--build", garage, "--list", what, "--yes", *there)
        assert "Nothing would change" in seen.output, seen.output
    assert _latest(garage) == before


def test_rows_that_are_there_are_corrected_when_told(garage: Path, tmp_path: Path) -> None:
    file = tmp_path / "needs.csv"
    file.write_text("Part,Qty,Job\nRear flexible hose,2,Rear hose\n", "utf-8")
    stays = _run("import", file, "--build", garage, "--yes")
    assert "Nothing would change" in stays.output
    told = _run("import", file, "--build", garage, "--yes", "--there", "correct")
    assert "1 change written down" in told.output
    with Door.open(garage) as door:
        assert door.build().needs["hose"].quantity == 2


def test_correcting_a_job_keeps_its_other_ways(garage: Path, tmp_path: Path) -> None:
    with Door.open(garage) as door:
        job = door.build().jobs["carb"].job
        both = (*job.ways, replace(job.ways[0], people=2, kit="a second pair of hands"))
        door.record(JobSet(replace(job, ways=both)))
    file = tmp_path / "jobs.csv"
    _run("export", "jobs", file, "--build", garage)
    same = _run("import", file, "--build", garage, "--yes", "--there", "correct")
    assert "Nothing would change" in same.output
    file.write_text(file.read_text("utf-8-sig").replace("fuel,,1 / 2 / 4,", "fuel,,1 / 3 / 4,"))
    told = _run("import", file, "--build", garage, "--yes", "--there", "correct")
    assert told.exit_code == 0
    with Door.open(garage) as door:
        ways = door.build().jobs["carb"].job.ways
    assert [(way.people, way.hours.likely_hours) for way in ways] == [(1, 3), (2, 2)]
    assert ways[1].kit == "a second pair of hands"
