"""Master cylinders: what a push makes of pressure in each chamber, and how far each piston goes.

Pressure follows from the push while every piston is between its stops. A piston that stands at the
end of its bore, or on the piston ahead of it, gives no more fluid: what its circuit could take then
says the pressure. A circuit that is lost lets its piston run through its stroke; one that is
blanked takes nothing and holds its piston where it is.

Springs, ports and clearances are taken to give way over the first newton beyond their force, so
that travel never jumps.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from bareshell.brakes.elements import Elements
from bareshell.brakes.figured import settled
from bareshell.brakes.flow import Flow
from bareshell.brakes.needs import is_tandem
from bareshell.brakes.roots import where_reaches
from bareshell.calc import master, tandem
from bareshell.calc.values import Value

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Cylinder", "Pressed", "cylinder_of", "yielded"]


OnStop: TypeAlias = "NDArray[np.bool_] | bool"


@dataclass(frozen=True, slots=True)
class Pressed:
    """A cylinder under a push.

    Parameters
    ----------
    pressures : mapping of str to float or array
        By circuit. [Pa]
    strokes : mapping of str to float or array
        Of each circuit's piston; empty when travel is not asked for. [m]
    rod_m : float or array
        How far the push rod goes. [m]
    on_stop : bool or array
        Whether some piston stands on a stop.
    """

    pressures: Mapping[str, Value]
    strokes: Mapping[str, Value]
    rod_m: Value
    on_stop: OnStop


def yielded(force_n: Value, held_by_n: Value) -> Value:
    """Share of its way that something has gone that a force holds back: all, a newton beyond."""
    import numpy as np

    return np.minimum(np.maximum(force_n - held_by_n, 0.0), 1.0)


class Cylinder(ABC):
    """A master cylinder with its figures: what single and tandem ones share."""

    def __init__(
        self, part: str, flows: Mapping[str, Flow], elements: Elements, *, travel: bool
    ) -> None:
        self.part = part
        self.travel = travel
        at = elements.figures
        self.first = next(flow for flow in flows.values() if flow.circuit.part == part)
        self.area = master.bore_area(at(part, "bore_m"))
        self.spring_n = at(part, "primary_spring_n")
        self._friction_n = at(part, "seal_friction_n")
        self._efficiency = at(part, "efficiency")
        if travel:
            self.stroke_m = at(part, "primary_stroke_m")
            self.port_m = at(part, "port_closing_m")

    def net(self, push_n: Value) -> Value:
        """Push that is left behind the first piston's seals. [N]."""
        return self._efficiency * (push_n - self._friction_n)

    @abstractmethod
    def settle_stops(self, top_push_n: Value) -> None:
        """Find the pressures beyond which pistons stand on their stops, up to a push."""

    @abstractmethod
    def pressures(self, push_n: Value) -> tuple[dict[str, Value], OnStop]:
        """Pressure of each circuit for a push, and whether some piston stands on a stop."""

    @abstractmethod
    def pressed(self, push_n: Value) -> Pressed:
        """The same with strokes, where travel is asked for."""

    @abstractmethod
    def lengths(self) -> Mapping[str, Value]:
        """Travel of the push rod for each cubic metre that a circuit takes. [1/m2]."""

    @abstractmethod
    def runs(self, push_n: Value) -> dict[tuple[str, str], Value]:
        """What takes travel and no fluid, by piece and circuit, at the push rod. [m]."""


def _stop(flow: Flow, given_m3: Value, top_pa: Value) -> Value:
    """Pressure at which a circuit takes all that a piston can give; endless beyond the top."""
    import numpy as np

    if not np.any(flow.volume(top_pa) > given_m3):
        return np.inf
    return where_reaches(flow.volume, given_m3, 0.0 * top_pa, top_pa)


