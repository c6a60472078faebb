"""Start writers on a build one after another, kill each at a random moment, look at what is left.

Run as a process of its own: it forks, which a test runner with threads must not. Each round
prints one line of JSON.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sqlite3
import sys
import time
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from bareshell.app.door import Door
from bareshell.model.changes import NoteWritten
from bareshell.model.note import Note

BATCH = 3
AT = datetime(2026, 3, 4, tzinfo=UTC)


def write(folder: Path, name: str, acknowledge: int) -> None:
    """Write batch after batch; say which ids landed once they have."""
    with Door.open(folder) as door:
        for n in range(10_000):
            ids = [f"{name}-{n}-{k}" for k in range(BATCH)]
            door.record([NoteWritten(Note(key, AT, "words " * 50)) for key in ids], ids=ids)
            os.write(acknowledge, ("\n".join(ids) + "\n").encode())


def one_round(folder: Path, name: str, wait_seconds: float) -> dict[str, object]:
    """Let one writer write for a while, kill it, and look."""
    heard, acknowledge = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(heard)
        write(folder, name, acknowledge)
        os._exit(0)
    os.close(acknowledge)
    time.sleep(wait_seconds)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(heard, "rb") as pipe:
        *lines, _ = pipe.read().decode().split("\n")
    with Door.open(folder) as door:
        entries = door.entries()
        folded = sorted(door.build().notes)
    with closing(sqlite3.connect(folder / "journal.db")) as connection:
        integrity = connection.execute("PRAGMA integrity_check").fetchone()[0]
    batches: dict[str, int] = {}
    for entry in entries:
        batch = entry.id.rpartition("-")[0]
        batches[batch] = batches.get(batch, 0) + 1
    return {
        "acknowledged": lines,
        "held": sorted(entry.id for entry in entries),
        "seqs": [entry.seq for entry in entries],
        "folded": folded,
        "whole_batches": set(batches.values()) <= {BATCH},
        "integrity": integrity,
    }


def main() -> None:
    """Run the rounds."""
    folder, rounds = Path(sys.argv[1]), int(sys.argv[2])
    with Door.open(folder, create=True) as door:
        # Also loads what writing needs, so that the writers start at once.
        ids = [f"first-{k}" for k in range(BATCH)]
        door.record([NoteWritten(Note(key, AT, "words")) for key in ids], ids=ids)
    chance = random.Random(7)
    for number in range(rounds):
        told = one_round(folder, f"w{number}", chance.uniform(0.005, 0.06))
        print(json.dumps(told), flush=True)


if __name__ == "__main__":
    main()
