"""Run the pages: on this computer alone, or for the phones of the home network."""

from __future__ import annotations

import io
import socket
from collections.abc import Callable, Iterable
from dataclasses import replace

from fastapi import APIRouter, FastAPI

from bareshell.errors import BadInput
from bareshell.web.application import create_app
from bareshell.web.network import home_address, listen, own_names
from bareshell.web.pages.pairing import pairing_address
from bareshell.web.pairing import Code, PairingDesk
from bareshell.web.settings import LOOPBACK_NAMES, WebSettings

DEFAULT_PORT = 8642


def serve(
    settings: WebSettings,
    *,
    pages: Iterable[APIRouter],
    say: Callable[[str], None],
    host: str = "127.0.0.1",
    port: int = DEFAULT_PORT,
    prepare: Callable[[FastAPI], None] | None = None,
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
        The loopback address to listen at; with ``settings.home`` every address is taken.
    port : int
        The port; 0 takes any free one.
    prepare : callable, optional
        Called with the application once the address was printed, before the first page.

    Raises
    ------
    BadInput
        When others could reach `host` and nobody would have to pair: that is what home is for.
    PortTaken
        When the port cannot be had.
    """
    import uvicorn

    if not settings.home and host not in LOOPBACK_NAMES:
        raise BadInput(
            "host",
            f"{host} can be reached from other machines, and without the home mode nobody is "
            "asked who they are",
            "leave the host out, or start for the home network, where each phone is paired first",
        )

    listening = listen("0.0.0.0" if settings.home else host, port)  # noqa: S104  home is asked for
    settings = located(settings, listening)
    desk = PairingDesk(settings.devices, settings.clock)
    app = create_app(settings, pages=pages, desk=desk)
    for line in greeting(settings, listening.getsockname()[1], host, desk):
        say(line)
    if prepare is not None:
        prepare(app)
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,  # nobody stands before us, so nobody may speak for another
    )
    uvicorn.Server(config).run(sockets=[listening])


def located(settings: WebSettings, listening: socket.socket) -> WebSettings:
    """The settings with the names and the address this computer really has."""
    if not settings.home:
        return settings
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
