"""One small fold for each kind of change. Folding trusts: deciding has checked."""

from __future__ import annotations

from bisect import insort
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from bareshell.model import changes as c
from bareshell.model.entry import Entry
from bareshell.model.fold.brakes import HANDLERS as OF_BRAKES
from bareshell.model.fold.draft import Draft
from bareshell.model.job import JobEvent, JobEventKind, JobRecord
from bareshell.model.looked import Look, MilesReading
from bareshell.model.part import Delivery, Exchange, GoodsIn, Holding, OrderRecord
from bareshell.model.proof import ProofEvent, ProofEventKind, ProofRecord, Reading
from bareshell.model.temp import GatePassing, GateRecord, TempEvent, TempRecord
from bareshell.model.trust import Trust

Handler = Callable[[Draft, Any, Entry], None]
HANDLERS: dict[type[c.Change], Handler] = {**OF_BRAKES}


def folds(kind: type[c.Change]) -> Callable[[Handler], Handler]:
    """Register a function as the fold of a kind of change."""

    def put(handler: Handler) -> Handler:
        HANDLERS[kind] = handler
        return handler

    return put


# --- car, garage, supports ---------------------------------------------------------------


@folds(c.CarDescribed)
def _car(draft: Draft, change: c.CarDescribed, _entry: Entry) -> None:
    draft.car = change.car


@folds(c.GarageDescribed)
def _garage(draft: Draft, change: c.GarageDescribed, entry: Entry) -> None:
    draft.garage = change.garage
    if change.garage.heated_to_c is None:
        draft.heated_since = None
    elif draft.heated_since is None:
        draft.heated_since = entry.happened_at


@folds(c.SupportSet)
def _support(draft: Draft, change: c.SupportSet, _entry: Entry) -> None:
    draft.supports[change.support.id] = change.support


@folds(c.SupportDropped)
def _support_dropped(draft: Draft, change: c.SupportDropped, _entry: Entry) -> None:
    draft.supports.pop(change.support_id, None)
    ends = (f"{change.support_id}>", f">{change.support_id}")
    for key in [k for k in draft.moves if k.startswith(ends[0]) or k.endswith(ends[1])]:
        del draft.moves[key]


@folds(c.SupportMoveSet)
def _move(draft: Draft, change: c.SupportMoveSet, _entry: Entry) -> None:
    draft.moves[f"{change.move.from_support}>{change.move.to_support}"] = change.move


@folds(c.CarPlaced)
def _placed(draft: Draft, change: c.CarPlaced, entry: Entry) -> None:
    # Sorted by when it happened: Friday's placement typed on Sunday does not undo Saturday's.
    insort(
        draft.placements,
        (entry.happened_at, entry.seq, change.placement),
        key=lambda item: item[:2],
    )


# --- jobs ----------------------------------------------------------------------------------


@folds(c.JobSet)
def _job(draft: Draft, change: c.JobSet, _entry: Entry) -> None:
    old = draft.jobs.get(change.job.id)
    draft.jobs[change.job.id] = replace(old, job=change.job) if old else JobRecord(change.job)


def _job_event(kind: JobEventKind) -> Handler:
    def handle(draft: Draft, change: Any, entry: Entry) -> None:
        event = JobEvent(
            entry.happened_at,
            entry.seq,
            kind,
            getattr(change, "hours", None),
            getattr(change, "hours_left", None),
            getattr(change, "words", ""),
        )
        record = draft.jobs.get(change.job_id)
        if record is not None:
            draft.jobs[change.job_id] = record.with_event(event)

    return handle


_JOB_EVENTS: dict[type[c.Change], JobEventKind] = {
    c.JobStarted: JobEventKind.STARTED,
    c.JobWorked: JobEventKind.WORKED,
    c.JobFinished: JobEventKind.FINISHED,
    c.JobDoneBefore: JobEventKind.DONE_BEFORE,
    c.JobNotDone: JobEventKind.NOT_DONE,
    c.JobLeftOut: JobEventKind.LEFT_OUT,
    c.JobTakenIn: JobEventKind.TAKEN_IN,
    c.JobTakenOff: JobEventKind.TAKEN_OFF,
}
HANDLERS.update((kind, _job_event(event)) for kind, event in _JOB_EVENTS.items())


# --- parts ---------------------------------------------------------------------------------


@folds(c.NeedSet)
def _need(draft: Draft, change: c.NeedSet, _entry: Entry) -> None:
    draft.needs[change.need.id] = change.need


