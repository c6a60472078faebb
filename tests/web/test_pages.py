"""The frame around every page: light, problems, twins, files, words left for the next page."""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import dataclass, fields
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from enum import Enum, StrEnum
from typing import TYPE_CHECKING

import numpy as np
import pytest
from jinja2 import UndefinedError
from starlette.requests import Request

from bareshell.app.plain import plain
from bareshell.errors import Damaged
from bareshell.model.proof import ProofState
from bareshell.web.assets import STATIC_FOLDER, Assets
from bareshell.web.settings import Masthead, WebSettings
from bareshell.web.templating import NAV
from tests.web.conftest import browser, with_sample
from tests.web.sample_page import SamplePage, sample

if TYPE_CHECKING:
    from starlette.testclient import TestClient

NO_WORDS = ("traceback", "RuntimeError", "a detail nobody should see", "site-packages", ".py")


class TestLight:
    """Day and garage light: a form, a cookie, and the server's hand."""

    def test_it_is_day_until_someone_chooses(self, client: TestClient) -> None:
        assert '<html lang="en" data-light="day">' in client.get("/proofs").text

    def test_the_choice_is_kept_and_comes_back_to_the_same_page(self, client: TestClient) -> None:
        answer = client.post("/light", data={"light": "garage", "back": "/proofs?gate=road"})
        assert answer.status_code == 303
        assert answer.headers["location"] == "/proofs?gate=road"
        page = client.get("/proofs?gate=road").text
        assert 'data-light="garage"' in page
        assert 'name="light" value="day"' in page
        assert 'name="back" value="/proofs?gate=road"' in page

    @pytest.mark.parametrize(
        "back", ["//elsewhere.example", "https://elsewhere.example", "/\\x", "x", "/a\nb"]
    )
    def test_it_never_leads_elsewhere(self, client: TestClient, back: str) -> None:
        answer = client.post("/light", data={"light": "day", "back": back})
        assert answer.headers["location"] == "/"

    def test_a_light_nobody_knows_is_refused_with_a_sentence(self, client: TestClient) -> None:
        answer = client.post("/light", data={"light": "disco", "back": "/"})
        assert answer.status_code == 422
        assert "Light:" in answer.text or "light:" in answer.text

    def test_a_made_up_cookie_is_day(self, client: TestClient) -> None:
        client.cookies.set("bareshell_light", '"><script>')
        page = client.get("/proofs").text
        assert 'data-light="day"' in page
        assert '"><script>' not in page


class TestProblems:
    """Whatever goes wrong is one page in the look, or one form of JSON."""

    @pytest.mark.parametrize(
        ("method", "path", "status"),
        [
            ("GET", "/nothing", 404),
            ("GET", "/static/../look.css", 404),
            ("PUT", "/proofs", 405),
            ("GET", "/wrong", 422),
            ("GET", "/number/many", 422),
            ("GET", "/gives-way", 500),
        ],
    )
    def test_each_is_a_page_with_the_head_and_no_traceback(
        self, client: TestClient, method: str, path: str, status: int
    ) -> None:
        answer = client.request(method, path)
        assert answer.status_code == status
        assert '<article class="problem"' in answer.text
        assert "Grey saloon" in answer.text
        assert not any(word in answer.text for word in NO_WORDS)

    @pytest.mark.parametrize(
        ("path", "kind"),
        [("/nothing.json", "not found"), ("/wrong", "bad input"), ("/gives-way", "error")],
    )
    def test_each_has_its_twin(self, client: TestClient, path: str, kind: str) -> None:
        answer = client.get(path, headers={"Accept": "application/json"})
        assert answer.headers["content-type"] == "application/json"
        body = answer.json()
        assert body["format"] == 1
        assert body["error"]["kind"] == kind
        assert body["error"]["status"] == answer.status_code
        assert body["error"]["message"]
        assert not any(word in answer.text for word in NO_WORDS)

    def test_all_that_is_wrong_with_a_form_is_said_at_once(self, client: TestClient) -> None:
        page = client.get("/wrong").text
        assert "<b>Bore</b>: &#39;&lt;wide&gt;&#39; is no length." in page
        assert "Write it as 19.05 mm." in page
        assert "<b>Stroke</b>" in page

    def test_what_nobody_foresaw_goes_to_the_log(
        self, client: TestClient, caplog: pytest.LogCaptureFixture
    ) -> None:
        client.get("/gives-way")
        assert "a detail nobody should see" in caplog.text

    def test_a_405_says_what_is_taken(self, client: TestClient) -> None:
        assert "GET" in client.put("/proofs").headers["allow"]

    def test_a_build_that_cannot_be_read_still_gets_its_problem_page(self) -> None:
        def spoilt() -> Masthead:
            raise Damaged("the journal is cut short", "use the backup of yesterday")

        client = browser(with_sample(WebSettings(masthead=spoilt)))
        answer = client.get("/proofs")
        assert answer.status_code == 500
        assert "The journal is cut short." in answer.text
        assert "Use the backup of yesterday." in answer.text

    def test_a_script_that_asks_for_a_part_gets_a_part(self, client: TestClient) -> None:
        headers = {"HX-Request": "true", "HX-Request-Type": "partial"}
        answer = client.get("/wrong", headers=headers)
        assert answer.text.lstrip().startswith("<article")


