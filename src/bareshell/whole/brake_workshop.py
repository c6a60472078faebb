"""What is done with the hands: joints and pipes to make, and bleeding in its order."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime

from bareshell.brakes.bleed_plan import BleedPlan, bleed_plan
from bareshell.brakes.fluid_mix import meetings
from bareshell.brakes.pipe_sheet import PipeSheet, pipe_sheet
from bareshell.model.brake import BrakeReading, BrakeSystem, ReadingKind
from bareshell.whole.brake_check import NOT_PROVED, Head
from bareshell.whole.brake_owed import Standing
from bareshell.whole.brake_parts import EntryProblem, SystemName
from bareshell.whole.brake_said import odd_entries
from bareshell.whole.brake_words import describe_reading


@dataclass(frozen=True, slots=True)
class JointsView:
    """Every joint, pipe and hose: what to cut, flare, buy and tighten.

    Parameters
    ----------
    standings : tuple of Standing
        How the proof of each joint and screw stands, for the brakes on the car.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    sheet: PipeSheet
    problems: tuple[EntryProblem, ...]
    standings: tuple[Standing, ...] = ()
    not_proved: tuple[str, ...] = NOT_PROVED


@dataclass(frozen=True, slots=True)
class BleedView:
    """The bleeding of a system in its order, and what must not meet in it.

    Parameters
    ----------
    meetings : tuple of EntryProblem
        Fluids and rubbers that would meet, or of which nobody knows.
    bled : tuple of str
        Screws that were bled, newest first: each in a sentence.
    standings : tuple of Standing
        How the proof of each joint and screw stands, for the brakes on the car.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    plan: BleedPlan
    meetings: tuple[EntryProblem, ...]
    bled: tuple[str, ...]
    standings: tuple[Standing, ...] = ()
    not_proved: tuple[str, ...] = NOT_PROVED


def joints_view(
    system: BrakeSystem, head: Head, standings: tuple[Standing, ...] = ()
) -> JointsView:
    """List every joint and pipe of brakes.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    head : Head
        Whose they are.
    standings : tuple of Standing
        How their proofs stand, where a build asks for any.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.starters import starter
    >>> view = joints_view(starter("single line"), Head(datetime(2026, 3, 4, tzinfo=UTC)))
    >>> len(view.sheet.joints.joints), len(view.sheet.pipes)
    (21, 9)
    """
    return JointsView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        system.id,
        system.title,
        system.role.value,
        head.systems,
        pipe_sheet(system),
        odd_entries(system),
        standings,
    )


def bleed_view(
    system: BrakeSystem,
    head: Head,
    readings: Iterable[BrakeReading] = (),
    vented: Collection[str] = (),
    order: Collection[str] = (),
    standings: tuple[Standing, ...] = (),
) -> BleedView:
    """Plan the bleeding of brakes.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    head : Head
        Whose they are.
    readings : iterable of BrakeReading
        What was bled already.
    vented : collection of str
        Ids of blanks whose leg was vented at its far end.
    order : collection of str
        The maker's order, where it is known.
    standings : tuple of Standing
        How their proofs stand, where a build asks for any.

    Raises
    ------
    BadInput
        When the order names what has no bleed screw.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> view = bleed_view(small_car(), Head(datetime(2026, 3, 4, tzinfo=UTC)))
    >>> len(view.plan.steps)
    4
    """
    return BleedView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        system.id,
        system.title,
        system.role.value,
        head.systems,
        bleed_plan(system, order=tuple(order), vented=vented),
        tuple(
            EntryProblem("", each.where, each.what, each.remedy, each.severity)
            for each in meetings(system)
        ),
        tuple(_bled(one) for one in readings if one.kind is ReadingKind.BLEEDING),
        standings,
    )


def _bled(reading: BrakeReading) -> str:
    return f"{reading.at:%d %b %Y}: {describe_reading(reading)}"
