"""Put figures and choices, as the demo's owner typed them, on brakes that were drawn."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from bareshell.brakes.typed import read_stated
from bareshell.model.brake import BrakeSystem, LineKind, PartKind, fields_of
from bareshell.model.trust import Stated


def stated(system: BrakeSystem, figures: str, choices: str) -> BrakeSystem:
    """Return brakes with figures and choices put on their parts and lines.

    Parameters
    ----------
    system : BrakeSystem
        As drawn; what it says already stays where nothing else is said.
    figures, choices : str
        Rows: id, name, what was typed, between bars.

    Examples
    --------
    >>> from bareshell.model.brake import Part, PartKind
    >>> drawn = BrakeSystem("x", "x", parts=(Part("fluid", "fluid", PartKind.FLUID),))
    >>> done = stated(drawn, "fluid | age_years | 2 years", "fluid | grade | DOT 4")
    >>> done.part("fluid").figures["age_years"].value, done.part("fluid").choices["grade"]
    (2.0, 'DOT 4')
    """
    kinds: dict[str, PartKind | LineKind] = {part.id: part.kind for part in system.parts}
    kinds |= {line.id: line.kind for line in system.lines}
    said: dict[str, dict[str, Stated]] = defaultdict(dict)
    for owner, name, typed in _rows(figures):
        said[owner][name] = read_stated(typed, fields_of(kinds[owner])[name], owner).stated
    chosen: dict[str, dict[str, str]] = defaultdict(dict)
    for owner, name, word in _rows(choices):
        chosen[owner][name] = word
    return replace(
        system,
        parts=tuple(
            replace(
                part,
                figures={**part.figures, **said[part.id]},
                choices={**part.choices, **chosen[part.id]},
            )
            for part in system.parts
        ),
        lines=tuple(
            replace(
                line,
                figures={**line.figures, **said[line.id]},
                choices={**line.choices, **chosen[line.id]},
            )
            for line in system.lines
        ),
    )


def _rows(table: str) -> list[tuple[str, str, str]]:
    found = []
    for row in table.strip().splitlines():
        owner, name, typed = (cell.strip() for cell in row.split("|"))
        found.append((owner, name, typed))
    return found
