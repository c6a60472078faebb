"""Every joint of the brakes, once: what screws into what, on what it seals, how tight.

A joint is the end of a line in a port; its id is the line's with ``-0`` or ``-1``. At a hose
bracket the pipe's nut screws straight into the end of the hose: that is one joint, and it has the
pipe's id. Both sides are shown, so that a person can hold one against the other before anything
is tightened.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from bareshell.brakes.fittings import (
    FLARE_ON_SEAT,
    HOSE_WORDS,
    SCREW_WORDS,
    Torque,
    flare_word,
    meet,
    same_thread,
    seat_word,
    torque_of_nut,
)
from bareshell.brakes.ways import ways_of
from bareshell.model.brake import BrakeSystem, Fitting, Line, LineKind, Part, PartKind
from bareshell.model.trust import Stated
from bareshell.units import known_thread

__all__ = ["Joint", "JointSchedule", "ScrewJoint", "Side", "bracket_joints", "joint_schedule"]

Agreement = Literal["agrees", "differs", "not known"]

_WASHERS = {"washer": 1, "banjo": 2}


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a joint: whose it is, and its fitting."""

    words: str
    fitting: Fitting


@dataclass(frozen=True, slots=True)
class Joint:
    """The end of a line in a port.

    Parameters
    ----------
    id : str
        ``pipe-rear-0``.
    number : int
        Its number on the joint list and the pipe sheet, from 1.
    line : str
        The line, and ``end`` says which end of it.
    end : int
        0 or 1.
    part : str
        The part, and ``port`` its opening; of the line beyond the bracket when there is one.
    port : str
        The opening.
    words : str
        Where it is, to a person.
    circuits : tuple of str
        The circuits it holds; empty when no cylinder feeds it.
    sides : tuple of two Side
        The line's end first.
    thread : str
        The thread of both; empty when it is not known, or when they differ.
    seals_on : str
        The seat or washer; empty when it is not known.
    flare : str
        Of the pipe's end; empty for a hose, or when it is not known.
    pipe_diameter_m : float or None
        Outside diameter of the pipe; None when it is not known, or for a hose. [m]
    washers : int
        Sealing washers, new ones.
    torque : Torque or None
        How tight; None when only a maker can say.
    torque_words : str
        What to know about its tightness.
    agreement : {"agrees", "differs", "not known"}
        Whether both sides agree as far as they are known.
    trouble : str
        What differs, with the figures that tell the two apart.
    asked : tuple of str
        What is not known about it: ``thread``, ``sex``, ``seat``, ``flare``, ``pipe size``.
    """

    id: str
    number: int
    line: str
    end: int
    part: str
    port: str
    words: str
    circuits: tuple[str, ...]
    sides: tuple[Side, Side]
    thread: str
    seals_on: str
    flare: str
    pipe_diameter_m: float | None
    washers: int
    torque: Torque | None
    torque_words: str
    agreement: Agreement
    trouble: str
    asked: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScrewJoint:
    """A bleed screw as a joint: it seals on its own cone and is opened on purpose."""

    id: str
    number: int
    part: str
    port: str
    words: str
    circuits: tuple[str, ...]
    thread: str
    torque: Torque | None
    torque_words: str


@dataclass(frozen=True, slots=True)
class JointSchedule:
    """Every joint and every bleed screw, numbered through.

    Parameters
    ----------
    joints, screws : tuple
        In the order of the lines, and of the parts.
    cautions : tuple of str
        What to know before anything is tightened.
    """

    joints: tuple[Joint, ...]
    screws: tuple[ScrewJoint, ...]
    cautions: tuple[str, ...] = (
        "Start every nut by hand, several turns: one that wants a spanner at once is wrong.",
        "A torque that is published for the nut is not the car's own figure; the maker's rules.",
        "A dry joint under pressure is the proof; tightness is not.",
    )


