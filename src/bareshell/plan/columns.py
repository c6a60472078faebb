"""The columns of the tables that the compiled walk works on, by position.

A walk reads few tables with many columns: the compiler is several times slower when it is handed
thirty separate arrays at each call. All values are 64-bit whole numbers; temperatures are
thousandths of a degree.
"""

from __future__ import annotations

# One row for each node: the jobs, then the gates (which use only BEFORE and the SUCC columns).
# Pairs that end in _1 and _2 are for one person and for two; 0 there means there is no such way.
(
    TOTAL_1,  # planned minutes of the whole job
    TOTAL_2,
    LEFT_1,  # planned minutes still to do
    LEFT_2,
    SPLIT,  # 1 when it may be done in pieces
    PIECE,  # shortest piece
    SUPPORTS,  # one bit for each support that will do; 0 when it does not mind
    LEAST_TEMPERATURE,
    CURE,  # minutes that temperature must hold after the finish
    STARTED,  # 1 when begun
    LEAST_1,  # least that is left of a begun job
    LEAST_2,
    DONE,  # minutes already worked
    EARLIEST,  # not before
    GOAL,  # 1 when the car is not on the road without it
    PREDECESSORS,  # how many edges lead in
    SUCC_FROM,  # where its edges begin in the table of edges
    SUCC_TO,
    START_FROM,  # where the parts it needs to start begin in the table of wanted parts
    START_TO,
    FINISH_FROM,
    FINISH_TO,
    TIGHT,  # 1 when it fits no session in which the car has to be moved first
) = range(23)
NODE_COLUMNS = 24  # whole lines of the processor's memory, so that the first eight share one

# One row for each edge, by the node it leaves.
AFTER, WAIT_MINUTES, STRETCH = range(3)
EDGE_COLUMNS = 3

# One row for each session.
(
    STARTS,  # of the session itself
    BEGINS,  # after setting up
    ENDS,  # before clearing up
    PEOPLE,
    WARMTH,  # while working
    COLDEST,  # until the next session
    STRETCH_BY,  # thousandths by which a wait that begins here grows
) = range(7)
SESSION_COLUMNS = 7

# The kinds of cause, by their position in `bareshell.plan.schedule.CAUSES`.
START, OWNER, JOB, WAIT, PART, HELPER, COLD, SESSION, DATE = range(9)

# The state of a walk: one row for each node.
(
    READY,
    WAY,
    PLANNED,
    CARRIED,
    FINISH_READY,
    REAL,
    BEFORE,
    RELEASED,
    RELEASED_KIND,
    RELEASED_JOB,
    READY_KIND,
    READY_JOB,
    READY_PART,
    FINISH_PART,
    BEGUN_AT,
    FINISHED_AT,
    BOUND_KIND,
    BOUND_JOB,
    BOUND_PART,
    BOUND_LOST,
) = range(20)
STATE_COLUMNS = 24

# The one-off values of a walk, in one row.
(
    SUPPORT,
    OPEN_COUNT,
    GOAL_LEFT,
    FINISH,
    LAST_JOB,
    BEFORE_THIS,
    LEFT_SESSION,
    LEFT_AT,
    LEFT_JOB,
    LEFT_PEOPLE,
    FIRST_COUNT,
    TIGHT_COUNT,
    WORK_END,
    NEXT_EVENT,
    STAY_UP,
) = range(15)
SCALARS = 15

# The knobs of the policy.
STICKINESS, FINISH_FIRST, HELPER_FIRST = range(3)
