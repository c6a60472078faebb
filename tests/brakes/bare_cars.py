"""Small brake systems built by hand, with every loss at nothing, for sums done on paper.

The starters are left alone here on purpose: what is published is run through a graph of its own.
There is no fluid in them, so that travel is not worked out and no piston meets its stop.
"""

from __future__ import annotations

from collections.abc import Mapping

from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind, Part, PartKind, Port, Wheel
from bareshell.model.trust import Stated, Trust

LBF, INCH = 4.4482216152605, 0.0254
PSI = LBF / INCH**2
G = 9.80665

LOSSLESS_PEDAL = {"ratio": 1.0, "efficiency": 1.0, "return_n": 0.0, "free_play_m": 0.0}
LOSSLESS_MASTER = {
    "primary_spring_n": 0.0,
    "floating_spring_n": 0.0,
    "seal_friction_n": 0.0,
    "efficiency": 1.0,
}


def measured(figures: Mapping[str, float]) -> dict[str, Stated]:
    return {name: Stated(value, Trust.MEASURED) for name, value in figures.items()}


def part(
    name: str,
    kind: PartKind,
    figures: Mapping[str, float] | None = None,
    *,
    ports: tuple[Port, ...] = (),
    wheel: Wheel | None = None,
    **choices: str,
) -> Part:
    return Part(
        name, name, kind, wheel=wheel, figures=measured(figures or {}), choices=choices, ports=ports
    )


def pipe(name: str, start: tuple[str, str], end: tuple[str, str]) -> Line:
    return Line(name, name, LineKind.PIPE, (LineEnd(*start), LineEnd(*end)))


def car(
    weight_n: float,
    wheelbase_m: float,
    cg_to_front_m: float,
    height_m: float,
    radius_m: float = 0.3,
) -> Part:
    mass, share = weight_n / G, 1.0 - cg_to_front_m / wheelbase_m
    return part(
        "car",
        PartKind.CAR,
        {
            "wheelbase_m": wheelbase_m,
            "driver_only_mass_kg": mass,
            "driver_only_front_share": share,
            "laden_mass_kg": mass,
            "laden_front_share": share,
            "cg_height_m": height_m,
            "laden_cg_height_m": height_m,
            "front_rolling_radius_m": radius_m,
            "rear_rolling_radius_m": radius_m,
            "front_track_m": 1.3,
            "rear_track_m": 1.3,
            "scrub_radius_m": 0.03,
        },
    )


def disc_brake(wheel: Wheel, bore_m: float, friction: float, radius_m: float) -> tuple[Part, Part]:
    """A disc with one piston a side and no losses."""
    slug = wheel.value.replace(" ", "-")
    caliper = part(
        f"caliper-{slug}",
        PartKind.CALIPER,
        {
            "a_bore_m": bore_m,
            "a_pistons": 1.0,
            "efficiency": 1.0,
            "threshold_pa": 0.0,
            "pad_friction": friction,
        },
        ports=(Port("in", "a"),),
        wheel=wheel,
        form="fixed",
    )
    disc = part(f"disc-{slug}", PartKind.DISC, {"effective_radius_m": radius_m}, wheel=wheel)
    return caliper, disc


def tee(name: str, ways: int) -> Part:
    return part(name, PartKind.TEE, ports=tuple(Port(f"w{each}") for each in range(ways)))


def one_line_car(
    body: Part,
    brakes: Mapping[Wheel, tuple[float, float, float]],
    *,
    master_bore_m: float,
    pedal: Mapping[str, float] | None = None,
    rear_valve: Part | None = None,
) -> BrakeSystem:
    """One cylinder, discs as (bore, friction, radius) where there are any, a valve to the rear."""
    parts = [
        body,
        part("pedal", PartKind.PEDAL, {**LOSSLESS_PEDAL, **(pedal or {})}),
        part(
            "master",
            PartKind.MASTER,
            {"bore_m": master_bore_m, **_single(LOSSLESS_MASTER)},
            ports=(Port("out", "primary"),),
            form="single",
        ),
        tee("tee", 5),
    ]
    lines = [pipe("from-master", ("master", "out"), ("tee", "w0"))]
    if rear_valve is not None:
        parts += [rear_valve, tee("rear-tee", 3)]
        lines.append(pipe("to-valve", ("tee", "w4"), (rear_valve.id, "in")))
        lines.append(pipe("to-rear-tee", (rear_valve.id, "out"), ("rear-tee", "w0")))
    for place, (wheel, brake) in enumerate(brakes.items()):
        caliper, disc = disc_brake(wheel, *brake)
        parts += [caliper, disc]
        way = f"w{place + 1}"
        start = ("tee", way)
        if not wheel.is_front and rear_valve is not None:
            start = ("rear-tee", "w1" if wheel.is_left else "w2")
        lines.append(pipe(f"to-{caliper.id}", start, (caliper.id, "in")))
    return BrakeSystem("bare", "bare", parts=tuple(parts), lines=tuple(lines))


def _single(figures: Mapping[str, float]) -> dict[str, float]:
    return {name: value for name, value in figures.items() if not name.startswith("floating")}


def valve(form: str, **figures: float) -> Part:
    return part(
        "valve",
        PartKind.VALVE,
        figures,
        ports=(Port("in", "in"), Port("out", "out")),
        form=form,
    )
