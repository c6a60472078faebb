"""What holds for any text at all."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bareshell.model import Build, decide
from bareshell.model import changes as c
from bareshell.whole.said.cue_words import PHRASES_OF
from bareshell.whole.said.results import Understood
from bareshell.whole.said.understand import understand
from bareshell.whole.said.weigh import folded
from tests.whole.said.heldout_lines import HELD_OUT
from tests.whole.said.invented_builds import (
    AT,
    OTHER_JOBS,
    TONIGHT,
    ZONE,
    build_under_pressure,
    other_build,
    small_build,
)
from tests.whole.said.lines import (
    JOBS,
    OTHER_WORDS,
    PARTS,
    PROOFS,
    REST,
    WHICH_JOB,
    WHOLE_EVENINGS,
)

BUILDS = {
    "saloon": small_build(),
    "under pressure": build_under_pressure(),
    "roadster": other_build(),
    "empty": Build(),
}
LINES = [
    *(line.said for line in (*JOBS, *PARTS, *PROOFS, *REST, *WHICH_JOB)),
    *(line.said for line in (*WHOLE_EVENINGS, *OTHER_WORDS)),
    *(line for line, _ in HELD_OUT),
]
FEW = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])

PHRASES = sorted({p.strip() for text in PHRASES_OF.values() for p in text.split(";")})
THINGS = [job.job.title for job in OTHER_JOBS] + [
    "heater", "rear pipes", "n/s caliper", "two hose clips", "matrix", "fuse box", "door gap",
    "offside hub nut", "relay", "front hoses", "the car", "rear tee", "temporary bolt",
]  # fmt: skip
FIGURES = [
    "2.5 h", "2h30", "half an hour", "1 bar", "71 bar", "1000 psi", "80 Nm", "59 lb ft", "0.4 ohm",
    "8 deg", "46F", "at 21:20", "from 7 till half nine", "10 min", "two", "4.5 mm", "13.9 V", "½",
]  # fmt: skip
SIGNS = [", ", "; ", " ", " and ", ". ", " then ", " - ", "\n", "? ", ": ", " but "]

spoken = st.lists(
    st.tuples(st.sampled_from(THINGS + PHRASES + FIGURES), st.sampled_from(SIGNS)),
    min_size=1,
    max_size=9,
).map(lambda parts: "".join(part + sign for part, sign in parts))
mangled = st.sampled_from(LINES).flatmap(
    lambda line: st.integers(0, len(line)).flatmap(
        lambda at: st.text(max_size=3).map(lambda extra: line[:at] + extra + line[at:])
    )
)
anything = st.one_of(st.text(max_size=120), spoken, mangled)
builds = st.sampled_from(sorted(BUILDS))
moments = st.integers(-50, 370).map(lambda days: AT + timedelta(days=days, hours=days % 23))


def read(line: str, build: Build, at: datetime = AT) -> Understood:
    return understand(line, build, TONIGHT, at, ZONE)


def words_of(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", text)


def kept_words(understood: Understood) -> str:
    parts = [h.words for h in understood.heard] + [a.words for a in understood.asked]
    return " ".join((*parts, *understood.left))


@FEW
@given(anything, builds, moments)
def test_any_text_is_taken_and_nothing_is_refused_by_the_build(
    line: str, which: str, at: datetime
) -> None:
    build = BUILDS[which]
    understood = read(line, build, at)
    for moment, change in understood.dated:
        decide(build, change)
        build = folded(build, [(moment, change)])


@FEW
@given(anything, builds)
def test_every_choice_can_be_taken(line: str, which: str) -> None:
    build = BUILDS[which]
    understood = read(line, build)
    for number, question in enumerate(understood.asked):
        for choice in range(len(question.choices)):
            after = build
            for moment, change in understood.answered({number: choice}).dated:
                decide(after, change)
                after = folded(after, [(moment, change)])


@FEW
@given(anything, builds)
def test_the_same_line_is_always_understood_the_same_way(line: str, which: str) -> None:
    assert read(line, BUILDS[which]) == read(line, BUILDS[which])


@FEW
@given(anything, builds)
def test_no_word_is_lost(line: str, which: str) -> None:
    build = BUILDS[which]
    understood = read(line, build)
    rest = kept_words(understood)
    when = "" if understood.at == AT else line
    for word in words_of(line):
        assert word in rest or word in when, (word, rest)


@FEW
@given(st.sampled_from(LINES))
def test_what_was_typed_goes_into_the_record_word_for_word(line: str) -> None:
    """The words of a line stand in what is recorded or in the session and part they made."""
    understood = read(line, BUILDS["saloon"])
    recorded = " ".join(str(change) for change in understood.changes)
    silent = (c.JobStarted, c.JobSet, c.LessonLearned, c.NeedSet)
    if not any(isinstance(change, silent) for change in understood.changes):
        for heard in understood.heard:
            for word in words_of(heard.words):
                assert word in recorded, (word, recorded)


@FEW
@given(anything)
def test_on_an_empty_build_only_words_are_kept(line: str) -> None:
    kinds = {type(change) for change in read(line, Build()).changes}
    assert kinds <= {c.NoteWritten, c.JobSet, c.SessionHeld}


@FEW
@given(st.sampled_from(LINES), st.integers(0, 40))
def test_the_moment_moves_the_record_with_it(line: str, days: int) -> None:
    at = AT + timedelta(days=7 * days)
    early, late = read(line, BUILDS["saloon"]), read(line, BUILDS["saloon"], at)
    for (then, one), (now, other) in zip(early.dated, late.dated, strict=True):
        assert type(one) is type(other)
        if days:
            assert now > then


def test_a_very_long_line_is_read_in_time_and_keeps_its_end() -> None:
    line = "heater in 2 h, " + "and then some more words of no meaning " * 400 + "the end zyx"
    understood = read(line, BUILDS["saloon"])
    assert understood.heard
    assert kept_words(understood).endswith("the end zyx")


def test_the_reader_refuses_a_moment_without_a_zone() -> None:
    with pytest.raises(ValueError, match="must carry a time zone"):
        read("heater in", BUILDS["saloon"], AT.replace(tzinfo=None))
