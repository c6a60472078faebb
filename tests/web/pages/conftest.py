"""A small car laid open, and a reader that fills in forms as a browser without scripts does."""

from __future__ import annotations

import shutil
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bareshell.app.door import Door
from bareshell.model.changes import Change
from bareshell.web.application import create_app
from bareshell.web.desk import lay_open, masthead_of
from bareshell.web.pages.books import ROUTERS
from bareshell.web.settings import Masthead, WebSettings
from tests.stories import NOW, small_car_changes
from tests.web.conftest import browser

if TYPE_CHECKING:
    from fastapi import FastAPI
    from httpx2 import Response
    from starlette.testclient import TestClient


@dataclass
class Hand:
    """A clock wound by hand."""

    now: datetime = NOW

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture(scope="session")
def app() -> FastAPI:
    """The pages, made once; each test lays its own build open."""
    made: list[FastAPI] = []

    def masthead() -> Masthead:
        return masthead_of(made[0].state.door)

    made.append(create_app(WebSettings(masthead=masthead), pages=ROUTERS))
    return made[0]


def begin_build(folder: Path, changes: Iterable[Change]) -> Path:
    """Lay a build that was begun a month ago."""
    then = Hand(NOW - timedelta(days=30))
    with Door.open(folder, clock=then, create=True, back_up=False) as door:
        door.record(tuple(changes))
    return folder


@pytest.fixture(scope="session")
def small_build(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small car, written down once; each test works on a copy."""
    return begin_build(tmp_path_factory.mktemp("small") / "build", small_car_changes())


@pytest.fixture
def hand() -> Hand:
    return Hand()


@pytest.fixture
def door(small_build: Path, tmp_path: Path, hand: Hand) -> Iterator[Door]:
    folder = shutil.copytree(small_build, tmp_path / "build")
    with Door.open(folder, clock=hand, back_up=False) as door:
        yield door


@pytest.fixture
def empty_door(tmp_path: Path, hand: Hand) -> Iterator[Door]:
    with Door.open(tmp_path / "empty", clock=hand, create=True, back_up=False) as door:
        yield door


@dataclass
class Shown:
    """One form of a page as a browser holds it."""

    action: str
    fields: dict[str, list[str]] = field(default_factory=dict)


class FormReader(HTMLParser):
    """Finds the forms of a page that write something, and what stands in their fields."""

    def __init__(self) -> None:
        super().__init__()
        self.forms: list[Shown] = []
        self._form: Shown | None = None
        self._select = ""
        self._area = ""
        self._text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "form":
            self._form = Shown(given.get("action", ""))
            if given.get("method") == "post":
                self.forms.append(self._form)
        elif self._form is None or ("name" not in given and tag != "option"):
            return
        elif tag == "input":
            self._input(given)
        elif tag == "select":
            self._select = given["name"]
        elif tag == "option" and self._select:
            values = self._form.fields.setdefault(self._select, [])
            if "selected" in given or not values:
                self._form.fields[self._select] = [given.get("value", "")]
        elif tag == "textarea":
            self._area, self._text = given["name"], []

    def _input(self, given: dict[str, str]) -> None:
        if given.get("type") in ("checkbox", "radio") and "checked" not in given:
            return
        assert self._form is not None
        self._form.fields.setdefault(given["name"], []).append(given.get("value", ""))

    def handle_data(self, data: str) -> None:
        if self._area:
            self._text.append(data)

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._form = None
        elif tag == "select":
            self._select = ""
        elif tag == "textarea" and self._form is not None:
            self._form.fields.setdefault(self._area, []).append("".join(self._text).strip("\n"))
            self._area = ""


@dataclass
class Hands:
    """Someone at the page, with scripts switched off."""

    client: TestClient

    def see(self, path: str, status: int = 200) -> str:
        """Open a page."""
        answer = self.client.get(path)
        assert answer.status_code == status, answer.text
        return answer.text

    def form(self, path: str, action: str) -> Shown:
        """The form of a page that goes to an action."""
        return form_in(self.see(path), action)

    def send(self, path: str, action: str = "", **filled: str | list[str]) -> str:
        """Fill in the form of a page, send it, and see the page that follows."""
        action = action or path
        answer = self.post(self.form(path, action), **filled)
        assert answer.status_code == 303, answer.text
        return self.see(answer.headers["location"])

    def refused(self, path: str, action: str, status: int, **filled: str | list[str]) -> str:
        """Fill in the form of a page and see it again with what is wrong."""
        answer = self.post(self.form(path, action), **filled)
        assert answer.status_code == status, answer.text
        return str(answer.text)

    def post(self, form: Shown, **filled: str | list[str]) -> Response:
        """Send a form with some of its fields filled in."""
        given = {k: v if isinstance(v, list) else [v] for k, v in filled.items()}
        return self.client.post(form.action, data={**form.fields, **given})


def form_in(page: str, action: str) -> Shown:
    """The form of a page that goes to an action."""
    reader = FormReader()
    reader.feed(page)
    found = [form for form in reader.forms if form.action == action]
    assert found, f"no form to {action}; there are {[form.action for form in reader.forms]}"
    return found[0]


@pytest.fixture
def hands(app: FastAPI, door: Door) -> Hands:
    lay_open(app, door)
    return Hands(browser(app))


@pytest.fixture
def empty_hands(app: FastAPI, empty_door: Door) -> Hands:
    lay_open(app, empty_door)
    return Hands(browser(app))


def at(day: int, hour: int = 12) -> datetime:
    """A moment of the month the stories are told in."""
    return datetime(2026, 3, day, hour, tzinfo=UTC)
