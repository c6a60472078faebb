"""The build may be named before a command, behind it, or behind what stands below it."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from tests.stories import NOW, small_car_changes


@pytest.fixture
def folder(tmp_path: Path) -> str:
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(small_car_changes())
    return str(tmp_path / "car")


@pytest.mark.parametrize(
    "words",
    [
        "--build {} proofs way road",
        "proofs --build {} way road",
        "proofs way --build {} road",
        "proofs way road --build {}",
        "proofs way road --build={}",
        "--build {} proofs",
        "log --build {}",
        "--build {} car left",
        "shelf --json --build {}",
    ],
)
def test_wherever_it_stands_it_names_the_build(folder: str, words: str) -> None:
    found = CliRunner().invoke(bareshell, words.format(folder).split())
    assert found.exit_code == 0, found.output


def test_a_group_without_a_build_of_its_own_hands_it_on(folder: str) -> None:
    for words in ("--build {} brakes show", "brakes --build {} show", "brakes show --build {}"):
        found = CliRunner().invoke(bareshell, words.format(folder).split())
        # The build was found: what is not there is what it says of its brakes.
        assert "what brakes the car has" in str(found.exception)


def test_what_comes_behind_two_dashes_is_left_alone(folder: str) -> None:
    words = ["say", "--build", folder, "--look", "--", "--build"]
    found = CliRunner().invoke(bareshell, words)
    assert "requires an argument" not in found.output
