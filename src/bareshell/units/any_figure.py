"""A figure of any quantity that a table names: read as typed, shown in its owner's units.

Whoever holds a table of figures (the brakes' parts, what was read off a tester) names a quantity
for each; a brake file, a form and a page then read and show all of them through here.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from types import MappingProxyType
from typing import Final

from bareshell.errors import BadInput
from bareshell.units.durations import parse_hours
from bareshell.units.figures import FIGURE, read_figure, tidy
from bareshell.units.quantities import (
    parse_force,
    parse_length,
    parse_mass,
    parse_pressure,
    parse_speed,
    parse_temperature_c,
    parse_torque,
    parse_volume,
)
from bareshell.units.show import (
    METRIC,
    Preference,
    figure,
    show_force,
    show_length,
    show_mass,
    show_pressure,
    show_speed,
    show_temperature,
    show_torque,
    show_volume,
)
from bareshell.units.tables import GRAVITY_M_S2, INCH_M, POUND_FORCE_N

__all__ = ["example_of", "read_any", "show_any"]

_MM3_A_BAR = 1e-14
_KN_A_MM = 1e6


def read_any(quantity: str, text: str, field: str, preference: Preference = METRIC) -> float:
    """Read a figure of a named quantity.

    Parameters
    ----------
    quantity : str
        ``length``, ``pressure``, ``share``, ``share_of_g``, ``compliance`` ...
    text : str
        As it was typed.
    field : str
        The field's name, for the error.
    preference : Preference
        Whose pints are meant.

    Returns
    -------
    float
        In SI; temperatures in degrees Celsius, times as the quantity is called.

    Raises
    ------
    BadInput
        When it cannot be read, naming the field and what would be right.

    Examples
    --------
    >>> read_any("length", "3/4 in", "bore"), read_any("share", "54 %", "front share")
    (0.01905, 0.54)
    >>> read_any("share", "54", "front share")
    Traceback (most recent call last):
    ...
    bareshell.errors.BadInput: front share: 54 is more than the whole. Write it as 54 % or 0.54.
    """
    if quantity == "volume":
        return parse_volume(text, field, country=preference.country)
    return _READERS[quantity](text, field)


def show_any(quantity: str, si: float, preference: Preference = METRIC) -> str:
    """Show a figure of a named quantity in its owner's units.

    Examples
    --------
    >>> show_any("share", 0.54), show_any("share_of_g", 0.62), show_any("angle", 1.92)
    ('54 %', '0.62 g', '110 deg')
    >>> show_any("compliance", 6e-14), show_any("years", 1.0), show_any("minutes", 720.0)
    ('6 mm3/bar', '1 year', '12 h')
    """
    return _SHOWERS[quantity](si, preference)


def example_of(quantity: str) -> str:
    """Return what an entry of a quantity looks like, for the hint beside its box.

    Examples
    --------
    >>> example_of("pressure")
    '70 bar or 1000 psi'
    """
    return _EXAMPLES[quantity]


# --- reading ---------------------------------------------------------------------------------


def _share(text: str, field: str) -> float:
    typed = tidy(text, field)
    if typed.endswith("%"):
        return read_figure(typed.removesuffix("%").strip(), field) / 100
    found = read_figure(typed, field)
    if abs(found) > 1:
        raise BadInput(
            field,
            f"{figure(found)} is more than the whole",
            f"write it as {figure(found)} % or {figure(found / 100)}",
        )
    return found


def _ratio(text: str, field: str) -> float:
    typed = tidy(text, field)
    return read_figure(re.sub(r"\s*(?::|to)\s*1$", "", typed), field)


def _count(text: str, field: str) -> float:
    found = read_figure(text, field)
    if found != round(found):
        raise BadInput(field, f"{figure(found)} is no whole number", "count them, such as 2")
    return found


def _share_of_g(text: str, field: str) -> float:
    typed = tidy(text, field)
    match = re.fullmatch(rf"({FIGURE})\s*(g|%|m/s2|m/s\^2|m/s²)?", typed)
    if match is None or (match[2] is None and abs(read_figure(match[1], field)) > 2):
        raise BadInput(field, f"'{typed}' cannot be read", f"write it as {_EXAMPLES['share_of_g']}")
    found = read_figure(match[1], field)
    if match[2] == "%":
        return found / 100
    return found / GRAVITY_M_S2 if match[2] and match[2].startswith("m") else found


_COMPLIANCES: Final = MappingProxyType(
    {"mm3/bar": 1e-14, "ml/bar": 1e-11, "cm3/bar": 1e-11, "mm3/mpa": 1e-15, "cm3/mpa": 1e-12,
     "m3/pa": 1.0}
)  # fmt: skip


def _compliance(text: str, field: str) -> float:
    typed = tidy(text, field)
    volume, at, pressure = typed.partition(" at ")
    if at:
        at_pa = parse_pressure(pressure, f"{field}, pressure")
        if at_pa <= 0:
            raise BadInput(field, "nothing swells at no pressure", "write it as 0.4 ml at 70 bar")
        return parse_volume(volume, f"{field}, volume") / at_pa
    return _in_table(typed, field, _COMPLIANCES, "compliance")


_STIFFNESSES: Final = MappingProxyType(
    {"kn/mm": 1e6, "n/mm": 1e3, "n/m": 1.0, "lbf/in": POUND_FORCE_N / INCH_M,
     "lb/in": POUND_FORCE_N / INCH_M}
)  # fmt: skip
_ANGLES: Final = MappingProxyType(
    {"deg": math.pi / 180, "degree": math.pi / 180, "degrees": math.pi / 180,
     "°": math.pi / 180, "rad": 1.0}
)  # fmt: skip

_AREAS: Final = MappingProxyType(
    {"cm2": 1e-4, "mm2": 1e-6, "m2": 1.0, "in2": INCH_M**2, "sq in": INCH_M**2}
)  # fmt: skip
_HEAT_FLOWS: Final = MappingProxyType({"w/k": 1.0, "w/c": 1.0})
_SPECIFIC_HEATS: Final = MappingProxyType(
    {"j/kgk": 1.0, "j/(kg k)": 1.0, "j/kg k": 1.0, "kj/kgk": 1e3}
)


def _in_table(typed: str, field: str, table: MappingProxyType[str, float], quantity: str) -> float:
    match = re.fullmatch(rf"({FIGURE})\s*(.*)", typed)
    unit = (
        match[2].replace("³", "3").replace("²", "2").replace("^", "").casefold().strip()
        if match
        else ""
    )
    if match is None or unit not in table:
        what = f"'{typed}' has no unit" if match and not unit else f"'{typed}' cannot be read"
        raise BadInput(field, what, f"write it as {_EXAMPLES[quantity]}")
    return read_figure(match[1], field) * table[unit]


def _years(text: str, field: str) -> float:
    typed = tidy(text, field)
    match = re.fullmatch(rf"({FIGURE})\s*(years?|y|months?)?", typed)
    if match is None:
        raise BadInput(field, f"'{typed}' cannot be read", f"write it as {_EXAMPLES['years']}")
    found = read_figure(match[1], field)
    return found / 12 if (match[2] or "").startswith("month") else found


_READERS: Final[MappingProxyType[str, Callable[[str, str], float]]] = MappingProxyType(
    {
        "length": lambda text, field: parse_length(text, field, signed=True),
        "pressure": parse_pressure,
        "torque": parse_torque,
        "mass": parse_mass,
        "force": parse_force,
        "speed": parse_speed,
        "temperature": parse_temperature_c,
        "volume": parse_volume,
        "share": _share,
        "ratio": _ratio,
        "count": _count,
        "share_of_g": _share_of_g,
        "compliance": _compliance,
        "stiffness": lambda text, field: _in_table(
            tidy(text, field), field, _STIFFNESSES, "stiffness"
        ),
        "angle": lambda text, field: _in_table(tidy(text, field), field, _ANGLES, "angle"),
        "area": lambda text, field: _in_table(tidy(text, field), field, _AREAS, "area"),
        "heat_flow": lambda text, field: _in_table(
            tidy(text, field), field, _HEAT_FLOWS, "heat_flow"
        ),
        "specific_heat": lambda text, field: _in_table(
            tidy(text, field), field, _SPECIFIC_HEATS, "specific_heat"
        ),
        "years": _years,
        "minutes": lambda text, field: parse_hours(text, field, bare="min") * 60,
    }
)


# --- showing ---------------------------------------------------------------------------------


def _show_minutes(minutes: float, _preference: Preference) -> str:
    if minutes >= 120 and minutes % 30 == 0:
        return f"{figure(minutes / 60)} h"
    return f"{figure(minutes)} min"


def _show_years(years: float, _preference: Preference) -> str:
    if 0 < years < 1:
        months = round(years * 12, 1)
        return f"{figure(months)} month{'' if months == 1 else 's'}"
    return f"{figure(years)} year{'' if years == 1 else 's'}"


_SHOWERS: Final[MappingProxyType[str, Callable[[float, Preference], str]]] = MappingProxyType(
    {
        "length": show_length,
        "pressure": show_pressure,
        "torque": show_torque,
        "mass": show_mass,
        "force": show_force,
        "speed": show_speed,
        "temperature": show_temperature,
        "volume": show_volume,
        "share": lambda si, _: f"{figure(si * 100)} %",
        "ratio": lambda si, _: figure(si),
        "count": lambda si, _: figure(si),
        "share_of_g": lambda si, _: f"{figure(si)} g",
        "compliance": lambda si, _: f"{figure(si / _MM3_A_BAR)} mm3/bar",
        "stiffness": lambda si, _: f"{figure(si / _KN_A_MM)} kN/mm",
        "angle": lambda si, _: f"{figure(math.degrees(si))} deg",
        "area": lambda si, _: f"{figure(si * 1e4)} cm2",
        "heat_flow": lambda si, _: f"{figure(si)} W/K",
        "specific_heat": lambda si, _: f"{figure(si)} J/kgK",
        "years": _show_years,
        "minutes": _show_minutes,
    }
)

_EXAMPLES: Final = MappingProxyType(
    {
        "length": "19.05 mm or 3/4 in",
        "pressure": "70 bar or 1000 psi",
        "torque": "15 N.m or 11 lbf.ft",
        "mass": "862 kg or 1900 lb",
        "force": "300 N or 67 lbf",
        "speed": "50 km/h or 30 mph",
        "temperature": "20 C or 68 F",
        "volume": "35 ml",
        "share": "54 % or 0.54",
        "ratio": "4.5",
        "count": "2",
        "share_of_g": "0.62 g or 62 %",
        "compliance": "6 mm3/bar or 0.4 ml at 70 bar",
        "stiffness": "150 kN/mm",
        "angle": "110 deg",
        "area": "120 cm2",
        "heat_flow": "2.5 W/K",
        "specific_heat": "460 J/kgK",
        "years": "2 years or 18 months",
        "minutes": "10 min or 12 h",
    }
)
