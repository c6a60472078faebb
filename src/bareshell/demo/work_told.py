"""The sessions of the demo as entries: what was begun, worked on, finished, proved, and when."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bareshell.demo import evidence, words
from bareshell.demo.car import LEVEL, LIFT, ROAD, STATION, SUPPORTS, WHEELS, temperature_c
from bareshell.demo.days import spread
from bareshell.demo.jobs import DONE_BEFORE
from bareshell.demo.order_of_work import LAST_NIGHT
from bareshell.demo.told import OWNER, Book
from bareshell.demo.walk import Piece, Session
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.position import Place, Placement, Support
from bareshell.model.position import Wheels as Hang
from bareshell.model.proof import Proof
from bareshell.model.session import HeldSession
from bareshell.model.temp import Gate

_SOON = timedelta(minutes=1)
_LONG_HOLD_HOURS = 3.0
_OFF_AT_FIRST = frozenset({"engine out", "glass out", "doors off", "seats out"})
_PUTS_ON = {"doors-hang": "doors off"}


@dataclass(slots=True)
class Teller:
    """Writes sessions into a book, keeping in mind what is proved later and how the car stands."""

    book: Book
    jobs: Mapping[str, Job]
    proofs: Mapping[str, Proof]
    gates: Sequence[Gate]
    finished: set[str] = field(default_factory=lambda: set(DONE_BEFORE))
    waiting: list[Proof] = field(default_factory=list)
    support: str = ""
    off: frozenset[str] = _OFF_AT_FIRST

    def tell(self, number: int, session: Session, recorded_at: datetime) -> None:
        """Write one session: what was read first, then the work, then the session itself."""
        begins = session.day.begins
        for proof in self.waiting:
            self._hold(proof, begins + _SOON, recorded_at)
        self.waiting.clear()
        for piece in session.pieces:
            self._tell_piece(piece, recorded_at)
        held = HeldSession(
            f"session-{number:03d}",
            begins,
            session.ends,
            session.day.people,
            *self._air(number, session),
        )
        self.book.tell(session.ends, c.SessionHeld(held), recorded_at=recorded_at)

    def _air(self, number: int, session: Session) -> tuple[float, str]:
        """How warm it was, and the line at the end; with the heater on where work asked for it."""
        warmth = temperature_c(session.day.day) + 1.5 * spread(f"air {number}")
        asked = [self.jobs[p.job].lowest_temperature_c or -30.0 for p in session.pieces]
        line = words.AT_THE_END[number % len(words.AT_THE_END)]
        if asked and max(asked) > warmth:
            return max(asked) + 1.0, f"borrowed fan heater on since noon; {line}"
        return round(warmth * 2) / 2, line

    def _tell_piece(self, piece: Piece, recorded_at: datetime) -> None:
        job = self.jobs[piece.job]
        self._place(job, piece.begins, recorded_at)
        if piece.first:
            self._pass_gates(job.id, piece.begins, recorded_at)
            self.book.tell(piece.begins, c.JobStarted(job.id), recorded_at=recorded_at)
        if not piece.last:
            worked = c.JobWorked(job.id, piece.hours, piece.hours_left)
            self.book.tell(piece.ends, worked, recorded_at=recorded_at)
            return
        said = words.ON_THE_JOB.get(job.id, "")
        done = c.JobFinished(job.id, piece.hours, said)
        self.book.tell(piece.ends, done, recorded_at=recorded_at)
        self.finished.add(job.id)
        self.off -= {_PUTS_ON.get(job.id, "")}
        if job.id != LAST_NIGHT:
            for proof in self._proved_in(job.id):
                self._prove(proof, job, piece.ends, recorded_at)

    def _pass_gates(self, key: str, moment: datetime, recorded_at: datetime) -> None:
        """Pass what stands before a job, by name, before it is begun."""
        for gate in self.gates:
            if key in gate.blocks:
                said = words.AT_THE_GATE.get(gate.id, "")
                passed = c.GatePassed(gate.id, OWNER, said)
                self.book.tell(moment, passed, recorded_at=recorded_at)

    def _proved_in(self, key: str) -> Iterable[Proof]:
        """Return the proofs that finishing a job makes possible."""
        for proof in self.proofs.values():
            made = proof.proven_by is None and key in proof.made_by
            shown = proof.id in evidence.ALSO_SHOWN.get(key, ())
            if (
                shown
                or proof.proven_by == key
                or (made and self.finished.issuperset(proof.made_by))
            ):
                yield proof

    def _prove(self, proof: Proof, job: Job, moment: datetime, recorded_at: datetime) -> None:
        if job.id in evidence.STILL_OWED:
            return
        if proof.id in evidence.FAILED_FIRST:
            said, readings, _ = evidence.FAILED_FIRST[proof.id]
            failed = c.ProofFailed(proof.id, readings, said)
            self.book.tell(moment, failed, recorded_at=recorded_at)
            self.waiting.append(proof)
        elif (proof.hold_hours or 0.0) > _LONG_HOLD_HOURS:
            begun = c.ProofBegun(proof.id, (), "left for the night")
            self.book.tell(moment, begun, recorded_at=recorded_at)
            self.waiting.append(proof)
        else:
            self._hold(proof, moment, recorded_at)

    def _hold(self, proof: Proof, moment: datetime, recorded_at: datetime) -> None:
        """Hold a proof; what lies hidden takes a named substitute, or nothing."""
        readings = evidence.readings_for(proof)
        change: c.Change
        if not self.finished.isdisjoint(proof.covered_by):
            name = evidence.SUBSTITUTES.get(proof.id)
            if name is None:
                return
            change = c.ProofSubstituted(proof.id, name)
        elif proof.id in evidence.FAILED_FIRST:
            change = c.ProofHeld(proof.id, readings, evidence.FAILED_FIRST[proof.id][2])
        else:
            change = c.ProofHeld(proof.id, readings, evidence.words_for(proof))
        self.book.tell(moment, change, recorded_at=recorded_at)

    def _place(self, job: Job, moment: datetime, recorded_at: datetime) -> None:
        """Move the car when a job cannot be done as it stands."""
        if job.place is not Place.CAR:
            return
        fit = [s.id for s in SUPPORTS if self._suits(s, job)]
        if self.support in fit or not fit:
            return
        self.support = fit[0]
        placed = c.CarPlaced(Placement(self.support, self.off))
        self.book.tell(moment, placed, recorded_at=recorded_at)

    def _suits(self, support: Support, job: Job) -> bool:
        if support.id in {ROAD, STATION, LEVEL}:
            return False
        if support.id == WHEELS and job.wheels is not Hang.LOADED and job.id != "on-wheels":
            return False
        if support.id == LIFT and "on-wheels" not in self.finished:
            return False  # a bare shell has no wheels to drive it on with
        return job.zones <= support.opens and job.wheels in (Hang.EITHER, support.wheels)


def typed_late(
    sessions: Sequence[Session], proofs: Iterable[Proof], gated: Iterable[str], newest: int
) -> int:
    """Choose a session that may be typed three sessions late without anybody tripping over it.

    Only what was begun before and not finished, or begun and finished in it, hidden by nothing
    that was begun meanwhile and asked for at no gate, can be written down after what followed.

    Parameters
    ----------
    sessions : sequence of Session
        All of them, the oldest first.
    proofs : iterable of Proof
        The proofs of the build.
    gated : iterable of str
        Jobs that the gates which were passed asked for.
    newest : int
        Look from this one backwards.
    """
    asked = set(gated)
    for number in range(newest, 0, -1):
        pieces = sessions[number].pieces
        here = {p.job for p in pieces if p.last}
        whole = all(p.first == p.last for p in pieces) and not here & asked
        meanwhile = {p.job for s in sessions[number + 1 : number + 4] for p in s.pieces}
        covers = {
            cover
            for proof in proofs
            if here & {*proof.made_by, proof.proven_by}
            for cover in proof.covered_by
        }
        if whole and here and not covers & meanwhile:
            return number
    raise ValueError("no session of this history can be typed late")
