"""How hot disc or drum, linings, caliper or cylinder, and fluid get: on a course, and after it.

Each brake is a chain of four lumps: metal, linings, body, fluid. Power goes into metal and
linings, creeps along the chain, and leaves to the air by the published forms of cooling and by
radiation. The rubbed face, which is hotter than its disc or drum for moments, has a form of its
own. All brakes and all samples of a car are run through a course at once.

What a number here does not prove: cooling is rough by a factor of one and a half, and how heat
reaches the fluid hangs on figures that nobody has published. Give it with its range, and measure.
"""

from __future__ import annotations

from typing import Final

from bareshell.brakes.heat_body import HeatInput
from bareshell.brakes.heat_course import Course
from bareshell.brakes.heat_history import HeatHistory, Peak, WheelHistory
from bareshell.brakes.heat_walk import Walk
from bareshell.calc.values import Array, Value
from bareshell.errors import BadInput

__all__ = ["CAUTIONS", "HeatHistory", "Peak", "WheelHistory", "run", "span"]

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
    An implicit method of second order, so that no lump is too small for it. Heat that came in is
    found again in what is stored and what the air took, to rounding.
    """
    if not given.brakes or not course:
        raise BadInput("heat", "there is no brake, or no course, to work out", "give both")
    import numpy as np

    of_course = [np.shape(number) for phase in course for number in phase.numbers()]
    of_air = (np.shape(ambient_c), np.shape(0.0 if start_c is None else start_c))
    shape = np.broadcast_shapes(*given.shapes(), *of_course, *of_air)
    return Walk(given, ambient_c, start_c, shape).through(course)


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
