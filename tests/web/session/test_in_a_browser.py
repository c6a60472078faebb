"""Tonight, the road ahead and the beginning in a real browser, on a phone and on a laptop.

The checks of accessibility are axe-core's own rules (WCAG 2 A and AA and its good practice).
"""

from __future__ import annotations

import re
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import uvicorn
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, sync_playwright

from bareshell.app.demo import make_demo
from bareshell.app.door import Door
from bareshell.model.job import JobStatus
from bareshell.web.bench import Bench
from bareshell.web.network import listen
from bareshell.web.plan_desk import PlanDesk
from bareshell.web.site import site_app
from tests.stories import NOW, small_car_changes
from tests.web.session.made_up_plan import MadeUpPlan
from tests.web.test_browser import ARGUMENTS, OUTSIDE, OVERLAPS, SMALL, opened

if TYPE_CHECKING:
    from playwright.sync_api import ConsoleMessage

pytestmark = pytest.mark.browser

# Everything that a thumb must hit and is lower than it may be; a link within a sentence is text.
LOW_TARGETS = """
() => [...document.querySelectorAll(
    'button, select, summary, a.press, a.reach, nav a, input:not([type=hidden]), textarea')]
  .filter(e => e.getClientRects().length && !e.closest('.off'))
  .map(e => e.closest('label.tickline, .choice label, label.tick') || e)
  .filter(e => e.getBoundingClientRect().height < 47.5)
  .map(e => e.outerHTML.slice(0, 110))
"""
DEMO_DAY = date(2031, 3, 5)
"""A Wednesday, which is an evening of the demo."""


