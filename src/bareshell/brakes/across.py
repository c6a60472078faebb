"""What is asked of all combinations besides the yardsticks: locks, floor, and how far figures go.

These questions are ours and no requirement: which axle locks first, and whether the pedal meets
the floor. A span says how far a figure goes over the combinations; it too is no chance.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Final

from bareshell.brakes.answer import Load
from bareshell.brakes.cases import Case, single_cases
from bareshell.brakes.failures import DRY_ROAD, HAND_N
from bareshell.brakes.figured import as_row, brought_back
from bareshell.brakes.parking import parked
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.reached import firmest_without_lock, most_without_lock
from bareshell.brakes.state import WHOLE, State
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.calc.values import Value
from bareshell.errors import BadInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Outcome", "Span", "different_cases", "outcomes", "span_of", "spans"]

PANIC_N: Final = 1500.0
"""The most that a leg gives: a push that is to lock a wheel if any does. Common practice, no \
source."""

_LOADS: Final[tuple[Load, ...]] = ("driver only", "laden")
_NEEDED: Final = ("pressure", "torque")


@dataclass(frozen=True, slots=True)
class Outcome:
    """One of our own questions, answered for each combination.

    Parameters
    ----------
    id : str
        Short and steady.
    words : str
        What holds where the margin is not below zero.
    margin : float or array or None
        How far it holds; None when it was not worked out.
    unit : str
        Of the margin: ``N`` or ``m``.
    because : str
        Why it was not worked out, or what was taken with it.
    """

    id: str
    words: str
    margin: Value | None
    unit: str
    because: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """How far a figure goes over all combinations.

    Parameters
    ----------
    id, words : str
        Which.
    quantity : str
        What it measures: ``m/s2``, ``length`` or ``slope``.
    low, middle, high : float
        What 5, 50 and 95 of 100 combinations stay below. [SI]
    """

    id: str
    words: str
    quantity: str
    low: float
    middle: float
    high: float


def span_of(words: tuple[str, str, str], value: Value) -> Span:
    """Say how far a figure goes.

    Parameters
    ----------
    words : tuple of str
        Its id, what it is, and what it measures.
    value : float or array
        For each combination. [SI]

    Examples
    --------
    >>> import numpy as np
    >>> found = span_of(("x", "x", "length"), np.arange(101.0))
    >>> found.low, found.middle, found.high
    (5.0, 50.0, 95.0)
    """
    import numpy as np

    low, middle, high = np.percentile(np.ravel(value), [5, 50, 95]).tolist()
    return Span(*words, low, middle, high)


def different_cases(prepared: Prepared) -> tuple[Case, ...]:
    """Return one single failure for each that leaves other brakes under the foot.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car("single line")
    >>> [case.kind for case in different_cases(prepare(car, gather(car).figures))]
    ['pipe or hose burst', 'air in a circuit', 'circuit blanked']
    """
    first: dict[object, Case] = {}
    whole = prepared.topology().effect()
    for case in single_cases(prepared.system):
        effect = prepared.topology(case.state).effect()
        if effect != whole and case.kind != "parking cable broken":
            first.setdefault(effect, case)
    return tuple(first.values())


def outcomes(
    prepared: Prepared, pedal_force_n: float, *, friction_of_road: float = DRY_ROAD
) -> tuple[Outcome, ...]:
    """Answer our own questions.

    Parameters
    ----------
    prepared : Prepared
        The system with samples of its figures.
    pedal_force_n : float
        The push at which the pedal's travel is asked for. [N]
    friction_of_road : float
        Adhesion of the road. [-]

    Returns
    -------
    tuple of Outcome
        Which axle locks first at each load; the floor with nothing failed, and with one thing.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> found = outcomes(prepare(car, gather(car).figures), 500.0)
    >>> [(each.id, each.margin >= 0.0) for each in found][::2]
    [('front-first-driver-only', True), ('off-floor', True)]
    """
    found = [_front_first(prepared, load, friction_of_road) for load in _LOADS]
    return (*found, *_off_floor(prepared, pedal_force_n))


def _front_first(prepared: Prepared, load: Load, road: float) -> Outcome:
    import numpy as np

    id_ = f"front-first-{load.replace(' ', '-')}"
    words = f"the front wheels lock before the rear, {load}"
    missing = prepared.missing_for(*_NEEDED, load)
    if missing:
        return Outcome(id_, words, None, "N", f"not known: {missing[0].words}")
    firmest = firmest_without_lock(prepared, PANIC_N, load, road)
    # Where no push locks a wheel, how far the rear is from it; elsewhere how far the other axle is.
    locks = np.maximum(firmest.front_over_n, firmest.rear_over_n) > -_NEAR_N
    margin = np.where(locks, firmest.front_over_n - firmest.rear_over_n, -firmest.rear_over_n)
    answer: Value = brought_back(margin, prepared.figured.samples, ())
    because = (
        f"on a road of {road:g}, at any push up to {PANIC_N:.0f} N; the margin is what the other "
        "axle's harder braked wheel still has as one is about to lock"
    )
    return Outcome(id_, words, answer, "N", because)


_NEAR_N: Final = 1.0
"""A wheel that is nearer to its limit than this locks. [N]"""


def _off_floor(prepared: Prepared, force_n: float) -> Iterator[Outcome]:
    import numpy as np

    whole = "the pedal stays off the floor"
    failed = "the pedal stays off the floor whatever one thing fails"
    missing = prepared.missing_for(*_NEEDED, "travel", "laden")
    if missing:
        because = f"not known: {missing[0].words}"
        yield Outcome("off-floor", whole, None, "m", because)
        yield Outcome("off-floor-failed", failed, None, "m", because)
        return
    at = f"at {force_n:.0f} N"
    yield Outcome("off-floor", whole, _left(prepared, force_n, WHOLE), "m", at)
    cases = different_cases(prepared)
    left = [_left(prepared, force_n, case.state) for case in cases]
    if left:
        margins = np.stack([np.broadcast_to(each, prepared.figured.samples) for each in left])
        often = int(np.bincount(np.ravel(np.argmin(margins, axis=0))).argmax())
        least: Value = reduce(np.minimum, left)
        because = f"{at}; most often the worst: {cases[often].words}"
        yield Outcome("off-floor-failed", failed, least, "m", because)


def _left(prepared: Prepared, force_n: float, state: State) -> Value:
    """Travel that is left before the floor; below zero where the pedal would go through it. [m]."""
    hydraulics = prepared.bench("laden", state).hydraulics
    left = hydraulics.floor_m - hydraulics.pad_m(as_row(force_n))
    found: Value = brought_back(left, prepared.figured.samples, ())
    return found


def spans(
    prepared: Prepared, pedal_force_n: float, *, friction_of_road: float = DRY_ROAD
) -> tuple[Span, ...]:
    """Say how far slowing, travel and holding go over all combinations; what is known of them.

    Parameters
    ----------
    prepared, pedal_force_n, friction_of_road
        As for `outcomes`.

    Returns
    -------
    tuple of Span
        Slowing whole at both loads, travel, slope held; then slowing with each thing failed.
    """
    return tuple(_spans(prepared, pedal_force_n, friction_of_road))


def _spans(prepared: Prepared, force_n: float, road: float) -> Iterator[Span]:
    import numpy as np

    loads = [load for load in _LOADS if not prepared.missing_for(*_NEEDED, load)]

    def slowing(load: Load, state: State = WHOLE) -> Value:
        return most_without_lock(prepared, force_n, load, road, state=state) * GRAVITY_M_S2

    for load in loads:
        words = f"slowing with nothing failed, {load}"
        yield span_of((f"slowing-{load.replace(' ', '-')}", words, "m/s2"), slowing(load))
    if loads and not prepared.missing_for("travel"):
        hydraulics = prepared.bench(loads[-1]).hydraulics
        pad: Value = np.minimum(hydraulics.pad_m(as_row(force_n)), hydraulics.floor_m)
        yield span_of(("travel", "travel of the pedal", "length"), pad)
    yield from _held(prepared)
    for case in different_cases(prepared) if loads else ():
        failed = (f"slowing-{case.id}", f"slowing with this: {case.words}", "m/s2")
        yield span_of(failed, slowing(loads[-1], case.state))


def _held(prepared: Prepared) -> Iterator[Span]:
    import numpy as np

    try:
        found = parked(prepared, HAND_N)
    except BadInput:
        return
    held: NDArray[np.float64] = np.minimum(found.nose_up.slope, found.nose_down.slope)
    words = f"steepest slope held both ways at {HAND_N:.0f} N, laden"
    yield span_of(("slope", words, "slope"), held)
