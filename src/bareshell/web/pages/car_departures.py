"""Departures: the ways in which the car is no longer standard, and the way back."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import garage_desk, opening, reading
from bareshell.app.reading import RecordLine
from bareshell.model.job import SYSTEMS
from bareshell.model.temp import Departure
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered, pairs
from bareshell.web.links import path_of
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class DepartureShown:
    """What the page of a departure needs besides."""

    departure: Departure | None
    form: Form
    action: str
    back: Form
    history: tuple[RecordLine, ...]
    systems: tuple[tuple[str, str], ...] = pairs(SYSTEMS)


@router.page("/departures")
def departures(request: Request) -> Response:
    """List the departures from standard."""
    return page(request, "car/departures.html", reading.car(door_of(request)))


@router.page("/departures/{departure_id}")
def departure(request: Request, departure_id: str) -> Response:
    """Show one departure, to be corrected or put back."""
    found = garage_desk.departure_of(door_of(request), departure_id)
    return _show(request, departure_id, Form(garage_desk.lay_departure(found)), Form())


def _show(request: Request, departure_id: str, form: Form, back: Form) -> Response:
    door = door_of(request)
    found = garage_desk.departure_of(door, departure_id)
    version = opening.version_of(door, f"departure:{departure_id}")
    shown = DepartureShown(
        found,
        form.on(version),
        path_of("departure", departure_id),
        back.on(version),
        opening.history(door, f"departure:{departure_id}"),
    )
    status = max(form.status, back.status)
    return page(request, "car/departure.html", reading.car(door), also=shown, status=status)


@router.post("/departures/{departure_id}", response_model=None)
def change(request: Request, departure_id: str, sent: Sent) -> Response:
    """Correct a departure."""
    door = door_of(request)
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_departure(door, departure_id, sent.fields, pen),
        path_of("departure", departure_id),
        lambda form: _show(request, departure_id, form, Form()),
    )


@router.post("/departures/{departure_id}/returned", response_model=None)
def returned(request: Request, departure_id: str, sent: Sent) -> Response:
    """Write down that the car was put back to standard there."""
    door = door_of(request)

    def again(form: Form) -> Response:
        laid = garage_desk.lay_departure(garage_desk.departure_of(door, departure_id))
        return _show(request, departure_id, Form(laid), form)

    return answered(
        request,
        sent,
        lambda pen: garage_desk.return_departure(door, departure_id, sent.fields, pen),
        "/departures",
        again,
    )


@router.page("/add/departure")
def new(request: Request) -> Response:
    """Show an empty form for a departure."""
    return _new(request, Form())


def _new(request: Request, form: Form) -> Response:
    shown = DepartureShown(None, form, "/add/departure", Form(), ())
    overview = reading.car(door_of(request))
    return page(request, "car/departure.html", overview, also=shown, status=form.status)


@router.post("/add/departure", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Write a departure down."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_departure(door_of(request), None, sent.fields, pen),
        lambda written: path_of("departure", written.key),
        lambda form: _new(request, form),
    )