def joint_schedule(system: BrakeSystem) -> JointSchedule:
    """List every joint of a system with both its sides.

    Parameters
    ----------
    system : BrakeSystem
        As entered; ends that reach no port make no joint.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> schedule = joint_schedule(starter("single line", threads="inch"))
    >>> first = schedule.joints[0]
    >>> first.words, first.thread, first.agreement
    ('pipe from the cylinder into master cylinder (out)', '3/8-24 UNF', 'agrees')
    >>> len(schedule.joints), len(schedule.screws)
    (21, 4)
    """
    parts = {part.id: part for part in system.parts}
    circuits = _circuits(system)
    found: list[Joint] = []
    beyond = bracket_joints(system)
    merged = set(beyond.values())
    for line in system.lines:
        for end in (0, 1):
            there = line.ends[end]
            part = parts.get(there.part)
            if part is None or not _has_port(part, there.port) or (line.id, end) in merged:
                continue
            other = beyond.get((line.id, end))
            joint = _joint(system, line, end, part, other)
            chamber = (part.id, part.port(there.port).chamber)
            fed = circuits.get(chamber, ())
            found.append(replace(joint, number=len(found) + 1, circuits=fed))
    screws = tuple(_screws(system, circuits, len(found)))
    return JointSchedule(tuple(found), screws)


def bracket_joints(system: BrakeSystem) -> dict[tuple[str, int], tuple[str, int]]:
    """Return, for each pipe's end at a hose bracket, the hose's end it screws into.

    Parameters
    ----------
    system : BrakeSystem
        As entered. A bracket that does not hold one pipe and one hose is a part like any other.
    """
    found: dict[tuple[str, int], tuple[str, int]] = {}
    for part in system.of_kind(PartKind.TEE):
        if part.choices.get("form") != "hose bracket":
            continue
        ends = [
            (line, end) for line in system.lines for end in (0, 1) if line.ends[end].part == part.id
        ]
        pipes = [(line.id, end) for line, end in ends if line.kind is LineKind.PIPE]
        hoses = [(line.id, end) for line, end in ends if line.kind is LineKind.HOSE]
        if len(pipes) == len(hoses) == 1 and len(ends) == 2:
            found[pipes[0]] = hoses[0]
    return found


def _has_port(part: Part, name: str) -> bool:
    return any(port.name == name for port in part.ports)


def _circuits(system: BrakeSystem) -> dict[tuple[str, str], tuple[str, ...]]:
    """Return the circuits that reach each chamber, valves passed through."""
    ways = ways_of(system)
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for part in system.parts:
        for chamber in dict.fromkeys(port.chamber for port in part.ports):
            way = ways.to((part.id, chamber), lambda _line: 1.0)
            if way is not None:
                found[part.id, chamber] = (way.circuit,)
    return found


def _joint(
    system: BrakeSystem, line: Line, end: int, part: Part, other: tuple[str, int] | None
) -> Joint:
    own = Side(line.title, _worded(line.ends[end].fitting))
    port = part.port(line.ends[end].port)
    if other is None:
        against = Side(f"{part.title} ({port.name})", _worded(port.fitting))
    else:
        hose = system.line(other[0])
        against = Side(hose.title, _worded(hose.ends[other[1]].fitting))
    agreement, trouble, asked = _held_together(line, own.fitting, against.fitting)
    thread = _thread(own.fitting, against.fitting)
    seals_on = against.fitting.seat or own.fitting.seat
    is_pipe = line.kind is LineKind.PIPE
    size = line.figures.get("outside_diameter_m")
    torque, words = _torque(line, thread, size.value if size else None)
    washers = max(_WASHERS.get(each.fitting.seat, 0) for each in (own, against))
    return Joint(
        id=f"{line.id}-{end}",
        number=0,
        line=line.id,
        end=end,
        part=part.id,
        port=port.name,
        words=f"{own.words} into {against.words}",
        circuits=(),
        sides=(own, against),
        thread=thread,
        seals_on=seals_on,
        flare=own.fitting.flare if is_pipe else "",
        pipe_diameter_m=size.value if is_pipe and size else None,
        washers=washers,
        torque=torque,
        torque_words=words,
        agreement=agreement,
        trouble=trouble,
        asked=(*asked, *(("pipe size",) if is_pipe and size is None else ())),
    )