class _Single(Cylinder):
    def __init__(
        self, part: str, flows: Mapping[str, Flow], elements: Elements, *, travel: bool
    ) -> None:
        super().__init__(part, flows, elements, travel=travel)
        self._pressure: Callable[..., Value] = settled(
            master.line_pressure,
            bore_m=elements.figures(part, "bore_m"),
            return_spring_n=self.spring_n,
            seal_friction_n=self._friction_n,
            cylinder_efficiency=self._efficiency,
        )
        self._stop: Value = float("inf")

    def settle_stops(self, top_push_n: Value) -> None:
        top = self._pressure(push_rod_force_n=top_push_n)
        self.first.settle_stops(top)
        if not self.first.circuit.lost:
            self._stop = _stop(self.first, self.area * (self.stroke_m - self.port_m), top)

    def pressures(self, push_n: Value) -> tuple[dict[str, Value], OnStop]:
        import numpy as np

        name = self.first.circuit.id
        pressure = self._pressure(push_rod_force_n=push_n)
        if self.first.circuit.lost:
            return {name: 0.0 * pressure}, np.asarray(self.net(push_n) > self.spring_n)
        on_stop = np.asarray(pressure >= self._stop)
        return {name: np.minimum(pressure, self._stop)}, on_stop

    def pressed(self, push_n: Value) -> Pressed:
        pressures, on_stop = self.pressures(push_n)
        if not self.travel:
            return Pressed(pressures, {}, 0.0, on_stop=False)
        name = self.first.circuit.id
        rod: Value = sum(self.runs(push_n).values())
        if not self.first.circuit.lost:
            rod = rod + self.first.volume(pressures[name]) / self.area
        return Pressed(pressures, {name: rod}, rod, on_stop)

    def lengths(self) -> Mapping[str, Value]:
        return {self.first.circuit.id: 1.0 / self.area}

    def runs(self, push_n: Value) -> dict[tuple[str, str], Value]:
        name = self.first.circuit.id
        moved = yielded(self.net(push_n), self.spring_n)
        found = {("port closing", name): self.port_m * moved}
        if self.first.circuit.lost:
            found["run to the stop", name] = (self.stroke_m - self.port_m) * moved
        return found


