"""A typed specification as one line a person reads at the bench."""

from __future__ import annotations

from dataclasses import fields

from bareshell.model.spec import PlainSpec, Spec

_WORDS = {
    "diameter_m": "diameter",
    "diameter_tolerance_m": "tolerance",
    "grip_length_m": "grip",
    "grip_to_hole_m": "grip to hole",
    "length_m": "long",
    "free_length_m": "free length",
    "outside_diameter_m": "outside",
    "pipe_diameter_m": "for pipe",
    "wall_m": "wall",
    "bore_m": "bore",
    "inside_m": "inside",
    "outside_m": "outside",
    "width_m": "wide",
    "inner_length_m": "inner",
    "outer_length_m": "outer",
}
_UNITS = {
    "clocking_deg": "deg",
    "shelf_life_months": "months",
    "lowest_temperature_c": "°C",
    "volts": "V",
    "amps": "A",
    "area_mm2": "mm²",
}


def spec_words(spec: Spec) -> str:
    """Say a specification in one line, lengths in millimetres; what is unknown is left out.

    Examples
    --------
    >>> from bareshell.model.spec import PinSpec
    >>> spec_words(PinSpec(diameter_m=0.00635, grip_to_hole_m=0.019))
    'diameter 6.35 mm, grip to hole 19 mm'
    """
    if isinstance(spec, PlainSpec):
        return spec.words
    said = []
    for spec_field in fields(spec):
        name, value = spec_field.name, getattr(spec, spec_field.name)
        if name == "kind" or value is None:
            continue
        if name in _WORDS:
            said.append(f"{_WORDS[name]} {value * 1000:.4g} mm")
        elif name in _UNITS:
            said.append(f"{value:g} {_UNITS[name]}")
        else:
            label = "" if name in {"thread", "what", "where", "head", "material"} else f"{name} "
            said.append(f"{label.replace('_', ' ')}{value}")
    return ", ".join(said)


def unknown_fields(spec: Spec) -> tuple[str, ...]:
    """Name the fields of a specification that nobody knows: the questions before ordering.

    Examples
    --------
    >>> from bareshell.model.spec import SplitPinSpec
    >>> unknown_fields(SplitPinSpec(diameter_m=0.002))
    ('length', 'material')
    """
    if isinstance(spec, PlainSpec):
        return ()
    return tuple(
        spec_field.name.removesuffix("_m").replace("_", " ")
        for spec_field in fields(spec)
        if spec_field.name != "kind" and getattr(spec, spec_field.name) is None
    )
