"""The books in a real browser: no script needed, nothing scrolls sideways, axe is content.

The checks of accessibility are axe-core's own rules (WCAG 2 A and AA and its good practice).
"""

from __future__ import annotations

import shutil
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, sync_playwright

from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.job import Caution
from bareshell.model.part import GoodsIn, Holding, Need, OrderLine
from bareshell.model.temp import Departure
from bareshell.web.application import create_app
from bareshell.web.desk import lay_open, masthead_of
from bareshell.web.network import listen
from bareshell.web.pages.books import ROUTERS
from bareshell.web.settings import WebSettings
from tests.stories import job
from tests.web.pages.conftest import Hand
from tests.web.test_browser import ARGUMENTS, OUTSIDE, OVERLAPS, opened

pytestmark = pytest.mark.browser

MAIN = ("/proofs", "/shelf", "/record", "/car", "/jobs", "/jobs/rear-pipe")
REST = (
    "/proofs/rear-joint",
    "/gates/under-car",
    "/temps/caps",
    "/needs?state=not+known",
    "/needs/nuts",
    "/holdings",
    "/orders/o1",
    "/shelf/kits",
    "/record/as-it-stood?day=2026-03-04",
    "/jobs/rear-pipe/edit",
    "/needs/nuts/edit",
    "/add/order?need=hose",
    "/add/proof",
    "/car/data",
    "/car/garage",
    "/car/supports",
    "/car/sessions",
    "/add/session",
    "/add/departure",
)
SMALL_TARGETS = """
() => [...document.querySelectorAll(
  'button, input:not([type=hidden]), select, textarea, summary, .press, .index a, .box, ' +
  '.ledger > li > a, .record > li > a, .choice label, .crumb a')]
  .filter(e => e.getClientRects().length)
  .filter(e => !e.closest('svg'))  // a box that is drawn is nothing to press
  .filter(e => !(e.tagName == 'INPUT' && ['checkbox', 'radio'].includes(e.type)))
  .filter(e => e.getBoundingClientRect().height < 47.5)
  .map(e => e.outerHTML.slice(0, 90))
"""


def lived_in(door: Door) -> None:
    """Let things happen that each show a page at its fullest."""
    long = "Make and fit the rear cross pipe with its two unions, clips and the tee on the axle"
    door.record(
        [
            c.JobSet(
                job(
                    "long",
                    title=long,
                    tools=("flaring tool",),
                    tightens=("nuts: the fitting's own figure",),
                    cautions=(Caution("Eyes", "Glasses on while you cut and flare."),),
                )
            ),
            c.JobFinished("rear-pipe", 1.5),
            c.JobFinished("rear-hose", 0.7),
            c.JobFinished("tank", 2),
            c.JobWorked("carb", 0.5, 2),
            c.JobLeftOut("door-seal"),
            c.NeedSet(Need("needle", "Float needle", "carb")),
            c.NeedNotHere("needle"),
            c.HoldingSet(Holding("h1", long, 7, where="Brake shelf, bin 12, at the back")),
            c.OrderSet(OrderLine("o2", long, None, 2, "invented supplier")),
            c.GoodsChecked("o2", GoodsIn.WRONG, 1, words="left hand"),
            c.DepartureSet(Departure("discs", "Front brakes", "brakes", "drums", "discs")),
        ]
    )
    door.record(c.JobStarted("carb"), base_versions={"job:carb": 1})


@pytest.fixture(scope="module")
def address(small_build: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The books on a real server, on a free port."""
    folder = shutil.copytree(small_build, tmp_path_factory.mktemp("browser") / "build")
    with Door.open(folder, clock=Hand(), back_up=False) as door:
        lived_in(door)
        listening = listen("127.0.0.1", 0)
        settings = WebSettings(masthead=lambda: masthead_of(door))
        app = create_app(settings, pages=ROUTERS)
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


@pytest.fixture(scope="module")
def chromium(chromium_path: str) -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path, args=ARGUMENTS)
        yield browser
        browser.close()


def look_at(page: Page, address: str, path: str) -> None:
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.goto(address + path)
    assert complaints == [], path
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path
    assert page.evaluate(SMALL_TARGETS) == [], path
    assert page.evaluate(OVERLAPS) == [], path
    assert page.evaluate(OUTSIDE) == [], path
    found = Axe().run(page)
    assert found.violations_count == 0, f"{path}: {found.generate_report()}"


@pytest.mark.parametrize("light", ["day", "garage"])
@pytest.mark.parametrize("width", [390, 1280])
def test_the_main_pages_are_sound(chromium: Browser, address: str, width: int, light: str) -> None:
    page = opened(chromium, address, width, light)
    for path in MAIN:
        look_at(page, address, path)
    page.context.close()


@pytest.mark.parametrize(("width", "light"), [(390, "garage"), (1280, "day")])
def test_every_other_page_is_sound(chromium: Browser, address: str, width: int, light: str) -> None:
    page = opened(chromium, address, width, light)
    for path in REST:
        look_at(page, address, path)
    page.context.close()


def test_a_narrow_old_phone_does_not_scroll_sideways(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 320, "day")
    for path in (*MAIN, *REST):
        page.goto(address + path)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path
    page.context.close()


def test_drawers_open_and_a_form_is_sent_by_keyboard_alone(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "day", script=False)
    page.goto(f"{address}/jobs?find=seam")
    page.get_by_role("link", name="Seam").focus()
    page.keyboard.press("Enter")
    page.get_by_role("radio", name="worked on, not finished").focus()
    page.keyboard.press("Space")
    page.locator("input[name=hours]").fill("0.5")
    page.keyboard.press("Enter")
    assert "'Seam' is started, 0.5 h in all." in page.get_by_role("status").inner_text()
    page.goto(f"{address}/jobs/seam")
    page.get_by_text("Not part of this build?").focus()
    page.keyboard.press("Enter")
    assert page.get_by_role("button", name="Leave it out").is_visible()
    page.context.close()


def test_a_line_of_the_shelf_is_here_with_one_press(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "garage", script=False)
    page.goto(f"{address}/needs?state=not+here")
    page.locator("li", has_text="Float needle").get_by_role("button", name="Here").click()
    assert page.url == f"{address}/needs?state=not+here"
    assert page.get_by_role("status").inner_text() == "1 x Float needle here."
    page.context.close()


def test_what_was_wrong_is_said_and_kept(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "day")  # axe needs a script to look with
    page.goto(f"{address}/proofs/rear-joint")
    page.get_by_role("radio", name="uncovered").check()
    page.get_by_label("pressure").fill("lots")
    page.get_by_role("button", name="Write it down").click()
    assert "'lots' is not a pressure" in page.get_by_role("alert").inner_text()
    assert page.get_by_label("pressure").input_value() == "lots"
    assert Axe().run(page).violations_count == 0
    page.context.close()


@pytest.mark.parametrize("path", ["/proofs", "/shelf", "/jobs/rear-pipe"])
def test_on_paper_there_is_nothing_to_press(chromium: Browser, address: str, path: str) -> None:
    page = opened(chromium, address, 794, "garage")
    page.goto(address + path)
    page.emulate_media(media="print")
    assert page.locator("button:visible, .press:visible, .nav:visible, .sheet:visible").count() == 0
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    page.context.close()
