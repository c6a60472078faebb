"""What is typed wrongly: a sentence that names the field, what was wrong, what would be right."""

from __future__ import annotations

import shlex

import pytest

from tests.acceptance.at_the_terminal import Terminal, typed_in, unchanged
from tests.acceptance.conftest import latest

HUGE = 10**30

BAD: list[tuple[int, str, str]] = [
    # exit code, what is typed, what the answer must say
    (2, "tonight --minutes -5", "how long: -5 minutes is no session. Give 15 to 960"),
    (2, f"tonight --minutes {HUGE}", "Give 15 to 960 minutes"),
    (2, "tonight --people 3", "who is there: 3 people. Say 1, or 2"),
    (2, "tonight --stands moon", "there is no support 'moon'. Name one of: stands, wheels, road"),
    (2, "tonight --degrees nan", "temperature in the garage: nan °C cannot be"),
    (2, "tonight --starts 25:00", "when it starts: '25:00' has no such time of day. Write it as"),
    (2, "tonight --starts '31/02/2031 10:00'", "there is no such day as '31/02/2031'"),
    (2, "tonight --starts '9999-12-31 10:00'", "is more than a year ahead. Give a day from today"),
    (2, "tonight --starts '2001-01-01 10:00'", "is past. Give a day from today"),
    (3, "tonight --why-not nonesuch", "there is no job 'nonesuch'"),
    (2, "jobs --system wings", "system: 'wings' is none. Name one of: brakes"),
    (3, "jobs show 🚗", "there is no job '🚗'"),
    (3, "jobs mark nonesuch done", "there is no job 'nonesuch'. 'bareshell jobs' lists them"),
    (2, "jobs mark carb sideways", "'sideways' is not one of 'started', 'worked', 'done'"),
    (2, "jobs mark carb done --hours -1", "hours: -1 is not a number of hours. Give hours from 0"),
    (2, "jobs mark carb done --hours nan", "hours: nan is no figure"),
    (2, "jobs mark carb done --hours 1e300", "Give hours from 0 to 1000"),
    (2, "jobs mark carb worked --left -3", "hours left: -3 is not a number of hours"),
    (5, "jobs mark carb off", "not fitted: 'Carb' is not on the car, it is to do. Record it"),
    (5, "jobs mark tank started", "proof before cover: 'Tank' would hide an unproven joint"),
    (3, "shelf goods-in nonesuch right", "there is no order 'nonesuch'. 'bareshell shelf' lists"),
    (2, "shelf goods-in o1 perhaps", "'perhaps' is not one of 'right', 'wrong', 'short'"),
    (2, "shelf goods-in o1 right -n 0", "quantity: 0 came. Give how many came, 1 or more"),
    (2, "shelf goods-in o1 short -n 1", "1 of 1 outstanding is not short"),
    (2, "shelf here nuts -n -4", "quantity: -4 is not found. Give 1 or more"),
    (2, "shelf here nuts -n 0", "quantity: 0 is not found"),
    (2, f"shelf here nuts -n {HUGE}", "quantity: 1e+30 is beyond counting. Give at most 1000000"),
    (3, "shelf here nonesuch", "there is no need 'nonesuch'"),
    (3, "proofs mark nonesuch held", "there is no proof 'nonesuch'"),
    (2, "proofs mark rear-joint held --figure 71", "'71' has no figure with a unit. Write it as"),
    (2, "proofs mark rear-joint held --figure tight", "'tight' has no figure with a unit"),
    (2, "proofs mark rear-joint held --figure '71 psi'", "71 psi misses its limit, pressure at"),
    (2, "proofs mark rear-joint held --figure '71 lbf.ft'", "71 lbf.ft cannot be held against"),
    (2, "proofs mark rear-joint held --figure '71 bra'", "at least 70 bar. Write it in bar."),
    (2, "proofs mark rear-joint held --figure '71 bar 12 h'", "cannot be held against its limit"),
    (2, "proofs mark rear-joint substitute", "substitute proof: it has no name"),
    (5, "proofs gate under-car --by me", "gate: the gate 'under-car' is not clear: job 'Hold'"),
    (2, "proofs gate under-car --by ''", "by: nobody is named. Say who lets the car through"),
    (3, "proofs temp nonesuch cleared", "there is no temp 'nonesuch'"),
    (3, "car stands moon", "there is no support 'moon'"),
    (2, "car stands wheels --off wings", "off the car: 'wings' is not one of the things"),
    (2, "car day 31/02/2031", "day: there is no such day as '31/02/2031'"),
    (2, "car day 3/4/2031", "'3/4/2031' could be 3 April or 4 March"),
    (2, "car day 2031-12-01 --minutes 999999", "999999 minutes is longer than a day. Give at most"),
    (2, "car day 2031-12-01 --minutes 60 --starts 7", "starts: '7' has no time of day"),
    (3, f"undo {HUGE} --yes", "there is no entry"),
    (3, "undo 0 --yes", "there is no entry 0. Read the numbers on the record"),
    (3, "settle 9999 keep", "there is no entry 9999"),
    (5, "settle 1 keep", "this entry does not wait to be settled"),
    (2, "log -n 0", "0 is not in the range"),
    (3, "import nonesuch.toml", "there is no file 'nonesuch.toml'"),
    (3, "import nonesuch.zip --into elsewhere", "there is no file 'nonesuch.zip'"),
    (2, "export jobs jobs.pdf", "its ending says neither xlsx nor csv. End it in .xlsx or .csv"),
    (2, "backup restore nonesuch.db --yes", "nonesuch.db"),
    (2, "say ''", "what was done: it is empty. Write it as"),
    (2, "say --when 31/02/2031 heater", "when: '31/02/2031' has no time of day"),
    (2, "say --when '2026-03-29 25:30' heater", "when: '2026-03-29 25:30' has no such time"),
]  # fmt: skip


