"""The brakes as built beside those of the standard car, and which departure explains what."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.calc.values import Value

__all__ = ["Because", "Comparison", "Difference"]


@dataclass(frozen=True, slots=True)
class Because:
    """What one departure does to one figure.

    Parameters
    ----------
    departure : str
        Id of the departure; empty for parts that differ without one.
    parts : tuple of str
        Ids of the parts and lines that it changed.
    words : str
        What it is, to a person.
    change : float or array
        What the figure does when the standard car is given this departure alone. [of the figure]
    """

    departure: str
    parts: tuple[str, ...]
    words: str
    change: Value


@dataclass(frozen=True, slots=True)
class Difference:
    """One figure of both systems.

    Parameters
    ----------
    key : str
        Short and steady: ``force for 0.6 g, driver only``.
    words : str
        What it is, to a person.
    quantity : str
        What it measures, as in `bareshell.model.brake.Field.quantity`: ``force``, ``length`` ...
    built, standard : float or array
        In SI units; not a number where it is not reached.
    change : float or array
        Built less standard.
    because : tuple of Because
        The departures, the one that does most first.
    together : float or array
        What of the change is left when the departures' own changes are taken off: what they do
        only together.
    """

    key: str
    words: str
    quantity: str
    built: Value
    standard: Value
    change: Value
    because: tuple[Because, ...]
    together: Value


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two systems side by side.

    Parameters
    ----------
    built, standard : str
        Their ids.
    rows : tuple of Difference
        Figure by figure.
    words : tuple of str
        What changed in words: circuits, layout, which axle locks first.
    not_worked_out : tuple of str
        What could not be compared, and what it needs.
    """

    built: str
    standard: str
    rows: tuple[Difference, ...]
    words: tuple[str, ...]
    not_worked_out: tuple[str, ...]
