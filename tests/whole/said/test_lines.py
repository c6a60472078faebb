"""Lines as tired people type and dictate them: understood exactly, asked about, or a note."""

from __future__ import annotations

import pytest

from bareshell.whole.said.results import Understood
from bareshell.whole.said.understand import understand
from tests.whole.said.heldout_lines import HELD_OUT
from tests.whole.said.invented_builds import AT, TONIGHT, ZONE, other_build, small_build
from tests.whole.said.lines import (
    JOBS,
    OTHER_WORDS,
    PARTS,
    PROOFS,
    REST,
    WHICH_JOB,
    WHOLE_EVENINGS,
    Line,
)
from tests.whole.said.telling import notes, told

SMALL, OTHER = small_build(), other_build()
ABOUT_THE_SALOON = (*JOBS, *PARTS, *PROOFS, *REST, *WHICH_JOB, *WHOLE_EVENINGS)


def read(line: str) -> Understood:
    return understand(line, SMALL, TONIGHT, AT, ZONE)


@pytest.mark.parametrize("line", ABOUT_THE_SALOON, ids=lambda line: line.said[:60])
def test_a_line_is_understood(line: Line) -> None:
    understood = read(line.said)
    assert told(understood) == line.told
    assert bool(understood.asked) == line.asks


@pytest.mark.parametrize("line", OTHER_WORDS, ids=lambda line: line.said[:60])
def test_a_line_is_understood_in_another_countrys_words(line: Line) -> None:
    understood = understand(line.said, OTHER, (), AT, ZONE)
    assert told(understood) == line.told
    assert bool(understood.asked) == line.asks


def facts(understood: Understood, wanted: tuple[str, ...]) -> tuple[str, ...]:
    """The facts of a line; its session only where the line was written down for it."""
    found = told(understood)
    if any(fact.startswith("session") for fact in wanted):
        return found
    return tuple(fact for fact in found if not fact.startswith("session"))


@pytest.mark.parametrize(("line", "wanted"), HELD_OUT, ids=[line[:60] for line, _ in HELD_OUT])
def test_a_line_written_before_the_reader_records_nothing_wrong(
    line: str, wanted: tuple[str, ...]
) -> None:
    understood = read(line)
    found = facts(understood, wanted)
    assert set(found) <= set(wanted), "nothing is recorded that was not said"
    if found != wanted:
        assert understood.asked or notes(understood)


def test_nearly_all_lines_written_before_the_reader_are_understood_exactly() -> None:
    exact = sum(facts(read(line), wanted) == wanted for line, wanted in HELD_OUT)
    assert exact >= 24
    assert len(HELD_OUT) == 26


def test_every_line_that_is_not_understood_keeps_its_words() -> None:
    for line in ABOUT_THE_SALOON:
        understood = read(line.said)
        if not line.told and not line.asks:
            assert notes(understood), line.said
