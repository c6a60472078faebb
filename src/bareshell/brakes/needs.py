"""Which figures the solve reads of each part, what each is for, and how a person finds it.

A figure is read only where the part's form asks for it: a limiting valve has a knee and no slope.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from bareshell.model.brake import BrakeSystem, Line, LineKind, Part, PartKind, Wheel

__all__ = ["PURPOSES", "Need", "WordNeed", "needs_of", "word_needs_of"]

PURPOSES: Final = (
    "pressure",
    "torque",
    "driver only",
    "laden",
    "travel",
    "side pull",
    "steering",
    "parking",
    "clicks",
)
"""What a figure may be needed for. Without pressure or torque no deceleration is worked out."""

# kind | figure | needed for | how to find it
_TABLE: Final = """
car | wheelbase_m | driver only, laden, parking | measure from hub centre to hub centre
car | driver_only_mass_kg | driver only | weigh the car with its driver, axle by axle
car | driver_only_front_share | driver only | weigh each axle on its own
car | laden_mass_kg | laden, parking | weigh it loaded, or take the plated weight
car | laden_front_share | laden, parking | weigh each axle loaded, or take the plated axle weights
car | cg_height_m | driver only, laden, parking | weigh the front with the rear axle lifted
car | laden_cg_height_m | laden, parking | weigh the front with the rear axle lifted, loaded
car | front_rolling_radius_m | torque, parking | roll the car one turn of the wheel and measure
car | rear_rolling_radius_m | torque, parking | roll the car one turn of the wheel and measure
car | front_track_m | side pull | measure between the middles of the front tyres
car | rear_track_m | side pull | measure between the middles of the rear tyres
car | scrub_radius_m | steering | measure from where the steering axis meets the road to the tyre
pedal | ratio | pressure | measure pivot to pad and pivot to push rod, and divide
pedal | efficiency | pressure | compare push rod and pad with two scales
pedal | return_n | pressure | pull the pad with a spring scale, push rod off
pedal | free_play_m | travel | press by hand until the rod touches
pedal | floor_travel_m | travel | measure from the pad at rest to the floor
servo | boost_ratio | pressure | look for it in the maker's data
servo | vacuum_pa | pressure | read a gauge at the servo, engine idling
servo | diaphragm_diameter_m | pressure | measure the shell and take off its rolled edge
servo | efficiency | pressure | look for it in the maker's data
servo | spring_n | pressure | look for it in the maker's data
servo | cut_in_n | pressure | press until the servo answers, with a scale
servo | dead_drag_n | pressure | compare the pressures of a push with and without vacuum
servo | lost_travel_m | travel | measure the rods' travel against each other
balance bar | front_share | pressure | measure bearing to each clevis along the bar
master cylinder | bore_m | pressure | measure the bore, or read it off the body
master cylinder | floating_bore_m | pressure | measure the bore ahead of the step
master cylinder | primary_spring_n | pressure | weigh the spring at its fitted length
master cylinder | floating_spring_n | pressure | weigh the spring at its fitted length
master cylinder | seal_friction_n | pressure | push the dry piston along its bore with a scale
master cylinder | efficiency | pressure | compare push and gauge pressure
master cylinder | primary_stroke_m | travel | push the first piston on the bench and measure
master cylinder | floating_stroke_m | travel | push the floating piston on the bench and measure
master cylinder | port_closing_m | travel | measure from rest until fluid no longer wells up
remote servo | boost_ratio | pressure | look for it in the maker's data
remote servo | threshold_pa | pressure | watch two gauges for where they part
remote servo | vacuum_pa | pressure | read a gauge at the servo, engine idling
remote servo | diaphragm_diameter_m | pressure | measure the shell and take off its rolled edge
remote servo | slave_bore_m | pressure | measure the slave's bore
remote servo | efficiency | pressure | look for it in the maker's data
remote servo | spring_n | pressure | look for it in the maker's data
remote servo | slave_stroke_m | travel | push the slave piston on the bench and measure
valve | knee_pa | pressure | watch two gauges for where they part
valve | slope | pressure | watch two gauges above where they part
valve | closing_deceleration_g | pressure | measure the rise of the ball's ramp, or look for it
valve | residual_pa | pressure | read a gauge behind the valve with the pedal released
valve | shift_pa | pressure | look for it in the maker's data
caliper | a_bore_m | torque | measure a piston across
caliper | a_pistons | torque | count the pistons on one side
caliper | a_second_bore_m | torque | measure a piston of the second size across
caliper | a_second_pistons | torque | count the pistons of the second size on one side
caliper | b_bore_m | torque | measure a piston on the second circuit across
caliper | b_pistons | torque | count the pistons on the second circuit, on one side
caliper | efficiency | torque | compare both wheels of an axle on rollers
caliper | threshold_pa | torque | watch a gauge until the pads move
caliper | pad_friction | torque | take it from the pads' data or their edge code
caliper | pad_clearance_m | travel | feel between pad and disc with a gauge
caliper | flex_m3_pa | travel | measure pedal travel at two pressures
caliper | pad_stiffness_n_m | travel | press the pads in a vice with a gauge
caliper | fluid_m3 | travel | fill it with a syringe
disc | effective_radius_m | torque | measure the disc, and the pads' height
disc | outer_diameter_m | torque | measure the disc across
disc | rubbing_inner_diameter_m | torque | measure the inner edge of the rubbed band
disc | pad_height_m | torque | measure the lining from inner to outer edge
drum | diameter_m | torque | measure the drum across
drum | brake_factor | torque | look for it, or measure the shoes' arms
drum | lining_friction | torque | take it from the linings' data
drum | lining_arc_rad | torque | measure the lining along its curve and divide by the drum's radius
drum | actuation_arm_m | torque | measure from the shoe's pivot to the cylinder's line
drum | pivot_arm_m | torque | measure from the shoe's pivot to the drum's centre line
drum | friction_arm_m | torque | measure from the shoe's pivot to the lining's drag
drum | shoe_clearance_m | travel | feel through the hole in the drum with a gauge
drum | flex_m3_pa | travel | measure pedal travel at two pressures
wheel cylinder | bore_m | torque | measure the bore, or read it off the body
wheel cylinder | efficiency | torque | compare both wheels of an axle on rollers
wheel cylinder | threshold_pa | torque | watch a gauge until the shoes move
wheel cylinder | fluid_m3 | travel | fill it with a syringe
fluid | air_m3 | travel | make the two-force pedal test
fluid | temperature_c | travel | read a thermometer in the garage
fluid | bulk_modulus_pa | travel | say which grade is in it
pipe | length_m | travel | lay a string along it
pipe | outside_diameter_m | travel | measure it with a calliper gauge
pipe | wall_m | travel | measure an offcut
hose | length_m | travel | measure between its ends
hose | swell_ratio | travel | look at it and feel it as someone presses
parking brake | lever_ratio | parking | measure pivot to grip and pivot to cable, and divide
parking brake | linkage_ratio | parking | measure the relay levers; 1 when there are none
parking brake | linkage_efficiency | parking | weigh the pull at both ends of the cable
parking brake | drum_lever_ratio | parking | measure the lever in the drum or on the caliper
parking brake | final_drive_ratio | parking | read the axle's tag, or count turns
parking brake | cable_length_m | clicks | measure the cable to one wheel
parking brake | cable_stiffness_n | clicks | hang a known weight on it and measure
parking brake | cable_arm_m | clicks | measure from the lever's pivot to the cable's pin
parking brake | click_angle_rad | clicks | count the teeth and measure the swing
parking brake | clicks | clicks | count the teeth of the ratchet
"""


@dataclass(frozen=True, slots=True)
class Need:
    """One figure that the solve reads.

    Parameters
    ----------
    owner : Part or Line
        Whose figure it is.
    name : str
        The figure.
    purposes : tuple of str
        What it is needed for, among `PURPOSES`.
    how : str
        How a person finds it.
    """

    owner: Part | Line
    name: str
    purposes: tuple[str, ...]
    how: str

    @property
    def path(self) -> str:
        """The figure's path: ``part-id.figure_name``."""
        return f"{self.owner.id}.{self.name}"


