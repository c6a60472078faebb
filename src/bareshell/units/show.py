"""Show SI in the units its owner reads: metric, inches and pounds, or the usual mixture."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final, Literal

from bareshell.units.reading import unit_called
from bareshell.units.tables import INCH_M, Country, QuantityName

__all__ = [
    "IMPERIAL",
    "METRIC",
    "MIXTURE",
    "MONTHS",
    "US_CUSTOMARY",
    "WEEKDAYS",
    "Preference",
    "show_date",
    "show_force",
    "show_hours",
    "show_in",
    "show_inches",
    "show_length",
    "show_mass",
    "show_pressure",
    "show_speed",
    "show_temperature",
    "show_torque",
    "show_volume",
    "show_wait",
]


WEEKDAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@dataclass(frozen=True, slots=True)
class Preference:
    """The units one owner reads.

    Parameters
    ----------
    length, pressure, torque, volume, mass, force, speed, temperature : str
        The unit's mark for each quantity.
    country : {"UK", "US"} or None
        Whose pints and tons are meant when one is typed; None asks.

    Examples
    --------
    >>> show_pressure(7e6, Preference(pressure="psi"))
    '1015 psi'
    """

    length: Literal["mm", "in"] = "mm"
    pressure: Literal["bar", "psi", "kPa", "MPa", "kgf/cm2"] = "bar"
    torque: Literal["N.m", "lbf.ft", "kgf.m"] = "N.m"
    volume: Literal["ml", "UK fl oz", "US fl oz"] = "ml"
    mass: Literal["kg", "lb"] = "kg"
    force: Literal["N", "kgf", "lbf"] = "N"
    speed: Literal["km/h", "mph"] = "km/h"
    temperature: Literal["C", "F"] = "C"
    country: Country | None = None


METRIC: Final = Preference()
IMPERIAL: Final = Preference(
    "in", "psi", "lbf.ft", "UK fl oz", "lb", "lbf", "mph", "F", country="UK"
)
US_CUSTOMARY: Final = Preference(
    "in", "psi", "lbf.ft", "US fl oz", "lb", "lbf", "mph", "F", country="US"
)
MIXTURE: Final = Preference("mm", "psi", "lbf.ft", "ml", "kg", "kgf", "mph", "C", country="UK")
"""Millimetres and kilograms, but psi, lbf.ft and miles: what many British garages speak."""


def figure(value: float, *, significant: int = 3, most_decimals: int = 9) -> str:
    """Write a figure with enough digits and no idle noughts; whole figures are never cut.

    >>> figure(68.9476), figure(1015.3), figure(0.00512), figure(12.0), figure(-0.0001)
    ('68.9', '1015', '0.00512', '12', '-0.0001')
    """
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else str(value)
    decimals = significant - 1 - math.floor(math.log10(abs(value)))
    text = f"{value:.{min(max(decimals, 0), most_decimals)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in {"-0", ""} else text


def show_in(si: float, quantity: QuantityName, mark: str, *, significant: int = 3) -> str:
    """Show a value in one named unit.

    Parameters
    ----------
    si : float
        The value in SI.
    quantity : str
        The kind of quantity.
    mark : str
        The unit to show it in.
    significant : int
        How many figures to show; whole figures are never cut.

    Examples
    --------
    >>> show_in(0.00125, "volume", "l")
    '1.25 l'
    """
    return f"{figure(si / unit_called(quantity, mark).si, significant=significant)} {mark}"


def show_length(length_m: float, preference: Preference = METRIC) -> str:
    """Show a length to a hundredth of a millimetre, or in inches and fractions.

    Parameters
    ----------
    length_m : float
        [m]
    preference : Preference
        The owner's units.

    Examples
    --------
    >>> show_length(0.01905), show_length(0.01905, IMPERIAL), show_length(2.311)
    ('19.05 mm', '3/4 in', '2311 mm')
    """
    if preference.length == "in":
        return show_inches(length_m)
    millimetres = length_m * 1000
    if abs(millimetres) < 0.1:
        return f"{figure(millimetres)} mm"
    return f"{figure(round(millimetres, 2), significant=9, most_decimals=2)} mm"


def show_inches(length_m: float, *, within_m: float = 0.0005 * INCH_M) -> str:
    """Show a length as inches and a fraction to 1/64, or in thousandths when it is no fraction.

    Parameters
    ----------
    length_m : float
        [m]
    within_m : float
        How near a 64th it must be to be called one; half a thousandth of an inch unless said. [m]

    Examples
    --------
    >>> show_inches(0.0381), show_inches(0.0047625), show_inches(0.0191)
    ('1 1/2 in', '3/16 in', '0.752 in')
    """
    total = length_m / INCH_M
    sixty_fourths = round(total * 64)
    if sixty_fourths == 0 or abs(total - sixty_fourths / 64) * INCH_M > within_m:
        return (
            f"{figure(round(total, 3), significant=9, most_decimals=3)} in"
            if abs(total) >= 0.1
            else f"{figure(total)} in"
        )
    whole, part = divmod(Fraction(abs(sixty_fourths), 64), 1)
    sign = "-" if sixty_fourths < 0 else ""
    words = [str(whole)] if whole else []
    if part:
        words.append(f"{part.numerator}/{part.denominator}")
    return f"{sign}{' '.join(words)} in"


def show_pressure(pressure_pa: float, preference: Preference = METRIC) -> str:
    """Show a pressure [Pa].

    >>> show_pressure(100_000), show_pressure(6_894_757, MIXTURE)
    ('1 bar', '1000 psi')
    """
    return show_in(pressure_pa, "pressure", preference.pressure)


def show_torque(torque_nm: float, preference: Preference = METRIC) -> str:
    """Show a torque [N.m].

    >>> show_torque(15.0), show_torque(15.0, MIXTURE)
    ('15 N.m', '11.1 lbf.ft')
    """
    return show_in(torque_nm, "torque", preference.torque)


def show_volume(volume_m3: float, preference: Preference = METRIC) -> str:
    """Show a volume; a litre and more in litres [m3].

    >>> show_volume(0.00035), show_volume(0.0045), show_volume(0.0001, US_CUSTOMARY)
    ('350 ml', '4.5 l', '3.38 US fl oz')
    """
    if preference.volume == "ml" and abs(volume_m3) >= 0.001:
        return show_in(volume_m3, "volume", "l")
    return show_in(volume_m3, "volume", preference.volume)


def show_mass(mass_kg: float, preference: Preference = METRIC) -> str:
    """Show a mass; less than a kilogram in grams [kg].

    >>> show_mass(12.5), show_mass(0.25), show_mass(12.5, IMPERIAL)
    ('12.5 kg', '250 g', '27.6 lb')
    """
    if preference.mass == "kg" and abs(mass_kg) < 1:
        return show_in(mass_kg, "mass", "g")
    return show_in(mass_kg, "mass", preference.mass)


def show_force(force_n: float, preference: Preference = METRIC) -> str:
    """Show a force [N].

    >>> show_force(500.0), show_force(500.0, MIXTURE)
    ('500 N', '51 kgf')
    """
    return show_in(force_n, "force", preference.force)


def show_speed(speed_m_s: float, preference: Preference = METRIC) -> str:
    """Show a speed [m/s].

    >>> show_speed(13.4112), show_speed(13.4112, MIXTURE)
    ('48.3 km/h', '30 mph')
    """
    return show_in(speed_m_s, "speed", preference.speed)


def show_temperature(temperature_c: float, preference: Preference = METRIC) -> str:
    """Show a temperature to the nearest half degree or better [degree Celsius].

    >>> show_temperature(8.0), show_temperature(10.0, IMPERIAL), show_temperature(-3.5)
    ('8 C', '50 F', '-3.5 C')
    """
    value = temperature_c if preference.temperature == "C" else temperature_c * 1.8 + 32
    return f"{figure(round(value, 1), significant=9, most_decimals=1)} {preference.temperature}"


def show_hours(hours: float) -> str:
    """Show a time worked in hours and minutes [h].

    >>> show_hours(2.5), show_hours(0.25), show_hours(3.0), show_hours(0.999)
    ('2 h 30 min', '15 min', '3 h', '1 h')
    """
    minutes = round(abs(hours) * 60)
    sign = "-" if hours < 0 and minutes else ""
    whole, rest = divmod(minutes, 60)
    if not whole:
        return f"{sign}{rest} min"
    return f"{sign}{whole} h {rest} min" if rest else f"{sign}{whole} h"


def show_wait(hours: float) -> str:
    """Show a wait by the clock: two days and more in days and hours [h].

    >>> show_wait(12.0), show_wait(48.0), show_wait(76.0)
    ('12 h', '2 days', '3 days 4 h')
    """
    if hours < 48:
        return show_hours(hours)
    days, rest = divmod(round(hours), 24)
    return f"{days} days {rest} h" if rest else f"{days} days"


def show_date(day: date) -> str:
    """Show a date that reads the same in every country.

    >>> show_date(date(2026, 3, 3))
    'Tue 3 March 2026'
    """
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1]} {day.year}"
