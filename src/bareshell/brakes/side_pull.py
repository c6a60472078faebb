"""How unevenly a car is braked, and what the driver feels of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from bareshell.brakes.answer import SidePull
from bareshell.brakes.figured import settled
from bareshell.brakes.prepared import Prepared
from bareshell.calc import balance
from bareshell.calc.values import Value
from bareshell.model.brake import Wheel

__all__ = ["side_pull"]

_FELT_NM: Final = 25.0
"""A turning moment below which nobody speaks of a pull. Common practice, no source."""


def side_pull(prepared: Prepared, wheel_force_n: Mapping[Wheel, Value]) -> SidePull | None:
    """Work out the pull of uneven brakes on the car and on its steering.

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    wheel_force_n : mapping of Wheel to float or array
        Forces at the road, as an `Answer` or `Limited` gives them. [N]

    Returns
    -------
    SidePull or None
        None when a track is not known.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> uneven = {wheel: 1000.0 for wheel in Wheel} | {Wheel.FRONT_RIGHT: 0.0}
    >>> found = side_pull(prepare(car, gather(car).figures), uneven)
    >>> round(found.yaw_moment_nm), found.words
    (645, 'the car turns to the left, and its steering pulls to the left')
    """
    if prepared.missing_for("side pull"):
        return None
    import numpy as np

    at, car = prepared.figured, prepared.elements.car
    shape = np.shape(wheel_force_n[Wheel.FRONT_LEFT])
    lifted = (..., *(np.newaxis,) * (len(shape) - len(at.samples)))

    def figure(name: str) -> Any:  # noqa: ANN401 - a number or samples down the first axis
        value = at(car, name)
        return value if isinstance(value, float) else value[:, 0][lifted]

    moment = settled(balance.side_pull_moment)
    pairs = {
        "front": (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT),
        "rear": (Wheel.REAR_LEFT, Wheel.REAR_RIGHT),
    }
    yaw: Value = 0.0
    for axle, (left, right) in pairs.items():
        track = figure(f"{axle}_track_m")
        yaw = yaw + moment(wheel_force_n[left], wheel_force_n[right], track)
    left_n, right_n = (wheel_force_n[wheel] for wheel in pairs["front"])
    steering = None
    if not prepared.missing_for("steering"):
        steering = settled(balance.steering_pull_moment)(left_n, right_n, figure("scrub_radius_m"))
    both = np.asarray(left_n) + np.asarray(right_n)
    share = np.divide(left_n, both, out=np.full(both.shape, 0.5), where=both > 0.0)
    return SidePull(
        yaw_moment_nm=yaw,
        steering_moment_nm=steering,
        front_left_share=share.item() if share.ndim == 0 else share,
        words=_words(yaw, steering),
    )


def _words(yaw: Value, steering: Value | None) -> str:
    import numpy as np

    turning = float(np.ravel(yaw)[-1])
    if abs(turning) < _FELT_NM:
        return "no pull to speak of"
    said = f"the car turns to the {_side(turning)}"
    if steering is None:
        return f"{said}; what the steering does needs the scrub radius"
    wheel = float(np.ravel(steering)[-1])
    if wheel == 0.0:
        return f"{said}, and its steering feels nothing of it"
    if (wheel > 0.0) is (turning > 0.0):
        return f"{said}, and its steering pulls to the {_side(wheel)}"
    return f"{said}, and its steering works against it"


def _side(moment: float) -> str:
    return "left" if moment > 0.0 else "right"
