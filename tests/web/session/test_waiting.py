"""While the plan is worked out the pages say so, and nothing is asked of it twice."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bareshell.app.door import Door
from bareshell.errors import BareshellError, Refused
from bareshell.web.bench import Bench
from bareshell.web.plan_desk import PlanDesk, StillWorking
from bareshell.web.site import device_store, site_app
from bareshell.whole.sheet_parts import SessionAsked, TonightSheet
from tests.stories import small_car_changes
from tests.web.conftest import Clock, browser
from tests.web.session.by_hand import form_to, press
from tests.web.session.made_up_plan import MadeUpPlan

if TYPE_CHECKING:
    from starlette.testclient import TestClient


class SlowPlan(MadeUpPlan):
    """Answers when it is let go."""

    def __init__(self) -> None:
        super().__init__()
        self.let_go = threading.Event()
        self.let_go.set()

    def tonight(self, door: Door, asked: SessionAsked | None) -> TonightSheet:
        assert self.let_go.wait(20)
        return super().tonight(door, asked)


@pytest.fixture
def slow() -> SlowPlan:
    return SlowPlan()


@pytest.fixture
def bench(tmp_path: Path, slow: SlowPlan, hand_clock: Clock) -> Iterator[Bench]:
    folder = tmp_path / "car"
    with Door.open(folder, create=True, clock=hand_clock, back_up=False) as door:
        door.record(small_car_changes())
    bench = Bench(folder, "UTC", PlanDesk(slow, patience_s=0.05), hand_clock)
    yield bench
    slow.let_go.set()
    bench.close()


@pytest.fixture
def pages(bench: Bench) -> TestClient:
    return browser(site_app(bench))


def test_a_page_that_would_wait_says_so_and_looks_again(pages: TestClient, slow: SlowPlan) -> None:
    slow.let_go.clear()
    answer = pages.get("/tonight?minutes=90")
    assert answer.status_code == 503
    assert "Working it out" in answer.text
    assert answer.headers["refresh"] == "2"
    assert 'href="/tonight?minutes=90"' in answer.text
    slow.let_go.set()
    for _ in range(50):
        answer = pages.get("/tonight?minutes=90")
        if answer.status_code == 200:
            break
    assert answer.status_code == 200
    assert slow.asked.count("tonight") == 1


def test_what_was_said_is_still_said_after_the_wait(pages: TestClient, slow: SlowPlan) -> None:
    html = pages.get("/tonight").text
    slow.let_go.clear()
    assert press(pages, form_to(html, "/tonight/start", job="carb")).status_code == 303
    waiting = pages.get("/tonight")
    assert waiting.status_code == 503
    assert "is started" in waiting.text
    slow.let_go.set()
    while (answer := pages.get("/tonight")).status_code == 503:
        pass
    assert "is started" in answer.text
    assert "is started" not in pages.get("/tonight").text


def test_a_mistake_is_shown_with_what_was_typed_however_long_the_plan_takes(
    pages: TestClient, slow: SlowPlan
) -> None:
    html = pages.get("/tonight").text
    form = form_to(html, "/tonight/job", job="carb")
    slow.let_go.clear()
    threading.Timer(0.3, slow.let_go.set).start()
    answer = press(pages, form, what="worked", hours="a while", back="/tonight?minutes=45")
    assert answer.status_code == 422
    assert "It was not written down: hours “a while”." in answer.text, "its ticket is gone"


def test_a_program_waits_for_its_twin(pages: TestClient, slow: SlowPlan) -> None:
    slow.let_go.clear()
    threading.Timer(0.3, slow.let_go.set).start()
    assert pages.get("/tonight.json").status_code == 200


def test_an_answer_that_failed_is_asked_for_again(bench: Bench) -> None:
    door = bench.open()
    assert door is not None
    calls = []

    class Fails(MadeUpPlan):
        def tonight(self, door: Door, asked: SessionAsked | None) -> TonightSheet:
            calls.append(asked)
            if len(calls) == 1:
                raise Refused("no session", "none", "say how long")
            return super().tonight(door, asked)

    desk = PlanDesk(Fails(), patience_s=20)
    with pytest.raises(Refused):
        desk.tonight(door, None)
    assert desk.tonight(door, None).session.minutes == 150
    desk.close()


def test_a_long_wait_is_no_failure_of_the_plan(bench: Bench, slow: SlowPlan) -> None:
    door = bench.open()
    assert door is not None
    slow.let_go.clear()
    with pytest.raises(StillWorking):
        bench.plan.tonight(door, None)
    slow.let_go.set()
    assert bench.plan.tonight(door, None, wait_s=20).session.minutes == 150
    assert slow.asked.count("tonight") == 1


def test_warming_up_works_out_what_will_be_looked_at_first(bench: Bench, slow: SlowPlan) -> None:
    ready = threading.Event()
    said: list[str] = []

    def say(words: str) -> None:
        said.append(words)
        ready.set()

    bench.plan.warm_up(say, bench.open())
    assert ready.wait(20)
    door = bench.open()
    assert door is not None
    bench.plan.tonight(door, None, wait_s=20)
    bench.plan.road(door, wait_s=20)
    assert said == ["The plan is ready."]
    assert sorted(slow.asked) == ["road", "tonight", "warm up", "why not"]


def test_a_plan_that_cannot_be_made_ready_says_why(bench: Bench) -> None:
    class Broken(MadeUpPlan):
        def warm_up(self) -> str:
            raise BareshellError("the compiler is missing", "install it")

    said: list[str] = []
    heard = threading.Event()
    desk = PlanDesk(Broken(), patience_s=20)

    def say(words: str) -> None:
        said.append(words)
        heard.set()

    desk.warm_up(say, bench.open())
    assert heard.wait(20)
    assert said == ["the compiler is missing. Install it."]
    desk.close()


def test_keys_of_paired_phones_never_lie_in_the_builds_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    folder = tmp_path / "car"
    folder.mkdir()
    assert device_store(folder, home=True).load() == ()
    device_store(folder, home=True).save(())
    (kept,) = (tmp_path / "config").rglob("*.json")
    assert kept.stat().st_mode & 0o077 == 0
    assert list(folder.iterdir()) == []
    other = tmp_path / "other"
    device_store(other, home=True).save(())
    assert len(list((tmp_path / "config").rglob("*.json"))) == 2
