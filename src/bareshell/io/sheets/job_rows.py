"""Rows of jobs: what each is, and how far it has come."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, time
from typing import Any

from bareshell.errors import BadInput
from bareshell.io.sheets import figures as f
from bareshell.io.sheets.alike import find_named, named_exactly
from bareshell.io.sheets.desk import Desk, did_you_mean, given, note_of, read_cell
from bareshell.io.sheets.figures import Done
from bareshell.io.sheets.meanings import Meaning, SheetKind
from bareshell.io.sheets.rows import Row
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.job import SYSTEMS, Job, JobStatus, Way
from bareshell.model.trust import ThreePoint

__all__ = ["job_changes", "job_fields", "job_words", "system_called"]

_SYSTEM_WORDS = {
    "brake": "brakes",
    "braking": "brakes",
    "hydraulics": "brakes",
    "electrical": "electrics",
    "electric": "electrics",
    "elec": "electrics",
    "wiring": "electrics",
    "loom": "electrics",
    "axles": "suspension",
    "axle": "suspension",
    "chassis": "suspension",
    "tyres": "wheels",
    "wheel": "wheels",
    "motor": "engine",
    "gearbox": "gearbox and clutch",
    "transmission": "gearbox and clutch",
    "clutch": "gearbox and clutch",
    "fuel system": "fuel",
    "cooling system": "cooling",
    "radiator": "cooling",
    "body": "body fittings",
    "bodywork": "body fittings",
    "trim": "interior",
    "cabin": "interior",
    "seats": "interior",
    "windows": "glass",
    "windscreen": "glass",
    "underseal": "underbody",
    "underneath": "underbody",
    "testing": "commissioning",
    "admin": "paperwork",
    "papers": "paperwork",
    "documents": "paperwork",
}
"""Other words for the systems: common practice, no source."""


def system_called(words: str) -> str | None:
    """Return the system that words name.

    Examples
    --------
    >>> system_called("BRAKES"), system_called("Wiring"), system_called("brake system")
    ('brakes', 'electrics', 'brakes')
    """
    plain = " ".join(re.sub(r"[^a-z]+", " ", words.casefold()).split())
    for name in (plain, plain.removesuffix(" system"), plain.removesuffix("s")):
        if name in SYSTEMS:
            return name
        if name in _SYSTEM_WORDS:
            return _SYSTEM_WORDS[name]
    return None


def job_fields(row: Row, desk: Desk) -> dict[str, Any]:
    """Return a job's fields as a row gives them."""
    return given(
        title=row.text(Meaning.TITLE),
        system=_system(row, desk),
        after=_after(row, desk) or None,
        ways=_ways(row, desk),
        note=note_of(row, SheetKind.JOBS),
    )


def _system(row: Row, desk: Desk) -> str | None:
    said = row.text(Meaning.SYSTEM)
    for words in (said, row.heading, desk.for_all(Meaning.SYSTEM)):
        found = system_called(words)
        if found:
            return found
    remedy = f"one of {', '.join(SYSTEMS)}; or say one for all such rows"
    what = f"'{said}' is no system" if said else "it does not say which system it belongs to"
    row.say(Meaning.SYSTEM, what, remedy)
    return None


def _ways(row: Row, desk: Desk) -> tuple[Way, ...] | None:
    cell = row.cell(Meaning.HOURS)
    try:
        hours, assumed = f.three_hours_in(cell, "hours") if cell is not None else (None, "")
    except BadInput as error:
        row.refuse(Meaning.HOURS, error)
        return None
    if assumed:
        desk.count(f"give an estimate: {assumed}")
    if hours is None:
        desk.count("have no hours: 1, 2 and 4 are taken until somebody knows better")
    people = read_cell(row, Meaning.PEOPLE, lambda each: f.quantity_in(each, "people"))
    if people not in (None, 1, 2):
        row.say(Meaning.PEOPLE, f"{people} people are more than a garage plans for", "write 1 or 2")
        return None
    if hours is None and people is None:
        return None
    return (Way(people or 1, hours or ThreePoint(1, 2, 4)),)


def _after(row: Row, desk: Desk) -> tuple[str, ...]:
    said = row.text(Meaning.AFTER)
    if not said or said in "-?":
        return ()
    found: list[str] = []
    for words in _named_in(said, desk.job_titles):
        key, sure = find_named(words, desk.job_titles)
        if key is None:
            remedy = did_you_mean(words, desk.job_titles) or "name a job of this sheet or build"
            row.say(Meaning.AFTER, f"there is no job '{words}'", remedy)
            continue
        if not sure:
            title = desk.job_titles[key]
            row.say(Meaning.AFTER, f"'{words}' is taken for the job '{title}'", "", "doubtful")
        found.append(key)
    return tuple(dict.fromkeys(found))


def _named_in(said: str, titles: Mapping[str, str]) -> Iterator[str]:
    """Part a list of names; a name may have a comma in it itself."""
    if named_exactly(said, titles) is not None:
        yield said
        return
    for part in re.split(r"\s*[;|\n]\s*", said):
        if named_exactly(part, titles) is not None:
            yield part
        else:
            yield from (each for each in re.split(r"\s*(?:,|&|\band\b)\s*", part) if each)


def job_changes(row: Row, desk: Desk, job: Job) -> list[tuple[datetime | None, c.Change]]:
    """Return what a sheet says was done of a job."""
    status = desk.build.jobs[job.id].state.status if job.id in desk.build.jobs else None
    cell = row.cell(Meaning.DONE)
    done = read_cell(row, Meaning.DONE, lambda each: f.done_in(each, "done")) or Done.NO
    hours = read_cell(row, Meaning.HOURS_DONE, lambda each: f.hours_in(each, "hours done"))
    at = _noon(cell) if isinstance(cell, date) else None
    words = "from a sheet"
    if status in (JobStatus.DONE, JobStatus.DONE_BEFORE, JobStatus.LEFT_OUT):
        return []
    if done is Done.YES:
        # Without hours or a day nothing is known but that it was done some time.
        known = hours or at
        return [(at, c.JobFinished(job.id, hours, words) if known else c.JobDoneBefore(job.id))]
    if done is Done.LEFT_OUT:
        return [(None, c.JobLeftOut(job.id, words))]
    if (done is Done.STARTED or hours) and status is not JobStatus.STARTED:
        return [(None, c.JobWorked(job.id, hours, None, words))]
    return []


def _noon(day: date) -> datetime:
    if isinstance(day, datetime):
        day = day.date()
    return datetime.combine(day, time(12), UTC)


def job_words(job: Job, _build: Build) -> str:
    """Say a job as one line."""
    hours = job.ways[0].hours
    likely = f"{hours.likely_hours:g} h ({hours.optimistic_hours:g} to {hours.pessimistic_hours:g})"
    return f"{job.title}, {job.system}, {likely}"
