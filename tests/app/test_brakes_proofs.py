"""The proofs of the brakes through the door: owed on asking, spent by opening, before any cover."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bareshell.app import brakes_needs, brakes_proofs, jobs_desk, proofs_desk, session_end, sessions
from bareshell.app.brakes_reading import bleed, joints
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.brakes.starters import starter
from bareshell.errors import NotFound, Refused
from bareshell.model import changes as c
from bareshell.model.brake import Role
from bareshell.model.car import Layout
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.trade.network import starter as network
from bareshell.whole.brake_proofs import air_proof_id, joint_proof_id, screw_proof_id
from tests.brakes import edits as e
from tests.whole.brake_builds import order_through_gates, proved_in

START = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)
PEN = Pen()
CAR = replace(starter("front-rear tandem", threads="metric"), id="as-built", role=Role.AS_BUILT)
JOINT = joint_proof_id("pipe-to-rear-valve-1")
SCREW = screw_proof_id("caliper-front-left-bleed")
AIR = air_proof_id("master-primary")


class Clock:
    """A clock that a test puts forward."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now


def said(**fields: str) -> Mapping[str, tuple[str, ...]]:
    return {name: (value,) for name, value in fields.items()}


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def door(tmp_path: Path, clock: Clock) -> Iterator[Door]:
    """The starter network with two circuits; nothing done, nothing owed for the brakes yet."""
    begun = network(Layout.REAR)
    with Door.open(tmp_path / "car", create=True, clock=clock, back_up=False) as opened:
        opened.record(
            [
                *(c.JobSet(each) for each in begun.jobs),
                *(c.GateSet(each) for each in begun.gates),
                *(c.ProofSet(each) for each in begun.proofs),
                *(c.TempSet(each) for each in begun.temps),
                *(c.NeedSet(each) for each in begun.needs),
                c.BrakeSystemSet(CAR),
            ]
        )
        yield opened


@pytest.fixture
def owing(door: Door) -> Door:
    brakes_proofs.owe(door, PEN)
    return door


def state(door: Door, proof: str) -> ProofState:
    return proof_standings(door.build())[proof].state


# --- owing -----------------------------------------------------------------------------------


def test_nothing_is_owed_until_somebody_says_so(door: Door) -> None:
    offered = brakes_proofs.owed(door)
    assert JOINT not in door.build().proofs
    assert offered.offer.startswith("The record and these brakes differ in")
    written = brakes_proofs.owe(door, PEN)
    assert f"{offered.proofs_to_write} proofs are owed now" in written.said
    assert state(door, JOINT) is ProofState.OWED
    assert brakes_proofs.owed(door).proofs_to_write == 0
    assert brakes_proofs.owe(door, PEN).words == (brakes_proofs.NOTHING_TO_OWE,)


def test_a_form_sent_twice_owes_once(door: Door) -> None:
    brakes_proofs.owe(door, Pen(entry_id="owe-1"))
    count = door.latest()
    assert brakes_proofs.owe(door, Pen(entry_id="owe-1")).repeated
    assert door.latest() == count


def test_a_changed_circuit_offers_what_differs_and_drops_what_is_gone(owing: Door) -> None:
    owing.record(c.BrakeSystemSet(e.with_blanked_branch(CAR)))
    found = {one.id: one for one in brakes_proofs.owed(owing).differences}
    assert found["brake-vent.plug"].what == "new"
    brakes_proofs.owe(owing, PEN)
    owing.record(c.BrakeSystemSet(CAR))
    found = {one.id: one for one in brakes_proofs.owed(owing).differences}
    assert found["brake-vent.plug"].what == "not asked for any more"
    brakes_proofs.owe(owing, PEN)
    assert "brake-vent.plug" not in owing.build().proofs


def test_what_failed_is_never_dropped_because_a_description_changed(owing: Door) -> None:
    owing.record(c.BrakeSystemSet(e.with_blanked_branch(CAR)))
    brakes_proofs.owe(owing, PEN)
    proofs_desk.prove(owing, "brake-vent.plug", said(what="failed", words="weeps"), PEN)
    owing.record(c.BrakeSystemSet(CAR))
    [stays] = [one for one in brakes_proofs.owed(owing).differences if one.what == "stays"]
    assert stays.id == "brake-vent.plug"
    brakes_proofs.owe(owing, PEN)
    assert state(owing, "brake-vent.plug") is ProofState.FAILED


