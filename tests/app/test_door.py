"""The one door: what enters, what is refused, and what the build is afterwards."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bareshell.app.door import Door
from bareshell.errors import BadInput, Conflict, NotFound, Refused
from bareshell.model import Standing, fold
from bareshell.model import changes as c
from bareshell.model.decide import CHECKS
from bareshell.model.job import Job, JobStatus
from bareshell.model.note import Note
from bareshell.model.part import Need
from bareshell.model.proof import Proof
from tests.stories import NOW, small_car_changes

HOUR = timedelta(hours=1)


class Clock:
    """A clock that a test sets."""

    def __init__(self) -> None:
        self.time = NOW

    def __call__(self) -> datetime:
        return self.time


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def door(tmp_path: Path, clock: Clock) -> Iterator[Door]:
    """The small car, open."""
    numbers = count(1)
    with Door.open(
        tmp_path, clock=clock, new_id=lambda: f"e{next(numbers)}", create=True
    ) as opened:
        opened.record(small_car_changes(), happened_at=NOW - 30 * 24 * HOUR)
        yield opened


# --- writing down ----------------------------------------------------------------------------


def test_what_is_written_down_is_in_the_build_and_in_the_journal(door: Door) -> None:
    receipt = door.record(c.JobFinished("rear-pipe", 1.5, "clipped"), happened_at=NOW - HOUR)
    (entry,) = receipt.entries
    assert entry.seq == door.latest() == door.build().seq
    assert (entry.happened_at, entry.recorded_at) == (NOW - HOUR, NOW)
    assert entry.author == "owner"
    assert door.build().jobs["rear-pipe"].state.status is JobStatus.DONE
    assert door.entries(after=entry.seq - 1) == receipt.entries


def test_another_author_is_named(door: Door) -> None:
    receipt = door.record(c.JobStarted("rear-pipe"), author="helper")
    assert receipt.entries[0].author == "helper"


def test_all_enter_or_none_does(door: Door) -> None:
    before = door.build()
    with pytest.raises(NotFound, match="no job 'nothing'"):
        door.record([c.JobStarted("rear-pipe"), c.JobFinished("nothing")])
    assert door.build() == before
    assert door.latest() == before.seq


def test_each_is_decided_on_what_the_ones_before_it_made(door: Door) -> None:
    door.record(
        [
            c.JobSet(Job("bleed", "Bleed", "brakes", after=("hold",))),
            c.NeedSet(Need("fluid", "Fluid", "bleed")),
            c.JobFinished("bleed"),
            c.JobTakenOff("bleed"),
        ]
    )
    assert door.build().jobs["bleed"].state.taken_off
    with pytest.raises(Refused, match="not fitted"):
        door.record([c.JobFinished("seam"), c.JobTakenOff("seam"), c.JobTakenOff("seam")])


def test_a_cycle_is_refused_by_name(door: Door) -> None:
    with pytest.raises(BadInput, match=r"wait for each other: .*Rear pipe"):
        door.record(c.JobSet(Job("rear-pipe", "Rear pipe", "brakes", after=("tank",))))


def test_what_enters_late_stands_where_it_happened(door: Door) -> None:
    """Friday's work typed on Sunday does not undo Saturday's."""
    door.record(c.JobFinished("rear-pipe", 1.0), happened_at=NOW - 2 * HOUR)
    door.record(c.JobStarted("rear-hose"), happened_at=NOW - HOUR)
    door.record(c.JobWorked("rear-pipe", 0.5), happened_at=NOW - 3 * HOUR)
    state = door.build().jobs["rear-pipe"].state
    assert state.status is JobStatus.DONE
    assert state.hours_done == 1.5


@pytest.mark.parametrize(
    ("moment", "says"),
    [
        (datetime(2026, 3, 4, 18, 0), "time zone"),  # noqa: DTZ001 - that is the point
        (NOW + timedelta(days=2), "still to come"),
    ],
)
def test_a_moment_that_cannot_be_is_refused(door: Door, moment: datetime, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        door.record(c.JobStarted("rear-pipe"), happened_at=moment)


def test_a_phone_whose_clock_is_a_little_ahead_is_believed(door: Door) -> None:
    ahead = NOW + timedelta(minutes=3)
    assert door.record(c.JobStarted("rear-pipe"), happened_at=ahead).entries[0].happened_at == ahead


def test_local_time_is_kept_as_utc(door: Door) -> None:
    summer = datetime(2025, 7, 1, 20, 0, tzinfo=ZoneInfo("Europe/London"))
    (entry,) = door.record(c.JobStarted("rear-pipe"), happened_at=summer).entries
    assert entry.happened_at.isoformat() == "2025-07-01T19:00:00+00:00"


def test_each_with_its_own_time(door: Door) -> None:
    door.record_dated(
        [(NOW - 3 * HOUR, c.JobStarted("rear-pipe")), (NOW - HOUR, c.JobFinished("rear-pipe"))]
    )
    state = door.build().jobs["rear-pipe"].state
    assert (state.started_at, state.finished_at) == (NOW - 3 * HOUR, NOW - HOUR)


def test_trying_out_keeps_nothing(door: Door) -> None:
    before = door.build()
    tried = door.try_out([c.JobFinished("rear-pipe"), c.JobFinished("rear-hose")])
    assert tried.jobs["rear-hose"].state.is_done
    assert door.build() == before
    assert door.latest() == before.seq
    with pytest.raises(NotFound):
        door.try_out(c.JobFinished("nothing"))


def test_withdrawing_and_settling_have_doors_of_their_own(door: Door) -> None:
    for change in (c.Withdrawn("e1"), c.Settled("e1", keep=True)):
        with pytest.raises(BadInput, match="not written down like"):
            door.record(change)


# --- the same thing sent twice -----------------------------------------------------------------


def test_sent_twice_it_lands_once(door: Door) -> None:
    changes = [c.JobWorked("rear-pipe", 1.0), c.NeedNotHere("nuts")]
    first = door.record(changes, ids=["phone-1", "phone-2"], happened_at=NOW - HOUR)
    after = door.build()
    again = door.record(changes, ids=["phone-1", "phone-2"], happened_at=NOW - HOUR)
    assert [e.id for e in first.entries] == ["phone-1", "phone-2"]
    assert (again.entries, again.repeated) == ((), ("phone-1", "phone-2"))
    assert door.build() == after


def test_sent_again_with_something_new_only_that_lands(door: Door) -> None:
    door.record(c.JobWorked("rear-pipe", 1.0), ids=["phone-1"])
    receipt = door.record(
        [c.JobWorked("rear-pipe", 1.0), c.JobWorked("rear-pipe", 2.0)], ids=["phone-1", "phone-2"]
    )
    assert receipt.repeated == ("phone-1",)
    assert [e.id for e in receipt.entries] == ["phone-2"]
    assert door.build().jobs["rear-pipe"].state.hours_done == 3.0


def test_sent_twice_in_one_go_it_lands_once(door: Door) -> None:
    receipt = door.record([c.JobWorked("rear-pipe", 1.0)] * 2, ids=["same", "same"])
    assert len(receipt.entries) == 1
    assert receipt.repeated == ("same",)
    assert door.build().jobs["rear-pipe"].state.hours_done == 1.0


def test_repeated_it_is_not_judged_again(door: Door) -> None:
    """The answer was lost on the way; meanwhile the job was left out. It did land."""
    door.record(c.JobStarted("rear-pipe"), ids=["phone-1"])
    door.record(c.JobLeftOut("rear-pipe"))
    assert door.record(c.JobStarted("rear-pipe"), ids=["phone-1"]).repeated == ("phone-1",)


@pytest.mark.parametrize(
    ("change", "moment"),
    [
        (c.JobWorked("rear-pipe", 2.0), NOW - HOUR),
        (c.JobWorked("rear-hose", 1.0), NOW - HOUR),
        (c.JobStarted("rear-pipe"), NOW - HOUR),
        (c.JobWorked("rear-pipe", 1.0), NOW - 2 * HOUR),
    ],
)
def test_one_id_for_two_things_is_a_conflict(
    door: Door, change: c.Change, moment: datetime
) -> None:
    door.record(c.JobWorked("rear-pipe", 1.0), ids=["phone-1"], happened_at=NOW - HOUR)
    before = door.latest()
    with pytest.raises(Conflict, match="phone-1"):
        door.record(change, ids=["phone-1"], happened_at=moment)
    assert door.latest() == before


@pytest.mark.parametrize("key", ["", " ", "a b", "../x", "\u00e9", "x" * 81, "a\n", "-a"])
def test_an_id_that_is_none_is_refused(door: Door, key: str) -> None:
    with pytest.raises(BadInput, match="id of the entry"):
        door.record(c.JobStarted("rear-pipe"), ids=[key])


def test_ids_must_be_as_many_as_changes(door: Door) -> None:
    with pytest.raises(BadInput, match="ids"):
        door.record([c.JobStarted("rear-pipe")], ids=["a", "b"])


# --- two who change the same thing ---------------------------------------------------------------


def test_what_met_a_change_made_meanwhile_waits_to_be_settled(door: Door) -> None:
    known = door.build().versions["job:rear-pipe"]
    door.record(c.JobWorked("rear-pipe", 1.0))
    receipt = door.record(
        c.JobFinished("rear-pipe", 2.0), ids=["late"], base_versions={"job:rear-pipe": known}
    )
    assert receipt.to_settle == ("late",)
    assert receipt.entries[0].standing is Standing.TO_SETTLE
    assert receipt.entries[0].base_version == known
    assert door.build().to_settle == {"late"}
    assert door.build().jobs["rear-pipe"].state.status is JobStatus.STARTED


def test_other_subjects_may_move_meanwhile(door: Door) -> None:
    known = door.build().versions["job:rear-pipe"]
    door.record(c.JobWorked("rear-hose", 1.0))
    receipt = door.record(c.JobFinished("rear-pipe"), base_versions={"job:rear-pipe": known})
    assert receipt.to_settle == ()
    assert door.build().jobs["rear-pipe"].state.is_done


def test_the_writers_own_first_change_is_no_surprise_to_the_second(door: Door) -> None:
    known = door.build().versions["job:rear-pipe"]
    receipt = door.record(
        [c.JobStarted("rear-pipe"), c.JobFinished("rear-pipe", 1.0)],
        base_versions={"job:rear-pipe": known},
    )
    assert receipt.to_settle == ()


def test_a_subject_that_was_new_to_both_is_settled_too(door: Door) -> None:
    door.record(c.JobSet(Job("bleed", "Bleed", "brakes")))
    receipt = door.record(
        c.JobSet(Job("bleed", "Bleed it all", "brakes")), base_versions={"job:bleed": 0}
    )
    assert len(receipt.to_settle) == 1
    assert door.build().jobs["bleed"].job.title == "Bleed"


def test_a_withdrawal_is_a_change_made_meanwhile_too(door: Door) -> None:
    door.record(c.JobFinished("rear-pipe"), ids=["done"])
    known = door.build().versions["job:rear-pipe"]
    door.take_back("done")
    receipt = door.record(c.JobTakenOff("rear-pipe"), base_versions={"job:rear-pipe": known})
    assert len(receipt.to_settle) == 1


@pytest.mark.parametrize("keep", [True, False])
def test_settling_keeps_it_or_sets_it_aside(door: Door, keep: bool) -> None:
    door.record(c.JobWorked("rear-pipe", 1.0))
    door.record(c.JobFinished("rear-pipe", 2.0), ids=["late"], base_versions={"job:rear-pipe": 1})
    receipt = door.settle("late", keep, "asked the helper")
    assert receipt.entries[0].change == c.Settled("late", keep, "asked the helper")
    build = door.build()
    assert build.to_settle == frozenset()
    assert build.jobs["rear-pipe"].state.hours_done == (3.0 if keep else 1.0)
    assert (build.versions["job:rear-pipe"] == build.seq) is keep
    assert "late" in {entry.id for entry in door.entries()}, "it stays in the record"
    with pytest.raises(Refused, match="does not wait"):
        door.settle("late", keep=not keep)


def test_settling_can_be_taken_back_and_done_again(door: Door) -> None:
    door.record(c.JobWorked("rear-pipe", 1.0))
    door.record(c.JobFinished("rear-pipe"), ids=["late"], base_versions={"job:rear-pipe": 1})
    settled = door.settle("late", keep=False).entries[0]
    door.take_back(settled.id)
    assert door.build().to_settle == {"late"}
    door.settle("late", keep=True)
    assert door.build().jobs["rear-pipe"].state.is_done


def test_what_can_no_longer_be_is_not_kept(door: Door) -> None:
    door.record(c.JobFinished("rear-pipe"))
    door.record(c.JobTakenOff("rear-pipe"), ids=["late"], base_versions={"job:rear-pipe": 1})
    door.record(c.JobTakenOff("rear-pipe"))
    with pytest.raises(Refused, match="not fitted"):
        door.settle("late", keep=True)
    assert door.build().to_settle == {"late"}


def test_settling_what_is_not_there_is_told(door: Door) -> None:
    with pytest.raises(NotFound):
        door.settle("nothing", keep=True)


# --- taking back -------------------------------------------------------------------------------


def test_taken_back_it_is_as_if_it_had_never_been(door: Door) -> None:
    before = door.build()
    entry = door.record(c.JobFinished("rear-pipe", 1.0)).entries[0]
    receipt = door.take_back(entry.id, "typed on the wrong job")
    assert receipt.entries[0].change == c.Withdrawn(entry.id, "typed on the wrong job")
    assert door.build().jobs == before.jobs
    assert {entry.id, receipt.entries[0].id} <= {e.id for e in door.entries()}


def test_a_withdrawal_can_be_taken_back(door: Door) -> None:
    entry = door.record(c.JobFinished("rear-pipe", 1.0)).entries[0]
    with_it = door.build()
    withdrawal = door.take_back(entry.id).entries[0]
    door.take_back(withdrawal.id)
    assert door.build().jobs == with_it.jobs


def test_an_early_entry_is_taken_back_below_many_later_ones(door: Door) -> None:
    entry = door.record(c.JobWorked("rear-pipe", 5.0)).entries[0]
    door.record([c.NoteWritten(Note(f"n-{n}", NOW, "words")) for n in range(1500)])
    door.take_back(entry.id)
    assert door.build().jobs["rear-pipe"].state.status is JobStatus.TO_DO
    assert door.build() == fold(door.entries())


def test_the_first_later_entry_that_would_not_stand_is_named(door: Door) -> None:
    door.record(c.JobSet(Job("bleed", "Bleed", "brakes")), ids=["made"])
    door.record(c.JobWorked("rear-pipe", 1.0))
    door.record(c.JobFinished("bleed", 2.0, "firm pedal"), happened_at=NOW - HOUR)
    door.record(c.JobTakenOff("bleed"))
    before = door.latest()
    with pytest.raises(Refused) as caught:
        door.take_back("made")
    assert "'Bleed' was finished, 2 h: firm pedal (4 Mar 2026)" in caught.value.because
    assert "take that one back first" in caught.value.frees
    assert door.latest() == before


def test_a_proof_that_a_later_start_rests_on_is_not_taken_back(door: Door) -> None:
    """Proof before cover holds backwards too."""
    for name in ("rear-pipe", "rear-hose", "hold"):
        door.record(c.JobFinished(name, 1.0), happened_at=NOW - 20 * HOUR)
    door.record(c.ProofHeld("rear-joint"), ids=["held"], happened_at=NOW - 5 * HOUR)
    door.record(c.GatePassed("under-car", "the owner"), ids=["gate"])
    door.record(c.JobStarted("tank"), ids=["tank"])
    with pytest.raises(Refused, match="let the car through the gate 'under-car'"):
        door.take_back("held")
    door.take_back("tank")
    door.take_back("gate")
    door.take_back("held")
    with pytest.raises(Refused, match="unproven joint"):
        door.record(c.JobStarted("tank"))


def test_what_would_be_refused_today_anyway_is_not_blamed(
    door: Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A rule that came later does not lock the whole past."""
    worked = door.record(c.JobWorked("rear-pipe", 1.0)).entries[0]
    door.record(c.NeedNotHere("nuts"))

    def stricter(_build: object, _change: object) -> None:
        raise Refused("a new rule", "it is no longer said so", "say it otherwise")

    monkeypatch.setitem(CHECKS, c.NeedNotHere, stricter)
    door.take_back(worked.id)
    assert door.build().jobs["rear-pipe"].state.hours_done == 0


