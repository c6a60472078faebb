"""The few jobs worth a tap, and what a tap changes."""

from __future__ import annotations

from collections.abc import Collection

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.errors import BadInput, NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import Job, JobStatus
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.trade.frontier import MOST_SHOWN, corrections, frontier
from bareshell.trade.network import implied_by
from tests.stories import later
from tests.trade.checks import AT, BARE, FAR, begun, done_in


def tapped(build: Build, done: Collection[str] = (), not_done: Collection[str] = ()) -> Build:
    return later(build, *corrections(build, done, not_done))


@pytest.fixture(scope="module")
def bare() -> Build:
    return begun(BARE)


@pytest.fixture(scope="module")
def far() -> Build:
    return begun(FAR)


def test_at_most_twenty_five_are_shown_and_no_gate(bare: Build, far: Build) -> None:
    for build in (bare, far):
        shown = frontier(build)
        assert len(shown) == len(set(shown)) == MOST_SHOWN == 25
        assert not [key for key in shown if build.jobs[key].job.gate]
    assert len(frontier(bare, most=3)) == 3


def test_what_everything_was_inferred_from_comes_first(far: Build) -> None:
    shown = frontier(far)
    assert set(shown[:5]) == {
        "engine-install-fwd",
        "windscreen",
        "rear-screen",
        "bleed-1",
        "on-wheels",
    }
    # Rear axle and springs are on, and nobody said whether it was coated beneath first.
    assert "underbody-coat" in shown[5:8]


def test_what_could_be_next_is_shown_for_a_bare_shell(bare: Build) -> None:
    assert {"shell-mount", "rec-open", "parts-count", "paint-harden", "drains"} <= set(
        frontier(bare)
    )
    assert not {"windscreen", "first-start", "bleed-1"} & set(frontier(bare))


def test_a_job_that_is_done_brings_what_must_be_done_before_it(bare: Build) -> None:
    build = tapped(bare, done={"underbody-coat"})
    assert done_in(build) == done_in(bare) | {"underbody-coat"} | implied_by()["underbody-coat"]
    assert "seams" in done_in(build)
    seams = proof_standings(build, AT)["seams"]
    assert seams.state is ProofState.COVERED


def test_a_job_that_is_not_done_takes_back_what_was_inferred_from_it(far: Build) -> None:
    build = tapped(far, not_done={"caliper-fit"})
    gone = done_in(far) - done_in(build)
    assert {"caliper-fit", "front-hoses", "brake-fill", "bleed-1"} <= gone
    assert {"uprights", "on-wheels", "engine-install-fwd", "pipe-bay"} <= done_in(build)


def test_what_was_finished_in_the_record_is_left_alone(far: Build) -> None:
    build = later(far, c.JobNotDone("bleed-1"), c.JobFinished("bleed-1"))
    after = tapped(build, not_done={"brake-fill"})
    assert after.jobs["bleed-1"].state.status is JobStatus.DONE
    with pytest.raises(BadInput, match="finished in the record"):
        corrections(after, not_done={"bleed-1"})


def test_taps_that_contradict_each_other_are_refused_together(far: Build) -> None:
    with pytest.raises(BadInput) as refused:
        corrections(far, done={"bleed-1", "toe"}, not_done={"mc-fit", "toe"})
    assert len(refused.value.problems) == 2
    with pytest.raises(NotFound):
        corrections(far, done={"no-such-job"})


def test_a_cover_that_went_on_first_hides_again_once_the_thing_was_made_before() -> None:
    build = begun({**BARE, "engine": "in"})
    assert build.proofs["pipe-bay.held"].proof.covered_by == ()
    then = tapped(build, done={"pipe-bay"})
    assert then.proofs["pipe-bay.held"].proof.covered_by == ("engine-install-rwd",)
    assert proof_standings(then, AT)["pipe-bay.held"].state is ProofState.COVERED
    back = tapped(then, not_done={"pipe-bay"})
    assert back.proofs["pipe-bay.held"].proof.covered_by == ()
    assert proof_standings(back, AT)["pipe-bay.held"].state is ProofState.OWED


def test_a_job_the_owner_added_is_judged_by_its_own_predecessors(bare: Build) -> None:
    build = later(
        bare, c.JobSet(Job("roof-rack", "Fit the roof rack", "body fittings", ("damp-roof",)))
    )
    after = tapped(build, done={"roof-rack"})
    assert {"roof-rack", "damp-roof", "paint-harden"} <= done_in(after)


def test_tapping_what_stands_so_already_changes_nothing(far: Build) -> None:
    assert corrections(far, done={"on-wheels"}, not_done={"toe"}) == ()


@settings(max_examples=15)
@given(st.data())
def test_after_any_taps_nothing_is_done_without_what_it_cannot_be_without(
    data: st.DataObject,
) -> None:
    build = _FAR_OR_BARE[data.draw(st.sampled_from(["far", "bare"]))]
    for _ in range(2):
        shown = frontier(build)
        ticks = data.draw(st.lists(st.sampled_from(shown), max_size=6, unique=True))
        done = {key for key in ticks if not build.jobs[key].state.is_done}
        not_done = {key for key in ticks if build.jobs[key].state.is_done}
        try:
            changes = corrections(build, done, not_done)
        except BadInput:
            continue  # the taps contradict each other; nothing changes
        build = later(build, *changes)
        for key in ticks:
            assert build.jobs[key].state.is_done == (key in done)
        now_done = done_in(build)
        for key in now_done:
            assert implied_by()[key] & build.jobs.keys() <= now_done
        assert not [key for key, s in proof_standings(build).items() if s.state.is_good]


_FAR_OR_BARE = {"far": begun(FAR), "bare": begun(BARE)}
