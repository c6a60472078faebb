"""How the demo's record began: the car, the garage, the network, and what was done before."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bareshell.demo.car import CAR, GARAGE, MOVES, STANDS, SUPPORTS
from bareshell.demo.days import patterns
from bareshell.demo.jobs import (
    DONE_BEFORE,
    JOBS,
    LEFT_OUT,
    PROOFS,
    TEMPS,
    asked_at,
    with_local_changes,
)
from bareshell.demo.told import Book
from bareshell.demo.wanted import NEEDS
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.network import in_order
from bareshell.model.part import Need
from bareshell.model.position import BODY_STATES, Placement
from bareshell.model.proof import Proof
from bareshell.trade.network import Starter


def jobs_of(starter: Starter) -> dict[str, Job]:
    """Return the jobs of this build, those that only this car has included."""
    jobs = {job.id: with_local_changes(job) for job in starter.jobs}
    jobs |= {job.id: job for job in JOBS}
    order = in_order({key: job.after for key, job in jobs.items()})
    return {key: jobs[key] for key in order}


def proofs_of(starter: Starter) -> dict[str, Proof]:
    """Return the proofs of this build."""
    theirs = [asked_at(proof) for proof in starter.proofs]
    return {proof.id: proof for proof in (*theirs, *PROOFS)}


def starter_needs(starter: Starter) -> tuple[Need, ...]:
    """Return the starter network's needs that the owner did not write himself or do without."""
    without = {need.job for need in NEEDS} | set(LEFT_OUT) | set(DONE_BEFORE)
    return tuple(need for need in starter.needs if need.job not in without)


def tell_beginnings(book: Book, starter: Starter, today: date, moment: datetime) -> None:
    """Write down the car, its garage and what is to be done, on the evening before the start.

    Parameters
    ----------
    book : Book
        Where it is written.
    starter : Starter
        The starter network.
    today : date
        The day on which the demo is made.
    moment : datetime
        That evening, in UTC.
    """
    book.tell(moment, c.CarDescribed(CAR))
    book.tell(moment, c.GarageDescribed(GARAGE))
    for support in SUPPORTS:
        book.tell(moment, c.SupportSet(support))
    for move in MOVES:
        book.tell(moment, c.SupportMoveSet(move))
    for pattern in patterns(today):
        book.tell(moment, c.PatternSet(pattern))
    for job in jobs_of(starter).values():
        book.tell(moment, c.JobSet(job))
    for gate in starter.gates:
        book.tell(moment, c.GateSet(gate))
    for proof in proofs_of(starter).values():
        book.tell(moment, c.ProofSet(proof))
    for temp in (*starter.temps, *TEMPS):
        book.tell(moment, c.TempSet(temp))
    for need in starter_needs(starter):
        book.tell(moment, c.NeedSet(need))
    later = moment + timedelta(minutes=25)
    for key, why in LEFT_OUT.items():
        book.tell(later, c.JobLeftOut(key, why))
    for key in DONE_BEFORE:
        book.tell(later, c.JobDoneBefore(key))
    book.tell(later, c.CarPlaced(Placement(STANDS, frozenset(BODY_STATES)), "as it came back"))
