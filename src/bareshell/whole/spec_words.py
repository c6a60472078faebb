"""A typed specification as one line a person reads at the bench."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date

from bareshell.model.spec import PlainSpec, Spec
from bareshell.parts.questions import questions
from bareshell.parts.rules import rules_for
from bareshell.units import known_thread

_WORDS = {
    "grip_length_m": "grip",
    "grip_to_hole_m": "grip to hole",
    "length_m": "long",
    "outside_diameter_m": "outside",
    "pipe_diameter_m": "for pipe",
    "width_m": "wide",
    "inner_length_m": "inner",
    "outer_length_m": "outer",
    "piston_m": "piston",
    "hole_m": "hole",
    "disc_diameter_m": "disc",
    "backplate_hole_m": "backplate hole",
    "clip_m": "clip at",
    "bore_b_m": "bore at the other end",
    "thickness_m": "thick",
    "push_rod_m": "push rod",
}
_UNITS = {
    "clocking_deg": "deg",
    "shelf_life_months": "months",
    "lowest_temperature_c": "°C",
    "volts": "V",
    "amps": "A",
    "watts": "W",
    "area_mm2": "mm²",
}
_BEFORE = {"clocking_deg": "clocking ", "lowest_temperature_c": "not below "}
# A tolerance is said with the size it belongs to.
_TOLERANCE_OF = {
    "diameter_m": "diameter_tolerance_m",
    "grip_to_hole_m": "grip_tolerance_m",
    "grip_length_m": "grip_tolerance_m",
    "length_m": "length_tolerance_m",
    "free_length_m": "length_tolerance_m",
    "inner_length_m": "length_tolerance_m",
    "outer_length_m": "length_tolerance_m",
    "inside_m": "tolerance_m",
    "outside_m": "tolerance_m",
    "width_m": "tolerance_m",
}
_SPEAKS_FOR_ITSELF = frozenset(
    {"thread", "sex", "what", "where", "head", "material", "hand", "colour", "shape"}
)


@dataclass(frozen=True, slots=True)
class SpecLine:
    """One field of a specification, read back.

    Parameters
    ----------
    field, label : str
        Its name, and what a person calls it.
    value : str
        As it is read at the bench; empty when nobody knows.
    means : str
        Of a thread: its size, pitch and form, so that a slip of the pen is seen.
    """

    field: str
    label: str
    value: str = ""
    means: str = ""


def spec_lines(spec: Spec) -> tuple[SpecLine, ...]:
    """Read every field of a specification back, those that nobody knows too.

    Examples
    --------
    >>> from bareshell.model.spec import UnionSpec
    >>> line = spec_lines(UnionSpec(thread="M10x1"))[0]
    >>> line.value, line.means
    ('M10x1', '10 mm outside, pitch 1 mm (25.4 to the inch), 60 degrees')
    """
    lines = []
    for rule in rules_for(spec):
        value = getattr(spec, rule.name)
        told = "" if value in (None, "") else _value_words(spec, rule.name, value)
        means = thread_means(str(value)) if rule.compare == "thread" and value else ""
        lines.append(SpecLine(rule.name, rule.label, told, means))
    return tuple(lines)


def _value_words(spec: Spec, name: str, value: object) -> str:
    if isinstance(value, date):
        return f"{value.day} {value:%b %Y}"
    if name.endswith("_m") and isinstance(value, int | float):
        return f"{value * 1000:.5g}{_tolerance(spec, name)} mm"
    if name in _UNITS and isinstance(value, int | float):
        return f"{value:g} {_UNITS[name]}"
    return str(value)


def thread_means(written: str) -> str:
    """Say what a thread's designation stands for; empty when it cannot be read.

    Examples
    --------
    >>> thread_means("3/8-24 UNF")
    '9.525 mm outside, pitch 1.058 mm (24 to the inch), 60 degrees'
    """
    thread = known_thread(written)
    if thread is None:
        return ""
    form = f"{thread.form_angle_deg:g} degrees"
    if thread.tapered:
        form += ", tapered"
    if thread.left_hand:
        form += ", left-handed"
    return (
        f"{thread.diameter_m * 1000:.4g} mm outside, pitch {thread.pitch_m * 1000:.4g} mm "
        f"({thread.threads_per_inch:.3g} to the inch), {form}"
    )


def spec_words(spec: Spec) -> str:
    """Say a specification in one line, lengths in millimetres; what is unknown is left out.

    Examples
    --------
    >>> from bareshell.model.spec import PinSpec
    >>> spec_words(PinSpec(diameter_m=0.00635, grip_to_hole_m=0.019, grip_tolerance_m=0.0005))
    'diameter 6.35 mm, grip to hole 19 ± 0.5 mm'
    """
    if isinstance(spec, PlainSpec):
        return spec.words
    said = []
    for spec_field in fields(spec):
        name, value = spec_field.name, getattr(spec, spec_field.name)
        if name == "kind" or value is None or name.endswith("tolerance_m"):
            continue
        if name.endswith("_m"):
            label = _WORDS.get(name, name.removesuffix("_m").replace("_", " "))
            said.append(f"{label} {value * 1000:.4g}{_tolerance(spec, name)} mm")
        elif name in _UNITS:
            said.append(f"{_BEFORE.get(name, '')}{value:g} {_UNITS[name]}")
        else:
            label = "" if name in _SPEAKS_FOR_ITSELF else f"{name} "
            shown = f"{value.day} {value:%b %Y}" if isinstance(value, date) else value
            said.append(f"{label.replace('_', ' ')}{shown}")
    return ", ".join(said)


def _tolerance(spec: Spec, name: str) -> str:
    value = getattr(spec, _TOLERANCE_OF.get(name, ""), None)
    return "" if value is None else f" ± {value * 1000:.4g}"


def unknown_fields(spec: Spec) -> tuple[str, ...]:
    """Name the fields of a specification that nobody knows: the questions before ordering.

    Examples
    --------
    >>> from bareshell.model.spec import SplitPinSpec
    >>> unknown_fields(SplitPinSpec(diameter_m=0.002))
    ('length',)
    """
    if isinstance(spec, PlainSpec):
        return ()
    return tuple(question.label for question in questions(spec))
