"""Time the slow things, here and now, and print one line for each.

``make bench`` runs every ``bench_<subject>.py`` in this folder; ``make bench ONLY=start`` runs
one. Each such module has a function `cases` that gives named things to time, ready made, so that
only the thing itself is timed. A goal is what a person at the bench would put up with; missing it
is said, never failed, since machines differ.

Behind the times stand the tables of ``plan/``: how good the plans are against the bound and a
solver (``ONLY=quality``), and whether forecasts hold for restorers whose truth is known
(``ONLY=restorers``). They take some minutes.
"""

from __future__ import annotations

import importlib.util
import runpy
import statistics
import sys
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
LONGEST_S = 5.0
TABLES = ("quality", "restorers")


@dataclass(frozen=True, slots=True)
class Case:
    """One thing to time.

    Parameters
    ----------
    name : str
        What it is.
    run : callable
        Does it once.
    goal_s : float, optional
        What a person would put up with. [s]
    """

    name: str
    run: Callable[[], object]
    goal_s: float | None = None


def timed(case: Case) -> tuple[float, int]:
    """Run a case once to warm it, then for a few seconds; the median and how many runs."""
    case.run()
    times: list[float] = []
    began = time.perf_counter()
    while len(times) < 3 or (len(times) < 50 and time.perf_counter() - began < LONGEST_S):
        start = time.perf_counter()
        case.run()
        times.append(time.perf_counter() - start)
    return statistics.median(times), len(times)


def shown(seconds: float) -> str:
    """A time in the unit that reads best."""
    if seconds >= 1:
        return f"{seconds:8.2f} s "
    if seconds >= 1e-3:
        return f"{seconds * 1e3:8.2f} ms"
    return f"{seconds * 1e6:8.2f} us"


def load(path: Path) -> Iterable[Case]:
    """Load one benchmark module and ask it for its cases."""
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    cases: Iterable[Case] = module.cases(Case)
    return cases


def main(only: list[str]) -> None:
    """Time what is asked for, or everything."""
    for path in sorted(HERE.glob("bench_*.py")):
        subject = path.stem.removeprefix("bench_")
        if only and subject not in only:
            continue
        print(subject)
        for case in load(path):
            median, runs = timed(case)
            line = f"  {case.name:<56}{shown(median)}  ({runs} runs)"
            if case.goal_s is not None:
                within = "within" if median <= case.goal_s else "OVER"
                line += f"  {within} the goal of {shown(case.goal_s).strip()}"
            print(line)
    for table in TABLES:
        if not only or table in only:
            print(table)
            runpy.run_path(str(HERE / "plan" / f"{table}.py"), run_name="__main__")


if __name__ == "__main__":
    main(sys.argv[1:])
