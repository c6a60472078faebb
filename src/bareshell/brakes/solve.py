"""From foot to road: pressures, torques, deceleration, adhesion used and travel of the pedal.

Figures come from `bareshell.brakes.figures.gather`, any of them replaced by arrays of samples.
Answers are those of a steady push on a level road, with brakes cold and linings bedded in. No
answer here proves that a car stops; a test does.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from bareshell.brakes.answer import Answer, Load, Piece, TravelBudget
from bareshell.brakes.bench import Bench
from bareshell.brakes.figured import as_row, brought_back, settled
from bareshell.brakes.figures import Figures
from bareshell.brakes.hydraulics import TOP_FORCE_N, Pushed
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.state import WHOLE, State
from bareshell.calc import balance, stopping, valves, volume
from bareshell.calc.values import Value, most
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Wheel

__all__ = ["PIECES", "answered", "solve"]

PIECES: Final[Mapping[str, str]] = {
    "free play": "free play of the pedal",
    "servo": "travel that the servo takes",
    "port closing": "stroke that closes the ports",
    "run to the stop": "stroke lost until a piston meets its stop",
    "pad clearance": "clearance of the pads",
    "shoe clearance": "clearance of the shoes",
    "pad squash": "pads squashed",
    "caliper flex": "calipers flexing",
    "drum flex": "drums and shoes flexing",
    "hoses": "hoses swelling",
    "pipes": "pipes stretching",
    "fluid": "fluid squeezed",
    "air": "air squeezed",
}
"""Every piece of the pedal's travel in words, from the foot to the wheels."""


def solve(
    system: BrakeSystem,
    figures: Figures,
    pedal_force_n: Value,
    load: Load,
    *,
    state: State = WHOLE,
) -> Answer:
    """Work out what a push of the foot does.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        By path, each a float or an array of samples; all arrays of one length.
    pedal_force_n : float or array
        Force of the foot, of any shape. [N]
    load : {"driver only", "laden"}
        How the car is loaded.
    state : State
        What has gone wrong; nothing, unless said.

    Returns
    -------
    Answer
        Numbers of the samples' shape followed by that of the forces.

    Raises
    ------
    BadInput
        When figures that any push needs are missing, when two parts cannot belong together, or a
        force is below zero.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> car = small_car()
    >>> answer = solve(car, gather(car).figures, 300.0, "driver only")
    >>> round(answer.deceleration_m_s2, 2), round(answer.travel.total_m * 1000)
    (7.28, 84)
    """
    return answered(prepare(system, figures), pedal_force_n, load, state=state)


def answered(
    prepared: Prepared,
    pedal_force_n: Value,
    load: Load,
    *,
    state: State = WHOLE,
    paired: bool = False,
) -> Answer:
    """Do what `solve` does, for a system that was looked over before.

    Parameters
    ----------
    prepared : Prepared
        From `bareshell.brakes.prepared.prepare`.
    pedal_force_n : float or array
        Force of the foot. [N]
    load, state : str, State
        As for `solve`.
    paired : bool
        When true, each sample has a force of its own: the forces have the samples' shape.
    """
    import numpy as np

    given = np.asarray(pedal_force_n, dtype=np.float64)
    if not np.all(given >= 0.0):
        raise BadInput("force of the foot", "is below zero or no number", "give zero or more")
    samples = prepared.figured.samples
    forces = as_row(given)
    shape: tuple[int, ...] = given.shape
    if paired:
        forces, shape = given.reshape(-1, 1), ()
    top = max(TOP_FORCE_N, float(np.max(forces, initial=0.0)))
    bench = prepared.bench(load, state, top_force_n=top)
    effective, on_floor = bench.effective(forces)
    pushed = bench.pushed(effective)

    def back(value: Any) -> Any:  # noqa: ANN401 - numbers come back as numbers
        return brought_back(value, samples, shape)

    return _answer(prepared, bench, pushed, (forces, effective, on_floor), state, back)