@pytest.mark.parametrize(("code", "typed", "answer"), BAD, ids=[typed for _, typed, _ in BAD])
def test_a_slip_is_named_with_what_would_be_right(
    terminal: Terminal, code: int, typed: str, answer: str
) -> None:
    command, *words = shlex.split(typed)
    with unchanged(lambda: latest(terminal.folder)):
        said = terminal(command, *words)
    assert (said.code, said.out) == (code, "")
    # Usage errors are folded to the width of a terminal.
    assert answer in " ".join(said.err.split())


def test_words_that_cannot_be_shown_are_refused_and_all_others_kept(terminal: Terminal) -> None:
    words = "שלום, مرحبا, 🚗👩‍🔧, ﬁtted; " + "Längstwort" * 60
    kept = terminal("jobs", "mark", "carb", "worked", "--hours", "1", "--words", words)
    assert kept.code == 0
    assert words in terminal("jobs", "show", "carb").out
    with unchanged(lambda: latest(terminal.folder)):
        for bad in ("half \ud800 a letter", "a bell \x07", "nothing \x00 here"):
            said = terminal("jobs", "mark", "carb", "worked", "--hours", "1", "--words", bad)
            assert said.code == 2
            assert "words: it holds a character that cannot be shown" in said.err
        endless = terminal("jobs", "mark", "carb", "worked", "--words", "x" * 10_001)
        assert "words: 10001 letters are too many. Keep it to 10000" in endless.err


def test_nothing_is_written_when_the_question_is_not_answered(terminal: Terminal) -> None:
    for typed in ("", "n\n"):
        with unchanged(lambda: latest(terminal.folder)):
            said = terminal("undo", typed=typed)
        assert said.code == 130
        assert "nothing more was written" in said.err


def test_answers_that_are_none_make_no_build(terminal: Terminal) -> None:
    new = terminal.folder.with_name("new")
    begun = ("--answer", "name=the old saloon", "--answer", "layout=rear", "--answer", "engine=out")
    for given, answer in (
        (["nonsense"], "'nonsense' names no question. Write it as name=the old saloon"),
        (["nonsense=yes"], "there is no question 'nonsense'. 'bareshell new --questions DIR'"),
        (["layout=sideways"], "sideways"),
        (["layout=rear", "hours=soon"], "soon"),
        (["name=" + "x" * 400, "layout=rear"], "400 letters are too many"),
    ):
        said = typed_in("new", new, *(word for one in given for word in ("--answer", one)))
        assert said.code == 2
        assert answer in said.err
        assert not (new / "journal.db").exists()
    zone = typed_in("new", new, *begun, "--zone", "Nowhere/Else")
    assert "time zone" in zone.err
    assert not (new / "journal.db").exists()
    assert typed_in("new", new, *begun).code == 0


def test_a_figure_of_something_else_does_not_stand_for_the_limit(terminal: Terminal) -> None:
    said = terminal("proofs", "mark", "rear-joint", "held", "--figure", "garage = 12 degC")
    assert said.code == 0
    assert "No figure stands beside it; its limit is pressure at least 70 bar" in said.out
