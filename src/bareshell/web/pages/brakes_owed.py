"""What the brakes on the car owe in proof and want of parts, beside what the record has."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_needs, brakes_proofs
from bareshell.app.door import Door
from bareshell.app.written import Pen, Written
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, SentForm, answered
from bareshell.web.pages.brakes import SUBPAGES
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_owed import NeedLine, ProofDifference

router = PageRouter()


@dataclass(frozen=True, slots=True)
class OwedShown:
    """What the page needs besides."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    offered: tuple[tuple[str, tuple[ProofDifference, ...]], ...]
    kept: tuple[ProofDifference, ...]
    wanted: tuple[NeedLine, ...]
    settled: tuple[NeedLine, ...]
    owe: Form
    want: Form
    zone: tzinfo


@router.page("/brakes/owed")
def owed(request: Request) -> Response:
    """Show what the brakes owe and want."""
    return _owed(request, Form(), Form())


def _owed(request: Request, owe: Form, want: Form) -> Response:
    door = door_of(request)
    view = brakes_proofs.owed(door)
    groups: dict[str, list[ProofDifference]] = {}
    for one in view.differences:
        if one.is_written:
            groups.setdefault(f"{one.what}: {one.title}", []).append(one)
    shown = OwedShown(
        pages=SUBPAGES,
        here="/brakes/owed",
        answers={},
        offered=tuple((title, tuple(every)) for title, every in groups.items()),
        kept=tuple(one for one in view.differences if not one.is_written),
        wanted=tuple(one for one in view.needs if one.comes in ("new", "settled")),
        settled=tuple(one for one in view.needs if one.comes not in ("new", "settled")),
        owe=owe,
        want=want,
        zone=zone_for(door),
    )
    status = max(owe.status, want.status)
    return page(request, "brakes/owed.html", view, also=shown, status=status)


@router.post("/brakes/owed/proofs", response_model=None)
def owe(request: Request, sent: Sent) -> Response:
    """Owe the proofs of the brakes on the car."""
    return _written(request, sent, brakes_proofs.owe, lambda form: _owed(request, form, Form()))


@router.post("/brakes/owed/needs", response_model=None)
def want(request: Request, sent: Sent) -> Response:
    """Put on the parts desk what the brakes on the car want."""
    return _written(request, sent, brakes_needs.want, lambda form: _owed(request, Form(), form))


def _written(
    request: Request,
    sent: SentForm,
    act: Callable[[Door, Pen], Written],
    again: Callable[[Form], Response],
) -> Response:
    return answered(request, sent, lambda pen: act(door_of(request), pen), "/brakes/owed", again)
