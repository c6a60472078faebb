"""How many more to order, and invoices as people paste them. All suppliers are invented."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.model.spec import BoltSpec, GoodsSpec, SealSpec, Spec, SplitPinSpec, UnionSpec
from bareshell.parts.invoice_lines import read_invoice
from bareshell.parts.invoice_shares import charged, shared_out
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


WRAPPED = """
An invented shop Ltd
12 Long Lane
VAT Reg GB 123 4567 89
Invoice No: 20551        Date: 24/11/2026
Customer: A restorer     Account: 0012

Qty  Code       Description                 Unit     Net     VAT
5    CSP-01     Check strap pins, zinc,
                with split ends             0.45     2.25    20%
20   CH-22      Channel clips              £0.12    £2.40    20%
2 pr TRIM-7     Trim screws (pairs)          1.10     2.20
1    HS-9       Headlamp adjusting screws
                                             6.80     6.80
Less 10% discount on fasteners                       -1.37
Carriage & packing                                    4.95
Net total                                            17.23
VAT @ 20%                                             3.45
TOTAL GBP                                            20.68
Payment due within 30 days
"""

LABELLED = """
Order confirmation

Rear screen rubber, extruded, per the
old sample
   Qty: 1    Price: £38.00

Pedal rubbers
   Qty: 3    Price: £4.50    Total: £13.50

Postage: FREE
Subtotal: £51.50
Discount (SPRING): -£5.00
Import duty: £2.10
VAT: £9.72
Grand total: £58.32
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

    def test_wrapped_lines_discount_and_tax_come_to_the_total(self) -> None:
        found = read_invoice(WRAPPED)
        assert [(one.count, one.title, one.price) for one in found.items] == [
            (5, "Check strap pins, zinc with split ends", Decimal("2.25")),
            (20, "Channel clips", Decimal("2.40")),
            (4, "Trim screws (pairs)", Decimal("2.20")),
            (1, "Headlamp adjusting screws", Decimal("6.80")),
        ]
        assert (found.discount, found.carriage, found.tax, found.total) == (
            Decimal("1.37"), Decimal("4.95"), Decimal("3.45"), Decimal("20.68"))  # fmt: skip
        assert (found.tax_on_top, found.doubt) == (True, "")
        lines, carriage = charged(found)
        parts = [one.price for one in (*lines, carriage) if one.price is not None]
        assert sum(parts) == found.total
        assert sum(one.tax or 0 for one in (*lines, carriage)) == found.tax
        assert [one.typed for one in found.lines if one.sort == "not understood"] == []

    def test_labels_under_the_words_belong_to_them(self) -> None:
        found = read_invoice(LABELLED)
        assert [(one.count, one.title, one.price) for one in found.items] == [
            (1, "Rear screen rubber, extruded, per the old sample", Decimal("38.00")),
            (3, "Pedal rubbers", Decimal("13.50")),
        ]
        assert (found.discount, found.tax, found.doubt) == (Decimal("5.00"), Decimal("11.82"), "")

    def test_a_bill_in_another_language_of_the_trade(self) -> None:
        found = read_invoice(
            "3 Stk. Schlauch 12,50 EUR 37,50 EUR\n1 Dichtsatz 1.234,00 €\nRabatt 5 % -63,58\n"
            "Versand 9,90\nMwSt. 19% 231,44\nGesamtbetrag 1.449,26 EUR"
        )
        assert [(one.count, one.title) for one in found.items] == [
            (3, "Schlauch"),
            (1, "Dichtsatz"),
        ]
        assert (found.total, found.currency, found.doubt) == (Decimal("1449.26"), "EUR", "")

    @pytest.mark.parametrize(
        ("line", "sort"),
        [
            ("1 Carriage 4.95", "carriage"),
            ("2 Fuel delivery pipe 4.00 8.00", "item"),
            ("1 Delivery pipe 4.00", "item"),
            ("Import VAT 12.40", "tax"),
            ("Customs duty £3.10", "tax"),
            ("Core deposit returned -40.00", "credit"),
            ("VAT Reg GB 123 4567 89", "none"),
            ("Payment due within 30 days", "none"),
        ],
    )
    def test_words_that_look_alike(self, line: str, sort: str) -> None:
        found = [one.sort for one in read_invoice(line).lines if one.price is not None]
        assert found == ([sort] if sort != "none" else [])

    def test_a_rate_alone_is_reckoned_and_a_place_is_no_count(self) -> None:
        found = read_invoice("1  5  Pins  0.40  2.00\n2  3  Clips  1.00  3.00\nLess 10% discount")
        assert [(one.count, one.title) for one in found.items] == [(5, "Pins"), (3, "Clips")]
        assert found.discount == Decimal("0.50")

    def test_a_mail_with_dashes_and_a_table_with_semicolons(self) -> None:
        mail = read_invoice(
            'Your order 88213\n- Clevis pin 5/16" x 7/8" (x4) - £4.40\n- Hose - £32.00\n'
            "Shipping £4.95\nOrder total: £41.35 (including £6.89 VAT)"
        )
        assert [(one.count, one.price) for one in mail.items] == [
            (4, Decimal("4.40")), (1, Decimal("32.00"))]  # fmt: skip
        assert (mail.total, mail.tax, mail.tax_on_top, mail.doubt) == (
            Decimal("41.35"), Decimal("6.89"), False, "")  # fmt: skip
        listed = read_invoice(
            "Item no.;Description;Qty;Price;Total\n4410-A;Door mirror, chrome;2;14,95;29,90\n"
            "4471;Bulb 12V 21W;10;0,60;6,00\n;Frais de port;;;6,90\n;TVA 20%;;;8,56\n"
            ";Total EUR;;;51,36"
        )
        assert [(one.count, one.title) for one in listed.items] == [
            (2, "Door mirror, chrome"), (10, "Bulb 12V 21W")]  # fmt: skip
        assert (listed.total, listed.doubt) == (Decimal("51.36"), "")

    def test_a_line_of_nothing_but_space_is_read_like_any_other(self) -> None:
        (one,) = read_invoice("2" + " " * 15_000 + "Clips" + " " * 4_000 + "0.50 1.00").items
        assert (one.count, one.title, one.price) == (2, "Clips", Decimal("1.00"))

    def test_tax_within_the_total_is_not_added(self) -> None:
        found = read_invoice("1 Hose 12.00\nincl. VAT 20% 2.00\nTotal 12.00")
        ((hose,), _) = charged(found)
        assert (hose.price, hose.tax) == (Decimal("12.00"), Decimal("2.00"))

    @given(st.integers(0, 10_000), st.lists(st.integers(0, 9999), min_size=1, max_size=12))
    def test_shares_always_come_to_the_whole(self, pence: int, weights: list[int]) -> None:
        amount = Decimal(pence) / 100
        shares = shared_out(amount, [Decimal(one) / 100 for one in weights])
        assert sum(shares) == (amount if any(weights) else 0)

    @given(st.text(max_size=300))
    def test_any_text_is_read_without_a_stumble(self, text: str) -> None:
        found = read_invoice(text)
        assert all(one.count >= 0 for one in found.items)
