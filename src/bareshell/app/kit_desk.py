"""Bags of one job: which bag, all of it here, and what to fetch for a session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.shelving import sent_before
from bareshell.app.written import Pen, Written, filled, id_for, write_down
from bareshell.errors import NotFound, Refused
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.model.part import Holding, NeedState
from bareshell.model.standing import need_standings
from bareshell.model.trust import Trust
from bareshell.whole.kits import KitPage, kit_page, needs_by_job
from bareshell.whole.pick_list import PickList, pick_list

TO_FIND = (NeedState.NOT_KNOWN, NeedState.NOT_HERE, NeedState.SOME_HERE)


def kit(door: Door, job_id: str) -> KitPage:
    """Open the bag of one job.

    Raises
    ------
    NotFound
        When the build has no such job.
    """
    build = door.build()
    if job_id not in build.jobs:
        raise NotFound(f"there is no job '{job_id}' in this build", "look for it among the kits")
    return kit_page(build, job_id, door.now())


def picks(door: Door, jobs: Sequence[str] = ()) -> PickList:
    """Say what to fetch for some jobs; for those that were begun, when none is named."""
    build = door.build()
    begun = [k for k, r in build.jobs.items() if r.state.status is JobStatus.STARTED]
    return pick_list(build, tuple(jobs) or begun, door.now())


def name_bag(door: Door, job_id: str, fields: Fields, pen: Pen) -> Written:
    """Write a bag's number or name on every line of a job.

    Raises
    ------
    Refused
        When the job wants nothing, so that there is nothing to bag.
    """
    page, build = kit(door, job_id), door.build()
    bag = filled(door, fields).text("bag")
    needs = [build.needs[key] for key in needs_by_job(build).get(job_id, ())]
    if not needs:
        raise Refused("kits", f"'{page.job_title}' wants nothing", "add what it wants first")
    changes = [c.NeedSet(replace(need, bag=bag)) for need in needs]
    said = f"'{page.job_title}' is in {bag}." if bag else f"'{page.job_title}' is in no bag."
    return write_down(door, changes, pen, said)


def all_here(door: Door, job_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that everything still to be found for a job was found.

    What is on its way is left to its own delivery, which is checked against the order.

    Raises
    ------
    Refused
        When there is nothing to find.
    """
    if before := sent_before(door, pen, f"job:{job_id}"):
        return before
    page, build = kit(door, job_id), door.build()
    standings, where = need_standings(build), filled(door, fields).text("where")
    changes: list[c.Change] = []
    for key in needs_by_job(build).get(job_id, ()):
        need, standing = build.needs[key], standings[key]
        missing = need.quantity - standing.here - standing.coming
        if standing.state in TO_FIND and missing > 0:
            end = (id_for(pen.entry_id, key) or str(build.seq + 1))[-12:]
            changes.append(
                c.HoldingSet(
                    Holding(f"{key}.{end}", need.title, missing, need.spec, key, where,
                            Trust.ASSUMED)
                )
            )  # fmt: skip
    if not changes:
        raise Refused(
            "kits", f"nothing of '{page.job_title}' is to be found", "open a line to correct it"
        )
    place = f" in {where}" if where else ""
    lines = "1 line" if len(changes) == 1 else f"{len(changes)} lines"
    said = f"{lines} of '{page.job_title}' here{place}, sizes not measured."
    return write_down(door, changes, pen, said)
