"""An invented car whose brakes are known well enough to be heated."""

from __future__ import annotations

from dataclasses import replace

from bareshell.brakes.heat_body import BrakeBody, HeatInput
from bareshell.calc.values import Value
from bareshell.model.brake import BrakeSystem, Part, PartKind, Wheel
from bareshell.model.trust import Stated, Trust

CAR = {
    "driver_only_mass_kg": 1050.0,
    "laden_mass_kg": 1300.0,
    "front_rolling_radius_m": 0.29,
    "rear_rolling_radius_m": 0.29,
    "top_speed_m_s": 42.0,
}


def stated(**figures: float) -> dict[str, Stated]:
    return {name: Stated(value, Trust.MEASURED) for name, value in figures.items()}


def shares_of_axles(system: BrakeSystem, front_share: Value) -> dict[Wheel, Value]:
    """Share of the braking that each wheel takes, when both axles have brakes and share it so."""
    wheels = {part.wheel for part in system.parts if part.kind in (PartKind.DISC, PartKind.DRUM)}
    shares: dict[Wheel, Value] = {}
    for front, share in ((True, front_share), (False, 1.0 - front_share)):
        axle = [wheel for wheel in Wheel if wheel in wheels and wheel.is_front is front]
        shares |= {wheel: share / len(axle) for wheel in axle}
    return shares


def car() -> BrakeSystem:
    """Discs in front, drums behind."""
    parts = [Part("car", "the car", PartKind.CAR, figures=stated(**CAR))]
    for wheel in Wheel:
        at = wheel.value.replace(" ", "-")
        if wheel.is_front:
            parts += [
                Part(
                    f"{at}-disc",
                    f"{wheel} disc",
                    PartKind.DISC,
                    wheel,
                    figures=stated(outer_diameter_m=0.228, thickness_m=0.0095),
                    choices={"form": "solid"},
                ),
                Part(
                    f"{at}-caliper",
                    f"{wheel} caliper",
                    PartKind.CALIPER,
                    wheel,
                    figures=stated(a_bore_m=0.048, a_pistons=1.0),
                ),
            ]
        else:
            parts += [
                Part(
                    f"{at}-drum",
                    f"{wheel} drum",
                    PartKind.DRUM,
                    wheel,
                    figures=stated(diameter_m=0.203, lining_width_m=0.038),
                    choices={"form": "leading-trailing"},
                ),
                Part(
                    f"{at}-cylinder",
                    f"{wheel} cylinder",
                    PartKind.WHEEL_CYLINDER,
                    wheel,
                    figures=stated(bore_m=0.01778),
                ),
            ]
    return BrakeSystem("built", "an invented car", parts=tuple(parts))


def with_figures(system: BrakeSystem, part_id: str, **figures: float) -> BrakeSystem:
    parts = tuple(
        replace(part, figures={**part.figures, **stated(**figures)}) if part.id == part_id else part
        for part in system.parts
    )
    return replace(system, parts=parts)


def lone_body(wheel: Wheel = Wheel.FRONT_LEFT, **changes: object) -> BrakeBody:
    """One brake with round figures."""
    body = BrakeBody(
        wheel,
        "disc",
        f"{wheel} disc",
        (2500.0, 400.0, 1750.0, 60.0),
        (1.5, 1.0, 2.0),
        energy_share=1.0,
        heat_share=0.95,
        specific_heat_j_kg_k=500.0,
        diameter_m=0.26,
        rubbed_area_m2=0.05,
        depth_m=0.006,
        cooled_area_m2=0.06,
        vane_area_m2=0.0,
        body_area_m2=0.035,
        cooling_ratio=1.0,
        rolling_radius_m=0.29,
    )
    return replace(body, **changes)  # type: ignore[arg-type]


def lone(mass_kg: float = 400.0, **changes: object) -> HeatInput:
    return HeatInput(mass_kg, 1.0, (lone_body(**changes),))  # type: ignore[arg-type]
