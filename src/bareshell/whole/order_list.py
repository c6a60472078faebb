"""What to order, from whom and by when: the plan's dates, the suppliers' habits, one parcel each.

A line's last day is the day its job wants it, less how long such orders take, less what they are
late by at the confidence that was chosen. Lines of one supplier go together: the parcel leaves by
the first of these days, and until then it stays open for whatever else is found missing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal

from bareshell.model import Build
from bareshell.model.part import Guess, Money, Need, NeedState
from bareshell.model.standing import NeedStanding, need_standings
from bareshell.parts.spares import spares_for
from bareshell.plan.lateness import SourceBelief
from bareshell.whole.arrivals import believed_of
from bareshell.whole.last_days import Sources, last_day
from bareshell.whole.need_words import before_ordering
from bareshell.whole.spec_words import spec_words
from bareshell.whole.wanted_days import WantedDays

__all__ = [
    "CONFIDENCE",
    "OrderGroup",
    "OrderLineWanted",
    "OrderList",
    "order_list",
]

CONFIDENCE = 0.9
"""Share of such orders that are here in time, when nobody chose another. [-]"""

WANTING = (NeedState.NOT_HERE, NeedState.SOME_HERE, NeedState.WRONG)


@dataclass(frozen=True, slots=True)
class OrderLineWanted:
    """One line to order.

    Parameters
    ----------
    need, title, size, job, job_title : str
        What is wanted, and for which job.
    missing, spare : int
        How many are missing, and how many more to order.
    why_spare : str
        Why more.
    needed_on : date or None
        When the plan wants it; None when it has no place in the plan, or there is no plan.
    order_by : date or None
        The last day to order it.
    days_left : int or None
        Days to that day; below zero it is past.
    questions : int
        What is still asked of it.
    guess : Guess or None
        What it may cost.
    """

    need: str
    title: str
    size: str
    job: str
    job_title: str
    missing: int
    spare: int
    why_spare: str
    state: str
    needed_on: date | None
    order_by: date | None
    days_left: int | None
    questions: int
    guess: Guess | None = None
    note: str = ""

    @property
    def quantity(self) -> int:
        """How many to order."""
        return self.missing + self.spare


@dataclass(frozen=True, slots=True)
class OrderGroup:
    """One parcel: everything from one supplier.

    Parameters
    ----------
    supplier : str
        Empty where none is known yet.
    lines : tuple of OrderLineWanted
        The most urgent first.
    send_by : date or None
        The last day for the whole parcel.
    lead_days, late_share, late_days : float
        How long such orders take, how many are late, and by how much. [days], [-], [days]
    learned_from : int
        How many of the owner's own orders that rests on.
    carriage : Money or None
        What a parcel from there usually costs to send.
    low, high : Money or None
        What the lines may cost, as far as somebody guessed.
    unguessed : int
        Lines that nobody guessed the cost of.
    says : str
        What to do about it.
    """

    supplier: str
    source: str
    lines: tuple[OrderLineWanted, ...]
    send_by: date | None
    lead_days: float
    late_share: float
    late_days: float
    learned_from: int
    carriage: Money | None
    low: Money | None
    high: Money | None
    unguessed: int
    says: str


@dataclass(frozen=True, slots=True)
class OrderList:
    """Everything to order, parcel by parcel, and what is to be looked for first.

    Parameters
    ----------
    note : str
        Why nothing has a day, and what to do next; empty when there is nothing to say.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    confidence: float
    planned: bool
    groups: tuple[OrderGroup, ...]
    look_first: tuple[OrderLineWanted, ...]
    suppliers: tuple[str, ...] = field(default=())
    note: str = ""


def order_list(
    build: Build,
    now: datetime,
    today: date,
    wanted: WantedDays | None,
    *,
    confidence: float = CONFIDENCE,
) -> OrderList:
    """Say what to order, from whom and by when.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    today : date
        The owner's day.
    wanted : WantedDays or None
        When the plan wants each need; None while there is no plan.
    confidence : float
        The share of such orders that is to be here in time. [-]
    """
    desk = _Desk(build, now, today, wanted, confidence)
    lines: dict[tuple[str, str], list[OrderLineWanted]] = {}
    look: list[OrderLineWanted] = []
    for key, standing in desk.standings.items():
        need = build.needs[key]
        if need.job not in build.jobs or not build.jobs[need.job].state.is_open:
            continue
        missing = need.quantity - standing.here - desk.on_its_way(standing)
        if standing.state is NeedState.NOT_KNOWN:
            look.append(desk.line(need, standing, missing, desk.belief("", "")))
        elif standing.state in WANTING and missing > 0:
            source = desk.sources.of(need)
            lines.setdefault(source, []).append(
                desk.line(need, standing, missing, desk.belief(*source))
            )
    groups = [desk.group(source, found) for source, found in lines.items()]
    groups.sort(key=lambda one: (one.send_by is None, one.send_by or today, one.supplier))
    look.sort(key=_urgency)
    car = build.car
    return OrderList(
        now,
        build.seq,
        car.name if car else "",
        bool(car and car.invented),
        confidence,
        wanted is not None,
        tuple(groups),
        tuple(look),
        tuple(dict.fromkeys(r.line.supplier for r in build.orders.values() if r.line.supplier)),
        _note(wanted, groups, look),
    )


