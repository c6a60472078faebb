"""Proving, passing gates, and temps: what a form says becomes entries."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from bareshell.app.door import Door
from bareshell.app.figures import figure_in
from bareshell.app.filled import Fields, Filled
from bareshell.app.job_forms import named
from bareshell.app.marking import marked
from bareshell.app.written import Pen, Written, filled, new_key, resolve, write_down
from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.proof import (
    AboutKind,
    Limit,
    Proof,
    ProofKind,
    ProofStanding,
    ProofState,
    Reading,
)
from bareshell.model.temp import Gate, Temp
from bareshell.model.trust import YOURS

OUTCOMES = {
    "held": "held: what had to be shown was shown",
    "begun": "begun: a hold or a look that is not over",
    "failed": "failed: it was looked at and is not right",
    "spent": "spent: it was good, then something was undone",
    "uncovered": "uncovered: it can be seen again",
    "substitute": "given a substitute proof, by name",
}
"""What can be written down about a proof, in words."""

BLANK_LIMITS = 1


def possible_outcomes(standing: ProofStanding) -> tuple[str, ...]:
    """Name what can be written down about a proof that stands so, the likeliest first.

    Examples
    --------
    >>> possible_outcomes(ProofStanding(ProofState.COVERED, hidden=True))
    ('uncovered', 'substitute', 'failed')
    """
    if standing.hidden:
        if standing.state is ProofState.COVERED:
            return ("uncovered", "substitute", "failed")
        return ("uncovered", "spent", "failed")
    if standing.state is ProofState.HELD:
        return ("spent", "failed", "held")
    if standing.state is ProofState.BEGUN:
        return ("held", "failed", "spent")
    return ("held", "begun", "failed")


def prove(door: Door, proof_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down what happened to a proof.

    The fields are ``what`` (a key of ``OUTCOMES``), ``figure0`` ... for each limit of the proof,
    one free ``quantity``, ``value``, ``unit``, and ``instrument``, ``words``, ``when``. The name
    of a substitute proof is in ``words``.

    Raises
    ------
    BadInput, Refused
        When a figure misses its limit, a field cannot be read, or a substitute has no name.
    """
    proofs = door.build().proofs
    if proof_id not in proofs:
        raise NotFound(f"there is no proof '{proof_id}'", "look for it among the proofs")
    form = filled(door, fields)
    readings = tuple(_readings(form, proofs[proof_id].proof.limits))
    when = form.moment("when", "when")
    form.check()
    return marked(
        door, proof_id, form.text("what"), readings, form.text("words"), pen, happened_at=when
    )


def _readings(form: Filled, limits: tuple[Limit, ...]) -> Iterator[Reading]:
    instrument = form.text("instrument")
    for number, limit in enumerate(limits):
        said = form.text(f"figure{number}")
        if said:
            value = form.attempt(partial(figure_in, said, limit.unit, limit.quantity), None)
            if value is not None:
                yield Reading(limit.quantity, value, limit.unit, instrument)
    value = form.figure("value", "another figure")
    quantity, unit = form.text("quantity"), form.text("unit")
    if value is not None:
        if not quantity:
            form.wrong("another figure", "it has no name", "say what was read: 'temperature'")
        yield Reading(quantity, value, unit, instrument)
    elif quantity or unit:
        form.wrong("another figure", "it is missing", f"write the figure of {quantity or unit}")


# --- gates -----------------------------------------------------------------------------------


def pass_gate(door: Door, gate_id: str, fields: Fields, pen: Pen) -> Written:
    """Let the car through a gate, by name.

    Raises
    ------
    Refused
        When something still stands between; each is named.
    """
    title = _gate(door, gate_id).title
    form = filled(door, fields)
    by, words, when = form.text("by"), form.text("words"), form.moment("when", "when")
    form.check()
    said = f"{by} let the car through '{title}'. It records what was found, no more."
    return write_down(door, c.GatePassed(gate_id, by, words), pen, said, happened_at=when)


def lay_gate(build: Build, gate_id: str) -> dict[str, tuple[str, ...]]:
    """Lay a gate out as the fields of a form; nothing for one that is not there."""
    if gate_id not in build.gates:
        return {}
    gate = build.gates[gate_id].gate
    titles = {k: r.job.title for k, r in build.jobs.items()}
    return {
        "title": (gate.title,),
        "sentence": (gate.sentence,),
        "after": gate.after,
        "needs_jobs": tuple(named(key, titles) for key in gate.needs_jobs),
        "blocks": tuple(named(key, titles) for key in gate.blocks),
    }


