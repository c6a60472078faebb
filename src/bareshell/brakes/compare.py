"""The brakes as built beside those of the standard car, and which departure explains what.

Each departure is made to the standard system alone, and the system worked out again. What several
departures do only together is told apart from what each does by itself.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.compared import Measure, measured, words_of
from bareshell.brakes.swaps import Swap, swapped, swaps_between
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem

__all__ = ["Because", "Comparison", "Difference", "compare"]

NOTHING: Final = 1e-9
"""A change smaller than this share of the figure is none."""


@dataclass(frozen=True, slots=True)
class Because:
    """What one departure does to one figure.

    Parameters
    ----------
    departure : str
        Its name; empty for parts that differ without one.
    parts : tuple of str
        Ids of the parts and lines that it changed or took away.
    words : str
        What it is, to a person.
    change : float
        What the figure does when the standard car is given this departure alone; not a number
        where it is reached only with it or only without it, or not worked out. [of the figure]
    """

    departure: str
    parts: tuple[str, ...]
    words: str
    change: float


@dataclass(frozen=True, slots=True)
class Difference:
    """One figure of both systems.

    Parameters
    ----------
    key : str
        Short and steady: ``force, driver only``.
    words : str
        What it is, to a person.
    quantity : str
        What it measures, as `bareshell.model.brake.Field.quantity` has it: ``force`` ...
    built, standard : float
        In SI units; not a number where it is not reached or not worked out, and why then stands
        in `Comparison.not_worked_out`.
    change : float
        Built less standard.
    because : tuple of Because
        The departures that change it, the one that does most first.
    together : float
        What of the change is left when the departures' own changes are taken off: what they do
        only together.
    """

    key: str
    words: str
    quantity: str
    built: float
    standard: float
    change: float
    because: tuple[Because, ...]
    together: float


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
        What changed in words: circuits, what a failure leaves, which axle locks first.
    not_worked_out : tuple of str
        What could not be compared, and what it needs.
    """

    built: str
    standard: str
    rows: tuple[Difference, ...]
    words: tuple[str, ...]
    not_worked_out: tuple[str, ...]

    def row(self, key: str) -> Difference:
        """Return a row by its key.

        Raises
        ------
        KeyError
            When there is none.
        """
        for row in self.rows:
            if row.key == key:
                return row
        raise KeyError(key)


def compare(
    built: BrakeSystem,
    standard: BrakeSystem,
    *,
    deceleration_m_s2: float = 4.9,
    pedal_force_n: float = 500.0,
    hand_force_n: float = 400.0,
    friction_of_road: float = 0.8,
) -> Comparison:
    """Put two brake systems side by side.

    Parameters
    ----------
    built, standard : BrakeSystem
        As built, and as the standard car has it.
    deceleration_m_s2 : float
        For which the force of the foot, the front share and the travel are compared. [m/s2]
    pedal_force_n : float
        At which deceleration and failures are compared. [N]
    hand_force_n : float
        At which the parking brake is compared. [N]
    friction_of_road : float
        For which axle locks first. [-]

    Returns
    -------
    Comparison
        Rows with what each departure does to them.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.model.trust import Stated
    >>> standard = small_car()
    >>> master = standard.part("master")
    >>> bigger = replace(
    ...     master,
    ...     departure="bigger cylinder",
    ...     figures={**master.figures, "bore_m": Stated(0.0222)},
    ... )
    >>> built = replace(
    ...     standard, parts=tuple(bigger if p.id == "master" else p for p in standard.parts)
    ... )
    >>> row = compare(built, standard).row("force, driver only")
    >>> row.change > 20.0, row.because[0].departure, round(row.together, 6)
    (True, 'bigger cylinder', 0.0)
    """
    asked = deceleration_m_s2, pedal_force_n, hand_force_n, friction_of_road
    here, there = measured(built, *asked), measured(standard, *asked)
    swaps = swaps_between(built, standard)
    alone = [_alone(standard, built, swap, asked) for swap in swaps]
    rows = tuple(
        _row(key, here.figures[key], there.figures[key], swaps, alone)
        for key in here.figures
        if key in there.figures
    )
    missing = [f"as built, {each}" for each in here.not_worked_out]
    missing += [f"standard, {each}" for each in there.not_worked_out]
    return Comparison(built.id, standard.id, rows, words_of(here, there), tuple(missing))


def _alone(
    standard: BrakeSystem,
    built: BrakeSystem,
    swap: Swap,
    asked: tuple[float, float, float, float],
) -> Mapping[str, Measure]:
    """Work the standard system out with one departure; nothing, where that cannot stand alone."""
    try:
        return measured(swapped(standard, built, swap), *asked).figures
    except BadInput:
        return {}


def _row(
    key: str,
    here: Measure,
    there: Measure,
    swaps: tuple[Swap, ...],
    alone: list[Mapping[str, Measure]],
) -> Difference:
    change = here.value - there.value
    because: list[Because] = []
    explained = 0.0
    for swap, figures in zip(swaps, alone, strict=True):
        found = figures.get(key)
        does = math.nan if found is None else found.value - there.value
        if not math.isnan(does):
            explained += does
            if abs(does) <= NOTHING * max(abs(there.value), 1.0e-12):
                continue
        elif found is not None and math.isnan(found.value) and math.isnan(there.value):
            continue  # not reached, with it or without
        because.append(Because(swap.departure, swap.changed + swap.removed, swap.words, does))
    because.sort(key=lambda each: math.inf if math.isnan(each.change) else -abs(each.change))
    return Difference(
        key,
        here.words,
        here.quantity,
        here.value,
        there.value,
        change,
        tuple(because),
        change - explained,
    )
