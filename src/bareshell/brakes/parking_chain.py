"""What a parking lever reaches: its cables, the brakes at their ends, their torque and travel."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.brakes.figured import settled
from bareshell.brakes.needs import factor_from_geometry
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.state import CableBroken, State
from bareshell.calc import disc, drum, volume
from bareshell.calc import parking as chain
from bareshell.calc.values import Value
from bareshell.errors import BadInput
from bareshell.model.brake import Part, PartKind, Wheel

__all__ = ["Reach", "Travel", "reach_of", "torques_of", "travel_of"]

_PAIRS = {
    "rear wheels": (Wheel.REAR_LEFT, Wheel.REAR_RIGHT),
    "front wheels": (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT),
}
_MOST_SWING_RAD = 1.6  # as the formula for clicks has it


@dataclass(frozen=True, slots=True)
class Reach:
    """What the lever pulls.

    Parameters
    ----------
    part : str
        Id of the parking brake.
    cables : float
        Between how many cables its pull is shared.
    axle : tuple of two Wheel
        The wheels of the axle that is held.
    held : tuple of Wheel
        Those of them whose cable pulls.
    on_shaft : bool
        Whether it acts on the transmission and so on both wheels through the final drive.
    """

    part: str
    cables: float
    axle: tuple[Wheel, Wheel]
    held: tuple[Wheel, ...]
    on_shaft: bool


def reach_of(prepared: Prepared, state: State) -> Reach:
    """Find what the lever pulls in a state.

    Raises
    ------
    BadInput
        When there is no parking brake, or none that holds by itself.
    """
    there = prepared.system.of_kind(PartKind.PARKING)
    if not there:
        raise BadInput("parking brake", "is not there", "enter it and say what it acts on")
    part = there[0]
    if part.choices.get("hold") == "hydraulic":
        raise BadInput(
            part.title,
            "holds by fluid, which creeps and cools",
            "only a mechanical chain can be worked out; most rules ask for one",
        )
    acts_on = part.choices.get("acts_on", "")
    broken = {edit.side for edit in state.edits if isinstance(edit, CableBroken)}
    if acts_on == "transmission":
        cars = prepared.system.of_kind(PartKind.CAR)
        driven = cars[0].choices.get("driven", "rear") if cars else "rear"
        axle = _PAIRS["front wheels" if driven == "front" else "rear wheels"]
        return Reach(part.id, 1.0, axle, () if broken else axle, on_shaft=True)
    axle = _PAIRS.get(acts_on, _PAIRS["rear wheels"])
    held: tuple[Wheel, ...] = axle
    if broken:
        left = {wheel for wheel in axle if ("left" if wheel.is_left else "right") not in broken}
        # A free compensator tips when one cable parts and lets go of the other too.
        apart = part.choices.get("sharing") == "separate cables" and "both" not in broken
        held = tuple(wheel for wheel in axle if wheel in left) if apart else ()
    return Reach(part.id, 2.0, axle, held, on_shaft=False)


def _brake(prepared: Prepared, wheel: Wheel | None) -> Part:
    """Find the brake that the cable works at a wheel, or on the shaft: a drum before a disc."""
    for kind in (PartKind.DRUM, PartKind.CALIPER):
        for part in prepared.system.of_kind(kind):
            if part.wheel is wheel:
                return part
    where = f"at the {wheel}" if wheel else "on the transmission"
    raise BadInput(
        f"parked brake {where}", "is not there", "enter its drum, or its disc and caliper"
    )


def torques_of(
    prepared: Prepared, reach: Reach, cable_n: Value, *, backwards: bool
) -> dict[Wheel, Value]:
    """Torque of each wheel of the held axle, for the force in each cable. [N.m]."""
    found: dict[Wheel, Value] = dict.fromkeys(reach.axle, 0.0 * cable_n)
    if reach.on_shaft and reach.held:
        own = _brake(prepared, None)
        shaft = _torque(prepared, reach, own, cable_n, backwards=backwards)
        ratio = prepared.figured(reach.part, "final_drive_ratio")
        both = chain.transmission_brake_torque(shaft, ratio, 1.0)
        return dict.fromkeys(reach.axle, both / 2.0)
    for wheel in reach.held:
        own = _brake(prepared, wheel)
        found[wheel] = _torque(prepared, reach, own, cable_n, backwards=backwards)
    return found


def _torque(
    prepared: Prepared, reach: Reach, own: Part, cable_n: Value, *, backwards: bool
) -> Value:
    at, ratio = prepared.figured, prepared.figured(reach.part, "drum_lever_ratio")
    if own.kind is not PartKind.DRUM:
        clamp = cable_n * ratio * at(own.id, "efficiency")
        radius = prepared.elements.effective_radius(own.wheel)
        return disc.disc_torque(clamp, at(own.id, "pad_friction"), radius)
    forces = chain.drum_lever_forces(cable_n, ratio)
    radius = at(own.id, "diameter_m") / 2.0
    turn = settled(drum.drum_torque, drum_radius_m=radius)
    if own.choices.get("form") == "leading-trailing" and factor_from_geometry(own):
        leading, trailing = prepared.elements.shoe_factors(own)
        # The lever hangs on the shoe that trails forwards; its strut presses the other.
        across, carrying = (trailing, leading) if backwards else (leading, trailing)
        total: Value = turn(forces.strut_n, across) + turn(forces.pivot_n, carrying)
        return total
    factor = prepared.elements.brake_factor(own, backwards=backwards)
    whole: Value = turn((forces.strut_n + forces.pivot_n) / 2.0, factor)
    return whole


@dataclass(frozen=True, slots=True)
class Travel:
    """How far the lever's pin goes, and what that is in clicks."""

    clearance_m: Value
    stretch_m: Value
    clicks: Value
    there_are: Value


