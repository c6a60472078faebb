"""What may happen: how long each job really takes, when parts come, which sessions are lost.

All random numbers are drawn here, outside the walk, so that neither the engine nor the number of
threads can change an answer. Each job, part, session and week has a stream of its own, named by
its key or its date: when a job is finished or a part arrives, everything else keeps its luck, and
two what-ifs differ only by what was changed.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from hashlib import blake2b
from typing import TYPE_CHECKING

from bareshell.plan.arrays import DAY_MINUTES, expected_arrival
from bareshell.plan.hours import spreads
from bareshell.plan.problem import Arrival, PlanProblem
from bareshell.plan.sessions import WEEK_MINUTES

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Fates", "as_planned", "draw"]


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


def _factors(problem: PlanProblem, seed: int, samples: int) -> NDArray[np.float32]:
    import numpy as np

    def normal(*name: Hashable) -> NDArray[np.float32]:
        return _stream(seed, *name).standard_normal(samples, dtype=np.float32)

    luck = problem.luck
    common = normal("pace") * np.float32(luck.pace_spread)
    pace = {
        system: common + normal("pace", system) * np.float32(luck.system_spread)
        for system in {job.system for job in problem.jobs}
    }
    out = np.empty((len(problem.jobs), samples), dtype=np.float32)
    for index, job in enumerate(problem.jobs):
        own = normal("hours", job.id)
        below, above = spreads(job)
        own *= np.where(own < 0, np.float32(below), np.float32(above))
        own += pace[job.system]
        np.exp(own, out=out[index])
    return np.ascontiguousarray(out.T)


def _arrivals(problem: PlanProblem, seed: int, samples: int) -> NDArray[np.int64]:
    import numpy as np

    out = np.empty((samples, len(problem.arrivals)), dtype=np.int64)
    for index, arrival in enumerate(problem.arrivals):
        stream = _stream(seed, "part", arrival.id)
        late = stream.random(samples)
        delay = _stream(seed, "delay", arrival.id).exponential(size=samples)
        delay *= arrival.late_mean_days * DAY_MINUTES
        if _overdue(arrival):
            out[:, index] = np.ceil(delay)
        else:
            on_time = late >= arrival.late_share
            out[:, index] = expected_arrival(arrival) + np.where(on_time, 0, np.ceil(delay))
    return out


def _overdue(arrival: Arrival) -> bool:
    return arrival.expected_minute is not None and arrival.expected_minute <= 0


def _attendance(problem: PlanProblem, sessions: int, seed: int, samples: int) -> NDArray[np.int8]:
    import numpy as np

    luck = problem.luck
    origin = int(problem.origin.timestamp()) // 60
    lost_weeks: dict[int, NDArray[np.bool_]] = {}
    slots = problem.sessions.first(sessions)
    out = np.empty((len(slots), samples), dtype=np.int8)
    for index, slot in enumerate(slots):
        out[index] = slot.people
        if slot.certain:
            continue
        at = origin + slot.start_minute
        # Minutes are counted from a Thursday; weeks begin on Monday.
        week = (at + 3 * DAY_MINUTES) // WEEK_MINUTES
        if week not in lost_weeks:
            drawn = _stream(seed, "week", week).random(samples, dtype=np.float32)
            lost_weeks[week] = drawn < luck.lost_week_share
        stream = _stream(seed, "session", at)
        lost = stream.random(samples, dtype=np.float32) < luck.lost_session_share
        if slot.people > 1:
            alone = _stream(seed, "helper", at).random(samples, dtype=np.float32)
            out[index][alone < luck.no_show_share] = 1
        out[index][lost | lost_weeks[week]] = 0
    return np.ascontiguousarray(out.T)
