"""Invented cars with figures for every part that has no usual value: for examples and trials."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from bareshell.brakes.needs import has_second_circuit, is_tandem
from bareshell.brakes.starters import starter
from bareshell.model.brake import BrakeSystem, Part, PartKind
from bareshell.model.trust import Stated, Trust

__all__ = ["filled", "small_car"]

_BY_KIND: Final[Mapping[PartKind, Mapping[str, float]]] = {
    PartKind.CAR: {
        "wheelbase_m": 2.4,
        "driver_only_mass_kg": 950.0,
        "driver_only_front_share": 0.54,
        "laden_mass_kg": 1280.0,
        "laden_front_share": 0.47,
        "cg_height_m": 0.53,
        "laden_cg_height_m": 0.55,
        "front_track_m": 1.29,
        "rear_track_m": 1.26,
        "front_rolling_radius_m": 0.285,
        "rear_rolling_radius_m": 0.285,
        "scrub_radius_m": 0.04,
    },
    PartKind.PEDAL: {
        "ratio": 4.5,
        "efficiency": 0.92,
        "return_n": 15.0,
        "free_play_m": 0.006,
        "floor_travel_m": 0.135,
    },
    PartKind.SERVO: {"boost_ratio": 2.0, "diaphragm_diameter_m": 0.178},
    PartKind.BALANCE_BAR: {"front_share": 0.55},
    PartKind.MASTER: {"bore_m": 0.02064},
    PartKind.REMOTE_SERVO: {"boost_ratio": 1.9, "slave_bore_m": 0.01746},
    PartKind.VALVE: {"knee_pa": 2.5e6, "slope": 0.35, "closing_deceleration_g": 0.45},
    PartKind.CALIPER: {"a_bore_m": 0.048, "a_pistons": 1.0, "pad_friction": 0.38},
    PartKind.DISC: {"outer_diameter_m": 0.245, "pad_height_m": 0.042},
    PartKind.DRUM: {"diameter_m": 0.203, "brake_factor": 2.1},
    PartKind.WHEEL_CYLINDER: {"bore_m": 0.01905},
    PartKind.PARKING: {"lever_ratio": 6.5, "linkage_ratio": 1.0, "drum_lever_ratio": 4.0},
}

_TWO_CIRCUITS: Final = {"a_bore_m": 0.038, "b_bore_m": 0.038, "a_pistons": 1.0, "b_pistons": 1.0}


def filled(system: BrakeSystem) -> BrakeSystem:
    """Give every part of a system that says nothing of itself the figures of an invented car.

    Examples
    --------
    >>> filled(starter("single line")).part("master").figures["bore_m"].value
    0.02064
    """
    return replace(system, parts=tuple(_filled(part) for part in system.parts))


def _filled(part: Part) -> Part:
    figures = dict(_BY_KIND.get(part.kind, {}))
    if part.kind is PartKind.CALIPER and has_second_circuit(part):
        figures |= _TWO_CIRCUITS
    if part.kind is PartKind.MASTER and is_tandem(part):
        figures |= {"primary_stroke_m": 0.018, "floating_stroke_m": 0.016}
    stated = {name: Stated(value, Trust.MEASURED) for name, value in figures.items()}
    return replace(part, figures=stated | dict(part.figures))


def small_car(layout: str = "front-rear tandem") -> BrakeSystem:
    """Return the brakes of an invented small car, in one of the layouts of the starters.

    Parameters
    ----------
    layout : str
        One of `bareshell.brakes.starters.STARTERS`.

    Examples
    --------
    >>> from bareshell.brakes.figures import gather
    >>> gather(small_car()).missing
    ()
    """
    return filled(starter(layout))
