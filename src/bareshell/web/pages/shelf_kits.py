"""Kits: the bag of one job, and what to fetch for a session."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Query
from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import kit_desk, reading
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.pages.shelf_needs import places_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.shelf_overview import KitView

router = PageRouter()


@dataclass(frozen=True, slots=True)
class KitShown:
    """What the page needs besides: its forms."""

    here: str
    bag: Form
    found: Form
    to_find: int
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PickShown:
    """What else could be fetched for."""

    chosen: tuple[str, ...]
    others: tuple[KitView, ...]


def _path(job_id: str) -> str:
    from urllib.parse import quote

    return f"/shelf/kits/{quote(job_id, safe='')}"


@router.page("/shelf/kits/{job_id}")
def kit(request: Request, job_id: str) -> Response:
    """Open the bag of one job."""
    return _show(request, job_id, Form(), Form())


def _show(request: Request, job_id: str, bag: Form, found: Form) -> Response:
    opened = kit_desk.kit(door_of(request), job_id)
    lines = (*opened.to_start, *opened.to_finish)
    shown = KitShown(
        _path(job_id),
        bag,
        found,
        sum(1 for one in lines if one.state in ("not known", "not here", "some here")),
        places_of(request),
    )
    status = max(bag.status, found.status)
    return page(request, "shelf/kit.html", opened, also=shown, status=status)


@router.post("/shelf/kits/{job_id}/bag", response_model=None)
def name_bag(request: Request, job_id: str, sent: Sent) -> Response:
    """Write a bag's number on every line."""
    return answered(
        request,
        sent,
        lambda pen: kit_desk.name_bag(door_of(request), job_id, sent.fields, pen),
        _path(job_id),
        lambda form: _show(request, job_id, form, Form()),
    )


@router.post("/shelf/kits/{job_id}/here", response_model=None)
def all_here(request: Request, job_id: str, sent: Sent) -> Response:
    """Write down that everything still to be found was found."""
    return answered(
        request,
        sent,
        lambda pen: kit_desk.all_here(door_of(request), job_id, sent.fields, pen),
        _path(job_id),
        lambda form: _show(request, job_id, Form(), form),
    )


@router.page("/shelf/pick")
def pick(request: Request, job: Annotated[list[str] | None, Query()] = None) -> Response:
    """Say what to fetch for some jobs, bin after bin."""
    door = door_of(request)
    found = kit_desk.picks(door, tuple(job or ()))
    chosen = tuple(key for key, _ in found.jobs)
    others = tuple(kit for kit in reading.shelf(door).kits if kit.job not in chosen)
    return page(request, "shelf/pick.html", found, also=PickShown(chosen, others[:40]))
