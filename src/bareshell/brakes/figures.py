"""Every figure that the solve reads of a system: known, taken as usual, or missing.

Nothing is put in without a word. What is known comes from the system; what has a usual value is
taken from `bareshell.brakes.assumed` and listed; what has none is a question. Overrides, samples
and sensitivities all go by the same paths: ``part-id.figure_name``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeAlias

from bareshell.brakes.assumed import rests_on, usual
from bareshell.brakes.needs import needs_of, word_needs_of
from bareshell.calc.values import Value
from bareshell.errors import BadInput, Problem
from bareshell.model.brake import BrakeSystem, field_of
from bareshell.model.trust import Trust

__all__ = ["Assumed", "Figures", "Gathered", "InputRange", "Missing", "gather", "ranges"]

Figures: TypeAlias = Mapping[str, Value]
"""Path to figure, in SI units: a float, or an array of samples."""


@dataclass(frozen=True, slots=True)
class Assumed:
    """A figure that nobody stated, and what it was taken to be.

    Parameters
    ----------
    path : str
        ``part-id.figure_name``.
    words : str
        What it is, and of which part.
    value, low, high : float
        What it was taken to be, and how far it may be off. [SI]
    mark : str
        Where that is from.
    """

    path: str
    words: str
    value: float
    low: float
    high: float
    mark: str


@dataclass(frozen=True, slots=True)
class Missing:
    """A figure or word that nobody stated and that nothing can stand in for.

    Parameters
    ----------
    path : str
        ``part-id.figure_name``, ``part-id.choice_name`` or a kind of part.
    words : str
        What it is, and of which part.
    question : str
        How to find it.
    purposes : tuple of str
        What is not worked out without it, among `bareshell.brakes.needs.PURPOSES`.
    """

    path: str
    words: str
    question: str
    purposes: tuple[str, ...]

    def problem(self) -> Problem:
        """The same as a problem with a place."""
        return Problem(self.words, "is not known", self.question)


@dataclass(frozen=True, slots=True)
class Gathered:
    """All figures of a system that the solve may read.

    Parameters
    ----------
    figures : mapping of str to float
        By path, known and assumed alike.
    assumed : tuple of Assumed
        Those among them that nobody stated.
    missing : tuple of Missing
        Those that are not among them.
    """

    figures: Mapping[str, float]
    assumed: tuple[Assumed, ...]
    missing: tuple[Missing, ...]

    def missing_for(self, *purposes: str) -> tuple[Missing, ...]:
        """What stands in the way of some purposes."""
        return tuple(each for each in self.missing if set(purposes) & set(each.purposes))

    def asked_for(self, *purposes: str) -> Figures:
        """Return the figures, or refuse with everything that these purposes still need.

        Raises
        ------
        BadInput
            Naming each figure that is missing and how to find it.
        """
        missing = self.missing_for(*purposes)
        if missing:
            raise BadInput.together([each.problem() for each in missing])
        return self.figures


@dataclass(frozen=True, slots=True)
class InputRange:
    """One input with the range it may lie in, for drawing samples.

    Parameters
    ----------
    path, words : str
        As for `Assumed`.
    low, value, high : float
        In SI units; all three alike when it is taken as exact.
    trust : Trust
        Where it comes from.
    """

    path: str
    words: str
    low: float
    value: float
    high: float
    trust: Trust


def gather(system: BrakeSystem) -> Gathered:
    """Collect every figure that the solve reads.

    Parameters
    ----------
    system : BrakeSystem
        As entered; it may be half finished.

    Returns
    -------
    Gathered
        Known and assumed figures, and what is missing.

    Examples
    --------
    >>> from bareshell.model.brake import Part, PartKind
    >>> from bareshell.model.trust import Stated
    >>> pedal = Part("pedal", "brake pedal", PartKind.PEDAL, figures={"ratio": Stated(5.0)})
    >>> found = gather(BrakeSystem("x", "x", parts=(pedal,)))
    >>> found.figures["pedal.ratio"], found.figures["pedal.efficiency"]
    (5.0, 0.9)
    >>> [each.words for each in found.assumed][0]
    'efficiency of the pedal and its pivots (brake pedal)'
    >>> [each.path for each in found.missing]
    ['car', 'master cylinder', 'fluid']
    """
    figures: dict[str, float] = {}
    assumed: list[Assumed] = []
    missing = [
        Missing(each.path, each.words, each.question, each.purposes)
        for each in word_needs_of(system)
    ]
    of_owner: dict[str, dict[str, float]] = {}
    for need in needs_of(system):
        owner = need.owner
        known = of_owner.setdefault(
            owner.id, {name: stated.value for name, stated in owner.figures.items()}
        )
        if need.name in owner.figures:
            figures[need.path] = owner.figures[need.name].value
            continue
        words = f"{field_of(owner.kind, need.name).words} ({owner.title})"
        found = usual(owner, need.name, known)
        if found is None:
            base = rests_on(owner.kind.value, need.name)
            if base and base not in known:
                continue  # what it goes with is asked for already
            missing.append(Missing(need.path, words, need.how, need.purposes))
            continue
        figures[need.path] = known[need.name] = found.value
        assumed.append(Assumed(need.path, words, found.value, found.low, found.high, found.mark))
    return Gathered(MappingProxyType(figures), tuple(assumed), tuple(missing))


def ranges(system: BrakeSystem, gathered: Gathered) -> tuple[InputRange, ...]:
    """Say in which range every gathered figure may lie.

    Parameters
    ----------
    system : BrakeSystem
        The same that was gathered.
    gathered : Gathered
        From `gather`.

    Returns
    -------
    tuple of InputRange
        In the order they were gathered.

    Examples
    --------
    >>> from bareshell.model.brake import Part, PartKind
    >>> from bareshell.model.trust import Stated
    >>> ratio = Stated(5.0, Trust.MEASURED, 4.9, 5.1)
    >>> pedal = Part("pedal", "brake pedal", PartKind.PEDAL, figures={"ratio": ratio})
    >>> system = BrakeSystem("x", "x", parts=(pedal,))
    >>> first = ranges(system, gather(system))[0]
    >>> first.path, first.low, first.high, first.trust
    ('pedal.ratio', 4.9, 5.1, <Trust.MEASURED: 'measured'>)
    """
    by_path = {each.path: each for each in gathered.assumed}
    found: list[InputRange] = []
    for need in needs_of(system):
        if need.path in by_path:
            taken = by_path[need.path]
            found.append(
                InputRange(
                    taken.path, taken.words, taken.low, taken.value, taken.high, Trust.ASSUMED
                )
            )
        elif need.name in need.owner.figures:
            stated = need.owner.figures[need.name]
            words = f"{field_of(need.owner.kind, need.name).words} ({need.owner.title})"
            low = stated.value if stated.low is None else stated.low
            high = stated.value if stated.high is None else stated.high
            found.append(InputRange(need.path, words, low, stated.value, high, stated.trust))
    return tuple(found)


def overridden(figures: Figures, changes: Iterable[tuple[str, Value]]) -> Figures:
    """Return figures with some of them replaced; every path must be there already.

    Raises
    ------
    BadInput
        When a path is none of theirs.
    """
    changed = dict(figures)
    for path, value in changes:
        if path not in changed:
            raise BadInput(path, "is none of the figures that are read", "look at its spelling")
        changed[path] = value
    return MappingProxyType(changed)
