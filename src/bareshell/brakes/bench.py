"""One system in one state, set up to be pushed: what the answers are read from.

The force that counts is called effective: it is the foot's force until the pedal stands on the
floor, and from there on it stays what it was when it met it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from bareshell.brakes.answer import Load
from bareshell.brakes.elements import Elements
from bareshell.brakes.figured import settled
from bareshell.brakes.flow import Flow
from bareshell.brakes.grip import Grip
from bareshell.brakes.masters import Cylinder, Pressed, cylinder_of, yielded
from bareshell.brakes.roots import where_reaches
from bareshell.brakes.topology import Topology
from bareshell.calc import balance, loads, master, pedal, servo, stopping, tyre
from bareshell.calc.values import Value
from bareshell.errors import BadInput
from bareshell.model.brake import Wheel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["TOP_FORCE_N", "Bench", "Pushed"]

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


class Bench:
    """A system in a state with its figures and load.

    Parameters
    ----------
    topology : Topology
        The system in its state.
    elements : Elements
        Its parts and lines with their figures.
    load : {"driver only", "laden"}
        How the car is loaded.
    travel : bool
        Whether all that travel needs is known.
    top_force_n : float
        The largest force of the foot that will be asked about. [N]
    friction_of_road : float or array or None
        Adhesion of the road that a valve which senses deceleration is to feel; None for a road
        on which no wheel locks. [-]
    """

    def __init__(
        self,
        topology: Topology,
        elements: Elements,
        load: Load,
        *,
        travel: bool,
        top_force_n: float = TOP_FORCE_N,
        friction_of_road: Value | None = None,
    ) -> None:
        if topology.troubles:
            raise BadInput.together(topology.troubles)
        self.topology = topology
        self.elements = elements
        self.load = load
        self.travel = travel
        self.top_force_n = top_force_n
        self._felt = friction_of_road
        self._set_up_chain()
        self._set_up_car()
        self.flows = {
            name: Flow(circuit, topology, elements, travel=travel)
            for name, circuit in topology.circuits.items()
        }
        self.cylinders: dict[str, Cylinder] = {
            each.part: cylinder_of(each.part, self.flows, elements, travel=travel)
            for each in topology.chain.masters
        }
        self._torques = {
            wheel: [(each.leg, elements.torque(each)) for each in group if topology.is_live(each)]
            for wheel, group in topology.actuators.items()
        }
        self._settle()

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
        if chain.bar:
            share = at(chain.bar, "front_share")
            self._bar = settled(pedal.balance_bar_forces, bar_front_share=share)
            self.shares: Mapping[str, Value] = {"front": share, "rear": 1.0 - share, "all": 1.0}
        else:
            self.shares = {"all": 1.0}
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

    def _set_up_car(self) -> None:
        at, car = self.elements.figures, self.elements.car
        laden = self.load == "laden"
        mass = at(car, "laden_mass_kg" if laden else "driver_only_mass_kg")
        share = at(car, "laden_front_share" if laden else "driver_only_front_share")
        self.weight_n = mass * stopping.GRAVITY_M_S2
        self.wheelbase_m = at(car, "wheelbase_m")
        self.cg_to_front_m = self.wheelbase_m * (1.0 - share)
        self.cg_height_m = at(car, "laden_cg_height_m" if laden else "cg_height_m")
        self.loads: Callable[..., loads.AxleLoads[Any]] = settled(
            loads.axle_loads,
            weight_n=self.weight_n,
            wheelbase_m=self.wheelbase_m,
            cg_to_front_m=self.cg_to_front_m,
            cg_height_m=self.cg_height_m,
        )
        self._slowing: Callable[..., Value] = settled(
            balance.deceleration_from_forces, weight_n=self.weight_n
        )
        self._at_road: dict[bool, Callable[..., Value]] = {
            front: settled(
                tyre.force_at_road,
                tyre_radius_m=at(car, f"{'front' if front else 'rear'}_rolling_radius_m"),
            )
            for front in (True, False)
        }

    def _settle(self) -> None:
        """Find where valves that sense deceleration shut, then where pistons meet their stops."""
        self._settle_stops()
        sensing = [
            (flow, gate)
            for flow in self.flows.values()
            for gate in flow.circuit.gates
            if gate.form == "deceleration-sensing" and not flow.circuit.lost
        ]
        # What shuts later depends on what has shut before: as many rounds as there are valves.
        for _ in sensing:
            for flow, gate in sensing:
                self._settle_ball(flow, gate.part, gate.leg_in)
            self._settle_stops()

    def _settle_ball(self, flow: Flow, part: str, leg: int) -> None:
        import numpy as np

        def felt(effective: Value) -> Value:
            wheels = self.forces(self.pushed(effective))
            if self._felt is None:
                return self.deceleration_g(wheels)
            return self.grip(self._felt).deceleration_g(wheels)

        wanted = self.elements.figures(part, "closing_deceleration_g")
        force = where_reaches(felt, wanted, 0.0 * wanted, self.top_force_n)
        shuts = np.isfinite(force)
        at_ball = self.pushed(np.where(shuts, force, 0.0)).legs[leg]
        flow.closings[part] = np.where(shuts, at_ball, np.inf)

    def _settle_stops(self) -> None:
        if self.travel:
            _, _, pushes = self._pushes(self.top_force_n)
            for part, cylinder in self.cylinders.items():
                cylinder.settle_stops(pushes[part])

    # ------------------------------------------------------------------ pushing

    def _pushes(self, effective_n: Value) -> tuple[Value, Any, dict[str, Value]]:
        import numpy as np

        rod = self._rod(pedal_force_n=effective_n)
        push, run_out = rod, np.asarray(rod > self.servo_knee_n)
        if self._boost is not None:
            push = self._boost(input_force_n=rod)
        chain = self.topology.chain
        if self._bar is None:
            return rod, run_out, {each.part: push for each in chain.masters}
        both = self._bar(push_rod_force_n=push)
        sides = {"front": both.front_n, "rear": both.rear_n}
        return rod, run_out, {each.part: sides[each.side] for each in chain.masters}

    def pushed(self, effective_n: Value) -> Pushed:
        """What an effective force of the foot does."""
        rod, run_out, pushes = self._pushes(effective_n)
        pressed = {part: each.pressed(pushes[part]) for part, each in self.cylinders.items()}
        legs: dict[int, Value] = {}
        for each in pressed.values():
            for name, pressure in each.pressures.items():
                legs.update(self.flows[name].pressures(pressure))
        pad: Value = 0.0
        if self.travel:
            pad = self._pad(effective_n, rod, pressed)
        return Pushed(rod, run_out, pushes, pressed, legs, pad)

    def _pad(self, effective_n: Value, rod_n: Value, pressed: Mapping[str, Pressed]) -> Value:
        rod_m: Value = self.servo_m(rod_n)
        for each in self.topology.chain.masters:
            rod_m = rod_m + self.shares[each.side] * pressed[each.part].rod_m
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

    def effective(self, force_n: NDArray[np.float64]) -> tuple[Value, Any]:
        """Force that counts, and whether the pedal stands on the floor. [N]."""
        import numpy as np

        if not self.travel:
            return force_n, np.asarray(False)
        floor = self.elements.figures(self.topology.chain.pedal, "floor_travel_m")
        beyond = np.asarray(self.pushed(force_n).pad_m > floor)
        if not np.any(beyond):
            return force_n, beyond
        most = np.max(force_n, axis=-1, keepdims=True)
        met = where_reaches(lambda each: self.pushed(each).pad_m, floor, 0.0 * most, most)
        return np.minimum(force_n, met), beyond

    def above_floor(self, force_n: NDArray[np.float64]) -> NDArray[np.float64]:
        """Leave forces that the pedal bears before it stands on the floor; others are endless."""
        import numpy as np

        if not self.travel:
            return force_n
        floor = self.elements.figures(self.topology.chain.pedal, "floor_travel_m")
        there = np.where(np.isfinite(force_n), force_n, 0.0)
        return np.where(self.pushed(there).pad_m > floor, np.inf, force_n)

    # ------------------------------------------------------------------ the road

    def grip(self, friction_of_road: Value) -> Grip:
        """The car on a road."""
        return Grip(self.loads, self._slowing, friction_of_road)

    def torques(self, pushed: Pushed) -> dict[Wheel, Value]:
        """Torque of each wheel's brake. [N.m]."""
        found: dict[Wheel, Value] = {}
        for wheel, group in self._torques.items():
            total: Value = 0.0 * pushed.rod_n
            for leg, torque in group:
                total = total + torque(pushed.legs[leg])
            found[wheel] = total
        return found

    def forces(self, pushed: Pushed) -> dict[Wheel, Value]:
        """Force of each wheel at the road, as if no tyre slid. [N]."""
        return {
            wheel: self._at_road[wheel.is_front](torque_nm=torque)
            for wheel, torque in self.torques(pushed).items()
        }

    def axles(self, forces: Mapping[Wheel, Value]) -> tuple[Value, Value]:
        """Force of both wheels of each axle. [N]."""
        front = forces[Wheel.FRONT_LEFT] + forces[Wheel.FRONT_RIGHT]
        return front, forces[Wheel.REAR_LEFT] + forces[Wheel.REAR_RIGHT]

    def deceleration_g(self, forces: Mapping[Wheel, Value]) -> Value:
        """Deceleration that the wheels' forces make, as a share of g."""
        front, rear = self.axles(forces)
        return self._slowing(front_force_n=front, rear_force_n=rear)
