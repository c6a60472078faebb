"""Any form that changes what the plan rests on can be tried on a copy: nothing is written down."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.web.session.by_hand import form_to, press

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from bareshell.app.door import Door

TRIAL = "/road-ahead/trial"
FORMS = {
    "a job": ("/jobs/carb/edit", "", {"likely0": "3"}, "Carb"),
    "a new job": (
        "/add/job", "", {"title": "New tyres", "likely0": "3", "system": "wheels"}, "New tyres"),
    "the garage": ("/car/garage", "", {"set_up": "35"}, "garage"),
    "garage time": ("/car/sessions/eve", "", {"minutes": "200"}, "200"),
    "a new session": (
        "/add/session", "", {"title": "Sundays", "starts": "10:00", "minutes": "240",
                         "days": "SU"}, "Sundays"),
    "a day": ("/car/sessions", "/car/days", {"day": "2026-03-21", "minutes": "0"}, "2026-03-21"),
    "a support": ("/car/supports/stands", "", {"title": "Six stands"}, "Six stands"),
    "what is wanted": ("/needs/hose/edit", "", {"title": "Longer hose"}, "Longer hose"),
    "an order": ("/orders/o1/edit", "", {"title": "Hose, braided"}, "Hose, braided"),
}  # fmt: skip


@pytest.mark.parametrize("name", FORMS)
def test_a_form_is_offered_up_and_kept_only_when_one_presses(
    site: TestClient, door: Door, name: str
) -> None:
    page, action, filled, words = FORMS[name]
    before = door.latest()
    shown = site.get(page)
    assert shown.status_code == 200
    sent = press(site, form_to(shown.text, action or page), offered="yes", **filled)
    assert sent.status_code == 303
    assert sent.headers["location"].startswith(f"{TRIAL}?try=entry%3A")
    trial = site.get(sent.headers["location"]).text
    assert words in trial
    assert door.latest() == before
    press(site, form_to(trial, TRIAL))
    assert door.latest() == before + 1


def test_what_is_wrong_with_an_offered_form_is_said_in_the_form(
    site: TestClient, door: Door
) -> None:
    before = door.latest()
    form = form_to(site.get("/jobs/carb/edit").text, "/jobs/carb/edit")
    sent = press(site, form, offered="yes", likely0="many")
    assert sent.status_code == 422
    assert "many" in sent.text
    assert door.latest() == before


@pytest.mark.parametrize("ref", ["", "x", "eJw", "eNqLjgUAARUAuQ", "e30"])
def test_an_address_that_was_cut_short_says_so_and_the_forms_stay(
    site: TestClient, ref: str
) -> None:
    found = site.get(f"{TRIAL}?try=entry:{ref}")
    assert found.status_code == 422
    assert "Change something in a copy" in found.text


def test_a_form_that_cannot_be_tried_is_refused_and_never_written(
    site: TestClient, door: Door
) -> None:
    before = door.latest()
    form = form_to(site.get("/jobs/carb").text, "/jobs/carb/leave-out")
    data = {**dict(form.fields), "words": "sold it", "offered": "yes"}
    sent = site.post(form.action, data=data)
    assert sent.status_code == 422
    assert "cannot be" in sent.text
    assert door.latest() == before
