"""Pairing a phone on the home network: a short code, shown once, then a long key in a cookie.

A code is eight letters and figures that cannot be mistaken for each other, good for ten minutes
and one device. A wrong guess counts against the address it came from and against the code, so
guessing ends long before it could succeed: five tries out of 31**8. Of a key only the hash is
kept.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from ipaddress import IPv4Address, IPv6Address, ip_address
from typing import Final

from starlette.requests import HTTPConnection, Request
from starlette.types import ASGIApp, Receive, Scope, Send

from bareshell.errors import BadInput, NotFound, NotPaired
from bareshell.web import cookies
from bareshell.web.assets import PREFIX
from bareshell.web.devices import Device, DeviceStore
from bareshell.web.errors import make_known
from bareshell.web.security import host_name
from bareshell.web.settings import LOOPBACK_NAMES

LETTERS: Final = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
CODE_LENGTH: Final = 8
CODE_LASTS: Final = timedelta(minutes=10)
TRIES_EACH: Final = 5
TRIES_IN_ALL: Final = 20
NAME_MOST: Final = 40
PAIR_PATH: Final = "/pair"
CALENDAR_PATH: Final = "/calendar.ics"


class TooManyTries(NotPaired):
    """Too many wrong codes: from this address, or for this code."""

    def __init__(self) -> None:
        super().__init__(
            "too many codes did not fit, so this one is no longer taken",
            "ask for a new code on the garage computer",
        )
        self.status = 429


@dataclass(frozen=True, slots=True)
class Code:
    """A code on show.

    Parameters
    ----------
    letters : str
        The code itself.
    until : datetime
        When it lapses.
    """

    letters: str
    until: datetime

    @property
    def spaced(self) -> str:
        """The code as one reads it aloud: ``K7PM QX2D``."""
        return f"{self.letters[:4]} {self.letters[4:]}"


def random_code() -> str:
    """A fresh code."""
    return "".join(secrets.choice(LETTERS) for _ in range(CODE_LENGTH))


def random_key() -> str:
    """A fresh key for a device: 256 bits."""
    return secrets.token_urlsafe(32)


class PairingDesk:
    """Hands out codes, takes them back once, and knows the paired devices.

    Parameters
    ----------
    store : DeviceStore
        Where devices are kept.
    clock : callable
        The time now, with its zone.
    make_code, make_key : callable
        Where codes and keys come from.
    """

    def __init__(
        self,
        store: DeviceStore,
        clock: Callable[[], datetime],
        make_code: Callable[[], str] = random_code,
        make_key: Callable[[], str] = random_key,
    ) -> None:
        self._store = store
        self._clock = clock
        self._make_code = make_code
        self._make_key = make_key
        self._lock = threading.Lock()
        self._code: Code | None = None
        self._wrong: dict[str, int] = {}
        self._devices = store.load()

    def new_code(self) -> Code:
        """Show a new code; an older one is no longer taken, and old tries are forgotten."""
        with self._lock:
            self._code = Code(self._make_code(), self._clock() + CODE_LASTS)
            self._wrong = {}
            return self._code

    def code(self) -> Code | None:
        """The code that is taken now, if any."""
        with self._lock:
            return self._live_code()

    def pair(self, typed: str, name: str, address: str) -> str:
        """Take a code and hand out a key.

        Parameters
        ----------
        typed : str
            The code as typed; small letters, spaces and hyphens do no harm.
        name : str
            What its owner calls the device.
        address : str
            Where the request came from.

        Returns
        -------
        key : str
            What the device carries in its cookie from now on.

        Raises
        ------
        BadInput
            When the device has no name, or too long a one.
        TooManyTries
            After five wrong codes from one address, or twenty in all.
        NotPaired
            When the code is not the one on show, or none is.
        """
        called = " ".join(name.split())
        if not called or len(called) > NAME_MOST:
            raise BadInput(
                "name of this device",
                "is missing" if not called else f"has {len(called)} letters",
                f"write up to {NAME_MOST} letters, such as garage phone",
            )
        with self._lock:
            self._check(typed, address)
            key = self._make_key()
            now = self._clock()
            device = Device(secrets.token_hex(4), called, _hash(key), now, now.date())
            self._keep((*self._devices, device))
            self._code = None
            return key

    def _check(self, typed: str, address: str) -> None:
        """Compare a code in constant time and count what does not fit."""
        if self._wrong.get(address, 0) >= TRIES_EACH:
            raise TooManyTries
        shown = self._live_code()
        plain = "".join(letter for letter in typed.upper() if letter.isalnum())
        fits = hmac.compare_digest(plain.encode(), (shown.letters if shown else " ").encode())
        if shown is None or not fits:
            self._wrong[address] = self._wrong.get(address, 0) + 1
            if sum(self._wrong.values()) >= TRIES_IN_ALL:
                self._code = None
                raise TooManyTries
            raise NotPaired(
                "this code is not the one on show, or it has lapsed",
                "look at the garage computer again; a code is good for ten minutes and one device",
            )

    def _live_code(self) -> Code | None:
        if self._code is not None and self._clock() >= self._code.until:
            self._code = None
        return self._code

    def device(self, key: str) -> Device | None:
        """The device that carries a key, or None for a stranger; notes the day it was here."""
        hashed = _hash(key)
        with self._lock:
            found = None
            for device in self._devices:
                if hmac.compare_digest(device.key_hash, hashed):
                    found = device
            today = self._clock().date()
            if found is not None and found.seen_on != today:
                seen = replace(found, seen_on=today)
                self._keep(tuple(seen if d.id == found.id else d for d in self._devices))
                return seen
            return found

    def calendar_key(self, device: Device) -> str:
        """The key with which a device's calendar may read ours, and nothing else.

        A calendar carries no cookie, so its key stands in its address. It is made from what is
        kept of the device, opens the calendar alone, and lapses with the device.
        """
        return hmac.new(device.key_hash.encode(), b"calendar", hashlib.sha256).hexdigest()

    def opens_calendar(self, key: str) -> bool:
        """Whether a key is that of some paired device's calendar."""
        given = key.encode()
        found = False
        for device in self.devices():
            found |= hmac.compare_digest(self.calendar_key(device).encode(), given)
        return found

    def devices(self) -> tuple[Device, ...]:
        """Every paired device, the newest last."""
        with self._lock:
            return self._devices

    def revoke(self, device_id: str) -> Device:
        """Forget a device: its key opens nothing from now on.

        Raises
        ------
        NotFound
            When no such device is paired.
        """
        with self._lock:
            found = next((d for d in self._devices if d.id == device_id), None)
            if found is None:
                raise NotFound(
                    "no such device is paired", "look at the list again: it may be gone already"
                )
            self._keep(tuple(device for device in self._devices if device.id != device_id))
            return found

    def _keep(self, devices: tuple[Device, ...]) -> None:
        self._store.save(devices)
        self._devices = devices


