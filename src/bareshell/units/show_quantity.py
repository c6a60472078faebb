"""Show a figure of any quantity that a table names, in its owner's units.

Whoever holds a table of figures (the brakes' parts, what was read off a tester) names a quantity
for each; pages and the record show all of them through here.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from types import MappingProxyType
from typing import Final

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

__all__ = ["show_quantity"]

_MM3_A_BAR = 1e-14
_KN_A_MM = 1e6


def show_quantity(quantity: str, si: float, preference: Preference = METRIC) -> str:
    """Show a figure of a named quantity in its owner's units.

    Parameters
    ----------
    quantity : str
        ``length``, ``pressure``, ``share``, ``share_of_g``, ``compliance`` ...
    si : float
        In SI; temperatures in degrees Celsius, times as the quantity is called.
    preference : Preference
        The owner's units.

    Examples
    --------
    >>> show_quantity("share", 0.54), show_quantity("share_of_g", 0.62)
    ('54 %', '0.62 g')
    >>> show_quantity("compliance", 6e-14), show_quantity("years", 1.0)
    ('6 mm3/bar', '1 year')
    """
    return _SHOWERS[quantity](si, preference)


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
        "specific_heat": lambda si, _: f"{figure(si)} J/kg.K",
        "years": _show_years,
        "minutes": _show_minutes,
    }
)
