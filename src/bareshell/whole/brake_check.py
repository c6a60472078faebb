"""The brakes on one page: what a push does, what is left of them, and what that rests on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.brakes.against import FOOT_N, held_against
from bareshell.brakes.answer import Load
from bareshell.brakes.cases import Case, single_cases
from bareshell.brakes.failures import DRY_ROAD, failed, pair_cases
from bareshell.brakes.figures import gather
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.state import WHOLE, State
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.yardstick import Subject, Yardstick
from bareshell.brakes.yardsticks import CAUTIONS
from bareshell.errors import BadInput, NotFound
from bareshell.model.brake import BrakeSystem
from bareshell.units.show import METRIC, Preference
from bareshell.whole.brake_failed import failure_views
from bareshell.whole.brake_parts import (
    AssumedFigure,
    EntryProblem,
    FailureView,
    ForceView,
    LockView,
    MissingFigure,
    PushCurve,
    PushView,
    SystemName,
    TrustCount,
    VerdictView,
)
from bareshell.whole.brake_push import (
    forces_for,
    known,
    lock_view,
    plain,
    push_curve,
    push_view,
)
from bareshell.whole.brake_said import (
    assumed_figures,
    count_trust,
    missing_figures,
    odd_entries,
)

LOADS: Final[tuple[Load, ...]] = ("driver only", "laden")
NEEDED: Final = ("pressure", "torque")
MOST_FOOT_N: Final = 1500.0
CURVE_TO_N: Final = 900.0

NOT_PROVED: Final = (
    "a figure here is worth what its inputs are worth; it proves nothing of the car",
    "brakes are taken as cold, dry and bedded in, on a level road",
    "the vehicle's own data, local law and a competent person's look outrank all of it",
)
"""What no figure on these pages proves."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked: a push of the foot, a load, a road, what has failed, one thing or two."""

    pedal_force_n: float = FOOT_N
    load: Load = "laden"
    friction_of_road: float = DRY_ROAD
    failure: str = ""
    two_at_once: bool = False

    def __post_init__(self) -> None:
        """Refuse what no foot, car or road can be.

        Raises
        ------
        BadInput
            Naming what was asked and what may be.
        """
        if not 1.0 <= self.pedal_force_n <= MOST_FOOT_N:
            raise BadInput(
                "force of the foot",
                f"{self.pedal_force_n:g} N is no push of a foot",
                f"ask from 1 to {MOST_FOOT_N:g} N, such as 500",
            )
        load_called(self.load)
        check_road(self.friction_of_road)


def load_called(said: str) -> Load:
    """Return one of `LOADS` by its name.

    Raises
    ------
    BadInput
        When it is none; those there are are named.
    """
    for load in LOADS:
        if load == said:
            return load
    raise BadInput("load", f"'{said}' is none", f"say {' or '.join(LOADS)}")


def check_road(friction_of_road: float) -> None:
    """Refuse an adhesion that no road has.

    Raises
    ------
    BadInput
        Naming what may be asked.
    """
    if not 0.05 <= friction_of_road <= 1.5:
        raise BadInput(
            "adhesion of the road",
            f"{friction_of_road:g} is no road",
            "ask from 0.05, ice, to 1.5; a dry road has some 0.8",
        )


