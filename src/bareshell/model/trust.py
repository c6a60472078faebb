"""How far a stated figure can be trusted, and figures that are not fully known."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Trust(StrEnum):
    """Where a figure comes from; the order is from best to worst."""

    MEASURED = "measured"
    MARKED = "marked on the part"
    DATA_SHEET = "data sheet"
    ASSUMED = "assumed"


COMMON_PRACTICE = "common practice, no source"
"""The mark of a fact of the trade that no published source was read for."""

YOURS = "yours"
"""The mark of a figure that the owner of the build wrote or changed."""


@dataclass(frozen=True, slots=True)
class Stated:
    """One figure in SI units with its trust and, where it is not exact, its range.

    Parameters
    ----------
    value : float
        The figure. [SI unit of the field that holds it]
    trust : Trust
        Where it comes from.
    low, high : float or None
        The range that is believed; None when the value is taken as exact.

    Examples
    --------
    >>> Stated(0.019, Trust.ASSUMED, 0.0185, 0.0195).low
    0.0185
    """

    value: float
    trust: Trust = Trust.ASSUMED
    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        """Hold the range around the value."""
        if self.low is not None and self.low > self.value:
            raise ValueError(f"the range starts at {self.low}, above the value {self.value}")
        if self.high is not None and self.high < self.value:
            raise ValueError(f"the range ends at {self.high}, below the value {self.value}")


@dataclass(frozen=True, slots=True)
class ThreePoint:
    """A duration in three figures: if all goes well, most likely, if it goes badly.

    Examples
    --------
    >>> ThreePoint(1, 2, 4).likely_hours
    2
    """

    optimistic_hours: float
    likely_hours: float
    pessimistic_hours: float

    def __post_init__(self) -> None:
        """Refuse hours that are negative or out of order."""
        if self.optimistic_hours < 0:
            raise ValueError(f"hours must not be negative, and {self.optimistic_hours} is")
        if not self.optimistic_hours <= self.likely_hours <= self.pessimistic_hours:
            raise ValueError(
                "hours must rise from optimistic through likely to pessimistic, and "
                f"{self.optimistic_hours}, {self.likely_hours}, {self.pessimistic_hours} do not"
            )
