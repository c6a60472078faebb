"""The shelf: where it is in two taps, here or not here, the check of a delivery."""

from __future__ import annotations

import re
from datetime import date, timedelta
from decimal import Decimal

import pytest

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.part import Exchange, GoodsIn, Holding, Money, Need, NeededTo, NeedState
from bareshell.model.spec import BoltSpec, PinSpec, PlainSpec
from bareshell.model.standing import need_standings
from bareshell.model.trust import Trust
from tests.web.pages.conftest import Hand, Hands, form_in


def state(door: Door, need: str) -> NeedState:
    return need_standings(door.build())[need].state


def shelve(door: Door, *holdings: Holding) -> None:
    door.record([c.HoldingSet(one) for one in holdings])


class TestWhereIsIt:
    """Two taps from any page."""

    def test_by_its_name(self, hands: Hands, door: Door) -> None:
        shelve(door, Holding("h1", "Pipe nuts M10x1", 4, need="nuts", where="B2"))
        page = hands.see("/shelf?find=pipe+nuts")
        assert '<span class="place">B2</span>' in page
        assert page.index("B2") < page.index("By place")

    def test_every_word_must_be_in_it_in_any_order(self, hands: Hands, door: Door) -> None:
        shelve(door, Holding("h1", "Pipe nuts M10x1", 4, where="B2"))
        assert ">B2</span>" in hands.see("/shelf?find=m10x1+NUTS")
        assert "Nothing is called that here" in hands.see("/shelf?find=nuts+M12")

    def test_what_is_wanted_or_coming_is_found_too(self, hands: Hands) -> None:
        page = hands.see("/shelf?find=rear+flexible")
        assert 'href="/needs/hose"' in page
        assert 'href="/orders/o1"' in page

    def test_by_its_place(self, hands: Hands, door: Door) -> None:
        shelve(
            door,
            Holding("h1", "Pipe nuts", 4, where="B2"),
            Holding("h2", "Clips", 20, where="B2"),
            Holding("h3", "Grommet", 1),
            Holding("h4", "Gone", 0, where="B2"),
        )
        page = hands.see("/shelf")
        assert re.search(r"<span>B2</span><span class=\"n\">2</span>", page)
        listed = hands.see("/holdings?place=B2")
        assert "Clips" in listed
        assert "Grommet" not in listed
        assert "Gone" not in listed
        assert "Grommet" in hands.see("/holdings?place=no+place+noted")

    def test_the_thing_itself_says_its_place_large(self, hands: Hands, door: Door) -> None:
        shelve(door, Holding("h1", "Pipe nuts", 4, need="nuts", where="drawer 6"))
        assert '<p class="whereabouts">drawer 6</p>' in hands.see("/holdings/h1")
        assert '<p class="whereabouts">drawer 6</p>' in hands.see("/needs/nuts")


