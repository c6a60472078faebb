"""What brakes owe in proof, what spends what, and that the usual order reaches every gate."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.brakes.joints import joint_schedule
from bareshell.brakes.starters import STARTERS, starter
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.car import Layout
from bareshell.model.proof import AboutKind, ProofKind, ProofState
from bareshell.model.standing import gate_standings
from bareshell.whole.brake_proofs import (
    air_proof_id,
    brake_proofs,
    joint_proof_id,
    screw_proof_id,
)
from bareshell.whole.brake_spent import (
    joint_undone,
    screw_opened,
    spent_by,
    vented_blanks,
)
from tests.brakes import edits as e
from tests.stories import NOW, later
from tests.whole.brake_builds import network_build, own_build, state_of, walked, with_brakes

CAR = starter("front-rear tandem", threads="metric")
SCREW = screw_proof_id("caliper-front-left-bleed")
AIR = air_proof_id("master-primary")
JOINT = joint_proof_id("pipe-rear-left-1")


class TestWhatIsOwed:
    """One proof for each joint, each screw and each circuit, and the tests."""

    @pytest.mark.parametrize("name", STARTERS)
    def test_every_joint_screw_and_circuit_has_its_own(self, name: str) -> None:
        """None left out, none twice."""
        system = starter(name)
        proofs = brake_proofs(system, network_build())
        schedule = joint_schedule(system)
        ids = [proof.id for proof in proofs]
        assert len(set(ids)) == len(ids)
        for joint in schedule.joints:
            assert joint_proof_id(joint.id) in ids
            assert air_proof_id(joint.circuits[0]) in ids
        for screw in schedule.screws:
            assert screw_proof_id(screw.id) in ids

    @pytest.mark.parametrize("name", STARTERS)
    @pytest.mark.parametrize("layout", Layout)
    def test_the_door_takes_them_all(self, name: str, layout: Layout) -> None:
        """Every job and gate they name is there, and none hides what it proves."""
        build = with_brakes(network_build(layout), starter(name))
        owed = {proof.id: proof for proof in brake_proofs(starter(name), build)}
        assert {key: build.proofs[key].proof for key in owed} == owed

    def test_the_networks_own_tests_are_not_asked_for_twice(self) -> None:
        """It owes the night's hold, the pedal, the handbrake and the inspection's sheet already."""
        ids = {proof.id for proof in brake_proofs(CAR, network_build())}
        assert not ids & {"brake-hold", "brake-pedal", "brake-parking", "brake-measured"}
        assert "brake-servo" in ids
        assert "brake-servo" not in {p.id for p in brake_proofs(starter("single line"), Build())}

    def test_a_network_without_them_gets_the_tests(self) -> None:
        """An owner's own few jobs."""
        proofs = {proof.id: proof for proof in brake_proofs(CAR, own_build())}
        assert {"brake-hold", "brake-pedal", "brake-parking", "brake-measured"} <= proofs.keys()
        assert proofs["brake-hold"].kind is ProofKind.HELD_PRESSURE
        assert proofs["brake-pedal"].limits[0].low == 20

    def test_a_hidden_joint_is_proved_before_it_is_hidden(self) -> None:
        """At the valve above the tank: in the hold of the bare pipes, not weeks later."""
        proofs = {proof.id: proof for proof in brake_proofs(CAR, network_build())}
        valve = proofs[joint_proof_id("pipe-to-rear-valve-1")]
        assert (valve.proven_by, valve.covered_by) == ("lines-hold", ("tank-fit",))
        assert "under-car" in valve.gates
        hose = proofs[joint_proof_id("hose-front-left-1")]
        assert (hose.proven_by, hose.covered_by) == ("hold-night", ())
        assert hose.made_by == ("front-hoses", "caliper-fit")

    def test_a_joint_at_a_bracket_is_made_by_pipe_and_hose(self) -> None:
        """Taking either off spends it."""
        proofs = {proof.id: proof for proof in brake_proofs(CAR, network_build())}
        assert proofs[joint_proof_id("pipe-rear-1")].made_by == ("pipe-rear", "rear-hoses")

    def test_a_blanked_leg_owes_its_venting(self) -> None:
        """It counts as bled only then."""
        proofs = brake_proofs(e.with_blanked_branch(CAR), network_build())
        [vent] = [proof for proof in proofs if proof.id.startswith("brake-vent")]
        assert vent.id == "brake-vent.plug"
        assert vent.proven_by == "bleed-1"
        build = with_brakes(network_build(), e.with_blanked_branch(CAR))
        assert vented_blanks(e.with_blanked_branch(CAR), build) == ()
        build = later(build, c.ProofHeld(vent.id), at=NOW + timedelta(hours=1))
        assert vented_blanks(e.with_blanked_branch(CAR), build) == ("plug",)

    def test_they_are_about_joints_and_circuits(self) -> None:
        """So that the proofs page groups them so."""
        proofs = {proof.id: proof for proof in brake_proofs(CAR, network_build())}
        assert proofs[JOINT].about_kind is AboutKind.JOINT
        assert proofs[AIR].about_kind is AboutKind.CIRCUIT
        assert proofs[AIR].kind is ProofKind.MEASURED
        assert all("no source" in proof.mark for proof in proofs.values())

    def test_an_owners_own_network_is_read_by_its_titles(self) -> None:
        """Pipes, hoses, bleeding, hold and pedal are found; what is not found is not made up."""
        proofs = {proof.id: proof for proof in brake_proofs(CAR, own_build())}
        assert proofs[joint_proof_id("pipe-rear-1")].made_by == ("b1", "b2")
        assert proofs[joint_proof_id("pipe-rear-1")].proven_by == "b4"
        assert proofs[AIR].proven_by == "b6"
        assert set(proofs[AIR].made_by) == {"b1", "b2", "b3", "b5"}
        assert proofs[SCREW].made_by == ()
        assert with_brakes(own_build(), CAR).proofs.keys() >= proofs.keys()

    def test_a_build_with_no_jobs_at_all_is_owed_them_too(self) -> None:
        """They stand on the proofs page, made by nobody yet."""
        proofs = brake_proofs(CAR, Build())
        assert proofs
        assert all(not p.made_by and p.proven_by is None and not p.gates for p in proofs)

    def test_a_port_with_an_odd_name_makes_a_name_that_can_be_kept(self) -> None:
        """The door takes only names that fit an address."""
        caliper = CAR.part("caliper-front-left")
        ports = tuple(
            type(p)("bleed #2/top", p.chamber, bleeds=True) if p.bleeds else p
            for p in caliper.ports
        )
        system = e.with_part(CAR, caliper.id, ports=ports)
        assert (
            "brake-screw.caliper-front-left-bleed-2-top"
            in with_brakes(network_build(), system).proofs
        )


