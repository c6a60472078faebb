"""The parking brake: from hand to tyre, on a slope both ways, and how far its lever swings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from bareshell.brakes.answer import Truth
from bareshell.brakes.figures import Missing
from bareshell.calc.values import Value
from bareshell.model.brake import Wheel

__all__ = ["Direction", "Holding", "ParkingAnswer"]

Direction: TypeAlias = Literal["nose up", "nose down"]


@dataclass(frozen=True, slots=True)
class Holding:
    """What the parking brake holds one way round.

    Parameters
    ----------
    direction : {"nose up", "nose down"}
        How the car stands on the slope.
    wheel_torque_nm : mapping of Wheel to float or array
        Torque of each braked wheel. [N.m]
    force_n : float or array
        Holding force at the road, if the tyres grip. [N]
    force_slope : float or array
        Steepest slope that this force holds, rise over run. [-]
    adhesion_slope : float or array
        Steepest slope on which the braked wheels do not slide on the road asked about. [-]
    slope : float or array
        The lesser of the two. [-]
    limited_by : str or array of str
        ``force`` or ``tyres``.
    adhesion_asked : float or array
        Adhesion that the slope asked about needs. [-]
    hand_force_n : float or array
        Pull of the hand that the slope asked about needs. [N]
    holds : bool or array
        Whether the slope asked about is held by this pull on this road.
    """

    direction: Direction
    wheel_torque_nm: Mapping[Wheel, Value]
    force_n: Value
    force_slope: Value
    adhesion_slope: Value
    slope: Value
    limited_by: object
    adhesion_asked: Value
    hand_force_n: Value
    holds: Truth


@dataclass(frozen=True, slots=True)
class ParkingAnswer:
    """The parking brake for one pull of the hand (or push of the foot).

    Parameters
    ----------
    hand_force_n : float or array
        The pull. [N]
    cable_force_n : float or array
        In the cable of one wheel, or of the transmission brake. [N]
    nose_up, nose_down : Holding
        What it holds, both ways.
    share_of_weight : float or array
        The lesser holding force over the laden weight. [-]
    travel_m : float or array or None
        Travel of the cable: clearance of shoes or pads, and stretch; None when not worked out. [m]
    clearance_travel_m, stretch_m : float or array or None
        Its two parts. [m]
    clicks : float or array or None
        Clicks of the lever, not rounded.
    clicks_there_are : float or array or None
        Clicks that the ratchet has.
    """

    hand_force_n: Value
    cable_force_n: Value
    nose_up: Holding
    nose_down: Holding
    share_of_weight: Value
    travel_m: Value | None
    clearance_travel_m: Value | None
    stretch_m: Value | None
    clicks: Value | None
    clicks_there_are: Value | None
    not_worked_out: tuple[Missing, ...] = ()
