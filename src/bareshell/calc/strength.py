"""What a grade mark promises: proof stress and tensile strength of bolts, screws and pins.

A mark is a promise of whoever stamped it. No mark, or a mark that cannot be read, promises
nothing: such a fixing is taken as unknown, never as the weakest grade and never as the usual one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bareshell.errors import BadInput
from bareshell.sources import Mark

__all__ = ["GRADES", "SHEAR_OF_TENSILE", "Strength", "strength_of"]

SHEAR_OF_TENSILE: Final = 0.6
"""Shear strength of steel over its tensile strength [S:shigley-bolts] (standard texts). [-]"""

_KSI: Final = 6.894757e6
_MPA: Final = 1e6


@dataclass(frozen=True, slots=True)
class Strength:
    """What a grade promises.

    Parameters
    ----------
    grade : str
        As it is marked.
    proof_pa : float
        Stress without lasting stretch; of stainless steel the 0.2 % proof stress. [Pa]
    tensile_pa : float
        Least tensile strength. [Pa]
    stainless : bool
        Whether it is stainless steel, which galls and is judged apart.
    source_id, mark : str
        Where the figures are from, and how far read.
    note : str
        What to beware of.
    """

    grade: str
    proof_pa: float
    tensile_pa: float
    stainless: bool
    source_id: str
    mark: Mark
    note: str = ""

    @property
    def shear_pa(self) -> float:
        """Shear strength [Pa]."""
        return SHEAR_OF_TENSILE * self.tensile_pa


def _metric(grade: str, proof: float, tensile: float, note: str = "") -> Strength:
    return Strength(
        grade, proof * _MPA, tensile * _MPA, False, "iso-898-1", "read second-hand", note
    )


def _inch(grade: str, proof: float, tensile: float) -> Strength:
    return Strength(grade, proof * _KSI, tensile * _KSI, False, "sae-j429", "read second-hand")


def _stainless(grade: str, proof: float, tensile: float) -> Strength:
    return Strength(
        grade, proof * _MPA, tensile * _MPA, True, "iso-3506-1", "read second-hand", "it galls"
    )


def _letter(grade: str, tensile: float) -> Strength:
    # The letter gives tensile strength alone; proof is taken at the least ratio of the class.
    return Strength(
        grade,
        0.65 * tensile * _MPA,
        tensile * _MPA,
        False,
        "bs-970",
        "from memory",
        "the letter names tensile strength; proof is taken as 0.65 of it",
    )


_BRITTLE: Final = "never plated at home: hydrogen makes it brittle"

GRADES: Final[dict[str, Strength]] = {
    one.grade: one
    for one in (
        _metric("4.6", 225, 400),
        _metric("4.8", 310, 420),
        _metric("5.6", 280, 500),
        _metric("5.8", 380, 520),
        _metric("6.8", 440, 600),
        _metric("8.8", 580, 800),
        _metric("9.8", 650, 900),
        _metric("10.9", 830, 1040, _BRITTLE),
        _metric("12.9", 970, 1220, _BRITTLE),
        _inch("grade 2", 55, 74),
        _inch("grade 5", 85, 120),
        _inch("grade 8", 120, 150),
        _stainless("A2-50", 210, 500),
        _stainless("A2-70", 450, 700),
        _stainless("A4-70", 450, 700),
        _stainless("A2-80", 600, 800),
        _stainless("A4-80", 600, 800),
        _letter("R", 700),
        _letter("S", 770),
        _letter("T", 850),
        _letter("V", 1000),
    )
}
"""Each grade by its mark, to 16 mm and 3/4 in."""

# Above these diameters the standards promise other figures.
_LARGE: Final = {
    "8.8": (0.0160001, _metric("8.8", 600, 830)),
    "grade 2": (0.75 * 0.0254 + 1e-6, _inch("grade 2", 33, 60)),
    "grade 5": (0.0254 + 1e-6, _inch("grade 5", 74, 105)),
}

_SPELT: Final = re.compile(
    r"(?:(?:class|cl\.?|property class|iso)\s*)?(\d{1,2}\.\d)|"
    r"(?:(?:sae|gr\.?|grade)\s*)+(\d)|(\d)|(a[24])[\s-]*(\d\d)|(?:grade\s*)?([rstv])",
    re.IGNORECASE,
)


def strength_of(strength_grade: str, diameter_m: float) -> Strength:
    """Read a grade mark and look up what it promises.

    [S:iso-898-1, table 3], [S:sae-j429], [S:iso-3506-1], [S:bs-970]

    Parameters
    ----------
    strength_grade : str
        Such as ``"8.8"``, ``"grade 5"``, ``"8"`` (an inch grade), ``"A2-70"`` or ``"S"``. [words]
    diameter_m : float
        Of the thread; some grades promise less when large. [m]

    Returns
    -------
    strength : Strength
        Proof and tensile stress. [Pa]

    Raises
    ------
    BadInput
        When it is no grade that is known here.

    Notes
    -----
    A single figure (2, 5, 8) is the inch grade; nuts of class 8 are marked so too, and what is
    read off a nut says nothing of its bolt.
    Checked against: published tables of proof loads and of inch grades (read).

    Examples
    --------
    >>> strength_of("8.8", 0.010).proof_pa / 1e6, strength_of("A2-70", 0.010).stainless
    (580.0, True)
    >>> strength_of("shiny", 0.010)
    Traceback (most recent call last):
    bareshell.errors.BadInput: grade: 'shiny' promises no strength that is known here. Write \
the mark on its head, such as 8.8, grade 5, A2-70 or S; leave it empty when there is none.
    """
    name = _name_of(strength_grade)
    if name not in GRADES:
        raise BadInput(
            "grade",
            f"'{strength_grade}' promises no strength that is known here",
            "write the mark on its head, such as 8.8, grade 5, A2-70 or S; "
            "leave it empty when there is none",
        )
    least, large = _LARGE.get(name, (float("inf"), GRADES[name]))
    return large if diameter_m >= least else GRADES[name]


def _name_of(said: str) -> str:
    match = _SPELT.fullmatch(said.strip())
    if match is None:
        return ""
    metric, spelt, bare, steel, hundredths, letter = match.groups()
    if metric:
        return str(metric)
    if spelt or bare:
        return f"grade {spelt or bare}"
    return f"{steel.upper()}-{hundredths}" if steel else str(letter).upper()
