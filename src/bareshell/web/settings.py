"""What the pages are told when they start."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime

from bareshell.web.devices import DeviceStore, NoDevices

LOOPBACK_NAMES = frozenset({"127.0.0.1", "localhost", "::1"})
"""Names by which this computer calls itself."""


@dataclass(frozen=True, slots=True)
class Masthead:
    """What the head of each page says about the build.

    Parameters
    ----------
    name : str
        What the owner calls the build.
    invented : bool
        True for a demo: every page then says so.
    """

    name: str = ""
    invented: bool = False


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class WebSettings:
    """How the pages are served.

    Parameters
    ----------
    home : bool
        True when the home network may reach the pages; phones are then paired first.
    hosts : frozenset of str
        Names and addresses by which this computer may be called besides its own loopback.
    address : str
        What a phone has to open, such as ``http://192.168.1.20:8642``; empty when not `home`.
    devices : DeviceStore
        Where paired devices are kept.
    masthead : callable
        Asked at each page for the build's name and whether it is invented.
    clock : callable
        The time now, with its zone.
    max_body_bytes : int
        The largest request taken; a photo from a phone fits.
    max_upload_bytes : int
        The largest request that brings files: a phone's photographs of one evening at once.
    """

    home: bool = False
    hosts: frozenset[str] = frozenset()
    address: str = ""
    devices: DeviceStore = field(default_factory=NoDevices)
    masthead: Callable[[], Masthead] = Masthead
    clock: Callable[[], datetime] = _now
    max_body_bytes: int = 32 * 1024 * 1024
    max_upload_bytes: int = 320 * 1024 * 1024

    @property
    def allowed_hosts(self) -> frozenset[str]:
        """Every name a request may call this computer by."""
        return LOOPBACK_NAMES | frozenset(host.lower() for host in self.hosts)
