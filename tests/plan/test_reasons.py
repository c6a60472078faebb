"""Why not tonight: the rule by its name, what frees it and when, back to the root."""

from __future__ import annotations

import pytest

from bareshell.errors import BadInput
from bareshell.plan.asitis import AsItIs
from bareshell.plan.problem import Arrival, Change, Gate, Link, PlanProblem, Proof
from bareshell.plan.reasons import Chain, most_wanted, why_not
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.tonight import tonight
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job


def why(problem: PlanProblem, job_id: str, as_it_is: AsItIs | None = None) -> Chain:
    return why_not(problem, tonight(problem, as_it_is, seed=1, samples=40), job_id)


def rules(chain: Chain) -> list[str]:
    return [link.rule for link in chain.links]


def test_the_chain_leads_from_the_job_to_the_late_part() -> None:
    problem = bare(
        job("exhaust", 1.0, "tank"),
        job("tank", 1.0, "straps"),
        job("straps", 1.0, parts_to_start=("x",)),
        job("tidy"),
        arrivals=(Arrival("x", "tank straps", 6 * DAY + 60),),
    )
    chain = why(problem, "exhaust")
    assert rules(chain) == ["after", "after", "part"]
    assert [link.job_id for link in chain.links] == ["exhaust", "tank", "straps"]
    assert chain.root.sentence == (
        "'Job straps' cannot begin without tank straps, due on Sun 9 Mar."
    )
    assert chain.root.frees_at == 6 * DAY + 60
    assert chain.links[0].sentence == "'Job exhaust' comes after 'Job tank', which is not done."
    assert chain.planned_minute is not None
    assert chain.planned_minute > 6 * DAY


def test_a_job_on_the_list_says_so() -> None:
    chain = why(bare(job("a")), "a")
    assert rules(chain) == ["tonight"]


def test_what_waits_for_tonights_work_ends_in_tonight() -> None:
    chain = why(bare(job("a", 4.0, splittable=True), job("b", 1.0, "a")), "b")
    assert rules(chain) == ["after", "tonight"]
    assert "will not be finished tonight" in chain.root.sentence


def test_a_wait_that_begins_tonight() -> None:
    chain = why(bare(job("wax", 1.0), job("tank", 1.0, Link("wax", 2 * DAY))), "tank")
    assert rules(chain) == ["wait"]
    finish = DAY + 2 * 60 + 15 + 60
    assert chain.root.frees_at == finish + 2 * DAY
    assert "2880 min" not in chain.root.sentence
    assert "48 h after 'Job wax'" in chain.root.sentence


def test_a_wait_that_is_still_running() -> None:
    chain = why(bare(job("a", earliest_minute=9 * DAY), job("b")), "a")
    assert rules(chain) == ["wait"]
    assert chain.root.frees_at == 9 * DAY


def test_no_helper_tonight_and_when_there_is_one() -> None:
    problem = bare(job("a", ways=(hours(1.0, people=2),)), job("b"))
    chain = why(problem, "a")
    assert rules(chain) == ["helper"]
    assert chain.root.frees_at == problem.sessions.first(3)[2].start_minute


def test_too_cold_and_when_it_is_warmer() -> None:
    problem = bare(job("seal", min_temperature_c=10.0), sessions=evenings())
    chain = why(problem, "seal", AsItIs(temperature_c=4.0))
    assert rules(chain) == ["temperature"]
    assert "and tonight it is 4 °C" in chain.root.sentence
    warm = next(
        slot
        for slot in problem.sessions.first(200)[1:]
        if slot.temperature_c is not None and slot.temperature_c >= 10.0
    )
    assert chain.root.frees_at == warm.start_minute


def test_it_will_freeze_before_it_has_cured() -> None:
    slots = [
        SessionSlot(DAY * n, 150, temperature_c=15.0, lowest_until_next_c=14.0)
        for n in range(1, 20)
    ]
    problem = bare(
        job("seal", min_temperature_c=10.0, cure_minutes=DAY),
        sessions=SessionSource.repeating(slots),
    )
    chain = why(problem, "seal", AsItIs(lowest_until_next_c=1.0))
    assert rules(chain) == ["cure"]


