"""What would have been foretold of each job and each part before it was done or came.

Each is foretold from those before it alone, and then held against what came: the forecasts that
the owner would have been given, whether or not anybody kept them [S:dawid-1984].
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from bareshell.plan.lateness import OrderOutcome, SourceBelief, SourcePrior, learned
from bareshell.plan.pace_model import SYSTEM_SPREAD, Finished, PaceBelief, learn_pace
from bareshell.plan.scoring import Scored, scored

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

__all__ = ["score_hours", "score_parts"]

MOST_SCORED = 60
"""Only so many of the last jobs and parts are scored: what was believed long ago is no news."""

VALUES = 400
"""From so many equally likely values each is foretold."""

SEED = 20260301
"""The same record is scored the same."""


def score_hours(finished: Sequence[Finished]) -> Scored:
    """Score the hours of jobs as they would have been foretold.

    Parameters
    ----------
    finished : sequence of Finished
        In the order in which they were finished.

    Examples
    --------
    >>> steady = [Finished(str(n), "", "brakes", 60, 90, 0.3, 0.3) for n in range(30)]
    >>> found = score_hours(steady)
    >>> found.cases, found.skill is not None and found.skill > 0.3
    (30, True)
    """
    first = max(0, len(finished) - MOST_SCORED)
    nobody = learn_pace(())
    told, plain = [], []
    for at in range(first, len(finished)):
        job = finished[at]
        values = _hours(job, learn_pace(finished[:at]), at)
        told.append((values, job.taken_minutes / 60))
        plain.append(_hours(job, nobody, at))
    return scored("hours of a job", "h", told, plain)


def _hours(job: Finished, belief: PaceBelief, stream: int) -> list[float]:
    """Draw what a job would take, in hours."""
    import numpy as np

    dice = np.random.default_rng([SEED, stream])
    pace = belief.of(job.system)
    known = pace is not belief.common
    own = pace.spread if known else SYSTEM_SPREAD
    share = pace.common_share if known else 1.0
    wider = np.sqrt(belief.spread_scale / dice.standard_gamma(belief.spread_shape, VALUES))
    log_factor: NDArray[float64] = dice.standard_normal(VALUES) * own
    log_factor += share * belief.common.spread * dice.standard_normal(VALUES)
    luck = dice.standard_normal(VALUES)
    log_factor += luck * np.where(luck < 0, job.below, job.above)
    minutes = job.likely_minutes * pace.factor * np.exp(wider * log_factor)
    return [float(value) / 60 for value in minutes]


def score_parts(outcomes: Sequence[OrderOutcome], priors: Mapping[str, SourcePrior]) -> Scored:
    """Score the days on which parts came against those that would have been foretold.

    Parameters
    ----------
    outcomes : sequence of OrderOutcome
        In the order in which they came; those still out tell nothing yet.
    priors : mapping of str to SourcePrior
        By class of source.

    Examples
    --------
    >>> prior = {"general": SourcePrior(0.2, 4.0, 0.05, 7.0)}
    >>> late = [OrderOutcome("general", "a", days_late=3.0) for _ in range(20)]
    >>> score_parts(late, prior).cases
    20
    """
    came = [outcome for outcome in outcomes if outcome.days_late is not None]
    first = max(0, len(came) - MOST_SCORED)
    told, plain = [], []
    for at in range(first, len(came)):
        outcome = came[at]
        prior = priors[outcome.source_class]
        belief = learned(came[:at], outcome.source_class, outcome.supplier, prior)
        nothing = learned((), outcome.source_class, outcome.supplier, prior)
        told.append((list(_delays(belief)), outcome.days_late or 0.0))
        plain.append(list(_delays(nothing)))
    return scored("day of a part", "days", told, plain)


def _delays(belief: SourceBelief) -> Iterator[float]:
    """Say how late it would be, as evenly spread values: none, or a Lomax delay. [days]."""
    late, delay = belief.late.mean, belief.delay
    for at in range(VALUES):
        share = 1.0 - (at + 0.5) / VALUES  # of being later than this
        if share >= late:
            yield 0.0
        else:
            yield delay.days * ((late / share) ** (1.0 / delay.shape) - 1.0)
