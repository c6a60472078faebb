"""How each field of a specification is compared and what is asked when it is not known: a table.

A row names the field, how two values are held against each other, how closely such a size is read
with a workshop's tools (used where nobody gave a tolerance, and said so), and the question that is
put before anything is ordered. Tools and questions are common practice [S:trade-practice].
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final, Literal

from bareshell.model.spec import ElectricalSpec, Spec

__all__ = ["RULES", "Compare", "FieldRule", "is_fuse", "rules_for"]

Compare = Literal[
    "thread",  # by the threads' own geometry
    "size",  # within a tolerance
    "at least",  # as long or as large as wanted, or more
    "at most",
    "equal",  # a count, or a figure that stands for a choice
    "words",  # the same words; other words are for eyes to compare
    "choice",  # left or right, male or female: other words are another part
    "seat",  # families of seats and flares
    "grade",  # a strength mark
    "amount",  # as much as wanted, or more, where both are measured alike
    "noted",  # said, never decisive
    "not past",  # a day that must not be over
]
"""How two values are held against each other."""


@dataclass(frozen=True, slots=True)
class FieldRule:
    """How one field is judged.

    Parameters
    ----------
    name : str
        The field of the specification.
    label : str
        What a person calls it.
    compare : str
        How two values are held against each other.
    read_to_m : float
        How closely it is read at the bench, for sizes; for angles and figures, in their own unit.
    tolerance : str
        The field that holds its tolerance, where it has one.
    ask : str
        What is asked when it is not known; empty when nobody need ask.
    """

    name: str
    label: str
    compare: Compare
    read_to_m: float = 0.0
    tolerance: str = ""
    ask: str = ""

    @property
    def decides(self) -> bool:
        """Whether anything hangs on it."""
        return self.compare not in ("noted", "not past")


_CALIPER: Final = 0.05e-3  # a caliper on a clean pin
_DEPTH: Final = 0.25e-3  # a caliper's tail, or a pin against a rule
_RULE: Final = 0.5e-3  # a steel rule
_TAPE: Final = 2e-3  # a tape on something that bends
_MICRO: Final = 0.02e-3  # a micrometer, or a figure cast into the metal

_THREAD: Final = (
    "Which thread? Measure outside with a caliper and count with a thread gauge; a gauge that "
    "nearly sits is the wrong one."
)
_HAND: Final = "Left or right? Look at where its bleed screw or lever comes to lie."
_SEAT: Final = "What does it seal on: cone, flare, or flat with a washer? Look into the port."
_FLUID: Final = "Which fluid do its seals take?"

_BOLT: Final = (
    FieldRule("thread", "thread", "thread", ask=_THREAD),
    FieldRule("diameter_m", "diameter", "size", _CALIPER),
    FieldRule(
        "length_m",
        "length",
        "size",
        _RULE,
        "length_tolerance_m",
        "How long, from under the head? Two threads should stand proud of the nut, and in a blind "
        "hole it must not touch bottom.",
    ),
    FieldRule(
        "grip_length_m",
        "plain shank",
        "size",
        _RULE,
        "grip_tolerance_m",
        "How much of it is plain shank? Where the load comes across, the shank should fill every "
        "ply.",
    ),
    FieldRule("what", "bolt, screw, stud or nut", "choice", ask="Bolt, set screw, stud or nut?"),
    FieldRule("head", "head", "words", ask="Which head?"),
    FieldRule("drive", "drive", "words"),
    FieldRule(
        "grade",
        "grade",
        "grade",
        ask="What is marked on the head of the old one? No mark, no grade.",
    ),
    FieldRule("lock", "lock", "words", ask="What keeps it from turning?"),
    FieldRule("washer", "washer", "noted"),
    FieldRule("finish", "finish", "noted"),
)
_PIN: Final = (
    FieldRule(
        "diameter_m",
        "diameter",
        "size",
        _CALIPER,
        "diameter_tolerance_m",
        "Which diameter? Caliper the pin where it is not worn, and the hole.",
    ),
    FieldRule(
        "grip_to_hole_m",
        "grip, head to hole",
        "size",
        _DEPTH,
        "grip_tolerance_m",
        "How far from under the head to the split-pin hole? Measure the plies and add the washer.",
    ),
    FieldRule(
        "hole_m",
        "split-pin hole",
        "size",
        0.15e-3,
        ask="Which hole for the split pin: try drills in the old one.",
    ),
    FieldRule("head", "head", "words", ask="Which head has it: flat, none, a ring?"),
    FieldRule("material", "material", "words", ask="Which steel, and is it hardened? Try a file."),
    FieldRule("hardness", "hardness", "noted"),
)
_SPLIT_PIN: Final = (
    FieldRule("diameter_m", "diameter", "size", 0.15e-3, ask="Which size is the hole?"),
    FieldRule("length_m", "length", "at least", _RULE, ask="How long must it be to be bent over?"),
    FieldRule("material", "material", "noted"),
)
_UNION: Final = (
    FieldRule("thread", "thread", "thread", ask=_THREAD),
    FieldRule("sex", "male or female", "choice", ask="Male or female?"),
    FieldRule("seat", "seat", "seat", ask=_SEAT),
    FieldRule("flare", "flare", "seat", ask="Which flare does it hold: double, or bubble?"),
    FieldRule("pipe_diameter_m", "for pipe", "size", _CALIPER, ask="For which pipe, outside?"),
    FieldRule("nut_length_m", "length of the nut", "size", _RULE),
    FieldRule("lead", "lead", "words", ask="Has the nut a plain lead ahead of its thread?"),
)
_PIPE: Final = (
    FieldRule("outside_diameter_m", "outside", "size", _CALIPER, ask="Which pipe, outside?"),
    FieldRule("wall_m", "wall", "size", _CALIPER),
    FieldRule("length_m", "length", "at least", 0.0, ask="How many metres, with bends and spoil?"),
    FieldRule("material", "material", "words", ask="Copper-nickel, or steel?"),
    FieldRule("flare", "flare", "seat"),
)
_HOSE: Final = (
    FieldRule("thread_a", "thread, one end", "thread", ask=_THREAD),
    FieldRule("seat_a", "seat, one end", "seat", ask=_SEAT),
    FieldRule("end_a", "one end", "words"),
    FieldRule("thread_b", "thread, other end", "thread", ask=_THREAD),
    FieldRule("seat_b", "seat, other end", "seat", ask=_SEAT),
    FieldRule("end_b", "other end", "words"),
    FieldRule(
        "free_length_m",
        "free length",
        "size",
        _TAPE,
        "length_tolerance_m",
        "How long, free? Try a string at full lock, full bump and full droop.",
    ),
    FieldRule("bore_m", "bore", "size", 0.25e-3),
    FieldRule("bore_b_m", "bore, other end", "size", 0.25e-3),
    FieldRule("wall_m", "wall", "size", 0.25e-3),
    FieldRule("shape", "shape", "words"),
    FieldRule("bracket", "bracket", "words", ask="Which hole has the bracket, and what holds it?"),
    FieldRule("clip_m", "where its clip sits", "size", _TAPE),
    FieldRule("clocking_deg", "clocking", "size", 10.0, ask="How is one end turned to the other?"),
    FieldRule("carries", "what runs through it", "choice", ask="What runs through it?"),
)
_OF_CYLINDERS: Final = (
    FieldRule("hand", "left or right", "choice", ask=_HAND),
    FieldRule("pistons", "pistons", "equal", ask="How many pistons?"),
    FieldRule("port_thread", "port thread", "thread", ask=_THREAD),
    FieldRule("port_seat", "port seat", "seat", ask=_SEAT),
    FieldRule("bleed_thread", "bleed thread", "thread", ask="Which thread has its bleed screw?"),
    FieldRule("seal_material", "seals", "words"),
    FieldRule("fluid_base", "fluid", "choice", ask=_FLUID),
)
_BORE: Final = FieldRule(
    "bore_m", "bore", "size", _MICRO, ask="Which bore is cast or stamped on it? Measure, if none."
)
_CALIPER_PART: Final = (
    FieldRule("piston_m", "piston", "size", 0.1e-3, ask="Which diameter has each piston?"),
    FieldRule(
        "mounting_centres_m", "mounting centres", "size", _RULE, ask="How far apart are its bolts?"
    ),
    FieldRule("mounting_thread", "mounting thread", "thread", ask=_THREAD),
    FieldRule("pad", "pad", "words", ask="Which pad shape does it take?"),
    FieldRule("disc_diameter_m", "disc", "size", _RULE, ask="For which disc, across?"),
    FieldRule("disc_thickness_m", "disc thickness", "size", 0.25e-3, ask="For which thickness?"),
    FieldRule("bleed_place", "bleed screw", "choice", ask="Where must its bleed screw come: top?"),
    *_OF_CYLINDERS,
)
_WHEEL_CYLINDER: Final = (
    _BORE,
    FieldRule(
        "backplate_hole_m", "hole in the backplate", "size", _RULE, ask="Which hole does it sit in?"
    ),
    *_OF_CYLINDERS,
)
_MASTER_CYLINDER: Final = (
    _BORE,
    FieldRule("circuits", "circuits", "equal", ask="Single, or tandem?"),
    FieldRule("stroke_m", "stroke", "at least", 1e-3, ask="How far does its piston go?"),
    FieldRule("split", "split", "words", ask="Which wheels is each circuit to serve?"),
    FieldRule("push_rod_m", "push rod", "size", 1e-3, ask="How long is its push rod?"),
    FieldRule("residual_valve", "residual valve", "words", ask="Has it a residual valve?"),
    FieldRule(
        "flange_centres_m", "flange centres", "size", _RULE, ask="How far apart are its studs?"
    ),
    *(rule for rule in _OF_CYLINDERS if rule.name not in {"hand", "pistons", "bleed_thread"}),
)
_CYLINDER: Final = (
    FieldRule("what", "what exactly", "words", ask="Which cylinder is it?"),
    _BORE,
    *(
        rule
        for rule in _OF_CYLINDERS
        if rule.name in {"hand", "pistons", "port_thread", "fluid_base"}
    ),
)
_BEARING: Final = (
    FieldRule("number", "number", "words", ask="Which number is on it?"),
    FieldRule("inside_m", "inside", "size", _MICRO, "tolerance_m", "Which shaft?"),
    FieldRule("outside_m", "outside", "size", _MICRO, "tolerance_m", "Which housing?"),
    FieldRule("width_m", "width", "size", _CALIPER, "tolerance_m", "How wide?"),
)
_SEAL: Final = (
    FieldRule("inside_m", "inside", "size", 0.1e-3, "tolerance_m", "Which shaft?"),
    FieldRule("outside_m", "outside", "size", 0.1e-3, "tolerance_m", "Which housing?"),
    FieldRule("width_m", "width", "size", 0.25e-3, "tolerance_m", "How wide?"),
    FieldRule("lips", "lips", "equal", ask="One lip or two?"),
    FieldRule("material", "material", "words", ask="Which rubber, for which oil or fluid?"),
)
_CABLE: Final = (
    FieldRule(
        "inner_length_m", "inner", "size", _TAPE, "length_tolerance_m", "How long is the inner?"
    ),
    FieldRule(
        "outer_length_m", "outer", "size", _TAPE, "length_tolerance_m", "How long is the outer?"
    ),
    FieldRule("end_a", "one end", "words", ask="What is on one end?"),
    FieldRule("end_b", "other end", "words", ask="And on the other?"),
)
_RUBBER: Final = (
    FieldRule("profile", "profile", "words", ask="Which profile? Draw the cut end at full size."),
    FieldRule("length_m", "length", "at least", 0.0, ask="How many metres? Add a twentieth."),
    FieldRule("corners", "corners", "words", ask="Moulded corners, or mitred on the car?"),
    FieldRule("hardness", "hardness", "noted"),
)
_GLASS: Final = (
    FieldRule("where", "where on the car", "choice", ask="Which pane?"),
    FieldRule("thickness_m", "thickness", "size", 0.25e-3, ask="How thick, for its rubber?"),
    FieldRule("tint", "tint", "words", ask="Clear or tinted?"),
    FieldRule("heater", "heater", "words", ask="With a heater?"),
    FieldRule("edge", "edge", "noted"),
    FieldRule("mark", "mark", "noted"),
)
_GOODS: Final = (
    FieldRule("what", "what exactly", "words", ask="Which product?"),
    FieldRule("amount", "amount", "amount", ask="How much of it?"),
    FieldRule("thickness_m", "thickness", "size", 0.1e-3),
    FieldRule("lowest_temperature_c", "lowest temperature", "at most", 0.0),
    FieldRule("use_by", "use by", "not past", ask="By when must it be used? Read the tin."),
    FieldRule("shelf_life_months", "shelf life", "noted"),
    FieldRule("batch", "batch", "noted"),
)
_ELECTRICAL: Final = (
    FieldRule("what", "what exactly", "words", ask="What exactly is it?"),
    FieldRule("volts", "volts", "equal", ask="For which voltage?"),
    FieldRule("amps", "amps", "at least", 0.0, ask="How many amps must it bear?"),
    FieldRule("watts", "watts", "equal"),
    FieldRule("area_mm2", "cross-section", "at least", 0.0),
    FieldRule("length_m", "length", "at least", 0.0),
    FieldRule("connector", "connector", "words"),
    FieldRule("colour", "colour", "words"),
)

RULES: Final = MappingProxyType(
    {
        "plain": (FieldRule("words", "in words", "words"),),
        "bolt": _BOLT,
        "pin": _PIN,
        "split pin": _SPLIT_PIN,
        "union": _UNION,
        "pipe": _PIPE,
        "hose": _HOSE,
        "cylinder": _CYLINDER,
        "caliper": _CALIPER_PART,
        "wheel cylinder": _WHEEL_CYLINDER,
        "master cylinder": _MASTER_CYLINDER,
        "bearing": _BEARING,
        "seal": _SEAL,
        "cable": _CABLE,
        "rubber": _RUBBER,
        "glass": _GLASS,
        "goods": _GOODS,
        "electrical": _ELECTRICAL,
    }
)
"""The rules of each kind of specification, the most telling field first."""

# A fuse follows the wire that it protects: another figure is another fuse, and never a larger one.
_FUSE: Final = tuple(
    replace(rule, compare="equal", ask="How many amps, by the wire it protects?")
    if rule.name == "amps"
    else rule
    for rule in _ELECTRICAL
)


def is_fuse(spec: Spec) -> bool:
    """Whether a part is a fuse, whose figure is chosen and never exceeded.

    Parameters
    ----------
    spec : Spec
        Any part.

    Examples
    --------
    >>> (
    ...     is_fuse(ElectricalSpec(what="Blade fuse", amps=10)),
    ...     is_fuse(ElectricalSpec(what="fuse box")),
    ... )
    (True, False)
    """
    if not isinstance(spec, ElectricalSpec):
        return False
    words = f" {(spec.what or '').casefold()} "
    protects = " fuse" in words or "circuit breaker" in words
    return protects and not any(each in words for each in ("fuse box", "fusebox", "fuse holder"))


def rules_for(spec: Spec) -> tuple[FieldRule, ...]:
    """Return the rules by which a need is compared.

    Parameters
    ----------
    spec : Spec
        What is wanted.

    Examples
    --------
    >>> [rule.compare for rule in rules_for(ElectricalSpec(what="fuse")) if rule.name == "amps"]
    ['equal']
    """
    return _FUSE if is_fuse(spec) else RULES[spec.kind]
