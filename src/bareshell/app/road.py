"""The road ahead: every session until the car is on the road, and when that may be."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.app.tonight import SEED, Unchecked, is_set_up
from bareshell.plan.asitis import AsItIs
from bareshell.plan.road import road as plan_road
from bareshell.whole.plan_problem import plan_question
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
    build = door.build()
    now = door.now().replace(second=0, microsecond=0)
    question = plan_question(build, now)
    as_it_is = AsItIs(already_set_up=is_set_up(build, question.problem, now))
    planned = plan_road(question.problem, as_it_is, seed=SEED, samples=samples)
    if planned.violations:
        broken = planned.violations[0]
        raise Unchecked(
            f"the plan broke the rule '{broken.rule}' ({broken.sentence}), so it is not shown",
            "report this with the journal's export",
        )
    return road_overview(build, question, planned)
