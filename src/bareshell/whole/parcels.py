"""Is it worth waiting to share the carriage: each supplier's parcel in money and in days.

Money: one parcel against one for each of the last days. Days: what keeping the parcel open does to
the road, reckoned by the planner on the same futures, and how long the things lie before they are
wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from bareshell.model import Build
from bareshell.model.part import Money
from bareshell.plan.levers import NO_ODDS_DAYS
from bareshell.plan.problem import PlanProblem
from bareshell.plan.wording import days as days_said
from bareshell.whole.order_list import OrderGroup, OrderLineWanted, OrderList

__all__ = ["WAITS_DAYS", "ParcelView", "Parcels", "Waited", "kept_open", "parcels"]

WAITS_DAYS = (7, 14, 28)
"""For so long a parcel is tried kept open: a week, two, four. [days]"""


@dataclass(frozen=True, slots=True)
class Waited:
    """What keeping the parcel open does to the road.

    Parameters
    ----------
    days : int
        For how long. [days]
    later_days, standard_error_days : float or None
        How much later the road is reached on average, and how far that may be off; None when it is
        not reached. [days]
    word : str
        ``no clear effect``, ``later`` or ``not reached``.
    """

    days: int
    later_days: float | None
    standard_error_days: float | None
    word: str


@dataclass(frozen=True, slots=True)
class ParcelView:
    """One supplier's parcel.

    Parameters
    ----------
    supplier : str
        From whom.
    lines : int
        How many lines it has.
    send_by : date or None
        The last day of its most urgent line.
    carriage, apart, saved : Money or None
        What one parcel costs to send, what they would cost each on its own last day, and what
        going together saves; None when nobody wrote the carriage down.
    apart_parcels : int
        How many parcels that would be.
    longest_early_days : int
        How long before its own last day the least urgent line is ordered. [days]
    waits : tuple of Waited
        What keeping the parcel open from today does to the road.
    free_days : int
        For how long of those it can be kept open with no clear effect. [days]
    look_first : int
        Things that nobody looked for yet, and that would come from there.
    says : str
        The advice in sentences.
    """

    supplier: str
    lines: int
    send_by: date | None
    carriage: Money | None
    apart: Money | None
    saved: Money | None
    apart_parcels: int
    longest_early_days: int
    waits: tuple[Waited, ...]
    free_days: int
    look_first: int
    says: str


@dataclass(frozen=True, slots=True)
class Parcels:
    """Every supplier's parcel, the most urgent first."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    samples: int
    parcels: tuple[ParcelView, ...]


def kept_open(problem: PlanProblem, group: OrderGroup, days: int) -> PlanProblem:
    """Return the problem in which a parcel is ordered some days later.

    Parameters
    ----------
    problem : PlanProblem
        In which it is ordered today.
    group : OrderGroup
        The parcel.
    days : int
        How much later. [days]
    """
    late = {line.need for line in group.lines}
    return replace(
        problem,
        arrivals=tuple(
            replace(one, lead_minutes=one.lead_minutes + days * 24 * 60)
            if one.id in late and one.lead_minutes is not None and one.expected_minute is None
            else one
            for one in problem.arrivals
        ),
    )


def parcels(
    build: Build,
    found: OrderList,
    look_first: Sequence[tuple[str, str]],
    gains: Sequence[Sequence[tuple[float, float] | None]],
    samples: int,
) -> Parcels:
    """Say for each parcel whether waiting to share its carriage is worth it.

    Parameters
    ----------
    build : Build
        The build.
    found : OrderList
        What is to be ordered.
    look_first : sequence of (str, str)
        For each thing that nobody looked for yet, the class and supplier it would come from.
    gains : sequence
        For each parcel that has a supplier, in order, for each of ``WAITS_DAYS`` the days gained
        and their error.
    samples : int
        On how many futures.
    """
    named = [group for group in found.groups if group.supplier]
    views = [
        _parcel(group, waited, sum(1 for _, whom in look_first if whom == group.supplier))
        for group, waited in zip(named, gains, strict=True)
    ]
    return Parcels(found.made_at, build.seq, found.car, found.invented, samples, tuple(views))


