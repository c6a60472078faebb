"""How the owner's hours run against the estimates: one common pace, one more for each system.

The logarithm of hours taken over hours estimated is taken to be normal: a common pace, what the
job's system adds to it, and the job's own luck, whose spread the three hours of the estimate say.
How much wider hours spread than estimated is learned with it (normal and inverse gamma). The form
is the conjugate one of the normal linear model with unequal variances [S:gelman-2013, sections
3.3, 5.4 and 14.2], so there is a closed answer: jobs are weighed by how sure their estimate was,
a system is drawn towards the common pace and that towards 1, the more the fewer jobs they rest
on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import exp, log, pi, sqrt

from bareshell.plan.problem import Luck, Pace

__all__ = ["Finished", "PaceBelief", "SystemPace", "learn_pace", "offset_and_spread"]

COMMON_SPREAD = 0.3
"""How far the common pace may lie from the estimates before any job is finished, as the standard
deviation of its logarithm: two owners in three within three quarters and four thirds (our own
choice). [-]"""

SYSTEM_SPREAD = 0.15
"""The same for what a system adds to it (our own choice). [-]"""

SPREAD_SHAPE = 6.0
"""Weight of the three hours' own word on how far hours spread: as twelve jobs (our own choice).
[-]"""

LEAST_SPREAD = 0.25
"""No estimate is surer than this, whatever its three hours say: hours are remembered roughly
(common practice, no source). [-]"""

FARTHEST = 1.5
"""A logarithm beyond this, a factor of four and a half, counts as this: it tells of another job
than was estimated, or of a slip of the pen. [-]"""

TURNS = 6
"""So often the spread and what it does to the mean are worked out in turn."""

EIGHT_IN_TEN = 1.2815515655446004
"""Standard deviations to either side of the middle between which eight in ten lie."""


@dataclass(frozen=True, slots=True)
class Finished:
    """A job that was estimated and is done.

    Parameters
    ----------
    job_id, title, system : str
        Which.
    likely_minutes, taken_minutes : float
        What was estimated and what it took. [min]
    below, above : float
        Spread of the estimate to either side (`bareshell.plan.hours.spreads`). [-]
    """

    job_id: str
    title: str
    system: str
    likely_minutes: float
    taken_minutes: float
    below: float
    above: float

    @property
    def ratio(self) -> float:
        """The logarithm of hours taken over hours estimated, within reason."""
        return max(-FARTHEST, min(FARTHEST, log(self.taken_minutes / self.likely_minutes)))


@dataclass(frozen=True, slots=True)
class SystemPace:
    """The pace in one system, or the common one (system empty).

    Parameters
    ----------
    system : str
        Empty for the common pace.
    factor : float
        Hours taken over hours estimated; as likely higher as lower. [-]
    low, high : float
        Eight in ten between these. [-]
    spread : float
        Of what the system has of its own, or of the common pace. [-]
    common_share : float
        How much of an error in the common pace it shares. [-]
    jobs : int
        How many finished jobs it rests on.
    """

    system: str
    factor: float
    low: float
    high: float
    spread: float
    common_share: float
    jobs: int

    @property
    def sentence(self) -> str:
        """The same in plain words.

        Examples
        --------
        >>> SystemPace("brakes", 1.3, 1.1, 1.5, 0.1, 0.5, 9).sentence
        'You run 1.3 times your estimates on brakes (1.1 to 1.5 times; 9 jobs).'
        """
        on = f" on {self.system}" if self.system else ""
        rests = f"{self.jobs} job" if self.jobs == 1 else f"{self.jobs} jobs"
        if not self.jobs:
            return (
                f"Hours are planned as estimated{on}, {self.low:.1f} to {self.high:.1f} times, "
                "until jobs are finished."
            )
        run = f"You run {self.factor:.1f} times your estimates{on}"
        if f"{self.factor:.1f}" == "1.0":
            run = f"You keep to your estimates{on}"
        return f"{run} ({self.low:.1f} to {self.high:.1f} times; {rests})."


@dataclass(frozen=True, slots=True)
class PaceBelief:
    """What is believed of the owner's pace.

    Parameters
    ----------
    common : SystemPace
        The pace that all systems share.
    systems : tuple of SystemPace
        Those that have finished jobs.
    spread_shape, spread_scale : float
        Inverse gamma of how much wider hours spread than estimated (as a variance). [-]
    jobs : int
        How many finished jobs it rests on.
    """

    common: SystemPace
    systems: tuple[SystemPace, ...]
    spread_shape: float
    spread_scale: float
    jobs: int

    @property
    def wider(self) -> float:
        """How many times wider hours spread than the three hours say."""
        return sqrt(self.spread_scale / (self.spread_shape - 1.0))

    def of(self, system: str) -> SystemPace:
        """Find the pace of a system; the common one where the system has no record."""
        return next((one for one in self.systems if one.system == system), self.common)

    @property
    def paces(self) -> tuple[Pace, ...]:
        """As a plan takes them, the common one first."""
        return tuple(
            Pace(one.system, min(10.0, max(0.1, one.factor)), one.spread, one.common_share)
            for one in (self.common, *self.systems)
        )

    def laid_over(self, luck: Luck) -> Luck:
        """Put the spreads into the luck of a plan."""
        return replace(
            luck,
            pace_spread=self.common.spread,
            system_spread=SYSTEM_SPREAD,
            spread_shape=self.spread_shape,
            spread_scale=self.spread_scale,
        )


def offset_and_spread(below: float, above: float) -> tuple[float, float]:
    """Say where the mean of the logarithm lies above its middle, and its standard deviation.

    The two halves of an estimate have spreads of their own; what takes long takes very long.

    Parameters
    ----------
    below, above : float
        Spreads of the two halves. [-]

    Examples
    --------
    >>> offset_and_spread(0.3, 0.3)
    (0.0, 0.3)
    >>> round(offset_and_spread(0.2, 0.5)[0], 3)
    0.12
    """
    offset = (above - below) / sqrt(2 * pi)
    variance = (above * above + below * below) / 2 - offset * offset
    return offset, sqrt(variance)


def learn_pace(finished: Sequence[Finished]) -> PaceBelief:
    """Learn the owner's pace from finished jobs.

    Parameters
    ----------
    finished : sequence of Finished
        In any order; none is an owner nobody knows yet.

    Examples
    --------
    >>> slow = [Finished(str(n), "", "brakes", 60, 90, 0.3, 0.3) for n in range(12)]
    >>> learned = learn_pace(slow)
    >>> round(learned.of("brakes").factor, 2), round(learned.of("fuel").factor, 2)
    (1.46, 1.36)
    """
    wider = 1.0
    for _ in range(TURNS):
        # What takes long takes very long, the more so the wider hours spread; how wide they do
        # is only known afterwards, so this goes round until it no longer moves.
        belief = _learned(finished, wider)
        wider = belief.wider
    return belief


def _learned(finished: Sequence[Finished], skew: float) -> PaceBelief:
    by_system: dict[str, list[tuple[float, float]]] = {}
    for job in finished:
        offset, spread = offset_and_spread(job.below, job.above)
        value = job.ratio - skew * offset
        by_system.setdefault(job.system, []).append((value, max(spread, LEAST_SPREAD) ** -2))
    own, within = SYSTEM_SPREAD**2, 0.0
    means: dict[str, tuple[float, float]] = {}
    for system, values in by_system.items():
        weight = sum(w for _, w in values)
        mean = sum(v * w for v, w in values) / weight
        within += sum(w * (v - mean) ** 2 for v, w in values)
        means[system] = mean, weight
    precision = COMMON_SPREAD**-2 + sum(1 / (own + 1 / w) for _, w in means.values())
    common = sum(m / (own + 1 / w) for m, w in means.values()) / precision
    apart = sum((m - common) ** 2 / (own + 1 / w) for m, w in means.values())
    apart += common**2 / COMMON_SPREAD**2
    shape = SPREAD_SHAPE + len(finished) / 2
    scale = SPREAD_SHAPE - 1.0 + (within + apart) / 2
    wider = sqrt(scale / (shape - 1.0))
    doubt = precision**-0.5
    systems = tuple(
        _system(system, len(by_system[system]), means[system], common, doubt, wider)
        for system in by_system
    )
    # A system without a record has the common pace, give or take what systems differ by.
    everywhere = SystemPace(
        "", exp(common), *_range(common, doubt * wider), doubt, 1.0, len(finished)
    )
    return PaceBelief(everywhere, systems, shape, scale, len(finished))


def _system(
    system: str,
    jobs: int,
    seen: tuple[float, float],
    common: float,
    doubt: float,
    wider: float,
) -> SystemPace:
    mean, weight = seen
    trusted = SYSTEM_SPREAD**2 / (SYSTEM_SPREAD**2 + 1 / weight)
    middle = trusted * mean + (1 - trusted) * common
    spread = SYSTEM_SPREAD * sqrt(1 - trusted)
    both = sqrt(((1 - trusted) * doubt) ** 2 + spread**2)
    return SystemPace(system, exp(middle), *_range(middle, both * wider), spread, 1 - trusted, jobs)


def _range(middle: float, spread: float) -> tuple[float, float]:
    reach = EIGHT_IN_TEN * spread
    return exp(middle - reach), exp(middle + reach)
