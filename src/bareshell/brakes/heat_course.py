"""What the brakes are put through: one stop, a prescribed row of snubs, a long descent, a rest.

A course is a row of phases, each at a speed that changes evenly. Its numbers may be arrays: a
sample of cars is put through it at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from bareshell.calc.values import Value, least, lowest
from bareshell.errors import BadInput
from bareshell.sources import Mark

__all__ = [
    "FADE_SERIES",
    "RECOVERY_STOPS",
    "Course",
    "Phase",
    "Snubs",
    "descent",
    "rest",
    "single_stop",
    "snubs",
]

KMH: Final = 1.0 / 3.6
_REGAIN_M_S2: Final = 1.5  # an older car pulling away briskly; common practice, no source


@dataclass(frozen=True, slots=True)
class Phase:
    """A stretch of driving, or of standing, at a speed that changes evenly.

    Parameters
    ----------
    words : str
        What is done.
    duration_s : float or array
        How long. [s]
    begin_speed_m_s, end_speed_m_s : float or array
        Speed at its beginning and end. [m/s]
    braked : bool
        Whether the brakes take what the car loses.
    slope : float or array
        Fall for each metre along the level, when braked: 0.1 for 10 per cent. [-]
    other_drag_n : float or array
        What air, tyres and engine hold back, when braked; 0 to leave their help out. [N]
    """

    words: str
    duration_s: Value
    begin_speed_m_s: Value
    end_speed_m_s: Value
    braked: bool = False
    slope: Value = 0.0
    other_drag_n: Value = 0.0

    @property
    def deceleration_m_s2(self) -> Value:
        """Mean deceleration over it; below zero when it gains speed."""
        return (self.begin_speed_m_s - self.end_speed_m_s) / self.duration_s

    def numbers(self) -> tuple[Value, ...]:
        """Every number of it, in one row."""
        speeds = (self.begin_speed_m_s, self.end_speed_m_s)
        return (self.duration_s, *speeds, self.slope, self.other_drag_n)


Course: TypeAlias = Sequence[Phase]
"""A row of phases."""


@dataclass(frozen=True, slots=True)
class Snubs:
    """A prescribed row of equal slow-downs.

    Parameters
    ----------
    id : str
        Short name.
    words : str
        What it is, to a person.
    count : int
        How many.
    most_speed_m_s : float
        The most that they begin from. [m/s]
    share_of_top_speed : float
        The share of the car's top speed that they begin from, if that is less; 0 for none.
    end_share : float
        Speed at their end over that at their beginning.
    interval_s : float
        From one beginning to the next. [s]
    deceleration_m_s2 : float
        As first made. [m/s2]
    source_id, clause, mark : str
        Where it is prescribed, and how far that was read.
    """

    id: str
    words: str
    count: int
    most_speed_m_s: float
    share_of_top_speed: float
    end_share: float
    interval_s: float
    deceleration_m_s2: float
    source_id: str
    clause: str
    mark: Mark

    def begin_speed_m_s(self, top_speed_m_s: Value | None) -> Value:
        """Speed that they begin from, for a car's top speed.

        Raises
        ------
        BadInput
            When it hangs on a top speed that is not known.

        Examples
        --------
        >>> round(FADE_SERIES["un-r13-h"].begin_speed_m_s(38.9) * 3.6, 1)
        112.0
        """
        if not self.share_of_top_speed:
            return self.most_speed_m_s
        if top_speed_m_s is None:
            raise BadInput(
                "top speed of the car",
                f"is not known, and {self.words} begins at a share of it",
                "give the car's top speed",
            )
        return least(self.share_of_top_speed * top_speed_m_s, self.most_speed_m_s)


_FIFTEEN: Final = (
    "fifteen snubs to half the speed, 45 s apart",
    15,
    120 * KMH,
    0.8,
    0.5,
    45.0,
    3.0,
)

FADE_SERIES: Final = {
    series.id: series
    for series in (
        Snubs("un-r13-h", *_FIFTEEN, "un-r13-h", "Annex 3, 1.5.1", "from memory"),
        Snubs("fmvss-135", *_FIFTEEN, "fmvss-135", "S7.13", "from memory"),
    )
}
"""Prescribed fade series by id."""

RECOVERY_STOPS: Final = Snubs(
    "un-r13-h-recovery",
    "four stops from 50 km/h, 1.5 km apart",
    4,
    50 * KMH,
    0.0,
    0.0,
    1500.0 / (50 * KMH),
    3.0,
    "un-r13-h",
    "Annex 3, 1.5.3",
    "from memory",
)
"""The stops between hot brakes and their recovery."""


def single_stop(begin_speed_m_s: Value, deceleration_m_s2: Value) -> tuple[Phase, ...]:
    """One steady stop to rest, on the level.

    Parameters
    ----------
    begin_speed_m_s : float or array
        Speed at its beginning. [m/s]
    deceleration_m_s2 : float or array
        Steady deceleration. [m/s2]

    Raises
    ------
    BadInput
        When either is not above zero.

    Examples
    --------
    >>> single_stop(25.0, 5.0)[0].duration_s
    5.0
    """
    _above_zero("speed at the beginning", begin_speed_m_s)
    _above_zero("deceleration", deceleration_m_s2)
    lasts = begin_speed_m_s / deceleration_m_s2
    return (Phase("stop", lasts, begin_speed_m_s, 0.0, braked=True),)


def snubs(
    count: int,
    begin_speed_m_s: Value,
    end_speed_m_s: Value,
    interval_s: Value,
    deceleration_m_s2: Value,
) -> tuple[Phase, ...]:
    """A row of equal slow-downs with the speed regained between them.

    After each the car pulls away at 1.5 m/s2, or as hard as the time left asks, and runs at the
    speed it slows from until the next.

    Parameters
    ----------
    count : int
        How many.
    begin_speed_m_s, end_speed_m_s : float or array
        Speed at the beginning and the end of each. [m/s]
    interval_s : float or array
        From one beginning to the next. [s]
    deceleration_m_s2 : float or array
        Steady deceleration of each. [m/s2]

    Raises
    ------
    BadInput
        When they cannot be made one after another in that time.

    Examples
    --------
    >>> [phase.words for phase in snubs(2, 30.0, 15.0, 45.0, 3.0)]
    ['snub 1', 'speed regained', 'at speed', 'snub 2']
    """
    _above_zero("deceleration", deceleration_m_s2)
    fall = begin_speed_m_s - end_speed_m_s
    _above_zero("fall of speed", fall)
    slowing = fall / deceleration_m_s2
    left = interval_s - slowing
    if lowest(left) <= 0.0:
        raise BadInput(
            "time from one snub to the next",
            "is shorter than the snub itself",
            "leave more time between them",
        )
    regain = least(fall / _REGAIN_M_S2, left * 0.8)
    phases: list[Phase] = []
    for number in range(1, count + 1):
        phases.append(Phase(f"snub {number}", slowing, begin_speed_m_s, end_speed_m_s, braked=True))
        if number < count:
            phases.append(Phase("speed regained", regain, end_speed_m_s, begin_speed_m_s))
            phases.append(Phase("at speed", left - regain, begin_speed_m_s, begin_speed_m_s))
    return tuple(phases)


def descent(
    slope: Value, speed_m_s: Value, distance_m: Value, *, other_drag_n: Value = 0.0
) -> tuple[Phase, ...]:
    """A long descent held at a steady speed by the brakes alone.

    Parameters
    ----------
    slope : float or array
        Fall for each metre along the level: 0.1 for 10 per cent. [-]
    speed_m_s : float or array
        Steady speed. [m/s]
    distance_m : float or array
        Length of the descent. [m]
    other_drag_n : float or array
        What air, tyres and an engine in a low gear hold back; 0 leaves their help out. [N]

    Raises
    ------
    BadInput
        When speed, slope or distance is not above zero.

    Examples
    --------
    >>> descent(0.10, 12.0, 3000.0)[0].duration_s
    250.0
    """
    _above_zero("speed of the descent", speed_m_s)
    _above_zero("slope", slope)
    _above_zero("length of the descent", distance_m)
    lasts = distance_m / speed_m_s
    return (
        Phase(
            "held back downhill",
            lasts,
            speed_m_s,
            speed_m_s,
            braked=True,
            slope=slope,
            other_drag_n=other_drag_n,
        ),
    )


def rest(duration_s: Value) -> tuple[Phase, ...]:
    """The car stands: heat creeps from disc or drum into the fluid, with no air to help.

    Parameters
    ----------
    duration_s : float or array
        How long it stands. [s]

    Raises
    ------
    BadInput
        When that is not above zero.

    Examples
    --------
    >>> rest(900.0)[0].begin_speed_m_s
    0.0
    """
    _above_zero("time of standing", duration_s)
    return (Phase("standing", duration_s, 0.0, 0.0),)


def _above_zero(field: str, value: Value) -> None:
    if not lowest(value) > 0.0:
        raise BadInput(field, "is not more than zero", "give it above zero")
