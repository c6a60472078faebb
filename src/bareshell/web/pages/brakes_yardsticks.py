"""Picking the yardsticks that the brakes are held against."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_readings, brakes_yardsticks
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.pages.brakes import SUBPAGES
from bareshell.web.twin import PageRouter, page

router = PageRouter()
HERE = "/brakes/yardsticks"


@dataclass(frozen=True, slots=True)
class Shown:
    """What the page needs besides its reading."""

    form: Form
    pages: tuple[tuple[str, str], ...] = SUBPAGES
    here: str = HERE


@router.page(HERE)
def yardsticks(request: Request, market: str = "") -> Response:
    """Show every yardstick, to be picked."""
    return _show(request, Form(), market)


def _show(request: Request, form: Form, market: str = "") -> Response:
    found = brakes_yardsticks.yardsticks(door_of(request), market)
    status = form.status
    return page(request, "brakes/yardsticks.html", found, also=Shown(form), status=status)


@router.post(HERE, response_model=None)
def choose(request: Request, sent: Sent) -> Response:
    """Write down which were picked."""
    ids = tuple(sent.fields.get("yardstick", ()))
    return answered(
        request,
        sent,
        lambda pen: brakes_readings.choose_yardsticks(door_of(request), ids, pen),
        HERE,
        lambda form: _show(request, form),
    )
