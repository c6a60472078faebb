"""Ending a session in one line on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from tests.stories import small_car_changes


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    """A build folder with the small car."""
    folder = tmp_path / "car"
    with Door.open(folder, create=True) as door:
        door.record(small_car_changes())
    return folder


def _run(*words: str | Path, typed: str = "") -> Result:
    return CliRunner().invoke(bareshell, [str(word) for word in words], input=typed)


def test_a_line_is_read_back_and_kept_when_told(garage: Path) -> None:
    result = _run("say", "carb done 2.5 h", "--build", garage, typed="y\n")
    assert result.exit_code == 0, result.output
    assert "finished" in result.output
    with Door.open(garage) as door:
        state = door.build().jobs["carb"].state
    assert (state.is_done, state.hours_done) == (True, 2.5)


def test_looking_keeps_nothing(garage: Path) -> None:
    with Door.open(garage) as door:
        before = door.latest()
    result = _run("say", "carb", "done", "2.5", "h", "--build", garage, "--look", "--json")
    data = json.loads(result.output)
    assert data["format"] == 1
    assert data["heard"]
    with Door.open(garage) as door:
        assert door.latest() == before


def test_no_is_an_answer(garage: Path) -> None:
    with Door.open(garage) as door:
        before = door.latest()
    assert _run("say", "carb done", "--build", garage, typed="n\n").exit_code != 0
    with Door.open(garage) as door:
        assert door.latest() == before


def test_without_words_it_says_how(garage: Path) -> None:
    assert "bareshell say" in _run("say", "--build", garage).output
