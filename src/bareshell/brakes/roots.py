"""Where a rising function reaches a value: one search for one car or for many at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from bareshell.calc.values import Value

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["where_reaches"]

_STEPS = 90
_CLOSE = 1e-12


def where_reaches(
    rising: Callable[[NDArray[np.float64]], Value],
    target: Value,
    low: Value,
    high: Value,
) -> NDArray[np.float64]:
    """Find where a rising function reaches a target, between two ends.

    False position, with the value of an end that stays brought down [S:anderson-bjorck-1973], and
    a plain halving wherever two steps did not halve what is left: quick where the function is
    smooth or straight, and never lost at a corner or a step.

    Parameters
    ----------
    rising : callable
        Takes an array and gives one; it never falls.
    target : float or array
        What it should reach.
    low, high : float or array
        The ends between which to look.

    Returns
    -------
    array
        The largest argument found with no more than the target: `low` where even there it is
        more, and endless where even at `high` it is not.

    Examples
    --------
    >>> where_reaches(lambda x: x**3, 8.0, 0.0, 10.0)
    array(2.)
    >>> where_reaches(lambda x: x**3, 8.0, 0.0, 1.0)
    array(inf)
    """
    import numpy as np

    below = np.asarray(low, dtype=np.float64)
    above = np.asarray(high, dtype=np.float64)
    under = np.asarray(rising(below) - target, dtype=np.float64)
    over = np.asarray(rising(above) - target, dtype=np.float64)
    below, above, under, over = np.broadcast_arrays(below, above, under, over)
    never, at_once = over <= 0.0, under > 0.0
    found = never | at_once
    near = _CLOSE * np.maximum(np.abs(above), np.abs(below))
    met = _CLOSE * np.abs(under)
    stayed = np.zeros(below.shape, dtype=np.int8)
    wide, slow = above - below, np.zeros(below.shape, dtype=np.bool_)
    for step in range(_STEPS):
        if np.all(found | (above - below <= near)):
            break
        middle = (below + above) / 2.0
        with np.errstate(invalid="ignore", divide="ignore"):
            guess = above - over * (above - below) / (over - under)
        middle = np.where((guess > below) & (guess < above) & ~slow, guess, middle)
        value = np.asarray(rising(middle) - target)
        # Met: both ends are there, and nothing moves any more.
        there = np.abs(value) <= met
        up = value > 0.0
        fading = _fading(value, np.where(up, over, under))
        # The end that stays twice has its value brought down, so that it is not stuck there.
        with np.errstate(invalid="ignore"):  # an end may be endless
            over, under = (
                np.where(up, value, np.where(stayed == -1, over * fading, over)),
                np.where(up, np.where(stayed == 1, under * fading, under), value),
            )
        above = np.where(up | there, middle, above)
        below = np.where(up & ~there, below, middle)
        stayed = np.where(up, 1, -1).astype(np.int8)
        # Where two steps did not halve what is left, the next one does.
        slow = np.zeros_like(slow)
        if step % 2:
            wide, slow = above - below, above - below > wide / 2.0
    return np.where(never, np.inf, np.where(at_once, np.asarray(low), below))


def _fading(value: NDArray[np.float64], before: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far to bring down the end that stayed: by how much the moving end gained."""
    import numpy as np

    with np.errstate(invalid="ignore", divide="ignore"):
        left = 1.0 - value / before
    return np.where(left > 0.0, left, 0.5)
