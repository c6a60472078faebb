"""What every test may lean on: repeatable examples, no way out to the network, and a browser."""

from __future__ import annotations

import os
import shutil
import socket
from collections.abc import Iterator
from ipaddress import ip_address
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

# The same examples on every run and machine; how long one takes is no part of a test.
settings.register_profile(
    "bareshell",
    derandomize=True,
    deadline=None,
    database=None,
    max_examples=100,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("bareshell")


class OutsideError(AssertionError):
    """A test reached for the network."""


def _is_inside(address: Any) -> bool:
    if not isinstance(address, tuple):
        return True  # a socket file on this machine
    host = str(address[0])
    if host in {"", "localhost"}:
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


@pytest.fixture(autouse=True, scope="session")
def no_way_out() -> Iterator[None]:
    """Let a test speak to this machine only."""
    real = socket.socket.connect

    def connect(self: socket.socket, address: Any) -> None:
        if not _is_inside(address):
            message = f"a test tried to reach {address}"
            raise OutsideError(message)
        real(self, address)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", connect)
        yield


@pytest.fixture
def free_port() -> int:
    """A port on this machine that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """The Chromium that browser tests drive: BARESHELL_CHROMIUM, or the machine's own."""
    named = os.environ.get("BARESHELL_CHROMIUM")
    names = (named, "chromium", "chromium-browser", "google-chrome")
    found = next((path for name in names if name and (path := shutil.which(name))), None)
    assert found is not None, "no Chromium here: run `make browser`, or leave out -m browser"
    return found
