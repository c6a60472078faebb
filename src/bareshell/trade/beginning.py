"""From the first answers to the first entries of a build."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from bareshell.model import changes as c
from bareshell.model.car import OPTIONAL_SYSTEMS, Car
from bareshell.trade.answers import Answers
from bareshell.trade.evidence import as_hidden, done_with, evident_jobs
from bareshell.trade.garage import garage_of, patterns_of, placement_of, supports_of
from bareshell.trade.network import starter
from bareshell.trade.supports import default_moves


def first_changes(answers: Answers, at: datetime, zone: str) -> tuple[c.Change, ...]:
    """Make the changes with which a build begins, in the order they must enter.

    The car, the garage, the whole starter network, and what must have been done before the
    record, unproven. Nothing is taken from a "not sure".

    Parameters
    ----------
    answers : Answers
        What the owner said.
    at : datetime
        Now, aware.
    zone : str
        The time zone of the owner's clock (IANA name).

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.model.car import Layout
    >>> it = Answers("the old saloon", Layout.REAR)
    >>> first_changes(it, datetime(2031, 3, 4, tzinfo=UTC), "UTC")[0].car.name
    'the old saloon'
    """
    systems = answers.systems if answers.systems is not None else frozenset(OPTIONAL_SYSTEMS)
    car = Car(answers.name, answers.layout, systems, answers.options, zone=zone)
    return (
        c.CarDescribed(car),
        *_garage_changes(answers, at, zone),
        *_network_changes(answers, car),
    )


def _garage_changes(answers: Answers, at: datetime, zone: str) -> Iterator[c.Change]:
    garage = garage_of(answers)
    if garage is not None:
        yield c.GarageDescribed(garage)
    supports = supports_of(answers)
    yield from (c.SupportSet(support) for support in supports)
    yield from (c.SupportMoveSet(move) for move in default_moves(supports))
    placement = placement_of(answers)
    if placement is not None:
        yield c.CarPlaced(placement)
    yield from (c.PatternSet(pattern) for pattern in patterns_of(answers, at, zone))


def _network_changes(answers: Answers, car: Car) -> Iterator[c.Change]:
    network = starter(car.layout, car.systems, car.options)
    done = done_with(evident_jobs(answers))
    yield from (c.JobSet(job) for job in network.jobs)
    yield from (c.GateSet(gate) for gate in network.gates)
    yield from (c.ProofSet(as_hidden(proof, done)) for proof in network.proofs)
    yield from (c.TempSet(temp) for temp in network.temps)
    yield from (c.NeedSet(need) for need in network.needs)
    yield from (c.JobDoneBefore(job.id) for job in network.jobs if job.id in done)
