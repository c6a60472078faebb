"""The friction of a tightened thread as one factor, by what is on it: what is taken, its range.

Nine tenths of a torque go into friction, under the head and on the flanks; what is on both decides
how much pull the last tenth makes. So a factor is never one number: the range beside it is what was
measured on bolts of that finish, and a torque that is reckoned from it has the same range.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

__all__ = ["NUT_FACTORS", "SHARE_OF_PROOF", "NutFactor"]

SHARE_OF_PROOF: Final = 0.75
"""Pull of a bolt that comes off again over its proof load [S:torque-tkdf]. [-]"""


@dataclass(frozen=True, slots=True)
class NutFactor:
    """What K is taken as, and between what it was found.

    Parameters
    ----------
    usual : float
        As makers' tables take it. [-]
    low, high : float
        Between these it was measured. [-]
    source_id : str
        Where the range is from.
    what_it_does : str
        What the condition does to the torque, in a clause.
    """

    usual: float
    low: float
    high: float
    source_id: str
    what_it_does: str


NUT_FACTORS: Final[dict[str, NutFactor]] = {
    "dry and plain": NutFactor(
        0.20, 0.18, 0.27, "nut-factors-read", "oil on it would pull a third harder at one torque"
    ),
    "dry and zinc plated": NutFactor(
        0.17, 0.17, 0.35, "nut-factors-read", "zinc drags very unevenly, more each time it is used"
    ),
    "phosphated and oiled": NutFactor(
        0.18, 0.15, 0.22, "nut-factors-read", "a tenth less torque than dry for the same pull"
    ),
    "oiled": NutFactor(
        0.15, 0.10, 0.26, "nut-factors-read", "a quarter less torque than dry for the same pull"
    ),
    "molybdenum paste": NutFactor(
        0.13, 0.10, 0.16, "nut-factors-recalled", "a third less torque than dry for the same pull"
    ),
    "copper grease or anti-seize": NutFactor(
        0.13, 0.08, 0.23, "nut-factors-recalled", "a third less torque than dry for the same pull"
    ),
}
"""By the condition's own words; the factor of a stainless thread that runs dry is not here, since
it galls."""