class TestNeeds:
    """What jobs want: not known is not missing."""

    def test_by_state_with_what_each_asks_for(self, hands: Hands) -> None:
        page = hands.see("/shelf")
        assert re.search(r"not known</b> <span class=\"aside\">look for it", page)
        assert "Pipe nuts M10x1" in hands.see("/needs?state=not+known")
        assert "Pipe nuts M10x1" not in hands.see("/needs?state=coming")

    def test_here_from_the_list_comes_back_to_the_same_part_of_it(
        self, hands: Hands, door: Door
    ) -> None:
        path = "/needs?state=not+known"
        form = hands.form(path, "/needs")
        answer = hands.client.post("/needs/nuts/here", data=form.fields)
        assert answer.headers["location"] == path
        assert state(door, "nuts") is NeedState.HERE
        (holding,) = door.build().holdings.values()
        assert (holding.quantity, holding.need, holding.trust) == (4, "nuts", Trust.ASSUMED)

    def test_pressed_twice_it_is_one_holding(self, hands: Hands, door: Door) -> None:
        form = hands.form("/needs", "/needs")
        for _ in range(2):
            hands.client.post("/needs/nuts/here", data=form.fields)
        assert len(door.build().holdings) == 1

    def test_one_form_serves_every_line(self, hands: Hands, door: Door) -> None:
        form = hands.form("/needs", "/needs")
        hands.client.post("/needs/nuts/here", data=form.fields)
        hands.client.post("/needs/hose/not-here", data=form.fields)
        hands.client.post("/needs/nuts/not-here", data=form.fields)
        assert state(door, "nuts") is NeedState.NOT_HERE
        assert "hose" in door.build().not_here

    def test_a_way_back_elsewhere_is_not_followed(self, hands: Hands) -> None:
        form = hands.form("/needs", "/needs")
        data = {**form.fields, "back": ["//elsewhere.example"]}
        answer = hands.client.post("/needs/nuts/here", data=data)
        assert answer.headers["location"] == "/"

    def test_here_with_a_count_and_a_place(self, hands: Hands, door: Door) -> None:
        page = hands.send("/needs/nuts", "/needs/nuts/here", quantity="3", where="B2")
        assert "3 x Pipe nuts M10x1 here in B2." in page
        assert state(door, "nuts") is NeedState.SOME_HERE
        refused = hands.refused("/needs/nuts", "/needs/nuts/here", 422, quantity="a few")
        assert form_in(refused, "/needs/nuts/here").fields["quantity"] == ["a few"]

    def test_not_here_and_then_to_be_ordered(self, hands: Hands) -> None:
        page = hands.send("/needs/nuts", "/needs/nuts/not-here", words="all four drawers")
        assert "was looked for and is not here" in page
        assert "/add/order?need=nuts" in hands.see("/needs?state=not+here")
        form = hands.form("/add/order?need=nuts", "/add/order")
        assert form.fields["title"] == ["Pipe nuts M10x1"]
        assert form.fields["quantity"] == ["4"]

    def test_add_one_with_words(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/add/need?job=Carb",
            "/add/need",
            title="Float needle",
            needed_to="to start",
            spec_words="1.5 seat",
            bag="12",
            fixing="yes",
        )
        assert door.build().needs["float-needle"] == Need(
            "float-needle",
            "Float needle",
            "carb",
            1,
            NeededTo.START,
            PlainSpec(words="1.5 seat"),
            "12",
            fixing=True,
            mark="yours",
        )

    def test_another_kind_of_part_shows_its_fields_and_keeps_what_was_typed(
        self, hands: Hands, door: Door
    ) -> None:
        form = hands.form("/add/need?job=Carb", "/add/need")
        answer = hands.post(form, title="Throttle pin", spec="pin")
        assert answer.status_code == 200
        assert "throttle-pin" not in door.build().needs
        again = form_in(answer.text, "/add/need")
        assert again.fields["title"] == ["Throttle pin"]
        assert "spec_diameter_m" in again.fields
        done = hands.post(again, spec_diameter_m="1/4 in", spec_grip_to_hole_m="16")
        assert done.headers["location"] == "/needs/throttle-pin"
        spec = door.build().needs["throttle-pin"].spec
        # One inch is 25.4 mm exactly (the yard and pound agreement of 1959).
        assert isinstance(spec, PinSpec)
        assert spec.diameter_m == pytest.approx(0.00635)
        assert spec.grip_to_hole_m == 0.016
        assert spec.head is None
        assert "not known" in hands.see("/needs/throttle-pin")

    def test_a_thread_no_table_knows_is_kept_and_doubted(self, hands: Hands, door: Door) -> None:
        first = hands.post(hands.form("/add/need?job=Carb", "/add/need"), title="Stud", spec="bolt")
        form = form_in(first.text, "/add/need")
        answer = hands.post(form, spec_thread="M10x7")
        assert "measure it again before you order" in hands.see(answer.headers["location"])
        assert door.build().needs["stud"].spec == BoltSpec(thread="M10x7")

    def test_correct_and_strike_out(self, hands: Hands, door: Door) -> None:
        hands.send("/needs/nuts/edit", quantity="6")
        assert door.build().needs["nuts"].quantity == 6
        assert door.build().needs["nuts"].fixing
        form = hands.form("/needs/nuts", "/needs/nuts/drop")
        assert hands.post(form).headers["location"] == "/needs"
        assert "nuts" not in door.build().needs
        assert hands.post(form).status_code == 303  # pressed twice

    def test_two_thousand_lines_are_sent_in_parts(self, hands: Hands, door: Door) -> None:
        door.record([c.NeedSet(Need(f"n{i}", f"Clip {i:04}", "carb")) for i in range(2000)])
        page = hands.see("/needs?state=not+known")
        assert "2001 lines." in page
        assert page.count('href="/needs/n') <= 41
        assert len(page) < 60_000
        assert "1 to 40 of 2001" in page
        last = hands.see("/needs?state=not+known&number=51")
        assert "2001 to 2001 of 2001" in last
        assert "Clip 1999" in last
        assert "Clip 0777" in hands.see("/shelf?find=clip+0777")
        assert len(hands.see("/shelf")) < 40_000


