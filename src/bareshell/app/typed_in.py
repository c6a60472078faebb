"""NAME=VALUE as it is typed, laid over the fields of a form: one way of naming for every command.

A field goes by its name with or without the letters of its unit, by what it is called on the page,
or by its first word where only one field begins so: ``grip=22mm`` of a pin.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from bareshell.app.duty_forms import lay_duty
from bareshell.app.filled import Fields
from bareshell.app.spec_forms import SPEC_FIELDS
from bareshell.errors import BadInput
from bareshell.parts.rules import RULES

Laid = dict[str, tuple[str, ...]]

_UNIT_LETTERS = re.compile(r"_(?:m|n|c|deg|mm2)$")
_TICKS = frozenset({"fixing", "unlike"})
_UNKNOWN = frozenset({"unknown", "not known", ""})
_NO = frozenset({"no", "none", "unknown", "false"})


@dataclass(frozen=True, slots=True)
class KindField:
    """One field of a kind of part: its name in a terminal, what it is called, what it asks."""

    name: str
    label: str
    unit: str
    asks: str
    usual: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KindFields:
    """A kind of part and all its fields."""

    kind: str
    fields: tuple[KindField, ...]


@dataclass(frozen=True, slots=True)
class PartKinds:
    """The kinds of part, and what each is asked."""

    kinds: tuple[KindFields, ...]
    relied_on: tuple[str, ...]


def part_kinds(kind: str = "") -> PartKinds:
    """Lay the kinds of part out for a list, with the names of what is relied on a fixing."""
    return PartKinds(kinds_of_part(kind), DUTY_NAMES)


def kinds_of_part(kind: str = "") -> tuple[KindFields, ...]:
    """Say which fields each kind of part has, in the order in which they are asked.

    Parameters
    ----------
    kind : str
        One kind alone; empty for all.

    Raises
    ------
    BadInput
        When there is no such kind.

    Examples
    --------
    >>> [one.name for one in kinds_of_part("split pin")[0].fields]
    ['diameter', 'length', 'material']
    """
    chosen = [one for one in SPEC_FIELDS if one == _plain(kind)] if kind else list(SPEC_FIELDS)
    if not chosen:
        raise BadInput("kind", f"'{kind}' is none", f"it may be: {', '.join(SPEC_FIELDS)}")
    return tuple(KindFields(one, tuple(_kind_fields(one))) for one in chosen)


def _kind_fields(kind: str) -> Iterable[KindField]:
    asks = {rule.name: rule.ask for rule in RULES[kind]}
    for one in SPEC_FIELDS[kind]:
        unit = one.unit if one.reads != "length" else "mm, or with its unit"
        yield KindField(_short(one.name), one.label, unit, asks.get(one.name, ""), one.usual)


def typed_over(laid: Mapping[str, Sequence[str]], said: Sequence[str]) -> Fields:
    """Lay NAME=VALUE over a form as it stands; another kind of part brings its own fields.

    Parameters
    ----------
    laid : mapping
        The form as it stands, field by field.
    said : sequence of str
        What was typed: ``diameter=5/16 in``. ``unknown`` takes a figure away again.

    Raises
    ------
    BadInput
        When there is no such field, or a name could mean two.

    Examples
    --------
    >>> form = typed_over({"spec": ("plain",)}, ["kind=pin", "grip=22 mm"])
    >>> form["spec"], form["spec_grip_to_hole_m"]
    (('pin',), ('22 mm',))
    """
    pairs = [_pair(each) for each in said]
    form: Laid = {name: tuple(values) for name, values in laid.items()}
    kinds = [value for name, value in pairs if _plain(name) in ("kind", "spec")]
    if kinds:
        kind = kinds_of_part(kinds[-1])[0].kind
        if (kind,) != form.get("spec"):
            form = {k: v for k, v in form.items() if not k.startswith("spec_")}
        form["spec"] = (kind,)
    kind = (form.get("spec") or ("plain",))[0]
    for one in SPEC_FIELDS[kind]:
        form.setdefault(f"spec_{one.name}", ("",))
    names = _names(form, kind)
    for name, value in pairs:
        if _plain(name) in ("kind", "spec"):
            continue
        key = _found(name, names, kind)
        if _is_nothing(key, _plain(value)):
            form[key] = () if key in _TICKS else ("",)
        else:
            form[key] = (value,)
    return form


def _is_nothing(key: str, said: str) -> bool:
    """Whether it takes a field away; "none" is an answer, of a washer or a residual valve."""
    return said in (_NO if key in _TICKS else _UNKNOWN)


def _pair(said: str) -> tuple[str, str]:
    name, sign, value = said.partition("=")
    if not sign or not name.strip():
        raise BadInput(said, "is no NAME=VALUE", "write it as diameter=8mm; quote what has blanks")
    return name.strip(), value.strip()


def _names(form: Laid, kind: str) -> dict[str, list[str]]:
    """Every name that a field goes by; sizes go before what is relied on them."""
    labels = {f"spec_{one.name}": one.label for one in SPEC_FIELDS[kind]}
    names: dict[str, list[str]] = {}
    for key in sorted(form, key=lambda key: (not key.startswith("spec_"), key)):
        bare = key.removeprefix("spec_").removeprefix("duty_")
        called = {_plain(key), _plain(bare), _plain(_short(bare)), _plain(_short(key))}
        called |= {_plain(labels[key])} if key in labels else set()
        for name in called:
            names.setdefault(name, []).append(key)
    return names


def _found(name: str, names: Mapping[str, list[str]], kind: str) -> str:
    said = _plain(name)
    if said in names:
        return names[said][0]
    begins = {keys[0] for known, keys in names.items() if known.startswith(f"{said} ")}
    sizes = {key for key in begins if key.startswith("spec_") and "tolerance" not in key}
    chosen = sizes or begins
    if len(chosen) == 1:
        return chosen.pop()
    known = chosen or {key for keys in names.values() for key in keys}
    listed = ", ".join(sorted(_typed_as(key) for key in known))
    problem = "could mean more than one field" if chosen else f"is no field here (kind {kind})"
    raise BadInput(name, problem, f"it may be: {listed}")


def _short(name: str) -> str:
    """A field's name as it is typed: without the letters of its unit, hyphens for blanks."""
    return _UNIT_LETTERS.sub("", name).replace("_", "-")


def _typed_as(key: str) -> str:
    """How a form's field is typed; the hole of a joint is not that of a pin."""
    bare = key.removeprefix("spec_").removeprefix("duty_")
    return _short(key if key in _OF_BOTH else bare)


_OF_BOTH = frozenset({"duty_hole_m", "duty_seat"})
"""What a joint and a kind of part both have: the joint's is typed in full."""


def _plain(said: str) -> str:
    return " ".join(re.sub(r"[-_,()]", " ", said.casefold()).split())


DUTY_NAMES = tuple(_typed_as(key) for key in lay_duty(None))
"""What is relied on a fixing, by the names it is typed by."""
