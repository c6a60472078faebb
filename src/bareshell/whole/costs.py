"""What it costs: spent, committed, still to come with its spread, against a budget.

Amounts are kept in the currency they were written in. They are turned into the owner's own only by
a rate that somebody states, and what has none is named and left out. Tax is the tax that somebody
wrote down as being within a price; where nobody did it is not known, not nothing. Tax in another
currency than its price was paid on top of it, at the border.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from bareshell.model import Build
from bareshell.model.part import Money, NeedState, OrderLine, OrderRecord
from bareshell.model.standing import need_standings

__all__ = ["Costs", "CurrencyCosts", "Rate", "SystemCosts", "Together", "costs"]

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class SystemCosts:
    """What one system costs, in one currency."""

    system: str
    spent: Decimal
    committed: Decimal
    low: Decimal
    high: Decimal
    unguessed: int


@dataclass(frozen=True, slots=True)
class CurrencyCosts:
    """Everything in one currency.

    Parameters
    ----------
    spent, committed : Decimal
        Paid, and ordered but not paid.
    low, high : Decimal
        What is not ordered yet may cost.
    carriage : Decimal
        Of it, carriage.
    tax : Decimal
        Of it, tax that somebody wrote down.
    tax_unknown : int
        Lines of which nobody wrote the tax down.
    deposits : Decimal
        Deposits that come back with the old units.
    wrong : Decimal
        Of it, paid for what came wrong and has not been replaced or sent back.
    budget : Decimal or None
        What it may cost in all.
    left_low, left_high : Decimal or None
        What would be left of the budget, at the high and at the low end of what is to come.
    """

    currency: str
    spent: Decimal
    committed: Decimal
    low: Decimal
    high: Decimal
    carriage: Decimal
    tax: Decimal
    tax_unknown: int
    deposits: Decimal
    wrong: Decimal
    budget: Decimal | None
    left_low: Decimal | None
    left_high: Decimal | None
    systems: tuple[SystemCosts, ...]


@dataclass(frozen=True, slots=True)
class Rate:
    """What one of another currency is in the owner's own, as stated."""

    currency: str
    rate: Decimal


@dataclass(frozen=True, slots=True)
class Together:
    """Everything in the owner's own currency, by the rates that were stated.

    Parameters
    ----------
    rates : tuple of Rate
        What is taken of the others: as stated for this, or else as it was last charged.
    own_rates : int
        Orders that go by the rate at which they themselves were charged.
    spent, committed, low, high : Decimal
        As for one currency.
    left_low, left_high : Decimal or None
        What would be left of the budget.
    without_rate : tuple of str
        Currencies that have no rate: their amounts are in none of it.
    """

    currency: str
    rates: tuple[Rate, ...]
    own_rates: int
    spent: Decimal
    committed: Decimal
    low: Decimal
    high: Decimal
    left_low: Decimal | None
    left_high: Decimal | None
    without_rate: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Costs:
    """What it costs, currency by currency.

    Parameters
    ----------
    together : Together or None
        All of it in the owner's own currency; None when there is no other.
    unpriced : int
        Orders of which nobody wrote the price down.
    unguessed : int
        Needs not ordered of which nobody guessed the cost.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    currency: str
    currencies: tuple[CurrencyCosts, ...]
    unpriced: int
    unguessed: int
    together: Together | None = None


@dataclass
class _Sum:
    """What is added up for one system in one currency."""

    spent: Decimal = NOTHING
    committed: Decimal = NOTHING
    low: Decimal = NOTHING
    high: Decimal = NOTHING
    unguessed: int = 0


def costs(build: Build, now: datetime, rates: Mapping[str, Decimal] | None = None) -> Costs:
    """Add up what the record says it costs.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware.
    rates : mapping of str to Decimal, optional
        What one of another currency is in the owner's own, as somebody states.
    """
    currency = build.car.currency if build.car else "GBP"
    live = [r for r in build.orders.values() if not r.cancelled or r.deliveries or r.line.paid_on]
    sums: dict[tuple[str, str], _Sum] = {}
    for record in live:
        for money in _of_line(record):
            one = sums.setdefault((money.currency, _system(build, record.line.need)), _Sum())
            if record.line.paid_on is not None:
                one.spent += money.amount
            else:
                one.committed += money.amount
    unguessed = _to_come(build, sums, currency)
    found = {key[0] for key in sums} | {currency}
    if build.car and build.car.budget:
        found.add(build.car.budget.currency)
    each = tuple(
        _one(build, one, sums, live)
        for one in sorted(found, key=lambda name: (name != currency, name))
    )
    return Costs(
        now,
        build.seq,
        build.car_name,
        build.invented,
        currency,
        each,
        sum(1 for r in live if r.line.price is None and not r.cancelled),
        unguessed,
        _together(build, currency, each, live, rates or {}),
    )


def _together(
    build: Build,
    own: str,
    currencies: tuple[CurrencyCosts, ...],
    live: list[OrderRecord],
    said: Mapping[str, Decimal],
) -> Together | None:
    """Turn all of it into the owner's own currency, as far as there are rates."""
    if len(currencies) < 2:
        return None
    rates = {**_last_rates(live, own), **said, own: Decimal(1)}
    sums = {True: NOTHING, False: NOTHING}
    without: set[str] = set()
    for record in live:
        for money in _of_line(record):
            rate = _rate_of(record.line, money, own) or rates.get(money.currency)
            if rate is None:
                without.add(money.currency)
            else:
                sums[record.line.paid_on is not None] += money.amount * rate
    spent, committed = _pence(sums[True]), _pence(sums[False])
    known = [one for one in currencies if one.currency in rates]
    without |= {one.currency for one in currencies if one not in known and one.high}
    low = _pence(sum((one.low * rates[one.currency] for one in known), NOTHING))
    high = _pence(sum((one.high * rates[one.currency] for one in known), NOTHING))
    budget, limit = build.car.budget if build.car else None, None
    if budget is not None and budget.currency in rates:
        limit = _pence(budget.amount * rates[budget.currency])
    return Together(
        own,
        tuple(Rate(one.currency, rates[one.currency]) for one in known if one.currency != own),
        sum(1 for r in live if r.line.rate is not None),
        spent,
        committed,
        low,
        high,
        limit - spent - committed - high if limit is not None else None,
        limit - spent - committed - low if limit is not None else None,
        tuple(sorted(without)),
    )


