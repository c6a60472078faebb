"""The guide tells the whole truth: every key is in it, and its example can be brought in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bareshell.io.build_file import compare, read_build_file, write_build_file
from bareshell.io.build_file.guide import PARTS, guide
from bareshell.io.build_file.read import TOP_KEYS
from bareshell.io.build_file.sections import SECTIONS
from bareshell.io.build_file.shape import Record
from bareshell.io.build_file.specs import SPECS
from bareshell.model import Build
from bareshell.model.standing import need_standings
from tests.io.builds import land

PAGE = Path(__file__).parents[2] / "docs" / "build-file.md"
NOW = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)

NOT_IN_THE_FILE = {"photos", "forecasts", "versions", "to_settle", "seq"}
"""What of a build is not its state in words: photographs, and forecasts as they were issued on
their day, travel in the archive."""


@pytest.fixture(scope="module")
def page() -> str:
    return PAGE.read_text(encoding="utf-8")


def _records() -> Iterator[tuple[str, Record]]:
    for section in SECTIONS:
        yield section.name, section.record
        if section.facts is not None:
            yield f"{section.name}, what happened", section.facts
    yield from PARTS.items()
    yield from SPECS.items()


@pytest.mark.parametrize(("name", "record"), list(_records()))
def test_every_field_of_the_model_has_a_key(name: str, record: Record) -> None:
    held = {each.name for each in fields(record.cls)} - {"kind"} | (
        {"kind"} if any(each.attr == "kind" for each in record.fields) else set()
    )
    assert {each.attr for each in record.fields} == held, name
    assert len(set(record.keys)) == len(record.fields)


def test_every_part_of_a_build_has_a_section() -> None:
    kept = {
        "placements": "placement",
        "not_here": "need",
        "holding_times": "holding",
        "patterns": "session",
        "sessions": "held",
        "car": "car",
        "garage": "garage",
        "heated_since": "garage",
        "brakes": "brakes",
        "yardsticks": "yardsticks",
        "miles": "miles",
    }
    names = {section.name for section in SECTIONS}
    for each in fields(Build):
        if each.name not in NOT_IN_THE_FILE:
            assert kept.get(each.name, each.name.removesuffix("s")) in names, each.name


def test_the_tables_of_the_guide_are_those_of_the_sections(page: str) -> None:
    for line in guide().splitlines():
        assert line in page, f"run the guide anew: {line}"


def test_every_key_is_in_the_guide(page: str) -> None:
    for name, record in _records():
        for key in record.keys:
            assert f"| `{key}` |" in page or name == "plain", (name, key)
    for key in TOP_KEYS:
        assert f"| `{key}` |" in page


def test_the_example_can_be_brought_in(page: str) -> None:
    example = page.split("```toml\n")[1].split("```", maxsplit=1)[0]
    parsed = read_build_file(example)
    assert not parsed.problems
    assert {item.section.name for item in parsed.items} == {section.name for section in SECTIONS}
    found = compare(Build(), parsed, NOW)
    assert not found.problems
    build = Build()
    for each in found.differences:
        build = land(build, each.change, each.happened_at or NOW)
    assert build.jobs["rear-pipe"].state.hours_done == 2.25
    assert need_standings(build)["pipe-nuts"].here == 4
    assert write_build_file(build, example) == example
