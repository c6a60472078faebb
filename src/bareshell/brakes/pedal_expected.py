"""What a light and a firm push of the pedal should take, from the system as it was entered.

Air is left out of it: it is what the two-force test looks for. Samples of the inputs give the
ranges.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.brakes.answer import Answer
from bareshell.calc.values import Array
from bareshell.errors import BadInput

__all__ = ["Between", "Expected", "expected_of", "light_force"]


@dataclass(frozen=True, slots=True)
class Between:
    """Least and most of something."""

    low: float
    high: float

    def meets(self, other: Between) -> bool:
        """Whether the two have anything in common."""
        return self.low <= other.high and other.low <= self.high

    def holds(self, figure: float) -> bool:
        """Whether a figure lies within."""
        return self.low <= figure <= self.high


@dataclass(frozen=True, slots=True)
class Expected:
    """What both pushes should take without any air, and what each cause would add.

    Parameters
    ----------
    light_m : Between
        Travel at the light push. [m]
    rise_m : Between
        How much more the firm push takes. [m]
    light_pa, firm_pa : Between
        Pressure of the circuits at each. [Pa]
    pad_m_per_m3 : Between
        Travel of the pad for fluid that a circuit takes. [m/m3]
    flex_light_m, flex_firm_m : Between
        What of the travel is hoses, parts and fluid giving. [m]
    closed_at_light : Between
        Share of the clearances that the light push closes already; all of it unless said. [-]
    floor_m : float
        Travel to the floor. [m]
    """

    light_m: Between
    rise_m: Between
    light_pa: Between
    firm_pa: Between
    pad_m_per_m3: Between
    flex_light_m: Between
    flex_firm_m: Between
    closed_at_light: Between = Between(1.0, 1.0)
    floor_m: float = float("inf")


_FLEX: Final = frozenset({"pad squash", "caliper flex", "drum flex", "hoses", "pipes", "fluid"})

_CLEARANCE: Final = frozenset({"pad clearance", "shoe clearance"})


def expected_of(answer: Answer) -> Expected:
    """Take what two pushes should do from a solve at those two forces.

    Parameters
    ----------
    answer : Answer
        Solved at the light and the firm force, in that order (the last axis), with the travel
        worked out; samples give the ranges.

    Raises
    ------
    BadInput
        When it has not two forces, or its travel was not worked out.
    """
    import numpy as np

    if np.shape(answer.pedal_force_n)[-1:] != (2,):
        raise BadInput("pedal test", "needs a solve at two forces", "solve at the two of the test")
    if answer.travel is None:
        asked = [each.problem() for each in answer.not_worked_out]
        raise BadInput.together(asked) if asked else BadInput("travel", "was not worked out")
    pieces = answer.travel.pieces
    shape = np.shape(answer.travel.total_m)

    def length(keys: frozenset[str]) -> Array:
        rows = [np.broadcast_to(each.length_m, shape) for each in pieces if each.key in keys]
        return np.asarray(sum(rows, start=np.zeros(shape)))

    airless = np.asarray(answer.travel.total_m) - length(frozenset({"air"}))
    flex = length(_FLEX)
    rates = [
        np.ravel(np.asarray(each.length_m)[..., 1] / np.asarray(each.volume_m3)[..., 1])
        for each in pieces
        if each.key in _FLEX and np.all(np.asarray(each.volume_m3)[..., 1] > 0.0)
    ]
    clearance = length(_CLEARANCE)
    firm = np.where(clearance[..., 1] > 0.0, clearance[..., 1], 1.0)
    closed = np.where(clearance[..., 1] > 0.0, clearance[..., 0] / firm, 1.0)
    pressed = answer.circuit_pressure_pa.values()
    pressures = np.stack([np.broadcast_to(each, shape) for each in pressed])
    return Expected(
        _between(airless[..., 0]),
        _between(airless[..., 1] - airless[..., 0]),
        _between(pressures[..., 0]),
        _between(pressures[..., 1]),
        _between(np.concatenate(rates) if rates else np.zeros(1)),
        _between(flex[..., 0]),
        _between(flex[..., 1]),
        _between(closed),
        _between(np.asarray(answer.travel.floor_m)).low,
    )


def _between(values: Array) -> Between:
    import numpy as np

    flat = np.ravel(values)
    return Between(float(flat.min()), float(flat.max()))


def light_force(answer: Answer) -> float | None:
    """Suggest the light push: the least that closes every clearance.

    Parameters
    ----------
    answer : Answer
        Solved over rising forces (the last axis), with the travel worked out.

    Returns
    -------
    float or None
        Force of the foot; None when none of them does. [N]
    """
    import numpy as np

    if answer.travel is None:
        return None
    forces = np.asarray(answer.pedal_force_n)
    shape = np.shape(answer.travel.total_m)
    rows = [
        np.broadcast_to(each.length_m, shape).reshape(-1, shape[-1])
        for each in answer.travel.pieces
        if each.key in _CLEARANCE
    ]
    closed = [(row >= 0.99 * row[:, -1:]).all(axis=0) for row in rows]
    every = np.logical_and.reduce(closed) if closed else np.ones(shape[-1], dtype=bool)
    return float(forces[every.argmax()]) if every.any() else None
