"""Where a part that is not on order would come from, and the last day to order it."""

from __future__ import annotations

from datetime import date, timedelta
from math import ceil

from bareshell.model import Build
from bareshell.model.part import Need, SourceClass
from bareshell.plan.lateness import SourceBelief, late_by

__all__ = ["NINE_IN_TEN", "SHARES", "Sources", "allowance_days", "last_day"]

NINE_IN_TEN = 0.9
SHARES = (0.8, NINE_IN_TEN, 0.95)
"""The shares of orders in time that a last day is told for: eight in ten, nine in ten, 19 in 20."""


def allowance_days(belief: SourceBelief, share: float) -> int:
    """Days to allow for late and wrong deliveries so that a share of such orders is here in time.

    Parameters
    ----------
    belief : SourceBelief
        How such orders come.
    share : float
        The share that is wanted, below 1. [-]

    Examples
    --------
    >>> from bareshell.plan.lateness import Delay, Share
    >>> belief = SourceBelief("x", Share(3, 7), Delay(3, 14), Share(1, 9), 5.0)
    >>> [allowance_days(belief, wanted) for wanted in (0.5, 0.8, 0.9, 0.95)]
    [0, 5, 9, 14]
    """
    return ceil(late_by(belief, share))


def last_day(needed_on: date, belief: SourceBelief, share: float) -> date:
    """Return the last day to order a part so that it is here in time with a share of certainty.

    Parameters
    ----------
    needed_on : date
        The day its job wants it.
    belief : SourceBelief
        How orders from there come.
    share : float
        The share of such orders that is to be here in time, below 1. [-]

    Examples
    --------
    >>> from bareshell.plan.lateness import Delay, Share
    >>> belief = SourceBelief("x", Share(3, 7), Delay(3, 14), Share(1, 9), 5.0)
    >>> last_day(date(2031, 3, 31), belief, 0.9)
    datetime.date(2031, 3, 17)
    """
    return needed_on - timedelta(days=ceil(belief.lead_days) + allowance_days(belief, share))


class Sources:
    """Knows where each need, and each kind of part, was ordered last.

    Parameters
    ----------
    build : Build
        With its orders.
    """

    def __init__(self, build: Build) -> None:
        self._build = build
        self._used: dict[str, tuple[str, str]] = {}
        for record in build.orders.values():
            line = record.line
            if not line.supplier or line.source is SourceClass.SERVICE:
                continue
            where = (str(line.source), line.supplier.strip())
            need = build.needs.get(line.need or "")
            self._used[f"need:{line.need}"] = where
            if need is not None:
                self._used.update(dict.fromkeys(self._sorts(need), where))

    def of(self, need: Need) -> tuple[str, str]:
        """Where it was ordered before, or else things of its sort; nowhere when nobody did."""
        for key in (f"need:{need.id}", *self._sorts(need)):
            if key in self._used:
                return self._used[key]
        return "", ""

    def _sorts(self, need: Need) -> tuple[str, ...]:
        """What a need is like, the most like first; words alone are like nothing."""
        job = self._build.jobs.get(need.job)
        system = job.job.system if job else ""
        kind = "fixing" if need.fixing else need.spec.kind
        if kind == "plain":
            return ()
        return f"{kind}, {system}", kind
