"""``bareshell brakes trust``, of a brake file alone and of a build."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.cli.main import bareshell
from bareshell.errors import BadInput, NotFound
from bareshell.io.brake_file import write_brake_file
from bareshell.model import changes as c
from bareshell.model.brake import Role
from bareshell.model.trust import Stated, Trust
from tests.brakes import edits as e
from tests.stories import NOW

SHARE = Stated(0.47, Trust.ASSUMED, 0.41, 0.54)
UNWEIGHED = e.with_part(small_car(), "car", figures={"laden_front_share": SHARE})
CAR = replace(UNWEIGHED, id="as-built", role=Role.AS_BUILT)
ADHESION = ("--yardstick", "un-r13h-adhesion")


def call(*words: str) -> Result:
    return CliRunner().invoke(bareshell, ["brakes", "trust", "--samples", "400", *words])


@pytest.fixture
def file(tmp_path: Path) -> str:
    path = tmp_path / "car.toml"
    path.write_text(write_brake_file(CAR), encoding="utf-8")
    return str(path)


def test_a_brake_file_alone_is_enough(file: str) -> None:
    found = call(file, *ADHESION)
    assert found.exit_code == 0, found.output
    assert "400 combinations" in found.output
    assert "Measure first" in found.output
    assert "weigh each axle loaded" in found.output
    assert "of 100 combinations" in found.output
    assert "the worst with car.laden_front_share" in found.output
    assert "nobody knows how likely each of them is" in found.output


def test_without_a_yardstick_our_own_questions_are_answered(file: str) -> None:
    found = call(file)
    assert found.exit_code == 0
    assert "No yardsticks are chosen yet" in found.output
    assert "the pedal stays off the floor whatever one thing fails" in found.output


def test_the_same_seed_gives_the_same_data(file: str) -> None:
    one, again, other = (
        json.loads(call(file, *ADHESION, "--seed", seed, "--json").output) for seed in "114"
    )
    assert one["format"] == 1
    assert one["answers"] == again["answers"]
    assert one["answers"] != other["answers"]


def test_a_build_gives_the_same_as_its_file(file: str, tmp_path: Path) -> None:
    folder = tmp_path / "build"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(c.BrakeSystemSet(CAR))
        door.record(c.YardsticksChosen(("un-r13h-adhesion",)))
    of_build = json.loads(call("--build", str(folder), "--json").output)
    of_file = json.loads(call(file, *ADHESION, "--json").output)
    assert of_build["answers"] == of_file["answers"]
    assert of_build["measure_first"] == of_file["measure_first"]


def test_what_cannot_be_drawn_or_held_against_is_refused(file: str) -> None:
    few = call(file, "--samples", "7")
    assert isinstance(few.exception, BadInput)
    unknown = call(file, "--yardstick", "no-such")
    assert isinstance(unknown.exception, NotFound)
