"""Looking it over: what could one day lose a record, and the backups."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import looking_over
from bareshell.web.desk import door_of
from bareshell.web.twin import PageRouter, done, page

router = PageRouter()

PATH = "/look-over"


@router.page(PATH)
def look_over(request: Request, photos: str = "") -> Response:
    """Show what the check-up finds, and the backups."""
    found = looking_over.look_over(door_of(request), every_photo=photos == "every")
    return page(request, "keeping/look_over.html", found)


@router.post(PATH + "/backup", response_model=None)
def back_up(request: Request) -> Response:
    """Make a backup now."""
    made = looking_over.make_backup(door_of(request))
    return done(request, PATH, made.said, made)
