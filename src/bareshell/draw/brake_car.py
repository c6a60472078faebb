"""What the car plan is drawn from: parts with places, lines with ways, and what has failed.

Places are metres behind the front axle and metres right of the middle, as a brake system keeps
them. `bareshell.draw.brake_places` fills this in from a brake system; a test or an idea may fill
it in by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from bareshell.draw.brake_sheet import Point, listed

WHEELS: Final = ("front left", "front right", "rear left", "rear right")
_STYLES: Final = ("cased line", "long dashes", "dash and dot", "short dashes")
_TAGS: Final = ("ring", "square", "triangle", "diamond")


def style_words(circuit: int) -> str:
    """How the lines of a circuit are drawn, in words.

    Examples
    --------
    >>> style_words(1), style_words(3), style_words(0)
    ('cased line, ring', 'dash and dot, triangle', 'dots')
    """
    if circuit < 1:
        return "dots"
    index = min(circuit, len(_STYLES)) - 1
    return f"{_STYLES[index]}, {_TAGS[index]}"


@dataclass(frozen=True, slots=True)
class PlanPart:
    """One part in its place.

    Parameters
    ----------
    id, title : str
        Its short name, and what its owner calls it.
    kind, form : str
        As the model has them: ``caliper``, ``sliding``.
    at_m : Point
        Metres behind the front axle, metres right of the middle. [m]
    name : str
        What the margin calls it; empty for no words in the margin, as for a small tee.
    notes : tuple of str
        Lines under its name.
    wheel : str
        ``front left`` and so on; empty when it belongs to none. Words of one wheel stand together.
    diameter_m : float or None
        Of a disc or drum. [m]
    by_habit : bool
        True when nobody entered its place and it stands where such a part usually does.
    removed : bool
        True for a part of the standard car that was taken off.
    """

    id: str
    title: str
    kind: str
    at_m: Point
    form: str = ""
    name: str = ""
    notes: tuple[str, ...] = ()
    wheel: str = ""
    diameter_m: float | None = None
    by_habit: bool = False
    removed: bool = False


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One line in its place.

    Parameters
    ----------
    id, title : str
        Its short name, and what its owner calls it.
    kind : str
        ``pipe``, ``hose`` or ``screwed straight in``.
    ends : tuple of two (str, str)
        Part and chamber at each end; an empty part is an end that reaches nothing yet.
    route_m : tuple of Point
        Points between the ends. [m]
    circuit : int
        Number of its circuit from 1; 0 when none reaches it.
    flows : int
        1 when fluid pressed out of the cylinder runs from the first end to the second, -1 the
        other way, 0 when nobody can say.
    notes : tuple of str
        Lines for the margin when the line is named there.
    named : bool
        Whether the margin names it although nothing has failed.
    """

    id: str
    title: str
    kind: str
    ends: tuple[tuple[str, str], tuple[str, str]]
    route_m: tuple[Point, ...] = ()
    circuit: int = 0
    flows: int = 0
    notes: tuple[str, ...] = ()
    named: bool = False


@dataclass(frozen=True, slots=True)
class PlanCircuit:
    """One circuit: its number from 1, its name and the wheels it reaches."""

    number: int
    title: str
    wheels: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """Where it goes and how it is drawn."""
        reaches = f"reaches {listed(self.wheels)}" if self.wheels else "reaches no wheel"
        name = f"Circuit {self.number}, {self.title}" if self.title else f"Circuit {self.number}"
        return f"{name}, drawn as {style_words(self.number)}, {reaches}."


@dataclass(frozen=True, slots=True)
class PlanFailure:
    """What the car is shown with.

    Parameters
    ----------
    sentence : str
        The result in a full sentence: what failed and what is left.
    elements : mapping of str to str
        What happened to each failed part, line or joint (``rear-pipe-0``), by its id: ``burst``,
        ``stuck shut``. Empty when it is nothing that is drawn.
    lost_circuits : tuple of int
        Circuits without pressure.
    wheel_words : mapping of str to str
        What each wheel does now, in a word or two.
    without_brake : tuple of str
        Wheels that no brake holds; they are hatched and say so.
    """

    sentence: str
    elements: Mapping[str, str] = field(default_factory=dict)
    lost_circuits: tuple[int, ...] = ()
    wheel_words: Mapping[str, str] = field(default_factory=dict)
    without_brake: tuple[str, ...] = ()


WHOLE: Final = PlanFailure("")
"""Nothing has failed."""


@dataclass(frozen=True, slots=True)
class BleedMark:
    """One turn at a bleed screw, or the far end of a leg that no screw empties.

    Parameters
    ----------
    number : int
        Its turn in the order, from 1; 0 for a far end that has to be vented.
    part : str
        The part that the screw or the blank is on.
    words : str
        What to draw there: ``120 ml``.
    """

    number: int
    part: str
    words: str

    @property
    def sign(self) -> str:
        """What stands in its mark: the turn, or a letter for venting."""
        return str(self.number) if self.number else "v"

    @property
    def said(self) -> str:
        """The same in the margin."""
        return f"{self.number or 'vent'}: {self.words}"


@dataclass(frozen=True, slots=True)
class CarPlan:
    """Everything that stands still on the plan of a car.

    Parameters
    ----------
    wheelbase_m, front_track_m, rear_track_m : float
        The car. [m]
    parts : tuple of PlanPart
        In the order the keyboard shall reach them.
    lines : tuple of PlanLine
        The same.
    circuits : tuple of PlanCircuit
        In the order of their numbers.
    pushes : tuple of (str, str)
        Ids of parts joined by a rod: pedal to servo, servo to cylinder.
    tyre_m : float
        Outside diameter of the tyres. [m]
    notes : tuple of str
        Sentences that stand beneath the plan: what is drawn by habit, what could not be drawn.
    """

    wheelbase_m: float
    front_track_m: float
    rear_track_m: float
    parts: tuple[PlanPart, ...]
    lines: tuple[PlanLine, ...] = ()
    circuits: tuple[PlanCircuit, ...] = ()
    pushes: tuple[tuple[str, str], ...] = ()
    tyre_m: float = 0.58
    notes: tuple[str, ...] = ()

    def wheel_at(self, wheel: str) -> Point:
        """Where the middle of a wheel stands, in metres."""
        front = wheel.startswith("front")
        half = (self.front_track_m if front else self.rear_track_m) / 2
        return (0.0 if front else self.wheelbase_m, -half if wheel.endswith("left") else half)