def _hash(key: str) -> str:
    """A key is 256 random bits, so a plain hash of it tells nothing."""
    return hashlib.sha256(key.encode()).hexdigest()


class PairingGate:
    """Let in this computer and paired devices; show anyone else how to pair, and nothing more.

    Parameters
    ----------
    app : ASGI application
        What is inside.
    desk : PairingDesk
        Knows the paired devices.
    home : bool
        False when only this computer can reach the pages.
    """

    def __init__(self, app: ASGIApp, desk: PairingDesk, *, home: bool) -> None:
        self._app = app
        self._desk = desk
        self._home = home

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on whoever may come in."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        connection = HTTPConnection(scope)
        if not self._home or is_this_computer(connection) or self._is_paired(connection):
            make_known(scope)
        elif self._reads_the_calendar(connection):
            pass
        elif not _is_open_to_strangers(scope):
            raise NotPaired(
                "this device is not paired with bareshell",
                "open the page again after pairing it with the code on the garage computer",
            )
        await self._app(scope, receive, send)

    def _reads_the_calendar(self, connection: HTTPConnection) -> bool:
        if connection.scope["type"] != "http" or connection.scope["path"] != CALENDAR_PATH:
            return False
        key = connection.query_params.get("key", "")
        return bool(key) and _is_near(connection) and self._desk.opens_calendar(key)

    def _is_paired(self, connection: HTTPConnection) -> bool:
        key = connection.cookies.get(cookies.DEVICE, "")
        return bool(key) and self._desk.device(key) is not None


def _is_open_to_strangers(scope: Scope) -> bool:
    """The pairing page and the files it needs; at home, so nothing from a public address."""
    if scope["type"] != "http" or not _is_near(HTTPConnection(scope)):
        return False
    path: str = scope["path"]
    return path == PAIR_PATH or path.startswith(PREFIX)


def _is_near(connection: HTTPConnection) -> bool:
    """Whether the address belongs to a home network."""
    address = _address(connection)
    return address is not None and (address.is_private or address.is_link_local)


def _address(connection: HTTPConnection) -> IPv4Address | IPv6Address | None:
    """Where a request came from, an IPv4 address in IPv6 dress undressed."""
    try:
        address = ip_address(connection.client.host if connection.client else "")
    except ValueError:
        return None
    if isinstance(address, IPv6Address) and address.ipv4_mapped is not None:
        return address.ipv4_mapped
    return address


def is_this_computer(connection: HTTPConnection) -> bool:
    """Whether a request was made on this very computer, by a name only it uses for itself.

    Both are asked: a relay running here would come from the loopback address too, but passes
    on the name it was called by.
    """
    address = _address(connection)
    host = host_name(connection.headers.get("host", ""))
    return address is not None and address.is_loopback and host in LOOPBACK_NAMES


def desk_of(request: Request) -> PairingDesk:
    """The pairing desk of the application that got this request."""
    desk = request.app.state.pairing
    if not isinstance(desk, PairingDesk):
        raise TypeError("This application was not made by create_app.")
    return desk
