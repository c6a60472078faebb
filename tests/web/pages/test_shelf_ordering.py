"""What to order by when, whom to ask, what it costs, exchange units, and pasted invoices."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta
from decimal import Decimal

import pytest

from bareshell.app import ordering
from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.part import (
    Exchange,
    GoodsIn,
    Guess,
    Holding,
    Money,
    Need,
    NeededTo,
    NeedState,
    OrderLine,
    SourceClass,
)
from bareshell.model.spec import BoltSpec, SplitPinSpec
from bareshell.model.standing import need_standings
from bareshell.whole.order_list import OrderGroup
from bareshell.whole.wanted_days import WantedDays
from tests.web.pages.conftest import Hand, Hands

TODAY = date(2026, 3, 4)


def pounds(amount: str) -> Money:
    return Money(Decimal(amount), "GBP")


def plan(needs: Mapping[str, date], ends: Mapping[str, date] | None = None) -> WantedDays:
    """Days as a plan would give them."""
    return WantedDays({}, ends or {}, needs, {})


@pytest.fixture(autouse=True)
def wanted(door: Door) -> None:
    """Two things looked for and not found, one of them ordered before from an invented shop."""
    door.record(
        [
            c.NeedSet(
                Need("clips", "Pipe clips", "rear-pipe", 6, fixing=True,
                     guess=Guess(pounds("3"), pounds("5")))
            ),
            c.NeedSet(
                Need("split", "Split pins", "rear-hose", 2, NeededTo.START, SplitPinSpec(
                     diameter_m=0.0024, length_m=0.02), fixing=True)
            ),
            c.NeedNotHere("clips"),
            c.NeedNotHere("split"),
            c.OrderSet(
                OrderLine("old", "Clips", "clips", 6, "Fennimoss", SourceClass.GENERAL,
                          date(2026, 1, 5), date(2026, 1, 8), pounds("4.20"),
                          carriage=pounds("3.50"))
            ),
            c.OrderCancelled("old", "never came"),
        ]
    )  # fmt: skip


def group_of(door: Door, days: Mapping[str, date], sure: float = 0.9) -> OrderGroup:
    (group,) = ordering.to_order(door, plan(days), sure).groups
    return group


class TestWhatToOrder:
    """By when, from whom, how many."""

    def test_by_the_plan_s_day_less_what_such_orders_take(self, door: Door) -> None:
        group = group_of(door, {"clips": date(2026, 4, 20), "split": date(2026, 5, 20)})
        clips, split = group.lines
        assert clips.order_by is not None
        assert split.order_by is not None
        lead = (date(2026, 4, 20) - clips.order_by).days
        assert lead >= 7, "the lead of a general supplier (common practice)"
        assert (split.order_by - clips.order_by).days == 30
        assert group.send_by == clips.order_by
        assert "until then the parcel stays open" in group.says

    def test_the_surer_the_earlier(self, door: Door) -> None:
        days = {"clips": date(2026, 6, 1), "split": date(2026, 6, 1)}
        by = [group_of(door, days, sure).send_by for sure in ordering.CONFIDENCES]
        assert by == sorted(by, reverse=True)  # type: ignore[type-var]
        assert by[0] != by[-1]

    def test_what_is_past_its_day_is_ordered_now(self, door: Door) -> None:
        group = group_of(door, {"clips": TODAY + timedelta(days=2)})
        assert group.says.startswith("Order now: 'Rear pipe' waits for it otherwise.")

    def test_spares_by_rule_and_the_questions_that_are_open(self, door: Door) -> None:
        group = group_of(door, {})
        split = next(line for line in group.lines if line.need == "split")
        assert (split.missing, split.spare, split.why_spare) == (2, 2, "split pins hold once")
        assert split.questions == 1, "what hangs on it"
        assert group.carriage == pounds("3.50")
        assert (group.low, group.high, group.unguessed) == (pounds("3"), pounds("5"), 1)

    def test_what_nobody_looked_for_is_looked_for_first(self, door: Door) -> None:
        found = ordering.to_order(door, None)
        assert [line.need for line in found.look_first] == ["nuts"]
        assert not found.planned

    def test_the_page_shows_it_without_a_plan_and_takes_the_order(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.see("/shelf/order-list")
        assert "The plan is still being worked out" in page
        assert "2 more: split pins hold once" in page
        page = hands.send("/shelf/order-list", supplier="Fennimoss", carriage="3.50",
                          expected_on="2026-03-10")  # fmt: skip
        assert "2 lines ordered from Fennimoss in one parcel." in page
        lines = [r.line for k, r in door.build().orders.items() if k not in ("o1", "old")]
        assert {line.quantity for line in lines} == {7, 4}
        assert len({line.batch for line in lines}) == 1
        assert [line.carriage for line in lines] == [pounds("3.50"), None]
        assert "Nothing that was looked for is missing." in page.replace("\n", " ") or (
            "Nothing that was looked for is missing." in hands.see("/shelf/order-list")
        )
        assert need_standings(door.build())["clips"].state is NeedState.COMING

    @pytest.mark.parametrize("form", ["csv", "xlsx"])
    def test_one_supplier_s_list_is_a_sheet(self, hands: Hands, form: str) -> None:
        answer = hands.client.get(f"/shelf/order-sheet.{form}?supplier=Fennimoss")
        assert answer.status_code == 200
        assert f'-order-fennimoss-2026-03-04.{form}"' in answer.headers["content-disposition"]
        if form == "csv":
            assert "4,Split pins" in answer.content.decode("utf-8-sig")
        gone = hands.client.get(f"/shelf/order-sheet.{form}?supplier=Nobody")
        assert gone.status_code == 404

    def test_nothing_chosen_is_said_beside_its_parcel(self, hands: Hands) -> None:
        form = hands.form("/shelf/order-list", "/shelf/order-list")
        empty = {name: "" for name in form.fields if name.startswith("order-")}
        answer = hands.post(form, **empty)
        assert answer.status_code == 422
        assert "othing is chosen" in answer.text

    def test_pressed_twice_it_is_ordered_once(self, hands: Hands, door: Door) -> None:
        form = hands.form("/shelf/order-list", "/shelf/order-list")
        for _ in range(2):
            assert hands.post(form).status_code == 303
        assert len(door.build().orders) == 4


class TestWhomToAsk:
    """The chase list."""

    def test_late_without_a_day_and_too_late_for_the_plan(self, door: Door, hand: Hand) -> None:
        door.record(
            [
                c.OrderSet(OrderLine("none", "Clips", "clips", 6, "Fennimoss",
                                     ordered_on=date(2026, 2, 1))),
                c.OrderSet(OrderLine("slow", "Split pins", "split", 2, "Fennimoss",
                                     expected_on=date(2026, 3, 30))),
            ]
        )  # fmt: skip
        hand.now += timedelta(days=10)
        found = ordering.chase(door, plan({"split": date(2026, 3, 20)}))
        why = {line.order: line.why for line in found.lines}
        assert why == {"o1": "late", "none": "no day given", "slow": "after it is wanted"}
        slow = next(line for line in found.lines if line.order == "slow")
        assert "10 days after 'Rear hose' wants it" in slow.says

    def test_what_came_wrong_has_a_last_day_until_it_went_back(self, hands: Hands) -> None:
        hands.send("/orders/o1/edit", "/orders/o1/edit", return_within_days="14")
        page = hands.send("/orders/o1", "/orders/o1/came", outcome="wrong")
        assert "It must go back by 18 March: photograph it first." in page
        assert "must go back by 18 Mar, 14 days" in hands.see("/shelf/chase")
        hands.send("/orders/o1", "/orders/o1/sent-back", sent_back_on="2026-03-04")
        assert "must go back" not in hands.see("/shelf/chase")
        assert re.search(r"came wrong</dt><dd>went back [^<]*4 March", hands.see("/orders/o1"))

    def test_nobody_to_ask(self, hands: Hands) -> None:
        assert "Nobody has to be asked." in hands.see("/shelf/chase")


class TestExchange:
    """The return window against the day the new unit can be proven."""

    @pytest.fixture(autouse=True)
    def starter(self, door: Door) -> None:
        door.record(
            [
                c.NeedSet(Need("starter", "Starter", "tank")),
                c.OrderSet(
                    OrderLine("x", "Starter, exchange", "starter", 1, "Hartlewane",
                              SourceClass.EXCHANGE, exchange=Exchange(date(2026, 4, 1),
                              pounds("40")))
                ),
            ]
        )  # fmt: skip

    def test_a_window_that_shuts_before_it_can_be_proven(self, door: Door) -> None:
        late = plan({}, {"tank": date(2026, 5, 1)})
        (clash,) = ordering.chase(door, late).exchanges
        assert clash.clash
        assert "30 days too late" in clash.says
        assert "prove the new one on the bench" in clash.says
        (fine,) = ordering.chase(door, plan({}, {"tank": date(2026, 3, 20)})).exchanges
        assert not fine.clash
        (unknown,) = ordering.chase(door, None).exchanges
        assert unknown.clash
        assert "no day in the plan proves" in unknown.says

    def test_three_things_first(self, hands: Hands, door: Door) -> None:
        page = hands.see("/orders/x")
        assert page.count("<b>not yet</b>") == 3
        assert "what was not measured on it is gone too" in page
        form = hands.form("/orders/x", "/orders/x/returned")
        for step in ("proved", "photographed", "measured"):
            form.action = f"/orders/x/exchange/{step}"
            assert hands.post(form).status_code == 303
            form = hands.form("/orders/x", "/orders/x/returned")
        exchange = door.build().orders["x"].line.exchange
        assert exchange is not None
        assert exchange.measured_on == TODAY
        assert "<b>not yet</b>" not in hands.see("/orders/x")
        (view,) = ordering.chase(door, None).exchanges
        assert "All three are done: it may go." in view.says

    def test_the_deposit_stands_in_the_costs_until_it_went_back(
        self, hands: Hands, door: Door
    ) -> None:
        assert ordering.costs(door).currencies[0].deposits == Decimal(40)
        hands.send("/orders/x", "/orders/x/returned")
        assert ordering.costs(door).currencies[0].deposits == 0


class TestCosts:
    """Spent, committed, to come, against a budget."""

    def test_each_in_its_place(self, door: Door) -> None:
        door.record(
            [
                c.OrderSet(OrderLine("a", "Hose", "hose", price=pounds("12.50"),
                                     tax=pounds("2.08"), paid_on=date(2026, 3, 1),
                                     carriage=pounds("4"))),
                c.OrderSet(OrderLine("b", "Seal", price=pounds("7"))),
                c.OrderSet(OrderLine("e", "Gasket", price=Money(Decimal(9), "EUR"))),
                c.OrderSet(OrderLine("n", "Nobody knows")),
            ]
        )  # fmt: skip
        found = ordering.costs(door)
        mine, euros = found.currencies
        assert (mine.spent, mine.committed) == (Decimal("16.50"), Decimal(7))
        assert (mine.low, mine.high) == (Decimal(3), Decimal(5))
        assert (mine.carriage, mine.tax, mine.tax_unknown) == (Decimal(4), Decimal("2.08"), 1)
        assert (euros.currency, euros.committed) == ("EUR", Decimal(9))
        assert found.unpriced == 2
        assert found.unguessed == 1
        assert sum(one.spent for one in mine.systems) == mine.spent

    def test_part_of_a_need_costs_part_of_its_guess(self, door: Door, hand: Hand) -> None:
        hand.now += timedelta(hours=1)
        door.record(c.HoldingSet(Holding("h", "Clips", 4, need="clips")))
        mine = ordering.costs(door).currencies[0]
        assert (mine.low, mine.high) == (Decimal("1.00"), Decimal("1.67"))

    def test_what_nobody_looked_for_is_in_none_of_it(self, door: Door) -> None:
        guess = Guess(pounds("100"), pounds("200"))
        door.record(c.NeedSet(Need("maybe", "Maybe here", "tank", guess=guess)))
        assert ordering.costs(door).currencies[0].high == 5

    def test_against_a_budget(self, hands: Hands, door: Door) -> None:
        page = hands.send("/shelf/costs", "/shelf/costs/budget", budget="4")
        assert "The budget is 4 GBP." in page
        assert "over the budget if it comes dear" in page
        assert re.search(r"-1\.00 <span[^>]*>to</span> 1\.00", page)
        hands.send("/shelf/costs", "/shelf/costs/budget", budget="")
        assert door.build().car is not None
        assert door.build().car.budget is None  # type: ignore[union-attr]

    def test_paid_with_its_price(self, hands: Hands, door: Door) -> None:
        refused = hands.refused("/orders/o1", "/orders/o1/paid", 422)
        assert "write what was paid" in refused.lower()
        hands.send("/orders/o1", "/orders/o1/paid", price="31.20")
        assert ordering.costs(door).currencies[0].spent == Decimal("31.20")

    def test_correcting_the_car_keeps_the_budget(self, hands: Hands, door: Door) -> None:
        hands.send("/shelf/costs", "/shelf/costs/budget", budget="900")
        hands.send("/car/data", "/car/data", name="Renamed mule")
        car = door.build().car
        assert car is not None
        assert (car.name, car.budget) == ("Renamed mule", pounds("900"))


INVOICE = """2 QB-1 Flexible hose, rear 15.00 30.00
6 Pipe clips 0.70 4.20
1 Tin of odd paint 8.00
something else
Carriage 5.00
Total £47.20
"""


class TestInvoices:
    """Pasted, shown, kept, and never twice."""

    def look(self, hands: Hands, text: str = INVOICE) -> str:
        form = hands.form("/shelf/invoice", "/shelf/invoice/look")
        answer = hands.post(form, text=text, supplier="")
        assert answer.status_code == 200
        return str(answer.text)

    def take(self, hands: Hands, **choices: str) -> None:
        from tests.web.pages.conftest import form_in

        form = form_in(self.look(hands), "/shelf/invoice")
        assert hands.post(form, supplier="Fennimoss", **choices).status_code == 303

    def test_each_line_is_held_against_orders_and_needs(self, hands: Hands, door: Door) -> None:
        before = door.latest()
        page = self.look(hands)
        assert door.latest() == before, "looking keeps nothing"
        assert "It is on order already; 1 were ordered and 2 are charged." in page
        assert "It is wanted, and no order of it was written down." in page
        assert "Nothing like it is on order or wanted." in page
        assert "something else" in page

    def test_taken_in_as_it_was_read(self, hands: Hands, door: Door) -> None:
        self.take(hands)
        orders = door.build().orders
        assert orders["o1"].line.price == pounds("30.00")
        assert orders["o1"].line.carriage == pounds("5.00")
        (clips,) = [r.line for r in orders.values() if r.line.need == "clips" and not r.cancelled]
        assert (clips.quantity, clips.supplier, clips.price) == (6, "Fennimoss", pounds("4.20"))
        assert any(r.line.title == "Tin of odd paint" for r in orders.values())

    def test_the_same_invoice_again_lands_nowhere(self, hands: Hands, door: Door) -> None:
        self.take(hands)
        count = len(door.build().orders)
        page = self.look(hands, INVOICE.replace("2 QB-1", "1 QB-1").replace(" 30.00", " 30.00"))
        assert page.count("It is in the record already, at this price.") >= 2
        assert len(door.build().orders) == count

    def test_left_out_is_left_out(self, hands: Hands, door: Door) -> None:
        self.take(hands, **{"line-0": "skip", "line-2": "skip"})
        assert door.build().orders["o1"].line.price is None
        assert not any("odd paint" in r.line.title for r in door.build().orders.values())

    def test_an_empty_paste_is_said(self, hands: Hands) -> None:
        form = hands.form("/shelf/invoice", "/shelf/invoice/look")
        answer = hands.post(form, text="  ")
        assert answer.status_code == 422
        assert "aste its lines as text" in answer.text


def test_a_delivery_that_came_wrong_is_ordered_again(door: Door) -> None:
    door.record(c.GoodsChecked("o1", GoodsIn.WRONG, 1))
    found = ordering.to_order(door, None)
    lines = [line for group in found.groups for line in group.lines]
    assert "hose" in {line.need for line in lines}
    bolt = BoltSpec(thread="M8")
    door.record(c.NeedSet(Need("hose", "Rear flexible hose", "rear-hose", 1, spec=bolt)))
    assert any(line.questions for g in ordering.to_order(door, None).groups for line in g.lines)


class TestWhatADeliveryDid:
    """Its own page, and its link on the order's page."""

    def test_it_is_told_and_linked(self, hands: Hands) -> None:
        hands.send("/orders/o1", "/orders/o1/came", outcome="right")
        assert 'href="/orders/o1/plan"' in hands.see("/orders/o1")
        page = hands.see("/orders/o1/plan")
        assert "What it did to the plan" in page
        assert "next session" in page
        twin = hands.client.get("/orders/o1/plan.json").json()
        assert (twin["outcome"], twin["order"]) == ("right", "o1")
        assert twin["says"]

    def test_before_anything_came_it_says_so(self, hands: Hands) -> None:
        answer = hands.client.get("/orders/o1/plan")
        assert answer.status_code == 404
        assert "came yet" in answer.text


