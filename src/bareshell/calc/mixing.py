"""Which fluids mix, and which seals bear which fluid, as a table.

Mixing bases, or putting the wrong one on a set of seals, ruins every rubber part of a system.
Colour never proves what is already in a car. When the history of a car is not known, its fluid is
not known either.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from bareshell.calc.fluid import Base
from bareshell.errors import BadInput
from bareshell.sources import Mark

__all__ = [
    "MIXING_RULES",
    "SEAL_RULES",
    "MixingRule",
    "Rubber",
    "SealRule",
    "mixing_rule",
    "seal_rule",
]

Rubber = Literal["natural", "SBR", "EPDM", "nitrile"]
"""What cups, seals and hose linings are made of."""

Suits = Literal["suits", "ask the maker", "attacks"]


@dataclass(frozen=True, slots=True)
class MixingRule:
    """Whether two bases may meet in one system.

    Parameters
    ----------
    one, other : str
        The bases.
    mixes : bool
        True when they blend.
    because : str
        Why, in a sentence.
    source_id, mark : str
        Where it is from, and how far read.
    """

    one: Base
    other: Base
    mixes: bool
    because: str
    source_id: str
    mark: Mark


@dataclass(frozen=True, slots=True)
class SealRule:
    """Whether a rubber bears a base.

    Parameters
    ----------
    base, rubber : str
        The pair.
    suits : {"suits", "ask the maker", "attacks"}
        What the fluid does to it.
    because : str
        Why, in a sentence.
    source_id, mark : str
        Where it is from, and how far read.
    """

    base: Base
    rubber: Rubber
    suits: Suits
    because: str
    source_id: str
    mark: Mark


_SECOND: Final = "read second-hand"
_COMMON: Final = "common practice, no source"
_SEPARATE: Final = "They do not blend: each collects where it likes, and water between them."
_SWELLS: Final = "It swells and softens the rubber until seals jam and hoses close."

MIXING_RULES: Final = (
    MixingRule(
        "glycol",
        "glycol",
        True,
        "Grades of glycol fluid blend; the mixture is as good as the poorer.",
        "fmvss-116",
        _SECOND,
    ),
    MixingRule("glycol", "silicone", False, _SEPARATE, "fmvss-116", _SECOND),
    MixingRule(
        "glycol",
        "mineral",
        False,
        "They do not blend, and each attacks the seals made for the other.",
        "trade-practice",
        _COMMON,
    ),
    MixingRule(
        "silicone",
        "silicone",
        True,
        "They blend; pour slowly, it takes up air.",
        "trade-practice",
        _COMMON,
    ),
    MixingRule(
        "silicone",
        "mineral",
        False,
        "No standard allows for it, and the seals differ.",
        "trade-practice",
        _COMMON,
    ),
    MixingRule(
        "mineral",
        "mineral",
        True,
        "Only within the one specification that the car's maker names.",
        "trade-practice",
        _COMMON,
    ),
)
"""Every pair of bases once."""

_BORNE: Final = "Brake rubber of this kind is made for it."
_SILICONE: Final = "Mostly borne, yet seals differ in how far they swell; the seals' maker decides."

_PAIRS: Final[tuple[tuple[Base, Rubber, Suits, str], ...]] = (
    ("glycol", "natural", "suits", _BORNE),
    ("glycol", "SBR", "suits", _BORNE),
    ("glycol", "EPDM", "suits", _BORNE),
    ("glycol", "nitrile", "attacks", _SWELLS),
    ("silicone", "natural", "ask the maker", _SILICONE),
    ("silicone", "SBR", "ask the maker", _SILICONE),
    ("silicone", "EPDM", "suits", _BORNE),
    ("silicone", "nitrile", "ask the maker", _SILICONE),
    ("mineral", "natural", "attacks", _SWELLS),
    ("mineral", "SBR", "attacks", _SWELLS),
    ("mineral", "EPDM", "attacks", _SWELLS),
    ("mineral", "nitrile", "suits", _BORNE),
)

SEAL_RULES: Final = tuple(
    SealRule(base, rubber, suits, because, "trade-practice", _COMMON)
    for base, rubber, suits, because in _PAIRS
)
"""Every base with every rubber once."""


def mixing_rule(base: str, other_base: str) -> MixingRule:
    """Look up whether two bases may meet in one system.

    [S:fmvss-116, S5.2.2]

    Parameters
    ----------
    base : str
        One of "glycol", "silicone", "mineral". [words]
    other_base : str
        The other. [words]

    Returns
    -------
    MixingRule
        The rule, whichever way round they were named. [-]

    Raises
    ------
    BadInput
        When there is no such base.

    Notes
    -----
    A table. Blending is not leave to mix: changing base means new seals and hoses, or at the least
    every drop and every rubber part cleaned, and the maker of the seals consulted.
    Checked against: the labels that the standard prescribes (read second-hand); the rest is common
    practice, no source.

    Examples
    --------
    >>> mixing_rule("silicone", "glycol").mixes
    False
    """
    for rule in MIXING_RULES:
        if {rule.one, rule.other} == {base, other_base}:
            return rule
    raise BadInput(
        "base of the fluid",
        f"there is no pair '{base}' and '{other_base}'",
        "known are glycol, silicone, mineral",
    )


def seal_rule(base: str, rubber: str) -> SealRule:
    """Look up whether a rubber bears a base. Common practice, no source [S:trade-practice].

    Parameters
    ----------
    base : str
        One of "glycol", "silicone", "mineral". [words]
    rubber : str
        One of "natural", "SBR", "EPDM", "nitrile". [words]

    Returns
    -------
    SealRule
        The rule. [-]

    Raises
    ------
    BadInput
        When there is no such pair.

    Notes
    -----
    A table. What a seal is made of is seldom marked on it; its maker's data decides.
    Checked against: nothing published was read (common practice, no source).

    Examples
    --------
    >>> seal_rule("mineral", "EPDM").suits
    'attacks'
    """
    for rule in SEAL_RULES:
        if (rule.base, rule.rubber) == (base, rubber):
            return rule
    raise BadInput(
        "fluid and rubber",
        f"there is no pair '{base}' and '{rubber}'",
        "known are glycol, silicone, mineral with natural, SBR, EPDM, nitrile",
    )
