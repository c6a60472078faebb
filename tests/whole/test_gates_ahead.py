"""Gates in the plan: nothing behind one is offered before the car is let through it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from bareshell.errors import Refused
from bareshell.model import Build, decide
from bareshell.model import changes as c
from bareshell.model.proof import Proof
from bareshell.model.temp import Gate, Temp
from bareshell.plan.problem import Link, PlanProblem
from bareshell.plan.tonight import tonight
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.tickets import TicketDesk
from tests.stories import NOW, job, later, small_car

DONE = ("rear-pipe", "rear-hose", "hold")


def _problem(build: Build) -> PlanProblem:
    return plan_question(build, NOW).problem


def _offered(build: Build) -> tuple[str, ...]:
    found = tonight(_problem(build), seed=1, engine="plain")
    return (*found.job_ids, *(one.job_id for one in found.alternatives))


def _gate_clear() -> Build:
    """The small car with everything done that its first gate asks for."""
    done = (c.JobFinished(key, 1) for key in DONE)
    return later(small_car(), *done, c.ProofHeld("rear-joint"), at=NOW - timedelta(days=2))


def test_a_job_behind_a_gate_nobody_went_through_is_never_what_tonight_begins_with() -> None:
    build = _gate_clear()
    with pytest.raises(Refused, match="under-car"):
        decide(build, c.JobStarted("tank"))
    offered = _offered(build)
    assert "pass:under-car" in offered
    assert "tank" not in offered[: offered.index("pass:under-car")]
    assert _problem(later(build, c.GatePassed("under-car", "owner"))).job("tank").after == ()


def test_the_gate_s_own_job_is_the_going_through_of_it() -> None:
    look = replace(job("look-over", "hold"), gate="under-car")
    problem = _problem(later(small_car(), c.JobSet(look)))
    assert "pass:under-car" not in {one.id for one in problem.jobs}
    asked, gate = (g for g in problem.gates if g.title == "under-car")
    assert asked.blocks == gate.needs_jobs == ("look-over",)
    # Done without its proof, the car is still to be let through by name.
    over = later(_gate_clear(), c.JobSet(look), c.JobFinished("look-over", 1))
    assert _problem(over).job("pass:under-car").after == ()


def test_what_is_proved_in_the_gate_s_own_job_is_not_waited_for_by_it() -> None:
    look = replace(job("look-over", "hold"), gate="under-car")
    seen = Proof("seen", "Everything seen", made_by=("look-over",), gates=("under-car",))
    problem = _problem(later(small_car(), c.JobSet(look), c.ProofSet(seen)))
    by_id = {gate.id: gate for gate in problem.gates}
    assert by_id["under-car"].needs_jobs == ("pass:under-car",)
    assert by_id["under-car:asked1"].needs_proofs == ("rear-joint",)
    assert set(by_id["under-car:asked0"].needs_proofs) == {"rear-joint", "seen"}
    assert problem.job("pass:under-car").after == (Link("look-over"),)
    walked = tonight(problem, seed=1, engine="plain").schedule
    assert not walked.left_over


def test_a_gate_under_a_gate_is_gone_through_first_though_nothing_waits_for_it() -> None:
    between = Gate("between", "between", ("under-car",))
    road = Gate("road", "road", ("between",), ("wheels-on", "carb"), ("drive",))
    problem = _problem(later(small_car(), c.GateSet(between), c.GateSet(road)))
    asked = {gate.id: gate.needs_jobs for gate in problem.gates}
    assert "pass:between" in asked["road:asked0"]
    assert asked["between:asked0"] == ("pass:under-car",)


def test_a_temp_that_no_job_takes_off_is_work_before_its_gate() -> None:
    strap = Temp("strap", "strap on the boot lid", "the catch", "road")
    raised = later(small_car(), c.TempSet(strap), c.TempRaised("strap"))
    problem = _problem(raised)
    asked = next(gate for gate in problem.gates if gate.id == "road:asked0")
    assert "clear:strap" in asked.needs_jobs
    ticket = TicketDesk(raised, NOW).ticket(
        "clear:strap", NOW, NOW + timedelta(minutes=20), finishes=True, people=1
    )
    assert ticket.clears == ("strap on the boot lid",)
    assert "before the gate 'road'" in ticket.note
    off = later(raised, c.TempCleared("strap"), at=NOW + timedelta(minutes=1))
    assert "clear:strap" not in {one.id for one in _problem(off).jobs}


def test_a_temp_still_to_be_raised_is_taken_off_after_its_job() -> None:
    plugs = Temp("plugs", "plugs in the wheel ends", "", "road", raised_by="wheels-on")
    work = _problem(later(small_car(), c.TempSet(plugs))).job("clear:plugs")
    assert work.after == (Link("wheels-on"),)


def test_what_failed_while_hidden_is_not_hidden_once_more() -> None:
    joint = Proof("seam-joint", "Seam seen", made_by=("seam",), covered_by=("door-seal", "carb"))
    build = later(
        small_car(), c.ProofSet(joint), c.JobFinished("seam", 1), c.JobFinished("door-seal", 1)
    )
    failed = later(build, c.ProofFailed("seam-joint"), at=NOW + timedelta(minutes=1))
    with pytest.raises(Refused, match="unproven"):
        decide(failed, c.JobStarted("carb"))
    assert _problem(failed).job("carb").proofs_before == ("seam-joint",)
    assert _problem(failed).proofs[-1].proven_by == ("uncover:seam-joint",)