def test_a_proof_is_owed_first() -> None:
    problem = bare(
        job("carpet", 1.0, proofs_before=("dry",)),
        job("hose", 1.0, parts_to_start=("x",)),
        arrivals=(Arrival("x", "hose clips", 4 * DAY),),
        proofs=(Proof("dry", "dry floor", ("hose",)),),
    )
    chain = why(problem, "carpet")
    assert rules(chain) == ["proof before cover", "part"]
    assert "would cover what 'dry floor' has to prove" in chain.links[0].sentence


def test_a_gate_names_what_it_still_needs() -> None:
    problem = bare(
        job("trim"),
        job("pipe", 3.0, splittable=True),
        job("wire", 3.0, splittable=True),
        gates=(Gate("g", "cabin", needs_jobs=("pipe", "wire"), blocks=("trim",)),),
    )
    chain = why(problem, "trim")
    assert chain.links[0].rule == "gate"
    assert "waits for the cabin gate, which still needs" in chain.links[0].sentence
    assert "and 1 more" in chain.links[0].sentence


def test_the_session_is_too_short_for_it() -> None:
    chain = why(bare(job("big", 4.0), job("small", 0.5)), "big")
    assert rules(chain) == ["time"]
    assert "tonight has 2 h of work in it" in chain.root.sentence


def test_the_car_stands_wrong_for_it() -> None:
    problem = bare(job("under", 2.0, supports=frozenset({"wheels"})), job("small", 0.5))
    chain = why(problem, "under")
    assert rules(chain) == ["support"]
    assert "after 40 min to put the car on wheels" in chain.root.sentence


def test_the_car_is_not_moved_there_alone() -> None:
    problem = bare(
        job("under", 0.5, supports=frozenset({"lift"})),
        job("small", 0.5),
        changes=(Change("stands", "lift", 20, people=2), Change("lift", "stands", 20)),
    )
    assert rules(why(problem, "under")) == ["support"]


def test_moods_are_given_as_the_reason() -> None:
    problem = bare(job("grind", dirty=True), job("b"))
    chain = why(problem, "grind", AsItIs(nothing_dirty=True))
    assert rules(chain) == ["mood"]
    assert "nothing dirty" in chain.root.sentence


def test_what_could_be_done_but_is_not_says_what_it_would_cost() -> None:
    problem = bare(
        job("seal", 2.0),
        job("rest", 30.0, Link("seal", 14 * DAY), splittable=True),
        job("tidy", 2.0),
    )
    chain = why(problem, "tidy")
    assert rules(chain) == ["order"]
    assert "could be done tonight. Taking it first puts the road back" in chain.root.sentence


def test_what_is_set_aside_gives_the_snag_at_the_root() -> None:
    problem = bare(job("a", 1.0, "ghost"), job("b", 1.0, "a"), job("c"))
    chain = why(problem, "b")
    assert rules(chain) == ["after", "unknown job"]
    assert chain.planned_minute is None


def test_what_a_gate_holds_up_for_ever_gives_the_gates_snag() -> None:
    problem = bare(
        job("trim"), job("c"), gates=(Gate("g", "cabin", needs_jobs=("ghost",), blocks=("trim",)),)
    )
    assert "the cabin gate comes after 'ghost'" in why(problem, "trim").root.sentence


def test_an_unknown_job_is_refused() -> None:
    with pytest.raises(BadInput, match="no 'nobody'"):
        why(bare(job("a")), "nobody")


@pytest.mark.parametrize("seed", range(6))
def test_every_job_has_a_reason_that_ends_and_agrees_with_the_plan(seed: int) -> None:
    problem = garage(seed, Shape(jobs=60))
    answer = tonight(problem, seed=1, samples=20)
    for one in problem.jobs:
        chain = why_not(problem, answer, one.id)
        assert chain.links
        assert (chain.links[0].rule == "tonight") == (one.id in answer.job_ids)
        assert (chain.planned_minute is None) == (one.id in answer.prepared.set_aside)
        assert all(link.sentence.endswith(".") for link in chain.links)
        if chain.planned_minute is not None and len(chain.links) > 1:
            first = chain.links[0].frees_at
            assert first is not None
            assert first <= chain.planned_minute


def test_the_weightiest_jobs_that_are_kept_are_named_first() -> None:
    problem = bare(
        job("light", parts_to_start=("x",)),
        job("heavy", parts_to_start=("x",)),
        job("after", 20.0, "heavy", splittable=True),
        arrivals=(Arrival("x", "x", 30 * DAY),),
    )
    kept = most_wanted(tonight(problem, seed=1, samples=20), most=2)
    assert [chain.job_id for chain in kept] == ["heavy", "after"]
