"""What the brakes on the car want, put on the parts desk when a person says so."""

from __future__ import annotations

from bareshell.app.brakes_proofs import as_built
from bareshell.app.door import Door
from bareshell.app.written import BEFORE, Pen, Written, write_down
from bareshell.whole.brake_needs import brake_needs

NOTHING_WANTED = "The parts desk has everything that these brakes want already."
"""What is said when saying yes would change nothing."""


def want(door: Door, pen: Pen) -> Written:
    """Put on the parts desk what the brakes on the car want and nobody asked for yet.

    What its owner wrote himself stays as he wrote it; a job that is done wants nothing more.

    Raises
    ------
    NotFound
        When the build does not describe the brakes on the car.
    """
    build = door.build()
    system = as_built(build)
    if pen.entry_id is not None and door.entry(pen.entry_id) is not None:
        return Written((BEFORE,), f"brakes:{system.id}", repeated=True)
    found = brake_needs(system, build)
    if not found.changes:
        return Written((NOTHING_WANTED,), f"brakes:{system.id}")
    new = sum(one.comes == "new" for one in found.wanted)
    settled = len(found.changes) - new
    said = []
    if new:
        said.append(f"{new} {'need is' if new == 1 else 'needs are'} on the parts desk now.")
    if settled:
        were = "need is" if settled == 1 else "needs are"
        said.append(f"{settled} general {were} settled to what this car takes.")
    short = sum(1 for one in found.short if one.comes in ("new", "settled"))
    if short:
        said.append(f"{short} of them to be found or ordered; look for them before you order.")
    return write_down(door, found.changes, Pen(pen.author, pen.entry_id), lambda: said)
