"""A roller sheet beside the calculation: what differs, and which inputs it points at.

A wheel that is worse than its neighbour points at the wheel: a seized piston, a wet lining, a hose
closed inside. An axle that is out against the other points at friction and valve; all four
together at pedal, servo and master cylinder. Neither the sheet nor the calculation is the truth:
where they part, look and measure.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bareshell.brakes.answer import Answer
from bareshell.brakes.figures import InputRange
from bareshell.brakes.measured import RollerSheet
from bareshell.model.brake import BrakeSystem, PartKind, Wheel
from bareshell.model.trust import Trust

__all__ = ["Difference", "Range", "against_calculation", "calculated_forces"]


@dataclass(frozen=True, slots=True)
class Range:
    """What was worked out, with the range that the inputs leave."""

    low: float
    value: float
    high: float

    def holds(self, figure: float) -> bool:
        """Whether a figure lies in it."""
        return self.low <= figure <= self.high


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that was both measured and worked out.

    Parameters
    ----------
    where : str
        What: ``front left``, ``front share``, ``all four wheels``.
    unit : str
        ``N`` or ``share``.
    measured : float
        As read.
    calculated : Range
        As worked out.
    within : bool
        Whether the reading lies in the range.
    words : str
        What it says.
    look_at : tuple of str
        What to look at on the car, the likeliest first.
    inputs : tuple of str
        Paths of inputs that would bring the two together, the widest first.
    """

    where: str
    unit: str
    measured: float
    calculated: Range
    within: bool
    words: str
    look_at: tuple[str, ...]
    inputs: tuple[str, ...]


_FRICTION: Final = (
    "pad_friction",
    "lining_friction",
    "brake_factor",
    "efficiency",
    "threshold_pa",
)
_WHOLE: Final = ("ratio", "efficiency", "vacuum_pa", "boost_ratio", "seal_friction_n")
_BETWEEN: Final = ("knee_pa", "slope", "closing_deceleration_g", "front_share")

_AT_WHEEL: Final = (
    "a piston or cylinder that is seized or sticks",
    "oil, fluid or grease on the linings",
    "a shoe that is out of adjustment",
    "a hose that has closed inside",
)
_AT_AXLE: Final = (
    "linings of another friction than was taken, or not bedded in yet",
    "a valve that closes at another pressure",
    "adjusters of both wheels",
)
_ALL_ROUND: Final = (
    "the force that the foot really pressed with",
    "linings that are new, glazed or not bedded in yet",
    "vacuum and servo",
)


def calculated_forces(answer: Answer) -> dict[Wheel, Range]:
    """Take each wheel's force and its range from a solve at one force of the foot.

    Parameters
    ----------
    answer : Answer
        Of one push; with samples, what was stated is the first of them.

    Returns
    -------
    dict of Wheel to Range
        Forces at the road. [N]
    """
    import numpy as np

    found = {}
    for wheel, force in answer.wheel_force_n.items():
        flat = np.ravel(force)
        found[wheel] = Range(float(flat.min()), float(flat[0]), float(flat.max()))
    return found


def against_calculation(
    sheet: RollerSheet,
    calculated: Mapping[Wheel, Range],
    system: BrakeSystem | None = None,
    inputs: Sequence[InputRange] = (),
) -> tuple[Difference, ...]:
    """Lay a roller sheet beside what was worked out for the same force of the foot.

    Without a measured force of the foot only shares are compared, for the forces hang on it.
    A wheel that locked read what its tyre gave, not what its brake could, and is left out.

    Parameters
    ----------
    sheet : RollerSheet
        As read.
    calculated : mapping of Wheel to Range
        From `calculated_forces`, at the sheet's pedal force. [N]
    system : BrakeSystem, optional
        To tell which inputs belong to which wheel.
    inputs : sequence of InputRange
        What went into the calculation.

    Returns
    -------
    tuple of Difference
        The whole car first, then the axles, then each axle's two wheels.

    Examples
    --------
    >>> sheet = RollerSheet(
    ...     {Wheel.FRONT_LEFT: 1900.0, Wheel.FRONT_RIGHT: 1100.0}, pedal_force_n=300.0
    ... )
    >>> force = Range(1700.0, 1850.0, 2000.0)
    >>> calculated = {wheel: force for wheel in sheet.efforts_n}
    >>> [each.where for each in against_calculation(sheet, calculated) if not each.within]
    ['front axle, left over both', 'front right']
    """
    turned = {
        wheel: effort
        for wheel, effort in sheet.efforts_n.items()
        if wheel in calculated and wheel not in sheet.locked
    }
    found = [*_whole(sheet, turned, calculated), *_shares(turned, calculated)]
    if sheet.pedal_force_n is not None:
        found += _wheels(turned, calculated)
    if system is None:
        return tuple(found)
    return tuple(_with_inputs(each, system, inputs) for each in found)


