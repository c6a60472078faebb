"""The pages with one sample page in them, and clients that come as a browser does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fastapi import FastAPI
from jinja2 import ChoiceLoader, FileSystemLoader
from starlette.testclient import TestClient

from bareshell.web.application import create_app
from bareshell.web.devices import Device
from bareshell.web.settings import Masthead, WebSettings
from tests.web import sample_page

HERE = "http://127.0.0.1:8642"
AT_HOME = "http://192.168.1.20:8642"


@dataclass
class Clock:
    """A clock that a test winds by hand."""

    now: datetime = datetime(2026, 11, 25, 19, 15, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def forward(self, step: timedelta) -> None:
        self.now += step


@dataclass
class MemoryStore:
    """Devices that last as long as the test."""

    kept: tuple[Device, ...] = field(default=())

    def load(self) -> tuple[Device, ...]:
        return self.kept

    def save(self, devices: tuple[Device, ...]) -> None:
        self.kept = devices


Serve = Callable[[WebSettings], FastAPI]


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store() -> MemoryStore:
    return MemoryStore()


def with_sample(settings: WebSettings) -> FastAPI:
    """Make the application with the sample page and its template."""
    app = create_app(settings, pages=[sample_page.router])
    environment = app.state.views.environment
    environment.loader = ChoiceLoader(
        [environment.loader, FileSystemLoader(Path(__file__).parent / "templates")]
    )
    return app


@pytest.fixture
def settings(clock: Clock, store: MemoryStore) -> WebSettings:
    return WebSettings(
        masthead=lambda: Masthead("Grey saloon", invented=True), clock=clock, devices=store
    )


@pytest.fixture
def home_settings(settings: WebSettings) -> WebSettings:
    return replace(settings, home=True, hosts=frozenset({"192.168.1.20"}), address=AT_HOME)


def browser(app: FastAPI, base: str = HERE, address: str = "127.0.0.1") -> TestClient:
    """A client that sends what a browser sends with its own forms."""
    return TestClient(
        app,
        base_url=base,
        client=(address, 50123),
        headers={"Origin": base, "Accept": "text/html,*/*;q=0.8"},
        follow_redirects=False,
        raise_server_exceptions=False,
    )


@pytest.fixture
def client(settings: WebSettings) -> TestClient:
    return browser(with_sample(settings))
