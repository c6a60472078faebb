"""The standard thread series, as data.

Each table gives the sizes a restorer meets, to about 1 1/2 in or 52 mm. The basic major diameter
and the pitch are the standard's; tolerances are not here.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

__all__ = [
    "BA_LAST",
    "FRACTION_SERIES",
    "METRIC_PITCHES_MM",
    "METRIC_WITHOUT_COARSE",
    "NUMBER_SERIES",
    "PIPE_SERIES",
]

METRIC_PITCHES_MM: Final = MappingProxyType(
    {
        1.6: (0.35, 0.2),
        2.0: (0.4, 0.25),
        2.5: (0.45, 0.35),
        3.0: (0.5, 0.35),
        3.5: (0.6, 0.35),
        4.0: (0.7, 0.5),
        5.0: (0.8, 0.5),
        6.0: (1.0, 0.75),
        7.0: (1.0, 0.75),
        8.0: (1.25, 1.0, 0.75),
        9.0: (1.25, 1.0, 0.75),
        10.0: (1.5, 1.25, 1.0, 0.75),
        11.0: (1.5, 1.0, 0.75),
        12.0: (1.75, 1.5, 1.25, 1.0),
        14.0: (2.0, 1.5, 1.25, 1.0),
        15.0: (1.5, 1.0),
        16.0: (2.0, 1.5, 1.0),
        17.0: (1.5, 1.0),
        18.0: (2.5, 2.0, 1.5, 1.0),
        20.0: (2.5, 2.0, 1.5, 1.0),
        22.0: (2.5, 2.0, 1.5, 1.0),
        24.0: (3.0, 2.0, 1.5, 1.0),
        25.0: (2.0, 1.5, 1.0),
        26.0: (1.5,),
        27.0: (3.0, 2.0, 1.5, 1.0),
        28.0: (2.0, 1.5, 1.0),
        30.0: (3.5, 3.0, 2.0, 1.5, 1.0),
        32.0: (2.0, 1.5),
        33.0: (3.5, 3.0, 2.0, 1.5),
        36.0: (4.0, 3.0, 2.0, 1.5),
        39.0: (4.0, 3.0, 2.0, 1.5),
        42.0: (4.5, 4.0, 3.0, 2.0, 1.5),
        45.0: (4.5, 4.0, 3.0, 2.0, 1.5),
        48.0: (5.0, 4.0, 3.0, 2.0, 1.5),
        52.0: (5.0, 4.0, 3.0, 2.0, 1.5),
    }
)
"""Pitches of each metric diameter, the first named when none is written [S:iso-261]."""

METRIC_WITHOUT_COARSE: Final = frozenset({15.0, 17.0, 25.0, 26.0, 28.0, 32.0})
"""Diameters that have no coarse pitch, so that one has to be written [S:iso-261]."""

FRACTION_SERIES: Final = MappingProxyType(
    {
        # [S:asme-b1-1]
        "UNC": MappingProxyType(
            {
                "1/4": 20,
                "5/16": 18,
                "3/8": 16,
                "7/16": 14,
                "1/2": 13,
                "9/16": 12,
                "5/8": 11,
                "3/4": 10,
                "7/8": 9,
                "1": 8,
                "1 1/8": 7,
                "1 1/4": 7,
                "1 3/8": 6,
                "1 1/2": 6,
            }
        ),
        # [S:asme-b1-1]
        "UNF": MappingProxyType(
            {
                "1/4": 28,
                "5/16": 24,
                "3/8": 24,
                "7/16": 20,
                "1/2": 20,
                "9/16": 18,
                "5/8": 18,
                "3/4": 16,
                "7/8": 14,
                "1": 12,
                "1 1/8": 12,
                "1 1/4": 12,
                "1 3/8": 12,
                "1 1/2": 12,
            }
        ),
        # [S:asme-b1-1]
        "UNEF": MappingProxyType(
            {
                "1/4": 32,
                "5/16": 32,
                "3/8": 32,
                "7/16": 28,
                "1/2": 28,
                "9/16": 24,
                "5/8": 24,
                "11/16": 24,
                "3/4": 20,
                "13/16": 20,
                "7/8": 20,
                "15/16": 20,
                "1": 20,
            }
        ),
        # [S:bs-84]
        "BSW": MappingProxyType(
            {
                "1/8": 40,
                "3/16": 24,
                "1/4": 20,
                "5/16": 18,
                "3/8": 16,
                "7/16": 14,
                "1/2": 12,
                "9/16": 12,
                "5/8": 11,
                "3/4": 10,
                "7/8": 9,
                "1": 8,
                "1 1/8": 7,
                "1 1/4": 7,
                "1 1/2": 6,
            }
        ),
        # [S:bs-84]
        "BSF": MappingProxyType(
            {
                "3/16": 32,
                "7/32": 28,
                "1/4": 26,
                "5/16": 22,
                "3/8": 20,
                "7/16": 18,
                "1/2": 16,
                "9/16": 16,
                "5/8": 14,
                "11/16": 14,
                "3/4": 12,
                "7/8": 11,
                "1": 10,
                "1 1/8": 9,
                "1 1/4": 9,
                "1 1/2": 8,
            }
        ),
        # The twenty-six-to-the-inch row; the coarser one of the larger sizes is not met on cars.
        # [S:bs-811]
        "BSC": MappingProxyType(
            {
                "1/4": 26,
                "5/16": 26,
                "3/8": 26,
                "7/16": 26,
                "1/2": 26,
                "9/16": 26,
                "5/8": 26,
                "11/16": 26,
                "3/4": 26,
            }
        ),
        # Brass: Whitworth form, twenty-six to the inch whatever the size, on pipe fittings and
        # unions; never a published standard. [S:trade-practice]
        "BSB": MappingProxyType(
            {
                "1/4": 26,
                "5/16": 26,
                "3/8": 26,
                "7/16": 26,
                "1/2": 26,
                "9/16": 26,
                "5/8": 26,
                "3/4": 26,
            }
        ),
    }
)
"""Threads per inch by series and size in inches."""

NUMBER_SERIES: Final = MappingProxyType(
    {
        # [S:asme-b1-1]
        "UNC": MappingProxyType({1: 64, 2: 56, 3: 48, 4: 40, 5: 40, 6: 32, 8: 32, 10: 24, 12: 24}),
        "UNF": MappingProxyType(
            {0: 80, 1: 72, 2: 64, 3: 56, 4: 48, 5: 44, 6: 40, 8: 36, 10: 32, 12: 28}
        ),
        "UNEF": MappingProxyType({12: 32}),
    }
)
"""Threads per inch of the numbered sizes, whose diameter is 0.060 in + 0.013 in x number."""

PIPE_SERIES: Final = MappingProxyType(
    {
        # Major diameter [mm] and threads per inch [S:iso-228-1]. The taper series has the same
        # figures at its gauge plane [S:iso-7-1].
        "BSP": MappingProxyType(
            {
                "1/16": (7.723, 28.0),
                "1/8": (9.728, 28.0),
                "1/4": (13.157, 19.0),
                "3/8": (16.662, 19.0),
                "1/2": (20.955, 14.0),
                "5/8": (22.911, 14.0),
                "3/4": (26.441, 14.0),
                "7/8": (30.201, 14.0),
                "1": (33.249, 11.0),
                "1 1/8": (37.897, 11.0),
                "1 1/4": (41.910, 11.0),
                "1 1/2": (47.803, 11.0),
            }
        ),
        # Outside diameter of the pipe [in] and threads per inch [S:asme-b1-20-1].
        "NPT": MappingProxyType(
            {
                "1/16": (0.3125, 27.0),
                "1/8": (0.405, 27.0),
                "1/4": (0.540, 18.0),
                "3/8": (0.675, 18.0),
                "1/2": (0.840, 14.0),
                "3/4": (1.050, 14.0),
                "1": (1.315, 11.5),
                "1 1/4": (1.660, 11.5),
                "1 1/2": (1.900, 11.5),
            }
        ),
    }
)

BA_LAST: Final = 16
"""The series runs on to 25, but nothing on a car is finer than this."""
