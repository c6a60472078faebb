"""Quantities: what the trade writes becomes the right amount of SI, or a question."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from bareshell.errors import BadInput
from bareshell.units import (
    IMPERIAL,
    METRIC,
    MIXTURE,
    US_CUSTOMARY,
    Preference,
    parse_force,
    parse_length,
    parse_mass,
    parse_speed,
    parse_temperature_c,
    parse_torque,
    parse_volume,
    read_quantity,
    show_force,
    show_inches,
    show_length,
    show_mass,
    show_pressure,
    show_speed,
    show_temperature,
    show_torque,
    show_volume,
)
from bareshell.units.figures import LONGEST
from bareshell.units.tables import QUANTITIES
from tests.units.polite import is_polite, refusal


def parse_pressure(typed: str, field: str) -> float:
    """A pressure as every form and file reads one."""
    return read_quantity(typed, "pressure", field).si


PREFERENCES = (METRIC, IMPERIAL, US_CUSTOMARY, MIXTURE)

# Values printed in NIST Special Publication 811 (2008), appendix B.8, to seven figures;
# from memory. The exact ones are the definitions it names: the 1959 inch and pound, 4.54609 l to
# the UK gallon (SI 1995/1804), 231 cubic inches to the US gallon, 9.80665 m/s2.
PUBLISHED = [
    (parse_length, "1 in", 2.54e-2),
    (parse_length, "1 thou", 2.54e-5),
    (parse_length, "1 ft", 3.048e-1),
    (parse_length, "1 yd", 9.144e-1),
    (parse_length, "1 mile", 1.609344e3),
    (parse_pressure, "1 psi", 6.894757e3),
    (parse_pressure, "1 bar", 1e5),
    (parse_pressure, "1 kgf/cm2", 9.80665e4),
    (parse_pressure, "1 atm", 1.01325e5),
    (parse_pressure, "1 inHg", 3.386389e3),
    (parse_pressure, "1 mmHg", 1.333224e2),
    (parse_pressure, "1 inH2O", 2.490889e2),
    (parse_torque, "1 lbf.ft", 1.355818),
    (parse_torque, "1 lbf.in", 1.129848e-1),
    (parse_torque, "1 kgf.m", 9.80665),
    (parse_volume, "1 UK fl oz", 2.841306e-5),
    (parse_volume, "1 US fl oz", 2.957353e-5),
    (parse_volume, "1 UK gal", 4.54609e-3),
    (parse_volume, "1 US gal", 3.785412e-3),
    (parse_volume, "1 UK pint", 5.682613e-4),
    (parse_volume, "1 US pint", 4.731765e-4),
    (parse_volume, "1 in3", 1.638706e-5),
    (parse_mass, "1 lb", 4.535924e-1),
    (parse_mass, "1 oz", 2.834952e-2),
    (parse_mass, "1 UK ton", 1.016047e3),
    (parse_mass, "1 US ton", 9.071847e2),
    (parse_mass, "1 UK cwt", 5.080235e1),
    (parse_force, "1 lbf", 4.448222),
    (parse_force, "1 kgf", 9.80665),
    (parse_speed, "1 mph", 4.4704e-1),
    (parse_speed, "1 km/h", 2.777778e-1),
    (parse_speed, "1 ft/s", 3.048e-1),
]


@pytest.mark.parametrize(("parse", "typed", "published"), PUBLISHED)
def test_a_unit_is_worth_what_is_published(parse: object, typed: str, published: float) -> None:
    assert callable(parse)
    assert parse(typed, "value") == pytest.approx(published, rel=3e-7)


# The same again from a library that keeps its own constants (scipy.constants, after CODATA).
@pytest.mark.parametrize(
    ("parse", "typed", "constant"),
    [
        (parse_length, "1 in", constants.inch),
        (parse_length, "1 mile", constants.mile),
        (parse_pressure, "1 psi", constants.psi),
        (parse_pressure, "1 atm", constants.atm),
        (parse_mass, "1 lb", constants.lb),
        (parse_mass, "1 st", constants.stone),
        (parse_mass, "1 UK ton", constants.long_ton),
        (parse_mass, "1 US ton", constants.short_ton),
        (parse_force, "1 lbf", constants.lbf),
        (parse_force, "1 kgf", constants.kgf),
        (parse_speed, "1 mph", constants.mph),
        (parse_volume, "1 UK gal", constants.gallon_imp),
        (parse_volume, "1 US gal", constants.gallon_US),
        (parse_volume, "1 UK fl oz", constants.fluid_ounce_imp),
        (parse_volume, "1 US fl oz", constants.fluid_ounce_US),
    ],
)
def test_a_unit_agrees_with_a_library_of_constants(
    parse: object, typed: str, constant: float
) -> None:
    assert callable(parse)
    assert parse(typed, "value") == pytest.approx(constant, rel=1e-12)


PINT_NAMES = {
    "inHg": "inch_Hg_32F",
    "inH2O": "inch * 1000 * kg/m**3 * 9.80665 m/s**2",
    "kgf/cm2": "kgf/cm**2",
    "lbf.ft": "lbf*ft",
    "lbf.in": "lbf*inch",
    "N.m": "N*m",
    "N.cm": "N*cm",
    "daN.m": "daN*m",
    "kgf.m": "kgf*m",
    "kgf.cm": "kgf*cm",
    "UK fl oz": "imperial_fluid_ounce",
    "UK pint": "imperial_pint",
    "UK quart": "imperial_quart",
    "UK gal": "imperial_gallon",
    "US fl oz": "fluid_ounce",
    "US pint": "US_pint",
    "US quart": "quart",
    "US gal": "gallon",
    "m3": "m**3",
    "mm3": "mm**3",
    "in3": "inch**3",
    "um": "micrometer",
    "yd": "yard",
    "st": "stone",
    "UK cwt": "UK_hundredweight",
    "US cwt": "US_hundredweight",
    "UK ton": "UK_ton",
    "US ton": "US_ton",
    "km/h": "km/hour",
    "m/s": "m/s",
    "ft/s": "ft/s",
    "t": "tonne",
}
SI_IN_PINT = {"m": "m", "Pa": "Pa", "N.m": "N*m", "m3": "m**3", "kg": "kg", "N": "N", "m/s": "m/s"}


@pytest.fixture(scope="module")
def pint_registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("quantity", "mark"),
    [(kind.name, unit.mark) for kind in QUANTITIES.values() for unit in kind.units],
)
def test_every_unit_of_the_table_agrees_with_a_units_library(
    pint_registry: pint.UnitRegistry[float], quantity: str, mark: str
) -> None:
    kind = next(kind for kind in QUANTITIES.values() if kind.name == quantity)
    unit = next(unit for unit in kind.units if unit.mark == mark)
    theirs = pint_registry(PINT_NAMES.get(mark, mark)).to(SI_IN_PINT[kind.si_mark]).magnitude
    assert unit.si == pytest.approx(float(theirs), rel=1e-5 if mark == "inHg" else 1e-12)


def test_no_name_of_one_quantity_stands_for_two_units() -> None:
    for kind in QUANTITIES.values():
        spellings = [
            name.casefold() for unit in kind.units for name in (unit.mark, *unit.names)
        ] + [name.casefold() for unclear in kind.unclear for name in unclear.names]
        assert len(spellings) == len(set(spellings)), kind.name


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [
        ("19.05mm", 19.05),
        ("19,05 mm", 19.05),
        ("3/4 in", 19.05),
        ("3/4", 19.05),
        ("5/16", 7.9375),
        ('3/4"', 19.05),
        ("¾″", 19.05),
        ('1 1/2"', 38.1),
        ("1-1/2 inches", 38.1),
        ("1½ in.", 38.1),
        ("0.7 in", 17.78),
        (".7in", 17.78),
        ("2 cm", 20.0),
        ("2 340 mm", 2340.0),
        ("2,340.5 mm", 2340.5),
        ("6 ft 3 1/2 in", 1917.7),
        ("6' 3\"", 1905.0),
        ("6'3\"", 1905.0),
        ("28 thou", 0.7112),
        ("2.3 m", 2300.0),
        ("2.3\u00a0m", 2300.0),
        ("1e3 mm", 1000.0),
    ],
)
def test_lengths_as_the_trade_writes_them(typed: str, millimetres: float) -> None:
    assert parse_length(typed, "length") * 1000 == pytest.approx(millimetres, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "newton_metres"),
    [
        ("15 N.m", 15.0),
        ("15 Nm", 15.0),
        ("15 N·m", 15.0),
        ("15 N m", 15.0),
        ("15 newton metres", 15.0),
        ("1.5 kgf.m", 14.709975),
        ("1.5 kgm", 14.709975),
        ("1.5 mkg", 14.709975),
        ("1.5 m.daN", 15.0),
    ],
)
def test_metric_torques(typed: str, newton_metres: float) -> None:
    assert parse_torque(typed, "torque") == pytest.approx(newton_metres)


@pytest.mark.parametrize(
    "typed",
    [
        "11 lbf.ft",
        "11 lb ft",
        "11 lb-ft",
        "11 ft lb",
        "11 ft-lbs",
        "11 ft.lb",
        "11 lb/ft",
        "11 lbs ft",
        "11 foot pounds",
        "11 Pound Feet",
        "132 lbf.in",
        "132 in lb",
    ],
)
def test_every_spelling_of_pounds_and_feet_is_one_torque(typed: str) -> None:
    assert parse_torque(typed, "torque") == pytest.approx(11 * constants.lbf * constants.foot)


@pytest.mark.parametrize(
    "typed",
    ["70 bar", "7 MPa", "7000 kPa", "7 N/mm2", "7 N/mm²", "70 BAR", "7 mpa"],
)
def test_every_spelling_of_a_pressure(typed: str) -> None:
    assert parse_pressure(typed, "pressure") == pytest.approx(7e6)


@pytest.mark.parametrize("typed", ["15 psi", "15 lb/in2", "15 lbs per sq in", "15 lbf/in²"])
def test_every_spelling_of_pounds_on_an_inch(typed: str) -> None:
    assert parse_pressure(typed, "pressure") == pytest.approx(15 * constants.psi)


@pytest.mark.parametrize("typed", ["20 inHg", "20 in Hg", '20 "Hg', "20 inches of mercury"])
def test_a_servo_vacuum_is_read_off_its_gauge(typed: str) -> None:
    # 1 inch of mercury, conventional: 3386.389 Pa (NIST SP 811, B.8; from memory).
    assert parse_pressure(typed, "vacuum") == pytest.approx(20 * 3386.389, rel=1e-6)


@pytest.mark.parametrize(
    ("typed", "celsius"),
    [
        ("8", 8.0),
        ("8C", 8.0),
        ("8 deg C", 8.0),
        ("8 degrees C", 8.0),
        ("8 °C", 8.0),
        ("8º", 8.0),
        ("8 degC", 8.0),
        ("-3,5 C", -3.5),
        ("−3", -3.0),
        ("46.4F", 8.0),
        ("46.4 deg F", 8.0),
        ("32 Fahrenheit", 0.0),
        ("-40 F", -40.0),
        ("281.15 K", 8.0),
    ],
)
def test_temperatures(typed: str, celsius: float) -> None:
    assert parse_temperature_c(typed, "garage") == pytest.approx(celsius)


def test_temperatures_agree_with_a_library() -> None:
    for fahrenheit in (-40.0, 0.0, 32.0, 284.0, 446.0):
        assert parse_temperature_c(f"{fahrenheit} F", "fluid") == pytest.approx(
            float(constants.convert_temperature(fahrenheit, "Fahrenheit", "Celsius"))
        )


@pytest.mark.parametrize("typed", ["warm", "8 bar", "8 x", "-300 C", "C", "8 8"])
def test_what_is_no_temperature_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="garage"):
        parse_temperature_c(typed, "garage")


@pytest.mark.parametrize("typed", ["1 pint", "12 fl oz", "1 gallon", "2 quarts"])
def test_a_pint_of_no_country_is_asked_about(typed: str) -> None:
    with pytest.raises(BadInput, match=r"in the UK and .* in the US") as told:
        parse_volume(typed, "coolant")
    figure, _ = typed.split(maxsplit=1)
    assert f"{figure} UK" in told.value.remedy
    assert f"{figure} US" in told.value.remedy


def test_a_pint_of_a_known_country_is_read() -> None:
    assert parse_volume("2 pints", "coolant", country="UK") == pytest.approx(1.1365225e-3)
    assert parse_volume("2 pints", "coolant", country="US") == pytest.approx(9.463529e-4)


def test_a_ton_is_asked_about_even_in_the_uk() -> None:
    with pytest.raises(BadInput, match="tonne"):
        parse_mass("1 ton", "car", country="UK")
    assert parse_mass("1 tonne", "car") == 1000


def test_a_mil_is_asked_about() -> None:
    with pytest.raises(BadInput, match="10 mm or 10 thou"):
        parse_length("10 mil", "gap")


def test_a_scale_under_the_pedal_reads_force_in_kilograms() -> None:
    assert parse_force("50 kg", "pedal force") == parse_force("50 kgf", "pedal force")
    assert parse_force("110 lb", "pedal force") == parse_force("110 lbf", "pedal force")


def test_a_unit_beyond_the_table_is_still_understood() -> None:
    assert parse_length("2 fathoms", "rope") == pytest.approx(3.6576, rel=1e-5)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "nothing was given"),
        ("   ", "nothing was given"),
        ("wide", "is not a length"),
        ("19.05", "has no unit"),
        ("60 psi", "is a pressure, and this is a length"),
        ("12 im", "is no unit for a length"),
        ("12 blorps", "is no unit for a length"),
        ("3/0 in", "divides by zero"),
        ("1 5/4 in", "one or more by itself"),
        ("1,500 mm", "could be 1.500 or 1500"),
        ("1.2.3 mm", "is no number"),
        ("-5 mm", "is below zero"),
        ("3 in 2 ft", "no unit"),
        ("1 ft 2 mm", "no unit"),
        ("nan mm", "is not a length"),
        ("1e999 mm", "beyond all measure"),
        ("9" * (LONGEST + 1), "too many"),
    ],
)
def test_what_is_no_length_is_refused_with_the_reason(typed: str, says: str) -> None:
    with pytest.raises(BadInput, match=says) as told:
        parse_length(typed, "bore of the master cylinder")
    assert told.value.field == "bore of the master cylinder"
    assert told.value.remedy


def test_the_unit_printed_beside_a_field_is_taken_when_none_is_typed() -> None:
    assert parse_length("19.05", "bore", bare="mm") == pytest.approx(0.01905)
    assert parse_length("3/4 in", "bore", bare="mm") == pytest.approx(0.01905)
    assert parse_length("3/4", "bore", bare="mm") == pytest.approx(0.01905)


def test_an_offset_may_be_below_zero() -> None:
    assert read_quantity("-12 mm", "length", "wheel offset", signed=True).si == pytest.approx(
        -0.012
    )


# Within half of the last figure shown: three figures, so half a percent at worst.
@given(value=st.floats(1e-4, 1e4), preference=st.sampled_from(PREFERENCES))
def test_what_is_shown_reads_back_as_the_same_amount(value: float, preference: Preference) -> None:
    near = pytest.approx(value, rel=0.00501)
    assert parse_torque(show_torque(value, preference), "t") == near
    assert parse_mass(show_mass(value, preference), "m") == near
    assert parse_force(show_force(value, preference), "f") == near
    assert parse_speed(show_speed(value, preference), "v") == near
    assert parse_pressure(show_pressure(value * 1e5, preference), "p") == pytest.approx(
        value * 1e5, rel=0.00501
    )
    assert parse_volume(show_volume(value * 1e-3, preference), "v") == pytest.approx(
        value * 1e-3, rel=0.00501
    )


@given(millimetres=st.floats(0.1, 9999), preference=st.sampled_from(PREFERENCES))
def test_a_length_reads_back_to_a_hundredth_of_a_millimetre_or_half_a_thou(
    millimetres: float, preference: Preference
) -> None:
    shown = show_length(millimetres / 1000, preference)
    within = 0.00501 if preference.length == "mm" else 0.0128
    assert parse_length(shown, "length") * 1000 == pytest.approx(millimetres, abs=within)


@given(celsius=st.floats(-40, 400), preference=st.sampled_from(PREFERENCES))
def test_a_temperature_reads_back_to_a_tenth(celsius: float, preference: Preference) -> None:
    shown = show_temperature(celsius, preference)
    assert parse_temperature_c(shown, "t") == pytest.approx(celsius, abs=0.051)


@given(sixty_fourths=st.integers(1, 64 * 120))
def test_every_64th_of_an_inch_is_shown_as_a_fraction_in_lowest_terms(sixty_fourths: int) -> None:
    shown = show_inches(sixty_fourths / 64 * 0.0254)
    assert "." not in shown
    assert parse_length(shown, "length") == pytest.approx(sixty_fourths / 64 * 0.0254)
    if "/" in shown:
        bottom = int(shown.removesuffix(" in").rsplit("/", 1)[1])
        assert int(shown.removesuffix(" in").rsplit("/", 1)[0].split()[-1]) % 2 == 1
        assert bottom in {2, 4, 8, 16, 32, 64}


@given(st.text(max_size=40))
def test_no_entry_breaks_a_reader(typed: str) -> None:
    readers: list[Callable[[str, str], float]] = [
        parse_length,
        parse_pressure,
        parse_torque,
        parse_volume,
        parse_mass,
        parse_temperature_c,
    ]
    for read in readers:
        assert is_polite(refusal(partial(read, typed, "field")), "field")
