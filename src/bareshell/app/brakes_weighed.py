"""The car weighed: its masses, shares and heights written down from what the scales said."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bareshell.app.brakes_figures import change_of, made
from bareshell.app.brakes_found import system_of
from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.written import Pen, Written, filled, write_down
from bareshell.brakes.weighed import Weighing, weighed
from bareshell.errors import NotFound
from bareshell.model.brake import PartKind
from bareshell.units import parse_length, parse_mass

LOADS: Final = {"driver only": "with the driver's weight only", "laden": "fully laden"}
"""What the car carried, in words."""


def weigh(door: Door, system_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down what weighing the car gives.

    The fields are ``front`` and ``rear``, the weight on each axle with the car level;
    ``raised_front`` and ``rise`` where the front was weighed again with the rear raised; and
    ``load``, one of `LOADS`.

    Parameters
    ----------
    door : Door
        The build.
    system_id : str
        Which brakes; empty for those on the car.
    fields : mapping of str to sequence of str
        The form.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When a field cannot be read, or a figure of the car is wanted first.
    NotFound
        When these brakes have no car in them.
    """
    system = system_of(door.build(), system_id)
    car = next(iter(system.of_kind(PartKind.CAR)), None)
    if car is None:
        raise NotFound("these brakes have no car in them", "add a part of the kind 'car' first")
    form = filled(door, fields)
    load = form.text("load") or next(iter(LOADS))
    if load not in LOADS:
        form.wrong("weighed", f"'{load}' is none", f"say {' or '.join(LOADS)}")
    front = _kg(form, "front", "front axle, level", need=True)
    rear = _kg(form, "rear", "rear axle, level", need=True)
    raised = _kg(form, "raised_front", "front axle, rear raised")
    rise = form.text("rise")
    rise_m = form.attempt(
        lambda: parse_length(rise, "rear wheels raised by", bare="mm") if rise else None, None
    )
    form.check()
    found = weighed(car, Weighing(front or 0.0, rear or 0.0, load == "laden", raised, rise_m))
    new = made(car.title, lambda: replace(car, figures={**car.figures, **found}))
    mass, share, *height = found.values()
    said = [
        f"Weighed {LOADS[load]}: {mass.value:g} kg, {100 * share.value:.1f} in 100 of it in front."
    ]
    said += [
        f"Height of the centre of gravity: {one.value:.2f} m, by the scales from {one.low:.2f} to "
        f"{one.high:.2f} m."
        for one in height
    ]
    return write_down(door, change_of(system.id, new), pen, lambda: tuple(said))


def _kg(form: Filled, name: str, what: str, *, need: bool = False) -> float | None:
    said = form.text(name, what if need else "")
    return form.attempt(lambda: parse_mass(said, what, bare="kg") if said else None, None)
