"""Tonight's list: the moves, what would do as well, and the session as it really is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.errors import BadInput
from bareshell.plan.asitis import AsItIs
from bareshell.plan.checker import check
from bareshell.plan.problem import Arrival, Change, Link, Luck, PlanProblem
from bareshell.plan.road import road
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.tonight import Tonight, tonight
from tests.plan.garages import DAY, Shape, bare, evenings, garage, hours, job

LUCKY = Luck(0.1, 0.05, 0.05, 0.05, 0.1)


def list_of(problem: PlanProblem, as_it_is: AsItIs | None = None) -> Tonight:
    answer = tonight(problem, as_it_is, seed=1, samples=80)
    assert answer.violations == ()
    return answer


def test_the_whole_session_is_accounted_for_minute_by_minute() -> None:
    answer = list_of(bare(job("a", 0.5), job("b", 1.0, Link("a", 30)), job("c", 4.0)))
    assert answer.session is not None
    assert answer.moves[0].kind == "set up"
    assert answer.moves[-1].kind == "clear up"
    assert answer.moves[0].start_minute == answer.session.start_minute
    assert answer.moves[-1].end_minute == answer.session.end_minute
    for move, following in zip(answer.moves, answer.moves[1:], strict=False):
        assert move.end_minute == following.start_minute
    assert answer.free_minutes == sum(m.minutes for m in answer.moves if m.kind == "wait")


def test_moving_the_car_is_a_move_of_its_own_and_says_how_the_car_is_left() -> None:
    answer = list_of(bare(job("a", 1.0, supports=frozenset({"wheels"}))))
    kinds = [move.kind for move in answer.moves]
    assert kinds == ["set up", "move the car", "work", "wait", "clear up"]
    assert answer.moves[1].sentence == "Put the car from stands on wheels (40 min)."
    assert answer.leave_support == "wheels"


def test_a_piece_of_a_long_job_says_what_is_left() -> None:
    answer = list_of(bare(job("a", 3.0, splittable=True)))
    work = next(move for move in answer.moves if move.kind == "work")
    assert (work.minutes, work.finishes, work.left_minutes) == (120, False, 60)
    assert work.sentence == "'Job a': 2 h of it; 1 h left after that."


def test_the_way_taken_brings_its_kit() -> None:
    alone, two = hours(1.5), hours(1.0, people=2)
    bleed = job("a", ways=(replace(alone, kit="pressure kit"), two))
    assert list_of(bare(bleed)).moves[1].kit == "pressure kit"
    helped = list_of(bare(bleed), AsItIs(people=2)).moves[1]
    assert (helped.people, helped.kit) == (2, "")


def test_a_shorter_session_gets_a_shorter_list() -> None:
    problem = bare(job("a", 1.5), job("b", 0.5))
    assert set(list_of(problem).job_ids) == {"a", "b"}
    assert list_of(problem, AsItIs(minutes=80)).job_ids == ("b",)


def test_a_colder_garage_leaves_the_sealer_out() -> None:
    problem = bare(job("seal", min_temperature_c=10.0), job("b"), sessions=evenings())
    assert "seal" in list_of(problem, AsItIs(temperature_c=15.0, lowest_until_next_c=12.0)).job_ids
    assert "seal" not in list_of(problem, AsItIs(temperature_c=4.0)).job_ids


def test_the_car_as_it_really_stands() -> None:
    problem = bare(job("a", 1.0, supports=frozenset({"lift"})))
    assert list_of(problem).moves[1].kind == "move the car"
    on_lift = list_of(problem, AsItIs(support="lift"))
    assert [move.kind for move in on_lift.moves[:2]] == ["set up", "work"]


def test_a_session_that_is_already_set_up_is_not_set_up_again() -> None:
    answer = list_of(bare(job("a")), AsItIs(start_minute=0, minutes=90, already_set_up=True))
    assert answer.moves[0].kind == "work"
    assert answer.moves[0].start_minute == 0
    assert answer.moves[-1].end_minute == 90


def test_of_a_session_that_has_begun_only_the_rest_is_planned() -> None:
    problem = bare(job("a"), sessions=SessionSource.repeating([SessionSlot(-60, 180)]))
    answer = list_of(problem)
    assert answer.moves[0].start_minute == 0
    assert answer.moves[-1].end_minute == 120


def test_moods_leave_out_dirty_and_dangerous_work_for_tonight_only() -> None:
    problem = bare(job("grind", dirty=True), job("spring", dangerous_alone=True), job("read", 0.5))
    assert "grind" not in list_of(problem, AsItIs(nothing_dirty=True)).job_ids
    alone = list_of(problem, AsItIs(nothing_dangerous_alone=True))
    assert "spring" not in alone.job_ids
    assert "spring" in {block.job_id for block in alone.schedule.blocks}
    helped = AsItIs(nothing_dangerous_alone=True, people=2, minutes=300)
    assert "spring" in list_of(problem, helped).job_ids
    assert "read" not in list_of(problem, AsItIs(leave_out=frozenset({"read"}))).job_ids


def test_a_beginning_that_costs_nothing_is_called_as_good() -> None:
    """Two equal jobs that nothing follows: either may come first."""
    answer = list_of(bare(job("a"), job("b"), luck=LUCKY))
    assert len(answer.alternatives) == 2
    assert all(other.as_good for other in answer.alternatives)
    assert answer.alternatives[1].sentence == "As good a beginning."


def test_a_beginning_that_costs_days_says_how_many() -> None:
    """The sealer has to go on tonight: its wait holds up all the rest."""
    problem = bare(
        job("seal", 2.0),
        job("rest", 30.0, Link("seal", 14 * DAY), splittable=True),
        job("tidy", 2.0),
        luck=LUCKY,
    )
    answer = list_of(problem)
    assert answer.alternatives[0].job_id == "seal"
    assert answer.alternatives[0].chosen
    other = answer.alternatives[1]
    assert other.job_id == "tidy"
    assert not other.as_good
    assert other.regret_days > 2 * other.standard_error_days > 0
    assert other.sentence.startswith("Taking it first puts the road back by ")


def test_the_car_is_not_moved_when_staying_is_as_good() -> None:
    """The heavier job is elsewhere, but nothing hangs on the order."""
    problem = bare(
        job("here", 1.0, supports=frozenset({"stands"})),
        job("there", 1.2, supports=frozenset({"wheels"})),
        changes=(Change("stands", "wheels", 0), Change("wheels", "stands", 0)),
        luck=LUCKY,
    )
    dear = replace(problem, changes=(Change("stands", "wheels", 5), Change("wheels", "stands", 5)))
    assert list_of(dear).moves[1].kind == "work"


def test_nothing_to_do_gives_an_empty_list() -> None:
    waiting = bare(job("a", parts_to_start=("x",)), arrivals=(Arrival("x", "x", 30 * DAY),))
    answer = list_of(waiting)
    assert answer.moves == ()
    assert answer.job_ids == ()
    assert answer.leave_support == "stands"


def test_no_sessions_at_all_and_a_session_all_the_same() -> None:
    problem = bare(job("a"), sessions=SessionSource())
    assert tonight(problem, seed=1).session is None
    sudden = list_of(problem, AsItIs(minutes=120))
    assert sudden.job_ids == ("a",)
    assert {snag.rule for snag in sudden.snags} == {"sessions end"}


def test_a_job_set_aside_is_not_on_the_list_and_the_rest_is() -> None:
    answer = list_of(bare(job("a", 1.0, "ghost"), job("b")))
    assert answer.job_ids == ("b",)
    assert answer.prepared.set_aside == {"a"}


@pytest.mark.parametrize("seed", range(10))
def test_lists_of_random_garages_keep_every_rule(seed: int) -> None:
    as_it_is = (
        AsItIs(people=2, minutes=240),
        AsItIs(minutes=75, temperature_c=3.0),
        AsItIs(support="lift", nothing_dirty=True),
        None,
    )[seed % 4]
    answer = list_of(garage(seed, Shape(jobs=45)), as_it_is)
    assert check(answer.problem, answer.schedule, complete=True) == []
    assert answer.schedule.left_over == ()


def test_tonight_is_the_beginning_of_the_road_ahead() -> None:
    problem = garage(4, Shape(jobs=50))
    whole = tonight(problem, AsItIs(people=2), seed=7)
    assert road(problem, AsItIs(people=2), seed=7, samples=50).schedule == whole.schedule


def test_the_same_seed_gives_the_same_list_on_any_number_of_threads() -> None:
    problem = garage(8, Shape(jobs=60))
    one = tonight(problem, seed=3, threads=1)
    two = tonight(problem, seed=3, threads=2)
    assert (one.moves, one.alternatives) == (two.moves, two.alternatives)


def test_without_a_compiler_the_list_is_made_all_the_same_and_says_so() -> None:
    problem = garage(8, Shape(jobs=30))
    plain = tonight(problem, seed=3, engine="plain")
    assert plain.engine == "plain"
    assert plain.samples <= 20
    assert plain.violations == ()
    assert plain.job_ids


def test_a_session_that_overlaps_the_next_takes_its_place() -> None:
    problem = bare(job("a", 9.0, splittable=True))
    first, second = problem.sessions.first(2)
    long = AsItIs(minutes=second.start_minute - first.start_minute + 30)
    answer = list_of(problem, long)
    later = answer.problem.sessions.first(2)[1]
    assert answer.session is not None
    assert later.start_minute >= answer.session.end_minute


def test_a_session_needs_a_length() -> None:
    with pytest.raises(BadInput, match="lasts 0 minutes"):
        tonight(bare(job("a")), AsItIs(minutes=0), seed=1)
    with pytest.raises(BadInput, match="people"):
        SessionSlot(0, 60, people=3)