class TestKits:
    """All that one job wants, as one bag."""

    def test_complete_short_and_look_for(self, hands: Hands, door: Door) -> None:
        page = hands.see("/shelf/kits")
        assert "<b>look for</b>, 0 of 1 here" in page
        assert "<b>short to start</b>, 0 of 1 here; to start: Rear flexible hose" in page
        shelve(door, Holding("h1", "Pipe nuts", 4, need="nuts"))
        assert "<b>complete</b>, 1 of 1 here" in hands.see("/shelf/kits")


class TestHoldings:
    """What lies on the shelf."""

    def test_put_on_move_correct_drop(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/add/holding?where=B2",
            "/add/holding",
            title="Copper washers",
            quantity="20",
            condition="new",
            spec_words="10 x 14 x 1",
        )
        kept = door.build().holdings["copper-washers"]
        assert (kept.quantity, kept.where, kept.trust) == (20, "B2", Trust.MEASURED)
        path = "/holdings/copper-washers"
        hands.send(path, f"{path}/move", where="C1", quantity="18")
        moved = door.build().holdings["copper-washers"]
        assert (moved.where, moved.quantity, moved.condition) == ("C1", 18, "new")
        hands.send(f"{path}/edit", need="Pipe nuts M10x1", away="out for plating")
        assert door.build().holdings["copper-washers"].need == "nuts"
        assert "Away: out for plating" in hands.see(path)
        form = hands.form(path, f"{path}/drop")
        hands.post(form, words="sold")
        assert "copper-washers" not in door.build().holdings
        assert hands.post(form, words="sold").status_code == 303

    def test_an_empty_count_is_a_question_and_not_a_nought(self, hands: Hands) -> None:
        page = hands.refused("/add/holding", "/add/holding", 422, title="Clips", quantity="")
        assert "Count them; 0 when they are used up." in page


