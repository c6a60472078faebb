"""Doing a piece of work in the compiled walk, and noting what it waited for.

Plain functions for the compiler, as in `bareshell.plan.kernel`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    BEGINS,
    BESIDE,
    BODY,
    BODY_BEGINS,
    BODY_ENDS,
    BUSY_HELPER,
    BUSY_OWNER,
    CAR_HELD,
    CAR_STANDS,
    CARRIED,
    COLD,
    CUT_BY,
    ENDS,
    FINISH_PART,
    FINISH_READY,
    FIRST_COUNT,
    HELPED_AT,
    HELPED_PIECE,
    HELPER,
    JOB,
    LAST_AT,
    LAST_PIECE,
    LATEST_PIECE,
    LEAST_1,
    LEAST_TEMPERATURE,
    LEFT_AT,
    LEFT_PEOPLE,
    LEFT_PIECE,
    LEFT_SESSION,
    NEVER,
    OWNER,
    PART,
    PIECE_AFTER,
    PIECE_COUNT,
    PIECE_ENDS,
    PIECE_HELPER,
    PIECE_KIND,
    PIECE_LOST,
    PIECE_OF,
    PIECE_OWNER,
    PIECE_PART,
    PLANNED,
    READY,
    READY_JOB,
    READY_KIND,
    READY_PART,
    REAL,
    RELEASED,
    SESSION,
    SPLIT,
    START,
    STARTED,
    STAY_UP,
    SUPPORT,
    SUPPORTS,
    WAIT,
    WAKE_HELPER,
    WAKE_OWNER,
    WARMTH,
    WAY,
    WORK_END,
)
from bareshell.plan.kernel_jobs import (
    cheapest_change,
    kept_from_finishing,
    pick_way,
    planned_left,
    real_left,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Factors = NDArray[np.float32]

__all__ = ["WORK_KERNEL"]


def blocked_by(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    knobs: Ints,
    state: Ints,
    scalars: Ints,
    job: int,
) -> int:
    """What kept a job that was ready from being done in the last session; OWNER when work did."""
    session = scalars[LEFT_SESSION]
    hands = scalars[LEFT_PEOPLE]
    way = pick_way(nodes, state, knobs, job, hands, 0, sessions[session, BESIDE])
    body, support = scalars[BODY], scalars[SUPPORT]
    if way == 0 or cheapest_change(nodes, changes, support, body, job, hands)[1] < 0:
        return HELPER
    if sessions[session, WARMTH] < nodes[job, LEAST_TEMPERATURE]:
        return COLD
    minute = scalars[LEFT_AT] + planned_left(nodes, state, job, way)
    kept = kept_from_finishing(nodes, sessions, state, job, minute, session)
    if kept > 0:
        return kept
    return SESSION if scalars[LEFT_AT] < sessions[session, ENDS] else OWNER


def warm_until(
    nodes: Ints, sessions: Ints, state: Ints, scalars: Ints, job: int, ready: int
) -> int:
    """When the last session ended that was warm enough for a job; when it was ready if none was."""
    for back in range(scalars[LEFT_SESSION] + 1):
        at = scalars[LEFT_SESSION] - back
        if sessions[at, ENDS] <= ready:
            break
        begin = max(ready, int(sessions[at, BEGINS]))
        if (
            sessions[at, WARMTH] >= nodes[job, LEAST_TEMPERATURE]
            and kept_from_finishing(nodes, sessions, state, job, begin, at) != COLD
        ):
            return int(sessions[at, ENDS])
    return ready


def last_ended_by(pieces: Ints, count: int, minute: int) -> int:
    """The last piece of work that was over by some moment; -1 when none was."""
    for back in range(count):
        if pieces[count - 1 - back, PIECE_ENDS] <= minute:
            return int(count - 1 - back)
    return -1


def ready_since(
    nodes: Ints, state: Ints, pieces: Ints, job: int, way: int, now: int
) -> tuple[int, int, int, int]:
    """From when a job could begin or go on, by what, after which piece of work, for which part."""
    last = state[job, LAST_PIECE]
    if last < 0:
        before = state[job, READY_JOB]
        after = state[before, LAST_PIECE] if before >= 0 else -1
        return state[job, READY], state[job, READY_KIND], after, state[job, READY_PART]
    cut = state[job, CUT_BY]
    since = pieces[last, PIECE_ENDS]
    if cut == PART:
        ready = max(since, state[job, FINISH_READY] - planned_left(nodes, state, job, way))
        return ready, PART, -1, state[job, FINISH_PART]
    return (now if cut == COLD else since), cut, last, -1


def what_bound(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    knobs: Ints,
    state: Ints,
    pieces: Ints,
    scalars: Ints,
    job: int,
    way: int,
    busy_with: int,
    now: int,
    began: int,
) -> tuple[int, int, int, int]:
    """Why a piece of work that begins now did not begin sooner.

    Gives the kind of cause, the piece that comes next on the way back, the part, and since when
    nothing but this held it up.
    """
    ready, kind, after, part = ready_since(nodes, state, pieces, job, way, now)
    last = state[job, LAST_PIECE]
    since = int(pieces[last, PIECE_ENDS]) if last >= 0 else int(state[job, RELEASED])
    kept = 0
    last_session = scalars[LEFT_SESSION]
    there = ready < scalars[LEFT_AT]
    if last_session >= 0 and ready == scalars[LEFT_AT] < sessions[last_session, ENDS]:
        # It was ready when the last piece was done, and there was time left.
        there = True
    if there and ready <= began:
        kept = blocked_by(nodes, sessions, changes, knobs, state, scalars, job)
    if kept == PART:
        return PART, -1, state[job, FINISH_PART], since
    if kept == HELPER:
        if scalars[HELPED_AT] > ready:
            return HELPER, scalars[HELPED_PIECE], -1, scalars[HELPED_AT]
        return HELPER, after, -1, ready
    if kept == COLD:
        warm = warm_until(nodes, sessions, state, scalars, job, ready)
        if warm > ready:
            after = last_ended_by(pieces, scalars[PIECE_COUNT], warm)
        return COLD, after, -1, warm
    if busy_with >= 0 and ready < now:
        return OWNER, busy_with, -1, now
    if kept in (OWNER, SESSION):
        return kept, scalars[LEFT_PIECE], -1, scalars[LEFT_AT]
    if kind == WAIT:
        since = int(pieces[after, PIECE_ENDS])
    return kind, after, part, since


def note_piece(
    pieces: Ints, scalars: Ints, job: int, now: int, bound: tuple[int, int, int, int]
) -> int:
    """Write down a piece of work and why it did not begin sooner; give its place."""
    kind, after, part, since = bound
    at = min(scalars[PIECE_COUNT], pieces.shape[0] - 1)
    scalars[PIECE_COUNT] = at + 1
    pieces[at, PIECE_OF] = job
    pieces[at, PIECE_KIND] = kind
    # What it came after was noted before it, so that the way back always ends.
    pieces[at, PIECE_AFTER] = after if after < at else -1
    pieces[at, PIECE_PART] = part
    pieces[at, PIECE_LOST] = 0 if kind in (START, OWNER, JOB) else max(0, now - since)
    return int(at)


def move_car(changes: Ints, scalars: Ints, target: int, begin: int, hands: int) -> None:
    """Put the car on another support; the helper's hands are needed when it is not done alone."""
    support = scalars[SUPPORT]
    if target == support:
        return
    body = scalars[BODY]
    scalars[SUPPORT] = target
    scalars[CAR_STANDS] = begin
    if hands > 1 and changes[1, body, support, target] != changes[0, body, support, target]:
        scalars[BUSY_HELPER] = begin
        if scalars[WAKE_HELPER] < NEVER:
            scalars[WAKE_HELPER] = begin


