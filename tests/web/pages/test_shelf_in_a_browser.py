"""The parts desk in a real browser: nothing scrolls sideways, targets are large, axe is content."""

from __future__ import annotations

import shutil
import threading
import time
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import uvicorn

from bareshell.app import counting
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.model import changes as c
from bareshell.model.duty import Duty, LoadPath
from bareshell.model.part import (
    Exchange,
    GoodsIn,
    Guess,
    Holding,
    Money,
    Need,
    NeededTo,
    OrderLine,
)
from bareshell.model.spec import BoltSpec, PinSpec
from bareshell.model.temp import Gate
from bareshell.web.application import create_app
from bareshell.web.desk import lay_open, masthead_of
from bareshell.web.network import listen
from bareshell.web.pages.books import ROUTERS
from bareshell.web.settings import WebSettings
from tests.web.pages.conftest import Hand
from tests.web.pages.test_in_a_browser import chromium, look_at
from tests.web.test_browser import opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser

__all__ = ["chromium"]

pytestmark = pytest.mark.browser
MM = 1e-3
PATHS = (
    "/needs/hb",
    "/needs/hb/edit",
    "/needs/hb/fit",
    "/needs/hb/fit/bolts",
    "/needs/hb/fit/right",
    "/shelf/matches",
    "/shelf/kits/rear-hose",
    "/shelf/pick?job=rear-hose&job=rear-pipe",
    "/shelf/labels",
    "/shelf/away",
    "/shelf/away/new",
    "/shelf/away/out-2026-03-04-a-plater",
    "/shelf/order-list",
    "/shelf/chase",
    "/shelf/costs",
    "/shelf/invoice",
    "/shelf/sizes",
    "/orders/x",
    "/orders/o1",
)


def lived_in(door: Door) -> None:
    """Show every page of the parts desk at its fullest."""
    pin = PinSpec(diameter_m=8 * MM, grip_to_hole_m=18 * MM, material="mild steel")
    bolt = BoltSpec(thread="M8", grip_length_m=17 * MM, length_m=30 * MM, grade="8.8", lock="nyloc")
    duty = Duty(LoadPath.HANDBRAKE, "", 1500.0, 2, 4 * MM, 8 * MM, 0.5 * MM, 8.05 * MM, True)
    pounds = Money(Decimal("1234.50"), "GBP")
    long = "Clevis pins for the handbrake levers at both rear drums, with their washers"
    door.record(
        [
            c.GateSet(Gate("pushed-roll", "Pushed roll")),
            c.NeedSet(
                Need("hb", long, "rear-hose", 2, NeededTo.START, pin, "bag 12", fixing=True,
                     duty=duty, guess=Guess(pounds, pounds))
            ),
            c.NeedNotHere("hb"),
            c.HoldingSet(Holding("bolts", "M8 bolts", 5, bolt, where="Brake shelf, bin 12")),
            c.HoldingSet(Holding("right", "Clevis pins", 5, pin, where="Brake shelf, bin 9")),
            c.HoldingSet(
                Holding("short", long, 2, PinSpec(diameter_m=8 * MM, grip_to_hole_m=14 * MM))
            ),
            c.HoldingSet(Holding("words", "Bolts M8 x 25 8.8 hexagon", 2, where="tin 2")),
            c.GoodsChecked("o1", GoodsIn.WRONG, 1, words="left hand thread"),
            c.OrderSet(
                OrderLine("x", "Starter, exchange", "hose", price=pounds,
                          exchange=Exchange(date(2026, 3, 9), pounds))
            ),
        ]
    )  # fmt: skip
    fields = {"to": ["A plater"], "work": ["zinc plating"], "out-right": ["3"]}
    counting.send_away(door, fields, Pen())


@pytest.fixture(scope="module")
def address(small_build: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The books on a real server, on a free port."""
    folder = shutil.copytree(small_build, tmp_path_factory.mktemp("parts") / "build")
    with Door.open(folder, clock=Hand(), back_up=False) as door:
        lived_in(door)
        listening = listen("127.0.0.1", 0)
        app = create_app(WebSettings(masthead=lambda: masthead_of(door)), pages=ROUTERS)
        lay_open(app, door)
        server = uvicorn.Server(uvicorn.Config(app, log_level="warning"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        deadline = time.monotonic() + 20
        while not server.started and time.monotonic() < deadline:
            time.sleep(0.02)
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        server.should_exit = True
        thread.join()


@pytest.mark.parametrize(("width", "light"), [(390, "day"), (1280, "garage")])
def test_the_parts_desk_is_sound(chromium: Browser, address: str, width: int, light: str) -> None:
    page = opened(chromium, address, width, light)
    for path in PATHS:
        look_at(page, address, path)
    page.context.close()


def test_a_narrow_old_phone_does_not_scroll_sideways(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 320, "day")
    for path in PATHS:
        page.goto(address + path)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path
    page.context.close()


def test_from_the_need_to_the_temp_in_three_presses(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "garage", script=False)
    page.goto(f"{address}/needs/hb")
    page.get_by_role("link", name="What fits?").click()
    page.get_by_role("link", name="M8 bolts").click()
    page.get_by_role("button", name="Fit it as a temp").click()
    said = page.get_by_role("status").inner_text()
    assert "gone before the gate 'Pushed roll'" in said
    assert page.url.startswith(f"{address}/proofs")
    page.context.close()


def test_the_labels_print_words_and_codes_alone(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 1280, "day")
    page.goto(f"{address}/shelf/labels")
    page.emulate_media(media="print")
    assert page.get_by_role("link", name="Every bin").is_hidden()
    assert page.locator(".labels li").first.is_visible()
    assert page.locator(".labels .qr").first.is_visible()
    page.context.close()


@pytest.mark.parametrize("path", ["/shelf/kits/rear-hose", "/needs/hb/fit", "/jobs", "/car"])
def test_where_is_it_from_any_page_in_two_taps(chromium: Browser, address: str, path: str) -> None:
    """A tap into the line, a word, and Go on the keys of the phone: the place stands there."""
    page = opened(chromium, address, 390, "day", script=False)
    page.goto(address + path)
    page.get_by_role("searchbox", name="Where is it?").click()
    page.keyboard.type("bolts 8.8")
    page.keyboard.press("Enter")
    page.wait_for_url("**/shelf?find=bolts+8.8")
    assert page.locator(".ledger .place").first.inner_text() == "tin 2"
    assert page.get_by_role("searchbox").count() == 1  # the shelf asks itself, once
