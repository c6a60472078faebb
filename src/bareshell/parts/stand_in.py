"""May this stand in for that: pin for bolt, longer, stronger, stainless; a hose, a fuse, a seal.

The verdict is *fits*, *will do as a temp until* the first moment the fixing is relied on, *will not
do*, or *not known* with what to find out. Each check stands behind it with its sum and source. A
temp is never offered in the load path of pedal, steering or caliper, nor where nobody said what the
fixing is relied on for. None of it sees wear, cracks or a false mark, and none of it outranks the
vehicle's own data.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from bareshell.model.duty import NO_STAND_IN, Duty
from bareshell.model.spec import Spec
from bareshell.parts.fit import FitWord, check_fit, nearest_way
from bareshell.parts.joint_sums import bearing_line, bending_line, shear_line
from bareshell.parts.relied_on import Moment, moment_of
from bareshell.parts.stand_in_joint import (
    clamp_line,
    grip_lines,
    head_line,
    hole_line,
    lock_line,
    metal_lines,
    nut_line,
    path_line,
    thread_line,
    torque_line,
)
from bareshell.parts.stand_in_kinds import lines_of_kind, relied_on
from bareshell.parts.stand_in_parts import Enough, Fixing, StandInLine, fixing_of, line

__all__ = ["StandIn", "StandInWord", "judge_stand_in"]


class StandInWord(StrEnum):
    """What comes of a substitution check."""

    FITS = "fits"
    TEMP = "will do as a temp until"
    WILL_NOT_DO = "will not do"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class StandIn:
    """The verdict on a stand-in, check by check.

    Parameters
    ----------
    word : StandInWord
        The verdict.
    lines : tuple of StandInLine
        Every check, the deciding ones first.
    until : Moment or None
        Until when, for a temp.
    """

    word: StandInWord
    lines: tuple[StandInLine, ...]
    until: Moment | None = None

    @property
    def says(self) -> str:
        """The verdict in one sentence, with what decided it."""
        if self.word is StandInWord.TEMP and self.until is not None:
            return f"{self.word.value} {self.until.words}"
        if self.word is StandInWord.FITS:
            return self.word.value
        worst = Enough.NOT_ENOUGH if self.word is StandInWord.WILL_NOT_DO else Enough.NOT_KNOWN
        why = [f"{one.check}: {one.words}" for one in self.lines if one.state is worst]
        return f"{self.word.value}: {'; '.join(why[:3])}" if why else self.word.value


def judge_stand_in(
    wanted: Spec, offered: Spec, duty: Duty | None, *, today: date | None = None
) -> StandIn:
    """Judge whether one part may stand in for another.

    Parameters
    ----------
    wanted : Spec
        The right one.
    offered : Spec
        What lies here.
    duty : Duty or None
        What it is relied on for, and the joint.
    today : date or None
        The day, for goods that grow old.

    Examples
    --------
    >>> from bareshell.model.duty import LoadPath
    >>> from bareshell.model.spec import BoltSpec, PinSpec
    >>> pin = PinSpec(diameter_m=0.008, grip_to_hole_m=0.022, material="mild steel")
    >>> bolt = BoltSpec(thread="M8", grip_length_m=0.022, length_m=0.040, grade="8.8", lock="nyloc")
    >>> judge_stand_in(pin, bolt, Duty(LoadPath.HANDBRAKE, turns=True)).says
    'will do as a temp until the car is first left held by it'
    >>> judge_stand_in(pin, bolt, Duty(LoadPath.PEDAL, turns=True)).word.value
    'will not do'
    """
    fit = check_fit(wanted, offered, today=today)
    same = fit.word is FitWord.FITS
    mine, its = fixing_of(offered), fixing_of(wanted)
    if mine is None or its is None:
        if same:
            return StandIn(StandInWord.FITS, ())
        lines = lines_of_kind(wanted, nearest_way(wanted, offered), fit)
        return _verdict(lines, relied_on(wanted, duty), same=False)
    if mine.nut or its.nut:
        return _nuts(mine, its, duty, same=same)
    return _verdict(_checks(mine, its, duty or Duty()), duty, same=same)


def _checks(mine: Fixing, its: Fixing, duty: Duty) -> list[StandInLine]:
    found = [
        hole_line(mine, its, duty),
        *grip_lines(mine, its, duty),
        thread_line(mine, its, duty),
        shear_line(mine, its, duty),
        bearing_line(mine, its, duty),
        bending_line(mine, its, duty),
        clamp_line(mine, its, duty),
        lock_line(mine, its, duty),
        head_line(mine, its),
        *metal_lines(mine, its, duty),
        torque_line(mine, its, duty),
    ]
    return [one for one in found if one is not None]


def _nuts(mine: Fixing, its: Fixing, duty: Duty | None, *, same: bool) -> StandIn:
    if not (mine.nut and its.nut):
        words = "a nut and a bolt do not stand in for each other"
        return StandIn(StandInWord.WILL_NOT_DO, (line("kind", Enough.NOT_ENOUGH, words),))
    lines = [thread_line(its, mine, Duty()), *metal_lines(mine, its, duty or Duty())]
    lines += [lock_line(mine, its, duty or Duty()), nut_line(mine, its, duty or Duty())]
    return _verdict([one for one in lines if one is not None], duty, same=same)


_ORDER = {
    Enough.NOT_ENOUGH: 0,
    Enough.NOT_KNOWN: 1,
    Enough.FOR_NOW: 2,
    Enough.MIND: 3,
    Enough.FOR_GOOD: 4,
}


def _verdict(lines: list[StandInLine], duty: Duty | None, *, same: bool) -> StandIn:
    path = path_line(duty)
    states = {one.state for one in lines}
    temporary = Enough.FOR_NOW in states
    never = duty is not None and duty.load_path in NO_STAND_IN
    if path is not None and (path.state is not Enough.NOT_KNOWN or not same):
        barred = never and temporary and not same
        lines.append(
            StandInLine(path.check, Enough.NOT_ENOUGH, path.words, path.arithmetic, path.source)
            if barred
            else path
        )
    lines.sort(key=lambda one: _ORDER[one.state])
    kept, states = tuple(lines), {one.state for one in lines}
    if Enough.NOT_ENOUGH in states:
        return StandIn(StandInWord.WILL_NOT_DO, kept)
    if same:  # the right part, by every size that was asked for
        return StandIn(StandInWord.FITS, kept)
    if Enough.NOT_KNOWN in states:
        return StandIn(StandInWord.NOT_KNOWN, kept)
    if temporary:
        return StandIn(StandInWord.TEMP, kept, moment_of(duty))
    return StandIn(StandInWord.FITS, kept)