def keep_busy(
    nodes: Ints,
    pieces: Ints,
    scalars: Ints,
    job: int,
    way: int,
    lead: int,
    at: int,
    now: int,
    begin: int,
) -> None:
    """Keep whoever does a piece of work busy until it ends, and the car where it is."""
    done = pieces[at, PIECE_ENDS]
    beside = scalars[WAKE_HELPER] < NEVER
    if way > 1:
        scalars[BUSY_OWNER] = done
        scalars[BUSY_HELPER] = done
        scalars[WAKE_OWNER] = done
        scalars[PIECE_OWNER] = at
        scalars[PIECE_HELPER] = at
        if beside:
            scalars[WAKE_HELPER] = done
    else:
        scalars[BUSY_OWNER + lead] = done
        scalars[WAKE_OWNER + lead] = done
        scalars[PIECE_OWNER + lead] = at
        if beside and scalars[BUSY_HELPER - lead] <= now:
            # Whoever found nothing to do looks again when something may have changed.
            change = begin if begin > now else done
            scalars[WAKE_HELPER - lead] = min(scalars[WAKE_HELPER - lead], change)
    if nodes[job, SUPPORTS] != 0 or nodes[job, BODY_BEGINS] + nodes[job, BODY_ENDS] > 0:
        scalars[CAR_HELD] = max(scalars[CAR_HELD], done)
    scalars[LAST_AT] = max(scalars[LAST_AT], done)
    latest = scalars[LATEST_PIECE]
    if latest < 0 or done >= pieces[latest, PIECE_ENDS]:
        scalars[LATEST_PIECE] = at