def _note(wanted: WantedDays | None, groups: list[OrderGroup], look: list[OrderLineWanted]) -> str:
    """Say why nothing has a day, and where a newcomer begins."""
    said = []
    if wanted is not None and not wanted.begins and (groups or look):
        said.append(
            "The plan has no session to put a job in, so nothing has a day: say on the Car page "
            "when you are in the garage."
        )
    if look and not groups:
        many = "1 thing" if len(look) == 1 else f"{len(look)} things"
        said.append(
            f"Nobody looked for {many} yet. Bring in your own list or a count of the old parts, or "
            "say of each that it is here or not; what is not here comes onto this list."
        )
    return " ".join(said)


def _urgency(line: OrderLineWanted) -> tuple[bool, date, str]:
    return line.order_by is None, line.order_by or date.max, line.title


class _Desk:
    """What the lines of one list share."""

    def __init__(
        self,
        build: Build,
        now: datetime,
        today: date,
        wanted: WantedDays | None,
        confidence: float,
    ) -> None:
        self.build, self.today, self.confidence = build, today, confidence
        self.wanted: Mapping[str, date] = wanted.needs if wanted else {}
        self.standings = need_standings(build)
        self._believed = believed_of(build, now)
        self.sources = Sources(build)

    def belief(self, source: str, supplier: str) -> SourceBelief:
        """How orders from there come."""
        return self._believed(source, supplier)

    def on_its_way(self, standing: NeedStanding) -> int:
        """How many are coming by an order that did not go wrong."""
        return sum(
            self.build.orders[key].outstanding
            for key in standing.orders
            if not self.build.orders[key].gone_wrong or self.build.orders[key].is_due
        )

    def line(
        self, need: Need, standing: NeedStanding, missing: int, belief: SourceBelief
    ) -> OrderLineWanted:
        """Make one line."""
        spare = spares_for(need.spec, missing, fixing=need.fixing)
        needed = self.wanted.get(need.id)
        by = None if needed is None else last_day(needed, belief, self.confidence)
        job = self.build.jobs[need.job].job
        return OrderLineWanted(
            need.id,
            need.title,
            spec_words(need.spec),
            job.id,
            job.title,
            missing,
            spare.more,
            spare.why,
            standing.state.value,
            needed,
            by,
            (by - self.today).days if by else None,
            len(before_ordering(need)),
            need.guess,
            need.note,
        )

    def group(self, source: tuple[str, str], lines: list[OrderLineWanted]) -> OrderGroup:
        """Put the lines of one supplier into one parcel."""
        lines.sort(key=_urgency)
        days = [line.order_by for line in lines if line.order_by is not None]
        belief = self.belief(*source)
        low, high = _summed(lines)
        return OrderGroup(
            source[1],
            source[0],
            tuple(lines),
            min(days) if days else None,
            round(belief.lead_days, 1),
            round(belief.late.mean, 3),
            round(belief.delay.mean_days, 1),
            belief.orders,
            self._carriage(source[1]),
            low,
            high,
            sum(1 for line in lines if line.guess is None),
            self._says(source[1], lines, min(days) if days else None),
        )

    def _carriage(self, supplier: str) -> Money | None:
        """What a parcel from there cost to send, in the middle of those that were written down."""
        found = sorted(
            (
                record.line.carriage
                for record in self.build.orders.values()
                if supplier and record.line.supplier.strip() == supplier and record.line.carriage
            ),
            key=lambda money: (money.currency, money.amount),
        )
        return found[len(found) // 2] if found else None

    def _says(self, supplier: str, lines: list[OrderLineWanted], send_by: date | None) -> str:
        asks = sum(1 for line in lines if line.questions)
        ask = f" {asks} of its lines have questions open: ask them first." if asks else ""
        if send_by is None:
            return f"Nothing in the plan waits for it yet.{ask}"
        left = (send_by - self.today).days
        urgent = [line for line in lines if line.days_left is not None and line.days_left <= 0]
        together = " Send all of it together: one carriage." if supplier and len(lines) > 1 else ""
        if left <= 0:
            first = urgent[0].job_title if urgent else ""
            return f"Order now: '{first}' waits for it otherwise.{together}{ask}"
        return (
            f"Order by {send_by.day} {send_by:%B}; until then the parcel stays open, "
            f"{left} day{'' if left == 1 else 's'}.{together}{ask}"
        )


def _summed(lines: list[OrderLineWanted]) -> tuple[Money | None, Money | None]:
    """What the lines may cost, in the currency most of them are guessed in."""
    guesses = [line.guess for line in lines if line.guess is not None]
    if not guesses:
        return None, None
    currency = Counter(guess.low.currency for guess in guesses).most_common(1)[0][0]
    mine = [guess for guess in guesses if guess.low.currency == currency]
    low = sum((guess.low.amount for guess in mine), Decimal(0))
    high = sum((guess.high.amount for guess in mine), Decimal(0))
    return Money(low, currency), Money(high, currency)
