"""A slip of units is asked about, and never put right behind the owner's back."""

from __future__ import annotations

import pytest

from bareshell.units import (
    MIXTURE,
    LikelyRange,
    Preference,
    ask_if_unlikely,
    read_quantity,
)

BORE = LikelyRange(0.012, 0.040)
LINE_PRESSURE = LikelyRange(1e5, 2e7)
UNION_TORQUE = LikelyRange(5.0, 30.0)


@pytest.mark.parametrize("typed", ["19.05 mm", "3/4 in", "12 mm", "40 mm"])
def test_a_likely_value_raises_no_question(typed: str) -> None:
    reading = read_quantity(typed, "length", "bore")
    assert ask_if_unlikely(reading, "length", BORE, "bore") is None


@pytest.mark.parametrize(
    ("typed", "quantity", "likely", "meant"),
    [
        ("1000 bar", "pressure", LINE_PRESSURE, "1000 psi"),
        ("19.05 in", "length", BORE, "19.05 mm"),
        ("0.7 mm", "length", BORE, "0.7 in"),
        ("1.905 mm", "length", BORE, "1.905 cm"),
        ("11 kgf.m", "torque", UNION_TORQUE, "11 lbf.ft"),
        ("1.5 N.m", "torque", UNION_TORQUE, "1.5 kgf.m"),
    ],
)
def test_the_unit_that_was_probably_meant_is_named(
    typed: str, quantity: str, likely: LikelyRange, meant: str
) -> None:
    name = next(each for each in ("length", "pressure", "torque") if each == quantity)
    question = ask_if_unlikely(read_quantity(typed, name, "field"), name, likely, "field")
    assert question is not None
    assert question.where == "field"
    assert question.severity == "doubtful"
    assert typed in question.what
    assert meant in question.remedy
    assert f"if {typed} is right, keep it" in question.remedy


def test_a_value_that_no_unit_explains_is_still_only_asked_about() -> None:
    reading = read_quantity("900 m", "length", "bore")
    question = ask_if_unlikely(reading, "length", LikelyRange(0.012, 0.013), "bore")
    assert question is not None
    assert question.remedy == "if 900 m is right, keep it"


def test_the_usual_range_is_told_in_the_owners_units() -> None:
    reading = read_quantity("1000 bar", "pressure", "line pressure")
    psi = ask_if_unlikely(reading, "pressure", LINE_PRESSURE, "line pressure", MIXTURE)
    bar = ask_if_unlikely(reading, "pressure", LINE_PRESSURE, "line pressure", Preference())
    assert psi is not None
    assert bar is not None
    assert "psi to" in psi.what
    assert "1 bar to 200 bar" in bar.what
