"""Amounts as people type them into a form: with a sign, a comma, in another currency."""

from __future__ import annotations

from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest

from bareshell.app.filled import Filled
from bareshell.app.money_forms import read_money
from bareshell.errors import BadInput
from bareshell.model.part import Money
from tests.stories import NOW, small_car


def read(said: str, currency: str = "") -> Money | None:
    form = Filled({"price": (said,), "currency": (currency,)}, NOW, ZoneInfo("UTC"))
    found = read_money(form, small_car(), "price")
    form.check()
    return found


@pytest.mark.parametrize(
    ("said", "beside", "amount", "currency"),
    [
        ("12.50", "", "12.50", "GBP"),
        ("£12.50", "", "12.50", "GBP"),
        ("12,50 EUR", "", "12.50", "EUR"),
        ("12,50", "eur", "12.50", "EUR"),
        ("1.250,00 €", "EUR", "1250.00", "EUR"),
        ("£1,250.00", "GBP", "1250.00", "GBP"),
    ],
)
def test_as_it_is_typed(said: str, beside: str, amount: str, currency: str) -> None:
    assert read(said, beside) == Money(Decimal(amount), currency)


@pytest.mark.parametrize(
    ("said", "beside", "what"),
    [
        ("1,250", "", "could be 1250 or 1.250"),
        ("-3", "", "is no amount"),
        ("a tenner", "", "is no amount of money"),
        ("£5", "EUR", "is in GBP, and the currency beside it says EUR"),
        ("5", "pounds", "'POUNDS' is none"),
    ],
)
def test_what_cannot_be_told_is_asked(said: str, beside: str, what: str) -> None:
    with pytest.raises(BadInput) as wrong:
        read(said, beside)
    assert what in str(wrong.value)


def test_empty_is_not_known() -> None:
    assert read("") is None
