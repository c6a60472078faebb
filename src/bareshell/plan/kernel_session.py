"""A session in the compiled walk: coming to it, whose turn it is, leaving the car ready.

Plain functions for the compiler, as in `bareshell.plan.kernel`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bareshell.plan.columns import (
    BESIDE,
    BODY,
    BUSY_HELPER,
    BUSY_OWNER,
    CAR_HELD,
    CAR_STANDS,
    ENDS,
    HELPED_AT,
    HELPED_PIECE,
    LAST_AT,
    LATEST_PIECE,
    LEFT_AT,
    LEFT_PEOPLE,
    LEFT_PIECE,
    LEFT_SESSION,
    NEVER,
    NEXT_EVENT,
    PIECE_HELPER,
    PIECE_OWNER,
    SUPPORT,
    TIGHT,
    WAKE_HELPER,
    WAKE_OWNER,
    WORK_END,
)
from bareshell.plan.kernel_jobs import pick_way
from bareshell.plan.kernel_work import move_car
from bareshell.plan.policy import SESSIONS_AHEAD

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

__all__ = ["SESSION_KERNEL"]


def begin_session(sessions: Ints, scalars: Ints, now: int, session: int, people: int) -> None:
    """Come to a session: nobody has done anything yet."""
    beside = people > 1 and sessions[session, BESIDE] > 0
    scalars[WORK_END] = sessions[session, ENDS]
    scalars[CAR_STANDS] = 0
    scalars[CAR_HELD] = 0
    scalars[LAST_AT] = now
    scalars[LATEST_PIECE] = -1
    scalars[BUSY_OWNER] = 0
    scalars[BUSY_HELPER] = 0
    scalars[WAKE_OWNER] = now
    scalars[WAKE_HELPER] = now if beside else NEVER
    scalars[PIECE_OWNER] = -1
    scalars[PIECE_HELPER] = -1


def keep_time(
    nodes: Ints,
    sessions: Ints,
    changes: Ints,
    scalars: Ints,
    job: int,
    target: int,
    now: int,
    session: int,
    people: int,
) -> None:
    """Keep time at the end for a move without which the next session is lost."""
    if job >= 0 and nodes[job, TIGHT] > 0 and target != scalars[SUPPORT]:
        kept = max(0, changes[people - 1, scalars[BODY], scalars[SUPPORT], target])
        scalars[WORK_END] = max(now, sessions[session, ENDS] - kept)


def time_to_move(sessions: Ints, changes: Ints, scalars: Ints, session: int, people: int) -> bool:
    """Whether any move of the car fits what is left of a session."""
    room = int(sessions[session, ENDS]) - scalars[LAST_AT]
    support = scalars[SUPPORT]
    quickest = -1
    for target in range(changes.shape[2]):
        minutes = int(changes[people - 1, scalars[BODY], support, target])
        if target != support and minutes >= 0 and (quickest < 0 or minutes < quickest):
            quickest = minutes
    return bool(room > 0 and 0 <= quickest <= room)


def leave_ready(
    sessions: Ints,
    changes: Ints,
    scalars: Ints,
    job: int,
    target: int,
    session: int,
    people: int,
    ahead: int,
) -> int:
    """Use the time that is left to put the car as a session so far ahead will want it.

    Gives how far ahead to look instead where nothing could be done in that one; 0 when done.
    """
    if job < 0:
        further = ahead < SESSIONS_AHEAD and session + ahead < sessions.shape[0] - 1
        return ahead + 1 if further else 0
    if target == scalars[SUPPORT]:
        return 0
    minutes = int(changes[people - 1, scalars[BODY], scalars[SUPPORT], target])
    if 0 <= minutes <= sessions[session, ENDS] - scalars[LAST_AT]:
        scalars[LAST_AT] += minutes
        move_car(changes, scalars, target, scalars[LAST_AT], people)
    return 0


def whose_turn(
    sessions: Ints, scalars: Ints, session: int, people: int
) -> tuple[int, int, int, int]:
    """When somebody looks for work next, who, how many are free, and from when both will be."""
    now = min(scalars[WAKE_OWNER], scalars[WAKE_HELPER])
    lead = 0 if scalars[WAKE_OWNER] <= now else 1
    other = scalars[BUSY_HELPER - lead]
    if people > 1 and sessions[session, BESIDE] > 0 and other > now:
        return now, lead, 1, other if other < scalars[WORK_END] else -1
    return now, lead, people, -1


def handed_over(
    nodes: Ints,
    sessions: Ints,
    knobs: Ints,
    state: Ints,
    scalars: Ints,
    pick: tuple[int, int, int, int, int, int],
    now: int,
    session: int,
) -> int:
    """Leave to a helper who is free what they may do: the owner can do anything else. 1 if so."""
    job, way, target, _, _, _ = pick
    free = scalars[WAKE_HELPER] < NEVER and scalars[BUSY_HELPER] <= now
    if not free or way > 1 or target != scalars[SUPPORT]:
        return 0
    return pick_way(nodes, state, knobs, job, 1, 1, sessions[session, BESIDE])


def wait_on(scalars: Ints, now: int, lead: int) -> None:
    """Find nothing to do, and look again when something may have changed."""
    wake = scalars[NEXT_EVENT]
    other = scalars[BUSY_HELPER - lead]
    if scalars[WAKE_HELPER] < NEVER:
        if now < other < wake:
            wake = other
        if now < scalars[CAR_STANDS] < wake:
            wake = scalars[CAR_STANDS]
    scalars[WAKE_OWNER + lead] = wake
    scalars[LAST_AT] = max(scalars[LAST_AT], now)


def leave_session(scalars: Ints, session: int, people: int) -> None:
    """Go home, keeping in mind when, and what was done last."""
    scalars[LEFT_SESSION] = session
    scalars[LEFT_AT] = scalars[LAST_AT]
    scalars[LEFT_PEOPLE] = people
    scalars[LEFT_PIECE] = scalars[LATEST_PIECE]
    if people > 1:
        scalars[HELPED_AT] = scalars[LAST_AT]
        scalars[HELPED_PIECE] = scalars[LATEST_PIECE]


SESSION_KERNEL = (
    begin_session,
    keep_time,
    time_to_move,
    leave_ready,
    whose_turn,
    handed_over,
    wait_on,
    leave_session,
)
"""Every function, each after those it calls."""
