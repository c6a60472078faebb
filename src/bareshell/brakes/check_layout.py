"""Checks on the shape of a system: loose ends, what pushes what, which wheels hang on what."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from bareshell.brakes.finding import Finding, finding, listed, meant
from bareshell.brakes.graph import Chamber, Legs, legs_of
from bareshell.brakes.ways import Ways, ways_of
from bareshell.model.brake import BrakeSystem, Part, PartKind, Wheel

__all__ = ["layout_findings"]

_BRAKES = (PartKind.CALIPER, PartKind.WHEEL_CYLINDER)
_PUSHERS = (PartKind.PEDAL, PartKind.SERVO, PartKind.BALANCE_BAR)
_PUSHED = (PartKind.SERVO, PartKind.BALANCE_BAR, PartKind.MASTER)
_RUBBED: Mapping[PartKind, tuple[PartKind, ...]] = {
    PartKind.CALIPER: (PartKind.DISC,),
    PartKind.WHEEL_CYLINDER: (PartKind.DRUM,),
    PartKind.DISC: (PartKind.CALIPER,),
    PartKind.DRUM: (PartKind.WHEEL_CYLINDER,),
}


def layout_findings(system: BrakeSystem) -> Iterator[Finding]:
    """Look at the shape of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    """
    legs, ways = legs_of(system), ways_of(system)
    yield from _floating_ends(system)
    yield from _ports(system)
    yield from _pushing(system)
    yield from _chambers(system)
    yield from _joined_circuits(system, legs)
    yield from _turned_about(system, ways)
    yield from _wheels(system, ways)
    yield from _shoes(system)
    yield from _split(system, ways)


# --- ends and ports ----------------------------------------------------------------------------


def _floating_ends(system: BrakeSystem) -> Iterator[Finding]:
    ports = {part.id: {port.name for port in part.ports} for part in system.parts}
    for line in system.lines:
        for end in (0, 1):
            there = line.ends[end]
            if there.port in ports.get(there.part, ()):
                continue
            which = "its first end" if end == 0 else "its second end"
            if not there.part:
                what, hint = f"{which} is joined to nothing", ""
            elif there.part not in ports:
                what = f"{which} is joined to '{there.part}', and there is no such part"
                hint = meant(there.part, ports)
            else:
                what = (
                    f"{which} is joined to '{there.port}' of {there.part}, which has no such port"
                )
                hint = meant(there.port, ports[there.part])
            yield finding(
                "floating end",
                line.id,
                line.title,
                what,
                f"{hint}name the part and port it is screwed to, or close it with a blank",
                "stops",
            )


def _ports(system: BrakeSystem) -> Iterator[Finding]:
    taken: dict[tuple[str, str], list[str]] = {}
    for line in system.lines:
        for there in line.ends:
            taken.setdefault((there.part, there.port), []).append(line.title)
    for part in system.parts:
        for port in part.ports:
            lines = taken.get((part.id, port.name), [])
            where = f"{part.title}, {port.name}"
            if len(lines) > 1:
                yield finding(
                    "two lines on one port",
                    part.id,
                    where,
                    f"{listed(lines)} are screwed to the same opening",
                    "give each its own port, or put a tee between",
                    "stops",
                )
            if port.bleeds and lines:
                yield finding(
                    "line on a bleed screw",
                    part.id,
                    where,
                    f"{listed(lines)} is joined to a bleed screw",
                    "join it to a port, or say that this port does not bleed",
                    "stops",
                )
            if not port.bleeds and not lines:
                yield finding(
                    "open port",
                    part.id,
                    where,
                    "is open: nothing is screwed into it, and fluid would run out",
                    "join its line, or close it with a blank",
                    "stops",
                )


# --- what pushes what --------------------------------------------------------------------------


def _pushing(system: BrakeSystem) -> Iterator[Finding]:
    pushable = {part.id for part in system.of_kind(*_PUSHED)}
    pushed: list[str] = []
    for part in system.of_kind(*_PUSHERS):
        names = ("front", "rear") if part.kind is PartKind.BALANCE_BAR else ("pushes",)
        for name in names:
            target = part.choices.get(name, "").strip()
            if target in pushable and target != part.id:
                pushed.append(target)
                continue
            what = (
                f"pushes '{target}', and there is no such cylinder" if target else "pushes nothing"
            )
            yield finding(
                "pushes nothing",
                part.id,
                f"{part.title}, {name}" if len(names) > 1 else part.title,
                what,
                f"{meant(target, pushable)}name the servo, bar or master cylinder it pushes",
                "stops",
            )
    for part in system.of_kind(*_PUSHED):
        times = pushed.count(part.id)
        if times == 0:
            yield finding(
                "nothing pushes it",
                part.id,
                part.title,
                "is pushed by nothing",
                "say at the pedal, servo or balance bar that it pushes this one",
                "stops",
            )
        elif times > 1:
            yield finding(
                "pushed twice",
                part.id,
                part.title,
                f"is pushed by {times} things",
                "one push rod goes to one piston: name another for the others",
                "stops",
            )
    if not system.of_kind(PartKind.PEDAL):
        yield finding(
            "no pedal",
            "",
            "the pedal",
            "there is none",
            "add the pedal with its ratio; without it no foot force can be answered",
            "stops",
        )


def _chambers(system: BrakeSystem) -> Iterator[Finding]:
    for part in system.of_kind(PartKind.MASTER):
        chambers = {port.chamber for port in part.ports if not port.bleeds}
        form = part.choices.get("form", "")
        wanted = {"single": {"primary"}, "tandem": {"primary", "floating"}}.get(form)
        if wanted is not None and chambers != wanted:
            yield finding(
                "chambers of a cylinder",
                part.id,
                part.title,
                f"is {form}, and its ports open the chambers {listed(sorted(chambers)) or 'none'}",
                f"a {form} cylinder has the chambers {listed(sorted(wanted))}",
                "stops",
            )
        elif not form:
            yield finding(
                "form not known",
                part.id,
                f"{part.title}, form",
                "is not known",
                "say whether it is single or tandem: count the lines that leave it",
                "doubtful",
            )
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        chambers = {port.chamber for port in part.ports}
        shuttle = part.choices.get("form") == "warning shuttle"
        wanted = {"front", "rear"} if shuttle else {"in", "out"}
        if not wanted <= chambers:
            yield finding(
                "chambers of a valve",
                part.id,
                part.title,
                f"its ports open the chambers {listed(sorted(chambers)) or 'none'}",
                f"it needs ports with the chambers {listed(sorted(wanted))}",
                "stops",
            )


# --- circuits ----------------------------------------------------------------------------------


def _joined_circuits(system: BrakeSystem, legs: Legs) -> Iterator[Finding]:
    sources: dict[int, list[tuple[Part, str]]] = {}
    for part in system.of_kind(PartKind.MASTER):
        for chamber in dict.fromkeys(port.chamber for port in part.ports):
            leg = legs.at(part.id, chamber)
            if leg is not None:
                sources.setdefault(leg.number, []).append((part, chamber))
    for group in sources.values():
        if len(group) > 1:
            named = listed(f"{part.title} {chamber}" for part, chamber in group)
            yield finding(
                "circuits joined",
                group[0][0].id,
                "circuits",
                f"{named} are joined by their lines, so that one leak empties both",
                "each chamber needs lines of its own; look for a tee that joins them",
                "stops",
            )


def _turned_about(system: BrakeSystem, ways: Ways) -> Iterator[Finding]:
    for part in system.of_kind(PartKind.VALVE, PartKind.REMOTE_SERVO):
        if part.choices.get("form") == "warning shuttle":
            continue
        inlet = ways.to((part.id, "in"), lambda _line: 1.0)
        outlet = ways.to((part.id, "out"), lambda _line: 1.0)
        if inlet is None or outlet is None:
            continue
        if (part.id, "out") in inlet.through:
            yield finding(
                "turned about",
                part.id,
                part.title,
                "has its outlet towards the master cylinder and its inlet towards the wheels",
                "find the inlet on the casting, not by which pipe reaches, and swap the lines",
                "stops",
            )


def _wheels_by_circuit(system: BrakeSystem, ways: Ways) -> dict[str, tuple[Wheel, ...]]:
    found: dict[str, list[Wheel]] = {f"{part}-{chamber}": [] for part, chamber in ways.sources}
    for part, chamber in _brake_chambers(system):
        way = ways.to(chamber, lambda _line: 1.0)
        if way is not None and part.wheel is not None:
            found[way.circuit].append(part.wheel)
    return {
        circuit: tuple(wheel for wheel in Wheel if wheel in wheels)
        for circuit, wheels in found.items()
    }


def _brake_chambers(system: BrakeSystem) -> Iterator[tuple[Part, Chamber]]:
    for part in system.of_kind(*_BRAKES):
        for chamber in dict.fromkeys(port.chamber for port in part.ports):
            yield part, (part.id, chamber)


def _wheels(system: BrakeSystem, ways: Ways) -> Iterator[Finding]:
    braked = {wheel for wheels in _wheels_by_circuit(system, ways).values() for wheel in wheels}
    for wheel in Wheel:
        if wheel not in braked:
            yield finding(
                "wheel without a brake",
                "",
                f"{wheel} wheel",
                "has no brake that a master cylinder feeds",
                "add its caliper or cylinder and its line; if the car never had one there, keep it",
                "doubtful",
            )
    for part in system.of_kind(*_RUBBED):
        if part.wheel is None:
            yield finding(
                "no wheel named",
                part.id,
                part.title,
                "does not say at which wheel it stands",
                "name its wheel",
                "stops",
            )
        elif not any(p.wheel is part.wheel for p in system.of_kind(*_RUBBED[part.kind])):
            other = _RUBBED[part.kind][0]
            yield finding(
                "half a brake",
                part.id,
                part.title,
                f"there is no {other} at the {part.wheel} wheel",
                f"add the {other}, or take this away",
                "stops",
            )
    for part, chamber in _brake_chambers(system):
        if ways.to(chamber, lambda _line: 1.0) is None:
            named = f", chamber {chamber[1]}" if _several_chambers(part) else ""
            yield finding(
                "not fed",
                part.id,
                f"{part.title}{named}",
                "no master cylinder reaches it",
                "join its line, or follow the line back to where it ends",
                "stops",
            )


_CYLINDERS = {
    "leading-trailing": (1, "double-ended"),
    "duo-servo": (1, "double-ended"),
    "twin leading": (2, "single-ended"),
    "twin trailing": (2, "single-ended"),
}


def _shoes(system: BrakeSystem) -> Iterator[Finding]:
    """Hold the form of each drum against the cylinders in it."""
    for drum in system.of_kind(PartKind.DRUM):
        form = drum.choices.get("form", "")
        here = [p for p in system.of_kind(PartKind.WHEEL_CYLINDER) if p.wheel is drum.wheel]
        if form not in _CYLINDERS or not here:
            continue
        count, ended = _CYLINDERS[form]
        forms = {part.choices.get("form", ended) for part in here}
        if len(here) != count or forms != {ended}:
            there = listed(
                f"{part.title} ({part.choices.get('form', 'form not known')})" for part in here
            )
            yield finding(
                "shoes and cylinders",
                drum.id,
                f"{drum.title}, form",
                f"is {form}, and in it are {there}",
                f"a {form} drum usually has {count} {ended} cylinder{'s' if count > 1 else ''}: "
                "look at which way each shoe is pushed",
                "doubtful",
            )


def _several_chambers(part: Part) -> bool:
    return len(Counter(port.chamber for port in part.ports)) > 1


def _split(system: BrakeSystem, ways: Ways) -> Iterator[Finding]:
    wheels = {
        circuit: found for circuit, found in _wheels_by_circuit(system, ways).items() if found
    }
    if len(wheels) == 1:
        yield finding(
            "no failure split",
            "",
            "circuits",
            "every braked wheel hangs on one circuit: a leak anywhere takes them all, and the "
            "parking brake is what is left",
            "keep it if the car was made so, look at the failures, and let the parking brake be "
            "its best; a tandem or twin cylinder splits it",
            "doubtful",
        )
    for circuit, found in _wheels_by_circuit(system, ways).items():
        if not found and len(ways.sources) > 1:
            yield finding(
                "circuit without a wheel",
                circuit.rpartition("-")[0],
                f"circuit {circuit}",
                "brakes no wheel",
                "join its line; if it is blanked on purpose, look at the failures with it so",
                "doubtful",
            )
