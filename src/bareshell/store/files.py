"""Files that are whole or not there: written beside, made durable, then renamed into place."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


@contextmanager
def whole(path: Path) -> Iterator[Path]:
    """Hand out a path to write to; it becomes ``path`` once it is on the disk in full.

    When writing fails, nothing is left behind and what stood at ``path`` still stands.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}-{os.urandom(4).hex()}.part")
    try:
        yield beside
        make_durable(beside)
        beside.replace(path)
        make_durable(path.parent)
    except BaseException:
        with suppress(OSError):
            beside.unlink()
        raise


def make_durable(path: Path) -> None:
    """Wait until a file, or the list of files of a folder, is on the disk."""
    with suppress(PermissionError):  # some systems do not let a folder be opened
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
