"""One circuit: the pressures behind its valves, and the fluid that it takes.

Everything is a function of the pressure at the cylinder. A remote servo's slave piston passes on
as much fluid as it takes, until it stands at the end of its bore; what is behind it then rises no
further.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from bareshell.brakes.elements import Elements, Give
from bareshell.brakes.figured import settled
from bareshell.brakes.roots import where_reaches
from bareshell.brakes.topology import Circuit, Gate, Topology
from bareshell.calc import master, servo, valves
from bareshell.calc.values import Value

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Flow"]

_ENDLESS = float("inf")


class Flow:
    """A circuit with its figures.

    Parameters
    ----------
    circuit : Circuit
        Which one.
    topology : Topology
        The system in its state.
    elements : Elements
        Its parts and lines.
    travel : bool
        Whether the fluid that it takes is asked for too.
    """

    def __init__(
        self, circuit: Circuit, topology: Topology, elements: Elements, *, travel: bool
    ) -> None:
        self.circuit = circuit
        self.closings: dict[str, Value] = {
            gate.part: _ENDLESS for gate in circuit.gates if gate.form == "deceleration-sensing"
        }
        self._elements = elements
        self._dead = topology.dead_servos
        self._through = [(gate, self._made(gate)) for gate in circuit.gates]
        self._stops: dict[str, Value] = {}
        self._gives: dict[int, Give] = {}
        self._totals: dict[int, Callable[[Value], Value]] = {}
        self._resting: dict[int, Value] = {}
        if travel:
            self._gives = {leg: self._give(leg, topology) for leg in circuit.legs}
            self._totals = {leg: give.together() for leg, give in self._gives.items()}
            rest = self.pressures(0.0)
            self._resting = {leg: total(rest[leg]) for leg, total in self._totals.items()}

    # ------------------------------------------------------------------ pressure

    def pressures(self, pressure_pa: Value) -> dict[int, Value]:
        """Pressure at each leg, for that at the cylinder."""
        if self.circuit.lost:
            return dict.fromkeys(self.circuit.legs, 0.0 * pressure_pa)
        return self._beyond(self.circuit.leg, pressure_pa)

    def _beyond(self, leg: int, pressure_pa: Value) -> dict[int, Value]:
        found = {leg: pressure_pa}
        for gate, through in self._through:
            if gate.leg_in in found:
                found[gate.leg_out] = through(found[gate.leg_in])
        return found

    def _made(self, gate: Gate) -> Callable[[Value], Value]:
        at, part = self._elements.figures, gate.part
        match gate.form:
            case "limiting" if gate.bypassed:
                return self._bypassed(part, 0.0)
            case "limiting":
                return settled(valves.pressure_limiting, limit_pa=at(part, "knee_pa"))
            case "proportioning" if gate.bypassed:
                return self._bypassed(part, at(part, "slope"))
            case "proportioning":
                return settled(
                    valves.proportioning,
                    knee_pa=at(part, "knee_pa"),
                    valve_slope=at(part, "slope"),
                )
            case "deceleration-sensing":
                return self._sensing(part)
            case "residual":
                return settled(valves.residual_pressure, residual_pa=at(part, "residual_pa"))
            case "remote servo":
                return self._boosted(part)
            case _:
                return _unchanged

    def _bypassed(self, part: str, slope: Value) -> Callable[[Value], Value]:
        """A valve whose by-pass senses that no other circuit brakes: that side is at nothing."""
        at = self._elements.figures
        return settled(
            valves.bypassed_proportioning,
            knee_pa=at(part, "knee_pa"),
            valve_slope=slope,
            other_pressure_pa=0.0,
            shift_difference_pa=at(part, "shift_pa"),
        )

    def _sensing(self, part: str) -> Callable[[Value], Value]:
        at = self._elements.figures
        lifts = at.has(part, "slope")
        held = settled(valves.deceleration_sensing, valve_slope=at(part, "slope") if lifts else 0.0)

        def through(pressure_pa: Value) -> Value:
            closing = self.closings[part]
            answer: Value = held(
                pressure_pa=pressure_pa,
                closing_pressure_pa=closing,
                lift_pressure_pa=closing if lifts else _ENDLESS,
            )
            return answer

        return through

    def _boosted(self, part: str) -> Callable[[Value], Value]:
        import numpy as np

        boost = settled(
            servo.line_servo_pressure,
            boost_ratio=self._elements.figures(part, "boost_ratio"),
            reaction_threshold_pa=self._elements.figures(part, "threshold_pa"),
            line_servo_capacity_pa=self._capacity(part),
        )

        def through(pressure_pa: Value) -> Value:
            answer: Value = boost(pressure_pa=pressure_pa)
            stop = self._stops.get(part)
            return answer if stop is None else np.minimum(answer, stop)

        return through

    def _capacity(self, part: str) -> Value:
        if part in self._dead:
            return 0.0
        at = self._elements.figures
        return servo.line_servo_capacity(
            at(part, "vacuum_pa"),
            master.bore_area(at(part, "diaphragm_diameter_m")),
            at(part, "efficiency"),
            at(part, "spring_n"),
            master.bore_area(at(part, "slave_bore_m")),
        )

    # ------------------------------------------------------------------ fluid

    def _give(self, leg: int, topology: Topology) -> Give:
        found = Give()
        if leg == self.circuit.leg:
            found.add(self._elements.trapped_air())
            found.add(Give(air_m3=self.circuit.air_m3))
        for line in topology.legs.legs[leg].lines:
            found.add(self._elements.give_of_line(line))
        for group in topology.actuators.values():
            for actuator in group:
                if actuator.leg == leg:
                    found.add(self._elements.give_of_actuator(actuator))
        at = self._elements.figures
        for gate in self.circuit.gates:
            if gate.form == "remote servo" and gate.leg_out == leg:
                stroke, bore = at(gate.part, "slave_stroke_m"), at(gate.part, "slave_bore_m")
                found.add(self._elements.give_of_bore(stroke, bore))
        return found

    def volume(self, pressure_pa: Value) -> Value:
        """Fluid that the circuit takes, for the pressure at the cylinder. [m3]."""
        return self._taken(self.pressures(pressure_pa))

    def _taken(self, found: Mapping[int, Value]) -> Value:
        taken: Value = 0.0
        for leg, pressure in found.items():
            taken = taken + (self._totals[leg](pressure) - self._resting[leg])
        return taken

    def pieces(self, pressure_pa: Value) -> dict[str, Value]:
        """The same, piece by piece."""
        found: dict[str, Value] = {}
        rest = self.pressures(0.0)
        for leg, pressure in self.pressures(pressure_pa).items():
            resting = self._gives[leg].pieces(rest[leg])
            for key, each in self._gives[leg].pieces(pressure).items():
                found[key] = found.get(key, 0.0) + each - resting[key]
        return found

    def settle_stops(self, top_pa: Value) -> None:
        """Find where each remote servo's slave stands at the end of its bore, up to a pressure."""
        import numpy as np

        self._stops.clear()
        at = self._elements.figures
        for gate, through in reversed(self._through):
            if gate.form != "remote servo" or self.circuit.lost:
                continue
            given = master.stroke_volume(
                at(gate.part, "slave_stroke_m"), at(gate.part, "slave_bore_m")
            )
            top = through(self.pressures(top_pa)[gate.leg_in])
            if np.any(self._behind(gate)(top) > given):
                self._stops[gate.part] = where_reaches(self._behind(gate), given, 0.0 * top, top)

    def _behind(self, gate: Gate) -> Callable[[Value], Value]:
        return lambda pressure_pa: self._taken(self._beyond(gate.leg_out, pressure_pa))

    def slaves(self, pressure_pa: Value) -> Iterable[tuple[str, Value, NDArray[np.bool_]]]:
        """Yield each remote servo with its slave's stroke and whether it stands at its end."""
        import numpy as np

        found = self.pressures(pressure_pa)
        for gate in self.circuit.gates:
            if gate.form == "remote servo" and not self.circuit.lost:
                behind = found[gate.leg_out]
                stroke = master.stroke_for_volume(
                    self._behind(gate)(behind),
                    self._elements.figures(gate.part, "slave_bore_m"),
                )
                stop = self._stops.get(gate.part, _ENDLESS)
                yield gate.part, stroke, np.asarray(behind >= stop)


def _unchanged(pressure_pa: Value) -> Value:
    return pressure_pa
