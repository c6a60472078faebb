"""Commissioning: the order, graded holds, the pedal test, bedding, 50 and 500 miles."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_commission, brakes_proofs
from bareshell.app import brakes_reading as reading
from bareshell.app.brakes_found import system_of
from bareshell.app.brakes_readings import ReadingForm, reading_form
from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.written import Pen, Written
from bareshell.model.brake import ReadingKind, Role
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, SentForm, answered
from bareshell.web.pages.brakes import SUBPAGES
from bareshell.web.pages.brakes_circuit import query_of, system_in
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_commission import SERIES

router = PageRouter()
HERE = "/brakes/commissioning"


@dataclass(frozen=True, slots=True)
class CommissionShown:
    """What the page needs besides."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    query: str
    units: Units
    zone: tzinfo
    hold: Form
    pedal: Form
    asks_hold: ReadingForm
    asks_pedal: ReadingForm
    circuits: tuple[tuple[str, str], ...]
    writes: bool
    series: str
    offer: str


@router.page(HERE)
def commissioning(request: Request, series: str = SERIES) -> Response:
    """Show how the brakes are brought into use, and how far they have come."""
    return _show(request, Form(), Form(), series)


def _show(request: Request, hold: Form, pedal: Form, series: str = SERIES) -> Response:
    door, system_id = door_of(request), system_in(request)
    view = brakes_commission.commissioning(door, system_id, series)
    build = door.build()
    system = system_of(build, system_id)
    shown = CommissionShown(
        pages=SUBPAGES,
        here=HERE,
        answers={"system": system_id} if system_id else {},
        query=query_of(system_id),
        units=Units(reading.preference_of(build)),
        zone=zone_for(door),
        hold=hold,
        pedal=pedal,
        asks_hold=reading_form(ReadingKind.HOLD),
        asks_pedal=reading_form(ReadingKind.PEDAL_TEST),
        circuits=tuple((one.circuit, one.title) for one in view.holds),
        writes=system.role is Role.AS_BUILT,
        series=series,
        offer=brakes_proofs.offer_of(door),
    )
    status = max(hold.status, pedal.status)
    return page(request, "brakes/commission.html", view, also=shown, status=status)


@router.post("/brakes/commissioning/hold", response_model=None)
def hold(request: Request, sent: Sent) -> Response:
    """Write a hold down, and what it showed of each joint."""
    return _written(
        request, sent, brakes_commission.take_hold, lambda form: _show(request, form, Form())
    )


@router.post("/brakes/commissioning/pedal", response_model=None)
def pedal(request: Request, sent: Sent) -> Response:
    """Write a pedal test down, and what it showed of air."""
    return _written(
        request, sent, brakes_commission.take_pedal_test, lambda form: _show(request, Form(), form)
    )


def _written(
    request: Request,
    sent: SentForm,
    act: Callable[[Door, Fields, Pen], Written],
    again: Callable[[Form], Response],
) -> Response:
    door = door_of(request)
    return answered(request, sent, lambda pen: act(door, sent.fields, pen), HERE, again)
