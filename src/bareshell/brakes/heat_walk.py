"""The walk of a chain of lumps through a course, all brakes and all samples at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from bareshell.brakes.heat_body import HeatInput
from bareshell.brakes.heat_course import Course, Phase
from bareshell.brakes.heat_history import HeatHistory, Peak, WheelHistory, plain
from bareshell.calc import cooling, slab, slope
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.calc.values import Array, Value, lowest

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["Walk"]

_IRON_CONDUCTIVITY_W_M_K: Final[Value] = 50.0  # grey cast iron, 45 to 55, from memory
_IRON_DENSITY_KG_M3: Final[Value] = 7200.0
_ATMOSPHERE_PA: Final[Value] = 101325.0
_EMISSIVITY: Final[Value] = 0.6  # between bright and rusty, from memory
_STILL_W_M2_K: Final = sum(cooling.STILL_AIR_W_M2_K) / 2
_BRAKED_STEPS: Final = 6
_STEP_OF_METAL: Final = 0.25
_STEP_OF_LINING: Final = 2.0  # beyond 2.4 the method overshoots
_LONGEST_STEP_S: Final = 45.0
_OVERSHOOT_K: Final = 0.3
_HOTTEST_C: Final = 5000.0  # nothing is that hot; a foretold half step may say so
_MOST_STEPS: Final = 500  # what asks for more weighs next to nothing
_GAMMA: Final = 1.0 - 0.5**0.5
_WHERE_FACES_PEAK: Final = (0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)  # shares of the time to rest
_NUMBERS: Final = (
    "energy_share",
    "heat_share",
    "specific_heat_j_kg_k",
    "diameter_m",
    "rubbed_area_m2",
    "depth_m",
    "cooled_area_m2",
    "vane_area_m2",
    "body_area_m2",
    "cooling_ratio",
    "rolling_radius_m",
)


class Walk:
    """The state of a run: temperatures of lumps by wheel, and the tables that grow with time."""

    def __init__(
        self,
        given: HeatInput,
        ambient_c: Value,
        start_c: Value | None,
        shape: tuple[int, ...],
    ) -> None:
        import numpy as np

        self.given = given
        self.bodies = given.brakes
        self.ambient: Array = np.asarray(ambient_c, dtype=np.float64)
        self.shape = shape
        wide = (len(self.bodies), *shape)
        rows = zip(*(body.capacities_j_k for body in self.bodies), strict=True)
        self.capacities = np.stack([self._stacked(row) for row in rows])
        links = zip(*(body.links_w_k for body in self.bodies), strict=True)
        self.links = np.stack([self._stacked(row) for row in links])
        self.of = {
            name: self._stacked([getattr(body, name) for body in self.bodies]) for name in _NUMBERS
        }
        self.vented = bool((self.of["vane_area_m2"] > 0.0).any())
        self.is_disc = np.array([body.form == "disc" for body in self.bodies]).reshape(
            (-1,) + (1,) * len(shape)
        )
        self.state: Array = np.broadcast_to(self.ambient, (4, *wide)).copy()
        if start_c is not None:
            self.state[0] = start_c
        self.begun = self.state.copy()
        self.gained: Array = np.zeros(wide)
        self.lost: Array = np.zeros(wide)
        self.clock: Array = np.zeros(shape)
        self.face_peak: Array = self.state[0].copy()
        self.face_at: Array = np.zeros(wide)
        self.air: Array | None = None
        self.rows: list[tuple[Array, Array, Array, Array]] = []

    def _stacked(self, values: Sequence[Value]) -> Array:
        """One figure of every wheel, the wheels first."""
        import numpy as np

        return np.stack(
            [np.broadcast_to(np.asarray(each, dtype=np.float64), self.shape) for each in values]
        )

    # -------------------------------------------------------------------- a course

    def through(self, course: Course) -> HeatHistory:
        """Walk through a course and tell what happened."""
        begins = []
        self._note(self._speed(course[0], 0.0), self.state[0])
        for phase in course:
            begins.append((phase.words, len(self.rows) - 1))
            self._phase(phase)
        return self._told(tuple(begins))

    def _phase(self, phase: Phase) -> None:
        import numpy as np

        steps = self._steps(phase)
        whole: Array = np.broadcast_to(np.asarray(phase.duration_s, dtype=np.float64), self.shape)
        dt = whole / steps
        before, begun = self.state[0], self.clock
        force = self._force(phase)
        faces = self._flash(phase, force, before, whole, steps)
        for step in range(steps):
            self._step(phase, force, step / steps, 1.0 / steps, dt)
            self.clock = begun + (step + 1) * dt
            self._note(
                self._speed(phase, (step + 1) / steps), np.maximum(faces[step], self.state[0])
            )

    def _step(self, phase: Phase, force: Array, at: float, part: float, dt: Array) -> None:
        """Take one step of Alexander's method; what comes in and goes out is summed alongside.

        Two stages, implicit, of second order: a lump that follows its neighbour at once, such as a
        spoonful of fluid, needs no shorter steps. The air is asked once, for the middle of the
        step as a first half step foretells it.
        """
        import numpy as np

        begin, share = self.state, self.of["energy_share"]
        coldest = np.minimum(begin.min(axis=0), self.ambient)
        middle = self._speed(phase, at + 0.5 * part)
        if self.air is None:
            self.air = self._to_air(begin, middle)
        rates = self._rates(begin, share * force * middle, self.air)
        foretold = np.clip(begin + 0.5 * dt * rates, coldest, _HOTTEST_C)
        self.air = self._to_air(foretold, middle)
        powers = [
            share * force * self._speed(phase, at + moment * part) for moment in (_GAMMA, 1.0)
        ]
        solve = _Chain(self.links, self.air, self.capacities, _GAMMA * dt)
        first = solve(begin + _GAMMA * dt * self._driven(powers[0], self.air))
        slope_first = (first - begin) / (_GAMMA * dt)
        carried = begin + (1.0 - _GAMMA) * dt * slope_first
        second = solve(carried + _GAMMA * dt * self._driven(powers[1], self.air))
        if (np.minimum(first, second) < coldest - _OVERSHOOT_K).any():
            self._whole_step(share * force * middle, self.air, dt)
            return
        self.state = second
        self._sum((1.0 - _GAMMA) * dt, first, self.air, powers[0])
        self._sum(_GAMMA * dt, second, self.air, powers[1])

    def _whole_step(self, power: Array, air: Array, dt: Array) -> None:
        """One stage, of first order, which never overshoots: for linings that weigh nothing."""
        solve = _Chain(self.links, air, self.capacities, dt)
        self.state = solve(self.state + dt * self._driven(power, air))
        self._sum(dt, self.state, air, power)

    def _sum(self, lasts: Array, state: Array, air: Array, power: Array) -> None:
        """Sum what came in and what the air took."""
        self.lost = self.lost + lasts * (air * (state - self.ambient)).sum(axis=0)
        self.gained = self.gained + lasts * power

    def _driven(self, power: Array, air: Array) -> Array:
        """Warming by the brakes' power, and by air at its own temperature."""
        driven = air * self.ambient
        into_metal = self.of["heat_share"] * power
        driven[0] += into_metal
        driven[1] += power - into_metal
        warming: Array = driven / self.capacities
        return warming

    def _rates(self, state: Array, power: Array, air: Array) -> Array:
        """Warming of the lumps: `calc.soak.chain_rates` on figures judged before."""
        flows = self.links * (state[:-1] - state[1:])
        net = -air * state
        net[:-1] -= flows
        net[1:] += flows
        rates: Array = net / self.capacities + self._driven(power, air)
        return rates

    # -------------------------------------------------------------------- pieces

    def _to_air(self, state: Array, speed: Array) -> Array:
        """Heat that each lump gives the air for each kelvin: metal and body, the others none."""
        import numpy as np

        ratio = self.of["cooling_ratio"]
        size = self.of["diameter_m"]
        film = (state[0] + self.ambient) / 2.0
        conducts = cooling.air_conductivity(film)
        viscous = cooling.air_kinematic_viscosity(film, _ATMOSPHERE_PA)
        of_disc = cooling.disc_cooling_coefficient(speed, size, conducts, viscous)
        of_drum = cooling.drum_cooling_coefficient(speed, size, conducts, viscous)
        moving = np.where(self.is_disc, of_disc, of_drum)
        by_air = ratio * np.maximum(moving, _STILL_W_M2_K)
        both: Value = state[::2]
        glows = np.asarray(cooling.radiation_coefficient(both, self.ambient, _EMISSIVITY))
        air = np.zeros_like(state)
        air[0] = (by_air + glows[0]) * self.of["cooled_area_m2"]
        air[2] = (by_air + glows[1]) * self.of["body_area_m2"]
        if self.vented:
            turns = speed / self.of["rolling_radius_m"]
            air[0] += ratio * cooling.vane_cooling_coefficient(turns) * self.of["vane_area_m2"]
        return air

    def _speed(self, phase: Phase, part: float) -> Array:
        import numpy as np

        speed = phase.begin_speed_m_s + part * (phase.end_speed_m_s - phase.begin_speed_m_s)
        return np.maximum(np.broadcast_to(np.asarray(speed, dtype=np.float64), self.shape), 0.0)

    def _force(self, phase: Phase) -> Array:
        """Force at the road that all the brakes together make."""
        import numpy as np

        given = self.given
        if not phase.braked:
            return np.zeros(self.shape)
        slowing = given.rotating_mass_ratio * given.mass_kg * phase.deceleration_m_s2
        weight: Value = given.mass_kg * GRAVITY_M_S2
        downhill = slope.slope_pull(weight, phase.slope)
        force = np.maximum(slowing + downhill - phase.other_drag_n, 0.0)
        return np.broadcast_to(np.asarray(force, dtype=np.float64), self.shape)

    def _steps(self, phase: Phase) -> int:
        """How many steps keep disc and drum, and the air that cools them, well followed."""
        import numpy as np

        fastest = np.maximum(self._speed(phase, 0.0), self._speed(phase, 1.0))
        leaving = self._to_air(np.maximum(self.state, 300.0), fastest)
        leaving[:-1] += self.links
        leaving[1:] += self.links
        heated = leaving[:2] / self.capacities[:2] * phase.duration_s
        metal, lining = (float(each.max()) for each in heated)
        lasts = float(np.max(phase.duration_s))
        wanted = max(metal / _STEP_OF_METAL, lining / _STEP_OF_LINING, lasts / _LONGEST_STEP_S)
        least = _BRAKED_STEPS if phase.braked else 2
        return min(max(int(np.ceil(wanted)), least), _MOST_STEPS)

    # -------------------------------------------------------------------- the rubbed face

    def _face_rise(self, phase: Phase, force: Array, since: Array) -> Array:
        """Rise of the rubbed face since a stop began."""
        import numpy as np

        begin = self._speed(phase, 0.0)
        to_rest: Array = np.broadcast_to(
            np.asarray(phase.begin_speed_m_s / phase.deceleration_m_s2), self.shape
        )
        area = self.of["rubbed_area_m2"]
        flux: Value = self.of["energy_share"] * self.of["heat_share"] * force * begin / area
        specific: Value = self.of["specific_heat_j_kg_k"]
        spreads = slab.thermal_diffusivity(_IRON_CONDUCTIVITY_W_M_K, _IRON_DENSITY_KG_M3, specific)
        depth: Value = self.of["depth_m"]
        rise = slab.slab_face_rise(since, flux, to_rest, _IRON_CONDUCTIVITY_W_M_K, spreads, depth)
        return np.asarray(rise)

    def _flash(self, phase: Phase, force: Array, before: Array, whole: Array, steps: int) -> Array:
        """Follow the face through a phase; its hottest moment is looked for between the steps."""
        import numpy as np

        if not phase.braked or lowest(phase.begin_speed_m_s - phase.end_speed_m_s) <= 0.0:
            return np.full((steps, *before.shape), -np.inf)
        ends = np.arange(1, steps + 1).reshape((-1, 1) + (1,) * len(self.shape)) / steps
        faces = before + self._face_rise(phase, force, ends * whole)
        looked = np.array(_WHERE_FACES_PEAK).reshape((-1, 1) + (1,) * len(self.shape))
        to_rest = phase.begin_speed_m_s / phase.deceleration_m_s2
        since = np.minimum(looked * to_rest, whole)
        hot = before + self._face_rise(phase, force, since)
        where = hot.argmax(axis=0, keepdims=True)
        peak = np.take_along_axis(hot, where, 0)[0]
        at = np.take_along_axis(np.broadcast_to(since, hot.shape), where, 0)[0]
        hotter = peak > self.face_peak
        self.face_peak = np.where(hotter, peak, self.face_peak)
        self.face_at = np.where(hotter, self.clock + at, self.face_at)
        return faces

    # -------------------------------------------------------------------- telling

    def _note(self, speed: Array, face: Array) -> None:
        self.rows.append((self.clock, speed, self.state, face))

    def _told(self, begins: tuple[tuple[str, int], ...]) -> HeatHistory:
        import numpy as np

        time_s, speed, states, faces = (np.stack(part) for part in zip(*self.rows, strict=True))
        stored = (self.capacities * (self.state - self.begun)).sum(axis=0)
        peak = np.maximum(self.face_peak, states[:, 0].max(axis=0))
        at = np.where(
            self.face_peak >= peak,
            self.face_at,
            np.take_along_axis(
                np.broadcast_to(time_s[:, None], states[:, 0].shape),
                states[:, 0].argmax(axis=0, keepdims=True),
                0,
            )[0],
        )
        wheels = tuple(
            WheelHistory(
                body,
                metal_c=states[:, 0, i],
                lining_c=states[:, 1, i],
                body_c=states[:, 2, i],
                fluid_c=states[:, 3, i],
                face_c=faces[:, i],
                face_peak=Peak(plain(peak[i]), plain(at[i])),
                energy_j=plain(self.gained[i]),
                stored_j=plain(stored[i]),
                lost_j=plain(self.lost[i]),
            )
            for i, body in enumerate(self.bodies)
        )
        return HeatHistory(time_s, speed, wheels, begins)


