"""Which figures and choices each kind of brake part has, and what would be impossible.

The tables of this room are the one place where a figure's name, unit and bounds are said: the
brake file, the form in the browser, what is asked for, and what a figure is assumed to be when
nobody knows it, all go by these names.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from bareshell.model.brake.kinds import LineKind, PartKind
from bareshell.model.brake.tables import CHOICES, FIGURES
from bareshell.model.trust import Stated


@dataclass(frozen=True, slots=True)
class Field:
    """One figure that a kind of part may have.

    Parameters
    ----------
    name : str
        As used in ``Part.figures``, with its SI unit.
    quantity : str
        What it measures: ``length``, ``pressure``, ``share``, ``count`` ...; says how it is typed.
    words : str
        What it is, to a person.
    least, most : float
        Outside these it is impossible. [SI]
    likely_low, likely_high : float
        Outside these it is asked about: a slip of the unit, most often. [SI]
    """

    name: str
    quantity: str
    words: str
    least: float
    most: float
    likely_low: float
    likely_high: float

    def check(self, owner: str, stated: Stated) -> None:
        """Refuse a figure that cannot be, its range included.

        Raises
        ------
        ValueError
            Naming the part, the figure, and what it may be.
        """
        for value in (stated.value, stated.low, stated.high):
            if value is not None:
                self.hold(owner, value)

    def hold(self, owner: str, value: float) -> None:
        """Refuse a bare figure that cannot be; see ``check``."""
        if not self.least <= value <= self.most:
            raise ValueError(
                f"{owner}: {self.words} cannot be {value:g} in SI units; "
                f"it lies between {self.least:g} and {self.most:g}"
            )


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing about a part that is chosen among words, or written freely.

    Parameters
    ----------
    name : str
        As used in ``Part.choices``.
    words : str
        What it is, to a person.
    options : tuple of str
        The words it may be; empty for free words.
    """

    name: str
    words: str
    options: tuple[str, ...]

    def check(self, owner: str, chosen: str) -> None:
        """Refuse a word that is not among the options.

        Raises
        ------
        ValueError
            Naming the part, the choice and its options.
        """
        if self.options and chosen not in self.options:
            listed = ", ".join(self.options)
            raise ValueError(f"{owner}: {self.words} cannot be {chosen!r}; it may be {listed}")


@cache
def fields_of(kind: PartKind | LineKind) -> Mapping[str, Field]:
    """Return the figures that a kind of part may have, by name.

    Examples
    --------
    >>> fields_of(PartKind.PEDAL)["ratio"].words
    'ratio of the pedal'
    """
    return fields_in(FIGURES.get(kind.value, ""))


@cache
def choices_of(kind: PartKind | LineKind) -> Mapping[str, Choice]:
    """Return what may be chosen for a kind of part, by name.

    Examples
    --------
    >>> choices_of(PartKind.CALIPER)["form"].options
    ('fixed', 'sliding')
    """
    return choices_in(CHOICES.get(kind.value, ""))


def field_of(kind: PartKind | LineKind, name: str) -> Field:
    """Return one figure of a kind of part.

    Raises
    ------
    KeyError
        When that kind has no such figure.

    Examples
    --------
    >>> field_of(PartKind.MASTER, "bore_m").quantity
    'length'
    """
    return fields_of(kind)[name]


def fields_in(rows: str) -> Mapping[str, Field]:
    """Read rows of a table of figures: name, quantity, four bounds and words, between bars."""
    found: dict[str, Field] = {}
    for row in rows.strip().splitlines():
        name, quantity, least, most, low, high, words = (cell.strip() for cell in row.split("|"))
        found[name] = Field(
            name, quantity, words, float(least), float(most), float(low), float(high)
        )
    return MappingProxyType(found)


def choices_in(rows: str) -> Mapping[str, Choice]:
    """Read rows of a table of choices: name, options and words, between bars."""
    found: dict[str, Choice] = {}
    for row in rows.strip().splitlines():
        name, options, words = (cell.strip() for cell in row.split("|"))
        listed = tuple(each.strip() for each in options.split(",")) if options else ()
        found[name] = Choice(name, words, listed)
    return MappingProxyType(found)
