"""The library of single-mode projects of thirty activities: how near our search comes.

``make bench PSPLIB=DIR`` walks through every instance found in DIR (``*.sm`` files, or archives of
them), looks at each schedule by its definition, and compares with the optima in a table beside
them (``*.csv`` with the columns ``instance`` and ``best_ub``), if there is one. Nothing of it is
kept in this project.
"""

from __future__ import annotations

import csv
import sys
import time
import zipfile
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent.parent))

import numpy as np

from bareshell.plan.searching import changed_weights, climb
from tests.plan.projects import Project, Walker, broken_rules, compiled, read_sm, there_and_back

MOVES = (0, 500, 2000)
SEED = 1


def instances(folder: Path) -> Iterator[tuple[str, Project]]:
    """Every instance in a folder and in the archives there, by its name."""
    for path in sorted(folder.glob("*.sm")):
        yield path.stem, read_sm(path.read_text("utf-8"))
    for path in sorted(folder.glob("*.zip")):
        with zipfile.ZipFile(path) as archive:
            for name in sorted(archive.namelist()):
                if name.endswith(".sm"):
                    yield Path(name).stem, read_sm(archive.read(name).decode())


def known_optima(folder: Path) -> dict[str, int]:
    """The best that is known of each instance."""
    known: dict[str, int] = {}
    for path in sorted(folder.glob("*.csv")):
        with path.open(newline="", encoding="utf-8") as table:
            for row in csv.DictReader(table):
                known[row["instance"]] = int(row["best_ub"])
    return known


def searched(project: Project, moves: tuple[int, ...]) -> list[int]:
    """The best after so many moves each, every one of them looked at by its definition."""
    run = compiled()
    forwards, backwards = Walker(project, run), Walker(project.turned_round(), run)
    dice = np.random.default_rng(SEED)
    often = np.full(len(project.durations), 1 / len(project.durations))
    best: list[tuple[int, tuple[int, ...]]] = []

    def cost(weights: np.ndarray) -> float:
        over, starts = there_and_back(forwards, backwards, weights)
        if not best or over < best[-1][0]:
            best.append((over, starts))
        return over

    start = np.array(project.tails(), dtype=np.int64) * 100
    after: list[int] = []
    climbing = climb(start, cost, lambda kept: changed_weights(kept, dice, often), max(moves))
    for move in range(max(moves) + 1):
        if move in moves:
            if not best:
                cost(start)
            after.append(best[-1][0])
        next(climbing, None)
    for over, starts in best:
        broken = broken_rules(project, starts)
        assert broken == [], broken
        ends = (s + d for s, d in zip(starts, project.durations, strict=True))
        assert over == max(ends)
    return after


def main(folder: Path) -> None:
    known = known_optima(folder)
    gaps: list[list[float]] = []
    began, count = time.perf_counter(), 0
    for name, project in instances(folder):
        found = searched(project, MOVES)
        count += 1
        if name in known:
            assert min(found) >= known[name], f"{name}: better than the known optimum"
            gaps.append([over / known[name] - 1 for over in found])
    took = time.perf_counter() - began
    print(f"{count} instances in {took:.0f} s; every schedule keeps every rule")
    if not gaps:
        print("no table of optima beside them: nothing to compare with")
        return
    table = np.array(gaps)
    print("moves | mean gap | greatest | at the optimum")
    for at, moves in enumerate(MOVES):
        gap = table[:, at]
        print(
            f"{moves:5d} | {gap.mean():8.2%} | {gap.max():8.1%} | "
            f"{int((gap == 0).sum())} of {len(gap)}"
        )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
