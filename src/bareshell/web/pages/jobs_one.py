"""One job: its ticket, what it hangs on, marking it, correcting it, leaving it out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import jobs_desk, opening, reading
from bareshell.app.job_forms import BLANK_AFTER, BLANK_CAUTIONS, BLANK_WAYS, lay_job
from bareshell.app.opening import JobSheet
from bareshell.app.photo_album import PhotoSeen, photos_of
from bareshell.app.reading import RecordLine
from bareshell.model.job import SYSTEMS
from bareshell.model.position import BODY_STATES, Place, Wheels, Zone
from bareshell.trade.cautions import HARMS
from bareshell.web.desk import blank_of, door_of, zone_for
from bareshell.web.forms import Form, Sent, answered, pairs, rows_in
from bareshell.web.links import path_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.car_overview import JobDetail

router = PageRouter()


@dataclass(frozen=True, slots=True)
class JobShown:
    """What the page needs besides: the ticket, what it hangs on, its forms."""

    sheet: JobSheet
    mark: Form
    out: Form
    marks: tuple[tuple[str, str, str], ...]
    history: tuple[RecordLine, ...]
    zone: tzinfo
    photos: tuple[PhotoSeen, ...]
    photo: Form
    hours_since: str


@dataclass(frozen=True, slots=True)
class JobForm:
    """What a form that defines a job lets one choose from."""

    form: Form
    action: str
    jobs: tuple[str, ...]
    gates: tuple[tuple[str, str], ...]
    after: tuple[str, ...]
    ways: range
    cautions: range
    rechecks: range
    harms: tuple[tuple[str, str], ...] = pairs(HARMS)
    systems: tuple[tuple[str, str], ...] = pairs(SYSTEMS)
    places: tuple[tuple[str, str], ...] = pairs(Place)
    zones: tuple[tuple[str, str], ...] = pairs(Zone)
    wheels: tuple[tuple[str, str], ...] = pairs(Wheels)
    states: tuple[tuple[str, str], ...] = pairs(BODY_STATES)


_MARK_OF = {
    "done": "done",
    "worked": "started",
    "started": "started",
    "off": "to do",
    "not-done": "to do",
    "done-before": "done before the record, unproven",
}


@router.page("/jobs/{job_id}")
def job(request: Request, job_id: str) -> Response:
    """Show one job."""
    return _show(request, job_id, Form(), Form())


def _show(request: Request, job_id: str, mark: Form, out: Form) -> Response:
    door = door_of(request)
    detail = reading.job(door, job_id)
    view = detail.job
    shown = JobShown(
        sheet=opening.job_sheet(door, job_id),
        mark=mark.on(view.version),
        out=out.on(view.version),
        marks=tuple(
            (key, _MARK_OF[key], jobs_desk.MARKS[key])
            for key in jobs_desk.possible_marks(view.status)
        ),
        history=opening.history(door, f"job:{job_id}"),
        zone=zone_for(door),
        photos=photos_of(door, f"job:{job_id}"),
        photo=Form(),
        hours_since=jobs_desk.hours_since(door, job_id),
    )
    status = max(mark.status, out.status)
    return page(request, "jobs/one.html", detail, also=shown, status=status)


@router.post("/jobs/{job_id}/mark", response_model=None)
def mark_job(request: Request, job_id: str, sent: Sent) -> Response:
    """Write down what was done."""
    return answered(
        request,
        sent,
        lambda pen: jobs_desk.mark_job(door_of(request), job_id, sent.fields, pen),
        path_of("job", job_id),
        lambda form: _show(request, job_id, form, Form()),
    )


@router.post("/jobs/{job_id}/leave-out", response_model=None)
def leave_out(request: Request, job_id: str, sent: Sent) -> Response:
    """Leave it out of this build."""
    return answered(
        request,
        sent,
        lambda pen: jobs_desk.leave_out(door_of(request), job_id, sent.fields, pen),
        path_of("job", job_id),
        lambda form: _show(request, job_id, Form(), form),
    )


@router.post("/jobs/{job_id}/take-in", response_model=None)
def take_in(request: Request, job_id: str, sent: Sent) -> Response:
    """Take it in again."""
    return answered(
        request,
        sent,
        lambda pen: jobs_desk.take_in(door_of(request), job_id, pen),
        path_of("job", job_id),
        lambda form: _show(request, job_id, Form(), form),
    )


@router.page("/jobs/{job_id}/edit")
def edit(request: Request, job_id: str) -> Response:
    """Show what a job is, to be corrected."""
    door = door_of(request)
    detail = reading.job(door, job_id)
    build = door.build()
    titles = {key: record.job.title for key, record in build.jobs.items()}
    return _edit(request, detail, Form(lay_job(build.jobs[job_id].job, titles)))


def _edit(request: Request, detail: JobDetail, form: Form) -> Response:
    action = f"{path_of('job', detail.job.id)}/edit"
    shown = _defining(request, form.on(detail.job.version), action)
    return page(request, "jobs/edit.html", detail, also=shown, status=form.status)


@router.post("/jobs/{job_id}/edit", response_model=None)
def change(request: Request, job_id: str, sent: Sent) -> Response:
    """Correct what a job is."""
    door = door_of(request)
    return answered(
        request,
        sent,
        lambda pen: jobs_desk.change_job(door, job_id, sent.fields, pen),
        path_of("job", job_id),
        lambda form: _edit(request, reading.job(door, job_id), form),
        offers=True,
    )


@router.page("/add/job")
def new(request: Request, system: str = "", after: str = "") -> Response:
    """Show an empty form for a job."""
    fields = {"system": (system,), "after": (after,), "people0": ("1",)}
    return _new(request, Form(fields))


def _new(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/job")
    return page(request, "jobs/edit.html", blank_of(request), also=shown, status=form.status)


@router.post("/add/job", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Add a job to the network."""
    return answered(
        request,
        sent,
        lambda pen: jobs_desk.add_job(door_of(request), sent.fields, pen),
        lambda written: path_of("job", written.key),
        lambda form: _new(request, form),
        offers=True,
    )


def _defining(request: Request, form: Form, action: str) -> JobForm:
    door = door_of(request)
    return JobForm(
        form=form,
        action=action,
        jobs=tuple(view.title for view in reading.jobs(door).jobs),
        gates=tuple((gate.id, gate.title) for gate in reading.proofs(door).gates),
        after=(*form.values("after"), *("",) * BLANK_AFTER),
        ways=rows_in(form, "likely", "best", "worst", "kit", blank=BLANK_WAYS),
        cautions=rows_in(form, "caution", blank=BLANK_CAUTIONS),
        rechecks=rows_in(form, "recheck_miles", "recheck_months"),
    )
