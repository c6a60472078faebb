"""``bareshell jobs``: the jobs, one job opened up, and what was done to it."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import build_option, find_build, heading, json_option, show, table
from bareshell.errors import BadInput, NotFound

if TYPE_CHECKING:
    from bareshell.app.reading import JobsList
    from bareshell.model.changes import Change
    from bareshell.whole.car_overview import JobDetail, JobView

SHOWN = 2
"""How many of the jobs that one waits for are named in the list."""


@click.group("jobs", invoke_without_command=True)
@build_option
@json_option
@click.option("--all", "everything", is_flag=True, help="Also what is done or left out.")
@click.option("--system", help="Only this system: brakes, electrics ...")
@click.pass_context
def jobs_command(
    ctx: click.Context, folder: Path | None, system: str | None, *, as_json: bool, everything: bool
) -> None:
    """List the jobs and how they stand, or write down what was done to one."""
    ctx.obj = folder
    if ctx.invoked_subcommand is not None:
        return
    from bareshell.app import reading
    from bareshell.app.door import Door
    from bareshell.model.job import SYSTEMS

    with Door.open(find_build(folder)) as door:
        listed = reading.jobs(door)
    if system is not None and system not in SYSTEMS:
        raise BadInput("system", f"'{system}' is none", f"name one of: {', '.join(SYSTEMS)}")
    show(listed, as_json=as_json, text=lambda: _text(listed, system, everything=everything))


@jobs_command.command("show")
@click.argument("job_id")
@json_option
@click.pass_obj
def show_job(folder: Path | None, job_id: str, *, as_json: bool) -> None:
    """Open one job up: what it takes, what it waits for, what lies beneath it."""
    from bareshell.app import reading
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        detail = reading.job(door, job_id)
    show(detail, as_json=as_json, text=lambda: _detail(detail))


@jobs_command.command("mark")
@click.argument("job_id")
@click.argument(
    "what",
    metavar="WHAT",
    type=click.Choice(["started", "worked", "done", "off", "not-done", "out", "in"]),
)
@click.option("--hours", type=float, help="Hours of this stretch.")
@click.option("--left", type=float, help="Hours still left in it, with 'worked'.")
@click.option("--words", default="", help="Anything to keep with it.")
@click.pass_obj
def mark(
    folder: Path | None,
    job_id: str,
    what: str,
    hours: float | None,
    left: float | None,
    words: str,
) -> None:
    """Write down what was done to a job.

    WHAT is one of: started, worked, done, off (taken off again), not-done (after all),
    out (left out of this build), in (taken in again). A job that was marked started has the
    hours since then, unless --hours says others.
    """
    from bareshell.app.door import Door
    from bareshell.whole.stretch import stretch_hours

    with Door.open(find_build(folder)) as door:
        build = door.build()
        if job_id not in build.jobs:
            raise NotFound(f"there is no job '{job_id}'", "'bareshell jobs' lists them")
        before, since = build, stretch_hours(build, job_id, door.now())
        if hours is None and since is not None and what in ("worked", "done"):
            hours = since
        else:
            since = None
        door.record(_change(job_id, what, hours, left, words))
        build = door.build()
        record = build.jobs[job_id]
        counted = "" if since is None else f" {since:g} h since it was begun are counted."
        click.echo(f"{record.job.title}: {record.state.status}.{counted}")
        from bareshell.app.gates import go_through
        from bareshell.model.standing import proof_standings, proofs_beneath
        from bareshell.whole.spent_said import spent_by_work

        for sentence in spent_by_work(before, build):
            click.echo(sentence)
        for sentence in go_through(door, [job_id] if what == "done" else []):
            click.echo(sentence)

        standings = proof_standings(build)
        for proof in proofs_beneath(build, job_id):
            if standings[proof].hidden and not standings[proof].state.is_good:
                title = build.proofs[proof].proof.title
                click.echo(f"It hides '{title}', which stands covered, unproven at every gate.")


def _change(job_id: str, what: str, hours: float | None, left: float | None, words: str) -> Change:
    from bareshell.model import changes as c

    match what:
        case "started":
            return c.JobStarted(job_id)
        case "worked":
            return c.JobWorked(job_id, hours, left, words)
        case "done":
            return c.JobFinished(job_id, hours, words)
        case "off":
            return c.JobTakenOff(job_id, words)
        case "not-done":
            return c.JobNotDone(job_id, words)
        case "out":
            return c.JobLeftOut(job_id, words)
        case _:
            return c.JobTakenIn(job_id)


def _text(listed: JobsList, system: str | None, *, everything: bool) -> Iterable[str]:
    wanted = [
        view
        for view in listed.jobs
        if (everything or view.status in {"to do", "started"}) and system in (None, view.system)
    ]
    for name, views in groupby(wanted, key=lambda view: view.system):
        rows = [_row(view) for view in views]
        yield heading(name, str(len(rows)))
        yield from table(rows)
        yield ""
    yield f"{len(wanted)} of {len(listed.jobs)} jobs." + (
        "" if everything else " --all shows also those done or left out."
    )


def _row(view: JobView) -> tuple[str, ...]:
    hours = f"{view.hours_likely:g} h"
    if view.hours_done:
        hours += f", {view.hours_done:g} done"
    shown, more = view.waits_for[:SHOWN], len(view.waits_for) - SHOWN
    waits = f"after {', '.join(shown)}" if shown else ""
    waits += f" and {more} more" if more > 0 else ""
    return (f"  {view.id}", view.title, view.status, hours, waits)


def _detail(detail: JobDetail) -> Iterable[str]:
    job = detail.job
    yield heading(job.title, f"{job.system}; {job.status}")
    for way in detail.ways:
        three = way.hours
        who = "alone" if way.people == 1 else "two people"
        kit = f" with {way.kit}" if way.kit else ""
        yield (
            f"  {who}{kit}: {three.likely_hours:g} h, from {three.optimistic_hours:g} "
            f"to {three.pessimistic_hours:g} ({job.mark})"
        )
    where = ", ".join(job.zones)
    yield f"  {job.place}" + (f": {where}" if where else "")
    if detail.lowest_temperature_c is not None:
        yield f"  not below {detail.lowest_temperature_c:g} °C"
    if detail.wait_hours:
        yield f"  then {detail.wait_hours:g} h wait {detail.wait_why}".rstrip()
    for key, title, status in detail.comes_after:
        yield f"  after: {title} ({key}): {status}"
    for key, title in detail.leads_to:
        yield f"  leads to: {title} ({key})"
    for key, title in detail.needs:
        yield f"  wants: {title} ({key})"
    for key, title in detail.proves:
        yield f"  proves: {title} ({key})"
    for key, title in detail.hides:
        yield f"  hides: {title} ({key})"
    for caution in detail.cautions:
        yield f"  {caution.harm}: {caution.sentence}"
    for lesson in detail.lessons:
        yield f"  lesson: {lesson}"
    for event in detail.events:
        hours = f", {event.hours:g} h" if event.hours else ""
        words = f": {event.words}" if event.words else ""
        yield f"  {event.at:%d %b %Y} {event.kind}{hours}{words}"
