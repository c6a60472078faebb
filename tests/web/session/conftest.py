"""The whole site on a small build of the tests' own, with a plan made up by hand."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bareshell.app.door import Door
from bareshell.web.bench import Bench
from bareshell.web.plan_desk import PlanDesk
from bareshell.web.site import site_app
from tests.stories import NOW, small_car_changes
from tests.web.conftest import Clock, browser
from tests.web.session.made_up_plan import MadeUpPlan

if TYPE_CHECKING:
    from starlette.testclient import TestClient


@pytest.fixture
def plan() -> MadeUpPlan:
    return MadeUpPlan()


@pytest.fixture
def hand_clock() -> Clock:
    """An hour before the session begins."""
    return Clock(NOW)


@pytest.fixture
def small_bench(tmp_path: Path, plan: MadeUpPlan, hand_clock: Clock) -> Iterator[Bench]:
    folder = tmp_path / "car"
    with Door.open(folder, create=True, clock=hand_clock, back_up=False) as door:
        door.record(small_car_changes())
    bench = Bench(folder, "UTC", PlanDesk(plan, patience_s=30), hand_clock)
    yield bench
    bench.close()


@pytest.fixture
def site(small_bench: Bench) -> TestClient:
    return browser(site_app(small_bench))


@pytest.fixture
def door(small_bench: Bench, site: TestClient) -> Door:
    opened = small_bench.open()
    assert opened is not None
    return opened


@pytest.fixture
def empty_bench(tmp_path: Path, plan: MadeUpPlan, hand_clock: Clock) -> Iterator[Bench]:
    bench = Bench(tmp_path / "new", "Europe/London", PlanDesk(plan, patience_s=30), hand_clock)
    yield bench
    bench.close()


@pytest.fixture
def new_site(empty_bench: Bench) -> TestClient:
    return browser(site_app(empty_bench))
