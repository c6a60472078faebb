"""One need: where it is, writing down that it is here or not, what it must measure."""

from __future__ import annotations

from dataclasses import dataclass, replace

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import opening, parts_desk, reading
from bareshell.app.duty_forms import TURNS
from bareshell.app.opening import NeedPage
from bareshell.app.reading import RecordLine
from bareshell.app.written import id_for
from bareshell.model.duty import LoadPath, Lubrication, Seat
from bareshell.model.part import NeededTo
from bareshell.web.desk import blank_of, door_of
from bareshell.web.forms import Form, Sent, SentForm, answered, pairs
from bareshell.web.links import path_of
from bareshell.web.pages.shelf_specs import SpecShown, asks_for_fields, spec_shown
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class NeedShown:
    """What the page needs besides: its forms, the places that are in use."""

    here: Form
    not_here: Form
    places: tuple[str, ...]
    history: tuple[RecordLine, ...]


@dataclass(frozen=True, slots=True)
class NeedForm:
    """What a form for a need lets one choose from."""

    form: Form
    action: str
    jobs: tuple[str, ...]
    spec: SpecShown
    gates: tuple[tuple[str, str], ...]
    load_paths: tuple[tuple[str, str], ...] = pairs(LoadPath)
    turns: tuple[tuple[str, str], ...] = TURNS
    seats: tuple[tuple[str, str], ...] = pairs(Seat)
    lubrications: tuple[tuple[str, str], ...] = pairs(Lubrication)
    needed: tuple[tuple[str, str], ...] = pairs(NeededTo)


@router.page("/needs/{need_id}")
def need(request: Request, need_id: str) -> Response:
    """Show what a job wants."""
    return _show(request, need_id, Form(), Form())


def _show(request: Request, need_id: str, here: Form, not_here: Form) -> Response:
    door = door_of(request)
    found = opening.need(door, need_id)
    shown = NeedShown(
        here=here,
        not_here=not_here,
        places=places_of(request),
        history=opening.history(door, f"need:{need_id}"),
    )
    return page(
        request, "shelf/need.html", found, also=shown, status=max(here.status, not_here.status)
    )


def places_of(request: Request) -> tuple[str, ...]:
    """The places that something lies in, to pick from."""
    shelf = reading.shelf(door_of(request))
    return tuple(dict.fromkeys(one.where for one in shelf.holdings if one.where))


def own_row(sent: SentForm, what: str) -> SentForm:
    """A form that serves many rows writes an entry for each row it is pressed on."""
    return replace(sent, entry=id_for(sent.entry, what))


@router.post("/needs/{need_id}/here", response_model=None)
def is_here(request: Request, need_id: str, sent: Sent) -> Response:
    """Write down that it was found."""
    return answered(
        request,
        own_row(sent, f"here:{need_id}"),
        lambda pen: parts_desk.need_here(door_of(request), need_id, sent.fields, pen),
        path_of("need", need_id),
        lambda form: _show(request, need_id, form, Form()),
    )


@router.post("/needs/{need_id}/not-here", response_model=None)
def is_not_here(request: Request, need_id: str, sent: Sent) -> Response:
    """Write down that it was looked for and is not here."""
    return answered(
        request,
        own_row(sent, f"not-here:{need_id}"),
        lambda pen: parts_desk.need_not_here(door_of(request), need_id, sent.fields, pen),
        path_of("need", need_id),
        lambda form: _show(request, need_id, Form(), form),
    )


@router.post("/needs/{need_id}/drop", response_model=None)
def drop(request: Request, need_id: str, sent: Sent) -> Response:
    """Write down that it is not wanted after all."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.drop_need(door_of(request), need_id, pen),
        "/needs",
        lambda form: _show(request, need_id, Form(), form),
    )


@router.page("/needs/{need_id}/edit")
def edit(request: Request, need_id: str) -> Response:
    """Show what is wanted, to be corrected."""
    door = door_of(request)
    found = opening.need(door, need_id)
    laid = parts_desk.lay_need(parts_desk.need_of(door, need_id), door.build())
    return _edit(request, found, Form(laid))


def _edit(request: Request, found: NeedPage, form: Form) -> Response:
    action = f"{path_of('need', found.need.id)}/edit"
    shown = _defining(request, form.on(found.need.version), action)
    return page(request, "shelf/need_edit.html", found, also=shown, status=form.status)


@router.post("/needs/{need_id}/edit", response_model=None)
def change(request: Request, need_id: str, sent: Sent) -> Response:
    """Correct what is wanted."""
    door = door_of(request)
    if asks_for_fields(sent):
        return _edit(request, opening.need(door, need_id), sent.kept())
    return answered(
        request,
        sent,
        lambda pen: parts_desk.set_need(door, need_id, sent.fields, pen),
        path_of("need", need_id),
        lambda form: _edit(request, opening.need(door, need_id), form),
        offers=True,
    )


@router.page("/add/need")
def new(request: Request, job: str = "", title: str = "") -> Response:
    """Show an empty form for what a job wants."""
    fields = {"job": (job,), "title": (title,), "quantity": ("1",), "spec": ("plain",)}
    return _new(request, Form(fields))


def _new(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/need")
    blank = blank_of(request)
    return page(request, "shelf/need_edit.html", blank, also=shown, status=form.status)


@router.post("/add/need", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Add what a job wants."""
    if asks_for_fields(sent):
        return _new(request, sent.kept())
    return answered(
        request,
        sent,
        lambda pen: parts_desk.set_need(door_of(request), None, sent.fields, pen),
        lambda written: path_of("need", written.key),
        lambda form: _new(request, form),
        offers=True,
    )


def _defining(request: Request, form: Form, action: str) -> NeedForm:
    door = door_of(request)
    jobs = tuple(job.title for job in reading.jobs(door).jobs)
    gates = tuple((key, one.gate.title) for key, one in door.build().gates.items())
    return NeedForm(form, action, jobs, spec_shown(form), gates)
