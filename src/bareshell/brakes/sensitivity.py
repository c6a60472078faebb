"""What to measure next: which unknown leaves a verdict open most.

The measure is the first-order share of variance, read from the combinations themselves
[S:plischke-2013]: cut them into classes by one unknown and ask how much of the outcome's spread
lies between the classes. That part is what knowing the unknown would settle on average. It counts
what each does by itself; what two do only together is in neither's share.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from bareshell.brakes.unknowns import Unknown

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["MEASURE", "Orders", "Settles", "first_order_shares", "settles"]

MEASURE: Final = "first-order share of variance, from given data (Plischke and others, 2013)"
"""The published measure that ranks the unknowns, in words."""

_TELLS: Final = 0.01
"""A smaller share is not told from none with ten thousand combinations."""

_FEW: Final = 0.05
"""With a smaller share of combinations on one side, the margin tells more than which side."""


@dataclass(frozen=True, slots=True)
class Settles:
    """An unknown, and what of an answer's spread knowing it would take away.

    Parameters
    ----------
    unknown : Unknown
        Which.
    share : float
        Of the spread, 0 to 1. [-]
    of_verdict : bool
        True for the spread of whether the yardstick is met, false for that of the margin.
    better_high : bool
        Whether the margin grows with it.
    """

    unknown: Unknown
    share: float
    of_verdict: bool
    better_high: bool

    @property
    def advice(self) -> str:
        """What to do, and what that would settle of the verdict it stands beside."""
        return self.advised("this is met")

    def advised(self, topic: str) -> str:
        """Say what to do, and what that would settle of a topic.

        Parameters
        ----------
        topic : str
            What is open, as it goes after *whether*.
        """
        margin = f"the margin by which {topic} or not"
        what = f"whether {topic}" if self.of_verdict else margin
        return f"{self.unknown.how}: it settles {round(100 * self.share)} per cent of {what}"


class Orders:
    """Combinations sorted by each unknown, once for all outcomes.

    Parameters
    ----------
    drawn : array
        One row for each combination, one column for each unknown.
    """

    def __init__(self, drawn: NDArray[np.float64]) -> None:
        import numpy as np

        self.drawn = drawn
        self.count = int(drawn.shape[0])
        self.by: NDArray[np.intp] = np.argsort(drawn, axis=0, kind="stable")


def first_order_shares(orders: Orders, outcome: NDArray[np.float64]) -> NDArray[np.float64]:
    """Share of an outcome's variance that each unknown by itself accounts for.

    The chance agreement of as many classes is taken off, so that an unknown that does nothing
    comes out at nothing on average [S:kelley-1935].

    Parameters
    ----------
    orders : Orders
        The combinations.
    outcome : array
        One for each combination; it may be no more than met or not.

    Returns
    -------
    array
        One for each unknown, from 0 to 1. [-]

    Examples
    --------
    >>> import numpy as np
    >>> drawn = np.random.default_rng(1).uniform(-1.0, 1.0, (10_000, 3))
    >>> outcome = 3.0 * drawn[:, 0] + drawn[:, 1]
    >>> first_order_shares(Orders(drawn), outcome).round(2).tolist()
    [0.9, 0.1, 0.0]
    """
    import numpy as np

    count, unknowns = orders.by.shape
    classes = int(np.clip(count // 250, 2, 40))
    spread = float(np.var(outcome))
    if unknowns == 0 or spread <= 0.0:
        return np.zeros(unknowns)
    edges = np.linspace(0, count, classes + 1).astype(np.intp)[:-1]
    sizes = np.diff(np.append(edges, count))[:, np.newaxis]
    means = np.add.reduceat(outcome[orders.by], edges, axis=0) / sizes
    between = np.sum(sizes * (means - np.mean(outcome)) ** 2, axis=0) / (count * spread)
    chance = (classes - 1) / (count - 1)
    found: NDArray[np.float64] = np.clip((between - chance) / (1.0 - chance), 0.0, 1.0)
    return found


def settles(
    unknowns: tuple[Unknown, ...],
    orders: Orders,
    margin: NDArray[np.float64],
    met: NDArray[np.bool_],
) -> tuple[Settles, ...]:
    """Rank the unknowns by what knowing each would settle of a verdict.

    Parameters
    ----------
    unknowns : tuple of Unknown
        What was drawn.
    orders : Orders
        The combinations.
    margin : array
        The verdict's margin in each; endless where nothing is asked.
    met : array of bool
        Whether each meets it.

    Returns
    -------
    tuple of Settles
        Those that matter, the one that settles most first.
    """
    import numpy as np

    finite = np.isfinite(margin)
    if not np.any(finite):
        return ()
    counted = np.where(finite, margin, np.max(margin[finite]))
    share = float(np.mean(met))
    of_verdict = min(share, 1.0 - share) >= _FEW
    outcome = np.broadcast_to(met, counted.shape).astype(np.float64) if of_verdict else counted
    shares = first_order_shares(orders, outcome)
    rising = orders.drawn.T @ (counted - np.mean(counted)) > 0.0
    ranked = sorted(range(len(unknowns)), key=lambda place: -shares[place])
    return tuple(
        Settles(unknowns[place], float(shares[place]), of_verdict, bool(rising[place]))
        for place in ranked
        if shares[place] >= _TELLS
    )
