"""Fitting the rule to one build, against what may happen.

It is tuned on drawn fates, never on the estimates alone: a plan fitted to exact hours looks weeks
earlier on paper and comes out weeks later (measured). Even so, a rule tuned for long on few fates
fits just those. So it is looked at again and again on fates of a second set while it is tuned, the
best seen there is taken, and that is kept only when it does better than the plain rule on fates of
a third set, which neither has ever met.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bareshell.plan.engine import Engine, NeverEnds
from bareshell.plan.network import network
from bareshell.plan.policy import Policy
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.searching import changed_weights, climb

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Changes", "Tuned", "tuned_rule"]

LOOK_EVERY = 50
"""After how many changes the rule is looked at on the second set of fates."""

LOOKED_AT = 96
"""How many fates that set has."""

BOOSTS = 0.55
KNOBS = 0.05
"""How many of all changes lift a job with all that comes before it, and how many turn a knob."""


LEAST_SPAN = 600
"""How far weights are taken to span at least. [min]"""


@dataclass(frozen=True, slots=True)
class Tuned:
    """A tuned rule, or the plain one when tuning did not help.

    Parameters
    ----------
    policy : Policy
        What to go by.
    kept : bool
        Whether it is the tuned one.
    gain_days, standard_error_days : float
        How much sooner the tuned one reaches the goal on fates it was not tuned on, and how
        far that may be off. [days]
    moves : int
        How many changes were tried.
    """

    policy: Policy
    kept: bool
    gain_days: float
    standard_error_days: float
    moves: int


def tuned_rule(
    engine: Engine,
    start: Policy,
    *,
    seed: int,
    moves: int = 400,
    scenarios: int = 48,
    fresh: int = 400,
) -> Tuned:
    """Tune the rule by trying changes on some fates; keep it if it does better on fresh ones.

    Parameters
    ----------
    engine : Engine
        On a plannable problem.
    start : Policy
        The rule to begin from.
    seed : int
        For the fates and the changes.
    moves : int
        How many changes are tried: a count, never a time, so that the answer repeats. 400 take a
        second or two, 1,500 gain twice as much.
    scenarios, fresh : int
        Fates to tune on, and others to judge by.
    """
    best = start if not engine.problem.jobs else _Tuning(engine, start, seed, scenarios).best(moves)
    after = scenarios + LOOKED_AT
    plain = engine.run(start, seed=seed, samples=fresh, skip=after).finish
    tuned = engine.run(best, seed=seed, samples=fresh, skip=after).finish
    gain, error = paired_days(plain, tuned)
    kept = gain > 2 * error
    return Tuned(best if kept else start, kept, gain, error, moves)


class _Tuning:
    def __init__(self, engine: Engine, start: Policy, seed: int, scenarios: int) -> None:
        import numpy as np

        self.engine = engine
        self.start = start
        self.seed = seed
        self.scenarios = scenarios
        self.changes = Changes(engine.problem, start, np.random.default_rng([seed, 1]))
        self.least = float("inf")

    def best(self, moves: int) -> Policy:
        """Climb on the first set of fates; take the best that was seen on the second."""
        looked = self.start
        best, least = self.start, self._seen(self.start)
        climbing = climb(self.start, self._cost, self.changes, moves)
        for move, (policy, _) in enumerate(climbing, 1):
            if (move % LOOK_EVERY == 0 or move == moves) and policy is not looked:
                looked = policy
                mean = self._seen(policy)
                if mean < least:
                    best, least = policy, mean
        return best

    def _cost(self, policy: Policy) -> float:
        """Mean finish; and a job is changed the more often, the more often it bound that."""
        import numpy as np

        try:
            run = self.engine.run(policy, seed=self.seed, samples=self.scenarios)
        except NeverEnds:
            return float("inf")
        mean = float(run.finish.mean())
        if mean <= self.least:
            self.least = mean
            often = np.array(run.binding.job_samples, dtype=float) + 0.2
            self.changes.often = often / often.sum()
        return mean

    def _seen(self, policy: Policy) -> float:
        try:
            run = self.engine.run(policy, seed=self.seed, samples=LOOKED_AT, skip=self.scenarios)
        except NeverEnds:
            return float("inf")
        return float(run.finish.mean())


class Changes:
    """Changes a rule by chance: lifts a job with all that comes before it, or turns a knob.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    start : Policy
        The rule that is begun from: no weight is carried further from its own than three times
        as far as they span, or the knobs would lose their meaning.
    dice : numpy.random.Generator
        For what is changed, and by how much.
    """

    def __init__(self, problem: PlanProblem, start: Policy, dice: np.random.Generator) -> None:
        import numpy as np

        self.dice = dice
        low, high = min(start.priority, default=0), max(start.priority, default=0)
        self.span = max(LEAST_SPAN, high - low)
        self.within = low - self.span, high + self.span
        self.lifted = _with_all_before(problem)
        self.often: NDArray[np.float64] = np.full(len(problem.jobs), 1.0 / len(problem.jobs))
        """How often each job is picked, together 1."""

    def __call__(self, policy: Policy) -> Policy:
        """Change one thing."""
        import numpy as np

        weights = np.array(policy.priority, dtype=np.int64)
        roll = self.dice.random()
        if roll < KNOBS:
            factor = float(self.dice.uniform(0.5, 2.0))
            return replace(
                policy,
                stickiness=min(1000, int(policy.stickiness * factor + 0.5)),
                helper_first=min(100_000, int(policy.helper_first * factor + 0.5)),
            )
        if roll < KNOBS + BOOSTS:
            job = int(self.dice.choice(len(weights), p=self.often))
            by = int(self.span * self.dice.exponential(0.05)) + 1
            weights[self.lifted[job]] += by if self.dice.random() < 0.8 else -by
        else:
            weights = changed_weights(weights, self.dice, self.often)
        kept = np.clip(weights, *self.within)
        return replace(policy, priority=tuple(kept.tolist()))


def _with_all_before(problem: PlanProblem) -> list[list[int]]:
    """List for each job itself and every job that comes before it."""
    graph = network(problem)
    into = graph.leading_in()
    before: list[set[int]] = [set() for _ in range(graph.size)]
    for node in graph.in_order():
        for edge in into[node]:
            before[node] |= before[edge.before] | {edge.before}
    jobs = len(problem.jobs)
    return [sorted({node, *(b for b in before[node] if b < jobs)}) for node in range(jobs)]