@dataclass(frozen=True, slots=True)
class WordNeed:
    """One choice without which a part cannot be reckoned, or a part that is not there."""

    path: str
    words: str
    question: str
    purposes: tuple[str, ...]


@cache
def _rows() -> dict[tuple[str, str], tuple[tuple[str, ...], str]]:
    rows: dict[tuple[str, str], tuple[tuple[str, ...], str]] = {}
    for row in _TABLE.strip().splitlines():
        kind, name, purposes, how = (cell.strip() for cell in row.split("|"))
        wanted = tuple(each.strip() for each in purposes.split(","))
        rows[kind, name] = wanted, how
    return rows


def needs_of(system: BrakeSystem) -> Iterator[Need]:
    """Yield every figure that the solve reads of a system, in the order it was entered."""
    parked = _parked(system)
    for part in system.parts:
        for need in _needs(part, _read_of(part)):
            yield _for_parking(need, part) if part.wheel in parked else need
    for line in system.lines:
        if line.kind is not LineKind.DIRECT:
            yield from _needs(line, _all_of(line))


def _needs(owner: Part | Line, names: Iterator[str]) -> Iterator[Need]:
    rows = _rows()
    for name in names:
        purposes, how = rows[owner.kind.value, name]
        if name in _LEVERS and not factor_from_geometry(owner):
            purposes = ("travel",)
        yield Need(owner, name, purposes, how)


