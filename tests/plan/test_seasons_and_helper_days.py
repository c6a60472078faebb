"""What the cold keeps, and for which days to ask the helper."""

from __future__ import annotations

from dataclasses import replace

from bareshell.plan.helper_days import HelperDays, helper_days
from bareshell.plan.jobs import Link, PlanJob
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready, ready
from bareshell.plan.seasons import Season, seasons
from bareshell.plan.sessions import WEEK_MINUTES, SessionSlot, SessionSource
from bareshell.plan.walk import walk
from tests.plan.garages import ORIGIN, evenings, hours

JULY = 100 * 24 * 60


def _season(job: PlanJob) -> Season | None:
    problem = PlanProblem(ORIGIN, (job,), evenings())
    found = seasons(problem, walk(problem, ready(problem, seed=1, engine="plain").policy).schedule)
    return found[0] if found else None


def _job(key: str, **rest: object) -> PlanJob:
    return PlanJob(key, key.capitalize(), "body", (hours(1),), **rest)  # type: ignore[arg-type]


def test_what_the_next_session_is_warm_enough_for_waits_for_no_season() -> None:
    assert _season(_job("clip", min_temperature_c=5)) is None
    assert _season(_job("bolt")) is None


def test_the_season_opens_with_the_first_warm_session_and_the_plan_keeps_to_it() -> None:
    found = _season(_job("glue", min_temperature_c=16))
    assert found is not None
    assert found.opens_minute is not None
    assert found.closes_minute is not None
    assert found.planned_minute is not None
    slots = [s for s in evenings().slots if s.start_minute < found.closes_minute]
    first = next(s for s in slots if (s.temperature_c or 0) >= 16)
    assert found.opens_minute == first.start_minute
    assert first.start_minute <= found.planned_minute <= first.end_minute


def test_a_cure_opens_the_season_later_and_work_for_two_on_a_day_of_the_helper() -> None:
    plain = _season(_job("glue", min_temperature_c=16))
    cured = _season(_job("glue", min_temperature_c=16, cure_minutes=4 * 24 * 60))
    two = _season(replace(_job("glue", min_temperature_c=14), ways=(hours(1, people=2),)))
    assert plain is not None
    assert cured is not None
    assert two is not None
    assert (plain.opens_minute or 0) < (cured.opens_minute or 0)
    (day,) = (s for s in evenings().slots if s.start_minute == two.opens_minute)
    assert day.people == 2


def test_a_warmth_that_never_comes_has_no_day() -> None:
    problem = PlanProblem(ORIGIN, (_job("bake", min_temperature_c=60),), evenings())
    (found,) = seasons(
        problem, walk(problem, ready(problem, seed=1, engine="plain").policy).schedule
    )
    assert (found.opens_minute, found.planned_minute) == (None, None)


# --- the helper ----------------------------------------------------------------------------------


def _saturdays(weeks: int) -> SessionSource:
    """An evening alone first, then Saturdays to which the helper comes."""
    days = [SessionSlot(week * WEEK_MINUTES + 7_000, 360, people=2) for week in range(weeks)]
    return SessionSource.repeating([SessionSlot(60, 150), *days], weeks)


def _asked(jobs: tuple[PlanJob, ...], weeks: int = 10) -> tuple[Ready, HelperDays]:
    made = ready(PlanProblem(ORIGIN, jobs, _saturdays(weeks)), seed=3)
    return made, helper_days(made, walk(made.problem, made.policy).schedule, samples=100)


def _two(key: str, likely: float, *after: str) -> PlanJob:
    links = tuple(Link(job) for job in after)
    return PlanJob(key, key.capitalize(), "engine", (hours(likely, people=2),), links)


def test_one_long_day_is_asked_for_rather_than_every_week() -> None:
    jobs = (
        _two("lift", 1),
        _two("tank", 1),
        PlanJob("late", "Late", "body", (hours(1),), earliest_minute=9 * WEEK_MINUTES),
    )
    made, found = _asked(jobs)
    assert len(found.ask) == 1
    assert set(found.ask[0].job_ids) == {"lift", "tank"}
    assert len(found.spared) == 9
    assert made.engine.name == "plain" or found.cost_days <= 0.5


def test_days_that_are_needed_one_after_the_other_are_all_asked_for() -> None:
    jobs = tuple(_two(f"step{n}", 3.5, *((f"step{n - 1}",) if n else ())) for n in range(4))
    _, found = _asked(jobs)
    assert [len(day.job_ids) > 0 for day in found.ask] == [True] * len(found.ask)
    assert len(found.ask) >= 3


def test_with_nothing_for_two_nobody_is_asked() -> None:
    _, found = _asked((PlanJob("wax", "Wax", "body", (hours(1),)),))
    assert found.ask == ()
    assert found.samples == 0
