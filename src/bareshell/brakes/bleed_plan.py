"""The bleed plan: which screw next, how much fluid and how many strokes, and what cannot be bled.

Amounts are what stands on the way with a margin; the end of each screw is not an amount but clear
fluid without a bubble. A plan that was followed proves nothing: the holds and the measured pedal
after it do.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.bleed_amounts import NOTHING, Amounts, Span
from bareshell.brakes.bleed_order import Placed, by_distance, by_maker, makers_order
from bareshell.brakes.bleed_words import (
    AFTERWARDS,
    CAUTIONS,
    Instruction,
    bench,
    preparing,
    ways_of_pumping,
)
from bareshell.brakes.check_fluid import fluid_of
from bareshell.brakes.figures import Assumed
from bareshell.brakes.fittings import SCREW_WORDS, Torque, torque_of_nut
from bareshell.brakes.ways import DeadLeg, Ways, ways_of
from bareshell.model.brake import BrakeSystem, PartKind
from bareshell.model.job import Caution
from bareshell.model.trust import COMMON_PRACTICE

__all__ = ["BleedPlan", "BleedStep", "DeadLegPlan", "FluidToBuy", "bleed_plan"]

# Margins are common practice, no source: enough for air in every corner, little enough to measure.
_MARGIN_SHARE: Final = 0.5
_MARGIN_M3: Final = 30e-6
_STROKE_SHARE: Final = 0.6
_FIRM_PUSH_PA: Final = 30e5
_RESERVOIR_M3: Final = 200e-6
_BENCH_M3: Final = 60e-6
_SECOND_SHARE: Final = 0.5
_SPILL_SHARE: Final = 0.2
_BOTTLE_M3: Final = 0.5e-3


@dataclass(frozen=True, slots=True)
class BleedStep:
    """One bleed screw in its turn.

    Parameters
    ----------
    number : int
        Its turn, from 1.
    screw : str
        Its id: part and port.
    part, port, words : str
        Where it is; ``words`` to a person.
    circuit : str
        The circuit it opens.
    at_top : bool or None
        Whether it is the highest opening; None when nobody looked.
    lines : tuple of str
        The lines on its way, from the cylinder on.
    length_m : float
        How far it is. [m]
    way_m3 : Span
        Fluid that stands on its whole way. [m3]
    new_m3 : Span
        What of it no earlier screw has filled. [m3]
    draw_m3 : float
        Fluid to draw, margin included. [m3]
    strokes : int or None
        Strokes of the pedal for it, each short of the floor; None when the bore is not known.
    stroke_m3 : float or None
        Fluid that one such stroke moves. [m3]
    torque : Torque or None
        How tight it is closed; None when only its maker can say.
    torque_words : str
        What to know about that.
    """

    number: int
    screw: str
    part: str
    port: str
    words: str
    circuit: str
    at_top: bool | None
    lines: tuple[str, ...]
    length_m: float
    way_m3: Span
    new_m3: Span
    draw_m3: float
    strokes: int | None
    stroke_m3: float | None
    torque: Torque | None
    torque_words: str


@dataclass(frozen=True, slots=True)
class DeadLegPlan:
    """A leg that no bleed screw empties.

    Parameters
    ----------
    words : str
        Which lines and parts it is.
    lines, parts : tuple of str
        Their ids.
    circuit : str
        The circuit it hangs on; empty when no cylinder feeds it.
    volume_m3 : Span
        Fluid that it holds, and air as long as it is not vented. [m3]
    pedal_m : Span or None
        Pedal travel that its air takes by a firm push; None when bore or ratio is not known. [m]
    to_the_floor : bool
        Whether that is as much as the pedal has.
    vent_at : tuple of str
        The blanks at its far end.
    vented : bool
        Whether each far end has been vented; only then does it count as bled.
    draw_m3 : float
        Fluid to let out at its far end. [m3]
    what_to_do : str
        In words.
    """

    words: str
    lines: tuple[str, ...]
    parts: tuple[str, ...]
    circuit: str
    volume_m3: Span
    pedal_m: Span | None
    to_the_floor: bool
    vent_at: tuple[str, ...]
    vented: bool
    draw_m3: float
    what_to_do: str


@dataclass(frozen=True, slots=True)
class FluidToBuy:
    """Fluid to buy, in cubic metres, and what it is made up of.

    Parameters
    ----------
    grade : str
        Empty when it is not chosen: choose it before the first part is wetted.
    first_bleed_m3, second_bleed_m3, reservoir_m3, bench_m3, spill_m3 : float
        What each takes.
    buy_m3 : float
        All of it to the next bottle of half a litre.
    """

    grade: str
    first_bleed_m3: float
    second_bleed_m3: float
    reservoir_m3: float
    bench_m3: float
    spill_m3: float
    buy_m3: float


@dataclass(frozen=True, slots=True)
class BleedPlan:
    """The whole of it, in the order in which it is done.

    Parameters
    ----------
    ordered_by : str
        Why in this order.
    bench, preparing, alone, with_helper, afterwards : tuple of Instruction
        What to do, each with its mark.
    steps : tuple of BleedStep
        The screws in turn.
    dead_legs : tuple of DeadLegPlan
        What no screw empties.
    not_fed : tuple of str
        Screws that no cylinder feeds.
    fluid : FluidToBuy
        What to buy.
    assumed : tuple of Assumed
        Figures that were taken as usual.
    asked : tuple of str
        Figures that would be needed and are not known.
    cautions : tuple of Caution
        What can hurt.
    """

    ordered_by: str
    bench: tuple[Instruction, ...]
    preparing: tuple[Instruction, ...]
    alone: tuple[Instruction, ...]
    with_helper: tuple[Instruction, ...]
    afterwards: tuple[Instruction, ...]
    steps: tuple[BleedStep, ...]
    dead_legs: tuple[DeadLegPlan, ...]
    not_fed: tuple[str, ...]
    fluid: FluidToBuy
    assumed: tuple[Assumed, ...]
    asked: tuple[str, ...]
    cautions: tuple[Caution, ...] = CAUTIONS


def bleed_plan(
    system: BrakeSystem, *, order: Sequence[str] = (), vented: Collection[str] = ()
) -> BleedPlan:
    """Plan the bleeding of a system that is filled for the first time.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    order : sequence of str
        The maker's order, wheels or parts; empty for the one written at the fluid, or for the
        farthest first.
    vented : collection of str
        Ids of blanks whose leg has been vented at its far end.

    Raises
    ------
    BadInput
        When the order names something that has no bleed screw.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> plan = bleed_plan(starter("front-rear tandem", driver_on="left"))
    >>> [step.part for step in plan.steps][:2]
    ['cylinder-rear-right', 'cylinder-rear-left']
    >>> plan.steps[0].strokes is None, plan.asked
    (True, ('bore (master cylinder)',))
    """
    amounts = Amounts(system)
    ways = ways_of(system)
    placed = by_distance(system, ways, amounts.length)
    named, ordered_by = _makers(system, order)
    if named:
        placed = by_maker(placed, named)
    steps = tuple(_steps(system, amounts, placed))
    dead = tuple(_dead(system, amounts, ways, leg, vented) for leg in ways.dead)
    fed = {each.screw for each in placed}
    alone, with_helper = ways_of_pumping()
    return BleedPlan(
        ordered_by=ordered_by,
        bench=bench(system),
        preparing=preparing(system),
        alone=alone,
        with_helper=with_helper,
        afterwards=AFTERWARDS,
        steps=steps,
        dead_legs=dead,
        not_fed=tuple(screw.id for screw in ways.screws if screw not in fed),
        fluid=_to_buy(system, amounts, steps, dead),
        assumed=tuple(amounts.assumed),
        asked=tuple(amounts.asked),
    )


def _makers(system: BrakeSystem, order: Sequence[str]) -> tuple[tuple[str, ...], str]:
    if order:
        return tuple(order), "in the order that was given"
    fluid, _ = fluid_of(system)
    written = fluid.choices.get("bleed_order", "") if fluid else ""
    if written.strip():
        return makers_order(written), "in the order of the car's maker, as it was written down"
    return (), (
        "the farthest screw first, one circuit after the other (read second-hand); the car's "
        "maker's order comes before it"
    )


# --- screws ------------------------------------------------------------------------------------


def _steps(system: BrakeSystem, amounts: Amounts, placed: Sequence[Placed]) -> Iterator[BleedStep]:
    filled: set[str] = set()
    for number, each in enumerate(placed, start=1):
        part = system.part(each.screw.part)
        whole = amounts.total(each.way.lines, [part.id])
        new_lines = [line for line in each.way.lines if line not in filled]
        new = amounts.total(new_lines, [] if part.id in filled else [part.id])
        filled |= {*new_lines, part.id}
        draw = new.high + whole.value * _MARGIN_SHARE + _MARGIN_M3
        full = amounts.stroke(each.way.source)
        stroke = None if full is None else full.value * _STROKE_SHARE
        torque = _closing_torque(system, part.id)
        yield BleedStep(
            number=number,
            screw=each.screw.id,
            part=part.id,
            port=each.screw.port,
            words=_screw_words(part.title, each, placed),
            circuit=each.way.circuit,
            at_top=part.port(each.screw.port).at_top,
            lines=each.way.lines,
            length_m=round(each.length_m, 4),
            way_m3=whole,
            new_m3=new,
            draw_m3=_to_five_ml(draw),
            strokes=None if not stroke else math.ceil(_to_five_ml(draw) / stroke),
            stroke_m3=stroke,
            torque=torque,
            torque_words=torque.words if torque else SCREW_WORDS,
        )


def _screw_words(title: str, each: Placed, placed: Sequence[Placed]) -> str:
    several = sum(other.screw.part == each.screw.part for other in placed) > 1
    return f"{title} ({each.screw.port})" if several else title


def _closing_torque(system: BrakeSystem, part_id: str) -> Torque | None:
    stated = system.part(part_id).figures.get("bleed_torque_nm")
    return None if stated is None else torque_of_nut("", None, "", stated)


def _to_five_ml(volume_m3: float) -> float:
    return math.ceil(volume_m3 / 5e-6 - 1e-9) * 5e-6


# --- dead legs ---------------------------------------------------------------------------------


def _dead(
    system: BrakeSystem,
    amounts: Amounts,
    ways: Ways,
    leg: DeadLeg,
    vented: Collection[str],
) -> DeadLegPlan:
    way = None if leg.hangs_on is None else ways.to(leg.hangs_on, amounts.length)
    volume = amounts.total(leg.lines, leg.parts)
    is_vented = bool(leg.ends_in) and all(blank in vented for blank in leg.ends_in)
    pedal = None
    if way is not None:
        air = NOTHING if is_vented else Span(volume.value, 0.0, volume.high)
        pedal = amounts.pedal_of_air(air, way.source, _FIRM_PUSH_PA)
    titles = [system.line(line).title for line in leg.lines]
    titles = titles or [system.part(part).title for part in leg.parts]
    return DeadLegPlan(
        words=", ".join(titles),
        lines=leg.lines,
        parts=leg.parts,
        circuit=way.circuit if way else "",
        volume_m3=volume,
        pedal_m=pedal,
        to_the_floor=pedal is not None and pedal.value >= _floor(system, amounts),
        vent_at=leg.ends_in,
        vented=is_vented,
        draw_m3=_to_five_ml(volume.high + 5e-6) if leg.ends_in else 0.0,
        what_to_do=_what_to_do(leg, is_vented=is_vented),
    )


def _floor(system: BrakeSystem, amounts: Amounts) -> float:
    pedals = system.of_kind(PartKind.PEDAL)
    floor = amounts.figure(pedals[0], "floor_travel_m") if pedals else None
    return math.inf if floor is None else floor.value


def _what_to_do(leg: DeadLeg, *, is_vented: bool) -> str:
    if leg.hangs_on is None:
        return "No cylinder feeds it: join it, or leave it off."
    if is_vented:
        return "Vented at its far end, and counts as bled until it is opened again."
    if leg.ends_in:
        return (
            "Press gently, slacken the blank at its far end until fluid comes without a bubble, "
            "tighten it before the pressure is off, wipe it dry; then it counts as bled."
        )
    return "Nothing at its far end can be opened: give it a bleed screw, or take it off."


# --- fluid -------------------------------------------------------------------------------------


def _to_buy(
    system: BrakeSystem,
    amounts: Amounts,
    steps: Sequence[BleedStep],
    dead: Sequence[DeadLegPlan],
) -> FluidToBuy:
    first = sum(step.draw_m3 for step in steps) + sum(leg.draw_m3 for leg in dead)
    reservoirs = [
        span
        for part in system.of_kind(PartKind.RESERVOIR)
        if "volume_m3" in part.figures and (span := amounts.figure(part, "volume_m3"))
    ]
    reservoir = sum(span.high for span in reservoirs) if reservoirs else _RESERVOIR_M3
    bench_m3 = _BENCH_M3 * len(system.of_kind(PartKind.MASTER))
    second = first * _SECOND_SHARE
    spill = (first + second + reservoir + bench_m3) * _SPILL_SHARE
    every = first + second + reservoir + bench_m3 + spill
    _, grade = fluid_of(system)
    return FluidToBuy(
        grade,
        first,
        second,
        reservoir,
        bench_m3,
        spill,
        math.ceil(every / _BOTTLE_M3 - 1e-9) * _BOTTLE_M3,
    )


AMOUNTS_MARK: Final = COMMON_PRACTICE
"""The mark of every margin in a plan."""
