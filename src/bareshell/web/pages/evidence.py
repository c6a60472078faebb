"""The torque sheet, the rehearsal of an inspection, re-checks and the way through a gate."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import evidence
from bareshell.model.looked import Seen
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class Shown:
    """What these pages need besides their reading."""

    form: Form
    zone: tzinfo
    item: str = ""
    seen: tuple[tuple[str, str, str], ...] = (
        (str(Seen.RIGHT), "held", str(Seen.RIGHT)),
        (str(Seen.WRONG), "failed", str(Seen.WRONG)),
        (str(Seen.ABSENT), "left out", str(Seen.ABSENT)),
    )


@router.page("/gates/{gate_id}/way")
def way(request: Request, gate_id: str) -> Response:
    """Show the shortest way through a gate; it prints as the gate's own sheet."""
    door = door_of(request)
    found = evidence.way(door, gate_id)
    return page(request, "proofs/way.html", found, also=Shown(Form(), zone_for(door)))


@router.page("/torque")
def torque(request: Request) -> Response:
    """Show the torque sheet."""
    door = door_of(request)
    found = evidence.torque(door)
    return page(request, "proofs/torque.html", found, also=Shown(Form(), zone_for(door)))


@router.page("/rehearsal")
def rehearsal(request: Request, item: str = "") -> Response:
    """Show the rehearsal of an inspection, item by item."""
    return _rehearsal(request, Form(), item)


def _rehearsal(request: Request, form: Form, item: str) -> Response:
    door = door_of(request)
    shown = Shown(form, zone_for(door), item)
    found = evidence.rehearse(door)
    return page(request, "proofs/rehearsal.html", found, also=shown, status=form.status)


@router.post("/rehearsal/{item_id}", response_model=None)
def look(request: Request, item_id: str, sent: Sent) -> Response:
    """Write down what was seen of an item."""
    return answered(
        request,
        sent,
        lambda pen: evidence.look_at(door_of(request), item_id, sent.fields, pen),
        f"/rehearsal#{item_id}",
        lambda form: _rehearsal(request, form, item_id),
    )


@router.page("/again")
def again(request: Request) -> Response:
    """Show the re-checks and how figures compare."""
    return _again(request, Form())


def _again(request: Request, form: Form) -> Response:
    door = door_of(request)
    found = evidence.again(door)
    shown = Shown(form.on(found.version), zone_for(door))
    return page(request, "proofs/again.html", found, also=shown, status=form.status)


@router.post("/again", response_model=None)
def miles(request: Request, sent: Sent) -> Response:
    """Write down the miles run."""
    return answered(
        request,
        sent,
        lambda pen: evidence.read_miles(door_of(request), sent.fields, pen),
        "/again",
        lambda form: _again(request, form),
    )
