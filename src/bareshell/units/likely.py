"""Notice a slip of units: a figure in psi written as bar, a diameter written as a radius.

A value outside its likely range is not refused, since old cars are odd. It is asked about, and
the units that would bring the same figure within range are named.
"""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.errors import Problem
from bareshell.units.reading import Reading
from bareshell.units.show import METRIC, Preference, show_in
from bareshell.units.tables import QUANTITIES, QuantityName

__all__ = ["LikelyRange", "ask_if_unlikely"]

# What a figure is written in by mistake: the units in daily use, not every unit there is.
_DAILY: dict[QuantityName, tuple[str, ...]] = {
    "length": ("mm", "in", "cm", "m", "ft", "thou"),
    "pressure": ("bar", "psi", "kPa", "MPa", "kgf/cm2"),
    "torque": ("N.m", "lbf.ft", "lbf.in", "kgf.m", "kgf.cm"),
    "volume": ("ml", "l", "UK pint", "US pint"),
    "mass": ("kg", "g", "lb", "oz"),
    "force": ("N", "kgf", "lbf"),
    "speed": ("km/h", "mph", "m/s"),
}


@dataclass(frozen=True, slots=True)
class LikelyRange:
    """Where a measurement of this kind usually lies.

    Parameters
    ----------
    low, high : float
        The ends, in SI.
    source : str
        A source id, or ``"trade-practice"``.
    """

    low: float
    high: float
    source: str = "trade-practice"

    def holds(self, si: float) -> bool:
        """Whether a value lies within it, ends included."""
        return self.low <= si <= self.high


def ask_if_unlikely(
    reading: Reading,
    quantity: QuantityName,
    likely: LikelyRange,
    field: str,
    preference: Preference = METRIC,
) -> Problem | None:
    """Ask about a value outside its likely range; say nothing about one within it.

    Parameters
    ----------
    reading : Reading
        What was typed, from `read_quantity`.
    quantity : str
        The kind of quantity.
    likely : LikelyRange
        Where such a value usually lies.
    field : str
        The field's name.
    preference : Preference
        The owner's units, for the range in the question.

    Returns
    -------
    Problem or None
        A doubtful value, with what it may have been meant as.

    Examples
    --------
    >>> from bareshell.units.reading import read_quantity
    >>> typed = read_quantity("1000 bar", "pressure", "line pressure")
    >>> question = ask_if_unlikely(typed, "pressure", LikelyRange(0, 2e7), "line pressure")
    >>> print(question.describe())
    line pressure: '1000 bar' is outside the usual 0 bar to 200 bar. Was 1000 psi or 1000 kPa
    meant? Otherwise, if 1000 bar is right, keep it.
    """
    if likely.holds(reading.si):
        return None
    mark = getattr(preference, quantity)
    usual = f"{show_in(likely.low, quantity, mark)} to {show_in(likely.high, quantity, mark)}"
    by_mark = {unit.mark: unit.si for unit in QUANTITIES[quantity].units}
    meant = [
        each
        for each in _DAILY[quantity]
        if each != reading.mark and likely.holds(reading.figure * by_mark[each])
    ]
    question = _question([f"{reading.figure:g} {each}" for each in meant[:3]])
    return Problem(
        field,
        f"'{reading.typed}' is outside the usual {usual}",
        f"{question}if {reading.typed} is right, keep it",
        "doubtful",
    )


def _question(meant: list[str]) -> str:
    if not meant:
        return ""
    named = " or ".join(filter(None, (", ".join(meant[:-1]), meant[-1])))
    return f"was {named} meant? Otherwise, "
