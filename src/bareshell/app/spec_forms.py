"""A typed specification as a form: bolt, pin, union, hose and the rest, each with its figures."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, fields
from functools import partial
from typing import Any, Literal, get_args

from bareshell.app.filled import Filled
from bareshell.app.spec_usual import usual_words
from bareshell.errors import BadInput
from bareshell.model.spec import PlainSpec, Spec
from bareshell.parts.rules import RULES, FieldRule
from bareshell.units import parse_length, parse_thread

Reads = Literal["words", "length", "thread", "whole", "figure", "temperature", "day"]

_UNITS = {
    "clocking_deg": "degrees",
    "shelf_life_months": "months",
    "lowest_temperature_c": "°C",
    "volts": "V",
    "amps": "A",
    "watts": "W",
    "area_mm2": "mm²",
}
_PLUS_MINUS = re.compile(r"\s*(?:±|\+\s*/\s*-|\+-)\s*")


@dataclass(frozen=True, slots=True)
class SpecField:
    """One field of a specification: its name, its label, its unit and how it is read.

    ``tolerance`` names the field that its tolerance is kept in; ``also`` says it is kept beside
    another and may be typed with it: ``22 ± 0.5``. ``usual`` are words to pick from.
    """

    name: str
    label: str
    unit: str
    reads: Reads
    tolerance: str = ""
    also: bool = False
    usual: tuple[str, ...] = ()

    @property
    def hint(self) -> str:
        """How it is written, where that is not plain."""
        if self.reads == "thread":
            return "M10x1, 3/8-24 UNF"
        if self.reads == "length":
            return "22 \N{PLUS-MINUS SIGN} 0.5 mm, 7/8 in" if self.tolerance else "mm, or its unit"
        return ""


def _reads(name: str, annotation: str) -> Reads:
    if name.endswith("_m"):
        return "length"
    if name == "lowest_temperature_c":
        return "temperature"
    if name.startswith("thread") or name.endswith("_thread"):
        return "thread"
    if "date" in annotation:
        return "day"
    if "int" in annotation:
        return "whole"
    return "figure" if "float" in annotation else "words"


def _field(kind: str, name: str, label: str, annotation: str, rule: FieldRule | None) -> SpecField:
    reads = _reads(name, annotation)
    unit = "mm" if reads == "length" else _UNITS.get(name, "")
    usual = usual_words(kind, name) if reads == "words" else ()
    tolerance = rule.tolerance if rule else ""
    return SpecField(name, label, unit, reads, tolerance, rule is None, usual)


def _fields_of(cls: type[Any]) -> Iterator[SpecField]:
    """Yield the fields in the order of their rules, each tolerance behind its size."""
    annotations = {each.name: str(each.type) for each in fields(cls)}
    seen: set[str] = set()
    kind = str(cls().kind)
    for rule in RULES[kind]:
        yield _field(kind, rule.name, rule.label, annotations[rule.name], rule)
        if rule.tolerance and rule.tolerance not in seen:
            seen.add(rule.tolerance)
            label = f"{rule.label}, allowed either way"
            if rule.tolerance == "tolerance_m":
                label = "sizes, allowed either way"
            yield _field(kind, rule.tolerance, label, annotations[rule.tolerance], None)


_CLASSES: dict[str, type[Any]] = {str(cls().kind): cls for cls in get_args(Spec)}
SPEC_FIELDS: dict[str, tuple[SpecField, ...]] = {
    kind: tuple(_fields_of(cls)) for kind, cls in _CLASSES.items()
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
    """Read a specification back; an empty field is unknown, a question to ask before ordering.

    Examples
    --------
    >>> form = Filled({"spec": ["pin"], "spec_grip_to_hole_m": ["22 ± 0.5"]})
    >>> pin = read_spec(form)
    >>> pin.grip_to_hole_m, pin.grip_tolerance_m
    (0.022, 0.0005)
    """
    kind = form.text("spec") or "plain"
    if kind not in SPEC_FIELDS:
        form.wrong("kind of part", f"'{kind}' is none", "choose one from the list")
        return PlainSpec()
    values: dict[str, object] = {}
    for one in SPEC_FIELDS[kind]:
        said, _, either_way = _typed(form.text(f"spec_{one.name}"), one)
        value = _read(form, one, said)
        values[one.name] = values.get(one.name) if value is None else value
        if either_way:
            values[one.tolerance] = _length(form, either_way, one.label)
    if kind == "plain":
        return PlainSpec(words=str(values["words"] or ""))
    spec: Spec = _CLASSES[kind](**values)
    return spec


def _typed(said: str, one: SpecField) -> tuple[str, str, str]:
    """Part a size from the tolerance that was typed with it."""
    if not one.tolerance or not (found := _PLUS_MINUS.search(said)):
        return said, "", ""
    return said[: found.start()], found[0], said[found.end() :]


def _length(form: Filled, said: str, label: str) -> float | None:
    return form.attempt(partial(parse_length, said, label, bare="mm"), None)


def _read(form: Filled, one: SpecField, said: str) -> object:
    name = f"spec_{one.name}"
    if not said:
        return None
    match one.reads:
        case "length":
            return _length(form, said, one.label)
        case "whole":
            return form.whole(name, one.label)
        case "figure":
            return form.figure(name, one.label)
        case "temperature":
            return form.temperature_c(name, one.label)
        case "day":
            return form.day(name, one.label)
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
                label = one.label[:1].upper() + one.label[1:]
                said.append(f"{label}: {error.problem}; measure it again before you order.")
    return tuple(said)
