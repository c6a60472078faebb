"""Which figures heat reads of a brake system: known, taken as usual, or missing.

The same results as `bareshell.brakes.figures` gives for the solve, by the same paths, so that both
can be sampled together.
"""

from __future__ import annotations

from collections.abc import Iterator
from types import MappingProxyType
from typing import Final

from bareshell.brakes.answer import Load
from bareshell.brakes.assumed_heat import usual_in_heat
from bareshell.brakes.figures import Assumed, Gathered, InputRange, Missing
from bareshell.brakes.needs import Need
from bareshell.model.brake import BrakeSystem, Part, PartKind, field_of
from bareshell.model.trust import Trust

__all__ = ["gather_heat", "heat_needs", "heat_ranges"]

PURPOSES: Final = ("heat", "fade")
"""What a figure may be needed for here; a fade series begins at a share of the top speed."""

# kind | figure | needed for | how to find it
_TABLE: Final = """
car | driver_only_mass_kg | heat | weigh the car with its driver
car | laden_mass_kg | heat | weigh it loaded, or take the plated weight
car | rotating_mass_ratio | heat | keep the range: what wheels add is small
car | front_rolling_radius_m | heat | roll the car one turn of the wheel and measure
car | rear_rolling_radius_m | heat | roll the car one turn of the wheel and measure
car | top_speed_m_s | fade | take it from the car's data
disc | outer_diameter_m | heat | measure the disc across
disc | pad_height_m | heat | measure the lining from inner to outer edge
disc | thickness_m | heat | measure the disc with a micrometer
disc | cheek_thickness_m | heat | measure one cheek of the vented disc
disc | heat_share | heat | keep the range: pads cover a part of the ring only
disc | specific_heat_j_kg_k | heat | say if the disc is not cast iron
disc | cooling_ratio | heat | take a disc's temperature after a descent
drum | diameter_m | heat | measure the drum across
drum | lining_width_m | heat | measure the lining across
drum | rim_thickness_m | heat | measure the rim of the drum
drum | heat_share | heat | keep the range
drum | specific_heat_j_kg_k | heat | say if the drum is not cast iron: aluminium takes 900
drum | cooling_ratio | heat | take a drum's temperature after a descent
drum | lining_mass_kg | heat | weigh both shoes with their linings
drum | drum_to_shoe_w_k | heat | keep the range: nothing published was read
drum | shoe_to_body_w_k | heat | keep the range: nothing published was read
drum | hot_friction_ratio | fade | try the brakes hot, away from traffic
caliper | mass_kg | heat | weigh the caliper
caliper | pad_mass_kg | heat | weigh both pads
caliper | fluid_m3 | heat | fill it with a syringe
caliper | disc_to_pad_w_k | heat | keep the range: nothing published was read
caliper | pad_to_body_w_k | heat | keep the range: nothing published was read
caliper | body_to_fluid_w_k | heat | keep the range: nothing published was read
caliper | cooled_area_m2 | heat | measure the outside of the caliper
caliper | hot_friction_ratio | fade | try the brakes hot, away from traffic
wheel cylinder | mass_kg | heat | weigh the cylinder
wheel cylinder | fluid_m3 | heat | fill it with a syringe
wheel cylinder | body_to_fluid_w_k | heat | keep the range: nothing published was read
wheel cylinder | cooled_area_m2 | heat | measure the outside of cylinder and plate
"""

# Read when they are stated; otherwise they follow from the part's measures, or are not needed.
_IF_STATED: Final = {
    PartKind.DISC: ("mass_kg", "cooled_area_m2", "rubbing_inner_diameter_m"),
    PartKind.DRUM: ("mass_kg", "cooled_area_m2"),
}

_ROWS: Final = tuple(
    tuple(cell.strip() for cell in row.split("|")) for row in _TABLE.strip().splitlines()
)


def _read(part: Part, load: Load) -> Iterator[tuple[str, str, str]]:
    """Yield the figures that are read of a part: name, purpose, how to find it."""
    for kind, name, purpose, how in _ROWS:
        if kind == part.kind.value and _wanted(part, name, load):
            yield name, purpose, how


