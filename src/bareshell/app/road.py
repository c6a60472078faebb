"""The road ahead: every session until the car is on the road, and when that may be."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.app.following import rule_to_follow
from bareshell.app.tonight import SEED, is_set_up, only_checked
from bareshell.model import Build
from bareshell.plan.asitis import AsItIs
from bareshell.plan.road import Road
from bareshell.plan.road import road as plan_road
from bareshell.whole.forecast_parts import GroundsOverview
from bareshell.whole.grounds import grounds_overview
from bareshell.whole.plan_problem import PlanQuestion, plan_question
from bareshell.whole.road_answer import road_overview
from bareshell.whole.road_parts import RoadOverview

SAMPLES = 2000
"""How many futures a page is answered from; a report may ask for more."""


def road(door: Door, *, samples: int = SAMPLES) -> RoadOverview:
    """Plan every session to the road and forecast the finish.

    Parameters
    ----------
    door : Door
        The build.
    samples : int
        How many futures the forecast is drawn from.

    Raises
    ------
    Unchecked
        When the checker finds the plan to break a rule; it is not shown.
    """
    return road_overview(*_planned(door, samples))


def grounds(door: Door, *, samples: int = SAMPLES) -> GroundsOverview:
    """Open the forecast down to what it rests on; takes and raises as `road`."""
    return grounds_overview(*_planned(door, samples))


def _planned(door: Door, samples: int) -> tuple[Build, PlanQuestion, Road]:
    build = door.build()
    return build, *planned_road(door, build, samples)


def planned_road(door: Door, build: Build, samples: int) -> tuple[PlanQuestion, Road]:
    """Plan a build as it stands, or a copy of it, by the rule that was given out.

    Parameters
    ----------
    door : Door
        For the time.
    build : Build
        What is planned.
    samples : int
        How many futures the forecast is drawn from.

    Raises
    ------
    Unchecked
        When the checker finds the plan to break a rule.
    """
    now = door.now().replace(second=0, microsecond=0)
    question = plan_question(build, now)
    as_it_is = AsItIs(already_set_up=is_set_up(build, question.problem, now))
    rule = rule_to_follow(build, question.problem, now, seed=SEED)
    planned = plan_road(question.problem, as_it_is, seed=SEED, samples=samples, policy=rule)
    only_checked(planned.violations)
    return question, planned
