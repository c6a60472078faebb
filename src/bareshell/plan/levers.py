"""What moves the date, measured: each lever on the same luck, in days, with its error.

Every lever changes one thing and walks through the same fates again (common random numbers)
[S:law-2015, section 11.2], so that only what was changed can differ. A walk by rules can also be
thrown off by good news: a part that comes earlier may make the road later [S:graham-1969]; such a
result is told as it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from bareshell.plan import wording
from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.engine import Engine
from bareshell.plan.lever_kinds import SENT_OUT, Lever
from bareshell.plan.policy import Policy
from bareshell.plan.priority import paired_days
from bareshell.plan.problem import PlanProblem
from bareshell.plan.ready import Ready

if TYPE_CHECKING:
    from numpy import int64
    from numpy.typing import NDArray

__all__ = ["LEVER_SAMPLES", "Effect", "measured"]

LEVER_SAMPLES = 800
"""On how many fates each lever is measured."""

NO_ODDS_DAYS = 0.25
"""A difference in the road date that makes no odds. [days]"""

EffectWord = Literal["nearer", "no clear effect", "farther"]


@dataclass(frozen=True, slots=True)
class Effect:
    """What a lever does to the date.

    Parameters
    ----------
    lever : Lever
        What would be different.
    gain_days : float
        How much sooner the road is reached on average; below 0 for later. [days]
    standard_error_days : float
        How far that may be off because only so many fates were walked. [days]
    p80_gain_days : float
        How much sooner it is reached in eight of ten fates; rougher than the average. [days]
    before_days, after_days : float
        How far off the road is on average without it and with it. [days]
    samples : int
        How many fates.
    """

    lever: Lever
    gain_days: float
    standard_error_days: float
    p80_gain_days: float
    before_days: float
    after_days: float
    samples: int

    @property
    def word(self) -> EffectWord:
        """Whether it helps, hinders, or cannot be told from chance."""
        if abs(self.gain_days) <= max(2 * self.standard_error_days, NO_ODDS_DAYS):
            return "no clear effect"
        return "nearer" if self.gain_days > 0 else "farther"

    @property
    def sentence(self) -> str:
        """The same in plain words."""
        title = self.lever.title[:1].upper() + self.lever.title[1:]
        error = f"give or take {wording.days(2 * self.standard_error_days)}"
        if self.word == "no clear effect":
            return f"{title}: no clear effect."
        days = wording.days(abs(self.gain_days))
        if self.word == "nearer":
            return f"{title}: the road {days} nearer, {error}."
        return (
            f"{title}: the road {days} farther, {error}; work that could begin sooner is taken up "
            "sooner, and here that costs more than it gains."
        )


def measured(
    made: Ready,
    levers: Sequence[Lever],
    *,
    samples: int = LEVER_SAMPLES,
    forced: Sequence[int] = (),
    threads: int = 2,
    base: NDArray[int64] | None = None,
) -> tuple[Effect, ...]:
    """Measure levers on the same fates, the one that gains most first.

    Parameters
    ----------
    made : Ready
        The problem, its engine and its policy.
    levers : sequence of Lever
        What to measure.
    samples : int
        How many fates, the first of those that the forecast is read from.
    forced : sequence of int
        Jobs to take first in the first session, by position.
    threads : int
        How many threads may walk; no figure depends on it.
    base : array of int64, optional
        The finishes of these fates with nothing changed, where they are known already.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.lever_kinds import part_sooner
    >>> from bareshell.plan.problem import Arrival, Luck, PlanJob, PlanProblem, Way
    >>> from bareshell.plan.ready import ready
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> straps = Arrival("straps", "tank straps", 20 * 24 * 60, late_share=0.0)
    >>> tank = PlanJob("t", "Tank", "fuel", (Way(1, 60, 60, 60),), parts_to_start=("straps",))
    >>> plan = PlanProblem(
    ...     datetime(2031, 3, 4, tzinfo=UTC),
    ...     (tank,),
    ...     SessionSource.repeating([SessionSlot(60, 150)]),
    ...     (straps,),
    ...     luck=Luck(0.0, 0.0, 0.0, 0.0, 0.0),
    ... )
    >>> made = ready(plan, seed=1, engine="plain")
    >>> [effect.sentence for effect in measured(made, [part_sooner(straps)], samples=4)]
    ['Tank straps a week earlier: the road 7.0 days nearer, give or take 0.0 days.']
    """
    if not made.problem.jobs or not levers:
        return ()
    ids = [made.problem.jobs[job].id for job in forced]
    if base is None:
        base = made.engine.run(made.policy, seed=made.seed, samples=samples, forced=forced).finish
    known = base[:samples]
    # One lever's tables are laid out while another one's fates are walked.
    with ThreadPoolExecutor(max(1, threads)) as pool:
        effects = list(pool.map(lambda lever: _effect(made, lever, known, ids), levers))
    return tuple(sorted(effects, key=lambda effect: (-effect.gain_days, effect.lever.title)))


def _effect(made: Ready, lever: Lever, base: NDArray[int64], forced: Sequence[str]) -> Effect:
    problem = lever.change(made.problem)
    at = {job.id: index for index, job in enumerate(problem.jobs)}
    engine = Engine(problem, threads=1, engine=made.engine.name)
    after = engine.run(
        _same_rule(made, problem),
        seed=made.seed,
        samples=len(base),
        forced=tuple(at[job] for job in forced if job in at),
    ).finish
    gain, error = paired_days(base, after)
    before, with_it = (float(finish.mean()) / DAY_MINUTES for finish in (base, after))
    return Effect(lever, gain, error, _eight_in_ten(base, after), before, with_it, len(base))


def _same_rule(made: Ready, problem: PlanProblem) -> Policy:
    """Give each job the weight it had; what was sent out weighs as its own job."""
    weights = zip((job.id for job in made.problem.jobs), made.policy.priority, strict=True)
    kept = dict(weights)
    ids = tuple(job.id for job in problem.jobs)
    priority = tuple(kept[job.removesuffix(SENT_OUT)] for job in ids)
    return replace(made.policy, priority=priority, job_ids=ids)


def _eight_in_ten(before: NDArray[int64], after: NDArray[int64]) -> float:
    import numpy as np

    at = [float(np.quantile(finish, 0.8, method="inverted_cdf")) for finish in (before, after)]
    return (at[0] - at[1]) / DAY_MINUTES
