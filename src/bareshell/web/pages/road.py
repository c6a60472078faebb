"""Road ahead: every session to the road, when it may be reached, and what would move that."""

from __future__ import annotations

from typing import Final

from fastapi import Request
from starlette.responses import Response

from bareshell.app import calendar_feed
from bareshell.app.door import Door
from bareshell.web import cookies
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.pages.levers_view import levers_view
from bareshell.web.pages.road_view import road_view, share_of
from bareshell.web.pairing import CALENDAR_PATH, desk_of
from bareshell.web.plan_desk import PROGRAM_PATIENCE_S, StillWorking, plan_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.forecast_parts import LeversOverview
from bareshell.whole.garage_time import zone_of

LEVERS_PATIENCE_S: Final = 2.0
"""How long the road waits for its levers, which have a page of their own. [s]"""

router = PageRouter()


@router.page("/road-ahead")
def show(request: Request, sure: str = "") -> Response:
    """Show the road as a picture, as figures and as a list."""
    return _show(request, Form(), sure)


def _show(request: Request, form: Form, sure: str = "") -> Response:
    door = door_of(request)
    patience = PROGRAM_PATIENCE_S if wants_json(request) else None
    overview = plan_desk_of(request).road(door, wait_s=patience)
    levers = None if wants_json(request) else _levers_soon(request, door)
    moved = None if wants_json(request) else plan_desk_of(request).moved(door)
    view = road_view(
        overview,
        zone_of(door.build()),
        levers,
        form,
        share_of(sure),
        _calendar_address(request),
        moved,
    )
    return page(request, "road/road.html", overview, also=view, status=form.status)


def _levers_soon(request: Request, door: Door) -> LeversOverview | None:
    try:
        return plan_desk_of(request).levers(door, wait_s=LEVERS_PATIENCE_S)
    except StillWorking:
        return None


@router.get(CALENDAR_PATH, response_model=None)
def calendar(request: Request) -> Response:
    """Send what lies ahead as a calendar; a calendar asks again by itself."""
    door = door_of(request)
    road = plan_desk_of(request).road(door, wait_s=PROGRAM_PATIENCE_S)
    headers = {
        "Content-Disposition": 'inline; filename="calendar.ics"',
        "Cache-Control": "no-cache",
    }
    media_type = "text/calendar; charset=utf-8"
    return Response(calendar_feed.calendar(door, road), media_type=media_type, headers=headers)


def _calendar_address(request: Request) -> str:
    """Where the calendar of whoever looks at the page finds ours."""
    desk = desk_of(request)
    device = desk.device(request.cookies.get(cookies.DEVICE, ""))
    base = f"{request.url.scheme}://{request.headers.get('host', '')}{CALENDAR_PATH}"
    return f"{base}?key={desk.calendar_key(device)}" if device is not None else base


@router.page("/road-ahead/levers")
def levers(request: Request) -> Response:
    """Show what would move the date, what holds it up, and the published indices."""
    patience = PROGRAM_PATIENCE_S if wants_json(request) else None
    found = plan_desk_of(request).levers(door_of(request), wait_s=patience)
    return page(request, "road/levers.html", found, also=levers_view(found))


@router.page("/road-ahead/grounds")
def grounds(request: Request, open: str = "") -> Response:  # noqa: A002  as the address says
    """Show every number of the forecast with what it rests on."""
    patience = PROGRAM_PATIENCE_S if wants_json(request) else None
    found = plan_desk_of(request).grounds(door_of(request), wait_s=patience)
    return page(request, "road/grounds.html", found, also=open)


@router.post("/road-ahead/keep", response_model=None)
def keep(request: Request, sent: Sent) -> Response:
    """Keep today's forecast."""
    door = door_of(request)
    return answered(
        request,
        sent,
        lambda pen: plan_desk_of(request).keep(door, pen),
        "/road-ahead#believe",
        lambda form: _show(request, form),
    )
