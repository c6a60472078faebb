"""The units the trade writes, as data: what each is called and how much SI it is.

Every factor follows from a handful of exact definitions: the inch is 0.0254 m and the pound
0.45359237 kg [S:us-uk-yard-pound-1959], standard gravity is 9.80665 m/s2 and the bar, litre and
degree Celsius are as the SI brochure has them [S:bipm-si-9], the gallon is 4.54609 litres in the
UK [S:uk-units-1995] and 231 cubic inches in the US [S:nist-hb44-c]; a column of mercury or water
is the conventional one [S:nist-sp-811, B.8].
"""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final, Literal

__all__ = ["QUANTITIES", "Country", "Quantity", "QuantityName", "Unclear", "Unit"]

QuantityName = Literal["length", "pressure", "torque", "volume", "mass", "force", "speed"]
Country = Literal["UK", "US"]

INCH_M: Final = 0.0254
POUND_KG: Final = 0.45359237
GRAVITY_M_S2: Final = 9.80665
POUND_FORCE_N: Final = POUND_KG * GRAVITY_M_S2
UK_GALLON_M3: Final = 4.54609e-3
US_GALLON_M3: Final = 231 * INCH_M**3
PSI_PA: Final = POUND_FORCE_N / INCH_M**2
MERCURY_PA_M: Final = 13_595.1 * GRAVITY_M_S2
WATER_PA_M: Final = 1_000 * GRAVITY_M_S2


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its mark, how much SI one of it is, and what else the trade calls it."""

    mark: str
    si: float
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unclear:
    """A name that means different amounts: the tool asks rather than guesses."""

    names: tuple[str, ...]
    says: str
    choices: tuple[str, ...]
    by_country: MappingProxyType[str, str] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class Quantity:
    """One kind of quantity: its words, its SI unit, its units and its unclear names."""

    name: QuantityName
    article: str
    si_mark: str
    example: str
    units: tuple[Unit, ...]
    unclear: tuple[Unclear, ...] = ()
    compounds: frozenset[tuple[str, str]] = frozenset()


_LENGTH = Quantity(
    "length",
    "a length",
    "m",
    "19.05 mm or 3/4 in",
    (
        Unit("m", 1.0, ("metre", "metres", "meter", "meters", "mtr")),
        Unit("cm", 0.01, ("centimetre", "centimetres", "centimeter", "centimeters")),
        Unit("mm", 0.001, ("millimetre", "millimetres", "millimeter", "millimeters")),
        Unit("um", 1e-6, ("micron", "microns", "micrometre", "micrometres")),
        Unit("km", 1000.0, ("kilometre", "kilometres", "kilometer", "kilometers")),
        Unit("in", INCH_M, ('"', "inch", "inches", "ins")),
        Unit("thou", INCH_M / 1000, ("thous", "thousandth", "thousandths")),
        Unit("ft", 12 * INCH_M, ("'", "foot", "feet")),
        Unit("yd", 36 * INCH_M, ("yard", "yards", "yds")),
        Unit("mile", 63_360 * INCH_M, ("miles", "mi")),
    ),
    (
        Unclear(
            ("mil", "mils"),
            "a mil is a millimetre in one workshop and a thousandth of an inch in another",
            ("mm", "thou"),
        ),
    ),
    frozenset({("ft", "in")}),
)

_PRESSURE = Quantity(
    "pressure",
    "a pressure",
    "Pa",
    "70 bar or 1000 psi",
    (
        Unit("Pa", 1.0, ("pascal", "pascals", "n/m2")),
        Unit("kPa", 1e3, ("kilopascal", "kilopascals", "kn/m2")),
        Unit("MPa", 1e6, ("megapascal", "megapascals", "n/mm2", "mn/m2")),
        Unit("GPa", 1e9, ("gigapascal", "gigapascals", "kn/mm2")),
        Unit("bar", 1e5, ("bars", "barg", "bar.g")),
        Unit("mbar", 100.0, ("millibar", "millibars", "hpa")),
        Unit(
            "psi",
            PSI_PA,
            (
                "psig",
                "p.s.i",
                "lb/in2",
                "lbs/in2",
                "lbf/in2",
                "lb/sq.in",
                "lbs/sq.in",
                "lbf/sq.in",
                "lb/square.inch",
                "lbs/square.inch",
                "pounds/square.inch",
            ),
        ),
        Unit(
            "kgf/cm2",
            GRAVITY_M_S2 * 1e4,
            ("kg/cm2", "kp/cm2", "kgf/sq.cm", "kg/sq.cm", "at", "ksc"),
        ),
        Unit("atm", 101_325.0, ("atmosphere", "atmospheres")),
        Unit(
            "inHg",
            MERCURY_PA_M * INCH_M,
            ("in.hg", "ins.hg", '"hg', '".hg', "inches.of.mercury", "inch.of.mercury"),
        ),
        Unit("mmHg", MERCURY_PA_M / 1000, ("mm.hg", "millimetres.of.mercury")),
        Unit("inH2O", WATER_PA_M * INCH_M, ("in.h2o", "in.wg", "inwg", "inches.of.water")),
    ),
)

_TORQUE = Quantity(
    "torque",
    "a torque",
    "N.m",
    "15 N.m or 11 lbf.ft",
    (
        Unit("N.m", 1.0, ("nm", "newton.metre", "newton.metres", "newton.meters", "m.n")),
        Unit("N.cm", 0.01, ("ncm",)),
        Unit("daN.m", 10.0, ("danm", "m.dan", "mdan")),
        Unit(
            "lbf.ft",
            POUND_FORCE_N * 12 * INCH_M,
            (
                "lb.ft",
                "lbs.ft",
                "lbft",
                "lbfft",
                "lb/ft",
                "lbs/ft",
                "lbf/ft",
                "ft.lb",
                "ft.lbs",
                "ft.lbf",
                "ftlb",
                "ftlbs",
                "ft/lb",
                "ft/lbs",
                "foot.pound",
                "foot.pounds",
                "pound.foot",
                "pound.feet",
                "pounds.feet",
                "pounds.foot",
            ),
        ),
        Unit(
            "lbf.in",
            POUND_FORCE_N * INCH_M,
            (
                "lb.in",
                "lbs.in",
                "lbin",
                "lbfin",
                "lb/in",
                "lbs/in",
                "in.lb",
                "in.lbs",
                "in.lbf",
                "inlb",
                "inlbs",
                "in/lb",
                "in/lbs",
                "inch.pound",
                "inch.pounds",
                "pound.inch",
                "pound.inches",
            ),
        ),
        Unit(
            "kgf.m",
            GRAVITY_M_S2,
            ("kg.m", "kgm", "kgfm", "m.kg", "mkg", "m.kgf", "mkgf", "kp.m", "m.kp", "mkp"),
        ),
        Unit("kgf.cm", GRAVITY_M_S2 / 100, ("kg.cm", "kgcm", "kgfcm", "cm.kg", "cmkg")),
    ),
)

_VOLUME = Quantity(
    "volume",
    "a volume",
    "m3",
    "350 ml or 0.5 l",
    (
        Unit(
            "ml",
            1e-6,
            (
                "millilitre",
                "millilitres",
                "milliliter",
                "milliliters",
                "cc",
                "ccs",
                "cm3",
                "cu.cm",
                "c.c",
            ),
        ),
        Unit("cl", 1e-5, ("centilitre", "centilitres")),
        Unit("l", 1e-3, ("litre", "litres", "liter", "liters", "ltr", "ltrs", "lt", "dm3")),
        Unit("m3", 1.0, ("cubic.metre", "cubic.metres", "cu.m")),
        Unit("mm3", 1e-9, ("cu.mm",)),
        Unit("in3", INCH_M**3, ("cu.in", "cu.ins", "cubic.inch", "cubic.inches", "ci", "cid")),
        Unit(
            "UK fl oz",
            UK_GALLON_M3 / 160,
            (
                "uk.fl.oz",
                "imp.fl.oz",
                "imperial.fl.oz",
                "uk.fluid.ounce",
                "uk.fluid.ounces",
                "imperial.fluid.ounces",
            ),
        ),
        Unit(
            "UK pint",
            UK_GALLON_M3 / 8,
            (
                "uk.pt",
                "uk.pints",
                "imp.pint",
                "imp.pints",
                "imp.pt",
                "imperial.pint",
                "imperial.pints",
            ),
        ),
        Unit(
            "UK quart",
            UK_GALLON_M3 / 4,
            ("uk.qt", "uk.quarts", "imp.quart", "imp.quarts", "imperial.quart", "imperial.quarts"),
        ),
        Unit(
            "UK gal",
            UK_GALLON_M3,
            (
                "uk.gallon",
                "uk.gallons",
                "imp.gal",
                "imp.gallon",
                "imp.gallons",
                "imperial.gallon",
                "imperial.gallons",
            ),
        ),
        Unit("US fl oz", US_GALLON_M3 / 128, ("us.fl.oz", "us.fluid.ounce", "us.fluid.ounces")),
        Unit("US pint", US_GALLON_M3 / 8, ("us.pt", "us.pints")),
        Unit("US quart", US_GALLON_M3 / 4, ("us.qt", "us.quarts")),
        Unit("US gal", US_GALLON_M3, ("us.gallon", "us.gallons")),
    ),
    (
        Unclear(
            ("fl.oz", "floz", "fl.ozs", "fluid.ounce", "fluid.ounces"),
            "a fluid ounce is 28.4 ml in the UK and 29.6 ml in the US",
            ("UK fl oz", "US fl oz"),
            MappingProxyType({"UK": "UK fl oz", "US": "US fl oz"}),
        ),
        Unclear(
            ("pint", "pints", "pt", "pts"),
            "a pint is 568 ml in the UK and 473 ml in the US",
            ("UK pint", "US pint"),
            MappingProxyType({"UK": "UK pint", "US": "US pint"}),
        ),
        Unclear(
            ("quart", "quarts", "qt", "qts"),
            "a quart is 1.14 l in the UK and 0.95 l in the US",
            ("UK quart", "US quart"),
            MappingProxyType({"UK": "UK quart", "US": "US quart"}),
        ),
        Unclear(
            ("gallon", "gallons", "gal", "gals"),
            "a gallon is 4.55 l in the UK and 3.79 l in the US",
            ("UK gal", "US gal"),
            MappingProxyType({"UK": "UK gal", "US": "US gal"}),
        ),
    ),
)

_MASS = Quantity(
    "mass",
    "a mass",
    "kg",
    "12.5 kg or 27 lb",
    (
        Unit(
            "kg",
            1.0,
            ("kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes", "kgs"),
        ),
        Unit("g", 1e-3, ("gram", "grams", "gramme", "grammes", "gm", "gms")),
        Unit("t", 1e3, ("tonne", "tonnes", "metric.ton", "metric.tons")),
        Unit("lb", POUND_KG, ("lbs", "pound", "pounds")),
        Unit("oz", POUND_KG / 16, ("ozs", "ounce", "ounces")),
        Unit("st", 14 * POUND_KG, ("stone", "stones")),
        Unit("UK cwt", 112 * POUND_KG, ("uk.hundredweight",)),
        Unit("US cwt", 100 * POUND_KG, ("us.hundredweight",)),
        Unit("UK ton", 2240 * POUND_KG, ("uk.tons", "long.ton", "long.tons", "imperial.ton")),
        Unit("US ton", 2000 * POUND_KG, ("us.tons", "short.ton", "short.tons")),
    ),
    (
        Unclear(
            ("cwt", "hundredweight", "hundredweights"),
            "a hundredweight is 50.8 kg in the UK and 45.4 kg in the US",
            ("UK cwt", "US cwt"),
            MappingProxyType({"UK": "UK cwt", "US": "US cwt"}),
        ),
        Unclear(
            ("ton", "tons"),
            "a ton is 1016 kg in the UK, 907 kg in the US, and may be meant as a tonne of 1000 kg",
            ("UK ton", "US ton", "t"),
            MappingProxyType({"US": "US ton"}),
        ),
    ),
    frozenset({("lb", "oz"), ("st", "lb"), ("UK cwt", "lb"), ("US cwt", "lb")}),
)

_FORCE = Quantity(
    "force",
    "a force",
    "N",
    "500 N or 110 lbf",
    (
        Unit("N", 1.0, ("newton", "newtons")),
        Unit("daN", 10.0, ("decanewton", "decanewtons")),
        Unit("kN", 1e3, ("kilonewton", "kilonewtons")),
        # A bathroom scale under the pedal and a roller tester both read force in kilograms:
        # common practice, no source.
        Unit("kgf", GRAVITY_M_S2, ("kg", "kgs", "kp", "kilo", "kilos", "kilopond", "kiloponds")),
        Unit("lbf", POUND_FORCE_N, ("lb", "lbs", "pound", "pounds", "pounds.force")),
    ),
)

_SPEED = Quantity(
    "speed",
    "a speed",
    "m/s",
    "50 km/h or 30 mph",
    (
        Unit("m/s", 1.0, ("metres/second", "mps")),
        Unit("km/h", 1 / 3.6, ("kmh", "kph", "km/hr", "km/hour", "kilometres/hour")),
        Unit("mph", 63_360 * INCH_M / 3600, ("miles/hour", "mi/h", "m.p.h")),
        Unit("ft/s", 12 * INCH_M, ("fps", "ft/sec", "feet/second")),
    ),
)

QUANTITIES: Final = MappingProxyType(
    {
        quantity.name: quantity
        for quantity in (_LENGTH, _PRESSURE, _TORQUE, _VOLUME, _MASS, _FORCE, _SPEED)
    }
)
"""Every kind of quantity by name."""
