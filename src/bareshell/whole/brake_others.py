"""Yardsticks whose answers come from elsewhere than the circuit: parked cars and hot brakes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from bareshell.brakes.figures import Figures, gather
from bareshell.brakes.heat_fade import hot_figures, hot_verdict
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.prepared import prepare
from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.yardstick import Subject, Yardstick
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem
from bareshell.whole.brake_park import parking_verdict


def others_of(
    system: BrakeSystem, figures: Figures | None = None
) -> Mapping[Subject, Callable[[Yardstick], Verdict]]:
    """Return what holds each subject that the circuit alone does not answer.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    figures : mapping of str to float or array, optional
        Its figures, or samples of them; those that were gathered when none are given.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> others_of(small_car())[Subject.PARKING](yardstick("un-r13h-parking")).words
    'meets 20 %'
    """
    cold = gather(system).figures if figures is None else figures

    def hot(yardstick: Yardstick) -> Verdict:
        try:
            after = hot_figures(system, cold, {**gather_heat(system).figures, **cold})
            return hot_verdict(prepare(system, cold), prepare(system, after), yardstick)
        except BadInput as error:
            return not_worked_out(yardstick, error.problems[0].describe())

    return {
        Subject.PARKING: lambda yardstick: parking_verdict(prepare(system, cold), yardstick),
        Subject.HOT: hot,
    }
