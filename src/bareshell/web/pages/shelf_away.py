"""What is away for work: counted out, counted back, and what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import counting, reading
from bareshell.web.desk import blank_of, door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.pages.shelf_needs import places_of
from bareshell.web.slices import Slice, part_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.away import AwayLot
from bareshell.whole.places import lies_in, walking_order
from bareshell.whole.shelf_overview import HoldingView

router = PageRouter()
MANY = 60


@dataclass(frozen=True, slots=True)
class OutShown:
    """What may be counted out, and the form for it."""

    form: Form
    part: Slice[HoldingView]
    find: str
    place: str
    places: tuple[tuple[str, str], ...]
    suppliers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LotPage:
    """One lot that went out."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    lot: AwayLot


@dataclass(frozen=True, slots=True)
class LotShown:
    """What the page of a lot needs besides."""

    here: str
    form: Form
    places: tuple[str, ...]


@router.page("/shelf/away")
def away(request: Request) -> Response:
    """List what is away, and what came back."""
    return page(request, "shelf/away.html", counting.away(door_of(request)))


@router.page("/shelf/away/new")
def new(request: Request, find: str = "", place: str = "", holding: str = "") -> Response:
    """Show what may be counted out."""
    return _new(request, Form(), find.strip(), place, holding)


def _new(request: Request, form: Form, find: str, place: str, holding: str = "") -> Response:
    shelf = reading.shelf(door_of(request))
    words = find.casefold()
    kept = {name.removeprefix("out-") for name, values in form.fields.items()
            if name.startswith("out-") and any(values)}  # fmt: skip
    found = [
        one
        for one in shelf.holdings
        if one.quantity
        and not one.away
        and (
            one.id in kept
            or (
                holding in ("", one.id)
                and lies_in(one.where, place)
                and words in f"{one.title} {one.size} {one.where} {one.need_title}".casefold()
            )
        )
    ]
    found.sort(key=lambda one: (one.id not in kept, walking_order(one.where), one.title))
    places = dict.fromkeys(one.where for one in shelf.holdings if one.where)
    suppliers = tuple(dict.fromkeys(one.supplier for one in shelf.coming if one.supplier))
    part = part_of(found, 1, MANY)
    shown = OutShown(form, part, find, place, tuple((one, one) for one in places), suppliers)
    blank = blank_of(request)
    return page(request, "shelf/away_new.html", blank, also=shown, status=form.status)


@router.post("/shelf/away/new", response_model=None)
def send(request: Request, sent: Sent) -> Response:
    """Count things out; or look for more of them, with what was counted kept."""
    if "look" in sent.fields:
        form = sent.kept()
        return _new(request, form, form.value("find").strip(), form.value("place"))
    return answered(
        request,
        sent,
        lambda pen: counting.send_away(door_of(request), sent.fields, pen),
        lambda written: _path(written.key) if written.key else "/shelf/away",
        lambda form: _new(request, form, form.value("find").strip(), form.value("place")),
    )


def _path(batch: str) -> str:
    return f"/shelf/away/{quote(batch, safe='')}"


@router.page("/shelf/away/{batch}")
def lot(request: Request, batch: str) -> Response:
    """Open one lot, to be counted back."""
    return _show(request, batch, Form())


def _show(request: Request, batch: str, form: Form) -> Response:
    door = door_of(request)
    blank = blank_of(request)
    found = LotPage(blank.made_at, blank.seq, blank.car, blank.invented, counting.lot(door, batch))
    shown = LotShown(_path(batch), form, places_of(request))
    return page(request, "shelf/away_lot.html", found, also=shown, status=form.status)


@router.post("/shelf/away/{batch}/back", response_model=None)
def back(request: Request, batch: str, sent: Sent) -> Response:
    """Count a lot back."""
    return answered(
        request,
        sent,
        lambda pen: counting.take_back(door_of(request), batch, sent.fields, pen),
        _path(batch),
        lambda form: _show(request, batch, form),
    )