def _answer(
    prepared: Prepared,
    bench: Bench,
    pushed: Pushed,
    force: tuple[Any, Any, Any],
    state: State,
    back: Any,  # noqa: ANN401
) -> Answer:
    forces, effective, on_floor = force
    torques = bench.torques(pushed.legs)
    at_road = bench.forces(pushed.legs)
    front, rear = bench.axles(at_road)
    slowing = bench.deceleration_g(at_road)
    axle = bench.loads(deceleration_g=slowing)
    pressures = {
        name: pressure
        for each in pushed.pressed.values()
        for name, pressure in each.pressures.items()
    }
    share = settled(balance.rear_share)(front, rear)
    travel = None
    if bench.travel:
        travel = _budget(bench, pushed, effective, on_floor, back)
    return Answer(
        pedal_force_n=back(forces),
        load=bench.load,
        state=state,
        effective_force_n=back(effective),
        push_rod_n=back(pushed.rod_n),
        master_push_n={part: back(push) for part, push in pushed.pushes.items()},
        circuit_pressure_pa={name: back(pressure) for name, pressure in pressures.items()},
        chamber_pressure_pa=_chambers(bench, pushed, back),
        pressure_pa=_at_wheels(bench, pushed, back),
        wheel_torque_nm={wheel: back(each) for wheel, each in torques.items()},
        wheel_force_n={wheel: back(each) for wheel, each in at_road.items()},
        front_force_n=back(front),
        rear_force_n=back(rear),
        deceleration_m_s2=back(settled(stopping.deceleration_from_share)(slowing)),
        deceleration_g=back(slowing),
        front_adhesion_used=back(settled(balance.adhesion_used)(front, axle.front_n)),
        rear_adhesion_used=back(settled(balance.adhesion_used)(rear, axle.rear_n)),
        front_share=back(1.0 - share),
        servo_run_out=back(pushed.run_out),
        shuttles=_shuttles(bench, pushed, back),
        travel=travel,
        not_worked_out=prepared.missing_for("travel"),
    )


def _chambers(
    bench: Bench,
    pushed: Pushed,
    back: Any,  # noqa: ANN401
) -> dict[tuple[str, str], Value]:
    found: dict[tuple[str, str], Value] = {}
    for leg in bench.topology.legs.legs:
        pressure = pushed.legs.get(leg.number, 0.0)
        shaped = back(pressure)
        found.update(dict.fromkeys(sorted(leg.chambers), shaped))
    return found


def _at_wheels(
    bench: Bench,
    pushed: Pushed,
    back: Any,  # noqa: ANN401
) -> dict[Wheel, Value]:
    found: dict[Wheel, Value] = {}
    for wheel, group in bench.topology.actuators.items():
        highest: Value = 0.0
        for actuator in group:
            highest = most(highest, pushed.legs.get(actuator.leg, 0.0))
        found[wheel] = back(highest)
    return found


def _shuttles(
    bench: Bench,
    pushed: Pushed,
    back: Any,  # noqa: ANN401
) -> dict[str, Value]:
    found: dict[str, Value] = {}
    for shuttle in bench.topology.shuttles:
        shift = bench.elements.figures(shuttle.part, "shift_pa")
        front, rear = (
            pushed.legs.get(leg, 0.0 * pushed.rod_n)
            for leg in (shuttle.front_leg, shuttle.rear_leg)
        )
        side = settled(valves.shuttle_side, shift_difference_pa=shift)
        found[shuttle.part] = back(side(front_pa=front, rear_pa=rear))
    return found


def _budget(
    bench: Bench,
    pushed: Pushed,
    effective: Value,
    on_floor: Any,  # noqa: ANN401
    back: Any,  # noqa: ANN401
) -> TravelBudget:
    import numpy as np

    hydraulics = bench.hydraulics
    floor = hydraulics.floor_m
    total = np.minimum(pushed.pad_m, floor)
    on_stop: Any = np.asarray(False)
    strokes: dict[str, Value] = {}
    pieces = [_piece("free play", "", 0.0, hydraulics.free_play_m(effective), back)]
    if bench.topology.chain.servo:
        taken = hydraulics.servo_m(pushed.rod_n) * hydraulics.ratio
        pieces.append(_piece("servo", "", 0.0, taken, back))
    for each in bench.topology.chain.masters:
        pressed, cylinder = pushed.pressed[each.part], hydraulics.cylinders[each.part]
        on_stop = on_stop | pressed.on_stop
        strokes |= {name: back(stroke) for name, stroke in pressed.strokes.items()}
        to_pad = hydraulics.shares[each.side] * hydraulics.ratio
        for (key, circuit), run in cylinder.runs(pushed.pushes[each.part]).items():
            pieces.append(_piece(key, circuit, 0.0, run * to_pad, back))
        for circuit, pressure in pressed.pressures.items():
            flow = hydraulics.flows[circuit]
            if flow.circuit.lost:
                continue
            per_volume = cylinder.lengths()[circuit] * to_pad
            for key, taken in flow.pieces(pressure).items():
                pieces.append(_piece(key, circuit, taken, taken * per_volume, back))
            for part, stroke, ended in flow.slaves(pressure):
                strokes[part] = back(stroke)
                on_stop = on_stop | ended
    order = list(PIECES)
    pieces.sort(key=lambda piece: (piece.circuit, order.index(piece.key)))
    return TravelBudget(
        tuple(pieces),
        back(total),
        back(floor),
        back(settled(volume.stroke_reserve)(total, floor)),
        back(on_floor),
        back(on_stop),
        strokes,
    )


def _piece(
    key: str,
    circuit: str,
    volume_m3: Value,
    length_m: Value,
    back: Any,  # noqa: ANN401
) -> Piece:
    return Piece(key, PIECES[key], circuit, back(volume_m3), back(length_m))
