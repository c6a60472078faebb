"""The yardsticks to pick from: which are chosen, which were meant for a car like this, and why."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from bareshell.brakes.yardsticks import CAUTIONS, MARKETS, YARDSTICKS, suggested
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, PartKind
from bareshell.units import parse_date
from bareshell.whole.brake_check import Head


@dataclass(frozen=True, slots=True)
class YardstickView:
    """One yardstick.

    Parameters
    ----------
    because : str
        Why it was meant for a car like this one; empty when it was not, or nobody asked.
    """

    id: str
    family: str
    jurisdiction: str
    subject: str
    asks: str
    cite: str
    mark: str
    load: str
    note: str
    chosen: bool
    because: str


@dataclass(frozen=True, slots=True)
class YardsticksView:
    """Every yardstick, those that are chosen first in each regulation."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    market: str
    markets: tuple[str, ...]
    first_used: date | None
    yardsticks: tuple[YardstickView, ...]
    chosen: tuple[str, ...] | None
    lost: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS

    @property
    def families(self) -> tuple[str, ...]:
        """The regulations, those of the market that was asked about first."""
        meant = {one.family for one in self.yardsticks if one.because}
        every = dict.fromkeys(one.family for one in self.yardsticks)
        return tuple(sorted(every, key=lambda family: family not in meant))


def first_used_of(system: BrakeSystem | None, today: date) -> date | None:
    """Return the day on which the car was first used, as its brakes' car part says it."""
    if system is None:
        return None
    for part in system.of_kind(PartKind.CAR):
        said = part.choices.get("first_used", "")
        if said:
            try:
                return parse_date(said, "first used", today=today, towards="past")
            except BadInput:
                return None
    return None


def yardsticks_view(
    head: Head,
    system: BrakeSystem | None,
    chosen: Collection[str] | None,
    market: str = "",
) -> YardsticksView:
    """Lay the yardsticks out to be picked from.

    Parameters
    ----------
    head : Head
        Whose brakes they are.
    system : BrakeSystem or None
        The brakes on the car: they say when it was first used and how many lines it has.
    chosen : collection of str or None
        Ids that were chosen; None when nobody chose.
    market : str
        Where the car is used; empty when nobody asked.

    Raises
    ------
    BadInput
        When there is no such market.

    Examples
    --------
    >>> from datetime import UTC
    >>> view = yardsticks_view(Head(datetime(2026, 3, 4, tzinfo=UTC)), None, None, "Germany")
    >>> sorted({one.family for one in view.yardsticks if one.because})
    ['StVZO s.41']
    """
    used = first_used_of(system, head.made_at.date())
    single = None if system is None else _is_single_line(system)
    meant = (
        {one.yardstick.id: one.because for one in suggested(market, used, single_line=single)}
        if market
        else {}
    )
    ids = frozenset(chosen or ())
    return YardsticksView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        market,
        tuple(MARKETS),
        used,
        tuple(
            YardstickView(
                one.id,
                one.family,
                one.jurisdiction,
                one.subject.value,
                one.words,
                one.cite(),
                one.mark,
                one.load,
                one.note,
                one.id in ids,
                meant.get(one.id, ""),
            )
            for one in YARDSTICKS.values()
        ),
        None if chosen is None else tuple(chosen),
        tuple(sorted(ids - YARDSTICKS.keys())),
    )


def _is_single_line(system: BrakeSystem) -> bool | None:
    masters = system.of_kind(PartKind.MASTER)
    if not masters:
        return None
    return len(masters) == 1 and masters[0].choices.get("form") == "single"
