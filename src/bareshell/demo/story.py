"""The whole story of the demo build, from the evening before the first session until yesterday."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, time, timedelta

from bareshell.demo import muddles, shelf, turns, words
from bareshell.demo.beginnings import jobs_of, proofs_of, starter_needs, tell_beginnings
from bareshell.demo.brakes_told import brake_proofs_of, tell_brakes
from bareshell.demo.car import CAR
from bareshell.demo.days import at, days_to_come, lost_days
from bareshell.demo.forecasts import tell_forecasts
from bareshell.demo.orders import tell_orders
from bareshell.demo.past import before_gates, end_of, past_sessions
from bareshell.demo.told import HELPER, Book, Told
from bareshell.demo.walk import Session
from bareshell.demo.wanted import NEEDS
from bareshell.demo.work_told import Teller, typed_late
from bareshell.model import changes as c
from bareshell.model.note import Lesson, Note
from bareshell.trade.network import starter


def demo_story(today: date) -> tuple[Told, ...]:
    """Tell the demo build as it stands on a day.

    Parameters
    ----------
    today : date
        The day on which it is made. Everything is dated back from it, so the demo never ages;
        nothing happened on the day itself.

    Returns
    -------
    tuple of Told
        In the order in which it was written down; the same for the same day, always.

    Examples
    --------
    >>> story = demo_story(date(2031, 3, 5))
    >>> story[0].change.car.invented
    True
    """
    network = starter(CAR.layout, CAR.systems, CAR.options)
    jobs, proofs = jobs_of(network), proofs_of(network)
    of_brakes = brake_proofs_of(jobs.values(), network.gates, proofs.values())
    theirs = starter_needs(network)
    needs = {need.id: need for need in (*theirs, *NEEDS)}
    sessions = past_sessions(today, jobs, before_gates(network.gates, proofs.values()))
    eve = at(sessions[0].day.day - timedelta(days=1), time(20))
    book = Book()
    tell_beginnings(book, network, today, eve)
    shelf.tell_counted(book, theirs, jobs, end_of(sessions, "parts-count") + timedelta(hours=20))
    tell_orders(book, today, needs, jobs)
    shelf.tell_sent_away(book, at(today - timedelta(days=18), time(21)))
    _tell_work(sessions, Teller(book, jobs, proofs, network.gates))
    turns.tell_undone(book, sessions)
    turns.tell_temps(book, sessions)
    turns.tell_hold(book, sessions[-1], (*proofs.values(), *of_brakes))
    turns.tell_gate(book, sessions)
    _tell_words(book, today, sessions)
    tell_forecasts(book, today, sessions)
    tell_brakes(book, today, sessions, of_brakes)
    _tell_days(book, today, sessions)
    muddles.tell_mistake(book, sessions)
    muddles.tell_dispute(book, today, needs, jobs)
    shelf.tell_fitted(book, needs)
    return book.entries()


def _tell_work(sessions: Sequence[Session], teller: Teller) -> None:
    """Write the sessions; most at once, some over breakfast, one three sessions later."""
    passed = [gate for gate in teller.gates if gate.id in words.AT_THE_GATE]
    proofs = tuple(teller.proofs.values())
    asked = set().union(*before_gates(passed, proofs).values())
    late = typed_late(sessions, proofs, asked, len(sessions) - 8)
    for number, session in enumerate(sessions):
        recorded_at = session.ends + timedelta(minutes=12)
        if number == late:
            recorded_at = sessions[number + 3].ends + timedelta(minutes=20)
        elif number % 9 == 4 and session is not sessions[-1]:
            recorded_at = session.ends + timedelta(hours=10)
        teller.tell(number + 1, session, recorded_at)


def _tell_words(book: Book, today: date, sessions: Sequence[Session]) -> None:
    """Write the notes, the lessons and the ways in which the car is no longer standard."""
    first = sessions[0].day.day
    for number, (days_ago, about, said) in enumerate(words.NOTES, 1):
        moment = at(max(first, today - timedelta(days=days_ago)), time(21, 40))
        book.tell(moment, c.NoteWritten(Note(f"note-{number}", moment, said, about)))
    for job, said in words.LESSONS.items():
        moment = end_of(sessions, job) + timedelta(minutes=30)
        lesson = Lesson(f"lesson-{job}", moment, said, job)
        book.tell(moment, c.LessonLearned(lesson))
    decided = end_of(sessions, "brake-calc") + timedelta(days=2)
    for departure in words.DEPARTURES:
        book.tell(decided, c.DepartureSet(departure))
    last = sessions[-1]
    close = Note(
        "note-last-session", last.ends, words.LAST_LINE, f"session:session-{len(sessions):03d}"
    )
    book.tell(last.ends, c.NoteWritten(close), recorded_at=last.ends + timedelta(minutes=16))
    helped = next(s for s in reversed(sessions) if s.day.people > 1)
    thanks = Note("note-helper", helped.ends, words.FROM_THE_HELPER)
    book.tell(helped.ends, c.NoteWritten(thanks), author=HELPER)


def _tell_days(book: Book, today: date, sessions: Sequence[Session]) -> None:
    """Write the days that were lost, and those ahead that are not as the pattern says."""
    for exception in lost_days(today, sessions[0].day.day):
        book.tell(at(exception.day, time(9)), c.ExceptionSet(exception))
    for exception in days_to_come(today):
        book.tell(at(today - timedelta(days=1), time(18, 30)), c.ExceptionSet(exception))
