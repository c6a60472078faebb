"""Whether the reservoir holds what its pistons take as the linings wear.

From new linings fully drawn back to worn ones pressed: a level that falls as linings wear is not a
leak, and a reservoir that is too small runs dry before anybody looks.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.prepared import Prepared
from bareshell.calc import master, volume
from bareshell.calc.values import Value
from bareshell.model.brake import Part, PartKind

__all__ = ["ReservoirNeed", "reservoir_needs"]

PAD_WEAR_M: Final = (0.006, 0.009, 0.011)
"""Least, usual and most that a pad may lose where nobody measured: `common practice, no source`."""

LINING_WEAR_M: Final = (0.0025, 0.0035, 0.0045)
"""The same for a drum's lining."""


@dataclass(frozen=True, slots=True)
class ReservoirNeed:
    """What one compartment must hold, and what it does.

    Parameters
    ----------
    part : str
        Id of the reservoir.
    title : str
        What its owner calls it.
    circuits : tuple of str
        The circuits that it feeds.
    needed_m3 : float or array
        What their pistons take from new linings to worn ones. [m3]
    there_is_m3 : float or None
        What it holds between its marks; None when nobody measured. [m3]
    assumed : tuple of str
        Brakes whose linings' wear was taken as usual.
    """

    part: str
    title: str
    circuits: tuple[str, ...]
    needed_m3: Value
    there_is_m3: float | None
    assumed: tuple[str, ...]


def reservoir_needs(prepared: Prepared) -> tuple[ReservoirNeed, ...]:
    """Work out what each reservoir must hold.

    Parameters
    ----------
    prepared : Prepared
        The system with its figures, or with samples of them.

    Returns
    -------
    tuple of ReservoirNeed
        One for each reservoir that says what it feeds.

    Raises
    ------
    BadInput
        When figures that the pedal's travel needs are missing.
    """
    prepared.ask("travel", "torque")
    found = []
    for part in prepared.system.of_kind(PartKind.RESERVOIR):
        circuits = tuple(_fed(prepared, part))
        if not circuits:
            continue
        needed: Value = 0.0
        assumed: list[str] = []
        for taken, usual in (each for circuit in circuits for each in _worn(prepared, circuit)):
            needed = needed + taken
            assumed += usual
        stated = part.figures.get("volume_m3")
        holds = None if stated is None else stated.value
        found.append(
            ReservoirNeed(
                part.id, part.title, circuits, _plain(needed), holds, tuple(dict.fromkeys(assumed))
            )
        )
    return tuple(found)


def _fed(prepared: Prepared, part: Part) -> Iterable[str]:
    """The circuits that a reservoir feeds, as its owner wrote them."""
    circuits = prepared.topology().circuits
    for each in part.choices.get("feeds", "").split(","):
        name = "-".join(each.split())
        yield from (circuit for circuit in circuits if circuit in {name, f"{name}-primary"})


def _worn(prepared: Prepared, circuit_id: str) -> Iterable[tuple[Value, tuple[str, ...]]]:
    """What each brake of a circuit takes until its linings are worn."""
    topology = prepared.topology()
    circuit = topology.circuits[circuit_id]
    elements, at = prepared.elements, prepared.figured
    for group in topology.actuators.values():
        for actuator in group:
            if actuator.leg not in circuit.legs:
                continue
            part = elements.part(actuator.part)
            if part.kind is PartKind.CALIPER:
                wear, usual = _wear(part, "pad_wear_m", PAD_WEAR_M[1])
                area = elements.piston_area(part, actuator.chamber)
                gap = at(part.id, "pad_clearance_m") + wear
                yield volume.pad_clearance_volume(area, gap), usual
            else:
                own = elements.drum_of(part.wheel)
                wear, usual = _wear(own, "lining_wear_m", LINING_WEAR_M[1])
                travel = volume.shoe_tip_travel(
                    at(own.id, "shoe_clearance_m") + wear,
                    at(own.id, "actuation_arm_m"),
                    at(own.id, "pivot_arm_m"),
                )
                area = master.bore_area(at(part.id, "bore_m"))
                single = part.choices.get("form") == "single-ended"
                takes = volume.piston_volume if single else volume.shoe_clearance_volume
                yield takes(area, travel), usual


def _wear(part: Part, name: str, usual: float) -> tuple[float, tuple[str, ...]]:
    stated = part.figures.get(name)
    return (usual, (part.title,)) if stated is None else (stated.value, ())


def _plain(value: Value) -> Value:
    import numpy as np

    flat = np.ravel(value)
    return float(flat[0]) if flat.size == 1 else flat
