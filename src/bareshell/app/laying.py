"""Laying a new build: made beside, and in its place only once it is whole."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from tempfile import mkdtemp

from bareshell.errors import Conflict
from bareshell.store.faults import in_words
from bareshell.store.files import make_durable
from bareshell.store.journal import JOURNAL_FILE


@contextmanager
def laid(folder: Path, remedy: str) -> Iterator[Path]:
    """Hand out a folder to make a build in; its journal moves to ``folder`` at the end.

    Whoever is stopped half way, by a full disk, a power cut or a change of mind, leaves no half
    of a build behind.

    Parameters
    ----------
    folder : Path
        A new folder, or one without a build.
    remedy : str
        What to do when there is a build in it already.

    Raises
    ------
    Conflict
        When there is a build in the folder already.
    """
    with in_words("the build's folder was not made"):
        if (folder / JOURNAL_FILE).exists():
            raise Conflict(f"folder '{folder}'", "holds a build already", remedy)
        was_there = folder.exists()
        folder.mkdir(parents=True, exist_ok=True)
        beside = Path(mkdtemp(prefix=".begun-", dir=folder))
    try:
        yield beside
        with in_words("the build was not begun"):
            for name in ("photos", "backups"):
                (folder / name).mkdir(exist_ok=True)
            (beside / JOURNAL_FILE).rename(folder / JOURNAL_FILE)
            make_durable(folder)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
        if not was_there:
            with suppress(OSError):  # it holds a build by now
                folder.rmdir()
