"""The columns of the tables that the compiled walk works on, by position.

A walk reads few tables with many columns: the compiler is several times slower when it is handed
thirty separate arrays at each call. All values are 64-bit whole numbers; temperatures are
thousandths of a degree.
"""

from __future__ import annotations

# One row for each node: the jobs, then the gates (which use only BEFORE and the SUCC columns),
# then the beginning, which comes before whatever nothing else comes before.
# Pairs that end in _1 and _2 are for one person and for two; 0 there means there is no such way.
(
    TOTAL_1,  # planned minutes of the whole job
    TOTAL_2,
    LEFT_1,  # planned minutes still to do
    LEFT_2,
    SPLIT,  # 1 when it may be done in pieces
    PIECE,  # shortest piece
    SUPPORTS,  # one bit for each support that will do; 0 when it is done off the car
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
    CURE_STRETCHES,  # 1 when the cold makes the cure longer
    HELPER_TAKES,  # a helper alone: 0 never, 1 where any job may be given, 2 where marked ones may
    BODY_BEGINS,  # one bit for each body state that moving the car depends on
    BODY_ENDS,
) = range(27)
NODE_COLUMNS = 32  # whole lines of the processor's memory, so that the first eight share one

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
    STRETCH_BY,  # thousandths by which that cold makes a wait grow
    BESIDE,  # a helper alone: 0 nothing, 1 what is marked, 2 any one-person job
) = range(8)
SESSION_COLUMNS = 8

# The kinds of cause, by their position in `bareshell.plan.schedule.CAUSES`.
START, OWNER, JOB, WAIT, PART, HELPER, COLD, SESSION, DATE = range(9)
KINDS = 9

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
    LAST_PIECE,  # its last piece of work; -1 before it is begun
    CUT_BY,  # why that piece did not finish it
    SEEN,
) = range(17)
STATE_COLUMNS = 24

# One row for each piece of work, in the order they are begun.
PIECE_OF, PIECE_KIND, PIECE_AFTER, PIECE_PART, PIECE_LOST, PIECE_ENDS = range(6)
PIECE_COLUMNS = 6

# The one-off values of a walk, in one row. Those in pairs are for the owner, then the helper.
(
    SUPPORT,
    BODY,
    OPEN_COUNT,
    GOAL_LEFT,
    FINISH,
    LAST_OF_GOAL,  # the piece of work that reached the goal
    LEFT_SESSION,
    LEFT_AT,
    LEFT_PIECE,
    LEFT_PEOPLE,
    FIRST_COUNT,
    TIGHT_COUNT,
    WORK_END,
    NEXT_EVENT,
    STAY_UP,
    PIECE_COUNT,
    CAR_STANDS,  # from when it stands as it was last put
    CAR_HELD,  # until when somebody works on it
    LAST_AT,  # the last moment of the session so far
    LATEST_PIECE,  # the piece of work that ends last in the session so far
    BUSY_OWNER,  # at work until
    BUSY_HELPER,
    WAKE_OWNER,  # looks for work again at
    WAKE_HELPER,
    PIECE_OWNER,  # the last piece of work in this session
    PIECE_HELPER,
    HELPED_AT,  # when the last session with a helper was left
    HELPED_PIECE,  # the piece of work that ended last in it
) = range(28)
SCALARS = 28

# What a walk is given: how the car stands, the body, minutes past the end.
GIVEN = 3

# The knobs of the policy.
STICKINESS, FINISH_FIRST, HELPER_FIRST, TOGETHER = range(4)
KNOBS = 4

NEVER = 1 << 50
"""Later than any session."""
