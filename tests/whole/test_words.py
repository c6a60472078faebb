"""Every entry of the record can be said in words."""

from __future__ import annotations

from dataclasses import fields
from datetime import timedelta

import pytest

from bareshell.model import Build, Entry, Standing, fold
from bareshell.model import changes as c
from bareshell.whole.names import name_subject, titles_in
from bareshell.whole.words import describe_change, describe_entry
from tests.store.every_change import BEGAN, EVERY, OF_THE_RECORD


def _entries() -> list[Entry]:
    return [
        Entry(n, f"e{n}", BEGAN + timedelta(minutes=n), BEGAN, "owner", change)
        for n, change in enumerate(EVERY, 1)
    ]


@pytest.mark.parametrize("kind", sorted(c.CHANGES))
def test_every_kind_of_change_has_words(kind: str) -> None:
    """Also on a build that knows nothing of what it speaks of, as on a page of the past."""
    change = next(one for one in (*EVERY, *OF_THE_RECORD) if kind == one.KIND)
    for build in (Build(), fold(_entries())):
        said = describe_change(change, build)
        assert len(said.split()) >= 3
        assert said == said.strip()
        assert not said.endswith(".")


def test_the_samples_hold_every_kind_there_is() -> None:
    assert {type(one) for one in (*EVERY, *OF_THE_RECORD)} == set(c.CHANGES.values())


@pytest.mark.parametrize(
    "change",
    [one for one in (*EVERY, *OF_THE_RECORD) if "words" in {f.name for f in fields(type(one))}],  # type: ignore[arg-type]
    ids=lambda change: change.KIND,
)
def test_what_the_person_said_is_in_what_is_said(change: c.Change) -> None:
    words = getattr(change, "words", "")
    assert words in describe_change(change, Build())


def test_what_the_build_no_longer_has_keeps_the_title_it_had() -> None:
    entries = _entries()
    build = fold(entries)
    dropped = c.NeedDropped("clip")
    assert describe_change(dropped, build) == "'clip' is not needed after all"
    assert describe_change(dropped, build, titles_in(entries)) == "'Clip' is not needed after all"


def test_an_entry_that_waits_says_so() -> None:
    entry = Entry(1, "a", BEGAN, BEGAN, "owner", c.JobStarted("tank"), 0, Standing.TO_SETTLE)
    assert describe_entry(entry, Build()) == "'tank' was started (to settle)"


def test_what_only_a_newer_bareshell_reads_is_named_by_its_subject() -> None:
    said = describe_change(c.Unread("job-blessed", 1, "job:tank", "{}"), Build())
    assert "job:tank" in said
    assert "newer" in said


@pytest.mark.parametrize(
    ("subject", "name"),
    [
        ("job:tank", "job 'Fuel tank in'"),
        ("car:car", "the car"),
        ("placement:car", "how the car stands"),
        ("day:2026-03-11", "11 Mar 2026"),
        ("move:stands>wheels", "the move from 'Four stands' to 'wheels'"),
        ("pattern:wed", "session pattern 'Wednesday evening'"),
        ("gate:nowhere", "gate 'nowhere'"),
    ],
)
def test_a_subject_is_called_what_a_person_calls_it(subject: str, name: str) -> None:
    assert name_subject(subject, fold(_entries())) == name