def _rate_of(line: OrderLine, money: Money, own: str) -> Decimal | None:
    """The rate at which an order itself was charged, for what of it is in its price's currency."""
    if line.rate is None or line.rate.currency != own or money.currency == own:
        return None
    priced = line.price or line.carriage
    return line.rate.amount if priced and priced.currency == money.currency else None


def _last_rates(live: list[OrderRecord], own: str) -> dict[str, Decimal]:
    """What one of each other currency was when something was last charged in it."""
    found: dict[str, Decimal] = {}
    for record in sorted(live, key=lambda r: r.line.paid_on or r.line.ordered_on or date.min):
        priced = record.line.price or record.line.carriage
        if priced and record.line.rate and record.line.rate.currency == own:
            found[priced.currency] = record.line.rate.amount
    return found


def _of_line(record: OrderRecord) -> Iterable[Money]:
    line = record.line
    at_the_border = line.tax if _is_on_top(line) else None
    return (money for money in (line.price, line.carriage, at_the_border) if money is not None)


def _is_on_top(line: OrderLine) -> bool:
    """Whether the tax is in another currency than the price: paid on top, at the border."""
    within = line.price or line.carriage
    return line.tax is not None and (within is None or within.currency != line.tax.currency)


def _system(build: Build, need_id: str | None) -> str:
    need = build.needs.get(need_id or "")
    job = build.jobs.get(need.job) if need else None
    return job.job.system if job else "for no job"


def _to_come(build: Build, sums: dict[tuple[str, str], _Sum], currency: str) -> int:
    """Add what is not ordered yet; return how many needs nobody guessed the cost of."""
    unguessed = 0
    for key, standing in need_standings(build).items():
        need = build.needs[key]
        job = build.jobs.get(need.job)
        missing = need.quantity - standing.here - standing.coming
        if job is None or not job.state.is_open or missing <= 0:
            continue
        if standing.state in (NeedState.HERE, NeedState.USED, NeedState.NOT_KNOWN):
            continue  # what nobody looked for may lie in a box
        system = _system(build, key)
        if need.guess is None:
            unguessed += 1
            sums.setdefault((currency, system), _Sum()).unguessed += 1
            continue
        share = Decimal(missing) / Decimal(need.quantity)
        one = sums.setdefault((need.guess.low.currency, system), _Sum())
        one.low += _pence(need.guess.low.amount * share)
        one.high += _pence(need.guess.high.amount * share)
    return unguessed


def _pence(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal("0.01"))


def _one(
    build: Build,
    currency: str,
    sums: dict[tuple[str, str], _Sum],
    live: list[OrderRecord],
) -> CurrencyCosts:
    mine = {system: one for (name, system), one in sums.items() if name == currency}
    spent = sum((one.spent for one in mine.values()), NOTHING)
    committed = sum((one.committed for one in mine.values()), NOTHING)
    low = sum((one.low for one in mine.values()), NOTHING)
    high = sum((one.high for one in mine.values()), NOTHING)
    budget = build.car.budget if build.car else None
    limit = budget.amount if budget and budget.currency == currency else None
    priced = [r for r in live if r.line.price and r.line.price.currency == currency]
    taxes = [r.line.tax for r in live if _is_in(r.line.tax, currency)]
    return CurrencyCosts(
        currency,
        spent,
        committed,
        low,
        high,
        _total(r.line.carriage for r in live if _is_in(r.line.carriage, currency)),
        _total(taxes),
        sum(1 for r in priced if r.line.tax is None),
        _total(_deposit(r) for r in live if _is_in(_deposit(r), currency)),
        _total(r.line.price for r in priced if r.gone_wrong and r.line.sent_back_on is None),
        limit,
        limit - spent - committed - high if limit is not None else None,
        limit - spent - committed - low if limit is not None else None,
        tuple(
            SystemCosts(system, one.spent, one.committed, one.low, one.high, one.unguessed)
            for system, one in sorted(
                mine.items(), key=lambda pair: -(pair[1].spent + pair[1].committed + pair[1].high)
            )
        ),
    )


def _is_in(money: Money | None, currency: str) -> bool:
    return money is not None and money.currency == currency


def _total(amounts: Iterable[Money | None]) -> Decimal:
    return sum((money.amount for money in amounts if money is not None), NOTHING)


def _deposit(record: OrderRecord) -> Money | None:
    exchange = record.line.exchange
    return exchange.deposit if exchange and exchange.returned_on is None else None
