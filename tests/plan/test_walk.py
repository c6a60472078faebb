"""The walk through the sessions, told in small garages: each rule changes what is done."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bareshell.plan.checker import check
from bareshell.plan.policy import Fate, Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Arrival, Change, Gate, Link, PlanProblem, Proof, Way
from bareshell.plan.schedule import Schedule
from bareshell.plan.sessions import SessionSlot, SessionSource
from bareshell.plan.steps import Walked
from bareshell.plan.validate import prepare
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, bare, evenings, hours, job

TUESDAY = DAY + 2 * 60  # the first session begins, from Monday 17:00
SET_UP = 15


def walked(problem: PlanProblem, fate: Fate | None = None) -> Walked:
    plannable = prepare(problem).problem
    found = walk(plannable, Policy(tails(plannable)), fate)
    if fate is None:
        assert check(plannable, found.schedule, complete=True) == []
    return found


def plan(problem: PlanProblem) -> Schedule:
    return walked(problem).schedule


def finish_of(schedule: Schedule, job_id: str) -> int:
    return next(b.end_minute for b in schedule.blocks if b.job_id == job_id and b.finishes)


def start_of(schedule: Schedule, job_id: str) -> int:
    return next(b.start_minute for b in schedule.blocks if b.job_id == job_id and b.kind == "work")


def session_of(schedule: Schedule, job_id: str) -> int:
    return next(b.session for b in schedule.blocks if b.job_id == job_id and b.kind == "work")


def test_work_begins_when_the_bay_is_set_up() -> None:
    assert start_of(plan(bare(job("a"))), "a") == TUESDAY + SET_UP


def test_the_longest_work_that_follows_decides_what_comes_first() -> None:
    schedule = plan(bare(job("short"), job("first"), job("then", 1.5, "first")))
    assert schedule.blocks[0].job_id == "first"


def test_a_job_is_not_begun_when_what_is_left_of_the_session_cannot_hold_it() -> None:
    schedule = plan(bare(job("a", 1.5), job("b", 1.0)))
    assert session_of(schedule, "a") == 0
    assert session_of(schedule, "b") == 1


def test_what_may_be_split_fills_the_rest_and_goes_on_the_next_time() -> None:
    schedule = plan(bare(job("a", 3.0, splittable=True)))
    assert [block.minutes for block in schedule.blocks] == [120, 60]
    assert [block.session for block in schedule.blocks] == [0, 1]


def test_a_piece_shorter_than_the_least_is_not_begun() -> None:
    schedule = plan(bare(job("a", 1.75), job("b", 1.0, splittable=True, least_piece_minutes=30)))
    assert session_of(schedule, "b") == 1


def test_making_one_part_late_moves_the_finish_by_what_it_holds_up() -> None:
    def with_part(due: int) -> int | None:
        part = Arrival("x", "x", due)
        return walked(
            bare(job("a", parts_to_start=("x",)), job("b", 1.0, "a"), arrivals=(part,))
        ).finish_minute

    soon, late = with_part(1), with_part(20 * DAY)
    assert soon is not None
    assert late is not None
    assert late - soon > 18 * DAY


def test_a_part_wanted_only_to_finish_lets_the_work_begin() -> None:
    due = 6 * DAY
    schedule = plan(
        bare(
            job("a", 3.0, splittable=True, parts_to_finish=("x",)),
            arrivals=(Arrival("x", "x", due),),
        )
    )
    assert start_of(schedule, "a") < due
    assert finish_of(schedule, "a") >= due
    last = [block for block in schedule.blocks if block.job_id == "a"][-1]
    assert last.start_minute > due


def test_removing_the_helper_leaves_two_person_work_to_the_few_helper_days() -> None:
    two = job("a", ways=(hours(1.0, people=2),))
    often = walked(bare(two, sessions=evenings(helper_every=1, temperatures=False)))
    rarely = walked(bare(two, sessions=evenings(helper_every=4, temperatures=False)))
    later = replace(
        evenings(helper_every=4, temperatures=False),
        slots=evenings(helper_every=4, temperatures=False).slots[3:],
    )
    third = walked(bare(two, sessions=later))
    assert often.finish_minute == rarely.finish_minute
    assert third.finish_minute is not None
    assert third.finish_minute > 4 * 7 * DAY


def test_the_quicker_way_is_taken_when_the_helper_is_there() -> None:
    bleed = job("a", ways=(hours(1.5), hours(1.0, people=2)))
    alone = plan(bare(bleed))
    slot = SessionSlot(TUESDAY, 150, people=2)
    helped = plan(bare(bleed, sessions=SessionSource.repeating([slot])))
    assert (alone.blocks[0].people, alone.blocks[0].minutes) == (1, 90)
    assert (helped.blocks[0].people, helped.blocks[0].minutes) == (2, 60)


def test_adding_a_cost_to_moving_the_car_delays_what_needs_it_moved() -> None:
    needs = job("a", supports=frozenset({"wheels"}))
    free = walked(bare(needs, changes=(Change("stands", "wheels", 0),)))
    dear = walked(bare(needs, changes=(Change("stands", "wheels", 45),)))
    assert free.finish_minute is not None
    assert dear.finish_minute == free.finish_minute + 45


def test_the_car_is_not_moved_twice_when_once_will_do() -> None:
    stands, wheels = frozenset({"stands"}), frozenset({"wheels"})
    jobs = [job(f"s{n}", 0.5, supports=stands) for n in range(3)]
    jobs += [job(f"w{n}", 0.5, supports=wheels) for n in range(3)]
    mixed = tuple(jobs[n] for n in (0, 3, 1, 4, 2, 5))
    schedule = plan(bare(*mixed))
    assert sum(block.kind == "change" for block in schedule.blocks) == 1


def test_the_car_is_left_as_the_next_session_wants_it() -> None:
    """The job takes all of an evening, so the car is put on its wheels the evening before."""
    schedule = plan(
        bare(job("a", 1.0, supports=frozenset({"stands"})),
             job("b", 2.0, supports=frozenset({"wheels"})))
    )  # fmt: skip
    change = next(block for block in schedule.blocks if block.kind == "change")
    assert change.session == session_of(schedule, "b") - 1


def test_the_car_is_left_as_the_first_session_that_can_use_it_wants_it() -> None:
    """Only with the helper does it come on the lift; the evening after is too cold for the work."""
    warmth = (3.0, 3.0, 3.0, 15.0)
    slots = [
        SessionSlot(TUESDAY + DAY * at, 150, 2 if at == 0 else 1, temperature_c=celsius)
        for at, celsius in enumerate(warmth)
    ]
    seal = job("seal", 1.0, supports=frozenset({"lift"}), min_temperature_c=10.0)
    schedule = plan(
        bare(seal, changes=(Change("stands", "lift", 60, people=2),),
             sessions=SessionSource.repeating(slots, weeks=1))
    )  # fmt: skip
    change = next(block for block in schedule.blocks if block.kind == "change")
    assert change.session == 0
    assert session_of(schedule, "seal") == 3


def test_time_is_kept_for_a_move_that_the_next_session_cannot_do_without() -> None:
    """Small work would fill the evening; the big job would never get its turn."""
    wheels = frozenset({"wheels"})
    small = tuple(job(f"s{n}", 2.0) for n in range(12))
    big = job("big", 2.0, supports=wheels)
    end = job("end", 0.5, "big", supports=wheels)
    after = job("after", 40.0, "end", splittable=True)
    evening = SessionSource.repeating([SessionSlot(TUESDAY, 150)])
    schedule = plan(bare(*small, big, end, after, sessions=evening))
    assert session_of(schedule, "big") <= 2


def test_a_wait_is_clock_time_and_longer_in_the_cold() -> None:
    def finish(celsius: float, *, stretch: bool) -> int:
        slots = [SessionSlot(TUESDAY + DAY * n, 150, temperature_c=celsius) for n in range(70)]
        problem = bare(
            job("seal"),
            job("trim", 1.0, Link("seal", 2 * DAY, stretch)),
            sessions=SessionSource.repeating(slots),
        )
        return start_of(plan(problem), "trim") - finish_of(plan(problem), "seal")

    assert 2 * DAY <= finish(18.0, stretch=True) < 3 * DAY
    assert 4 * DAY <= finish(9.0, stretch=True) < 5 * DAY
    assert 2 * DAY <= finish(9.0, stretch=False) < 3 * DAY


def test_it_is_not_sealed_on_the_eve_of_a_frost() -> None:
    """Warm enough to work, too cold before it has cured: it waits for the warm spell."""
    slots = [
        SessionSlot(
            TUESDAY + DAY * n, 150, temperature_c=15.0, lowest_until_next_c=15.0 if n > 9 else 2.0
        )
        for n in range(70)
    ]
    problem = bare(
        job("seal", min_temperature_c=10.0, cure_minutes=DAY),
        job("paint", min_temperature_c=10.0),
        sessions=SessionSource.repeating(slots),
    )
    schedule = plan(problem)
    assert session_of(schedule, "paint") == 0
    assert session_of(schedule, "seal") == 10


def test_work_that_only_the_summer_takes_is_led_up_to_before_it_ends() -> None:
    """In August, thirty hours of stripping come before eighty of loom: seal needs the warmth."""

    def order(*, season: bool) -> tuple[int, list[str]]:
        august = evenings(temperatures=season).slots[24 * 3 :]
        problem = bare(
            job("strip", 30.0, splittable=True),
            job("seal", 1.0, "strip", min_temperature_c=13.0, cure_minutes=2 * DAY),
            job("loom", 80.0, splittable=True),
            sessions=SessionSource.repeating(august),
        )
        schedule = plan(problem)
        done = finish_of(schedule, "seal")
        return done, [block.job_id or "" for block in schedule.blocks]

    done, blocks = order(season=True)
    assert blocks[0] == "strip"
    assert done < (24 + 10) * 7 * DAY  # by the end of October
    assert order(season=False)[1][0] == "loom"


def test_a_proof_comes_before_what_covers_it() -> None:
    problem = bare(
        job("carpet", 0.5, proofs_before=("dry",)),
        job("hose", 0.5),
        proofs=(Proof("dry", "dry floor", ("hose",)),),
    )
    schedule = plan(problem)
    assert start_of(schedule, "carpet") >= finish_of(schedule, "hose")
    held = replace(problem, proofs=(Proof("dry", "dry floor", ("hose",), held=True),))
    assert plan(held).blocks[0].job_id == "carpet"


def test_a_gate_opens_gates_behind_it_and_blocks_only_what_it_names() -> None:
    problem = bare(
        job("free", 0.25),
        job("road", 0.25),
        job("move", 0.25),
        job("pipe", 0.25),
        gates=(
            Gate("g1", "under-car", needs_jobs=("pipe",), blocks=("move",)),
            Gate("g2", "road", needs_jobs=("move", "pipe"), blocks=("road",)),
        ),
    )
    order = [block.job_id for block in plan(problem).blocks]
    assert order.index("pipe") < order.index("move") < order.index("road")


def test_what_was_begun_and_may_not_be_left_comes_first() -> None:
    schedule = plan(
        bare(job("big"), job("more", 5.0, "big", splittable=True), job("open", started=True))
    )
    assert schedule.blocks[0].job_id == "open"


def test_what_was_worked_already_is_not_done_again_but_never_nothing() -> None:
    half = plan(bare(job("a", 1.0, minutes_done=40, started=True)))
    over = plan(bare(job("a", 1.0, minutes_done=400, started=True)))
    assert half.blocks[0].minutes == 20
    assert over.blocks[0].minutes == 6


def test_nothing_begins_before_its_date() -> None:
    schedule = plan(bare(job("a", earliest_minute=9 * DAY)))
    assert start_of(schedule, "a") >= 9 * DAY


def _fate(problem: PlanProblem, **factors: float) -> Fate:
    return Fate(
        [factors.get(one.id, 1.0) for one in problem.jobs],
        [],
        [slot.people for slot in problem.sessions.first(40)],
    )


def test_what_takes_a_little_longer_is_finished_late_and_much_longer_is_carried_over() -> None:
    problem = bare(job("a", 2.0), job("b", 1.0))
    late = walked(problem, _fate(problem, a=1.2)).schedule
    assert late.blocks[0].minutes == 144  # 24 min past the end, within half an hour
    over = walked(problem, _fate(problem, a=2.0)).schedule
    assert [(b.job_id, b.minutes) for b in over.blocks[:2]] == [("a", 120), ("a", 120)]


def test_when_all_but_the_finish_is_done_only_the_finish_is_still_planned_for() -> None:
    """Half as long as planned, then a part awaited: ten minutes of an evening are enough."""
    problem = bare(
        job("a", 4.0, splittable=True, least_piece_minutes=60, parts_to_finish=("x",)),
        arrivals=(Arrival("x", "x", 3 * DAY),),
        sessions=SessionSource.repeating(
            [SessionSlot(TUESDAY, 300)]
            + [SessionSlot(TUESDAY + DAY * day, 40) for day in range(1, 7)]
        ),
    )
    people = [slot.people for slot in problem.sessions.first(40)]
    blocks = walked(problem, Fate([0.5], [3 * DAY], people)).schedule.blocks
    assert [(block.session, block.minutes) for block in blocks] == [(0, 119), (2, 1)]


def test_what_is_quicker_than_planned_makes_room_for_more() -> None:
    problem = bare(job("a", 1.5), job("b", 1.0))
    quick = walked(problem, _fate(problem, a=0.5)).schedule
    assert session_of(quick, "b") == 0


def test_the_chain_that_bound_the_finish_ends_in_the_late_part() -> None:
    problem = bare(
        job("a", parts_to_start=("x",)),
        job("b", 1.0, Link("a", 3 * DAY)),
        job("c", 0.5),
        arrivals=(Arrival("x", "x", 30 * DAY),),
    )
    chain = walked(problem).chain
    assert [cause.kind for cause in chain] == ["wait", "part"]
    assert chain[1].lost_minutes >= 30 * DAY


def test_a_delay_inside_a_split_job_is_laid_to_what_caused_it() -> None:
    """Begun at once and all but done in two evenings, then held for weeks by the part to finish."""
    problem = bare(
        job("a", 3.0, splittable=True, parts_to_finish=("x",)),
        job("b", 1.0, "a"),
        job("small", 0.5),
        arrivals=(Arrival("x", "x", 40 * DAY),),
    )
    chain = walked(problem).chain
    assert [cause.kind for cause in chain] == ["job", "part"]
    assert chain[1].of == 0
    assert chain[1].lost_minutes > 30 * DAY


def test_work_for_two_that_is_left_half_done_waits_for_the_helper_again() -> None:
    problem = bare(
        job("a", 8.0, ways=(hours(8.0, people=2),), splittable=True),
        sessions=evenings(helper_every=4, temperatures=False),
    )
    chain = walked(problem).chain
    assert [cause.kind for cause in chain[:1]] == ["helper"]
    assert 20 * DAY < chain[0].lost_minutes < 28 * DAY


def test_work_taken_up_between_two_pieces_is_what_the_second_waited_for() -> None:
    problem = bare(
        job("a", 3.0, splittable=True), job("first", 2.0, earliest_minute=2 * DAY, started=True)
    )
    result = walked(problem)
    between = next(b for b in result.schedule.blocks if b.job_id == "first")
    pieces = [b for b in result.schedule.blocks if b.job_id == "a"]
    assert pieces[0].end_minute <= between.start_minute < pieces[1].start_minute
    assert (result.chain[0].kind, result.chain[0].job) == ("owner", 1)


@pytest.mark.parametrize("goal", [(), ("b",)])
def test_the_finish_is_when_the_last_job_of_the_goal_is_done(goal: tuple[str, ...]) -> None:
    problem = bare(job("a", 2.0), job("b", 1.0), job("polish", 4.0, splittable=True), goal=goal)
    result = walked(problem)
    assert result.schedule.left_over == ()
    last = "b" if goal else max(("a", "b", "polish"), key=lambda j: finish_of(result.schedule, j))
    assert result.finish_minute == finish_of(result.schedule, last)


def test_a_session_shorter_than_its_set_up_holds_nothing() -> None:
    slots = [SessionSlot(TUESDAY, 25), SessionSlot(TUESDAY + DAY, 150)]
    schedule = plan(bare(job("a"), sessions=SessionSource.repeating(slots, weeks=1)))
    assert session_of(schedule, "a") == 1


def test_hours_are_planned_at_the_owners_pace() -> None:
    from bareshell.plan.problem import Pace

    slow = plan(bare(job("a", 1.0), paces=(Pace("", 1.5), Pace("brakes", 3.0))))
    own = plan(bare(job("a", 0.5, system="brakes"), paces=(Pace("", 1.5), Pace("brakes", 3.0))))
    assert slow.blocks[0].minutes == 90
    assert own.blocks[0].minutes == 90


def test_three_hours_of_a_way_must_rise() -> None:
    from bareshell.errors import BadInput

    with pytest.raises(BadInput, match="rising order"):
        Way(1, 90, 60, 120)
