"""A typed specification as a form: bolt, pin, union, hose and the rest, each with its figures."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import partial
from typing import Any, Literal, get_args

from bareshell.app.filled import Filled
from bareshell.errors import BadInput
from bareshell.model.spec import PlainSpec, Spec
from bareshell.units import parse_length, parse_thread

Reads = Literal["words", "length", "thread", "whole", "figure", "temperature"]

_LABELS = {
    "area_mm2": "cross-section",
    "bore_m": "bore",
    "carries": "what runs through it",
    "clocking_deg": "clocking, one end against the other",
    "diameter_tolerance_m": "tolerance on the diameter",
    "end_a": "one end",
    "end_b": "other end",
    "fluid_base": "fluid its seals take",
    "free_length_m": "free length",
    "grip_length_m": "grip length",
    "grip_to_hole_m": "grip, from head to hole",
    "hand": "left or right",
    "inside_m": "inside diameter",
    "lock": "how it is kept from turning",
    "number": "number marked on it",
    "outside_m": "outside diameter",
    "seat": "what it seals on",
    "sex": "male or female",
    "shelf_life_months": "shelf life",
    "what": "what exactly",
    "where": "where on the car",
    "words": "in words",
}
_UNITS = {
    "clocking_deg": "degrees",
    "shelf_life_months": "months",
    "lowest_temperature_c": "°C",
    "volts": "V",
    "amps": "A",
    "area_mm2": "mm²",
}


@dataclass(frozen=True, slots=True)
class SpecField:
    """One field of a specification: its name, its label, its unit and how it is read."""

    name: str
    label: str
    unit: str
    reads: Reads


def _field(name: str, annotation: str) -> SpecField:
    stem = name.removesuffix("_m").removesuffix("_c")
    label = _LABELS.get(name, stem.replace("_", " "))
    reads: Reads = "words"
    if name.endswith("_m"):
        reads = "length"
    elif name == "lowest_temperature_c":
        reads = "temperature"
    elif name in {"thread", "port_thread"}:
        reads = "thread"
    elif "int" in annotation:
        reads = "whole"
    elif "float" in annotation:
        reads = "figure"
    return SpecField(name, label, "mm" if reads == "length" else _UNITS.get(name, ""), reads)


_CLASSES: dict[str, type[Any]] = {str(cls().kind): cls for cls in get_args(Spec)}
SPEC_FIELDS: dict[str, tuple[SpecField, ...]] = {
    kind: tuple(_field(f.name, str(f.type)) for f in fields(cls) if f.name != "kind")
    for kind, cls in _CLASSES.items()
}
"""The fields of each kind of specification, by the word for the kind."""


def lay_spec(spec: Spec) -> dict[str, tuple[str, ...]]:
    """Lay a specification out as the fields of a form; what is unknown stays empty.

    Examples
    --------
    >>> from bareshell.model.spec import PinSpec
    >>> lay_spec(PinSpec(diameter_m=0.00635))["spec_diameter_m"]
    ('6.35 mm',)
    """
    laid: dict[str, tuple[str, ...]] = {"spec": (spec.kind,)}
    for one in SPEC_FIELDS[spec.kind]:
        value = getattr(spec, one.name)
        if value is None:
            shown = ""
        elif one.reads == "length":
            shown = f"{value * 1000:.6g} mm"
        else:
            shown = f"{value:g}" if isinstance(value, float) else str(value)
        laid[f"spec_{one.name}"] = (shown,)
    return laid


def read_spec(form: Filled) -> Spec:
    """Read a specification back; an empty field is unknown, a question to ask before ordering."""
    kind = form.text("spec") or "plain"
    if kind not in SPEC_FIELDS:
        form.wrong("kind of part", f"'{kind}' is none", "choose one from the list")
        return PlainSpec()
    values = {one.name: _read(form, one) for one in SPEC_FIELDS[kind]}
    if kind == "plain":
        return PlainSpec(words=str(values["words"] or ""))
    spec: Spec = _CLASSES[kind](**values)
    return spec


def _read(form: Filled, one: SpecField) -> str | float | int | None:
    name = f"spec_{one.name}"
    said = form.text(name)
    if not said:
        return None
    match one.reads:
        case "length":
            return form.attempt(partial(parse_length, said, one.label, bare="mm"), None)
        case "whole":
            return form.whole(name, one.label)
        case "figure":
            return form.figure(name, one.label)
        case "temperature":
            return form.temperature_c(name, one.label)
        case _:  # words, and threads, which are kept as they were written
            return said


def spec_doubts(spec: Spec) -> tuple[str, ...]:
    """Say what is odd about a specification and no reason to refuse it.

    Examples
    --------
    >>> from bareshell.model.spec import UnionSpec
    >>> spec_doubts(UnionSpec(thread="M10x1"))
    ()
    >>> spec_doubts(UnionSpec(thread="M10x7"))[0][:8]
    'Thread: '
    """
    said = []
    for one in SPEC_FIELDS[spec.kind]:
        value = getattr(spec, one.name)
        if one.reads == "thread" and value:
            try:
                parse_thread(value, "thread")
            except BadInput as error:
                said.append(f"Thread: {error.problem}; measure it again before you order.")
    return tuple(said)
