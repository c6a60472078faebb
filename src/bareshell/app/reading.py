"""What a person can look at: each reading of the build as one frozen value.

Pages, their JSON twins, the command line and the printed sheets all show these and nothing
else, so they can never disagree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bareshell.app.door import Door
from bareshell.errors import NotFound
from bareshell.model import Build, Entry, Standing
from bareshell.model.changes import Settled, Withdrawn
from bareshell.whole.car_overview import CarOverview, JobDetail, JobView, car_overview, job_detail
from bareshell.whole.car_overview import job_views as _job_views
from bareshell.whole.garage_time import zone_of
from bareshell.whole.names import titles_in
from bareshell.whole.proofs_overview import ProofsOverview, proofs_overview
from bareshell.whole.shelf_overview import ShelfOverview, shelf_overview
from bareshell.whole.words import describe_entry

PAGE = 50
"""How many entries of the record are shown at a time."""


@dataclass(frozen=True, slots=True)
class RecordLine:
    """One entry of the journal in people's words."""

    seq: int
    id: str
    happened_at: datetime
    recorded_at: datetime
    author: str
    words: str
    subject: str
    state: str
    late: bool = False
    taken_back_by: str = ""


@dataclass(frozen=True, slots=True)
class RecordPage:
    """A stretch of the record, newest first, and what waits to be settled."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    lines: tuple[RecordLine, ...]
    to_settle: tuple[RecordLine, ...]
    older_before: int | None
    about: str = ""
    as_of: datetime | None = None


@dataclass(frozen=True, slots=True)
class JobsList:
    """Every job with how it stands."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    jobs: tuple[JobView, ...]


def proofs(door: Door, as_of: datetime | None = None) -> ProofsOverview:
    """Read proofs, temps and gates, now or as they stood at a moment."""
    build = door.build() if as_of is None else door.as_of(as_of)
    return proofs_overview(build, as_of or door.now())


def shelf(door: Door, tonight: Sequence[str] = ()) -> ShelfOverview:
    """Read the parts desk; the needs of tonight's jobs come first."""
    build, now = door.build(), door.now()
    return shelf_overview(build, now, now.astimezone(zone_of(build)).date(), tonight)


def car(door: Door, as_of: datetime | None = None) -> CarOverview:
    """Read the car, the garage and the jobs, now or as they stood at a moment."""
    build = door.build() if as_of is None else door.as_of(as_of)
    return car_overview(build, as_of or door.now())


def jobs(door: Door) -> JobsList:
    """List the jobs."""
    build = door.build()
    return JobsList(
        door.now(),
        build.seq,
        build.car_name,
        build.invented,
        _job_views(build),
    )


def job(door: Door, job_id: str) -> JobDetail:
    """Open one job up.

    Raises
    ------
    NotFound
        When the build has no such job.
    """
    build = door.build()
    if job_id not in build.jobs:
        raise NotFound(f"there is no job '{job_id}' in this build", "look for it among the jobs")
    return job_detail(build, job_id)


def record(
    door: Door, *, before: int | None = None, about: str | None = None, limit: int = PAGE
) -> RecordPage:
    """Read a stretch of the record, newest first.

    Parameters
    ----------
    door : Door
        The build.
    before : int or None
        Only entries numbered below this; None for the newest.
    about : str or None
        Only entries about this subject, such as ``job:rear-pipe``.
    limit : int
        At most so many.
    """
    build = door.build()
    found = door.entries(before=before, limit=limit + 1, subject=about, newest_first=True)
    shown = found[:limit]
    gone = _taken_back(door, shown)
    once = names_once(door, build, shown)
    lines = tuple(_line(build, entry, gone, once) for entry in shown)
    waiting = tuple(_line(build, entry, {}, once) for entry in door.named(build.to_settle))
    return RecordPage(
        made_at=door.now(),
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        lines=lines,
        to_settle=waiting,
        older_before=shown[-1].seq if len(found) > limit else None,
        about=about or "",
    )


def _taken_back(door: Door, shown: Sequence[Entry]) -> dict[str, str]:
    """Return which of the shown entries are taken back, by which later entry."""
    by = {entry.id: _withdrawal(door, entry.id) for entry in shown}
    return {key: later for key, later in by.items() if later}


def _withdrawal(door: Door, entry_id: str) -> str:
    """Return the entry that takes another back and stands itself; empty when none does."""
    for entry in reversed(door.entries(subject=f"entry:{entry_id}")):
        if isinstance(entry.change, Withdrawn) and not _withdrawal(door, entry.id):
            return entry.id
    return ""


def names_once(door: Door, build: Build, shown: Sequence[Entry]) -> dict[str, str]:
    """Return what things were called that the build no longer has, for reading old entries."""
    having = {"holding": build.holdings, "need": build.needs, "departure": build.departures,
              "support": build.supports, "pattern": build.patterns, "brakes": build.brakes,
              "brake-part": [f"{s.id}/{x.id}" for s in build.brakes.values() for x in s.parts],
              "brake-line": [f"{s.id}/{x.id}" for s in build.brakes.values() for x in s.lines],
              }  # fmt: skip
    once: dict[str, str] = {}
    for subject in {entry.change.subject for entry in shown}:
        kind, _, key = subject.partition(":")
        if kind in having and key not in having[kind]:
            once |= titles_in(door.entries(subject=subject))
    return once


def _line(build: Build, entry: Entry, gone: dict[str, str], once: dict[str, str]) -> RecordLine:
    if entry.id in gone:
        state = "taken back"
    elif entry.id in build.to_settle:
        state = "to settle"
    elif entry.standing is Standing.TO_SETTLE:
        state = "settled"
    elif isinstance(entry.change, Withdrawn | Settled):
        state = "about the record"
    else:
        state = "kept"
    zone = zone_of(build)
    return RecordLine(
        seq=entry.seq,
        id=entry.id,
        happened_at=entry.happened_at.astimezone(zone),
        recorded_at=entry.recorded_at.astimezone(zone),
        author=entry.author,
        words=describe_entry(entry, build, once),
        subject=entry.change.subject,
        state=state,
        late=(entry.recorded_at - entry.happened_at).total_seconds() > 12 * 3600,
        taken_back_by=gone.get(entry.id, ""),
    )
