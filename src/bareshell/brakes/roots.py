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
_CLOSE = 1e-13


def where_reaches(
    rising: Callable[[NDArray[np.float64]], Value],
    target: Value,
    low: Value,
    high: Value,
) -> NDArray[np.float64]:
    """Find where a rising function reaches a target, between two ends.

    False position with the far end's value halved each time it stays, and a plain halving each
    third step: quick where the function is made of straight pieces, and never lost at a corner or
    a step.

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
    settled = never | at_once
    close = _CLOSE * np.maximum(np.abs(above), np.abs(below))
    last = np.zeros(below.shape, dtype=np.int8)
    for step in range(_STEPS):
        if np.all(settled | (above - below <= close)):
            break
        middle = (below + above) / 2.0
        if step % 3 != 2:
            with np.errstate(invalid="ignore", divide="ignore"):
                guess = above - over * (above - below) / (over - under)
            middle = np.where((guess > below) & (guess < above), guess, middle)
        value = np.asarray(rising(middle) - target)
        up = value > 0.0
        # The end that stays twice has its value halved, so that it is not stuck there.
        over = np.where(up, value, np.where(last == -1, over / 2.0, over))
        under = np.where(up, np.where(last == 1, under / 2.0, under), value)
        above, below = np.where(up, middle, above), np.where(up, below, middle)
        last = np.where(up, 1, -1)
    return np.where(never, np.inf, np.where(at_once, np.asarray(low), below))
