"""Paired devices and where they are kept: hashes of their keys, never the keys."""

from __future__ import annotations

import contextlib
import json
import os
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any, Protocol

from bareshell.errors import Damaged

_FORMAT = 1


@dataclass(frozen=True, slots=True)
class Device:
    """A phone or browser that was paired.

    Parameters
    ----------
    id : str
        A short name for lists and for revoking; says nothing about the key.
    name : str
        What its owner called it.
    key_hash : str
        SHA-256 of the key in its cookie, in hexadecimal.
    paired_at : datetime
        When it was paired.
    seen_on : date
        The last day it was here.
    """

    id: str
    name: str
    key_hash: str
    paired_at: datetime
    seen_on: date


class DeviceStore(Protocol):
    """Keeps the paired devices from one start to the next."""

    def load(self) -> tuple[Device, ...]:
        """Every device that is paired."""

    def save(self, devices: tuple[Device, ...]) -> None:
        """Keep these devices and no others."""


class NoDevices:
    """A store for pages that only this computer can reach: nothing is paired, nothing kept."""

    def load(self) -> tuple[Device, ...]:
        """No device."""
        return ()

    def save(self, devices: tuple[Device, ...]) -> None:
        """Keep nothing."""


class JsonDeviceStore:
    """Devices in one small JSON file that only its owner can read.

    Parameters
    ----------
    path : Path
        The file; its folder must exist.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    def load(self) -> tuple[Device, ...]:
        """Every device in the file; none when there is no file yet.

        Raises
        ------
        Damaged
            When the file cannot be read. Nobody is let in by mistake.
        """
        try:
            raw = self._path.read_text(encoding="utf-8")
        except FileNotFoundError:
            return ()
        try:
            return _all(json.loads(raw))
        except (KeyError, TypeError, ValueError) as error:
            raise Damaged(
                f"the list of paired devices, {self._path}, cannot be read ({error})",
                "delete that file and pair the phones again",
            ) from error

    def save(self, devices: tuple[Device, ...]) -> None:
        """Write the file anew beside the old one, then put it in its place."""
        content = {"format": _FORMAT, "devices": [_written(device) for device in devices]}
        beside = self._path.with_name(self._path.name + ".new")
        with contextlib.suppress(FileNotFoundError):
            beside.unlink()
        handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump(content, file, indent=1)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(self._path)


def _all(found: dict[str, Any]) -> tuple[Device, ...]:
    if found["format"] != _FORMAT:
        raise ValueError(f"format {found['format']!r} is not {_FORMAT}")
    return tuple(_read(row) for row in found["devices"])


def _written(device: Device) -> dict[str, str]:
    return {
        "id": device.id,
        "name": device.name,
        "key_hash": device.key_hash,
        "paired_at": device.paired_at.isoformat(),
        "seen_on": device.seen_on.isoformat(),
    }


def _read(row: dict[str, str]) -> Device:
    return Device(
        id=str(row["id"]),
        name=str(row["name"]),
        key_hash=str(row["key_hash"]),
        paired_at=datetime.fromisoformat(row["paired_at"]),
        seen_on=date.fromisoformat(row["seen_on"]),
    )
