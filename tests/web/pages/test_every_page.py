"""What every one of these pages does: a twin that is flat, escaping, an empty build, no script."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import pytest

from bareshell.app import opening, reading
from bareshell.app.door import Door
from bareshell.app.plain import document
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.part import Holding, Need
from bareshell.model.proof import Proof
from bareshell.model.temp import Departure
from bareshell.web import cookies
from bareshell.web.application import create_app
from bareshell.web.desk import lay_open
from bareshell.web.pages.books import ROUTERS
from bareshell.web.pairing import PairingDesk
from bareshell.web.settings import WebSettings
from tests.web.conftest import AT_HOME, Clock, MemoryStore, browser
from tests.web.pages.conftest import Hands

LISTS = (
    "/proofs",
    "/shelf",
    "/needs",
    "/holdings",
    "/orders",
    "/shelf/kits",
    "/shelf/matches",
    "/shelf/sizes",
    "/shelf/pick",
    "/shelf/labels",
    "/shelf/away",
    "/shelf/order-list",
    "/shelf/chase",
    "/shelf/costs",
    "/record",
    "/car",
    "/car/data",
    "/car/garage",
    "/car/supports",
    "/car/sessions",
    "/departures",
    "/jobs",
)
FORMS = (
    "/add/job",
    "/add/need",
    "/add/holding",
    "/add/order",
    "/add/proof",
    "/add/gate",
    "/add/temp",
    "/add/support",
    "/add/session",
    "/add/departure",
    "/shelf/away/new",
    "/shelf/invoice",
)
THINGS = (
    "/proofs/rear-joint",
    "/proofs/rear-joint/edit",
    "/gates/road",
    "/gates/road/edit",
    "/temps/caps",
    "/needs/hose",
    "/needs/hose/fit",
    "/shelf/kits/rear-pipe",
    "/needs/hose/edit",
    "/orders/o1",
    "/orders/o1/edit",
    "/jobs/rear-pipe",
    "/jobs/rear-pipe/edit",
    "/record/1",
    "/record/as-it-stood?day=2026-03-01",
    "/car/supports/stands",
    "/car/sessions/eve",
)


@pytest.mark.parametrize("path", [*LISTS, *FORMS, *THINGS])
def test_each_page_shows_and_has_a_twin_that_is_flat(hands: Hands, path: str) -> None:
    page = hands.see(path)
    bare, _, query = path.partition("?")
    body = hands.client.get(f"{bare}.json{'?' + query if query else ''}").json()
    assert body["format"] == 1
    assert body["car"] == "Test mule" if "car" in body else body["invented"] is True
    assert "page" not in body
    assert 'class="limits"' in page
    assert "onclick" not in page
    assert " style=" not in page


@pytest.mark.parametrize("path", [*LISTS, *FORMS])
def test_a_build_with_nothing_in_it_has_every_page(empty_hands: Hands, path: str) -> None:
    empty_hands.see(path)


@pytest.mark.parametrize(
    "path",
    [
        "/proofs/none",
        "/gates/none",
        "/temps/none",
        "/needs/none",
        "/holdings/none",
        "/orders/none",
        "/jobs/none",
        "/jobs/none/edit",
        "/record/999",
        "/car/supports/none",
        "/car/sessions/none",
        "/departures/none",
    ],
)
def test_what_is_not_there_is_said_in_a_sentence(hands: Hands, path: str) -> None:
    page = hands.see(path, 404)
    assert "There is no" in page


@pytest.mark.parametrize(
    ("path", "read"),
    [
        ("/proofs", reading.proofs),
        ("/shelf", reading.shelf),
        ("/record", reading.record),
        ("/car", reading.car),
        ("/jobs", reading.jobs),
        ("/jobs/rear-pipe", lambda door: reading.job(door, "rear-pipe")),
        ("/proofs/rear-joint", lambda door: opening.proof(door, "rear-joint")),
        ("/gates/road", lambda door: opening.gate(door, "road")),
        ("/needs/hose", lambda door: opening.need(door, "hose")),
        ("/orders/o1", lambda door: opening.order(door, "o1")),
    ],
)
def test_the_twin_says_what_the_reading_says(
    hands: Hands, door: Door, path: str, read: Any
) -> None:
    found = read(door)
    body = hands.client.get(f"{path}.json").json()
    assert set(body) == {"format"} | {field.name for field in fields(found)}
    assert body == document(found)


def test_names_are_escaped_wherever_they_stand(hands: Hands, door: Door) -> None:
    nasty = "<script>alert('x')</script>"
    door.record(
        [
            c.JobSet(Job("nasty", nasty, "brakes", note=nasty, tools=(nasty,))),
            c.NeedSet(Need("nasty", nasty, "nasty", note=nasty)),
            c.HoldingSet(Holding("nasty", nasty, where=nasty)),
            c.ProofSet(Proof("nasty", nasty, about=nasty, made_by=("nasty",))),
            c.DepartureSet(Departure("nasty", nasty, "brakes", nasty, nasty)),
        ]
    )
    for path in (
        *LISTS,
        *FORMS,
        "/jobs/nasty",
        "/jobs/nasty/edit",
        "/needs/nasty",
        "/needs/nasty/edit",
        "/holdings/nasty",
        "/proofs/nasty",
        "/departures/nasty",
        "/shelf?find=%3Cscript%3E",
    ):
        assert "<script>alert" not in hands.see(path), path


def test_a_form_of_another_site_changes_nothing(hands: Hands, door: Door) -> None:
    before = door.latest()
    answer = hands.client.post(
        "/jobs/rear-pipe/mark", data={"what": "done"}, headers={"Origin": "http://elsewhere"}
    )
    assert answer.status_code == 403
    assert door.latest() == before


def test_the_word_at_the_head_covers_what_belongs_to_it(hands: Hands) -> None:
    for path, word in (
        ("/jobs/rear-pipe", "/car"),
        ("/gates/road", "/proofs"),
        ("/needs/hose", "/shelf"),
        ("/add/temp", "/proofs"),
    ):
        assert f'<a href="{word}" aria-current="page">' in hands.see(path)


def test_who_writes_is_the_owner_here_and_the_phone_by_its_name_elsewhere(
    hands: Hands, door: Door
) -> None:
    hands.send("/jobs/rear-pipe", "/jobs/rear-pipe/mark", what="worked", hours="1")
    desk = PairingDesk(MemoryStore(), Clock())
    settings = WebSettings(home=True, hosts=frozenset({"192.168.1.20"}), address=AT_HOME)
    app = create_app(settings, pages=ROUTERS, desk=desk)
    lay_open(app, door)
    phone = Hands(browser(app, AT_HOME, "192.168.1.30"))
    assert phone.client.get("/jobs/rear-pipe").status_code == 401
    key = desk.pair(desk.new_code().letters, "garage phone", "192.168.1.30")
    phone.client.cookies.set(cookies.DEVICE, key)
    phone.send("/jobs/rear-pipe", "/jobs/rear-pipe/mark", what="done", hours="1")
    newest = door.entries(newest_first=True, limit=2)
    assert [entry.author for entry in newest] == ["garage phone", "owner"]
    assert "garage phone" in hands.see("/record")
