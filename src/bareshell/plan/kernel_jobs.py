"""One job in the compiled walk: what is left of it, whether it can be done now, doing it.

Plain functions for the compiler, as in `bareshell.plan.kernel`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    AFTER,
    BEFORE,
    BESIDE,
    BODY,
    BODY_BEGINS,
    BODY_ENDS,
    CAR_HELD,
    CAR_STANDS,
    CARRIED,
    COLD,
    COLDEST,
    CURE,
    CURE_STRETCHES,
    DATE,
    DONE,
    EARLIEST,
    FINISH,
    FINISH_FIRST,
    FINISH_FROM,
    FINISH_PART,
    FINISH_READY,
    FINISH_TO,
    FIRST_COUNT,
    GOAL,
    GOAL_LEFT,
    HELPER_FIRST,
    HELPER_TAKES,
    JOB,
    LAST_OF_GOAL,
    LAST_PIECE,
    LEAST_1,
    LEAST_TEMPERATURE,
    LEFT_1,
    OPEN_COUNT,
    PART,
    PIECE,
    PIECE_ENDS,
    PLANNED,
    READY,
    READY_JOB,
    READY_KIND,
    READY_PART,
    REAL,
    RELEASED,
    RELEASED_JOB,
    RELEASED_KIND,
    SPLIT,
    START_FROM,
    START_TO,
    STARTED,
    STARTS,
    STICKINESS,
    STRETCH,
    STRETCH_BY,
    SUCC_FROM,
    SUCC_TO,
    SUPPORT,
    SUPPORTS,
    TIGHT,
    TIGHT_COUNT,
    TOGETHER,
    TOTAL_1,
    TOTAL_2,
    WAIT,
    WAIT_MINUTES,
    WARMTH,
    WAY,
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


def pick_way(
    nodes: Ints, state: Ints, knobs: Ints, job: int, hands: int, lead: int, beside: int
) -> int:
    """The way that these people choose; 0 when there is none.

    A helper on their own takes only what they may; where they could do so meanwhile, two take a
    job that one could do only if that saves enough.
    """
    alone = nodes[job, TOTAL_1] > 0
    if lead > 0:
        takes = nodes[job, HELPER_TAKES]
        return 1 if alone and takes > 0 and takes + beside >= 3 else 0
    if hands > 1 and nodes[job, TOTAL_2] > 0:
        if not alone:
            return 2
        one = planned_left(nodes, state, job, 1)
        two = planned_left(nodes, state, job, 2)
        if beside > 0:
            return 2 if two * knobs[TOGETHER] <= one * 100 else 1
        return 2 if two < one else 1
    return 1 if alone else 0


def cheapest_change(
    nodes: Ints, changes: Ints, support: int, body: int, job: int, hands: int
) -> tuple[int, int]:
    """The support that is reached soonest, and in how many minutes; -1 when none is."""
    mask = nodes[job, SUPPORTS]
    if mask == 0 or (mask >> support) & 1:
        return support, 0
    best = support
    best_minutes = -1
    for target in range(changes.shape[2]):
        if (mask >> target) & 1:
            minutes = int(changes[hands - 1, body, support, target])
            if minutes >= 0 and (best_minutes < 0 or minutes < best_minutes):
                best = target
                best_minutes = minutes
    return best, best_minutes


def wait_over(sessions: Ints, minute: int, wait: int, session: int) -> int:
    """When a wait that stretches with cold is over: the coldest it meets counts for all of it."""
    by = sessions[session, STRETCH_BY]
    over = minute - (-wait * by // 1000)
    for index in range(session + 1, sessions.shape[0]):
        if sessions[index, STARTS] >= over:
            break
        if sessions[index, STRETCH_BY] > by:
            by = sessions[index, STRETCH_BY]
            over = minute - (-wait * by // 1000)
    return int(over)


def kept_from_finishing(
    nodes: Ints, sessions: Ints, state: Ints, job: int, minute: int, session: int
) -> int:
    """What would keep a job from being finished at that minute: PART, COLD, or 0."""
    if minute < state[job, FINISH_READY]:
        return PART
    cure = nodes[job, CURE]
    if cure > 0:
        over = minute + cure
        if nodes[job, CURE_STRETCHES] > 0:
            over = wait_over(sessions, minute, cure, session)
        for index in range(session, sessions.shape[0]):
            if sessions[index, STARTS] >= over:
                return 0
            if sessions[index, COLDEST] < nodes[job, LEAST_TEMPERATURE]:
                return COLD
        # The sessions written out do not reach so far: it is not known, so it is not begun.
        return COLD
    return 0


def car_allows(nodes: Ints, scalars: Ints, job: int, when: int, target: int, lead: int) -> bool:
    """Whether the car may be touched, or moved, at that moment; off the car nothing matters."""
    if nodes[job, SUPPORTS] == 0:
        return True
    if target == scalars[SUPPORT]:
        return bool(scalars[CAR_STANDS] <= when)
    return bool(lead == 0 and scalars[CAR_HELD] <= when)


def offer(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    knobs: Ints,
    state: Ints,
    scalars: Ints,
    job: int,
    when: int,
    session: int,
    hands: int,
    lead: int,
    end: int,
    moved: int,
) -> tuple[int, int, int, int, int]:
    """What could be done of a job from a moment on.

    Where `moved` is above 0 so many can put the car as is wanted before that moment.

    Gives the people (0 for nothing), the support, the minutes of the change, the planned minutes
    of the piece, and 1 when the piece is planned to finish the job.
    """
    way = pick_way(nodes, state, knobs, job, hands, lead, sessions[session, BESIDE])
    if way == 0 or sessions[session, WARMTH] < nodes[job, LEAST_TEMPERATURE]:
        return 0, 0, 0, 0, 0
    movers = moved if moved > 0 else hands
    target, change = cheapest_change(nodes, changes, scalars[SUPPORT], scalars[BODY], job, movers)
    if change < 0:
        return 0, 0, 0, 0, 0
    if moved == 0 and not car_allows(nodes, scalars, job, when, target, lead):
        return 0, 0, 0, 0, 0
    begin = when if moved > 0 else when + change
    room = end - begin
    planned = planned_left(nodes, state, job, way)
    whole_only = nodes[job, SPLIT] == 0 and state[job, CARRIED] == 0
    if planned > room and whole_only and way == 1 and hands > 1 and nodes[job, TOTAL_2] > 0:
        # One could do it alone in a longer session than this; two get it done in this one.
        way = 2
        planned = planned_left(nodes, state, job, way)
    piece = room
    if planned <= room:
        if kept_from_finishing(nodes, sessions, state, job, begin + planned, session) == 0:
            return way, target, change, planned, 1
        piece = planned - min(int(nodes[job, PIECE]), planned)
    if piece >= nodes[job, PIECE] and not whole_only:
        return way, target, change, piece, 0
    return 0, 0, 0, 0, 0


def score(
    nodes: Ints, state: Ints, priority: Ints, knobs: Ints, job: int, change: int, hands: int
) -> int:
    """How much a job is wanted next."""
    value = priority[job] - knobs[STICKINESS] * change
    if state[job, CARRIED] > 0 or (nodes[job, STARTED] > 0 and nodes[job, SPLIT] == 0):
        value += COMES_FIRST
    elif state[job, WAY] > 0 or nodes[job, STARTED] > 0:
        value += knobs[FINISH_FIRST]
    if hands > 1 and nodes[job, TOTAL_1] == 0:
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
    sessions: Ints,
    priority: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    arrives: Ints,
    first: int,
    minute: int,
    session: int,
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
            moment = (minute if source < jobs else state[source, RELEASED]) + wait
            if wait > 0 and edges[at, STRETCH] > 0:
                moment = wait_over(sessions, minute, wait, session)
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


def close_job(
    nodes: Ints, state: Ints, pieces: Ints, scalars: Ints, opened: Ints, job: int
) -> None:
    """Take a finished job off the list; the body is as it leaves it."""
    if state[job, CARRIED] > 0 or (nodes[job, STARTED] > 0 and nodes[job, SPLIT] == 0):
        scalars[FIRST_COUNT] -= 1
    scalars[OPEN_COUNT] -= 1
    scalars[TIGHT_COUNT] -= nodes[job, TIGHT]
    scalars[BODY] = (scalars[BODY] | nodes[job, BODY_BEGINS]) & ~nodes[job, BODY_ENDS]
    gone = 0
    for at in range(scalars[OPEN_COUNT]):
        gone += opened[at] == job
        opened[at] = opened[at + gone]
    if nodes[job, GOAL] > 0:
        scalars[GOAL_LEFT] -= 1
        piece = state[job, LAST_PIECE]
        if pieces[piece, PIECE_ENDS] > scalars[FINISH]:
            scalars[FINISH] = pieces[piece, PIECE_ENDS]
            scalars[LAST_OF_GOAL] = piece


JOB_KERNEL = (
    planned_left,
    real_left,
    pick_way,
    cheapest_change,
    wait_over,
    kept_from_finishing,
    car_allows,
    offer,
    score,
    list_job,
    open_job,
    release_after,
    close_job,
)
"""Every function, each after those it calls."""
