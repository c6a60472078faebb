"""The build file: what it says, what it refuses and where, and what bringing it in changes."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from bareshell.errors import BadInput, Problem
from bareshell.io.build_file import Comparison, compare, read_build_file, write_build_file
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.model.note import Note
from bareshell.model.part import Exchange, GoodsIn, Holding, Money, OrderLine
from bareshell.model.proof import ProofState
from bareshell.model.spec import BoltSpec, PipeSpec, PlainSpec
from bareshell.model.standing import open_temps, standing_of_proof
from tests.io.builds import land
from tests.stories import NOW, later, small_car

AFTER = NOW + timedelta(hours=3)
JOB = '[[job]]\nid = "bleed"\ntitle = "Bleed the brakes"\nsystem = "brakes"\n'


def problems(text: str) -> list[str]:
    """Say what is wrong with a file."""
    return [problem.describe() for problem in read_build_file(text).problems]


def held_against(build: Build, text: str) -> Comparison:
    return compare(build, read_build_file(text), AFTER)


def brought_in(build: Build, found: Comparison) -> Build:
    """Let differences land, as the door does."""
    for each in found.differences:
        build = land(build, each.change, each.happened_at or AFTER)
    return build


# --- reading -------------------------------------------------------------------------------------


def test_trade_units_become_si() -> None:
    text = JOB + (
        'lowest_temperature = "50 F"\nways = [{ people = 1, hours = ["45 min", "1h30", 3] }]\n'
        'wait = { hours = "2 days", lowest_temperature = 5 }\n'
        '[[need]]\nid = "bolt"\ntitle = "bolt"\njob = "bleed"\n'
        'spec = { kind = "bolt", thread = "M10x1", length = "3/4 in" }\n'
        '[[need]]\nid = "pipe"\ntitle = "pipe"\njob = "bleed"\n'
        'spec = { kind = "pipe", outside_diameter = "4.75 mm", length = "1 m" }\n'
        '[[need]]\nid = "grease"\ntitle = "grease"\njob = "bleed"\nspec = "the red one"\n'
    )
    parsed = read_build_file(text)
    assert not parsed.problems
    job = parsed.of("job")["bleed"].value
    assert job.lowest_temperature_c == pytest.approx(10)
    assert job.ways[0].hours.optimistic_hours == 0.75
    assert job.ways[0].hours.likely_hours == 1.5
    assert job.wait.hours == 48
    assert job.wait.lowest_temperature_c == 5
    needs = parsed.of("need")
    assert needs["bolt"].value.spec == BoltSpec(thread="M10x1", length_m=0.75 * 0.0254)
    pipe = needs["pipe"].value.spec
    assert isinstance(pipe, PipeSpec)
    assert pipe.outside_diameter_m == pytest.approx(0.00475)
    assert needs["grease"].value.spec == PlainSpec(words="the red one")


def test_money_keeps_its_pennies_and_times_their_moment() -> None:
    text = (
        '[car]\nname = "Kit"\nzone = "Europe/London"\n'
        '[[order]]\nid = "o"\ntitle = "hose"\nprice = "12.50 GBP"\n'
        'deliveries = [{ at = 2026-07-01T19:30:00, outcome = "right", quantity = 1 }]\n'
    )
    parsed = read_build_file(text)
    order = parsed.of("order")["o"]
    assert str(order.value.price.amount) == "12.50"
    # A summer evening in that zone is an hour ahead of UTC.
    assert order.facts.deliveries[0].at == datetime(2026, 7, 1, 18, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            JOB + "spilttable = true\n",
            "line 5, job 'bleed', spilttable: there is no such key here. Did you mean 'splittable'",
        ),
        (
            "[[jbo]]\nid = 'x'\n",
            "line 1, jbo: there is no such section. Did you mean 'job'?",
        ),
        (
            JOB.replace('"brakes"', '"break"'),
            "line 4, job 'bleed', system: 'break' is no system. Did you mean 'brakes'?",
        ),
        (
            JOB + 'place = "benhc"\n',
            "line 5, job 'bleed', place: 'benhc' is none of its words. Did you mean 'bench'?",
        ),
        (
            JOB + "ways = [\n  { people = 1, hours = [1, 2, 4] },\n"
            "  { people = 2, hours = [4, 2, 1] },\n]\n",
            (
                "line 7, job 'bleed', ways, way 2, hours: hours must rise from optimistic through "
                "likely to pessimistic, and 4.0, 2.0, 1.0 do not. Write if all goes well, most "
                "likely, if it goes badly, such as [1, 2, 4]."
            ),
        ),
        (
            JOB + "ways = [{ people = 1, hours = 2 }]\n",
            (
                "line 5, job 'bleed', ways, way 1, hours: 2 is not three figures. Write if all "
                "goes well, most likely, if it goes badly, such as [1, 2, 4]."
            ),
        ),
        (
            '[[job]]\nid = "x"\nsystem = "brakes"\n',
            "line 1, job 'x': it has no title. Write title = (words).",
        ),
        (
            '[[holding]]\nid = "h"\ntitle = "bolt"\nspec = { kind = "bolt", length = 25 }\n',
            (
                "line 4, holding 'h', spec, length: 25 has no unit. Write it with one, such as "
                '"25 mm".'
            ),
        ),
        (
            '[[order]]\nid = "o"\ntitle = "hose"\nprice = 12.5\n',
            "line 4, order 'o', price: 12.5 has no currency. Write it as \"12.50 GBP\".",
        ),
        (
            '[[order]]\nid = "o"\ntitle = "hose"\nordered_on = "soon"\n',
            (
                "line 4, order 'o', ordered_on: 'soon' is no day. Write it as 2026-03-04, without "
                "quotes."
            ),
        ),
        (
            JOB + '\n[[job]]\nid = "bleed"\ntitle = "Again"\nsystem = "brakes"\n',
            (
                "line 6, job 'bleed': it is there twice: line 1 has another of the same name. Give "
                "one of them another name or take it out."
            ),
        ),
        (
            '[car]\nname = "Kit"\nzone = "Mars/Base"\n',
            (
                "line 3, car, zone: 'Mars/Base' is no time zone. Write a region and city, as in "
                '"Europe/London".'
            ),
        ),
        (
            "[[car]]\nname = 'x'\n",
            "line 1, car: there is one of it, written once. Write its header",
        ),
        ("[job]\nid = 'x'\n", "line 1, job: there may be several, each under a header of its own."),
        ("format = 2\n", "line 1, format: 2 is a newer format than this bareshell reads."),
        (
            (
                '[[session]]\nid = "s"\ntitle = "eve"\nrule = "every Monday"\nstarts = 19:00:00\n'
                "minutes = 90\n"
            ),
            "line 4, session 's', rule: 'every Monday' is no rule of how it repeats.",
        ),
        (
            JOB + "status = 'done'\nsince = 2026-03-04T19:30:00\n",
            "line 6, job 'bleed', since: 2026-03-04 19:30:00 has no zone.",
        ),
    ],
)
def test_a_problem_names_its_line_and_what_would_be_right(text: str, says: str) -> None:
    found = problems(text)
    assert len(found) == 1, found
    assert found[0].startswith(says)
    assert read_build_file(text).stops


def test_a_file_cut_short_names_the_line() -> None:
    with pytest.raises(BadInput, match="build file, line 4"):
        read_build_file(JOB.removesuffix('"\n'))


def test_an_unknown_thread_is_kept_as_a_doubt() -> None:
    text = '[[holding]]\nid = "h"\ntitle = "bolt"\nspec = { kind = "bolt", thread = "M9x7" }\n'
    parsed = read_build_file(text)
    assert parsed.of("holding")["h"].value.spec.thread == "M9x7"
    assert [problem.severity for problem in parsed.problems] == ["doubtful"]


def test_all_problems_are_said_at_once() -> None:
    found = problems(JOB + "level = 'yes'\ndirty = 3\n[[gate]]\nid = ''\ntitle = 'road'\n")
    assert [each.split(":")[0] for each in found] == [
        "line 5, job 'bleed', level",
        "line 6, job 'bleed', dirty",
        "line 8, gate 'road', id",
    ]


# --- what bringing it in would change -----------------------------------------------------------


def test_what_a_file_does_not_have_stays() -> None:
    build = small_car()
    found = held_against(build, JOB)
    assert [each.sentence for each in found.differences] == ["New: job 'Bleed the brakes'."]
    assert brought_in(build, found).jobs.keys() == {*build.jobs, "bleed"}


def test_a_changed_key_is_said_from_what_to_what() -> None:
    text = write_build_file(small_car())
    edited = text.replace('title = "Carb"', 'title = "Carburettor"').replace(
        'after = ["tank"]', 'after = ["tank", "carb"]'
    )
    found = held_against(small_car(), edited)
    assert [each.sentence for each in found.differences] == [
        "Job 'Carburettor': title becomes Carburettor (was Carb).",
        "Job 'Wheels on': after becomes tank, carb (was tank).",
    ]
    assert all(isinstance(each.change, c.JobSet) for each in found.differences)


def test_turning_an_order_of_jobs_round_lands_in_an_order_that_is_allowed() -> None:
    build = small_car()
    text = write_build_file(build)
    edited = text.replace('after = ["rear-pipe"]\n', "").replace(
        'title = "Rear pipe"\n', 'title = "Rear pipe"\nafter = ["rear-hose"]\n'
    )
    found = held_against(build, edited)
    assert not found.problems
    assert brought_in(build, found).jobs["rear-pipe"].job.after == ("rear-hose",)


def test_names_of_what_is_not_there_are_found_with_the_nearest() -> None:
    found = held_against(small_car(), JOB + 'after = ["rear-hoes"]\ntwin = "rear-pip"\n')
    assert found.stops
    assert found.problems[0] == Problem(
        "line 1, job 'Bleed the brakes', after",
        "there is no job 'rear-hoes'",
        "did you mean 'rear-hose'?",
    )
    assert found.problems[1].severity == "doubtful"
    assert found.problems[1].remedy == "did you mean 'rear-pipe'?"


def test_jobs_that_wait_for_each_other_are_named() -> None:
    text = JOB + 'after = ["second"]\n' + JOB.replace("bleed", "second") + 'after = ["bleed"]\n'
    found = held_against(Build(), text)
    assert found.stops
    assert any(
        "would wait for each other" in problem.what or "no job" in problem.what
        for problem in found.problems
    )


def _status(status: str, more: str = "") -> str:
    text = write_build_file(small_car())
    return text.replace('title = "Carb"\n', f'title = "Carb"\nstatus = "{status}"\n{more}')


@pytest.mark.parametrize(
    ("before", "status", "more", "kinds"),
    [
        ((), "done", "hours_done = 2.5\n", [c.JobFinished("carb", 2.5, "from the build file")]),
        ((), "done before the record, unproven", "", [c.JobDoneBefore("carb")]),
        ((), "started", "", [c.JobStarted("carb")]),
        (
            (),
            "started",
            "hours_done = 1\nhours_left = 2\n",
            [c.JobWorked("carb", 1.0, 2.0, "from the build file")],
        ),
        ((), "left out", "", [c.JobLeftOut("carb", "from the build file")]),
        (
            (),
            "to do",
            "taken_off = true\n",
            [c.JobDoneBefore("carb"), c.JobTakenOff("carb", "from the build file")],
        ),
        ((c.JobFinished("carb", 1),), "to do", "", [c.JobNotDone("carb", "from the build file")]),
        (
            (c.JobFinished("carb", 1),),
            "to do",
            "taken_off = true\n",
            [c.JobTakenOff("carb", "from the build file")],
        ),
        ((c.JobLeftOut("carb"),), "to do", "", [c.JobTakenIn("carb")]),
        (
            (c.JobWorked("carb", 1.0),),
            "done",
            "hours_done = 2.5\n",
            [c.JobFinished("carb", 1.5, "from the build file")],
        ),
        ((c.JobFinished("carb", 1),), "done", "", []),
        ((c.JobFinished("carb", 1),), "done before the record, unproven", "", []),
    ],
)
def test_a_status_lands_as_the_change_that_happened(
    before: tuple[c.Change, ...], status: str, more: str, kinds: list[c.Change]
) -> None:
    build = later(small_car(), *before)
    found = held_against(build, _status(status, more))
    assert [each.change for each in found.differences] == kinds
    state = brought_in(build, found).jobs["carb"].state
    assert state.status.value == status or state.status is JobStatus.DONE


def test_a_job_whose_status_is_not_written_stays_as_it_is() -> None:
    build = small_car()
    monday = write_build_file(build)
    tuesday = later(build, c.JobFinished("carb", 2))
    assert not held_against(tuesday, monday).differences


def test_hours_are_never_taken_away() -> None:
    build = later(small_car(), c.JobFinished("carb", 3))
    found = held_against(build, _status("done", "hours_done = 2\n"))
    assert not found.differences
    assert "the record has 3 h and the file 2 h" in found.problems[0].what


def test_starting_what_would_hide_an_unproven_joint_is_not_taken() -> None:
    text = write_build_file(small_car()).replace(
        'title = "Tank"\n', 'title = "Tank"\nstatus = "started"\n'
    )
    found = held_against(small_car(), text)
    assert not found.differences
    assert found.problems[0].where == "line 118, job 'Tank'"
    assert found.problems[0].what.startswith(
        "not taken (job 'Tank' is started): proof before cover: 'Tank' would hide an unproven joint"
    )


def _proof(more: str) -> str:
    return write_build_file(small_car()).replace("hold_hours = 12\n", f"hold_hours = 12\n{more}")


def test_a_held_proof_says_where_the_word_came_from() -> None:
    build = small_car()
    found = held_against(build, _proof('state = "held"\n'))
    assert [each.change for each in found.differences] == [
        c.ProofHeld("rear-joint", (), "from the build file")
    ]
    standing = standing_of_proof(build := brought_in(build, found), build.proofs["rear-joint"])
    assert standing.state is ProofState.HELD


def test_a_hidden_joint_is_not_proved_by_writing_that_it_is() -> None:
    build = later(small_car(), c.JobFinished("tank", 2))
    found = held_against(build, _proof('state = "held"\n'))
    assert not found.differences
    assert "would still be 'covered, unproven', not 'held'" in found.problems[0].what
    named = held_against(build, _proof('state = "substitute proof"\nwords = "held 70 bar 12 h"\n'))
    assert [type(each.change) for each in named.differences] == [c.ProofSubstituted]
    unnamed = held_against(build, _proof('state = "substitute proof"\n'))
    assert not unnamed.differences
    assert "it has no name" in unnamed.problems[0].what


def test_a_held_proof_does_not_become_owed_by_writing_so() -> None:
    build = later(small_car(), c.ProofHeld("rear-joint"))
    found = held_against(build, _proof('state = "owed"\n'))
    assert not found.differences
    assert found.problems[0].severity == "doubtful"
    spent = held_against(build, _proof('state = "spent"\nwords = "joint undone"\n'))
    assert [each.change for each in spent.differences] == [
        c.ProofSpent("rear-joint", "joint undone")
    ]


def test_a_gate_that_is_not_clear_is_not_passed_by_a_file() -> None:
    text = write_build_file(small_car()).replace(
        'blocks = ["tank"]\n',
        'blocks = ["tank"]\npassed = { at = 2026-03-01T10:00:00Z, by = "A. Owner" }\n',
    )
    found = held_against(small_car(), text)
    assert not found.differences
    assert "not clear" in found.problems[0].what


def test_a_temp_goes_on_and_off() -> None:
    build = small_car()
    text = write_build_file(build).replace('title = "plastic', 'on_car = true\ntitle = "plastic')
    found = held_against(build, text)
    assert [each.change for each in found.differences] == [
        c.TempRaised("caps", "from the build file")
    ]
    raised = brought_in(build, found)
    assert open_temps(raised) == ("caps",)
    off = held_against(raised, text.replace("on_car = true", "on_car = false"))
    assert [type(each.change) for each in off.differences] == [c.TempCleared]


def test_what_became_of_an_order_is_the_smallest_change() -> None:
    exchange = Exchange(datetime(2026, 4, 1, tzinfo=UTC).date(), None, None)
    line = OrderLine("servo", "servo", exchange=exchange)
    build = later(small_car(), c.OrderSet(line))
    text = write_build_file(build)
    found = held_against(
        build,
        text.replace("expected_on = 2026-03-09", "expected_on = 2026-03-20").replace(
            "return_by = 2026-04-01", "return_by = 2026-04-01, returned_on = 2026-03-03"
        ),
    )
    assert [type(each.change) for each in found.differences] == [
        c.OrderExpected,
        c.ExchangeReturned,
    ]


def test_a_delivery_brings_its_holding_once() -> None:
    build = later(small_car(), c.GoodsChecked("o1", GoodsIn.RIGHT, 1, "box 3", "as ordered"))
    text = write_build_file(build)
    copy = brought_in(Build(), held_against(Build(), text))
    assert copy.holdings == build.holdings
    assert copy.orders["o1"].outstanding == 0
    again = held_against(copy, text)
    assert not again.differences
    assert not again.problems


def test_what_is_still_to_come_has_not_happened() -> None:
    text = JOB + 'status = "done"\nsince = 2027-01-01T00:00:00Z\n'
    found = held_against(Build(), text)
    assert found.stops
    assert "still to come" in found.problems[0].what


def test_a_complete_file_leaves_out_what_it_does_not_have() -> None:
    build = later(small_car(), c.HoldingSet(Holding("box", "odd bolts")))
    # Everything but one job that nothing waits for, a need and the holding.
    parts = write_build_file(build).split("\n\n")
    gone = ('id = "seam"', 'id = "nuts"', 'id = "box"')
    text = "complete = true\n" + "\n\n".join(p for p in parts if not any(g in p for g in gone))
    text = text.replace(', "seam"]', "]")
    found = held_against(build, text)
    assert [type(each.change) for each in found.differences] == [
        c.JobSet,
        c.HoldingDropped,
        c.NeedDropped,
        c.JobLeftOut,
    ]
    assert not found.stops
    left = brought_in(build, found)
    assert left.jobs["seam"].state.status is JobStatus.LEFT_OUT
    assert not left.holdings
    only_needs = held_against(build, 'complete = ["need"]\n')
    assert {type(each.change) for each in only_needs.differences} == {c.NeedDropped}


def test_a_complete_file_says_what_it_cannot_take_away() -> None:
    found = held_against(small_car(), 'complete = ["gate"]\n')
    assert not found.differences
    assert [problem.severity for problem in found.problems] == ["note", "note"]
    assert "stays in the build" in found.problems[0].what


def test_a_note_keeps_the_time_it_was_said() -> None:
    text = '[[note]]\nid = "n"\nat = 2026-02-01T20:00:00Z\nwords = "left thread is tight"\n'
    found = held_against(Build(), text)
    at = datetime(2026, 2, 1, 20, tzinfo=UTC)
    assert [(each.change, each.happened_at) for each in found.differences] == [
        (c.NoteWritten(Note("n", at, "left thread is tight")), at)
    ]


def test_a_price_is_not_another_price() -> None:
    price = Money(Decimal(5), "GBP")
    build = later(small_car(), c.OrderSet(OrderLine("p", "pads", price=price)))
    text = write_build_file(build).replace('"5 GBP"', '"5 EUR"')
    assert held_against(build, text).differences[0].sentence == (
        "Order 'pads': price becomes 5 EUR (was 5 GBP)."
    )
