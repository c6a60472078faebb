"""In which order the screws are opened: the farthest first, circuit by circuit, or the maker's.

The usual order is read second-hand [S:bleeding-manuals]: the wheel farthest from the cylinder
first. Taking a circuit to its end before the next one is common practice, no source; for a car
split front and rear both come to the same, and for a diagonal split it is the usual order too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from bareshell.brakes.finding import meant
from bareshell.brakes.ways import BleedPoint, Way, Ways
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Wheel

__all__ = ["Placed", "by_distance", "by_maker", "makers_order"]


@dataclass(frozen=True, slots=True)
class Placed:
    """A bleed screw with the way that leads to it."""

    screw: BleedPoint
    way: Way
    length_m: float
    wheel: Wheel | None


def by_distance(
    system: BrakeSystem, ways: Ways, length_of: Callable[[str], float]
) -> tuple[Placed, ...]:
    """Put the screws in order by how far they are from the cylinder.

    A screw that is not at a wheel (of a cylinder or remote servo) comes before the wheels behind
    it. A screw that no cylinder feeds is left out.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    ways : Ways
        Of the same system.
    length_of : callable
        Gives the length of a line by its id. [m]
    """
    circuits: dict[str, list[Placed]] = {}
    for screw in ways.screws:
        way = ways.to(screw.chamber, length_of)
        if way is not None:
            length = sum(length_of(line) for line in way.lines)
            wheel = system.part(screw.part).wheel
            circuits.setdefault(way.circuit, []).append(Placed(screw, way, length, wheel))
    groups = sorted(circuits.values(), key=lambda group: -max(placed.length_m for placed in group))
    return tuple(placed for group in groups for placed in sorted(group, key=_place))


def _place(placed: Placed) -> tuple[int, float]:
    if placed.wheel is None:
        return 0, placed.length_m
    return 1, -placed.length_m


def makers_order(written: str) -> tuple[str, ...]:
    """Split a maker's order as it is written.

    Examples
    --------
    >>> makers_order("rear right, rear left; front right then front left")
    ('rear right', 'rear left', 'front right', 'front left')
    """
    named = re.split(r"\s*(?:,|;|>|\bthen\b)\s*", written)
    return tuple(" ".join(each.split()) for each in named if each.strip())


def by_maker(placed: Sequence[Placed], order: Iterable[str]) -> tuple[Placed, ...]:
    """Put the screws in a maker's order; those it does not name come last, as they were.

    Parameters
    ----------
    placed : sequence of Placed
        From `by_distance`.
    order : iterable of str
        Wheels (``rear right``), parts or screws by their ids.

    Raises
    ------
    BadInput
        When it names something that has no bleed screw.
    """
    left = list(placed)
    found: list[Placed] = []
    for word in order:
        here = [each for each in left if _is_called(each, word)]
        if not here and not any(_is_called(each, word) for each in found):
            known = [wheel.value for wheel in Wheel] + [each.screw.part for each in placed]
            raise BadInput(
                "order of bleeding",
                f"'{word}' has no bleed screw that a cylinder feeds",
                f"{meant(word, known)}name wheels such as 'rear right', or parts by their ids",
            )
        found += here
        left = [each for each in left if each not in here]
    return (*found, *left)


def _is_called(placed: Placed, word: str) -> bool:
    plain = " ".join(word.casefold().replace("-", " ").split())
    wheel = placed.wheel.value if placed.wheel else ""
    turned = " ".join(reversed(wheel.split()))
    named = (placed.screw.part, placed.screw.id, wheel, turned)
    return plain in {name.casefold().replace("-", " ") for name in named if name}