def _parked(system: BrakeSystem) -> set[Wheel | None]:
    """Where the parking brake acts: at two wheels, or on the shaft, which is at no wheel."""
    acts_on = [part.choices.get("acts_on", "") for part in system.of_kind(PartKind.PARKING)]
    if "transmission" in acts_on:
        return {None}
    front = "front wheels" in acts_on
    return {wheel for wheel in Wheel if wheel.is_front is front} if acts_on else set()


_ON_PADS: Final = frozenset({"efficiency", "pad_friction", "pad_clearance_m"})


def _for_parking(need: Need, part: Part) -> Need:
    """What is needed to stop is needed to park; on the shaft, only for that."""
    rubs = part.kind in {PartKind.DRUM, PartKind.DISC} or (
        part.kind is PartKind.CALIPER and (need.name in _ON_PADS or part.wheel is None)
    )
    if not rubs:
        return need
    parks = tuple({"torque": "parking", "travel": "clicks"}[each] for each in need.purposes)
    return replace(need, purposes=parks if part.wheel is None else need.purposes + parks)


def _all_of(owner: Part | Line) -> Iterator[str]:
    yield from (name for kind, name in _rows() if kind == owner.kind.value)


def _read_of(part: Part) -> Iterator[str]:
    names = tuple(_all_of(part))
    wanted: set[str] = set(names)
    match part.kind:
        case PartKind.MASTER:
            wanted -= _not_of_master(part)
        case PartKind.VALVE:
            wanted &= _of_valve(part)
            if part.choices.get("bypass") == "yes":
                wanted.add("shift_pa")
        case PartKind.CALIPER:
            wanted -= _not_of_caliper(part)
        case PartKind.DISC:
            wanted -= _not_of_disc(part)
        case PartKind.DRUM:
            wanted -= _not_of_drum(part)
        case PartKind.PARKING:
            if part.choices.get("acts_on") != "transmission":
                wanted.discard("final_drive_ratio")
        case _:
            pass
    yield from (name for name in names if name in wanted)


_LEVERS: Final = frozenset({"actuation_arm_m", "pivot_arm_m"})

_VALVE_FIGURES: Final[dict[str, set[str]]] = {
    "limiting": {"knee_pa"},
    "proportioning": {"knee_pa", "slope"},
    "deceleration-sensing": {"closing_deceleration_g"},
    "residual": {"residual_pa"},
    "warning shuttle": {"shift_pa"},
    "shut-off": set(),
}


def _of_valve(part: Part) -> set[str]:
    form = part.choices.get("form", "")
    lifts = {"slope"} & set(part.figures) if form == "deceleration-sensing" else set()
    return _VALVE_FIGURES.get(form, set()) | lifts


def is_tandem(part: Part) -> bool:
    """Whether a master cylinder has a floating piston: its chambers tell."""
    return any(port.chamber == "floating" for port in part.ports)


def has_second_circuit(part: Part) -> bool:
    """Whether a caliper is fed by two circuits."""
    return any(port.chamber == "b" for port in part.ports)


def _not_of_master(part: Part) -> set[str]:
    if not is_tandem(part):
        return {"floating_bore_m", "floating_stroke_m", "floating_spring_n"}
    stepped = part.choices.get("bores") == "stepped" or "floating_bore_m" in part.figures
    return set() if stepped else {"floating_bore_m"}


def _not_of_caliper(part: Part) -> set[str]:
    left_out: set[str] = set()
    if not {"a_second_bore_m", "a_second_pistons"} & set(part.figures):
        left_out |= {"a_second_bore_m", "a_second_pistons"}
    if not has_second_circuit(part):
        left_out |= {"b_bore_m", "b_pistons"}
    return left_out


