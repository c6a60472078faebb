"""What has gone wrong: edits to a brake system, one or several at a time.

A state is a set of edits. Nothing here knows what an edit does to the pedal: the graph is edited
and solved again, so that no layout is a special case.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

__all__ = [
    "WHOLE",
    "AirIn",
    "Blanked",
    "CableBroken",
    "Edit",
    "Leak",
    "SealGone",
    "ServoDead",
    "ShuttleTripped",
    "State",
    "ValveStuck",
]


@dataclass(frozen=True, slots=True, order=True)
class Leak:
    """Fluid is lost at a line, a joint or a part, and whatever it can reach runs dry.

    Parameters
    ----------
    element : str
        Id of a line, of a joint (``line-0`` or ``line-1``) or of a part.
    chamber : str
        Which chamber of the part; every one of them when it is empty.
    """

    element: str
    chamber: str = ""


@dataclass(frozen=True, slots=True, order=True)
class SealGone:
    """A piston's seal lets fluid past inside: no pressure is held, no fluid is lost.

    Parameters
    ----------
    part : str
        Id of a master cylinder.
    chamber : str
        The chamber that no longer holds.
    """

    part: str
    chamber: str


@dataclass(frozen=True, slots=True, order=True)
class AirIn:
    """Air has come into a circuit: the pedal goes further for the same pressure.

    Parameters
    ----------
    part, chamber : str
        The master cylinder's chamber that feeds it.
    volume_m3 : float
        How much there is with the pedal up, on top of what is always left. [m3]
    """

    part: str
    chamber: str
    volume_m3: float


@dataclass(frozen=True, slots=True, order=True)
class Blanked:
    """A line is closed at the end where fluid comes from: nothing flows, nothing is lost."""

    line: str


@dataclass(frozen=True, slots=True, order=True)
class ServoDead:
    """A servo gives nothing; every servo at once (no vacuum) when no part is named."""

    part: str = ""


@dataclass(frozen=True, slots=True, order=True)
class ValveStuck:
    """A valve no longer moves: open and doing nothing, shut, or shut at its knee."""

    valve: str
    how: Literal["open", "shut", "at its knee"]


@dataclass(frozen=True, slots=True, order=True)
class ShuttleTripped:
    """A pressure-difference shuttle stands to one side, as bleeding can leave it."""

    part: str


@dataclass(frozen=True, slots=True, order=True)
class CableBroken:
    """A cable of the parking brake is broken: to the left wheel, the right one, or both."""

    side: Literal["left", "right", "both"]


Edit: TypeAlias = (
    Leak | SealGone | AirIn | Blanked | ServoDead | ValveStuck | ShuttleTripped | CableBroken
)


@dataclass(frozen=True, slots=True)
class State:
    """Everything that has gone wrong at once.

    Examples
    --------
    >>> State.of(Leak("rear-pipe"), ServoDead()) == State.of(ServoDead(), Leak("rear-pipe"))
    True
    >>> WHOLE.edits
    frozenset()
    """

    edits: frozenset[Edit] = frozenset()

    @classmethod
    def of(cls, *edits: Edit) -> State:
        """Make a state of some edits; their order says nothing."""
        return cls(frozenset(edits))

    def also(self, other: State) -> State:
        """Both at once."""
        return State(self.edits | other.edits)


WHOLE: Final = State()
"""Nothing has gone wrong."""
