"""One joint or bleed screw: what it is, how its proof stands, and that it was opened."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_proofs
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.twin import PageRouter, page

router = PageRouter()


@dataclass(frozen=True, slots=True)
class OpenedShown:
    """What the page needs besides: its form, where it goes, and the words of the deed."""

    form: Form
    action: str
    up: str
    up_words: str
    press: str
    zone: tzinfo


@router.page("/brakes/joints/{joint_id}")
def joint(request: Request, joint_id: str) -> Response:
    """Show one joint."""
    return _joint(request, joint_id, Form())


def _joint(request: Request, joint_id: str, form: Form) -> Response:
    door = door_of(request)
    view = brakes_proofs.joint(door, joint_id)
    shown = OpenedShown(
        form,
        f"/brakes/joints/{view.address}",
        "/brakes/joints",
        "Joints",
        "It was undone",
        zone_for(door),
    )
    return page(request, "brakes/opened.html", view, also=shown, status=form.status)


@router.post("/brakes/joints/{joint_id}", response_model=None)
def undone(request: Request, joint_id: str, sent: Sent) -> Response:
    """Write down that a joint was undone."""
    return answered(
        request,
        sent,
        lambda pen: brakes_proofs.undo_joint(door_of(request), joint_id, sent.fields, pen),
        f"/brakes/joints/{joint_id}",
        lambda form: _joint(request, joint_id, form),
    )


@router.page("/brakes/screws/{screw_id}")
def screw(request: Request, screw_id: str) -> Response:
    """Show one bleed screw."""
    return _screw(request, screw_id, Form())


def _screw(request: Request, screw_id: str, form: Form) -> Response:
    door = door_of(request)
    view = brakes_proofs.screw(door, screw_id)
    shown = OpenedShown(
        form,
        f"/brakes/screws/{view.address}",
        "/brakes/bleed",
        "Bleeding",
        "It was opened",
        zone_for(door),
    )
    return page(request, "brakes/opened.html", view, also=shown, status=form.status)


@router.post("/brakes/screws/{screw_id}", response_model=None)
def opened(request: Request, screw_id: str, sent: Sent) -> Response:
    """Write down that a bleed screw was opened."""
    return answered(
        request,
        sent,
        lambda pen: brakes_proofs.open_screw(door_of(request), screw_id, sent.fields, pen),
        f"/brakes/screws/{screw_id}",
        lambda form: _screw(request, screw_id, form),
    )
