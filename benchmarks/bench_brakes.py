"""How long the brakes take: every single failure over a curve, and ten thousand combinations.

Each beside a plain loop that does the same one by one. Run by itself, it prints how many times
quicker the one is than the other, both timed in that run::

    python benchmarks/bench_brakes.py
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

import numpy as np

from bareshell.brakes.against import held_against
from bareshell.brakes.cases import single_cases
from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import failures
from bareshell.brakes.figures import gather
from bareshell.brakes.prepared import prepare
from bareshell.brakes.solve import answered, solve
from bareshell.brakes.trust import draw, trusted
from bareshell.brakes.yardsticks import YARDSTICKS
from bareshell.model.brake import BrakeSystem, LineEnd, LineKind, Part, PartKind, Port
from bareshell.model.trust import Stated

ELEMENTS = 60
FORCES = np.linspace(0.0, 500.0, 50)
COMBINATIONS = 10_000
ONE_BY_ONE = 25


def with_unions(system: BrakeSystem, elements: int) -> BrakeSystem:
    """Cut pipes with in-line unions until there are so many parts and lines."""
    parts, lines = list(system.parts), list(system.lines)
    at = 0
    while len(parts) + len(lines) < elements:
        line = lines[at]
        if line.kind is LineKind.PIPE:
            union = Part(f"union-{at}", f"union {at}", PartKind.TEE, ports=(Port("a"), Port("b")))
            half = dict(line.figures) | {"length_m": Stated(0.6)}
            start, end = line.ends
            first = replace(line, ends=(start, LineEnd(union.id, "a")), figures=half)
            second = replace(
                line, id=f"{line.id}-b", ends=(LineEnd(union.id, "b"), end), figures=half
            )
            parts.append(union)
            lines[at] = first
            lines.append(second)
        at += 1
    return replace(system, parts=tuple(parts), lines=tuple(lines))


class Subjects:
    """What is timed, made once."""

    def __init__(self) -> None:
        self.car = with_unions(small_car("two lines into one caliper"), ELEMENTS)
        self.elements = len(self.car.parts) + len(self.car.lines)
        self.figures = gather(self.car).figures
        self.cases = single_cases(self.car)
        small = small_car()
        self.combinations = draw(small, gather(small), count=COMBINATIONS)
        self.yardsticks = [each for each in YARDSTICKS.values() if each.id.startswith("un-r13h-")]

    def sweep(self) -> object:
        return failures(self.car, self.figures, FORCES, "laden")

    def sweep_in_a_loop(self) -> object:
        """Every failure at one force: a fiftieth of the curve."""
        return [
            solve(self.car, self.figures, 500.0, "laden", state=case.state) for case in self.cases
        ]

    def check(self) -> object:
        return trusted(self.combinations, lambda ready: held_against(ready, self.yardsticks))

    def check_in_a_loop(self) -> object:
        """A few combinations, one by one."""
        return [
            held_against(
                prepare(self.combinations.system, self.combinations.one(number)), self.yardsticks
            )
            for number in range(ONE_BY_ONE)
        ]

    def push(self) -> object:
        return solve(self.combinations.system, self.combinations.figures, 500.0, "laden")

    def one_push(self) -> object:
        ready = prepare(self.car, self.figures)
        return answered(ready, 300.0, "laden")


def cases(case: Callable[..., Any]) -> Iterable[Any]:
    """Sweeps and checks, each beside its plain loop."""
    made = Subjects()
    return [
        case(f"one push, {made.elements} elements, cold", made.one_push, 0.02),
        case(
            f"{len(made.cases)} single failures, {made.elements} elements, 50 forces",
            made.sweep,
            0.1,
        ),
        case("the same in a plain loop, 1 of the 50 forces", made.sweep_in_a_loop),
        case("one push, 10,000 combinations", made.push, 0.2),
        case("whole check of 10,000 combinations, shares and ranking", made.check, 1.0),
        case(f"the same in a plain loop, {ONE_BY_ONE} of the 10,000", made.check_in_a_loop),
    ]


def timed(run: Callable[[], Any], times: int) -> float:
    """Least of a few runs, after one to warm it."""
    run()
    found = []
    for _ in range(times):
        began = time.perf_counter()
        run()
        found.append(time.perf_counter() - began)
    return min(found)


def main() -> None:
    """Print the ratios."""
    made = Subjects()
    sweep, sweep_loop = timed(made.sweep, 5), timed(made.sweep_in_a_loop, 1) * len(FORCES)
    check, check_loop = timed(made.check, 3), timed(made.check_in_a_loop, 1)
    check_loop *= COMBINATIONS / ONE_BY_ONE
    print(
        f"{len(made.cases)} failures, {made.elements} elements, {len(FORCES)} forces: "
        f"{sweep:.3f} s, a plain loop {sweep_loop:.1f} s, {sweep_loop / sweep:.0f} times as long"
    )
    print(
        f"whole check, {COMBINATIONS} combinations: {check:.3f} s, "
        f"a plain loop {check_loop:.0f} s, {check_loop / check:.0f} times as long"
    )


if __name__ == "__main__":
    main()
