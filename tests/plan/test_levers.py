"""Levers: each changes what it says it does, and its gain is measured on the same luck."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest

from bareshell.plan.checker import check
from bareshell.plan.engine import Engine
from bareshell.plan.lateness import Delay, Share, SourceBelief
from bareshell.plan.lever_choice import MOST_LEVERS, usual_levers
from bareshell.plan.lever_kinds import (
    Lever,
    garage_kept_warm,
    helper_comes_too,
    helper_every_time,
    hours_as_estimated,
    job_left_out,
    job_lent,
    nothing_lost,
    part_sooner,
    parts_in_time,
    session_more,
)
from bareshell.plan.levers import Effect, _same_rule, measured
from bareshell.plan.policy import Policy
from bareshell.plan.priority import paired_days, tails
from bareshell.plan.problem import Arrival, Gate, Link, Luck, Pace, PlanProblem
from bareshell.plan.ready import Ready, ready
from bareshell.plan.sessions import WEEK_MINUTES, SessionSource
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job


def gain(problem: PlanProblem, lever: Lever, samples: int = 200) -> Effect:
    (effect,) = measured(ready(problem, seed=1), [lever], samples=samples)
    return effect


def every_lever(made: Ready) -> tuple[Lever, ...]:
    walked = made.engine.run(made.policy, seed=1, samples=60)
    ids = [one.id for one in made.problem.jobs]
    return usual_levers(made.problem, walked, may_be_left_out=ids, may_be_lent=ids, most=100)


# --- what each changes ----------------------------------------------------


@pytest.mark.parametrize("seed", range(4))
def test_every_changed_garage_is_still_planned_by_every_rule(seed: int) -> None:
    """The independent checker reads the plan of each against the rules of the changed garage."""
    made = ready(garage(seed, Shape(jobs=30)), seed=1)
    for lever in every_lever(made):
        changed = lever.change(made.problem)
        plan = walk(changed, _same_rule(made, changed)).schedule
        assert plan.left_over == (), lever.title
        assert check(changed, plan, complete=True) == [], lever.title


def test_a_part_comes_a_week_earlier_and_no_other_does() -> None:
    due = Arrival("x", "tank straps", 30 * DAY)
    ordered = Arrival("y", "foam", lead_minutes=4 * DAY)
    overdue = Arrival("z", "badges", -3 * DAY)
    plan = bare(job("a"), arrivals=(due, ordered, overdue))
    sooner = part_sooner(due).change(plan).arrivals
    assert [a.expected_minute for a in sooner] == [23 * DAY, None, -3 * DAY]
    assert part_sooner(ordered).change(plan).arrivals[1].lead_minutes == 0
    assert part_sooner(overdue).change(plan).arrivals[2].expected_minute == 1
    assert part_sooner(overdue).title == "badges here now"
    assert part_sooner(due, 3).title == "tank straps 3 days earlier"


def test_the_helper_comes_to_one_session_more_or_to_every_one() -> None:
    plan = bare(job("a"), sessions=evenings(helper_every=0))
    saturday = plan.sessions.slots[2]
    once = helper_comes_too(saturday, "Sat 8 Mar").change(plan)
    assert [slot.people for slot in once.sessions.first(200)].count(2) == 1
    always = helper_every_time("Saturday").change(plan)
    slots = always.sessions.first(400)
    assert {slot.people for slot in slots if slot.kind == "Saturday"} == {2}
    assert {slot.people for slot in slots if slot.kind != "Saturday"} == {1}


def test_one_session_more_a_week_is_one_more_in_every_week_for_ever() -> None:
    plan = bare(job("a"))
    more = session_more(plan.sessions.slots[0], 1).change(plan)
    weeks = [slot.start_minute // WEEK_MINUTES for slot in more.sessions.first(600)]
    counts = np.bincount(weeks)[:140]
    # The week in which the written year ends and the repeat begins may keep its three.
    assert (counts == 4).mean() > 0.97
    slots = more.sessions.first(600)
    assert all(a.end_minute <= b.start_minute for a, b in itertools.pairwise(slots))
    assert not any(slot.certain for slot in slots)


def test_a_session_more_never_lies_over_another() -> None:
    plan = bare(job("a"))
    more = session_more(plan.sessions.slots[0], 2).change(plan)  # Thursday has one already
    assert more.sessions == plan.sessions


def test_heating_lifts_the_cold_sessions_and_only_those() -> None:
    plan = bare(job("a"), sessions=evenings())
    nights = garage_kept_warm(15.0, nights=True).change(plan).sessions.slots
    work = garage_kept_warm(15.0, nights=False).change(plan).sessions.slots
    for before, warm, worked in zip(plan.sessions.slots, nights, work, strict=True):
        assert warm.temperature_c == worked.temperature_c == max(15.0, before.temperature_c or 0)
        assert warm.lowest_until_next_c == max(15.0, before.lowest_until_next_c or 0)
        assert worked.lowest_until_next_c == before.lowest_until_next_c


def test_what_is_lent_out_takes_clock_time_and_keeps_its_place() -> None:
    plan = bare(
        job("before"),
        job("seat", 8.0, "before", splittable=True, parts_to_start=("x",)),
        job("fit", 1.0, Link("seat", 60)),
        arrivals=(Arrival("x", "foam", 20 * DAY, late_share=0.0),),
    )
    lent = job_lent(plan.job("seat"), days=10).change(plan)
    made = ready(lent, seed=1)
    finish = made.engine.planned_finish(made.policy)
    assert finish is not None
    assert 30 * DAY <= finish < 38 * DAY
    assert lent.job("seat").ways[0].likely_minutes == 1


def test_what_is_left_out_is_gone_and_what_came_after_keeps_its_order() -> None:
    plan = bare(
        job("a"),
        job("b", 4.0, "a"),
        job("c", 1.0, "b"),
        gates=(Gate("g", "cabin", ("b",), (), ("c",)),),
        goal=("c",),
    )
    left = job_left_out(plan.job("b")).change(plan)
    assert [one.id for one in left.jobs] == ["a", "c"]
    assert left.job("c").after == (Link("a"),)
    assert left.gates[0].needs_jobs == ()
    assert job_left_out(plan.job("c")).change(plan) == plan  # the road itself is not left out


def test_habits_change_what_is_believed_and_nothing_that_is_written() -> None:
    belief = SourceBelief("an invented shop", Share(5, 5), Delay(3, 40), Share(3, 3), 14.0)
    plan = replace(
        bare(job("a"), arrivals=(Arrival("x", "x", 30 * DAY, belief=belief),)),
        luck=Luck(lost_week_weight=9.0),
        paces=(Pace("", 1.4, 0.2), Pace("fuel", 1.6, 0.1, 0.5)),
    )
    assert {pace.factor for pace in hours_as_estimated().change(plan).paces} == {1.0}
    kept = nothing_lost().change(plan).luck
    assert (kept.lost_week_share, kept.lost_session_share, kept.no_show_share) == (0, 0, 0)
    assert kept.pace_spread == plan.luck.pace_spread
    prompt = Engine(parts_in_time().change(plan), engine="plain")
    assert prompt.run(Policy((60,)), seed=1, samples=20).finish.max() > 0
    assert parts_in_time().change(plan).arrivals[0].expected_minute == 30 * DAY


# --- what each gains ------------------------------------------------------


def test_a_part_that_alone_holds_the_road_gains_its_week_and_one_that_does_not_nothing() -> None:
    holding = Arrival("x", "tank straps", 60 * DAY, late_share=0.0)
    idle = Arrival("y", "badges", 3 * DAY, late_share=0.0)
    plan = bare(job("a", parts_to_start=("x",)), job("b", parts_to_start=("y",)),
                arrivals=(holding, idle))  # fmt: skip
    effect = gain(plan, part_sooner(holding))
    assert effect.gain_days == pytest.approx(7.0)
    assert (effect.standard_error_days, effect.p80_gain_days) == (0.0, 7.0)
    assert effect.word == "nearer"
    assert effect.before_days - effect.after_days == pytest.approx(effect.gain_days)
    nothing = gain(plan, part_sooner(idle))
    assert nothing.word == "no clear effect"
    assert nothing.sentence == "Badges a week earlier: no clear effect."


def test_the_owners_pace_gains_what_it_costs() -> None:
    """Twenty hours at one session a week: twice the hours are twice the weeks."""
    plan = bare(
        job("a", 20.0, splittable=True, ways=(hours(20.0, spread=1.0),)),
        sessions=SessionSource.repeating(evenings(temperatures=False).slots[::3]),
        paces=(Pace("", 2.0),),
    )
    assert gain(plan, hours_as_estimated()).gain_days == pytest.approx(70, abs=1)


def test_levers_of_use_are_of_use() -> None:
    plan = garage(3, Shape(jobs=40))
    made = ready(plan, seed=1)
    found = {e.lever.kind: e for e in measured(made, every_lever(made)[:14], samples=300)}
    assert found["session"].word == "nearer"
    assert found["habit"].word == "nearer"


def test_the_same_luck_makes_the_error_small() -> None:
    """Against the error of two independent runs: a fifth of it or less."""
    plan = garage(3, Shape(jobs=40))
    made = ready(plan, seed=1)
    lever = session_more(plan.sessions.slots[0], 1)
    (effect,) = measured(made, [lever], samples=400)
    other = ready(lever.change(made.problem), seed=2, policy=made.policy)
    apart = other.engine.run(made.policy, seed=2, samples=400).finish
    base = made.engine.run(made.policy, seed=1, samples=400).finish
    unpaired = np.hypot(base.std() / DAY, apart.std() / DAY) / 20
    assert effect.standard_error_days < unpaired / 2
    assert effect.gain_days == pytest.approx(
        (base.mean() - apart.mean()) / DAY, abs=4 * float(unpaired)
    )


def test_the_error_is_the_spread_of_the_pairs_by_the_root_of_their_number() -> None:
    gained, error = paired_days(np.array([1, 3, 5, 9]) * DAY, np.zeros(4, dtype=np.int64))
    assert gained == 4.5
    assert error == pytest.approx(np.std([1, 3, 5, 9], ddof=1) / 2)


def test_good_news_that_makes_the_road_later_is_told_as_it_is() -> None:
    """Graham 1969 (from memory): less to do can end later under a rule."""
    lever = part_sooner(Arrival("x", "tank straps", 5 * DAY))
    worse = Effect(lever, -0.9, 0.2, -1.0, 100.0, 100.9, 400)
    assert worse.word == "farther"
    assert worse.sentence.startswith("Tank straps a week earlier: the road 0.9 days farther")
    assert Effect(lever, -0.9, 0.5, -1.0, 100.0, 100.9, 400).word == "no clear effect"
    assert Effect(lever, 0.2, 0.01, 0.0, 100.0, 99.8, 400).word == "no clear effect"  # a few hours


def test_the_one_that_gains_most_comes_first_whatever_the_threads() -> None:
    made = ready(garage(5, Shape(jobs=30)), seed=1)
    levers = every_lever(made)[:8]
    one, two = (measured(made, levers, samples=150, threads=n) for n in (1, 2))
    shown = [(e.lever.title, e.gain_days, e.standard_error_days) for e in one]
    assert shown == [(e.lever.title, e.gain_days, e.standard_error_days) for e in two]
    assert [e.gain_days for e in one] == sorted((e.gain_days for e in one), reverse=True)


def test_the_moves_chosen_for_tonight_are_kept() -> None:
    plan = bare(job("a", 1.0), job("b", 1.0), job("c", 20.0, "a", splittable=True))
    made = ready(plan, seed=1)
    (effect,) = measured(made, [job_left_out(plan.job("b"))], samples=20, forced=(1, 0))
    assert effect.gain_days >= 0


def test_nothing_to_do_or_nothing_asked_measures_nothing() -> None:
    assert measured(ready(bare(), seed=1), [nothing_lost()]) == ()
    assert measured(ready(bare(job("a")), seed=1), []) == ()


# --- which are worth measuring --------------------------------------------


def test_the_usual_levers_are_few_different_and_about_what_bound() -> None:
    made = ready(garage(3, Shape(jobs=60)), seed=1)
    walked = made.engine.run(made.policy, seed=1, samples=200)
    ids = [one.id for one in made.problem.jobs]
    found = usual_levers(made.problem, walked, may_be_left_out=ids, may_be_lent=ids)
    assert len(found) == MOST_LEVERS
    assert len({lever.title for lever in found}) == MOST_LEVERS
    kinds = {lever.kind for lever in found}
    assert kinds == {"part", "helper", "session", "warmth", "lent", "left out", "habit"}
    first = next(lever for lever in found if lever.kind == "part")
    held = made.problem.arrivals[int(np.argmax(walked.binding.part_minutes))]
    assert first.ref == held.id


def test_only_jobs_that_may_be_are_left_out_or_lent() -> None:
    made = ready(garage(3, Shape(jobs=30)), seed=1)
    walked = made.engine.run(made.policy, seed=1, samples=60)
    kinds = {lever.kind for lever in usual_levers(made.problem, walked, most=100)}
    assert not kinds & {"lent", "left out"}


def test_a_garage_that_needs_no_helper_and_no_warmth_is_offered_neither() -> None:
    made = ready(bare(job("a"), job("b", 1.0, "a"), changes=()), seed=1)
    walked = made.engine.run(Policy(tails(made.problem)), seed=1, samples=20)
    kinds = [lever.kind for lever in usual_levers(made.problem, walked)]
    assert kinds == ["session", "habit", "habit"]
