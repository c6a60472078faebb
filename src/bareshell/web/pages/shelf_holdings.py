"""One holding: where it lies, how many, what was measured on it."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import opening, parts_desk, reading
from bareshell.app.opening import HoldingPage
from bareshell.app.reading import RecordLine
from bareshell.model.trust import Trust
from bareshell.web.desk import blank_of, door_of
from bareshell.web.forms import Form, Sent, answered, pairs
from bareshell.web.links import path_of
from bareshell.web.pages.shelf_needs import places_of
from bareshell.web.pages.shelf_specs import SpecShown, asks_for_fields, spec_shown
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class HoldingShown:
    """What the page needs besides: its forms, the places that are in use."""

    move: Form
    drop: Form
    places: tuple[str, ...]
    history: tuple[RecordLine, ...]


@dataclass(frozen=True, slots=True)
class HoldingForm:
    """What a form for a holding lets one choose from."""

    form: Form
    action: str
    needs: tuple[str, ...]
    places: tuple[str, ...]
    spec: SpecShown
    trusts: tuple[tuple[str, str], ...] = pairs(Trust)


@router.page("/holdings/{holding_id}")
def holding(request: Request, holding_id: str) -> Response:
    """Show what lies on the shelf."""
    return _show(request, holding_id, Form(), Form())


def _show(request: Request, holding_id: str, move: Form, drop: Form) -> Response:
    door = door_of(request)
    found = opening.holding(door, holding_id)
    shown = HoldingShown(
        move=move.on(found.holding.version),
        drop=drop.on(found.holding.version),
        places=places_of(request),
        history=opening.history(door, f"holding:{holding_id}"),
    )
    status = max(move.status, drop.status)
    return page(request, "shelf/holding.html", found, also=shown, status=status)


@router.post("/holdings/{holding_id}/move", response_model=None)
def move(request: Request, holding_id: str, sent: Sent) -> Response:
    """Write down another place, or another count."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.move_holding(door_of(request), holding_id, sent.fields, pen),
        path_of("holding", holding_id),
        lambda form: _show(request, holding_id, form, Form()),
    )


@router.post("/holdings/{holding_id}/drop", response_model=None)
def drop(request: Request, holding_id: str, sent: Sent) -> Response:
    """Write down that it is on the shelf no longer."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.drop_holding(door_of(request), holding_id, sent.fields, pen),
        "/shelf",
        lambda form: _show(request, holding_id, Form(), form),
    )


@router.page("/holdings/{holding_id}/edit")
def edit(request: Request, holding_id: str) -> Response:
    """Show what lies here, to be corrected."""
    door = door_of(request)
    found = opening.holding(door, holding_id)
    laid = parts_desk.lay_holding(parts_desk.holding_of(door, holding_id), door.build())
    return _edit(request, found, Form(laid))


def _edit(request: Request, found: HoldingPage, form: Form) -> Response:
    action = f"{path_of('holding', found.holding.id)}/edit"
    shown = _defining(request, form.on(found.holding.version), action)
    return page(request, "shelf/holding_edit.html", found, also=shown, status=form.status)


@router.post("/holdings/{holding_id}/edit", response_model=None)
def change(request: Request, holding_id: str, sent: Sent) -> Response:
    """Correct what lies here."""
    door = door_of(request)
    if asks_for_fields(sent):
        return _edit(request, opening.holding(door, holding_id), sent.kept())
    return answered(
        request,
        sent,
        lambda pen: parts_desk.set_holding(door, holding_id, sent.fields, pen),
        path_of("holding", holding_id),
        lambda form: _edit(request, opening.holding(door, holding_id), form),
    )


@router.page("/add/holding")
def new(request: Request, need: str = "", where: str = "") -> Response:
    """Show an empty form for something that goes on the shelf."""
    fields = {
        "need": (need,),
        "where": (where,),
        "quantity": ("1",),
        "spec": ("plain",),
        "trust": (str(Trust.MEASURED),),
    }
    return _new(request, Form(fields))


def _new(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/holding")
    blank = blank_of(request)
    return page(request, "shelf/holding_edit.html", blank, also=shown, status=form.status)


@router.post("/add/holding", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Put something on the shelf."""
    if asks_for_fields(sent):
        return _new(request, sent.kept())
    return answered(
        request,
        sent,
        lambda pen: parts_desk.set_holding(door_of(request), None, sent.fields, pen),
        lambda written: path_of("holding", written.key),
        lambda form: _new(request, form),
    )


def _defining(request: Request, form: Form, action: str) -> HoldingForm:
    shelf = reading.shelf(door_of(request))
    needs = tuple(dict.fromkeys(need.title for need in shelf.needs if need.open))
    return HoldingForm(form, action, needs, places_of(request), spec_shown(form))
