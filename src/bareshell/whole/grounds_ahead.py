"""What stands ahead opened up: hours job by job, the bound, last days to order, what holds it."""

from __future__ import annotations

from datetime import date, timedelta
from math import ceil

from bareshell.model import Build
from bareshell.plan.hours import planned_minutes, quickest
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.road import OrderBy, Road
from bareshell.whole.forecast_parts import ASSUMED, RECKONED, Grounds
from bareshell.whole.garage_time import zone_of
from bareshell.whole.last_days import NINE_IN_TEN, SHARES, allowance_days, last_day
from bareshell.whole.work_left import hours_left

__all__ = ["bound_grounds", "hold_grounds", "order_grounds", "together_grounds", "work_grounds"]


def work_grounds(build: Build, road: Road) -> Grounds:
    """Open the hours left: by system, then job by job, each at the owner's pace."""
    # What cannot be planned as it stands is work left all the same.
    problem = road.prepared.asked
    by_system: dict[str, list[PlanJob]] = {}
    for job in problem.jobs:
        by_system.setdefault(job.system, []).append(job)
    systems = [_system(problem, system, jobs) for system, jobs in by_system.items()]
    told = sum(record.state.hours_left is not None for record in build.jobs.values())
    rests = "the likely hours of every open job, times your pace on its system, less what is done"
    if told:
        rests += "; your own word on what is left comes before the estimate"
    beneath = tuple(sorted(systems, key=lambda one: -float(str(one.value))))
    return Grounds("work left", hours_left(problem), "h", rests, RECKONED, beneath, "work")


def together_grounds(road: Road) -> Grounds:
    """Open the hours that cannot be done alone, job by job."""
    problem = road.prepared.asked
    jobs = [job for job in problem.jobs if all(way.people > 1 for way in job.ways)]
    return Grounds(
        "of it for two people",
        hours_left(problem, helper=True),
        "h",
        "jobs of which no way of doing them alone is known",
        RECKONED,
        tuple(_job(problem, job) for job in _longest(problem, jobs)),
        "together",
    )


def bound_grounds(build: Build, road: Road) -> Grounds | None:
    """Open the day before which no order of jobs gets there, and how far the plan is from it."""
    least, finish = road.bound.finish_minute, road.schedule.finish_minute
    if not least or finish is None:
        return None

    def day(minute: int) -> date:
        return road.problem.when(minute).astimezone(zone_of(build)).date()

    plan = Grounds(
        "the plan's own last day",
        day(finish),
        "day",
        "every session walked through once, hours and arrivals exactly as estimated; no forecast",
        RECKONED,
    )
    between = Grounds(
        "between the two",
        round((finish - least) / 1440, 1),
        "days",
        "no other order of the jobs can gain more than this",
        RECKONED,
    )
    return Grounds(
        "no order of jobs gets there before",
        day(least),
        "day",
        "one pair of hands and the working time of the sessions alone: the job with most work "
        "behind it first, interrupted where need be (Jackson 1955, Carlier 1982; from memory)",
        RECKONED,
        (plan, between),
        "bound",
    )


def order_grounds(build: Build, road: Road) -> Grounds | None:
    """Open the last day to order each part: when it is wanted, less what ordering takes."""
    beliefs = {one.id: one.belief for one in road.problem.arrivals}
    found = [
        _last_day(build, road, one)
        for one in road.order_by
        if one.order_by_minute is not None and beliefs.get(one.arrival_id) is not None
    ]
    if not found:
        return None
    return Grounds(
        "parts to order",
        len(found),
        "",
        "parts that are neither here nor on order, each by its last day for nine in ten in time",
        RECKONED,
        tuple(sorted(found, key=lambda one: str(one.value))),
        "orders",
    )


def hold_grounds(road: Road) -> Grounds | None:
    """Open what holds it up: in how many futures each was on the chain that set the date."""
    if not road.binds:
        return None
    rests = f"of {road.samples:,} futures, those in which it was on the chain that set the date"
    beneath = tuple(
        Grounds(
            one.title,
            round(100 * one.share, 1),
            "in 100",
            rests
            + (f"; alone it took {one.days:.1f} days on average over all" if one.days else ""),
            RECKONED,
        )
        for one in road.binds
    )
    return Grounds(
        "what holds it up",
        len(beneath),
        "",
        "each future is walked through, and from its last job back the chain is followed: a job, "
        "a part, the helper, warmth, a wait or no session; in one future several can be on it",
        RECKONED,
        beneath,
        "holds",
    )


def _system(problem: PlanProblem, system: str, jobs: list[PlanJob]) -> Grounds:
    minutes = sum(min(planned_minutes(problem, job).values()) for job in jobs)
    count = "one job" if len(jobs) == 1 else f"{len(jobs)} jobs"
    return Grounds(
        system,
        round(minutes / 60, 1),
        "h",
        f"{count}, at your pace",
        RECKONED,
        tuple(_job(problem, job) for job in _longest(problem, jobs)),
    )


def _longest(problem: PlanProblem, jobs: list[PlanJob]) -> list[PlanJob]:
    return sorted(jobs, key=lambda job: -min(planned_minutes(problem, job).values()))


def _job(problem: PlanProblem, job: PlanJob) -> Grounds:
    planned = planned_minutes(problem, job)
    people = min(planned, key=lambda count: (planned[count], count))
    way = quickest(job)[people]
    known = {pace.system: pace.factor for pace in problem.paces}
    pace = known.get(job.system, known.get("", 1.0))
    rests = (
        f"{way.likely_minutes / 60:.1f} h estimated ({way.optimistic_minutes / 60:.1f} to "
        f"{way.pessimistic_minutes / 60:.1f}), times {pace:.2f}"
    )
    if job.minutes_done:
        rests += f", less {job.minutes_done / 60:.1f} h done"
    if people > 1:
        rests += ", for two"
    return Grounds(job.title, round(planned[people] / 60, 1), "h", rests, ASSUMED)


def _last_day(build: Build, road: Road, one: OrderBy) -> Grounds:
    problem = road.problem
    belief = next(arrival.belief for arrival in problem.arrivals if arrival.id == one.arrival_id)
    if belief is None:  # not reached: only parts with a belief are asked about
        raise ValueError(one.arrival_id)
    needed = problem.when(one.wanted_minute).astimezone(zone_of(build)).date()
    lead = ceil(belief.lead_days)
    where = belief.name or "nobody yet"
    words = {0.8: "eight in ten", NINE_IN_TEN: "nine in ten", 0.95: "19 in 20"}
    shares = tuple(
        Grounds(
            f"so that {words[share]} are here in time",
            last_day(needed, belief, share),
            "day",
            f"{allowance_days(belief, share)} days more for late and wrong deliveries",
            RECKONED,
        )
        for share in SHARES
    )
    wanted = Grounds(
        "wanted", needed, "day", "when the plan begins with the first job for it", RECKONED
    )
    ordered = Grounds(
        "if all went well",
        needed - timedelta(days=lead),
        "day",
        f"{lead} days from ordering to the door; ordered from: {where}",
        RECKONED,
    )
    return Grounds(
        one.title,
        last_day(needed, belief, NINE_IN_TEN),
        "day",
        "the day it is wanted, less the days from ordering to the door, less an allowance",
        RECKONED,
        (wanted, ordered, *shares),
        f"order-{one.arrival_id}",
    )
