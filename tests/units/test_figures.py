"""Figures with no unit: read for what they are, asked about when they could be two."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.units import read_figure
from tests.units.polite import is_polite, refusal


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("12", 12.0),
        ("12.5", 12.5),
        ("12,5", 12.5),
        (".5", 0.5),
        ("0,500", 0.5),
        ("1 500", 1500.0),
        ("1 500,5", 1500.5),
        ("1,234,567", 1234567.0),
        ("1,500.5", 1500.5),
        ("3/8", 0.375),
        ("1 3/8", 1.375),
        ("1⅜", 1.375),
        ("-12", -12.0),
        ("+12", 12.0),
        ("2e-3", 0.002),
    ],
)
def test_a_figure(typed: str, value: float) -> None:
    assert read_figure(typed, "figure") == value


@pytest.mark.parametrize(
    "typed", ["1 2", "1,500", "1.2.3", "--", "1/0", "2 3/2", "twelve", "1 50", "inf", "nan", "0x1f"]
)
def test_what_is_no_figure_or_could_be_two_is_refused(typed: str) -> None:
    refused = refusal(lambda: read_figure(typed, "figure"))
    assert isinstance(refused, BadInput)
    assert is_polite(refused, "figure")


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e12, max_value=1e12))
def test_a_figure_as_python_prints_it_reads_back(value: float) -> None:
    assert read_figure(repr(value), "figure") == value


@given(whole=st.integers(0, 200), top=st.integers(1, 63))
def test_a_mixed_number_is_its_parts_together(whole: int, top: int) -> None:
    assert read_figure(f"{whole} {top}/64", "figure") == whole + top / 64
