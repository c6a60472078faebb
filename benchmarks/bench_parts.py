"""How long it takes to hold every need against every holding."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from bareshell.model.spec import BoltSpec
from bareshell.parts import match_all

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests.parts.shelves import some_specs


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """Two thousand needs and three thousand holdings: mixed, bolts alone, and hardly known."""
    needs, holdings = some_specs(2000, 1), some_specs(3000, 2)
    bolts = [spec for spec in some_specs(9000, 3) if isinstance(spec, BoltSpec)]
    vague = [BoltSpec(length_m=spec.length_m) for spec in bolts[:2000]]
    return [
        case("fit check, 2,000 needs, 3,000 holdings", lambda: match_all(needs, holdings), 0.1),
        case(
            "the same, bolts and nothing else",
            lambda: match_all(bolts[:2000], bolts[2000:5000]),
            0.1,
        ),
        case("the same, by their length alone", lambda: match_all(vague, bolts[2000:5000]), 1.0),
    ]
