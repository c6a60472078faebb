"""Brake fluid: when it boils, how much water it takes up, what warming a closed line does.

Boiling points by grade are the least that a standard allows. Between dry and wet they follow the
shape of published figures for one common grade; real fluids are better when new and differ as they
age, so a span is given beside the single figure. A strip, a refractometer or a boiling tester reads
what is in the car; the age of fluid proves nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Generic, Literal, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, choose, least, lowest, most, quotient, read_off
from bareshell.errors import BadInput
from bareshell.sources import Mark

__all__ = [
    "BULK_MODULI",
    "FLUID_EXPANSIONS",
    "FLUID_GRADES",
    "Base",
    "BoilingSpan",
    "FluidGrade",
    "ModulusSpan",
    "WaterSpan",
    "boiling_point",
    "boiling_point_span",
    "bulk_modulus_span",
    "closed_line_pressure_change",
    "water_share_span",
]

Base = Literal["glycol", "silicone", "mineral"]
"""What a fluid is made of, which decides what it mixes with and which seals bear it."""


@dataclass(frozen=True, slots=True)
class FluidGrade:
    """One grade of a standard: the least boiling points and the limits of viscosity.

    Parameters
    ----------
    name : str
        As written on the container.
    base : {"glycol", "silicone", "mineral"}
        What it is made of.
    dry_c, wet_c : float
        Least boiling point as new, and after the standard's wetting. [degC]
    cold_viscosity_mm2_s, hot_viscosity_mm2_s : float
        Most at -40 C, and least at 100 C. [mm2/s]
    source_id : str
        The standard.
    mark : str
        How far these figures were read.
    typical_dry_c, typical_wet_c : float or None
        Of a good fluid of this grade, where one was read. [degC]
    note : str
        What to beware of.
    """

    name: str
    base: Base
    dry_c: float
    wet_c: float
    cold_viscosity_mm2_s: float
    hot_viscosity_mm2_s: float
    source_id: str
    mark: Mark
    typical_dry_c: float | None = None
    typical_wet_c: float | None = None
    note: str = ""


_SECOND: Final = "read second-hand"
_MEMORY: Final = "from memory"
_VISCOSITY_M: Final = "The viscosity at -40 C is from memory."

FLUID_GRADES: Final = MappingProxyType(
    {
        grade.name: grade
        for grade in (
            FluidGrade(
                "DOT 3",
                "glycol",
                205.0,
                140.0,
                1500.0,
                1.5,
                "fmvss-116",
                _SECOND,
                260.0,
                None,
                "A table that gives DOT 4 the dry figure of DOT 3 is in circulation; it is wrong.",
            ),
            FluidGrade(
                "DOT 4", "glycol", 230.0, 155.0, 1800.0, 1.5, "fmvss-116", _SECOND, 290.0, 198.0
            ),
            FluidGrade(
                "DOT 5",
                "silicone",
                260.0,
                180.0,
                900.0,
                1.5,
                "fmvss-116",
                _SECOND,
                note="At least 70 per cent silicone. Water does not dissolve in it. "
                + _VISCOSITY_M,
            ),
            FluidGrade(
                "DOT 5.1",
                "glycol",
                260.0,
                180.0,
                900.0,
                1.5,
                "fmvss-116",
                _SECOND,
                note="Not silicone, though it meets the row of DOT 5. " + _VISCOSITY_M,
            ),
            FluidGrade("SAE J1703", "glycol", 205.0, 140.0, 1800.0, 1.5, "sae-j1703", _SECOND),
            FluidGrade("SAE J1704", "glycol", 230.0, 155.0, 1800.0, 1.5, "sae-j1704", _MEMORY),
            FluidGrade("SAE J1705", "silicone", 260.0, 180.0, 900.0, 1.5, "sae-j1705", _MEMORY),
            FluidGrade("ISO class 3", "glycol", 205.0, 140.0, 1500.0, 1.5, "iso-4925", _MEMORY),
            FluidGrade("ISO class 4", "glycol", 230.0, 155.0, 1500.0, 1.5, "iso-4925", _MEMORY),
            FluidGrade("ISO class 5-1", "glycol", 260.0, 180.0, 900.0, 1.5, "iso-4925", _MEMORY),
            FluidGrade("ISO class 6", "glycol", 250.0, 165.0, 750.0, 1.5, "iso-4925", _MEMORY),
            FluidGrade("ISO class 7", "glycol", 260.0, 180.0, 750.0, 1.5, "iso-4925", _MEMORY),
        )
    }
)
"""Grades by name."""

_WET_WATER: Final = 0.037  # of the referee fluid at the end of the standard's wetting
_BOILING_WATER_C: Final = 100.0
_SCALE_ERROR_K: Final = 2.8  # 5 F, as one maker states for its refractometer
# Trade figures for DOT 3: 238 to 260 C new, then 187, 160 and 145 C at 1, 2 and 3 per cent, 140 at
# the standard's 3.7, about 100 at 8. Each shape is (T - wet) / (dry - wet) for one new figure.
_WATER: Final = (0.0, 0.01, 0.02, 0.03, _WET_WATER)
_SHAPE_LOW: Final = (1.0, 47 / 120, 20 / 120, 5 / 120, 0.0)
_SHAPE_MID: Final = (1.0, 47 / 109, 20 / 109, 5 / 109, 0.0)
_SHAPE_HIGH: Final = (1.0, 47 / 98, 20 / 98, 5 / 98, 0.0)


class BoilingSpan(NamedTuple, Generic[Number]):
    """Least and most that published figures allow, in degrees Celsius."""

    low_c: Number
    high_c: Number


class WaterSpan(NamedTuple, Generic[Number]):
    """Water in the fluid: least, usual and most of what has been published, shares by weight."""

    low: Number
    usual: Number
    high: Number


class ModulusSpan(NamedTuple, Generic[Number]):
    """Least and most bulk modulus of a fluid, in pascals."""

    low_pa: Number
    high_pa: Number


@formula
def boiling_point(water_share: Number, dry_boiling_c: Number, wet_boiling_c: Number) -> Number:
    """Boiling point of a glycol fluid for the water in it.

    [S:fluid-trade-figures]

    Parameters
    ----------
    water_share : float or array
        Water by weight: 0.03 for 3 per cent. [-]
    dry_boiling_c : float or array
        Boiling point as new, of the grade or of this fluid. [degC]
    wet_boiling_c : float or array
        Boiling point after the standard's wetting. [degC]

    Returns
    -------
    boiling_c : float or array
        Boiling point, never below that of water. [degC]

    Raises
    ------
    BadInput
        When the wet figure is not below the dry one.

    Notes
    -----
    Falls from dry at no water to wet at 3.7 per cent in the shape of trade figures for DOT 3, then
    in a straight line to 100 C at 8 per cent. In the wet test 3.7 per cent is the referee fluid's
    water, not this fluid's own. Not for silicone, in which water does not dissolve. One trade text
    lets 3 per cent halve the boiling point of DOT 4, which its own wet minimum contradicts;
    it is not followed.
    Checked against: 187, 160 and 145 C at 1, 2 and 3 per cent from 249 C dry, 100 C at 8, and a
    refractometer's end of scale, 118 C at 6 (read second-hand).

    Examples
    --------
    >>> [round(boiling_point(w, 249.0, 140.0)) for w in (0.0, 0.01, 0.02, 0.03, 0.037, 0.06, 0.08)]
    [249, 187, 160, 145, 140, 119, 100]
    """
    return _boiling(water_share, dry_boiling_c, wet_boiling_c, _SHAPE_MID)


def _boiling(water_share: Number, dry_c: Number, wet_c: Number, shape: tuple[float, ...]) -> Number:
    if lowest(dry_c - wet_c) <= 0.0:
        raise BadInput(
            "wet boiling point", "is not below the dry one", "take both from one standard or label"
        )
    fallen: Number = read_off(least(water_share, _WET_WATER), _WATER, shape)
    dissolved = wet_c + (dry_c - wet_c) * fallen
    beyond = most(water_share - _WET_WATER, 0.0) / (0.08 - _WET_WATER)
    return most(dissolved - (wet_c - _BOILING_WATER_C) * beyond, _BOILING_WATER_C)


@formula
def boiling_point_span(water_share: Number, grade: str) -> BoilingSpan[Number]:
    """Least and most boiling point of a grade for the water in it.

    [S:fluid-trade-figures]

    Parameters
    ----------
    water_share : float or array
        Water by weight. [-]
    grade : str
        A name from `FLUID_GRADES`. [words]

    Returns
    -------
    low_c : float or array
        From the grade's least dry and wet figures, the steeper published fall, less the error of
        a refractometer. [degC]
    high_c : float or array
        From a good fluid of the grade where one was read, the gentler fall, plus that error. [degC]

    Raises
    ------
    BadInput
        When there is no such grade.

    Notes
    -----
    As `boiling_point`. Silicone takes up hardly any water; what gets in lies free at the lowest
    point, in the calipers, and boils at 100 C: any water at all makes that the least.
    Checked against: the published figures for DOT 3, all of which lie within it (read second-hand).

    Examples
    --------
    >>> [round(part) for part in boiling_point_span(0.03, "DOT 4")]
    [155, 205]
    """
    entry = _grade(grade)
    if entry.base == "silicone":
        dry = entry.dry_c + 0.0 * water_share
        return BoilingSpan(choose(water_share > 0.0, 0.0 * dry + _BOILING_WATER_C, dry), dry)
    nothing = 0.0 * water_share
    low = _boiling(water_share, nothing + entry.dry_c, nothing + entry.wet_c, _SHAPE_LOW)
    dry = nothing + (entry.typical_dry_c or entry.dry_c)
    wet = nothing + (entry.typical_wet_c or entry.wet_c)
    high = _boiling(water_share, dry, wet, _SHAPE_HIGH)
    return BoilingSpan(most(low - _SCALE_ERROR_K, _BOILING_WATER_C), high + _SCALE_ERROR_K)


def _grade(name: str) -> FluidGrade:
    try:
        return FLUID_GRADES[name]
    except KeyError:
        raise BadInput(
            "grade of the fluid",
            f"there is no '{name}'",
            f"known are {', '.join(FLUID_GRADES)}",
        ) from None


@formula
def water_share_span(age_years: Number) -> WaterSpan[Number]:
    """Water that glycol fluid has taken up by an age, as far as publications agree.

    [S:fluid-uptake-figures]

    Parameters
    ----------
    age_years : float or array
        Since the fluid was new in the car. [year]

    Returns
    -------
    low : float or array
        A random sample's mean of 2.6 per cent at a mean age of 8 years. [-]
    usual : float or array
        2, 3 and 3.5 per cent after 1, 1.5 and 2 years, 7.5 after several, taken as 5. [-]
    high : float or array
        3 per cent a year, to 8. [-]

    Notes
    -----
    Straight lines between the published points; they are trade texts and disagree widely. Damp
    storage, old hoses and an open can count for more than years.
    Checked against: each figure named above (read second-hand).

    Examples
    --------
    >>> [round(100 * part, 2) for part in water_share_span(2.0)]
    [0.65, 3.50, 6.00]
    """
    low = age_years * (0.026 / 8.0)
    usual: Number = read_off(
        least(age_years, 5.0), (0.0, 1.0, 1.5, 2.0, 5.0), (0.0, 0.02, 0.03, 0.035, 0.075)
    )
    return WaterSpan(least(low, usual), usual, least(0.03 * age_years, 0.08))


BULK_MODULI: Final = MappingProxyType(
    {
        "glycol": ((1.7e9, 2.0e9), (1.2e9, 1.5e9)),
        "silicone": ((0.57e9, 1.0e9), (0.40e9, 0.75e9)),
        "mineral": ((1.4e9, 1.7e9), (0.9e9, 1.2e9)),
    }
)
"""Least and most bulk modulus at 20 C and at 100 C by base [Pa]: from memory, low confidence.

