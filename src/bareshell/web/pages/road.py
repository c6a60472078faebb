"""Road ahead: every session to the road, and when it may be reached."""

from __future__ import annotations

from fastapi import Request
from starlette.responses import Response

from bareshell.web.desk import door_of
from bareshell.web.pages.road_view import road_view
from bareshell.web.plan_desk import PROGRAM_PATIENCE_S, plan_desk_of
from bareshell.web.twin import PageRouter, page, wants_json
from bareshell.whole.garage_time import zone_of

router = PageRouter()


@router.page("/road-ahead")
def show(request: Request) -> Response:
    """Show the road as a picture, as figures and as a list."""
    door = door_of(request)
    patience = PROGRAM_PATIENCE_S if wants_json(request) else None
    overview = plan_desk_of(request).road(door, wait_s=patience)
    view = road_view(overview, zone_of(door.build()))
    return page(request, "road/road.html", overview, also=view)
