"""What holds for every history: order, withdrawal, starting from the middle."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import timedelta
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.model import Build, Entry, Standing, decide, fold
from bareshell.model import changes as c
from bareshell.model.fold import withdrawn_ids
from bareshell.model.job import Job
from bareshell.model.moment import happened_by, known_at
from bareshell.model.part import GoodsIn
from tests.model.histories import BEGAN, DEFINITIONS, histories, stands

ANY_SEED = st.integers(0, 10_000)
few = settings(max_examples=50)  # each example is a whole history


def _more(
    entries: list[Entry], *changes: c.Change, standing: Standing = Standing.KEPT
) -> list[Entry]:
    """Write further entries down, now."""
    found = list(entries)
    for change in changes:
        seq = len(found) + 1
        at = BEGAN + timedelta(days=700, minutes=seq)
        found.append(Entry(seq, f"e{seq}", at, at, "owner", change, None, standing))
    return found


def _bare(build: Build) -> Build:
    """The build without the numbers of the entries that made it."""
    return replace(build, seq=0, versions={})


@few
@given(histories(), ANY_SEED)
def test_the_order_in_which_different_things_are_written_down_does_not_matter(
    entries: list[Entry], seed: int
) -> None:
    """Two people write down the same evening: whoever is first, the car is the same.

    What is said of one subject keeps its order; subjects are mixed anew.
    """
    by_subject: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries[len(DEFINITIONS) :]:
        by_subject[entry.change.subject].append(entry)
    queues = [list(reversed(some)) for some in by_subject.values()]
    chance, mixed = Random(seed), entries[: len(DEFINITIONS)]
    while queues:
        queue = chance.choice(queues)
        mixed = [*mixed, replace(queue.pop(), seq=len(mixed) + 1)]
        queues = [some for some in queues if some]
    assert stands(fold(mixed)) == stands(fold(entries))


@few
@given(histories(), st.data())
def test_taken_back_is_as_if_it_had_never_been_written(
    entries: list[Entry], data: st.DataObject
) -> None:
    target = data.draw(st.sampled_from(entries))
    without = [entry for entry in entries if entry.id != target.id]
    taken_back = _more(entries, c.Withdrawn(target.id))
    assert _bare(fold(taken_back)) == _bare(fold(without))


@few
@given(histories(), st.data())
def test_a_withdrawal_taken_back_is_as_if_it_had_never_been(
    entries: list[Entry], data: st.DataObject
) -> None:
    target = data.draw(st.sampled_from(entries))
    withdrawn = _more(entries, c.Withdrawn(target.id))
    put_back = _more(withdrawn, c.Withdrawn(withdrawn[-1].id))
    assert _bare(fold(put_back)) == _bare(fold(entries))
    assert target.id not in withdrawn_ids(put_back)
    again = _more(put_back, c.Withdrawn(put_back[-1].id))
    assert _bare(fold(again)) == _bare(fold(withdrawn))


@few
@given(histories(), st.data())
def test_a_withdrawal_moves_the_version_of_what_it_touches(
    entries: list[Entry], data: st.DataObject
) -> None:
    """Or somebody who still saw the entry would write over the subject unasked."""
    target = data.draw(st.sampled_from(entries))
    build = fold(_more(entries, c.Withdrawn(target.id)))
    assert build.versions[target.change.subject] == len(entries) + 1


@few
@given(histories(), st.data())
def test_going_on_from_the_middle_is_the_same_as_from_the_start(
    entries: list[Entry], data: st.DataObject
) -> None:
    cut = data.draw(st.integers(0, len(entries)))
    assert fold(entries[cut:], fold(entries[:cut])) == fold(entries)


@few
@given(histories(), st.data())
def test_folding_leaves_the_build_it_started_from_alone(
    entries: list[Entry], data: st.DataObject
) -> None:
    cut = data.draw(st.integers(0, len(entries)))
    start = fold(entries[:cut])
    fold(entries[cut:], start)
    assert start == fold(entries[:cut])


@few
@given(histories(), st.booleans())
def test_a_waiting_entry_counts_once_it_is_kept_and_never_when_set_aside(
    entries: list[Entry], keep: bool
) -> None:
    worked = c.JobWorked("pipe", 3.0, 1.0)
    waiting = _more(entries, worked, standing=Standing.TO_SETTLE)
    before = fold(entries)
    build = fold(waiting)
    assert build.to_settle == {waiting[-1].id}
    assert _bare(replace(build, to_settle=frozenset())) == _bare(before)
    settled = fold(_more(waiting, c.Settled(waiting[-1].id, keep=keep)))
    assert settled.to_settle == frozenset()
    plain = fold(_more(entries, worked))
    assert stands(settled) == stands(plain if keep else before)


@few
@given(histories(), st.booleans())
def test_a_waiting_entry_that_is_taken_back_waits_no_longer_and_never_counts(
    entries: list[Entry], settled_first: bool
) -> None:
    waiting = _more(entries, c.JobWorked("pipe", 3.0), standing=Standing.TO_SETTLE)
    key = waiting[-1].id
    both: list[c.Change] = [c.Settled(key, keep=True), c.Withdrawn(key)]
    build = fold(_more(waiting, *(both if settled_first else reversed(both))))
    assert build.to_settle == frozenset()
    assert stands(build) == stands(fold(entries))


@few
@given(histories(), st.data())
def test_the_record_as_it_was_known_is_its_beginning(
    entries: list[Entry], data: st.DataObject
) -> None:
    cut = data.draw(st.integers(1, len(entries)))
    assert fold(known_at(entries, entries[cut - 1].recorded_at)) == fold(entries[:cut])


@few
@given(histories(), st.integers(0, 10_000))
def test_the_car_as_it_stood_knows_nothing_that_happened_later(
    entries: list[Entry], hour: int
) -> None:
    moment = BEGAN + timedelta(hours=hour)
    chosen = happened_by(entries, moment)
    assert [e for e in entries if e.happened_at <= moment] == list(chosen)
    assert stands(fold(happened_by(entries, BEGAN + timedelta(days=9999)))) == stands(fold(entries))


@few
@given(histories(), st.integers(0, 10_000), ANY_SEED)
def test_definitions_written_down_late_come_along_with_what_speaks_of_them(
    entries: list[Entry], hour: int, seed: int
) -> None:
    """A record begun in May tells of March: the jobs done then are there, done."""
    late = [
        replace(entry, happened_at=BEGAN + timedelta(days=650))
        if entry.seq <= len(DEFINITIONS)
        else entry
        for entry in entries
    ]
    moment = BEGAN + timedelta(hours=hour)
    then = fold(happened_by(late, moment))
    happened = [e for e in late if e.happened_at <= moment]
    known = fold(happened_by(entries, moment))
    for entry in happened:
        kind, _, key = entry.change.subject.partition(":")
        if kind == "job":
            assert then.jobs[key].state == known.jobs[key].state
        if kind == "proof":
            assert key in then.proofs
            for job in (*then.proofs[key].proof.made_by, *then.proofs[key].proof.covered_by):
                assert job in then.jobs
    if then.placement is not None:
        assert then.placement.support in then.supports


@few
@given(histories())
def test_every_subject_has_the_number_of_the_entry_that_last_touched_it(
    entries: list[Entry],
) -> None:
    last = {entry.change.subject: entry.seq for entry in entries}
    assert fold(entries).versions == last


def test_what_a_newer_bareshell_wrote_is_passed_over() -> None:
    entries = _more([], *DEFINITIONS)
    unread = _more(entries, c.Unread("job-blessed", 1, "job:pipe", "{}"))
    assert _bare(fold(unread)) == _bare(fold(entries))
    assert fold(unread).seq == len(unread)


def test_a_withdrawal_that_speaks_of_itself_or_of_nothing_harms_nothing() -> None:
    """No journal of ours has one; a file from elsewhere might."""
    entries = _more([], *DEFINITIONS)
    own = f"e{len(entries) + 1}"
    odd = _more(entries, c.Withdrawn(own), c.Withdrawn("nothing"), c.Settled("nothing", keep=True))
    assert stands(fold(odd)) == stands(fold(entries))


def test_events_of_things_that_are_not_there_are_passed_over() -> None:
    """As in a view of a moment before they were known."""
    changes: list[c.Change] = [
        c.JobFinished("pipe", 1.0),
        c.ProofHeld("dry"),
        c.TempRaised("rag"),
        c.GatePassed("under", "the owner"),
        c.GoodsChecked("o-union", GoodsIn.RIGHT, 1),
        c.OrderCancelled("o-union"),
        c.OrderExpected("o-union", None),
        c.NeedDropped("clip"),
        c.ProofDropped("air", "no pipe there any more"),
        c.HoldingDropped("h-clip"),
        c.DepartureReturned("servo"),
        c.PatternDropped("wed"),
        c.SupportDropped("stands"),
    ]
    build = fold(_more([], *changes))
    assert not build.jobs
    assert not build.orders
    assert not build.holdings
    assert "air" not in build.proofs


def test_deciding_changes_nothing() -> None:
    build = fold(_more([], *DEFINITIONS))
    before = fold(_more([], *DEFINITIONS))
    decide(build, c.JobSet(Job("new", "New", "brakes", after=("pipe",))))
    assert build == before
