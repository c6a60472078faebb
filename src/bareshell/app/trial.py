"""Trial fit: change anything in a copy, hold the two roads side by side, keep it or leave it.

As a part is offered up before it is bolted on: nothing is written down until it is kept, and what
is kept are the very changes that were looked at.
"""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.app.door import Door
from bareshell.app.road import SAMPLES, planned_road
from bareshell.app.trial_entries import entry_words, read_entry
from bareshell.app.written import BEFORE, Pen, Written, write_down
from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.plan.road import Road
from bareshell.whole.road_answer import road_overview
from bareshell.whole.road_parts import RoadOverview
from bareshell.whole.trial_answer import trial_overview
from bareshell.whole.trial_parts import TrialLine, TrialOverview
from bareshell.whole.trial_steps import TrialStep, changes_of, parse_step, words_of

MOST_STEPS = 20


def steps_of(codes: Sequence[str]) -> tuple[TrialStep, ...]:
    """Read steps, each from one word; the same one twice counts once.

    Raises
    ------
    BadInput
        When one is none, or there are too many to look through.
    """
    steps = tuple(dict.fromkeys(_step_of(code) for code in codes))
    if len(steps) > MOST_STEPS:
        raise BadInput("what is tried", f"{len(steps)} changes", f"try {MOST_STEPS} at a time")
    return steps


def _step_of(code: str) -> TrialStep:
    step = parse_step(code)
    return read_entry(step.ref) if step.kind == "entry" else step


def step_words(door: Door, step: TrialStep) -> str:
    """Say a step in words, to be read after "with"."""
    return entry_words(door, step) if step.changes else words_of(step, door.build())


def changes_for(door: Door, steps: Sequence[TrialStep]) -> tuple[c.Change, ...]:
    """Turn steps into changes, each on the copy that those before it made.

    Raises
    ------
    BadInput, NotFound, Refused
        When one cannot be.
    """
    changes: list[c.Change] = []
    now = door.now()
    for step in steps:
        changes += changes_of(step, door.try_out(changes), now)
    return tuple(changes)


def trial(door: Door, steps: Sequence[TrialStep], *, samples: int = SAMPLES) -> TrialOverview:
    """Hold the road of a changed copy against the one there is.

    Parameters
    ----------
    door : Door
        The build; nothing is written down.
    steps : sequence of TrialStep
        What is changed in the copy.
    samples : int
        How many futures each road is drawn from, the same luck for both.

    Raises
    ------
    BadInput, NotFound, Refused
        When a change cannot be.
    Unchecked
        When the checker finds a plan to break a rule; it is not shown.
    """
    build = door.build()
    copy = door.try_out(changes_for(door, steps)) if steps else build
    before = _road(door, build, samples)
    after = _road(door, copy, samples) if steps else before
    told = tuple(TrialLine(one.code, one.kind, step_words(door, one)) for one in steps)
    return trial_overview(build, told, before, after, copy)


def keep(door: Door, steps: Sequence[TrialStep], pen: Pen) -> Written:
    """Write the changes of a trial down: the very ones that were looked at.

    Raises
    ------
    BadInput, NotFound, Refused
        When there is nothing to keep, or a change cannot be any more.
    """
    if pen.entry_id and door.entry(pen.entry_id) is not None:
        return Written((BEFORE,), "", repeated=True)
    if not steps:
        raise BadInput("what is tried", "nothing is changed", "change something first")
    said = "; ".join(step_words(door, step) for step in steps)
    sentence = f"Kept: {said}. Each is an entry of its own on the record and can be taken back."
    return write_down(door, changes_for(door, steps), pen, sentence)


def _road(door: Door, build: Build, samples: int) -> tuple[RoadOverview, Road]:
    question, planned = planned_road(door, build, samples)
    return road_overview(build, question, planned), planned
