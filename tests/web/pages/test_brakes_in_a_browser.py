"""What is done with the brakes, in a real browser: nothing scrolls sideways, axe is content."""

from __future__ import annotations

import shutil
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import uvicorn

from bareshell.app import brakes_commission, brakes_proofs
from bareshell.app.door import Door
from bareshell.app.written import Pen
from bareshell.brakes.examples import small_car
from bareshell.model import changes as c
from bareshell.model.brake import Role
from bareshell.web.application import create_app
from bareshell.web.desk import lay_open, masthead_of
from bareshell.web.network import listen
from bareshell.web.pages.books import ROUTERS
from bareshell.web.settings import WebSettings
from tests.brakes import edits as e
from tests.web.pages.conftest import Hand
from tests.web.pages.test_in_a_browser import chromium, look_at
from tests.web.test_browser import opened

if TYPE_CHECKING:
    from playwright.sync_api import Browser

__all__ = ["chromium"]

pytestmark = pytest.mark.browser
PATHS = (
    "/brakes/commissioning",
    "/brakes/owed",
    "/brakes/joints/hose-front-left-1",
    "/brakes/screws/caliper-front-left-bleed",
    "/brakes/pictures",
    "/brakes/bleed",
    "/brakes/joints",
    "/proofs",
)
CAR = replace(
    e.with_blanked_branch(e.with_part(small_car(), "fluid", choices={"grade": "DOT 4"})),
    id="as-built",
    role=Role.AS_BUILT,
)


def lived_in(door: Door) -> None:
    """Show every page at its fullest: owed, held, a hold with a wet joint, a pedal test."""
    door.record(c.BrakeSystemSet(CAR))
    brakes_proofs.owe(door, Pen())
    hold = {"choice_circuit": ("master-primary",), "figure_first_pressure_pa": ("10",)}
    brakes_commission.take_hold(door, {**hold, "wet": ("hose-front-left-1",)}, Pen())
    pedal = {
        "figure_first_force_n": ("70",),
        "figure_first_travel_m": ("40",),
        "figure_second_force_n": ("300",),
        "figure_second_travel_m": ("75",),
        "choice_when": ("before the road",),
    }
    brakes_commission.take_pedal_test(door, pedal, Pen())
    door.record(c.BrakeSystemSet(e.with_part(CAR, "fluid", choices={})))


@pytest.fixture(scope="module")
def address(small_build: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The books on a real server, on a free port."""
    folder = shutil.copytree(small_build, tmp_path_factory.mktemp("brakes") / "build")
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
        thread.join(10)


@pytest.mark.parametrize(("width", "light"), [(390, "garage"), (1280, "day")])
def test_the_pages_are_sound(chromium: Browser, address: str, width: int, light: str) -> None:
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


def test_an_undone_joint_is_two_presses_without_a_script(chromium: Browser, address: str) -> None:
    page = opened(chromium, address, 390, "garage", script=False)
    page.goto(f"{address}/brakes/joints")
    page.get_by_role("link", name="Front left pipe into front left hose").click()
    page.get_by_role("button", name="It was undone").click()
    assert "is owed as it was" in page.get_by_role("status").inner_text()
    page.context.close()
