"""Every picture of the brakes on one page, as SVG files and as a PDF."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_plates
from bareshell.app.brakes_plates import DrawnBrakes
from bareshell.draw.brake_drawn import PICTURES, SLOW, alt_of
from bareshell.draw.brake_file import FilePlate, Light
from bareshell.errors import NotFound
from bareshell.web.desk import door_of
from bareshell.web.pages.brakes import SUBPAGES, asked_in
from bareshell.web.pages.brakes_circuit import query_of, system_in
from bareshell.web.sheets import drawing_sheets
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_check import NOT_PROVED

router = PageRouter()
HERE = "/brakes/pictures"
LIGHTS: tuple[tuple[Light, str], ...] = (
    ("day", "as by day"),
    ("garage", "as in the garage"),
    ("print", "black on white"),
)


@dataclass(frozen=True, slots=True)
class PictureSaid:
    """One picture in words, for those who cannot see it."""

    title: str
    caption: str
    words: str


@dataclass(frozen=True, slots=True)
class PicturesView:
    """What every picture of the brakes says."""

    made_at: datetime
    car: str
    invented: bool
    title: str
    pictures: tuple[PictureSaid, ...]
    not_proved: tuple[str, ...] = NOT_PROVED


@dataclass(frozen=True, slots=True)
class PicturesShown:
    """What the page needs besides: the pictures, and what they can be had as."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    query: str
    plates: tuple[FilePlate, ...]
    names: tuple[tuple[str, str], ...]
    lights: tuple[tuple[Light, str], ...] = LIGHTS


@router.page(HERE)
def pictures(request: Request) -> Response:
    """Show every picture that can be drawn."""
    system_id = system_in(request)
    found = brakes_plates.drawn(door_of(request), (), system_id, asked_in(request), without=SLOW)
    view = PicturesView(
        found.made_at,
        found.car,
        found.invented,
        found.title,
        tuple(PictureSaid(one.title, one.caption, alt_of(one.drawing)) for one in found.plates),
    )
    shown = PicturesShown(
        SUBPAGES,
        HERE,
        {"system": system_id} if system_id else {},
        query_of(system_id),
        found.plates,
        tuple(PICTURES.items()),
    )
    return page(request, "brakes/pictures.html", view, also=shown)


def _drawn(request: Request, *whats: str) -> DrawnBrakes:
    return brakes_plates.drawn(door_of(request), whats, system_in(request), asked_in(request))


@router.get("/brakes/pictures/{what}.svg", response_model=None)
def picture(request: Request, what: str, light: str = "day") -> Response:
    """Hand one picture out as an SVG file that needs nothing beside it."""
    if light not in dict(LIGHTS):
        raise NotFound(f"there is no light '{light}'", "say day, garage or print")
    found = _drawn(request, what)
    text = brakes_plates.as_svg(found, drawing_sheets(), light)
    return _file(text.encode(), "image/svg+xml", f"brakes-{what}.svg")


@router.get("/brakes/pictures.pdf", response_model=None)
def paper(request: Request) -> Response:
    """Hand every picture out on paper."""
    content = brakes_plates.as_pdf(_drawn(request), drawing_sheets())
    return _file(content, "application/pdf", "brakes.pdf")


def _file(content: bytes, media_type: str, name: str) -> Response:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=media_type, headers=headers)
