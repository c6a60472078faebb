"""What an answer about brakes rests on: figures known, taken as usual, missing, and odd ones."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from bareshell.brakes.entry_checks import check_entry
from bareshell.brakes.figures import Assumed, Gathered
from bareshell.model.brake import BrakeSystem, Line, Part, field_of, fields_of
from bareshell.model.trust import Stated, Trust
from bareshell.units.show import METRIC, Preference
from bareshell.units.show_quantity import show_quantity
from bareshell.whole.brake_parts import AssumedFigure, EntryProblem, MissingFigure, TrustCount


def things_of(system: BrakeSystem) -> dict[str, Part | Line]:
    """Return parts and lines by their ids."""
    found: dict[str, Part | Line] = {part.id: part for part in system.parts}
    found |= {line.id: line for line in system.lines}
    return found


def count_trust(system: BrakeSystem, gathered: Gathered) -> TrustCount:
    """Count how the figures that were gathered are known.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> count_trust(small_car(), gather(small_car())).missing
    0
    """
    usual = {assumed.path for assumed in gathered.assumed}
    stated = stated_at(system)
    counted = Counter(
        stated[path].trust for path in gathered.figures if path in stated and path not in usual
    )
    return TrustCount(
        measured=counted[Trust.MEASURED],
        marked=counted[Trust.MARKED],
        data_sheet=counted[Trust.DATA_SHEET],
        assumed=counted[Trust.ASSUMED],
        usual=len(usual),
        missing=len(gathered.missing),
    )


def stated_at(system: BrakeSystem) -> Mapping[str, Stated]:
    """Return every figure that was stated, by its path."""
    things: tuple[Part | Line, ...] = (*system.parts, *system.lines)
    return {
        f"{thing.id}.{name}": stated for thing in things for name, stated in thing.figures.items()
    }


def quantity_at(things: Mapping[str, Part | Line], path: str) -> str:
    """Return what the figure at a path measures."""
    owner, _, name = path.partition(".")
    thing = things.get(owner)
    if thing is None or name not in fields_of(thing.kind):
        return "ratio"
    return field_of(thing.kind, name).quantity


def assumed_figures(
    system: BrakeSystem, assumed: Iterable[Assumed], preference: Preference = METRIC
) -> tuple[AssumedFigure, ...]:
    """Say what was taken as usual, each with its range and its mark."""
    things = things_of(system)
    found = []
    for each in assumed:
        quantity = quantity_at(things, each.path)
        value, low, high = (
            show_quantity(quantity, figure, preference)
            for figure in (each.value, each.low, each.high)
        )
        found.append(
            AssumedFigure(
                each.path,
                each.words,
                each.value,
                each.low,
                each.high,
                quantity,
                f"{value}, {low} to {high}",
                each.mark,
            )
        )
    return tuple(found)


def missing_figures(gathered: Gathered) -> tuple[MissingFigure, ...]:
    """Say what nothing can stand in for, and how to find it."""
    return tuple(
        MissingFigure(each.path, each.words, each.question, each.purposes)
        for each in gathered.missing
    )


def odd_entries(system: BrakeSystem) -> tuple[EntryProblem, ...]:
    """Say what is odd about the brakes as they were entered."""
    return tuple(
        EntryProblem(
            each.about,
            each.problem.where,
            each.problem.what,
            each.problem.remedy,
            each.problem.severity,
        )
        for each in check_entry(system)
    )
