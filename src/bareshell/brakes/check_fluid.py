"""Checks on bleeding and on the fluid: screws at the top, dead legs, grade, seals, reservoirs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bareshell.brakes.finding import Finding, finding, listed
from bareshell.brakes.fluid_mix import meetings
from bareshell.brakes.ways import DeadLeg, Ways, ways_of
from bareshell.calc.mixing import seal_rule
from bareshell.errors import Problem
from bareshell.model.brake import BrakeSystem, LineKind, Part, PartKind, Port

__all__ = ["fluid_findings", "fluid_of"]

_BRAKES = (PartKind.CALIPER, PartKind.WHEEL_CYLINDER)
_SEALED = (PartKind.MASTER, PartKind.REMOTE_SERVO, PartKind.VALVE, *_BRAKES)


def fluid_findings(system: BrakeSystem) -> Iterator[Finding]:
    """Look at how a system is bled and what it is filled with.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    """
    ways = ways_of(system)
    yield from _dead_legs(system, ways)
    yield from _tops(system)
    yield from _met(system)
    yield from _age(system)
    yield from _seals(system)
    yield from _reservoirs(system, ways)


def fluid_of(system: BrakeSystem) -> tuple[Part | None, str]:
    """Return the fluid of a system and its grade; an empty grade is not known.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    """
    fluids = system.of_kind(PartKind.FLUID)
    if not fluids:
        return None, ""
    grade = fluids[0].choices.get("grade", "")
    return fluids[0], "" if grade == "unknown" else grade


# --- bleeding ----------------------------------------------------------------------------------


def _dead_legs(system: BrakeSystem, ways: Ways) -> Iterator[Finding]:
    for leg in ways.dead:
        if leg.hangs_on is None:
            continue
        brakes = [part for part in leg.parts if system.part(part).kind in _BRAKES]
        if brakes:
            yield from _without_screw(system, leg, brakes)
        elif leg.ends_in:
            yield finding(
                "blanked leg",
                leg.ends_in[0],
                _titles(system, leg),
                "ends in a blank: it counts as bled only when its far end has been vented",
                "slacken the blank while fluid is pushed through, tighten it, and write it down; "
                "or take the leg off at the tee",
                "doubtful",
            )
        else:
            yield finding(
                "dead leg",
                (*leg.lines, *leg.parts)[0],
                _titles(system, leg),
                "leads to no bleed screw: its air stays, and is felt at the pedal",
                "give its end a bleed screw, or take it off",
                "stops",
            )


def _without_screw(system: BrakeSystem, leg: DeadLeg, brakes: list[str]) -> Iterator[Finding]:
    for brake in brakes:
        part = system.part(brake)
        if not any(port.bleeds for port in part.ports):
            yield finding(
                "no bleed screw",
                brake,
                part.title,
                "has no bleed screw, and no fluid flows through it to one: its air stays",
                "say which of its openings is the bleed screw, or find where it is bled",
                "stops",
            )
        else:
            yield finding(
                "no bleed screw",
                brake,
                part.title,
                f"a chamber of it has no bleed screw, behind {_titles(system, leg)}",
                "say which bleed screw opens that chamber",
                "stops",
            )


def _titles(system: BrakeSystem, leg: DeadLeg) -> str:
    if leg.lines:
        return listed(system.line(line).title for line in leg.lines)
    return listed(system.part(part).title for part in leg.parts)


def _tops(system: BrakeSystem) -> Iterator[Finding]:
    not_looked: list[Part] = []
    for part in system.of_kind(*_BRAKES):
        screws = [port for port in part.ports if port.bleeds]
        for chamber in dict.fromkeys(port.chamber for port in screws):
            here = [port for port in screws if port.chamber == chamber]
            if any(port.at_top for port in here):
                continue
            if all(port.at_top is False for port in here):
                yield _not_at_top(part, here[0])
            elif part not in not_looked:
                not_looked.append(part)
    if not_looked:
        named = listed(part.title for part in not_looked)
        yield finding(
            "bleed screw at the top",
            not_looked[0].id,
            f"bleed screws of {named}",
            "nobody has looked whether each is the highest opening as it is fitted",
            "look with the part in place: left and right look alike on the bench",
            "doubtful",
        )


def _not_at_top(part: Part, port: Port) -> Finding:
    return finding(
        "bleed screw at the top",
        part.id,
        f"{part.title}, {port.name}",
        "its bleed screw is not at the top: the air above it stays",
        "it may belong on the other side of the car; else take it off its mounting to bleed it, "
        "screw uppermost and the pistons held with a block",
        "stops",
    )


# --- fluid and seals ---------------------------------------------------------------------------


def _met(system: BrakeSystem) -> Iterator[Finding]:
    """Say which fluids and rubbers would meet; what is merely not known of a seal is not repeated.

    The whole list, seal by seal, stands beside the bleed plan.
    """
    ids = {part.title: part.id for part in system.parts}
    ids |= {line.title: line.id for line in system.lines}
    fluids = {part.id for part in system.of_kind(PartKind.FLUID)}
    alike: dict[tuple[str, str], list[Problem]] = {}
    for problem in meetings(system):
        if problem.severity != "note":
            alike.setdefault((problem.what, problem.remedy), []).append(problem)
    for group in alike.values():
        about = ids.get(group[0].where, "")
        rule = "seals and fluid" if about and about not in fluids else "fluid not known"
        remedy = group[0].remedy or "ask the maker of the seals before it is wetted"
        where = listed(problem.where for problem in group)
        what = group[0].what.rstrip(".")
        yield Finding(rule, about, replace(group[0], where=where, what=what, remedy=remedy))


def _age(system: BrakeSystem) -> Iterator[Finding]:
    fluid, grade = fluid_of(system)
    if fluid is None or not grade:
        return
    if "age_years" not in fluid.figures and not fluid.choices.get("filled_on"):
        yield finding(
            "age of the fluid",
            fluid.id,
            f"{fluid.title}, age",
            "is not known, and its boiling point falls with its water",
            "write the day of the first fill, or measure its water",
            "note",
        )


def _seals(system: BrakeSystem) -> Iterator[Finding]:
    known = [
        (part, rubber)
        for part in system.of_kind(*_SEALED)
        if part.ports and (rubber := part.choices.get("seals", "")) not in ("", "unknown")
    ]
    yield from _no_fluid_for_all(known)


def _no_fluid_for_all(known: list[tuple[Part, str]]) -> Iterator[Finding]:
    """Say when the rubbers of one system bear no fluid in common."""
    bases = ("glycol", "silicone", "mineral")
    borne = [
        base
        for base in bases
        if all(seal_rule(base, rubber).suits != "attacks" for _, rubber in known)
    ]
    suited = [
        base
        for base in borne
        if all(seal_rule(base, rubber).suits == "suits" for _, rubber in known)
    ]
    if known and not suited:
        named = listed(f"{part.title} ({rubber})" for part, rubber in known)
        yield finding(
            "mixed seals",
            known[0][0].id,
            "seals",
            f"no fluid suits them all: {named}",
            "bring every part to one rubber before the first part is wetted",
            "doubtful" if borne else "stops",
        )


def _reservoirs(system: BrakeSystem, ways: Ways) -> Iterator[Finding]:
    fed = {
        tuple(each.strip().rsplit(" ", 1))
        for part in system.of_kind(PartKind.RESERVOIR)
        for each in part.choices.get("feeds", "").split(",")
        if each.strip()
    }
    unfed = [f"{part} {chamber}" for part, chamber in ways.sources if (part, chamber) not in fed]
    if unfed and any(line.kind is not LineKind.DIRECT for line in system.lines):
        yield finding(
            "no reservoir named",
            unfed[0].split()[0],
            "reservoir",
            f"none is said to feed {listed(unfed)}",
            "write at the reservoir what it feeds, such as 'master primary, master floating'",
            "note",
        )
