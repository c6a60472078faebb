"""Parts with ports, lines between ports, and the brake system they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from bareshell.model.brake.fields import choices_of, fields_of
from bareshell.model.brake.kinds import LineKind, PartKind, Wheel
from bareshell.model.trust import Stated


class Role(StrEnum):
    """What a brake system stands for."""

    AS_BUILT = "as built"
    STANDARD = "standard"
    IDEA = "idea"


@dataclass(frozen=True, slots=True)
class Fitting:
    """One side of a joint. An empty word is not known, which is a question to ask.

    Parameters
    ----------
    thread : str
        As the trade writes it: ``M10x1``, ``3/8-24 UNF``.
    sex : str
        ``male`` or ``female``.
    seat : str
        What it seals on: ``45 degree``, ``convex``, ``washer``.
    flare : str
        Of a pipe's end: ``double 45 degree``, ``convex single``.

    Examples
    --------
    >>> Fitting("M10x1", "male", flare="double 45 degree").thread
    'M10x1'
    """

    thread: str = ""
    sex: str = ""
    seat: str = ""
    flare: str = ""


@dataclass(frozen=True, slots=True)
class Port:
    """An opening of a part.

    Parameters
    ----------
    name : str
        Short, within the part: ``in``, ``out``, ``bleed``.
    chamber : str
        Ports of one chamber are joined inside the part: a tee has one chamber, a tandem cylinder
        ``primary`` and ``floating``, a caliper fed by two circuits ``a`` and ``b``.
    bleeds : bool
        True for a bleed screw.
    at_top : bool or None
        Whether it is the highest opening of its chamber as fitted; None when nobody looked.
    fitting : Fitting
        The part's side of the joint, or the bleed screw's thread.
    """

    name: str
    chamber: str = ""
    bleeds: bool = False
    at_top: bool | None = None
    fitting: Fitting = Fitting()


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the brakes.

    Parameters
    ----------
    id, title : str
        Short name, and what its owner calls it.
    kind : PartKind
        What it is.
    wheel : Wheel or None
        The wheel it stands at.
    at_m : tuple of float or None
        Where it is seen from above: metres behind the front axle, metres right of the middle. [m]
    figures : mapping of str to Stated
        What is known, in SI, by the names that `fields_of` gives.
    choices : mapping of str to str
        What was chosen, by the names that `choices_of` gives.
    ports : tuple of Port
        Its openings.
    departure : str
        The departure from standard that brought it; empty when it is standard.
    """

    id: str
    title: str
    kind: PartKind
    wheel: Wheel | None = None
    at_m: tuple[float, float] | None = None
    figures: Mapping[str, Stated] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)
    ports: tuple[Port, ...] = ()
    departure: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Hold names to the tables; a figure nobody reads would be lost without a word."""
        _known_names(self.id, self.kind, self.figures, self.choices)
        names = [port.name for port in self.ports]
        for name in names:
            if not name or names.count(name) > 1:
                raise ValueError(
                    f"part {self.id}: every port needs a name of its own, not {name!r}"
                )

    def port(self, name: str) -> Port:
        """Return a port by its name.

        Raises
        ------
        KeyError
            When there is none.
        """
        for port in self.ports:
            if port.name == name:
                return port
        raise KeyError(name)


@dataclass(frozen=True, slots=True)
class LineEnd:
    """One end of a line: the port it is screwed to, or nowhere yet, and its own fitting."""

    part: str = ""
    port: str = ""
    fitting: Fitting = Fitting()


@dataclass(frozen=True, slots=True)
class Line:
    """A pipe, a hose, or two parts screwed straight together.

    Parameters
    ----------
    id, title : str
        Short name, and what its owner calls it.
    kind : LineKind
        What it is.
    ends : tuple of two LineEnd
        From and to; the order says nothing about flow.
    figures, choices : mapping
        As for a part.
    route_m : tuple of (float, float)
        Points between its ends, seen from above, as ``Part.at_m``. [m]
    departure : str
        As for a part.
    """

    id: str
    title: str
    kind: LineKind
    ends: tuple[LineEnd, LineEnd]
    figures: Mapping[str, Stated] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)
    route_m: tuple[tuple[float, float], ...] = ()
    departure: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """See ``Part``."""
        _known_names(self.id, self.kind, self.figures, self.choices)


@dataclass(frozen=True, slots=True)
class BrakeSystem:
    """The brakes of a car: as built, as standard, or an idea to try.

    Examples
    --------
    >>> BrakeSystem("standard", "As it left the works", Role.STANDARD).parts
    ()
    """

    id: str
    title: str
    role: Role = Role.AS_BUILT
    parts: tuple[Part, ...] = ()
    lines: tuple[Line, ...] = ()
    mark: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Every part and line has an id of its own."""
        ids = [part.id for part in self.parts] + [line.id for line in self.lines]
        for name in ids:
            if not name or "." in name:
                raise ValueError(f"{name!r} cannot name a part or line; use letters and hyphens")
        if len(set(ids)) < len(ids):
            twice = next(name for name in ids if ids.count(name) > 1)
            raise ValueError(f"two parts or lines are called {twice}; give one another id")

    def part(self, part_id: str) -> Part:
        """Return a part by its id.

        Raises
        ------
        KeyError
            When there is none.
        """
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    def line(self, line_id: str) -> Line:
        """Return a line by its id.

        Raises
        ------
        KeyError
            When there is none.
        """
        for line in self.lines:
            if line.id == line_id:
                return line
        raise KeyError(line_id)

    def of_kind(self, *kinds: PartKind) -> tuple[Part, ...]:
        """Return the parts of some kinds, in the order they were entered."""
        return tuple(part for part in self.parts if part.kind in kinds)


def _known_names(
    owner: str,
    kind: PartKind | LineKind,
    figures: Mapping[str, Stated],
    choices: Mapping[str, str],
) -> None:
    fields = fields_of(kind)
    for name, stated in figures.items():
        if name not in fields:
            known = ", ".join(fields) or "none"
            raise ValueError(f"{owner}: a {kind} has no figure {name!r}; it may have {known}")
        fields[name].check(owner, stated)
    open_choices = choices_of(kind)
    for name, chosen in choices.items():
        if name not in open_choices:
            known = ", ".join(open_choices) or "none"
            raise ValueError(f"{owner}: a {kind} has no choice {name!r}; it may have {known}")
        open_choices[name].check(owner, chosen)