TAXED = """Qty  Description        Unit    Net
2    Flexible hose,
     rear                 15.00   30.00
6    Pipe clips            0.70    4.20
Discount 10%                      -3.42
Carriage                           5.00
VAT @ 20%                          7.16
Total £42.94
"""


class TestADirtyInvoice:
    """Wrapped lines, a discount, tax on top: what is kept comes to what is charged."""

    def test_kept_to_the_penny(self, hands: Hands, door: Door) -> None:
        from tests.web.pages.conftest import form_in

        before = ordering.costs(door).currencies[0]
        form = hands.form("/shelf/invoice", "/shelf/invoice/look")
        page = hands.post(form, text=TAXED, supplier="").text
        assert "3.42 off, shared over the lines" in page
        assert "7.16 on top, shared over the lines and the carriage" in page
        assert hands.post(form_in(page, "/shelf/invoice"), paid_on="2026-03-04").status_code == 303
        after = ordering.costs(door).currencies[0]
        assert after.spent - before.spent == Decimal("42.94")
        assert after.tax - before.tax == Decimal("7.16")
        hose = door.build().orders["o1"].line
        assert hose.carriage == pounds("6.00")
        again = hands.post(
            hands.form("/shelf/invoice", "/shelf/invoice/look"), text=TAXED, supplier=""
        ).text
        assert "It is in the record already, at this price." in again


