"""How many more to order, and invoices as people paste them. All suppliers are invented."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.model.spec import BoltSpec, GoodsSpec, SealSpec, Spec, SplitPinSpec, UnionSpec
from bareshell.parts.invoice_lines import read_invoice
from bareshell.parts.spares import spares_for


class TestSpares:
    """`spares_for`: the fixing you are bound to lose, order two (common practice, no source)."""

    @pytest.mark.parametrize(
        ("spec", "wanted", "more"),
        [
            (BoltSpec(thread="2 BA"), 1, 1),
            (BoltSpec(thread="M6"), 20, 2),
            (BoltSpec(thread="M12"), 4, 0),
            (BoltSpec(thread="M12", lock="nyloc"), 4, 1),
            (SplitPinSpec(), 2, 2),
            (SealSpec(material="copper"), 4, 2),
            (SealSpec(material="nitrile"), 1, 0),
            (UnionSpec(), 8, 2),
        ],
    )
    def test_by_rule(self, spec: Spec, wanted: int, more: int) -> None:
        spare = spares_for(spec, wanted, fixing=True)
        assert spare.more == more
        assert bool(spare.why) == bool(more)

    def test_a_tin_of_sealer_needs_no_spare(self) -> None:
        assert spares_for(GoodsSpec(), 1, fixing=False).more == 0

    @given(st.integers(1, 500))
    def test_more_wanted_never_means_fewer_spares(self, count: int) -> None:
        spec = BoltSpec(thread="M5")
        more = [spares_for(spec, n, fixing=True).more for n in (count, count + 1)]
        assert more[0] <= more[1]


INVOICE = """
INVOICE 10023
Qty  Code  Description  Unit  Amount
2   QB-4321   Brake hose, front   £12.50   £25.00
4 QF-331 Nyloc nut 5/16 UNF @ 0.20 0.80
Copper washers 10mm x 10   3.20
Clevis pin 5/16 x 7/8   qty 4   £1.10  £4.40
M8 x 1.25 nuts 6 off  0.10 0.60
Master cylinder 19.05 mm £118.50
a line that says nothing
Postage  6.95
Subtotal 159.45
VAT 20% 31.89
Total £191.34
"""


class TestInvoices:
    """`read_invoice`: what is understood, and what is kept as it was typed."""

    def test_counts_prices_and_part_numbers(self) -> None:
        found = read_invoice(INVOICE)
        assert [(one.count, one.title, one.price) for one in found.items] == [
            (2, "Brake hose, front", Decimal("25.00")),
            (4, "Nyloc nut 5/16 UNF", Decimal("0.80")),
            (10, "Copper washers 10mm", Decimal("3.20")),
            (4, "Clevis pin 5/16 x 7/8", Decimal("4.40")),
            (6, "M8 x 1.25 nuts", Decimal("0.60")),
            (1, "Master cylinder 19.05 mm", Decimal("118.50")),
        ]
        assert [one.number for one in found.items[:3]] == ["QB-4321", "QF-331", ""]

    def test_carriage_tax_and_total_are_no_parts(self) -> None:
        found = read_invoice(INVOICE)
        assert (found.carriage, found.tax, found.total) == (
            Decimal("6.95"), Decimal("31.89"), Decimal("191.34"))  # fmt: skip
        assert found.currency == "GBP"
        assert found.doubt == ""

    def test_a_sum_that_does_not_come_out_is_said(self) -> None:
        found = read_invoice(INVOICE.replace("191.34", "219.34"))
        assert "the lines come to 159.45, and the invoice says 219.34" in found.doubt

    def test_what_is_not_understood_is_kept_as_it_stands(self) -> None:
        odd = [one.typed.strip() for one in read_invoice(INVOICE).lines
               if one.sort == "not understood"]  # fmt: skip
        assert odd == ["a line that says nothing"]

    def test_the_same_line_twice_is_added_up(self) -> None:
        found = read_invoice("2 Clips grey 0.50 1.00\n3 Clips grey 0.50 1.50\n")
        (one,) = found.items
        assert (one.count, one.price) == (5, Decimal("2.50"))
        assert "twice" in one.doubt

    def test_a_doubtful_reading_says_so(self) -> None:
        (sure,) = read_invoice("3 Clips 0.50 1.50").items
        (odd,) = read_invoice("3 Clips 0.50 1.60").items
        (one,) = read_invoice("Seal kit 18,90 €").items
        assert sure.doubt == ""
        assert odd.doubt == "3 x 0.50 is not 1.60"
        assert (one.price, one.doubt) == (Decimal("18.90"), "no count is written: taken as one")

    @given(st.text(max_size=300))
    def test_any_text_is_read_without_a_stumble(self, text: str) -> None:
        found = read_invoice(text)
        assert all(one.count >= 0 for one in found.items)
