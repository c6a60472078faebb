"""What every record has: an entry ticked by mistake, and one that another phone contradicts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, time, timedelta

from bareshell.demo.days import at
from bareshell.demo.shelf import SOME_HERE, holding_for
from bareshell.demo.told import HELPER, Book
from bareshell.demo.walk import Session
from bareshell.model import changes as c
from bareshell.model.job import Job
from bareshell.model.part import Need

MISTAKEN_JOB = "headlamps"
DISPUTED_NEED = "headlamp-screws"


def tell_mistake(book: Book, sessions: Sequence[Session]) -> None:
    """Tick the wrong job after a session and take it back the next morning."""
    session = sessions[-3]
    recorded_at = session.ends + timedelta(minutes=14)
    ticked = c.JobFinished(MISTAKEN_JOB, 1.0)
    wrong = book.tell(session.ends, ticked, recorded_at=recorded_at)
    morning = at(session.day.day + timedelta(days=1), time(7, 40))
    book.tell(morning, c.Withdrawn(wrong, "ticked the wrong line; the lamps are still in the box"))


def tell_dispute(
    book: Book, today: date, needs: Mapping[str, Need], jobs: Mapping[str, Job]
) -> None:
    """Let the owner count again while the helper's phone still knows the old count."""
    need = needs[DISPUTED_NEED]
    system = jobs[need.job].system
    held = holding_for(need, system, quantity=SOME_HERE[DISPUTED_NEED])
    known = next(
        told.id
        for told in book.entries()
        if isinstance(told.change, c.HoldingSet) and told.change.holding.id == held.id
    )
    day = today - timedelta(days=1)
    again = replace(held, quantity=held.quantity + 1, note="counted again; one was in the bowl")
    book.tell(at(day, time(18, 10)), c.HoldingSet(again))
    helper = replace(held, quantity=need.quantity, note="found two more in the tin by the door")
    book.tell(
        at(day, time(12, 30)),
        c.HoldingSet(helper),
        recorded_at=at(day, time(18, 55)),
        author=HELPER,
        knew=known,
    )
