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

from bareshell.brakes.across import outcomes, spans
from bareshell.brakes.against import held_against
from bareshell.brakes.cases import single_cases
from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import failures
from bareshell.brakes.figures import gather
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.solve import answered, solve
from bareshell.brakes.trust import draw, trusted
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.yardsticks import YARDSTICKS
from bareshell.model.brake import BrakeSystem, LineEnd, LineKind, Part, PartKind, Port
from bareshell.model.trust import Stated
from bareshell.whole.brake_others import others_of

ELEMENTS = 60
FORCES = np.linspace(0.0, 500.0, 50)
COMBINATIONS = 10_000
ONE_BY_ONE = 25
SPANS_OF = 2000
FOOT_N = 500.0


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
        self.small = small_car()
        self.known = gather(self.small)
        self.hot = gather_heat(self.small)
        self.combinations = draw(self.small, self.known, hot=self.hot, count=COMBINATIONS)
        self.yardsticks = [each for each in YARDSTICKS.values() if each.id.startswith("un-r13h-")]

    def sweep(self) -> object:
        return failures(self.car, self.figures, FORCES, "laden")

    def sweep_in_a_loop(self) -> object:
        """Every failure at one force: a fiftieth of the curve."""
        return [
            solve(self.car, self.figures, 500.0, "laden", state=case.state) for case in self.cases
        ]

    def hold(self, ready: Prepared) -> tuple[Verdict, ...]:
        return held_against(ready, self.yardsticks, others=others_of(self.small, ready))

    def check(self) -> object:
        """Draw, hold hot and cold, ask which axle locks and for the floor, tell how far it goes."""
        drawn = draw(self.small, self.known, hot=self.hot, count=COMBINATIONS)
        found = trusted(drawn, self.hold, lambda ready: outcomes(ready, FOOT_N))
        return found, spans(prepare(self.small, drawn.some(SPANS_OF).figures), FOOT_N)

    def check_in_a_loop(self) -> object:
        """Hold and ask a few combinations, one by one, with nothing ranked."""
        found = []
        for number in range(ONE_BY_ONE):
            ready = prepare(self.small, self.combinations.one(number))
            found.append((self.hold(ready), outcomes(ready, FOOT_N)))
        return found

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


def timed(run: Callable[[], Any], times: int) -> tuple[float, float]:
    """Least of a few runs, after one to warm it: by the clock, and by the processor. [s, s]."""
    run()
    by_clock, by_processor = [], []
    for _ in range(times):
        began, worked = time.perf_counter(), time.process_time()
        run()
        by_clock.append(time.perf_counter() - began)
        by_processor.append(time.process_time() - worked)
    return min(by_clock), min(by_processor)


def told(what: str, quick: tuple[float, float], loop: tuple[float, float], times: float) -> str:
    """Say how long something takes, and how much longer a plain loop, both by the processor."""
    slow = loop[1] * times
    return (
        f"{what}: {quick[0]:.3f} s ({quick[1]:.3f} s of the processor), a plain loop {slow:.1f} s "
        f"of it, {slow / quick[1]:.0f} times as long"
    )


def main() -> None:
    """Print the ratios."""
    made = Subjects()
    what = f"{len(made.cases)} failures, {made.elements} elements, {len(FORCES)} forces"
    print(told(what, timed(made.sweep, 5), timed(made.sweep_in_a_loop, 1), len(FORCES)))
    what = f"whole check, {COMBINATIONS} combinations"
    loop = timed(made.check_in_a_loop, 1)
    print(told(what, timed(made.check, 5), loop, COMBINATIONS / ONE_BY_ONE))


if __name__ == "__main__":
    main()
