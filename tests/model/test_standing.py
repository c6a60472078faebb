"""How proofs, needs, temps and gates stand, and what the door refuses."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.errors import BadInput, BareshellError, NotFound, Refused
from bareshell.model import Build, Entry, decide, fold
from bareshell.model import changes as c
from bareshell.model.network import find_cycle, in_order, joined
from bareshell.model.part import GoodsIn, Holding, NeedState
from bareshell.model.proof import Proof, ProofState
from bareshell.model.standing import (
    gate_standings,
    need_standings,
    open_temps,
    proof_standings,
)
from bareshell.model.temp import Gate
from tests.stories import NOW, build_of, job, later, small_car, small_car_changes

HOUR = timedelta(hours=1)


def _state(build: Build) -> ProofState:
    return proof_standings(build, NOW)["rear-joint"].state


def test_a_finished_cover_over_an_owed_proof_leaves_it_covered_unproven() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    assert _state(build) is ProofState.COVERED


def test_writing_held_under_a_cover_proves_nothing() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    build = later(build, c.ProofHeld("rear-joint"), at=NOW + HOUR)
    assert _state(build) is ProofState.COVERED


def test_a_hold_of_friday_typed_on_sunday_counts_for_friday() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    build = later(build, c.ProofHeld("rear-joint"), at=NOW - HOUR)
    assert _state(build) is ProofState.HELD


def test_only_uncovering_or_a_named_substitute_closes_it() -> None:
    covered = later(small_car(), c.JobFinished("tank", 2))
    with pytest.raises(BadInput, match="a reason alone closes nothing"):
        decide(covered, c.ProofSubstituted("rear-joint", "  ", words="it looked fine"))
    named = later(
        covered, c.ProofSubstituted("rear-joint", "held 70 bar 12 h, gauge steady"), at=NOW + HOUR
    )
    assert _state(named) is ProofState.SUBSTITUTED
    off = later(covered, c.JobTakenOff("tank"), at=NOW + HOUR)
    assert _state(off) is ProofState.OWED
    held = later(off, c.ProofHeld("rear-joint"), at=NOW + 2 * HOUR)
    assert _state(held) is ProofState.HELD


def test_a_substitute_is_only_for_what_cannot_be_reached() -> None:
    with pytest.raises(Refused, match="not covered, unproven"):
        decide(small_car(), c.ProofSubstituted("rear-joint", "looked at"))


def test_undoing_the_joint_spends_its_proof_even_under_a_cover() -> None:
    held = later(small_car(), c.JobFinished("rear-pipe", 1), c.ProofHeld("rear-joint"))
    assert _state(held) is ProofState.HELD
    undone = later(held, c.JobTakenOff("rear-pipe"), at=NOW + HOUR)
    assert _state(undone) is ProofState.SPENT
    buried = later(held, c.JobFinished("tank", 2), at=NOW + HOUR)
    assert _state(buried) is ProofState.HELD
    spent = later(buried, c.ProofSpent("rear-joint"), at=NOW + 2 * HOUR)
    assert _state(spent) is ProofState.COVERED


def test_two_covers_hide_until_both_are_off() -> None:
    changes = [
        *small_car_changes(),
        c.JobSet(job("shield", "tank")),
        c.ProofSet(Proof("q", "Seen", made_by=("rear-pipe",), covered_by=("tank", "shield"))),
    ]
    build = later(build_of(changes), c.JobFinished("tank", 1), c.JobFinished("shield", 1))
    one_off = later(build, c.JobTakenOff("shield"), at=NOW + HOUR)
    assert proof_standings(one_off)["q"].state is ProofState.COVERED
    both_off = later(one_off, c.JobTakenOff("tank"), at=NOW + HOUR)
    assert proof_standings(both_off)["q"].state is ProofState.OWED


def test_a_cover_that_goes_back_on_hides_it_again() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    build = later(build, c.ProofUncovered("rear-joint", "straps dropped"), at=NOW + HOUR)
    assert _state(build) is ProofState.OWED
    build = later(build, c.JobFinished("tank", 0.5), at=NOW + 2 * HOUR)
    assert _state(build) is ProofState.COVERED


def test_a_proof_older_than_it_stays_good_is_spent() -> None:
    changes = [c.JobSet(job("a")), c.ProofSet(Proof("p", "Fluid", made_by=("a",), valid_days=30))]
    build = later(build_of(changes), c.ProofHeld("p"))
    assert proof_standings(build, NOW + timedelta(days=30))["p"].state is ProofState.HELD
    assert proof_standings(build, NOW + timedelta(days=31))["p"].state is ProofState.SPENT


def _bled() -> Build:
    """A circuit that a test found free of air, and the job that bleeds it again."""
    air = Proof("air", "No air", made_by=("pipe",), proven_by="test", spent_by=("bleed",))
    jobs = [c.JobSet(job(key)) for key in ("pipe", "bleed", "test")]
    return later(build_of([*jobs, c.ProofSet(air)]), c.ProofHeld("air"))


@pytest.mark.parametrize("work", [c.JobWorked("bleed", 0.5), c.JobFinished("bleed", 1)])
def test_work_that_spends_a_proof_spends_it_and_the_next_test_renews_it(work: c.Change) -> None:
    build = later(_bled(), work, at=NOW + HOUR)
    assert proof_standings(build)["air"].state is ProofState.SPENT
    assert proof_standings(build)["air"].words.endswith("done since")
    build = later(build, c.ProofHeld("air"), at=NOW + 2 * HOUR)
    assert proof_standings(build)["air"].state is ProofState.HELD


def test_work_written_down_late_spends_nothing_that_was_held_after_it() -> None:
    build = later(_bled(), c.JobFinished("bleed", 1), at=NOW - HOUR)
    assert proof_standings(build)["air"].state is ProofState.HELD


def test_a_job_that_was_begun_or_done_before_the_record_spends_nothing() -> None:
    build = later(_bled(), c.JobStarted("bleed"), at=NOW + HOUR)
    assert proof_standings(build)["air"].state is ProofState.HELD


def test_a_proof_that_nothing_is_left_to_show_is_dropped() -> None:
    build = later(_bled(), c.ProofDropped("air", "the pipe is gone"))
    assert "air" not in build.proofs
    with pytest.raises(NotFound):
        decide(build, c.ProofHeld("air"))


def test_starting_a_cover_over_an_owed_proof_is_refused_and_finishing_it_recorded() -> None:
    with pytest.raises(Refused, match="proof before cover"):
        decide(small_car(), c.JobStarted("tank"))
    decide(small_car(), c.JobFinished("tank", 2))


def test_a_gate_blocks_only_what_it_names() -> None:
    build = later(small_car(), c.JobFinished("hold", 1), c.ProofHeld("rear-joint"))
    with pytest.raises(Refused, match="gate"):
        decide(build, c.JobStarted("tank"))
    decide(build, c.JobStarted("carb"))
    passed = later(build, c.GatePassed("under-car", "the owner"))
    decide(passed, c.JobStarted("tank"))


def test_no_gate_is_passed_with_something_before_it_and_all_of_it_is_named() -> None:
    with pytest.raises(Refused) as refusal:
        decide(small_car(), c.GatePassed("under-car", "the owner"))
    said = refusal.value.describe()
    assert "Hold" in said
    assert "Rear tee dry under pressure" in said


def test_a_covered_joint_stands_at_its_own_gate_and_at_every_later_one() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    gates = gate_standings(build)
    assert gates["under-car"].proofs == ("rear-joint",)
    assert gates["road"].proofs == ("rear-joint",)


def test_a_passed_gate_still_names_a_joint_that_was_spent_under_its_cover() -> None:
    build = later(
        small_car(), c.JobFinished("hold", 1), c.ProofHeld("rear-joint"),
        c.GatePassed("under-car", "the owner"), c.JobFinished("tank", 2),
    )  # fmt: skip
    build = later(build, c.ProofSpent("rear-joint"), at=NOW + HOUR)
    assert gate_standings(build)["road"].proofs == ("rear-joint",)


def test_a_joint_undone_after_its_gate_stands_at_every_later_gate() -> None:
    """Nobody comes back to a gate that lies behind: the road gate must name it."""
    build = later(
        small_car(), c.JobFinished("hold", 1), c.ProofHeld("rear-joint"),
        c.GatePassed("under-car", "the owner"),
    )  # fmt: skip
    assert gate_standings(build)["road"].proofs == ()
    build = later(build, c.ProofSpent("rear-joint"), at=NOW + HOUR)
    assert gate_standings(build)["road"].proofs == ("rear-joint",)


def test_a_proof_of_a_job_that_was_not_done_after_all_is_spent() -> None:
    build = later(small_car(), c.JobDoneBefore("rear-pipe"), c.ProofHeld("rear-joint"))
    assert _state(build) is ProofState.HELD
    build = later(build, c.JobNotDone("rear-pipe"), at=NOW + HOUR)
    build = later(build, c.JobFinished("rear-pipe", 1), at=NOW + 2 * HOUR)
    assert _state(build) is ProofState.SPENT


def _with(build: Build, **corrected: object) -> c.ProofSet:
    return c.ProofSet(replace(build.proofs["rear-joint"].proof, **corrected))  # type: ignore[arg-type]


def test_correcting_what_a_proof_asks_for_closes_nothing() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    build = later(build, c.ProofHeld("rear-joint"), at=NOW + HOUR)
    for change, said in (
        (_with(build, covered_by=()), "alone would call it held"),
        (_with(build, gates=("road",)), "the gate 'under-car' asks for it"),
        (c.ProofDropped("rear-joint"), "cannot simply be asked for no more"),
        (c.GateSet(replace(build.gates["road"].gate, after=())), "would no longer name"),
    ):
        with pytest.raises(Refused, match=said) as refusal:
            decide(build, change)
        assert "ncover it, or give it a named substitute proof" in refusal.value.describe()
    decide(build, _with(build, title="Rear tee and union dry under pressure"))
    named = later(build, c.ProofSubstituted("rear-joint", "gauge steady"), at=NOW + 2 * HOUR)
    decide(named, _with(named, gates=("road",)))


def test_correcting_what_spends_a_proof_does_not_make_it_held_again() -> None:
    build = later(small_car(), _with(small_car(), spent_by=("carb",)), c.ProofHeld("rear-joint"))
    build = later(build, c.JobFinished("carb", 1), at=NOW + HOUR)
    with pytest.raises(Refused, match="alone would call it held"):
        decide(build, _with(build, spent_by=()))
    again = later(build, c.ProofHeld("rear-joint"), at=NOW + 2 * HOUR)
    decide(again, _with(again, spent_by=()))


def test_a_proof_too_old_lets_nothing_past_its_gate_and_under_no_cover() -> None:
    build = later(
        small_car(), _with(small_car(), valid_days=30), c.JobFinished("hold", 1),
        c.ProofHeld("rear-joint"),
    )  # fmt: skip
    passing, after = c.GatePassed("under-car", "the owner"), NOW + timedelta(days=31)
    decide(build, passing, NOW + timedelta(days=29))
    with pytest.raises(Refused, match="rear tee: Rear tee dry"):
        decide(build, passing, after)
    with pytest.raises(Refused, match="is spent"):
        decide(later(build, passing), c.JobStarted("tank"), after)


def test_what_is_left_out_owes_nothing_to_its_gate_or_its_cover() -> None:
    build = build_of(
        (
            c.JobSet(job("joint")),
            c.JobSet(job("tank")),
            c.GateSet(Gate("road", "Road")),
            c.ProofSet(
                Proof("dry", "Dry", made_by=("joint",), covered_by=("tank",), gates=("road",))
            ),
        )
    )
    assert gate_standings(build)["road"].proofs == ("dry",)
    out = later(build, c.JobLeftOut("joint"))
    assert gate_standings(out)["road"].is_clear
    decide(out, c.JobStarted("tank"))
    # What was begun before it was left out may be on the car.
    begun = later(build, c.JobStarted("joint"), c.JobLeftOut("joint"))
    assert gate_standings(begun)["road"].proofs == ("dry",)
    with pytest.raises(Refused, match="would hide an unproven joint"):
        decide(begun, c.JobStarted("tank"))


def test_temps_come_and_go_with_their_jobs() -> None:
    build = later(small_car(), c.JobFinished("rear-pipe", 1))
    assert open_temps(build) == ("caps",)
    assert gate_standings(build)["road"].temps == ("caps",)
    gone = later(build, c.JobFinished("rear-hose", 1), at=NOW + HOUR)
    assert open_temps(gone) == ()
    raised = later(gone, c.TempRaised("caps", "cap back on"), at=NOW + 2 * HOUR)
    assert open_temps(raised) == ("caps",)
    cleared = later(raised, c.TempCleared("caps"), at=NOW + 3 * HOUR)
    assert open_temps(cleared) == ()


def test_needs_go_from_not_known_through_not_here_to_here() -> None:
    build = small_car()
    assert need_standings(build)["nuts"].state is NeedState.NOT_KNOWN
    assert need_standings(build)["hose"].state is NeedState.COMING
    some = later(build, c.HoldingSet(Holding("h", "nuts", 3, need="nuts")))
    assert need_standings(some)["nuts"].state is NeedState.SOME_HERE
    all_here = later(some, c.HoldingSet(Holding("h", "nuts", 4, need="nuts")))
    assert need_standings(all_here)["nuts"].state is NeedState.HERE
    used = later(all_here, c.JobFinished("rear-pipe", 1))
    assert need_standings(used)["nuts"].state is NeedState.USED


@pytest.mark.parametrize(
    ("outcome", "state"),
    [
        (GoodsIn.RIGHT, NeedState.HERE),
        (GoodsIn.UNLIKE, NeedState.HERE),
        (GoodsIn.WRONG, NeedState.WRONG),
        (GoodsIn.DAMAGED, NeedState.WRONG),
    ],
)
def test_each_outcome_of_goods_in(outcome: GoodsIn, state: NeedState) -> None:
    build = later(small_car(), c.GoodsChecked("o1", outcome, 1))
    assert need_standings(build)["hose"].state is state


def test_a_cycle_is_refused_with_the_jobs_named() -> None:
    with pytest.raises(BadInput, match=r"Rear pipe -> .*Rear pipe"):
        decide(small_car(), c.JobSet(job("rear-pipe", "hold")))


def test_an_unknown_predecessor_is_refused() -> None:
    with pytest.raises(BadInput, match="there is no job 'wings'"):
        decide(small_car(), c.JobSet(job("x", "wings")))


def test_a_proof_beneath_the_job_that_proves_it_is_refused() -> None:
    with pytest.raises(ValueError, match="covered by hold"):
        Proof("p", "x", made_by=("rear-pipe",), proven_by="hold", covered_by=("hold",))
    with pytest.raises(BadInput, match="must be done before"):
        decide(
            small_car(),
            c.ProofSet(
                Proof("p", "x", made_by=("rear-pipe",), proven_by="tank", covered_by=("hold",))
            ),
        )


def test_gates_cannot_wait_for_each_other() -> None:
    with pytest.raises(BadInput, match="wait for each other"):
        decide(small_car(), c.GateSet(Gate("under-car", "under-car", ("road",))))


def test_what_is_not_there_is_named() -> None:
    with pytest.raises(NotFound, match="wings"):
        decide(small_car(), c.JobFinished("wings", 1))


def test_hours_no_clock_can_show_are_refused() -> None:
    with pytest.raises(BadInput, match="not a number of hours"):
        decide(small_car(), c.JobFinished("hold", -1))


def test_an_hour_remembered_later_adds_to_a_done_job_and_work_left_reopens_it() -> None:
    done = later(small_car(), c.JobFinished("carb", 2))
    more = later(done, c.JobWorked("carb", 0.5), at=NOW + HOUR)
    assert more.jobs["carb"].state.is_done
    assert more.jobs["carb"].state.hours_done == 2.5
    reopened = later(done, c.JobWorked("carb", 0.5, hours_left=1), at=NOW + HOUR)
    assert reopened.jobs["carb"].state.is_open


def test_leaving_a_job_out_joins_what_was_before_to_what_comes_after() -> None:
    assert joined({"a": (), "b": ("a",), "c": ("b",), "d": ("c",)}, {"b", "c"}) == {
        "a": (),
        "d": ("a",),
    }


_IDS = [f"n{i}" for i in range(8)]
_NETWORKS = st.fixed_dictionaries(
    {
        key: st.lists(st.sampled_from(_IDS[:i] or ["none"]), max_size=4, unique=True).map(tuple)
        for i, key in enumerate(_IDS)
    }
)


@given(_NETWORKS, st.sets(st.sampled_from(_IDS)))
def test_joining_keeps_who_comes_before_whom(
    after: dict[str, tuple[str, ...]], gone: set[str]
) -> None:
    kept = joined(after, gone)
    assert not find_cycle(kept)
    for key in kept:
        assert _before(kept, key) == _before(after, key) - gone - {"none"}
    order = in_order(kept)
    assert all(order.index(b) < order.index(k) for k in kept for b in kept[k])


def _before(after: dict[str, tuple[str, ...]], key: str) -> set[str]:
    found: set[str] = set()
    stack = list(after.get(key, ()))
    while stack:
        one = stack.pop()
        if one not in found:
            found.add(one)
            stack.extend(after.get(one, ()))
    return found


_ACTIONS = st.lists(
    st.tuples(
        st.integers(0, 40),
        st.sampled_from(
            [
                c.ProofBegun("rear-joint"),
                c.ProofHeld("rear-joint"),
                c.ProofFailed("rear-joint"),
                c.ProofSpent("rear-joint"),
                c.ProofUncovered("rear-joint"),
                c.ProofSubstituted("rear-joint", "gauge steady 12 h"),
                c.JobFinished("tank", 1.0),
                c.JobTakenOff("tank"),
                c.JobFinished("rear-pipe", 1.0),
                c.JobTakenOff("rear-pipe"),
                c.JobDoneBefore("tank"),
                c.JobNotDone("tank"),
                c.GatePassed("under-car", "owner"),
            ]
        ),
    ),
    max_size=14,
)


@settings(max_examples=300, deadline=None)
@given(_ACTIONS)
def test_no_sequence_of_actions_shows_a_buried_unproven_joint_as_held(
    actions: list[tuple[int, c.Change]],
) -> None:
    """A joint shown as held was held while it could be seen, and nothing spent it since."""
    build = small_car()
    for hours, change in actions:
        try:
            decide(build, change)
        except BareshellError:
            continue
        at = NOW + hours * HOUR
        seq = build.seq + 1
        build = fold([Entry(seq, f"e{seq}", at, at, "owner", change)], build)
    standing = proof_standings(build)["rear-joint"]
    events = [(e.at, e.seq, str(e.kind)) for e in build.proofs["rear-joint"].events] + [
        (e.at, e.seq, f"{name}:{e.kind}")
        for name in ("tank", "rear-pipe")
        for e in build.jobs[name].events
    ]
    visible, good = True, False
    for _at, _seq, what in sorted(events):
        if what in {"tank:finished", "tank:done before the record"}:
            visible = False
        elif what in {"tank:taken off again", "tank:not done after all", "uncovered"}:
            visible = True
        elif what == "held" and visible:
            good = True
        elif what in {"spent", "failed", "rear-pipe:taken off again"} or (
            what == "begun" and visible
        ):
            good = False
    if standing.state is ProofState.HELD:
        assert good
    if standing.hidden and not good:
        assert standing.state in {
            ProofState.COVERED,
            ProofState.SUBSTITUTED,
            ProofState.FAILED,
        }
        if standing.state is not ProofState.SUBSTITUTED:
            assert "rear-joint" in gate_standings(build)["road"].proofs
