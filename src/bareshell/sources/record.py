"""What a source is: one published thing, and how far we have read it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["Mark", "Source"]

Mark = Literal["read", "read second-hand", "from memory", "common practice, no source"]
"""How a figure taken from a source is known.

*read*: seen in the text itself. *Read second-hand*: seen in a text that reproduces or sums it up.
*From memory*: recalled, not seen; verify before relying on it. *Common practice, no source*: what
the trade does, with no publication behind it.
"""


@dataclass(frozen=True, slots=True)
class Source:
    """One standard, regulation, handbook or paper.

    Parameters
    ----------
    id : str
        The short name that docstrings cite as ``[S:id]``.
    title : str
        As published.
    publisher : str
        Who published it.
    year : int or None
        Of the edition meant; None when it is not known or has none.
    mark : str
        How far we have read it; a single clause may be known better, and then the note says so.
    clause : str
        Where to look, when one place is meant.
    note : str
        What was taken from it, and what to beware of.
    """

    id: str
    title: str
    publisher: str
    year: int | None
    mark: Mark
    clause: str = ""
    note: str = ""

    def cite(self, clause: str = "") -> str:
        """Say the source as one line for a page or a sheet.

        Parameters
        ----------
        clause : str, optional
            The clause or page meant here, in place of the source's own.

        Examples
        --------
        >>> Source("x", "A standard", "A body", 1999, "from memory").cite("clause 4")
        'A standard, clause 4 (A body, 1999; from memory)'
        """
        where = clause or self.clause
        title = f"{self.title}, {where}" if where else self.title
        told = ", ".join(part for part in (self.publisher, str(self.year or "")) if part)
        return f"{title} ({told}; {self.mark})" if told else f"{title} ({self.mark})"