def travel_of(prepared: Prepared, reach: Reach, cable_n: Value) -> Travel:
    """Travel of the lever's pin: clearance of shoes or pads, and stretch of the cables."""
    import numpy as np

    at = prepared.figured
    ends = [None] if reach.on_shaft else list(reach.axle)
    taken = [_clearance(prepared, reach, _brake(prepared, end)) for end in ends]
    # A compensator's middle goes half as far as both its ends together.
    linkage = at(reach.part, "linkage_ratio")
    clearance = linkage * sum(taken) / len(taken)
    stretch = linkage * chain.cable_stretch(
        cable_n, at(reach.part, "cable_length_m"), at(reach.part, "cable_stiffness_n")
    )
    arm = at(reach.part, "cable_arm_m")
    wanted = np.asarray(clearance + stretch)
    within = np.minimum(wanted, arm * _MOST_SWING_RAD)
    clicks = chain.lever_clicks(within, arm, at(reach.part, "click_angle_rad"))
    return Travel(
        clearance + 0.0 * stretch,
        stretch,
        np.where(wanted > within, np.nan, clicks),
        at(reach.part, "clicks"),
    )


def _clearance(prepared: Prepared, reach: Reach, own: Part) -> Value:
    """Travel of a cable's end that takes up the clearance: by the work of the lever's forces."""
    at, ratio = prepared.figured, prepared.figured(reach.part, "drum_lever_ratio")
    if own.kind is not PartKind.DRUM:
        return 2.0 * at(own.id, "pad_clearance_m") * ratio
    tip = volume.shoe_tip_travel(
        at(own.id, "shoe_clearance_m"), at(own.id, "actuation_arm_m"), at(own.id, "pivot_arm_m")
    )
    # For one newton in the cable: what both shoes' tips do of work, the cable's end does too.
    forces = chain.drum_lever_forces(1.0 + 0.0 * ratio, ratio)
    return tip * (forces.strut_n + forces.pivot_n)
