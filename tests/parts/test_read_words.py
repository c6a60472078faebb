"""Sizes written in words: read when they can mean one thing, left in words when not."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.model.spec import (
    BearingSpec,
    BoltSpec,
    PinSpec,
    SealSpec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.parts.read_words import read_words

MM = 1e-3
INCH = 25.4e-3


def near(value: float | None, wanted: float) -> bool:
    return value == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize(
    ("said", "thread", "length", "grade", "what"),
    [
        ("Bolts M8 x 25 8.8 hexagon", "M8", 25 * MM, "8.8", "bolt"),
        ("Set screws M10x1.25x30, 10.9", "M10x1.25", 30 * MM, "10.9", "set screw"),
        ("M6 nyloc nuts", "M6", None, None, "nut"),
        ("Bolts M8 x 25 with nuts", "M8", 25 * MM, None, "bolt"),
        ("Screws M5 by 16 A2-70 pan head", "M5", 16 * MM, "A2-70", "screw"),
        ("Bolts 3/8-24 UNF x 1 1/4 grade 5", "3/8-24 UNF", 1.25 * INCH, "5", "bolt"),
        ("Bolts 1/4 UNC x 20 mm", "1/4 UNC", 20 * MM, None, "bolt"),
    ],
)
def test_bolts_in_both_systems(
    said: str, thread: str, length: float | None, grade: str | None, what: str
) -> None:
    read = read_words(said)
    assert isinstance(read, BoltSpec)
    assert (read.thread, read.grade, read.what) == (thread, grade, what)
    assert read.length_m is None if length is None else near(read.length_m, length)


def test_a_pin_gives_its_grip_only_where_the_words_say_so() -> None:
    plain, to_hole = read_words("Clevis pins 8 x 22"), read_words("Clevis pins 5/16 x 7/8 to hole")
    assert isinstance(plain, PinSpec)
    assert isinstance(to_hole, PinSpec)
    assert near(plain.diameter_m, 8 * MM)
    assert plain.grip_to_hole_m is None
    assert near(to_hole.diameter_m, 5 / 16 * INCH)
    assert near(to_hole.grip_to_hole_m, 7 / 8 * INCH)


def test_the_other_kinds() -> None:
    split = read_words("Split pins 2 x 25")
    assert isinstance(split, SplitPinSpec)
    assert near(split.length_m, 25 * MM)
    bearing = read_words("Wheel bearing 6205-2RS", "25 x 52 x 15")
    assert isinstance(bearing, BearingSpec)
    assert near(bearing.outside_m, 52 * MM)
    seal = read_words("Copper washers 10 x 14 x 1")
    assert isinstance(seal, SealSpec)
    assert seal.material == "copper"
    union = read_words("Pipe unions M10 x 1 male")
    assert isinstance(union, UnionSpec)
    assert (union.thread, union.sex) == ("M10x1", "male")


@pytest.mark.parametrize(
    "said",
    [
        "Fan belt 10 by 900",
        "Trim clips, grey",
        "Trim screws No 8 x 3/4",
        "Bolts, a tin of them",
        "Clevis pins",
        "Seal 52 x 25 x 15",
        "Union, for the hose",
        "Starter, exchange",
    ],
)
def test_what_could_mean_two_things_stays_words(said: str) -> None:
    assert read_words(said) is None


@given(st.text(max_size=60), st.text(max_size=40))
def test_any_words_at_all_are_survived(title: str, words: str) -> None:
    read_words(title, words)


@given(
    st.sampled_from(["bolt", "pin", "split pin", "seal", "bearing", "union"]),
    st.text(alphabet='mMxX0123456789 ./-"unfcba', max_size=30),
)
def test_any_figures_at_all_are_survived(kind: str, figures: str) -> None:
    read_words(kind, figures)
