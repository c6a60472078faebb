"""Run the pages: on this computer alone, or for the phones of the home network."""

from __future__ import annotations

import io
import socket
from collections.abc import Callable, Iterable
from dataclasses import replace

from fastapi import APIRouter

from bareshell.web.application import create_app
from bareshell.web.network import home_address, listen, own_names
from bareshell.web.pages.pairing import pairing_address
from bareshell.web.pairing import Code, PairingDesk
from bareshell.web.settings import WebSettings

DEFAULT_PORT = 8642


def serve(
    settings: WebSettings,
    *,
    pages: Iterable[APIRouter],
    say: Callable[[str], None],
    host: str = "127.0.0.1",
    port: int = DEFAULT_PORT,
) -> None:
    """Serve until interrupted.

    Parameters
    ----------
    settings : WebSettings
        How; `hosts` and `address` are filled in here.
    pages : iterable of APIRouter
        The areas of the site.
    say : callable
        Where to print the address and, for the home network, the first pairing code.
    host : str
        The address to listen at; with ``settings.home`` every address of this computer.
    port : int
        The port; 0 takes any free one.

    Raises
    ------
    PortTaken
        When the port cannot be had.
    """
    import uvicorn

    listening = listen("0.0.0.0" if settings.home else host, port)  # noqa: S104  home is asked for
    settings = located(settings, host, listening)
    desk = PairingDesk(settings.devices, settings.clock)
    app = create_app(settings, pages=pages, desk=desk)
    for line in greeting(settings, listening.getsockname()[1], host, desk):
        say(line)
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,  # nobody stands before us, so nobody may speak for another
    )
    uvicorn.Server(config).run(sockets=[listening])


def located(settings: WebSettings, host: str, listening: socket.socket) -> WebSettings:
    """The settings with the names and the address this computer really has."""
    if not settings.home:
        return replace(settings, hosts=settings.hosts | {host})
    port = listening.getsockname()[1]
    return replace(
        settings,
        hosts=settings.hosts | own_names(),
        address=f"http://{home_address()}:{port}",
    )


def greeting(settings: WebSettings, port: int, host: str, desk: PairingDesk) -> list[str]:
    """What the terminal says when the pages are up."""
    here = f"http://{host}:{port}/"
    lines = [f"bareshell is open at {here} on this computer. Stop it with Ctrl-C."]
    if not settings.home:
        return lines
    code = desk.new_code()
    lines += [
        f"Phones on the home network: {settings.address}/",
        *pairing_lines(settings.address, code),
        f"For another phone, or to forget one: {here}devices on this computer.",
        "Plain http: anyone on this network could listen in. Use it at home only.",
    ]
    return lines


def pairing_lines(address: str, code: Code) -> list[str]:
    """The square code for the camera, and the same in letters."""
    import segno

    drawn = io.StringIO()
    segno.make(pairing_address(address, code.letters), error="m").terminal(drawn, compact=True)
    return [
        "To pair a phone, point its camera at this, or open that address and type the code:",
        drawn.getvalue().rstrip("\n"),
        f"Code {code.spaced}, good until {code.until.astimezone():%H:%M} and for one phone.",
    ]
