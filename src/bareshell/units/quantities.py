"""The readers of each kind of quantity: the entry and its field's name in, SI out."""

from __future__ import annotations

import re

from bareshell.errors import BadInput
from bareshell.units.figures import FIGURE, read_figure, tidy
from bareshell.units.reading import read_quantity
from bareshell.units.tables import Country

__all__ = [
    "parse_force",
    "parse_length",
    "parse_mass",
    "parse_speed",
    "parse_temperature_c",
    "parse_torque",
    "parse_volume",
]

ABSOLUTE_ZERO_C = -273.15


def parse_length(text: str, field: str, *, bare: str | None = None, signed: bool = False) -> float:
    """Read a length.

    A fraction with no unit is inches, since nobody writes a fraction of a millimetre
    (common practice, no source). A decimal with no unit is refused unless ``bare`` says what the
    form prints beside the field.

    Parameters
    ----------
    text : str
        Such as ``"19.05 mm"``, ``"3/4 in"``, ``'1 1/2"'``, ``"5/16"``, ``"3 ft 2 1/2 in"``.
    field : str
        The field's name, for the error.
    bare : str, optional
        The unit printed beside the field.
    signed : bool
        Whether it may be below zero, such as the offset of a wheel.

    Returns
    -------
    float
        The length. [m]

    Raises
    ------
    BadInput
        When it cannot be read, or has no unit.

    Examples
    --------
    >>> parse_length("3/4 in", "bore of the master cylinder")
    0.01905
    >>> parse_length("19.05", "bore of the master cylinder")
    Traceback (most recent call last):
    ...
    bareshell.errors.BadInput: bore of the master cylinder: '19.05' has no unit. Write the unit \
too, such as 19.05 mm or 19.05 in.
    """
    return read_quantity(text, "length", field, bare=bare, signed=signed).si


def parse_torque(text: str, field: str, *, bare: str | None = None) -> float:
    """Read a torque. ``lb/ft`` is taken as the slip for lbf.ft that it always is here.

    Parameters
    ----------
    text : str
        Such as ``"15 N.m"``, ``"15 Nm"``, ``"11 lbf.ft"``, ``"11 ft lb"``, ``"120 lbf.in"``,
        ``"1.5 kgf.m"``.
    field : str
        The field's name, for the error.
    bare : str, optional
        The unit printed beside the field.

    Returns
    -------
    float
        The torque. [N.m]

    Raises
    ------
    BadInput
        When it cannot be read, or has no unit.

    Examples
    --------
    >>> round(parse_torque("11 lb ft", "union torque"), 2)
    14.91
    """
    return read_quantity(text, "torque", field, bare=bare).si


def parse_volume(
    text: str, field: str, *, bare: str | None = None, country: Country | None = None
) -> float:
    """Read a volume; a pint or a gallon is asked about unless the country is known.

    Parameters
    ----------
    text : str
        Such as ``"350 ml"``, ``"0.5 l"``, ``"1 UK pint"``, ``"12 US fl oz"``.
    field : str
        The field's name, for the error.
    bare : str, optional
        The unit printed beside the field.
    country : {"UK", "US"}, optional
        Whose pints and gallons the owner means.

    Returns
    -------
    float
        The volume. [m3]

    Raises
    ------
    BadInput
        When it cannot be read, has no unit, or could be the pint of either country.

    Examples
    --------
    >>> round(parse_volume("1 pint", "fluid", country="UK") * 1e6, 2)
    568.26
    """
    return read_quantity(text, "volume", field, bare=bare, country=country).si


def parse_mass(
    text: str, field: str, *, bare: str | None = None, country: Country | None = None
) -> float:
    """Read a mass; a ton or a hundredweight is asked about unless the country is known.

    Parameters
    ----------
    text : str
        Such as ``"12.5 kg"``, ``"27 lb"``, ``"5 lb 3 oz"``, ``"0.8 t"``.
    field : str
        The field's name, for the error.
    bare : str, optional
        The unit printed beside the field.
    country : {"UK", "US"}, optional
        Whose tons the owner means.

    Returns
    -------
    float
        The mass. [kg]

    Raises
    ------
    BadInput
        When it cannot be read, has no unit, or could be the ton of either country.

    Examples
    --------
    >>> parse_mass("5 lb 8 oz", "flywheel")
    2.494758035
    """
    return read_quantity(text, "mass", field, bare=bare, country=country).si


def parse_force(text: str, field: str, *, bare: str | None = None) -> float:
    """Read a force; kilograms and pounds are taken as kgf and lbf, as a scale reads them.

    Parameters
    ----------
    text : str
        Such as ``"500 N"``, ``"50 kgf"``, ``"110 lb"``.
    field : str
        The field's name, for the error.
    bare : str, optional
        The unit printed beside the field.

    Returns
    -------
    float
        The force. [N]

    Raises
    ------
    BadInput
        When it cannot be read, or has no unit.

    Examples
    --------
    >>> round(parse_force("50 kg", "pedal force"), 2)
    490.33
    """
    return read_quantity(text, "force", field, bare=bare).si


def parse_speed(text: str, field: str, *, bare: str | None = None) -> float:
    """Read a speed.

    Parameters
    ----------
    text : str
        Such as ``"50 km/h"``, ``"30 mph"``, ``"8 m/s"``.
    field : str
        The field's name, for the error.
    bare : str, optional
        The unit printed beside the field.

    Returns
    -------
    float
        The speed. [m/s]

    Raises
    ------
    BadInput
        When it cannot be read, or has no unit.

    Examples
    --------
    >>> parse_speed("30 mph", "speed before braking")
    13.4112
    """
    return read_quantity(text, "speed", field, bare=bare).si


_TEMPERATURE = re.compile(rf"({FIGURE})\s*(.*)")
_CELSIUS = frozenset({"c", "celsius", "centigrade"})
_FAHRENHEIT = frozenset({"f", "fahrenheit"})
_KELVIN = frozenset({"k", "kelvin", "kelvins"})


def parse_temperature_c(text: str, field: str) -> float:
    """Read a temperature; a figure alone is degrees Celsius.

    Parameters
    ----------
    text : str
        Such as ``"8"``, ``"8C"``, ``"8 deg C"``, ``"46F"``, ``"-3 °C"``.
    field : str
        The field's name, for the error.

    Returns
    -------
    float
        The temperature. [degree Celsius]

    Raises
    ------
    BadInput
        When it cannot be read, or is below absolute zero.

    Notes
    -----
    t_C = (t_F - 32) / 1.8 = T_K - 273.15 [S:nist-sp-811, B.8].

    Examples
    --------
    >>> parse_temperature_c("8 deg C", "garage"), parse_temperature_c("50F", "garage")
    (8.0, 10.0)
    """
    typed = tidy(text, field)
    match = _TEMPERATURE.fullmatch(typed)
    scale = (
        "" if match is None else re.sub(r"°|\bdeg(?:rees?)?\b\.?|\s|\.", "", match[2].casefold())
    )
    scale = scale.removeprefix("deg")
    if match is None or scale not in {"", *_CELSIUS, *_FAHRENHEIT, *_KELVIN}:
        raise BadInput(field, f"'{typed}' is no temperature", "write it as 8 C or 46 F")
    figure = read_figure(match[1], field)
    if scale in _FAHRENHEIT:
        celsius = (figure - 32) / 1.8
    elif scale in _KELVIN:
        celsius = figure + ABSOLUTE_ZERO_C
    else:
        celsius = figure
    if celsius < ABSOLUTE_ZERO_C:
        raise BadInput(field, f"'{typed}' is below absolute zero", "write it as 8 C or 46 F")
    return celsius
