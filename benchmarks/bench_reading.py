"""Reading a build with a long history: opening it, and every page's own reading."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent))


def cases(make: Callable[..., Any]) -> Iterator[Any]:
    """400 jobs, 2,000 parts, 3,000 photographs, 20,000 changes."""
    from bareshell.app import reading
    from bareshell.app.door import Door
    from bareshell.whole.plan_problem import plan_question
    from tests.big_build import BigBuild

    folder = Path(tempfile.mkdtemp(prefix="bareshell-bench-")) / "big"
    with Door.open(folder, create=True) as door:
        door.record_dated(list(BigBuild(1).history()))
        door.build()

    def opened() -> None:
        with Door.open(folder) as again:
            again.build()

    yield make("open a journal of 20,000 changes", opened, 0.3)
    door = Door.open(folder)
    now = door.now()
    yield make("read the proofs page", lambda: reading.proofs(door), 0.1)
    yield make("read the shelf page", lambda: reading.shelf(door), 0.1)
    yield make("read the car page", lambda: reading.car(door), 0.1)
    yield make("read the record page", lambda: reading.record(door), 0.1)
    yield make("make the plan's question", lambda: plan_question(door.build(), now), 0.1)
