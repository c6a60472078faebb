"""Screw threads: what a designation stands for, in one frozen record.

Two threads fit each other only when diameter, pitch and form agree. Some pairs start together
and then strip: M10 x 1 has 25.4 threads to the inch and 3/8-24 UNF has 24. The record carries
what is needed to see that.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from bareshell.units.tables import INCH_M
from bareshell.units.thread_tables import (
    BA_LAST,
    FRACTION_SERIES,
    METRIC_PITCHES_MM,
    METRIC_WITHOUT_COARSE,
    NUMBER_SERIES,
    PIPE_SERIES,
)

__all__ = ["FORM_ANGLE_DEG", "Thread", "ThreadSystem", "standard_threads"]

ThreadSystem = Literal[
    "metric", "UNC", "UNF", "UNEF", "BSW", "BSF", "BSC", "BSB", "BA", "BSP", "BSPT", "NPT"
]

FORM_ANGLE_DEG: dict[ThreadSystem, float] = {
    "metric": 60.0,  # [S:iso-261]
    "UNC": 60.0,  # [S:asme-b1-1]
    "UNF": 60.0,
    "UNEF": 60.0,
    "BSW": 55.0,  # [S:bs-84]
    "BSF": 55.0,
    "BSC": 60.0,  # [S:bs-811]
    "BSB": 55.0,  # [S:trade-practice]
    "BA": 47.5,  # [S:bs-93]
    "BSP": 55.0,  # [S:iso-228-1]
    "BSPT": 55.0,  # [S:iso-7-1]
    "NPT": 60.0,  # [S:asme-b1-20-1]
}
"""The angle between the flanks of each system's thread. [degree]"""

TAPERED: frozenset[ThreadSystem] = frozenset({"BSPT", "NPT"})


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread, as its standard has it.

    Parameters
    ----------
    system : str
        The series: ``"metric"``, ``"UNF"``, ``"BA"`` and so on.
    size : str
        The size as the standard writes it: ``"10"``, ``"3/8"``, ``"No 10"``, ``"2"``.
    diameter_m : float
        Basic major diameter; for a tapered thread, at the gauge plane or of the pipe. [m]
    pitch_m : float
        Distance from one thread to the next. [m]
    tpi : float or None
        Threads per inch, for the series that are counted so.
    left_hand : bool
        Whether it tightens anticlockwise.

    Examples
    --------
    >>> union = Thread("metric", "10", 0.010, 0.001, None)
    >>> str(union), union.form_angle_deg, union.tapered
    ('M10 x 1', 60.0, False)
    """

    system: ThreadSystem
    size: str
    diameter_m: float
    pitch_m: float
    tpi: float | None
    left_hand: bool = False

    @property
    def form_angle_deg(self) -> float:
        """The angle between its flanks [degree]."""
        return FORM_ANGLE_DEG[self.system]

    @property
    def tapered(self) -> bool:
        """Whether it seals on its own taper."""
        return self.system in TAPERED

    @property
    def threads_per_inch(self) -> float:
        """Threads per inch, whichever way the series is counted."""
        return self.tpi if self.tpi is not None else INCH_M / self.pitch_m

    def __str__(self) -> str:
        match self.system:
            case "metric":
                name = f"M{self.size} x {self.pitch_m * 1000:g}"
            case "BA":
                name = f"{self.size} BA"
            case system:
                name = f"{self.size}-{self.tpi:g} {system}"
        return f"{name} LH" if self.left_hand else name

    def opposite_hand(self) -> Thread:
        """The same thread of the other hand."""
        return replace(self, left_hand=not self.left_hand)


def metric(diameter_mm: float, pitch_mm: float) -> Thread:
    """Make a metric thread of a diameter and pitch.

    >>> str(metric(10, 1.25))
    'M10 x 1.25'
    """
    return Thread("metric", f"{diameter_mm:g}", diameter_mm / 1000, pitch_mm / 1000, None)


def by_inch(system: ThreadSystem, size: str, diameter_in: float, tpi: float) -> Thread:
    """Make a thread that is counted per inch.

    >>> by_inch("UNF", "3/8", 0.375, 24).diameter_m
    0.009525
    """
    return Thread(system, size, diameter_in * INCH_M, INCH_M / tpi, float(tpi))


def british_association(number: int) -> Thread:
    """Make a BA thread of a number.

    The pitch is 0.9 mm to the power of the number and the diameter six times the pitch to the
    power of 1.2, each rounded to two figures. [S:bs-93]

    Parameters
    ----------
    number : int
        0 for the largest.

    Examples
    --------
    >>> two = british_association(2)
    >>> round(two.diameter_m * 1000, 2), round(two.pitch_m * 1000, 2)
    (4.7, 0.81)
    """
    pitch_mm = 0.9**number
    diameter_mm = 6 * pitch_mm**1.2
    return Thread(
        "BA",
        str(number),
        float(f"{diameter_mm:.2g}") / 1000,
        float(f"{pitch_mm:.2g}") / 1000,
        None,
    )


def inches(size: str) -> float:
    """Read a table's own size in inches.

    >>> inches("1 1/8"), inches("3/8")
    (1.125, 0.375)
    """
    return float(sum(Fraction(part) for part in size.split()))


@lru_cache(maxsize=1)
def standard_threads() -> tuple[Thread, ...]:
    """Every thread of the standard series held here, largest of each series last.

    Sources: [S:iso-261], [S:asme-b1-1], [S:bs-84], [S:bs-811], [S:bs-93], [S:iso-228-1],
    [S:iso-7-1], [S:asme-b1-20-1].

    Returns
    -------
    tuple of Thread
        Right-handed.

    Examples
    --------
    >>> [str(thread) for thread in standard_threads() if thread.size == "7/16"][:2]
    ['7/16-14 UNC', '7/16-20 UNF']
    """
    threads = [
        metric(diameter, pitch)
        for diameter, pitches in METRIC_PITCHES_MM.items()
        for pitch in pitches
    ]
    for system, numbered in NUMBER_SERIES.items():
        threads += [
            by_inch(_system(system), f"No {number}", 0.060 + 0.013 * number, tpi)
            for number, tpi in numbered.items()
        ]
    for system, sizes in FRACTION_SERIES.items():
        threads += [
            by_inch(_system(system), size, inches(size), tpi) for size, tpi in sizes.items()
        ]
    threads += [british_association(number) for number in range(BA_LAST + 1)]
    for size, (diameter_mm, tpi) in PIPE_SERIES["BSP"].items():
        threads += [by_inch(system, size, diameter_mm / 25.4, tpi) for system in ("BSP", "BSPT")]
    threads += [
        by_inch("NPT", size, diameter_in, tpi)
        for size, (diameter_in, tpi) in PIPE_SERIES["NPT"].items()
    ]
    return tuple(threads)


def _system(name: str) -> ThreadSystem:
    return next(system for system in FORM_ANGLE_DEG if system == name)


def coarse_is_understood(diameter_mm: float) -> bool:
    """Whether a metric diameter alone names a pitch.

    >>> coarse_is_understood(10.0), coarse_is_understood(26.0)
    (True, False)
    """
    return diameter_mm in METRIC_PITCHES_MM and diameter_mm not in METRIC_WITHOUT_COARSE