class _Chain:
    """The implicit step of a chain of four: (1 - h A) x = b, solved by elimination.

    Parameters
    ----------
    links, air, capacities : array
        Flows to the next lump and to the air for each kelvin, and the lumps' capacities.
    step_s : array
        h. [s]
    """

    def __init__(self, links: Array, air: Array, capacities: Array, step_s: Array) -> None:
        scale = step_s / capacities
        diagonal = 1.0 + scale * air
        diagonal[:-1] += scale[:-1] * links
        diagonal[1:] += scale[1:] * links
        self._up = -scale[:-1] * links
        self._down = -scale[1:] * links
        self._factors: list[Array] = []
        self._diagonal = [diagonal[0]]
        for i in range(1, len(diagonal)):
            factor = self._down[i - 1] / self._diagonal[-1]
            self._factors.append(factor)
            self._diagonal.append(diagonal[i] - factor * self._up[i - 1])

    def __call__(self, right: Array) -> Array:
        """Solve for one right-hand side."""
        import numpy as np

        found = [right[0]]
        for i, factor in enumerate(self._factors):
            found.append(right[i + 1] - factor * found[-1])
        answer = np.empty_like(right)
        answer[-1] = found[-1] / self._diagonal[-1]
        for i in range(len(found) - 2, -1, -1):
            answer[i] = (found[i] - self._up[i] * answer[i + 1]) / self._diagonal[i]
        return answer
