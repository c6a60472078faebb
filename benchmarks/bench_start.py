"""How long until a command answers, and until the bottom layers are there."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """A new process each time, as a person starts one."""
    command = Path(sys.executable).with_name("bareshell")

    def run(*words: str) -> Callable[[], object]:
        return lambda: subprocess.run(words, check=True, capture_output=True)

    return [
        case("an empty Python process", run(sys.executable, "-c", "")),
        case("bareshell --help", run(str(command), "--help"), 0.2),
        case("import bareshell.units", run(sys.executable, "-c", "import bareshell.units"), 0.15),
    ]
