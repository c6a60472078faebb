"""Yardsticks that the circuit alone does not answer: parked cars, hot brakes, reservoirs."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from bareshell.brakes.figures import gather
from bareshell.brakes.heat_fade import hot_figures, hot_verdict
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.reservoir import reservoir_needs
from bareshell.brakes.verdict import Verdict, not_worked_out
from bareshell.brakes.verdicts import hold_volume
from bareshell.brakes.yardstick import Subject, Yardstick
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem
from bareshell.whole.brake_park import parking_verdict


def others_of(
    system: BrakeSystem, prepared: Prepared | None = None
) -> Mapping[Subject, Callable[[Yardstick], Verdict]]:
    """Return what holds each subject that the circuit alone does not answer.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    prepared : Prepared, optional
        The same with its figures, or with samples of them; those that were gathered when it is
        left out. Samples of how much friction linings keep hot go by their paths.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> others_of(small_car())[Subject.PARKING](yardstick("un-r13h-parking")).words
    'meets 20 %'
    """
    both = _ColdAndHot(system, prepared)
    return {
        Subject.PARKING: lambda yardstick: parking_verdict(both.cold, yardstick),
        Subject.HOT: both.hot_verdict,
        Subject.RESERVOIR: lambda yardstick: reservoir_verdict(both.cold, yardstick),
    }


def reservoir_verdict(prepared: Prepared, yardstick: Yardstick) -> Verdict:
    """Hold every reservoir against what its pistons take until the linings are worn.

    Parameters
    ----------
    prepared : Prepared
        The system with its figures.
    yardstick : Yardstick
        One about the reservoir.

    Returns
    -------
    Verdict
        That of the reservoir with the least to spare.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> car = small_car()
    >>> asked = yardstick("fmvss-135-reservoir")
    >>> reservoir_verdict(prepare(car, gather(car).figures), asked).because
    'nobody measured what the reservoir holds between its marks'
    """
    import numpy as np

    try:
        needs = reservoir_needs(prepared)
    except BadInput as error:
        return not_worked_out(yardstick, error.problems[0].describe())
    if not needs:
        return not_worked_out(yardstick, "no reservoir says which chambers it feeds")
    found = []
    for need in needs:
        if need.there_is_m3 is None:
            because = f"nobody measured what the {need.title} holds between its marks"
            return not_worked_out(yardstick, because)
        worn = f"wear of linings taken as usual: {', '.join(need.assumed)}" if need.assumed else ""
        because = "; ".join(each for each in (need.title, worn) if each)
        one = hold_volume(yardstick, need.needed_m3, need.there_is_m3)
        found.append(replace(one, because=because))
    return min(found, key=lambda one: float(np.min(np.asarray(one.margin))))


class _ColdAndHot:
    """The same brakes cold and hot, each looked over when first asked for."""

    def __init__(self, system: BrakeSystem, prepared: Prepared | None) -> None:
        self._system = system
        self._cold = prepared
        self._hot: Prepared | None = None

    @property
    def cold(self) -> Prepared:
        if self._cold is None:
            self._cold = prepare(self._system, gather(self._system).figures)
        return self._cold

    def hot_verdict(self, yardstick: Yardstick) -> Verdict:
        try:
            if self._hot is None:
                cold = self.cold.figures
                ratios = {**gather_heat(self._system).figures, **cold}
                self._hot = prepare(self._system, hot_figures(self._system, cold, ratios))
            return hot_verdict(self.cold, self._hot, yardstick)
        except BadInput as error:
            return not_worked_out(yardstick, error.problems[0].describe())
