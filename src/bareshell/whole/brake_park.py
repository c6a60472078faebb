"""The parking brake: what it holds both ways, its clicks, and the yardsticks about it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Final

from bareshell.brakes.answer import Load
from bareshell.brakes.failures import DRY_ROAD
from bareshell.brakes.figures import gather
from bareshell.brakes.measured_road import parking_tried
from bareshell.brakes.parking import Holding, ParkingAnswer, parked
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.verdicts import hold_effort, hold_slope
from bareshell.brakes.yardstick import Effort, Hold, Subject, Yardstick
from bareshell.brakes.yardsticks import CAUTIONS
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeReading, BrakeSystem, PartKind, ReadingKind
from bareshell.whole.brake_check import (
    NOT_PROVED,
    Head,
    check_road,
    load_called,
    verdict_view,
)
from bareshell.whole.brake_parts import (
    AssumedFigure,
    EntryProblem,
    MissingFigure,
    SystemName,
    TrustCount,
    VerdictView,
)
from bareshell.whole.brake_push import known, plain
from bareshell.whole.brake_said import assumed_figures, count_trust, missing_figures, odd_entries

HAND_N: Final = 400.0
"""Pull of the hand where nobody says another: the most that the newer rules allow. [N]"""

MOST_HAND_N: Final = 1500.0

PARKING_CAUTIONS: Final = (
    "Chock the wheels before you try a slope, and stand where the car cannot come.",
    (
        "Hot drums shrink away from their shoes as they cool, and pads go slack: what held may "
        "let go. Leave it in gear besides."
    ),
)


@dataclass(frozen=True, slots=True)
class ParkAsked:
    """What was asked of the parking brake."""

    hand_force_n: float = HAND_N
    slope: float = 0.16
    friction_of_road: float = DRY_ROAD
    load: Load = "laden"

    def __post_init__(self) -> None:
        """Refuse what no hand, hill or road can be.

        Raises
        ------
        BadInput
            Naming what was asked and what may be.
        """
        if not 1.0 <= self.hand_force_n <= MOST_HAND_N:
            raise BadInput(
                "pull of the hand",
                f"{self.hand_force_n:g} N is no pull of a hand",
                f"ask from 1 to {MOST_HAND_N:g} N, such as 400",
            )
        if not 0.01 <= self.slope <= 1.0:
            raise BadInput("slope", f"{self.slope:g} is none to ask about", "ask from 0.01 to 1")
        check_road(self.friction_of_road)
        load_called(self.load)


@dataclass(frozen=True, slots=True)
class ParkSide:
    """What is held one way.

    Parameters
    ----------
    slope : float
        The steepest that is held, rise over run.
    limited_by : str
        ``force`` or ``tyres``.
    hand_force_n : float or None
        Pull that the slope asked about needs; None when none holds it.
    """

    direction: str
    slope: float
    force_slope: float
    adhesion_slope: float
    limited_by: str
    hand_force_n: float | None
    holds: bool


@dataclass(frozen=True, slots=True)
class ParkView:
    """The parking brake for one pull of the hand."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    hand_force_n: float
    slope_asked: float
    friction_of_road: float
    load: str
    acts_on: str
    up: ParkSide | None
    down: ParkSide | None
    share_of_weight: float | None
    cable_force_n: float | None
    travel_m: float | None
    clicks: float | None
    clicks_there_are: float | None
    clicks_suffice: bool | None
    verdicts: tuple[VerdictView, ...]
    tried: tuple[VerdictView, ...]
    tried_up: float | None
    tried_down: float | None
    yardsticks_chosen: bool
    trust: TrustCount
    assumed: tuple[AssumedFigure, ...]
    missing: tuple[MissingFigure, ...]
    problems: tuple[EntryProblem, ...]
    because: str
    cautions: tuple[str, ...] = (*PARKING_CAUTIONS, *CAUTIONS)
    not_proved: tuple[str, ...] = NOT_PROVED
    answer: ParkingAnswer | None = field(default=None, metadata={"twin": False})