def work(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    knobs: Ints,
    state: Ints,
    pieces: Ints,
    scalars: Ints,
    factor: Factors,
    pick: tuple[int, int, int, int, int, int],
    now: int,
    began: int,
    session: int,
    hands: int,
    lead: int,
) -> bool:
    """Do a piece of work, however long it really takes; say whether the job is finished."""
    job, way, target, change, minutes, whole = pick
    begin = now + change
    planned = planned_left(nodes, state, job, way)
    real = real_left(nodes, state, factor, job, way)
    end = scalars[WORK_END]
    cut = OWNER
    all_but = 0
    if whole > 0:
        finishes = real <= end - begin + scalars[STAY_UP]
        worked = max(real, state[job, FINISH_READY] - begin) if finishes else end - begin
    else:
        finishes = real <= minutes
        worked = real if finishes else minutes
        moment = begin + (real if finishes else planned)
        kept = kept_from_finishing(nodes, sessions, state, job, moment, session)
        if kept > 0 and (finishes or planned <= end - begin):
            cut = kept
        if kept > 0 and finishes:
            finishes = False
            all_but = 1
            worked = real - 1
            if worked < 1:
                state[job, READY] = max(state[job, READY] + 1, state[job, FINISH_READY], end)
                return False
    busy_with = scalars[PIECE_OWNER + lead]
    if way > 1 and scalars[PIECE_HELPER] >= 0:
        other = scalars[PIECE_HELPER]
        if busy_with < 0 or pieces[other, PIECE_ENDS] > pieces[busy_with, PIECE_ENDS]:
            busy_with = other
    bound = what_bound(
        nodes, sessions, changes, knobs, state, pieces, scalars, job, way, busy_with, now, began
    )
    at = note_piece(pieces, scalars, job, now, bound)
    done = begin + worked
    pieces[at, PIECE_ENDS] = done
    state[job, LAST_PIECE] = at
    state[job, CUT_BY] = cut
    move_car(changes, scalars, target, begin, hands)
    keep_busy(nodes, pieces, scalars, job, way, lead, at, now, begin)
    state[job, WAY] = way
    if not finishes:
        over = nodes[job, LEAST_1 + way - 1]
        state[job, REAL] = real - worked
        state[job, PLANNED] = planned - worked if planned > worked else over
        if all_but > 0:
            # Whoever has done all but the finish sees that nothing else is left.
            state[job, PLANNED] = 1
        state[job, READY] = max(state[job, READY], done)
        if nodes[job, SPLIT] == 0 and state[job, CARRIED] == 0:
            state[job, CARRIED] = 1
            scalars[FIRST_COUNT] += nodes[job, STARTED] == 0
    return bool(finishes)


WORK_KERNEL = (
    blocked_by,
    warm_until,
    last_ended_by,
    ready_since,
    what_bound,
    note_piece,
    move_car,
    keep_busy,
    work,
)
"""Every function, each after those it calls."""
