"""What is sent wrongly to the pages: a status, a sentence, and nothing written down."""

from __future__ import annotations

import itertools
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bareshell.app.door import Door
from bareshell.brakes.examples import small_car
from bareshell.model import changes as c
from bareshell.model.part import Holding
from bareshell.model.temp import Departure
from bareshell.web.bench import Bench
from bareshell.web.plan_desk import PlanDesk
from bareshell.web.site import site_app
from tests.acceptance.at_the_terminal import Terminal, unchanged
from tests.acceptance.site import kind_of, send, walk
from tests.brakes.edits import with_part
from tests.stories import NOW
from tests.web.conftest import browser
from tests.web.session.made_up_plan import MadeUpPlan

if TYPE_CHECKING:
    from httpx2 import Response
    from starlette.testclient import TestClient

HTML, JSON = "text/html", "application/json"
ASIDE = {"/photos", "/bring-in", "/needs"}
"""Where files go, and a form of which each button leads elsewhere."""
BAD = (
    "", "  ", "-1", "1e400", "nan", "9" * 40, "31/02/2026", "25:61", "a\x00b", "x" * 5000, "½",
    "2025-03-30 01:30", "perhaps", "\ud800", "0001-01-01", "-3 h", "FREQ=SECONDLY", "../..",
    "<b>bold</b>", "שלום 🚗",
)  # fmt: skip


@pytest.fixture
def bench(garage: Path) -> Iterator[Bench]:
    with Door.open(garage, clock=lambda: NOW, back_up=False) as door:
        door.record(c.DepartureSet(Departure("discs", "Discs", "brakes", "drums", "discs", "box")))
        door.record(c.HoldingSet(Holding("washers", "Copper washers", 8)))
        door.record(c.BrakeSystemSet(with_part(small_car(), "fluid", choices={"grade": "DOT 4"})))
    bench = Bench(garage, "UTC", PlanDesk(MadeUpPlan(), patience_s=30), lambda: NOW)
    yield bench
    bench.close()


@pytest.fixture
def site(bench: Bench) -> TestClient:
    return browser(site_app(bench))


@pytest.fixture
def door(bench: Bench, site: TestClient) -> Door:
    opened = bench.open()
    assert opened is not None
    return opened


def test_each_page_that_a_link_leads_to_is_there(site: TestClient) -> None:
    found = walk(site)
    assert len(found.pages) > 80
    assert {path: page.status_code for path, page in found.pages.items() if page.is_error} == {}
    for path, page in found.pages.items():
        if page.headers.get("content-type") == "application/json":
            assert page.json()["format"] == 1, path


def test_each_field_of_each_form_filled_in_badly_is_refused_or_kept_never_half(
    site: TestClient, door: Door
) -> None:
    bad = itertools.cycle(BAD)
    forms = [form for form in walk(site).forms.values() if form.action not in ASIDE]
    assert len(forms) > 45
    for form in forms:
        for field in (None, *form.fields):
            fields = {} if field is None else {**form.fields, field: [next(bad)]}
            fields.pop("version", None)
            fields.pop("entry", None)
            for accept in (HTML, JSON):
                before = door.latest()
                answer = send(site, form.action, fields, accept)
                where = f"{form.action} {field} {fields.get(field or '')!r:.40}"
                assert answer.status_code in (200, 303, 404, 409, 422), where
                if answer.is_error:
                    assert door.latest() == before, where
                    _says_what_is_wrong(answer, accept, where)
    for path in ("/", "/tonight", "/jobs", "/car", "/shelf", "/proofs", "/record", "/car/sessions"):
        assert site.get(path).status_code in (200, 303), path


def _says_what_is_wrong(answer: Response, accept: str, where: str) -> None:
    if accept == JSON:
        error = answer.json()["error"]
        assert error["message"], where
        assert error["kind"] in {"bad input", "not found", "refused", "conflict"}, where
    else:
        assert "<main" in answer.text, where
        assert "Traceback" not in answer.text, where


ODD = ("%00", "%F0%9F%9A%97", "..%2f..", "x" * 3000, "-1", "9" * 40, "%3Cscript%3E", "%ff%fe")


def test_an_address_that_leads_nowhere_says_so(site: TestClient, door: Door) -> None:
    kinds = {kind_of(path) for path in walk(site).pages if "*" in kind_of(path)}
    assert len(kinds) > 20
    for kind in sorted(kinds):
        for odd in ODD:
            answer = site.get(kind.replace("*", odd))
            assert answer.status_code in (400, 404, 422), (kind, odd)
            assert "<script>" not in answer.text.partition("<main")[2].replace("</script>", "")
            twin = site.get(kind.removesuffix(".json").replace("*", odd) + ".json")
            assert twin.json()["error"]["message"], (kind, odd)
    actions = {kind_of(action) for action, _ in walk(site).forms}
    with unchanged(door.latest):
        for action in sorted(action for action in actions if "*" in action):
            for odd in ODD:
                answer = site.post(action.replace("*", odd))
                assert answer.status_code in (400, 404, 405, 422), (action, odd)


