"""Every entry of the record as a clause in garage words.

The record's page, the log on the command line and every refusal that names an entry speak
from here, so an entry is called the same everywhere. A clause begins with what it is about
and has no full stop: ``'Bleed the brakes' was finished, 2.5 h``.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from typing import Any

from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.entry import Entry, Standing
from bareshell.model.part import GoodsIn
from bareshell.model.proof import Reading

Teller = Callable[[Build, Any], str]
TELLERS: dict[type[c.Change], Teller] = {}


def describe_entry(entry: Entry, build: Build) -> str:
    """Say in words what an entry says; one that waits to be settled says so.

    Parameters
    ----------
    entry : Entry
        Any entry of the journal.
    build : Build
        Where the titles are looked up; what it does not have is called by its short name.
    """
    said = describe_change(entry.change, build)
    return f"{said} (to settle)" if entry.standing is Standing.TO_SETTLE else said


def describe_change(change: c.Change, build: Build) -> str:
    """Say in words what a change says.

    Examples
    --------
    >>> from bareshell.model.changes import JobFinished, JobSet
    >>> from bareshell.model.fold import fold
    >>> describe_change(JobFinished("bleed", 2.5, "pedal firm"), Build())
    "'bleed' was finished, 2.5 h: pedal firm"
    """
    if isinstance(change, c.Unread):
        return f"{change.about} was changed in a way that only a newer bareshell can read"
    return TELLERS[type(change)](build, change)


def name_subject(subject: str, build: Build) -> str:
    """Name the subject of an entry as a person knows it.

    Examples
    --------
    >>> name_subject("job:bleed", Build())
    "job 'bleed'"
    """
    kind, _, key = subject.partition(":")
    if kind in ("car", "garage"):
        return f"the {kind}"
    if kind == "placement":
        return "how the car stands"
    if kind == "move":
        start, _, end = key.partition(">")
        return f"the move from {_support(build, start)} to {_support(build, end)}"
    if kind == "day":
        return on_day(date.fromisoformat(key))
    if kind == "entry":
        return "an entry of the record"
    find = _TITLES.get(kind)
    return f"{_KINDS.get(kind, kind)} {find(build, key) if find else _quoted(key)}"


def on_day(moment: date | datetime) -> str:
    """Write a day as it is said.

    Examples
    --------
    >>> on_day(date(2026, 3, 4))
    '4 Mar 2026'
    """
    return f"{moment.day} {moment:%b %Y}"


# --- pieces ----------------------------------------------------------------------------------


def _quoted(title: str) -> str:
    return f"'{title}'"


def _job(build: Build, key: str) -> str:
    return _quoted(build.jobs[key].job.title if key in build.jobs else key)


def _need(build: Build, key: str) -> str:
    return _quoted(build.needs[key].title if key in build.needs else key)


def _holding(build: Build, key: str) -> str:
    return _quoted(build.holdings[key].title if key in build.holdings else key)


def _order(build: Build, key: str) -> str:
    return _quoted(build.orders[key].line.title if key in build.orders else key)


def _proof(build: Build, key: str) -> str:
    return _quoted(build.proofs[key].proof.title if key in build.proofs else key)


def _temp(build: Build, key: str) -> str:
    return _quoted(build.temps[key].temp.title if key in build.temps else key)


def _gate(build: Build, key: str) -> str:
    return _quoted(build.gates[key].gate.title if key in build.gates else key)


def _departure(build: Build, key: str) -> str:
    return _quoted(build.departures[key].title if key in build.departures else key)


def _pattern(build: Build, key: str) -> str:
    return _quoted(build.patterns[key].title if key in build.patterns else key)


def _support(build: Build, key: str) -> str:
    return _quoted(build.supports[key].title if key in build.supports else key)


def _photo(build: Build, key: str) -> str:
    return _quoted((build.photos[key].words if key in build.photos else "") or key)


_TITLES: dict[str, Callable[[Build, str], str]] = {
    "job": _job,
    "need": _need,
    "holding": _holding,
    "order": _order,
    "proof": _proof,
    "temp": _temp,
    "gate": _gate,
    "departure": _departure,
    "pattern": _pattern,
    "support": _support,
    "photo": _photo,
}
_KINDS = {"pattern": "session pattern"}


def _about(build: Build, subject: str) -> str:
    return f" about {name_subject(subject, build)}" if subject else ""


def _said(words: str) -> str:
    return f": {words.strip()}" if words.strip() else ""


def _hours(hours: float | None, after: str = "") -> str:
    return "" if hours is None else f", {hours:g} h{after}"


def _readings(readings: tuple[Reading, ...]) -> str:
    if not readings:
        return ""
    read = ", ".join(f"{r.quantity} {r.value:g} {r.unit}".strip() for r in readings)
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
def _car_described(_build: Build, change: c.CarDescribed) -> str:
    return f"the car was described: {change.car.name}, {change.car.layout.value}"


@tells(c.GarageDescribed)
def _garage_described(_build: Build, change: c.GarageDescribed) -> str:
    garage = change.garage
    warmth = "unheated" if garage.heated_to_c is None else f"heated to {garage.heated_to_c:g} C"
    return (
        f"the garage was described: {warmth}, {garage.set_up_minutes} min to set up, "
        f"{garage.clear_up_minutes} min to clear up"
    )


@tells(c.SupportSet)
def _support_set(_build: Build, change: c.SupportSet) -> str:
    return f"the car can stand on {_quoted(change.support.title)} ({change.support.kind.value})"


@tells(c.SupportDropped)
def _support_dropped(build: Build, change: c.SupportDropped) -> str:
    return f"the car can stand on {_support(build, change.support_id)} no longer"


@tells(c.SupportMoveSet)
def _move_set(build: Build, change: c.SupportMoveSet) -> str:
    move = change.move
    people = "one person" if move.people == 1 else "two people"
    return (
        f"moving the car from {_support(build, move.from_support)} to "
        f"{_support(build, move.to_support)} takes {move.minutes} min and {people}"
    )


@tells(c.CarPlaced)
def _car_placed(build: Build, change: c.CarPlaced) -> str:
    off = ", ".join(sorted(change.placement.off))
    state = f", {off}" if off else ""
    stands = _support(build, change.placement.support)
    return f"the car was left standing on {stands}{state}{_said(change.words)}"


# --- jobs ------------------------------------------------------------------------------------


@tells(c.JobSet)
def _job_set(_build: Build, change: c.JobSet) -> str:
    return f"job {_quoted(change.job.title)} was written down ({change.job.system})"


@tells(c.JobStarted)
def _job_started(build: Build, change: c.JobStarted) -> str:
    return f"{_job(build, change.job_id)} was started"


@tells(c.JobWorked)
def _job_worked(build: Build, change: c.JobWorked) -> str:
    spent = _hours(change.hours) + _hours(change.hours_left, " left")
    return f"{_job(build, change.job_id)} was worked on{spent}{_said(change.words)}"


@tells(c.JobFinished)
def _job_finished(build: Build, change: c.JobFinished) -> str:
    spent = _hours(change.hours)
    return f"{_job(build, change.job_id)} was finished{spent}{_said(change.words)}"


@tells(c.JobTakenOff)
def _job_taken_off(build: Build, change: c.JobTakenOff) -> str:
    return f"{_job(build, change.job_id)} was taken off again{_said(change.words)}"


@tells(c.JobDoneBefore)
def _job_done_before(build: Build, change: c.JobDoneBefore) -> str:
    return f"{_job(build, change.job_id)} was done before the record began, unproven"


@tells(c.JobNotDone)
def _job_not_done(build: Build, change: c.JobNotDone) -> str:
    return f"{_job(build, change.job_id)} is not done after all{_said(change.words)}"


@tells(c.JobLeftOut)
def _job_left_out(build: Build, change: c.JobLeftOut) -> str:
    words = getattr(change, "words", "")
    return f"{_job(build, change.job_id)} was left out of this build{_said(words)}"


@tells(c.JobTakenIn)
def _job_taken_in(build: Build, change: c.JobTakenIn) -> str:
    return f"{_job(build, change.job_id)} was taken in again"


# --- parts -----------------------------------------------------------------------------------


@tells(c.NeedSet)
def _need_set(build: Build, change: c.NeedSet) -> str:
    need = change.need
    count = _pieces(need.quantity)
    return f"{_job(build, need.job)} needs {_quoted(need.title)}{count} {need.needed_to.value}"


@tells(c.NeedDropped)
def _need_dropped(build: Build, change: c.NeedDropped) -> str:
    return f"{_need(build, change.need_id)} is not needed after all"


@tells(c.NeedNotHere)
def _need_not_here(build: Build, change: c.NeedNotHere) -> str:
    return f"{_need(build, change.need_id)} was looked for and is not here{_said(change.words)}"


@tells(c.HoldingSet)
def _holding_set(_build: Build, change: c.HoldingSet) -> str:
    holding = change.holding
    where = f", {holding.where}" if holding.where else ""
    return f"{_quoted(holding.title)} is on the shelf, {holding.quantity} of them{where}"


@tells(c.HoldingDropped)
def _holding_dropped(build: Build, change: c.HoldingDropped) -> str:
    return f"{_holding(build, change.holding_id)} is on the shelf no longer{_said(change.words)}"


@tells(c.OrderSet)
def _order_set(_build: Build, change: c.OrderSet) -> str:
    line = change.line
    expected = f", expected {on_day(line.expected_on)}" if line.expected_on else ""
    supplier = f" from {line.supplier}" if line.supplier else ""
    return f"{_quoted(line.title)} was ordered{supplier}{_pieces(line.quantity)}{expected}"


@tells(c.OrderExpected)
def _order_expected(build: Build, change: c.OrderExpected) -> str:
    day = "nobody knows when" if change.expected_on is None else on_day(change.expected_on)
    return f"{_order(build, change.order_id)} is now expected {day}{_said(change.words)}"


@tells(c.OrderCancelled)
def _order_cancelled(build: Build, change: c.OrderCancelled) -> str:
    return f"the order of {_order(build, change.order_id)} was cancelled{_said(change.words)}"


_CAME = {
    GoodsIn.RIGHT: "came and is right",
    GoodsIn.WRONG: "came and is wrong",
    GoodsIn.SHORT: "came short",
    GoodsIn.DAMAGED: "came damaged",
    GoodsIn.UNLIKE: "came right but unlike what is on the car",
}


@tells(c.GoodsChecked)
def _goods_checked(build: Build, change: c.GoodsChecked) -> str:
    came = f"{_CAME[change.outcome]}{_pieces(change.quantity)}"
    where = f", put in {change.where}" if change.where else ""
    return f"{_order(build, change.order_id)} {came}{where}{_said(change.words)}"


@tells(c.ExchangeReturned)
def _exchange_returned(build: Build, change: c.ExchangeReturned) -> str:
    day = on_day(change.returned_on)
    return f"the old unit for {_order(build, change.order_id)} went back on {day}"


# --- proofs ----------------------------------------------------------------------------------


@tells(c.ProofSet)
def _proof_set(_build: Build, change: c.ProofSet) -> str:
    return f"proof is owed: {_quoted(change.proof.title)} ({change.proof.kind.value})"


_PROVED = {
    c.ProofBegun: "was begun",
    c.ProofHeld: "held",
    c.ProofFailed: "failed",
    c.ProofSpent: "is spent",
    c.ProofUncovered: "can be seen again",
}


@tells(*_PROVED)
def _proof_event(build: Build, change: Any) -> str:  # noqa: ANN401 - one for five kinds
    read = _readings(getattr(change, "readings", ()))
    happened = _PROVED[type(change)]
    return f"proof {_proof(build, change.proof_id)} {happened}{read}{_said(change.words)}"


@tells(c.ProofSubstituted)
def _proof_substituted(build: Build, change: c.ProofSubstituted) -> str:
    read = _readings(change.readings)
    proof = _proof(build, change.proof_id)
    return f"proof {proof} was given a substitute, {change.name}{read}{_said(change.words)}"


# --- temps, gates, departures ----------------------------------------------------------------


@tells(c.TempSet)
def _temp_set(build: Build, change: c.TempSet) -> str:
    gate = _gate(build, change.temp.gate)
    return f"temp {_quoted(change.temp.title)} must be gone before the gate {gate}"


@tells(c.TempRaised)
def _temp_raised(build: Build, change: c.TempRaised) -> str:
    return f"temp {_temp(build, change.temp_id)} was put on the car{_said(change.words)}"


@tells(c.TempCleared)
def _temp_cleared(build: Build, change: c.TempCleared) -> str:
    return f"temp {_temp(build, change.temp_id)} is gone from the car{_said(change.words)}"


@tells(c.GateSet)
def _gate_set(_build: Build, change: c.GateSet) -> str:
    return f"gate {_quoted(change.gate.title)} was written down"


@tells(c.GatePassed)
def _gate_passed(build: Build, change: c.GatePassed) -> str:
    gate = _gate(build, change.gate_id)
    return f"{change.by} let the car through the gate {gate}{_said(change.words)}"


@tells(c.DepartureSet)
def _departure_set(_build: Build, change: c.DepartureSet) -> str:
    departure = change.departure
    was = f": {departure.what_was} became {departure.what_is}"
    return f"{_quoted(departure.title)} is no longer standard{was}"


@tells(c.DepartureReturned)
def _departure_returned(build: Build, change: c.DepartureReturned) -> str:
    back = _departure(build, change.departure_id)
    return f"{back} was put back to standard{_said(change.words)}"


# --- sessions, notes, the record itself ------------------------------------------------------


@tells(c.PatternSet)
def _pattern_set(_build: Build, change: c.PatternSet) -> str:
    pattern = change.pattern
    return (
        f"session pattern {_quoted(pattern.title)}: from {pattern.starts:%H:%M}, "
        f"{pattern.minutes} min"
    )


@tells(c.PatternDropped)
def _pattern_dropped(build: Build, change: c.PatternDropped) -> str:
    return f"session pattern {_pattern(build, change.pattern_id)} is over"


@tells(c.ExceptionSet)
def _exception_set(_build: Build, change: c.ExceptionSet) -> str:
    day = change.exception
    what = "no session" if day.minutes == 0 else f"{day.minutes} min in the garage"
    return f"{on_day(day.day)}: {what}{_said(day.words)}"


@tells(c.SessionHeld)
def _session_held(_build: Build, change: c.SessionHeld) -> str:
    session = change.session
    minutes = round((session.ended_at - session.started_at).total_seconds() / 60)
    helper = ", with a helper" if session.people == 2 else ""
    return f"a session of {minutes} min was held{helper}{_said(session.words)}"


@tells(c.NoteWritten)
def _note_written(build: Build, change: c.NoteWritten) -> str:
    return f"note{_about(build, change.note.about)}{_said(change.note.words)}"


@tells(c.LessonLearned)
def _lesson_learned(build: Build, change: c.LessonLearned) -> str:
    return f"lesson from {_job(build, change.lesson.job)}{_said(change.lesson.words)}"


@tells(c.PhotoKept)
def _photo_kept(build: Build, change: c.PhotoKept) -> str:
    return f"photo{_about(build, change.photo.about)} was kept{_said(change.photo.words)}"


@tells(c.Withdrawn)
def _withdrawn(_build: Build, change: c.Withdrawn) -> str:
    return f"an earlier entry was taken back{_said(change.words)}"


@tells(c.Settled)
def _settled(_build: Build, change: c.Settled) -> str:
    what = "kept" if change.keep else "set aside"
    return f"an entry that met another change was {what}{_said(change.words)}"
