"""The car: how it stands, how far each system is, its own data, the garage."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import garage_desk, opening, reading
from bareshell.app.door import Door
from bareshell.app.written import Pen, Written
from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.position import BODY_STATES
from bareshell.model.session import HelperWork
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, Values, answered, pairs
from bareshell.web.pieces import Figure
from bareshell.web.twin import PageRouter, page
from bareshell.whole.car_overview import CarOverview, SupportView

router = PageRouter()

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@dataclass(frozen=True, slots=True)
class CarShown:
    """What the page of the car needs besides."""

    figures: tuple[Figure, ...]
    here: SupportView | None
    place: Form
    supports: tuple[tuple[str, str], ...]
    zone: tzinfo
    states: tuple[tuple[str, str], ...] = pairs(BODY_STATES)


@dataclass(frozen=True, slots=True)
class DataShown:
    """What the forms for the car's data and the garage let one choose from."""

    form: Form
    layouts: tuple[tuple[str, str], ...] = pairs(Layout)
    systems: tuple[tuple[str, str], ...] = pairs(OPTIONAL_SYSTEMS)
    units: tuple[tuple[str, str], ...] = pairs(("metric", "imperial"))
    months: tuple[str, ...] = MONTHS
    helps: tuple[tuple[str, str], ...] = pairs(HelperWork)


@router.page("/car")
def car(request: Request) -> Response:
    """Show the car and how it stands."""
    return _show(request, Form())


def _show(request: Request, form: Form) -> Response:
    door = door_of(request)
    overview = reading.car(door)
    if not form.fields:
        form = Form({"support": (overview.stands,), "off": overview.off})
    shown = CarShown(
        figures=_figures(overview),
        here=next((support for support in overview.supports if support.here), None),
        place=form.on(opening.version_of(door, "placement:car")),
        supports=tuple((support.id, support.title) for support in overview.supports),
        zone=zone_for(door),
    )
    return page(request, "car/car.html", overview, also=shown, status=form.status)


def _figures(overview: CarOverview) -> tuple[Figure, ...]:
    done = sum(one.done for one in overview.by_system)
    total = sum(one.total for one in overview.by_system)
    hours = sum(one.hours_left for one in overview.by_system)
    minutes = sum(one.minutes for one in overview.coming_sessions)
    sessions = len(overview.coming_sessions)
    return (
        Figure(str(done), f"jobs done, of {total}"),
        Figure(f"{hours:,.0f}", "likely left by the estimates alone, without your pace", "h"),
        Figure(f"{minutes / 60:,.0f}", f"in {sessions} sessions of the next four weeks", "h"),
        Figure(str(len(overview.departures)), "departures from standard"),
    )


@router.post("/car/place", response_model=None)
def place(request: Request, sent: Sent) -> Response:
    """Write down how the car stands now."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.place_car(door_of(request), sent.fields, pen),
        "/car",
        lambda form: _show(request, form),
    )


@router.page("/car/data")
def data(request: Request) -> Response:
    """Show the car's own data, to be corrected."""
    return _data(request, Form(garage_desk.lay_car(door_of(request).build().car)))


def _data(request: Request, form: Form) -> Response:
    return _form(request, form, "car:car", "car/data.html")


@router.post("/car/data", response_model=None)
def describe(request: Request, sent: Sent) -> Response:
    """Correct the car's own data."""
    return _written(request, sent, garage_desk.describe_car, "/car", _data)


@router.page("/car/garage")
def garage(request: Request) -> Response:
    """Show how warm the bay is and what a session loses at both ends."""
    return _garage(request, Form(garage_desk.lay_garage(door_of(request).build().garage)))


def _garage(request: Request, form: Form) -> Response:
    return _form(request, form, "garage:garage", "car/garage.html")


@router.post("/car/garage", response_model=None)
def describe_garage(request: Request, sent: Sent) -> Response:
    """Correct what is known of the garage."""
    return _written(request, sent, garage_desk.describe_garage, "/car", _garage)


def _form(request: Request, form: Form, subject: str, template: str) -> Response:
    door = door_of(request)
    shown = DataShown(form.on(opening.version_of(door, subject)))
    return page(request, template, reading.car(door), also=shown, status=form.status)


def _written(
    request: Request,
    sent: Sent,
    act: Callable[[Door, Values, Pen], Written],
    to: str,
    again: Callable[[Request, Form], Response],
) -> Response:
    return answered(
        request,
        sent,
        lambda pen: act(door_of(request), sent.fields, pen),
        to,
        lambda form: again(request, form),
        offers=True,
    )