class _Tandem(Cylinder):
    def __init__(
        self, part: str, flows: Mapping[str, Flow], elements: Elements, *, travel: bool
    ) -> None:
        super().__init__(part, flows, elements, travel=travel)
        at = elements.figures
        own = [flow for flow in flows.values() if flow.circuit.part == part]
        self.first = next(flow for flow in own if flow.circuit.chamber != "floating")
        self.second = next(flow for flow in own if flow.circuit.chamber == "floating")
        self._stepped = at.has(part, "floating_bore_m")
        bore = at(part, "bore_m")
        ahead = at(part, "floating_bore_m") if self._stepped else bore
        self._ahead = master.bore_area(ahead)
        self._second_spring_n = at(part, "floating_spring_n")
        shared = {"seal_friction_n": self._friction_n, "cylinder_efficiency": self._efficiency}
        bores = {
            "primary_bore_m": bore,
            "floating_rear_bore_m": ahead,
            "floating_front_bore_m": ahead,
        }
        first_spring = {"primary_spring_n": self.spring_n}
        second_spring = {"floating_spring_n": self._second_spring_n}
        self._both = settled(
            tandem.tandem_pressures, **bores, **first_spring, **second_spring, **shared
        )
        self._without_first = settled(
            tandem.tandem_primary_circuit_lost,
            floating_front_bore_m=ahead,
            **second_spring,
            **shared,
        )
        self._without_second = settled(
            tandem.tandem_floating_circuit_lost, primary_bore_m=bore, **first_spring, **shared
        )
        self._strokes = settled(tandem.tandem_strokes, **bores)
        self._first_stop: Value = float("inf")
        self._second_stop: Value = float("inf")
        if travel:
            self._second_stroke_m = at(part, "floating_stroke_m")
            self._second_run_m = self._second_stroke_m - self.port_m

    def _free(self, push_n: Value) -> tuple[Value, Value]:
        """Both pressures while the pistons are between their stops."""
        if self.first.circuit.lost and self.second.circuit.lost:
            return 0.0 * push_n, 0.0 * push_n
        if self.first.circuit.lost:
            return 0.0 * push_n, self._without_first(push_rod_force_n=push_n)
        if self.second.circuit.lost:
            return self._without_second(push_rod_force_n=push_n), 0.0 * push_n
        both = self._both(push_rod_force_n=push_n)
        return both.primary_pa, both.floating_pa

    def settle_stops(self, top_push_n: Value) -> None:
        # With the first piston standing on the second, all of the push may reach the second.
        top_first = self._without_second(push_rod_force_n=top_push_n)
        top_second = self._without_first(push_rod_force_n=top_push_n)
        self.first.settle_stops(top_first)
        self.second.settle_stops(top_second)
        if not self.second.circuit.lost:
            self._second_stop = _stop(self.second, self._ahead * self._second_run_m, top_second)
        if not self.first.circuit.lost:
            given = self.area * self.stroke_m
            if self.second.circuit.lost:
                given = given + (self.area - self._ahead) * self._second_run_m
            if self.second.circuit.lost or not self._stepped:
                self._first_stop = _stop(self.first, given, top_first)

    def pressures(self, push_n: Value) -> tuple[dict[str, Value], OnStop]:
        import numpy as np

        names = self.first.circuit.id, self.second.circuit.id
        first, second = self._free(push_n)
        on_stop: OnStop = False
        if self.travel:
            on_stop = np.asarray(second >= self._second_stop) | (first >= self._first_stop)
            if self.first.circuit.lost or self.second.circuit.lost:
                first = np.minimum(first, self._first_stop)
                second = np.minimum(second, self._second_stop)
                on_stop = on_stop | (self.net(push_n) > self.spring_n)
            else:
                first, second, touching = self._on_stops(push_n, first, second)
                on_stop = on_stop | touching
        return dict(zip(names, (first, second), strict=True)), on_stop

    def pressed(self, push_n: Value) -> Pressed:
        pressures, on_stop = self.pressures(push_n)
        if not self.travel:
            return Pressed(pressures, {}, 0.0, on_stop=False)
        names = self.first.circuit.id, self.second.circuit.id
        taken = [
            0.0 if flow.circuit.lost else flow.volume(pressures[flow.circuit.id])
            for flow in (self.first, self.second)
        ]
        lengths = self.lengths()
        rod: Value = sum(self.runs(push_n).values())
        rod = rod + taken[0] * lengths[names[0]] + taken[1] * lengths[names[1]]
        ahead = self._port(push_n) + self._run_of_second(push_n) + taken[1] / self._ahead
        return Pressed(pressures, {names[0]: rod, names[1]: ahead}, rod, on_stop)

    def _on_stops(
        self, push_n: Value, first: Value, second: Value
    ) -> tuple[Value, Value, NDArray[np.bool_]]:
        """Hold both pressures to what the pistons can give, with nothing lost."""
        import numpy as np

        second = np.minimum(second, self._second_stop)
        if not self._stepped:
            # Bores alike: the second pressure is the same whether the pistons touch or not.
            touching = np.asarray(first >= self._first_stop)
            return np.minimum(first, self._first_stop), second, touching
        reach = self.area - self._ahead

        def beyond(pressure: Value) -> Value:
            ahead = self._touched(push_n, pressure)
            made = reach * self.second.volume(ahead) / self._ahead
            return self.first.volume(pressure) - made

        given = self.area * self.stroke_m
        made = reach * self.second.volume(second) / self._ahead
        touching = np.asarray(self.first.volume(first) - made > given)
        if not np.any(touching):
            return first, second, touching
        held = where_reaches(beyond, given, 0.0 * first, first)
        first = np.where(touching, held, first)
        second = np.where(touching, self._touched(push_n, first), second)
        return first, second, touching

    def _touched(self, push_n: Value, first: Value) -> Value:
        """Second pressure with the pistons touching: what the first chamber does not carry."""
        import numpy as np

        carried = first * (self.area - self._ahead) / self._efficiency
        free: Value = self._without_first(push_rod_force_n=push_n - carried)
        return np.minimum(free, self._second_stop)

    def lengths(self) -> Mapping[str, Value]:
        behind = 1.0 / self._ahead if self.first.circuit.lost else 1.0 / self.area
        return {self.first.circuit.id: 1.0 / self.area, self.second.circuit.id: behind}

    def _port(self, push_n: Value) -> Value:
        import numpy as np

        weaker = np.minimum(self.spring_n, self._second_spring_n)
        return self.port_m * yielded(self.net(push_n), weaker)

    def _run_of_second(self, push_n: Value) -> Value:
        if not self.second.circuit.lost:
            return 0.0
        held = self._second_spring_n + self._friction_n
        return self._second_run_m * yielded(self.net(push_n), held)

    def runs(self, push_n: Value) -> dict[tuple[str, str], Value]:
        names = self.first.circuit.id, self.second.circuit.id
        # Both pistons go together on the spring between them until their ports are shut.
        found = {("port closing", names[0]): self._port(push_n)}
        if self.first.circuit.lost:
            run = self.stroke_m * yielded(self.net(push_n), self.spring_n)
            found["run to the stop", names[0]] = run
        if self.second.circuit.lost:
            # Touching, the first piston goes as far; else it fills the room in its own bore.
            wide = 1.0 if self.first.circuit.lost else self._ahead / self.area
            found["run to the stop", names[1]] = self._run_of_second(push_n) * wide
        return found


def cylinder_of(
    part: str, flows: Mapping[str, Flow], elements: Elements, *, travel: bool
) -> Cylinder:
    """Make a cylinder ready for pushes."""
    made = _Tandem if is_tandem(elements.part(part)) else _Single
    return made(part, flows, elements, travel=travel)
