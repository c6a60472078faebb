"""Gates and temps: what stands between, letting the car through by name, what must not stay."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import opening, proofs_desk, reading
from bareshell.app.reading import RecordLine
from bareshell.web.desk import blank_of, door_of, zone_for
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.links import path_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.opened import GatePage

router = PageRouter()


@dataclass(frozen=True, slots=True)
class Shown:
    """What the page of a gate or a temp needs besides."""

    form: Form
    history: tuple[RecordLine, ...]
    zone: tzinfo


@dataclass(frozen=True, slots=True)
class Defining:
    """What a form that defines a gate or a temp lets one choose from."""

    form: Form
    action: str
    jobs: tuple[str, ...]
    gates: tuple[tuple[str, str], ...]
    needs: tuple[str, ...] = ()


@router.page("/gates/{gate_id}")
def gate(request: Request, gate_id: str) -> Response:
    """Show what stands between the car and a gate."""
    return _show(request, gate_id, Form())


def _show(request: Request, gate_id: str, form: Form) -> Response:
    door = door_of(request)
    found = opening.gate(door, gate_id)
    shown = Shown(form.on(found.version), opening.history(door, f"gate:{gate_id}"), zone_for(door))
    return page(request, "proofs/gate.html", found, also=shown, status=form.status)


@router.post("/gates/{gate_id}/pass", response_model=None)
def let_through(request: Request, gate_id: str, sent: Sent) -> Response:
    """Let the car through, by name, when nothing stands between."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.pass_gate(door_of(request), gate_id, sent.fields, pen),
        path_of("gate", gate_id),
        lambda form: _show(request, gate_id, form),
    )


@router.page("/gates/{gate_id}/edit")
def edit_gate(request: Request, gate_id: str) -> Response:
    """Show what a gate asks for, to be corrected."""
    door = door_of(request)
    laid = proofs_desk.lay_gate(door.build(), gate_id)
    return _edit_gate(request, opening.gate(door, gate_id), Form(laid))


def _edit_gate(request: Request, found: GatePage, form: Form) -> Response:
    path = f"{path_of('gate', found.gate.id)}/edit"
    shown = _defining(request, form.on(found.version), path)
    return page(request, "proofs/gate_edit.html", found, also=shown, status=form.status)


@router.post("/gates/{gate_id}/edit", response_model=None)
def change_gate(request: Request, gate_id: str, sent: Sent) -> Response:
    """Correct what a gate asks for."""
    door = door_of(request)
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.set_gate(door, gate_id, sent.fields, pen),
        path_of("gate", gate_id),
        lambda form: _edit_gate(request, opening.gate(door, gate_id), form),
    )


@router.page("/add/gate")
def new_gate(request: Request) -> Response:
    """Show an empty form for a gate."""
    return _new_gate(request, Form())


def _new_gate(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/gate")
    blank = blank_of(request)
    return page(request, "proofs/gate_edit.html", blank, also=shown, status=form.status)


@router.post("/add/gate", response_model=None)
def add_gate(request: Request, sent: Sent) -> Response:
    """Add a gate."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.set_gate(door_of(request), None, sent.fields, pen),
        lambda written: path_of("gate", written.key),
        lambda form: _new_gate(request, form),
    )


@router.page("/temps/{temp_id}")
def temp(request: Request, temp_id: str) -> Response:
    """Show one temporary fix."""
    return _show_temp(request, temp_id, Form())


def _show_temp(request: Request, temp_id: str, form: Form) -> Response:
    door = door_of(request)
    found = opening.temp(door, temp_id)
    shown = Shown(
        form.on(found.temp.version), opening.history(door, f"temp:{temp_id}"), zone_for(door)
    )
    return page(request, "proofs/temp.html", found, also=shown, status=form.status)


@router.post("/temps/{temp_id}/raise", response_model=None)
def raise_temp(request: Request, temp_id: str, sent: Sent) -> Response:
    """Write down that it is on the car."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.raise_temp(door_of(request), temp_id, sent.fields, pen),
        path_of("temp", temp_id),
        lambda form: _show_temp(request, temp_id, form),
    )


@router.post("/temps/{temp_id}/clear", response_model=None)
def clear_temp(request: Request, temp_id: str, sent: Sent) -> Response:
    """Write down that it is gone."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.clear_temp(door_of(request), temp_id, sent.fields, pen),
        path_of("temp", temp_id),
        lambda form: _show_temp(request, temp_id, form),
    )


@router.page("/add/temp")
def new_temp(request: Request) -> Response:
    """Show an empty form for a temporary fix."""
    return _new_temp(request, Form({"on_car": ("yes",)}))


def _new_temp(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/temp")
    blank = blank_of(request)
    return page(request, "proofs/temp_new.html", blank, also=shown, status=form.status)


@router.post("/add/temp", response_model=None)
def add_temp(request: Request, sent: Sent) -> Response:
    """Add a temporary fix."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.add_temp(door_of(request), sent.fields, pen),
        lambda written: path_of("temp", written.key),
        lambda form: _new_temp(request, form),
    )


def _defining(request: Request, form: Form, action: str) -> Defining:
    door = door_of(request)
    gates = tuple((one.id, one.title) for one in reading.proofs(door).gates)
    jobs = tuple(job.title for job in reading.jobs(door).jobs)
    needs = tuple(need.title for need in reading.shelf(door).needs)
    return Defining(form, action, jobs, gates, needs)
