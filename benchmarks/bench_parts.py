"""How long it takes to hold every need against every holding."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any

from bareshell.model import Build
from bareshell.model.job import Job, JobRecord
from bareshell.model.part import Holding, Need, NeededTo
from bareshell.model.spec import BoltSpec
from bareshell.parts import match_all
from bareshell.whole.fit_answer import shelf_matches
from bareshell.whole.kits import kit_words

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests.parts.shelves import some_specs

JOBS, NEEDS, HOLDINGS = 400, 2000, 3000
NOW = datetime(2026, 11, 25, 20, tzinfo=UTC)


def a_big_build() -> Build:
    """Four hundred open jobs, five needs each; every other need has something put aside for it."""
    sizes, lying = some_specs(NEEDS, 1), some_specs(HOLDINGS, 2)
    jobs = {f"j{i}": JobRecord(Job(f"j{i}", f"Job {i}", "brakes")) for i in range(JOBS)}
    needs = {
        f"n{i}": Need(
            f"n{i}", f"Thing {i}", f"j{i % JOBS}", 1 + i % 4, list(NeededTo)[i % 2], sizes[i]
        )
        for i in range(NEEDS)
    }
    holdings = {
        f"h{i}": Holding(
            f"h{i}", f"Lot {i}", 2, lying[i], need=f"n{i}" if i < NEEDS and i % 2 else None
        )
        for i in range(HOLDINGS)
    }
    return Build(jobs=jobs, needs=needs, holdings=holdings)


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """Two thousand needs, three thousand holdings: mixed, bolts alone, and known by length."""
    needs, holdings = some_specs(2000, 1), some_specs(3000, 2)
    bolts = [spec for spec in some_specs(9000, 3) if isinstance(spec, BoltSpec)]
    vague = [BoltSpec(length_m=spec.length_m) for spec in bolts[:2000]]
    chance = Random(4)
    cut = [BoltSpec(length_m=chance.uniform(0.010, 0.055)) for _ in range(2000)]
    loose = [replace(spec, length_tolerance_m=0.005) for spec in cut]
    lying = [BoltSpec(thread="M8", length_m=chance.uniform(0.010, 0.055)) for _ in range(3000)]
    build = a_big_build()
    return [
        case("how 400 jobs' bags stand", lambda: kit_words(build), 0.1),
        case(
            "what lies here already, in sentences",
            lambda: shelf_matches(build, NOW, NOW.date()),
            0.1,
        ),
        case("fit check, 2,000 needs, 3,000 holdings", lambda: match_all(needs, holdings), 0.1),
        case(
            "the same, bolts and nothing else",
            lambda: match_all(bolts[:2000], bolts[2000:5000]),
            0.1,
        ),
        case("the same, by their length alone", lambda: match_all(vague, bolts[2000:5000]), 0.1),
        case("the same, no two lengths alike", lambda: match_all(cut, lying), 0.1),
        case("the same, and half a centimetre either way", lambda: match_all(loose, lying), 0.5),
    ]