def _not_of_disc(part: Part) -> set[str]:
    if "effective_radius_m" in part.figures:
        return {"outer_diameter_m", "pad_height_m", "rubbing_inner_diameter_m"}
    if "rubbing_inner_diameter_m" in part.figures and "pad_height_m" not in part.figures:
        return {"effective_radius_m", "pad_height_m"}
    return {"effective_radius_m", "rubbing_inner_diameter_m"}


SHOE_FIGURES: Final = frozenset(
    {"lining_friction", "lining_arc_rad", "actuation_arm_m", "pivot_arm_m", "friction_arm_m"}
)


def factor_from_geometry(part: Part | Line) -> bool:
    """Whether a drum's factor comes from its shoes' arms, by what was chosen or is known."""
    chosen = part.choices.get("factor", "")
    if chosen:
        return chosen == "from geometry"
    arms = {"actuation_arm_m", "pivot_arm_m", "friction_arm_m"}
    return "brake_factor" not in part.figures and arms <= set(part.figures)


def _not_of_drum(part: Part) -> set[str]:
    if factor_from_geometry(part):
        return {"brake_factor"}
    # The shoes' levers are still read, for what their clearance takes at the cylinder.
    return {"lining_friction", "lining_arc_rad", "friction_arm_m"}


def word_needs_of(system: BrakeSystem) -> Iterator[WordNeed]:
    """Yield the parts and choices that are missing and that nothing can stand in for."""
    every_load = ("driver only", "laden", "torque")
    for kind, purposes in (
        (PartKind.CAR, (*every_load, "parking")),
        (PartKind.PEDAL, ("pressure",)),
        (PartKind.MASTER, ("pressure",)),
    ):
        if not system.of_kind(kind):
            yield WordNeed(kind.value, kind.value, f"enter the {kind}", purposes)
    if not system.of_kind(PartKind.FLUID):
        yield WordNeed("fluid", "fluid", "enter the fluid, even as unknown", ("travel",))
    for part in system.parts:
        yield from _brake_needs(part, system)
        if part.kind is PartKind.PARKING:
            yield from _parking_needs(part, system)
        if not part.choices.get("form"):
            if part.kind is PartKind.VALVE:
                yield WordNeed(
                    f"{part.id}.form",
                    f"form of {part.title}",
                    "say what kind of valve it is",
                    ("pressure",),
                )
            elif part.kind is PartKind.DRUM:
                yield WordNeed(
                    f"{part.id}.form",
                    f"form of {part.title}",
                    "say how its shoes act",
                    ("torque",),
                )


def _brake_needs(part: Part, system: BrakeSystem) -> Iterator[WordNeed]:
    """A caliper needs its disc, a wheel cylinder its drum, and both a wheel."""
    rubbed = {PartKind.CALIPER: PartKind.DISC, PartKind.WHEEL_CYLINDER: PartKind.DRUM}
    kind = rubbed.get(part.kind)
    if kind is None:
        return
    if part.wheel is None and None in _parked(system):
        return  # the brake on the shaft
    if part.wheel is None:
        yield WordNeed(f"{part.id}.wheel", f"wheel of {part.title}", "say its wheel", ("torque",))
    elif not any(each.kind is kind and each.wheel is part.wheel for each in system.parts):
        yield WordNeed(
            f"{part.id}.{kind}", f"{kind} of {part.title}", f"enter the {kind} there", ("torque",)
        )


def _parking_needs(part: Part, system: BrakeSystem) -> Iterator[WordNeed]:
    """Ask what the parking brake acts on, and for a drum or caliper there."""
    if not part.choices.get("acts_on"):
        yield WordNeed(
            f"{part.id}.acts_on",
            f"what {part.title} acts on",
            "say which wheels it holds, or the transmission",
            ("parking",),
        )
        return
    held = system.of_kind(PartKind.DRUM, PartKind.CALIPER)
    for wheel in sorted(_parked(system), key=str):
        if not any(each.wheel is wheel for each in held):
            where = f"at the {wheel}" if wheel else "on the transmission"
            yield WordNeed(
                f"{part.id}.acts_on",
                f"brake {where} that {part.title} works",
                "enter its drum, or its disc and caliper",
                ("parking",),
            )
