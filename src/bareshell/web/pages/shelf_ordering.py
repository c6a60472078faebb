"""Ordering: parcel by parcel with its last day, whom to ask, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import order_sheets, ordering
from bareshell.app.door import Door
from bareshell.app.money_forms import lay_money
from bareshell.app.writing_out import file_name
from bareshell.app.written import slug
from bareshell.errors import BadInput
from bareshell.io.sheets import SheetFormat
from bareshell.model.part import SourceClass
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered, pairs
from bareshell.web.pages.write_out import TYPES, download
from bareshell.web.plan_desk import PROGRAM_PATIENCE_S, PlanDesk, StillWorking
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.order_list import CONFIDENCE
from bareshell.whole.wanted_days import WantedDays

router = PageRouter()

PATIENCE_S: Final = 1.5
"""How long a page waits for the plan's days; it shows the rest without them. [s]"""

SHARES: Final = (
    ("0.5", "half of such orders in time"),
    ("0.8", "eight in ten in time"),
    ("0.9", "nine in ten in time"),
    ("0.95", "19 in 20 in time"),
)


@dataclass(frozen=True, slots=True)
class OrderListShown:
    """What the page needs besides: the forms of its parcels."""

    forms: tuple[Form, ...]
    sure: str
    shares: tuple[tuple[str, str], ...] = SHARES
    sources: tuple[tuple[str, str], ...] = pairs(SourceClass)


@dataclass(frozen=True, slots=True)
class CostsShown:
    """The form of the budget, and the rates that were stated."""

    form: Form
    budget: str
    rates: Mapping[str, str]
    wrong_rate: str


def _wanted(request: Request, door: Door) -> WantedDays | None:
    """The plan's days, if the plan has them within a moment."""
    desk = getattr(request.app.state, "plan_desk", None)
    if not isinstance(desk, PlanDesk):
        return None
    patience = PROGRAM_PATIENCE_S if wants_json(request) else PATIENCE_S
    try:
        return ordering.wanted_of(door, desk.road(door, wait_s=patience))
    except StillWorking:
        return None


def _sure(said: str) -> float:
    try:
        sure = float(said)
    except ValueError:
        return CONFIDENCE
    return sure if sure in ordering.CONFIDENCES else CONFIDENCE


@router.page("/shelf/order-list")
def order_list(request: Request, sure: str = "") -> Response:
    """List what to order, parcel by parcel."""
    return _show(request, sure, None)


def _show(request: Request, sure: str, again: Form | None) -> Response:
    door, share = door_of(request), _sure(sure)
    found = ordering.to_order(door, _wanted(request, door), share)
    forms = tuple(_form(again, group.supplier, group.source) for group in found.groups)
    shown = OrderListShown(forms, f"{share:g}")
    status = again.status if again else 200
    return page(request, "shelf/order_list.html", found, also=shown, status=status)


def _form(again: Form | None, supplier: str, source: str) -> Form:
    """A parcel's own form; the one that was sent comes back to the parcel it was sent from."""
    if again is not None and again.value("parcel") == supplier:
        return again
    return Form({"supplier": (supplier,), "source": (source or str(SourceClass.GENERAL),)})


@router.post("/shelf/order-list", response_model=None)
def place(request: Request, sent: Sent) -> Response:
    """Write a parcel down as ordered."""
    return answered(
        request,
        sent,
        lambda pen: ordering.place(door_of(request), sent.fields, pen),
        "/shelf/order-list",
        lambda form: _show(request, "", form),
    )


@router.get("/shelf/order-sheet.xlsx", response_model=None)
def workbook(request: Request, supplier: str = "", sure: str = "") -> Response:
    """Send one supplier's list as a spreadsheet."""
    return _sheet(request, supplier, sure, "xlsx")


@router.get("/shelf/order-sheet.csv", response_model=None)
def text(request: Request, supplier: str = "", sure: str = "") -> Response:
    """Send one supplier's list as CSV."""
    return _sheet(request, supplier, sure, "csv")


def _sheet(request: Request, supplier: str, sure: str, form: SheetFormat) -> Response:
    door = door_of(request)
    found = ordering.to_order(door, _wanted(request, door), _sure(sure))
    content = order_sheets.order_sheet(found, supplier, form)
    return download(content, file_name(door, f"order-{slug(supplier)}", form), TYPES[form])


@router.page("/shelf/parcels")
def parcels(request: Request) -> Response:
    """Weigh whether waiting to share the carriage is worth it."""
    door = door_of(request)
    desk = getattr(request.app.state, "plan_desk", None)
    if isinstance(desk, PlanDesk):
        patience = PROGRAM_PATIENCE_S if wants_json(request) else None
        found = desk.parcels(door, wait_s=patience)
    else:
        found = ordering.parcels(door)
    return page(request, "shelf/parcels.html", found)


@router.page("/shelf/chase")
def chase(request: Request) -> Response:
    """List whom to ask about what."""
    door = door_of(request)
    return page(request, "shelf/chase.html", ordering.chase(door, _wanted(request, door)))


@router.page("/shelf/costs")
def costs(request: Request) -> Response:
    """Add up what it costs."""
    return _costs(request, Form())


def _costs(request: Request, form: Form) -> Response:
    door = door_of(request)
    car = door.build().car
    rates = {
        name.removeprefix("rate-"): said
        for name, said in request.query_params.items()
        if name.startswith("rate-") and said.strip()
    }
    wrong = ""
    try:
        found = ordering.costs(door, rates)
    except BadInput as error:
        if wants_json(request):
            raise
        found, wrong = ordering.costs(door), error.describe()
    shown = CostsShown(form, lay_money(car.budget if car else None), rates, wrong)
    return page(request, "shelf/costs.html", found, also=shown, status=form.status)


@router.post("/shelf/costs/budget", response_model=None)
def budget(request: Request, sent: Sent) -> Response:
    """Write down what it may cost in all."""
    return answered(
        request,
        sent,
        lambda pen: ordering.set_budget(door_of(request), sent.fields, pen),
        "/shelf/costs",
        lambda form: _costs(request, form),
    )