class TestTwin:
    """One context, two forms."""

    def test_the_twin_says_all_that_the_page_knows(self, client: TestClient) -> None:
        body = client.get("/proofs.json").json()
        assert body["format"] == 1
        told = {field.name for field in fields(SamplePage) if field.metadata.get("twin", True)}
        assert set(body) == {"format"} | told
        assert body["tickets"][0]["name"] == sample().tickets[0].name
        assert body["systems"] == ["brakes", "glass"]

    def test_it_is_the_same_under_a_preference_for_json(self, client: TestClient) -> None:
        asked = client.get("/proofs", headers={"Accept": "application/json"})
        assert asked.json() == client.get("/proofs.json").json()

    @pytest.mark.parametrize(
        "accept",
        [
            "*/*",
            "",
            "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8",
            "application/json;q=0.5, text/html",
            "text/html;q=0.9, application/json;q=nonsense",
        ],
    )
    def test_a_browser_gets_the_page(self, client: TestClient, accept: str) -> None:
        answer = client.get("/proofs", headers={"Accept": accept})
        assert answer.headers["content-type"].startswith("text/html")

    def test_a_path_with_a_name_in_it_has_a_twin_too(self, client: TestClient) -> None:
        body = client.get("/proofs/tee.json").json()
        assert body["tickets"][0]["name"].endswith(" tee")
        assert "axle pipes tee" in client.get("/proofs/tee").text

    def test_the_page_names_its_twin(self, client: TestClient) -> None:
        page = client.get("/proofs?gate=road").text
        assert 'type="application/json" href="/proofs.json?gate=road"' in page

    def test_a_part_is_only_that_block(self, client: TestClient) -> None:
        part = client.get("/proofs", headers={"HX-Request": "true"}).text
        assert part.lstrip().startswith('<section id="tickets">')
        assert "<html" not in part

    def test_every_kind_of_value_has_a_form(self) -> None:
        class Colour(Enum):
            RED = 3

        class Word(StrEnum):
            OWED = "owed"

        @dataclass(frozen=True)
        class Inner:
            at: datetime
            state: ProofState

        value = {
            Word.OWED: (1, 2.0, 2.5, None, True),
            "inner": Inner(datetime(2026, 3, 1, 9, tzinfo=UTC), ProofState.COVERED),
            "day": date(2026, 3, 1),
            "clock": time(9, 20),
            "wait": timedelta(hours=12),
            "money": Decimal("12.50"),
            "set": frozenset({3, 1, 2}),
            "colour": Colour.RED,
            "array": [np.float64(1.5), np.int64(3)],
        }
        assert json.loads(json.dumps(plain(value))) == {
            "owed": [1, 2, 2.5, None, True],
            "inner": {"at": "2026-03-01T09:00:00+00:00", "state": "covered, unproven"},
            "day": "2026-03-01",
            "clock": "09:20:00",
            "wait": "PT43200S",
            "money": "12.50",
            "set": [1, 2, 3],
            "colour": 3,
            "array": [1.5, 3],
        }

    @pytest.mark.parametrize("value", [float("nan"), float("inf"), object(), 1j])
    def test_what_json_cannot_say_is_refused(self, value: object) -> None:
        with pytest.raises(TypeError):
            plain(value)


class TestFrame:
    """The head, the words, the foot."""

    def test_seven_words_and_the_one_we_are_at(self, client: TestClient) -> None:
        page = client.get("/proofs/tee").text
        for word in NAV:
            assert f'href="{word.path}"' in page
        assert [word.word for word in NAV] == [
            "Tonight",
            "Road ahead",
            "Shelf",
            "Brakes",
            "Proofs",
            "Record",
            "Car",
        ]
        assert page.count('aria-current="page"') == 1
        assert '<a href="/proofs" aria-current="page">' in page

    def test_an_invented_build_says_so_on_every_page(self, client: TestClient) -> None:
        page = client.get("/proofs").text
        assert "(invented demo build)</title>" in page
        assert '<span class="demo">Grey saloon<br>invented demo build</span>' in page

    def test_a_real_build_does_not_say_it_is_invented(self) -> None:
        settings = WebSettings(masthead=lambda: Masthead("Grey saloon"))
        page = browser(with_sample(settings)).get("/proofs").text
        head = page[: page.index("<main")]
        assert "Grey saloon" in head
        assert "invented" not in head

    def test_what_was_done_is_said_once_on_the_next_page(self, client: TestClient) -> None:
        answer = client.post("/proofs")
        assert answer.headers["location"] == "/proofs"
        assert "Written down: axle pipes, finished." in client.get("/proofs").text
        assert "Written down: axle pipes, finished." not in client.get("/proofs").text

    def test_a_program_is_told_what_was_done_as_data(self, client: TestClient) -> None:
        body = client.post("/proofs", headers={"Accept": "application/json"}).json()
        assert body["done"]["said"] == "Written down: axle pipes, finished."
        assert body["done"]["result"]["figure"] == "1.0"

    def test_words_are_escaped_wherever_they_come_from(self, client: TestClient) -> None:
        page = client.get("/proofs/%3Cscript%3Ealert(1)").text
        assert "<script>alert" not in page
        assert "&lt;script&gt;alert(1)" in page

    def test_a_missing_name_in_a_template_is_never_passed_over(self, client: TestClient) -> None:
        views = client.app.state.views  # type: ignore[attr-defined]
        with pytest.raises(UndefinedError):
            views.environment.from_string("{{ page.nothing }}").render(page=sample())

    def test_every_template_escapes(self, client: TestClient) -> None:
        views = client.app.state.views  # type: ignore[attr-defined]
        for name in ("x.html", "x.svg", "x.txt", None):
            template = views.environment.from_string("{{ words }}")
            assert template.render(words="<b>") == "&lt;b&gt;", name


