"""How hot disc or drum, linings, caliper or cylinder, and fluid get: on a course, and after it.

Each brake is a chain of four lumps: metal, linings, body, fluid. Power goes into metal and
linings, creeps along the chain, and leaves to the air by the published forms of cooling and by
radiation. The rubbed face, which is hotter than its disc or drum for moments, has a form of its
own. All brakes and all samples of a car are run through a course at once.

What a number here does not prove: cooling is rough by a factor of one and a half, and how heat
reaches the fluid hangs on figures that nobody has published. Give it with its range, and measure.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from bareshell.brakes.heat_body import BrakeBody, HeatInput
from bareshell.brakes.heat_course import Course, Phase
from bareshell.calc import cooling, slab, slope
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.calc.values import Array, Value, lowest
from bareshell.errors import BadInput
from bareshell.model.brake import Wheel

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["CAUTIONS", "HeatHistory", "Peak", "WheelHistory", "run", "span"]

LUMPS: Final = ("metal", "lining", "body", "fluid")

CAUTIONS: Final = (
    (
        "Hot brakes burn skin and light grease, grass and rubber; the fluid is hottest minutes "
        "after the car has stopped. Do not try brakes hot in traffic."
    ),
    (
        "These temperatures are worked out from what was entered. They show what is likely and "
        "which brake suffers most; a thermometer on the disc shows what is so."
    ),
)
"""What stands beside every page of temperatures."""

_IRON_CONDUCTIVITY_W_M_K: Final[Value] = 50.0  # grey cast iron, 45 to 55, from memory
_IRON_DENSITY_KG_M3: Final[Value] = 7200.0
_ATMOSPHERE_PA: Final[Value] = 101325.0
_EMISSIVITY: Final[Value] = 0.6  # between bright and rusty, from memory
_STILL_W_M2_K: Final = sum(cooling.STILL_AIR_W_M2_K) / 2
_BRAKED_STEPS: Final = 8
_STEP_OF_RATE: Final = 0.8
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
_MOST_STEPS: Final = 20_000


@dataclass(frozen=True, slots=True)
class Peak:
    """The highest of one temperature, and when.

    Parameters
    ----------
    temperature_c : float or array
        How hot. [degC]
    at_s : float or array
        Since the course began. [s]
    """

    temperature_c: Value
    at_s: Value


@dataclass(frozen=True, slots=True)
class WheelHistory:
    """Temperatures of one wheel's brake over a course.

    The first axis of each array is time, the rest are the samples.

    Parameters
    ----------
    body : BrakeBody
        The brake.
    metal_c, lining_c, body_c, fluid_c : array
        Mean temperature of disc or drum, of pads or shoes, of caliper or cylinder, of fluid. [degC]
    face_c : array
        Of the rubbed face: that of the metal but for the braked stretches. [degC]
    face_peak : Peak
        The hottest the face gets.
    energy_j, stored_j, lost_j : float or array
        Heat that came in, that is still in it at the end, and that the air took. [J]
    """

    body: BrakeBody
    metal_c: Array
    lining_c: Array
    body_c: Array
    fluid_c: Array
    face_c: Array
    face_peak: Peak
    energy_j: Value
    stored_j: Value
    lost_j: Value


@dataclass(frozen=True, slots=True)
class HeatHistory:
    """A course as it was run.

    Parameters
    ----------
    time_s, speed_m_s : array
        Moments and the speed then; the first axis is time. [s, m/s]
    wheels : tuple of WheelHistory
        Each brake.
    begins : tuple of (str, int)
        Each phase's words, and where on the time axis it begins.
    """

    time_s: Array
    speed_m_s: Array
    wheels: tuple[WheelHistory, ...]
    begins: tuple[tuple[str, int], ...]

    def at(self, wheel: Wheel) -> WheelHistory:
        """Return one wheel's history.

        Raises
        ------
        KeyError
            When that wheel has no brake here.
        """
        for history in self.wheels:
            if history.body.wheel is wheel:
                return history
        raise KeyError(wheel)

    def peak(self, wheel: Wheel, lump: str) -> Peak:
        """Return the highest of ``metal``, ``lining``, ``body`` or ``fluid`` at a wheel."""
        import numpy as np

        series: Array = getattr(self.at(wheel), f"{lump}_c")
        where = series.argmax(axis=0, keepdims=True)
        times = np.broadcast_to(self.time_s, series.shape)
        return Peak(
            _plain(np.take_along_axis(series, where, 0)[0]),
            _plain(np.take_along_axis(times, where, 0)[0]),
        )

    def hottest(self, lump: str) -> tuple[Wheel, Peak]:
        """Return the wheel whose lump gets hottest (of the first sample), and its peak."""
        import numpy as np

        peaks = {history.body.wheel: self.peak(history.body.wheel, lump) for history in self.wheels}
        wheel = max(peaks, key=lambda each: float(np.ravel(peaks[each].temperature_c)[0]))
        return wheel, peaks[wheel]


def run(
    given: HeatInput, course: Course, *, ambient_c: Value, start_c: Value | None = None
) -> HeatHistory:
    """Put the brakes through a course.

    Parameters
    ----------
    given : HeatInput
        The car and its brakes, floats or samples.
    course : sequence of Phase
        What they are put through.
    ambient_c : float or array
        Temperature of the air. [degC]
    start_c : float or array, optional
        Temperature of disc or drum at the start; the rest begins as warm as the air, and so do
        they when it is left out. [degC]

    Returns
    -------
    HeatHistory
        Histories of every brake.

    Raises
    ------
    BadInput
        When there is no brake or no course.

    Notes
    -----
    Runge-Kutta of the fourth order, in steps shorter than any lump's own time. Heat that came in is
    found again in what is stored and what the air took, to rounding.
    """
    if not given.brakes or not course:
        raise BadInput("heat", "there is no brake, or no course, to work out", "give both")
    import numpy as np

    of_course = [np.shape(number) for phase in course for number in phase.numbers()]
    of_air = (np.shape(ambient_c), np.shape(0.0 if start_c is None else start_c))
    shape = np.broadcast_shapes(*given.shapes(), *of_course, *of_air)
    return _Walk(given, ambient_c, start_c, shape).through(course)


class _Walk:
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
        self.rows: list[tuple[Array, Array, Array, Array]] = []

    def _stacked(self, values: Sequence[Value]) -> Array:
        """One figure of every wheel, the wheels first."""
        import numpy as np

        return np.stack(
            [np.broadcast_to(np.asarray(each, dtype=np.float64), self.shape) for each in values]
        )

    # -------------------------------------------------------------------- a course

    def through(self, course: Course) -> HeatHistory:
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
        """Take one step of Runge and Kutta; what comes in and goes out is summed alongside.

        The air is asked once, for the middle of the step as a first half step foretells it.
        """
        begin = self.state
        speeds = [self._speed(phase, at + moment * part) for moment in (0.0, 0.5, 1.0)]
        powers = [self.of["energy_share"] * force * speed for speed in speeds]
        air = self._to_air(begin, speeds[0])
        air = self._to_air(begin + 0.5 * dt * self._rates(begin, powers[0], air)[0], speeds[1])
        first, out_first = self._rates(begin, powers[0], air)
        second, out_second = self._rates(begin + 0.5 * dt * first, powers[1], air)
        third, out_third = self._rates(begin + 0.5 * dt * second, powers[1], air)
        fourth, out_fourth = self._rates(begin + dt * third, powers[2], air)
        sixth = dt / 6.0
        self.state = begin + sixth * (first + 2.0 * second + 2.0 * third + fourth)
        self.lost = self.lost + sixth * (
            out_first + 2.0 * out_second + 2.0 * out_third + out_fourth
        )
        self.gained = self.gained + sixth * (powers[0] + 4.0 * powers[1] + powers[2])

    def _rates(self, state: Array, power: Array, air: Array) -> tuple[Array, Array]:
        """Warming of the lumps, and heat lost: `calc.soak.chain_rates` on figures judged before."""
        import numpy as np

        flows = self.links * (state[:-1] - state[1:])
        lost = air * (state - self.ambient)
        net = -lost
        net[:-1] -= flows
        net[1:] += flows
        into_metal = self.of["heat_share"] * power
        net[0] += into_metal
        net[1] += power - into_metal
        return net / self.capacities, np.asarray(lost.sum(axis=0))

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
        """How many steps keep every lump's own time longer than a step."""
        import numpy as np

        fastest = np.maximum(self._speed(phase, 0.0), self._speed(phase, 1.0))
        leaving = self._to_air(np.maximum(self.state, 300.0), fastest)
        leaving[:-1] += self.links
        leaving[1:] += self.links
        longest = float((leaving / self.capacities * phase.duration_s).max())
        wanted = max(int(np.ceil(longest / _STEP_OF_RATE)), _BRAKED_STEPS if phase.braked else 2)
        if wanted > _MOST_STEPS:
            raise BadInput(
                phase.words,
                "takes too many steps: some part is tied to its neighbour too well for its mass",
                "look at the masses, volumes and heat flows that were entered",
            )
        return wanted

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
                face_peak=Peak(_plain(peak[i]), _plain(at[i])),
                energy_j=_plain(self.gained[i]),
                stored_j=_plain(stored[i]),
                lost_j=_plain(self.lost[i]),
            )
            for i, body in enumerate(self.bodies)
        )
        return HeatHistory(time_s, speed, wheels, begins)


def _plain(value: Array) -> Value:
    return float(value) if value.ndim == 0 else value


def span(series: Array) -> tuple[Array, Array, Array]:
    """Give the least, the first and the greatest of the samples at each moment.

    Parameters
    ----------
    series : array
        Time along the first axis; the samples along the others, as entered first.

    Returns
    -------
    low, stated, high : array
        One value for each moment.

    Examples
    --------
    >>> import numpy as np
    >>> [part.tolist() for part in span(np.array([[20.0, 20.0, 20.0], [80.0, 70.0, 95.0]]))]
    [[20.0, 70.0], [20.0, 80.0], [20.0, 95.0]]
    """
    flat = series.reshape(len(series), -1)
    return flat.min(axis=1), flat[:, 0], flat.max(axis=1)
