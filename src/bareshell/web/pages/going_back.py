"""The way back to standard, and how the car is left."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import going_back
from bareshell.app.door import Door
from bareshell.errors import BareshellError
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.links import path_of
from bareshell.web.plan_desk import PlanDesk, StillWorking
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class Shown:
    """What these pages need besides their reading."""

    form: Form
    zone: tzinfo
    moves: tuple[tuple[str, str], ...] = ()


@router.page("/departures/{departure_id}/back")
def back(request: Request, departure_id: str) -> Response:
    """Show what returning a departure would take."""
    return _back(request, departure_id, Form())


def _back(request: Request, departure_id: str, form: Form) -> Response:
    door = door_of(request)
    found = going_back.back(door, departure_id)
    shown = Shown(form, zone_for(door))
    return page(request, "car/back.html", found, also=shown, status=form.status)


@router.post("/departures/{departure_id}/back", response_model=None)
def take_in(request: Request, departure_id: str, sent: Sent) -> Response:
    """Put the way back into the build."""
    return answered(
        request,
        sent,
        lambda pen: going_back.take_in(door_of(request), departure_id, pen),
        f"{path_of('departure', departure_id)}/back",
        lambda form: _back(request, departure_id, form),
    )


@router.page("/way-back")
def back_book(request: Request) -> Response:
    """Show every departure with its way back: to print for the next owner."""
    door = door_of(request)
    shown = Shown(Form(), zone_for(door))
    return page(request, "car/back_book.html", going_back.back_book(door), also=shown)


@router.page("/left")
def left(request: Request) -> Response:
    """Show how the car is left, and the next three moves once the plan is there."""
    door = door_of(request)
    shown = Shown(Form(), zone_for(door), _next_moves(request, door))
    return page(request, "car/left.html", going_back.left(door), also=shown)


def _next_moves(request: Request, door: Door) -> tuple[tuple[str, str], ...]:
    """The first three of the next session, as id and title; none while the plan is worked out."""
    desk = getattr(request.app.state, "plan_desk", None)
    if not isinstance(desk, PlanDesk):
        return ()
    try:
        sheet = desk.tonight(door, None, wait_s=0.0)
    except (StillWorking, BareshellError):
        return ()
    return tuple((ticket.id, ticket.title) for ticket in sheet.jobs[:3])
