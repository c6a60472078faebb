"""Every entry of the record as a clause in garage words.

The record's page, the log on the command line and every refusal that names an entry speak
from here, so an entry is called the same everywhere. A clause begins with what it is about
and has no full stop: ``'Bleed the brakes' was finished, 2.5 h``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.entry import Entry, Standing
from bareshell.model.part import GoodsIn
from bareshell.model.proof import Reading
from bareshell.whole.brake_words import TELLERS as OF_BRAKES
from bareshell.whole.garage_time import monday_of
from bareshell.whole.names import ITEM_WORDS, Names, on_day, quoted, subject_of

Teller = Callable[[Names, Any], str]
TELLERS: dict[type[c.Change], Teller] = {**OF_BRAKES}


def describe_entry(entry: Entry, build: Build, once: Mapping[str, str] | None = None) -> str:
    """Say in words what an entry says; one that waits to be settled says so.

    Parameters
    ----------
    entry : Entry
        Any entry of the journal.
    build : Build
        Where the titles are looked up.
    once : mapping of str to str, optional
        Titles of what the build no longer has (``titles_in``); without it such a thing is
        called by its short name.
    """
    said = describe_change(entry.change, build, once)
    return f"{said} (to settle)" if entry.standing is Standing.TO_SETTLE else said


def describe_change(change: c.Change, build: Build, once: Mapping[str, str] | None = None) -> str:
    """Say in words what a change says; see ``describe_entry``.

    Examples
    --------
    >>> from bareshell.model.changes import JobFinished
    >>> describe_change(JobFinished("bleed", 2.5, "pedal firm"), Build())
    "'bleed' was finished, 2.5 h: pedal firm"
    """
    if isinstance(change, c.Unread):
        return f"{change.about} was changed in a way that only a newer bareshell can read"
    return TELLERS[type(change)](Names(build, once or {}), change)


# --- pieces ----------------------------------------------------------------------------------


def _job(names: Names, key: str) -> str:
    return names.title("job", key)


def _support(names: Names, key: str) -> str:
    return names.title("support", key)


def _about(names: Names, subject: str) -> str:
    return f" about {subject_of(names, subject)}" if subject else ""


def _said(words: str) -> str:
    return f": {words.strip()}" if words.strip() else ""


def _hours(hours: float | None, after: str = "") -> str:
    return "" if hours is None else f", {round(hours, 2):g} h{after}"


def figure(value: float) -> str:
    """Say a figure with as many digits as anybody reads off a gauge.

    Examples
    --------
    >>> figure(47.1977), figure(0.08), figure(12345.0)
    ('47.2', '0.08', '12345')
    """
    return f"{value:.0f}" if abs(value) >= 1000 else f"{value:.3g}"


def _readings(readings: tuple[Reading, ...]) -> str:
    if not readings:
        return ""
    read = ", ".join(f"{r.quantity} {figure(r.value)} {r.unit}".strip() for r in readings)
    return f" ({read})"


def _pieces(quantity: int) -> str:
    return "" if quantity == 1 else f", {quantity} of them"


def tells(*kinds: type[c.Change]) -> Callable[[Teller], Teller]:
    """Register a function as the words of kinds of change."""

    def put(teller: Teller) -> Teller:
        for kind in kinds:
            TELLERS[kind] = teller
        return teller

    return put


# --- the car, and how it stands --------------------------------------------------------------


@tells(c.CarDescribed)
def _car_described(_names: Names, change: c.CarDescribed) -> str:
    return f"the car was described: {change.car.name}, {change.car.layout.value}"


@tells(c.GarageDescribed)
def _garage_described(_names: Names, change: c.GarageDescribed) -> str:
    garage = change.garage
    warmth = "unheated" if garage.heated_to_c is None else f"heated to {garage.heated_to_c:g} C"
    if garage.heated_to_c is not None and garage.heated_nights:
        warmth += " through the nights too"
    return (
        f"the garage was described: {warmth}, {garage.set_up_minutes} min to set up, "
        f"{garage.clear_up_minutes} min to clear up"
    )


@tells(c.SupportSet)
def _support_set(_names: Names, change: c.SupportSet) -> str:
    return f"the car can stand on {quoted(change.support.title)} ({change.support.kind.value})"


@tells(c.SupportDropped)
def _support_dropped(names: Names, change: c.SupportDropped) -> str:
    return f"the car can stand on {_support(names, change.support_id)} no longer"


@tells(c.SupportMoveSet)
def _move_set(names: Names, change: c.SupportMoveSet) -> str:
    move = change.move
    people = "one person" if move.people == 1 else "two people"
    return (
        f"moving the car from {_support(names, move.from_support)} to "
        f"{_support(names, move.to_support)} takes {move.minutes} min and {people}"
    )


@tells(c.CarPlaced)
def _car_placed(names: Names, change: c.CarPlaced) -> str:
    off = ", ".join(sorted(change.placement.off))
    state = f", {off}" if off else ""
    stands = _support(names, change.placement.support)
    return f"the car was left standing on {stands}{state}{_said(change.words)}"


# --- jobs ------------------------------------------------------------------------------------


@tells(c.JobSet)
def _job_set(_names: Names, change: c.JobSet) -> str:
    return f"job {quoted(change.job.title)} was written down ({change.job.system})"


@tells(c.JobStarted)
def _job_started(names: Names, change: c.JobStarted) -> str:
    return f"{_job(names, change.job_id)} was started"


@tells(c.JobWorked)
def _job_worked(names: Names, change: c.JobWorked) -> str:
    spent = _hours(change.hours) + _hours(change.hours_left, " left")
    return f"{_job(names, change.job_id)} was worked on{spent}{_said(change.words)}"


@tells(c.JobFinished)
def _job_finished(names: Names, change: c.JobFinished) -> str:
    spent = _hours(change.hours)
    return f"{_job(names, change.job_id)} was finished{spent}{_said(change.words)}"


@tells(c.JobTakenOff)
def _job_taken_off(names: Names, change: c.JobTakenOff) -> str:
    return f"{_job(names, change.job_id)} was taken off again{_said(change.words)}"


@tells(c.JobDoneBefore)
def _job_done_before(names: Names, change: c.JobDoneBefore) -> str:
    return f"{_job(names, change.job_id)} was done before the record began, unproven"


@tells(c.JobNotDone)
def _job_not_done(names: Names, change: c.JobNotDone) -> str:
    return f"{_job(names, change.job_id)} is not done after all{_said(change.words)}"


@tells(c.JobLeftOut)
def _job_left_out(names: Names, change: c.JobLeftOut) -> str:
    words = getattr(change, "words", "")
    return f"{_job(names, change.job_id)} was left out of this build{_said(words)}"


@tells(c.JobTakenIn)
def _job_taken_in(names: Names, change: c.JobTakenIn) -> str:
    return f"{_job(names, change.job_id)} was taken in again"


# --- parts -----------------------------------------------------------------------------------


@tells(c.NeedSet)
def _need_set(names: Names, change: c.NeedSet) -> str:
    need = change.need
    count = _pieces(need.quantity)
    return f"{_job(names, need.job)} needs {quoted(need.title)}{count} {need.needed_to.value}"


@tells(c.NeedDropped)
def _need_dropped(names: Names, change: c.NeedDropped) -> str:
    return f"{names.title('need', change.need_id)} is not needed after all"


@tells(c.NeedNotHere)
def _need_not_here(names: Names, change: c.NeedNotHere) -> str:
    return (
        f"{names.title('need', change.need_id)} was looked for and is not here{_said(change.words)}"
    )


@tells(c.HoldingSet)
def _holding_set(_names: Names, change: c.HoldingSet) -> str:
    holding = change.holding
    where = f", {holding.where}" if holding.where else ""
    return f"{quoted(holding.title)} is on the shelf{_pieces(holding.quantity)}{where}"


@tells(c.HoldingDropped)
def _holding_dropped(names: Names, change: c.HoldingDropped) -> str:
    gone = names.title("holding", change.holding_id)
    return f"{gone} is on the shelf no longer{_said(change.words)}"


@tells(c.OrderSet)
def _order_set(_names: Names, change: c.OrderSet) -> str:
    line = change.line
    expected = f", expected {on_day(line.expected_on)}" if line.expected_on else ""
    supplier = f" from {line.supplier}" if line.supplier else ""
    return f"{quoted(line.title)} was ordered{supplier}{_pieces(line.quantity)}{expected}"


@tells(c.OrderExpected)
def _order_expected(names: Names, change: c.OrderExpected) -> str:
    day = "nobody knows when" if change.expected_on is None else on_day(change.expected_on)
    return f"{names.title('order', change.order_id)} is now expected {day}{_said(change.words)}"


@tells(c.OrderCancelled)
def _order_cancelled(names: Names, change: c.OrderCancelled) -> str:
    return (
        f"the order of {names.title('order', change.order_id)} was cancelled{_said(change.words)}"
    )


_CAME = {
    GoodsIn.RIGHT: "came and is right",
    GoodsIn.WRONG: "came and is wrong",
    GoodsIn.SHORT: "came short",
    GoodsIn.DAMAGED: "came damaged",
    GoodsIn.UNLIKE: "came right but unlike what is on the car",
}


@tells(c.GoodsChecked)
def _goods_checked(names: Names, change: c.GoodsChecked) -> str:
    came = f"{_CAME[change.outcome]}, {change.quantity} of them"
    where = f", put away: {change.where}" if change.where else ""
    return f"{names.title('order', change.order_id)} {came}{where}{_said(change.words)}"


@tells(c.ExchangeReturned)
def _exchange_returned(names: Names, change: c.ExchangeReturned) -> str:
    day = on_day(change.returned_on)
    return f"the old unit for {names.title('order', change.order_id)} went back on {day}"


# --- proofs ----------------------------------------------------------------------------------


@tells(c.ProofDropped)
def _proof_dropped(names: Names, change: c.ProofDropped) -> str:
    return f"{names.title('proof', change.proof_id)} is not asked for any more{_said(change.words)}"


@tells(c.ProofSet)
def _proof_set(_names: Names, change: c.ProofSet) -> str:
    return f"proof is owed: {quoted(change.proof.title)} ({change.proof.kind.value})"


_PROVED = {
    c.ProofBegun: "was begun",
    c.ProofHeld: "held",
    c.ProofFailed: "failed",
    c.ProofSpent: "is spent",
    c.ProofUncovered: "can be seen again",
}


@tells(*_PROVED)
def _proof_event(names: Names, change: Any) -> str:  # noqa: ANN401 - one for five kinds
    read = _readings(getattr(change, "readings", ()))
    happened = _PROVED[type(change)]
    return f"proof {names.title('proof', change.proof_id)} {happened}{read}{_said(change.words)}"


@tells(c.ProofSubstituted)
def _proof_substituted(names: Names, change: c.ProofSubstituted) -> str:
    read = _readings(change.readings)
    proof = names.title("proof", change.proof_id)
    return f"proof {proof} was given a substitute, {change.name}{read}{_said(change.words)}"


# --- temps, gates, departures ----------------------------------------------------------------


@tells(c.TempSet)
def _temp_set(names: Names, change: c.TempSet) -> str:
    gate = names.title("gate", change.temp.gate)
    return f"temp {quoted(change.temp.title)} must be gone before the gate {gate}"


@tells(c.TempRaised)
def _temp_raised(names: Names, change: c.TempRaised) -> str:
    return f"temp {names.title('temp', change.temp_id)} was put on the car{_said(change.words)}"


@tells(c.TempCleared)
def _temp_cleared(names: Names, change: c.TempCleared) -> str:
    return f"temp {names.title('temp', change.temp_id)} is gone from the car{_said(change.words)}"


@tells(c.GateSet)
def _gate_set(_names: Names, change: c.GateSet) -> str:
    return f"gate {quoted(change.gate.title)} was written down"


@tells(c.GatePassed)
def _gate_passed(names: Names, change: c.GatePassed) -> str:
    gate = names.title("gate", change.gate_id)
    return f"{change.by} let the car through the gate {gate}{_said(change.words)}"


@tells(c.DepartureSet)
def _departure_set(_names: Names, change: c.DepartureSet) -> str:
    departure = change.departure
    was = f": {departure.what_was} became {departure.what_is}"
    return f"{quoted(departure.title)} is no longer standard{was}"


@tells(c.DepartureReturned)
def _departure_returned(names: Names, change: c.DepartureReturned) -> str:
    back = names.title("departure", change.departure_id)
    return f"{back} was put back to standard{_said(change.words)}"


# --- sessions, notes, the record itself ------------------------------------------------------


@tells(c.PatternSet)
def _pattern_set(_names: Names, change: c.PatternSet) -> str:
    pattern = change.pattern
    return (
        f"session pattern {quoted(pattern.title)}: from {pattern.starts:%H:%M}, "
        f"{pattern.minutes} min"
    )


@tells(c.PatternDropped)
def _pattern_dropped(names: Names, change: c.PatternDropped) -> str:
    return f"session pattern {names.title('pattern', change.pattern_id)} is over"


@tells(c.ExceptionSet)
def _exception_set(_names: Names, change: c.ExceptionSet) -> str:
    day = change.exception
    what = "no session" if day.minutes == 0 else f"{day.minutes} min in the garage"
    return f"{on_day(day.day)}: {what}{_said(day.words)}"


@tells(c.SessionHeld)
def _session_held(_names: Names, change: c.SessionHeld) -> str:
    session = change.session
    minutes = round((session.ended_at - session.started_at).total_seconds() / 60)
    helper = ", with a helper" if session.people == 2 else ""
    return f"a session of {minutes} min was held{helper}{_said(session.words)}"


@tells(c.NoteWritten)
def _note_written(names: Names, change: c.NoteWritten) -> str:
    return f"note{_about(names, change.note.about)}{_said(change.note.words)}"


@tells(c.LessonLearned)
def _lesson_learned(names: Names, change: c.LessonLearned) -> str:
    return f"lesson from {_job(names, change.lesson.job)}{_said(change.lesson.words)}"


@tells(c.PhotoKept)
def _photo_kept(names: Names, change: c.PhotoKept) -> str:
    return f"photo{_about(names, change.photo.about)} was kept{_said(change.photo.words)}"


@tells(c.ForecastIssued)
def _forecast_issued(_names: Names, change: c.ForecastIssued) -> str:
    said = change.forecast
    return (
        f"a forecast was kept: on the road by the week of {on_day(monday_of(said.p50))} in half "
        f"of futures, of {on_day(monday_of(said.p80))} in eight of ten"
    )


@tells(c.ItemLookedAt)
def _item_looked_at(_names: Names, change: c.ItemLookedAt) -> str:
    item = quoted(ITEM_WORDS.get(change.item, change.item))
    return f"{change.by} looked at {item}: {change.seen}{_said(change.words)}"


@tells(c.MilesRead)
def _miles_read(_names: Names, change: c.MilesRead) -> str:
    return f"{change.miles:g} miles since it went back on the road{_said(change.words)}"


@tells(c.Withdrawn)
def _withdrawn(_names: Names, change: c.Withdrawn) -> str:
    return f"an earlier entry was taken back{_said(change.words)}"


@tells(c.Settled)
def _settled(_names: Names, change: c.Settled) -> str:
    what = "kept" if change.keep else "set aside"
    return f"an entry that met another change was {what}{_said(change.words)}"
