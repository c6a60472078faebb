"""What a yardstick is: one published requirement that a result can be held against.

Meeting one in a calculation is no approval and says nothing of the car's condition. Which ones
apply is for the owner and local law to say; see `bareshell.brakes.yardsticks` for the list.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final, Literal, TypeAlias

from bareshell.calc.stopping import GRAVITY_M_S2, prescribed_stopping_distance
from bareshell.sources import Mark, source

__all__ = [
    "ANNEX_GRAVITY_M_S2",
    "FOOT",
    "KMH",
    "LBF",
    "MPH",
    "Adhesion",
    "Asks",
    "Effort",
    "Even",
    "Forces",
    "Hold",
    "Hot",
    "Loaded",
    "LockOrder",
    "Look",
    "Slow",
    "Subject",
    "Volume",
    "Yardstick",
]

KMH: Final = 1.0 / 3.6
MPH: Final = 0.44704
LBF: Final = 4.4482216152605
FOOT: Final = 0.3048

ANNEX_GRAVITY_M_S2: Final = 10.0
"""What one annex rounds gravity to [S:fr-arrete-1955] (read)."""

_DELAY_S: Final = 0.36


class Subject(StrEnum):
    """What a yardstick is about."""

    SERVICE = "service brake"
    CIRCUIT = "one circuit failed"
    SERVO = "servo failed"
    VALVE = "valve failed"
    HOT = "hot brakes"
    RECOVERY = "brakes recovered"
    PARKING = "parking brake, standing"
    PARKING_MOVING = "parking brake, moving"
    SECONDARY = "second control"
    DISTRIBUTION = "distribution between the axles"
    LOCK_ORDER = "which axle locks first"
    IMBALANCE = "imbalance across an axle"
    RESERVOIR = "reservoir"
    LOOK = "what is looked at"


Loaded: TypeAlias = Literal["driver only", "laden", "both", "as tested"]
"""How the car is loaded for it."""


@dataclass(frozen=True, slots=True)
class Slow:
    """At least a deceleration, at most a distance, or both.

    Parameters
    ----------
    least_m_s2 : float or None
        Least deceleration; None when only a distance is given. [m/s2]
    speed_m_s : float or None
        Speed that it is asked from. [m/s]
    most_distance_m : float or None
        Longest stop from that speed. [m]
    of_top_speed : float
        The share of the car's top speed that it is asked from, where that is less than
        ``speed_m_s``; 0 for none. [-]
    """

    least_m_s2: float | None
    speed_m_s: float | None = None
    most_distance_m: float | None = None
    of_top_speed: float = 0.0

    @property
    def steady_m_s2(self) -> float:
        """The deceleration asked for, or the steady one whose stop just takes the distance.

        0.36 s go by before it, as the newer rules have it.
        """
        if self.least_m_s2 is not None:
            return self.least_m_s2
        assert self.speed_m_s is not None  # noqa: S101 - one of the two is always there
        assert self.most_distance_m is not None  # noqa: S101
        run = self.most_distance_m - _DELAY_S * self.speed_m_s
        return self.speed_m_s**2 / (2.0 * run)

    def distance_m(self) -> float | None:
        """The longest stop, in metres: as given, or the one that goes with the deceleration."""
        if self.most_distance_m is not None:
            return self.most_distance_m
        if self.speed_m_s is None or self.least_m_s2 is None:
            return None
        return prescribed_stopping_distance(self.speed_m_s, self.least_m_s2)


@dataclass(frozen=True, slots=True)
class Effort:
    """At least a share of the weight.

    Parameters
    ----------
    least : float
        Brake force over weight. [-]
    by_locking : bool
        Whether it counts as met when more than half of the wheels of the system lock.
    """

    least: float
    by_locking: bool = True


@dataclass(frozen=True, slots=True)
class Hold:
    """Hold the car on a slope, both ways.

    Parameters
    ----------
    slope : float or None
        Rise over run; None when the rule names another measure, such as the steepest slope that
        the car climbs. [-]
    minutes : float
        How long; 0 where nothing is said. [min]
    with_trailer : bool
        Whether it holds an unbraked trailer too.
    """

    slope: float | None
    minutes: float = 0.0
    with_trailer: bool = False


@dataclass(frozen=True, slots=True)
class Hot:
    """At least a share of what was prescribed, and of what was reached cold; at most a share.

    Parameters
    ----------
    of_cold : float
        Least share of the deceleration reached cold. [-]
    least_m_s2 : float
        Least deceleration; 0 for none. [m/s2]
    most_of_cold : float
        Most share of it; 0 for none. [-]
    """

    of_cold: float
    least_m_s2: float = 0.0
    most_of_cold: float = 0.0


@dataclass(frozen=True, slots=True)
class Adhesion:
    """While an axle uses an adhesion k within a span, decelerate at least by a line in it.

    Parameters
    ----------
    slope : float
        The line is z = 0.1 + slope (k - 0.2). [-]
    from_k, to_k : float
        Where it is asked. [-]
    gravity_m_s2 : float
        What the rule takes gravity to be. [m/s2]
    """

    slope: float
    from_k: float = 0.2
    to_k: float = 0.8
    gravity_m_s2: float = ANNEX_GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class LockOrder:
    """The rear axle never uses more adhesion than the front, over a span of decelerations.

    Parameters
    ----------
    from_z, to_z : float
        Where it is asked. [-]
    crossing : tuple of float or None
        From, to, and by how much: between these decelerations the rear may use more than the
        front if it stays within that much above k = z. None for no exception. [-]
    or_band : float
        Met as well when both axles stay within this much of k = z; 0 for no such way. [-]
    gravity_m_s2 : float
        What the rule takes gravity to be. [m/s2]
    """

    from_z: float
    to_z: float
    crossing: tuple[float, float, float] | None = None
    or_band: float = 0.0
    gravity_m_s2: float = ANNEX_GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class Even:
    """The weaker wheel of an axle pulls at least a share of the stronger.

    Parameters
    ----------
    least : float
        Weaker over stronger. [-]
    steered_only : bool
        Whether it is asked of steered axles only.
    left_aside_below_n : float
        Left aside when the stronger wheel pulls no more than this. [N]
    """

    least: float
    steered_only: bool = False
    left_aside_below_n: float = 40.0 * GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class Volume:
    """Each compartment of the reservoir holds what its pistons take from new linings to worn."""


@dataclass(frozen=True, slots=True)
class Look:
    """Something to be looked at, which no calculation settles."""


Asks: TypeAlias = Slow | Effort | Hold | Hot | Adhesion | LockOrder | Even | Volume | Look
"""What a yardstick asks for."""


@dataclass(frozen=True, slots=True)
class Forces:
    """What foot and hand may do, in newtons; 0 where nothing is said."""

    least_foot_n: float = 0.0
    most_foot_n: float = 0.0
    most_hand_n: float = 0.0


@dataclass(frozen=True, slots=True)
class Yardstick:
    """A published requirement.

    Parameters
    ----------
    id : str
        Short name, kept for ever.
    family : str
        The regulation it belongs to, as people call it.
    jurisdiction : str
        Where it comes from.
    subject : Subject
        What it is about.
    words : str
        What it asks, in a sentence.
    asks : Asks
        The same as figures.
    source_id, clause, edition : str
        Where it stands, and which text of it is meant.
    mark : str
        How far that was read.
    load : str
        How the car is loaded for it.
    forces : Forces
        What foot and hand may do.
    used_from, used_before : date or None
        First use of the cars that it is meant for: on or after, and before.
    note : str
        What to beware of.
    """

    id: str
    family: str
    jurisdiction: str
    subject: Subject
    words: str
    asks: Asks
    source_id: str
    clause: str
    edition: str
    mark: Mark
    load: Loaded = "both"
    forces: Forces = Forces()
    used_from: date | None = None
    used_before: date | None = None
    note: str = ""

    @property
    def title(self) -> str:
        """The published title of what it stands in."""
        return source(self.source_id).title

    def cite(self) -> str:
        """Say where it stands, its edition, and how far that was read."""
        return f"{self.title}, {self.clause} ({self.edition}; {self.mark})"
