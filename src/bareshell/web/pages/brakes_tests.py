"""Readings of the brakes: forms for what was read, and what each says."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_readings
from bareshell.app.brakes_readings import KINDS, ReadingForm, reading_form
from bareshell.app.brakes_tried import tried
from bareshell.errors import NotFound
from bareshell.model.brake import ReadingKind
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.pages.brakes import SUBPAGES
from bareshell.web.pages.brakes_circuit import system_in
from bareshell.web.twin import PageRouter, page

router = PageRouter()
HERE = "/brakes/tests"


@dataclass(frozen=True, slots=True)
class Shown:
    """What the page needs besides its reading."""

    form: Form
    zone: tzinfo
    kinds: tuple[tuple[str, str], ...]
    asks: ReadingForm | None
    answers: dict[str, str]
    pages: tuple[tuple[str, str], ...] = SUBPAGES
    here: str = HERE


@router.page(HERE)
def readings(request: Request, kind: str = "") -> Response:
    """Show every reading, and the form of the kind that was asked for."""
    return _show(request, Form(), kind)


def _show(request: Request, form: Form, kind: str) -> Response:
    door, system_id = door_of(request), system_in(request)
    shown = Shown(
        form,
        zone_for(door),
        tuple((each.value, words) for each, words in KINDS.items()),
        reading_form(_kind(kind)) if kind else None,
        {"system": system_id} if system_id else {},
    )
    found = tried(door, system_id)
    return page(request, "brakes/tests.html", found, also=shown, status=form.status)


@router.post("/brakes/tests/{kind}", response_model=None)
def take(request: Request, kind: str, sent: Sent) -> Response:
    """Write a reading down."""
    named = _kind(kind)
    return answered(
        request,
        sent,
        lambda pen: brakes_readings.take_reading(door_of(request), named, sent.fields, pen),
        HERE,
        lambda form: _show(request, form, kind),
    )


def _kind(said: str) -> ReadingKind:
    try:
        return ReadingKind(said)
    except ValueError:
        listed = ", ".join(KINDS)
        raise NotFound(f"there is no reading '{said}'", f"known are {listed}") from None
