"""How long each page takes on a build with a long history, the solve itself kept."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent))

PAGES = (
    "/tonight",
    "/road-ahead",
    "/shelf",
    "/needs",
    "/proofs",
    "/record",
    "/car",
    "/jobs",
    "/jobs/j250",
    "/bring-in",
    "/write-out",
    "/photos",
    "/shelf.json",
    "/proofs.json",
)
NOW = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)


def cases(make: Callable[..., Any]) -> Iterator[Any]:
    """400 jobs, 2,000 parts, 3,000 photographs, 20,000 changes; every page after its solve."""
    from starlette.testclient import TestClient

    from bareshell.app.door import Door
    from bareshell.web.bench import Bench
    from bareshell.web.site import site_app
    from tests.big_build import BigBuild

    folder = Path(tempfile.mkdtemp(prefix="bareshell-bench-")) / "big"
    with Door.open(folder, create=True) as door:
        door.record_dated(list(BigBuild(1).history()))
    bench = Bench(folder, clock=lambda: NOW)
    client = TestClient(site_app(bench), base_url="http://127.0.0.1")
    for path in PAGES:
        for _ in range(60):
            answer = client.get(path)
            if answer.status_code != 503:  # the plan is still being worked out
                break
        assert answer.status_code == 200, (path, answer.status_code)
        yield make(f"serve {path}", partial(client.get, path), 0.1)