def test_putting_back_what_can_no_longer_be_is_refused(door: Door) -> None:
    finished = door.record(c.JobFinished("rear-pipe", 1.0)).entries[0]
    withdrawal = door.take_back(finished.id).entries[0]
    door.record(c.JobStarted("rear-pipe"))
    with pytest.raises(Refused, match="'Rear pipe' was started"):
        door.take_back(withdrawal.id)


def test_taking_back_twice_and_nothing_are_told(door: Door) -> None:
    entry = door.record(c.JobFinished("rear-pipe")).entries[0]
    door.take_back(entry.id)
    with pytest.raises(Refused, match="already"):
        door.take_back(entry.id)
    with pytest.raises(NotFound):
        door.take_back("nothing")


def test_a_withdrawal_sent_twice_lands_once(door: Door) -> None:
    entry = door.record(c.JobFinished("rear-pipe")).entries[0]
    door.take_back(entry.id, as_id="phone-9")
    again = door.take_back(entry.id, as_id="phone-9")
    assert (again.entries, again.repeated) == ((), ("phone-9",))
    with pytest.raises(Conflict):
        door.take_back(door.entries()[0].id, as_id="phone-9")


# --- reading -------------------------------------------------------------------------------------


def test_entries_are_found_by_number_and_subject(door: Door) -> None:
    door.record([c.JobStarted("rear-pipe"), c.JobStarted("seam"), c.JobFinished("rear-pipe")])
    last = door.latest()
    assert [e.seq for e in door.entries(after=last - 2)] == [last - 1, last]
    assert [e.seq for e in door.entries(before=3)] == [1, 2]
    assert [e.seq for e in door.entries(newest_first=True, limit=2)] == [last, last - 1]
    about = door.entries(subject="job:rear-pipe", newest_first=True)
    assert [type(e.change) for e in about] == [c.JobFinished, c.JobStarted, c.JobSet]
    assert door.entry("nothing") is None
    assert door.entry(about[0].id) == about[0]


