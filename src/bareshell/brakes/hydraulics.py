"""From the foot to the pressure of each leg, in one state: everything before the wheels.

The force that counts is called effective: it is the foot's force until the pedal stands on the
floor, and from there on it stays what it was when it met it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from bareshell.brakes.elements import Elements
from bareshell.brakes.figured import as_row, settled
from bareshell.brakes.flow import Flow
from bareshell.brakes.masters import Cylinder, Pressed, cylinder_of, yielded
from bareshell.brakes.roots import where_reaches
from bareshell.brakes.topology import Topology
from bareshell.calc import master, pedal, servo
from bareshell.calc.values import Value

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["TOP_FORCE_N", "Hydraulics", "Pushed"]

TOP_FORCE_N: Final = 3000.0
"""Twice what the strongest leg gives: beyond it no search looks. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Pushed:
    """What a force of the foot does as far as the wheels.

    Parameters
    ----------
    rod_n : float or array
        Force behind the pedal. [N]
    run_out : bool or array
        Whether the servo gives all it has.
    pushes : mapping of str to float or array
        Force on each cylinder. [N]
    pressed : mapping of str to Pressed
        Each cylinder.
    legs : mapping of int to float or array
        Pressure of each leg that is fed. [Pa]
    pad_m : float or array
        Travel of the pedal's pad. [m]
    """

    rod_n: Value
    run_out: NDArray[np.bool_] | bool
    pushes: Mapping[str, Value]
    pressed: Mapping[str, Pressed]
    legs: Mapping[int, Value]
    pad_m: Value