@dataclass(frozen=True, slots=True)
class BrakeCheck:
    """What the brakes do, whole and failed, held against the yardsticks that were picked.

    Parameters
    ----------
    now, whole : PushView or None
        The push that was asked about, with the failure that was asked about and with none; None
        when figures for it are missing.
    curve, whole_curve : PushCurve or None
        The same over a rising push.
    failures : tuple of FailureView
        Each different outcome of a single failure, those that leave most first.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    pedal_force_n: float
    load: str
    friction_of_road: float
    failure: str
    two_at_once: bool
    trust: TrustCount
    whole: PushView | None
    now: PushView | None
    whole_curve: PushCurve | None
    curve: PushCurve | None
    locks: tuple[LockView, ...]
    forces: tuple[ForceView, ...]
    failures: tuple[FailureView, ...]
    verdicts: tuple[VerdictView, ...]
    yardsticks_chosen: bool
    assumed: tuple[AssumedFigure, ...]
    missing: tuple[MissingFigure, ...]
    problems: tuple[EntryProblem, ...]
    cautions: tuple[str, ...]
    not_proved: tuple[str, ...] = NOT_PROVED


@dataclass(frozen=True, slots=True)
class Head:
    """Whose brakes they are and when they were looked at."""

    made_at: datetime
    seq: int = 0
    car: str = ""
    invented: bool = False
    systems: tuple[SystemName, ...] = ()
    preference: Preference = METRIC


def brake_check(
    system: BrakeSystem,
    head: Head,
    asked: Asked = Asked(),
    yardsticks: Iterable[Yardstick] | None = None,
    others: Mapping[Subject, Callable[[Yardstick], Verdict]] | None = None,
) -> BrakeCheck:
    """Check brakes: what a push does, every single failure, the yardsticks, and what is not known.

    Parameters
    ----------
    system : BrakeSystem
        As described; it may be half finished.
    head : Head
        Whose they are.
    asked : Asked
        The push, the load, the road, the failure to show.
    yardsticks : iterable of Yardstick or None
        Those that were picked; None when nobody picked any.
    others : mapping, optional
        What holds subjects that are worked out elsewhere; see `held_against`.

    Raises
    ------
    NotFound
        When the failure asked about is none of these brakes.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> made = Head(datetime(2026, 3, 4, tzinfo=UTC))
    >>> check = brake_check(small_car("single line"), made)
    >>> check.failures[-1].left, check.missing
    ('nothing but the parking brake', ())
    """
    gathered = gather(system)
    prepared = prepare(system, gathered.figures)
    picked = tuple(yardsticks or ())
    load, road, force = asked.load, asked.friction_of_road, asked.pedal_force_n
    two = asked.two_at_once or "+" in asked.failure
    answers = not prepared.missing_for(*NEEDED, load) and not troubled(prepared)
    loads = tuple(one for one in LOADS if answers and not prepared.missing_for(one))
    cases = pair_cases(prepared) if two else single_cases(system)
    state = state_of(cases, asked.failure)
    shown = cases if answers else ()
    return BrakeCheck(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=system.id,
        title=system.title,
        role=system.role.value,
        systems=head.systems,
        pedal_force_n=force,
        load=load,
        friction_of_road=road,
        failure=asked.failure,
        two_at_once=two,
        trust=count_trust(system, gathered),
        whole=push_view(prepared, force, load, road) if answers else None,
        now=push_view(prepared, force, load, road, state) if answers else None,
        whole_curve=push_curve(prepared, max(CURVE_TO_N, force), load) if answers else None,
        curve=push_curve(prepared, max(CURVE_TO_N, force), load, state) if answers else None,
        locks=tuple(lock_view(prepared, road, one) for one in loads),
        forces=tuple(row for one in loads for row in forces_for(prepared, one)),
        failures=failure_views(
            prepared, failed(prepared, shown, force, load, road), picked, head.preference
        ),
        verdicts=tuple(
            verdict_view(one)
            for one in held_against(prepared, picked, friction_of_road=road, others=others)
        ),
        yardsticks_chosen=yardsticks is not None,
        assumed=assumed_figures(system, gathered.assumed, head.preference),
        missing=missing_figures(gathered),
        problems=odd_entries(system),
        cautions=tuple(CAUTIONS),
    )


def troubled(prepared: Prepared) -> bool:
    """Whether the graph itself cannot be reckoned: nothing pushes a cylinder, say."""
    return bool(prepared.topology().troubles)


def state_of(cases: Iterable[Case], failure: str) -> State:
    """Return the state that a failure's id stands for; nothing has gone wrong when it is empty.

    Raises
    ------
    NotFound
        When it is none of these cases.
    """
    if not failure:
        return WHOLE
    for case in cases:
        if case.id == failure:
            return case.state
    raise NotFound(
        f"these brakes have no failure '{failure}'", "choose one of those that are listed"
    )


def verdict_view(verdict: Verdict) -> VerdictView:
    """Lay a verdict out in words and plain figures."""
    one = verdict.yardstick
    held = "meets" if verdict.met else "short of"
    state = "not worked out" if verdict.margin is None else held
    return VerdictView(
        id=one.id,
        family=one.family,
        jurisdiction=one.jurisdiction,
        subject=one.subject.value,
        asks=one.words,
        state=state,
        words=verdict.words,
        required=None if verdict.required is None else plain(verdict.required),
        reached=None if verdict.reached is None else known(verdict.reached),
        margin=None if verdict.margin is None else known(verdict.margin),
        unit=verdict.unit,
        because=verdict.because,
        cite=one.cite(),
        mark=one.mark,
        note=one.note,
    )