def _parcel(
    group: OrderGroup, waited: Sequence[tuple[float, float] | None], looks: int
) -> ParcelView:
    days = sorted({line.order_by for line in group.lines if line.order_by is not None})
    apart_parcels = max(1, len(days) + any(line.order_by is None for line in group.lines))
    early = (days[-1] - days[0]).days if days else 0
    waits = tuple(_waited(n, gain) for n, gain in zip(WAITS_DAYS, waited, strict=True))
    free = 0
    for one in waits:
        if one.word != "no clear effect":
            break
        free = one.days
    apart = saved = None
    if group.carriage is not None:
        amount, currency = group.carriage.amount, group.carriage.currency
        apart = Money(amount * apart_parcels, currency)
        saved = Money(amount * (apart_parcels - 1), currency)
    view = ParcelView(
        group.supplier,
        len(group.lines),
        group.send_by,
        group.carriage,
        apart,
        saved,
        apart_parcels,
        early,
        waits,
        free,
        looks,
        "",
    )
    return replace(view, says=" ".join(_says(view, group.lines)))


def _waited(days: int, gain: tuple[float, float] | None) -> Waited:
    if gain is None:
        return Waited(days, None, None, "not reached")
    later, error = round(-gain[0], 2), round(gain[1], 2)
    clear = later > max(2 * error, NO_ODDS_DAYS)
    return Waited(days, later, error, "later" if clear else "no clear effect")


def _says(view: ParcelView, lines: Sequence[OrderLineWanted]) -> list[str]:
    return [*_money(view, lines), *_days(view), *_looks(view)]


def _money(view: ParcelView, lines: Sequence[OrderLineWanted]) -> list[str]:
    if view.apart_parcels == 1:
        if view.carriage is None:
            return ["One parcel, one carriage, which nobody wrote down yet."]
        return [f"One parcel, one carriage: {_said(view.carriage)}."]
    if view.saved is None or view.carriage is None or view.apart is None:
        unknown = (
            f"Each on its own last day they would be {view.apart_parcels} parcels; nobody wrote "
            "down what carriage from there costs, so what going together saves is not known."
        )
        return [unknown]
    together = (
        f"Together {_said(view.carriage)} of carriage; each on its own last day "
        f"{view.apart_parcels} parcels, {_said(view.apart)}: going together saves "
        f"{_said(view.saved)}."
    )
    said = [together]
    last = max(lines, key=lambda line: line.order_by or date.min)
    if view.longest_early_days and last.order_by is not None:
        said.append(
            f"'{last.title}' would then be ordered {view.longest_early_days} days before its own "
            "last day: check it in the day it comes, while they still take it back."
        )
    return said


def _days(view: ParcelView) -> list[str]:
    first_later = next((one for one in view.waits if one.word == "later"), None)
    if any(one.word == "not reached" for one in view.waits):
        return ["The road is not reached as things are, so waiting cannot be weighed in days."]
    if first_later is None:
        return [
            f"Kept open for {view.free_days} days, it has no clear effect on the day on the road."
        ]
    later, error = first_later.later_days or 0.0, first_later.standard_error_days or 0.0
    cost = (
        f"kept open for {first_later.days} days, the road is {days_said(later)} later, give or "
        f"take {days_said(2 * error)}"
    )
    if not view.free_days:
        return [f"Do not wait: {cost}."]
    return [f"It can be kept open for {view.free_days} days with no clear effect; {cost}."]


def _looks(view: ParcelView) -> list[str]:
    if not view.look_first:
        return []
    things = "1 thing" if view.look_first == 1 else f"{view.look_first} things"
    more = f", and a second parcel is {_said(view.carriage)} more" if view.carriage else ""
    return [f"{things} that nobody looked for yet would come from there too: look first{more}."]


def _said(money: Money) -> str:
    return f"{money.amount:.2f} {money.currency}"
