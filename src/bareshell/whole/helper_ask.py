"""For which days to ask the helper, in words."""

from __future__ import annotations

from datetime import date

from bareshell.model import Build
from bareshell.plan.helper_days import HelperDays
from bareshell.plan.problem import PlanProblem
from bareshell.whole.forecast_parts import HelperAsk, HelperDayLine
from bareshell.whole.garage_time import zone_of
from bareshell.whole.work_left import hours_left

__all__ = ["helper_ask"]

_COUNT = {1: "this day", 2: "these two days", 3: "these three days", 4: "these four days"}


def helper_ask(build: Build, problem: PlanProblem, found: HelperDays | None) -> HelperAsk | None:
    """Put the days to ask for into the types of the page.

    Parameters
    ----------
    build : Build
        For the owner's days.
    problem : PlanProblem
        What was planned.
    found : HelperDays or None
        What was found.

    Returns
    -------
    HelperAsk or None
        None when no work for two is left, or there is nothing to plan.
    """
    hours = hours_left(problem, helper=True)
    if found is None or not (hours or found.ask):
        return None
    zone = zone_of(build)
    titles = {job.id: job.title for job in problem.jobs}
    lines = tuple(
        HelperDayLine(
            problem.when(day.start_minute).astimezone(zone),
            round(day.minutes / 60, 1),
            day.job_ids,
            tuple(titles[job] for job in day.job_ids if job in titles),
        )
        for day in found.ask
    )
    spared = tuple(problem.when(minute).astimezone(zone).date() for minute in found.spared)
    until = problem.when(found.until_minute).astimezone(zone).date()
    return HelperAsk(lines, spared, hours, until, _words(lines, spared, hours, until, found))


def _words(
    lines: tuple[HelperDayLine, ...],
    spared: tuple[date, ...],
    hours: float,
    until: date,
    found: HelperDays,
) -> str:
    left = f"{hours:g} h of two-person work are left"
    if not lines:
        return f"No day until {until.day} {until:%B} wants the helper; {left}."
    which = _COUNT.get(len(lines), f"these {len(lines)} days")
    days = ", ".join(f"{one.starts_at:%A} {one.starts_at.day} {one.starts_at:%B}" for one in lines)
    said = f"Ask for {which}: {days}. {left[:1].upper()}{left[1:]}."
    if spared and found.samples:
        other = "The other day" if len(spared) == 1 else f"The other {len(spared)} days"
        said += (
            f" {other} until {until.day} {until:%B} on which the helper would come can be spared: "
            "over the same futures no difference shows."
        )
    return said
