"""These pages in a real browser, scripts switched off: sent, chosen, landed; axe is content.

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
from playwright.sync_api import Browser, Page, sync_playwright

from bareshell.app.door import Door
from bareshell.web.network import listen
from tests.io.sheet_files import xlsx
from tests.stories import NOW, small_car_changes
from tests.web.keeping.conftest import app_of
from tests.web.keeping.pictures import jpeg
from tests.web.test_browser import ARGUMENTS, opened

pytestmark = pytest.mark.browser

LIST = xlsx(
    {
        "A shopping list of a long name": (
            ("Part", "Qty", "Stuff", "For job"),
            ("Horn relay", 1, "6 V", "Carb"),
            ("A-very-long-name-of-a-part-without-any-gap-in-it-at-all-to-break-at", 2, "", "Tank"),
            ("Mystery", "a few", "", "Fit the flux"),
            *((f"Clip number {n}", n, "", "Tank") for n in range(1, 50)),
        ),
        "Orders": (
            ("Part", "Supplier", "Ordered", "Price"),
            ("Hose", "Somebody", "3/2/2026", "12,50"),
        ),
    }
)
BUILD_FILE = b'[[job]]\nid = "horn"\ntitle = "Fit the horn"\nsystem = "electrics"\n'

SMALL_TARGETS = """
() => [...document.querySelectorAll(
  'main button, main input:not([type=hidden]), main select, summary, .press, .box, .crumb a')]
  .filter(e => e.getClientRects().length)
  .map(e => e.closest('label.box, .choice label') || e)
  .filter(e => e.getBoundingClientRect().height < 47.5)
  .map(e => e.outerHTML.slice(0, 80))
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("kept")


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    """The pages on a real server, on a free port."""
    with Door.open(folder / "build", clock=lambda: NOW, create=True, back_up=False) as door:
        door.record(tuple(small_car_changes()))
        listening = listen("127.0.0.1", 0)
        server = uvicorn.Server(uvicorn.Config(app_of(door), log_level="warning"))
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


def is_sound(page: Page) -> None:
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert page.evaluate(SMALL_TARGETS) == []
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def bring(page: Page, address: str, name: str, data: bytes) -> None:
    page.goto(f"{address}/bring-in")
    chosen = {"name": name, "mimeType": "application/octet-stream", "buffer": data}
    page.set_input_files("input[name=file]", chosen)  # type: ignore[arg-type]
    page.get_by_role("button", name="Show what would land").click()
    page.wait_for_url(f"{address}/bring-in/*")


def width_of(page: Page, picture: str) -> int:
    """How wide a picture is in its own pixels, once the browser has shown it."""
    found = page.locator(picture).first
    found.scroll_into_view_if_needed()
    return int(found.evaluate("image => image.decode().then(() => image.naturalWidth)"))


@pytest.mark.parametrize(("width", "light"), [(390, "day"), (390, "garage"), (1280, "day")])
def test_each_page_is_sound(chromium: Browser, address: str, width: int, light: str) -> None:
    page = opened(chromium, address, width, light)
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    for path in ("/bring-in", "/write-out", "/look-over"):
        page.goto(address + path)
        is_sound(page)
    bring(page, address, "build.toml", BUILD_FILE)
    is_sound(page)
    bring(page, address, "parts.xlsx", LIST)
    is_sound(page)
    page.goto(f"{address}/photos")
    pictures = [
        {"name": f"{shade}.jpg", "mimeType": "image/jpeg", "buffer": jpeg(shade, (400, 300))}
        for shade in ("navy", "olive")
    ]
    page.set_input_files("input[name=photos]", pictures)  # type: ignore[arg-type]
    page.get_by_label("of which job").fill("Rear pipe")
    page.get_by_label("in words").fill("how the clip sat")
    page.get_by_role("button", name="Keep them").click()
    page.wait_for_url(f"{address}/jobs/*")
    page.goto(f"{address}/photos")
    is_sound(page)
    page.locator(".pictures a").first.click()
    assert width_of(page, ".whole-picture") == 400
    is_sound(page)
    page.goto(f"{address}/jobs/rear-pipe")
    assert width_of(page, ".pictures img") == 400
    is_sound(page)
    assert complaints == []
    page.context.close()


def test_a_list_is_brought_in_without_script(chromium: Browser, address: str, folder: Path) -> None:
    page = opened(chromium, address, 390, "day", script=False)
    bring(page, address, "parts.xlsx", LIST)
    assert page.get_by_role("button", name="Let it land").count() == 0
    page.get_by_label("Column C, Stuff, means").select_option("leave it out")
    page.get_by_text("leave out rows that cannot be read").click()
    page.get_by_label("day 3 of month 2").check()
    page.get_by_label("Column C, Stuff, means").press("Enter")
    page.get_by_role("button", name="Look again").first.click()
    assert page.get_by_label("Column C, Stuff, means").input_value() == "-"
    assert page.get_by_role("heading", name="What stops it").count() == 0
    page.get_by_role("button", name="Further").click()
    assert page.get_by_text("leave out row 44", exact=False).count()
    page.get_by_role("button", name="Let it land").click()
    assert "It is in the record" in page.locator("main").inner_text()
    with Door.open(folder / "build", back_up=False) as door:
        assert "horn-relay" in door.build().needs
        assert "mystery" not in door.build().needs
    page.context.close()


def test_an_archive_comes_down_as_a_file(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "day", script=False)
    page.goto(f"{address}/write-out")
    with page.expect_download() as coming:
        page.get_by_role("link", name="Archive").click()
    assert coming.value.suggested_filename == "test-mule-archive-2026-03-04.zip"
    with page.expect_download() as coming:
        page.locator("a[href='/write-out/orders.csv']").click()
    assert coming.value.suggested_filename == "test-mule-orders-2026-03-04.csv"
    page.context.close()
