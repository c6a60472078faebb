"""The sample page in a real browser: nothing overlaps, nothing scrolls sideways, axe is content.

The checks of accessibility are axe-core's own rules (WCAG 2 A and AA and its good practice).
"""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, ConsoleMessage, Page, sync_playwright

from bareshell.web.network import listen
from bareshell.web.settings import Masthead, WebSettings
from tests.web.conftest import with_sample

pytestmark = pytest.mark.browser

ARGUMENTS = [
    "--no-sandbox",
    "--headless",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# Every pair of written words in a drawing whose boxes overlap by more than a pixel.
OVERLAPS = """
() => [...document.querySelectorAll('svg[role=img]')].flatMap(svg => {
  const shown = [...svg.querySelectorAll('text')].filter(t => t.getClientRects().length);
  const boxes = shown.map(t => [t.textContent, t.getBoundingClientRect()]);
  return boxes.flatMap(([a, p], i) => boxes.slice(i + 1)
    .filter(([b, q]) =>
      Math.min(p.right, q.right) - Math.max(p.left, q.left) > 1 &&
      Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top) > 5)
    .map(([b]) => a + ' | ' + b));
})
"""
OUTSIDE = """
() => [...document.querySelectorAll('svg[role=img]')].flatMap(svg => {
  const frame = svg.getBoundingClientRect();
  return [...svg.querySelectorAll('text')].filter(t => t.getClientRects().length)
    .filter(t => {
      const box = t.getBoundingClientRect();
      return box.left < frame.left - 1 || box.right > frame.right + 1;
    }).map(t => t.textContent);
})
"""
SMALL = """
least => [...document.querySelectorAll('svg text')].filter(t => t.getClientRects().length)
  .filter(t => {
    const scale = t.getScreenCTM().a;
    return parseFloat(getComputedStyle(t).fontSize) * scale < least;
  }).map(t => t.textContent)
"""
SMALL_TARGETS = """
() => [...document.querySelectorAll('nav a, button, input:not([type=hidden]), select, .tick')]
  .filter(e => e.getClientRects().length)
  .filter(e => !e.closest('.choice') && e.getBoundingClientRect().height < 47.5)
  .map(e => e.outerHTML.slice(0, 80))
"""


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """The sample page on a real server, on a free port."""
    listening = listen("127.0.0.1", 0)
    settings = WebSettings(masthead=lambda: Masthead("Grey saloon", invented=True))
    server = uvicorn.Server(uvicorn.Config(with_sample(settings), log_level="warning"))
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


def opened(browser: Browser, address: str, width: int, light: str, *, script: bool = True) -> Page:
    context = browser.new_context(
        viewport={"width": width, "height": 900}, java_script_enabled=script
    )
    context.add_cookies([{"name": "bareshell_light", "value": light, "url": address}])
    return context.new_page()


@pytest.mark.parametrize("light", ["day", "garage"])
@pytest.mark.parametrize("width", [390, 1280])
def test_the_sample_page_is_sound(
    chromium: Browser, address: str, width: int, light: str, tmp_path: Path
) -> None:
    page = opened(chromium, address, width, light)
    complaints: list[str] = []

    def note(message: ConsoleMessage) -> None:
        complaints.append(message.text)

    page.on("console", note)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.goto(f"{address}/proofs")
    page.screenshot(path=tmp_path / f"sample-{width}-{light}.png", full_page=True)
    assert complaints == []
    assert page.locator("html").get_attribute("data-light") == light
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert page.evaluate(OVERLAPS) == []
    assert page.evaluate(OUTSIDE) == []
    assert page.evaluate(SMALL, 13.4 if width > 1000 else 12.4) == []
    assert page.evaluate(SMALL_TARGETS) == []
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    page.context.close()


@pytest.mark.parametrize("width", [320, 700, 1000])
def test_no_width_scrolls_sideways(chromium: Browser, address: str, width: int) -> None:
    page = opened(chromium, address, width, "day")
    page.goto(f"{address}/proofs")
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.context.close()


def test_the_light_and_a_form_work_without_script(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "day", script=False)
    page.goto(f"{address}/proofs")
    page.get_by_role("button", name="Garage light").click()
    assert page.locator("html").get_attribute("data-light") == "garage"
    assert page.url == f"{address}/proofs"
    page.get_by_label("How did it go? One line will do.").fill("axle pipes done 1h")
    page.locator("form.say button").click()
    assert page.get_by_role("status").inner_text() == "Written down: axle pipes, finished."
    page.context.close()


def test_the_script_of_the_pages_runs_under_the_policy(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "day")
    page.goto(f"{address}/proofs")
    assert page.evaluate("typeof htmx") == "object"
    page.evaluate("""() => htmx.ajax('GET', '/proofs', {target: '#tickets', swap: 'outerHTML'})""")
    page.wait_for_function("!document.querySelector('.htmx-request')")
    assert page.locator("#tickets .ticket").count() == 2
    assert page.locator("#tickets html, #tickets header").count() == 0
    page.context.close()


def test_on_paper_there_are_boxes_to_fill_in_and_nothing_to_press(
    chromium: Browser, address: str
) -> None:
    page = opened(chromium, address, 794, "garage")
    page.goto(f"{address}/proofs")
    page.emulate_media(media="print")
    assert page.locator(".pencil").first.is_visible()
    assert page.locator("button:visible, .tick:visible, .nav:visible").count() == 0
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    page.context.close()
