"""The pages that keep a build, laid open on the small car, and someone who sends files."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from bareshell.app.door import Door
from bareshell.web.application import create_app
from bareshell.web.desk import lay_open, masthead_of
from bareshell.web.pages.books import ROUTERS as BOOKS
from bareshell.web.pages.keeping import ROUTERS as KEEPING
from bareshell.web.settings import WebSettings
from tests.stories import NOW, small_car_changes
from tests.web.conftest import Clock, browser
from tests.web.session.by_hand import forms

if TYPE_CHECKING:
    from fastapi import FastAPI
    from starlette.testclient import TestClient


@pytest.fixture
def hand() -> Clock:
    return Clock(NOW)


@pytest.fixture
def door(tmp_path: Path, hand: Clock) -> Iterator[Door]:
    with Door.open(tmp_path / "build", clock=hand, create=True, back_up=False) as door:
        door.record(tuple(small_car_changes()))
        yield door


def app_of(door: Door, **more: Any) -> FastAPI:
    """The pages with a build laid open."""
    settings = WebSettings(masthead=lambda: masthead_of(door), **more)
    app = create_app(settings, pages=[*BOOKS, *KEEPING])
    lay_open(app, door)
    return app


@pytest.fixture
def client(door: Door) -> TestClient:
    return browser(app_of(door))


Chosen = Mapping[str, str | None]
"""What is filled in, by the field's name; None for a box whose tick is taken out."""


@dataclass
class Bringing:
    """Someone who brings a file in, with scripts switched off."""

    client: TestClient

    def bring(self, data: bytes, name: str, status: int = 303) -> str:
        """Send a file, and see the page that follows."""
        answer = self.client.post("/bring-in", files={"file": (name, data)})
        assert answer.status_code == status, answer.text
        return self.see(answer.headers["location"]) if status == 303 else str(answer.text)

    def see(self, path: str, status: int = 200) -> str:
        answer = self.client.get(path)
        assert answer.status_code == status, answer.text
        return str(answer.text)

    def path(self, html: str) -> str:
        """The address of the file that a page shows."""
        found = re.search(r'action="(/bring-in/[A-Za-z0-9_-]+)', html)
        assert found, html
        return found[1]

    def look(self, html: str, chosen: Chosen | None = None) -> str:
        """Choose something and press "Look again"."""
        answer = self.client.post(self.path(html), data=self._filled(html, chosen or {}))
        assert answer.status_code == 303, answer.text
        return self.see(answer.headers["location"])

    def land(self, html: str, chosen: Chosen | None = None, status: int = 303) -> str:
        """Press "Let it land"."""
        data = self._filled(html, chosen or {})
        answer = self.client.post(f"{self.path(html)}/land", data=data)
        assert answer.status_code == status, answer.text
        return self.see(answer.headers["location"]) if status == 303 else str(answer.text)

    def _filled(self, html: str, chosen: Chosen) -> dict[str, list[str]]:
        path = self.path(html)
        form = next(one for one in forms(html) if one.action in (path, f"{path}/land"))
        sent: dict[str, list[str]] = {}
        for name, value in form.fields:
            sent.setdefault(name, []).append(value)
        for name, given in chosen.items():
            assert name in form.names or name in {n for n, _ in form.buttons}, name
            sent.pop(name, None)
            if given is not None:
                sent[name] = [given]
        return sent


@pytest.fixture
def hands(client: TestClient) -> Bringing:
    return Bringing(client)