def test_sharing_the_carriage_has_its_page(hands: Hands) -> None:
    assert 'href="/shelf/parcels"' in hands.see("/shelf/order-list")
    page = hands.see("/shelf/parcels")
    assert "Fennimoss" in page
    assert "kept open" in page
    twin = hands.client.get("/shelf/parcels.json").json()
    assert [one["supplier"] for one in twin["parcels"]] == ["Fennimoss"]


class TestOtherCurrencies:
    """Turned into the owner's own only at a rate that is stated; border tax comes on top."""

    @pytest.fixture(autouse=True)
    def abroad(self, door: Door, hands: Hands) -> None:
        door.record(
            [
                c.OrderSet(OrderLine("g", "Gasket", price=Money(Decimal(100), "EUR"),
                                     tax=pounds("17.20"), paid_on=date(2026, 3, 1))),
                c.OrderSet(OrderLine("h", "Hose", price=pounds("50"))),
                c.OrderSet(OrderLine("k", "Kit", price=Money(Decimal(10), "USD"))),
            ]
        )  # fmt: skip
        hands.send("/shelf/costs", "/shelf/costs/budget", budget="200")

    def test_tax_paid_at_the_border_is_spent_in_its_own_currency(self, door: Door) -> None:
        own, euros, _ = ordering.costs(door).currencies
        assert (own.spent, own.tax, euros.spent, euros.tax) == (
            Decimal("17.20"), Decimal("17.20"), Decimal(100), Decimal(0))  # fmt: skip

    def test_at_a_stated_rate_all_of_it_is_held_against_the_budget(self, door: Door) -> None:
        all_of_it = ordering.costs(door, {"eur": "0,86"}).together
        assert all_of_it is not None
        assert (all_of_it.spent, all_of_it.committed) == (Decimal("103.20"), Decimal("50.00"))
        assert all_of_it.without_rate == ("USD",)
        assert all_of_it.left_high is not None
        assert all_of_it.left_high == Decimal(200) - Decimal("153.20") - Decimal(3)

    def test_the_page_asks_for_the_rate_and_says_what_is_wrong_with_one(self, hands: Hands) -> None:
        page = hands.see("/shelf/costs?rate-EUR=0.86")
        assert "1 EUR = 0.86 GBP, as you state or as it was last charged; without USD" in page
        assert "103.20" in page
        page = hands.see("/shelf/costs?rate-EUR=cheap")
        assert "write what one EUR is in GBP" in page or "Write what one EUR is in GBP" in page
        assert hands.client.get("/shelf/costs.json?rate-EUR=cheap").status_code == 422

    def test_a_rate_on_the_order_is_kept_and_goes_before(self, hands: Hands, door: Door) -> None:
        hands.send("/orders/g/edit", "/orders/g/edit", rate="0.9")
        assert door.build().orders["g"].line.rate == pounds("0.90")
        assert "1 EUR was 0.9 GBP" in hands.see("/orders/g")
        kept = ordering.costs(door).together
        assert kept is not None
        assert (kept.spent, kept.own_rates) == (Decimal("107.20"), 1)
        other = ordering.costs(door, {"EUR": "0.5"}).together
        assert other is not None
        assert other.spent == Decimal("107.20"), "it was charged at its own rate"
        door.record(c.OrderSet(OrderLine("e2", "Trim", price=Money(Decimal(10), "EUR"))))
        later = ordering.costs(door).together
        assert later is not None
        assert later.committed == Decimal("59.00"), "the last rate that was charged"

    def test_a_rate_that_is_none_is_said(self, hands: Hands) -> None:
        said = hands.refused("/orders/g/edit", "/orders/g/edit", 422, rate="cheap")
        assert "rite what one of its currency was, such as 0.86 GBP" in said

    def test_the_form_keeps_the_tax_s_own_currency(self, hands: Hands, door: Door) -> None:
        hands.send("/orders/g/edit", "/orders/g/edit", note="checked")
        assert door.build().orders["g"].line.tax == pounds("17.20")
        assert "17.20 GBP on top" in hands.see("/orders/g")


