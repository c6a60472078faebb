"""Hold a result against a yardstick, one result or ten thousand of them.

Each function takes plain figures, so that what was worked out, what a roller tester printed and
what a tape measured on the road are held against the same clauses in the same way.
"""

from __future__ import annotations

from bareshell.brakes.distribution import adhesion_margin, curves, lock_order_margin
from bareshell.brakes.verdict import Verdict, at_least, figure_words, not_worked_out, plain
from bareshell.brakes.yardstick import (
    Adhesion,
    Effort,
    Even,
    Hold,
    Hot,
    LockOrder,
    Slow,
    Volume,
    Yardstick,
)
from bareshell.calc import stopping
from bareshell.calc.values import Value
from bareshell.errors import BadInput

__all__ = [
    "hold_adhesion",
    "hold_deceleration",
    "hold_distance",
    "hold_effort",
    "hold_even",
    "hold_hot",
    "hold_lock_order",
    "hold_slope",
    "hold_volume",
]


def _wrong(yardstick: Yardstick, what: str) -> BadInput:
    return BadInput(
        "yardstick", f"{yardstick.id} asks for no {what}", f"it is about the {yardstick.subject}"
    )


# ------------------------------------------------------------------------ slowing


def hold_deceleration(yardstick: Yardstick, deceleration_m_s2: Value) -> Verdict:
    """Hold a deceleration against a yardstick of deceleration, distance or effort.

    Parameters
    ----------
    yardstick : Yardstick
        One that asks to slow.
    deceleration_m_s2 : float or array
        Steady deceleration within what foot or hand may do, and with no wheel locked. [m/s2]

    Raises
    ------
    BadInput
        When it asks for something else.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> hold_deceleration(yardstick("un-r13-circuit"), 3.4).words
    'meets 2.9 m/s2'
    >>> hold_deceleration(yardstick("uk-mot-service"), 4.4).words
    'short of 50 %'
    """
    asks = yardstick.asks
    if isinstance(asks, Slow):
        least = asks.steady_m_s2
        note = ""
        if asks.least_m_s2 is None:
            note = f"as the steady deceleration whose stop takes {asks.most_distance_m:.0f} m"
        return at_least(yardstick, least, deceleration_m_s2, "m/s2", note)
    if isinstance(asks, Effort):
        share = stopping.share_of_g(deceleration_m_s2)
        note = "force over weight, taken from the deceleration"
        return at_least(yardstick, asks.least, share, "share", note)
    raise _wrong(yardstick, "deceleration")


def hold_distance(yardstick: Yardstick, distance_m: Value, speed_m_s: Value) -> Verdict:
    """Hold a stopping distance against a yardstick, at the speed that it is asked from.

    Parameters
    ----------
    yardstick : Yardstick
        One that asks for a distance, or for a deceleration from a speed.
    distance_m : float or array
        From the first movement of the pedal to rest. [m]
    speed_m_s : float or array
        Speed at the start. [m/s]

    Raises
    ------
    BadInput
        When it asks for no distance.

    Notes
    -----
    Where the car was slower than 98 per cent of the speed asked for, the verdict is not worked out.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> hold_distance(yardstick("fmvss-135-circuit"), 150.0, 100 / 3.6).words
    'meets 168 m'
    """
    import numpy as np

    asks = yardstick.asks
    most = asks.distance_m() if isinstance(asks, Slow) else None
    if not isinstance(asks, Slow) or most is None or asks.speed_m_s is None:
        raise _wrong(yardstick, "distance")
    if np.min(np.asarray(speed_m_s)) < 0.98 * asks.speed_m_s:
        wanted = f"{asks.speed_m_s * 3.6:.0f} km/h"
        return not_worked_out(yardstick, f"the stop began below {wanted}, which it is asked from")
    return Verdict(yardstick, most, distance_m, most - distance_m, "m", f"{most:.0f} m")


def hold_effort(
    yardstick: Yardstick,
    efficiency: Value,
    *,
    wheels_locked: int = 0,
    wheels_braked: int = 4,
) -> Verdict:
    """Hold a roller test's efficiency against a yardstick, with its rule of locked wheels.

    Parameters
    ----------
    yardstick : Yardstick
        One that asks for a share of the weight.
    efficiency : float or array
        Sum of the efforts over the weight. [-]
    wheels_locked, wheels_braked : int
        How many of the wheels of the system locked.

    Raises
    ------
    BadInput
        When it asks for something else, or more wheels locked than are braked.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> mot = yardstick("uk-mot-service")
    >>> hold_effort(mot, 0.46, wheels_locked=3).words, hold_effort(mot, 0.46, wheels_locked=2).words
    ('meets 50 %', 'short of 50 %')
    """
    import numpy as np

    asks = yardstick.asks
    if not isinstance(asks, Effort):
        raise _wrong(yardstick, "share of the weight")
    locked = stopping.share_of_wheels_locked(float(wheels_locked), float(wheels_braked))
    if not (asks.by_locking and locked > 0.5):
        return at_least(yardstick, asks.least, efficiency, "share", "")
    margin: Value = np.maximum(np.asarray(efficiency) - asks.least, 0.0)
    because = f"by locking: {wheels_locked} of {wheels_braked} wheels locked"
    return Verdict(
        yardstick,
        asks.least,
        efficiency,
        plain(margin),
        "share",
        figure_words(asks.least, "share"),
        because,
    )


