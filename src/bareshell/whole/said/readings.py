"""Figures held against what a proof asks: in its own unit, within its limits or not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.model.proof import Limit, Proof, ProofKind, Reading
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.figures import Figure, Measure, unit_named

TIMES: Final = {"s": 1.0, "min": 60.0, "h": 3600.0}
"""Units in which a limit may be a length of time, in seconds."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A figure as it was said and in the limit's own unit."""

    limit: Limit
    value: float
    said: str
    meets: bool

    @property
    def reading(self) -> Reading:
        """The figure as it is recorded, in the unit in which the limit is written."""
        return Reading(self.limit.quantity, self.value, self.limit.unit)


def in_unit(value: float, unit: str, wanted: str) -> float | None:
    """Bring a figure into another unit of the same quantity, or return None.

    Examples
    --------
    >>> in_unit(190, "lbf.ft", "N.m"), in_unit(1, "bar", "N.m")
    (257.6, None)
    """
    if unit == wanted:
        return value
    here, there = unit_named(unit), unit_named(wanted)
    if here is None or there is None or here[0] != there[0]:
        return None
    return float(f"{value * here[1] / there[1]:.4g}")


def fits(proof: Proof, figure: Figure) -> bool:
    """Whether a figure is of the sort that a proof reads."""
    if any(in_unit(figure.value, figure.unit, limit.unit) is not None for limit in proof.limits):
        return True
    own = {ProofKind.TORQUE: "torque", ProofKind.HELD_PRESSURE: "pressure"}.get(proof.kind)
    return own == figure.quantity and not proof.limits


def time_limit(proof: Proof) -> Limit | None:
    """Return the limit of a proof that is a length of time, if it has one."""
    return next((limit for limit in proof.limits if limit.unit in TIMES), None)


def taken_from(clause: Clause, proof: Proof) -> tuple[list[Taken], list[Figure]]:
    """Hold each figure against the limit of its own quantity; strange ones have none."""
    taken: list[Taken] = []
    strange: list[Figure] = []
    for figure in clause.of(Measure.QUANTITY):
        for limit in proof.limits:
            value = in_unit(figure.value, figure.unit, limit.unit)
            if value is not None:
                said = f"{figure.value:g} {figure.unit}"
                if figure.unit != limit.unit:
                    said += f" = {value:g} {limit.unit}"
                taken.append(Taken(limit, value, said, limit.admits(value)))
                break
        else:
            if proof.limits:
                strange.append(figure)
            elif fits(proof, figure):
                limit = Limit(figure.quantity, figure.unit)
                said = f"{figure.value:g} {figure.unit}"
                taken.append(Taken(limit, figure.value, said, True))
    return taken, strange