def _wanted(part: Part, name: str, load: Load) -> bool:
    if part.kind is PartKind.CAR and name.endswith("mass_kg"):
        return name == f"{load.replace(' ', '_')}_mass_kg"
    if part.kind is not PartKind.DISC:
        return True
    if name == "pad_height_m":
        return "rubbing_inner_diameter_m" not in part.figures
    if name == "cheek_thickness_m":
        return part.choices.get("form") == "vented"
    return name != "thickness_m" or part.choices.get("form") != "vented"


def heat_needs(system: BrakeSystem, load: Load = "laden") -> tuple[Need, ...]:
    """Return every figure that heat reads, with how a person finds it.

    Parameters
    ----------
    system, load
        As for `gather_heat`.

    Examples
    --------
    >>> disc = Part("d", "disc", PartKind.DISC)
    >>> heat_needs(BrakeSystem("x", "x", parts=(disc,)))[0].how
    'measure the disc across'
    """
    return tuple(
        Need(part, name, (purpose,), how)
        for part in system.parts
        for name, purpose, how in _read(part, load)
    )


def gather_heat(system: BrakeSystem, load: Load = "laden") -> Gathered:
    """Collect every figure that heat reads.

    Parameters
    ----------
    system : BrakeSystem
        As entered; it may be half finished.
    load : {"driver only", "laden"}
        How the car is loaded.

    Returns
    -------
    Gathered
        Known and assumed figures, and what is missing.

    Examples
    --------
    >>> from bareshell.model.trust import Stated
    >>> disc = Part("d", "disc", PartKind.DISC, figures={"outer_diameter_m": Stated(0.228)})
    >>> found = gather_heat(BrakeSystem("x", "x", parts=(disc,)))
    >>> found.figures["d.outer_diameter_m"], found.figures["d.heat_share"]
    (0.228, 0.95)
    >>> [each.path for each in found.missing]
    ['car']
    """
    figures: dict[str, float] = {}
    assumed: list[Assumed] = []
    missing: list[Missing] = []
    if not system.of_kind(PartKind.CAR):
        missing.append(Missing("car", "car", "enter the car", ("heat",)))
    for part in system.parts:
        known = {name: stated.value for name, stated in part.figures.items()}
        for name in _IF_STATED.get(part.kind, ()):
            if name in known:
                figures[f"{part.id}.{name}"] = known[name]
        for name, purpose, how in _read(part, load):
            path = f"{part.id}.{name}"
            if name in known:
                figures[path] = known[name]
                continue
            words = f"{field_of(part.kind, name).words} ({part.title})"
            found = usual_in_heat(part, name, known)
            if found is None:
                missing.append(Missing(path, words, how, (purpose,)))
                continue
            figures[path] = known[name] = found.value
            assumed.append(Assumed(path, words, found.value, found.low, found.high, found.mark))
    return Gathered(MappingProxyType(figures), tuple(assumed), tuple(missing))


def heat_ranges(system: BrakeSystem, gathered: Gathered) -> tuple[InputRange, ...]:
    """Say in which range every figure that heat reads may lie.

    Parameters
    ----------
    system : BrakeSystem
        The same that was gathered.
    gathered : Gathered
        From `gather_heat`.

    Returns
    -------
    tuple of InputRange
        In the order they were gathered.

    Examples
    --------
    >>> disc = Part("d", "disc", PartKind.DISC)
    >>> system = BrakeSystem("x", "x", parts=(disc,))
    >>> first = heat_ranges(system, gather_heat(system))[0]
    >>> first.path, first.low, first.high
    ('d.thickness_m', 0.008, 0.013)
    """
    taken = {each.path: each for each in gathered.assumed}
    found: list[InputRange] = []
    for path, value in gathered.figures.items():
        if path in taken:
            it = taken[path]
            found.append(InputRange(path, it.words, it.low, it.value, it.high, Trust.ASSUMED))
            continue
        part_id, _, name = path.partition(".")
        part = system.part(part_id)
        stated = part.figures[name]
        words = f"{field_of(part.kind, name).words} ({part.title})"
        low = value if stated.low is None else stated.low
        high = value if stated.high is None else stated.high
        found.append(InputRange(path, words, low, value, high, stated.trust))
    return tuple(found)
