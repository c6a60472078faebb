"""How far the answers can be trusted: in how many combinations of the stated ranges they hold.

Every input is drawn evenly from its stated range, many times over, and the whole check is worked
out for each combination. What comes out is a share of combinations, and the worst one spelled out.
"""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.brakes.figures import Figures, InputRange

__all__ = ["Combinations"]


@dataclass(frozen=True, slots=True)
class Combinations:
    """Combinations of figures drawn from their ranges.

    Parameters
    ----------
    figures : mapping of str to float or array
        By path: an array for each figure that has a range, a float for the others.
    varied : tuple of tuple of InputRange
        The inputs that were drawn, one group for each dimension.
    count : int
        How many combinations.
    """

    figures: Figures
    varied: tuple[tuple[InputRange, ...], ...]
    count: int