def test_what_the_owner_wrote_otherwise_stays_as_he_wrote_it(owing: Door) -> None:
    laid = proofs_desk.lay_proof(owing.build().proofs[SCREW].proof, owing.build())
    proofs_desk.set_proof(owing, SCREW, {**laid, "title": ("Screw dry, by torch",)}, PEN)
    [kept] = brakes_proofs.owed(owing).differences
    assert (kept.id, kept.what) == (SCREW, "kept as written")
    brakes_proofs.owe(owing, PEN)
    assert owing.build().proofs[SCREW].proof.title == "Screw dry, by torch"


def test_a_form_that_changes_nothing_makes_no_proof_the_owners_own(owing: Door) -> None:
    laid = proofs_desk.lay_proof(owing.build().proofs[SCREW].proof, owing.build())
    proofs_desk.set_proof(owing, SCREW, laid, PEN)
    assert brakes_proofs.owed(owing).differences == ()


def test_without_brakes_on_the_car_it_says_what_to_do(tmp_path: Path) -> None:
    with (
        Door.open(tmp_path / "bare", create=True, back_up=False) as bare,
        pytest.raises(NotFound, match="bareshell brakes begin"),
    ):
        brakes_proofs.owe(bare, PEN)
    with Door.open(tmp_path / "bare", back_up=False) as bare:
        assert brakes_proofs.offer_of(bare) == ""


# --- needs -----------------------------------------------------------------------------------


def test_what_is_missing_goes_on_the_parts_desk_once(door: Door) -> None:
    offered = brakes_proofs.owed(door).needs_to_write
    assert offered
    written = brakes_needs.want(door, Pen(entry_id="want-1"))
    assert "on the parts desk now" in written.said
    assert brakes_proofs.owed(door).needs_to_write == 0
    assert brakes_needs.want(door, Pen(entry_id="want-1")).repeated
    assert brakes_needs.want(door, PEN).words == (brakes_needs.NOTHING_WANTED,)


def test_a_job_that_is_done_wants_nothing_more(door: Door) -> None:
    before = {one.job for one in brakes_proofs.owed(door).needs if one.comes == "new"}
    assert "pipe-rear" in before
    door.record(c.JobFinished("pipe-rear"))
    after = {one.job for one in brakes_proofs.owed(door).needs if one.comes in ("new", "settled")}
    assert "pipe-rear" not in after


# --- opening ---------------------------------------------------------------------------------


def test_undoing_a_joint_spends_its_leak_proof_and_its_circuits_air(owing: Door) -> None:
    air = air_proof_id("master-floating")
    owing.record([c.ProofHeld(JOINT), c.ProofHeld(air), c.ProofHeld(AIR)])
    fields = said(words="to lead a cable behind it")
    written = brakes_proofs.undo_joint(owing, "pipe-to-rear-valve-1", fields, Pen(entry_id="u"))
    assert "Its own leak proof is spent" in written.said
    assert "floating circuit" in written.said
    assert state(owing, JOINT) is ProofState.SPENT
    assert state(owing, air) is ProofState.SPENT
    assert state(owing, AIR) is ProofState.HELD
    assert "cable" in proof_standings(owing.build())[JOINT].words
    again = brakes_proofs.undo_joint(owing, "pipe-to-rear-valve-1", fields, Pen(entry_id="u"))
    assert again.repeated


def test_a_joint_is_named_by_its_number_too_and_a_slip_says_where_to_look(owing: Door) -> None:
    sheet = joints(owing).sheet.joints
    first = sheet.joints[0]
    written = brakes_proofs.undo_joint(owing, str(first.number), {}, PEN)
    assert "nothing is spent" in written.said
    with pytest.raises(NotFound, match="brakes joints"):
        brakes_proofs.undo_joint(owing, "nobody", {}, PEN)


def test_opening_a_screw_spends_only_itself_and_the_air(owing: Door) -> None:
    joint = joint_proof_id("hose-front-left-1")
    owing.record([c.ProofHeld(key) for key in (SCREW, AIR, joint)])
    written = brakes_proofs.open_screw(owing, "caliper-front-left", {}, PEN)
    assert "the next pedal test renews it" in written.said
    assert state(owing, SCREW) is ProofState.SPENT
    assert state(owing, AIR) is ProofState.SPENT
    assert state(owing, joint) is ProofState.HELD


def test_before_anything_is_owed_opening_says_what_to_do_first(door: Door) -> None:
    written = brakes_proofs.open_screw(door, "caliper-front-left", {}, PEN)
    assert "owe the proofs of these brakes first" in written.said


