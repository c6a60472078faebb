"""The calendar on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from tests.stories import small_car_changes


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    with Door.open(tmp_path / "car", create=True, back_up=False) as door:
        door.record(small_car_changes())
    return tmp_path / "car"


def test_it_is_written_to_a_file_or_printed_and_is_the_same(folder: Path, tmp_path: Path) -> None:
    run = CliRunner().invoke
    printed = run(bareshell, ["road", "--build", str(folder), "--calendar", "-"])
    assert printed.exit_code == 0
    assert printed.stdout.startswith("BEGIN:VCALENDAR")
    file = tmp_path / "days.ics"
    said = run(bareshell, ["road", "--build", str(folder), "--calendar", str(file)])
    assert "Open it in a calendar." in said.stdout

    def names(text: str) -> list[str]:
        return [line for line in text.splitlines() if line.startswith(("UID:", "DTSTART"))]

    assert names(file.read_bytes().decode()) == names(printed.stdout)
    assert len(names(printed.stdout)) >= 4
