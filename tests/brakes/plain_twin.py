"""A second solve for one kind of car, straight from statics, in plain numbers and plain loops.

It goes the other way about: it puts the push rod somewhere, asks what each chamber must hold there
and where the floating piston stands, and then what push that takes. It imports nothing of ours, so
that what it shares with the solve is only the car: a push-rod servo, a tandem cylinder with bores
alike or stepped, discs in front on the first chamber, drums behind a limiting valve on the second.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import pairwise

from scipy.optimize import brentq

PSI = 4.4482216152605 / 0.0254**2
FOOT = 0.3048
# The most that hoses of 1/8 in may swell (FMVSS 106, from memory): psi, cubic centimetres a foot.
SWELL = ((0.0, 0.0), (1000.0, 0.66), (1500.0, 0.79), (2900.0, 1.21))


def area(bore: float) -> float:
    return math.pi * bore * bore / 4.0


def swell(pressure: float) -> float:
    """Cubic metres for each metre of hose."""
    psi = pressure / PSI
    for (low, start), (high, end) in pairwise(SWELL):
        if psi <= high or high == SWELL[-1][0]:
            return (start + (end - start) * (psi - low) / (high - low)) * 1e-6 / FOOT
    raise AssertionError


def stretch(outside: float, wall: float, length: float, modulus: float, poisson: float) -> float:
    """Cubic metres a pascal that a closed thick pipe takes, by Lame."""
    a, b = outside / 2.0 - wall, outside / 2.0
    hoop = (b * b + a * a) / (b * b - a * a)
    axial = a * a / (b * b - a * a)
    bore_grows = (hoop + poisson - poisson * axial) / modulus
    pipe_grows = (axial - poisson * (hoop - 1.0)) / modulus
    return math.pi * a * a * length * (2.0 * bore_grows + pipe_grows)


def crossing(function: Callable[[float], float], low: float, high: float) -> float:
    """Where a function changes its sign, by a general library."""
    return float(brentq(function, low, high, xtol=1e-300, rtol=1e-13, maxiter=300))


@dataclass(frozen=True)
class Found:
    """What the twin answers."""

    first_pa: float
    second_pa: float
    rod_m: float
    pad_m: float
    on_floor: bool
    torque_front_nm: float
    torque_rear_nm: float


@dataclass(frozen=True)
class Twin:
    """The car by the same names as the figures of the starter.

    Lines are given as id, kind, and where they are: ``first``, ``second``, ``behind`` the valve.
    """

    figures: Mapping[str, float]
    lines: tuple[tuple[str, str, str], ...]

    def at(self, path: str) -> float:
        return self.figures[path]

    # ------------------------------------------------------------------ fluid

    def first_volume(self, p: float) -> float:
        """Both front discs and their lines."""
        taken = self._lines(first=True, p=p, behind=p)
        for side in ("left", "right"):
            name = f"caliper-front-{side}"
            piston = self.at(f"{name}.a_pistons") * area(self.at(f"{name}.a_bore_m"))
            closed = min(p / max(self.at(f"{name}.threshold_pa"), 100.0), 1.0)
            taken += 2.0 * piston * self.at(f"{name}.pad_clearance_m") * closed
            taken += 2.0 * piston * (p * piston / self.at(f"{name}.pad_stiffness_n_m"))
            taken += p * self.at(f"{name}.flex_m3_pa")
            taken += p * self.at(f"{name}.fluid_m3") / self.at("fluid.bulk_modulus_pa")
        return taken

    def second_volume(self, p: float) -> float:
        """The lines up to the valve, and the drums behind it."""
        behind = min(p, self.at("valve-rear.knee_pa"))
        taken = self._lines(first=False, p=p, behind=behind)
        for side in ("left", "right"):
            name, drum = f"cylinder-rear-{side}", f"drum-rear-{side}"
            piston = area(self.at(f"{name}.bore_m"))
            tip = self.at(f"{drum}.shoe_clearance_m")
            tip *= self.at(f"{drum}.actuation_arm_m") / self.at(f"{drum}.pivot_arm_m")
            closed = min(behind / max(self.at(f"{name}.threshold_pa"), 100.0), 1.0)
            taken += 2.0 * piston * tip * closed
            taken += behind * self.at(f"{drum}.flex_m3_pa")
            taken += behind * self.at(f"{name}.fluid_m3") / self.at("fluid.bulk_modulus_pa")
        return taken

    def _lines(self, *, first: bool, p: float, behind: float) -> float:
        taken = 0.0
        for name, kind, where in self.lines:
            if (where == "first") is not first:
                continue
            here = behind if where == "behind" else p
            length = self.at(f"{name}.length_m")
            if kind == "pipe":
                outside, wall = self.at(f"{name}.outside_diameter_m"), self.at(f"{name}.wall_m")
                taken += here * stretch(outside, wall, length, 205e9, 0.30)
                fluid = area(outside - 2.0 * wall) * length
            else:
                taken += swell(here) * length * self.at(f"{name}.swell_ratio")
                fluid = area(0.0032) * length
            taken += here * fluid / self.at("fluid.bulk_modulus_pa")
        air = self.at("fluid.air_m3")
        return taken + air - air * 101325.0 / (101325.0 + p)

    # ------------------------------------------------------------------ the cylinder

    def held(self, volume: Callable[[float], float], given: float) -> float:
        """Pressure at which a circuit takes what it is given."""
        return crossing(lambda p: volume(p) - given, 0.0, 2e9) if given > 0.0 else 0.0

    def standing(self, rod_m: float) -> tuple[float, float, float]:
        """Both pressures and the push that holds the first piston at a place."""
        a1 = area(self.at("master.bore_m"))
        a2 = area(self.figures.get("master.floating_bore_m", self.at("master.bore_m")))
        port, gap = self.at("master.port_closing_m"), self.at("master.primary_stroke_m")
        s1, s2 = self.at("master.primary_spring_n"), self.at("master.floating_spring_n")
        friction, run = self.at("master.seal_friction_n"), self.at("master.floating_stroke_m")

        def both(second_m: float) -> tuple[float, float]:
            first = self.held(self.first_volume, a1 * (rod_m - port) - a2 * (second_m - port))
            return first, self.held(self.second_volume, a2 * (second_m - port))

        def over(second_m: float) -> float:
            """Push on the floating piston that nothing answers; it falls as the piston goes."""
            first, second = both(second_m)
            return first * a2 + s1 - second * a2 - s2 - friction

        least, most = max(port, rod_m - gap), run
        touching = 0.0
        if over(least) <= 0.0:
            second_m = least
            if least > port:
                touching = -over(least)
        elif over(most) >= 0.0:
            second_m = most
        else:
            second_m = crossing(over, least, most)
        first, second = both(second_m)
        net = first * a1 + s1 + touching
        return first, second, net / self.at("master.efficiency") + friction

    def pushed(self, foot_n: float) -> Found:
        """What a foot does: place the rod so that it takes just that push, or the floor does."""
        ratio = self.at("pedal.ratio")
        rod = ratio * self.at("pedal.efficiency") * (foot_n - self.at("pedal.return_n"))
        help_n = self.at("servo.efficiency") * self.at("servo.vacuum_pa") * area(
            self.at("servo.diaphragm_diameter_m")
        ) - self.at("servo.spring_n")
        used = max(rod - self.at("servo.cut_in_n"), 0.0)
        push = used + min((self.at("servo.boost_ratio") - 1.0) * used, max(help_n, 0.0))
        before = self.at("pedal.free_play_m") + ratio * self.at("servo.lost_travel_m")
        floor = (self.at("pedal.floor_travel_m") - before) / ratio
        solid = self.at("master.primary_stroke_m") + self.at("master.floating_stroke_m")
        most = min(floor, solid)
        on_floor = False
        if self.standing(most)[2] < push:
            rod_m, on_floor = most, floor < solid
        else:
            port = self.at("master.port_closing_m")
            rod_m = crossing(lambda rod: self.standing(rod)[2] - push, port, most)
        first, second, _ = self.standing(rod_m)
        return Found(
            first, second, rod_m, before + ratio * rod_m, on_floor,
            self._disc(first), self._drum(min(second, self.at("valve-rear.knee_pa"))),
        )  # fmt: skip

    def _disc(self, p: float) -> float:
        name = "caliper-front-left"
        piston = self.at(f"{name}.a_pistons") * area(self.at(f"{name}.a_bore_m"))
        clamp = max(p - self.at(f"{name}.threshold_pa"), 0.0) * piston
        clamp *= self.at(f"{name}.efficiency")
        middle = self.at("disc-front-left.outer_diameter_m") / 2.0
        middle -= self.at("disc-front-left.pad_height_m") / 2.0
        return 2.0 * self.at(f"{name}.pad_friction") * clamp * middle

    def _drum(self, p: float) -> float:
        name = "cylinder-rear-left"
        force = self.at(f"{name}.efficiency") * area(self.at(f"{name}.bore_m"))
        force *= max(p - self.at(f"{name}.threshold_pa"), 0.0)
        factor = self.at("drum-rear-left.brake_factor")
        return factor * force * self.at("drum-rear-left.diameter_m") / 2.0