@contextmanager
def serving(bench: Bench) -> Iterator[str]:
    listening = listen("127.0.0.1", 0)
    # A browser that a failed test left open must not hold the others up.
    config = uvicorn.Config(site_app(bench), log_level="warning", timeout_graceful_shutdown=5)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
    thread.start()
    deadline = time.monotonic() + 20
    while not server.started and time.monotonic() < deadline:
        time.sleep(0.02)
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join()
        bench.close()


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The invented demo build, an hour into its evening."""
    folder = tmp_path_factory.mktemp("demo") / "car"
    make_demo(folder, DEMO_DAY).close()
    plan = MadeUpPlan(moves_the_car=True)
    evening = datetime(2031, 3, 5, 18, 30, tzinfo=UTC)
    with serving(Bench(folder, "UTC", PlanDesk(plan, patience_s=60), lambda: evening)) as address:
        yield address


@pytest.fixture
def small(tmp_path: Path) -> Iterator[tuple[str, Bench]]:
    folder = tmp_path / "car"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(small_car_changes())
    bench = Bench(folder, "UTC", PlanDesk(MadeUpPlan(), patience_s=60), lambda: NOW)
    with serving(bench) as address:
        yield address, bench


@pytest.fixture
def new(tmp_path: Path) -> Iterator[tuple[str, Bench]]:
    bench = Bench(tmp_path / "new", "UTC", PlanDesk(MadeUpPlan(), patience_s=60), lambda: NOW)
    with serving(bench) as address:
        yield address, bench


@pytest.fixture(scope="module")
def chromium(chromium_path: str) -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path, args=ARGUMENTS)
        yield browser
        browser.close()


def look_over(page: Page, address: str, *, width: int) -> None:
    complaints: list[str] = []

    def note(message: ConsoleMessage) -> None:
        complaints.append(message.text)

    page.on("console", note)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(address)
    for folded in page.locator("details").all():
        folded.evaluate("e => e.open = true")
    assert complaints == []
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert page.evaluate(OVERLAPS) == []
    assert page.evaluate(OUTSIDE) == []
    assert page.evaluate(SMALL, 13.4 if width > 1000 else 12.4) == []
    assert page.evaluate(LOW_TARGETS) == []
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("light", ["day", "garage"])
@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize(
    "path",
    [
        "/tonight",
        "/tonight?line=heater in 2 h&why=headlining&minutes=90",
        "/road-ahead",
        "/road-ahead/levers",
        "/road-ahead/grounds",
    ],
)
def test_the_pages_of_a_grown_build_are_sound(
    chromium: Browser, demo: str, path: str, width: int, light: str
) -> None:
    page = opened(chromium, demo, width, light)
    look_over(page, demo + path, width=width)
    assert page.locator("html").get_attribute("data-light") == light
    page.context.close()


@pytest.mark.parametrize("width", [320, 700, 1000])
def test_no_width_scrolls_sideways(chromium: Browser, demo: str, width: int) -> None:
    page = opened(chromium, demo, width, "day")
    for path in ("/tonight", "/road-ahead", "/road-ahead/levers", "/road-ahead/grounds",
                 "/begin/check"):  # fmt: skip
        page.goto(demo + path)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path
    page.context.close()


class Thumb:
    """Counts what is tapped."""

    def __init__(self) -> None:
        self.taps = 0

    def tap(self, target: Locator) -> None:
        target.click()
        self.taps += 1


@pytest.mark.parametrize("script", [False, True])
def test_an_evening_of_three_jobs_is_logged_in_at_most_eight_taps(
    chromium: Browser, small: tuple[str, Bench], *, script: bool
) -> None:
    address, bench = small
    page = opened(chromium, address, 390, "garage", script=script)
    page.goto(f"{address}/tonight")
    thumb = Thumb()
    for title in ("Rear pipe", "Carb", "Door seal"):
        thumb.tap(page.get_by_role("checkbox", name=re.compile(f"done.*{title}")))
    page.locator("#went select[name=support]").select_option("wheels")
    thumb.taps += 2  # open the list, choose
    thumb.tap(page.get_by_role("button", name="Write down what is ticked"))
    assert thumb.taps <= 8
    assert "'Rear pipe' is done" in page.get_by_role("status").inner_text()
    door = bench.open()
    assert door is not None
    build = door.build()
    for job in ("rear-pipe", "carb", "door-seal"):
        assert build.jobs[job].state.status is JobStatus.DONE
    assert build.placement is not None
    assert build.placement.support == "wheels"
    page.context.close()


@pytest.mark.parametrize("script", [False, True])
def test_a_line_is_read_back_and_kept(
    chromium: Browser, small: tuple[str, Bench], *, script: bool
) -> None:
    address, bench = small
    page = opened(chromium, address, 390, "day", script=script)
    page.goto(f"{address}/tonight")
    page.get_by_label("How did it go? One line will do.").fill("carb done 2h, two pipe nuts short")
    page.get_by_role("button", name="Read it back").click()
    assert page.url.endswith("#say"), "the phone is back where it was"
    assert page.get_by_text("Read as").is_visible()
    assert page.get_by_text("Carb: finished").is_visible()
    page.locator(".heard-form button").click()
    door = bench.open()
    assert door is not None
    assert door.build().jobs["carb"].state.hours_done == 2
    page.context.close()


def test_everything_on_tonight_is_reached_by_keyboard(
    chromium: Browser, small: tuple[str, Bench]
) -> None:
    address, bench = small
    page = opened(chromium, address, 1280, "day", script=False)
    page.goto(f"{address}/tonight")
    page.locator('input[name="minutes"]').focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("60")
    page.keyboard.press("Enter")
    page.wait_for_url(f"{address}/tonight?minutes=60")
    page.get_by_role("checkbox", name=re.compile("done.*Rear pipe")).focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Write down what is ticked").focus()
    page.keyboard.press("Enter")
    page.get_by_role("status").wait_for()
    assert page.url == f"{address}/tonight?minutes=60"
    door = bench.open()
    assert door is not None
    assert door.build().jobs["rear-pipe"].state.status is JobStatus.DONE
    page.context.close()


@pytest.mark.parametrize("light", ["day", "garage"])
def test_a_build_is_begun_on_a_phone_without_a_script(
    chromium: Browser, new: tuple[str, Bench], light: str
) -> None:
    address, _ = new
    page = opened(chromium, address, 390, light, script=False)
    page.goto(address)
    assert page.url == f"{address}/begin"
    typed = page.locator(".questions input[type=text]").count()
    assert typed <= 2, "no part and no brake is typed: a name and the hours are"
    page.get_by_label("What do you call the car?").fill("The old saloon")
    page.get_by_label("the rear wheels").check()
    page.get_by_label("Wednesday").check()
    page.get_by_label("From when to when?").fill("19:15 to 21:45")
    page.get_by_role("button", name="Begin the build").click()
    assert page.url == f"{address}/begin/check"
    page.locator(".doubts .tickline").nth(1).click()
    page.get_by_role("button", name="Keep, show tonight").click()
    assert page.url == f"{address}/tonight"
    assert page.locator(".ticket").count() >= 1
    assert "The old saloon" in page.title()
    page.context.close()


@pytest.mark.parametrize("width", [390, 1280])
def test_the_pages_of_the_beginning_are_sound(
    chromium: Browser, new: tuple[str, Bench], width: int
) -> None:
    address, _ = new
    page = opened(chromium, address, width, "day")
    look_over(page, f"{address}/begin", width=width)
    page.get_by_label("What do you call the car?").fill("The old saloon")
    page.get_by_label("the front wheels").check()
    page.get_by_role("button", name="Begin the build").click()
    page.wait_for_url(f"{address}/begin/check")
    look_over(page, f"{address}/begin/check", width=width)
    look_over(page, f"{address}/tonight", width=width)
    page.context.close()


def test_on_paper_there_is_everything_to_fill_in_and_nothing_to_press(
    chromium: Browser, demo: str
) -> None:
    page = opened(chromium, demo, 794, "garage")
    page.goto(f"{demo}/tonight")
    page.emulate_media(media="print")
    shown = "button:visible, .tick:visible, nav:visible, summary:visible, .say:visible"
    assert page.locator(shown).count() == 0
    for ticket in page.locator(".ticket").all():
        assert ticket.locator(".pencil").first.is_visible()
    assert page.get_by_text("what is loose or open").is_visible()
    assert page.get_by_role("heading", name="Why not tonight?").count() == 0
    page.goto(f"{demo}/road-ahead")
    page.emulate_media(media="print")
    assert page.locator(".road-wide svg").first.is_visible()
    page.context.close()
