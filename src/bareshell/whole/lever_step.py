"""A lever as a change to try on a copy, where a person can bring it about by a change."""

from __future__ import annotations

from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.plan.lever_kinds import Lever
from bareshell.plan.problem import PlanProblem
from bareshell.whole.garage_time import zone_of
from bareshell.whole.rule_words import DAYS

__all__ = ["lever_step"]


def lever_step(build: Build, problem: PlanProblem, lever: Lever) -> str:
    """Return the change that a trial would make of a lever; empty where there is none.

    Parameters
    ----------
    build : Build
        With its garage time.
    problem : PlanProblem
        What the lever was tried on.
    lever : Lever
        What could be different.

    Returns
    -------
    str
        As `trial_steps.parse_step` reads it, such as ``part:hose=-7``.
    """
    if lever.kind == "part":
        return f"part:{lever.ref}=-7"
    if lever.kind == "left out":
        return f"without:{lever.ref}"
    if lever.kind == "warmth":
        return f"heated:{lever.ref}"
    if lever.kind == "helper":
        return _helper(build, problem, lever.ref)
    if lever.kind == "session":
        return _session(build, problem, lever.ref)
    return ""


def _helper(build: Build, problem: PlanProblem, ref: str) -> str:
    if ref.isdigit():
        return f"helper:{_moment(build, problem, int(ref)):%Y-%m-%d}"
    called = [key for key, pattern in build.patterns.items() if pattern.title == ref]
    return f"helper:{called[0]}" if len(called) == 1 else ""


def _session(build: Build, problem: PlanProblem, ref: str) -> str:
    begins, _, later = ref.partition("+")
    slots = problem.sessions.slots
    like = next((slot for slot in slots if slot.start_minute == int(begins)), None)
    if like is None:
        return ""
    starts = _moment(build, problem, like.start_minute)
    day = list(DAYS)[(starts.weekday() + int(later)) % 7]
    return f"session:{day}={starts:%H:%M}/{like.minutes}"


def _moment(build: Build, problem: PlanProblem, minute: int) -> datetime:
    return (problem.origin + timedelta(minutes=minute)).astimezone(zone_of(build))