class Hydraulics:
    """A system in a state with its figures, as far as the wheels.

    Parameters
    ----------
    topology : Topology
        The system in its state.
    elements : Elements
        Its parts and lines with their figures.
    travel : bool
        Whether all that travel needs is known.
    top_force_n : float
        The largest force of the foot that will be asked about. [N]
    """

    def __init__(
        self, topology: Topology, elements: Elements, *, travel: bool, top_force_n: float
    ) -> None:
        self.topology = topology
        self.elements = elements
        self.travel = travel
        self.top_force_n = top_force_n
        self._floors: dict[float, Value] = {}
        self._set_up_chain()
        self.flows = {
            name: Flow(circuit, topology, elements, travel=travel)
            for name, circuit in topology.circuits.items()
        }
        self.cylinders: dict[str, Cylinder] = {
            each.part: cylinder_of(each.part, self.flows, elements, travel=travel)
            for each in topology.chain.masters
        }
        self.settle_stops()

    # ------------------------------------------------------------------ setting up

    def _set_up_chain(self) -> None:
        at, chain = self.elements.figures, self.topology.chain
        self.ratio = at(chain.pedal, "ratio")
        self._rod: Callable[..., Value] = settled(
            pedal.push_rod_force,
            pedal_ratio=self.ratio,
            pedal_efficiency=at(chain.pedal, "efficiency"),
            pedal_return_n=at(chain.pedal, "return_n"),
        )
        self._bar = None
        self.shares: Mapping[str, Value] = {"all": 1.0}
        if chain.bar:
            share = at(chain.bar, "front_share")
            self._bar = settled(pedal.balance_bar_forces, bar_front_share=share)
            self.shares = {"front": share, "rear": 1.0 - share}
        self._boost: Callable[..., Value] | None = None
        self.servo_knee_n: Value = float("inf")
        if chain.servo:
            self._set_up_servo(chain.servo)

    def _set_up_servo(self, part: str) -> None:
        at = self.elements.figures
        if part in self.topology.dead_servos:
            self._boost = settled(servo.dead_servo_force, servo_drag_n=at(part, "dead_drag_n"))
            return
        capacity = servo.vacuum_servo_capacity(
            at(part, "vacuum_pa"),
            master.bore_area(at(part, "diaphragm_diameter_m")),
            at(part, "efficiency"),
            at(part, "spring_n"),
        )
        figures = {
            "boost_ratio": at(part, "boost_ratio"),
            "servo_capacity_n": capacity,
            "cut_in_force_n": at(part, "cut_in_n"),
        }
        self._boost = settled(servo.vacuum_servo_force, **figures)
        self.servo_knee_n = servo.vacuum_servo_knee(**figures)

    def settle_stops(self) -> None:
        """Find where pistons meet their stops, with valves that sense deceleration as they are."""
        self._floors.clear()
        if self.travel:
            _, _, pushes = self._pushes(self.top_force_n)
            for part, cylinder in self.cylinders.items():
                cylinder.settle_stops(pushes[part])

    # ------------------------------------------------------------------ pushing

    def _pushes(self, effective_n: Value) -> tuple[Value, Any, dict[str, Value]]:
        rod = self._rod(pedal_force_n=effective_n)
        push: Value = rod
        if self._boost is not None:
            push = self._boost(input_force_n=rod)
        chain = self.topology.chain
        if self._bar is None:
            return rod, push, {each.part: push for each in chain.masters}
        both = self._bar(push_rod_force_n=push)
        sides = {"front": both.front_n, "rear": both.rear_n}
        return rod, push, {each.part: sides[each.side] for each in chain.masters}

    def legs(self, effective_n: Value) -> dict[int, Value]:
        """Pressure of each leg that is fed, and no more than that. [Pa]."""
        _, _, pushes = self._pushes(effective_n)
        found: dict[int, Value] = {}
        for part, cylinder in self.cylinders.items():
            pressures, _ = cylinder.pressures(pushes[part])
            for name, pressure in pressures.items():
                found.update(self.flows[name].pressures(pressure))
        return found

    def pushed(self, effective_n: Value) -> Pushed:
        """What an effective force of the foot does."""
        import numpy as np

        rod, _, pushes = self._pushes(effective_n)
        pressed = {part: each.pressed(pushes[part]) for part, each in self.cylinders.items()}
        legs: dict[int, Value] = {}
        for each in pressed.values():
            for name, pressure in each.pressures.items():
                legs.update(self.flows[name].pressures(pressure))
        pad: Value = 0.0
        if self.travel:
            pad = self._pad(effective_n, rod, {part: p.rod_m for part, p in pressed.items()})
        return Pushed(rod, np.asarray(rod > self.servo_knee_n), pushes, pressed, legs, pad)

    def pad_m(self, effective_n: Value) -> Value:
        """Travel of the pedal's pad. [m]."""
        rod, _, pushes = self._pushes(effective_n)
        rods = {part: each.pressed(pushes[part]).rod_m for part, each in self.cylinders.items()}
        return self._pad(effective_n, rod, rods)

    def _pad(self, effective_n: Value, rod_n: Value, rods_m: Mapping[str, Value]) -> Value:
        rod_m: Value = self.servo_m(rod_n)
        for each in self.topology.chain.masters:
            rod_m = rod_m + self.shares[each.side] * rods_m[each.part]
        return self.free_play_m(effective_n) + rod_m * self.ratio

    def free_play_m(self, effective_n: Value) -> Value:
        """Free play at the pad, taken up against the return spring. [m]."""
        import numpy as np

        at, part = self.elements.figures, self.topology.chain.pedal
        spring = np.maximum(at(part, "return_n"), 1.0)
        return at(part, "free_play_m") * np.minimum(effective_n / spring, 1.0)

    def servo_m(self, rod_n: Value) -> Value:
        """What the servo takes of the push rod's travel. [m]."""
        part = self.topology.chain.servo
        if not part:
            return 0.0
        return self.elements.figures(part, "lost_travel_m") * yielded(rod_n, 0.0)

    # ------------------------------------------------------------------ the floor

    @property
    def floor_m(self) -> Value:
        """Travel that the pedal has. [m]."""
        return self.elements.figures(self.topology.chain.pedal, "floor_travel_m")

    def _met(self, top_n: float) -> Value:
        """Force with which the pedal meets the floor; endless where it does not up to a force."""
        import numpy as np

        if top_n not in self._floors:
            if len(self._floors) > 16:
                self._floors.clear()
            self._floors[top_n] = np.inf
            if np.any(np.asarray(self.pad_m(as_row(top_n))) > self.floor_m):
                floor = 0.0 * as_row(top_n) + self.floor_m
                self._floors[top_n] = where_reaches(self.pad_m, floor, 0.0, top_n)
        return self._floors[top_n]

    def effective(self, force_n: NDArray[np.float64]) -> tuple[Value, Any]:
        """Force that counts, and whether the pedal stands on the floor. [N]."""
        import numpy as np

        if not self.travel:
            return force_n, np.asarray(False)
        met = self._met(float(np.max(force_n, initial=0.0)))
        return np.minimum(force_n, met), np.asarray(force_n > met)

    def above_floor(self, force_n: NDArray[np.float64]) -> NDArray[np.float64]:
        """Leave forces that the pedal bears before it stands on the floor; others are endless."""
        import numpy as np

        if not self.travel:
            return force_n
        there = np.where(np.isfinite(force_n), force_n, 0.0)
        return np.where(self.pad_m(there) > self.floor_m, np.inf, force_n)