class TestWhatSpendsWhat:
    """Undoing a joint, opening a screw."""

    def test_undoing_a_joint_spends_its_leak_proof_and_its_circuits_air_proof(self) -> None:
        """And nothing else."""
        assert joint_undone(CAR, "pipe-rear-left-1") == (JOINT, air_proof_id("master-floating"))

    def test_opening_a_screw_spends_its_own_leak_proof_and_the_air_proof(self) -> None:
        """No joint was touched."""
        assert screw_opened(CAR, "caliper-front-left-bleed") == (SCREW, AIR)

    def test_what_is_not_there_spends_nothing(self) -> None:
        """A slip of the name."""
        assert joint_undone(CAR, "nobody-0") == ()
        assert screw_opened(CAR, "nobody") == ()

    def test_only_what_was_held_is_spent(self) -> None:
        """What is owed stays owed."""
        build = with_brakes(network_build(), CAR)
        assert spent_by(build, (SCREW, AIR), "opened") == ()
        build = later(build, c.ProofHeld(SCREW), at=NOW + timedelta(hours=1))
        assert [each.proof_id for each in spent_by(build, (SCREW, AIR), "opened")] == [SCREW]

    def test_bleeding_spends_screws_and_air_and_leaves_every_joint(self) -> None:
        """Both bleeding jobs; no other job does."""
        build = with_brakes(network_build(), CAR)
        every = [key for key in build.proofs if key.startswith("brake-") and "." in key]
        build = later(build, *(c.ProofHeld(key) for key in every), at=NOW + timedelta(hours=1))
        for name in ("bleed-1", "bleed-2", "hold-night"):
            after = later(build, c.JobFinished(name), at=NOW + timedelta(hours=2))
            spent = {key for key in every if state_of(after, key) is ProofState.SPENT}
            if name == "hold-night":
                assert not spent
            else:
                assert {key.split(".")[0] for key in spent} == {"brake-screw", "brake-air"}
                assert len(spent) == 4 + 2

    def test_what_was_held_after_the_bleeding_is_not_spent_by_it(self) -> None:
        """Bleeding that is written down late."""
        build = with_brakes(network_build(), CAR)
        build = later(build, c.ProofHeld(AIR), at=NOW + timedelta(days=2))
        early = later(build, c.JobFinished("bleed-2"), at=NOW + timedelta(days=1))
        assert state_of(early, AIR) is ProofState.HELD
        late = later(build, c.JobFinished("bleed-2"), at=NOW + timedelta(days=3))
        assert state_of(late, AIR) is ProofState.SPENT

    def test_what_renews_them_does_not_spend_them(self) -> None:
        """In a network that measures no pedal, its last bleeding does."""
        proofs = {proof.id: proof for proof in brake_proofs(CAR, own_build())}
        assert proofs[SCREW].spent_by == ("b3", "b5")
        jobs = {key: each for key, each in own_build().jobs.items() if key != "b6"}
        without = {proof.id: proof for proof in brake_proofs(CAR, Build(jobs=jobs))}
        assert (without[SCREW].proven_by, without[SCREW].spent_by) == ("b5", ("b3",))

    def test_taking_a_maker_off_spends_the_joint_and_the_air(self) -> None:
        """The model sees to it by itself, since the proofs name the jobs that made the thing."""
        build = with_brakes(network_build(), CAR)
        air, at = air_proof_id("master-floating"), NOW + timedelta(hours=1)
        build = later(build, c.JobFinished("pipe-rear"), at=at)
        build = later(build, c.ProofHeld(JOINT), c.ProofHeld(air), c.ProofHeld(AIR), at=at)
        build = later(build, c.JobTakenOff("pipe-rear"), at=at + timedelta(hours=1))
        assert state_of(build, JOINT) is ProofState.SPENT
        assert state_of(build, air) is ProofState.SPENT
        assert state_of(build, AIR) is ProofState.HELD


