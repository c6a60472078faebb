"""Labels for bins and bags: the words large, a square code beside them, to be printed and cut."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated
from urllib.parse import quote, urlencode

from fastapi import Query
from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import reading
from bareshell.web.desk import door_of
from bareshell.web.settings import LOOPBACK_NAMES
from bareshell.web.slices import part_of
from bareshell.web.templating import views_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.places import walking_order

router = PageRouter()
ON_A_SHEET = 24
CONTENTS = 4


@dataclass(frozen=True, slots=True)
class Label:
    """One label: what it says, what lies there, and where its code leads."""

    words: str
    beneath: str
    contents: tuple[str, ...]
    more: int
    address: str


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """Labels as they are printed."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    labels: tuple[Label, ...]


@dataclass(frozen=True, slots=True)
class LabelsShown:
    """What the page needs besides: what else can be printed."""

    places: tuple[str, ...]
    chosen: tuple[str, ...]
    kind: str
    pages: int
    number: int
    only_here: bool


@router.page("/shelf/labels")
def labels(
    request: Request,
    place: Annotated[list[str] | None, Query()] = None,
    job: Annotated[list[str] | None, Query()] = None,
    kind: str = "",
    number: int = 1,
) -> Response:
    """Lay labels out: of every place, of some, or of the bags of jobs."""
    overview = reading.shelf(door_of(request))
    base, only_here = _base(request)
    place = [one.strip() for one in place or () if one.strip()]
    by_place: dict[str, list[str]] = {}
    for one in overview.holdings:
        if one.quantity and one.where:
            by_place.setdefault(one.where, []).append(f"{one.quantity} x {one.title}")
    places = tuple(sorted(by_place, key=walking_order))
    if job or kind == "bags":
        made = [
            _bag(kit.job, kit.job_title, kit.bag, (*kit.short_to_start, *kit.look_for), base)
            for kit in overview.kits
            if kit.job in (job or ()) or (kind == "bags" and kit.bag)
        ]
    else:
        wanted = [p for p in places if not place or p in place]
        wanted += [p for p in place if p not in by_place]  # a bin that is still empty
        made = [_bin(one, by_place.get(one, []), base) for one in wanted]
    part = part_of(made, number, ON_A_SHEET)
    sheet = LabelSheet(
        overview.made_at, overview.seq, overview.car, overview.invented, tuple(part.items)
    )
    shown = LabelsShown(places, tuple(place), kind, part.pages, part.number, only_here)
    return page(request, "shelf/labels.html", sheet, also=shown)


def _base(request: Request) -> tuple[str, bool]:
    """Where a code leads: what a phone has to open, and whether no phone can."""
    address = views_of(request).settings.address
    if address:
        return address.rstrip("/"), False
    return str(request.base_url).rstrip("/"), (request.url.hostname or "") in LOOPBACK_NAMES


def _bin(place: str, contents: list[str], base: str) -> Label:
    shelf, _, inner = place.rpartition(", ")
    return Label(
        inner or place,
        shelf,
        tuple(contents[:CONTENTS]),
        max(0, len(contents) - CONTENTS),
        f"{base}/holdings?{urlencode({'place': place})}",
    )


def _bag(job: str, title: str, bag: str, missing: tuple[str, ...], base: str) -> Label:
    words = bag if not bag or bag.startswith("bag") else f"bag {bag}"
    still = tuple(f"still wants: {one}" for one in missing[:CONTENTS])
    return Label(
        words or title,
        title if words else "kit",
        still,
        max(0, len(missing) - CONTENTS),
        f"{base}/shelf/kits/{quote(job, safe='')}",
    )
