"""Bags, fetching, counting out and back, and labels."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.part import Holding, Need, NeededTo, NeedState, OrderLine
from bareshell.model.spec import PinSpec
from bareshell.model.standing import need_standings
from bareshell.model.trust import Trust
from tests.web.pages.conftest import Hand, Hands


def state(door: Door, need: str) -> NeedState:
    return need_standings(door.build())[need].state


@pytest.fixture(autouse=True)
def wanted(door: Door) -> None:
    """The pipe wants a pipe to start, nuts and clips to finish."""
    door.record(
        [
            c.NeedSet(Need("pipe", "Pipe, cut", "rear-pipe", 1, NeededTo.START)),
            c.NeedSet(Need("clips", "Clips", "rear-pipe", 6, fixing=True)),
        ]
    )


class TestOneBag:
    """What one job wants, to start and to finish."""

    def test_each_half_by_itself_and_what_the_bag_lets_one_do(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.see("/shelf/kits/rear-pipe")
        assert page.index("<h2>To start</h2>") < page.index("Pipe, cut")
        assert page.index("Pipe, cut") < page.index("<h2>To finish</h2>") < page.index("Clips")
        assert "Nothing is known to be missing. 3 to look for." in page
        door.record(c.NeedNotHere("clips"))
        assert "It can begin; 1 short to finish. 2 to look for." in hands.see(
            "/shelf/kits/rear-pipe"
        )
        door.record(c.NeedNotHere("pipe"))
        body = hands.client.get("/shelf/kits/rear-pipe.json").json()
        assert body["word"] == "short to start"
        assert [line["state"] for line in body["to_start"]] == ["not here"]

    def test_a_partial_delivery_frees_what_it_can(self, hands: Hands, door: Door) -> None:
        door.record(
            [
                c.OrderSet(OrderLine("o-pipe", "Pipe", "pipe", 1, expected_on=date(2026, 3, 12))),
                c.OrderSet(
                    OrderLine("o-clips", "Clips", "clips", 6, expected_on=date(2026, 3, 12))
                ),
            ]
        )
        assert "short to start" in hands.see("/shelf/kits/rear-pipe")
        hands.send("/orders/o-pipe", "/orders/o-pipe/came", outcome="right", where="rack")
        hands.send("/orders/o-clips", "/orders/o-clips/came", outcome="short", quantity="2")
        page = hands.see("/shelf/kits/rear-pipe")
        assert "enough to start" in page
        assert "2 of 6 here; 4 coming" in page
        assert "the last of it due 12 Mar" in page

    def test_all_found_is_one_press_and_leaves_what_is_coming(
        self, hands: Hands, door: Door
    ) -> None:
        door.record(c.OrderSet(OrderLine("o-pipe", "Pipe", "pipe", 1)))
        page = hands.send("/shelf/kits/rear-pipe", "/shelf/kits/rear-pipe/here", where="bag 4")
        assert "2 lines of" in page
        assert (state(door, "nuts"), state(door, "clips")) == (NeedState.HERE, NeedState.HERE)
        assert state(door, "pipe") is NeedState.COMING
        assert {h.trust for h in door.build().holdings.values()} == {Trust.ASSUMED}

    def test_pressed_twice_it_is_found_once(self, hands: Hands, door: Door) -> None:
        form = hands.form("/shelf/kits/rear-pipe", "/shelf/kits/rear-pipe/here")
        for _ in range(2):
            assert hands.post(form).status_code == 303
        assert len(door.build().holdings) == 3

    def test_nothing_to_find_is_said(self, hands: Hands) -> None:
        form = hands.form("/shelf/kits/rear-pipe", "/shelf/kits/rear-pipe/here")
        hands.post(form)
        assert "/shelf/kits/rear-pipe/here" not in hands.see("/shelf/kits/rear-pipe")
        again = hands.post(form, entry="another-form-1")
        assert again.status_code == 409

    def test_the_bag_s_number_is_on_every_line(self, hands: Hands, door: Door) -> None:
        hands.send("/shelf/kits/rear-pipe", "/shelf/kits/rear-pipe/bag", bag="17")
        assert {n.bag for n in door.build().needs.values() if n.job == "rear-pipe"} == {"17"}
        assert "<b>bag 17</b>" in hands.see("/shelf/kits/rear-pipe")
        assert door.build().needs["hose"].bag == ""

    def test_a_job_that_is_not_there(self, hands: Hands) -> None:
        hands.see("/shelf/kits/nonesuch", 404)


class TestFetching:
    """One walk along the shelf."""

    def test_bin_after_bin_for_several_jobs(self, hands: Hands, door: Door) -> None:
        door.record(
            [
                c.HoldingSet(Holding("h1", "Clips", 4, need="clips", where="bin 12")),
                c.HoldingSet(Holding("h2", "Clips", 9, need="clips", where="bin 9")),
                c.HoldingSet(Holding("h3", "Pipe, cut", 1, need="pipe", where="rack")),
                c.NeedNotHere("nuts"),
            ]
        )
        page = hands.see("/shelf/pick?job=rear-pipe&job=rear-hose")
        heads = [page.index(f"<h2>{word}</h2>") for word in ("bin 9", "bin 12", "rack", "Not here")]
        assert heads == sorted(heads)
        assert "4 &#215; Clips" in page
        assert "2 &#215; Clips" in page
        assert "1 &#215; Rear flexible hose" in page
        body = hands.client.get("/shelf/pick.json?job=rear-pipe").json()
        assert sum(p["count"] for place in body["places"] for p in place["picks"]
                   if p["need"] == "clips") == 6  # fmt: skip

    def test_what_nobody_recorded_is_looked_for(self, hands: Hands) -> None:
        page = hands.see("/shelf/pick?job=rear-pipe")
        assert "<h2>Look for</h2>" in page
        assert "<h2>Not here</h2>" not in page

    def test_without_a_job_it_is_for_those_that_were_begun(self, hands: Hands, door: Door) -> None:
        assert "No job is begun" in hands.see("/shelf/pick")
        door.record(c.JobStarted("rear-pipe"))
        assert "Clips" in hands.see("/shelf/pick")
        assert "No job is begun" in hands.see("/shelf/pick?job=nonesuch")


class TestCountedOut:
    """Plating and the like: what went out and what came back."""

    @pytest.fixture(autouse=True)
    def tins(self, door: Door) -> None:
        door.record(
            [
                c.HoldingSet(
                    Holding("clips-tin", "Clips", 8, need="clips", where="tin 1", condition="bare")
                ),
                c.HoldingSet(
                    Holding("pins-tin", "Pins", 5, PinSpec(diameter_m=0.008), where="tin 2")
                ),
            ]
        )

    def out(self, hands: Hands, **counts: str) -> str:
        form = hands.form("/shelf/away/new", "/shelf/away/new")
        answer = hands.post(
            form, to="A plater", work="zinc plating", expected_on="2026-03-18", **counts
        )
        assert answer.status_code == 303, answer.text
        return str(answer.headers["location"])

    def test_some_stay_and_what_went_is_coming(self, hands: Hands, door: Door) -> None:
        lot = self.out(hands, **{"out-clips-tin": "8", "out-pins-tin": "3"})
        build = door.build()
        assert build.holdings["pins-tin"].quantity == 2
        assert state(door, "clips") is NeedState.COMING
        assert build.holdings["clips-tin"].away == "A plater, zinc plating"
        page = hands.see(lot)
        assert "0 of 11 back, due" in page
        assert "11 counted out" in hands.see("/shelf/away")

    def test_all_of_it_back(self, hands: Hands, door: Door) -> None:
        lot = self.out(hands, **{"out-clips-tin": "8"})
        (order,) = door.build().orders.keys() - {"o1"}
        page = hands.send(lot, f"{lot}/back", **{f"back-{order}": "8"}, where="bin 3")
        assert "8 of 8 came back in all." in page
        assert state(door, "clips") is NeedState.HERE
        (back,) = [h for h in door.build().holdings.values() if h.title == "Clips"]
        assert (back.where, back.condition, back.away, back.need) == (
            "bin 3", "zinc plating", "", "clips")  # fmt: skip

    def test_two_short_stay_out_until_they_are_lost(self, hands: Hands, door: Door) -> None:
        lot = self.out(hands, **{"out-clips-tin": "8"})
        (order,) = door.build().orders.keys() - {"o1"}
        assert "2 still out" in hands.send(lot, f"{lot}/back", **{f"back-{order}": "6"})
        assert state(door, "clips") is NeedState.HERE, "six were wanted"
        page = hands.send(lot, f"{lot}/back", lost="yes", words="they rang")
        assert "6 of 8 came back in all" in page
        assert "2 lost or spoilt" in page
        assert sum(h.quantity for h in door.build().holdings.values() if h.title == "Clips") == 6

    def test_all_lost_is_not_here_and_not_unknown(self, hands: Hands, door: Door) -> None:
        lot = self.out(hands, **{"out-clips-tin": "8"})
        hands.send(lot, f"{lot}/back", lost="yes")
        assert state(door, "clips") is NeedState.NOT_HERE

    def test_spoilt_ones_are_not_counted_as_here(self, hands: Hands, door: Door) -> None:
        lot = self.out(hands, **{"out-clips-tin": "8"})
        (order,) = door.build().orders.keys() - {"o1"}
        hands.send(lot, f"{lot}/back", **{f"back-{order}": "5", f"spoilt-{order}": "3"})
        assert need_standings(door.build())["clips"].here == 5

    def test_more_than_went_cannot_come_back(self, hands: Hands, door: Door) -> None:
        lot = self.out(hands, **{"out-clips-tin": "8"})
        (order,) = door.build().orders.keys() - {"o1"}
        page = hands.refused(lot, f"{lot}/back", 422, **{f"back-{order}": "9"})
        assert "9 came back and 8 were out" in page

    def test_more_than_lie_there_cannot_go(self, hands: Hands) -> None:
        page = hands.refused(
            "/shelf/away/new", "/shelf/away/new", 422, to="A plater", **{"out-pins-tin": "6"}
        )
        assert "6 cannot be counted out: 5 lie there" in page
        assert "nothing is counted" in hands.refused(
            "/shelf/away/new", "/shelf/away/new", 422, to="A plater").lower()  # fmt: skip

    def test_sent_twice_it_goes_once(self, hands: Hands, door: Door) -> None:
        form = hands.form("/shelf/away/new", "/shelf/away/new")
        for _ in range(2):
            answer = hands.post(form, to="A plater", **{"out-pins-tin": "2"})
            assert answer.status_code == 303
        assert door.build().holdings["pins-tin"].quantity == 3
        assert len(door.build().orders) == 2

    def test_what_was_counted_is_kept_while_one_looks_for_more(
        self, hands: Hands, door: Door
    ) -> None:
        """Eight clips are counted, then the pins are looked for: both go out in one lot."""
        form = hands.form("/shelf/away/new", "/shelf/away/new")
        page = hands.post(
            form, to="A plater", look="words", find="pins", **{"out-clips-tin": "8"}
        ).text
        assert 'name="out-clips-tin" value="8"' in page
        assert 'name="out-pins-tin"' in page
        assert 'value="A plater"' in page
        assert door.build().holdings["clips-tin"].quantity == 8, (
            "nothing is written down by looking"
        )

    def test_a_late_lot_says_so(self, hands: Hands, hand: Hand) -> None:
        self.out(hands, **{"out-clips-tin": "8"})
        assert "days late" not in hands.see("/shelf/away")
        hand.now += timedelta(days=30)
        assert "16 days late" in hands.see("/shelf/away")


class TestLabels:
    """To print and stick on."""

    def test_every_bin_with_its_words_and_a_code(self, hands: Hands, door: Door) -> None:
        door.record(
            [
                c.HoldingSet(Holding("a", "Pipe nuts", 4, where="Brake shelf, bin 12")),
                c.HoldingSet(Holding("b", "Clips", 4, where="Brake shelf, bin 9")),
                c.HoldingSet(Holding("d", "Gone", 0, where="bin 1")),
            ]
        )
        page = hands.see("/shelf/labels")
        assert page.index("bin 9</p>") < page.index("bin 12</p>")
        assert page.count('class="qr"') == 2
        assert "no phone can follow" in page
        body = hands.client.get("/shelf/labels.json").json()
        assert body["labels"][0]["words"] == "bin 9"
        assert body["labels"][0]["beneath"] == "Brake shelf"
        assert body["labels"][0]["address"].endswith("/holdings?place=Brake+shelf%2C+bin+9")

    def test_its_code_leads_to_what_lies_there(self, hands: Hands, door: Door) -> None:
        door.record(c.HoldingSet(Holding("b", "Clips", 4, where="Brake shelf, bin 9")))
        address = hands.client.get("/shelf/labels.json").json()["labels"][0]["address"]
        assert "Clips" in hands.see(address.removeprefix("http://127.0.0.1:8642"))

    def test_a_bin_that_is_still_empty(self, hands: Hands) -> None:
        page = hands.see("/shelf/labels?place=High+shelf%2C+tin+4&place=")
        assert "tin 4</p>" in page
        assert page.count('class="qr"') == 1

    def test_a_bag_by_its_job(self, hands: Hands) -> None:
        hands.send("/shelf/kits/rear-pipe", "/shelf/kits/rear-pipe/bag", bag="17")
        page = hands.see("/shelf/labels?job=rear-pipe")
        assert "bag 17</p>" in page
        assert "Rear pipe</p>" in page
        assert "bag 17" in hands.see("/shelf/labels?kind=bags")
