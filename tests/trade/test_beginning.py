"""From the answers to a first build: what is inferred, and above all what is not."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.job import JobStatus
from bareshell.model.proof import ProofState
from bareshell.model.standing import gate_standings, proof_standings, standing_of_proof
from bareshell.model.temp import Gate
from bareshell.trade.answers import Answers
from bareshell.trade.beginning import first_changes
from bareshell.trade.network import implied_by, rows
from bareshell.trade.questions import QUESTIONS
from bareshell.trade.row import FORCED_INDUCTION
from tests.trade.checks import AT, BARE, FAR, begun, done_in


@pytest.fixture(scope="module")
def bare() -> Build:
    return begun(BARE)


@pytest.fixture(scope="module")
def far() -> Build:
    return begun(FAR)


def test_a_first_build_has_everything_it_needs_to_be_planned(bare: Build) -> None:
    assert bare.car is not None
    assert (bare.car.name, bare.car.layout, bare.car.zone) == (
        "the bare shell",
        Layout.REAR,
        "Europe/London",
    )
    assert len(bare.jobs) == 238
    assert len(bare.gates) == 10
    assert len(bare.proofs) > 150
    assert len(bare.needs) > 250
    assert bare.temps
    assert bare.moves
    assert bare.placement is not None


def test_a_bare_shell_says_next_to_nothing(bare: Build) -> None:
    assert done_in(bare) == {"shell-mount"}


def test_from_not_sure_nothing_is_inferred() -> None:
    assert done_in(begun({"name": "it", "layout": "front"})) == set()


def test_nothing_is_ever_proven_by_an_answer(far: Build) -> None:
    good = {key for key, s in proof_standings(far, AT).items() if s.state.is_good}
    assert good == set()
    assert not [key for key, s in gate_standings(far).items() if s.passed]


def test_what_is_inferred_is_done_before_the_record_and_closed_downwards(far: Build) -> None:
    done = done_in(far)
    assert {far.jobs[j].state.status for j in done} == {JobStatus.DONE_BEFORE}
    for job in done:
        assert implied_by()[job] & far.jobs.keys() <= done
    assert {"uprights", "engine-short", "pipe-bay", "headlining", "rear-hubs-fwd"} <= done
    assert not done & {"parts-count", "under-gate", "bay-gate", "hold-night", "loom-test", "toe"}


def test_joints_beneath_an_old_cover_are_covered_and_unproven(far: Build) -> None:
    standings = proof_standings(far, AT)
    assert standings["pipe-bay.held"].state is ProofState.COVERED
    assert standings["pipe-bay.held"].hidden
    # Nothing lies over the rear pipes yet: they are owed, and can still be shown.
    assert standings["pipe-rear.held"].state is ProofState.OWED
    assert "pipe-bay.held" in gate_standings(far)["road"].proofs


def test_what_is_made_with_the_engine_in_is_not_hidden_by_it() -> None:
    build = begun({**BARE, "engine": "in"})
    assert "pipe-bay" not in done_in(build)
    assert build.proofs["pipe-bay.held"].proof.covered_by == ()
    # The bay was never proved, and an engine need not come out for a cylinder to go in.
    assert not build.jobs["mc-fit"].job.off_is_necessary


def test_a_system_left_out_is_not_in_the_first_build() -> None:
    build = begun({**FAR, "systems": "brakes, suspension, steering, wheels"})
    assert {r.job.system for r in build.jobs.values()} == {
        "brakes",
        "suspension",
        "steering",
        "wheels",
        "commissioning",
        "paperwork",
    }
    assert build.car is not None
    assert build.car.options == frozenset()


def test_a_blower_brings_its_jobs() -> None:
    build = begun({**BARE, "systems": ", ".join((*OPTIONAL_SYSTEMS, FORCED_INDUCTION))})
    assert {"fi-bench", "fi-fit", "fi-hold"} <= build.jobs.keys()


def test_jobs_enter_before_what_speaks_of_them() -> None:
    kinds = [type(change) for change in first_changes(Answers("it", Layout.REAR), AT, "UTC")]
    order = (c.JobSet, c.GateSet, c.ProofSet, c.TempSet, c.NeedSet)
    places = [kinds.index(kind) for kind in order]
    assert places == sorted(places)
    assert kinds[0] is c.CarDescribed


_CHOICES = {
    q.id: st.sampled_from(["", *(choice.value for choice in q.choices)])
    for q in QUESTIONS
    if q.kind == "one" and q.id != "layout"
}


@settings(max_examples=12)
@given(
    st.fixed_dictionaries(_CHOICES),
    st.sampled_from(["front", "rear"]),
    st.sets(st.sampled_from(OPTIONAL_SYSTEMS)),
)
def test_every_set_of_answers_makes_a_build_that_is_decided_in_full(
    said: dict[str, str], layout: str, systems: set[str]
) -> None:
    build = begun({**said, "name": "it", "layout": layout, "systems": ", ".join(systems)})
    done = done_in(build)
    for job in done:
        assert implied_by()[job] & build.jobs.keys() <= done
        assert rows()[job].gate is None
    for record in build.proofs.values():
        assert not standing_of_proof(build, record).state.is_good
    assert all(isinstance(record.gate, Gate) for record in build.gates.values())
