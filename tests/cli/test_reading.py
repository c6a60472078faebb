"""The commands a newcomer tries first, on a small car of the tests' own."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.main import COMMANDS, bareshell
from bareshell.model import changes as c

Run = Callable[..., Result]


@pytest.fixture
def run(garage: Path) -> Run:
    """Call a command on that build."""

    def call(*words: str) -> Result:
        command, *rest = words
        group = {"jobs", "shelf", "proofs", "car"}
        where = ["--build", str(garage)]
        args = [command, *where, *rest] if command in group else [command, *rest, *where]
        return CliRunner().invoke(bareshell, args, catch_exceptions=True)

    return call


def _data(result: Result) -> dict[str, object]:
    assert result.exit_code == 0, result.output
    data = json.loads(result.output)
    assert data["format"] == 1
    return dict(data)


def test_help_lists_every_command_without_loading_one() -> None:
    result = CliRunner().invoke(bareshell, ["--help"])
    assert result.exit_code == 0
    for name in COMMANDS:
        assert name in result.output


def test_jobs_lists_and_opens(run: Run) -> None:
    assert "rear-pipe" in run("jobs").output
    data = _data(run("jobs", "--json"))
    assert isinstance(data["jobs"], list)
    assert len(data["jobs"]) == 9
    assert "Rear tee dry" in run("jobs", "show", "hold").output


def test_marking_a_cover_done_says_what_it_buries(run: Run) -> None:
    result = run("jobs", "mark", "tank", "done", "--hours", "2")
    assert result.exit_code == 0
    assert "covered, unproven" in result.output
    data = _data(run("proofs", "--json"))
    assert {"owed", "temps", "gates"} <= data.keys()
    assert data["covered_unproven"]


def test_starting_a_cover_is_refused_with_the_rule(run: Run) -> None:
    result = run("jobs", "mark", "tank", "started")
    assert result.exit_code != 0
    assert "proof before cover" in str(result.exception)


def test_a_job_that_was_begun_has_the_hours_since_unless_others_are_said(
    run: Run, garage: Path
) -> None:
    def begun_earlier(job: str, minutes: int) -> None:
        moment = datetime.now(UTC) - timedelta(minutes=minutes)
        with Door.open(garage, clock=lambda: moment) as door:
            door.record(c.JobStarted(job))

    begun_earlier("carb", 50)
    begun_earlier("seam", 50)
    assert "Carb: done. 0.83 h since it was begun are counted." in run(
        "jobs", "mark", "carb", "done"
    ).output.replace("\n", " ")
    assert "counted" not in run("jobs", "mark", "seam", "worked", "--hours", "0.5").output
    with Door.open(garage) as door:
        jobs = door.build().jobs
    assert (jobs["carb"].state.hours_done, jobs["seam"].state.hours_done) == (0.83, 0.5)


def test_shelf_says_what_is_coming_and_what_to_look_for(run: Run) -> None:
    data = _data(run("shelf", "--json"))
    assert {"needs", "holdings", "coming", "kits"} <= data.keys()
    assert "look for it" in run("shelf").output
    assert run("shelf", "goods-in", "o1", "right", "--where", "B2").exit_code == 0
    assert run("shelf", "here", "nuts").exit_code == 0
    states = {need["id"]: need["state"] for need in _data(run("shelf", "--json"))["needs"]}  # type: ignore[attr-defined]
    assert states == {"hose": "here", "nuts": "here"}


def test_a_proof_is_marked_with_its_figure_and_a_missed_limit_is_asked_about(run: Run) -> None:
    missed = run("proofs", "mark", "rear-joint", "held", "--figure", "60 bar")
    assert missed.exit_code != 0
    assert "misses its limit" in str(missed.exception)
    held = run("proofs", "mark", "rear-joint", "held", "--figure", "71 bar")
    assert "is held" in held.output


def test_a_gate_that_is_not_clear_is_refused_by_name(run: Run) -> None:
    result = run("proofs", "gate", "under-car", "--by", "the owner")
    assert "Rear tee dry under pressure" in str(result.exception)


def test_the_record_reads_newest_first_and_an_entry_is_taken_back(run: Run) -> None:
    run("jobs", "mark", "carb", "done", "--hours", "2")
    first = _data(run("log", "--json", "-n", "1"))["lines"][0]  # type: ignore[index]
    assert "Carb" in first["words"]
    undone = run("undo", "--yes")
    assert "Taken back" in undone.output
    states = {job["id"]: job["status"] for job in _data(run("jobs", "--json"))["jobs"]}  # type: ignore[attr-defined]
    assert states["carb"] == "to do"


def test_the_car_is_put_on_its_wheels(run: Run) -> None:
    assert run("car", "stands", "wheels").exit_code == 0
    assert _data(run("car", "--json"))["stands"] == "wheels"


def test_without_a_build_the_remedy_is_said(tmp_path: Path) -> None:
    result = CliRunner().invoke(bareshell, ["jobs", "--build", str(tmp_path)])
    assert "bareshell new" in str(result.exception)
