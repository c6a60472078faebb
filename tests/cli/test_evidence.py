"""Proofs taken together, the way back and how the car is left, on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from bareshell.model import changes as c
from bareshell.model.part import Need
from bareshell.model.proof import Limit, Proof, ProofKind
from bareshell.model.spec import BoltSpec
from bareshell.model.temp import Departure, Temp
from tests.stories import NOW, small_car_changes


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    away = Departure("pipe", "Other pipe", "brakes", "steel", "copper-nickel", jobs=("rear-pipe",))
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW) as door:
        door.record([*small_car_changes(), c.DepartureSet(away), c.JobFinished("rear-pipe", 2)])
    return tmp_path / "car"


def run(garage: Path, group: str, *words: str) -> Result:
    return CliRunner().invoke(bareshell, [group, "--build", str(garage), *words])


def test_the_way_through_a_gate_as_words_and_as_data(garage: Path) -> None:
    assert "Rear hose" in run(garage, "proofs", "way", "under-car").output

    data = json.loads(run(garage, "proofs", "way", "under-car", "--json").output)

    assert [step["job"] for step in data["steps"]] == ["rear-hose", "hold"]


@pytest.mark.parametrize("words", ["torque", "rehearsal", "again"])
def test_each_reading_gives_data(garage: Path, words: str) -> None:
    result = run(garage, "proofs", words, "--json")

    assert json.loads(result.output)["format"] == 1
    assert run(garage, "proofs", words).exit_code == 0


def test_a_bolt_is_told_what_it_seats_on_and_the_torque_sheet_computes(garage: Path) -> None:
    need = Need("bolt", "Bracket bolt", "rear-hose", 2, spec=BoltSpec(), fixing=True)
    proof = Proof("tight", "Bracket torqued", ProofKind.TORQUE, made_by=("rear-hose",),
                  limits=(Limit("torque", "N m", 60.0, 65.0),))  # fmt: skip
    with Door.open(garage) as door:
        door.record([c.NeedSet(need), c.ProofSet(proof)])
    said = run(garage, "proofs", "torque").output
    assert "not computed: Bracket bolt, 2 (bolt): thread not known: measure" in said
    assert "grade not known: read the head marks" in said

    several = run(garage, "shelf", "need", "bolt", "lubrication=dry")
    assert "dry and plain, dry and zinc plated" in str(several.exception)
    told = ("thread=M8x1.25", "grade=8.8", "seat=firm", "lubrication=oiled")
    assert run(garage, "shelf", "need", "bolt", *told).exit_code == 0
    said = run(garage, "proofs", "torque").output
    assert "computed: 19.1 N.m (14.1 lbf.ft); 12.7 to 33.1 N.m by its friction" in said
    assert "The given 60 to 65 N.m stands above the computed 12.7 to 33.1 N.m" in said
    assert "share of proof load 0.75 of 21.2 kN" in said

    data = json.loads(run(garage, "proofs", "torque", "--json").output)
    line = next(line for line in data["lines"] if line["proof"] == "tight")
    assert line["bolts"][0]["low_nm"] == pytest.approx(12.7, abs=0.05)
    assert line["wrenches"] == ["a wrench whose scale ends between 75 and 130 N.m"]


def test_what_was_seen_and_the_miles_are_written_down(garage: Path) -> None:
    assert run(garage, "proofs", "look", "horn", "right", "--by", "me").exit_code == 0
    assert run(garage, "proofs", "miles", "50").exit_code == 0

    with Door.open(garage) as door:
        assert door.build().looks["horn"].by == "me"
        assert door.build().miles[-1].miles == 50

    refused = run(garage, "proofs", "look", "horn", "wrong", "--by", "me")
    assert refused.exit_code != 0
    assert "what must be put right" in str(refused.exception)


def test_the_way_back_is_shown_and_taken_in(garage: Path) -> None:
    assert "The original instead of" in run(garage, "car", "back", "pipe").output
    assert run(garage, "car", "back", "pipe", "--take-in").exit_code == 0

    data = json.loads(run(garage, "car", "back", "--json").output)
    assert data["departures"][0]["taken_in"] is True
    assert run(garage, "car", "back", "--take-in").exit_code == 2


def test_how_the_car_is_left_names_the_open_temp(garage: Path) -> None:
    assert "plastic caps" in run(garage, "car", "left").output


def test_a_half_built_car_lists_what_lies_buried_by_name_with_its_two_ways_out(
    garage: Path,
) -> None:
    with Door.open(garage) as door:
        door.record([c.JobDoneBefore(key) for key in ("rear-hose", "hold", "tank")])
        door.record([c.TempSet(Temp("other", "Other hose", gate="road", need="hose",
                                    cleared_by="drive")), c.TempRaised("other")])  # fmt: skip
    said = run(garage, "proofs").output
    assert "rear tee: Rear tee dry under pressure (rear-joint)" in said
    assert "proofs mark ID uncovered" in said
    assert "proofs mark ID substitute --words" in said
    assert "its part, Rear flexible hose (hose): " in said
    assert "taken off in Drive" in said
    data = json.loads(run(garage, "proofs", "--json").output)
    assert {"owed", "temps", "gates"} <= data.keys()
    for gate in data["gates"]:
        assert gate["covered"] == ["rear tee: Rear tee dry under pressure"], gate["id"]
    assert "How it stands: " in run(garage, "car", "left").output
