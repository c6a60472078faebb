"""The demo's record is one that could have been written: in order, in season, by these people."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from dateutil.rrule import rrulestr

from bareshell.demo import demo_story, evidence, order_of_work, shelf, words
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.model.network import find_cycle, predecessors
from tests.demo.conftest import Played

LONDON = ZoneInfo("Europe/London")


def test_the_same_day_tells_the_same_story() -> None:
    day = date(2031, 5, 14)
    assert demo_story(day) == demo_story(day)


def test_a_week_later_it_is_the_same_story_a_week_later() -> None:
    def shape(day: date) -> list[str]:
        lost = (c.ExceptionSet, c.CarPlaced)
        return [t.change.KIND for t in demo_story(day) if not isinstance(t.change, lost)]

    early, late = shape(date(2031, 5, 14)), shape(date(2031, 5, 21))
    assert abs(len(early) - len(late)) < 60


def test_it_is_written_down_in_order_and_never_before_it_happened(demo: Played) -> None:
    written = [one.recorded_at for one in demo.told]
    assert written == sorted(written)
    for one in demo.told:
        assert one.happened_at <= one.recorded_at
        assert one.happened_at.utcoffset() == timedelta(0)


def test_nothing_is_dated_on_the_day_itself_or_after(demo: Played) -> None:
    midnight = datetime.combine(demo.today, time(), LONDON)
    assert all(one.recorded_at < midnight for one in demo.told)


def test_it_reaches_back_about_eleven_months(demo: Played) -> None:
    first = min(one.happened_at for one in demo.told).astimezone(LONDON).date()
    assert 280 <= (demo.today - first).days <= 365


def test_the_last_session_was_at_most_a_few_days_ago(demo: Played) -> None:
    last = max(session.ended_at for session in demo.build.sessions.values())
    assert 1 <= (demo.today - last.astimezone(LONDON).date()).days <= 3


def test_sessions_keep_to_the_pattern_or_the_day_is_accounted_for(demo: Played) -> None:
    # The recurrence rules are read by a general-purpose library, not by us.
    first = min(s.started_at for s in demo.build.sessions.values()).astimezone(LONDON).date()
    wanted: dict[date, tuple[time, int]] = {}
    for pattern in demo.build.patterns.values():
        anchor = datetime.combine(pattern.first_day, time())
        rule = rrulestr(pattern.rule, dtstart=anchor)
        start, end = datetime.combine(first, time()), datetime.combine(demo.today, time())
        for moment in rule.between(start - timedelta(seconds=1), end - timedelta(seconds=1)):
            wanted[moment.date()] = (pattern.starts, pattern.people)
    held = {}
    for session in demo.build.sessions.values():
        begins = session.started_at.astimezone(LONDON)
        held[begins.date()] = (begins.time(), session.people)
    lost = {day for day, e in demo.build.exceptions.items() if not e.minutes and day < demo.today}
    assert not lost & held.keys()
    assert held.keys() | lost == wanted.keys()
    assert all(wanted[day] == seen for day, seen in held.items())
    assert 12 <= len(lost) <= 50


def test_sessions_do_not_overlap_and_hold_the_work(demo: Played) -> None:
    sessions = sorted(demo.build.sessions.values(), key=lambda s: s.started_at)
    for one, other in pairwise(sessions):
        assert one.ended_at <= other.started_at
    spans = [(s.started_at, s.ended_at) for s in sessions]
    for record in demo.build.jobs.values():
        for event in record.events:
            if event.hours:
                assert any(begin <= event.at <= end for begin, end in spans), record.job.id


def test_there_is_a_session_tonight(demo: Played) -> None:
    exception = demo.build.exceptions.get(demo.today)
    if exception is not None:
        assert exception.starts is not None
        assert exception.minutes == 150
    else:
        assert demo.today.weekday() in (0, 2, 5)


def test_jobs_were_done_after_what_comes_before_them(demo: Played) -> None:
    jobs = demo.build.jobs
    before = predecessors(demo.build)
    assert not find_cycle(before)
    for key, record in jobs.items():
        if record.state.status is not JobStatus.DONE:
            continue
        started = min(event.at for event in record.events)
        for other in before[key]:
            state = jobs[other].state
            assert state.is_done, f"{key} is done and {other} is not"
            if state.status is JobStatus.DONE:
                finishes = [e.at for e in jobs[other].events if e.kind.value == "finished"]
                assert min(finishes) <= started, f"{key} was begun before {other} was done"


def test_two_people_were_there_for_what_wants_two(demo: Played) -> None:
    helped = [(s.started_at, s.ended_at) for s in demo.build.sessions.values() if s.people == 2]
    two = [
        record
        for record in demo.build.jobs.values()
        if record.state.status is JobStatus.DONE and all(w.people == 2 for w in record.job.ways)
    ]
    assert two
    for record in two:
        for event in record.events:
            assert any(begin <= event.at <= end for begin, end in helped), record.job.id


def test_some_entries_were_typed_late(demo: Played) -> None:
    late = [one for one in demo.told if one.recorded_at - one.happened_at > timedelta(hours=9)]
    much = [one for one in demo.told if one.recorded_at - one.happened_at > timedelta(days=4)]
    assert 20 <= len(late) < len(demo.told) / 4
    assert 2 <= len(much) < 20


def test_the_hold_of_the_last_night_can_be_read_tonight(demo: Played) -> None:
    last = max(session.ended_at for session in demo.build.sessions.values())
    begun = [
        record.events[-1].at
        for record in demo.build.proofs.values()
        if record.events and record.events[-1].kind.value == "begun"
    ]
    assert begun
    assert all(last - timedelta(hours=1) < moment <= last for moment in begun)
    tonight = datetime.combine(demo.today, time(19), LONDON)
    assert all(tonight - moment > timedelta(hours=12) for moment in begun)


def test_what_waits_to_be_settled_can_be_kept_or_set_aside(demo: Played) -> None:
    (waiting,) = [entry for entry in demo.entries if entry.id in demo.build.to_settle]
    assert waiting.base_version is not None
    assert waiting.base_version < demo.build.versions[waiting.change.subject]
    assert waiting.author != "owner"
    assert replace(waiting, base_version=None).change == waiting.change


def test_what_was_fitted_had_come_before(demo: Played) -> None:
    build = demo.build
    fitted = 0
    for record in build.orders.values():
        need = build.needs.get(record.line.need or "")
        if need is None or build.jobs[need.job].state.status is not JobStatus.DONE:
            continue
        finished = build.jobs[need.job].state.finished_at
        assert finished is not None
        assert not record.outstanding, record.line.id
        assert record.deliveries[-1].at < finished, record.line.id
        fitted += 1
    assert fitted >= 5


def test_the_tables_speak_of_jobs_and_proofs_that_there_are(demo: Played) -> None:
    jobs, proofs, needs = demo.build.jobs, demo.build.proofs, demo.build.needs
    assert set(order_of_work.TAKEN_UP) <= set(jobs)
    assert len(set(order_of_work.TAKEN_UP)) == len(order_of_work.TAKEN_UP)
    assert evidence.STILL_OWED | words.ON_THE_JOB.keys() | words.LESSONS.keys() <= set(jobs)
    shown = evidence.READ.keys() | evidence.FAILED_FIRST.keys() | evidence.SUBSTITUTES.keys()
    assert shown <= set(proofs)
    assert {*shelf.HERE, *shelf.SOME_HERE, *shelf.LOOKED_FOR} <= set(needs)