No measured figure was read. Silicone is two to three times as compressible as glycol by trade
texts, more so when hot [S:sae-j1705].
"""

FLUID_EXPANSIONS: Final = MappingProxyType(
    {"glycol": (0.8e-3, 1.0e-3), "silicone": (0.95e-3, 1.1e-3), "mineral": (0.7e-3, 0.85e-3)}
)
"""Least and most growth of volume for each kelvin, by base [1/K]: from memory."""


@formula
def bulk_modulus_span(temperature_c: Number, base: str) -> ModulusSpan[Number]:
    """Least and most bulk modulus of a fluid without free air.

    [S:sae-j1705, Appendix A]

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the fluid; below -40 and above 200 taken as these. [degC]
    base : str
        "glycol", "silicone" or "mineral". [words]

    Returns
    -------
    low_pa : float or array
        Least. [Pa]
    high_pa : float or array
        Most. [Pa]

    Raises
    ------
    BadInput
        When there is no such base.

    Notes
    -----
    Straight lines through the figures of `BULK_MODULI` at 20 and 100 C. That silicone is the more
    compressible was read second-hand; the figures are from memory, so use the span, not its middle.
    Checked against: silicone at two to three times the compressibility of glycol (read
    second-hand).

    Examples
    --------
    >>> [part / 1e9 for part in bulk_modulus_span(20.0, "glycol")]
    [1.7, 2.0]
    """
    if base not in BULK_MODULI:
        raise BadInput(
            "base of the fluid", f"there is no '{base}'", f"known are {', '.join(BULK_MODULI)}"
        )
    (cool_low, cool_high), (hot_low, hot_high) = BULK_MODULI[base]
    hotter = (least(most(temperature_c, -40.0), 200.0) - 20.0) / 80.0
    return ModulusSpan(
        cool_low + hotter * (hot_low - cool_low), cool_high + hotter * (hot_high - cool_high)
    )


@formula
def closed_line_pressure_change(
    temperature_change_k: Number,
    fluid_volume_m3: Number,
    fluid_expansion_per_k: Number,
    container_expansion_per_k: Number,
    bulk_modulus_pa: Number,
    compliance_m3_pa: Number,
) -> Number:
    """Change of pressure in a closed, full line as it warms or cools.

    [S:first-principles, volumes]

    Parameters
    ----------
    temperature_change_k : float or array
        How much warmer; below zero for colder. [K]
    fluid_volume_m3 : float or array
        Fluid shut in. [m3]
    fluid_expansion_per_k : float or array
        Growth of the fluid's volume for each kelvin, see `FLUID_EXPANSIONS`. [1/K]
    container_expansion_per_k : float or array
        Growth of the space for each kelvin: three times the metal's, 3.6e-5 for steel. [1/K]
    bulk_modulus_pa : float or array
        Stiffness of the fluid. [Pa]
    compliance_m3_pa : float or array
        What pipe, hose and fittings take for each pascal; 0 for none. [m3/Pa]

    Returns
    -------
    pressure_change_pa : float or array
        Rise; it cannot fall below the atmosphere's. [Pa]

    Notes
    -----
    dp = V (b - b_c) dT / (V / K + C). A rigid line gains some fifteen bar a degree, one with a hose
    far less: while a line is held under pressure the joints are the proof and the gauge is context.
    A line shut in by a seized port or an over-long push rod puts its own brakes on as it warms.
    Checked against: balance of volumes (computed); coefficients from memory.

    Examples
    --------
    >>> rise = closed_line_pressure_change(1.0, 1e-4, 0.9e-3, 3.6e-5, 1.8e9, 0.0)
    >>> round(rise / 1e5, 1)
    15.6
    """
    growth = fluid_volume_m3 * (fluid_expansion_per_k - container_expansion_per_k)
    give = fluid_volume_m3 / bulk_modulus_pa + compliance_m3_pa
    return temperature_change_k * quotient(growth, give, 0.0)
