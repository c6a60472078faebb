"""What on the shelf fits, what may stand in, and the sums behind each verdict."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import fitting
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.links import path_of
from bareshell.web.slices import Slice, part_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.fit_answer import ShelfMatch

router = PageRouter()


@dataclass(frozen=True, slots=True)
class FitShown:
    """What the page of one pair needs besides: its forms."""

    here: str
    use: Form
    temp: Form


@dataclass(frozen=True, slots=True)
class MatchesShown:
    """A part of the list."""

    part: Slice[ShelfMatch]


@router.page("/shelf/matches")
def matches(request: Request, number: int = 1) -> Response:
    """List what lies on the shelf for what is not met."""
    found = fitting.matches(door_of(request))
    shown = MatchesShown(part_of(found.matches, number))
    return page(request, "shelf/matches.html", found, also=shown)


@router.page("/needs/{need_id}/fit")
def fit(request: Request, need_id: str) -> Response:
    """Hold one need against the shelf."""
    return page(request, "shelf/fit.html", fitting.fits(door_of(request), need_id))


@router.page("/needs/{need_id}/fit/{holding_id}")
def fit_one(request: Request, need_id: str, holding_id: str) -> Response:
    """Show one pair, with every check behind the verdict."""
    return _show(request, need_id, holding_id, Form(), Form())


def _show(request: Request, need_id: str, holding_id: str, use: Form, temp: Form) -> Response:
    found = fitting.fit_page(door_of(request), need_id, holding_id)
    here = f"{path_of('need', need_id)}/fit/{quote(holding_id, safe='')}"
    status = max(use.status, temp.status)
    return page(request, "shelf/fit_one.html", found, also=FitShown(here, use, temp), status=status)


@router.post("/needs/{need_id}/fit/{holding_id}/use", response_model=None)
def use(request: Request, need_id: str, holding_id: str, sent: Sent) -> Response:
    """Put it aside for what is wanted."""
    return answered(
        request,
        sent,
        lambda pen: fitting.use(door_of(request), need_id, holding_id, sent.fields, pen),
        path_of("need", need_id),
        lambda form: _show(request, need_id, holding_id, form, Form()),
    )


@router.post("/needs/{need_id}/fit/{holding_id}/temp", response_model=None)
def temp(request: Request, need_id: str, holding_id: str, sent: Sent) -> Response:
    """Fit it for the time being; the temp stands in the register at once."""
    return answered(
        request,
        sent,
        lambda pen: fitting.use_as_temp(door_of(request), need_id, holding_id, sent.fields, pen),
        "/proofs#temps",
        lambda form: _show(request, need_id, holding_id, Form(), form),
    )
