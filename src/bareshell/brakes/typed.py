"""Read a figure of the brakes as people type it, and write it so that it can be read again.

``"19.05 mm measured"``, ``"0.38 (0.34-0.42)"``, ``"28 bar +/- 3, data sheet"``: a figure with its
unit, what range is believed, and where it comes from. The brake file and the forms go by this.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Final, cast

from bareshell.errors import BadInput
from bareshell.model.brake import Field
from bareshell.model.trust import Stated, Trust
from bareshell.units import QuantityName, Reading, parse_temperature_c, read_figure, read_quantity
from bareshell.units.figures import tidy
from bareshell.units.tables import GRAVITY_M_S2, QUANTITIES

__all__ = ["PLAIN", "Typed", "figure_text", "read_one", "read_stated", "stated_text", "written_in"]


@dataclass(frozen=True, slots=True)
class Typed:
    """A figure as it was typed.

    Parameters
    ----------
    stated : Stated
        What it means, in SI.
    reading : Reading or None
        The value as typed, for a question about its unit; None when it has no unit.
    """

    stated: Stated
    reading: Reading | None = None


_OWN_UNITS: Final[Mapping[str, Mapping[str, float]]] = MappingProxyType(
    {
        "share": {"": 1.0, "%": 0.01, "per cent": 0.01, "percent": 0.01},
        "ratio": {"": 1.0, ":1": 1.0, "to 1": 1.0},
        "count": {"": 1.0},
        "years": {"years": 1.0, "year": 1.0, "y": 1.0, "months": 1 / 12, "month": 1 / 12},
        "minutes": {"min": 1.0, "minutes": 1.0, "h": 60.0, "hours": 60.0},
        "share_of_g": {"g": 1.0, "%": 0.01, "m/s2": 1 / GRAVITY_M_S2},
        "angle": {
            "deg": math.pi / 180,
            "°": math.pi / 180,
            "degrees": math.pi / 180,
            "degree": math.pi / 180,
            "rad": 1.0,
        },
        "compliance": {
            "mm3/bar": 1e-14,
            "ml/bar": 1e-11,
            "cc/bar": 1e-11,
            "cm3/bar": 1e-11,
            "mm3/mpa": 1e-15,
            "m3/pa": 1.0,
        },
        "stiffness": {"kn/mm": 1e6, "n/mm": 1e3, "n/m": 1.0},
        "area": {"cm2": 1e-4, "mm2": 1e-6, "m2": 1.0},
        "specific_heat": {"j/kg.k": 1.0, "j/(kg.k)": 1.0, "j/kgk": 1.0, "kj/kg.k": 1e3},
        "heat_flow": {"w/k": 1.0},
    }
)

PLAIN: Final = frozenset({"share", "ratio", "count"})
"""Quantities that are written without a unit."""

_WRITTEN_IN: Final[Mapping[str, str]] = MappingProxyType(
    {
        "length": "mm",
        "mass": "kg",
        "force": "N",
        "pressure": "bar",
        "volume": "ml",
        "speed": "km/h",
        "torque": "N.m",
        "share": "",
        "ratio": "",
        "count": "",
        "years": "years",
        "minutes": "min",
        "share_of_g": "g",
        "angle": "deg",
        "compliance": "mm3/bar",
        "stiffness": "kN/mm",
        "area": "cm2",
        "specific_heat": "J/kg.K",
        "heat_flow": "W/K",
        "temperature": "C",
    }
)

_TRUSTS: Final[Mapping[str, Trust]] = MappingProxyType(
    {
        "measured": Trust.MEASURED,
        "marked on the part": Trust.MARKED,
        "marked": Trust.MARKED,
        "from a data sheet": Trust.DATA_SHEET,
        "from the data sheet": Trust.DATA_SHEET,
        "data sheet": Trust.DATA_SHEET,
        "assumed": Trust.ASSUMED,
        "guessed": Trust.ASSUMED,
    }
)

_DIGITS: Final = 12
_DAILY: Final = ("mm", "in", "cm", "m", "bar", "psi", "kg", "lb", "N", "kgf", "lbf", "ml", "km/h")

_TRUST = re.compile(rf"[\s,;]*\b({'|'.join(_TRUSTS)})\s*\.?$", re.IGNORECASE)
_BRACKETS = re.compile(r"^(.*?)\s*\(([^()]*)\)$")
_GIVE_OR_TAKE = re.compile(r"^(.*?)\s*(?:±|\+\s*/\s*-|\+-)\s*(.+)$")
_SPLIT = re.compile(r"\s*(?:\bto\b|\.\.+|-)\s*")
_UNIT_AT_END = re.compile(r"[^\d\s.,/+-][^\d]*[23]?(?:/[a-z]+[23]?)?$", re.IGNORECASE)
_FIGURE_AND_UNIT = re.compile(r"([+-]?[\d.,]+(?:[eE][+-]?\d+)?(?:[ -]?\d+/\d+)?|\d+/\d+)\s*(.*)")


def read_stated(text: str, field: Field, where: str) -> Typed:
    """Read a figure with its range and its trust.

    Parameters
    ----------
    text : str
        As typed. Without a word of trust it is an assumption; without a range it is taken as
        exact.
    field : Field
        Which figure it is.
    where : str
        What it belongs to, for the error: ``"front left caliper"``.

    Returns
    -------
    Typed
        The figure in SI, and how it was typed.

    Raises
    ------
    BadInput
        Naming the part and the figure, what was wrong, and what would be right.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind, field_of
    >>> bore = field_of(PartKind.MASTER, "bore_m")
    >>> read_stated("3/4 in, marked on the part", bore, "master").stated
    Stated(value=0.01905, trust=<Trust.MARKED: 'marked on the part'>, low=None, high=None)
    >>> friction = field_of(PartKind.CALIPER, "pad_friction")
    >>> read_stated("0.38 (0.34-0.42)", friction, "caliper").stated.high
    0.42
    """
    name = f"{where}, {field.words}" if where else field.words
    rest = tidy(text.replace("±", "+/-"), name)
    trust = Trust.ASSUMED
    said = _TRUST.search(rest)
    if said is not None:
        trust = _TRUSTS[said[1].casefold()]
        rest = rest[: said.start()].rstrip(" ,;")
    main, low, high = _parts(rest)
    value, reading = read_one(main, field, name)
    unit = _unit_in(main)
    stated: tuple[float | None, float | None] = (None, None)
    if low is not None and high is None:
        span = _span(low, unit, field, name, value)
        stated = (_settled(value - span), _settled(value + span))
    elif low is not None and high is not None:
        unit_of_range = _unit_in(high) or unit
        ends = [read_one(_with_unit(end, unit_of_range), field, name)[0] for end in (low, high)]
        stated = (ends[0], ends[1])
    return Typed(_stated(value, trust, stated, text, name), reading)


def _stated(
    value: float, trust: Trust, ends: tuple[float | None, float | None], text: str, name: str
) -> Stated:
    low, high = ends
    if low is not None and high is not None and not low <= value <= high:
        raise BadInput(
            name,
            f"in '{text}' the figure does not lie within its range",
            "write it as 0.38 (0.34-0.42), the lower end first",
        )
    return Stated(value, trust, low, high)


def read_one(text: str, field: Field, name: str) -> tuple[float, Reading | None]:
    """Read one figure with its unit, and hold it to what is possible.

    Parameters
    ----------
    text : str
        As typed, with neither range nor trust.
    field : Field
        Which figure it is.
    name : str
        Its name for the error.

    Returns
    -------
    value : float
        In SI.
    reading : Reading or None
        As typed, when it has one of the units of `bareshell.units`.

    Raises
    ------
    BadInput
        When it cannot be read, or cannot be.
    """
    reading: Reading | None = None
    if field.quantity == "temperature":
        value = parse_temperature_c(text, name)
    elif field.quantity in QUANTITIES:
        quantity = cast("QuantityName", field.quantity)
        reading = read_quantity(text, quantity, name, signed=field.least < 0)
        value = reading.si
    else:
        value = _with_own_unit(text, field, name)
    value = _settled(value)
    if not field.least <= value <= field.most:
        raise BadInput(name, f"'{text}' cannot be", _possible(field, reading))
    return value, reading


def _possible(field: Field, reading: Reading | None) -> str:
    between = f"{figure_text(field.least, field)} and {figure_text(field.most, field)}"
    remedy = f"it lies between {between}"
    if reading is None or field.quantity not in QUANTITIES:
        return remedy
    units = QUANTITIES[cast("QuantityName", field.quantity)].units
    daily = [(unit.mark, reading.figure * unit.si) for unit in units if unit.mark in _DAILY]
    likely = [mark for mark, si in daily if field.likely_low <= si <= field.likely_high]
    meant = likely or [mark for mark, si in daily if field.least <= si <= field.most]
    return f"{remedy}; was {reading.figure:g} {meant[0]} meant?" if meant else remedy


def _with_own_unit(text: str, field: Field, name: str) -> float:
    units = _OWN_UNITS[field.quantity]
    typed = tidy(text, name)
    found = _FIGURE_AND_UNIT.fullmatch(typed)
    if found is None:
        raise BadInput(name, f"'{typed}' is no figure", f"write it as {_example(field)}")
    # A cubed unit that was pasted is tidied to a plain 3 already.
    unit = found[2].strip().casefold()
    if unit not in units:
        what = f"'{found[2]}' is no unit of it" if unit else f"'{typed}' has no unit"
        raise BadInput(name, what, f"write it as {_example(field)}")
    value = read_figure(found[1], name) * units[unit]
    if field.quantity == "count" and value != int(value):
        raise BadInput(name, f"'{typed}' is not a whole number", "write a figure such as 2")
    return value


def _example(field: Field) -> str:
    middle = (field.likely_low + field.likely_high) / 2
    mark = _WRITTEN_IN[field.quantity]
    if field.quantity == "count":
        return f"{round(middle)}"
    return f"{middle / _factor(field):.3g} {mark}".strip()


def _parts(text: str) -> tuple[str, str | None, str | None]:
    """Take the range off: the figure, then nothing, a give-or-take, or both ends."""
    brackets = _BRACKETS.match(text)
    if brackets is not None:
        ends = _ends(brackets[2])
        if ends is not None:
            return brackets[1], *ends
        around = _GIVE_OR_TAKE.match(f"0 {brackets[2]}")
        if around is not None:
            return brackets[1], around[2], None
    around = _GIVE_OR_TAKE.match(text)
    if around is not None:
        return around[1], around[2], None
    return text, None, None


def _ends(text: str) -> tuple[str, str] | None:
    """Split a range at the one place where both sides hold a figure; 1-1/2 is not split."""
    for found in _SPLIT.finditer(text):
        low, high = text[: found.start()].strip(), text[found.end() :].strip()
        if re.search(r"\d", low) and re.match(r"[+-]?[\d.]", high):
            mixed = found[0] == "-" and re.fullmatch(r"\d+/\d+.*", high) and low.isdigit()
            if not (mixed and _SPLIT.search(high)):
                return low, high
    return None


def _unit_in(text: str) -> str:
    found = _UNIT_AT_END.search(text.strip())
    return found[0].strip() if found else ""


def _with_unit(text: str, unit: str) -> str:
    return text if _unit_in(text) or not unit else f"{text} {unit}"


def _span(text: str, unit: str, field: Field, name: str, value: float) -> float:
    """Read the give-or-take of a figure, a share of it or a figure of the same unit."""
    if text.endswith("%") and field.quantity != "share":
        return abs(value) * read_figure(text[:-1], name) / 100
    if field.quantity == "temperature":
        degrees = read_figure(re.sub(r"\s*°?\s*(?:deg\s*)?[cCfF]$", "", text), name)
        return degrees / 1.8 if (_unit_in(text) or unit).casefold().endswith("f") else degrees
    wide = Field(
        field.name, field.quantity, field.words, 0.0, math.inf, field.likely_low, field.likely_high
    )
    return read_one(_with_unit(text, unit), wide, name)[0]


def _factor(field: Field) -> float:
    mark = _WRITTEN_IN[field.quantity]
    if field.quantity == "temperature":
        return 1.0
    if field.quantity in QUANTITIES:
        units = QUANTITIES[cast("QuantityName", field.quantity)].units
        return next(unit.si for unit in units if unit.mark == mark)
    return _OWN_UNITS[field.quantity][mark.casefold()]


def written_in(field: Field) -> str:
    """Return the unit that a figure is written in; empty for one without a unit.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind, field_of
    >>> written_in(field_of(PartKind.VALVE, "knee_pa"))
    'bar'
    """
    return _WRITTEN_IN[field.quantity]


def figure_text(value: float, field: Field) -> str:
    """Write a figure in the trade's unit, with no more digits than it needs.

    Parameters
    ----------
    value : float
        In SI.
    field : Field
        Which figure it is.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind, field_of
    >>> figure_text(0.01905, field_of(PartKind.MASTER, "bore_m"))
    '19.05 mm'
    >>> figure_text(0.55, field_of(PartKind.BALANCE_BAR, "front_share"))
    '0.55'
    """
    return f"{_digits(value, _factor(field))} {_WRITTEN_IN[field.quantity]}".strip()


def _settled(value: float) -> float:
    """Shed the dust of conversion: 3/4 in is 19.05 mm, not 19.049999999999997."""
    return float(f"{value:.{_DIGITS}g}")


def _digits(value: float, factor: float) -> str:
    """Find the fewest digits that are read back as the very same figure."""
    texts = (f"{value / factor:.{places}g}" for places in range(1, 17))
    same = (text for text in texts if _settled(float(text) * factor) == _settled(value))
    text = next(same, repr(value / factor))
    # Without an exponent, which no garage writes.
    return f"{Decimal(text):f}"


def stated_text(stated: Stated, field: Field) -> str:
    """Write a figure with its range and its trust, as `read_stated` reads it.

    Parameters
    ----------
    stated : Stated
        The figure.
    field : Field
        Which figure it is.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind, field_of
    >>> friction = field_of(PartKind.CALIPER, "pad_friction")
    >>> stated_text(Stated(0.38, Trust.ASSUMED, 0.34, 0.42), friction)
    '0.38 (0.34 to 0.42)'
    >>> stated_text(Stated(0.01905, Trust.MEASURED), field_of(PartKind.MASTER, "bore_m"))
    '19.05 mm measured'
    """
    words = [figure_text(stated.value, field)]
    if stated.low is not None or stated.high is not None:
        low = stated.value if stated.low is None else stated.low
        high = stated.value if stated.high is None else stated.high
        factor = _factor(field)
        mark = f" {_WRITTEN_IN[field.quantity]}".rstrip()
        words.append(f"({_digits(low, factor)} to {_digits(high, factor)}{mark})")
    if stated.trust is not Trust.ASSUMED:
        words.append(str(stated.trust))
    return " ".join(words)
