"""One push of the foot, and a rising one, as plain figures."""

from __future__ import annotations

import math
from collections import defaultdict

from bareshell.brakes.answer import Answer, Limited, Load, TravelBudget
from bareshell.brakes.inverse import crossing, force_found, limited, locking
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.solve import answered
from bareshell.brakes.state import WHOLE, State
from bareshell.calc import stopping
from bareshell.calc.values import Value
from bareshell.model.brake import Wheel
from bareshell.whole.brake_parts import (
    CircuitPressure,
    ForceView,
    LockView,
    PushCurve,
    PushView,
    TravelPieceView,
    TravelView,
    WheelPush,
)

CURVE_POINTS = 61
DECELERATIONS_G = (0.3, 0.5, 0.7)
"""The decelerations whose force of the foot is said: a gentle stop, a firm one, a hard one."""


def plain(value: Value) -> float:
    """Return one figure as a plain number."""
    return float(value)


def known(value: Value) -> float | None:
    """Return one figure, or None when it is endless or none at all."""
    figure = float(value)
    return figure if math.isfinite(figure) else None


def push_view(
    prepared: Prepared, pedal_force_n: float, load: Load, road: float, state: State = WHOLE
) -> PushView:
    """Work one push out on a road.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> push_view(prepare(car, gather(car).figures), 300.0, "laden", 0.8).locked
    ()
    """
    answer = answered(prepared, pedal_force_n, load, state=state)
    on_road = limited(prepared, pedal_force_n, load, road, state=state)
    return view_of(prepared, answer, on_road)


def view_of(prepared: Prepared, answer: Answer, on_road: Limited) -> PushView:
    """Lay an answer for one push out as plain figures."""
    topology = prepared.topology(answer.state)
    return PushView(
        pedal_force_n=plain(answer.pedal_force_n),
        load=answer.load,
        deceleration_m_s2=plain(answer.deceleration_m_s2),
        deceleration_g=plain(answer.deceleration_g),
        on_road_m_s2=plain(on_road.deceleration_m_s2),
        locked=tuple(wheel.value for wheel, locked in on_road.locked.items() if locked),
        front_adhesion_used=plain(answer.front_adhesion_used),
        rear_adhesion_used=plain(answer.rear_adhesion_used),
        front_share=plain(answer.front_share),
        push_rod_n=plain(answer.push_rod_n),
        servo_run_out=bool(answer.servo_run_out),
        circuits=tuple(
            CircuitPressure(key, topology.circuits[key].words, plain(pressure))
            for key, pressure in answer.circuit_pressure_pa.items()
        ),
        wheels=tuple(
            WheelPush(
                wheel.value,
                plain(answer.pressure_pa[wheel]) if wheel in answer.pressure_pa else None,
                plain(answer.wheel_torque_nm[wheel]),
                plain(answer.wheel_force_n[wheel]),
            )
            for wheel in Wheel
            if wheel in answer.wheel_torque_nm
        ),
        travel=None if answer.travel is None else travel_view(answer.travel),
    )


def travel_view(travel: TravelBudget) -> TravelView:
    """Put the pieces of both circuits together: the pedal does not tell them apart."""
    lengths: dict[str, float] = defaultdict(float)
    words: dict[str, str] = {}
    for piece in travel.pieces:
        lengths[piece.key] += plain(piece.length_m)
        words[piece.key] = piece.words
    total, floor = plain(travel.total_m), plain(travel.floor_m)
    return TravelView(
        pieces=tuple(
            TravelPieceView(key, words[key], length)
            for key, length in lengths.items()
            if abs(length) > 1e-6
        ),
        total_m=total,
        floor_m=floor,
        left_m=floor - total,
        on_floor=bool(travel.on_floor),
        on_stop=bool(travel.on_stop),
    )


def push_curve(prepared: Prepared, most_n: float, load: Load, state: State = WHOLE) -> PushCurve:
    """Work a rising push out."""
    import numpy as np

    forces = np.linspace(0.0, most_n, CURVE_POINTS)
    answer = answered(prepared, forces, load, state=state)

    def row(value: Value) -> tuple[float, ...]:
        spread = np.broadcast_to(np.asarray(value, dtype=np.float64), forces.shape)
        # An axle that is lifted clear uses adhesion without end; nobody can draw that.
        return tuple(round(float(each), 9) for each in np.nan_to_num(spread, posinf=99.0))

    return PushCurve(
        load=load,
        pedal_force_n=row(forces),
        deceleration_g=row(answer.deceleration_g),
        front_adhesion_used=row(answer.front_adhesion_used),
        rear_adhesion_used=row(answer.rear_adhesion_used),
        travel_m=() if answer.travel is None else row(answer.travel.total_m),
        front_force_n=row(answer.front_force_n),
        rear_force_n=row(answer.rear_force_n),
    )


def lock_view(prepared: Prepared, road: float, load: Load, state: State = WHOLE) -> LockView:
    """Find which axle locks first on a road."""
    order = locking(prepared, road, load, state=state)
    return LockView(
        load=load,
        friction_of_road=road,
        first=str(order.first),
        front_g=known(order.front_g),
        rear_g=known(order.rear_g),
        before_lock_g=plain(order.before_lock_g),
        before_lock_force_n=plain(order.before_lock_force_n),
        crossing_g=known(crossing(prepared, load, state=state)),
    )


def forces_for(prepared: Prepared, load: Load, state: State = WHOLE) -> tuple[ForceView, ...]:
    """Find the force of the foot for each of some decelerations."""
    found = []
    for share in DECELERATIONS_G:
        wanted = share * stopping.GRAVITY_M_S2
        each = force_found(prepared, wanted, load, state=state)
        force = known(each.pedal_force_n)
        found.append(ForceView(load, share, force, "" if force is not None else each.because))
    return tuple(found)
