"""Going back to standard, and being stopped well: what it takes, and how the car is left."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.app.door import Door
from bareshell.app.evidence import Named, head_of
from bareshell.app.written import Pen, Written, write_down
from bareshell.errors import BareshellError, Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.proofs.stopping import Left, back_card, been_away
from bareshell.proofs.way_back import WayBack, laid, way_back
from bareshell.proofs.way_through import fewest_people
from bareshell.whole.tickets import limit_words


@dataclass(frozen=True, slots=True)
class BackStep:
    """One step of the way back."""

    what: str
    job: str
    from_job: str
    low_hours: float
    likely_hours: float
    high_hours: float
    people: int


@dataclass(frozen=True, slots=True)
class BackPage:
    """What returning one departure to standard would take."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    id: str
    title: str
    system: str
    what_was: str
    what_is: str
    originals: str
    to_return: str
    fitted: bool
    steps: tuple[BackStep, ...]
    low_hours: float
    likely_hours: float
    high_hours: float
    needs: tuple[Named, ...]
    proofs: tuple[Named, ...]
    blanks: tuple[str, ...]
    shared_with: tuple[str, ...]
    unknown: tuple[str, ...]
    taken_in: bool
    version: int | None = None


@dataclass(frozen=True, slots=True)
class BackBook:
    """Every departure with its way back: for whoever has the car next."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    departures: tuple[BackPage, ...]


@dataclass(frozen=True, slots=True)
class LeftPage:
    """How the car is left, or how it was found after a gap."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    loose: tuple[Left, ...]
    open: tuple[Left, ...]
    holding: tuple[Left, ...]
    curing: tuple[Left, ...]
    temps: tuple[Left, ...]
    stands_on: str
    last_at: datetime | None
    gap_days: int | None
    after_a_gap: bool
    last_words: tuple[str, ...]
    spent_meanwhile: tuple[Left, ...]
    due_in: tuple[Left, ...]


def back(door: Door, departure_id: str) -> BackPage:
    """Work out what returning a departure would take.

    Raises
    ------
    NotFound
        When there is no such departure.
    """
    return _page(door.build(), door.now(), departure_id)


def back_book(door: Door) -> BackBook:
    """Work out the way back for every departure of the car."""
    build, now = door.build(), door.now()
    return BackBook(*head_of(build, now), tuple(_page(build, now, key) for key in build.departures))


def take_in(door: Door, departure_id: str, pen: Pen) -> Written:
    """Put the way back into the build as jobs, needs and proofs of its own.

    Raises
    ------
    Refused
        When it is in the build already, or there is nothing on the car to return.
    """
    build = door.build()
    found = way_back(build, departure_id)
    title = found.departure.title
    if _taken_in(build, found):
        raise Refused("once", f"the way back from '{title}' is in the build", "open its first job")
    if not found.fitted:
        raise Refused(
            "nothing to return", f"nothing of '{title}' is on the car", "leave its jobs out instead"
        )
    jobs, needs, proofs = laid(found)
    changes = [
        *(c.JobSet(job) for job in jobs),
        *(c.NeedSet(need) for need in needs),
        *(c.ProofSet(proof) for proof in proofs),
    ]
    said = f"The way back from '{title}' is in the build: {len(jobs)} jobs."
    return write_down(door, changes, pen, said)


def left(door: Door) -> LeftPage:
    """Read how the car is left."""
    return _left(door.build(), door.now())


def away(door: Door) -> LeftPage | None:
    """Read how the car was left, once nobody was there for so long that it must be said."""
    build, now = door.build(), door.now()
    return _left(build, now) if been_away(build, now) else None


def _left(build: Build, now: datetime) -> LeftPage:
    card = back_card(build, now)
    note = card.note
    return LeftPage(
        *head_of(build, now),
        note.loose,
        note.open,
        note.holding,
        note.curing,
        note.temps,
        card.stands_on,
        card.last_at,
        card.gap_days,
        card.is_due,
        card.last_words,
        card.spent_meanwhile,
        card.due_in,
    )


def next_moves(door: Door) -> tuple[str, ...]:
    """Return the first three moves of the next session; none when nothing can be planned."""
    from bareshell.app.tonight import tonight  # the planner: heavy, and asked for only here

    try:
        return tuple(ticket.title for ticket in tonight(door).jobs[:3])
    except BareshellError:
        return ()


def _taken_in(build: Build, found: WayBack) -> bool:
    return any(step.job.id in build.jobs for step in found.steps)


def _page(build: Build, now: datetime, departure_id: str) -> BackPage:
    found = way_back(build, departure_id)
    departure, hours = found.departure, found.hours
    return BackPage(
        *head_of(build, now),
        departure.id,
        departure.title,
        departure.system,
        departure.what_was,
        departure.what_is,
        found.originals,
        departure.to_return,
        found.fitted,
        tuple(
            BackStep(
                str(step.kind),
                step.job.title,
                step.from_job,
                step.hours.optimistic_hours,
                step.hours.likely_hours,
                step.hours.pessimistic_hours,
                fewest_people(step.job).people,
            )
            for step in found.steps
        ),
        hours.optimistic_hours,
        hours.likely_hours,
        hours.pessimistic_hours,
        tuple(Named(need.id, need.title, f"{need.quantity}") for need in found.needs),
        tuple(
            Named(proof.id, proof.called, "; ".join(limit_words(each) for each in proof.limits))
            for proof in found.proofs
        ),
        tuple(_blanks(build, departure_id)),
        found.shared_with,
        found.unknown,
        _taken_in(build, found),
        build.versions.get(f"departure:{departure_id}"),
    )


def _blanks(build: Build, departure_id: str) -> list[str]:
    """Name the blanked ends of the brakes that this departure left behind."""
    return [
        f"{part.title} ({system.title})"
        for system in build.brakes.values()
        for part in system.parts
        if part.departure == departure_id and part.kind.value == "blank"
    ]
