"""The pieces of what the pages and commands say of brakes: plain figures with their words."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SystemName:
    """Brakes that a build describes."""

    id: str
    title: str
    role: str


@dataclass(frozen=True, slots=True)
class TrustCount:
    """How the figures that an answer rests on are known.

    Parameters
    ----------
    measured, marked, data_sheet, assumed : int
        Figures that were stated, by how each is known.
    usual : int
        Figures that nobody stated and that were taken as they usually are.
    missing : int
        Figures that nothing can stand in for.
    """

    measured: int = 0
    marked: int = 0
    data_sheet: int = 0
    assumed: int = 0
    usual: int = 0
    missing: int = 0


@dataclass(frozen=True, slots=True)
class AssumedFigure:
    """A figure that nobody stated, what it was taken to be, and where that is from."""

    path: str
    words: str
    value: float
    low: float
    high: float
    quantity: str
    said: str
    mark: str


@dataclass(frozen=True, slots=True)
class MissingFigure:
    """A figure or word that nobody stated, how to find it, and what waits for it."""

    path: str
    words: str
    question: str
    purposes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class EntryProblem:
    """Something odd about the brakes as they were entered."""

    about: str
    where: str
    what: str
    remedy: str
    severity: str


@dataclass(frozen=True, slots=True)
class CircuitPressure:
    """The pressure in one circuit."""

    circuit: str
    title: str
    pressure_pa: float


@dataclass(frozen=True, slots=True)
class WheelPush:
    """What one wheel's brake does."""

    wheel: str
    pressure_pa: float | None
    torque_nm: float
    force_n: float


@dataclass(frozen=True, slots=True)
class TravelPieceView:
    """One piece of the pedal's travel, as far as the pad goes for it."""

    key: str
    words: str
    length_m: float
    trust: str = ""


@dataclass(frozen=True, slots=True)
class TravelView:
    """Where the pedal's travel goes."""

    pieces: tuple[TravelPieceView, ...]
    total_m: float
    floor_m: float
    left_m: float
    on_floor: bool
    on_stop: bool


@dataclass(frozen=True, slots=True)
class PushView:
    """What one push of the foot does.

    Parameters
    ----------
    deceleration_m_s2 : float
        As if the tyres never slid.
    on_road_m_s2 : float
        On the road asked about, wheels that lock included.
    locked : tuple of str
        The wheels that lock there.
    """

    pedal_force_n: float
    load: str
    deceleration_m_s2: float
    deceleration_g: float
    on_road_m_s2: float
    locked: tuple[str, ...]
    front_adhesion_used: float
    rear_adhesion_used: float
    front_share: float
    push_rod_n: float
    servo_run_out: bool
    circuits: tuple[CircuitPressure, ...]
    wheels: tuple[WheelPush, ...]
    travel: TravelView | None


@dataclass(frozen=True, slots=True)
class PushCurve:
    """The same over a rising push: one figure for each force."""

    load: str
    pedal_force_n: tuple[float, ...]
    deceleration_g: tuple[float, ...]
    front_adhesion_used: tuple[float, ...]
    rear_adhesion_used: tuple[float, ...]
    travel_m: tuple[float, ...]
    front_force_n: tuple[float, ...]
    rear_force_n: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LockView:
    """Which axle locks first on a road, and what is reached before.

    Parameters
    ----------
    crossing_g : float or None
        Deceleration from which the rear axle uses more adhesion than the front; None when it
        never does.
    """

    load: str
    friction_of_road: float
    first: str
    front_g: float | None
    rear_g: float | None
    before_lock_g: float
    before_lock_force_n: float
    crossing_g: float | None


@dataclass(frozen=True, slots=True)
class ForceView:
    """The force of the foot for a deceleration; None where no push reaches it, and why."""

    load: str
    deceleration_g: float
    pedal_force_n: float | None
    because: str


@dataclass(frozen=True, slots=True)
class FailedElement:
    """One thing that fails: its id among the failures, what it is, and the part or line."""

    id: str
    words: str
    element: str
    kind: str


@dataclass(frozen=True, slots=True)
class FailureView:
    """What is left of the brakes after a failure, and all the things whose failing leaves that.

    Parameters
    ----------
    deceleration_m_s2 : float
        At the push asked about, as if the tyres never slid.
    asked_m_s2 : float or None
        The most that a chosen yardstick about such a failure asks; None when none does.
    verdict : str
        ``meets 2.9 m/s2``, ``short of 2.9 m/s2``, or nothing.
    """

    id: str
    words: str
    elements: tuple[FailedElement, ...]
    left: str
    lost_circuits: tuple[str, ...]
    lost_wheels: tuple[str, ...]
    weakened_wheels: tuple[str, ...]
    loses_fluid: bool
    deceleration_m_s2: float
    on_road_m_s2: float
    travel_m: float | None
    on_floor: bool | None
    pull: str
    asked_m_s2: float | None
    verdict: str


@dataclass(frozen=True, slots=True)
class VerdictView:
    """A yardstick and what it came to.

    Parameters
    ----------
    state : str
        ``meets``, ``short of`` or ``not worked out``.
    words : str
        The same with the figure that is asked.
    share : float or None
        Of all combinations drawn from the ranges, the share that meets it; None before any were
        drawn.
    worst : str
        The smallest margin among them.
    settles : str
        What to measure, and how much of it that would settle.
    """

    id: str
    family: str
    jurisdiction: str
    subject: str
    asks: str
    state: str
    words: str
    required: float | None
    reached: float | None
    margin: float | None
    unit: str
    because: str
    cite: str
    mark: str
    share: float | None = None
    share_words: str = ""
    worst: str = ""
    note: str = ""
    settles: str = ""


@dataclass(frozen=True, slots=True)
class BecauseView:
    """What one departure does to a figure."""

    departure: str
    title: str
    change: float | None
    said: str


@dataclass(frozen=True, slots=True)
class CompareRow:
    """One figure of two sets of brakes; None where it is not reached.

    Parameters
    ----------
    because : tuple of BecauseView
        What each departure does to it alone, the one that does most first.
    together : float or None
        What is left of the difference when those are taken off: what they do only together.
    """

    key: str
    words: str
    quantity: str
    built: float | None
    standard: float | None
    built_said: str
    standard_said: str
    because: tuple[BecauseView, ...] = ()
    together: float | None = None
    together_said: str = ""


@dataclass(frozen=True, slots=True)
class Settling:
    """A figure to measure next, and what that would settle."""

    path: str
    words: str
    advice: str
    share: float
    range_said: str = ""
