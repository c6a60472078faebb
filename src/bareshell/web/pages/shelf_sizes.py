"""Sizes that stand in words, offered as figures."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import sizes as desk
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.twin import PageRouter, page

router = PageRouter()
MANY = 200


@dataclass(frozen=True, slots=True)
class SizesShown:
    """The form of the page."""

    form: Form
    many: int = MANY


@router.page("/shelf/sizes")
def sizes(request: Request) -> Response:
    """Show every size in words that could be read."""
    return _show(request, Form())


def _show(request: Request, form: Form) -> Response:
    found = desk.sizes(door_of(request))
    return page(request, "shelf/sizes.html", found, also=SizesShown(form), status=form.status)


@router.post("/shelf/sizes", response_model=None)
def take(request: Request, sent: Sent) -> Response:
    """Take those that were ticked."""
    return answered(
        request,
        sent,
        lambda pen: desk.take(door_of(request), sent.fields, pen),
        "/shelf/matches",
        lambda form: _show(request, form),
    )
