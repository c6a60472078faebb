"""How long a large build takes to open, write to and take back: 20,000 entries, all invented.

400 jobs, 2,000 needs, 3,000 photos: some ten years of a careful owner.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from bareshell.app.archive import export_archive, import_archive
from bareshell.app.backup import back_up
from bareshell.app.door import Door
from bareshell.model import changes as c
from bareshell.model.job import SYSTEMS, Caution, Job, Way
from bareshell.model.note import Note, Photo
from bareshell.model.part import GoodsIn, Need, OrderLine
from bareshell.model.position import Zone
from bareshell.model.proof import Proof, Reading
from bareshell.model.trust import ThreePoint

ENTRIES = 20_000
BEGAN = datetime(2016, 1, 1, tzinfo=UTC)

_FOLDER = tempfile.TemporaryDirectory()  # kept while the cases run, gone with the process


def definitions(chance: random.Random) -> list[c.Change]:
    """Jobs, proofs, needs and orders."""
    jobs = [
        Job(
            f"job-{n}",
            f"Job number {n} of the build",
            chance.choice(SYSTEMS),
            after=tuple({f"job-{chance.randrange(n)}" for _ in range(2)}) if n > 2 else (),
            ways=(Way(1, ThreePoint(1, 2, 4)), Way(2, ThreePoint(0.5, 1, 2), "kit")),
            zones=frozenset({Zone.UNDERNEATH, Zone.CABIN}),
            cautions=(Caution("Crush", "Never under a car on a jack alone."),),
            tools=("torque wrench", "union spanner"),
        )
        for n in range(400)
    ]
    return [
        *(c.JobSet(job) for job in jobs),
        *(c.ProofSet(Proof(f"proof-{n}", f"Proof {n}", made_by=(f"job-{n}",))) for n in range(250)),
        *(
            c.NeedSet(Need(f"need-{n}", f"Need {n} of a job", f"job-{n % 400}"))
            for n in range(2000)
        ),
        *(
            c.OrderSet(OrderLine(f"order-{n}", f"Order {n}", f"need-{n}", supplier="invented"))
            for n in range(1500)
        ),
    ]


def happenings(chance: random.Random, count: int) -> list[c.Change]:
    """Deliveries, photos, and evenings of work and words."""
    found: list[c.Change] = [
        *(c.GoodsChecked(f"order-{n}", GoodsIn.RIGHT, 1) for n in range(1500)),
        *(
            c.PhotoKept(
                Photo(f"photo-{n}", BEGAN, f"{n}.jpg", "ab" * 32, f"job:job-{n % 400}", "as found")
            )
            for n in range(3000)
        ),
    ]
    while len(found) < count:
        n = len(found)
        found.append(
            chance.choice(
                [
                    c.JobWorked(f"job-{chance.randrange(400)}", 1.0, 2.0, "some words"),
                    c.NoteWritten(Note(f"note-{n}", BEGAN, "words " * 8, f"job:job-{n % 400}")),
                    c.ProofBegun(f"proof-{n % 250}", (Reading("pressure", 70.0, "bar"),)),
                ]
            )
        )
    return found


def written(folder: Path) -> Path:
    """Write the large build down."""
    chance = random.Random(1)
    first = definitions(chance)
    changes = [*first, *happenings(chance, ENTRIES - len(first))]
    dated = [(BEGAN + timedelta(hours=4 * n), change) for n, change in enumerate(changes)]
    with Door.open(folder, create=True, back_up=False) as door:
        for start in range(0, ENTRIES, 2500):
            door.record_dated(dated[start : start + 2500])
    return folder


OPEN = "from bareshell.app.door import Door\nwith Door.open(r'{}') as d: assert d.build().seq >= {}"


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """Opening in a new process with all its imports, and the rest on one that is open."""
    folder = written(Path(_FOLDER.name) / "large")
    door = Door.open(folder, back_up=False)
    assert len(door.build().photos) == 3000
    jobs = [Job(f"new-{n}", f"New {n}", "brakes") for n in range(3000)]
    archive = export_archive(door, Path(_FOLDER.name) / "large.zip").path
    numbers = iter(range(1_000_000))

    def opened() -> None:
        subprocess.run([sys.executable, "-c", OPEN.format(folder, ENTRIES)], check=True)

    def opened_here() -> None:
        with Door.open(folder, back_up=False) as other:
            assert other.build().seq >= ENTRIES

    def opened_without_snapshot() -> None:
        for path in (folder / ".cache").glob("snapshot-*"):
            path.unlink()
        opened_here()

    def said_and_taken_back() -> None:
        door.take_back(door.record(c.JobWorked("job-7", 0.5)).entries[0].id)

    def begun() -> None:
        with Door.open(Path(_FOLDER.name) / f"new-{next(numbers)}", create=True) as new:
            new.record([c.JobSet(job) for job in jobs])

    def exported() -> None:
        export_archive(door, Path(_FOLDER.name) / f"out-{next(numbers)}.zip")

    return [
        case("open 20,000 entries, a new process and its imports", opened, 0.4),
        case("open 20,000 entries", opened_here, 0.3),
        case("ask an open build again", door.build, 0.001),
        case("write one entry down, durable", lambda: door.record(c.JobStarted("job-1")), 0.02),
        case("write one down and take it back", said_and_taken_back, 0.1),
        case("look at a moment of the past", lambda: door.as_of(BEGAN + timedelta(days=999)), 1.0),
        case("make a backup", lambda: back_up(folder, door.now()), 0.5),
        case("begin a build with 3,000 jobs", begun, 5.0),
        case("export an archive", exported, 2.0),
        case(
            "import it",
            lambda: import_archive(archive, Path(_FOLDER.name) / f"in-{next(numbers)}"),
            4.0,
        ),
        case("open 20,000 entries without a snapshot", opened_without_snapshot, 2.0),
    ]
