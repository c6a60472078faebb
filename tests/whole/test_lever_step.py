"""A lever leads to a trial that means the same change."""

from __future__ import annotations

import pytest

from bareshell.plan.lever_kinds import (
    garage_kept_warm,
    helper_comes_too,
    helper_every_time,
    session_more,
)
from bareshell.whole.lever_step import lever_step
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.trial_steps import changes_of, parse_step
from tests.stories import NOW, later, small_car


def test_the_trial_of_a_lever_changes_the_plan_as_the_lever_does() -> None:
    build = small_car()
    problem = plan_question(build, NOW).problem
    alone = next(slot for slot in problem.sessions.slots if slot.people == 1)
    for lever in (
        garage_kept_warm(18.0, nights=True),
        garage_kept_warm(18.0, nights=False),
        helper_comes_too(alone, "that day"),
        session_more(problem.sessions.slots[0], 2),
    ):
        step = lever_step(build, problem, lever)
        assert step, lever.title
        copy = later(build, *changes_of(parse_step(step), build, NOW))
        tried = plan_question(copy, NOW).problem.sessions
        levered = lever.change(problem).sessions
        for slot, meant in zip(tried.slots[:12], levered.slots[:12], strict=True):
            assert (slot.start_minute, slot.people) == (meant.start_minute, meant.people)
            assert slot.temperature_c == pytest.approx(meant.temperature_c, abs=1.0)


def test_what_no_change_brings_about_has_no_trial() -> None:
    build = small_car()
    problem = plan_question(build, NOW).problem
    assert lever_step(build, problem, helper_every_time("nobody's evening")) == ""
