"""A repeating stretch of garage time in words, and from the few answers a form asks for.

The rule itself is a recurrence rule as RFC 5545 writes it. Weekly rules are what people have;
any other rule is kept and shown as it is written.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

DAYS = {
    "MO": "Monday",
    "TU": "Tuesday",
    "WE": "Wednesday",
    "TH": "Thursday",
    "FR": "Friday",
    "SA": "Saturday",
    "SU": "Sunday",
}
"""The days of the week as RFC 5545, section 3.3.10, abbreviates them."""

_ORDINALS = {1: "", 2: "second ", 3: "third ", 4: "fourth "}


@dataclass(frozen=True, slots=True)
class Weekly:
    """A rule that names days of every so many weeks."""

    days: tuple[str, ...]
    every: int = 1

    @property
    def rule(self) -> str:
        """The rule as it is kept."""
        days = ",".join(day for day in DAYS if day in self.days)
        interval = f";INTERVAL={self.every}" if self.every > 1 else ""
        return f"FREQ=WEEKLY{interval};BYDAY={days}"


def weekly(rule: str) -> Weekly | None:
    """Read a rule as a weekly one, or None when it is another kind.

    Examples
    --------
    >>> weekly("FREQ=WEEKLY;INTERVAL=2;BYDAY=SA")
    Weekly(days=('SA',), every=2)
    >>> weekly("FREQ=MONTHLY;BYDAY=1SA") is None
    True
    """
    parts = dict(part.partition("=")[::2] for part in rule.upper().split(";") if part)
    days = tuple(parts.get("BYDAY", "").split(","))
    every = parts.get("INTERVAL", "1")
    if parts.keys() - {"FREQ", "BYDAY", "INTERVAL"} or parts.get("FREQ") != "WEEKLY":
        return None
    if not every.isdigit() or not int(every) or any(day not in DAYS for day in days):
        return None
    return Weekly(days, int(every))


def rule_words(rule: str) -> str:
    """Say when a pattern repeats.

    Examples
    --------
    >>> rule_words("FREQ=WEEKLY;BYDAY=MO,WE"), rule_words("FREQ=WEEKLY;INTERVAL=2;BYDAY=SA")
    ('every Monday and Wednesday', 'every second Saturday')
    >>> rule_words("FREQ=MONTHLY;BYDAY=1SA")
    'by the rule FREQ=MONTHLY;BYDAY=1SA'
    """
    known = weekly(rule)
    if known is None:
        return f"by the rule {rule}"
    names = _listed(DAYS[day] for day in known.days)
    if known.every in _ORDINALS:
        return f"every {_ORDINALS[known.every]}{names}"
    return f"{names} of every {known.every} weeks"


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
