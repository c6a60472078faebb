"""What to cut, flare and buy: every pipe with its allowances, nuts, clips, hoses, washers, stock.

A length that is stated is that of the finished pipe along its bends, from the face of one flare to
the face of the other. What goes into the flares and is trimmed off comes on top. Allowances are
common practice, no source: make one flare of each kind on scrap and measure yours.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.joints import Joint, JointSchedule, bracket_joints, joint_schedule
from bareshell.model.brake import BrakeSystem, Line, LineKind, PartKind
from bareshell.model.trust import COMMON_PRACTICE, Stated, Trust

__all__ = [
    "CLIP_SPACING_M",
    "Allowances",
    "CutHose",
    "CutList",
    "CutPipe",
    "Fastening",
    "PipeEnd",
    "Stock",
    "cut_list",
]

CLIP_SPACING_M: Final = 0.3
"""The widest gap between clips: common practice, no source. [m]"""

_FREE_END_M: Final = 0.15
"""A pipe this near to its joint needs no clip of its own. [m]"""


@dataclass(frozen=True, slots=True)
class Allowances:
    """What is cut on top of a pipe's finished length.

    Every figure is common practice, no source; measure a trial flare of your own tool.

    Parameters
    ----------
    double_flare_m, convex_flare_m : float
        Pipe that a flare uses up; the longer of the two for one that is not known. [m]
    trim_m : float
        To square each end and to spoil one flare. [m]
    bend_m : float
        For each bend, since the first is seldom where it was meant. [m]
    waste_share : float
        Of the whole stock, for what goes wrong. [-]
    """

    double_flare_m: float = 0.004
    convex_flare_m: float = 0.003
    trim_m: float = 0.01
    bend_m: float = 0.005
    waste_share: float = 0.15
    mark: str = COMMON_PRACTICE

    def for_flare(self, flare: str) -> float:
        """Return what one flare uses up."""
        known = {"double 45 degree": self.double_flare_m, "convex single": self.convex_flare_m}
        return known.get(flare, max(known.values()))


@dataclass(frozen=True, slots=True)
class PipeEnd:
    """One end of a pipe: its joint, its nut and its flare; an empty word is not known."""

    joint: int | None
    into: str
    thread: str
    sex: str
    flare: str


@dataclass(frozen=True, slots=True)
class CutPipe:
    """One pipe to make.

    Parameters
    ----------
    number : int
        Its number on the cut list and the pipe sheet, from 1.
    line, title : str
        Its id and what its owner calls it.
    ends : tuple of two PipeEnd
        In the order of the line.
    length_m : float or None
        Finished, face to face; None when it was not measured. [m]
    cut_m : float or None
        To cut, allowances included; the longest that is believed. [m]
    trust : Trust or None
        Where its length comes from.
    outside_diameter_m, wall_m : float or None
        None when not known. [m]
    material : str
        Empty when not known.
    bends : int
        Corners of its route as drawn from above; rises are not in it.
    clips : int
        Clips along it.
    """

    number: int
    line: str
    title: str
    ends: tuple[PipeEnd, PipeEnd]
    length_m: float | None
    cut_m: float | None
    trust: Trust | None
    outside_diameter_m: float | None
    wall_m: float | None
    material: str
    bends: int
    clips: int | None


@dataclass(frozen=True, slots=True)
class CutHose:
    """One hose to buy.

    Parameters
    ----------
    line, title : str
        Its id and what its owner calls it.
    ends : tuple of two str
        Both ends in words: thread, sex and what it seals on.
    length_m, bore_m : float or None
        Free length and bore; None when not known. [m]
    hose_class, bracket : str
        Empty when not known.
    """

    line: str
    title: str
    ends: tuple[str, str]
    length_m: float | None
    bore_m: float | None
    hose_class: str
    bracket: str


@dataclass(frozen=True, slots=True)
class Fastening:
    """Pieces of one kind, counted.

    Parameters
    ----------
    what : str
        ``pipe nut``, ``sealing washer``, ``bleed screw``, ``hose lock nut``, ``blank``, ``pipe
        clip`` or ``flare``.
    words : str
        Which one: thread, sex, pipe, flare; ``not known`` where it is not.
    count : int
        How many.
    thread, sex, flare : str
        Empty when not known, or when it has none.
    pipe_diameter_m : float or None
        The pipe it is for. [m]
    lines : tuple of str
        Ids of the lines, or of the parts, that want it.
    """

    what: str
    words: str
    count: int
    thread: str = ""
    sex: str = ""
    flare: str = ""
    pipe_diameter_m: float | None = None
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stock:
    """Pipe of one kind to buy.

    Parameters
    ----------
    outside_diameter_m, wall_m : float or None
        None when not known. [m]
    material : str
        Empty when not known.
    cut_m : float
        What its pipes take, cut. [m]
    buy_m : float
        With waste, to the next half metre. [m]
    lines : tuple of str
        Ids of its pipes.
    not_measured : tuple of str
        Ids of pipes of this kind whose length nobody stated; they are not in it.
    """

    outside_diameter_m: float | None
    wall_m: float | None
    material: str
    cut_m: float
    buy_m: float
    lines: tuple[str, ...]
    not_measured: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CutList:
    """Everything to cut, make and buy for the pipes of a system."""

    pipes: tuple[CutPipe, ...]
    hoses: tuple[CutHose, ...]
    fastenings: tuple[Fastening, ...]
    stock: tuple[Stock, ...]
    allowances: Allowances
    cautions: tuple[str, ...] = (
        "Thread the nuts on before the second flare, the right way round.",
        "Cut with a pipe cutter, square and deburred; blow the pipe out, and cap both ends.",
        "Never a compression fitting and never a single flare in brakes.",
        "One piece where the car hides it: a joint that cannot be seen cannot be seen to be dry.",
    )

    def of(self, what: str) -> tuple[Fastening, ...]:
        """Return the fastenings of one kind."""
        return tuple(each for each in self.fastenings if each.what == what)


def cut_list(system: BrakeSystem, allowances: Allowances | None = None) -> CutList:
    """Work out everything to cut, make and buy for the pipes and hoses of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered; what is not known stays not known.
    allowances : Allowances, optional
        What is cut on top; common practice when it is not given.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> found = cut_list(starter("twin cylinders", threads="inch"))
    >>> [(each.words, each.count) for each in found.of("pipe nut")]
    [('3/8-24 UNF, male, pipe size not known', 12)]
    >>> len(found.pipes), len(found.hoses)
    (6, 3)
    """
    allow = allowances or Allowances()
    schedule = joint_schedule(system)
    pipes = tuple(_pipes(system, schedule, allow))
    hoses = tuple(_hoses(system))
    return CutList(
        pipes,
        hoses,
        tuple(_fastenings(system, pipes, schedule)),
        tuple(_stock(pipes, allow)),
        allow,
    )


# --- pipes -------------------------------------------------------------------------------------


def _pipes(system: BrakeSystem, schedule: JointSchedule, allow: Allowances) -> Iterator[CutPipe]:
    joints = {joint.id: joint for joint in schedule.joints}
    lines = [line for line in system.lines if line.kind is LineKind.PIPE]
    for number, line in enumerate(lines, start=1):
        ends = _ends(line, joints)
        stated = line.figures.get("length_m")
        yield CutPipe(
            number,
            line.id,
            line.title,
            ends,
            stated.value if stated else None,
            _to_cut(stated, ends, len(line.route_m), allow),
            stated.trust if stated else None,
            _value(line, "outside_diameter_m"),
            _value(line, "wall_m"),
            _material(line),
            len(line.route_m),
            None if stated is None else _clips(stated.value),
        )


def _ends(line: Line, joints: Mapping[str, Joint]) -> tuple[PipeEnd, PipeEnd]:
    found = []
    for end in (0, 1):
        fitting = line.ends[end].fitting
        joint = joints.get(f"{line.id}-{end}")
        found.append(
            PipeEnd(
                joint.number if joint else None,
                joint.sides[1].words if joint else "nothing yet",
                fitting.thread or (joint.thread if joint else ""),
                fitting.sex,
                joint.flare if joint else fitting.flare,
            )
        )
    return found[0], found[1]


def _to_cut(
    stated: Stated | None, ends: Iterable[PipeEnd], bends: int, allow: Allowances
) -> float | None:
    """Return what to cut: the longest that is believed, so that no pipe comes out short."""
    if stated is None:
        return None
    longest = stated.value if stated.high is None else stated.high
    flares = sum(allow.for_flare(end.flare) for end in ends)
    return round(longest + flares + 2 * allow.trim_m + bends * allow.bend_m, 4)


def _clips(length_m: float) -> int:
    """Count clips so that no gap is wider than the usual one, the joints holding the ends."""
    if length_m <= 2 * _FREE_END_M:
        return 0
    return max(1, math.ceil((length_m - 2 * _FREE_END_M) / CLIP_SPACING_M - 1e-9) + 1)


def _value(line: Line, name: str) -> float | None:
    stated = line.figures.get(name)
    return stated.value if stated else None


def _material(line: Line) -> str:
    material = line.choices.get("material", "")
    return "" if material == "unknown" else material


def _stock(pipes: tuple[CutPipe, ...], allow: Allowances) -> Iterator[Stock]:
    groups: dict[tuple[float | None, float | None, str], list[CutPipe]] = defaultdict(list)
    for pipe in pipes:
        groups[pipe.outside_diameter_m, pipe.wall_m, pipe.material].append(pipe)
    for (size, wall, material), group in groups.items():
        cut = sum(pipe.cut_m for pipe in group if pipe.cut_m is not None)
        buy = math.ceil(cut * (1 + allow.waste_share) * 2 - 1e-9) / 2
        yield Stock(
            size,
            wall,
            material,
            round(cut, 4),
            buy,
            tuple(pipe.line for pipe in group if pipe.cut_m is not None),
            tuple(pipe.line for pipe in group if pipe.cut_m is None),
        )


# --- hoses -------------------------------------------------------------------------------------


def _hoses(system: BrakeSystem) -> Iterator[CutHose]:
    for line in system.lines:
        if line.kind is LineKind.HOSE:
            yield CutHose(
                line.id,
                line.title,
                (_end_words(line, 0), _end_words(line, 1)),
                _value(line, "length_m"),
                _value(line, "bore_m"),
                line.choices.get("hose_class", ""),
                line.choices.get("end_bracket", ""),
            )


def _end_words(line: Line, end: int) -> str:
    fitting = line.ends[end].fitting
    words = (
        fitting.thread or "thread not known",
        fitting.sex,
        fitting.seat and f"on {fitting.seat}",
    )
    return ", ".join(each for each in words if each)


# --- fastenings --------------------------------------------------------------------------------


def _fastenings(
    system: BrakeSystem, pipes: tuple[CutPipe, ...], schedule: JointSchedule
) -> Iterator[Fastening]:
    yield from _nuts(pipes)
    yield from _flares(pipes)
    clips = sum(pipe.clips or 0 for pipe in pipes)
    if clips:
        clipped = tuple(pipe.line for pipe in pipes if pipe.clips)
        words = f"at most {CLIP_SPACING_M * 1000:.0f} mm apart"
        yield Fastening("pipe clip", words, clips, lines=clipped)
    yield from _washers(schedule)
    yield from _lock_nuts(system)
    yield from _counted("bleed screw", ((screw.thread, screw.part) for screw in schedule.screws))
    yield from _counted(
        "blank",
        (
            (port.fitting.thread, part.id)
            for part in system.of_kind(PartKind.STUB)
            for port in part.ports[:1]
        ),
    )


def _nuts(pipes: tuple[CutPipe, ...]) -> Iterator[Fastening]:
    found: Counter[tuple[str, str, float | None]] = Counter()
    lines: dict[tuple[str, str, float | None], list[str]] = defaultdict(list)
    for pipe in pipes:
        for end in pipe.ends:
            key = (end.thread, end.sex, pipe.outside_diameter_m)
            found[key] += 1
            lines[key].append(pipe.line)
    for (thread, sex, size), count in found.items():
        words = ", ".join(
            each
            for each in (
                thread or "thread not known",
                sex,
                _pipe_words(size),
            )
            if each
        )
        yield Fastening(
            "pipe nut",
            words,
            count,
            thread,
            sex,
            pipe_diameter_m=size,
            lines=tuple(dict.fromkeys(lines[thread, sex, size])),
        )


def _pipe_words(size_m: float | None) -> str:
    return "pipe size not known" if size_m is None else f"for {size_m * 1000:.4g} mm pipe"


def _flares(pipes: tuple[CutPipe, ...]) -> Iterator[Fastening]:
    found: Counter[tuple[str, float | None]] = Counter()
    lines: dict[tuple[str, float | None], list[str]] = defaultdict(list)
    for pipe in pipes:
        for end in pipe.ends:
            found[end.flare, pipe.outside_diameter_m] += 1
            lines[end.flare, pipe.outside_diameter_m].append(pipe.line)
    for (flare, size), count in found.items():
        words = f"{flare or 'not known'}, {_pipe_words(size)}"
        named = tuple(dict.fromkeys(lines[flare, size]))
        yield Fastening("flare", words, count, flare=flare, pipe_diameter_m=size, lines=named)


def _washers(schedule: JointSchedule) -> Iterator[Fastening]:
    found: Counter[str] = Counter()
    lines: dict[str, list[str]] = defaultdict(list)
    for joint in schedule.joints:
        if joint.washers:
            found[joint.thread] += joint.washers
            lines[joint.thread].append(joint.line)
    for thread, count in found.items():
        words = f"new, copper, for {thread}" if thread else "new, copper, size not known"
        yield Fastening("sealing washer", words, count, thread, lines=tuple(lines[thread]))


def _lock_nuts(system: BrakeSystem) -> Iterator[Fastening]:
    """Count what holds a hose's end in its bracket: a lock nut, or a spring clip."""
    hoses = [hose for hose, _ in bracket_joints(system).values()]
    if hoses:
        words = "or spring clip, one at each hose bracket"
        yield Fastening("hose lock nut", words, len(hoses), lines=tuple(hoses))


def _counted(what: str, pairs: Iterable[tuple[str, str]]) -> Iterator[Fastening]:
    found: dict[str, list[str]] = defaultdict(list)
    for thread, owner in pairs:
        found[thread].append(owner)
    for thread, owners in found.items():
        words = thread or "thread not known"
        yield Fastening(what, words, len(owners), thread, lines=tuple(dict.fromkeys(owners)))