def test_a_newcomer_is_told_where_to_begin(hands: Hands, door: Door) -> None:
    door.record([c.NeedDropped("clips"), c.NeedDropped("split")])
    page = hands.see("/shelf/order-list")
    assert "Nobody looked for 1 thing yet. Bring in your own list" in page
    nowhere = ordering.to_order(door, WantedDays({}, {}, {}, {}))
    assert nowhere.note.startswith("The plan has no session to put a job in")
    begun = WantedDays({"rear-pipe": TODAY}, {}, {"nuts": TODAY}, {})
    assert ordering.to_order(door, begun).note.startswith("Nobody looked for 1 thing yet")


def test_whose_invoice_it_is_may_stand_on_it(hands: Hands) -> None:
    form = hands.form("/shelf/invoice", "/shelf/invoice/look")
    twin = hands.client.post(
        form.action,
        data={**form.fields, "text": "FENNIMOSS Ltd\n6 Pipe clips 0.70 4.20", "supplier": ""},
    ).text
    assert 'value="Fennimoss"' in twin


def test_an_invoice_from_abroad_keeps_its_rate(hands: Hands, door: Door) -> None:
    from tests.web.pages.conftest import form_in

    form = hands.form("/shelf/invoice", "/shelf/invoice/look")
    text = "1 Tin of odd paint 10,00 EUR\nMwSt 19% 1,90\nSumme 11,90 EUR"
    page = hands.post(form, text=text, supplier="Ein Laden").text
    assert "1 EUR was" in page
    wrong = hands.post(form_in(page, "/shelf/invoice"), rate="cheap")
    assert wrong.status_code == 422
    assert hands.post(form_in(page, "/shelf/invoice"), rate="0,86").status_code == 303
    (paint,) = [r.line for r in door.build().orders.values() if "odd paint" in r.line.title]
    assert (paint.price, paint.rate) == (Money(Decimal("11.90"), "EUR"), pounds("0.86"))
    everything = ordering.costs(door).together
    assert everything is not None
    assert everything.committed == Decimal("10.23")
