"""The temperatures of every brake over a course, as they are handed about."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.brakes.heat_body import BrakeBody
from bareshell.calc.values import Array, Value
from bareshell.model.brake import Wheel

__all__ = ["HeatHistory", "Peak", "WheelHistory", "plain"]


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
            plain(np.take_along_axis(series, where, 0)[0]),
            plain(np.take_along_axis(times, where, 0)[0]),
        )

    def hottest(self, lump: str) -> tuple[Wheel, Peak]:
        """Return the wheel whose lump gets hottest (of the first sample), and its peak."""
        import numpy as np

        peaks = {history.body.wheel: self.peak(history.body.wheel, lump) for history in self.wheels}
        wheel = max(peaks, key=lambda each: float(np.ravel(peaks[each].temperature_c)[0]))
        return wheel, peaks[wheel]


def plain(value: Array) -> Value:
    """Give a float for a single number, and the array for many."""
    return float(value) if value.ndim == 0 else value
