"""What was measured on the road: a decelerometer, a stop, a slope held, each with its verdicts.

A decelerometer leans with the nose and reads a little high; a distance hangs on the speed it was
begun from; one stop is one stop.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from bareshell.brakes.measured import of_kind
from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.verdicts import hold_deceleration, hold_distance, hold_slope
from bareshell.brakes.yardstick import Effort, Hold, Slow, Subject, Yardstick
from bareshell.calc import stopping
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeReading, ReadingKind

__all__ = [
    "ParkingTried",
    "StopResult",
    "decelerometer_verdicts",
    "parking_tried",
    "stop_result",
]

Brake = Literal["service", "parking", "secondary"]

_BRAKED_SUBJECTS: Final[Mapping[str, tuple[Subject, ...]]] = {
    "service": (Subject.SERVICE,),
    "parking": (Subject.PARKING, Subject.PARKING_MOVING),
    "secondary": (Subject.SECONDARY, Subject.CIRCUIT),
}


def decelerometer_verdicts(
    deceleration_g: float, yardsticks: Iterable[Yardstick], brake: Brake = "service"
) -> tuple[Verdict, ...]:
    """Hold a decelerometer's reading against the yardsticks of the brake that was applied.

    Parameters
    ----------
    deceleration_g : float
        As the instrument shows it, a share of g. [-]
    yardsticks : iterable of Yardstick
        Those that were picked.
    brake : {"service", "parking", "secondary"}
        Which brake was applied.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import chosen
    >>> [each.words for each in decelerometer_verdicts(0.51, chosen(["uk-mot-service"]))]
    ['meets 50 %']
    """
    slowing = stopping.deceleration_from_share(deceleration_g)
    return tuple(hold_deceleration(each, slowing) for each in yardsticks if _slows(each, brake))


def _slows(yardstick: Yardstick, brake: Brake) -> bool:
    asked = yardstick.subject in _BRAKED_SUBJECTS[brake]
    return asked and isinstance(yardstick.asks, Slow | Effort)


@dataclass(frozen=True, slots=True)
class StopResult:
    """A measured stop worked out.

    Parameters
    ----------
    mean_fully_developed_m_s2 : float or None
        Between 0.8 and 0.1 of the speed; None when the distances there were not read. [m/s2]
    over_distance_m_s2 : float or None
        Speed and distance alone, as if the brakes were full on at once: a least figure. [m/s2]
    verdicts : tuple of Verdict
        By deceleration where that is known, and by distance.
    notes : tuple of str
        What to beware of.
    """

    mean_fully_developed_m_s2: float | None
    over_distance_m_s2: float | None
    verdicts: tuple[Verdict, ...]
    notes: tuple[str, ...]


def stop_result(reading: BrakeReading, yardsticks: Iterable[Yardstick]) -> StopResult:
    """Work out a measured stop, and hold it against the yardsticks that were picked.

    Parameters
    ----------
    reading : BrakeReading
        Of kind ``measured stop``: speed with distance, and the two points on the way.
    yardsticks : iterable of Yardstick
        Those that were picked.

    Raises
    ------
    BadInput
        When the reading is of another kind, has no speed, or its distances do not grow.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.brakes.yardsticks import chosen
    >>> noon = datetime(2026, 6, 1, 12, tzinfo=UTC)
    >>> stop = {"speed_m_s": 100 / 3.6, "distance_m": 66.0}
    >>> reading = BrakeReading("s-1", ReadingKind.STOP, noon, stop)
    >>> [each.words for each in stop_result(reading, chosen(["un-r13h-service"])).verdicts]
    ['meets 70 m']
    """
    of_kind(reading, ReadingKind.STOP)
    figures = reading.figures
    speed, distance = figures.get("speed_m_s"), figures.get("distance_m")
    if speed is None:
        raise BadInput("speed at the start", "was not read", "give the speed the stop began from")
    mean, notes = _fully_developed(figures, speed)
    over = None if not distance else stopping.deceleration_over_distance(speed, distance)
    brake: Brake = _brake(reading)
    found: list[Verdict] = []
    for each in yardsticks:
        if not _slows(each, brake):
            continue
        if mean is not None:
            found.append(hold_deceleration(each, mean))
        asks = each.asks
        if distance and isinstance(asks, Slow) and asks.distance_m() is not None:
            found.append(hold_distance(each, distance, speed))
        elif mean is None and over is not None:
            # What distance and speed give is less than what was fully developed.
            found.append(hold_deceleration(each, over))
    return StopResult(mean, over, tuple(found), notes)


def _brake(reading: BrakeReading) -> Brake:
    chosen = reading.choices.get("brake", "service")
    return "parking" if chosen == "parking" else "secondary" if chosen == "secondary" else "service"


def _fully_developed(
    figures: Mapping[str, float], speed: float
) -> tuple[float | None, tuple[str, ...]]:
    names = ("upper_speed_m_s", "lower_speed_m_s", "upper_distance_m", "lower_distance_m")
    given = [figures.get(name) for name in names]
    points = [each for each in given if each is not None]
    if len(points) < 4:
        short = (
            "The mean fully developed deceleration needs the distances at 0.8 and 0.1 of the "
            "speed; by speed and distance alone the brakes are taken as full on at once."
        )
        return None, (short,)
    mean = stopping.mean_fully_developed_deceleration(*points)
    notes = [
        f"{words} is {got / speed:.2f} of the first, where the regulation has {wanted:.1f}."
        for words, got, wanted in (
            ("The upper speed", points[0], 0.8),
            ("The lower speed", points[1], 0.1),
        )
        if abs(got / speed - wanted) > 0.02
    ]
    return mean, tuple(notes)


# ------------------------------------------------------------------------ on a slope


@dataclass(frozen=True, slots=True)
class ParkingTried:
    """What the parking brake was seen to hold.

    Parameters
    ----------
    up, down : float or None
        Steepest slope held with the nose up and the nose down; None when it was not tried. [-]
    failed : tuple of (str, float)
        Which way and on what slope it did not hold.
    verdicts : tuple of Verdict
        For the yardsticks that ask for a slope.
    """

    up: float | None
    down: float | None
    failed: tuple[tuple[str, float], ...]
    verdicts: tuple[Verdict, ...]


def parking_tried(
    readings: Iterable[BrakeReading], yardsticks: Iterable[Yardstick]
) -> ParkingTried:
    """Gather what the parking brake held on slopes, and hold it against the yardsticks.

    A slope that it held both ways counts as held; one that it held one way says nothing of the
    other.

    Raises
    ------
    BadInput
        When a reading is of another kind.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.brakes.yardsticks import chosen
    >>> noon = datetime(2026, 6, 1, 12, tzinfo=UTC)
    >>> readings = [
    ...     BrakeReading(
    ...         way, ReadingKind.PARKING, noon, {"slope": 0.17}, {"facing": way, "held": "yes"}
    ...     )
    ...     for way in ("up", "down")
    ... ]
    >>> [each.words for each in parking_tried(readings, chosen(["uk-mot-gradient"])).verdicts]
    ['meets 16 %']
    """
    held: dict[str, float] = {}
    failed: list[tuple[str, float]] = []
    for reading in readings:
        of_kind(reading, ReadingKind.PARKING)
        slope, facing = reading.figures.get("slope"), reading.choices.get("facing", "")
        if slope is None or facing not in {"up", "down"}:
            continue
        if reading.choices.get("held") == "yes":
            held[facing] = max(slope, held.get(facing, 0.0))
        elif reading.choices.get("held") == "no":
            failed.append((facing, slope))
    up, down = held.get("up"), held.get("down")
    found: list[Verdict] = []
    for each in yardsticks:
        if not isinstance(each.asks, Hold):
            continue
        if up is None or down is None:
            missing = "nose up" if up is None else "nose down"
            found.append(not_worked_out(each, f"it was not seen to hold any slope {missing}"))
        else:
            found.append(hold_slope(each, up, down))
    return ParkingTried(up, down, tuple(failed), tuple(found))
