"""What the record tells of hours, suppliers and sessions, and that the plan goes by it."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.part import GoodsIn, Need, OrderLine, SourceClass
from bareshell.model.session import HeldSession, SessionException
from bareshell.whole.arrivals import believed_of, outcomes_of
from bareshell.whole.attended import attended
from bareshell.whole.pace import finished_jobs, pace_belief
from bareshell.whole.plan_problem import plan_question
from tests.stories import NOW, build_of, garage_changes, job, later

GENERAL = str(SourceClass.GENERAL)


def _evening(day: date, people: int = 1) -> c.SessionHeld:
    begins = datetime.combine(day, time(19), UTC)
    return c.SessionHeld(
        HeldSession(f"s-{day}", begins, begins + timedelta(hours=2), people, words="")
    )


def _ordered(
    key: str,
    promised: date | None,
    shop: str = "an invented shop",
    ordered: date = date(2026, 2, 1),
) -> c.OrderSet:
    return c.OrderSet(OrderLine(key, key, None, 1, shop, ordered_on=ordered, expected_on=promised))


def _garage(*more: c.Change) -> Build:
    return build_of([*garage_changes(), *more])


# --- hours ---------------------------------------------------------------------------------------


def test_only_jobs_that_were_estimated_done_and_timed_tell_of_the_pace() -> None:
    build = _garage(
        *(c.JobSet(job(name)) for name in ("timed", "untimed", "before", "open", "off")),
        c.JobFinished("timed", 2.0),
        c.JobFinished("untimed"),
        c.JobDoneBefore("before"),
        c.JobWorked("open", 1.0),
        c.JobFinished("off", 1.0),
        c.JobTakenOff("off"),
    )
    (timed,) = finished_jobs(build)
    assert (timed.job_id, timed.likely_minutes, timed.taken_minutes) == ("timed", 60, 120)


def test_jobs_are_told_in_the_order_they_were_finished() -> None:
    build = _garage(c.JobSet(job("late")), c.JobSet(job("soon")))
    build = later(build, c.JobFinished("late", 1.0), at=NOW)
    build = later(build, c.JobFinished("soon", 1.0), at=NOW - timedelta(days=3))
    assert [one.job_id for one in finished_jobs(build)] == ["soon", "late"]


def test_the_plan_is_told_the_paces_and_how_sure_they_are() -> None:
    build = _garage(*(c.JobSet(job(f"j{n}")) for n in range(9)))
    before = plan_question(build, NOW).problem
    slow = later(build, *(c.JobFinished(f"j{n}", 1.6) for n in range(8)))
    after = plan_question(slow, NOW).problem
    assert pace_belief(slow).of("brakes").factor > 1.25
    assert after.luck.pace_spread < before.luck.pace_spread
    assert after.luck.spread_shape > before.luck.spread_shape
    assert {pace.system for pace in after.paces} == {"", "brakes"}


# --- parts ---------------------------------------------------------------------------------------


def test_an_order_is_late_against_the_first_date_that_was_given() -> None:
    build = _garage(_ordered("hose", date(2026, 2, 10)))
    moved = later(build, c.OrderExpected("hose", date(2026, 3, 1)), at=NOW - timedelta(days=9))
    came = later(moved, c.GoodsChecked("hose", GoodsIn.RIGHT, 1), at=NOW - timedelta(days=4))
    (outcome,) = outcomes_of(came, NOW)
    assert outcome.days_late == 18  # 28 February, promised for the 10th
    assert outcome.lead_days == 27
    assert (outcome.deliveries, outcome.wrong) == (1, 0)


def test_an_order_without_a_date_is_neither_late_nor_in_time() -> None:
    (outcome,) = outcomes_of(_garage(_ordered("hose", None)), NOW)
    assert (outcome.days_late, outcome.overdue_days) == (None, 0.0)


def test_an_order_that_should_be_here_is_late_so_far_unless_it_was_cancelled() -> None:
    build = _garage(_ordered("hose", date(2026, 2, 22)))
    assert outcomes_of(build, NOW)[0].overdue_days == 10
    gone = later(build, c.OrderCancelled("hose"))
    assert outcomes_of(gone, NOW)[0].overdue_days == 0


def test_wrong_and_damaged_deliveries_count_against_the_shop_and_short_ones_do_not() -> None:
    line = OrderLine("clips", "clips", None, 9, "an invented shop", ordered_on=date(2026, 2, 1))
    outcomes = (GoodsIn.WRONG, GoodsIn.DAMAGED, GoodsIn.SHORT, GoodsIn.UNLIKE)
    build = _garage(c.OrderSet(line), *(c.GoodsChecked("clips", how, 1) for how in outcomes))
    (outcome,) = outcomes_of(build, NOW)
    assert (outcome.deliveries, outcome.wrong) == (4, 2)
    bad = believed_of(build, NOW)(GENERAL, "an invented shop").wrong.mean
    assert bad > believed_of(_garage(), NOW)(GENERAL, "an invented shop").wrong.mean


def test_the_plan_expects_a_part_as_its_own_shop_has_it() -> None:
    orders: list[c.Change] = []
    for number in range(8):
        for shop, late in (("Slow and Sons", 12), ("Prompt Parts", 0)):
            key = f"{shop.split()[0]}-{number}"
            promised = date(2026, 1, 20) - timedelta(days=late)
            orders.append(_ordered(key, promised, shop, date(2026, 1, 1)))
    build = _garage(
        c.JobSet(job("fit")),
        *(c.NeedSet(Need(key, key, "fit")) for key in ("a", "b")),
        *orders,
    )
    came = [c.GoodsChecked(order.line.id, GoodsIn.RIGHT, 1) for order in orders
            if isinstance(order, c.OrderSet)]  # fmt: skip
    build = later(build, *came, at=datetime(2026, 1, 20, 12, tzinfo=UTC))
    due = date(2026, 3, 20)
    lines = [
        OrderLine("oa", "a", "a", 1, "Slow and Sons", expected_on=due),
        OrderLine("ob", "b", "b", 1, "Prompt Parts", expected_on=due),
    ]
    build = later(build, *(c.OrderSet(line) for line in lines))
    slow, prompt = plan_question(build, NOW).problem.arrivals
    assert slow.expected_minute == prompt.expected_minute
    assert slow.late_share > 0.6
    assert prompt.late_share < 0.25
    assert slow.belief is not None
    assert (slow.belief.name, slow.belief.orders, slow.belief.came_late) == ("Slow and Sons", 8, 8)


def test_what_is_not_ordered_takes_as_long_as_this_owners_orders_take() -> None:
    looked = [c.JobSet(job("fit")), c.NeedSet(Need("a", "a", "fit")), c.NeedNotHere("a")]
    plain = plan_question(_garage(*looked), NOW).problem.arrivals[0]
    assert plain.lead_minutes == 14 * 24 * 60
    build = _garage(*looked, *(_ordered(f"o{n}", date(2026, 3, 1)) for n in range(9)))
    slow = later(
        build,
        *(c.GoodsChecked(f"o{n}", GoodsIn.RIGHT, 1) for n in range(9)),
        at=datetime(2026, 3, 3, tzinfo=UTC),
    )
    lead = plan_question(slow, NOW).problem.arrivals[0].lead_minutes
    assert lead is not None
    assert lead / 1440 == pytest.approx((6 * 14 + 9 * 30) / 15, abs=0.01)


# --- sessions ------------------------------------------------------------------------------------


def _weeks(*held: int, people: int = 2) -> Build:
    """Wednesday evenings and Saturdays; so many sessions held in each week before now."""
    monday = date(2026, 3, 2) - timedelta(weeks=len(held))
    sessions = []
    for week, count in enumerate(held):
        days = [monday + timedelta(weeks=week, days=day) for day in (2, 5)]
        sessions += [_evening(day, people) for day in days[:count]]
    return _garage(*sessions)


def test_whole_weeks_and_single_sessions_that_were_lost_are_told_apart() -> None:
    found = attended(_weeks(2, 0, 1, 2, 0, 2), NOW)
    assert (found.weeks, found.weeks_lost) == (6, 2)
    assert (found.sessions, found.sessions_lost) == (8, 1)


def test_silence_since_the_last_entry_is_not_a_lost_week() -> None:
    assert attended(_weeks(2, 2, 0, 0), NOW).weeks == 2


def test_a_session_on_another_day_is_not_lost() -> None:
    moved = _garage(_evening(date(2026, 2, 19)), _evening(date(2026, 2, 20)))
    assert attended(moved, NOW).sessions_lost == 0


def test_hours_told_of_a_day_show_that_there_was_a_session() -> None:
    build = _garage(c.JobSet(job("pipe")))
    for day in (18, 21):
        build = later(build, c.JobWorked("pipe", 1.0), at=datetime(2026, 2, day, 20, tzinfo=UTC))
    found = attended(build, NOW)
    assert (found.weeks, found.weeks_lost, found.sessions_lost) == (1, 0, 0)


def test_this_week_is_not_judged_before_it_is_over() -> None:
    assert attended(_garage(_evening(date(2026, 3, 2))), NOW).weeks == 0


def test_a_helper_who_did_not_come_is_counted_where_one_was_to_come() -> None:
    came, alone = attended(_weeks(2, 2, people=2), NOW), attended(_weeks(2, 2, people=1), NOW)
    assert (came.helped, came.no_shows) == (2, 0)  # Saturdays only
    assert (alone.helped, alone.no_shows) == (2, 2)


def test_a_day_called_off_is_a_session_lost() -> None:
    build = later(_weeks(1, 2), c.ExceptionSet(SessionException(date(2026, 2, 21))))
    assert attended(build, NOW).sessions_lost == 1


def test_no_usual_sessions_or_no_record_says_nothing() -> None:
    assert attended(Build(), NOW).weeks == 0
    assert attended(_garage(), NOW).weeks == 0
    once = build_of([ch for ch in garage_changes() if not isinstance(ch, c.PatternSet)])
    assert attended(later(once, _evening(date(2026, 2, 18))), NOW).weeks == 0


def test_the_plan_loses_sessions_as_this_owner_does() -> None:
    steady = plan_question(_weeks(*[2] * 12), NOW).problem.luck
    busy = plan_question(_weeks(*[2, 0] * 6), NOW).problem.luck
    assert busy.lost_week_share > 0.15
    assert steady.lost_week_share < 0.05
    assert busy.lost_week_weight > 20
