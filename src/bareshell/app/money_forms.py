"""Amounts of money as a form has them."""

from __future__ import annotations

from bareshell.app.filled import Filled
from bareshell.errors import BadInput
from bareshell.io.sheets.figures import Written, money_in
from bareshell.model import Build
from bareshell.model.part import Guess, Money


def currency_of(build: Build) -> str:
    """The owner's own currency."""
    return build.car.currency if build.car and build.car.currency else "GBP"


def read_money(
    form: Filled, build: Build, name: str, label: str = "", *, any_currency: bool = False
) -> Money | None:
    """Read an amount as it is typed, ``12.50``, ``£12.50`` or ``12,50 EUR``.

    A bare figure is in the currency of the form, or else of the car.

    Parameters
    ----------
    form : Filled
        As it was filled in; its ``currency`` field goes for every amount in it.
    build : Build
        For the owner's own currency.
    name, label : str
        The field, and what stands beside it.
    any_currency : bool
        Whether it may be in another currency than the form's: tax is paid at the border.
    """
    said, beside = form.text(name), form.text("currency").upper()
    if not said:
        return None
    what = label or name
    if beside and not (len(beside) == 3 and beside.isalpha() and beside.isascii()):
        form.wrong("currency", f"'{beside}' is none", "write it as GBP, EUR or USD")
        return None
    try:
        money = money_in(said, what, Written(form.today, currency=beside or currency_of(build)))
    except BadInput as error:
        form.wrong(what, error.problem, "write the figure alone, such as 12.50, or 1250.00")
        return None
    if money is None or money.amount < 0:
        form.wrong(what, f"'{said}' is no amount", "write the figure alone, such as 12.50")
        return None
    if beside and money.currency != beside and not any_currency:
        says = f"'{said}' is in {money.currency}, and the currency beside it says {beside}"
        form.wrong(what, says, f"write {money.currency} as the currency, or the figure alone")
        return None
    return money


def read_rate(form: Filled, build: Build) -> Money | None:
    """Read what one of the price's currency was; a bare figure is in the car's own currency.

    Parameters
    ----------
    form : Filled
        As it was filled in; its ``rate`` field.
    build : Build
        For the owner's own currency.
    """
    said = form.text("rate")
    if not said:
        return None
    remedy = f"write what one of its currency was, such as 0.86 {currency_of(build)}"
    try:
        rate = money_in(said, "rate", Written(form.today, currency=currency_of(build), comma=True))
    except BadInput as error:
        form.wrong("rate", error.problem, remedy)
        return None
    if rate is None or rate.amount <= 0:
        form.wrong("rate", f"'{said}' is none", remedy)
        return None
    return rate


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
    >>> from decimal import Decimal
    >>> lay_money(Money(Decimal("12.50"), "GBP")), lay_money(None)
    ('12.50', '')
    """
    return f"{money.amount:f}" if money else ""
