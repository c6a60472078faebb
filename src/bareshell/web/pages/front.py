"""The front page: straight to tonight, or to the first questions when there is no build."""

from __future__ import annotations

from fastapi import Request
from starlette.responses import RedirectResponse, Response

from bareshell.web.desk import door_of
from bareshell.web.twin import PageRouter, as_json, wants_json

router = PageRouter()


@router.page("/")
def front(request: Request) -> Response:
    """Lead to where one begins; a build that is not there is begun."""
    door = door_of(request)
    if wants_json(request):
        car = door.build().car
        return as_json(
            {
                "car": car.name if car else "",
                "invented": bool(car and car.invented),
                "seq": door.latest(),
                "see": "/tonight.json",
            }
        )
    return RedirectResponse("/tonight", status_code=303)