def test_the_car_as_it_stood(door: Door, clock: Clock) -> None:
    clock.time = NOW + 50 * HOUR
    door.record(c.JobFinished("rear-pipe", 1.0), happened_at=NOW + HOUR, ids=["right"])
    door.record(c.JobFinished("seam", 1.0), happened_at=NOW + 2 * HOUR, ids=["wrong"])
    door.take_back("wrong")
    then = door.as_of(NOW + 3 * HOUR)
    assert then.jobs["rear-pipe"].state.is_done
    assert not then.jobs["seam"].state.is_done, "corrected by what is known now"
    assert not door.as_of(NOW).jobs["rear-pipe"].state.is_done


def test_the_record_as_it_was(door: Door, clock: Clock) -> None:
    """What was typed on Sunday was not known on Saturday, though it happened on Friday."""
    friday, saturday, sunday = (NOW + d * 24 * HOUR for d in (2, 3, 4))
    clock.time = friday + HOUR
    door.record(c.JobFinished("seam", 1.0), ids=["wrong"])
    clock.time = sunday
    door.record(c.JobFinished("rear-pipe", 1.0), happened_at=friday)
    door.take_back("wrong")
    known = door.as_of(saturday, known=True)
    assert not known.jobs["rear-pipe"].state.is_done
    assert known.jobs["seam"].state.is_done
    stood = door.as_of(saturday)
    assert stood.jobs["rear-pipe"].state.is_done
    assert not stood.jobs["seam"].state.is_done


