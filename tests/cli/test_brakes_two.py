"""Two things failing at once, on the command line, of a brake file alone."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.brakes.examples import small_car
from bareshell.cli.main import bareshell
from bareshell.io.brake_file import write_brake_file


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "car.toml"
    path.write_text(write_brake_file(small_car()), "utf-8")
    return path


def test_every_two_are_listed_and_one_of_them_may_be_asked_about(file: Path) -> None:
    listed = CliRunner().invoke(
        bareshell, ["brakes", "failures", str(file), "--two-at-once", "--json"]
    )
    failures = json.loads(listed.output)["failures"]
    assert all("+" in one["id"] for one in failures)
    assert failures[-1]["left"] == "nothing but the parking brake"

    asked = CliRunner().invoke(
        bareshell, ["brakes", "check", str(file), "--failure", failures[-1]["id"], "--json"]
    )
    assert json.loads(asked.output)["now"]["deceleration_m_s2"] == pytest.approx(0.0, abs=1e-6)


def test_two_that_are_none_of_them_are_refused_in_a_sentence(file: Path) -> None:
    result = CliRunner().invoke(bareshell, ["brakes", "check", str(file), "--failure", "this+that"])

    assert "have no failure 'this+that'" in str(result.exception)
