"""The solve turned about: force for a deceleration, and which axle locks first on a road."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bareshell.brakes.answer import ForceFor, Limited, Load, LockOrder
from bareshell.brakes.bench import Bench
from bareshell.brakes.figured import as_row, brought_back, settled
from bareshell.brakes.grip import Grip
from bareshell.brakes.hydraulics import TOP_FORCE_N
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.roots import where_reaches
from bareshell.brakes.state import WHOLE, State
from bareshell.calc import balance, stopping
from bareshell.calc.values import Value
from bareshell.errors import BadInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["crossing", "force_found", "limited", "locking", "on_road"]


def force_found(
    prepared: Prepared, deceleration_m_s2: Value, load: Load, *, state: State = WHOLE
) -> ForceFor:
    """Find the force of the foot for a deceleration, as if the tyres never slid.

    Parameters
    ----------
    prepared : Prepared
        The system as entered, with its figures.
    deceleration_m_s2 : float or array
        What is wanted. [m/s2]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong.

    Returns
    -------
    ForceFor
        The force; where no push reaches it, that and the most that one does.

    Raises
    ------
    BadInput
        As for `bareshell.brakes.solve.solve`.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> ready = prepare(small_car(), gather(small_car()).figures)
    >>> round(force_found(ready, 5.8, "driver only").pedal_force_n)
    238
    """
    import numpy as np

    wanted = np.asarray(deceleration_m_s2, dtype=np.float64)
    if not np.all(wanted >= 0.0):
        raise BadInput("deceleration", "is below zero or no number", "give zero or more")
    bench = prepared.bench(load, state)
    target = as_row(stopping.share_of_g(wanted))
    top, on_floor = bench.effective(as_row(TOP_FORCE_N))
    most = bench.deceleration_g(bench.wheels(top))
    reached = np.asarray(most >= target)

    def slowing(force: Value) -> Value:
        return bench.deceleration_g(bench.wheels(force))

    found = where_reaches(slowing, target, 0.0 * target, np.broadcast_to(top, reached.shape))
    # At the very top the target is just met there.
    force = np.where(reached, np.where(np.isfinite(found), found, top), np.nan)
    used = _adhesion(bench, np.where(reached, force, 0.0))
    samples, shape = prepared.figured.samples, wanted.shape
    gravity = stopping.GRAVITY_M_S2
    return ForceFor(
        deceleration_m_s2=brought_back(target * gravity, samples, shape),
        pedal_force_n=brought_back(force, samples, shape),
        reached=brought_back(reached, samples, shape),
        most_m_s2=brought_back(most * gravity, samples, shape),
        because=_because(reached, on_floor),
        adhesion_asked=brought_back(np.where(reached, used, np.nan), samples, shape),
    )


def _because(reached: NDArray[np.bool_], on_floor: NDArray[np.bool_]) -> str:
    import numpy as np

    if np.all(reached):
        return ""
    if np.any(on_floor & ~reached):
        return "the pedal stands on the floor before that"
    return f"not even {TOP_FORCE_N:g} N of the foot reach it"


def _adhesion(bench: Bench, force: Value) -> Value:
    import numpy as np

    wheels = bench.wheels(force)
    slowing = bench.deceleration_g(wheels)
    axle = bench.loads(deceleration_g=slowing)
    front, rear = bench.axles(wheels)
    used = settled(balance.adhesion_used)
    more: Value = np.maximum(used(front, axle.front_n), used(rear, axle.rear_n))
    return more


def limited(
    prepared: Prepared,
    pedal_force_n: Value,
    load: Load,
    friction_of_road: Value,
    *,
    state: State = WHOLE,
) -> Limited:
    """Work out the same push on a road that offers only so much adhesion.

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    pedal_force_n : float or array
        Force of the foot. [N]
    load : {"driver only", "laden"}
        How the car is loaded.
    friction_of_road : float or array
        What the road offers: one figure, or one for each sample. [-]
    state : State
        What has gone wrong.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> ready = prepare(car, gather(car).figures)
    >>> on_ice = limited(ready, 300.0, "driver only", 0.1)
    >>> round(on_ice.deceleration_g, 3), all(on_ice.locked.values())
    (0.1, True)
    """
    import numpy as np

    given = np.asarray(pedal_force_n, dtype=np.float64)
    forces = as_row(given)
    bench, friction = on_road(prepared, load, state, friction_of_road)
    effective, _ = bench.effective(forces)
    wheels = bench.wheels(effective)
    grip = bench.grip(friction)
    slowing = grip.deceleration_g(wheels)
    kept, locked = grip.wheels(wheels, slowing)

    def back(value: Any) -> Any:  # noqa: ANN401 - numbers come back as numbers
        return brought_back(value, prepared.figured.samples, given.shape)

    return Limited(
        friction_of_road=friction_of_road,
        deceleration_g=back(slowing),
        deceleration_m_s2=back(slowing * stopping.GRAVITY_M_S2),
        wheel_force_n={wheel: back(each) for wheel, each in kept.items()},
        locked={wheel: back(each) for wheel, each in locked.items()},
    )


def _column(friction_of_road: Value) -> Value:
    import numpy as np

    friction = np.asarray(friction_of_road, dtype=np.float64)
    if not np.all((friction >= 0.0) & (friction < 5.0)):
        raise BadInput(
            "adhesion of the road", "is below zero or beyond any road", "give 0.8 for a dry road"
        )
    return float(friction) if friction.ndim == 0 else friction.reshape(-1, 1)


def on_road(
    prepared: Prepared, load: Load, state: State, friction_of_road: Value
) -> tuple[Bench, Value]:
    """Set the system up on a road; a valve that senses deceleration feels that of locked wheels.

    Returns
    -------
    Bench
        The system.
    float or array
        The road's adhesion, in a column where there is one for each sample.

    Raises
    ------
    BadInput
        When the road is none.
    """
    friction = _column(friction_of_road)
    senses = prepared.topology(state).senses
    return prepared.bench(load, state, friction_of_road=friction if senses else None), friction


def locking(
    prepared: Prepared, friction_of_road: Value, load: Load, *, state: State = WHOLE
) -> LockOrder:
    """Find which axle locks first on a road, at what push, and what the car reaches before.

    Parameters
    ----------
    prepared : Prepared
        The system as entered, with its figures.
    friction_of_road : float or array
        What the road offers: one figure, or one for each sample. [-]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong.

    Returns
    -------
    LockOrder
        An axle locks when its harder braked wheel does.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> ready = prepare(small_car(), gather(small_car()).figures)
    >>> found = locking(ready, 0.7, "driver only")
    >>> found.first, round(found.front_g, 3)
    ('front', 0.567)
    """
    import numpy as np

    bench, friction = on_road(prepared, load, state, friction_of_road)
    grip = bench.grip(friction)
    front, rear = _locking_forces(bench, grip)
    slowed = [
        np.where(np.isfinite(each), _reached(bench, grip, each), np.inf) for each in (front, rear)
    ]
    force = np.minimum(front, rear)
    first = np.minimum(*slowed)
    if not np.all(np.isfinite(force)):
        top, _ = bench.effective(as_row(TOP_FORCE_N))
        first = np.where(np.isfinite(force), first, _reached(bench, grip, top))
        force = np.where(np.isfinite(force), force, top)
    samples = prepared.figured.samples

    def back(value: Any) -> Any:  # noqa: ANN401 - numbers come back as numbers
        return brought_back(value, samples or np.shape(friction_of_road), ())

    return LockOrder(
        friction_of_road=friction_of_road,
        front_g=back(slowed[0]),
        rear_g=back(slowed[1]),
        front_force_n=back(front),
        rear_force_n=back(rear),
        first=back(_first(front, rear)),
        before_lock_g=back(first),
        before_lock_force_n=back(force),
        use_of_adhesion=back(first / np.maximum(friction, 1e-300)),
    )


def _locking_forces(bench: Bench, grip: Grip) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Force of the foot at which each axle locks; endless where none makes it."""
    import numpy as np

    def free(force: Value, *, front: bool) -> Value:
        wheels = bench.wheels(force)
        return grip.over(wheels, bench.deceleration_g(wheels), front=front)

    none, top = as_row(0.0), as_row(TOP_FORCE_N)
    front = where_reaches(lambda each: free(each, front=True), 0.0, none, top)
    rear = where_reaches(lambda each: free(each, front=False), 0.0, none, top)
    # Until the first one locks no wheel slides; the other then has a car that slows less.
    first = np.minimum(front, rear)
    front_is_first = front <= rear

    def other(force: Value) -> Value:
        wheels = bench.wheels(force)
        slowing = grip.deceleration_g(wheels)
        return np.where(
            front_is_first,
            grip.over(wheels, slowing, front=False),
            grip.over(wheels, slowing, front=True),
        )

    second = where_reaches(other, 0.0, np.where(np.isfinite(first), first, top), top)
    second = np.where(np.isfinite(first), second, np.inf)
    return (
        bench.above_floor(np.where(front_is_first, first, second)),
        bench.above_floor(np.where(front_is_first, second, first)),
    )


