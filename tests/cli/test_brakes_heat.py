"""``bareshell brakes heat``, of a brake file alone and of a build."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.cli.main import bareshell
from bareshell.errors import BadInput
from bareshell.io.brake_file import write_brake_file
from bareshell.model import changes as c
from bareshell.model.brake import Role
from tests.stories import NOW

CAR = replace(small_car(), id="as-built", role=Role.AS_BUILT)


def call(*words: str) -> Result:
    return CliRunner().invoke(bareshell, ["brakes", "heat", *words])


@pytest.fixture
def file(tmp_path: Path) -> str:
    path = tmp_path / "car.toml"
    path.write_text(write_brake_file(CAR), encoding="utf-8")
    return str(path)


def test_a_brake_file_alone_is_enough(file: str) -> None:
    found = call(file)

    assert found.exit_code == 0, found.output
    for words in ("One stop from 100 km/h", "6 km down 8 %", "fluid hottest", "below boiling"):
        assert words in found.output
    assert "not worked out: top speed of the car" in found.output.lower()


def test_what_is_asked_is_what_is_driven(file: str) -> None:
    mild = json.loads(call(file, "--json").output)
    steep = json.loads(call(file, "--slope", "14", "--down", "30 mph", "--json").output)

    assert mild["format"] == 1
    assert steep["asked"]["down_speed_m_s"] == pytest.approx(13.4112)
    hot = [one["courses"][2]["hottest_fluid"]["temperature_c"] for one in (mild, steep)]
    assert hot[1] > hot[0]


def test_the_build_gives_the_same_as_its_file(file: str, tmp_path: Path) -> None:
    folder = tmp_path / "build"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(c.BrakeSystemSet(CAR))

    of_build = json.loads(call("--build", str(folder), "--json").output)
    of_file = json.loads(call(file, "--json").output)

    for one, other in zip(of_build["courses"], of_file["courses"], strict=True):
        assert one["hottest_wheel"] == other["hottest_wheel"]
        if one["hottest_fluid"]:
            other_c = other["hottest_fluid"]["temperature_c"]
            assert one["hottest_fluid"]["temperature_c"] == pytest.approx(other_c, abs=0.5)


def test_no_such_hill_is_refused(file: str) -> None:
    found = call(file, "--slope", "80")

    assert found.exit_code != 0
    assert isinstance(found.exception, BadInput)
    assert found.exception.problems[0].where == "slope"