def hold_hot(yardstick: Yardstick, hot_m_s2: Value, cold_m_s2: Value) -> Verdict:
    """Hold what hot brakes reach against a yardstick, beside what they reached cold.

    Parameters
    ----------
    yardstick : Yardstick
        One about hot or recovered brakes.
    hot_m_s2, cold_m_s2 : float or array
        Deceleration hot and cold, at one force of the foot. [m/s2]

    Raises
    ------
    BadInput
        When it asks for something else.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> hold_hot(yardstick("un-r13h-hot"), 5.0, 7.9).words
    'meets 4.8 m/s2'
    >>> hold_hot(yardstick("un-r13h-hot"), 5.0, 8.6).words
    'short of 5.2 m/s2'
    """
    import numpy as np

    asks = yardstick.asks
    if not isinstance(asks, Hot):
        raise _wrong(yardstick, "hot brakes")
    least = np.maximum(asks.of_cold * np.asarray(cold_m_s2), asks.least_m_s2)
    margin = np.asarray(hot_m_s2) - least
    asked = figure_words(plain(least), "m/s2")
    if asks.most_of_cold:
        margin = np.minimum(margin, asks.most_of_cold * np.asarray(cold_m_s2) - hot_m_s2)
        asked = f"{asks.of_cold * 100:.0f} to {asks.most_of_cold * 100:.0f} % of cold"
    return Verdict(yardstick, plain(least), hot_m_s2, plain(margin), "m/s2", asked)


# ------------------------------------------------------------------------ holding, evenness, volume


def hold_slope(
    yardstick: Yardstick, up: Value, down: Value, *, steepest_climbed: float | None = None
) -> Verdict:
    """Hold the slopes that a parking brake holds, nose up and nose down, against a yardstick.

    Parameters
    ----------
    yardstick : Yardstick
        One that asks to hold a slope, or a share of the weight.
    up, down : float or array
        Steepest slopes held within what the hand may do, tyres included; rise over run. [-]
    steepest_climbed : float, optional
        The steepest slope that the car climbs, for the rule that asks for it. [-]

    Raises
    ------
    BadInput
        When it asks for something else.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> hold_slope(yardstick("un-r13h-parking"), 0.24, 0.19).words
    'short of 20 %'
    """
    import numpy as np

    asks = yardstick.asks
    if not isinstance(asks, Hold):
        raise _wrong(yardstick, "slope")
    if asks.with_trailer:
        return not_worked_out(yardstick, "the trailer's mass is not known here")
    slope = asks.slope if asks.slope is not None else steepest_climbed
    if slope is None:
        return not_worked_out(yardstick, "say which slope is the steepest that the car climbs")
    held = plain(np.minimum(np.asarray(up), np.asarray(down)))
    because = f"for {asks.minutes:g} minutes: only time shows that" if asks.minutes else ""
    return at_least(yardstick, slope, held, "slope", because)


def hold_even(
    yardstick: Yardstick,
    left_n: float,
    right_n: float,
    *,
    left_locked: bool = False,
    right_locked: bool = False,
    steered: bool = False,
) -> Verdict:
    """Hold one axle's two efforts against a yardstick of imbalance.

    Parameters
    ----------
    yardstick : Yardstick
        One about imbalance.
    left_n, right_n : float
        Greatest effort of each wheel. [N]
    left_locked, right_locked : bool
        Whether it locked.
    steered : bool
        Whether the axle steers.

    Raises
    ------
    BadInput
        When it asks for something else.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> mot = yardstick("uk-mot-imbalance")
    >>> hold_even(mot, 1961.0, 1373.0).words, hold_even(mot, 1961.0, 1363.0).words
    ('meets 70 %', 'short of 70 %')
    """
    asks = yardstick.asks
    if not isinstance(asks, Even):
        raise _wrong(yardstick, "evenness")
    if asks.steered_only and not steered:
        return not_worked_out(yardstick, "the axle does not steer")
    higher = max(left_n, right_n)
    if higher <= asks.left_aside_below_n * (1 + 1e-9):
        kgf = asks.left_aside_below_n / stopping.GRAVITY_M_S2
        return not_worked_out(yardstick, f"left aside: the stronger reads {kgf:.0f} kgf or less")
    lower_locked = left_locked if left_n < right_n else right_locked
    if left_n != right_n and lower_locked:
        return not_worked_out(yardstick, "left aside: the weaker wheel locked")
    ratio = stopping.weaker_wheel_ratio(left_n, right_n)
    return at_least(yardstick, asks.least, ratio, "share", "")


