"""What may happen: how long each job really takes, when parts come, which sessions are lost.

All random numbers are drawn here, outside the walk, so that neither the engine nor the number of
threads can change an answer. Each job, part, session and week has a stream of its own, named by
its key or its date: when a job is finished or a part arrives, everything else keeps its luck, and
two what-ifs differ only by what was changed.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from math import log
from typing import TYPE_CHECKING

from bareshell.plan.arrays import DAY_MINUTES, expected_arrival
from bareshell.plan.hours import paced_minutes, spreads
from bareshell.plan.lateness import SourceBelief
from bareshell.plan.policy import Fate
from bareshell.plan.problem import Arrival, Luck, Pace, PlanJob, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Fates", "Paces", "as_planned", "draw", "draw_paces"]

MOST_TURNS = 24
"""How often the luck of a begun job is drawn again before it is taken from the far tail."""

MOST_KEPT = 2_500_000
"""So many drawn figures at most are kept for the next question about the same luck."""

MOST_WRONG = 4
"""So often at most a part comes wrong in a row: then somebody makes one."""


@dataclass(frozen=True, slots=True)
class Fates:
    """Many ways in which it may go, a row for each.

    Parameters
    ----------
    factor : array of float32, shape (samples, jobs)
        Real over planned hours. [-]
    arrives : array of int64, shape (samples, parts)
        When each part comes. [minutes from the origin]
    people : array of int8, shape (samples, sessions)
        Who is there: 0 for a session that is lost.
    """

    factor: NDArray[np.float32]
    arrives: NDArray[np.int64]
    people: NDArray[np.int8]

    @property
    def samples(self) -> int:
        """How many there are."""
        return int(self.factor.shape[0])

    def some(self, first: int, last: int) -> Fates:
        """Take the rows from `first` up to, not including, `last`."""
        return Fates(self.factor[first:last], self.arrives[first:last], self.people[first:last])

    def one(self, row: int) -> Fate:
        """Take one of them, for the walk told in plain words."""
        return Fate(
            self.factor[row].tolist(), self.arrives[row].tolist(), self.people[row].tolist()
        )


def as_planned(problem: PlanProblem, sessions: int) -> Fates:
    """Make the one fate in which all goes exactly as estimated.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    sessions : int
        How many sessions to write out.
    """
    import numpy as np

    slots = problem.sessions.first(sessions)
    return Fates(
        np.ones((1, len(problem.jobs)), dtype=np.float32),
        np.array([[expected_arrival(a) for a in problem.arrivals]], dtype=np.int64),
        np.array([[slot.people for slot in slots]], dtype=np.int8),
    )


def draw(problem: PlanProblem, sessions: int, *, seed: int, samples: int) -> Fates:
    """Draw fates: hours with a common pace, late parts, lost weeks and sessions, no-shows.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    sessions : int
        How many sessions to write out.
    seed : int
        0 or more; the same seed gives the same fates.
    samples : int
        How many. More of them begin with the same ones.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> few, many = draw(plan, 9, seed=1, samples=3), draw(plan, 9, seed=1, samples=500)
    >>> bool((few.factor == many.factor[:3]).all() and (few.people == many.people[:3]).all())
    True
    """
    return Fates(
        _factors(problem, seed, samples),
        _arrivals(problem, seed, samples),
        _attendance(problem, sessions, seed, samples),
    )


def _stream(seed: int, *name: Hashable) -> np.random.Generator:
    """Open the stream of one thing, whatever else there is."""
    import numpy as np

    key = int.from_bytes(blake2b(repr(name).encode(), digest_size=8).digest(), "little")
    return np.random.Generator(np.random.PCG64(np.random.SeedSequence([seed, key])))


def _normal(seed: int, samples: int, *name: Hashable) -> NDArray[np.float32]:
    import numpy as np

    return _stream(seed, *name).standard_normal(samples, dtype=np.float32)


def _share(
    seed: int, samples: int, name: str, mean: float, weight: float
) -> NDArray[np.float32] | float:
    """Draw a share that is itself not surely known; the share as it stands when it is."""
    import numpy as np

    if weight <= 0 or not 0.0 < mean < 1.0:
        return mean
    drawn = _stream(seed, "share", name).beta(mean * weight, (1 - mean) * weight, samples)
    return drawn.astype(np.float32)


@dataclass(frozen=True, slots=True)
class Paces:
    """The luck that jobs share, drawn.

    Parameters
    ----------
    wider : array of float32, shape (samples,), or float
        How much wider hours spread than the three hours say. [-]
    common : array of float32, shape (samples,)
        How far the common pace lies from what is believed, as a logarithm. [-]
    of_system : dict of str to array of float32, shape (samples,)
        The same for each system, the common part included. [-]
    """

    wider: NDArray[np.float32] | float
    common: NDArray[np.float32]
    of_system: dict[str, NDArray[np.float32]]


def draw_paces(problem: PlanProblem, *, seed: int, samples: int) -> Paces:
    """Draw the paces alone, as `draw` draws them.

    Parameters
    ----------
    problem : PlanProblem
        For its jobs' systems, its paces and its luck.
    seed, samples : int
        As for `draw`.
    """
    return _paces(problem.jobs, problem.paces, _hours_luck(problem.luck), seed, samples)


def _hours_luck(luck: Luck) -> Luck:
    """Keep of the luck only what hours depend on."""
    return Luck(
        luck.pace_spread,
        luck.system_spread,
        spread_shape=luck.spread_shape,
        spread_scale=luck.spread_scale,
    )


def _paces(
    jobs: tuple[PlanJob, ...], paces: tuple[Pace, ...], luck: Luck, seed: int, samples: int
) -> Paces:
    import numpy as np

    wider: NDArray[np.float32] | float = 1.0
    if luck.spread_shape > 0:
        gamma = _stream(seed, "spread").standard_gamma(luck.spread_shape, samples)
        wider = np.sqrt(luck.spread_scale / gamma).astype(np.float32)
    known = {pace.system: pace for pace in paces}
    doubt = known[""].spread if "" in known else None
    common = _normal(seed, samples, "pace") * np.float32(
        luck.pace_spread if doubt is None else doubt
    )
    common *= wider
    of_system: dict[str, NDArray[np.float32]] = {}
    for system in dict.fromkeys(job.system for job in jobs):
        pace = known.get(system) if system else None
        own = luck.system_spread if pace is None or pace.spread is None else pace.spread
        of_system[system] = _normal(seed, samples, "pace", system) * np.float32(own)
        of_system[system] *= wider
        of_system[system] += common * np.float32(1.0 if pace is None else pace.common_share)
    return Paces(wider, common, of_system)


def _factors(problem: PlanProblem, seed: int, samples: int) -> NDArray[np.float32]:
    asked = (problem.jobs, problem.paces, _hours_luck(problem.luck), seed, samples)
    if len(problem.jobs) * samples > MOST_KEPT:
        return _factors_drawn(*asked)
    return _factors_kept(*asked)


def _factors_drawn(
    jobs: tuple[PlanJob, ...], paces: tuple[Pace, ...], luck: Luck, seed: int, samples: int
) -> NDArray[np.float32]:
    import numpy as np

    drawn = _paces(jobs, paces, luck, seed, samples)
    out = np.empty((len(jobs), samples), dtype=np.float32)
    for index, job in enumerate(jobs):
        own = _normal(seed, samples, "hours", job.id)
        below, above = spreads(job)
        if job.minutes_done:
            _not_over_yet(job, paces, drawn, own, seed)
        own *= np.where(own < 0, np.float32(below), np.float32(above))
        own *= drawn.wider
        own += drawn.of_system[job.system]
        np.exp(own, out=out[index])
    return np.ascontiguousarray(out.T)


_factors_kept = lru_cache(maxsize=2)(_factors_drawn)
"""Levers ask for the same luck again and again, and drawing it costs as much as the walk."""


def _not_over_yet(
    job: PlanJob,
    paces: tuple[Pace, ...],
    drawn: Paces,
    own: NDArray[np.float32],
    seed: int,
) -> None:
    """Draw the luck of a begun job again where it would have been over by now.

    What is left of a job that was worked on for long is what is left of such jobs, not of all.
    """
    import numpy as np

    done = np.float32(log(job.minutes_done / min(paced_minutes(paces, job).values())))
    below, above = spreads(job)
    since = (done - drawn.of_system[job.system]) / drawn.wider
    least = np.where(since < 0, since / max(below, 1e-3), since / max(above, 1e-3))
    for turn in range(MOST_TURNS):
        over = own <= least
        if not over.any():
            return
        own[over] = _normal(seed, len(own), "hours", job.id, turn)[over]
    # The far tail of a normal distribution falls off like an exponential one of this rate.
    over = own <= least
    tail = _stream(seed, "hours", job.id, "tail").standard_exponential(len(own))
    own[over] = (least + tail / np.maximum(least, 1.0))[over].astype(np.float32)


def _arrivals(problem: PlanProblem, seed: int, samples: int) -> NDArray[np.int64]:
    import numpy as np

    out = np.empty((samples, len(problem.arrivals)), dtype=np.int64)
    sources: dict[str, _Source] = {}
    for index, arrival in enumerate(problem.arrivals):
        believed = arrival.belief
        if believed is None:
            source = _Source(arrival.late_share, arrival.late_mean_days, 0.0, 0.0)
        elif believed.name in sources:
            source = sources[believed.name]
        else:
            source = sources[believed.name] = _source(seed, samples, believed)
        late = _stream(seed, "part", arrival.id).random(samples)
        delay = _stream(seed, "delay", arrival.id).exponential(size=samples)
        delay *= source.late_days * DAY_MINUTES
        if not _overdue(arrival):
            delay[late >= source.late] = 0.0
        delay += _again(seed, samples, arrival.id, source)
        begin = 0 if _overdue(arrival) else expected_arrival(arrival)
        out[:, index] = begin + np.ceil(delay)
    return out


@dataclass(frozen=True, slots=True)
class _Source:
    """What one source is like, in each fate."""

    late: NDArray[np.float64] | float
    late_days: NDArray[np.float64] | float
    wrong: NDArray[np.float64] | float
    again_days: float


def _source(seed: int, samples: int, believed: SourceBelief) -> _Source:
    """Draw what a source is like: all that comes from it shares this."""
    name = believed.name
    return _Source(
        _stream(seed, "late", name).beta(believed.late.yes, believed.late.no, samples),
        believed.delay.days
        / _stream(seed, "slow", name).standard_gamma(believed.delay.shape, samples),
        _stream(seed, "wrong", name).beta(believed.wrong.yes, believed.wrong.no, samples),
        believed.lead_days,
    )


def _again(seed: int, samples: int, part: str, source: _Source) -> NDArray[np.float64]:
    """Draw how long it takes to have a part right that comes wrong, perhaps more than once."""
    import numpy as np

    if source.again_days <= 0:
        return np.zeros(samples)
    luck = _stream(seed, "right", part).random(samples)
    # So many wrong ones in a row: the inverse of the geometric distribution.
    wrong = np.clip(source.wrong, 1e-9, 0.95)
    times = np.minimum(MOST_WRONG, np.floor(np.log1p(-luck) / np.log(wrong)))
    minutes: NDArray[np.float64] = times * source.again_days * DAY_MINUTES
    return minutes


def _overdue(arrival: Arrival) -> bool:
    return arrival.expected_minute is not None and arrival.expected_minute <= 0


def _attendance(problem: PlanProblem, sessions: int, seed: int, samples: int) -> NDArray[np.int8]:
    origin = int(problem.origin.timestamp()) // 60
    slots = tuple(
        (origin + slot.start_minute, slot.people, slot.certain)
        for slot in problem.sessions.first(sessions)
    )
    luck = Luck(
        lost_week_share=problem.luck.lost_week_share,
        lost_session_share=problem.luck.lost_session_share,
        no_show_share=problem.luck.no_show_share,
        lost_week_weight=problem.luck.lost_week_weight,
        lost_session_weight=problem.luck.lost_session_weight,
        no_show_weight=problem.luck.no_show_weight,
    )
    asked = (slots, luck, seed, samples)
    if len(slots) * samples > MOST_KEPT:
        return _attendance_drawn(*asked)
    return _attendance_kept(*asked)


def _attendance_drawn(
    slots: tuple[tuple[int, int, bool], ...], luck: Luck, seed: int, samples: int
) -> NDArray[np.int8]:
    import numpy as np

    lost_week = _share(seed, samples, "week", luck.lost_week_share, luck.lost_week_weight)
    lost_one = _share(seed, samples, "session", luck.lost_session_share, luck.lost_session_weight)
    no_show = _share(seed, samples, "helper", luck.no_show_share, luck.no_show_weight)
    lost_weeks: dict[int, NDArray[np.bool_]] = {}
    out = np.empty((len(slots), samples), dtype=np.int8)
    for index, (at, people, certain) in enumerate(slots):
        out[index] = people
        if certain:
            continue
        # Minutes are counted from a Thursday; weeks begin on Monday.
        week = (at + 3 * DAY_MINUTES) // WEEK_MINUTES
        if week not in lost_weeks:
            drawn = _stream(seed, "week", week).random(samples, dtype=np.float32)
            lost_weeks[week] = drawn < lost_week
        lost = _stream(seed, "session", at).random(samples, dtype=np.float32) < lost_one
        if people > 1:
            alone = _stream(seed, "helper", at).random(samples, dtype=np.float32)
            out[index][alone < no_show] = 1
        out[index][lost | lost_weeks[week]] = 0
    return np.ascontiguousarray(out.T)


_attendance_kept = lru_cache(maxsize=2)(_attendance_drawn)
