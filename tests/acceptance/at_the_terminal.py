"""Typing a command as a person does: through ``main``, with its exit code and both its outputs."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from unittest.mock import patch

from bareshell.cli.main import main


@dataclass(frozen=True, slots=True)
class Said:
    """What came of a command."""

    code: int
    out: str
    err: str

    @property
    def data(self) -> dict[str, object]:
        """What it handed out as data."""
        found = json.loads(self.out)
        assert isinstance(found, dict)
        return found


class Terminal:
    """A terminal in front of one build."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(self, command: str, *words: object, typed: str = "") -> Said:
        """Type a command on the build."""
        return typed_in(command, "--build", self.folder, *words, typed=typed)


def typed_in(*words: object, typed: str = "") -> Said:
    """Type a command; nothing but a sentence may come back, whatever happened."""
    out, err = io.StringIO(), io.StringIO()
    code = 0
    with (
        patch.object(sys, "argv", ["bareshell", *map(str, words)]),
        patch.object(sys, "stdin", io.StringIO(typed)),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        try:
            main()
        except SystemExit as stop:
            code = stop.code if isinstance(stop.code, int) else 0
    said = Said(code, out.getvalue(), err.getvalue())
    assert "Traceback" not in said.out + said.err
    assert "nobody foresaw" not in said.err, said.err
    return said


@contextmanager
def unchanged(latest: Callable[[], int]) -> Iterator[None]:
    """See that nothing is written down meanwhile."""
    before = latest()
    yield
    assert latest() == before, "something was written down"
