"""What a check on entry found: by which rule, about which part or line, and the problem itself."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from bareshell.errors import Problem, Severity

__all__ = ["Finding", "finding", "listed", "meant"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is odd about brakes as they were entered.

    Parameters
    ----------
    rule : str
        The rule as a short name: ``floating end``.
    about : str
        Id of the part or line; empty when it is about the whole.
    problem : Problem
        What is wrong, and what would put it right.
    """

    rule: str
    about: str
    problem: Problem


def finding(
    rule: str, about: str, where: str, what: str, remedy: str, severity: Severity
) -> Finding:
    """Make a finding."""
    return Finding(rule, about, Problem(where, what, remedy, severity))


def meant(word: str, known: Iterable[str]) -> str:
    """Return a question naming what was meant, or nothing.

    Examples
    --------
    >>> meant("mastr", ["master", "tee-front"])
    "was 'master' meant? Otherwise, "
    """
    found = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"was '{found[0]}' meant? Otherwise, " if found else ""


def listed(words: Iterable[str], most: int = 6) -> str:
    """List words as a sentence does, and say how many more there are.

    Examples
    --------
    >>> listed(["a", "b", "c"]), listed("abcdefgh", most=2)
    ('a, b and c', 'a, b and 6 more')
    """
    every = list(words)
    if len(every) > most:
        return f"{', '.join(every[:most])} and {len(every) - most} more"
    return " and ".join(filter(None, (", ".join(every[:-1]), every[-1]))) if every else ""