class TestFiles:
    """Style sheet, script, icon: named by their content, kept for a year."""

    def test_every_file_a_page_loads_is_there_under_its_hash(self, client: TestClient) -> None:
        loaded = re.findall(r'(?:href|src)="(/static/[^"]+)"', client.get("/proofs").text)
        assert len(loaded) == 3
        for path in loaded:
            answer = client.get(path)
            assert answer.status_code == 200
            assert "immutable" in answer.headers["cache-control"]
            digest = hashlib.sha256(answer.content).hexdigest()
            assert digest[:12] in path

    def test_the_style_sheet_and_script_come_as_what_they_are(self, client: TestClient) -> None:
        kinds = {
            path.rsplit(".", 1)[1]: client.get(path).headers["content-type"]
            for path in Assets().urls()
        }
        assert kinds["css"].startswith("text/css")
        assert "javascript" in kinds["js"]
        assert kinds["svg"] == "image/svg+xml"

    def test_vendored_files_are_what_their_makers_published(self) -> None:
        manifest = json.loads((STATIC_FOLDER / "vendored.json").read_text(encoding="utf-8"))
        scripts = {path.name for path in STATIC_FOLDER.glob("*.js")}
        assert scripts <= set(manifest)
        for name, entry in manifest.items():
            digest = hashlib.sha256((STATIC_FOLDER / name).read_bytes()).hexdigest()
            assert digest == entry["sha256"]
            assert entry["version"] in name

    def test_the_style_sheet_loads_nothing_from_elsewhere(self) -> None:
        css = (STATIC_FOLDER / "look.css").read_text(encoding="utf-8")
        assert "@import" not in css
        assert "url(" not in css

    def test_an_old_name_is_gone(self, client: TestClient) -> None:
        assert client.get("/static/look.000000000000.css").status_code == 404
        assert client.get("/static/vendored.json").status_code == 404


def test_the_garage_light_has_little_blue() -> None:
    css = (STATIC_FOLDER / "look.css").read_text(encoding="utf-8")
    block = css[css.index('html[data-light="garage"] {') :]
    colours = re.findall(r"#([0-9a-f]{6})\b", block[: block.index("}")])
    assert len(colours) >= 10
    assert all(int(colour[4:], 16) <= 0x66 for colour in colours)


def _luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("start", [":root {", 'html[data-light="garage"] {'])
def test_words_and_edges_keep_their_contrast(start: str) -> None:
    """Relative luminance and contrast ratio as WCAG 2.2 defines them (1.4.3 and 1.4.11)."""
    css = (STATIC_FOLDER / "look.css").read_text(encoding="utf-8")
    block = css[css.index(start) :]
    tokens = dict(
        re.findall(r"--([a-z-]+):\s*#([0-9a-f]{6})", block[: block.index("color-scheme")])
    )

    def contrast(one: str, other: str) -> float:
        light, dark = sorted((_luminance(tokens[one]), _luminance(tokens[other])), reverse=True)
        return (light + 0.05) / (dark + 0.05)

    for ground in ("paper", "sheet", "shade", "brass"):
        assert contrast("ink", ground) >= 4.5
        assert contrast("oxide", ground) >= 4.5
        assert contrast("soft", ground) >= 4.5
    for ground in ("paper", "sheet", "shade"):
        assert contrast("edge", ground) >= 3
    assert contrast("act-ink", "act") >= 4.5


def test_a_request_outside_the_application_is_a_plain_mistake() -> None:
    from fastapi import FastAPI

    from bareshell.web.templating import views_of

    app = FastAPI()
    app.state.views = None
    with pytest.raises(TypeError, match="create_app"):
        views_of(Request({"type": "http", "app": app, "headers": []}))
