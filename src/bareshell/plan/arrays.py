"""A plannable problem laid out flat, in a few tables of whole numbers, for the compiled walk.

Every type is fixed (64-bit whole numbers), so the walk is compiled once. Jobs come first and then
the gates, as nodes without duration.
"""

from __future__ import annotations

from math import floor
from typing import TYPE_CHECKING, NamedTuple

from bareshell.plan import columns as col
from bareshell.plan.hours import least_left, planned_minutes, total_minutes
from bareshell.plan.network import network
from bareshell.plan.problem import COLD_DOUBLING_C, COLD_REFERENCE_C, Arrival, PlanJob, PlanProblem
from bareshell.plan.sessions import BESIDE, SessionSlot
from bareshell.plan.supports import ChangeTimes, change_times, tight_jobs

if TYPE_CHECKING:
    from numpy import int64
    from numpy.typing import NDArray

    Ints = NDArray[int64]

__all__ = [
    "ANY_TEMPERATURE",
    "UNKNOWN_TEMPERATURE",
    "Arrays",
    "arrays",
    "cold_stretch_thousandths",
    "expected_arrival",
    "horizon",
]

ANY_TEMPERATURE = -1_000_000
"""The lowest temperature of a job that has none. [thousandths of a degC]"""

UNKNOWN_TEMPERATURE = 1_000_000
"""The temperature of a session that nobody knows: it blocks nothing. [thousandths of a degC]"""

DAY_MINUTES = 24 * 60


class Arrays(NamedTuple):
    """The tables; their columns are named in `bareshell.plan.columns`."""

    nodes: Ints
    edges: Ints
    wanted: Ints  # the parts that jobs want, end to end
    sessions: Ints
    change: Ints  # (2, b, s, s) minutes, alone and helped; -1 when it cannot be done
    given: Ints  # how the car stands, the body, minutes past the end
    arrives: Ints  # when each part is expected
    jobs: int  # how many of the nodes are jobs


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
    return int(1000 * 2.0 ** ((COLD_REFERENCE_C - coldest) / COLD_DOUBLING_C) + 0.5)


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
    >>> flat.nodes[:1, col.LEFT_1].tolist(), flat.sessions[:2, col.BEGINS].tolist()
    ([60], [75, 10155])
    """
    import numpy as np

    times = change_times(problem)
    slots = problem.sessions.first(sessions or horizon(problem))
    nodes, edges, wanted = _network_tables(problem, times)
    return Arrays(
        nodes,
        edges,
        wanted,
        _session_table(problem, slots),
        np.array([times.alone, times.helped], dtype=np.int64),
        np.array(
            (times.names.index(problem.support), times.row(), problem.stay_up_minutes),
            dtype=np.int64,
        ),
        np.array([expected_arrival(arrival) for arrival in problem.arrivals], dtype=np.int64),
        len(problem.jobs),
    )


def _thousandths(celsius: float | None, unknown: int) -> int:
    return unknown if celsius is None else floor(celsius * 1000 + 0.5)


def _network_tables(problem: PlanProblem, times: ChangeTimes) -> tuple[Ints, Ints, Ints]:
    """Write out the nodes, the edges that leave them and the parts they want."""
    import numpy as np

    graph = network(problem)
    nodes = np.zeros((graph.size + 1, col.NODE_COLUMNS), dtype=np.int64)
    first = []
    for node, incoming in enumerate(graph.leading_in()):
        # What nothing comes before comes after the beginning, the last node.
        nodes[node, col.PREDECESSORS] = max(1, len(incoming))
        if not incoming:
            first.append((node, 0, 0))
    edges: list[tuple[int, int, int]] = []
    for node, outgoing in enumerate(graph.leading_out()):
        nodes[node, col.SUCC_FROM] = len(edges)
        edges.extend((e.after, e.wait_minutes, int(e.stretch)) for e in outgoing)
        nodes[node, col.SUCC_TO] = len(edges)
    nodes[graph.size, col.SUCC_FROM] = len(edges)
    edges.extend(first)
    nodes[graph.size, col.SUCC_TO] = len(edges)
    bit = {name: 1 << index for index, name in enumerate(times.names)}
    part_at = {arrival.id: index for index, arrival in enumerate(problem.arrivals)}
    goal = set(problem.goal) or {job.id for job in problem.jobs}
    tight = tight_jobs(problem)
    wanted: list[int] = []
    for node, job in enumerate(problem.jobs):
        row = nodes[node]
        _write_job(problem, job, row)
        row[col.SUPPORTS] = sum(bit[name] for name in job.supports or ())
        row[col.BODY_BEGINS] = times.row(job.body_begins)
        row[col.BODY_ENDS] = times.row(job.body_ends)
        row[col.GOAL] = job.id in goal
        row[col.TIGHT] = node in tight
        row[col.START_FROM] = len(wanted)
        wanted.extend(part_at[part] for part in job.parts_to_start)
        row[col.START_TO] = row[col.FINISH_FROM] = len(wanted)
        wanted.extend(part_at[part] for part in job.parts_to_finish)
        row[col.FINISH_TO] = len(wanted)
    edge_table = np.array(edges, dtype=np.int64).reshape(len(edges), col.EDGE_COLUMNS)
    return nodes, edge_table, np.array(wanted, dtype=np.int64)


def _write_job(problem: PlanProblem, job: PlanJob, row: Ints) -> None:
    planned = planned_minutes(problem, job)
    for people, total in total_minutes(problem, job).items():
        row[(col.TOTAL_1, col.TOTAL_2)[people - 1]] = total
        row[(col.LEFT_1, col.LEFT_2)[people - 1]] = planned[people]
        row[(col.LEAST_1, col.LEAST_2)[people - 1]] = least_left(total)
    row[col.DONE] = job.minutes_done
    row[col.STARTED] = job.started
    row[col.SPLIT] = job.splittable
    row[col.PIECE] = job.least_piece_minutes
    row[col.LEAST_TEMPERATURE] = _thousandths(job.min_temperature_c, ANY_TEMPERATURE)
    row[col.CURE] = job.cure_minutes if job.min_temperature_c is not None else 0
    row[col.CURE_STRETCHES] = job.cure_stretches
    row[col.HELPER_TAKES] = 2 if job.helper_alone else int(not job.dangerous_alone)
    row[col.EARLIEST] = job.earliest_minute


def _session_table(problem: PlanProblem, slots: tuple[SessionSlot, ...]) -> Ints:
    import numpy as np

    rows = [
        (
            slot.start_minute,
            slot.start_minute + problem.set_up_minutes,
            slot.end_minute - problem.clear_up_minutes,
            slot.people,
            _thousandths(slot.temperature_c, UNKNOWN_TEMPERATURE),
            _thousandths(slot.coldest_c, UNKNOWN_TEMPERATURE),
            cold_stretch_thousandths(slot),
            BESIDE.index(slot.beside) if slot.people > 1 else 0,
        )
        for slot in slots
    ]
    return np.array(rows, dtype=np.int64).reshape(len(rows), col.SESSION_COLUMNS)