def _torque(line: Line, thread: str, size_m: float | None) -> tuple[Torque | None, str]:
    if line.kind is LineKind.PIPE:
        material = line.choices.get("material", "")
        given = line.figures.get("nut_torque_nm")
        torque = torque_of_nut(thread, size_m, material, given)
        return torque, torque.words if torque else "the car's or fitting's own figure"
    torque = _given(line.figures.get("end_torque_nm"))
    return torque, torque.words if torque else HOSE_WORDS


def _given(stated: Stated | None) -> Torque | None:
    return None if stated is None else torque_of_nut("", None, "", stated)


def _worded(fitting: Fitting) -> Fitting:
    return replace(
        fitting,
        thread=fitting.thread.strip(),
        seat=seat_word(fitting.seat),
        flare=flare_word(fitting.flare),
    )


def _thread(own: Fitting, against: Fitting) -> str:
    if not own.thread or not against.thread:
        return own.thread or against.thread
    return own.thread if same_thread(own.thread, against.thread) else ""


def _held_together(
    line: Line, own: Fitting, against: Fitting
) -> tuple[Agreement, str, tuple[str, ...]]:
    """Hold the two sides of a joint against each other."""
    troubles = [
        each
        for each in (
            _threads_apart(own, against),
            _same_sex(own, against),
            _flare_on_wrong_seat(own, against),
        )
        if each
    ]
    asked = tuple(_asked(line, own, against))
    if troubles:
        return "differs", "; ".join(troubles), asked
    return ("not known" if asked else "agrees"), "", asked


def _threads_apart(own: Fitting, against: Fitting) -> str:
    if not own.thread or not against.thread or same_thread(own.thread, against.thread):
        return ""
    male, female = (against, own) if against.sex == "male" else (own, against)
    threads = known_thread(male.thread), known_thread(female.thread)
    if threads[0] is None or threads[1] is None:
        return f"{own.thread} does not go with {against.thread}"
    meeting = meet(threads[0], threads[1])
    return meeting.words


def _same_sex(own: Fitting, against: Fitting) -> str:
    if own.sex and own.sex == against.sex:
        return f"both sides are {own.sex}"
    return ""


def _flare_on_wrong_seat(own: Fitting, against: Fitting) -> str:
    wanted = FLARE_ON_SEAT.get(own.flare)
    seat = against.seat
    if wanted is None or not seat or seat == wanted:
        return ""
    return f"a {own.flare} flare seals on a {wanted} seat, and this one is {seat}"


def _asked(line: Line, own: Fitting, against: Fitting) -> Iterator[str]:
    if not (own.thread and against.thread):
        yield "thread"
    if not (own.sex and against.sex):
        yield "sex"
    if not (against.seat or own.seat):
        yield "seat"
    if line.kind is LineKind.PIPE and not own.flare:
        yield "flare"


def _screws(
    system: BrakeSystem, circuits: dict[tuple[str, str], tuple[str, ...]], last: int
) -> Iterator[ScrewJoint]:
    number = last
    for part in system.parts:
        for port in part.ports:
            if not port.bleeds:
                continue
            number += 1
            torque = _given(part.figures.get("bleed_torque_nm"))
            yield ScrewJoint(
                id=f"{part.id}-{port.name.replace(' ', '-')}",
                number=number,
                part=part.id,
                port=port.name,
                words=f"bleed screw of {part.title}"
                + (f" ({port.name})" if _several(part) else ""),
                circuits=circuits.get((part.id, port.chamber), ()),
                thread=port.fitting.thread,
                torque=torque,
                torque_words="" if torque else SCREW_WORDS,
            )


def _several(part: Part) -> bool:
    return sum(port.bleeds for port in part.ports) > 1
