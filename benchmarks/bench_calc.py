"""How long the formulas take for one car, and for ten thousand samples of it in one call."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import numpy as np

from bareshell.calc import Value, balance, disc, loads, master, pedal, servo, tyre, valves


def slowing(pedal_force: Value, friction: Value, height: Value) -> list[Value]:
    """From the foot to the adhesion that both axles use: an invented car."""
    rod = pedal.push_rod_force(pedal_force, 4.5, 0.8, 15.0)
    boosted = servo.vacuum_servo_force(rod, 2.2, 1500.0, 40.0)
    front = master.line_pressure(boosted, 0.019, 50.0, 20.0, 0.98)
    rear = valves.proportioning(front, 2.5e6, 0.35)
    forces = []
    for pressure, area, radius in ((front, 1.8e-3, 0.105), (rear, 0.9e-3, 0.1)):
        clamp = disc.clamp_force(pressure, area, 5e4, 0.97)
        torque = disc.disc_torque(clamp, friction, radius)
        forces.append(2.0 * tyre.force_at_road(torque, 0.28))
    z = balance.deceleration_from_forces(forces[0], forces[1], 1.1e4)
    axles = loads.axle_loads(1.1e4, 2.4, 1.1, height, z)
    return [balance.adhesion_used(*pair) for pair in zip(forces, axles, strict=True)]


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """A curve of 100 points by floats, and the same car sampled ten thousand times."""
    chance = np.random.default_rng(1)
    force = chance.uniform(50.0, 500.0, 10_000)
    friction = chance.normal(0.38, 0.03, 10_000)
    height = chance.normal(0.53, 0.02, 10_000)
    return [
        case(
            "foot to tyre, 100 forces one by one",
            lambda: [slowing(float(f), 0.38, 0.53) for f in force[:100]],
            0.05,
        ),
        case("foot to tyre, 10,000 samples", lambda: slowing(force, friction, height), 0.05),
    ]
