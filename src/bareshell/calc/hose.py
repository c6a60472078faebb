"""How much brake hoses swell, by the published classes of expansion.

The table is of the most that a standard lets a hose swell; a good hose swells far less. It gives
limits for 1000, 1500 and, in places, 2900 psi; between them straight lines are drawn, from nothing
at no pressure, and beyond them the last line goes on, which nothing published bears out.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, read_off
from bareshell.errors import BadInput
from bareshell.sources import Mark

__all__ = ["HOSE_CLASSES", "HoseClass", "hose_expansion_volume"]

_PSI_PA: Final = 4.4482216152605 / 0.0254**2
_CC_PER_FOOT: Final = 1e-6 / 0.3048


@dataclass(frozen=True, slots=True)
class HoseClass:
    """One class of hose, or one hose as measured.

    Parameters
    ----------
    name : str
        As `hose_expansion_volume` takes it.
    what : str
        In words, for a person.
    pressures_psi : tuple of float
        Where the table stands, with nothing at no pressure first. [psi]
    swell_cc_per_foot : tuple of float
        What it gives there. [cc/ft]
    source_id : str
        Where it is from.
    mark : str
        How far it was read.
    """

    name: str
    what: str
    pressures_psi: tuple[float, ...]
    swell_cc_per_foot: tuple[float, ...]
    source_id: str
    mark: Mark


_TWO: Final = (0.0, 1000.0, 1500.0)
_THREE: Final = (0.0, 1000.0, 1500.0, 2900.0)

HOSE_CLASSES: Final = MappingProxyType(
    {
        entry.name: entry
        for entry in (
            HoseClass(
                "1/8 regular",
                "bore to 1/8 in (3 mm), regular expansion, the most allowed",
                _THREE,
                (0.0, 0.66, 0.79, 1.21),
                "fmvss-106",
                "from memory",
            ),
            HoseClass(
                "1/8 low",
                "bore to 1/8 in (3 mm), low expansion, the most allowed",
                _THREE,
                (0.0, 0.33, 0.42, 0.61),
                "fmvss-106",
                "read second-hand",
            ),
            HoseClass(
                "3/16 regular",
                "bore 3/16 in (4 to 5 mm), regular expansion, the most allowed",
                _TWO,
                (0.0, 0.86, 1.02),
                "fmvss-106",
                "from memory",
            ),
            HoseClass(
                "3/16 low",
                "bore 3/16 in (4 to 5 mm), low expansion, the most allowed",
                _TWO,
                (0.0, 0.55, 0.72),
                "fmvss-106",
                "from memory",
            ),
            HoseClass(
                "1/4 regular",
                "bore from 1/4 in (6 mm), regular expansion, the most allowed",
                _TWO,
                (0.0, 1.04, 1.30),
                "fmvss-106",
                "from memory",
            ),
            HoseClass(
                "1/4 low",
                "bore from 1/4 in (6 mm), low expansion, the most allowed",
                _TWO,
                (0.0, 0.82, 1.17),
                "fmvss-106",
                "from memory",
            ),
            HoseClass(
                "1/8 rubber, measured",
                "a good new rubber hose of 1/8 in, as one test measured it",
                _THREE,
                (0.0, 0.136, 0.150, 0.290),
                "hose-test-2005",
                "read second-hand",
            ),
            HoseClass(
                "braided, measured",
                "a braided PTFE hose, as one test measured it",
                (0.0, 4000.0),
                (0.0, 0.0003),
                "hose-test-2005",
                "read second-hand",
            ),
        )
    }
)
"""Hoses by the name of their class."""


@formula
def hose_expansion_volume(pressure_pa: Number, hose_length_m: Number, hose_class: str) -> Number:
    """Fluid that a hose takes as it swells, by its class.

    [S:fmvss-106]

    Parameters
    ----------
    pressure_pa : float or array
        Pressure in the hose. [Pa]
    hose_length_m : float or array
        Free length. [m]
    hose_class : str
        A name from `HOSE_CLASSES`. [words]

    Returns
    -------
    volume_m3 : float or array
        Fluid taken. [m3]

    Raises
    ------
    BadInput
        When there is no such class.

    Notes
    -----
    Table read by straight lines. The classes are limits for new hose, cold: an old or soft hose
    may swell more and tells so by its look and feel, not by its class.
    Checked against: 1.08, 1.38 and 2.00 cc a metre for low expansion at 1/8 in (read second-hand).

    Examples
    --------
    >>> psi = 6894.757
    >>> [round(hose_expansion_volume(p * psi, 1.0, "1/8 low") * 1e6, 2) for p in (1000, 1500, 2900)]
    [1.08, 1.38, 2.00]
    """
    try:
        entry = HOSE_CLASSES[hose_class]
    except KeyError:
        known = ", ".join(HOSE_CLASSES)
        raise BadInput("class of hose", f"there is no '{hose_class}'", f"known are {known}") from (
            None
        )
    at = tuple(pressure * _PSI_PA for pressure in entry.pressures_psi)
    swell = tuple(each * _CC_PER_FOOT for each in entry.swell_cc_per_foot)
    return hose_length_m * read_off(pressure_pa, at, swell)
