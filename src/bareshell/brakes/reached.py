"""Two short ways through the solve, for thousands of combinations: slowing, and the axles' forces.

They give what the whole answer would, without the rest of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bareshell.brakes.answer import Load
from bareshell.brakes.figured import as_row, brought_back
from bareshell.brakes.inverse import on_road
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.roots import where_reaches
from bareshell.brakes.state import WHOLE, State
from bareshell.calc.values import Value

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Firmest", "axle_forces", "firmest_without_lock", "most_without_lock", "slowing_at"]

_BLOCK = 40_000
"""Numbers worked on at once: as many as stay near the processor."""


@dataclass(frozen=True, slots=True)
class Firmest:
    """The firmest push at which no wheel locks yet, and what it does.

    Parameters
    ----------
    force_n : array
        That push: in a column, one for each sample. [N]
    deceleration_g : array
        What it reaches, as a share of g. [-]
    front_over_n, rear_over_n : array
        What the harder braked wheel of each axle is pressed beyond what it can pass on: next to
        nothing for one that is about to lock, below nothing for one that is not. [N]
    """

    force_n: NDArray[np.float64]
    deceleration_g: NDArray[np.float64]
    front_over_n: NDArray[np.float64]
    rear_over_n: NDArray[np.float64]


def most_without_lock(
    prepared: Prepared,
    pedal_force_n: float,
    load: Load,
    friction_of_road: Value,
    *,
    state: State = WHOLE,
) -> Value:
    """Return the most that a foot reaches before any wheel locks, as a share of g.

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    pedal_force_n : float
        The most that the foot may do. [N]
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
    >>> [round(most_without_lock(ready, foot, "laden", 0.8), 3) for foot in (200.0, 500.0)]
    [0.37, 0.552]
    """
    found = firmest_without_lock(prepared, pedal_force_n, load, friction_of_road, state=state)
    reached: Value = brought_back(found.deceleration_g, prepared.figured.samples, ())
    return reached


def firmest_without_lock(
    prepared: Prepared,
    pedal_force_n: float,
    load: Load,
    friction_of_road: Value,
    *,
    state: State = WHOLE,
) -> Firmest:
    """Find the firmest push, up to some force, at which no wheel locks yet; kept once found.

    Parameters
    ----------
    prepared, pedal_force_n, load, friction_of_road, state
        As for `most_without_lock`.
    """
    import numpy as np

    effect = prepared.topology(state).effect()
    road = tuple(np.ravel(friction_of_road).tolist())
    return prepared.kept(
        ("without lock", pedal_force_n, load, road, effect),
        lambda: _without_lock(prepared, pedal_force_n, load, friction_of_road, state),
    )


def _without_lock(
    prepared: Prepared, pedal_force_n: float, load: Load, friction_of_road: Value, state: State
) -> Firmest:
    import numpy as np

    bench, friction = on_road(prepared, load, state, friction_of_road)
    grip = bench.grip(friction)
    firm, _ = bench.effective(as_row(pedal_force_n))

    def pressed(force: Value) -> tuple[Value, Value, Value]:
        wheels = bench.wheels(force)
        slowing = bench.deceleration_g(wheels)
        front = grip.over(wheels, slowing, front=True)
        return slowing, front, grip.over(wheels, slowing, front=False)

    def over(force: Value) -> Value:
        _, front, rear = pressed(force)
        return np.maximum(front, rear)

    if np.any(np.asarray(over(firm)) > 0.0):
        held = where_reaches(over, 0.0, 0.0 * np.asarray(firm), firm)
        firm = np.where(np.isfinite(held), held, firm)
    return Firmest(np.asarray(firm), *(np.asarray(each) for each in pressed(firm)))


def slowing_at(prepared: Prepared, force_n: Value, load: Load, *, state: State = WHOLE) -> Value:
    """Return what a push reaches as if no tyre slid, as a share of g; one push for each sample.

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    force_n : float or array
        In a column, as `Firmest` has it. [N]
    load, state : str, State
        As for `most_without_lock`.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> round(slowing_at(prepare(car, gather(car).figures), 200.0, "laden"), 3)
    0.37
    """
    import numpy as np

    bench = prepared.bench(load, state)
    effective, _ = bench.effective(np.reshape(np.asarray(force_n, dtype=np.float64), (-1, 1)))
    reached = bench.deceleration_g(bench.wheels(effective))
    found: Value = brought_back(reached, prepared.figured.samples, ())
    return found


def axle_forces(
    prepared: Prepared, pedal_force_n: NDArray[np.float64], load: Load, *, state: State = WHOLE
) -> tuple[Value, Value]:
    """Return the forces of both axles at the road over some pushes, as if no tyre slid. [N].

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    pedal_force_n : array
        Forces of the foot, in a row. [N]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong.

    Returns
    -------
    front_n, rear_n : array
        Of the samples' shape followed by that of the pushes.

    Examples
    --------
    >>> import numpy as np
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> front, rear = axle_forces(
    ...     prepare(car, gather(car).figures), np.array([0.0, 300.0]), "laden"
    ... )
    >>> front.round().tolist()
    [0.0, 5979.0]
    """
    effect = prepared.topology(state).effect()
    return prepared.kept(
        ("axle forces", pedal_force_n.tobytes(), load, effect),
        lambda: _axle_forces(prepared, pedal_force_n, load, state),
    )


def _axle_forces(
    prepared: Prepared, pedal_force_n: NDArray[np.float64], load: Load, state: State
) -> tuple[Value, Value]:
    import numpy as np

    bench = prepared.bench(load, state)
    samples = prepared.figured.samples
    rows = samples[0] if samples else 1
    front = np.empty((rows, pedal_force_n.size))
    rear = np.empty((rows, pedal_force_n.size))
    forces = as_row(pedal_force_n)
    effective, _ = bench.effective(forces)
    effective = np.broadcast_to(effective, (rows, pedal_force_n.size))
    step = max(1, _BLOCK // rows)
    for start in range(0, pedal_force_n.size, step):
        block = slice(start, start + step)
        front[:, block], rear[:, block] = bench.axles(bench.wheels(effective[:, block]))
    return front.reshape((*samples, -1)), rear.reshape((*samples, -1))
