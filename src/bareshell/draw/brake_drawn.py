"""Every picture of the brakes as a plate for a file or for paper, from one check.

The page, the file and the paper draw from the same functions; here each gets its title, what to
see in it, and its legend.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from bareshell.brakes.bleed_plan import bleed_plan
from bareshell.brakes.figures import gather
from bareshell.brakes.pipe_sheet import pipe_sheet
from bareshell.brakes.yardstick import Hold, Subject, Yardstick
from bareshell.draw import brake_checked as checked
from bareshell.draw import brake_pipes
from bareshell.draw.brake_balance import adhesion_used, distribution
from bareshell.draw.brake_file import FilePlate
from bareshell.draw.brake_key import circuit_key
from bareshell.draw.brake_pedal import pedal_curve
from bareshell.draw.brake_places import circuits_of
from bareshell.draw.brake_plan import circuit_plan
from bareshell.draw.brake_results import (
    bleed_marks,
    distribution_plate,
    pedal_plate,
    pipes_plate,
    settling_plate,
    trusted_rows,
)
from bareshell.draw.brake_results_heat import boiling_plate, history_plate, slope_plate
from bareshell.draw.brake_rungs import failure_ladder
from bareshell.draw.brake_sheet import WIDE
from bareshell.draw.brake_slope import parking_slope
from bareshell.draw.brake_travel import pedal_travel
from bareshell.draw.brake_trust import sensitivity_bars, share_strips
from bareshell.draw.brake_warmth import boiling_curve, temperature_history
from bareshell.draw.svg import Svg
from bareshell.errors import BadInput, NotFound, Problem
from bareshell.model.brake import BrakeSystem
from bareshell.model.temp import Departure
from bareshell.whole.brake_check import BrakeCheck
from bareshell.whole.brake_heat import HeatView
from bareshell.whole.brake_park import ParkView
from bareshell.whole.brake_trust import TrustView

__all__ = ["PICTURES", "SLOW", "ToDraw", "alt_of", "draw_plate", "every_plate"]

_PIPES_A_SHEET: Final = 5
_WAYS: Final = {"rear wheels": "rear", "front wheels": "front", "transmission": "rear"}


@dataclass(frozen=True, slots=True)
class ToDraw:
    """What the pictures are drawn from.

    Parameters
    ----------
    system : BrakeSystem
        The brakes.
    check : BrakeCheck
        Their check, for the push, load, road and failure that was asked about.
    park : ParkView
        Their parking brake.
    heat, trust : callable
        What makes their heat and their trust, which take longer; asked only when drawn.
    standard : BrakeSystem or None
        Those that the car left the works with, where they are others.
    standard_check : BrakeCheck or None
        Their check, asked the same.
    departures : mapping of str to Departure
        By id.
    picked : tuple of Yardstick
        Those that are drawn in.
    """

    system: BrakeSystem
    check: BrakeCheck
    park: ParkView
    heat: Callable[[], HeatView]
    trust: Callable[[], TrustView]
    standard: BrakeSystem | None = None
    standard_check: BrakeCheck | None = None
    departures: Mapping[str, Departure] = field(default_factory=dict)
    picked: tuple[Yardstick, ...] = ()


def draw_plate(what: str, of: ToDraw) -> tuple[FilePlate, ...]:
    """Draw one picture of the brakes; some are of several plates.

    Parameters
    ----------
    what : str
        One of `PICTURES`.
    of : ToDraw
        What it is drawn from.

    Raises
    ------
    NotFound
        When there is no such picture.
    BadInput
        Naming what must be entered before it can be drawn.
    """
    if what not in _DRAWN:
        raise NotFound(f"there is no picture '{what}'", f"draw one of {', '.join(_DRAWN)}")
    found = _DRAWN[what](of)
    if not found:
        missing = [
            Problem(one.path, one.question, "enter it, and draw again") for one in of.check.missing
        ]
        if missing:
            raise BadInput.together(missing)
        raise BadInput(what, "there is nothing of it to draw", _NOTHING.get(what, "enter more"))
    return found


def every_plate(
    of: ToDraw, without: Collection[str] = ()
) -> Iterable[tuple[str, tuple[FilePlate, ...]]]:
    """Draw every picture that can be drawn, each by its name.

    Parameters
    ----------
    of : ToDraw
        What they are drawn from.
    without : collection of str
        Pictures to leave out.
    """
    for what, make in _DRAWN.items():
        if what in without:
            continue
        try:
            found = make(of)
        except BadInput:
            continue
        if found:
            yield what, found


def alt_of(drawing: Svg) -> str:
    """Return the sentence that a picture has for those who cannot see it.

    Examples
    --------
    >>> from bareshell.draw.svg import picture
    >>> alt_of(picture(10, 10, "Front & rear lock together."))
    'Front & rear lock together.'
    """
    import html
    import re

    found = re.search(r'aria-label="([^"]*)"', drawing)
    return html.unescape(found.group(1)) if found else ""


# --- the car from above ------------------------------------------------------------------------


def _plan(of: ToDraw) -> tuple[FilePlate, ...]:
    plan = checked.car_plate(of.system, of.standard, of.departures)
    failure = checked.failure_on_plan(of.system, of.check)
    said = failure.sentence if failure else "Both circuits in place, the way the fluid runs."
    drawing = circuit_plan(plan, failure=failure, flow=failure is None)
    key = circuit_key(plan, failure, flow=failure is None)
    return (FilePlate("The brakes from above", drawing, said, key),)


def _bleed(of: ToDraw) -> tuple[FilePlate, ...]:
    marks = bleed_marks(bleed_plan(of.system))
    if not marks:
        return ()
    plan = checked.car_plate(of.system, None, {})
    drawing = circuit_plan(plan, bleeds=marks)
    said = "The bleed screws in their turn; ends to vent are marked."
    return (FilePlate("Bleeding", drawing, said, circuit_key(plan, bleeds=marks)),)


def _pipes(of: ToDraw) -> tuple[FilePlate, ...]:
    circuits = circuits_of(of.system)
    numbers = {line.id: circuits.of_line(of.system, line) for line in of.system.lines}
    drawn = pipes_plate(pipe_sheet(of.system), numbers)
    said = "Each pipe straight and to scale, as it is cut, with its flares, nuts and bends."
    return tuple(
        FilePlate(
            "Pipe sheet",
            brake_pipes.pipe_sheet(drawn[at : at + _PIPES_A_SHEET], width=WIDE, first=at + 1),
            said,
        )
        for at in range(0, len(drawn), _PIPES_A_SHEET)
    )


# --- a push of the foot ------------------------------------------------------------------------


def _travel(of: ToDraw) -> tuple[FilePlate, ...]:
    plate = checked.travel_plate(of.check)
    if plate is None:
        return ()
    said = f"{of.check.pedal_force_n:.0f} N on the pedal, piece by piece, against the floor."
    return (FilePlate("Travel of the pedal", pedal_travel(plate), said),)


def _pedal(of: ToDraw) -> tuple[FilePlate, ...]:
    if of.check.curve is None:
        return ()
    whole = of.check.whole.travel if of.check.whole else None
    other = of.standard_check.whole_curve if of.standard_check else None
    plate = pedal_plate(
        [of.check.curve],
        standard=other,
        yardsticks=of.picked,
        floor_m=whole.floor_m if whole else None,
    )
    said = f"Deceleration and travel over a rising push, {of.check.load}."
    return (FilePlate("Pedal curve", pedal_curve(plate), said),)


def _adhesion(of: ToDraw) -> tuple[FilePlate, ...]:
    if of.check.curve is None:
        return ()
    other = of.standard_check.whole_curve if of.standard_check else None
    first = checked.first_words(of.check)
    plate = checked.adhesion_plate(of.check.curve, other, of.picked, first)
    said = f"Adhesion that each axle uses, {of.check.load}; {first}."
    return (FilePlate("Adhesion used", adhesion_used(plate), said),)


def _distribution(of: ToDraw) -> tuple[FilePlate, ...]:
    if of.check.curve is None:
        return ()
    other = of.standard_check.whole_curve if of.standard_check else None
    plate = distribution_plate(
        of.check.curve,
        gather(of.system).figures,
        standard=other,
        result=checked.first_words(of.check),
    )
    said = f"Front force against rear, and the line on which both lock together, {of.check.load}."
    return (FilePlate("Distribution between the axles", distribution(plate), said),)


def _failures(of: ToDraw) -> tuple[FilePlate, ...]:
    plate = checked.ladder_plate(of.check)
    if plate is None:
        return ()
    said = f"What one failure leaves at {of.check.pedal_force_n:.0f} N, {of.check.load}."
    return (FilePlate("What is left", failure_ladder(plate, width=WIDE), said),)


def _park(of: ToDraw) -> tuple[FilePlate, ...]:
    if of.park.answer is None:
        return ()
    held = (one for one in of.picked if one.subject is Subject.PARKING)
    yardstick = next((one for one in held if isinstance(one.asks, Hold)), None)
    braked = _WAYS.get(of.park.acts_on, "rear")
    plate = slope_plate(of.park.answer, yardstick=yardstick, braked=braked)
    said = f"The steepest slope that {of.park.hand_force_n:.0f} N of the hand hold, each way."
    return (FilePlate("Parking brake", parking_slope(plate), said),)


# --- heat and trust ------------------------------------------------------------------------------


def _heat(of: ToDraw) -> tuple[FilePlate, ...]:
    view = of.heat()
    state = None if view.fluid is None else view.fluid.state
    return tuple(
        FilePlate(
            "Temperatures",
            temperature_history(history_plate(course.history, course.words, state=state)),
            f"{checked.sentence_start(course.words)}, {view.asked.load}, "
            f"air {view.asked.ambient_c:.0f} C.",
        )
        for course in view.courses
        if course.history is not None
    )


def _fluid(of: ToDraw) -> tuple[FilePlate, ...]:
    view = of.heat()
    if view.fluid is None or view.fluid.state is None or view.fluid.boils_low_c is None:
        return ()
    hottest = [
        (float(max(each.fluid_c.max() for each in course.history.wheels)), course.words)
        for course in view.courses
        if course.history is not None
    ]
    most, words = max(hottest, default=(None, "hottest"))
    state = view.fluid.state
    drawing = boiling_curve(boiling_plate(state, hottest_c=most, hottest_words=words))
    return (FilePlate("The fluid's boiling point", drawing, state.words),)


def _shares(of: ToDraw) -> tuple[FilePlate, ...]:
    rows = trusted_rows(of.trust().answers)
    if not rows:
        return ()
    said = f"Of {of.trust().count} combinations of what is not known, the share that meets each."
    return (FilePlate("Share of combinations", share_strips(rows), said),)


def _sensitivity(of: ToDraw) -> tuple[FilePlate, ...]:
    view = of.trust()
    if not view.measure_first:
        return ()
    plate = settling_plate("the answers that are open", view.measure_first, measure=view.measure)
    said = "What to measure first: it settles most of what is open."
    return (FilePlate("What to measure first", sensitivity_bars(plate), said),)


_DRAWN: Final[Mapping[str, Callable[[ToDraw], tuple[FilePlate, ...]]]] = MappingProxyType(
    {
        "plan": _plan,
        "failures": _failures,
        "travel": _travel,
        "pedal": _pedal,
        "adhesion": _adhesion,
        "distribution": _distribution,
        "heat": _heat,
        "fluid": _fluid,
        "shares": _shares,
        "sensitivity": _sensitivity,
        "park": _park,
        "bleed": _bleed,
        "pipes": _pipes,
    }
)

PICTURES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "plan": "the car from above with both circuits, and what failed",
        "failures": "what each single failure leaves",
        "travel": "the pedal's travel piece by piece",
        "pedal": "deceleration and travel over a rising push",
        "adhesion": "the adhesion that each axle uses",
        "distribution": "front force against rear, and the ideal line",
        "heat": "temperatures through a stop, a fade series and a long descent",
        "fluid": "the boiling point against water, today's fluid on it",
        "shares": "in how many combinations each yardstick is met",
        "sensitivity": "what to measure first",
        "park": "the slope held both ways",
        "bleed": "the bleed screws in their turn",
        "pipes": "every pipe as it is cut",
    }
)
"""Each picture by its name, and what it shows."""

SLOW: Final = ("heat", "fluid", "shares", "sensitivity")
"""Those that take seconds the first time: they have pages of their own."""

_NOTHING: Final[Mapping[str, str]] = {
    "pipes": "enter the pipes and what they join",
    "bleed": "enter the bleed screws of calipers and cylinders",
    "park": "enter the parking brake's lever and linkage",
}
