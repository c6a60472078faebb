"""How long it takes to read and show what is typed, and to ask the units library once."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from bareshell.units import parse_length, parse_thread, parse_torque, show_length


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """An imported sheet of a few thousand rows reads each of these once a row."""
    return [
        case("1000 lengths", lambda: [parse_length("1 1/2 in", "bore") for _ in range(1000)], 0.1),
        case("1000 torques", lambda: [parse_torque("11 lbf.ft", "nut") for _ in range(1000)], 0.1),
        case("1000 threads", lambda: [parse_thread("3/8-24 UNF", "nut") for _ in range(1000)], 0.2),
        case("1000 lengths shown", lambda: [show_length(0.01905) for _ in range(1000)], 0.1),
    ]