def hold_volume(yardstick: Yardstick, needed_m3: Value, there_is_m3: Value) -> Verdict:
    """Hold a reservoir's volume against what its pistons take until the linings are worn.

    Parameters
    ----------
    yardstick : Yardstick
        One about the reservoir.
    needed_m3, there_is_m3 : float or array
        What the pistons take, and what the reservoir holds. [m3]

    Raises
    ------
    BadInput
        When it asks for something else.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> hold_volume(yardstick("fmvss-135-reservoir"), 80e-6, 95e-6).words
    'meets 80 ml'
    """
    if not isinstance(yardstick.asks, Volume):
        raise _wrong(yardstick, "volume")
    return at_least(yardstick, needed_m3, there_is_m3, "m3", "")


# ------------------------------------------------------------------------ the axles


def hold_adhesion(
    yardstick: Yardstick,
    front_force_n: Value,
    rear_force_n: Value,
    mass_kg: Value,
    wheelbase_m: Value,
    cg_to_front_m: Value,
    cg_height_m: Value,
) -> Verdict:
    """Hold the axles' forces over a rising push against a line of use of adhesion.

    Parameters
    ----------
    yardstick : Yardstick
        One about the distribution between the axles.
    front_force_n, rear_force_n : array
        Forces at the road as the push rises along the last axis. [N]
    mass_kg, wheelbase_m, cg_to_front_m, cg_height_m : float or array
        The car as loaded; arrays have the other axes.

    Raises
    ------
    BadInput
        When it asks for something else.
    """
    asks = yardstick.asks
    if not isinstance(asks, Adhesion):
        raise _wrong(yardstick, "use of adhesion")
    forces = (front_force_n, rear_force_n)
    drawn = curves(*forces, mass_kg, wheelbase_m, cg_to_front_m, cg_height_m, asks.gravity_m_s2)
    found = adhesion_margin(drawn, asks)
    words = f"z = 0.1 + {asks.slope:g} (k - 0.2)"
    because = (
        f"least margin of z where an axle uses {asks.from_k:g} to {asks.to_k:g}; gravity is taken "
        f"as {asks.gravity_m_s2:g} m/s2, as the rule has it"
    )
    return _of_curves(yardstick, found, words, because)


def hold_lock_order(
    yardstick: Yardstick,
    front_force_n: Value,
    rear_force_n: Value,
    mass_kg: Value,
    wheelbase_m: Value,
    cg_to_front_m: Value,
    cg_height_m: Value,
) -> Verdict:
    """Hold the axles' forces over a rising push against a rule of which axle locks first.

    Parameters
    ----------
    yardstick : Yardstick
        One about the order of locking.
    front_force_n, rear_force_n : array
        Forces at the road as the push rises along the last axis. [N]
    mass_kg, wheelbase_m, cg_to_front_m, cg_height_m : float or array
        The car as loaded; arrays have the other axes.

    Raises
    ------
    BadInput
        When it asks for something else.
    """
    asks = yardstick.asks
    if not isinstance(asks, LockOrder):
        raise _wrong(yardstick, "order of locking")
    forces = (front_force_n, rear_force_n)
    drawn = curves(*forces, mass_kg, wheelbase_m, cg_to_front_m, cg_height_m, asks.gravity_m_s2)
    found = lock_order_margin(drawn, asks)
    words = f"front first from {asks.from_z:.2f} to {asks.to_z:.2f} g"
    because = "least of the front's use of adhesion over the rear's, exceptions counted"
    return _of_curves(yardstick, found, words, because)


def _of_curves(yardstick: Yardstick, margin: Value, words: str, because: str) -> Verdict:
    import numpy as np

    if np.all(np.isnan(margin)):
        return not_worked_out(yardstick, "the brakes do not slow the car enough to say")
    # Where a sample never gets there, the rule asks nothing of it.
    counted = plain(np.where(np.isnan(margin), np.inf, margin))
    return Verdict(yardstick, None, None, counted, "adhesion", words, because)
