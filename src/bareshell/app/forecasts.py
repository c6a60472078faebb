"""Keeping forecasts, so that they can be held against what comes, and what moves the date."""

from __future__ import annotations

from bareshell.app.correcting import BY_ITSELF
from bareshell.app.door import Door
from bareshell.app.following import rule_to_follow
from bareshell.app.tonight import SEED, is_set_up, only_checked
from bareshell.app.written import Pen, Written, write_down
from bareshell.errors import Refused
from bareshell.model import Build
from bareshell.model.changes import ForecastIssued
from bareshell.plan.asitis import AsItIs
from bareshell.plan.milestones import goals_of_gates, reached
from bareshell.plan.moving import moving
from bareshell.plan.ready import Ready, ready
from bareshell.plan.road import road as plan_road
from bareshell.plan.stability import fortnight
from bareshell.whole.forecast_answer import levers_overview, may_be_left_out, may_be_lent
from bareshell.whole.forecast_parts import LeversOverview
from bareshell.whole.issued import issued_now, keep_again
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.work_left import hours_left

SAMPLES = 2000
"""How many futures are asked."""

KEPT = "Today's forecast is kept, to be held against what comes."


def levers(door: Door, *, samples: int = SAMPLES) -> LeversOverview:
    """Measure what would move the date, and count what holds it up.

    Parameters
    ----------
    door : Door
        The build.
    samples : int
        On how many futures what binds is counted.

    Raises
    ------
    Unchecked
        When the plan behind the helper's days breaks a rule; it is not shown.
    """
    build = door.build()
    now = door.now().replace(second=0, microsecond=0)
    problem = plan_question(build, now).problem
    found = moving(
        problem,
        AsItIs(already_set_up=is_set_up(build, problem, now)),
        seed=SEED,
        samples=samples,
        policy=rule_to_follow(build, problem, now, seed=SEED),
        may_be_left_out=may_be_left_out(build),
        may_be_lent=may_be_lent(build),
    )
    if found.helper is not None:
        only_checked(found.helper.violations)
    return levers_overview(build, found)


def keep_forecast(door: Door, pen: Pen | None = None, *, samples: int = SAMPLES) -> Written:
    """Keep today's forecast and the next two weeks, to be held against what comes.

    Parameters
    ----------
    door : Door
        The build.
    pen : Pen or None
        Who says so.
    samples : int
        How many futures it is drawn from.

    Raises
    ------
    Refused
        When there is nothing to foretell: no session leads to the road.
    """
    build = door.build()
    now = door.now().replace(second=0, microsecond=0)
    problem = plan_question(build, now).problem
    as_it_is = AsItIs(already_set_up=is_set_up(build, problem, now))
    rule = rule_to_follow(build, problem, now, seed=SEED)
    planned = plan_road(problem, as_it_is, seed=SEED, samples=samples, policy=rule)
    if planned.forecast is None or not planned.reaches_road or planned.violations:
        raise Refused(
            "no forecast",
            "with the sessions there are, the road is not reached, so there is no forecast to keep",
            "look at what is never reached as it stands, then ask again",
        )
    made = ready(planned.problem, seed=SEED, policy=planned.policy)
    said = issued_now(
        build,
        planned.problem,
        planned.forecast,
        # Without a compiler the gates would take minutes; the road alone is kept.
        reached(made, _of_the_build(build, made)) if made.engine.name == "compiled" else {},
        fortnight(planned.problem, planned.schedule),
        hours_left=hours_left(planned.problem),
        seed=SEED,
    )
    pen = pen or Pen()
    # Said again the same day it takes the place of the first: there is nothing to settle.
    return write_down(door, ForecastIssued(said), Pen(pen.author, pen.entry_id), KEPT)


def _of_the_build(build: Build, made: Ready) -> dict[str, tuple[str, ...]]:
    """Name what each of the build's own gates is reached by; the plan has others before them."""
    return {gate: jobs for gate, jobs in goals_of_gates(made).items() if gate in build.gates}


def keep_if_due(door: Door) -> Written | None:
    """Keep today's forecast if none was kept for about a week; None when it is not time.

    A build that leads to no road yet is left in peace.
    """
    if not keep_again(door.build(), door.now()):
        return None
    try:
        return keep_forecast(door, Pen(BY_ITSELF))
    except Refused:
        return None
