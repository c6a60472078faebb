"""A wheel's brake as four lumps of heat, made from what is known of its parts.

Disc or drum, linings, caliper or cylinder, and the fluid in it. A disc takes its heat through both
faces, a drum through the inside of its rim only; each has its own mass, area and depth.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from typing import Final, Literal

from bareshell.brakes.answer import Answer, Load
from bareshell.brakes.figures import Figures
from bareshell.calc.values import Value, lowest
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Part, PartKind, Wheel

__all__ = ["BrakeBody", "HeatInput", "heat_input", "shares_of_answer"]

Form = Literal["disc", "drum"]

# From memory: iron 7200 kg/m3; linings with their steel about 700 J/(kg.K), iron bodies 500; glycol
# fluid about 1060 kg/m3 and 2300 J/(kg.K). Their spread is small beside that of the masses.
_IRON_KG_M3: Final = 7200.0
_LINING_J_KG_K: Final = 700.0
_BODY_J_KG_K: Final = 500.0
_FLUID_J_M3_K: Final = 1060.0 * 2300.0
_VANES_OVER_FACES: Final = 1.0
_WEB_HELPS: Final = 0.5  # bell or web is cooler than the band, and gives about half of its area
_VANE_IRON: Final = 1.15  # a vented disc's two cheeks and what stands between them
_LUMPS: Final = ("mass of the disc or drum", "linings", "caliper or cylinder", "fluid")
_RIM_OVER_LINING_M: Final = 0.006


@dataclass(frozen=True, slots=True)
class BrakeBody:
    """One wheel's brake as heat sees it.

    Parameters
    ----------
    wheel : Wheel
        Where it is.
    form : {"disc", "drum"}
        What is rubbed.
    title : str
        What its owner calls the disc or drum.
    capacities_j_k : four floats or arrays
        Heat that warms metal, linings, body and fluid by a kelvin. [J/K]
    links_w_k : three floats or arrays
        Heat flowing from each to the next for a kelvin between them. [W/K]
    energy_share : float or array
        Its share of what the brakes take from the car. [-]
    heat_share : float or array
        Share of that which goes into the metal. [-]
    specific_heat_j_kg_k : float or array
        Of the metal. [J/(kg.K)]
    diameter_m : float or array
        Outer diameter, for cooling; the drum's inside for its growth. [m]
    rubbed_area_m2 : float or array
        Both bands of a disc, the band of a drum. [m2]
    depth_m : float or array
        Half a solid disc, a cheek of a vented one, the rim of a drum. [m]
    cooled_area_m2, vane_area_m2, body_area_m2 : float or array
        What the air touches of metal, of its vanes, and of caliper or cylinder. [m2]
    cooling_ratio : float or array
        Cooling over what the published form gives. [-]
    rolling_radius_m : float or array
        Of the tyre. [m]
    """

    wheel: Wheel
    form: Form
    title: str
    capacities_j_k: tuple[Value, Value, Value, Value]
    links_w_k: tuple[Value, Value, Value]
    energy_share: Value
    heat_share: Value
    specific_heat_j_kg_k: Value
    diameter_m: Value
    rubbed_area_m2: Value
    depth_m: Value
    cooled_area_m2: Value
    vane_area_m2: Value
    body_area_m2: Value
    cooling_ratio: Value
    rolling_radius_m: Value

    def numbers(self) -> tuple[Value, ...]:
        """Every number of it, in one row."""
        skipped = {"wheel", "form", "title", "capacities_j_k", "links_w_k"}
        rest = (getattr(self, each.name) for each in fields(self) if each.name not in skipped)
        return (*self.capacities_j_k, *self.links_w_k, *rest)


@dataclass(frozen=True, slots=True)
class HeatInput:
    """The car and its brakes as heat sees them.

    Parameters
    ----------
    mass_kg : float or array
        Mass of the car and all in it. [kg]
    rotating_mass_ratio : float or array
        What wheels and the like add: 1 for nothing. [-]
    brakes : tuple of BrakeBody
        One for each wheel that brakes.
    """

    mass_kg: Value
    rotating_mass_ratio: Value
    brakes: tuple[BrakeBody, ...]

    def __post_init__(self) -> None:
        """Refuse what has no mass, or no band to rub."""
        for body in self.brakes:
            named = zip(_LUMPS, body.capacities_j_k, strict=True)
            for words, value in (*named, ("rubbed band", body.rubbed_area_m2)):
                if not lowest(value) > 0.0:
                    raise BadInput(
                        f"{words} of {body.title}",
                        "comes to nothing, or less",
                        "look at the masses and measures that were entered",
                    )

    def shapes(self) -> tuple[tuple[int, ...], ...]:
        """The shapes of its numbers, which must fit one another."""
        import numpy as np

        own = (self.mass_kg, self.rotating_mass_ratio)
        every = (*own, *(number for body in self.brakes for number in body.numbers()))
        return tuple(np.shape(number) for number in every)


def shares_of_answer(answer: Answer, deceleration_m_s2: float) -> dict[Wheel, Value]:
    """Share of the braking that each wheel takes at a deceleration, read off a solve.

    Parameters
    ----------
    answer : Answer
        Solved over rising forces of the foot (the last axis), or at one force.
    deceleration_m_s2 : float
        Where to read it; beyond the ends of the answer, its ends. [m/s2]

    Returns
    -------
    dict of Wheel to float or array
        They add up to one wherever anything brakes.
    """
    import numpy as np

    forces = {wheel: np.asarray(force) for wheel, force in answer.wheel_force_n.items()}
    total = np.asarray(sum(forces.values()))
    slowing = np.broadcast_to(np.asarray(answer.deceleration_m_s2), total.shape)
    some = np.where(total > 0.0, total, 1.0)
    shares = {wheel: np.broadcast_to(force, total.shape) / some for wheel, force in forces.items()}
    if np.ndim(answer.pedal_force_n) == 0:
        return {wheel: _plain(share) for wheel, share in shares.items()}
    # The first force that slows the car enough; none does beyond the last.
    enough = slowing >= deceleration_m_s2
    first = np.where(enough.any(axis=-1), enough.argmax(axis=-1), slowing.shape[-1] - 1)
    where = np.expand_dims(first, -1)
    return {
        wheel: _plain(np.take_along_axis(share, where, -1)[..., 0])
        for wheel, share in shares.items()
    }


def heat_input(
    system: BrakeSystem, figures: Figures, shares: Mapping[Wheel, Value], load: Load = "laden"
) -> HeatInput:
    """Make the lumps of every brake from the figures of its parts.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        What `bareshell.brakes.heat_figures.gather_heat` collected, or samples of it.
    shares : mapping of Wheel to float or array
        Share of the braking that each wheel takes. [-]
    load : {"driver only", "laden"}
        How the car is loaded.

    Raises
    ------
    BadInput
        When a figure is missing, or no wheel has a disc or drum.
    """
    car = next(iter(system.of_kind(PartKind.CAR)), None)
    if car is None:
        raise BadInput("car", "is not entered", "enter the car, its mass at the least")
    read = _Reader(figures)
    bodies = tuple(
        _body(system, read, wheel, share, car)
        for wheel, share in shares.items()
        if _rubbed(system, wheel) is not None
    )
    if not bodies:
        raise BadInput("heat", "no wheel has a disc or a drum", "enter them and their wheels")
    mass = read(car, f"{load.replace(' ', '_')}_mass_kg")
    return HeatInput(mass, read(car, "rotating_mass_ratio"), bodies)


class _Reader:
    """Figures by part and name; what is not there is refused in words."""

    def __init__(self, figures: Figures) -> None:
        self.figures = figures

    def __call__(self, part: Part, name: str) -> Value:
        try:
            return self.figures[f"{part.id}.{name}"]
        except KeyError:
            raise BadInput(
                f"{name.rpartition('_')[0].replace('_', ' ')} of {part.title}",
                "is not known",
                "enter it, or leave that brake out",
            ) from None

    def given(self, part: Part, name: str) -> Value | None:
        return self.figures.get(f"{part.id}.{name}")

    def total(self, parts: Iterable[Part], name: str) -> Value:
        return sum((self(part, name) for part in parts), start=0.0)


def _rubbed(system: BrakeSystem, wheel: Wheel) -> Part | None:
    for part in system.of_kind(PartKind.DISC, PartKind.DRUM):
        if part.wheel is wheel:
            return part
    return None


@dataclass(frozen=True, slots=True)
class _Metal:
    capacity_j_k: Value
    rubbed_area_m2: Value
    depth_m: Value
    cooled_area_m2: Value
    vane_area_m2: Value
    diameter_m: Value


def _disc(read: _Reader, part: Part) -> _Metal:
    outer = read(part, "outer_diameter_m")
    given = read.given(part, "rubbing_inner_diameter_m")
    inner = outer - 2.0 * read(part, "pad_height_m") if given is None else given
    band = math.pi / 4.0 * (outer * outer - inner * inner)
    vented = part.choices.get("form") == "vented"
    depth = read(part, "cheek_thickness_m") if vented else read(part, "thickness_m") / 2.0
    ring = 2.0 * depth * band * _IRON_KG_M3 * (_VANE_IRON if vented else 1.0)
    mass = read.given(part, "mass_kg")
    area = read.given(part, "cooled_area_m2")
    bell = _WEB_HELPS * math.pi / 2.0 * inner * inner
    cooled = 2.0 * band + math.pi * outer * 2.0 * depth + bell
    return _Metal(
        (ring if mass is None else mass) * read(part, "specific_heat_j_kg_k"),
        2.0 * band,
        depth,
        cooled if area is None else area,
        2.0 * band * _VANES_OVER_FACES if vented else 0.0 * band,
        outer,
    )


def _drum(read: _Reader, part: Part) -> _Metal:
    inside, lining = read(part, "diameter_m"), read(part, "lining_width_m")
    rim = read(part, "rim_thickness_m")
    wide = lining + _RIM_OVER_LINING_M
    mass = read.given(part, "mass_kg")
    area = read.given(part, "cooled_area_m2")
    iron = math.pi * (inside + rim) * wide * rim * _IRON_KG_M3
    web = _WEB_HELPS * math.pi / 4.0 * inside * inside
    return _Metal(
        (iron if mass is None else mass) * read(part, "specific_heat_j_kg_k"),
        math.pi * inside * lining,
        rim,
        math.pi * (inside + 2.0 * rim) * wide + web if area is None else area,
        0.0 * wide,
        inside,
    )


def _body(system: BrakeSystem, read: _Reader, wheel: Wheel, share: Value, car: Part) -> BrakeBody:
    part = _rubbed(system, wheel)
    assert part is not None  # noqa: S101 - the caller looked
    is_disc = part.kind is PartKind.DISC
    wanted = PartKind.CALIPER if is_disc else PartKind.WHEEL_CYLINDER
    working = tuple(each for each in system.of_kind(wanted) if each.wheel is wheel)
    if not working:
        raise BadInput(
            f"{wheel} brake",
            f"its {part.kind} has no {wanted}",
            f"enter the {wanted} and its wheel",
        )
    metal = _disc(read, part) if is_disc else _drum(read, part)
    if is_disc:
        linings = read.total(working, "pad_mass_kg")
        links = tuple(read.total(working, name) for name in _DISC_LINKS)
    else:
        linings = read(part, "lining_mass_kg")
        links = (*(read(part, name) for name in _DRUM_LINKS), read.total(working, _LAST_LINK))
    first, second, third = links
    axle = "front" if wheel.is_front else "rear"
    return BrakeBody(
        wheel,
        "disc" if is_disc else "drum",
        part.title,
        (
            metal.capacity_j_k,
            linings * _LINING_J_KG_K,
            read.total(working, "mass_kg") * _BODY_J_KG_K,
            read.total(working, "fluid_m3") * _FLUID_J_M3_K,
        ),
        (first, second, third),
        share,
        read(part, "heat_share"),
        read(part, "specific_heat_j_kg_k"),
        metal.diameter_m,
        metal.rubbed_area_m2,
        metal.depth_m,
        metal.cooled_area_m2,
        metal.vane_area_m2,
        read.total(working, "cooled_area_m2"),
        read(part, "cooling_ratio"),
        read(car, f"{axle}_rolling_radius_m"),
    )


_LAST_LINK: Final = "body_to_fluid_w_k"
_DISC_LINKS: Final = ("disc_to_pad_w_k", "pad_to_body_w_k", _LAST_LINK)
_DRUM_LINKS: Final = ("drum_to_shoe_w_k", "shoe_to_body_w_k")


def _plain(value: object) -> Value:
    import numpy as np

    array = np.asarray(value, dtype=np.float64)
    return float(array) if array.ndim == 0 else array
