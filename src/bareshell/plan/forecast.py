"""The finish as a spread of dates, and what bound it, counted over many fates.

The finish of the plan itself, with everything as estimated, is never a forecast: it lies well
before the middle of the spread (measured).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from bareshell.plan import wording
from bareshell.plan.arrays import DAY_MINUTES
from bareshell.plan.engine import Binding, EngineName, Outcome
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import CAUSES, CauseKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Binds", "Forecast", "Quantile", "binds", "forecast"]

TWENTY = 20
"""How many dots the picture of the forecast has."""

CAUSE_WORDS: dict[CauseKind, str] = {
    "wait": "waiting for something to cure or harden",
    "part": "waiting for a part",
    "helper": "waiting for the helper",
    "cold": "waiting for warmer weather",
    "session": "too little left of a session",
    "date": "waiting for a date",
}
"""What a restorer calls the causes that lose days; the others are work itself."""


@dataclass(frozen=True, slots=True)
class Quantile:
    """A date by which the road is reached in a given share of fates.

    Parameters
    ----------
    share : float
        0.8 for "in eight of ten". [-]
    minute : int
        The date. [minutes from the origin]
    standard_error_minutes : int
        How far the date may be off because only so many fates were drawn. [min]
    """

    share: float
    minute: int
    standard_error_minutes: int


@dataclass(frozen=True, slots=True)
class Forecast:
    """When the road is reached.

    Parameters
    ----------
    p50, p80, p95 : Quantile
        The dates by which it is reached in so many of a hundred fates.
    mean_minute : int
        The average. [minutes from the origin]
    samples : int
        How many fates were drawn.
    engine : {"compiled", "plain"}
        Which walk answered; the plain one draws few, so its dates are rougher.
    sentence : str
        The same in plain words, in whole weeks.
    futures : tuple of int
        Twenty finishes, each standing for one fate in twenty. [minutes from the origin]
    """

    p50: Quantile
    p80: Quantile
    p95: Quantile
    mean_minute: int
    samples: int
    engine: EngineName
    sentence: str
    futures: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Binds:
    """One thing that set the date in some of the fates.

    Parameters
    ----------
    kind : {"job", "part", "cause"}
        What it is.
    ref : str
        The job, the part, or one of `bareshell.plan.schedule.CAUSES`.
    title : str
        What the restorer reads.
    share : float
        In what share of fates it was on the chain that set the date. [-]
    days : float
        How long it alone held things up, on average over all fates; 0 for a job. [days]
    """

    kind: str
    ref: str
    title: str
    share: float
    days: float


def forecast(problem: PlanProblem, outcome: Outcome) -> Forecast:
    """Read the spread of dates off many finishes.

    Parameters
    ----------
    problem : PlanProblem
        For reading dates out.
    outcome : Outcome
        Of at least one walk.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> import numpy as np
    >>> from bareshell.plan.sessions import SessionSource
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (), SessionSource())
    >>> many = Outcome(np.arange(1000) * 1440, Binding((), (), (), (), ()), "plain")
    >>> found = forecast(plan, many)
    >>> found.p80.minute // 1440, found.sentence
    (799, 'On the road by the week of Mon 12 Jul 2032 in five of ten ways it may go, by the week of
    Mon 9 May 2033 in eight of ten.')
    """
    import numpy as np

    finish = np.sort(outcome.finish)
    p50, p80, p95 = (_quantile(finish, share) for share in (0.5, 0.8, 0.95))
    sentence = (
        f"On the road by {wording.week(problem, p50.minute)} in five of ten ways it may go, by "
        f"{wording.week(problem, p80.minute)} in eight of ten."
    )
    return Forecast(
        p50,
        p80,
        p95,
        int(finish.mean()),
        len(finish),
        outcome.engine,
        sentence,
        tuple(int(finish[int((at + 0.5) / TWENTY * len(finish))]) for at in range(TWENTY)),
    )


def _quantile(ordered: NDArray[np.int64], share: float) -> Quantile:
    """Take a quantile, with the spread that a binomial count of samples leaves it."""
    count = len(ordered)
    middle = share * count
    spread = sqrt(share * (1 - share) * count)

    def at(rank: float) -> int:
        return int(ordered[min(count - 1, max(0, int(rank)))])

    # Two standard deviations to either side, because finishes fall on the days of sessions.
    error = (at(middle + 2 * spread) - at(middle - 2 * spread)) // 4
    # The smallest date that this share of fates does not pass.
    return Quantile(share, at(middle - 1e-9), error)


def binds(
    problem: PlanProblem, binding: Binding, samples: int, most: int = 12
) -> tuple[Binds, ...]:
    """List what set the date, the causes that lose days first, then parts, then jobs.

    Parameters
    ----------
    problem : PlanProblem
        For the titles.
    binding : Binding
        The counts.
    samples : int
        Over how many fates.
    most : int
        How many jobs and how many parts at most.
    """
    if not samples:
        return ()
    per_day = samples * DAY_MINUTES
    causes = [
        Binds(
            "cause",
            kind,
            CAUSE_WORDS[kind],
            binding.kind_samples[at] / samples,
            binding.kind_minutes[at] / per_day,
        )
        for at, kind in enumerate(CAUSES)
        if kind in CAUSE_WORDS and binding.kind_samples[at]
    ]
    parts = [
        Binds(
            "part",
            arrival.id,
            arrival.title,
            binding.part_samples[at] / samples,
            binding.part_minutes[at] / per_day,
        )
        for at, arrival in enumerate(problem.arrivals)
        if binding.part_samples[at]
    ]
    jobs = [
        Binds("job", job.id, job.title, binding.job_samples[at] / samples, 0.0)
        for at, job in enumerate(problem.jobs)
        if binding.job_samples[at]
    ]
    causes.sort(key=lambda found: (-found.days, found.ref))
    parts.sort(key=lambda found: (-found.days, found.ref))
    jobs.sort(key=lambda found: (-found.share, found.ref))
    return (*causes, *parts[:most], *jobs[:most])
