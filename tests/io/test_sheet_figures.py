"""What owners write in cells: counts, money, hours, days, yes and no."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.io.sheets.alike import alike
from bareshell.io.sheets.csv_text import read_csv
from bareshell.io.sheets.figures import (
    Done,
    Written,
    day_in,
    done_in,
    hours_in,
    money_in,
    quantity_in,
    three_hours_in,
)
from bareshell.io.sheets.grid import Cell, column_letters
from bareshell.model.part import Money
from bareshell.model.trust import ThreePoint

HOW = Written(date(2026, 3, 4), "day first")


@pytest.mark.parametrize(
    ("cell", "count"),
    [
        (4, 4),
        (4.0, 4),
        ("4", 4),
        ("x4", 4),
        ("4x", 4),
        ("4 off", 4),
        ("4 No.", 4),
        ("12 pcs", 12),
        ("2 pairs", 4),
        ("1 pr", 2),
        ("pair", 2),
        ("2 dozen", 24),
        ("a dozen", 12),
        ("1 set", 1),
        ("set", 1),
        ("two", 2),
        ("4,00", 4),
        ("0", 0),
        ("?", None),
        ("tbc", None),
    ],
)
def test_how_many(cell: Cell, count: int | None) -> None:
    assert quantity_in(cell, "qty") == count


@pytest.mark.parametrize("cell", ["lots", 2.5, -1, True, "4-5", date(2026, 1, 1), "1e9"])
def test_no_number_of_things(cell: Cell) -> None:
    with pytest.raises(BadInput, match="qty: "):
        quantity_in(cell, "qty")


@pytest.mark.parametrize(
    ("cell", "amount", "currency"),
    [
        (12.5, "12.50", "GBP"),
        (3, "3.00", "GBP"),
        (0.055, "0.055", "GBP"),
        ("12.50", "12.50", "GBP"),
        ("£12.50", "12.50", "GBP"),
        ("£ 1,250", "1250", "GBP"),
        ("GBP 12", "12", "GBP"),
        ("12,50 €", "12.50", "EUR"),
        ("1.250,00 €", "1250.00", "EUR"),
        ("1,250.00 usd", "1250.00", "USD"),
        ("1 250,00 EUR", "1250.00", "EUR"),
        ("CHF 1'250.00", "1250.00", "CHF"),
        ("1,234,567", "1234567", "GBP"),
        ("£12.50 each", "12.50", "GBP"),
        ("150 zł", "150", "PLN"),
    ],
)
def test_money(cell: Cell, amount: str, currency: str) -> None:
    written = Written(HOW.today, HOW.order, comma=False)
    assert money_in(cell, "price", written) == Money(Decimal(amount), currency)


@pytest.mark.parametrize("cell", ["cheap", "£ten", "12 % off", "£5 €6", True, "1,500", "$5"])
def test_no_amount_of_money(cell: Cell) -> None:
    with pytest.raises(BadInput, match="price: "):
        money_in(cell, "price", HOW)


@pytest.mark.parametrize(
    ("cell", "three"),
    [
        (2, (1, 2, 4)),
        ("2h30", (1.25, 2.5, 5)),
        (time(1, 30), (0.75, 1.5, 3)),
        (timedelta(hours=30), (15, 30, 60)),
        ("2-4", (2, 3, 4)),
        ("2 - 4 hrs", (2, 3, 4)),
        ("2h to 4h", (2, 3, 4)),
        ("1/2/6", (1, 2, 6)),
        ("1 / 2 / 6 h", (1, 2, 6)),
        ("1/2", (0.25, 0.5, 1)),
        ("1,5", (0.75, 1.5, 3)),
    ],
)
def test_estimates(cell: Cell, three: tuple[float, float, float]) -> None:
    assert three_hours_in(cell, "hours")[0] == ThreePoint(*three)


def test_estimates_that_nobody_has() -> None:
    assert three_hours_in("tbc", "hours") == (None, "")
    assert hours_in("-", "hours") is None
    for cell in ("a day", "4-2", 5000, "soon"):
        with pytest.raises(BadInput, match="hours"):
            three_hours_in(cell, "hours")


@pytest.mark.parametrize(
    ("cell", "day"),
    [
        (date(2026, 4, 3), date(2026, 4, 3)),
        (datetime(2026, 4, 3, 12, 0), date(2026, 4, 3)),  # noqa: DTZ001 - as a sheet has it
        # 1 January 2000 is day 36526 of the 1900 date system (ECMA-376 part 1, 18.17.4.1).
        (36526, date(2000, 1, 1)),
        ("36526", date(2000, 1, 1)),
        ("2026-04-03", date(2026, 4, 3)),
        ("3/4/26", date(2026, 4, 3)),
        ("3.4.2026", date(2026, 4, 3)),
        ("3 Apr 2026", date(2026, 4, 3)),
        ("April 3, 2026", date(2026, 4, 3)),
        ("3rd April", date(2026, 4, 3)),
        ("TBC", None),
    ],
)
def test_days(cell: Cell, day: date | None) -> None:
    assert day_in(cell, "ETA", HOW) == day


@pytest.mark.parametrize("cell", ["soon", "Saturday", "in 3 weeks", "31/2/26", 5, "12"])
def test_no_day(cell: Cell) -> None:
    with pytest.raises(BadInput, match="ETA: "):
        day_in(cell, "ETA", HOW)


@pytest.mark.parametrize(
    ("cell", "done"),
    [
        (True, Done.YES),
        ("Y", Done.YES),
        ("✓", Done.YES),
        ("Done!", Done.YES),
        (1.0, Done.YES),
        ("100%", Done.YES),
        (date(2026, 1, 1), Done.YES),
        ("done before the record, unproven", Done.YES),
        (0.5, Done.STARTED),
        ("50 %", Done.STARTED),
        ("WIP", Done.STARTED),
        (None, Done.NO),
        (False, Done.NO),
        ("not started", Done.NO),
        ("n/a", Done.LEFT_OUT),
    ],
)
def test_done_or_not(cell: Cell, done: Done) -> None:
    assert done_in(cell, "done") is done


def test_neither_done_nor_not() -> None:
    with pytest.raises(BadInput, match="says neither done nor to do"):
        done_in("ask Pat", "done")


def test_columns_are_named_as_the_sheet_names_them() -> None:
    letters = [column_letters(number) for number in (0, 25, 26, 701, 702)]
    assert letters == ["A", "Z", "AA", "ZZ", "AAA"]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Pipe nut M10x1", "M10 × 1 pipe nuts"),
        ("Clevis pin, 5/16", "5/16 CLEVIS-PIN"),
        ("Gaine de frein côté gauche", "gaine de frein cote gauche"),
        ("Seal for the door", "Door seals"),
        ("Washer 10,5 mm", "washer 10.5mm"),
    ],
)
def test_the_same_thing_in_other_words(one: str, other: str) -> None:
    assert alike(one) == alike(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("Nut M10x1", "Nut M10x1.25"), ("Left door", "Right door"), ("Pin 5/16", "Pin 516")],
)
def test_other_things_in_like_words(one: str, other: str) -> None:
    assert alike(one) != alike(other)


def test_a_line_that_names_its_delimiter_is_believed() -> None:
    rows, _ = read_csv(b"sep=|\nPart|Qty\na,b;c|4\n", "x.csv")
    assert rows == (("Part", "Qty"), ("a,b;c", "4"))


_CELLS: st.SearchStrategy[Any] = st.one_of(
    st.none(),
    st.text(max_size=20),
    st.integers(),
    st.floats(),
    st.booleans(),
    st.dates(),
    st.times(),
    st.timedeltas(),
)


@given(_CELLS)
def test_whatever_stands_in_a_cell_is_read_or_refused_in_words(cell: Any) -> None:
    readers: tuple[Any, ...] = (
        lambda: quantity_in(cell, "cell"),
        lambda: money_in(cell, "cell", HOW),
        lambda: three_hours_in(cell, "cell"),
        lambda: day_in(cell, "cell", HOW),
        lambda: done_in(cell, "cell"),
    )
    for reader in readers:
        try:
            reader()
        except BadInput as error:
            assert error.problem  # noqa: PT017 - either is right; a refusal has words
