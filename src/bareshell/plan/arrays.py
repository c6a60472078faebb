"""A plannable problem laid out flat, for the compiled walk: one NumPy array for each column.

Every type is fixed (64-bit whole numbers, 64-bit floats), so the walk is compiled once. Jobs come
first and then the gates, as nodes without duration.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate, chain
from typing import TYPE_CHECKING, NamedTuple

from bareshell.plan.hours import least_left, planned_minutes, total_minutes
from bareshell.plan.network import network
from bareshell.plan.problem import COLD_DOUBLING_C, COLD_REFERENCE_C, Arrival, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.supports import change_times

if TYPE_CHECKING:
    from numpy import float64, int64
    from numpy.typing import NDArray

    Ints = NDArray[int64]
    Floats = NDArray[float64]

__all__ = [
    "ANY_TEMPERATURE",
    "UNKNOWN_TEMPERATURE",
    "Arrays",
    "CalendarColumns",
    "EdgeColumns",
    "JobColumns",
    "arrays",
    "cold_stretch_thousandths",
    "expected_arrival",
    "horizon",
]

ANY_TEMPERATURE = -1000.0
"""The lowest temperature of a job that has none. [degC]"""

UNKNOWN_TEMPERATURE = 1000.0
"""The temperature of a session that nobody knows: it blocks nothing. [degC]"""

DAY_MINUTES = 24 * 60


class JobColumns(NamedTuple):
    """The jobs, ``n`` of them.

    `total`, `left` and `least` have a row for one person and a row for two; 0 means that there is
    no such way.
    """

    total: Ints  # (2, n) planned minutes of the whole job
    left: Ints  # (2, n) planned minutes still to do
    least: Ints  # (2, n) least that is left of a begun job
    done: Ints  # (n,) minutes already worked
    started: Ints  # (n,) 1 when begun
    split: Ints  # (n,) 1 when it may be done in pieces
    piece: Ints  # (n,) shortest piece
    supports: Ints  # (n,) one bit for each support that will do; 0 when it does not mind
    least_c: Floats  # (n,) lowest temperature
    cure: Ints  # (n,) minutes the temperature must hold after the finish
    earliest: Ints  # (n,) not before
    goal: Ints  # (n,) 1 when the car is not on the road without it


class EdgeColumns(NamedTuple):
    """What comes before what, among jobs and gates, and which parts each job wants.

    A column ending in ``_at`` says where each node's entries begin in the columns of its name.
    """

    preds: Ints  # (n + g,) how many edges lead in
    succ_at: Ints  # (n + g + 1,)
    succ: Ints
    wait: Ints
    stretch: Ints
    start_at: Ints  # (n + 1,)
    start: Ints
    finish_at: Ints  # (n + 1,)
    finish: Ints


class CalendarColumns(NamedTuple):
    """The sessions, ``k`` of them."""

    starts: Ints  # (k,) of the session itself
    begins: Ints  # (k,) after setting up
    ends: Ints  # (k,) before clearing up
    people: Ints  # (k,)
    warmth: Floats  # (k,) while working
    coldest: Floats  # (k,) until the next session
    stretch: Ints  # (k,) thousandths by which a wait that begins here grows


class Arrays(NamedTuple):
    """All of it."""

    jobs: JobColumns
    edges: EdgeColumns
    calendar: CalendarColumns
    arrives: Ints  # (m,) when each part is expected
    change: Ints  # (2, s, s) minutes, alone and helped; -1 when it cannot be done
    support: int  # how the car stands now
    stay_up: int  # minutes past the end


def cold_stretch_thousandths(slot: SessionSlot) -> int:
    """Say how much longer a wait takes that begins in this session, in thousandths.

    Examples
    --------
    >>> cold_stretch_thousandths(SessionSlot(0, 60, temperature_c=9.0))
    2000
    >>> cold_stretch_thousandths(SessionSlot(0, 60, temperature_c=22.0))
    1000
    """
    coldest = slot.coldest_c
    if coldest is None or coldest >= COLD_REFERENCE_C:
        return 1000
    return round(1000 * 2.0 ** ((COLD_REFERENCE_C - coldest) / COLD_DOUBLING_C))


def expected_arrival(arrival: Arrival) -> int:
    """Say when a part is planned to be here, in minutes from the origin.

    Examples
    --------
    >>> expected_arrival(Arrival("s", "straps", expected_minute=4000))
    4000
    >>> expected_arrival(Arrival("s", "straps", expected_minute=-60, late_mean_days=2.0))
    2880
    """
    if arrival.expected_minute is None:
        return arrival.lead_minutes or 0
    if arrival.expected_minute > 0:
        return arrival.expected_minute
    return int(arrival.late_mean_days * DAY_MINUTES + 0.5)


def horizon(problem: PlanProblem) -> int:
    """Guess how many sessions the work takes, with room for bad luck.

    Whoever simulates doubles it when a run reaches the end, so a bad guess costs only time.
    """
    work = sum(min(planned_minutes(problem, job).values()) for job in problem.jobs)
    latest = max((expected_arrival(arrival) for arrival in problem.arrivals), default=0)
    enough = work * 2 + 40 * DAY_MINUTES
    count, hours = 0, 0
    for slot in problem.sessions:
        usable = slot.minutes - problem.set_up_minutes - problem.clear_up_minutes
        hours += max(usable, 0) if slot.start_minute > latest else max(usable, 0) // 2
        count += 1
        if hours >= enough or count >= 2000:
            break
    return max(count, 40)


def arrays(problem: PlanProblem, sessions: int = 0) -> Arrays:
    """Lay a plannable problem out flat.

    Parameters
    ----------
    problem : PlanProblem
        As `bareshell.plan.validate.prepare` made it.
    sessions : int
        How many sessions to write out; 0 for a guess (`horizon`).

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> flat = arrays(PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings))
    >>> flat.jobs.left.tolist(), flat.calendar.begins[:2].tolist()
    ([[60], [0]], [75, 10155])
    """
    import numpy as np

    times = change_times(problem)
    slots = problem.sessions.first(sessions or horizon(problem))
    return Arrays(
        _job_columns(problem, times.names),
        _edge_columns(problem),
        _calendar_columns(problem, slots),
        _column(expected_arrival(arrival) for arrival in problem.arrivals),
        np.array([times.alone, times.helped], dtype=np.int64),
        times.names.index(problem.support),
        problem.stay_up_minutes,
    )


def _column(values: Iterable[int]) -> Ints:
    import numpy as np

    return np.array(list(values), dtype=np.int64)


def _rows(lists: list[list[int]]) -> tuple[Ints, Ints]:
    """Lay lists end to end, with where each begins."""
    return _column(accumulate(map(len, lists), initial=0)), _column(chain.from_iterable(lists))


def _job_columns(problem: PlanProblem, supports: tuple[str, ...]) -> JobColumns:
    import numpy as np

    jobs = problem.jobs
    bit = {name: 1 << index for index, name in enumerate(supports)}
    goal = set(problem.goal) or {job.id for job in jobs}
    total = np.zeros((2, len(jobs)), dtype=np.int64)
    left = np.zeros_like(total)
    least = np.zeros_like(total)
    for index, job in enumerate(jobs):
        planned = planned_minutes(problem, job)
        for people, minutes in total_minutes(problem, job).items():
            total[people - 1, index] = minutes
            left[people - 1, index] = planned[people]
            least[people - 1, index] = least_left(minutes)
    lowest = [
        ANY_TEMPERATURE if job.min_temperature_c is None else job.min_temperature_c for job in jobs
    ]
    return JobColumns(
        total,
        left,
        least,
        done=_column(job.minutes_done for job in jobs),
        started=_column(int(job.started) for job in jobs),
        split=_column(int(job.splittable) for job in jobs),
        piece=_column(job.least_piece_minutes for job in jobs),
        supports=_column(sum(bit[name] for name in job.supports or ()) for job in jobs),
        least_c=np.array(lowest, dtype=np.float64),
        cure=_column(job.cure_minutes for job in jobs),
        earliest=_column(job.earliest_minute for job in jobs),
        goal=_column(int(job.id in goal) for job in jobs),
    )


def _edge_columns(problem: PlanProblem) -> EdgeColumns:
    graph = network(problem)
    out = graph.leading_out()
    part_at = {arrival.id: index for index, arrival in enumerate(problem.arrivals)}
    succ_at, succ = _rows([[edge.after for edge in edges] for edges in out])
    start_at, start = _rows([[part_at[p] for p in job.parts_to_start] for job in graph.jobs])
    finish_at, finish = _rows([[part_at[p] for p in job.parts_to_finish] for job in graph.jobs])
    return EdgeColumns(
        _column(map(len, graph.leading_in())),
        succ_at,
        succ,
        _column(edge.wait_minutes for edges in out for edge in edges),
        _column(int(edge.stretch) for edges in out for edge in edges),
        start_at,
        start,
        finish_at,
        finish,
    )


def _calendar_columns(problem: PlanProblem, slots: tuple[SessionSlot, ...]) -> CalendarColumns:
    import numpy as np

    def known(value: float | None) -> float:
        return UNKNOWN_TEMPERATURE if value is None else value

    return CalendarColumns(
        starts=_column(slot.start_minute for slot in slots),
        begins=_column(slot.start_minute + problem.set_up_minutes for slot in slots),
        ends=_column(slot.end_minute - problem.clear_up_minutes for slot in slots),
        people=_column(slot.people for slot in slots),
        warmth=np.array([known(slot.temperature_c) for slot in slots], dtype=np.float64),
        coldest=np.array([known(slot.coldest_c) for slot in slots], dtype=np.float64),
        stretch=_column(cold_stretch_thousandths(slot) for slot in slots),
    )