def park_view(
    system: BrakeSystem,
    head: Head,
    asked: ParkAsked = ParkAsked(),
    yardsticks: Iterable[Yardstick] | None = None,
    readings: Iterable[BrakeReading] = (),
) -> ParkView:
    """Work the parking brake out for one pull of the hand.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    head : Head
        Whose they are.
    asked : ParkAsked
        The pull, the slope, the road, the load.
    yardsticks : iterable of Yardstick or None
        Those that were picked; None when nobody picked any.
    readings : iterable of BrakeReading
        What was tried on slopes is held against them too.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> view = park_view(small_car(), Head(datetime(2026, 3, 4, tzinfo=UTC)))
    >>> view.up.limited_by, view.down.holds
    ('force', True)
    """
    gathered = gather(system)
    prepared = prepare(system, gathered.figures)
    picked = [one for one in yardsticks or () if one.subject in _ABOUT]
    answer, because = _answer(prepared, asked)
    tried = parking_tried([one for one in readings if one.kind is ReadingKind.PARKING], picked)
    clicks = None if answer is None or answer.clicks is None else known(answer.clicks)
    suffice = None if answer is None else answer.clicks_suffice
    there = None if answer is None else answer.clicks_there_are
    travel = None if answer is None else answer.travel_m
    brakes = system.of_kind(PartKind.PARKING)
    return ParkView(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=system.id,
        title=system.title,
        role=system.role.value,
        systems=head.systems,
        hand_force_n=asked.hand_force_n,
        slope_asked=asked.slope,
        friction_of_road=asked.friction_of_road,
        load=asked.load,
        acts_on=brakes[0].choices.get("acts_on", "") if brakes else "",
        up=None if answer is None else _side(answer.nose_up),
        down=None if answer is None else _side(answer.nose_down),
        share_of_weight=None if answer is None else plain(answer.share_of_weight),
        cable_force_n=None if answer is None else plain(answer.cable_force_n),
        travel_m=None if travel is None else known(travel),
        clicks=clicks,
        clicks_there_are=None if there is None else known(there),
        clicks_suffice=None if suffice is None else bool(suffice),
        verdicts=tuple(verdict_view(parking_verdict(prepared, one)) for one in picked),
        tried=tuple(verdict_view(one) for one in tried.verdicts),
        tried_up=tried.up,
        tried_down=tried.down,
        yardsticks_chosen=yardsticks is not None,
        trust=count_trust(system, gathered),
        assumed=assumed_figures(
            system,
            [one for one in gathered.assumed if one.path.partition(".")[0] in _read(system)],
            head.preference,
        ),
        missing=tuple(
            one for one in missing_figures(gathered) if {"parking", "clicks"} & set(one.purposes)
        ),
        problems=tuple(one for one in odd_entries(system) if one.about in _read(system)),
        because=because,
        answer=answer,
    )


_ABOUT: Final = frozenset({Subject.PARKING})


def _read(system: BrakeSystem) -> frozenset[str]:
    """Return the parts that the parking brake's answer is read from."""
    kinds = (PartKind.CAR, PartKind.PARKING, PartKind.DRUM, PartKind.CALIPER, PartKind.DISC)
    return frozenset(part.id for part in system.of_kind(*kinds))


def _answer(prepared: Prepared, asked: ParkAsked) -> tuple[ParkingAnswer | None, str]:
    try:
        found = parked(
            prepared,
            asked.hand_force_n,
            slope_asked=asked.slope,
            friction_of_road=asked.friction_of_road,
            load=asked.load,
        )
    except BadInput as error:
        return None, " ".join(problem.describe() for problem in error.problems[:3])
    return found, ""


def _side(holding: Holding) -> ParkSide:
    return ParkSide(
        direction=holding.direction,
        slope=plain(holding.slope),
        force_slope=plain(holding.force_slope),
        adhesion_slope=plain(holding.adhesion_slope),
        limited_by=str(holding.limited_by),
        hand_force_n=known(holding.hand_force_n),
        holds=bool(holding.holds),
    )


def parking_verdict(prepared: Prepared, yardstick: Yardstick) -> Verdict:
    """Hold the parking brake against a yardstick, pulled as hard as that allows.

    Parameters
    ----------
    prepared : Prepared
        The system with its figures, or with samples of them.
    yardstick : Yardstick
        One about the parking brake, standing.
    """
    hand = yardstick.forces.most_hand_n or HAND_N
    try:
        answer = parked(prepared, hand)
    except BadInput as error:
        return not_worked_out(yardstick, error.problems[0].describe())
    if isinstance(yardstick.asks, Hold):
        found = hold_slope(yardstick, answer.nose_up.slope, answer.nose_down.slope)
    elif isinstance(yardstick.asks, Effort):
        found = hold_effort(yardstick, answer.share_of_weight)
    else:
        return not_worked_out(yardstick, "nobody can work this out: look at the car")
    said = "" if yardstick.forces.most_hand_n else "nothing is said of the hand"
    words = "; ".join(filter(None, (found.because, f"at {hand:.0f} N", said)))
    return replace(found, because=words)