def set_gate(door: Door, gate_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add a gate, or correct one: what it asks for and which jobs it holds up."""
    form, build = filled(door, fields), door.build()
    if gate_id is not None:
        _gate(door, gate_id)
    title = form.text("title", "what it is called")
    key = gate_id or new_key(door, "gate", title, build.gates, pen.entry_id)
    jobs = {k: r.job.title for k, r in build.jobs.items()}
    gates = {k: r.gate.title for k, r in build.gates.items() if k != key}
    gate = Gate(
        id=key,
        title=title,
        after=_named(form, "after", "comes after", gates, "gate"),
        needs_jobs=_named(form, "needs_jobs", "jobs it asks for", jobs, "job"),
        blocks=_named(form, "blocks", "jobs it holds up", jobs, "job"),
        sentence=form.text("sentence"),
    )
    form.check()
    return write_down(door, c.GateSet(gate), pen, f"The gate '{title}' is written down.")


def _gate(door: Door, gate_id: str) -> Gate:
    gates = door.build().gates
    if gate_id not in gates:
        raise NotFound(f"there is no gate '{gate_id}'", "look for it on the ladder of gates")
    return gates[gate_id].gate


# --- temps -----------------------------------------------------------------------------------


def raise_temp(door: Door, temp_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that a known temporary fix is on the car."""
    return _temp(door, temp_id, fields, pen, on_car=True)


def clear_temp(door: Door, temp_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that a temporary fix is gone from the car."""
    return _temp(door, temp_id, fields, pen, on_car=False)


def _temp(door: Door, temp_id: str, fields: Fields, pen: Pen, *, on_car: bool) -> Written:
    temps = door.build().temps
    if temp_id not in temps:
        raise NotFound(f"there is no temp '{temp_id}'", "look for it among the temps")
    form = filled(door, fields)
    words, when = form.text("words"), form.moment("when", "when")
    form.check()
    title = temps[temp_id].temp.title
    change = c.TempRaised(temp_id, words) if on_car else c.TempCleared(temp_id, words)
    said = f"'{title}' is on the car." if on_car else f"'{title}' is gone from the car."
    return write_down(door, change, pen, said, happened_at=when)


def add_temp(door: Door, fields: Fields, pen: Pen) -> Written:
    """Add a temporary fix, with the gate before which it must be gone; on the car or not yet."""
    form, build = filled(door, fields), door.build()
    title = form.text("title", "what it is")
    key = new_key(door, "temp", title, build.temps, pen.entry_id)
    jobs = {k: r.job.title for k, r in build.jobs.items()}
    needs = _need_titles(build)
    gate = form.text("gate")
    if gate not in build.gates:
        form.wrong("gone before", "no gate is named", "choose the gate it must be gone before")
    temp = Temp(
        id=key,
        title=title,
        replaced_by=form.text("replaced_by"),
        gate=gate,
        raised_by=next(iter(_named(form, "raised_by", "put on by", jobs, "job")), None),
        cleared_by=next(iter(_named(form, "cleared_by", "taken off by", jobs, "job")), None),
        need=next(iter(_named(form, "need", "part that replaces it", needs, "need")), None),
    )
    form.check()
    changes: list[c.Change] = [c.TempSet(temp)]
    if form.tick("on_car"):
        changes.append(c.TempRaised(key))
    gate_title = build.gates[gate].gate.title
    return write_down(door, changes, pen, f"'{title}' must be gone before '{gate_title}'.")


# --- proofs as they are defined ----------------------------------------------------------------


def lay_proof(proof: Proof, build: Build) -> dict[str, tuple[str, ...]]:
    """Lay a proof out as the fields of a form."""
    called = {k: r.job.title for k, r in build.jobs.items()}
    needs = _need_titles(build)

    def titles(*keys: str | None) -> tuple[str, ...]:
        return tuple(named(key, called) for key in keys if key)

    laid: dict[str, tuple[str, ...]] = {
        "title": (proof.title,),
        "kind": (str(proof.kind),),
        "about_kind": (str(proof.about_kind),),
        "about": (proof.about,),
        "made_by": titles(*proof.made_by),
        "proven_by": titles(proof.proven_by),
        "covered_by": titles(*proof.covered_by),
        "spent_by": titles(*proof.spent_by),
        "nipped_until": titles(proof.nipped_until if proof.nipped_until in called else None),
        "fixings": tuple(named(key, needs) for key in proof.fixings if key in needs),
        "gates": proof.gates,
        "hold": ("" if proof.hold_hours is None else f"{proof.hold_hours:g}",),
        "valid_days": ("" if proof.valid_days is None else str(proof.valid_days),),
    }
    for number, limit in enumerate(proof.limits):
        laid |= {
            f"limit_quantity{number}": (limit.quantity,),
            f"limit_unit{number}": (limit.unit,),
            f"limit_low{number}": ("" if limit.low is None else f"{limit.low:g}",),
            f"limit_high{number}": ("" if limit.high is None else f"{limit.high:g}",),
        }
    return laid


def set_proof(door: Door, proof_id: str | None, fields: Fields, pen: Pen) -> Written:
    """Add a proof that is owed, or correct what one asks for; its history stays."""
    form, build = filled(door, fields), door.build()
    old = None
    if proof_id is not None:
        if proof_id not in build.proofs:
            raise NotFound(f"there is no proof '{proof_id}'", "look for it among the proofs")
        old = build.proofs[proof_id].proof
    title = form.text("title", "what must be shown")
    key = proof_id or new_key(door, "proof", title, build.proofs, pen.entry_id)
    jobs = {k: r.job.title for k, r in build.jobs.items()}
    limits = tuple(_limits(form, old.limits if old else ()))
    made_by = _named(form, "made_by", "made by", jobs, "job")
    proven_by = _named(form, "proven_by", "proved in", jobs, "job")
    covered_by = _named(form, "covered_by", "hidden by", jobs, "job")
    spent_by = _named(form, "spent_by", "spent by", jobs, "job")
    until = _named(form, "nipped_until", "only nipped until", jobs, "job")
    fixings = _named(form, "fixings", "bolts it vouches for", _need_titles(build), "need")
    hold = form.hours("hold", "hold", clock=True)
    valid_days = form.whole("valid_days", "stays good for days", 1, 20_000)

    def build_it() -> Proof:
        return Proof(
            id=key,
            title=title,
            kind=form.choice("kind", "how it is shown", ProofKind, ProofKind.SEEN),
            about_kind=form.choice("about_kind", "about", AboutKind, AboutKind.ASSEMBLY),
            about=form.text("about"),
            made_by=made_by,
            proven_by=proven_by[0] if proven_by else None,
            covered_by=covered_by,
            gates=tuple(g for g in form.every("gates") if g in build.gates),
            limits=limits,
            hold_hours=hold,
            valid_days=valid_days,
            mark=old.mark if old and limits and old.limits == limits else YOURS,
            spent_by=spent_by,
            fixings=fixings,
            nipped_until=until[0] if until else None,
        )

    proof = form.make("proof", build_it)
    form.check()
    if old and replace(proof, mark=old.mark) == old:
        proof = old
    return write_down(door, c.ProofSet(proof), pen, f"The proof '{title}' is written down.")


def _need_titles(build: Build) -> dict[str, str]:
    return {key: need.title for key, need in build.needs.items()}


def _limits(form: Filled, old: tuple[Limit, ...]) -> Iterator[Limit]:
    for number in range(12):
        quantity, unit = form.text(f"limit_quantity{number}"), form.text(f"limit_unit{number}")
        low = form.figure(f"limit_low{number}", f"limit {number + 1}, at least")
        high = form.figure(f"limit_high{number}", f"limit {number + 1}, at most")
        if not (quantity or unit) and low is None and high is None:
            continue
        if not quantity:
            form.wrong(f"limit {number + 1}", "it has no name", "say what is read: 'pressure'")
        if low is not None and high is not None and low > high:
            form.wrong(f"limit {number + 1}", f"{low:g} is above {high:g}", "swap the two")
        limit = Limit(quantity, unit, low, high, YOURS)
        same = next(
            (o for o in old if (o.quantity, o.unit, o.low, o.high) == _figures(limit)), None
        )
        yield same or limit


def _figures(limit: Limit) -> tuple[str, str, float | None, float | None]:
    return limit.quantity, limit.unit, limit.low, limit.high


def _named(
    form: Filled, name: str, what: str, titles: dict[str, str], kind: str
) -> tuple[str, ...]:
    found = (resolve(form, said, what, titles, kind) for said in form.every(name))
    return tuple(dict.fromkeys(key for key in found if key is not None))
