"""A roller tester's sheet: efficiency, imbalance and the rule of locked wheels, with verdicts.

The rules of the test stand in the yardsticks; here efforts become what those ask about. A slow
roller says nothing of fade, nor of which axle locks first on the road.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.verdicts import (
    hold_effort,
    hold_even,
)
from bareshell.brakes.yardstick import Effort, Even, Subject, Yardstick
from bareshell.calc import stopping
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeReading, ReadingKind, Wheel

__all__ = [
    "CAUTIONS",
    "AxleEffort",
    "RollerResult",
    "RollerSheet",
    "of_kind",
    "roller_result",
    "roller_sheet",
]

CAUTIONS: Final = (
    (
        "Try brakes only where nobody can be hit: first at walking pace, then at 20 mph (32 km/h) "
        "on a level road with nobody behind, a hand on the hand brake."
    ),
    (
        "A verdict on one sheet is not the inspection: the tester looks at far more than figures, "
        "and these were typed in."
    ),
)
"""What stands beside every sheet."""


@dataclass(frozen=True, slots=True)
class RollerSheet:
    """The figures of a roller test, in newtons.

    Parameters
    ----------
    efforts_n : mapping of Wheel to float
        Greatest effort of each wheel under the service brake. [N]
    locked : frozenset of Wheel
        Wheels that locked under it.
    mass_kg : float or None
        Mass of the car as tested. [kg]
    parking_n : tuple of two floats, or None
        Left and right under the parking brake. [N]
    parking_locked : tuple of two bools
        Whether each locked.
    pedal_force_n, hand_force_n : float or None
        Force of foot and hand, where somebody measured it. [N]
    """

    efforts_n: Mapping[Wheel, float]
    locked: frozenset[Wheel] = frozenset()
    mass_kg: float | None = None
    parking_n: tuple[float, float] | None = None
    parking_locked: tuple[bool, bool] = (False, False)
    pedal_force_n: float | None = None
    hand_force_n: float | None = None

    @property
    def total_n(self) -> float:
        """Sum of the efforts under the service brake. [N]."""
        return sum(self.efforts_n.values())


@dataclass(frozen=True, slots=True)
class AxleEffort:
    """One axle of a roller sheet.

    Parameters
    ----------
    words : str
        ``front axle``, ``rear axle`` or ``parking brake``.
    left_n, right_n : float
        Efforts. [N]
    imbalance : float
        (higher - lower) / higher. [-]
    weaker : str
        ``left``, ``right`` or empty when they are even.
    """

    words: str
    left_n: float
    right_n: float
    imbalance: float
    weaker: str


@dataclass(frozen=True, slots=True)
class RollerResult:
    """A roller sheet worked out.

    Parameters
    ----------
    sheet : RollerSheet
        As read.
    efficiency, parking_efficiency : float or None
        Sum of the efforts over the weight; None without them or without the mass. [-]
    front_share : float or None
        Front efforts over all of them. [-]
    axles : tuple of AxleEffort
        Those whose two wheels were read.
    verdicts : tuple of Verdict
        For the yardsticks that a roller test can be held against.
    """

    sheet: RollerSheet
    efficiency: float | None
    parking_efficiency: float | None
    front_share: float | None
    axles: tuple[AxleEffort, ...]
    verdicts: tuple[Verdict, ...]


def roller_sheet(reading: BrakeReading) -> RollerSheet:
    """Take a roller sheet from what was kept.

    Raises
    ------
    BadInput
        When the reading is of another kind, or holds no effort at all.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> noon = datetime(2026, 6, 1, 12, tzinfo=UTC)
    >>> figures = {"front_left_n": 1900.0, "front_right_n": 1800.0, "mass_kg": 1000.0}
    >>> reading = BrakeReading("r-1", ReadingKind.ROLLER, noon, figures, {"front_left": "locked"})
    >>> sheet = roller_sheet(reading)
    >>> sheet.total_n, [str(wheel) for wheel in sheet.locked]
    (3700.0, ['front left'])
    """
    of_kind(reading, ReadingKind.ROLLER)
    figures, choices = reading.figures, reading.choices
    names = {wheel: wheel.value.replace(" ", "_") for wheel in Wheel}
    efforts = {
        wheel: figures[f"{name}_n"] for wheel, name in names.items() if f"{name}_n" in figures
    }
    left, right = figures.get("parking_left_n"), figures.get("parking_right_n")
    parking = None if left is None and right is None else (left or 0.0, right or 0.0)
    if not efforts and parking is None:
        raise BadInput("roller sheet", "has no effort of any wheel", "type what the tester printed")
    return RollerSheet(
        efforts,
        frozenset(wheel for wheel, name in names.items() if choices.get(name) == "locked"),
        figures.get("mass_kg"),
        parking,
        (choices.get("parking_left") == "locked", choices.get("parking_right") == "locked"),
        figures.get("pedal_force_n"),
        figures.get("hand_force_n"),
    )


def roller_result(
    sheet: RollerSheet, yardsticks: Iterable[Yardstick], *, parking_is_secondary: bool = False
) -> RollerResult:
    """Work out a roller sheet, and hold it against the yardsticks that were picked.

    Parameters
    ----------
    sheet : RollerSheet
        As read.
    yardsticks : iterable of Yardstick
        Those that were picked; what a roller test says nothing of is left out.
    parking_is_secondary : bool
        Whether the hand brake is the secondary brake of a single-line system.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import chosen
    >>> sheet = RollerSheet({Wheel.FRONT_LEFT: 1900.0, Wheel.FRONT_RIGHT: 1800.0}, mass_kg=700.0)
    >>> result = roller_result(sheet, chosen(["uk-mot-service", "uk-mot-imbalance"]))
    >>> round(result.efficiency, 3), [verdict.words for verdict in result.verdicts]
    (0.539, ['meets 50 %', 'meets 70 %', 'not worked out'])
    """
    weight = None if sheet.mass_kg is None else sheet.mass_kg * stopping.GRAVITY_M_S2
    efficiency = parking = None
    if weight is not None and sheet.efforts_n:
        efficiency = stopping.roller_efficiency(sheet.total_n, weight)
    if weight is not None and sheet.parking_n is not None:
        parking = stopping.roller_efficiency(sum(sheet.parking_n), weight)
    front = sum(effort for wheel, effort in sheet.efforts_n.items() if wheel.is_front)
    share = front / sheet.total_n if len(sheet.efforts_n) == 4 and sheet.total_n else None
    found: list[Verdict] = []
    for each in yardsticks:
        if isinstance(each.asks, Effort):
            found += _effort_verdict(each, sheet, efficiency, parking, parking_is_secondary)
        elif isinstance(each.asks, Even):
            found += _even_verdicts(each, sheet)
    return RollerResult(sheet, efficiency, parking, share, tuple(_axles(sheet)), tuple(found))


def _axles(sheet: RollerSheet) -> Iterable[AxleEffort]:
    for words, left, right in (
        ("front axle", Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT),
        ("rear axle", Wheel.REAR_LEFT, Wheel.REAR_RIGHT),
    ):
        if left in sheet.efforts_n and right in sheet.efforts_n:
            yield _axle(words, sheet.efforts_n[left], sheet.efforts_n[right])
    if sheet.parking_n is not None:
        yield _axle("parking brake", *sheet.parking_n)


def _axle(words: str, left: float, right: float) -> AxleEffort:
    weaker = "" if left == right else "left" if left < right else "right"
    return AxleEffort(words, left, right, stopping.wheel_imbalance(left, right), weaker)


def _effort_verdict(
    yardstick: Yardstick,
    sheet: RollerSheet,
    efficiency: float | None,
    parking: float | None,
    parking_is_secondary: bool,  # noqa: FBT001
) -> list[Verdict]:
    by_hand = yardstick.subject is Subject.PARKING or (
        yardstick.subject is Subject.SECONDARY and parking_is_secondary
    )
    if yardstick.subject is not Subject.SERVICE and not by_hand:
        return []
    read = sheet.parking_n is not None if by_hand else bool(sheet.efforts_n)
    reached = parking if by_hand else efficiency
    if not read:
        return [not_worked_out(yardstick, "no effort of that brake was read")]
    locked = sum(sheet.parking_locked) if by_hand else len(sheet.locked)
    braked = 2 if by_hand else max(len(sheet.efforts_n), len(sheet.locked))
    if reached is None and 2 * locked <= braked:
        return [not_worked_out(yardstick, "the mass of the car at the test is not known")]
    verdict = hold_effort(yardstick, reached or 0.0, wheels_locked=locked, wheels_braked=braked)
    return [replace(verdict, reached=reached)]


def _even_verdicts(yardstick: Yardstick, sheet: RollerSheet) -> list[Verdict]:
    found = []
    for axle, left, right in (
        ("front axle", Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT),
        ("rear axle", Wheel.REAR_LEFT, Wheel.REAR_RIGHT),
    ):
        steered = left.is_front
        asks = yardstick.asks
        if isinstance(asks, Even) and asks.steered_only and not steered:
            continue
        if left not in sheet.efforts_n or right not in sheet.efforts_n:
            found.append(not_worked_out(yardstick, f"{axle}: both wheels were not read"))
            continue
        verdict = hold_even(
            yardstick,
            sheet.efforts_n[left],
            sheet.efforts_n[right],
            left_locked=left in sheet.locked,
            right_locked=right in sheet.locked,
            steered=steered,
        )
        found.append(_named(verdict, axle))
    return found


def _named(verdict: Verdict, where: str) -> Verdict:
    because = f"{where}: {verdict.because}" if verdict.because else where
    return replace(verdict, because=because)


def of_kind(reading: BrakeReading, kind: ReadingKind) -> None:
    """Refuse a reading of another kind.

    Raises
    ------
    BadInput
        When it is one.
    """
    if reading.kind is not kind:
        raise BadInput("reading", f"is a {reading.kind}, not a {kind}", f"choose a {kind}")
