"""The compiled walk: the same policy as in `walk`, over tables, for thousands of fates.

Nothing here imports the compiler: these are plain functions in the subset of Python that it
takes, and `bareshell.plan.compiled` compiles them. They call one another by name, the callee
above the caller. Ties go to the lower job number, and all sums are whole numbers, so the answer
is the same on any number of threads.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    AFTER,
    BEFORE,
    BEFORE_THIS,
    BEGINS,
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
    NEXT_EVENT,
    OPEN_COUNT,
    OWNER,
    PART,
    PEOPLE,
    PIECE,
    PLANNED,
    PREDECESSORS,
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
    STRETCH_BY,
    SUCC_FROM,
    SUCC_TO,
    SUPPORT,
    SUPPORTS,
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

__all__ = ["KERNEL", "run"]


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
    room = int(sessions[session, ENDS]) - begin
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
    end = sessions[session, ENDS]
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


def sooner_event(nodes: Ints, state: Ints, job: int, now: int, people: int, soonest: int) -> int:
    """The next moment at which this job could begin, if that is sooner."""
    moment = int(state[job, READY])
    if now < moment < soonest:
        soonest = moment
    if state[job, FINISH_READY] > now:
        way = pick_way(nodes, state, job, people)
        if way > 0:
            moment = int(state[job, FINISH_READY]) - planned_left(nodes, state, job, way)
            if now < moment < soonest:
                soonest = moment
    return soonest


def choose(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    priority: Ints,
    knobs: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    asked: int,
    now: int,
    session: int,
    people: int,
    moved: int,
) -> tuple[int, int, int, int, int, int]:
    """The best of what can begin now, with what `offer` says of it; job -1 when nothing can.

    Then NEXT_EVENT is when something may be able to, if that is within the session.
    """
    best, best_score = -1, 0
    best_way, best_target, best_change, best_minutes, best_whole = 0, 0, 0, 0, 0
    bonus = knobs[FINISH_FIRST] + (knobs[HELPER_FIRST] if people > 1 else 0)
    # The list is in order of weight: what comes too late to win need not be looked at.
    in_order = asked < 0 and scalars[FIRST_COUNT] == 0
    soonest = int(sessions[session, ENDS])
    for at in range(scalars[OPEN_COUNT]):
        job = opened[at]
        if in_order and best >= 0 and priority[job] + bonus < best_score:
            break
        if best < 0 and moved == 0:
            soonest = sooner_event(nodes, state, job, now, people, soonest)
        if state[job, READY] > now:
            continue
        kept, way, target, change, minutes, whole = offer(
            nodes, sessions, changes, state, scalars[SUPPORT], job, now, session, people, moved
        )
        if kept > 0:
            continue
        value = score(nodes, state, priority, knobs, job, change, people)
        if job == asked:
            value = 4 * COMES_FIRST
        if best < 0 or value > best_score or (value == best_score and job < best):
            best, best_score = job, value
            best_way, best_target, best_change = way, target, change
            best_minutes, best_whole = minutes, whole
    scalars[NEXT_EVENT] = soonest
    return best, best_way, best_target, best_change, best_minutes, best_whole


def leave_ready(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    priority: Ints,
    knobs: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    now: int,
    session: int,
    people: int,
) -> int:
    """Use the time that is left to put the car as the next session will want it."""
    following = session + 1
    room = int(sessions[session, ENDS]) - now
    quickest = -1
    for target in range(changes.shape[1]):
        minutes = int(changes[people - 1, scalars[SUPPORT], target])
        if target != scalars[SUPPORT] and minutes >= 0 and (quickest < 0 or minutes < quickest):
            quickest = minutes
    if following >= sessions.shape[0] or quickest < 0 or quickest > room:
        return now
    pick = choose(
        nodes, sessions, changes, priority, knobs, state, scalars, opened,
        -1, sessions[following, BEGINS], following, sessions[following, PEOPLE], 1,
    )  # fmt: skip
    target = pick[2]
    if pick[0] < 0 or target == scalars[SUPPORT]:
        return now
    minutes = int(changes[people - 1, scalars[SUPPORT], target])
    if minutes < 0 or minutes > room:
        return now
    scalars[SUPPORT] = target
    return now + minutes


def go_through(
    nodes: Ints,
    edges: Ints,
    wanted: Ints,
    sessions: Ints,
    changes: Ints,
    priority: Ints,
    knobs: Ints,
    forced: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    factor: Factors,
    arrives: Ints,
    people: int,
    session: int,
) -> None:
    """Go through one session."""
    end = int(sessions[session, ENDS])
    now = int(max(sessions[session, BEGINS], scalars[LEFT_AT]))
    if people == 0 or now >= end:
        return
    began = now
    turn = 0
    scalars[BEFORE_THIS] = -1
    while now < end:
        asked = forced[turn] if session == 0 and turn < forced.shape[0] else -1
        pick = choose(
            nodes, sessions, changes, priority, knobs, state, scalars, opened,
            asked, now, session, people, 0,
        )  # fmt: skip
        job = pick[0]
        if job >= 0:
            turn += job == asked
            now, finished = work(nodes, sessions, state, scalars, factor, pick, now, began, session)
            if finished:
                close_job(nodes, state, scalars, opened, job, now)
                if scalars[GOAL_LEFT] == 0:
                    return
                release_after(
                    nodes, edges, wanted, priority, state, scalars, opened, gates, arrives,
                    job, now, sessions[session, STRETCH_BY],
                )  # fmt: skip
            continue
        if scalars[NEXT_EVENT] >= end:
            now = leave_ready(
                nodes, sessions, changes, priority, knobs, state, scalars, opened,
                now, session, people,
            )  # fmt: skip
            break
        now = int(scalars[NEXT_EVENT])
    scalars[LEFT_SESSION] = session
    scalars[LEFT_AT] = now
    scalars[LEFT_PEOPLE] = people
    scalars[LEFT_JOB] = scalars[BEFORE_THIS]


def begin_walk(
    nodes: Ints,
    edges: Ints,
    wanted: Ints,
    support: int,
    stay_up: int,
    priority: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    arrives: Ints,
) -> None:
    """Set the tables to the beginning."""
    jobs = opened.shape[0]
    state[:] = 0
    scalars[:] = -1
    scalars[SUPPORT] = support
    scalars[STAY_UP] = stay_up
    scalars[OPEN_COUNT] = 0
    scalars[FIRST_COUNT] = 0
    scalars[LEFT_AT] = 0
    scalars[GOAL_LEFT] = 0
    for node in range(state.shape[0]):
        state[node, BEFORE] = nodes[node, PREDECESSORS]
        state[node, RELEASED_JOB] = -1
        state[node, FINISH_PART] = -1
        state[node, BEGUN_AT] = -1
        state[node, FINISHED_AT] = -1
        state[node, BOUND_JOB] = -1
        state[node, BOUND_PART] = -1
        scalars[GOAL_LEFT] += nodes[node, GOAL]
    for node in range(state.shape[0]):
        if nodes[node, PREDECESSORS] == 0:
            if node < jobs:
                open_job(nodes, wanted, priority, state, scalars, opened, arrives, node)
            else:
                release_after(
                    nodes,
                    edges,
                    wanted,
                    priority,
                    state,
                    scalars,
                    opened,
                    gates,
                    arrives,
                    node,
                    0,
                    1000,
                )


def count_chain(
    state: Ints,
    last_job: int,
    kind_minutes: Ints,
    kind_samples: Ints,
    job_samples: Ints,
    part_samples: Ints,
    part_minutes: Ints,
) -> None:
    """Follow what bound the finish back to the beginning and count it."""
    job = last_job
    seen = 0
    steps = 0
    while job >= 0 and steps <= job_samples.shape[0]:
        kind = state[job, BOUND_KIND]
        lost = state[job, BOUND_LOST]
        job_samples[job] += 1
        kind_minutes[kind] += lost
        if (seen >> kind) & 1 == 0:
            kind_samples[kind] += 1
            seen |= 1 << kind
        part = state[job, BOUND_PART]
        if part >= 0:
            part_samples[part] += 1
            part_minutes[part] += lost
        job = state[job, BOUND_JOB]
        steps += 1


def run(
    nodes: Ints,
    edges: Ints,
    wanted: Ints,
    sessions: Ints,
    changes: Ints,
    support: int,
    stay_up: int,
    priority: Ints,
    knobs: Ints,
    forced: Ints,
    factor: Factors,
    arrives: Ints,
    people: NDArray[np.int8],
    finish: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    kind_minutes: Ints,
    kind_samples: Ints,
    job_samples: Ints,
    part_samples: Ints,
    part_minutes: Ints,
) -> None:
    """Walk once through each fate; finish[i] is -1 where the sessions ran out."""
    for sample in range(factor.shape[0]):
        begin_walk(
            nodes, edges, wanted, support, stay_up, priority, state, scalars, opened, gates,
            arrives[sample],
        )  # fmt: skip
        for session in range(people.shape[1]):
            if scalars[GOAL_LEFT] == 0:
                break
            go_through(
                nodes, edges, wanted, sessions, changes, priority, knobs, forced,
                state, scalars, opened, gates,
                factor[sample], arrives[sample], int(people[sample, session]), session,
            )  # fmt: skip
        finish[sample] = scalars[FINISH]
        if scalars[FINISH] >= 0:
            count_chain(
                state, scalars[LAST_JOB], kind_minutes, kind_samples, job_samples,
                part_samples, part_minutes,
            )  # fmt: skip


KERNEL = (
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
    sooner_event,
    choose,
    leave_ready,
    go_through,
    begin_walk,
    count_chain,
    run,
)
"""Every function, each after those it calls."""
