"""Specifications as they lie in an invented garage, and strategies that make any."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from random import Random
from typing import Any, get_args

from hypothesis import strategies as st

from bareshell.model.spec import (
    BearingSpec,
    BoltSpec,
    GoodsSpec,
    HoseSpec,
    PinSpec,
    RubberSpec,
    SealSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.parts.rules import RULES

KINDS: dict[str, type[Any]] = {str(cls().kind): cls for cls in get_args(Spec)}

THREADS = (
    "M5", "M6", "M8", "M10", "M8x1", "M10x1", "M10x1.25", "M12x1.25",
    "1/4-28 UNF", "5/16-24 UNF", "3/8-24 UNF", "7/16-20 UNF", "1/2-20 UNF",
    "1/4-20 UNC", "5/16-18 UNC", "3/8-16 UNC", "1/4 BSF", "2 BA", "1/8 BSP", "1/8-27 NPT",
)  # fmt: skip
GRADES = ("8.8", "10.9", "grade 5", "grade 8", "A2-70")
SEATS = ("bubble flare", "double flare", "flat with washer", "banjo", "cone")


def _values(kind: str, name: str, annotation: str) -> st.SearchStrategy[Any]:
    compare = next((r.compare for r in RULES[kind] if r.name == name), "noted")
    if compare == "thread":
        return st.sampled_from(THREADS)
    if compare == "seat":
        return st.sampled_from(SEATS)
    if compare == "grade":
        return st.sampled_from((*GRADES, "not legible"))
    if "date" in annotation:
        return st.dates()
    if "int" in annotation:
        return st.integers(0, 4)
    if "float" in annotation:
        small = 0.0, 0.001
        return (
            st.floats(*small) if "tolerance" in name else st.integers(10, 30).map(lambda n: n / 1e3)
        )
    return st.sampled_from(("left", "right", "flat", "A", "a "))


def any_spec(kind: str, *, whole: bool = False) -> st.SearchStrategy[Any]:
    """Any specification of a kind, with or without fields that nobody knows."""
    cls = KINDS[kind]
    if kind == "plain":
        return st.builds(cls, words=st.sampled_from(("", "clip", "Clip.", "grey trim clip")))
    made = {}
    for each in fields(cls):
        if each.name != "kind":
            known = _values(kind, each.name, str(each.type))
            made[each.name] = known if whole else st.none() | known
    return st.builds(cls, **made)


def some_specs(count: int, seed: int) -> list[Spec]:
    """So many specifications as a small car's boxes hold them; the same for the same seed."""
    chance = Random(seed)
    mm = 1e-3

    def bolt() -> Spec:
        return BoltSpec(
            thread=chance.choice(THREADS),
            length_m=chance.choice((12, 16, 20, 25, 30, 35, 40, 50)) * mm,
            grip_length_m=chance.choice((None, 0, 5, 8, 12, 20)) and chance.choice((5, 8, 12)) * mm,
            head=chance.choice((None, "hexagon", "socket cap", "countersunk")),
            grade=chance.choice((None, *GRADES)),
            lock=chance.choice((None, None, "nyloc", "spring washer")),
        )

    def pin() -> Spec:
        return PinSpec(
            diameter_m=chance.choice((4.76, 6.35, 7.94, 9.52)) * mm,
            grip_to_hole_m=chance.choice((None, 12, 16, 18, 22, 25))
            and chance.randrange(12, 30) * mm,
            head=chance.choice((None, "flat")),
        )

    def other() -> Spec:
        makers: tuple[Callable[[], Spec], ...] = (
            lambda: SplitPinSpec(
                diameter_m=chance.choice((1.6, 2.0, 2.4, 3.2)) * mm, length_m=0.02
            ),
            lambda: UnionSpec(
                thread=chance.choice(("M10x1", "3/8-24 UNF", "7/16-20 UNF")),
                sex=chance.choice(("male", "female")),
                flare=chance.choice(SEATS[:2]),
                pipe_diameter_m=4.75 * mm,
            ),
            lambda: HoseSpec(
                thread_a=chance.choice(("M10x1", "3/8-24 UNF")),
                thread_b=chance.choice(("M10x1", "3/8-24 UNF")),
                free_length_m=chance.randrange(200, 400, 5) * mm,
            ),
            lambda: BearingSpec(inside_m=chance.randrange(10, 40) * mm, width_m=0.015),
            lambda: SealSpec(inside_m=chance.randrange(10, 60) * mm, outside_m=0.065),
            lambda: RubberSpec(
                profile=chance.choice(("P1", "P2", None)), length_m=chance.random() * 9
            ),
            lambda: GoodsSpec(what=chance.choice(("sealer", "wax", "adhesive")), amount="1 l"),
        )
        return chance.choice(makers)()

    draws = (bolt, bolt, bolt, bolt, bolt, bolt, pin, other, other, other)
    return [chance.choice(draws)() for _ in range(count)]
