"""How the car stands: supports, the zones each one opens, and moving between them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Zone(StrEnum):
    """A place on the car that a job must be able to reach."""

    UNDERNEATH = "underneath"
    WHEEL_ENDS_FRONT = "front wheel ends"
    WHEEL_ENDS_REAR = "rear wheel ends"
    ENGINE_BAY = "engine bay"
    CABIN = "cabin"
    BOOT = "boot"
    DOORS = "doors"
    ROOF = "roof"
    FRONT = "front"
    REAR = "rear"


class Wheels(StrEnum):
    """What a job asks of the wheels, or what a support does with them."""

    HANGING = "hanging"
    LOADED = "loaded"
    EITHER = "either"


class Place(StrEnum):
    """Where a job is done."""

    CAR = "on the car"
    BENCH = "bench"
    DESK = "desk"
    ROAD = "road"
    TEST_STATION = "test station"


class SupportKind(StrEnum):
    """The kinds of support; a lift is not a lift: each kind opens other zones."""

    STANDS = "stands"
    SCISSOR_LIFT = "scissor lift"
    TWO_POST_LIFT = "two-post lift"
    FOUR_POST_LIFT = "four-post lift"
    PIT = "pit"
    WHEELS = "wheels"
    LEVEL_FLOOR = "level floor"
    ROAD = "road"
    TEST_STATION = "test station"


BODY_STATES = ("engine out", "glass out", "doors off", "seats out")
"""What can be off the car while something else is worked on."""


@dataclass(frozen=True, slots=True)
class Support:
    """One way the car can stand in this garage, and what that opens.

    Parameters
    ----------
    id : str
        Short name, unique in the build.
    title : str
        What a person calls it.
    kind : SupportKind
        Its kind; decides the cautions shown with it.
    opens : frozenset of Zone
        The zones that can be worked on while the car stands so.
    wheels : Wheels
        Whether the wheels hang or carry the car.
    level : bool
        Whether the car stands level enough to measure geometry.
    rollable : bool
        Whether the car can be rolled from here.
    """

    id: str
    title: str
    kind: SupportKind
    opens: frozenset[Zone]
    wheels: Wheels
    level: bool = False
    rollable: bool = False


@dataclass(frozen=True, slots=True)
class SupportMove:
    """Taking the car from one support to another: minutes and people.

    What ``off`` names must be off or out for it, what ``not_off`` names must not: a shell whose
    engine is out can be lifted by hand, and a car whose doors are off does not go on the road.
    """

    from_support: str
    to_support: str
    minutes: int
    people: int = 1
    off: frozenset[str] = frozenset()
    not_off: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        """Refuse a move that takes negative time or nobody."""
        if self.minutes < 0:
            raise ValueError(f"a move cannot take {self.minutes} minutes")
        if self.people not in (1, 2):
            raise ValueError(f"a move takes one or two people, not {self.people}")
        if both := self.off & self.not_off:
            raise ValueError(f"a move wants '{min(both)}' both ways; name one of the two")


@dataclass(frozen=True, slots=True)
class Placement:
    """How the car was left at a moment: the support it stands on and what is off it."""

    support: str
    off: frozenset[str] = frozenset()