def _reached(bench: Bench, grip: Grip, force: Value) -> NDArray[np.float64]:
    import numpy as np

    return grip.deceleration_g(bench.wheels(np.where(np.isfinite(force), force, 0.0)))


def _first(front: NDArray[np.float64], rear: NDArray[np.float64]) -> NDArray[np.str_]:
    import numpy as np

    both = np.isfinite(front) & np.isfinite(rear)
    apart = np.subtract(front, rear, out=np.full(both.shape, np.inf), where=both)
    together = np.abs(apart) <= 1e-6 * front
    neither = ~np.isfinite(front) & ~np.isfinite(rear)
    named = np.where(front < rear, "front", "rear")
    return np.where(neither, "neither", np.where(together, "both", named))


def crossing(prepared: Prepared, load: Load, *, state: State = WHOLE) -> Value:
    """Find the deceleration from which the rear axle uses more adhesion than the front.

    Below it the front would lock first, from it on the rear.

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong.

    Returns
    -------
    float or array
        As a share of g: the first such deceleration up to 1.2; 0 where the rear uses more from the
        start, endless where it never does. [-]

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car("single line")
    >>> crossing(prepare(car, gather(car).figures), "driver only")
    0.0
    """
    import numpy as np

    bench = prepared.bench(load, state)

    def both(force: Value) -> tuple[Value, Value]:
        wheels = bench.wheels(force)
        slowing = bench.deceleration_g(wheels)
        axle = bench.loads(deceleration_g=slowing)
        front, rear = bench.axles(wheels)
        # Cross-multiplied: an axle that is lifted clear uses without end.
        return rear * axle.front_n - front * axle.rear_n, slowing

    top = where_reaches(lambda each: both(each)[1], 1.2, as_row(0.0), as_row(TOP_FORCE_N))
    top = np.where(np.isfinite(top), top, TOP_FORCE_N)
    along = np.linspace(0.0, 1.0, 97)[np.newaxis, 1:] * top
    over, _ = both(along)
    rear_more = np.asarray(np.broadcast_to(over > 0.0, along.shape))
    at = np.argmax(rear_more, axis=-1)[:, np.newaxis]
    ever = np.any(rear_more, axis=-1, keepdims=True)
    high = np.take_along_axis(along, at, axis=-1)
    low = np.where(at > 0, np.take_along_axis(along, np.maximum(at - 1, 0), axis=-1), 0.0)
    force = where_reaches(lambda each: both(each)[0], 0.0, low, high)
    found = both(np.where(np.isfinite(force), force, high))[1]
    found = np.where(ever, np.where(at > 0, found, 0.0), np.inf)
    answer: Value = brought_back(found, prepared.figured.samples, ())
    return answer
