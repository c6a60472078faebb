"""What hot brakes still do: friction that falls, drums that grow away from their shoes, and fade.

How much friction a lining keeps hot is its maker's to say; nobody's figure was read, so it is
taken with a wide range. What is worked out here is what that range does to this car: a drum
multiplies the loss, and a drum that has grown asks the pedal for more fluid.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from bareshell.brakes.against import FOOT_N
from bareshell.brakes.answer import Load
from bareshell.brakes.failures import DRY_ROAD
from bareshell.brakes.figures import Figures
from bareshell.brakes.heat import HeatHistory
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.reached import firmest_without_lock, most_without_lock, slowing_at
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.verdicts import hold_hot
from bareshell.brakes.yardstick import Yardstick
from bareshell.calc import slab
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.calc.values import Value
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, PartKind, Wheel

__all__ = ["drum_growth", "friction_needed", "hot_figures", "hot_verdict"]

_HALVINGS: Final = 12
_IRON_PER_K: Final[Value] = 1.1e-5  # cast iron, from memory

# How much a given factor falls beside its friction: relative change over relative change, near a
# friction of 0.4; from memory of textbooks. From the shoes' arms it follows by itself.
_SENSITIVITY: Final[Mapping[str, float]] = MappingProxyType(
    {"leading-trailing": 1.4, "twin leading": 1.9, "twin trailing": 0.7, "duo-servo": 2.6}
)


def drum_growth(history: HeatHistory, wheel: Wheel) -> Value:
    """How much a drum's radius has grown at its hottest. [m].

    Parameters
    ----------
    history : HeatHistory
        A course as it was run.
    wheel : Wheel
        A wheel with a drum.

    Raises
    ------
    BadInput
        When that wheel has a disc.
    """
    found = history.at(wheel)
    if found.body.form != "drum":
        raise BadInput(f"{wheel} brake", "is a disc, which grows towards its pads", "ask a drum")
    warmer: Value = found.metal_c.max(axis=0) - found.metal_c[0]
    return slab.drum_growth(found.body.diameter_m / 2.0, warmer, _IRON_PER_K)


def hot_figures(
    system: BrakeSystem,
    figures: Figures,
    ratios: Figures,
    growth_m: Mapping[Wheel, Value] | None = None,
) -> Figures:
    """Return the figures of the same brakes hot.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        Those of the solve, cold.
    ratios : mapping of str to float or array
        With each part's ``hot_friction_ratio``, from `gather_heat` or samples of it.
    growth_m : mapping of Wheel to float or array, optional
        How much drums have grown, which their shoes must follow. [m]

    Returns
    -------
    mapping of str to float or array
        The same paths; frictions and given factors fallen, clearances of shoes grown.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.heat_figures import gather_heat
    >>> car = small_car()
    >>> cold = gather(car).figures
    >>> hot = hot_figures(car, cold, gather_heat(car).figures)
    >>> cold["caliper-front-left.pad_friction"], round(hot["caliper-front-left.pad_friction"], 3)
    (0.38, 0.342)
    """
    changed = dict(figures)
    for part in system.of_kind(PartKind.CALIPER, PartKind.DRUM):
        ratio = ratios.get(f"{part.id}.hot_friction_ratio")
        if ratio is None:
            continue
        for name in ("pad_friction", "lining_friction"):
            path = f"{part.id}.{name}"
            if path in changed:
                changed[path] = changed[path] * ratio
        factor = f"{part.id}.brake_factor"
        if factor in changed:
            touchy = _SENSITIVITY.get(part.choices.get("form", ""), 1.4)
            changed[factor] = changed[factor] * ratio**touchy
        clearance = f"{part.id}.shoe_clearance_m"
        if growth_m and part.wheel and clearance in changed:
            changed[clearance] = changed[clearance] + growth_m.get(part.wheel, 0.0)
    return MappingProxyType(changed)


def hot_verdict(
    cold: Prepared,
    hot: Prepared,
    yardstick: Yardstick,
    load: Load = "laden",
    *,
    friction_of_road: float = DRY_ROAD,
) -> Verdict:
    """Hold hot brakes against a yardstick, pressed as hard as they were cold.

    Parameters
    ----------
    cold, hot : Prepared
        The system with its figures cold, and with those of `hot_figures`.
    yardstick : Yardstick
        One about hot brakes.
    load : {"driver only", "laden"}
        How the car is loaded.
    friction_of_road : float
        Adhesion of the road that nothing may lock on. [-]

    Raises
    ------
    BadInput
        When the yardstick asks for something else, or figures are missing.
    """
    most = yardstick.forces.most_foot_n or FOOT_N
    push = firmest_without_lock(cold, most, load, friction_of_road)
    reached = most_without_lock(cold, most, load, friction_of_road) * GRAVITY_M_S2
    after = slowing_at(hot, push.force_n, load) * GRAVITY_M_S2
    found = hold_hot(yardstick, after, reached)
    return replace(found, because="friction hot is taken, with its range; only a test shows it")


def friction_needed(
    system: BrakeSystem, figures: Figures, yardstick: Yardstick, load: Load = "laden"
) -> float:
    """Find how much of their friction all linings must keep for a hot yardstick to be met.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float
        Those of the solve, cold.
    yardstick : Yardstick
        One about hot brakes.
    load : {"driver only", "laden"}
        How the car is loaded.

    Returns
    -------
    float
        Least hot friction over cold that still meets it; above 1 when even cold does not. [-]

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> car = small_car()
    >>> round(friction_needed(car, gather(car).figures, yardstick("fmvss-135-hot")), 1)
    0.6
    """
    cold = prepare(system, figures)
    lined = system.of_kind(PartKind.CALIPER, PartKind.DRUM)
    low, high = 0.05, 1.5
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        ratios = {f"{part.id}.hot_friction_ratio": middle for part in lined}
        hot = prepare(system, hot_figures(system, figures, ratios))
        if hot_verdict(cold, hot, yardstick, load).met:
            high = middle
        else:
            low = middle
    return high
