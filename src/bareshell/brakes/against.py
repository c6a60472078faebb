"""Hold a whole brake system against the yardsticks that were picked.

Each yardstick says what it is about, how the car is loaded and what foot or hand may do; here it
is found what the system reaches under just that. Figures may be arrays of samples: then each
verdict is a share of combinations. What only a test, a look or a hot brake can show is said to be
not worked out, and why.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Final

from bareshell.brakes.answer import Load
from bareshell.brakes.cases import Case, FailureKind, single_cases
from bareshell.brakes.failures import DRY_ROAD
from bareshell.brakes.figures import Missing
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.reached import axle_forces, most_without_lock
from bareshell.brakes.state import WHOLE, State
from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.verdicts import (
    hold_adhesion,
    hold_deceleration,
    hold_lock_order,
)
from bareshell.brakes.yardstick import Adhesion, LockOrder, Slow, Subject, Yardstick
from bareshell.calc import stopping
from bareshell.calc.values import Value
from bareshell.model.brake import PartKind

__all__ = ["FOOT_N", "held_against", "slowed"]

FOOT_N: Final = 500.0
"""Force of the foot where a yardstick says nothing of it. [N] `Common practice, no source`"""

_LEAKS: Final[tuple[FailureKind, ...]] = ("pipe or hose burst", "joint leaks", "part leaks")
_LOADS: Final[Mapping[str, tuple[Load, ...]]] = {
    "driver only": ("driver only",),
    "laden": ("laden",),
    "both": ("driver only", "laden"),
    "as tested": ("driver only",),
}
_ONLY_A_TEST: Final[Mapping[Subject, str]] = {
    Subject.HOT: "heat is worked out for itself: see how the brakes fade",
    Subject.RECOVERY: "only a test shows how linings recover",
    Subject.IMBALANCE: "only a roller test shows it",
    Subject.LOOK: "nobody can work this out: look at the car",
}
_FORCES: Final = 60
_BLOCK: Final = 600


def held_against(
    prepared: Prepared,
    yardsticks: Iterable[Yardstick],
    *,
    friction_of_road: float = DRY_ROAD,
    others: Mapping[Subject, Callable[[Yardstick], Verdict]] | None = None,
) -> tuple[Verdict, ...]:
    """Hold a system against yardsticks.

    Parameters
    ----------
    prepared : Prepared
        The system with its figures, or with samples of them.
    yardsticks : iterable of Yardstick
        Those that were picked.
    friction_of_road : float
        Adhesion of the road that nothing may lock on. [-]
    others : mapping of Subject to callable, optional
        What holds the subjects that are worked out elsewhere: hot brakes, the parking brake.

    Returns
    -------
    tuple of Verdict
        In the order of the yardsticks.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> car = small_car()
    >>> ready = prepare(car, gather(car).figures)
    >>> [each.words for each in held_against(ready, [yardstick("un-r13-circuit")])]
    ['short of 2.9 m/s2']
    """
    return tuple(_held(prepared, each, friction_of_road, others or {}) for each in yardsticks)


def _held(
    prepared: Prepared,
    yardstick: Yardstick,
    road: float,
    others: Mapping[Subject, Callable[[Yardstick], Verdict]],
) -> Verdict:
    subject = yardstick.subject
    if subject in others:
        return others[subject](yardstick)
    if subject in _ONLY_A_TEST:
        return not_worked_out(yardstick, _ONLY_A_TEST[subject])
    loads = _LOADS[yardstick.load]
    missing = prepared.missing_for("pressure", "torque", *loads)
    if missing:
        return not_worked_out(yardstick, _asks_for(missing))
    match subject:
        case Subject.SERVICE:
            return _of_states(prepared, yardstick, loads, road, ((WHOLE, ""),))
        case Subject.CIRCUIT:
            return _of_states(prepared, yardstick, loads, road, _leaks(prepared))
        case Subject.SERVO:
            return _of_states(prepared, yardstick, loads, road, _of(prepared, "vacuum lost"))
        case Subject.VALVE:
            return _of_states(prepared, yardstick, loads, road, _of(prepared, "valve sticks"))
        case Subject.DISTRIBUTION | Subject.LOCK_ORDER:
            return _worst([_of_axles(prepared, yardstick, load) for load in loads])
        case _:
            return not_worked_out(yardstick, "it is not worked out from the circuit alone")


def _asks_for(missing: Iterable[Missing]) -> str:
    listed = [each.words for each in missing]
    more = f" and {len(listed) - 2} more" if len(listed) > 2 else ""
    return f"not known: {', '.join(listed[:2])}{more}"


# --- slowing ---------------------------------------------------------------------------------


def slowed(
    prepared: Prepared,
    force_n: float,
    load: Load,
    *,
    state: State = WHOLE,
    friction_of_road: float = DRY_ROAD,
) -> Value:
    """Return the most that a foot reaches with no wheel locked. [m/s2].

    Parameters
    ----------
    prepared : Prepared
        The system with its figures.
    force_n : float
        Most force of the foot. [N]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong.
    friction_of_road : float
        Adhesion of the road. [-]
    """
    found = most_without_lock(prepared, force_n, load, friction_of_road, state=state)
    return found * stopping.GRAVITY_M_S2


def _of_states(
    prepared: Prepared,
    yardstick: Yardstick,
    loads: tuple[Load, ...],
    road: float,
    states: tuple[tuple[State, str], ...],
) -> Verdict:
    """Hold the least that several states and loads reach."""
    if not states:
        return not_worked_out(yardstick, "there is none in these brakes")
    force = yardstick.forces.most_foot_n or FOOT_N
    found = []
    for state, words in states:
        for load in loads:
            reached = slowed(prepared, force, load, state=state, friction_of_road=road)
            one = hold_deceleration(yardstick, reached)
            because = [words, load if len(loads) > 1 else "", one.because]
            found.append(replace(one, because="; ".join(each for each in because if each)))
    worst = _worst(found)
    said = "" if yardstick.forces.most_foot_n else f"nothing is said of the foot: {force:.0f} N"
    known = [worst.because, said, _from_which_speed(prepared, yardstick)]
    return replace(worst, because="; ".join(each for each in known if each))


def _from_which_speed(prepared: Prepared, yardstick: Yardstick) -> str:
    """Say what hangs on the top speed; the deceleration itself is taken as the same at any."""
    asks = yardstick.asks
    if not isinstance(asks, Slow) or not asks.of_top_speed:
        return ""
    cars = prepared.system.of_kind(PartKind.CAR)
    if any("top_speed_m_s" in car.figures for car in cars):
        return ""
    return "the car's top speed is not known"


def _leaks(prepared: Prepared) -> tuple[tuple[State, str], ...]:
    """Return one failure for each different loss of a circuit.

    An empty reservoir is left out: what it feeds is divided below, and its level has a lamp or an
    eye on it.
    """
    reservoirs = {part.id for part in prepared.system.of_kind(PartKind.RESERVOIR)}
    cases = [
        case
        for case in single_cases(prepared.system)
        if case.kind in _LEAKS and case.element not in reservoirs
    ]
    return _different(prepared, cases)


def _of(prepared: Prepared, kind: FailureKind) -> tuple[tuple[State, str], ...]:
    kinds = (kind, "servo dead") if kind == "vacuum lost" else (kind,)
    return _different(
        prepared, [case for case in single_cases(prepared.system) if case.kind in kinds]
    )


def _different(prepared: Prepared, cases: Iterable[Case]) -> tuple[tuple[State, str], ...]:
    whole = prepared.topology().effect()
    first: dict[object, tuple[State, str]] = {}
    for case in cases:
        effect = prepared.topology(case.state).effect()
        if effect != whole:
            first.setdefault(effect, (case.state, case.words))
    return tuple(first.values())


# --- the axles -------------------------------------------------------------------------------


def _of_axles(prepared: Prepared, yardstick: Yardstick, load: Load) -> Verdict:
    import numpy as np

    hold = {Adhesion: hold_adhesion, LockOrder: hold_lock_order}.get(type(yardstick.asks))
    if hold is None:
        return not_worked_out(yardstick, "it asks for something else")
    forces = np.linspace(0.0, 3.0 * FOOT_N, _FORCES)
    front, rear = axle_forces(prepared, forces, load)
    name = "driver_only" if load == "driver only" else "laden"
    height = "cg_height_m" if load == "driver only" else "laden_cg_height_m"
    base = _of_car(prepared, "wheelbase_m")
    car = (
        _of_car(prepared, f"{name}_mass_kg"),
        base,
        base * (1.0 - _of_car(prepared, f"{name}_front_share")),
        _of_car(prepared, height),
    )
    found = _in_blocks(hold, yardstick, (front, rear), car)
    both = yardstick.load == "both"
    return replace(found, because=f"{load}; {found.because}" if both else found.because)


def _of_car(prepared: Prepared, name: str) -> Value:
    import numpy as np

    figure = prepared.figured(prepared.elements.car, name)
    return figure if isinstance(figure, float) else np.ravel(figure)


def _in_blocks(
    hold: Callable[..., Verdict],
    yardstick: Yardstick,
    forces: tuple[Value, Value],
    car: tuple[Value, ...],
) -> Verdict:
    """Hold thousands of samples some hundreds at a time, which is quicker than all at once."""
    import numpy as np

    rows = np.shape(forces[0])[0] if np.ndim(forces[0]) > 1 else 0
    if rows <= _BLOCK:
        return hold(yardstick, *forces, *car)
    found = []
    for start in range(0, rows, _BLOCK):
        at = slice(start, start + _BLOCK)
        own = (each[at] if isinstance(each, np.ndarray) else each for each in car)
        found.append(hold(yardstick, *(np.asarray(each)[at] for each in forces), *own))
    known = [each for each in found if each.margin is not None]
    if not known:
        return found[0]
    sizes = [min(_BLOCK, rows - start) for start in range(0, rows, _BLOCK)]
    margins = [
        np.full(size, np.inf) if each.margin is None else np.asarray(each.margin)
        for each, size in zip(found, sizes, strict=True)
    ]
    return replace(known[0], margin=np.concatenate(margins))


def _worst(verdicts: list[Verdict]) -> Verdict:
    """Put the least margins of several verdicts of one yardstick together, sample by sample."""
    import numpy as np

    known = [each for each in verdicts if each.margin is not None]
    if not known:
        return verdicts[0]
    if len(known) == 1:
        return known[0]
    margins = np.stack([np.asarray(each.margin) for each in known])
    at = np.argmin(margins, axis=0)
    # The words of the verdict that is worst most often stand for all.
    first = known[int(np.bincount(np.ravel(at)).argmax())]
    if margins.ndim == 1:
        return first
    margin: Value = np.take_along_axis(margins, at[np.newaxis], axis=0)[0]
    reached: Value | None = None
    if all(each.reached is not None for each in known):
        every = np.stack([np.asarray(each.reached) for each in known])
        reached = np.take_along_axis(every, at[np.newaxis], axis=0)[0]
    return replace(first, margin=margin, reached=reached)
