"""Proofs and covers of a large build: how 1,500 joints stand, and every way through a gate."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent))


def cases(make: Callable[..., Any]) -> Iterator[Any]:
    """1,500 joints in 400 jobs, each with a cover, half of them held."""
    from bareshell.model import Entry, fold
    from bareshell.model import changes as c
    from bareshell.model.proof import AboutKind, Proof, ProofKind, Reading
    from bareshell.model.standing import gate_standings, proof_standings
    from bareshell.model.temp import Gate
    from bareshell.proofs.rehearsal import rehearsal
    from bareshell.proofs.stopping import back_card
    from bareshell.proofs.torque_sheet import torque_sheet
    from bareshell.proofs.way_through import way_through
    from tests.stories import NOW, garage_changes, job

    jobs = [f"job-{n}" for n in range(400)]
    changes: list[c.Change] = [*garage_changes()]
    changes += [
        c.JobSet(job(name, *(jobs[n - 3 : n - 2] if n > 2 else ()))) for n, name in enumerate(jobs)
    ]
    changes += [c.GateSet(Gate(f"gate-{n}", f"Gate {n}", (f"gate-{n - 1}",) if n else (),
                               tuple(jobs[n * 40 : n * 40 + 40]))) for n in range(10)]  # fmt: skip
    for n in range(1500):
        made = n % 360
        changes.append(
            c.ProofSet(
                Proof(f"joint-{n}", f"Joint {n} dry", ProofKind.HELD_PRESSURE, AboutKind.JOINT,
                      f"joint {n}", (jobs[made],), jobs[made + 1],
                      (jobs[made + 20], jobs[made + 30]), (f"gate-{n % 10}",))
            )
        )  # fmt: skip
    changes += [c.JobFinished(name, 1.0) for name in jobs[:200]]
    changes += [
        c.ProofHeld(f"joint-{n}", (Reading("pressure", 75, "bar"),), "owner")
        for n in range(0, 1500, 2)
    ]
    moments = (NOW - timedelta(days=60) + timedelta(minutes=n) for n in range(len(changes)))
    build = fold(
        Entry(n + 1, f"e{n + 1}", at, at, "owner", change)
        for n, (at, change) in enumerate(zip(moments, changes, strict=True))
    )
    yield make("how 1,500 joints stand", lambda: proof_standings(build, NOW), 0.1)
    yield make("what stands before 10 gates", lambda: gate_standings(build, NOW), 0.1)
    yield make("the way through the last gate", lambda: way_through(build, "gate-9", NOW), 0.1)
    yield make("the torque sheet", lambda: torque_sheet(build, NOW), 0.1)
    yield make("the rehearsal", lambda: rehearsal(build, NOW), 0.1)
    yield make("the card after a gap", lambda: back_card(build, NOW), 0.1)
