"""Orders: what is coming, and what it turned out to be when the box came."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import opening, ordering, parts_desk, reading
from bareshell.app.goods_in import OUTCOMES
from bareshell.app.reading import RecordLine
from bareshell.model.part import SourceClass
from bareshell.web.desk import blank_of, door_of, zone_for
from bareshell.web.forms import Form, Sent, answered, pairs
from bareshell.web.links import path_of
from bareshell.web.pages.shelf_came import fresh_plan
from bareshell.web.pages.shelf_needs import own_row, places_of
from bareshell.web.pages.shelf_specs import SpecShown, asks_for_fields, spec_shown
from bareshell.web.twin import PageRouter, page
from bareshell.whole.goods_plan import GoodsPlan
from bareshell.whole.opened import OrderPage
from bareshell.whole.shelf_overview import ComingView

router = PageRouter()


@dataclass(frozen=True, slots=True)
class OrdersList:
    """Every order line that is not complete, or that wants something done."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    coming: tuple[ComingView, ...]


@dataclass(frozen=True, slots=True)
class OrderShown:
    """What the page needs besides: its forms."""

    came: Form
    later: Form
    back: Form
    wrong: Form
    paid: Form
    steps: tuple[tuple[str, str, str], ...]
    outcomes: tuple[tuple[str, str, str], ...]
    places: tuple[str, ...]
    history: tuple[RecordLine, ...]
    zone: tzinfo
    plan: GoodsPlan | None


@dataclass(frozen=True, slots=True)
class OrderForm:
    """What a form for an order lets one choose from."""

    form: Form
    action: str
    needs: tuple[str, ...]
    spec: SpecShown
    sources: tuple[tuple[str, str], ...] = pairs(SourceClass)


@router.page("/orders")
def orders(request: Request) -> Response:
    """List what is coming."""
    shelf = reading.shelf(door_of(request))
    listed = OrdersList(shelf.made_at, shelf.seq, shelf.car, shelf.invented, shelf.coming)
    return page(request, "shelf/orders.html", listed)


@router.page("/orders/{order_id}")
def order(request: Request, order_id: str) -> Response:
    """Show one order line, with the check of a delivery."""
    return _show(request, order_id, {})


def _show(request: Request, order_id: str, sent: dict[str, Form]) -> Response:
    door = door_of(request)
    found = opening.order(door, order_id)
    shown = OrderShown(
        came=sent.get("came", Form()).on(found.version),
        later=sent.get("later", Form()).on(found.version),
        back=sent.get("back", Form()).on(found.version),
        wrong=sent.get("wrong", Form()).on(found.version),
        paid=sent.get("paid", Form()).on(found.version),
        steps=tuple((key, field, words) for key, (field, words) in ordering.STEPS.items()),
        outcomes=tuple((str(one), "", words) for one, words in OUTCOMES.items()),
        places=places_of(request),
        history=opening.history(door, f"order:{order_id}"),
        zone=zone_for(door),
        plan=fresh_plan(request, door, order_id),
    )
    status = max((form.status for form in sent.values()), default=200)
    return page(request, "shelf/order.html", found, also=shown, status=status)


@router.post("/orders/{order_id}/came", response_model=None)
def came(request: Request, order_id: str, sent: Sent) -> Response:
    """Write down what a delivery turned out to be."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.check_goods(door_of(request), order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"came": form}),
    )


@router.post("/orders/{order_id}/expect", response_model=None)
def expect(request: Request, order_id: str, sent: Sent) -> Response:
    """Write down another day on which it is expected."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.expect_order(door_of(request), order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"later": form}),
    )


@router.post("/orders/{order_id}/cancel", response_model=None)
def cancel(request: Request, order_id: str, sent: Sent) -> Response:
    """Write down that it was cancelled."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.cancel_order(door_of(request), order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"later": form}),
    )


@router.post("/orders/{order_id}/exchange/{step}", response_model=None)
def exchange_step(request: Request, order_id: str, step: str, sent: Sent) -> Response:
    """Write down that something was done before the old unit goes back."""
    return answered(
        request,
        own_row(sent, f"{step}:{order_id}"),
        lambda pen: ordering.exchange_step(door_of(request), order_id, step, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"back": form}),
    )


@router.post("/orders/{order_id}/sent-back", response_model=None)
def sent_back(request: Request, order_id: str, sent: Sent) -> Response:
    """Write down that what came wrong went back."""
    return answered(
        request,
        sent,
        lambda pen: ordering.sent_back(door_of(request), order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"wrong": form}),
    )


@router.post("/orders/{order_id}/paid", response_model=None)
def paid(request: Request, order_id: str, sent: Sent) -> Response:
    """Write down that it was paid."""
    return answered(
        request,
        sent,
        lambda pen: ordering.paid(door_of(request), order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"paid": form}),
    )


@router.post("/orders/{order_id}/returned", response_model=None)
def returned(request: Request, order_id: str, sent: Sent) -> Response:
    """Write down that the old unit went back."""
    return answered(
        request,
        sent,
        lambda pen: parts_desk.return_exchange(door_of(request), order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _show(request, order_id, {"back": form}),
    )


@router.page("/orders/{order_id}/edit")
def edit(request: Request, order_id: str) -> Response:
    """Show an order line, to be corrected."""
    door = door_of(request)
    found = opening.order(door, order_id)
    laid = parts_desk.lay_order(found.order, door.build())
    return _edit(request, found, Form(laid))


def _edit(request: Request, found: OrderPage, form: Form) -> Response:
    action = f"{path_of('order', found.order.id)}/edit"
    shown = _defining(request, form.on(found.version), action)
    return page(request, "shelf/order_edit.html", found, also=shown, status=form.status)


@router.post("/orders/{order_id}/edit", response_model=None)
def change(request: Request, order_id: str, sent: Sent) -> Response:
    """Correct an order line."""
    door = door_of(request)
    if asks_for_fields(sent):
        return _edit(request, opening.order(door, order_id), sent.kept())
    return answered(
        request,
        sent,
        lambda pen: parts_desk.set_order(door, order_id, sent.fields, pen),
        path_of("order", order_id),
        lambda form: _edit(request, opening.order(door, order_id), form),
        offers=True,
    )


@router.page("/add/order")
def new(request: Request, need: str = "") -> Response:
    """Show an empty form for an order; filled from what is wanted, when a need is named."""
    door = door_of(request)
    laid = parts_desk.lay_new_order(door, need)
    return _new(request, Form(laid))


def _new(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/order")
    blank = blank_of(request)
    return page(request, "shelf/order_edit.html", blank, also=shown, status=form.status)


@router.post("/add/order", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Write an order line down."""
    if asks_for_fields(sent):
        return _new(request, sent.kept())
    return answered(
        request,
        sent,
        lambda pen: parts_desk.set_order(door_of(request), None, sent.fields, pen),
        lambda written: path_of("order", written.key),
        lambda form: _new(request, form),
        offers=True,
    )


def _defining(request: Request, form: Form, action: str) -> OrderForm:
    shelf = reading.shelf(door_of(request))
    needs = tuple(dict.fromkeys(need.title for need in shelf.needs if need.open))
    return OrderForm(form, action, needs, spec_shown(form))
