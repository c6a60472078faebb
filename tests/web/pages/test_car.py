"""The car: how it stands, its data, the garage, supports, garage time, departures."""

from __future__ import annotations

from datetime import date, time

import pytest

from bareshell.app.door import Door
from bareshell.model.car import Layout
from bareshell.model.position import SupportKind, SupportMove, Wheels, Zone
from bareshell.model.session import SessionException
from bareshell.model.temp import Departure
from tests.web.pages.conftest import Hands, form_in


class TestCar:
    """The car itself."""

    def test_it_says_how_it_stands_and_how_far_each_system_is(self, hands: Hands) -> None:
        page = hands.see("/car")
        assert "<b>stands</b>" in page
        assert 'href="#s-stands"' in page
        assert 'href="/jobs?system=brakes"' in page
        assert "0 of 3" in page
        assert "Wed 4 Mar, 19:00" in page

    def test_it_was_moved(self, hands: Hands, door: Door) -> None:
        page = hands.send(
            "/car", "/car/place", support="wheels", off=["engine out"], words="rolled"
        )
        assert "The car stands on its wheels, engine out." in page
        placement = door.build().placement
        assert placement is not None
        assert (placement.support, placement.off) == ("wheels", frozenset({"engine out"}))
        assert 'value="engine out" checked' in hands.see("/car")

    def test_a_support_that_is_not_there_is_refused_with_the_form_kept(self, hands: Hands) -> None:
        page = hands.refused("/car", "/car/place", 422, support="cloud", words="hm")
        assert "Choose one from the list." in page
        assert form_in(page, "/car/place").fields["words"] == ["hm"]

    def test_its_data(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/car/data",
            name="The grey one",
            layout="front-wheel drive",
            systems=["brakes", "fuel"],
            zone="Europe/Berlin",
            currency="eur",
            units="imperial",
            words="made up",
        )
        car = door.build().car
        assert car is not None
        assert (car.name, car.layout, car.zone, car.currency, car.units) == (
            "The grey one",
            Layout.FRONT,
            "Europe/Berlin",
            "EUR",
            "imperial",
        )
        assert car.systems == {"brakes", "fuel"}
        assert car.invented
        assert "Wed 4 Mar, 19:00" in hands.see("/car")  # local clock time stays local

    def test_what_is_wrong_with_its_data_is_said_at_once(self, hands: Hands) -> None:
        page = hands.refused(
            "/car/data", "/car/data", 422, name="", zone="Mars/Base", currency="pounds"
        )
        for said in ("What you call it.", "Time zone.", "Currency."):
            assert said in page


class TestGarage:
    """How warm it is, and what a session loses at both ends."""

    def test_sent_back_untouched_nothing_changes(self, hands: Hands, door: Door) -> None:
        before = door.build().garage
        hands.send("/car/garage")
        assert door.build().garage == before

    def test_heated_minutes_and_a_month_in_another_unit(self, hands: Hands, door: Door) -> None:
        """50 degrees Fahrenheit are 10 degrees Celsius (NIST SP 811, B.8)."""
        hands.send("/car/garage", heated="12", set_up="20", clear_up="10", month0="50 F")
        garage = door.build().garage
        assert (garage.heated_to_c, garage.set_up_minutes, garage.clear_up_minutes) == (12, 20, 10)
        assert garage.monthly_c[0] == pytest.approx(10)
        assert garage.monthly_c[6] == 19


class TestSupports:
    """How the car can stand."""

    def test_add_correct_and_drop_one(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/add/support",
            title="the low lift",
            kind="scissor lift",
            opens=["front wheel ends", "doors"],
            wheels="hanging",
            level="yes",
        )
        made = door.build().supports["the-low-lift"]
        assert (made.kind, made.wheels, made.level, made.rollable) == (
            SupportKind.SCISSOR_LIFT,
            Wheels.HANGING,
            True,
            False,
        )
        assert made.opens == {Zone.WHEEL_ENDS_FRONT, Zone.DOORS}
        path = "/car/supports/the-low-lift"
        hands.send(path, opens=["doors"])
        assert door.build().supports["the-low-lift"].opens == {Zone.DOORS}
        form = hands.form(path, f"{path}/drop")
        assert hands.post(form).headers["location"] == "/car/supports"
        assert "the-low-lift" not in door.build().supports
        assert hands.post(form).status_code == 303

    def test_every_support_goes_out_and_comes_back_the_same(self, hands: Hands, door: Door) -> None:
        before = dict(door.build().supports)
        for key in before:
            hands.send(f"/car/supports/{key}")
        assert dict(door.build().supports) == before

    def test_what_a_move_takes(self, hands: Hands, door: Door) -> None:
        form = {"from": "stands", "to": "road", "minutes": "60", "people": "2"}
        shown = hands.form("/car/supports", "/car/moves")
        answer = hands.client.post("/car/moves", data={**shown.fields, **form})
        assert answer.status_code == 303
        assert door.build().moves["stands>road"] == SupportMove("stands", "road", 60, 2)
        refused = hands.client.post("/car/moves", data={**form, "to": "stands", "minutes": ""})
        assert refused.status_code == 422
        assert "It is where the car stands already." in refused.text
        assert "They are missing." in refused.text

    def test_the_crush_caution_stands_with_them(self, hands: Hands) -> None:
        assert "<b>Crush.</b>" in hands.see("/car/supports")


