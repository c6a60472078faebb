"""Checks on joints: both sides of each held against each other, nuts against pipes, hoses, ways."""

from __future__ import annotations

from collections.abc import Iterator

from bareshell.brakes.finding import Finding, finding, listed
from bareshell.brakes.fittings import same_thread, usual_threads
from bareshell.brakes.joints import Joint, joint_schedule
from bareshell.brakes.pipe_sheet import pipe_sheet
from bareshell.model.brake import BrakeSystem, Line, LineKind
from bareshell.model.trust import Stated
from bareshell.units import show_length

__all__ = ["joint_findings"]

_HOW_TO_FIND = {
    "thread": "measure the outside and count the pitch against a gauge or a known nut",
    "sex": "say which side is male",
    "seat": "look into the port with a lamp: a raised cone, a hollow, or a flat for a washer",
    "flare": "look at the end of the old pipe: two folds to a funnel, or a rounded bead",
    "pipe size": "measure it where it is round: 4.75 mm (3/16 in) and 6.35 mm (1/4 in) are usual",
}

_SLACK_SHARE = 0.05

_ROUGH_SHARE = 0.2
"""How much of a way may be only how roughly it was drawn."""


def joint_findings(system: BrakeSystem) -> Iterator[Finding]:
    """Look at the joints and hoses of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    """
    schedule = joint_schedule(system)
    for joint in schedule.joints:
        yield from _agreement(joint)
        yield from _nut_and_pipe(joint)
        yield from _flare(joint)
    yield from _asked(schedule.joints)
    yield from _hoses(system)
    yield from _ways(system)
    yield from _materials(system)


def _agreement(joint: Joint) -> Iterator[Finding]:
    if joint.agreement != "differs":
        return
    near = "strips" in joint.trouble
    yield finding(
        "near-miss thread" if near else "joint does not agree",
        joint.line,
        f"joint {joint.number}, {joint.words}",
        joint.trouble,
        "never force it: find the nut that is made for the port, or change the pipe's end"
        if near
        else "look at both sides again; thread, sex, seat and flare must all agree",
        "stops",
    )


def _nut_and_pipe(joint: Joint) -> Iterator[Finding]:
    if joint.pipe_diameter_m is None or not joint.thread:
        return
    usual = usual_threads(joint.pipe_diameter_m)
    if not usual or any(same_thread(each, joint.thread) for each in usual):
        return
    yield finding(
        "nut and pipe",
        joint.line,
        f"joint {joint.number}, {joint.words}",
        f"a {joint.thread} nut is unusual on a pipe of {show_length(joint.pipe_diameter_m)}",
        f"measure the nut's hole and the pipe again; usual are {listed(usual, 8)}",
        "doubtful",
    )


def _flare(joint: Joint) -> Iterator[Finding]:
    where = f"joint {joint.number}, {joint.words}"
    if joint.flare.startswith("single"):
        yield finding(
            "single flare",
            joint.line,
            where,
            f"its flare is a {joint.flare} one, which splits under the pressure of brakes",
            "make a double or a convex flare to suit the seat; no single flare and no "
            "compression fitting in brakes",
            "stops",
        )
    own = joint.sides[0].fitting
    metric = own.thread.casefold().startswith("m")
    usual = {"male": "convex single", "female": "double 45 degree"}.get(own.sex)
    if metric and own.flare and usual and own.flare != usual and joint.agreement != "differs":
        yield finding(
            "flare and nut",
            joint.line,
            where,
            f"a metric {own.sex} nut usually goes with a {usual} flare; this one is {own.flare}",
            "hold the old pipe's end beside it before you make the new one",
            "doubtful",
        )


def _asked(joints: tuple[Joint, ...]) -> Iterator[Finding]:
    """Ask once for each kind of thing that is not known, not once for each joint."""
    for what, how in _HOW_TO_FIND.items():
        asked = [joint for joint in joints if what in joint.asked]
        if asked:
            numbers = listed((str(joint.number) for joint in asked), 12)
            named = f"joint{'s' if len(asked) > 1 else ''} {numbers}"
            yield finding(
                f"{what} not known",
                asked[0].line,
                f"{what} of {'every joint' if len(asked) == len(joints) else named}",
                "is not known",
                how,
                "note",
            )


def _hoses(system: BrakeSystem) -> Iterator[Finding]:
    not_measured: list[Line] = []
    for line in system.lines:
        if line.kind is not LineKind.HOSE:
            continue
        free, reach = line.figures.get("length_m"), line.figures.get("reach_m")
        if free is None or reach is None:
            not_measured.append(line)
        else:
            yield from _in_tension(line, free, reach)
    if not_measured:
        one = len(not_measured) == 1
        yield finding(
            "hose not measured",
            not_measured[0].id,
            listed(line.title for line in not_measured),
            f"free length or reach {'is' if one else 'are'} not known, so nobody can say whether "
            f"{'it is' if one else 'they are'} long enough",
            "measure each hose, and between its ends with the wheel hanging at full lock",
            "doubtful",
        )


def _in_tension(line: Line, free: Stated, reach: Stated) -> Iterator[Finding]:
    most = reach.value if reach.high is None else reach.high
    least = free.value if free.low is None else free.low
    if most > least:
        yield finding(
            "hose in tension",
            line.id,
            line.title,
            f"its ends come {show_length(most)} apart and it is {show_length(least)} long: it "
            "would be pulled",
            "a longer hose, or another bracket",
            "stops",
        )
    elif most > least * (1 - _SLACK_SHARE):
        yield finding(
            "hose nearly in tension",
            line.id,
            line.title,
            f"its ends come {show_length(most)} apart and it is only {show_length(least)} long",
            "leave slack at full droop and full lock, measured with the car on stands",
            "doubtful",
        )


def _ways(system: BrakeSystem) -> Iterator[Finding]:
    """Ask about pipes that are said to be shorter than their own way seen from above."""
    for made in pipe_sheet(system).pipes:
        rises, way = made.rises_m, made.plan_m
        if rises is None or way is None or rises >= -_ROUGH_SHARE * way:
            continue
        yield finding(
            "pipe shorter than its way",
            made.pipe.line,
            f"{made.pipe.title}, length",
            f"it is said to be {show_length(way + rises)} long, and its way from above is "
            f"{show_length(way)} without any rise",
            "measure along the shell with wire or string before you cut; if the length stands, put "
            "its ends and corners where they are on this car",
            "doubtful",
        )


def _materials(system: BrakeSystem) -> Iterator[Finding]:
    for line in system.lines:
        if line.choices.get("material") == "copper":
            yield finding(
                "copper pipe",
                line.id,
                f"{line.title}, material",
                "plain copper work-hardens and cracks where it shakes",
                "see whether local rules allow it; copper-nickel and steel are made for brakes",
                "doubtful",
            )