def test_a_moment_without_a_zone_is_refused(door: Door) -> None:
    with pytest.raises(BadInput, match="time zone"):
        door.as_of(datetime(2026, 3, 4))  # noqa: DTZ001 - that is the point


def test_two_doors_see_each_others_entries(door: Door) -> None:
    with Door.open(door.folder) as other:
        assert other.build() == door.build()
        entry = door.record(c.JobFinished("rear-pipe")).entries[0]
        assert other.build().jobs["rear-pipe"].state.is_done
        other.take_back(entry.id)
        assert not door.build().jobs["rear-pipe"].state.is_done
        assert door.build() == other.build()


def test_a_build_that_was_handed_out_never_changes(door: Door) -> None:
    before = door.build()
    jobs = dict(before.jobs)
    door.record([c.JobFinished("rear-pipe"), c.JobSet(Job("new", "New", "brakes"))])
    assert before.jobs == jobs
    assert before is not door.build()


def test_a_late_definition_corrects_without_losing_history(door: Door) -> None:
    door.record(c.JobFinished("rear-pipe", 1.0))
    door.record(c.JobSet(Job("rear-pipe", "Rear pipe, copper", "brakes")))
    door.record(c.ProofSet(Proof("rear-joint", "Tee dry", made_by=("rear-pipe",))))
    record = door.build().jobs["rear-pipe"]
    assert record.state.is_done
    assert record.job.title == "Rear pipe, copper"
    assert door.now() == NOW
    assert door.now().tzinfo is UTC
