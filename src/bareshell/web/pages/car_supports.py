"""How the car can stand in this garage, and what it takes to bring it from one to another."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import garage_desk, opening, reading
from bareshell.model.position import BODY_STATES, SupportKind, Wheels, Zone
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered, pairs
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class MoveLine:
    """Bringing the car from one support to another, by name."""

    start: str
    end: str
    minutes: int
    people: int
    only: str = ""


@dataclass(frozen=True, slots=True)
class SupportsShown:
    """What the list needs besides."""

    moves: tuple[MoveLine, ...]
    move: Form
    supports: tuple[tuple[str, str], ...]
    states: tuple[tuple[str, str], ...] = pairs(BODY_STATES)


@dataclass(frozen=True, slots=True)
class SupportShown:
    """What the form for a support lets one choose from."""

    form: Form
    action: str
    title: str
    here: bool
    kinds: tuple[tuple[str, str], ...] = pairs(SupportKind)
    zones: tuple[tuple[str, str], ...] = pairs(Zone)
    wheels: tuple[tuple[str, str], ...] = pairs(Wheels)


@router.page("/car/supports")
def supports(request: Request, start: str = "", end: str = "") -> Response:
    """List how the car can stand; two of them fill in the form for a move."""
    return _show(request, Form({"from": (start,), "to": (end,), "people": ("1",)}))


def _show(request: Request, form: Form) -> Response:
    overview = reading.car(door_of(request))
    titles = {support.id: support.title for support in overview.supports}
    moves = tuple(
        MoveLine(titles[m.from_support], titles[m.to_support], m.minutes, m.people)
        for m in overview.moves
        if m.from_support in titles and m.to_support in titles
    )
    shown = SupportsShown(moves, form, tuple(titles.items()))
    return page(request, "car/supports.html", overview, also=shown, status=form.status)


@router.post("/car/moves", response_model=None)
def move(request: Request, sent: Sent) -> Response:
    """Write down what a move takes."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_move(door_of(request), sent.fields, pen),
        "/car/supports",
        lambda form: _show(request, form),
        offers=True,
    )


@router.page("/car/supports/{support_id}")
def support(request: Request, support_id: str) -> Response:
    """Show one way the car can stand, to be corrected."""
    laid = garage_desk.lay_support(garage_desk.support_of(door_of(request), support_id))
    return _edit(request, support_id, Form(laid))


def _edit(request: Request, support_id: str, form: Form) -> Response:
    door = door_of(request)
    overview = reading.car(door)
    known = garage_desk.support_of(door, support_id)
    shown = SupportShown(
        form.on(opening.version_of(door, f"support:{support_id}")),
        f"/car/supports/{support_id}",
        known.title,
        overview.stands == support_id,
    )
    return page(request, "car/support.html", overview, also=shown, status=form.status)


@router.post("/car/supports/{support_id}", response_model=None)
def change(request: Request, support_id: str, sent: Sent) -> Response:
    """Correct what a support opens."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_support(door_of(request), support_id, sent.fields, pen),
        "/car/supports",
        lambda form: _edit(request, support_id, form),
        offers=True,
    )


@router.post("/car/supports/{support_id}/drop", response_model=None)
def drop(request: Request, support_id: str, sent: Sent) -> Response:
    """Write down that the car can stand so no longer."""
    door = door_of(request)

    def again(form: Form) -> Response:
        laid = garage_desk.lay_support(garage_desk.support_of(door, support_id))
        return _edit(request, support_id, form.laid(laid))

    return answered(
        request,
        sent,
        lambda pen: garage_desk.drop_support(door, support_id, pen),
        "/car/supports",
        again,
    )


@router.page("/add/support")
def new(request: Request) -> Response:
    """Show an empty form for a way the car can stand."""
    return _new(request, Form())


def _new(request: Request, form: Form) -> Response:
    shown = SupportShown(form, "/add/support", "", here=False)
    overview = reading.car(door_of(request))
    return page(request, "car/support.html", overview, also=shown, status=form.status)


@router.post("/add/support", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Add a way the car can stand."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_support(door_of(request), None, sent.fields, pen),
        "/car/supports",
        lambda form: _new(request, form),
        offers=True,
    )
