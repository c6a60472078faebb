"""Odd garages: what stands in the way is named, and the rest is planned all the same."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.errors import BadInput
from bareshell.plan.problem import Arrival, Change, Gate, Link, PlanProblem, Proof
from bareshell.plan.ready import ready
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource
from bareshell.plan.validate import Snag, prepare, validate
from tests.plan.garages import CHANGES, DAY, bare, evenings, garage, hours, job


def only(problem: PlanProblem, rule: str) -> Snag:
    found = [snag for snag in validate(problem) if snag.rule == rule]
    assert len(found) == 1, [snag.rule for snag in validate(problem)]
    assert found[0].sentence.endswith(".")
    assert found[0].remedy.endswith(".")
    return found[0]


def planned_ids(problem: PlanProblem) -> list[str]:
    return [one.id for one in prepare(problem).problem.jobs]


def test_a_sound_garage_has_no_snags() -> None:
    assert validate(bare(job("a"), job("b", 1.0, "a"))) == ()


def test_no_sessions_at_all() -> None:
    snag = only(bare(job("a"), sessions=SessionSource()), "no sessions")
    assert snag.effect == "set aside"
    assert snag.job_ids == ("a",)
    assert "no garage session" in snag.sentence


def test_a_circle_is_named_round_and_what_follows_is_held_up() -> None:
    problem = bare(
        job("a", 1.0, "c"), job("b", 1.0, "a"), job("c", 1.0, "b"), job("d", 1.0, "c"), job("e")
    )
    snag = only(problem, "circle")
    assert set(snag.job_ids) == {"a", "b", "c"}
    assert snag.held_up_ids == ("d",)
    assert "'Job a' before 'Job b' before 'Job c' before 'Job a'" in snag.sentence.replace(
        "'Job b' before 'Job c' before 'Job a' before 'Job b'",
        "'Job a' before 'Job b' before 'Job c' before 'Job a'",
    ).replace(
        "'Job c' before 'Job a' before 'Job b' before 'Job c'",
        "'Job a' before 'Job b' before 'Job c' before 'Job a'",
    )
    assert planned_ids(problem) == ["e"]


def test_a_circle_through_a_gate_and_a_proof_is_found_too() -> None:
    problem = bare(
        job("a"),
        job("b", 1.0, proofs_before=("p",)),
        gates=(Gate("g", "cabin", needs_jobs=("b",), blocks=("a",)),),
        proofs=(Proof("p", "dry floor", ("a",)),),
    )
    assert "the cabin gate" in only(problem, "circle").sentence
    assert planned_ids(problem) == []


def test_an_unknown_predecessor() -> None:
    problem = bare(job("a", 1.0, "ghost"), job("b", 1.0, "a"), job("c"))
    snag = only(problem, "unknown job")
    assert "'Job a' comes after 'ghost'" in snag.sentence
    assert (snag.job_ids, snag.held_up_ids) == (("a",), ("b",))
    assert planned_ids(problem) == ["c"]


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"gates_before": ("nowhere",)}, "unknown gate"),
        ({"proofs_before": ("nothing",)}, "unknown proof"),
    ],
)
def test_unknown_gates_and_proofs(changes: dict[str, tuple[str, ...]], rule: str) -> None:
    problem = bare(job("a", 1.0, **changes), job("b"))
    assert only(problem, rule).job_ids == ("a",)
    assert planned_ids(problem) == ["b"]


def test_a_proof_that_no_job_left_would_prove() -> None:
    problem = bare(job("carpet", 1.0, proofs_before=("dry",)), proofs=(Proof("dry", "dry floor"),))
    assert "no job is left that would prove it" in only(problem, "proof").sentence


def test_a_part_nobody_knows_when_it_comes() -> None:
    problem = bare(
        job("a", 1.0, parts_to_start=("x",)),
        job("b", 1.0, parts_to_finish=("x",)),
        job("c"),
        arrivals=(Arrival("x", "tank straps"),),
    )
    snag = only(problem, "part")
    assert "Nobody knows when tank straps comes" in snag.sentence
    assert snag.job_ids == ("a", "b")
    assert planned_ids(problem) == ["c"]


def test_a_part_that_no_list_has() -> None:
    assert only(bare(job("a", parts_to_start=("y",))), "part").job_ids == ("a",)


def test_a_part_not_ordered_but_with_a_known_delay_is_planned() -> None:
    problem = bare(
        job("a", parts_to_start=("x",)), arrivals=(Arrival("x", "x", lead_minutes=9 * DAY),)
    )
    assert validate(problem) == ()


def test_a_part_that_nobody_recorded_blocks_nothing_and_is_mentioned() -> None:
    problem = bare(
        job("a", parts_to_start=("x",)), arrivals=(Arrival("x", "tank straps", known=False),)
    )
    snag = only(problem, "part not known")
    assert snag.effect == "note"
    assert planned_ids(problem) == ["a"]
    assert prepare(problem).problem.jobs[0].parts_to_start == ()


def test_two_people_and_never_a_helper() -> None:
    problem = bare(
        job("a", ways=(hours(1.0, people=2),)),
        job("b", ways=(hours(2.0), hours(1.0, people=2))),
        sessions=evenings(helper_every=0),
    )
    assert only(problem, "helper").job_ids == ("a",)
    assert planned_ids(problem) == ["b"]


def test_a_helper_promised_once_is_planned_as_if_he_came_again() -> None:
    once = evenings(helper_every=0)
    first = replace(once.slots[0], people=2)
    problem = bare(
        job("a", ways=(hours(1.0, people=2),)),
        sessions=replace(once, slots=(first, *once.slots[1:])),
    )
    assert only(problem, "rare session").effect == "planned as if"
    assert planned_ids(problem) == ["a"]


def test_a_support_nobody_can_reach() -> None:
    problem = bare(
        job("a", supports=frozenset({"lift"})),
        job("b"),
        changes=(Change("stands", "wheels", 30),),
    )
    assert "cannot be put on lift from stands" in only(problem, "support").sentence
    assert planned_ids(problem) == ["b"]
    called = replace(problem, support_titles=(("lift", "Scissor lift"), ("stands", "Tall stands")))
    snag = only(called, "support")
    assert "cannot be put on 'Scissor lift' from 'Tall stands' within one session" in snag.sentence
    assert "from 'Tall stands' to 'Scissor lift'" in snag.remedy


def test_a_change_longer_than_any_session_reaches_nothing() -> None:
    problem = bare(job("a", supports=frozenset({"lift"})), changes=(Change("stands", "lift", 999),))
    assert only(problem, "support").job_ids == ("a",)


def test_a_way_there_without_a_way_back_is_no_trap() -> None:
    problem = bare(
        job("a", supports=frozenset({"wheels"})),
        job("b", 1.0, "a", supports=frozenset({"stands"})),
        changes=(Change("stands", "wheels", 30),),
    )
    assert only(problem, "no way back").effect == "planned as if"
    assert ready(problem, seed=1, engine="plain").prepared.set_aside == frozenset()


def test_nobody_said_how_the_car_stands() -> None:
    problem = bare(job("a", supports=frozenset({"lift"})), support="")
    assert only(problem, "support not known").effect == "planned as if"
    assert planned_ids(problem) == ["a"]


def test_a_temperature_that_never_comes_and_one_that_does_not_last() -> None:
    problem = bare(
        job("hot", min_temperature_c=40.0),
        job("mild", min_temperature_c=19.0),
        job("cures", min_temperature_c=20.0, cure_minutes=2 * DAY),
        sessions=evenings(),
    )
    snags = [snag for snag in validate(problem) if snag.rule == "temperature"]
    assert [snag.job_ids for snag in snags] == [("hot",), ("cures",)]
    assert "through its cure" in snags[1].sentence
    assert planned_ids(problem) == ["mild"]


def test_warm_days_and_helper_days_that_never_meet() -> None:
    slots = [
        SessionSlot(DAY, 150, people=2, temperature_c=5.0),
        SessionSlot(2 * DAY, 150, temperature_c=20.0),
    ]
    problem = bare(
        job("a", ways=(hours(1.0, people=2),), min_temperature_c=15.0),
        sessions=SessionSource.repeating(slots),
    )
    assert "never comes when it is so warm" in only(problem, "helper").sentence


def test_unknown_temperatures_are_mentioned_and_block_nothing() -> None:
    problem = bare(job("a", min_temperature_c=10.0))
    assert only(problem, "temperature not known").effect == "note"
    assert planned_ids(problem) == ["a"]


def test_a_job_too_long_for_any_session_is_planned_in_pieces() -> None:
    problem = bare(job("a", 9.0))
    assert only(problem, "too long").effect == "planned as if"
    plannable = prepare(problem).problem.jobs[0]
    assert plannable.splittable
    assert plannable.least_piece_minutes == 330


def test_sessions_that_stop_are_planned_as_if_they_went_on() -> None:
    problem = bare(job("a", 9.0, splittable=True), sessions=SessionSource((SessionSlot(DAY, 150),)))
    assert only(problem, "sessions end").effect == "planned as if"
    assert ready(problem, seed=1, engine="plain").prepared.set_aside == frozenset()


def test_what_no_single_rule_forbids_but_no_session_suits_is_set_aside() -> None:
    """Warm enough only in short sessions, long enough only in cold ones."""
    slots = [
        SessionSlot(DAY, 90, temperature_c=20.0),
        SessionSlot(2 * DAY, 400, temperature_c=2.0, lowest_until_next_c=2.0),
    ]
    problem = bare(
        job("a", 4.0, min_temperature_c=10.0, splittable=True, least_piece_minutes=30,
            cure_minutes=DAY),
        job("b", 1.0, "a"),
        job("c"),
        sessions=SessionSource.repeating(slots),
    )  # fmt: skip
    made = ready(problem, seed=1, engine="plain")
    assert made.prepared.set_aside == {"a", "b"}
    assert [one.id for one in made.problem.jobs] == ["c"]


def test_a_goal_that_is_set_aside_leaves_the_rest_as_the_goal() -> None:
    problem = bare(job("a", 1.0, "ghost"), job("b"), goal=("a",))
    assert prepare(problem).problem.goal == ("b",)


@pytest.mark.parametrize("seed", range(12))
def test_random_garages_come_out_plannable(seed: int) -> None:
    made = ready(garage(seed), seed=1)
    kept = {one.id for one in made.problem.jobs}
    assert kept.isdisjoint(made.prepared.set_aside)
    assert kept | made.prepared.set_aside == {one.id for one in garage(seed).jobs}


def test_keys_that_are_there_twice_are_refused() -> None:
    with pytest.raises(BadInput, match="'a' is there twice"):
        bare(job("a"), job("a"))


def test_links_do_not_wait_backwards() -> None:
    with pytest.raises(BadInput, match="wait"):
        Link("a", -1)


def test_sessions_repeat_with_weekday_and_season_for_ever() -> None:
    source = SessionSource.repeating(evenings(weeks=60).slots)
    written = source.first(400)
    year = 52 * WEEK_MINUTES
    assert source.template_minutes == year
    for early, late in zip(written[24:180], written[24 + 156 : 336], strict=True):
        assert late.start_minute - early.start_minute == year
        assert late.temperature_c == early.temperature_c


def test_sessions_may_not_overlap() -> None:
    with pytest.raises(BadInput, match="begins before the one before has ended"):
        SessionSource((SessionSlot(0, 100), SessionSlot(50, 100)))


def test_tonights_session_takes_the_place_of_those_it_touches() -> None:
    source = evenings()
    tonight = SessionSlot(source.slots[0].start_minute + 60, 150, people=2)
    laid = source.with_first(tonight).first(5)
    assert laid[0] == tonight
    assert laid[1:] == source.first(5)[1:]


def test_the_changes_of_the_invented_garages_lead_everywhere() -> None:
    assert {change.before for change in CHANGES} == {change.after for change in CHANGES}
