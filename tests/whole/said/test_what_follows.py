"""What is said back to the person: covers, spent proofs, order, what stays a note."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.proof import ProofState
from bareshell.model.standing import need_standings, open_temps, proof_standings
from bareshell.whole.said.ending import with_session
from bareshell.whole.said.results import Understood
from bareshell.whole.said.understand import understand
from bareshell.whole.said.weigh import folded
from tests.whole.said.invented_builds import (
    AT,
    TONIGHT,
    ZONE,
    build_under_pressure,
    kept,
    small_build,
)
from tests.whole.said.telling import notes, told

SMALL = small_build()


def read(line: str, build: Build = SMALL, at: datetime = AT) -> Understood:
    return understand(line, build, TONIGHT, at, ZONE)


def after(understood: Understood, build: Build = SMALL) -> Build:
    return folded(build, understood.dated)


# --- proof before cover --------------------------------------------------------------------------


def test_a_job_that_hides_an_unproven_joint_is_recorded_and_says_where_it_stands() -> None:
    understood = read("heater in 2.5 h")
    assert told(understood) == ("done heater-fit 2.5 h",)
    sentence = understood.heard[0].sentence
    assert "'Heater matrix holds 1 bar under water' now stands covered, unproven" in sentence
    assert "'First start' and 'Road'" in sentence
    assert proof_standings(after(understood))["matrix"].state is ProofState.COVERED


def test_a_proof_told_after_the_job_that_hides_it_counts_and_the_sentence_says_so() -> None:
    understood = read("heater in 2.5 h; matrix held 1 bar 10 min")
    assert "taken as proved before 'Fit heater unit" in understood.heard[0].sentence
    assert "covered, unproven" not in " ".join(h.sentence for h in understood.heard)
    assert proof_standings(after(understood))["matrix"].state is ProofState.HELD


def test_then_keeps_the_order_that_was_said_and_a_hidden_proof_stays_unproven() -> None:
    understood = read("heater in 2.5 h, then matrix held 1 bar 10 min")
    assert told(understood)[0] == "done heater-fit 2.5 h"
    assert "stays covered, unproven" in understood.heard[1].sentence
    assert proof_standings(after(understood))["matrix"].state is ProofState.COVERED


def test_a_proof_of_what_lies_hidden_is_asked_for_as_a_substitute() -> None:
    hidden = kept([(AT - timedelta(days=2), c.JobFinished("heater-fit", 2.0))], SMALL)
    understood = read("matrix held 1 bar 10 min", hidden)
    assert told(understood) == ()
    assert "lies hidden" in understood.asked[0].question
    settled = understood.answered({0: 0})
    standing = proof_standings(after(settled, hidden))["matrix"]
    assert standing.state is ProofState.SUBSTITUTED


def test_taking_off_says_which_proofs_are_spent() -> None:
    proved = kept(
        [
            (AT - timedelta(days=3), c.JobFinished("caliper-r", 2.0)),
            (AT - timedelta(days=2), c.ProofHeld("caliper-bolts-r")),
        ],
        SMALL,
    )
    understood = read("offside caliper off again", proved)
    assert told(understood) == ("off caliper-r",)
    assert "'Caliper bolts torqued and marked, offside' is spent" in understood.heard[0].sentence


def test_a_start_that_would_hide_an_unproven_joint_is_recorded_as_what_it_is() -> None:
    understood = read("started the heater unit and pipes")
    assert told(understood) == ("worked heater-fit",)
    assert "would hide an unproven joint" in understood.heard[0].sentence


# --- figures against limits ----------------------------------------------------------------------


def test_a_figure_that_misses_its_limit_is_never_recorded_as_held() -> None:
    understood = read("matrix held 0.6 bar 10 min")
    question = understood.asked[0]
    assert "0.6 bar was said, and the limit is pressure at least 1 bar" in question.question
    assert "failed" in question.choices[0].label
    assert told(understood.answered({0: 0})) == ("failed matrix 0.6 bar",)
    assert told(understood.answered({0: 1})) == ()


def test_a_figure_in_another_unit_is_recorded_in_the_limits_own() -> None:
    # 190 lbf.ft is 257.6 N.m: one lbf.ft is 1.3558179 N.m by the definitions of the inch,
    # the pound and standard gravity (NIST SP 811, appendix B.8).
    change = read("offside hub nut torqued 190 lb ft").changes[0]
    assert isinstance(change, c.ProofHeld)
    assert change.readings[0].unit == "N.m"
    assert abs(change.readings[0].value - 190 * 1.3558179) < 0.05
    assert "190 lb ft" in change.words


def test_a_hold_shorter_than_asked_is_a_question() -> None:
    understood = read("matrix held 1 bar 5 min")
    assert "10 min is asked" in understood.asked[0].question
    assert told(understood.answered({0: 0})) == ("begun matrix 1 bar 0.083 h",)


def test_a_hold_begun_last_night_is_long_enough_by_the_clock() -> None:
    morning = AT + timedelta(hours=12)
    understood = read("rear tee bone dry", build_under_pressure(), morning)
    assert told(understood) == ("held rear-tee 36 h",)
    early = read("rear tee bone dry", build_under_pressure(), AT - timedelta(hours=20))
    assert told(early) == ()
    assert early.asked


def test_a_hold_begun_at_a_time_that_was_said_happened_then() -> None:
    understood = read("hold on 71 bar at 21:20")
    assert understood.dated[0][0] == datetime(2026, 11, 25, 21, 20, tzinfo=UTC)
    assert "at 21:20" in understood.heard[0].sentence


# --- parts, and what is short of a finished job --------------------------------------------------


def test_what_is_short_is_taken_from_the_shelf() -> None:
    standing = need_standings(after(read("two hose clips short")))["heater-clips"]
    assert (standing.state.value, standing.here) == ("some here", 2)


def test_a_finished_job_with_parts_short_asks_what_is_left_to_fit() -> None:
    understood = read("heater in 2.5 h; two hose clips short; matrix held 1 bar 10 min")
    question = understood.asked[-1]
    assert "Is something left to fit?" in question.question
    settled = understood.answered({len(understood.asked) - 1: 0})
    later = [ch.job.title for ch in settled.changes if isinstance(ch, c.JobSet)]
    assert later == [
        "Fit the missing hose clips: Fit heater unit and its pipes through the bulkhead"
    ]
    after(settled)


def test_arriving_is_not_being_right() -> None:
    understood = read("door rubbers came today")
    assert told(understood) == ()
    labels = [choice.label for choice in understood.asked[0].choices]
    assert len(labels) == 5, "the five outcomes of the check"
    assert told(understood.answered({0: 0})) == ("goods o-rubbers right 2",)


def test_a_part_that_no_list_has_asks_for_its_job() -> None:
    understood = read("two P clips short for the fuel pipe")
    choice = understood.asked[0].choices[0]
    assert "wanted for 'Run the fuel pipe beneath and clip it'" in choice.label
    need = understood.answered({0: 0}).changes[0]
    assert isinstance(need, c.NeedSet)
    assert (need.need.title, need.need.quantity) == ("P clips", 2)


# --- temps ---------------------------------------------------------------------------------------


def test_a_bodge_is_on_the_car_until_its_gate() -> None:
    understood = read("temporary bolt in the boot hinge until the shouldered one comes")
    build = after(understood)
    new = [build.temps[key].temp for key in open_temps(build) if key != "damper-bolt"]
    assert [(t.gate, t.replaced_by) for t in new] == [("road", "shouldered one")]
    assert "(no gate was said)" in understood.heard[0].sentence


def test_a_bodge_takes_the_gate_that_was_said() -> None:
    understood = read("bodged the fuel cap with tape, must go before first start")
    gates = [ch.temp.gate for ch in understood.changes if isinstance(ch, c.TempSet)]
    assert gates == ["first-start"]


# --- when it was ---------------------------------------------------------------------------------


def test_fridays_session_typed_on_sunday_happened_on_friday() -> None:
    sunday = datetime(2026, 11, 29, 17, 0, tzinfo=UTC)
    understood = read("friday evening: heater in 2 h, 6 deg", at=sunday)
    assert understood.at == datetime(2026, 11, 27, 21, 30, tzinfo=UTC), "as the pattern ends it"
    assert told(understood) == ("done heater-fit 2 h", "session 19:30-21:30 6 C")
    assert all(at == understood.at for at, _ in understood.dated)


def test_a_day_within_a_clause_dates_that_clause_alone() -> None:
    understood = read("heater fitted yesterday 2h, fuse box done")
    moments = {ch.job_id: at for at, ch in understood.dated if isinstance(ch, c.JobFinished)}
    assert moments["heater-fit"].date() == datetime(2026, 11, 24, tzinfo=UTC).date()
    assert moments["fuse-box"] == AT


def test_a_day_that_has_not_come_dates_nothing() -> None:
    assert read("saturday: heater going in").at != AT + timedelta(days=3)


# --- the session ---------------------------------------------------------------------------------


def test_a_line_of_work_ends_the_patterns_session_when_it_says_nothing_of_it() -> None:
    understood = with_session(read("fuse box done 1 h"), SMALL, ZONE)
    assert told(understood) == ("done fuse-box 1 h", "session 19:00-21:30")
    assert "times from the pattern" in understood.heard[-1].sentence


def test_a_line_in_the_middle_of_the_day_ends_no_session() -> None:
    noon = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)
    understood = with_session(read("fuse box done 1 h", at=noon), SMALL, ZONE)
    assert told(understood) == ("done fuse-box 1 h",)


def test_a_second_line_of_the_same_session_goes_on_with_it() -> None:
    once = after(read("8 deg"))
    again = read("packed up at 21:40, me and Alex", once)
    held = [ch.session for ch in again.changes if isinstance(ch, c.SessionHeld)]
    assert len(held) == 1
    assert held[0].id in once.sessions
    assert (held[0].people, held[0].temperature_c) == (2, 8)


def test_a_session_is_not_added_twice() -> None:
    once = after(read("8 deg"))
    assert told(with_session(read("fuse box done", once), once, ZONE)) == ("done fuse-box",)


# --- questions, notes and hours ------------------------------------------------------------------


def test_an_unanswered_question_keeps_its_words() -> None:
    understood = read("heater 2 h")
    assert notes(understood) == ("heater 2 h",)
    assert told(understood.answered({0: 0})) == ("done heater-fit 2 h",)
    assert told(understood.answered({0: 1})) == ("worked heater-fit 2 h",)
    assert notes(understood.answered({0: 0})) == ()


def choices_of(line: str) -> list[tuple[str, ...]]:
    understood = read(line)
    count = len(understood.asked[0].choices)
    return [told(understood.answered({0: n})) for n in range(count)]


def test_which_job_is_asked_with_the_hours_and_tonights_first() -> None:
    assert choices_of("rear done 1h") == [
        ("done pipe-rear 1 h",),
        ("done shoes-rear 1 h",),
        ("done hub-rear-r 1 h",),
    ]
    pipes = choices_of("did the pipes, 2 hours, ran out of clips")
    assert len(pipes) == 4
    assert {first for (first,) in pipes[:2]} == {"done pipe-rear 2 h", "done heater-fit 2 h"}
    assert all(facts[0].endswith(" 2 h") for facts in pipes)


def test_hours_alone_of_many_jobs_offer_only_that_they_went_in() -> None:
    assert choices_of("rear 1h")[0] == ("worked pipe-rear 1 h",)


def test_what_ran_out_belongs_to_the_job_that_is_asked_about() -> None:
    parts = read("did the pipes, 2 hours, ran out of clips").asked[1]
    assert parts.words == "2 hours, ran out of clips"
    assert parts.choices[0].label == "Hose clips: none is here"


def test_what_may_tell_of_no_work_takes_no_session() -> None:
    for line in ("rear done 1h", "did the heater, 2 h", "did the pipes, 2 hours, ran out of clips"):
        assert told(with_session(read(line), SMALL, ZONE)) == (), line


def test_a_question_without_its_mark_puts_nothing_on_record() -> None:
    assert told(read("heater in; did the lamps, 4 hours all told")) == ("done heater-fit",)
    assert told(read("heater in; did the bits, 2h")) == ("done heater-fit",)
    assert notes(read("did the fuse box, 2h, 8 deg")) == ("did the fuse box, 2h", "8 deg")


def test_every_choice_would_be_taken_by_the_build() -> None:
    for line in (
        "heater 2 h",
        "matrix held 0.6 bar",
        "damper fitted 1h",
        "door rubbers came",
        "five hose clips short",
        "caliper off",
        "doors hung 2 h",
    ):
        for number, question in enumerate((understood := read(line)).asked):
            for choice in range(len(question.choices)):
                folded(SMALL, understood.answered({number: choice}).dated)


def test_a_note_is_about_the_job_it_names() -> None:
    change = read("note: fuse box needs a label").changes[0]
    assert isinstance(change, c.NoteWritten)
    assert change.note.about == "job:fuse-box"


def test_hours_for_several_jobs_are_shared_and_the_sentence_says_how() -> None:
    understood = read("heater and fuse box done, 3 h")
    hours = [ch.hours or 0 for ch in understood.changes if isinstance(ch, c.JobFinished)]
    assert abs(sum(hours) - 3) < 1e-9
    assert "its share, by the estimates, of 3 h" in understood.heard[0].sentence


def test_a_long_time_is_never_taken_for_work() -> None:
    assert told(read("heater in, left it 24 hours")) == ("done heater-fit",)


def test_nothing_that_is_only_talk_is_recorded() -> None:
    for line in (
        "if the heater is in tomorrow I can do the dash",
        "would have finished the fuse box but for the cold",
        "have i done the fuse box",
        "fuse box next week",
        "the wife's exhaust is done",
        "must do the heater",
        "dave reckons the heater is in wrong",
        "heater should be in by saturday",
        "put the heater back on the shelf",
    ):
        assert told(read(line)) == (), line
