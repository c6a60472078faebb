"""Bedding linings in: published series of stops, and how warm each brake gets in them.

The makers' advice differs; the linings' own counts before all of it. New linings bite less than
they will, drums more than discs; the first stops are made from walking pace with room to spare.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from bareshell.brakes.heat import HeatHistory, run
from bareshell.brakes.heat_body import HeatInput
from bareshell.brakes.heat_course import Phase, rest, snubs
from bareshell.calc.values import Value
from bareshell.errors import NotFound
from bareshell.model.brake import Wheel
from bareshell.sources import Mark

__all__ = [
    "BEDDING",
    "CAUTIONS",
    "BeddingRound",
    "BeddingSeries",
    "Warmed",
    "bedding_course",
    "bedding_series",
    "warmed_by",
]

_MPH: Final = 0.44704
_FOOT: Final = 0.3048
_KMH: Final = 1.0 / 3.6
_FIRM_M_S2: Final = 3.0
"""Where a series says nothing of how hard: firm, well short of locking; common practice."""

CAUTIONS: Final = (
    (
        "Only where nobody is behind you, on a dry road you know, after the brakes have held a "
        "firm push standing still and stopped the car from walking pace."
    ),
    (
        "If a brake smokes, the pedal grows long or the car pulls, stop at the side and let "
        "everything cool without the parking brake on: a hot drum shrinks onto its shoes."
    ),
)
"""What stands beside every series."""


@dataclass(frozen=True, slots=True)
class BeddingRound:
    """A row of like stops or slow-downs, and the rest after it.

    Parameters
    ----------
    count : int
        How many.
    begin_m_s, end_m_s : float
        Speed at the beginning and end of each. [m/s]
    interval_s : float
        From one beginning to the next, at the least. [s]
    rest_s : float
        The rest after the row; 0 for none. [s]
    """

    count: int
    begin_m_s: float
    end_m_s: float
    interval_s: float
    rest_s: float = 0.0


@dataclass(frozen=True, slots=True)
class BeddingSeries:
    """A published way of bedding linings in.

    Parameters
    ----------
    id, words : str
        Short name, and what it is.
    rounds : tuple of BeddingRound
        What is done.
    deceleration_m_s2 : float
        How hard. [m/s2]
    source_id, mark : str
        Where it was published, and how far that was read.
    note : str
        What to beware of.
    """

    id: str
    words: str
    rounds: tuple[BeddingRound, ...]
    deceleration_m_s2: float
    source_id: str
    mark: Mark
    note: str = ""

    @property
    def stops(self) -> int:
        """How many stops and slow-downs there are."""
        return sum(each.count for each in self.rounds)


_SECOND: Final = "read second-hand"
_HARD: Final = "How hard is not said there: 3 m/s2 is taken (common practice, no source)."

BEDDING: Final = MappingProxyType(
    {
        series.id: series
        for series in (
            BeddingSeries(
                "thirty stops",
                "thirty stops from 30 mph, 30 s apart, at no more than 12 ft/s2",
                (BeddingRound(30, 30 * _MPH, 0.0, 30.0),),
                12 * _FOOT,
                "bedding-maker-a",
                _SECOND,
            ),
            BeddingSeries(
                "twenty stops",
                "twenty stops from 30 mph, 30 s apart or more",
                (BeddingRound(20, 30 * _MPH, 0.0, 30.0),),
                _FIRM_M_S2,
                "bedding-maker-b",
                _SECOND,
                _HARD,
            ),
            BeddingSeries(
                "twenty slow-downs",
                "twenty slow-downs from 50 to 20 mph, 30 s apart or more",
                (BeddingRound(20, 50 * _MPH, 20 * _MPH, 30.0),),
                _FIRM_M_S2,
                "bedding-maker-b",
                _SECOND,
                _HARD,
            ),
            BeddingSeries(
                "two rounds",
                "ten from 30 to 10 mph, a rest of 15 minutes, five from 60 to 15 mph, a rest of 30",
                (
                    BeddingRound(10, 30 * _MPH, 10 * _MPH, 30.0, 900.0),
                    BeddingRound(5, 60 * _MPH, 15 * _MPH, 45.0, 1800.0),
                ),
                _FIRM_M_S2,
                "bedding-magazine",
                _SECOND,
                f"{_HARD} The time between the last five is not said: 45 s is taken.",
            ),
            BeddingSeries(
                "burnish",
                "two hundred stops from 80 km/h, 2 km apart, as a standard's test prepares linings",
                (BeddingRound(200, 80 * _KMH, 0.0, 2000.0 / (80 * _KMH)),),
                3.0,
                "fmvss-135",
                "from memory",
                "The count of 200 was read second-hand. Meant for a test track, not for a road.",
            ),
        )
    }
)
"""Published series by id."""


def bedding_series(series_id: str) -> BeddingSeries:
    """Look up one series.

    Raises
    ------
    NotFound
        When there is none of that id.

    Examples
    --------
    >>> bedding_series("two rounds").stops
    15
    """
    try:
        return BEDDING[series_id]
    except KeyError:
        raise NotFound(
            f"there is no bedding series '{series_id}'", f"known are {', '.join(BEDDING)}"
        ) from None


def bedding_course(series: BeddingSeries) -> tuple[Phase, ...]:
    """Turn a series into a course for the brakes.

    Examples
    --------
    >>> sum(phase.braked for phase in bedding_course(bedding_series("two rounds")))
    15
    """
    phases: list[Phase] = []
    for each in series.rounds:
        phases += snubs(
            each.count,
            each.begin_m_s,
            each.end_m_s,
            each.interval_s,
            series.deceleration_m_s2,
        )
        if each.rest_s:
            phases += rest(each.rest_s)
    return tuple(phases)


@dataclass(frozen=True, slots=True)
class Warmed:
    """What a series does to the brakes.

    Parameters
    ----------
    series : BeddingSeries
        Which.
    history : HeatHistory
        Every brake through it.
    metal_c, lining_c : dict of Wheel to float or array
        The highest mean temperature of each disc or drum and of its linings. [degC]
    hottest : Wheel
        The wheel whose disc or drum gets hottest.
    words : str
        What to expect, in a sentence.
    """

    series: BeddingSeries
    history: HeatHistory
    metal_c: dict[Wheel, Value]
    lining_c: dict[Wheel, Value]
    hottest: Wheel
    words: str


def warmed_by(series: BeddingSeries, given: HeatInput, *, ambient_c: Value) -> Warmed:
    """Work out how warm each brake gets in a series.

    Parameters
    ----------
    series : BeddingSeries
        Which.
    given : HeatInput
        The car and its brakes, floats or samples.
    ambient_c : float or array
        Temperature of the air. [degC]
    """
    import numpy as np

    history = run(given, bedding_course(series), ambient_c=ambient_c)
    wheels = [each.body.wheel for each in history.wheels]
    metal = {wheel: history.peak(wheel, "metal").temperature_c for wheel in wheels}
    lining = {wheel: history.peak(wheel, "lining").temperature_c for wheel in wheels}
    hottest, peak = history.hottest("metal")
    every = np.ravel(peak.temperature_c)
    range_words = f"{every[0]:.0f} C"
    if every.size > 1:
        range_words += f" ({every.min():.0f} to {every.max():.0f})"
    words = f"The {hottest} brake gets hottest: its disc or drum reaches {range_words}."
    return Warmed(series, history, metal, lining, hottest, words)
