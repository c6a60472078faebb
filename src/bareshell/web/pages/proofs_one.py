"""One proof: what must be shown, what it hangs on, and writing down what was found."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import evidence, opening, proofs_desk, reading
from bareshell.app.reading import RecordLine
from bareshell.model.proof import AboutKind, ProofKind, ProofStanding, ProofState
from bareshell.web.desk import blank_of, door_of, zone_for
from bareshell.web.forms import Form, Sent, answered, pairs, rows_in
from bareshell.web.links import path_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.opened import ProofPage

router = PageRouter()

_MARK_OF = {
    "held": "held",
    "begun": "begun",
    "failed": "failed",
    "spent": "spent",
    "uncovered": "owed",
    "substitute": "substitute proof",
}


@dataclass(frozen=True, slots=True)
class ProofShown:
    """What the page needs besides: its form, the proof's history."""

    form: Form
    outcomes: tuple[tuple[str, str, str], ...]
    history: tuple[RecordLine, ...]
    zone: tzinfo
    compared: tuple[evidence.ComparedLine, ...] = ()


@dataclass(frozen=True, slots=True)
class ProofForm:
    """What a form that defines a proof lets one choose from."""

    form: Form
    action: str
    jobs: tuple[str, ...]
    gates: tuple[tuple[str, str], ...]
    limits: range
    needs: tuple[str, ...] = ()
    kinds: tuple[tuple[str, str], ...] = pairs(ProofKind)
    abouts: tuple[tuple[str, str], ...] = pairs(AboutKind)


@router.page("/proofs/{proof_id}")
def proof(request: Request, proof_id: str) -> Response:
    """Show one proof."""
    return _show(request, proof_id, Form())


def _show(request: Request, proof_id: str, form: Form) -> Response:
    door = door_of(request)
    found = opening.proof(door, proof_id)
    standing = ProofStanding(ProofState(found.proof.state), hidden=found.proof.hidden)
    shown = ProofShown(
        form=form.on(found.proof.version),
        outcomes=tuple(
            (key, _MARK_OF[key], proofs_desk.OUTCOMES[key])
            for key in proofs_desk.possible_outcomes(standing)
        ),
        history=opening.history(door, f"proof:{proof_id}"),
        zone=zone_for(door),
        compared=evidence.read_before(door, proof_id),
    )
    return page(request, "proofs/one.html", found, also=shown, status=form.status)


@router.post("/proofs/{proof_id}/mark", response_model=None)
def mark(request: Request, proof_id: str, sent: Sent) -> Response:
    """Write down what was found."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.prove(door_of(request), proof_id, sent.fields, pen),
        path_of("proof", proof_id),
        lambda form: _show(request, proof_id, form),
    )


@router.page("/proofs/{proof_id}/edit")
def edit(request: Request, proof_id: str) -> Response:
    """Show what a proof asks for, to be corrected."""
    door = door_of(request)
    found = opening.proof(door, proof_id)
    laid = proofs_desk.lay_proof(door.build().proofs[proof_id].proof, door.build())
    return _edit(request, found, Form(laid))


def _edit(request: Request, found: ProofPage, form: Form) -> Response:
    shown = _defining(request, form.on(found.proof.version), f"{_path(found)}/edit")
    return page(request, "proofs/edit.html", found, also=shown, status=form.status)


@router.post("/proofs/{proof_id}/edit", response_model=None)
def change(request: Request, proof_id: str, sent: Sent) -> Response:
    """Correct what a proof asks for."""
    door = door_of(request)
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.set_proof(door, proof_id, sent.fields, pen),
        path_of("proof", proof_id),
        lambda form: _edit(request, opening.proof(door, proof_id), form),
    )


@router.page("/add/proof")
def new(request: Request) -> Response:
    """Show an empty form for a proof."""
    return _new(request, Form())


def _new(request: Request, form: Form) -> Response:
    shown = _defining(request, form, "/add/proof")
    return page(request, "proofs/edit.html", blank_of(request), also=shown, status=form.status)


@router.post("/add/proof", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Add a proof that is owed."""
    return answered(
        request,
        sent,
        lambda pen: proofs_desk.set_proof(door_of(request), None, sent.fields, pen),
        lambda written: path_of("proof", written.key),
        lambda form: _new(request, form),
    )


def _defining(request: Request, form: Form, action: str) -> ProofForm:
    door = door_of(request)
    gates = tuple((gate.id, gate.title) for gate in reading.proofs(door).gates)
    jobs = tuple(job.title for job in reading.jobs(door).jobs)
    limits = rows_in(form, "limit_quantity", "limit_unit", "limit_low", "limit_high")
    needs = tuple(need.title for need in reading.shelf(door).needs)
    return ProofForm(form, action, jobs, gates, limits, needs)


def _path(found: ProofPage) -> str:
    return path_of("proof", found.proof.id)