@folds(c.NeedDropped)
def _need_dropped(draft: Draft, change: c.NeedDropped, _entry: Entry) -> None:
    draft.needs.pop(change.need_id, None)
    draft.not_here.pop(change.need_id, None)


@folds(c.NeedNotHere)
def _not_here(draft: Draft, change: c.NeedNotHere, entry: Entry) -> None:
    known = draft.not_here.get(change.need_id)
    draft.not_here[change.need_id] = max(known or entry.happened_at, entry.happened_at)


@folds(c.HoldingSet)
def _holding(draft: Draft, change: c.HoldingSet, entry: Entry) -> None:
    draft.holdings[change.holding.id] = change.holding
    draft.holding_times[change.holding.id] = entry.happened_at


@folds(c.HoldingDropped)
def _holding_dropped(draft: Draft, change: c.HoldingDropped, _entry: Entry) -> None:
    draft.holdings.pop(change.holding_id, None)
    draft.holding_times.pop(change.holding_id, None)


@folds(c.OrderSet)
def _order(draft: Draft, change: c.OrderSet, entry: Entry) -> None:
    old = draft.orders.get(change.line.id) or OrderRecord(change.line)
    same = old.line.expected_on == change.line.expected_on and old.expected_since is not None
    since = old.expected_since if same else entry.happened_at
    first = old.promised_on or change.line.expected_on
    draft.orders[change.line.id] = replace(
        old, line=change.line, expected_since=since, promised_on=first
    )


@folds(c.OrderExpected)
def _expected(draft: Draft, change: c.OrderExpected, entry: Entry) -> None:
    old = draft.orders.get(change.order_id)
    if old is not None:
        line = replace(old.line, expected_on=change.expected_on)
        draft.orders[change.order_id] = replace(
            old,
            line=line,
            expected_since=entry.happened_at,
            promised_on=old.promised_on or change.expected_on,
        )


@folds(c.OrderCancelled)
def _cancelled(draft: Draft, change: c.OrderCancelled, _entry: Entry) -> None:
    old = draft.orders.get(change.order_id)
    if old is not None:
        draft.orders[change.order_id] = replace(old, cancelled=True)


@folds(c.GoodsChecked)
def _goods(draft: Draft, change: c.GoodsChecked, entry: Entry) -> None:
    old = draft.orders.get(change.order_id)
    if old is None:
        return
    delivery = Delivery(
        entry.happened_at,
        entry.seq,
        change.outcome,
        change.quantity,
        change.words,
        change.holding or f"{change.order_id}.{entry.seq}",
    )
    record = old.with_delivery(delivery)
    draft.orders[change.order_id] = record
    if delivery.usable:
        holding = Holding(
            id=delivery.holding,
            title=record.line.title,
            quantity=delivery.usable,
            spec=record.line.spec,
            need=record.line.need,
            where=change.where,
            trust=Trust.MEASURED,
            unlike=change.outcome is GoodsIn.UNLIKE,
            note=change.words,
        )
        draft.holdings[holding.id] = holding
        draft.holding_times[holding.id] = entry.happened_at


@folds(c.ExchangeReturned)
def _returned(draft: Draft, change: c.ExchangeReturned, _entry: Entry) -> None:
    old = draft.orders.get(change.order_id)
    if old is not None:
        exchange = replace(old.line.exchange or Exchange(), returned_on=change.returned_on)
        draft.orders[change.order_id] = replace(old, line=replace(old.line, exchange=exchange))


# --- proofs --------------------------------------------------------------------------------


@folds(c.ProofSet)
def _proof(draft: Draft, change: c.ProofSet, _entry: Entry) -> None:
    old = draft.proofs.get(change.proof.id)
    draft.proofs[change.proof.id] = (
        replace(old, proof=change.proof) if old else ProofRecord(change.proof)
    )


@folds(c.ProofDropped)
def _proof_dropped(draft: Draft, change: c.ProofDropped, _entry: Entry) -> None:
    draft.proofs.pop(change.proof_id, None)


def _proof_event(kind: ProofEventKind) -> Handler:
    def handle(draft: Draft, change: Any, entry: Entry) -> None:
        readings: tuple[Reading, ...] = getattr(change, "readings", ())
        words = getattr(change, "name", "") or change.words
        event = ProofEvent(entry.happened_at, entry.seq, kind, entry.author, readings, words)
        record = draft.proofs.get(change.proof_id)
        if record is not None:
            draft.proofs[change.proof_id] = record.with_event(event)

    return handle


