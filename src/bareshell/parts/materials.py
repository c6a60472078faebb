"""What a pin or bolt can be trusted with, as far as its mark or its metal is known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.calc.strength import SHEAR_OF_TENSILE, strength_of
from bareshell.errors import BadInput
from bareshell.sources import Mark, source

__all__ = ["METALS", "PLAIN_PLATE_PA", "Metal", "metal_of"]

PLAIN_PLATE_PA: Final = 235e6
"""Yield of plain steel plate and brackets [S:trade-practice]. [Pa]"""


@dataclass(frozen=True, slots=True)
class Metal:
    """What is known of a fixing's metal.

    Parameters
    ----------
    name : str
        Mark or metal.
    proof_pa, tensile_pa : float
        Without lasting stretch, and at breaking. [Pa]
    stainless : bool
        Whether it is stainless steel.
    source_id, mark : str
        Where the figures are from, and how far read.
    note : str
        What to beware of.
    """

    name: str
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

    @property
    def cited(self) -> str:
        """The source in one line."""
        return source(self.source_id).cite()


def _pin(name: str, proof: float, tensile: float, *, stainless: bool = False) -> Metal:
    return Metal(
        name, proof * 1e6, tensile * 1e6, stainless, "pin-steels", "from memory", "not marked on it"
    )


METALS: Final[dict[str, Metal]] = {
    "mild steel": _pin("mild steel", 240, 400),
    "free cutting steel": _pin("free-cutting steel", 240, 400),
    "steel": _pin("steel, taken as mild", 240, 400),
    "en1a": _pin("EN1A", 240, 400),
    "en3b": _pin("EN3B", 280, 430),
    "en8": _pin("EN8", 430, 620),
    "en16t": _pin("EN16T", 680, 850),
    "en24t": _pin("EN24T", 680, 850),
    "stainless": _pin("stainless steel", 210, 500, stainless=True),
    "stainless steel": _pin("stainless steel", 210, 500, stainless=True),
    "brass": _pin("brass", 140, 340),
}
"""Metals of pins by their usual names: least values as recalled; a mark on the pin goes first."""


def metal_of(said: str | None, diameter_m: float) -> Metal | None:
    """Read what a fixing is made of; None when nothing is promised.

    Parameters
    ----------
    said : str or None
        A grade mark, or the name of a steel.
    diameter_m : float
        Of the fixing. [m]

    Examples
    --------
    >>> metal_of("8.8", 0.008).tensile_pa / 1e6, metal_of("mild steel", 0.008).tensile_pa / 1e6
    (800.0, 400.0)
    >>> metal_of("shiny", 0.008) is None, metal_of(None, 0.008) is None
    (True, True)
    """
    if not said:
        return None
    known = METALS.get(" ".join(said.casefold().replace("-", " ").split(",")[0].split()))
    if known is not None:
        return known
    try:
        grade = strength_of(said, diameter_m)
    except BadInput:
        return None
    return Metal(
        grade.grade,
        grade.proof_pa,
        grade.tensile_pa,
        grade.stainless,
        grade.source_id,
        grade.mark,
        grade.note,
    )
