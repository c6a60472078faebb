"""Each part and line by itself: the torque of a brake for a pressure, the fluid that a thing takes.

What a part needs is worked out once from its figures and kept; the solve then only puts pressures
in. The formulas are those of `bareshell.calc`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Final

from bareshell.brakes.figured import Figured, settled
from bareshell.brakes.needs import factor_from_geometry
from bareshell.brakes.topology import Actuator
from bareshell.calc import air, disc, drum, hose, master, shoe, volume
from bareshell.calc.values import Value
from bareshell.errors import BadInput, Problem
from bareshell.model.brake import BrakeSystem, Line, LineKind, Part, PartKind, Wheel

__all__ = ["ATMOSPHERE_PA", "Elements", "Give"]

ATMOSPHERE_PA: Final = 101_325.0
"""Pressure of the standard atmosphere."""

# Young's modulus and Poisson's ratio of pipes, from memory; what they take is next to nothing.
_METALS: Final = MappingProxyType(
    {
        "steel": (205e9, 0.30),
        "stainless": (195e9, 0.30),
        "copper-nickel": (135e9, 0.34),
        "copper": (120e9, 0.34),
    }
)
_HOSE_BORES: Final = (("1/8", 0.0032), ("3/16", 0.0048), ("1/4", 0.0064))
DEFAULT_HOSE: Final = "1/8 regular"
"""Class that a hose is taken to be of when nobody knows: the commonest, and among the softest."""


@dataclass(slots=True)
class Give:
    """What fluid a leg, or a piece of one, takes for a pressure.

    Parameters
    ----------
    straight : dict of str to float or array
        What rises in proportion, by piece. [m3/Pa]
    hoses : dict of str to float or array
        Length of hose by class, weighed by how it swells beside its class. [m]
    air_m3 : float or array
        Free air. [m3]
    gaps : list of (str, float or array, float or array)
        Clearances: piece, fluid that closes it, pressure by which it is closed. [m3, Pa]
    """

    straight: dict[str, Value] = field(default_factory=dict)
    hoses: dict[str, Value] = field(default_factory=dict)
    air_m3: Value = 0.0
    gaps: list[tuple[str, Value, Value]] = field(default_factory=list)

    def add(self, other: Give) -> None:
        """Take in another thing on the same leg."""
        for key, each in other.straight.items():
            self.straight[key] = self.straight.get(key, 0.0) + each
        for key, each in other.hoses.items():
            self.hoses[key] = self.hoses.get(key, 0.0) + each
        self.air_m3 = self.air_m3 + other.air_m3
        self.gaps += other.gaps

    def pieces(self, pressure_pa: Value) -> dict[str, Value]:
        """Fluid taken at a pressure, piece by piece, in cubic metres."""
        found: dict[str, Value] = {}
        for key, gap, threshold in self.gaps:
            found[key] = found.get(key, 0.0) + gap * _closed(pressure_pa, threshold)
        for key, each in self.straight.items():
            found[key] = found.get(key, 0.0) + each * pressure_pa
        for key, length in self.hoses.items():
            found["hoses"] = found.get("hoses", 0.0) + length * _SWELL(pressure_pa, 1.0, key)
        found["air"] = _AIR(pressure_pa, self.air_m3, ATMOSPHERE_PA)
        return found

    def together(self) -> Callable[[Value], Value]:
        """Return the fluid taken for a pressure, all pieces together. [m3]."""
        import numpy as np

        straight: Value = sum(self.straight.values())
        # What closes together is one gap.
        gaps: dict[int, tuple[Value, Value]] = {}
        for _, gap, threshold in self.gaps:
            before = gaps.get(id(threshold), (0.0, threshold))[0]
            gaps[id(threshold)] = before + gap, threshold
        closing = [(gap, 1.0 / np.maximum(at, _LEAST_THRESHOLD_PA)) for gap, at in gaps.values()]
        some_air = np.any(np.asarray(self.air_m3) > 0.0)

        def total(pressure_pa: Value) -> Value:
            taken = straight * pressure_pa
            for gap, per_pascal in closing:
                taken = taken + gap * np.minimum(pressure_pa * per_pascal, 1.0)
            for key, length in self.hoses.items():
                taken = taken + length * _SWELL(pressure_pa, 1.0, key)
            if some_air:
                taken = taken + _AIR(pressure_pa, self.air_m3, ATMOSPHERE_PA)
            return taken

        return total


_SWELL: Final = settled(hose.hose_expansion_volume)
_AIR: Final = settled(air.entrained_air_volume)
_LEAST_THRESHOLD_PA: Final = 100.0


def _closed(pressure_pa: Value, threshold_pa: Value) -> Value:
    """Share of a clearance that is closed: springs and seals yield up to the threshold."""
    import numpy as np

    return np.minimum(pressure_pa / np.maximum(threshold_pa, _LEAST_THRESHOLD_PA), 1.0)


class Elements:
    """The parts and lines of one system with its figures, each worked out when first asked for."""

    def __init__(self, system: BrakeSystem, figures: Figured) -> None:
        self.system = system
        self.figures = figures
        self._parts = {part.id: part for part in system.parts}
        self._lines = {line.id: line for line in system.lines}
        self._torques: dict[tuple[str, str], Callable[[Value], Value]] = {}
        self._gives: dict[tuple[str, str], Give] = {}
        fluids = system.of_kind(PartKind.FLUID)
        self._fluid = fluids[0].id if fluids else ""
        cars = system.of_kind(PartKind.CAR)
        self.car = cars[0].id if cars else ""

    def part(self, part_id: str) -> Part:
        """Return a part by its id."""
        return self._parts[part_id]

    @contextmanager
    def _of(self, part: Part | Line) -> Iterator[None]:
        """Name the part in whatever is refused while it is worked out."""
        try:
            yield
        except BadInput as refused:
            raise BadInput.together(
                [
                    Problem(f"{each.where} ({part.title})", each.what, each.remedy)
                    for each in refused.problems
                ]
            ) from refused

    # ------------------------------------------------------------------ torque

    def torque(self, actuator: Actuator) -> Callable[[Value], Value]:
        """Return the torque of a wheel's brake for the pressure at one of its chambers."""
        key = actuator.part, actuator.chamber
        if key not in self._torques:
            part = self.part(actuator.part)
            with self._of(part):
                if part.kind is PartKind.CALIPER:
                    self._torques[key] = self._of_caliper(part, actuator.chamber)
                else:
                    self._torques[key] = self._of_cylinder(part)
        return self._torques[key]

    def _of_caliper(self, part: Part, chamber: str) -> Callable[[Value], Value]:
        at = self.figures
        clamp = settled(
            disc.clamp_force,
            piston_area_m2=self.piston_area(part, chamber),
            push_out_pressure_pa=at(part.id, "threshold_pa"),
            caliper_efficiency=at(part.id, "efficiency"),
        )
        turn = settled(
            disc.disc_torque,
            friction=at(part.id, "pad_friction"),
            effective_radius_m=self.effective_radius(part.wheel),
        )
        return lambda pressure_pa: turn(clamp_force_n=clamp(pressure_pa=pressure_pa))

    def _of_cylinder(self, part: Part) -> Callable[[Value], Value]:
        at = self.figures
        own = self.drum_of(part.wheel)
        area = master.bore_area(at(part.id, "bore_m"))
        efficiency = at(part.id, "efficiency")
        push = settled(
            shoe.shoe_force,
            cylinder_bore_m=at(part.id, "bore_m"),
            shoe_spring_n=efficiency * at(part.id, "threshold_pa") * area,
            cylinder_efficiency=efficiency,
        )
        with self._of(own):
            turn = settled(
                drum.drum_torque,
                brake_factor=self.brake_factor(own) / self._shared_by(part, own),
                drum_radius_m=at(own.id, "diameter_m") / 2.0,
            )
        return lambda pressure_pa: turn(shoe_force_n=push(pressure_pa=pressure_pa))

    def piston_area(self, part: Part, chamber: str) -> Value:
        """Area that clamps on one circuit: one side of a fixed caliper, all of a sliding one."""
        at = self.figures
        if chamber == "b":
            return at(part.id, "b_pistons") * master.bore_area(at(part.id, "b_bore_m"))
        area = at(part.id, "a_pistons") * master.bore_area(at(part.id, "a_bore_m"))
        if at.has(part.id, "a_second_bore_m"):
            second = master.bore_area(at(part.id, "a_second_bore_m"))
            area = area + at(part.id, "a_second_pistons") * second
        return area

    def effective_radius(self, wheel: Wheel | None) -> Value:
        """Effective radius of the disc at a wheel: as given, else that of worn-in pads."""
        at = self.figures
        own = self._at_wheel(PartKind.DISC, wheel)
        if at.has(own.id, "effective_radius_m"):
            return at(own.id, "effective_radius_m")
        outer = at(own.id, "outer_diameter_m") / 2.0
        if at.has(own.id, "pad_height_m"):
            inner = outer - at(own.id, "pad_height_m")
        else:
            inner = at(own.id, "rubbing_inner_diameter_m") / 2.0
        with self._of(own):
            return disc.effective_radius_uniform_wear(outer, inner)

    def drum_of(self, wheel: Wheel | None) -> Part:
        """Return the drum at a wheel."""
        return self._at_wheel(PartKind.DRUM, wheel)

    def _at_wheel(self, kind: PartKind, wheel: Wheel | None) -> Part:
        for part in self.system.parts:
            if part.kind is kind and part.wheel is wheel:
                return part
        raise BadInput(f"{kind} at the {wheel}", "is not there", "enter it, or take its brake away")

    def shoe_factors(self, own: Part) -> tuple[Value, Value]:
        """Brake factors of a leading and of a trailing shoe of a drum."""
        at = self.figures
        lining = shoe.lining_factor(at(own.id, "lining_arc_rad"))
        arms = (
            at(own.id, "lining_friction"),
            lining,
            at(own.id, "actuation_arm_m"),
            at(own.id, "pivot_arm_m"),
            at(own.id, "friction_arm_m"),
        )
        return shoe.leading_shoe_factor(*arms), shoe.trailing_shoe_factor(*arms)

    def brake_factor(self, own: Part, *, backwards: bool = False) -> Value:
        """Brake factor of a drum, by its form and shoes or as given.

        Backwards, leading shoes trail. A given factor is kept backwards for a drum that has a shoe
        for each way, and otherwise brought down as such drums usually are.
        """
        form = own.choices.get("form", "leading-trailing")
        if not factor_from_geometry(own):
            given = self.figures(own.id, "brake_factor")
            return given * _BACKWARDS.get(form, 1.0) if backwards else given
        leading, trailing = self.shoe_factors(own)
        if form == "duo-servo":
            # Cylinder and link taken to be as far from the drum's centre as each other.
            arm = self.figures(own.id, "actuation_arm_m") / 2.0
            radius = self.figures(own.id, "diameter_m") / 2.0
            return drum.duo_servo_factor(leading, leading, radius, arm, arm)
        if form == "leading-trailing":
            return drum.simplex_factor(leading, trailing)
        if (form == "twin leading") is not backwards:
            return drum.twin_leading_factor(leading)
        return drum.twin_trailing_factor(trailing)

    def _cylinders(self, own: Part) -> list[Part]:
        return [
            part for part in self.system.of_kind(PartKind.WHEEL_CYLINDER) if part.wheel is own.wheel
        ]

    def _shared_by(self, part: Part, own: Part) -> int:
        """How many cylinders share one drum's factor: each then presses one shoe of two."""
        cylinders = self._cylinders(own)
        twin = own.choices.get("form", "").startswith("twin")
        if twin or part.choices.get("form") == "single-ended":
            return len(cylinders)
        return 1

    # ------------------------------------------------------------------ fluid taken

    def give_of_line(self, line_id: str) -> Give:
        """What a pipe or hose takes."""
        key = (line_id, "line")
        if key not in self._gives:
            line = self._lines[line_id]
            with self._of(line):
                if line.kind is LineKind.PIPE:
                    self._gives[key] = self._of_pipe(line)
                elif line.kind is LineKind.HOSE:
                    self._gives[key] = self._of_hose(line)
                else:
                    self._gives[key] = Give()
        return self._gives[key]

    def _of_pipe(self, line: Line) -> Give:
        at = self.figures
        sizes = (
            at(line.id, "outside_diameter_m"),
            at(line.id, "wall_m"),
            at(line.id, "length_m"),
        )
        modulus, poisson = _METALS.get(line.choices.get("material", ""), _METALS["steel"])
        stretch = volume.pipe_expansion_volume(1.0, *sizes, modulus, poisson)
        fluid = self._squeezed(volume.pipe_fill_volume(*sizes))
        return Give({"pipes": stretch, "fluid": fluid})

    def _of_hose(self, line: Line) -> Give:
        at = self.figures
        named = line.choices.get("hose_class", "") or DEFAULT_HOSE
        length = at(line.id, "length_m")
        hose.hose_expansion_volume(0.0, 1.0, named)  # refuses a class that there is not
        bore = next((bore for start, bore in _HOSE_BORES if named.startswith(start)), 0.0032)
        fluid = self._squeezed(volume.pipe_fill_volume(bore, 0.0, length))
        return Give({"fluid": fluid}, {named: length * at(line.id, "swell_ratio")})

    def give_of_actuator(self, actuator: Actuator) -> Give:
        """What a caliper's chamber or a wheel cylinder takes."""
        key = actuator.part, f"chamber {actuator.chamber}"
        if key not in self._gives:
            part = self.part(actuator.part)
            with self._of(part):
                if part.kind is PartKind.CALIPER:
                    self._gives[key] = self._caliper_gives(part, actuator.chamber)
                else:
                    self._gives[key] = self._cylinder_gives(part)
        return self._gives[key]

    def _caliper_gives(self, part: Part, chamber: str) -> Give:
        at = self.figures
        area = self.piston_area(part, chamber)
        chambers = dict.fromkeys(port.chamber for port in part.ports)
        whole: Value = sum(self.piston_area(part, each) for each in chambers)
        # Each circuit squashes the stretch of pad beneath its own pistons.
        stiffness = at(part.id, "pad_stiffness_n_m") * area / whole
        share = area / whole
        gap = volume.pad_clearance_volume(area, at(part.id, "pad_clearance_m"))
        return Give(
            {
                "pad squash": volume.pad_squash_volume(1.0, area, stiffness),
                "caliper flex": volume.flex_volume(1.0, at(part.id, "flex_m3_pa") * share),
                "fluid": self._squeezed(at(part.id, "fluid_m3") * share),
            },
            gaps=[("pad clearance", gap, at(part.id, "threshold_pa"))],
        )

    def _cylinder_gives(self, part: Part) -> Give:
        at = self.figures
        own = self.drum_of(part.wheel)
        area = master.bore_area(at(part.id, "bore_m"))
        travel = volume.shoe_tip_travel(
            at(own.id, "shoe_clearance_m"),
            at(own.id, "actuation_arm_m"),
            at(own.id, "pivot_arm_m"),
        )
        cylinders = len(self._cylinders(own))
        one_shoe = part.choices.get("form") == "single-ended" and cylinders > 1
        takes: Callable[..., Any] = (
            volume.piston_volume if one_shoe else (volume.shoe_clearance_volume)
        )
        gap = takes(area, travel)
        return Give(
            {
                "drum flex": volume.flex_volume(1.0, at(own.id, "flex_m3_pa") / cylinders),
                "fluid": self._squeezed(at(part.id, "fluid_m3")),
            },
            gaps=[("shoe clearance", gap, at(part.id, "threshold_pa"))],
        )

    def _squeezed(self, fluid_m3: Value) -> Value:
        modulus = self.figures(self._fluid, "bulk_modulus_pa")
        return volume.fluid_compression_volume(1.0, fluid_m3, modulus)

    def give_of_bore(self, stroke_m: Value, bore_m: Value) -> Give:
        """What the fluid in a cylinder's own bore takes."""
        return Give({"fluid": self._squeezed(master.stroke_volume(stroke_m, bore_m))})

    def trapped_air(self) -> Give:
        """The air that is left in each circuit."""
        return Give(air_m3=self.figures(self._fluid, "air_m3"))


# What is left of a given factor backwards, where both shoes then trail or lead: the ratio of the
# usual factors of such drums (common practice, no source).
_BACKWARDS: Final = MappingProxyType({"twin leading": 0.37, "twin trailing": 2.7})
