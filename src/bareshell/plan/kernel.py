"""The compiled walk: the same policy as in `walk`, over tables, for thousands of fates.

Nothing here imports the compiler: these are plain functions in the subset of Python that it
takes, and `bareshell.plan.compiled` compiles them. They call one another by name, the callee
above the caller. Ties go to the lower job number, and all sums are whole numbers, so the answer
is the same on any number of threads.

A session is gone through in phases, so that there is one place in which a job is chosen: the
compiler lays every function into its caller, and each further place would be compiled again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    BEFORE,
    BEGINS,
    BESIDE,
    BODY,
    ENDS,
    FINISH,
    FINISH_FIRST,
    FINISH_PART,
    FINISH_READY,
    FIRST_COUNT,
    GOAL,
    GOAL_LEFT,
    HELPER_FIRST,
    LAST_OF_GOAL,
    LAST_PIECE,
    LEFT_AT,
    NEXT_EVENT,
    OPEN_COUNT,
    PEOPLE,
    PIECE_AFTER,
    PIECE_COUNT,
    PIECE_ENDS,
    PIECE_KIND,
    PIECE_LOST,
    PIECE_OF,
    PIECE_PART,
    PREDECESSORS,
    READY,
    RELEASED_JOB,
    SEEN,
    STAY_UP,
    SUPPORT,
    TIGHT_COUNT,
    TOTAL_1,
    WORK_END,
)
from bareshell.plan.kernel_jobs import (
    JOB_KERNEL,
    close_job,
    offer,
    pick_way,
    planned_left,
    release_after,
    score,
)
from bareshell.plan.kernel_session import (
    SESSION_KERNEL,
    begin_session,
    handed_over,
    keep_time,
    leave_ready,
    leave_session,
    time_to_move,
    wait_on,
    whose_turn,
)
from bareshell.plan.kernel_work import WORK_KERNEL, work
from bareshell.plan.policy import COMES_FIRST

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Factors = NDArray[np.float32]

__all__ = ["KERNEL", "run"]

ENTERING, WORKING, LEAVING = 0, 1, 2


def sooner_event(
    nodes: Ints,
    sessions: Ints,
    knobs: Ints,
    state: Ints,
    job: int,
    now: int,
    session: int,
    hands: int,
    lead: int,
    soonest: int,
) -> int:
    """The next moment at which this job could begin, if that is sooner."""
    moment = int(state[job, READY])
    if now < moment < soonest:
        soonest = moment
    if state[job, FINISH_READY] > now:
        way = pick_way(nodes, state, knobs, job, hands, lead, sessions[session, BESIDE])
        if way > 0:
            moment = int(state[job, FINISH_READY]) - planned_left(nodes, state, job, way)
            if now < moment < soonest:
                soonest = moment
    return soonest


def beats(job: int, value: int, best: int, best_score: int) -> bool:
    """Whether a job is wanted more than the best so far; the lower number where both are level."""
    return best < 0 or value > best_score or (value == best_score and job < best)


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
    hands: int,
    lead: int,
    joined: int,
    end: int,
    moved: int,
) -> tuple[int, int, int, int, int, int]:
    """The best of what can begin now, with what `offer` says of it; job -1 when nothing can.

    Then NEXT_EVENT is when something may be able to, if that is within the session. Where both
    will be free together from `joined` on, and what takes two is wanted most then, only what is
    over by then is taken up meanwhile.
    """
    best, best_score = -1, 0
    best_way, best_target, best_change, best_minutes, best_whole = 0, 0, 0, 0, 0
    short, short_score = -1, 0
    short_way, short_target, short_change, short_minutes = 0, 0, 0, 0
    pair, pair_score = -1, 0
    bonus = knobs[FINISH_FIRST] + (knobs[HELPER_FIRST] if hands > 1 else 0)
    # The list is in order of weight: what comes too late to win need not be looked at.
    in_order = asked < 0 and joined < 0 and scalars[FIRST_COUNT] == 0
    soonest = end
    for at in range(scalars[OPEN_COUNT]):
        job = opened[at]
        if in_order and best >= 0 and priority[job] + bonus < best_score:
            break
        if moved == 0 and (best < 0 or joined >= 0):
            soonest = sooner_event(
                nodes, sessions, knobs, state, job, now, session, hands, lead, soonest
            )
        two = joined >= 0 and nodes[job, TOTAL_1] == 0
        when = joined if two else now
        if state[job, READY] > when:
            continue
        way, target, change, minutes, whole = offer(
            nodes, sessions, changes, knobs, state, scalars, job, when, session,
            2 if two else hands, 0 if two else lead, end, moved,
        )  # fmt: skip
        if way == 0:
            continue
        value = score(nodes, state, priority, knobs, job, change, 2 if two else hands)
        if job == asked:
            value = 4 * COMES_FIRST
        if two:
            if beats(job, value, pair, pair_score):
                pair, pair_score = job, value
            continue
        if beats(job, value, best, best_score):
            best, best_score = job, value
            best_way, best_target, best_change = way, target, change
            best_minutes, best_whole = minutes, whole
        over_by_then = joined >= 0 and whole > 0 and now + change + minutes <= joined
        if over_by_then and beats(job, value, short, short_score):
            short, short_score = job, value
            short_way, short_target, short_change, short_minutes = way, target, change, minutes
    scalars[NEXT_EVENT] = soonest
    if pair >= 0 and (best < 0 or pair_score > best_score):
        return short, short_way, short_target, short_change, short_minutes, 1
    return best, best_way, best_target, best_change, best_minutes, best_whole


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
    pieces: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    factor: Factors,
    arrives: Ints,
    people: int,
    session: int,
) -> None:
    """Go through one session."""
    began = int(max(sessions[session, BEGINS], scalars[LEFT_AT]))
    if people == 0 or began >= sessions[session, ENDS]:
        return
    turn = 0
    begin_session(sessions, scalars, began, session, people)
    last, ahead = sessions.shape[0] - 1, 1
    phase = ENTERING if scalars[TIGHT_COUNT] > 0 and session < last else WORKING
    while ahead > 0:
        now, lead, hands, joined = whose_turn(sessions, scalars, session, people)
        look, end, moved, asked = session, scalars[WORK_END], 0, -1
        if phase == WORKING and now >= end:
            phase = LEAVING
        if phase == LEAVING and (
            session == last or not time_to_move(sessions, changes, scalars, session, people)
        ):
            break
        if phase != WORKING:
            look, lead, joined = session + ahead, 0, -1
            now, hands, end = sessions[look, BEGINS], sessions[look, PEOPLE], sessions[look, ENDS]
            moved = max(people, hands)
        elif lead == 0 and session == 0 and turn < forced.shape[0]:
            asked = forced[turn]
        pick = choose(
            nodes, sessions, changes, priority, knobs, state, scalars, opened,
            asked, now, look, hands, lead, joined, end, moved,
        )  # fmt: skip
        job = pick[0]
        if phase == ENTERING:
            keep_time(nodes, sessions, changes, scalars, job, pick[2], began, session, people)
            phase = WORKING
        elif phase == LEAVING:
            ahead = leave_ready(sessions, changes, scalars, job, pick[2], session, people, ahead)
        elif job < 0:
            wait_on(scalars, now, lead)
        else:
            turn += job == asked
            lead = max(
                lead, handed_over(nodes, sessions, knobs, state, scalars, pick, now, session)
            )
            if work(
                nodes, sessions, changes, knobs, state, pieces, scalars, factor,
                pick, now, began, session, hands, lead,
            ):  # fmt: skip
                close_job(nodes, state, pieces, scalars, opened, job)
                if scalars[GOAL_LEFT] == 0:
                    return
                release_after(
                    nodes, edges, wanted, sessions, priority, state, scalars, opened, gates,
                    arrives, job, pieces[state[job, LAST_PIECE], PIECE_ENDS], session,
                )  # fmt: skip
    leave_session(scalars, session, people)


def begin_walk(
    nodes: Ints,
    edges: Ints,
    wanted: Ints,
    sessions: Ints,
    given: Ints,
    priority: Ints,
    state: Ints,
    scalars: Ints,
    opened: Ints,
    gates: Ints,
    arrives: Ints,
) -> None:
    """Set the tables to the beginning, and open whatever nothing comes before."""
    state[:] = 0
    scalars[:] = -1
    scalars[SUPPORT] = given[0]
    scalars[BODY] = given[1]
    scalars[STAY_UP] = given[2]
    scalars[OPEN_COUNT] = 0
    scalars[FIRST_COUNT] = 0
    scalars[TIGHT_COUNT] = 0
    scalars[PIECE_COUNT] = 0
    scalars[LEFT_AT] = 0
    scalars[GOAL_LEFT] = 0
    for node in range(state.shape[0]):
        state[node, BEFORE] = nodes[node, PREDECESSORS]
        state[node, RELEASED_JOB] = -1
        state[node, FINISH_PART] = -1
        state[node, LAST_PIECE] = -1
        scalars[GOAL_LEFT] += nodes[node, GOAL]
    if scalars[GOAL_LEFT] == 0:
        scalars[FINISH] = 0
    release_after(
        nodes, edges, wanted, sessions, priority, state, scalars, opened, gates, arrives,
        state.shape[0] - 1, 0, 0,
    )  # fmt: skip


def count_chain(
    state: Ints,
    pieces: Ints,
    last: int,
    kind_minutes: Ints,
    kind_samples: Ints,
    job_samples: Ints,
    part_samples: Ints,
    part_minutes: Ints,
) -> None:
    """Follow what bound the finish back to the beginning and count it."""
    piece = last
    seen = 0
    while piece >= 0:
        kind = pieces[piece, PIECE_KIND]
        lost = pieces[piece, PIECE_LOST]
        job = pieces[piece, PIECE_OF]
        if state[job, SEEN] == 0:
            state[job, SEEN] = 1
            job_samples[job] += 1
        kind_minutes[kind] += lost
        if (seen >> kind) & 1 == 0:
            kind_samples[kind] += 1
            seen |= 1 << kind
        part = pieces[piece, PIECE_PART]
        if part >= 0:
            part_samples[part] += 1
            part_minutes[part] += lost
        piece = pieces[piece, PIECE_AFTER]


def run(
    nodes: Ints,
    edges: Ints,
    wanted: Ints,
    sessions: Ints,
    changes: Ints,
    given: Ints,
    priority: Ints,
    knobs: Ints,
    forced: Ints,
    factor: Factors,
    arrives: Ints,
    people: NDArray[np.int8],
    finish: Ints,
    state: Ints,
    pieces: Ints,
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
            nodes, edges, wanted, sessions, given, priority, state, scalars, opened, gates,
            arrives[sample],
        )  # fmt: skip
        for session in range(people.shape[1]):
            if scalars[GOAL_LEFT] == 0:
                break
            go_through(
                nodes, edges, wanted, sessions, changes, priority, knobs, forced,
                state, pieces, scalars, opened, gates,
                factor[sample], arrives[sample], int(people[sample, session]), session,
            )  # fmt: skip
        finish[sample] = scalars[FINISH] if scalars[GOAL_LEFT] == 0 else -1
        if scalars[GOAL_LEFT] == 0:
            count_chain(
                state, pieces, scalars[LAST_OF_GOAL], kind_minutes, kind_samples, job_samples,
                part_samples, part_minutes,
            )  # fmt: skip


KERNEL = (
    *JOB_KERNEL,
    *WORK_KERNEL,
    *SESSION_KERNEL,
    sooner_event,
    beats,
    choose,
    go_through,
    begin_walk,
    count_chain,
    run,
)
"""Every function, each after those it calls."""