class TestSessions:
    """Garage time."""

    def test_what_repeats_is_said_in_words(self, hands: Hands) -> None:
        page = hands.see("/car/sessions")
        assert "every Wednesday, from 19:00; alone" in page
        assert "every Saturday, from 10:00; two people" in page

    def test_every_pattern_goes_out_and_comes_back_the_same(self, hands: Hands, door: Door) -> None:
        before = dict(door.build().patterns)
        for key in before:
            hands.send(f"/car/sessions/{key}")
        assert dict(door.build().patterns) == before

    def test_add_one_by_its_days(self, hands: Hands, door: Door) -> None:
        hands.send(
            "/add/session",
            title="Every other Sunday",
            days=["SU"],
            every="2",
            starts="09:30",
            minutes="180",
            people="2",
            first_day="2026-03-08",
        )
        made = door.build().patterns["every-other-sunday"]
        assert (made.rule, made.starts, made.minutes, made.people, made.first_day) == (
            "FREQ=WEEKLY;INTERVAL=2;BYDAY=SU",
            time(9, 30),
            180,
            2,
            date(2026, 3, 8),
        )
        page = hands.see("/car/sessions")
        assert "every second Sunday" in page
        assert "Sun 8 Mar, 09:30" in page
        assert "Sun 15 Mar, 09:30" not in page

    def test_another_rule_is_kept_as_it_is_written(self, hands: Hands, door: Door) -> None:
        """The first Saturday of a month, as RFC 5545, section 3.3.10, writes it."""
        hands.send("/add/session", title="First Saturday", rule="FREQ=MONTHLY;BYDAY=1SA")
        assert door.build().patterns["first-saturday"].rule == "FREQ=MONTHLY;BYDAY=1SA"
        hands.send("/car/sessions/first-saturday", minutes="90")
        assert door.build().patterns["first-saturday"].rule == "FREQ=MONTHLY;BYDAY=1SA"

    def test_a_rule_nobody_can_read_is_refused_before_it_is_kept(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.refused(
            "/add/session", "/add/session", 422, title="Moon", rule="FREQ=FULLMOON"
        )
        assert "write it as freq=weekly" in page.lower()
        assert "moon" not in door.build().patterns
        page = hands.refused("/add/session", "/add/session", 422, title="", minutes="0")
        assert "Tick at least one day of the week." in page
        assert "What you call it." in page

    def test_over(self, hands: Hands, door: Door) -> None:
        form = hands.form("/car/sessions/eve", "/car/sessions/eve/drop")
        hands.post(form)
        assert "eve" not in door.build().patterns
        assert hands.post(form).status_code == 303

    def test_a_day_that_is_not_as_usual_and_as_usual_after_all(
        self, hands: Hands, door: Door
    ) -> None:
        page = hands.send(
            "/car/sessions", "/car/days", day="2026-03-11", minutes="0", words="holiday"
        )
        assert "Wednesday 11 March: no session." in page
        assert "Wed 11 Mar, 19:00" not in page
        assert door.build().exceptions[date(2026, 3, 11)] == SessionException(
            date(2026, 3, 11), 0, None, None, "holiday"
        )
        hands.send("/car/sessions", "/car/days", day="2026-03-11", minutes="60")
        form = hands.form("/car/sessions", "/car/days")
        form_drop = hands.see("/car/sessions")
        assert 'formaction="/car/days/2026-03-11/drop"' in form_drop
        answer = hands.client.post("/car/days/2026-03-11/drop", data=form.fields)
        assert answer.status_code == 303
        assert date(2026, 3, 11) not in door.build().exceptions
        assert "Wed 11 Mar, 19:00" in hands.see("/car/sessions")
        assert hands.client.post("/car/days/2026-03-11/drop", data=form.fields).status_code == 303

    def test_one_more_session(self, hands: Hands) -> None:
        page = hands.send(
            "/car/sessions",
            "/car/days",
            day="2026-03-12",
            minutes="120",
            starts="18:00",
            people="2",
            words="a helper comes",
        )
        assert "Thu 12 Mar, 18:00 <b>two people</b>" in page


class TestDepartures:
    """What is no longer standard, and the way back."""

    def test_write_down_correct_and_put_back(self, hands: Hands, door: Door) -> None:
        page = hands.refused("/add/departure", "/add/departure", 422, title="Front brakes")
        for said in ("System.", "What it was.", "What it is now."):
            assert said in page
        hands.send(
            "/add/departure",
            title="Front brakes",
            system="brakes",
            what_was="drums",
            what_is="discs",
            to_return="two afternoons",
        )
        made = Departure(
            "front-brakes",
            "Front brakes",
            "brakes",
            "drums",
            "discs",
            "not known",
            "two afternoons",
        )
        assert door.build().departures["front-brakes"] == made
        assert "drums became discs" in hands.see("/car")
        path = "/departures/front-brakes"
        hands.send(path, where_original="loft, box 4")
        assert door.build().departures["front-brakes"].where_original == "loft, box 4"
        form = hands.form(path, f"{path}/returned")
        assert hands.post(form, words="drums back").headers["location"] == "/departures"
        assert "front-brakes" not in door.build().departures
        assert hands.post(form, words="drums back").status_code == 303
