"""Units outside the trade's own table, asked of a general units library.

The library takes almost half a second to start, so it is asked only for a name that the table
does not know. A short mark is never asked for: to such a library nearly every two or three
letters are some unit, and here they are far more likely a slip.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

__all__ = ["si_of"]

_WORDS = re.compile(r"[a-z]{5,}(?:\.[a-z]+)*")


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[float]:
    import pint

    return pint.UnitRegistry(cache_folder=None)


@lru_cache(maxsize=256)
def si_of(name: str, si_mark: str) -> float | None:
    """How much SI one of the named unit is, or nothing when it is no unit of that kind.

    Parameters
    ----------
    name : str
        A unit's name in full, its words parted by points: ``"furlong"``, ``"nautical.mile"``.
    si_mark : str
        The SI unit of the quantity that is meant: ``"m"``, ``"Pa"``, ``"N.m"``.

    Returns
    -------
    float or None
        The factor, exact as far as the library's definitions are.

    Examples
    --------
    >>> si_of("nautical.mile", "m")
    1852.0
    >>> si_of("furlong", "Pa") is None
    True
    """
    if not _WORDS.fullmatch(name):
        return None
    import pint

    registry = _registry()
    target = si_mark.replace(".", "*").replace("m3", "m**3")
    try:
        return float(registry.Quantity(1.0, name.replace(".", "_")).to(target).magnitude)
    except (pint.errors.UndefinedUnitError, pint.errors.DimensionalityError):
        return None
