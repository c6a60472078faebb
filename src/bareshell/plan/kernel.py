"""The compiled walk: the same policy as in `walk`, over tables, for thousands of fates.

Nothing here imports the compiler: these are plain functions in the subset of Python that it
takes, and `bareshell.plan.compiled` compiles them. They call one another by name, the callee
above the caller. Ties go to the lower job number, and all sums are whole numbers, so the answer
is the same on any number of threads.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    BEFORE,
    BEFORE_THIS,
    BEGINS,
    BEGUN_AT,
    BOUND_JOB,
    BOUND_KIND,
    BOUND_LOST,
    BOUND_PART,
    ENDS,
    FINISH,
    FINISH_FIRST,
    FINISH_PART,
    FINISH_READY,
    FINISHED_AT,
    FIRST_COUNT,
    GOAL,
    GOAL_LEFT,
    HELPER_FIRST,
    LAST_JOB,
    LEFT_AT,
    LEFT_JOB,
    LEFT_PEOPLE,
    LEFT_SESSION,
    NEXT_EVENT,
    OPEN_COUNT,
    PEOPLE,
    PREDECESSORS,
    READY,
    RELEASED_JOB,
    STAY_UP,
    STRETCH_BY,
    SUPPORT,
    TIGHT,
    TIGHT_COUNT,
    WORK_END,
)
from bareshell.plan.kernel_jobs import (
    JOB_KERNEL,
    close_job,
    offer,
    open_job,
    pick_way,
    planned_left,
    release_after,
    score,
    work,
)
from bareshell.plan.policy import COMES_FIRST

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Factors = NDArray[np.float32]

__all__ = ["KERNEL", "SHARED", "run"]


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
    end: int,
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
    soonest = end
    for at in range(scalars[OPEN_COUNT]):
        job = opened[at]
        if in_order and best >= 0 and priority[job] + bonus < best_score:
            break
        if best < 0 and moved == 0:
            soonest = sooner_event(nodes, state, job, now, people, soonest)
        if state[job, READY] > now:
            continue
        kept, way, target, change, minutes, whole = offer(
            nodes, sessions, changes, state, scalars[SUPPORT], job, now, session, people, end, moved
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


def wanted_next(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    priority: Ints,
    knobs: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    session: int,
) -> tuple[int, int]:
    """What the next session would begin with, if the car stood as it wants; -1 for nothing."""
    following = session + 1
    if following >= sessions.shape[0]:
        return -1, 0
    pick = choose(
        nodes, sessions, changes, priority, knobs, state, scalars, opened,
        -1, sessions[following, BEGINS], following, sessions[following, PEOPLE],
        sessions[following, ENDS], 1,
    )  # fmt: skip
    return pick[0], pick[2]


def enter(
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
) -> None:
    """Begin a session, keeping time for a move without which the next session is lost."""
    scalars[BEFORE_THIS] = -1
    scalars[WORK_END] = sessions[session, ENDS]
    if scalars[TIGHT_COUNT] > 0:
        job, target = wanted_next(
            nodes, sessions, changes, priority, knobs, state, scalars, opened, session
        )
        if job >= 0 and nodes[job, TIGHT] > 0 and target != scalars[SUPPORT]:
            kept = max(0, changes[people - 1, scalars[SUPPORT], target])
            scalars[WORK_END] = max(now, sessions[session, ENDS] - kept)


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
    room = int(sessions[session, ENDS]) - now
    support = scalars[SUPPORT]
    quickest = -1
    for target in range(changes.shape[1]):
        minutes = int(changes[people - 1, support, target])
        if target != support and minutes >= 0 and (quickest < 0 or minutes < quickest):
            quickest = minutes
    if quickest < 0 or quickest > room or room <= 0:
        return now
    job, target = wanted_next(
        nodes, sessions, changes, priority, knobs, state, scalars, opened, session
    )
    if job < 0 or target == support:
        return now
    minutes = int(changes[people - 1, support, target])
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
    now = int(max(sessions[session, BEGINS], scalars[LEFT_AT]))
    if people == 0 or now >= sessions[session, ENDS]:
        return
    began = now
    turn = 0
    enter(nodes, sessions, changes, priority, knobs, state, scalars, opened, now, session, people)
    end = int(scalars[WORK_END])
    while now < end:
        asked = forced[turn] if session == 0 and turn < forced.shape[0] else -1
        pick = choose(
            nodes, sessions, changes, priority, knobs, state, scalars, opened,
            asked, now, session, people, end, 0,
        )  # fmt: skip
        job = pick[0]
        if job < 0:
            if scalars[NEXT_EVENT] >= end:
                break
            now = int(scalars[NEXT_EVENT])
            continue
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
    now = leave_ready(
        nodes, sessions, changes, priority, knobs, state, scalars, opened, now, session, people
    )
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
    scalars[TIGHT_COUNT] = 0
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
    *JOB_KERNEL,
    sooner_event,
    choose,
    wanted_next,
    enter,
    leave_ready,
    go_through,
    begin_walk,
    count_chain,
    run,
)
"""Every function, each after those it calls."""

SHARED = (wanted_next, run)
"""The functions that are compiled once and called; every other is laid into its callers."""
