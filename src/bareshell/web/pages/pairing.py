"""The pairing page that a stranger sees, and the list of paired devices."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Annotated

import segno
from fastapi import Form
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from bareshell.app.plain import plain
from bareshell.draw.svg import Svg
from bareshell.errors import BadInput, NotPaired
from bareshell.web import cookies
from bareshell.web.errors import known, problem_of
from bareshell.web.pairing import PAIR_PATH, desk_of, is_this_computer
from bareshell.web.settings import Masthead
from bareshell.web.templating import views_of
from bareshell.web.twin import PageRouter, as_json, done, page, wants_json

router = PageRouter()


@dataclass(frozen=True, slots=True)
class PairedDevice:
    """A device in the list: what it is called, and when it came and was last here."""

    id: str
    name: str
    paired_on: date
    seen_on: date


@dataclass(frozen=True, slots=True)
class DevicesPage:
    """Who may come in from the home network.

    Parameters
    ----------
    home : bool
        Whether the home network can reach the pages at all.
    devices : tuple of PairedDevice
        The paired ones.
    code : str
        The code on show, spaced for reading; empty when there is none.
    code_until : str
        The time of day at which it lapses.
    address : str
        What the phone has to open, with the code.
    """

    home: bool
    devices: tuple[PairedDevice, ...]
    code: str
    code_until: str
    address: str


@router.get(PAIR_PATH, response_model=None)
def ask(request: Request, code: str = "") -> Response:
    """Show where to type the code; one that came with the address is already filled in."""
    if known(request):
        return RedirectResponse("/", status_code=303)
    return _pairing_page(request, code=code[:12])


@router.post(PAIR_PATH, response_model=None)
def pair(
    request: Request, code: Annotated[str, Form()] = "", name: Annotated[str, Form()] = ""
) -> Response:
    """Take the code; the phone is known from then on."""
    try:
        key = desk_of(request).pair(code, name, request.client.host if request.client else "")
    except (NotPaired, BadInput) as error:
        return _pairing_page(request, code=code[:12], name=name[:80], error=error)
    response = RedirectResponse("/", status_code=303)
    cookies.keep(request, response, cookies.DEVICE, key)
    return response


def _pairing_page(
    request: Request, *, code: str, name: str = "", error: NotPaired | BadInput | None = None
) -> Response:
    """Show the form and not a word about the build."""
    status = error.status if error else 200
    if wants_json(request):
        return as_json({"error": plain(problem_of(error or NotPaired("not paired")))}, status)
    body = views_of(request).render(
        request, "pair.html", masthead=Masthead(), code=code, name=name, error=error
    )
    return HTMLResponse(body, status, headers={"Cache-Control": "no-store"})


@router.page("/devices")
def devices(request: Request) -> Response:
    """List the paired devices, with the code on show."""
    _only_here(request)
    desk, settings = desk_of(request), views_of(request).settings
    code = desk.code()
    paired = tuple(
        PairedDevice(device.id, device.name, device.paired_at.date(), device.seen_on)
        for device in desk.devices()
    )
    context = DevicesPage(
        home=settings.home,
        devices=paired,
        code=code.spaced if code else "",
        code_until=f"{code.until.astimezone():%H:%M}" if code else "",
        address=pairing_address(settings.address, code.letters) if code else settings.address,
    )
    return page(request, "devices.html", context)


@router.post("/devices/code", response_model=None)
def show_code(request: Request) -> Response:
    """Put a new code on show."""
    _only_here(request)
    desk_of(request).new_code()
    return done(request, "/devices", "A new code is on show.")


@router.post("/devices/{device_id}/forget", response_model=None)
def forget(request: Request, device_id: str) -> Response:
    """Forget a device."""
    _only_here(request)
    device = desk_of(request).revoke(device_id)
    return done(request, "/devices", f"{device.name} is forgotten and can no longer come in.")


def _only_here(request: Request) -> None:
    """Codes are made and devices forgotten on the garage computer only, not on a phone."""
    if not is_this_computer(request):
        raise NotPaired(
            "paired devices are looked after on the garage computer only",
            "open this page there",
            known=True,
        )


def pairing_address(address: str, letters: str) -> str:
    """What a phone opens to find the code already filled in.

    Examples
    --------
    >>> pairing_address("http://192.168.1.20:8642", "K7PMQX2D")
    'http://192.168.1.20:8642/pair?code=K7PMQX2D'
    """
    return f"{address}{PAIR_PATH}?code={letters}"


def qr_drawing(address: str) -> Svg:
    """An address as a square code to be read by a phone's camera, black on white in any light."""
    return Svg(
        segno.make(address, error="m").svg_inline(
            border=3, svgclass="qr", lineclass=None, omitsize=True
        )
    )
