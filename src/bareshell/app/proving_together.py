"""One look that settles several proofs: a pressure hold proves every joint it reached."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from bareshell.app.door import Door
from bareshell.app.figures import figure_in
from bareshell.app.filled import Fields, Filled
from bareshell.app.marking import change_about, check_limits
from bareshell.app.written import BEFORE, SETTLE_LATER, Pen, Written, filled, id_for
from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model.proof import Limit, ProofState, Reading
from bareshell.model.standing import proof_standings


def limits_of(build: Build, proof_ids: Sequence[str]) -> tuple[Limit, ...]:
    """Return what is read for these proofs, each quantity once, in their order."""
    found: dict[tuple[str, str], Limit] = {}
    for key in proof_ids:
        for limit in build.proofs[key].proof.limits if key in build.proofs else ():
            found.setdefault((limit.quantity, limit.unit), limit)
    return tuple(found.values())


def prove_together(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write down what one look showed of several proofs: all of it, or nothing.

    The fields are ``proof`` (their ids), ``what`` was seen of them, ``words``, ``version:ID`` as
    each was seen, and ``figure0`` ... for what `limits_of` names.

    Parameters
    ----------
    door : Door
        The build.
    fields : mapping of str to sequence of str
        The form.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When no proof is ticked, a figure cannot be read, or one misses its limit.
    NotFound
        When there is no such proof.
    """
    form, build = filled(door, fields), door.build()
    proofs = build.proofs
    keys = tuple(dict.fromkeys(form.every("proof")))
    if not keys:
        form.wrong("what it showed", "no proof is ticked", "tick what was looked at")
    for key in keys:
        if key not in proofs:
            raise NotFound(f"there is no proof '{key}'", "look for it among the proofs")
    readings = _readings(form, limits_of(build, form.every("shown") or keys))
    form.check()
    what, words = form.text("what"), form.text("words")
    if what == "held":
        for key in keys:
            check_limits(proofs[key].proof, readings)
    changes = [change_about(key, what, readings, words) for key in keys]
    ids = [id_for(pen.entry_id, change.subject) for change in changes]
    receipt = door.record(
        changes,
        ids=[key for key in ids if key] or None,
        base_versions=_versions(form, keys),
        author=pen.author,
    )
    if receipt.repeated and not receipt.entries:
        return Written((BEFORE,), changes[0].subject, repeated=True)
    said = _after(door, keys)
    if receipt.to_settle:
        said = (*said, SETTLE_LATER)
    return Written(said, changes[0].subject, to_settle=bool(receipt.to_settle))


def _readings(form: Filled, limits: tuple[Limit, ...]) -> tuple[Reading, ...]:
    found = []
    for number, limit in enumerate(limits):
        said = form.text(f"figure{number}")
        if said:
            read = partial(figure_in, said, limit.unit, limit.quantity)
            value = form.attempt(read, None)
            if value is not None:
                found.append(Reading(limit.quantity, value, limit.unit))
    return tuple(found)


def _versions(form: Filled, keys: Sequence[str]) -> dict[str, int]:
    said = {key: form.text(f"version:{key}") for key in keys}
    return {f"proof:{k}": int(v) for k, v in said.items() if v.isdigit() and len(v) < 12}


def _after(door: Door, keys: Sequence[str]) -> tuple[str, ...]:
    build = door.build()
    standings = proof_standings(build, door.now())
    said = []
    for state in dict.fromkeys(standings[key].state for key in keys):
        titles = dict.fromkeys(
            build.proofs[key].proof.title for key in keys if standings[key].state is state
        )
        count = sum(standings[key].state is state for key in keys)
        times = f", {count} of them" if count > len(titles) else ""
        named = "; ".join(f"'{title}'" for title in titles)
        said.append(f"{named}{times}: {state.value}.")
    if any(standings[key].state is ProofState.COVERED for key in keys):
        said.append(
            "What lies hidden is not proved by a hold: uncover it, or give it a named substitute "
            "proof."
        )
    return tuple(said)
