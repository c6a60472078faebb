"""The pages with the plan that is shipped, on the tests' small car and on the demo."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bareshell.app.demo import make_demo
from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.web.bench import Bench
from bareshell.web.plan_desk import PlanDesk
from bareshell.web.site import site_app
from tests.stories import NOW, small_car_changes
from tests.stories import job as made_job
from tests.web.conftest import browser
from tests.web.session.by_hand import form_to, press

if TYPE_CHECKING:
    from starlette.testclient import TestClient


@pytest.fixture(scope="module")
def real(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    folder = tmp_path_factory.mktemp("real") / "car"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(small_car_changes())
    bench = Bench(folder, "UTC", PlanDesk(patience_s=120), lambda: NOW)
    yield browser(site_app(bench))
    bench.close()


def test_tonight_as_planned_is_shown_and_acted_on(real: TestClient) -> None:
    html = real.get("/tonight").text
    data = real.get("/tonight.json").json()
    assert data["jobs"], "something can be done on the first evening"
    for job in data["jobs"]:
        assert job["title"] in html
        assert f'id="at-{job["id"]}"' in html
    assert data["session"]["minutes"] == 150
    asked = real.get("/tonight.json?minutes=60&people=2&temperature=20&mood=nothing+dirty").json()
    assert asked["session"]["minutes"] == 60
    assert set(asked["session"]["overridden"]) >= {"minutes", "people", "temperature_c"}


def test_why_not_names_a_rule_down_to_the_root(real: TestClient) -> None:
    (first, *_) = real.get("/tonight.json?why=drive").json()["why_not"]
    assert first["job"] == "drive"
    assert first["rule"]
    html = real.get("/tonight?why=drive").text
    assert "root:" in html[html.index('id="why-drive"') :]


def test_the_road_as_planned_is_drawn_and_listed(real: TestClient) -> None:
    answer = real.get("/road-ahead")
    assert answer.status_code == 200
    data = real.get("/road-ahead.json").json()
    assert data["p50"] <= data["p80"] <= data["p95"]
    assert "Every session in words" in answer.text


def test_an_entry_plans_the_session_anew(real: TestClient) -> None:
    html = real.get("/tonight").text
    job = real.get("/tonight.json").json()["jobs"][0]["id"]
    form = form_to(html, "/tonight/went")
    assert press(real, form, done=[job]).status_code == 303
    assert job not in [one["id"] for one in real.get("/tonight.json").json()["jobs"]]


def test_the_demo_has_a_full_evening(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    make_demo(folder, date(2031, 3, 5)).close()
    evening = datetime(2031, 3, 5, 18, 30, tzinfo=UTC)
    bench = Bench(folder, "UTC", PlanDesk(patience_s=120), lambda: evening)
    try:
        client = browser(site_app(bench))
        assert client.get("/tonight").status_code == 200
        sheet = client.get("/tonight.json").json()
        assert sheet["jobs"]
        assert sheet["begin_with"]
        assert client.get("/road-ahead").status_code == 200
    finally:
        bench.close()


def test_every_number_that_the_road_opens_stands_open_among_its_grounds(real: TestClient) -> None:
    html = real.get("/road-ahead").text
    asked = set(re.findall(r'href="/road-ahead/grounds\?open=([^"#]+)#', html))
    assert {"p50", "p80", "p95", "work", "bound", "holds", "pace", "together"} <= asked
    for key in asked:
        opened = real.get(f"/road-ahead/grounds?open={key}").text
        at = opened.index(f'id="{key}"')
        assert opened[at:].startswith((f'id="{key}"><details open', f'id="{key}"><p')), key


def test_many_beginnings_as_good_are_folded_and_say_when_else_they_are_planned(
    tmp_path: Path,
) -> None:
    folder = tmp_path / "many"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        labels = [made_job(f"label-{n}", hours=0.2, system="paperwork") for n in range(8)]
        door.record([*small_car_changes(), *(c.JobSet(one) for one in labels)])
    bench = Bench(folder, "UTC", PlanDesk(patience_s=120), lambda: NOW)
    try:
        site = browser(site_app(bench))
        good = [one for one in site.get("/tonight.json").json()["begin_with"] if one["as_good"]]
        html = site.get("/tonight").text
    finally:
        bench.close()
    assert len(good) > 4
    begin = html[html.index("Begin with") : html.index("The session,")]
    before, after = begin.split("<details", 1)
    assert before.count("<b>first on the list</b>") == 1
    assert before.count("<b>as good</b>") == 2
    assert "more to begin with" in after
    assert begin.count("<b>as good</b>") == len(good) - 1