class TestOrders:
    """What is coming, and what it turned out to be."""

    def test_soonest_first_with_how_late(self, hands: Hands, hand: Hand) -> None:
        assert "9 Mar" in hands.see("/orders")
        hand.now += timedelta(days=8)
        page = hands.see("/shelf")
        assert "3 days late" in page
        assert "1 of them late" in page

    @pytest.mark.parametrize(
        ("outcome", "state_after"),
        [
            (GoodsIn.RIGHT, NeedState.HERE),
            (GoodsIn.WRONG, NeedState.WRONG),
            (GoodsIn.DAMAGED, NeedState.WRONG),
            (GoodsIn.UNLIKE, NeedState.HERE),
        ],
    )
    def test_the_five_outcomes(
        self, hands: Hands, door: Door, outcome: GoodsIn, state_after: NeedState
    ) -> None:
        page = hands.see("/orders/o1")
        for one in GoodsIn:
            assert f'value="{one}"' in page
        hands.send(
            "/orders/o1",
            "/orders/o1/came",
            outcome=str(outcome),
            where="B2",
            words="beside the old",
        )
        assert state(door, "hose") is state_after
        delivery = door.build().orders["o1"].deliveries[0]
        assert (delivery.outcome, delivery.quantity, delivery.words) == (
            outcome,
            1,
            "beside the old",
        )

    def test_short_counts_what_came(self, hands: Hands) -> None:
        hands.send("/orders/o1/edit", quantity="3")
        page = hands.send(
            "/orders/o1", "/orders/o1/came", outcome="short", quantity="2", where="B2"
        )
        assert "1 still to come, expected 9 March." in page
        refused = hands.refused("/orders/o1", "/orders/o1/came", 422, outcome="short", quantity="1")
        assert "1 of 1 outstanding is not short" in refused

    def test_nothing_chosen_is_asked_for(self, hands: Hands) -> None:
        page = hands.refused("/orders/o1", "/orders/o1/came", 422, where="B2")
        assert "Put it beside the old part, then choose." in page
        assert form_in(page, "/orders/o1/came").fields["where"] == ["B2"]

    def test_unlike_what_is_on_the_car_asks_for_the_departure(self, hands: Hands) -> None:
        page = hands.send("/orders/o1", "/orders/o1/came", outcome=str(GoodsIn.UNLIKE))
        assert "Write down the departure from standard" in page

    def test_came_sent_twice_lands_once(self, hands: Hands, door: Door) -> None:
        form = hands.form("/orders/o1", "/orders/o1/came")
        for _ in range(2):
            assert hands.post(form, outcome="right").status_code == 303
        assert len(door.build().orders["o1"].deliveries) == 1

    def test_write_one_down_with_an_exchange(self, hands: Hands, door: Door) -> None:
        page = hands.refused(
            "/add/order", "/add/order", 422, title="Rack", price="cheap", expected_on="soon"
        )
        assert "Price." in page
        assert "Expected on." in page
        hands.send(
            "/add/order",
            title="Rack",
            supplier="invented supplier",
            source="exchange unit",
            ordered_on="2026-03-01",
            expected_on="2026-03-20",
            price="120,50",
            currency="eur",
            return_by="2026-04-01",
            deposit="40",
        )
        line = door.build().orders["rack"].line
        assert line.price == Money(Decimal("120.50"), "EUR")
        assert line.exchange == Exchange(date(2026, 4, 1), Money(Decimal(40), "EUR"))
        assert "old unit back by 1 Apr, 28 days" in hands.see("/orders")
        hands.send("/orders/rack", "/orders/rack/returned", returned_on="2026-03-03")
        kept = door.build().orders["rack"].line.exchange
        assert kept is not None
        assert kept.returned_on == date(2026, 3, 3)

    def test_another_day_nobody_knows_and_cancelled(self, hands: Hands, door: Door) -> None:
        hands.send("/orders/o1", "/orders/o1/expect", expected_on="2026-03-30", words="strike")
        assert door.build().orders["o1"].line.expected_on == date(2026, 3, 30)
        hands.send("/orders/o1", "/orders/o1/expect", expected_on="")
        assert door.build().orders["o1"].line.expected_on is None
        assert "nobody knows" in hands.see("/orders")
        form = hands.form("/orders/o1", "/orders/o1/expect")
        hands.client.post("/orders/o1/cancel", data=form.fields)
        assert door.build().orders["o1"].cancelled
        assert "cancelled" in hands.see("/orders/o1")

    def test_expected_before_it_was_ordered_is_refused(self, hands: Hands) -> None:
        page = hands.refused("/orders/o1/edit", "/orders/o1/edit", 422, expected_on="2026-01-01")
        assert "is before it was ordered" in page
