"""Adding, correcting and marking jobs."""

from __future__ import annotations

from collections.abc import Iterator

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.gates import go_through
from bareshell.app.job_forms import read_job
from bareshell.app.written import Pen, Written, filled, new_key, write_down
from bareshell.errors import BadInput, NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import JobRecord, JobStatus
from bareshell.model.standing import open_temps, proof_standings, proofs_beneath
from bareshell.whole.garage_time import zone_of
from bareshell.whole.spent_said import spent_by_work
from bareshell.whole.stretch import begun_at, stretch_hours

MARKS = {
    "started": "begun, more to do",
    "worked": "worked on, not finished",
    "done": "finished",
    "off": "what it fitted came off again",
    "not-done": "not done after all",
    "done-before": "done before this record began, unproven",
}
"""What can be written down about a job, in words."""

_POSSIBLE = {
    JobStatus.TO_DO: ("done", "worked", "started", "done-before"),
    JobStatus.STARTED: ("done", "worked", "not-done", "off"),
    JobStatus.DONE: ("off", "not-done", "done"),
    JobStatus.DONE_BEFORE: ("off", "not-done", "done"),
    JobStatus.LEFT_OUT: (),
}


def possible_marks(status: str) -> tuple[str, ...]:
    """Name what can be written down about a job that stands so, the likeliest first.

    Examples
    --------
    >>> possible_marks("to do")
    ('done', 'worked', 'started', 'done-before')
    """
    return _POSSIBLE[JobStatus(status)]


def add_job(door: Door, fields: Fields, pen: Pen) -> Written:
    """Add a job to the network.

    Raises
    ------
    BadInput
        With everything that is wrong with the form.
    """
    form, build = filled(door, fields), door.build()
    key = new_key(door, "job", form.text("title"), build.jobs, pen.entry_id)
    job = read_job(form, build, key)
    return write_down(door, c.JobSet(job), pen, f"'{job.title}' is on the list of jobs.")


def change_job(door: Door, job_id: str, fields: Fields, pen: Pen) -> Written:
    """Correct what a job is; what happened to it stays."""
    record = job_of(door, job_id)
    job = read_job(filled(door, fields), door.build(), job_id, record.job)
    return write_down(door, c.JobSet(job), pen, f"'{job.title}' is corrected.")


def leave_out(door: Door, job_id: str, fields: Fields, pen: Pen) -> Written:
    """Leave a job out of this build."""
    title = job_of(door, job_id).job.title
    words = filled(door, fields).text("words")
    said = f"'{title}' is left out; what came before it now leads to what came after."
    return write_down(door, c.JobLeftOut(job_id, words), pen, said)


def take_in(door: Door, job_id: str, pen: Pen) -> Written:
    """Take a job in again that was left out."""
    title = job_of(door, job_id).job.title
    return write_down(door, c.JobTakenIn(job_id), pen, f"'{title}' is wanted again.")


def mark_job(door: Door, job_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down what was done to a job.

    The fields are ``what`` (a key of ``MARKS``), ``hours`` of this stretch, ``hours_left``,
    ``words`` and ``when`` it happened, if not now.

    Raises
    ------
    BadInput, Refused
        When a field cannot be read, or a rule of the garage forbids a start.
    """
    record, before = job_of(door, job_id), door.build()
    form = filled(door, fields)
    change, when = _mark(form, job_id), form.moment("when", "when")
    form.check()

    def said() -> tuple[str, ...]:
        gates = go_through(door, [job_id] if isinstance(change, c.JobFinished) else [], pen.author)
        after = door.build()
        return (*_after(after, record), *spent_by_work(before, after), *gates)

    return write_down(door, change, pen, said, happened_at=when)


def job_of(door: Door, job_id: str) -> JobRecord:
    """Return a job of the build.

    Raises
    ------
    NotFound
        When there is none of this id.
    """
    jobs = door.build().jobs
    if job_id not in jobs:
        raise NotFound(f"there is no job '{job_id}' in this build", "look for it among the jobs")
    return jobs[job_id]


def hours_since(door: Door, job_id: str) -> str:
    """Say how many hours a job that was begun has run, and since when; empty when none runs."""
    build, now = door.build(), door.now()
    begun, hours = begun_at(build, job_id, now), stretch_hours(build, job_id, now)
    if begun is None or hours is None:
        return ""
    return f"{hours:g} since {begun.astimezone(zone_of(build)):%H:%M}"


def _mark(form: Filled, job_id: str) -> c.Change:
    hours, left = form.hours("hours", "hours"), form.hours("hours_left", "hours left")
    words, what = form.text("words"), form.text("what")
    if hours is not None and what not in {"worked", "done"}:
        form.wrong("hours", "they belong to work done", "choose 'worked on' or 'finished'")
    if left is not None and what != "worked":
        form.wrong("hours left", "they belong to a job still open", "choose 'worked on'")
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
        case "done-before":
            return c.JobDoneBefore(job_id)
        case _:
            form.check()
            raise BadInput("what was done", f"'{what}' is none of the words for it", _remedy())


def _remedy() -> str:
    return f"say {', '.join(MARKS)}"


def _after(build: Build, before: JobRecord) -> Iterator[str]:
    """Say how the job stands now, and what that brought with it."""
    job, state = before.job, build.jobs[before.job.id].state
    hours = f", {state.hours_done:g} h in all" if state.hours_done else ""
    yield f"'{job.title}' is {state.status}{hours}."
    if not state.is_done or before.state.is_done:
        return
    standings = proof_standings(build)
    for key in proofs_beneath(build, job.id):
        if standings[key].hidden and not standings[key].state.is_good:
            title = build.proofs[key].proof.title
            yield f"It hides '{title}', which now stands covered, unproven at every gate."
    owed = [
        r.proof.title
        for k, r in build.proofs.items()
        if job.id in ((r.proof.proven_by,) if r.proof.proven_by else r.proof.made_by)
        and not standings[k].state.is_good
    ]
    if owed:
        yield f"It owes: {'; '.join(owed)}."
    here = open_temps(build)
    for key, temp in build.temps.items():
        if temp.temp.raised_by == job.id and key in here:
            yield f"It left a temp on the car: {temp.temp.title}."
