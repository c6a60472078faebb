"""How warm the bay will be: the owner's monthly figures, set right by what was read in it.

A figure stands for the middle of its month; between two months it goes in a straight line. What
was written down in past sessions shifts the whole year, the more so the more readings there are.
Nights are colder than days, and a cure meets the night: what counts for it is the lowest.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import ceil
from zoneinfo import ZoneInfo

from bareshell.model import Build
from bareshell.model.session import Garage
from bareshell.plan.problem import COLD_DOUBLING_C, COLD_REFERENCE_C

__all__ = ["NIGHT_DROP_C", "Season", "expected_temperature_c", "season_of"]

NIGHT_DROP_C = 3.0
"""How far the night's lowest lies under the day's mean in an unheated garage (common practice, no
source). [degC]"""

READINGS_TO_BELIEVE = 4.0
"""The monthly figures weigh as much as so many readings (our own choice). [-]"""

FARTHEST_OFF_C = 8.0
"""A reading further off than this was of a heater, or a slip of the pen. [degC]"""


def expected_temperature_c(garage: Garage, day: date) -> float:
    """Return what an unheated bay is expected to have on a day, from its monthly figures.

    Parameters
    ----------
    garage : Garage
        The bay; each monthly figure stands for the middle of its month. [degC]
    day : date
        The day.

    Returns
    -------
    float
        Between the two nearest months, in a straight line. [degC]

    Examples
    --------
    >>> garage = Garage(monthly_c=(0.0,) * 6 + (12.0,) * 6)
    >>> expected_temperature_c(garage, date(2026, 7, 1)) > 5
    True
    """
    position = (day.month - 1) + (day.day - 15) / 30.5
    before = int(position // 1)
    share = position - before
    low, high = garage.monthly_c[before % 12], garage.monthly_c[(before + 1) % 12]
    return low + (high - low) * share


@dataclass(frozen=True, slots=True)
class Season:
    """How warm the bay is through the year.

    Parameters
    ----------
    garage : Garage
        With its monthly figures and what its heating reaches.
    shift_c : float
        How much warmer it was read to be than those say. [degC]
    readings : int
        On how many readings that rests.
    """

    garage: Garage
    shift_c: float = 0.0
    readings: int = 0

    def mean_c(self, day: date) -> float:
        """Return the mean of a day without any heating. [degC].

        Examples
        --------
        >>> Season(Garage(monthly_c=(10.0,) * 12), shift_c=1.5).mean_c(date(2031, 3, 4))
        11.5
        """
        return expected_temperature_c(self.garage, day) + self.shift_c

    def working_c(self, day: date) -> float:
        """Return what is expected while somebody works. [degC].

        Examples
        --------
        >>> Season(Garage(heated_to_c=15.0)).working_c(date(2031, 1, 4))
        15.0
        """
        mean, heated = self.mean_c(day), self.garage.heated_to_c
        # A heater warms a cold garage; it does not cool one in summer.
        return mean if heated is None else max(mean, heated)

    def lowest_c(self, first: date, last: date) -> float:
        """Return the lowest from one day to another, nights included. [degC].

        Examples
        --------
        >>> Season(Garage(monthly_c=(10.0,) * 12)).lowest_c(date(2031, 3, 4), date(2031, 3, 9))
        7.0
        """
        # Between two days the mean goes in straight lines that turn in the middle of a month.
        days = [first, last]
        days += [
            day
            for offset in range(1, min(400, (last - first).days))
            if (day := first + timedelta(days=offset)).day in (14, 15, 16)
        ]
        lowest = min(map(self.mean_c, days)) - NIGHT_DROP_C
        heated = self.garage.heated_to_c if self.garage.heated_nights else None
        return lowest if heated is None else max(lowest, heated)

    def stretched_minutes(self, wait_minutes: int, moment: datetime, zone: ZoneInfo) -> int:
        """Say how long a wait takes in the cold: the coldest that it meets counts for all of it.

        Parameters
        ----------
        wait_minutes : int
            As it is written. [min]
        moment : datetime
            When it began; aware.
        zone : ZoneInfo
            The garage's.
        """
        first = moment.astimezone(zone).date()
        takes, longer = 0, wait_minutes
        while longer > takes:
            takes = longer
            last = (moment + timedelta(minutes=takes)).astimezone(zone).date()
            colder = COLD_REFERENCE_C - self.lowest_c(first, last)
            longer = ceil(wait_minutes * max(1.0, 2.0 ** (colder / COLD_DOUBLING_C)))
        return takes


def season_of(build: Build, zone: ZoneInfo) -> Season:
    """Return how warm this owner's bay is through the year.

    What was read since the bay is heated was of the heating, and says nothing of the year.

    Parameters
    ----------
    build : Build
        The build with its garage and the sessions that were held.
    zone : ZoneInfo
        The garage's.

    Examples
    --------
    >>> season_of(Build(), ZoneInfo("UTC")).readings
    0
    """
    garage = build.garage
    off = list(_off_by(build, zone))
    return Season(garage, round(sum(off) / (len(off) + READINGS_TO_BELIEVE), 2), len(off))


def _off_by(build: Build, zone: ZoneInfo) -> Iterable[float]:
    for held in build.sessions.values():
        heated = build.heated_since is not None and held.started_at >= build.heated_since
        if held.temperature_c is not None and not heated:
            day = held.started_at.astimezone(zone).date()
            off = held.temperature_c - expected_temperature_c(build.garage, day)
            if abs(off) <= FARTHEST_OFF_C:
                yield off
