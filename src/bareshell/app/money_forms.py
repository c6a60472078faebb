"""Amounts of money as a form has them."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from bareshell.app.filled import Filled
from bareshell.model import Build
from bareshell.model.part import Guess, Money


def currency_of(build: Build) -> str:
    """The owner's own currency."""
    return build.car.currency if build.car and build.car.currency else "GBP"


def read_money(form: Filled, build: Build, name: str, label: str = "") -> Money | None:
    """Read an amount in the currency of the form, or else of the car.

    Parameters
    ----------
    form : Filled
        As it was filled in; its ``currency`` field goes for every amount in it.
    build : Build
        For the owner's own currency.
    name, label : str
        The field, and what stands beside it.
    """
    said = form.text(name)
    if not said:
        return None
    currency = (form.text("currency") or currency_of(build)).upper()
    try:
        amount = Decimal(said.replace(",", "."))
    except InvalidOperation:
        amount = Decimal(-1)
    if not amount.is_finite() or amount < 0:
        form.wrong(label or name, f"'{said}' is no amount", "write the figure alone, such as 12.50")
        return None
    try:
        return Money(amount, currency)
    except ValueError as error:
        form.wrong("currency", str(error), "write it as GBP, EUR or USD")
        return None


def read_guess(form: Filled, build: Build) -> Guess | None:
    """Read what a thing may cost: one figure, or low and high."""
    low = read_money(form, build, "guess_low", "may cost, at least")
    high = read_money(form, build, "guess_high", "may cost, at most")
    if low is None and high is None:
        return None
    low, high = low or high, high or low
    if low is None or high is None or low.amount > high.amount:
        form.wrong("may cost, at most", "it is less than the least", "write the larger one here")
        return None
    return Guess(low, high)


def lay_money(money: Money | None) -> str:
    """Lay an amount out as its figure.

    Examples
    --------
    >>> lay_money(Money(Decimal("12.50"), "GBP")), lay_money(None)
    ('12.50', '')
    """
    return f"{money.amount:f}" if money else ""
