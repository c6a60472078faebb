"""The same push on a road that gives way: which wheels lock, and what is reached.

Each wheel of an axle carries half of what the axle carries. A wheel that locks keeps the road's
adhesion, which is kind: a sliding tyre has less, and steers not at all.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final

from bareshell.brakes.roots import where_reaches
from bareshell.calc import loads
from bareshell.calc.values import Value
from bareshell.model.brake import Wheel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Grip"]


_STEP: Final = 1e-6


class Grip:
    """A car on a road.

    Parameters
    ----------
    axle_loads : callable
        Loads on both axles for a deceleration as a share of g.
    slowing : callable
        Deceleration for the axles' forces.
    friction_of_road : float or array
        What the road offers. [-]
    """

    def __init__(
        self,
        axle_loads: Callable[..., loads.AxleLoads[Value]],
        slowing: Callable[..., Value],
        friction_of_road: Value,
    ) -> None:
        self._loads = axle_loads
        self._slowing = slowing
        self._friction = friction_of_road

    def _most(self, deceleration_g: Value) -> dict[bool, Value]:
        """The most that a wheel of the front and of the rear axle passes on. [N]."""
        axle = self._loads(deceleration_g=deceleration_g)
        return {
            True: self._friction * axle.front_n / 2.0,
            False: self._friction * axle.rear_n / 2.0,
        }

    def _reached(self, wheels: Mapping[Wheel, Value], deceleration_g: Value) -> Value:
        import numpy as np

        most = self._most(deceleration_g)
        kept = {wheel: np.minimum(each, most[wheel.is_front]) for wheel, each in wheels.items()}
        return self._slowing(
            front_force_n=kept[Wheel.FRONT_LEFT] + kept[Wheel.FRONT_RIGHT],
            rear_force_n=kept[Wheel.REAR_LEFT] + kept[Wheel.REAR_RIGHT],
        )

    def deceleration_g(self, wheels: Mapping[Wheel, Value]) -> NDArray[np.float64]:
        """Deceleration that is reached, the wheels that lock included."""
        import numpy as np

        free = np.asarray(
            self._slowing(
                front_force_n=wheels[Wheel.FRONT_LEFT] + wheels[Wheel.FRONT_RIGHT],
                rear_force_n=wheels[Wheel.REAR_LEFT] + wheels[Wheel.REAR_RIGHT],
            )
        )
        # What is left over is made of straight pieces: follow each to where it would vanish.
        found = free
        for _ in range(12):
            over = found - self._reached(wheels, found)
            if np.all(np.abs(over) <= 1e-14):
                return found
            ahead = found + _STEP
            rise = (ahead - self._reached(wheels, ahead) - over) / _STEP
            found = np.clip(found - over / np.maximum(rise, 0.05), 0.0, free)
        return self._searched(wheels, free)

    def _searched(
        self, wheels: Mapping[Wheel, Value], free: NDArray[np.float64]
    ) -> NDArray[np.float64]:
        import numpy as np

        found = where_reaches(
            lambda each: each - self._reached(wheels, each), 0.0, 0.0 * free, free
        )
        return np.where(np.isfinite(found), found, free)

    def wheels(
        self, wheels: Mapping[Wheel, Value], deceleration_g: Value
    ) -> tuple[dict[Wheel, Value], dict[Wheel, NDArray[np.bool_]]]:
        """Force of each wheel at the road at that deceleration, and which of them lock."""
        import numpy as np

        most = self._most(deceleration_g)
        kept: dict[Wheel, Value] = {}
        locked: dict[Wheel, NDArray[np.bool_]] = {}
        for wheel, each in wheels.items():
            kept[wheel] = np.minimum(each, most[wheel.is_front])
            locked[wheel] = np.asarray(each > most[wheel.is_front] * (1.0 + 1e-9))
        return kept, locked

    def over(self, wheels: Mapping[Wheel, Value], deceleration_g: Value, *, front: bool) -> Value:
        """What the harder braked wheel of an axle is pressed beyond what it can pass on. [N]."""
        import numpy as np

        left, right = (
            (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT) if front else (Wheel.REAR_LEFT, Wheel.REAR_RIGHT)
        )
        harder: Value = np.maximum(wheels[left], wheels[right])
        return harder - self._most(deceleration_g)[front]