@pytest.mark.parametrize("how", ["form", "end of the session", "line"])
def test_bleeding_spends_screws_and_air_however_it_is_written_down(owing: Door, how: str) -> None:
    joint = joint_proof_id("hose-front-left-1")
    owing.record([c.ProofHeld(key) for key in (SCREW, AIR, joint)])
    match how:
        case "form":
            words = jobs_desk.mark_job(owing, "bleed-2", said(what="done", hours="2"), PEN).said
            assert "Spent with it, to be shown again" in words
        case "end of the session":
            words = session_end.end_session(owing, said(done="bleed-2"), PEN).said
            assert "Spent with it, to be shown again" in words
        case _:
            words = "second bleed after a night's rest done, 2 h"
            line = sessions.preview_line(owing, words, ("bleed-2",))
            sessions.keep_line(owing, line)
    assert owing.build().jobs["bleed-2"].state.is_done
    assert state(owing, SCREW) is ProofState.SPENT
    assert state(owing, AIR) is ProofState.SPENT
    assert state(owing, joint) is ProofState.HELD


def test_taking_the_bleeding_back_takes_back_what_it_spent(owing: Door) -> None:
    owing.record([c.ProofHeld(SCREW), c.ProofHeld(AIR)])
    [entry] = owing.record(c.JobFinished("bleed-2", 2)).entries
    assert state(owing, AIR) is ProofState.SPENT
    owing.take_back(entry.id, "it was the first bleed")
    assert state(owing, AIR) is ProofState.HELD


def test_a_vented_blank_counts_as_bled_in_the_plan(owing: Door) -> None:
    owing.record(c.BrakeSystemSet(e.with_blanked_branch(CAR)))
    brakes_proofs.owe(owing, PEN)
    assert not bleed(owing).plan.dead_legs[0].vented
    proofs_desk.prove(owing, "brake-vent.plug", said(what="held"), PEN)
    assert bleed(owing).plan.dead_legs[0].vented


# --- proof before cover, and the usual order ---------------------------------------------------


def test_a_job_that_would_hide_an_owed_joint_is_not_begun(owing: Door) -> None:
    assert "tank-fit" in owing.build().proofs[JOINT].proof.covered_by
    others = [
        key
        for key, record in owing.build().proofs.items()
        if "tank-fit" in record.proof.covered_by and key != JOINT
    ]
    owing.record([c.ProofHeld(key) for key in others])
    with pytest.raises(Refused, match="Joint dry under pressure") as refused:
        jobs_desk.mark_job(owing, "tank-fit", said(what="started"), PEN)
    assert refused.value.rule == "proof before cover"
    owing.record(c.ProofHeld(JOINT))
    with pytest.raises(Refused, match="gate"):
        jobs_desk.mark_job(owing, "tank-fit", said(what="started"), PEN)


def test_the_usual_order_reaches_every_gate(owing: Door, clock: Clock) -> None:
    """Hold overnight, bleed again, measure the pedal: each brake proof in its own job."""
    build = owing.build()
    order = order_through_gates(build)
    proving: dict[str, list[str]] = {}
    for key, record in build.proofs.items():
        proving.setdefault(proved_in(record.proof, order), []).append(key)
    for name in order:
        clock.now += timedelta(days=1)
        for gate in [g for g, one in build.gates.items() if name in one.gate.blocks]:
            _through(owing, gate)
        ours = any(key.startswith("brake-") for key in proving.get(name, ()))
        if ours or name.startswith("bleed"):
            jobs_desk.mark_job(owing, name, said(what="done", hours="1"), PEN)
        else:
            owing.record(c.JobFinished(name, 1.0))
        clock.now += timedelta(hours=14)
        keys = proving.get(name, ())
        owing.record([c.ProofHeld(key) for key in keys if not key.startswith("brake-")] or ())
        for key in keys:
            if key.startswith("brake-"):
                proofs_desk.prove(owing, key, said(what="held", words="dry"), PEN)
    for gate in build.gates:
        _through(owing, gate)
    after = owing.build()
    assert all(record.passed for record in after.gates.values())
    standings = proof_standings(after)
    brakes = {standings[key].state for key in after.proofs if key.startswith("brake-")}
    assert brakes == {ProofState.HELD}


def _through(door: Door, gate: str) -> None:
    for before in door.build().gates[gate].gate.after:
        _through(door, before)
    if not door.build().gates[gate].passed:
        proofs_desk.pass_gate(door, gate, said(by="owner"), PEN)