_PROOF_EVENTS: dict[type[c.Change], ProofEventKind] = {
    c.ProofBegun: ProofEventKind.BEGUN,
    c.ProofHeld: ProofEventKind.HELD,
    c.ProofFailed: ProofEventKind.FAILED,
    c.ProofSpent: ProofEventKind.SPENT,
    c.ProofUncovered: ProofEventKind.UNCOVERED,
    c.ProofSubstituted: ProofEventKind.SUBSTITUTED,
}
HANDLERS.update((kind, _proof_event(event)) for kind, event in _PROOF_EVENTS.items())


# --- temps, gates, departures ----------------------------------------------------------------


@folds(c.TempSet)
def _temp(draft: Draft, change: c.TempSet, _entry: Entry) -> None:
    old = draft.temps.get(change.temp.id)
    draft.temps[change.temp.id] = replace(old, temp=change.temp) if old else TempRecord(change.temp)


def _temp_event(raised: bool) -> Handler:
    def handle(draft: Draft, change: Any, entry: Entry) -> None:
        record = draft.temps.get(change.temp_id)
        if record is not None:
            event = TempEvent(entry.happened_at, entry.seq, raised, change.words)
            draft.temps[change.temp_id] = record.with_event(event)

    return handle


HANDLERS[c.TempRaised] = _temp_event(raised=True)
HANDLERS[c.TempCleared] = _temp_event(raised=False)


@folds(c.GateSet)
def _gate(draft: Draft, change: c.GateSet, _entry: Entry) -> None:
    old = draft.gates.get(change.gate.id)
    draft.gates[change.gate.id] = replace(old, gate=change.gate) if old else GateRecord(change.gate)


@folds(c.GatePassed)
def _gate_passed(draft: Draft, change: c.GatePassed, entry: Entry) -> None:
    passing = GatePassing(entry.happened_at, change.by, change.words)
    old = draft.gates.get(change.gate_id)
    if old is not None:
        draft.gates[change.gate_id] = replace(old, passed=passing)


@folds(c.DepartureSet)
def _departure(draft: Draft, change: c.DepartureSet, _entry: Entry) -> None:
    draft.departures[change.departure.id] = change.departure


@folds(c.DepartureReturned)
def _departure_returned(draft: Draft, change: c.DepartureReturned, _entry: Entry) -> None:
    draft.departures.pop(change.departure_id, None)


# --- sessions, notes -------------------------------------------------------------------------


@folds(c.PatternSet)
def _pattern(draft: Draft, change: c.PatternSet, _entry: Entry) -> None:
    draft.patterns[change.pattern.id] = change.pattern


@folds(c.PatternDropped)
def _pattern_dropped(draft: Draft, change: c.PatternDropped, _entry: Entry) -> None:
    draft.patterns.pop(change.pattern_id, None)


@folds(c.ExceptionSet)
def _exception(draft: Draft, change: c.ExceptionSet, _entry: Entry) -> None:
    draft.exceptions[change.exception.day] = change.exception


@folds(c.SessionHeld)
def _session(draft: Draft, change: c.SessionHeld, _entry: Entry) -> None:
    draft.sessions[change.session.id] = change.session


@folds(c.NoteWritten)
def _note(draft: Draft, change: c.NoteWritten, _entry: Entry) -> None:
    draft.notes[change.note.id] = change.note


@folds(c.LessonLearned)
def _lesson(draft: Draft, change: c.LessonLearned, _entry: Entry) -> None:
    draft.lessons[change.lesson.id] = change.lesson


@folds(c.PhotoKept)
def _photo(draft: Draft, change: c.PhotoKept, _entry: Entry) -> None:
    draft.photos[change.photo.id] = change.photo


@folds(c.ForecastIssued)
def _forecast(draft: Draft, change: c.ForecastIssued, _entry: Entry) -> None:
    draft.forecasts[change.forecast.id] = change.forecast


@folds(c.ItemLookedAt)
def _looked(draft: Draft, change: c.ItemLookedAt, entry: Entry) -> None:
    before = draft.looks.get(change.item)
    # A look typed on Sunday about Friday does not undo Saturday's.
    if before is None or before.at <= entry.happened_at:
        draft.looks[change.item] = Look(
            change.item, entry.happened_at, change.seen, change.by, change.words
        )


@folds(c.MilesRead)
def _miles(draft: Draft, change: c.MilesRead, entry: Entry) -> None:
    reading = MilesReading(entry.happened_at, change.miles, change.words)
    insort(draft.miles, reading, key=lambda one: one.at)
