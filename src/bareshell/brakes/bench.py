"""One system in one state under one load, set up to be pushed: what the answers are read from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from bareshell.brakes.answer import Load
from bareshell.brakes.elements import Elements
from bareshell.brakes.figured import settled
from bareshell.brakes.flow import Flow
from bareshell.brakes.grip import Grip
from bareshell.brakes.hydraulics import Hydraulics, Pushed
from bareshell.brakes.roots import where_reaches
from bareshell.calc import balance, loads, stopping, tyre
from bareshell.calc.values import Value
from bareshell.model.brake import Wheel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Bench"]


class Bench:
    """A system in a state with its figures and load.

    Parameters
    ----------
    hydraulics : Hydraulics
        From the foot to the wheels.
    elements : Elements
        Its parts and lines with their figures.
    load : {"driver only", "laden"}
        How the car is loaded.
    friction_of_road : float or array or None
        Adhesion of the road that a valve which senses deceleration is to feel; None for a road
        on which no wheel locks. [-]
    """

    def __init__(
        self,
        hydraulics: Hydraulics,
        elements: Elements,
        load: Load,
        *,
        friction_of_road: Value | None = None,
    ) -> None:
        self.hydraulics = hydraulics
        self.topology = hydraulics.topology
        self.travel = hydraulics.travel
        self.elements = elements
        self.load = load
        self._felt = friction_of_road
        self._set_up_car()
        self._torques = {
            wheel: [
                (each.leg, elements.torque(each)) for each in group if self.topology.is_live(each)
            ]
            for wheel, group in self.topology.actuators.items()
        }
        self._settle_balls()

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

    # ------------------------------------------------------------------ sensing valves

    def _settle_balls(self) -> None:
        """Find where valves that sense deceleration shut, and then where pistons meet stops."""
        sensing = [
            (flow, gate)
            for flow in self.hydraulics.flows.values()
            for gate in flow.circuit.gates
            if gate.form == "deceleration-sensing" and not flow.circuit.lost
        ]
        # What shuts later depends on what has shut before: as many rounds as there are valves.
        for _ in sensing:
            for flow, gate in sensing:
                self._settle_ball(flow, gate.part, gate.leg_in)
            self.hydraulics.settle_stops()

    def _settle_ball(self, flow: Flow, part: str, leg: int) -> None:
        import numpy as np

        def felt(effective: Value) -> Value:
            wheels = self.wheels(effective)
            if self._felt is None:
                return self.deceleration_g(wheels)
            return self.grip(self._felt).deceleration_g(wheels)

        wanted = self.elements.figures(part, "closing_deceleration_g")
        force = where_reaches(felt, wanted, 0.0 * wanted, self.hydraulics.top_force_n)
        shuts = np.isfinite(force)
        at_ball = self.hydraulics.legs(np.where(shuts, force, 0.0))[leg]
        flow.closings[part] = np.where(shuts, at_ball, np.inf)

    # ------------------------------------------------------------------ pushing

    def pushed(self, effective_n: Value) -> Pushed:
        """What an effective force of the foot does."""
        return self.hydraulics.pushed(effective_n)

    def effective(self, force_n: NDArray[np.float64]) -> tuple[Value, Any]:
        """Force that counts, and whether the pedal stands on the floor. [N]."""
        return self.hydraulics.effective(force_n)

    def above_floor(self, force_n: NDArray[np.float64]) -> NDArray[np.float64]:
        """Leave forces that the pedal bears before it stands on the floor; others are endless."""
        return self.hydraulics.above_floor(force_n)

    # ------------------------------------------------------------------ the road

    def grip(self, friction_of_road: Value) -> Grip:
        """The car on a road."""
        return Grip(self.loads, self._slowing, friction_of_road)

    def torques(self, legs: Mapping[int, Value]) -> dict[Wheel, Value]:
        """Torque of each wheel's brake, for the pressures of the legs. [N.m]."""
        nothing: Value = 0.0 * next(iter(legs.values()), 0.0)
        found: dict[Wheel, Value] = {}
        for wheel, group in self._torques.items():
            total = nothing
            for leg, torque in group:
                total = total + torque(legs[leg])
            found[wheel] = total
        return found

    def forces(self, legs: Mapping[int, Value]) -> dict[Wheel, Value]:
        """Force of each wheel at the road, as if no tyre slid. [N]."""
        return {
            wheel: self._at_road[wheel.is_front](torque_nm=torque)
            for wheel, torque in self.torques(legs).items()
        }

    def wheels(self, effective_n: Value) -> dict[Wheel, Value]:
        """The same for an effective force of the foot. [N]."""
        return self.forces(self.hydraulics.legs(effective_n))

    def axles(self, forces: Mapping[Wheel, Value]) -> tuple[Value, Value]:
        """Force of both wheels of each axle. [N]."""
        front = forces[Wheel.FRONT_LEFT] + forces[Wheel.FRONT_RIGHT]
        return front, forces[Wheel.REAR_LEFT] + forces[Wheel.REAR_RIGHT]

    def deceleration_g(self, forces: Mapping[Wheel, Value]) -> Value:
        """Deceleration that the wheels' forces make, as a share of g."""
        front, rear = self.axles(forces)
        return self._slowing(front_force_n=front, rear_force_n=rear)
