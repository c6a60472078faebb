"""The JSON answers: documented field by field, and never with a field fewer than before."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bareshell.app.shapes import ANSWERS, shape_fields, shapes_page

ROOT = Path(__file__).parent.parent.parent
KEPT = json.loads((ROOT / "tests" / "fixtures" / "json_format_1.json").read_text("utf-8"))


def test_the_page_is_the_one_the_readings_make() -> None:
    page = (ROOT / "docs" / "json.md").read_text("utf-8")
    assert page == shapes_page(), "run scripts/json-shapes"


@pytest.mark.parametrize("answer", sorted(KEPT))
def test_no_field_of_format_1_was_ever_taken_away(answer: str) -> None:
    kinds = {name.split(",")[0]: kind for name, kind in ANSWERS.items()}
    assert set(KEPT[answer]) <= set(shape_fields(kinds[answer]))


@pytest.mark.parametrize(
    ("answer", "promised"),
    [
        ("tonight --json", {"session", "jobs", "fetch", "cautions", "why_not"}),
        ("road --json", {"sessions", "p50", "p80", "p95"}),
        ("proofs --json", {"owed", "temps", "gates"}),
        ("shelf --json", {"needs", "holdings", "coming", "kits"}),
    ],
)
def test_what_was_promised_first_is_there(answer: str, promised: set[str]) -> None:
    assert promised <= set(KEPT[answer])