def _whole(
    sheet: RollerSheet, turned: Mapping[Wheel, float], calculated: Mapping[Wheel, Range]
) -> Iterable[Difference]:
    if sheet.pedal_force_n is None or len(turned) < 4:
        return
    total = _sum(calculated[wheel] for wheel in turned)
    yield _difference("all four wheels", "N", sum(turned.values()), total, _ALL_ROUND)


def _shares(
    turned: Mapping[Wheel, float], calculated: Mapping[Wheel, Range]
) -> Iterable[Difference]:
    fronts = [wheel for wheel in turned if wheel.is_front]
    rears = [wheel for wheel in turned if not wheel.is_front]
    if len(fronts) == len(rears) == 2 and sum(turned.values()) > 0.0:
        measured = sum(turned[wheel] for wheel in fronts) / sum(turned.values())
        both = _share(
            _sum(calculated[wheel] for wheel in fronts), _sum(calculated[wheel] for wheel in rears)
        )
        yield _difference("front share", "share", measured, both, _AT_AXLE)
    for words, axle in (("front axle", fronts), ("rear axle", rears)):
        if len(axle) == 2 and sum(turned[wheel] for wheel in axle) > 0.0:
            left, right = sorted(axle, key=lambda wheel: not wheel.is_left)
            measured = turned[left] / (turned[left] + turned[right])
            share = _even(calculated[left], calculated[right])
            yield _difference(f"{words}, left over both", "share", measured, share, _AT_WHEEL)


def _wheels(
    turned: Mapping[Wheel, float], calculated: Mapping[Wheel, Range]
) -> Iterable[Difference]:
    for wheel, effort in turned.items():
        yield _difference(str(wheel), "N", effort, calculated[wheel], _AT_WHEEL)


_UNEVEN: Final = (
    0.03  # of a roller's own reading and of two like brakes; common practice, no source
)


def _even(left: Range, right: Range) -> Range:
    """Left over both: what a wheel's figures share with its neighbour's cancels out of it."""
    both = left.value + right.value
    middle = left.value / both if both > 0.0 else 0.5
    return Range(middle - _UNEVEN, middle, middle + _UNEVEN)


def _share(one: Range, other: Range) -> Range:
    def part(a: float, b: float) -> float:
        return a / (a + b) if a + b > 0.0 else 0.0

    return Range(part(one.low, other.high), part(one.value, other.value), part(one.high, other.low))


def _sum(ranges: Iterable[Range]) -> Range:
    every = tuple(ranges)
    return Range(*(sum(getattr(each, name) for each in every) for name in ("low", "value", "high")))


def _difference(
    where: str, unit: str, measured: float, calculated: Range, look_at: tuple[str, ...]
) -> Difference:
    within = calculated.holds(measured)
    if within:
        words = "as worked out, within its range"
    else:
        words = f"{'below' if measured < calculated.low else 'above'} what was worked out"
    return Difference(
        where, unit, measured, calculated, within, words, () if within else look_at, ()
    )


def _with_inputs(one: Difference, system: BrakeSystem, inputs: Sequence[InputRange]) -> Difference:
    if one.within:
        return one
    names: tuple[str, ...] = _FRICTION
    if one.where == "all four wheels":
        names = _WHOLE + _FRICTION
    elif one.where == "front share":
        names = _FRICTION + _BETWEEN
    suspects = [
        each
        for each in inputs
        if each.path.rpartition(".")[2] in names
        and each.trust is not Trust.MEASURED
        and _belongs(system, each.path.partition(".")[0], one.where)
    ]
    suspects.sort(key=_width, reverse=True)
    return replace(one, inputs=tuple(each.path for each in suspects))


def _belongs(system: BrakeSystem, part_id: str, where: str) -> bool:
    """Whether a part has a say in a place of the sheet."""
    try:
        part = system.part(part_id)
    except KeyError:
        return False
    if where == "all four wheels":
        return True
    if where == "front share":
        return part.wheel is not None or part.kind in {PartKind.VALVE, PartKind.BALANCE_BAR}
    if part.wheel is None:
        return False
    return str(part.wheel) == where or where.startswith(
        "front axle" if part.wheel.is_front else "rear axle"
    )


def _width(each: InputRange) -> float:
    return (each.high - each.low) / abs(each.value) if each.value else 0.0
