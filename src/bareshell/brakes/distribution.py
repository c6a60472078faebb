"""Use of adhesion against deceleration, as the regulations draw it, and margins to their lines.

The curves run over a push that rises along the last axis; between its points they are taken as
straight, so that no corner falls between two of them. Gravity is what the rule takes it to be.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bareshell.brakes.yardstick import Adhesion, LockOrder
from bareshell.calc import balance, loads
from bareshell.calc.values import Array, Value

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["Curves", "adhesion_margin", "curves", "lock_order_margin"]


@dataclass(frozen=True, slots=True)
class Curves:
    """Adhesion used by each axle against deceleration.

    Parameters
    ----------
    z : array
        Deceleration over gravity, rising along the last axis. [-]
    front, rear : array
        Adhesion used by each axle. [-]
    """

    z: Array
    front: Array
    rear: Array


def curves(
    front_force_n: Value,
    rear_force_n: Value,
    mass_kg: Value,
    wheelbase_m: Value,
    cg_to_front_m: Value,
    cg_height_m: Value,
    gravity_m_s2: float,
) -> Curves:
    """Draw the two curves from the axles' forces over a rising push.

    Parameters
    ----------
    front_force_n, rear_force_n : array
        Forces at the road, rising along the last axis. [N]
    mass_kg, wheelbase_m, cg_to_front_m, cg_height_m : float or array
        The car as loaded; arrays have the other axes.
    gravity_m_s2 : float
        What the rule takes gravity to be. [m/s2]

    Examples
    --------
    >>> import numpy as np
    >>> push = np.array([0.0, 1000.0, 2000.0])
    >>> drawn = curves(3 * push, push, 1000.0, 2.4, 1.08, 0.53, 10.0)
    >>> drawn.z.round(2).tolist(), drawn.front.round(3).tolist()
    ([0.0, 0.4, 0.8], [0.0, 0.47, 0.826])
    """
    import numpy as np

    front = np.asarray(front_force_n, dtype=np.float64)
    rear = np.asarray(rear_force_n, dtype=np.float64)
    front, rear = np.broadcast_arrays(front, rear)

    def aside(value: Value) -> Array:
        array = np.asarray(value, dtype=np.float64)
        return array[..., None] if array.ndim else array

    weight = aside(mass_kg) * gravity_m_s2
    z = (front + rear) / weight
    carried = loads.axle_loads(
        *np.broadcast_arrays(
            weight, aside(wheelbase_m), aside(cg_to_front_m), aside(cg_height_m), z
        )
    )
    return Curves(
        z,
        np.asarray(balance.adhesion_used(front, carried.front_n)),
        np.asarray(balance.adhesion_used(rear, carried.rear_n)),
    )


def adhesion_margin(drawn: Curves, asks: Adhesion) -> Value:
    """Least of z above the line while an axle uses an adhesion within the span.

    Returns
    -------
    float or array
        For each sample; not a number where no axle gets that far. [-]

    Examples
    --------
    >>> import numpy as np
    >>> z = np.linspace(0.0, 1.0, 11)
    >>> round(adhesion_margin(Curves(z, z, z), Adhesion(0.7)), 3)  # at k = 0.2 on the ideal
    0.1
    """
    import numpy as np

    margins = []
    for used in (drawn.front, drawn.rear):
        part = _Pieces(used, asks.from_k, asks.to_k)
        above = drawn.z - 0.1 - asks.slope * (used - asks.from_k)
        margins.append(part.least(above))
    return _plain(np.fmin(*margins))


def lock_order_margin(drawn: Curves, asks: LockOrder) -> Value:
    """Least of the front's use of adhesion over the rear's within the span, exceptions counted.

    Returns
    -------
    float or array
        For each sample; not a number where the car does not slow that much. [-]

    Examples
    --------
    >>> import numpy as np
    >>> z = np.linspace(0.0, 1.0, 101)
    >>> drawn = Curves(z, 1.1 * z, 0.9 * z)
    >>> round(lock_order_margin(drawn, LockOrder(0.15, 0.8)), 3)
    0.03
    """
    import numpy as np

    z, front, rear = drawn.z, drawn.front, drawn.rear
    first = front - rear
    if asks.or_band:
        ideal = (front - z, z - front, rear - z, z - rear)
        within = [asks.or_band - off for off in ideal]
        return _plain(_Pieces(z, asks.from_z, asks.to_z).least(first, within))
    if not asks.crossing:
        return _plain(_Pieces(z, asks.from_z, asks.to_z).least(first))
    low, high, near = asks.crossing
    margins = (
        _Pieces(z, asks.from_z, low).least(first),
        _Pieces(z, low, high).least(first, [z + near - rear]),
        _Pieces(z, high, asks.to_z).least(first),
    )
    return _plain(np.fmin(np.fmin(margins[0], margins[1]), margins[2]))


class _Pieces:
    """The straight pieces of a curve, clipped to where one quantity lies within a span."""

    def __init__(self, along: Array, low: float, high: float) -> None:
        import numpy as np

        begin, end = along[..., :-1], along[..., 1:]
        fits = np.isfinite(begin) & np.isfinite(end)
        with np.errstate(invalid="ignore"):  # beyond what an axle can carry it is endless
            run = np.where(fits & (end != begin), end - begin, 1.0)
        still = ~fits | (end == begin)
        first = (low - np.where(fits, begin, 0.0)) / run
        second = (high - np.where(fits, begin, 0.0)) / run
        self.enters: Array = np.where(still, 0.0, np.clip(np.minimum(first, second), 0.0, 1.0))
        self.leaves: Array = np.where(still, 1.0, np.clip(np.maximum(first, second), 0.0, 1.0))
        touches = (np.maximum(begin, end) >= low) & (np.minimum(begin, end) <= high)
        self.inside = fits & touches

    def least(self, must: Array, or_all: Sequence[Array] = ()) -> Array:
        """Least of a straight figure, or of the least of others where those are larger.

        The least of such a figure over a piece lies at its ends or where the two cross.
        """
        import numpy as np

        ways = [self.enters, self.leaves, *(self._crossing(must, other) for other in or_all)]
        least = np.full(self.inside.shape, np.inf)
        for way in ways:
            margin = self._at(must, way)
            if or_all:
                others = np.minimum.reduce([self._at(other, way) for other in or_all])
                margin = np.maximum(margin, others)
            least = np.minimum(least, np.where(self.inside, margin, np.inf))
        found: Array = np.where(self.inside.any(axis=-1), least.min(axis=-1), np.nan)
        return found

    def _at(self, figure: Array, way: Array) -> Array:
        """A figure part of the way along each piece; endless beyond what an axle can carry."""
        import numpy as np

        begin, end = figure[..., :-1], figure[..., 1:]
        whole = np.isfinite(begin) & np.isfinite(end)
        with np.errstate(invalid="ignore"):
            start, rise = np.where(whole, begin, 0.0), np.where(whole, end - begin, 0.0)
        return np.where(whole, start + way * rise, np.fmin(begin, end))

    def _crossing(self, one: Array, other: Array) -> Array:
        import numpy as np

        with np.errstate(invalid="ignore"):
            gap = np.nan_to_num(other - one, nan=0.0, posinf=0.0, neginf=0.0)
        closing = gap[..., :-1] - gap[..., 1:]
        way = np.where(closing != 0.0, gap[..., :-1] / np.where(closing == 0.0, 1.0, closing), 0.0)
        return np.clip(way, self.enters, self.leaves)


def _plain(value: Array) -> Value:
    import numpy as np

    array = np.asarray(value, dtype=np.float64)
    return float(array) if array.ndim == 0 else array
