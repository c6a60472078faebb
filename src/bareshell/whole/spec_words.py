"""A typed specification as one line a person reads at the bench."""

from __future__ import annotations

from dataclasses import fields
from datetime import date

from bareshell.model.spec import PlainSpec, Spec
from bareshell.parts.questions import questions

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
    {"thread", "sex", "what", "where", "head", "material", "hand", "colour"}
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
            said.append(f"{value:g} {_UNITS[name]}")
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
