"""A gate is passed with its own job, or says what still stands between."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from bareshell.app.door import Door
from bareshell.app.gates import go_through
from bareshell.model import changes as c
from tests.stories import NOW, job, small_car_changes


def _door(tmp_path: Path) -> Door:
    door = Door.open(tmp_path / "car", create=True, clock=lambda: NOW)
    door.record(small_car_changes())
    door.record(c.JobSet(replace(job("look-over", "hold"), gate="under-car")))
    door.record(c.JobFinished("hold", 1))
    return door


def test_with_everything_held_the_gate_is_passed_by_its_job(tmp_path: Path) -> None:
    with _door(tmp_path) as door:
        door.record([c.ProofHeld("rear-joint"), c.JobFinished("look-over", 0.5)])
        assert go_through(door, ["look-over"]) == ("The car is through the gate 'under-car'.",)
        passed = door.build().gates["under-car"].passed
        assert passed is not None
        assert passed.by == "owner"
        door.record(c.JobStarted("tank"))


def test_with_a_proof_owed_the_job_is_done_and_the_gate_is_not_passed(tmp_path: Path) -> None:
    with _door(tmp_path) as door:
        door.record(c.JobFinished("look-over", 0.5))
        (said,) = go_through(door, ["look-over"])
        assert "Rear tee dry under pressure" in said
        assert door.build().gates["under-car"].passed is None
        assert door.build().jobs["look-over"].state.is_done


def test_a_job_that_is_no_gate_passes_none(tmp_path: Path) -> None:
    with _door(tmp_path) as door:
        door.record(c.JobFinished("carb", 2))
        assert go_through(door, ["carb", "nothing"]) == ()