class TestTheUsualOrder:
    """Hold overnight, bleed again, measure the pedal: every gate is reached."""

    @pytest.mark.parametrize("layout", Layout)
    @pytest.mark.parametrize("name", ["front-rear tandem", "two lines into one caliper"])
    def test_reaches_every_gate(self, name: str, layout: Layout) -> None:
        """Every job in order, each thing proved in its own job; every gate is gone through."""
        system = starter(name)
        build = walked(with_brakes(network_build(layout), system), system)
        assert all(record.passed for record in build.gates.values())
        ours = [key for key in build.proofs if key.startswith("brake-") and "." in key]
        assert {state_of(build, key) for key in ours} == {ProofState.HELD}

    def test_reaches_them_also_when_screws_were_proved_too_early(self) -> None:
        """Held in the short hold, spent by the second bleed, renewed by the pedal test."""
        begun = with_brakes(network_build(), CAR)
        early = (SCREW, AIR)
        before = walked(begun, CAR, early=early, after_hold="hold-short", until="bleed-2")
        assert state_of(before, SCREW) is ProofState.HELD
        between = walked(begun, CAR, early=early, after_hold="hold-short", until="pedal-measure")
        assert state_of(between, SCREW) is ProofState.SPENT
        assert state_of(between, AIR) is ProofState.SPENT
        assert state_of(between, JOINT) is ProofState.HELD
        assert AIR in gate_standings(between)["first-move"].proofs
        done = walked(begun, CAR, early=early, after_hold="hold-short")
        assert state_of(done, SCREW) is ProofState.HELD
        assert all(record.passed for record in done.gates.values())

    def test_nothing_moves_before_the_pedal_is_measured(self) -> None:
        """The first move waits for the air proof of each circuit."""
        build = walked(with_brakes(network_build(), CAR), CAR, until="pedal-measure")
        waiting = gate_standings(build)["first-move"].proofs
        assert {AIR, air_proof_id("master-floating"), SCREW} <= set(waiting)

    def test_a_joint_undone_after_it_all_is_asked_for_again(self) -> None:
        """Its own leak proof and its circuit's air, at the gates that rely on them."""
        build = walked(with_brakes(network_build(), CAR), CAR, until="move-gate")
        at = NOW + timedelta(days=400)
        spent = spent_by(build, joint_undone(CAR, "pipe-rear-left-1"), "undone for the handbrake")
        build = later(build, *spent, at=at)
        waiting = gate_standings(build)["first-move"].proofs
        assert {JOINT, air_proof_id("master-floating")} <= set(waiting)
        assert AIR not in waiting
