"""Starting the pages: which port, which names, and what the terminal says."""

from __future__ import annotations

import socket
from collections.abc import Iterator
from dataclasses import replace

import pytest
import uvicorn

from bareshell.errors import BadInput
from bareshell.web.network import PortTaken, home_address, listen, own_names
from bareshell.web.pairing import PairingDesk
from bareshell.web.serve import greeting, located, serve
from bareshell.web.settings import WebSettings


@pytest.fixture
def listening() -> Iterator[socket.socket]:
    with listen("127.0.0.1", 0) as taken:
        yield taken


@pytest.fixture(autouse=True)
def at_home(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same home network on every machine, asked of nobody."""
    for module in ("network", "serve"):
        monkeypatch.setattr(f"bareshell.web.{module}.home_address", lambda: "192.168.1.20")


def test_without_a_network_the_address_is_loopback(monkeypatch: pytest.MonkeyPatch) -> None:
    def connect(self: socket.socket, address: object) -> None:
        raise OSError("network is unreachable")

    monkeypatch.undo()
    monkeypatch.setattr(socket.socket, "connect", connect)
    assert home_address() == "127.0.0.1"


def test_a_taken_port_is_said_in_a_sentence(listening: socket.socket) -> None:
    port = listening.getsockname()[1]
    with pytest.raises(PortTaken, match=f"port {port} is taken") as refused:
        listen("127.0.0.1", port)
    assert str(port + 1) in refused.value.remedy


def test_an_address_that_is_not_ours_is_said_in_a_sentence() -> None:
    with pytest.raises(PortTaken, match="cannot be used"):
        listen("198.51.100.7", 0)  # reserved for documentation, RFC 5737


def test_alone_the_terminal_says_the_address_and_nothing_of_pairing(
    settings: WebSettings,
) -> None:
    desk = PairingDesk(settings.devices, settings.clock)
    said = "\n".join(greeting(settings, 8642, "127.0.0.1", desk))
    assert "http://127.0.0.1:8642/" in said
    assert "code" not in said.lower()
    assert desk.code() is None


def test_at_home_the_terminal_shows_the_code_in_letters_and_for_a_camera(
    home_settings: WebSettings,
) -> None:
    desk = PairingDesk(home_settings.devices, home_settings.clock)
    lines = greeting(home_settings, 8642, "127.0.0.1", desk)
    said = "\n".join(lines)
    code = desk.code()
    assert code is not None
    assert code.spaced in said
    assert "http://192.168.1.20:8642/" in said
    assert any(line.count("\n") > 10 for line in lines), "no square code for the camera"
    assert "home only" in said


def test_at_home_the_machine_is_known_by_its_own_names(
    home_settings: WebSettings, listening: socket.socket
) -> None:
    found = located(home_settings, listening)
    assert "192.168.1.20" in found.allowed_hosts
    assert socket.gethostname().lower() in found.allowed_hosts
    assert found.address == f"http://192.168.1.20:{listening.getsockname()[1]}"
    assert "0.0.0.0" not in own_names()  # noqa: S104  it is what must not be there


def test_alone_only_loopback_names_are_known(
    settings: WebSettings, listening: socket.socket
) -> None:
    found = located(settings, listening)
    assert found.allowed_hosts == {"127.0.0.1", "localhost", "::1"}


@pytest.mark.parametrize(("home", "bound"), [(False, "127.0.0.1"), (True, "0.0.0.0")])  # noqa: S104
def test_serving_listens_where_it_was_asked_to_and_trusts_no_relay(
    settings: WebSettings, monkeypatch: pytest.MonkeyPatch, home: bool, bound: str
) -> None:
    ran: list[tuple[uvicorn.Config, str]] = []

    def run(self: uvicorn.Server, sockets: list[socket.socket]) -> None:
        ran.append((self.config, sockets[0].getsockname()[0]))
        sockets[0].close()

    monkeypatch.setattr(uvicorn.Server, "run", run)
    said: list[str] = []
    serve(replace(settings, home=home), pages=[], say=said.append, port=0)
    config, address = ran[0]
    assert address == bound
    assert config.proxy_headers is False
    assert config.server_header is False
    assert said[0].startswith("bareshell is open at http://127.0.0.1:")


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.20", "::"])  # noqa: S104  it is refused
def test_nobody_is_let_in_from_outside_without_pairing(settings: WebSettings, host: str) -> None:
    with pytest.raises(BadInput, match="paired first"):
        serve(settings, pages=[], say=print, host=host, port=0)
