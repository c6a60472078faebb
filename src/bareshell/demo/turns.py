"""What went otherwise than planned: a joint undone, a hold begun, temps by hand, gates passed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import timedelta
from typing import Final

from bareshell.demo.car import temperature_c
from bareshell.demo.days import spread
from bareshell.demo.evidence import hold_begun
from bareshell.demo.order_of_work import LAST_NIGHT
from bareshell.demo.past import end_of
from bareshell.demo.told import OWNER, Book
from bareshell.demo.walk import Session
from bareshell.demo.words import AT_THE_GATE
from bareshell.model import changes as c
from bareshell.model.proof import Proof

UNDONE: Final = "fuel-line"
HELD_AGAIN: Final = "fuel-line-hold"
UNDONE_SESSIONS_AGO: Final = 6
GATE_PASSED: Final = ("headlining", "loom-test")
"""The gate that was passed early, and the last job that freed it."""


def tell_hold(book: Book, last: Session, proofs: Iterable[Proof]) -> None:
    """Begin the overnight hold of the rigid lines at the end of the last session."""
    recorded_at = last.ends + timedelta(minutes=15)
    warmth = round(temperature_c(last.day.day) + spread("last night"), 1)
    for proof in proofs:
        if proof.proven_by == LAST_NIGHT or LAST_NIGHT in proof.made_by:
            begun = c.ProofBegun(proof.id, hold_begun(warmth), "left for the night")
            book.tell(last.pieces[-1].ends, begun, recorded_at=recorded_at)


def tell_undone(book: Book, sessions: Sequence[Session]) -> None:
    """Undo a joint that was proved: the fuel pipe gave way to a handbrake cable for an evening."""
    session = sessions[-UNDONE_SESSIONS_AGO]
    recorded_at = session.ends + timedelta(minutes=13)
    begins, ends = session.day.begins, session.ends
    why = "rear union undone to lead the handbrake cable behind the pipe"
    for change in (
        c.JobTakenOff(UNDONE, why),
        c.JobTakenOff(HELD_AGAIN, "the pipe was undone; it wants holding again"),
    ):
        book.tell(begins + timedelta(minutes=5), change, recorded_at=recorded_at)
    again = c.JobFinished(UNDONE, 0.5, "same pipe, new olive at the rear union")
    book.tell(ends, again, recorded_at=recorded_at)


def tell_temps(book: Book, sessions: Sequence[Session]) -> None:
    """Raise the temps that no job raises, and clear the one that is gone again."""
    strapped = end_of(sessions, "boot-fit")
    book.tell(strapped, c.TempRaised("strap-on-boot", "no lock in it yet"))
    packed = end_of(sessions, "shell-mount")
    book.tell(packed, c.TempRaised("timber-under-box", "stiffens the shell on the stands"))
    rolled = end_of(sessions, "on-wheels")
    book.tell(rolled, c.TempCleared("timber-under-box", "out before it was rolled"))


def tell_gate(book: Book, sessions: Sequence[Session]) -> None:
    """Pass a gate on the evening after the job that freed it, long before what it holds up."""
    gate, job = GATE_PASSED
    moment = end_of(sessions, job) + timedelta(hours=26)
    book.tell(moment, c.GatePassed(gate, OWNER, AT_THE_GATE[gate]))
