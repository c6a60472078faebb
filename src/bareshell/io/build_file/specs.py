"""Typed specifications as tables: ``{ kind = "bolt", thread = "M10x1", length = "25 mm" }``.

Words alone are a specification too: the plain one.
"""

from __future__ import annotations

from dataclasses import fields
from typing import Any, get_args

from bareshell.io.build_file.figures import day, figure, length, temperature, whole
from bareshell.io.build_file.kinds import (
    Kind,
    Mismatch,
    Plain,
    Setting,
    Spot,
    nearest,
    shown,
    text,
    thread,
)
from bareshell.io.build_file.shape import Field, Record
from bareshell.model.spec import PlainSpec, Spec

__all__ = ["SPECS", "spec"]

_WORDS = {
    "area_mm2": "cross-section",
    "bore_b_m": "bore at the other end, where that is another",
    "bore_m": "bore",
    "carries": "what runs through it",
    "clocking_deg": "one end against the other",
    "diameter_tolerance_m": "how far the diameter may be off",
    "end_a": "one end",
    "end_b": "the other end",
    "fluid_base": "the fluid its seals take",
    "grip_to_hole_m": "from under the head to the hole",
    "hand": "left or right",
    "lock": "how it is kept from turning",
    "lowest_temperature_c": "below this it must not be used",
    "seat": "what it seals on",
    "sex": "male or female",
    "shape": "of a moulded hose: straight, or its bends",
    "bleed_place": "where its bleed screw sits",
    "circuits": "1 for single, 2 for tandem",
    "clip_m": "from one end to where its clip sits",
    "corners": "how its corners are made",
    "hole_m": "the hole for the split pin",
    "lead": "plain lead ahead of the thread, or none",
    "split": "which wheels each circuit serves",
    "use_by": "after this day it is past its shelf life",
    "what": "what exactly it is",
    "where": "where on the car",
    "words": "in words",
}


def _field(name: str, annotation: str) -> Field:
    says = _WORDS.get(name)
    if name.endswith("_m"):
        key = name.removesuffix("_m")
        return Field(key, name, length(), says or key.replace("_", " "))
    if name == "lowest_temperature_c":
        return Field("lowest_temperature", name, temperature(), says or "")
    kind = text()
    if name.startswith("thread") or name.endswith("_thread"):
        kind = thread()
    elif "date" in annotation:
        kind = day()
    elif "int" in annotation:
        kind = whole()
    elif "float" in annotation:
        kind = figure({"clocking_deg": "degrees", "area_mm2": "mm2"}.get(name, ""))
    return Field(name, name, kind, says or name.replace("_", " "))


def _record(cls: type[Any]) -> Record:
    """Return a specification as a record: metres are written with their unit."""
    return Record(
        cls, tuple(_field(each.name, str(each.type)) for each in fields(cls) if each.name != "kind")
    )


def _kind_of(cls: type[Any]) -> str:
    return str(cls().kind)


SPECS: dict[str, Record] = {_kind_of(cls): _record(cls) for cls in get_args(Spec)}
"""Every kind of specification by its word."""


def _read(value: object, spot: Spot) -> object:
    if isinstance(value, str):
        return PlainSpec(words=value)
    if not isinstance(value, dict):
        raise Mismatch(f"{shown(value)} is no specification", 'write words or { kind = "bolt" }')
    kind = value.get("kind")
    if kind not in SPECS:
        hint = nearest(str(kind), SPECS) or f"the kinds are: {', '.join(SPECS)}"
        what = "it has no kind" if kind is None else f"there is no kind {shown(kind)}"
        raise Mismatch(what, hint)
    return SPECS[kind].read(value, spot, also=("kind",))


def _write(value: Spec, setting: Setting) -> Plain:
    if isinstance(value, PlainSpec):
        return value.words
    return {"kind": value.kind, **SPECS[value.kind].write(value, setting)}


def spec() -> Kind:
    """Return the kind of a specification."""
    return Kind('words, or a table with its kind: { kind = "bolt", ... }', _read, _write)
