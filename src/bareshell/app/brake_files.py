"""Brake files: read from disk or from a form, written out again."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bareshell.app.brakes_found import system_of
from bareshell.app.door import Door
from bareshell.errors import BadInput, NotFound, Problem
from bareshell.model.brake import BrakeSystem
from bareshell.store.faults import in_words
from bareshell.store.files import whole

LARGEST_BYTES: Final = 1_000_000
"""No car's brakes take a larger file."""


@dataclass(frozen=True, slots=True)
class ReadBrakes:
    """Brakes as a file had them, and what is doubtful in it."""

    system: BrakeSystem
    doubts: tuple[Problem, ...]


def read_brakes(text: str) -> ReadBrakes:
    """Read a brake file.

    Raises
    ------
    BadInput
        With everything that stops it from being read.

    Examples
    --------
    >>> read_brakes('start = "single line"').system.part("master").kind.value
    'master cylinder'
    """
    from bareshell.io.brake_file import read_brake_file

    found = read_brake_file(text)
    stopping = [problem for problem in found.problems if problem.severity == "stops"]
    if stopping:
        raise BadInput.together(stopping)
    if found.system is None:
        raise BadInput("brake file", "there is nothing in it", "name a starter, or write parts")
    return ReadBrakes(found.system, found.problems)


def open_brake_file(path: Path) -> ReadBrakes:
    """Read a brake file from disk.

    Raises
    ------
    NotFound
        When there is no such file.
    BadInput
        When it cannot be a brake file.
    """
    if not path.is_file():
        raise NotFound(f"there is no file '{path}'", "name a brake file that is there")
    with in_words(f"'{path.name}' was not read"):
        if path.stat().st_size > LARGEST_BYTES:
            raise BadInput(f"'{path.name}'", "it is too large for a brake file", "name another")
        data = path.read_bytes()
    return read_brakes(text_of(data, path.name))


def text_of(data: bytes, name: str = "brake file") -> str:
    """Return the text of a brake file as it came.

    Raises
    ------
    BadInput
        When it is empty, too large, or no text.
    """
    if not data.strip():
        raise BadInput(f"'{name}'", "it is empty", "choose a brake file")
    if len(data) > LARGEST_BYTES:
        raise BadInput(f"'{name}'", "it is too large for a brake file", "name another")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise BadInput(f"'{name}'", "it is no text in UTF-8", "save it as plain text") from error


def brake_file_of(door: Door, system_id: str = "", *, short: bool = False) -> str:
    """Write brakes of a build as a brake file: whole, or as what differs from a starter."""
    from bareshell.io.brake_file import shortest_brake_file, write_brake_file

    system = system_of(door.build(), system_id)
    return shortest_brake_file(system) if short else write_brake_file(system)


def save_brake_file(door: Door, system_id: str, path: Path, *, short: bool = False) -> Path:
    """Write brakes of a build to a file, whole or not at all."""
    text = brake_file_of(door, system_id, short=short)
    with in_words(f"'{path.name}' was not written"), whole(path) as beside:
        beside.write_text(text, encoding="utf-8")
    return path
