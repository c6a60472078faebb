"""One job in the compiled walk: what is left of it, whether it can be done now, doing it.

Plain functions for the compiler, as in `bareshell.plan.kernel`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    AFTER,
    BEFORE,
    BEFORE_THIS,
    BEGUN_AT,
    BOUND_JOB,
    BOUND_KIND,
    BOUND_LOST,
    BOUND_PART,
    CARRIED,
    COLD,
    COLDEST,
    CURE,
    DATE,
    DONE,
    EARLIEST,
    ENDS,
    FINISH,
    FINISH_FIRST,
    FINISH_FROM,
    FINISH_PART,
    FINISH_READY,
    FINISH_TO,
    FINISHED_AT,
    FIRST_COUNT,
    GOAL,
    GOAL_LEFT,
    HELPER,
    HELPER_FIRST,
    JOB,
    LAST_JOB,
    LEAST_1,
    LEAST_TEMPERATURE,
    LEFT_1,
    LEFT_AT,
    LEFT_JOB,
    LEFT_PEOPLE,
    LEFT_SESSION,
    OPEN_COUNT,
    OWNER,
    PART,
    PIECE,
    PLANNED,
    READY,
    READY_JOB,
    READY_KIND,
    READY_PART,
    REAL,
    RELEASED,
    RELEASED_JOB,
    RELEASED_KIND,
    SESSION,
    SPLIT,
    START,
    START_FROM,
    START_TO,
    STARTED,
    STARTS,
    STAY_UP,
    STICKINESS,
    STRETCH,
    SUCC_FROM,
    SUCC_TO,
    SUPPORT,
    SUPPORTS,
    TIGHT,
    TIGHT_COUNT,
    TOTAL_1,
    TOTAL_2,
    WAIT,
    WAIT_MINUTES,
    WARMTH,
    WAY,
    WORK_END,
)
from bareshell.plan.policy import COMES_FIRST

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Factors = NDArray[np.float32]

__all__ = ["JOB_KERNEL"]


def planned_left(nodes: Ints, state: Ints, job: int, way: int) -> int:
    """Planned minutes left to do in this way."""
    begun = state[job, WAY]
    if begun == 0:
        return int(nodes[job, LEFT_1 + way - 1])
    if begun == way:
        return int(state[job, PLANNED])
    scaled = state[job, PLANNED] * nodes[job, TOTAL_1 + way - 1]
    return -int(-scaled // nodes[job, TOTAL_1 + begun - 1])


def real_left(nodes: Ints, state: Ints, factor: Factors, job: int, way: int) -> int:
    """Real minutes left to do in this way."""
    begun = state[job, WAY]
    total = nodes[job, TOTAL_1 + way - 1]
    if begun == 0:
        real = max(1, int(total * float(factor[job]) + 0.5))
        if nodes[job, DONE] > 0:
            real = max(real - nodes[job, DONE], nodes[job, LEAST_1 + way - 1])
        return int(real)
    if begun == way:
        return int(state[job, REAL])
    return -int(-state[job, REAL] * total // nodes[job, TOTAL_1 + begun - 1])


def pick_way(nodes: Ints, state: Ints, job: int, people: int) -> int:
    """The quicker way that these people allow; 0 when there is none."""
    alone = nodes[job, TOTAL_1] > 0
    if people > 1 and nodes[job, TOTAL_2] > 0:
        if not alone or planned_left(nodes, state, job, 2) < planned_left(nodes, state, job, 1):
            return 2
        return 1
    return 1 if alone else 0


def cheapest_change(
    nodes: Ints, changes: Ints, support: int, job: int, people: int
) -> tuple[int, int]:
    """The support that is reached soonest, and in how many minutes; -1 when none is."""
    mask = nodes[job, SUPPORTS]
    if mask == 0 or (mask >> support) & 1:
        return support, 0
    best = support
    best_minutes = -1
    for target in range(changes.shape[1]):
        if (mask >> target) & 1:
            minutes = int(changes[people - 1, support, target])
            if minutes >= 0 and (best_minutes < 0 or minutes < best_minutes):
                best = target
                best_minutes = minutes
    return best, best_minutes


def kept_from_finishing(
    nodes: Ints, sessions: Ints, state: Ints, job: int, minute: int, session: int
) -> int:
    """What would keep a job from being finished at that minute: PART, COLD, or 0."""
    if minute < state[job, FINISH_READY]:
        return PART
    cure = nodes[job, CURE]
    if cure > 0:
        for index in range(session, sessions.shape[0]):
            if sessions[index, STARTS] >= minute + cure:
                break
            if sessions[index, COLDEST] < nodes[job, LEAST_TEMPERATURE]:
                return COLD
    return 0


def offer(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    state: Ints,
    support: int,
    job: int,
    now: int,
    session: int,
    people: int,
    end: int,
    moved: int,
) -> tuple[int, int, int, int, int, int]:
    """What could be done of a job from now on.

    Gives what keeps it (0 for nothing), the people, the support, the minutes of the change, the
    planned minutes of the piece, and 1 when the piece is planned to finish the job.
    """
    way = pick_way(nodes, state, job, people)
    if way == 0:
        return HELPER, 0, 0, 0, 0, 0
    if sessions[session, WARMTH] < nodes[job, LEAST_TEMPERATURE]:
        return COLD, 0, 0, 0, 0, 0
    target, change = cheapest_change(nodes, changes, support, job, people)
    if change < 0:
        return HELPER, 0, 0, 0, 0, 0
    begin = now if moved > 0 else now + change
    room = end - begin
    planned = planned_left(nodes, state, job, way)
    piece = room
    kept_by = SESSION
    if planned <= room:
        kept_by = kept_from_finishing(nodes, sessions, state, job, begin + planned, session)
        if kept_by == 0:
            return 0, way, target, change, planned, 1
        piece = planned - min(int(nodes[job, PIECE]), planned)
    if piece >= nodes[job, PIECE] and (nodes[job, SPLIT] > 0 or state[job, CARRIED] > 0):
        return 0, way, target, change, piece, 0
    return kept_by, 0, 0, 0, 0, 0


def score(
    nodes: Ints, state: Ints, priority: Ints, knobs: Ints, job: int, change: int, people: int
) -> int:
    """How much a job is wanted next."""
    value = priority[job] - knobs[STICKINESS] * change
    if state[job, CARRIED] > 0 or (nodes[job, STARTED] > 0 and nodes[job, SPLIT] == 0):
        value += COMES_FIRST
    elif state[job, WAY] > 0 or nodes[job, STARTED] > 0:
        value += knobs[FINISH_FIRST]
    if people > 1 and nodes[job, TOTAL_1] == 0:
        value += knobs[HELPER_FIRST]
    return int(value)


def list_job(nodes: Ints, priority: Ints, scalars: Ints, opened: Ints, job: int) -> None:
    """Put a job on the list of open ones, the weightiest first, the lower number first."""
    at = scalars[OPEN_COUNT]
    while at > 0:
        other = opened[at - 1]
        if priority[other] > priority[job] or (priority[other] == priority[job] and other < job):
            break
        opened[at] = other
        at -= 1
    opened[at] = job
    scalars[OPEN_COUNT] += 1
    scalars[TIGHT_COUNT] += nodes[job, TIGHT]
    if nodes[job, STARTED] > 0 and nodes[job, SPLIT] == 0:
        scalars[FIRST_COUNT] += 1


def open_job(
    nodes: Ints,
    wanted: Ints,
    priority: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    arrives: Ints,
    job: int,
) -> None:
    """Open a job whose predecessors are done, with the minute it can begin from."""
    ready = state[job, RELEASED]
    state[job, READY_KIND] = state[job, RELEASED_KIND]
    state[job, READY_JOB] = state[job, RELEASED_JOB]
    state[job, READY_PART] = -1
    if nodes[job, EARLIEST] > ready:
        ready = nodes[job, EARLIEST]
        state[job, READY_KIND] = DATE
        state[job, READY_JOB] = -1
    for at in range(nodes[job, START_FROM], nodes[job, START_TO]):
        part = wanted[at]
        if arrives[part] > ready:
            ready = arrives[part]
            state[job, READY_KIND] = PART
            state[job, READY_JOB] = -1
            state[job, READY_PART] = part
    for at in range(nodes[job, FINISH_FROM], nodes[job, FINISH_TO]):
        part = wanted[at]
        if arrives[part] > state[job, FINISH_READY]:
            state[job, FINISH_READY] = arrives[part]
            state[job, FINISH_PART] = part
    state[job, READY] = ready
    list_job(nodes, priority, scalars, opened, job)


def release_after(
    nodes: Ints,
    edges: Ints,
    wanted: Ints,
    priority: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    arrives: Ints,
    first: int,
    minute: int,
    stretch: int,
) -> None:
    """Release what comes after a finished job, through every gate that opens with it."""
    jobs = opened.shape[0]
    gates[0] = first
    waiting = 1
    while waiting > 0:
        waiting -= 1
        source = gates[waiting]
        for at in range(nodes[source, SUCC_FROM], nodes[source, SUCC_TO]):
            after = edges[at, AFTER]
            wait = edges[at, WAIT_MINUTES]
            if edges[at, STRETCH] > 0:
                wait = -(-wait * stretch // 1000)
            moment = (minute if source < jobs else state[source, RELEASED]) + wait
            if moment > state[after, RELEASED]:
                state[after, RELEASED] = moment
                if source < jobs:
                    state[after, RELEASED_KIND] = WAIT if wait > 0 else JOB
                    state[after, RELEASED_JOB] = source
                else:
                    state[after, RELEASED_KIND] = state[source, RELEASED_KIND]
                    state[after, RELEASED_JOB] = state[source, RELEASED_JOB]
            state[after, BEFORE] -= 1
            if state[after, BEFORE] == 0:
                if after < jobs:
                    open_job(nodes, wanted, priority, state, scalars, opened, arrives, after)
                else:
                    gates[waiting] = after
                    waiting += 1


def close_job(nodes: Ints, state: Ints, scalars: Ints, opened: Ints, job: int, minute: int) -> None:
    """Take a finished job off the list."""
    state[job, FINISHED_AT] = minute
    if state[job, CARRIED] > 0 or (nodes[job, STARTED] > 0 and nodes[job, SPLIT] == 0):
        scalars[FIRST_COUNT] -= 1
    scalars[OPEN_COUNT] -= 1
    scalars[TIGHT_COUNT] -= nodes[job, TIGHT]
    gone = 0
    for at in range(scalars[OPEN_COUNT]):
        gone += opened[at] == job
        opened[at] = opened[at + gone]
    if nodes[job, GOAL] > 0:
        scalars[GOAL_LEFT] -= 1
        if scalars[GOAL_LEFT] == 0:
            scalars[FINISH] = minute
            scalars[LAST_JOB] = job


def blocked_by(nodes: Ints, sessions: Ints, state: Ints, scalars: Ints, job: int) -> int:
    """What kept a job that was ready from being done in the last session; OWNER when work did."""
    session = scalars[LEFT_SESSION]
    way = pick_way(nodes, state, job, scalars[LEFT_PEOPLE])
    if way == 0:
        return HELPER
    if sessions[session, WARMTH] < nodes[job, LEAST_TEMPERATURE]:
        return COLD
    minute = scalars[LEFT_AT] + planned_left(nodes, state, job, way)
    kept = kept_from_finishing(nodes, sessions, state, job, minute, session)
    if kept > 0:
        return kept
    return SESSION if scalars[LEFT_AT] < sessions[session, ENDS] else OWNER


def note_bound(
    nodes: Ints, sessions: Ints, state: Ints, scalars: Ints, job: int, now: int, began: int
) -> None:
    """Write down why a job that begins now did not begin sooner."""
    ready = state[job, READY]
    busy_with = scalars[BEFORE_THIS]
    kind = state[job, READY_KIND]
    cause_job = state[job, READY_JOB]
    part = state[job, READY_PART]
    if busy_with >= 0 and ready < now:
        kind, cause_job, part = OWNER, busy_with, -1
    elif ready <= began and ready < scalars[LEFT_AT]:
        kind, part = blocked_by(nodes, sessions, state, scalars, job), -1
        if kind == PART:
            cause_job, part = -1, state[job, FINISH_PART]
        elif kind in (OWNER, SESSION):
            cause_job = scalars[LEFT_JOB]
    state[job, BOUND_KIND] = kind
    state[job, BOUND_JOB] = cause_job
    state[job, BOUND_PART] = part
    state[job, BOUND_LOST] = 0
    if kind not in (START, OWNER, JOB):
        since = max(0, state[cause_job, FINISHED_AT]) if cause_job >= 0 else 0
        if kind == SESSION:
            since = scalars[LEFT_AT]
        state[job, BOUND_LOST] = max(0, now - since)


def work(
    nodes: Ints,
    sessions: Ints,
    state: Ints,
    scalars: Ints,
    factor: Factors,
    pick: tuple[int, int, int, int, int, int],
    now: int,
    began: int,
    session: int,
) -> tuple[int, bool]:
    """Do a piece of work, however long it really takes.

    Gives when the owner is free again, and whether the job is finished.
    """
    job, way, target, change, minutes, whole = pick
    begin = now + change
    planned = planned_left(nodes, state, job, way)
    real = real_left(nodes, state, factor, job, way)
    end = scalars[WORK_END]
    if whole > 0:
        finishes = real <= end - begin + scalars[STAY_UP]
        worked = max(real, state[job, FINISH_READY] - begin) if finishes else end - begin
    else:
        finishes = real <= minutes
        worked = real if finishes else minutes
        if finishes and kept_from_finishing(nodes, sessions, state, job, begin + real, session):
            finishes = False
            worked = real - 1
            if worked < 1:
                state[job, READY] = max(state[job, READY] + 1, state[job, FINISH_READY], end)
                return now, False
    if state[job, BEGUN_AT] < 0:
        note_bound(nodes, sessions, state, scalars, job, now, began)
        state[job, BEGUN_AT] = begin
    scalars[SUPPORT] = target
    scalars[BEFORE_THIS] = job
    state[job, WAY] = way
    if not finishes:
        over = nodes[job, LEAST_1 + way - 1]
        state[job, PLANNED] = planned - worked if planned > worked else over
        state[job, REAL] = real - worked
        if nodes[job, SPLIT] == 0 and state[job, CARRIED] == 0:
            state[job, CARRIED] = 1
            scalars[FIRST_COUNT] += nodes[job, STARTED] == 0
    return int(begin + worked), finishes


JOB_KERNEL = (
    planned_left,
    real_left,
    pick_way,
    cheapest_change,
    kept_from_finishing,
    offer,
    score,
    list_job,
    open_job,
    release_after,
    close_job,
    blocked_by,
    note_bound,
    work,
)
"""Every function, each after those it calls."""
