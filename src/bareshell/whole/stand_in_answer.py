"""A stand-in as the car sees it: which gate ends it, and what is written down when it is fitted.

A temp ends before the first moment its load path is relied on. That moment has a gate on the
ladder; a need may name an earlier one, never a later. Where no gate stands there, or it was passed
already, nothing may stand in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from bareshell.errors import NotFound, Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import Job, Way
from bareshell.model.part import Holding, Need, NeededTo
from bareshell.model.spec import Spec
from bareshell.model.standing import gates_before, need_standings
from bareshell.model.temp import Temp
from bareshell.model.trust import COMMON_PRACTICE, ThreePoint
from bareshell.parts.relied_on import Moment
from bareshell.parts.stand_in import StandIn, StandInWord, judge_stand_in
from bareshell.parts.stand_in_parts import Enough, StandInLine, line
from bareshell.whole.shelf_moves import put_aside
from bareshell.whole.spec_words import spec_words

__all__ = ["StandInView", "TempIds", "changes_for_temp", "stand_in_view"]

REPLACING = ThreePoint(0.25, 0.5, 1.0)
"""Hours to take a stand-in out and put the right one in (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class StandInView:
    """What comes of putting something else in.

    Parameters
    ----------
    word : str
        ``fits``, ``will do as a temp until``, ``will not do`` or ``not known``.
    says : str
        The verdict as one sentence.
    lines : tuple of StandInLine
        Every check with its sum and source.
    until : str
        Until which moment, for a temp.
    gate, gate_title : str
        The gate before which it must be gone.
    """

    word: str
    says: str
    lines: tuple[StandInLine, ...]
    until: str = ""
    gate: str = ""
    gate_title: str = ""


@dataclass(frozen=True, slots=True)
class TempIds:
    """Ids for what a temp brings with it: itself, the job that ends it, two needs, a holding."""

    temp: str
    job: str
    stand_in: str
    right: str
    holding: str


def stand_in_view(
    build: Build, need: Need, offered: Spec, *, today: date | None = None
) -> StandInView:
    """Judge a stand-in for a need of a build, and find the gate that ends it.

    Parameters
    ----------
    build : Build
        The build, for its gates.
    need : Need
        What is wanted, and what it is relied on for.
    offered : Spec
        What lies here.
    today : date or None
        The owner's day, for goods that grow old.
    """
    judged = judge_stand_in(need.spec, offered, need.duty, today=today)
    if judged.word is not StandInWord.TEMP or judged.until is None:
        return StandInView(judged.word.value, judged.says, judged.lines)
    gate, trouble = _gate(build, judged.until, need)
    if trouble:
        lines = (line("gate", Enough.NOT_ENOUGH, trouble), *judged.lines)
        barred = StandIn(StandInWord.WILL_NOT_DO, lines)
        return StandInView(barred.word.value, barred.says, lines)
    title, lines = build.gates[gate].gate.title, judged.lines
    if gate == judged.until.next_gate:
        words = f"chock the wheels: no gate stands any more before {judged.until.words}"
        lines = (line("gate", Enough.MIND, words), *lines)
    says = f"{judged.says}; gone before the gate '{title}'"
    return StandInView(judged.word.value, says, lines, judged.until.words, gate, title)


def _gate(build: Build, moment: Moment, need: Need) -> tuple[str, str]:
    """Return the gate that ends a temp, or why there is none."""
    job = build.jobs.get(need.job)
    passed = moment.usual_gate in build.gates and build.gates[moment.usual_gate].passed is not None
    if passed and moment.next_gate in build.gates and job is not None and job.state.is_open:
        # The car rolled before it had a handbrake at all; the next gate asks for one.
        moment = replace(moment, gate=moment.next_gate, usual=moment.next_gate)
    usual, named = moment.usual_gate, moment.gate
    gate = named if named in build.gates else usual
    if usual in build.gates and gate != usual and gate not in gates_before(build, usual):
        gate = usual  # a later gate than the moment itself ends nothing in time
    if gate not in build.gates:
        return "", (
            f"no gate of this build stands before {moment.words}: add one and name it on the need"
        )
    if build.gates[gate].passed is not None:
        title = build.gates[gate].gate.title
        return "", f"the gate '{title}' was passed: it is relied on already"
    return gate, ""


def changes_for_temp(
    build: Build, need_id: str, holding_id: str, ids: TempIds, words: str = ""
) -> tuple[c.Change, ...]:
    """Say what is written down when a stand-in is fitted: the temp, and what ends it.

    The temp stands in the register at once. The right part stays wanted, by a small job of its own
    that follows the one it was wanted for and ends the temp; what was put aside or ordered for the
    need goes with it. The job gets the stand-in instead, so it can go on.

    Parameters
    ----------
    build : Build
        The build.
    need_id, holding_id : str
        What is wanted, and what stands in.
    ids : TempIds
        Ids for the temp, the job, the need and the holding that come of it.
    words : str
        Anything the person says of it.

    Raises
    ------
    NotFound
        When the build has no such need or holding.
    Refused
        When it does not do as a temp, or too few lie there.
    """
    if need_id not in build.needs:
        raise NotFound(f"there is no need '{need_id}'", "look for it on the shelf page")
    if holding_id not in build.holdings:
        raise NotFound(f"there is no holding '{holding_id}'", "look for it on the shelf page")
    need, holding = build.needs[need_id], build.holdings[holding_id]
    view = stand_in_view(build, need, holding.spec)
    if view.word != StandInWord.TEMP:
        raise Refused(
            "stand-in",
            f"'{holding.title}' is no temp for '{need.title}': {view.says}",
            "order the right one, or say more of the need and of what lies here",
        )
    here = need_standings(build)[need_id].here
    count = need.quantity - here
    if holding.quantity < count or holding.away or count < 1:
        raise Refused(
            "stand-in",
            f"{count} are wanted and {holding.quantity} x '{holding.title}' lie there",
            "put as many there first, or order the right ones",
        )
    swap = _swap(build, need, holding, ids)
    temp = _temp(need, holding, view, ids, here)
    said = words or f"judged on the parts desk: {view.says}"
    return (
        c.JobSet(swap),
        c.TempSet(temp),
        c.TempRaised(ids.temp, said),
        *_needs(build, need, holding, view, ids, here),
        *put_aside(build, holding.id, ids.stand_in, count, ids.holding),
    )


def _swap(build: Build, need: Need, holding: Holding, ids: TempIds) -> Job:
    job = build.jobs[need.job].job
    return Job(
        ids.job,
        f"Put the right one in: {need.title}",
        job.system,
        after=(job.id,),
        ways=(Way(1, REPLACING),),
        place=job.place,
        zones=job.zones,
        wheels=job.wheels,
        cautions=job.cautions,
        note=f"Takes out the temp '{holding.title}'.",
        mark=COMMON_PRACTICE,
    )


def _temp(need: Need, holding: Holding, view: StandInView, ids: TempIds, here: int) -> Temp:
    size = spec_words(holding.spec)
    title = f"{holding.title}{f' ({size})' if size else ''} in place of {need.title}"
    right = ids.right if here else need.id
    return Temp(ids.temp, title, need.title, view.gate, None, ids.job, right)


def _needs(
    build: Build, need: Need, holding: Holding, view: StandInView, ids: TempIds, here: int
) -> tuple[c.Change, ...]:
    """What is wanted now: the right part by the job that ends the temp, the stand-in by the first.

    Where some of the right ones are here they stay with the first job, and only what is missing
    goes to the other, with the orders that are out for it.
    """
    count = need.quantity - here
    stands_in = Need(
        ids.stand_in,
        f"Stand-in for {need.title}: {holding.title}",
        need.job,
        count,
        need.needed_to,
        holding.spec,
        need.bag,
        need.fixing,
        note=f"Until {view.until}.",
    )
    right = replace(need, job=ids.job, quantity=count, needed_to=NeededTo.START)
    if not here:
        return c.NeedSet(right), c.NeedSet(stands_in)
    moved = tuple(
        c.OrderSet(replace(record.line, need=ids.right))
        for record in build.orders.values()
        if record.line.need == need.id and record.outstanding
    )
    return (
        c.NeedSet(replace(need, quantity=here)),
        c.NeedSet(replace(right, id=ids.right)),
        c.NeedSet(stands_in),
        *moved,
    )
