"""Tonight in the terminal: few lines where many say the same, and what an entry changed."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app import forecasts
from bareshell.app.door import Door
from bareshell.app.tonight import asked_from, tonight
from bareshell.cli.main import bareshell
from bareshell.model import changes as c
from bareshell.model.proof import AboutKind, Proof, ProofKind
from bareshell.model.session import SessionException
from tests.stories import NOW, job, small_car_changes


def _said(folder: Path, *words: str) -> str:
    found = CliRunner().invoke(bareshell, ["tonight", *words, "--build", str(folder)])
    assert found.exit_code == 0, found.output
    return found.output


@pytest.fixture
def many(tmp_path: Path) -> Path:
    """A build in which one job owes five proofs that read alike, and eight jobs wait for none."""
    folder = tmp_path / "many"
    joints = [
        Proof(f"joint-{n}", "Joint dry under pressure", ProofKind.SEEN, AboutKind.JOINT,
              f"joint {n}", made_by=("rear-pipe",), proven_by="rear-pipe")
        for n in range(5)
    ]  # fmt: skip
    with Door.open(folder, create=True, clock=lambda: NOW) as door:
        door.record(
            [
                *small_car_changes(),
                *(c.ProofSet(one) for one in joints),
                *(c.JobSet(job(f"label-{n}", hours=0.2, system="paperwork")) for n in range(8)),
            ]
        )
    return folder


def test_proofs_that_read_alike_are_one_line_and_all_of_them_in_the_data(many: Path) -> None:
    said = _said(many, "--minutes", "600")
    assert "5 x Joint dry under pressure (owed: joint-0, joint-1 and 3 more)" in said
    assert "joint-4" not in said
    found = json.loads(_said(many, "--minutes", "600", "--json"))
    pipe = next(one for one in found["jobs"] if one["id"] == "rear-pipe")
    assert {f"joint-{n}" for n in range(5)} <= {one["id"] for one in pipe["proves"]}


def test_of_many_beginnings_as_good_three_are_told_and_the_rest_counted(many: Path) -> None:
    said = _said(many)
    found = json.loads(_said(many, "--json"))
    good = [one for one in found["begin_with"] if one["as_good"]]
    assert len(good) > 4
    assert f"... and {len(good) - 3} more that are as good" in said
    told = said[said.index("Begin with") : said.index("more that are as good")]
    assert sum(one["title"] in told for one in good) == 3
    assert "\n\n\n" not in said


def test_a_tie_says_whether_any_future_told_them_apart(many: Path) -> None:
    found = json.loads(_said(many, "--json"))
    for one in found["begin_with"][1:]:
        assert one["samples"] > 0
        if one["as_good"]:
            assert ("the same day" in one["words"]) or ("may be chance" in one["words"])
        else:
            assert "puts the road back by" in one["words"]


def test_what_an_entry_changed_is_said_when_nothing_is_set_about_the_evening(many: Path) -> None:
    with Door.open(many, clock=lambda: NOW) as door:
        forecasts.keep_forecast(door, samples=200)
    moment = NOW + timedelta(hours=1)
    with Door.open(many, clock=lambda: moment) as door:
        door.record(c.ExceptionSet(SessionException(date(2026, 3, 4))))
        sheet = tonight(door, asked_from(door))
        assert sheet.changed
        assert "from" in sheet.changed
        assert tonight(door, asked_from(door, minutes=60)).changed == ""


def test_how_warm_a_job_wants_it_stands_on_its_ticket(garage: Path) -> None:
    said = _said(garage, "--degrees", "20", "--minutes", "600")
    assert "Wants 10 °C or more, and for the 24 h after it." in said


def test_each_root_is_told_once_with_what_else_hangs_on_it(garage: Path) -> None:
    found = json.loads(_said(garage, "--minutes", "30", "--json"))
    roots = [(one["rule"], one["links"][-1]["sentence"]) for one in found["why_not"]]
    assert roots
    assert len(set(roots)) == len(roots)
    told = {one["title"] for one in found["why_not"]}
    with_it = [title for one in found["why_not"] for title in one["also"]]
    assert with_it
    assert told.isdisjoint(with_it)
    assert f"and with it: {found['why_not'][0]['also'][0]}" in _said(garage, "--minutes", "30")


def test_a_build_with_nothing_left_says_so_and_promises_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "done"
    asked = (c.GateSet, c.ProofSet, c.TempSet)
    changes = [one for one in small_car_changes() if not isinstance(one, asked)]
    with Door.open(folder, create=True, clock=lambda: NOW) as door:
        door.record(changes)
        door.record([c.JobFinished(key, 1) for key in door.build().jobs])
    said = _said(folder)
    assert "No work is left to plan: every job is done or left out." in said
    assert "Nothing can be done" not in said
    road = CliRunner().invoke(bareshell, ["road", "--build", str(folder)]).output
    assert "No work is left to plan" in road
    assert "the road is not reached" not in road