def test_a_question_about_the_session_that_cannot_be_keeps_what_was_typed(
    site: TestClient,
) -> None:
    for query, says in (
        ("minutes=-5", "'-5' is below zero. write it as 2.5 h, 2h30, 90 min"),
        ("minutes=5", "write a whole number from 15 to 960"),
        (f"minutes={'9' * 40}", "9999"),
        ("people=7", "7 people will not do"),
        ("support=moon", "is no way it stands here"),
        ("temperature=nan", "nan"),
        ("starts=2026-02-31", "is no day with a time"),
    ):
        page = site.get(f"/tonight?{query}")
        assert page.status_code in (200, 422), query
        assert says in page.text.lower().replace("&#39;", "'"), query


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("application/x-www-form-urlencoded", b"\xff\xfe=%zz&&&=="),
        ("application/json", b'{"a":'),
        ("multipart/form-data; boundary=x", b"garbage"),
        ("multipart/form-data", b"no boundary"),
        ("multipart/form-data; boundary=x", b'--x\r\nContent-Disposition: form-data; name="f'),
        ("text/plain", b"hello"),
    ],
)
def test_a_request_that_is_no_form_is_put_down_again(
    site: TestClient, door: Door, kind: str, body: bytes
) -> None:
    actions = ("/add/job", "/tonight/say", "/tonight/went", "/car/days", "/bring-in", "/photos")
    with unchanged(door.latest):
        for action in actions:
            answer = site.post(action, content=body, headers={"Content-Type": kind})
            assert answer.status_code in (303, 400, 422), action


# --- a folder in trouble ---------------------------------------------------------------------

WRITES: tuple[tuple[str, dict[str, list[str]]], ...] = (
    ("/jobs/carb/mark", {"what": ["done"], "hours": ["2"]}),
    ("/needs/nuts/here", {"quantity": ["4"]}),
    ("/car/place", {"support": ["wheels"]}),
    ("/temps/caps/raise", {}),
)


def _refused_everywhere(site: TestClient, door: Door, status: int, kind: str, says: str) -> None:
    for action, fields in WRITES:
        with unchanged(door.latest):
            page = send(site, action, fields, HTML)
            twin = send(site, action, fields, JSON)
        assert (page.status_code, twin.status_code) == (status, status), action
        assert says in page.text.replace("&#39;", "'").lower(), action
        assert twin.json()["error"]["kind"] == kind
        assert says in twin.json()["error"]["message"]


def test_a_newer_bareshells_build_is_shown_and_not_changed(garage: Path) -> None:
    with closing(sqlite3.connect(garage / "journal.db")) as journal, journal:
        journal.execute("UPDATE words SET value = '9.1.0' WHERE name = 'written by'")
        journal.execute("PRAGMA user_version = 99")
    bench = Bench(garage, "UTC", PlanDesk(MadeUpPlan(), patience_s=30), lambda: NOW)
    site, door = browser(site_app(bench)), bench.open()
    assert door is not None
    for path in ("/tonight", "/jobs", "/shelf", "/proofs", "/record", "/car", "/road-ahead"):
        assert site.get(path).status_code == 200
    _refused_everywhere(site, door, 409, "newer", "it can be read, not changed")
    bench.close()


def test_while_another_writes_an_entry_is_not_taken_and_may_be_sent_again(
    site: TestClient, door: Door
) -> None:
    writer = door._journal._writer
    assert writer is not None
    writer.execute("PRAGMA busy_timeout = 20")
    with closing(sqlite3.connect(door.folder / "journal.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        _refused_everywhere(site, door, 503, "busy", "another bareshell is writing to this build")
        assert site.get("/jobs").status_code == 200
        other.execute("ROLLBACK")
    for action, fields in WRITES:
        assert send(site, action, fields, HTML).status_code == 303


def test_a_full_disk_takes_nothing_by_halves(site: TestClient, door: Door) -> None:
    writer = door._journal._writer
    assert writer is not None
    pages = writer.execute("PRAGMA page_count").fetchone()[0]
    writer.execute(f"PRAGMA max_page_count = {pages}")
    words = {"what": ["worked"], "hours": ["1"], "words": ["w" * 3900]}
    full = None
    for _ in range(12):
        before = door.latest()
        answer = send(site, "/jobs/carb/mark", words, HTML)
        if answer.is_error:
            full = answer
            assert door.latest() == before
            break
        assert door.latest() == before + 1
    assert full is not None
    assert full.status_code == 507
    assert "the disk is full" in full.text.lower()
    assert site.get("/jobs/carb").status_code == 200
    writer.execute("PRAGMA max_page_count = 1000000")
    assert send(site, "/jobs/carb/mark", words, HTML).status_code == 303


def test_a_damaged_build_is_not_served(garage: Path) -> None:
    journal = garage / "journal.db"
    journal.write_bytes(journal.read_bytes()[:5000])
    said = Terminal(garage)("serve", "--port", "0")
    assert (said.code, said.out) == (6, "")
    assert "estore the newest backup" in said.err


# --- both at once ----------------------------------------------------------------------------


def test_the_pages_and_the_terminal_agree_at_once(site: TestClient, door: Door) -> None:
    terminal = Terminal(door.folder)
    assert terminal("jobs", "mark", "carb", "done", "--hours", "2").code == 0
    states = {job["id"]: job["status"] for job in site.get("/jobs.json").json()["jobs"]}
    assert states["carb"] == "done"
    answer = send(site, "/jobs/door-seal/mark", {"what": ["done"], "hours": ["1"]}, HTML)
    assert answer.status_code == 303
    listed = terminal("jobs", "--json").data
    assert listed["jobs"] == site.get("/jobs.json").json()["jobs"]
    assert terminal("undo", "--yes").code == 0
    states = {job["id"]: job["status"] for job in site.get("/jobs.json").json()["jobs"]}
    assert (states["carb"], states["door-seal"]) == ("done", "to do")
    for command, path in (("shelf", "/shelf"), ("proofs", "/proofs"), ("car", "/car")):
        there, here = site.get(f"{path}.json").json(), terminal(command, "--json").data
        there.pop("made_at"), here.pop("made_at")
        assert here.keys() == there.keys()
        if command != "car":  # sessions to come are counted from now
            assert {**here, "coming": 0} == {**there, "coming": 0}
