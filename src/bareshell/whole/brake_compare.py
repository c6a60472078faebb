"""The brakes on the car beside others, figure by figure, and which departure does what to each."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.brakes.compare import Because, Difference, compare
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem
from bareshell.units.show import METRIC, Preference
from bareshell.units.show_quantity import show_quantity
from bareshell.whole.brake_check import NOT_PROVED, Head
from bareshell.whole.brake_parts import BecauseView, CompareRow, SystemName
from bareshell.whole.brake_push import known

HAND_N: Final = 400.0
"""Pull of the hand at which two parking brakes are compared. [N]"""

NOT_REACHED: Final = "not reached"
NOT_ALONE: Final = "not by itself"
NO_DEPARTURE: Final = "what differs without a departure"
_NO_CHANGE: Final = 1e-9


@dataclass(frozen=True, slots=True)
class CompareView:
    """Two sets of brakes side by side."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    other: str
    other_title: str
    other_role: str
    systems: tuple[SystemName, ...]
    rows: tuple[CompareRow, ...]
    words: tuple[str, ...]
    not_worked_out: tuple[str, ...]
    not_proved: tuple[str, ...] = NOT_PROVED


def compare_view(
    built: BrakeSystem, standard: BrakeSystem, head: Head, departures: Mapping[str, str]
) -> CompareView:
    """Put two sets of brakes side by side.

    Parameters
    ----------
    built, standard : BrakeSystem
        The one asked about, and the one it is held beside.
    head : Head
        Whose they are.
    departures : mapping of str to str
        Titles of the departures by their ids.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> head = Head(datetime(2026, 3, 4, tzinfo=UTC))
    >>> view = compare_view(small_car(), small_car("single line"), head, {})
    >>> view.words[0]
    'as built there are 2 circuits, standard there is 1 circuit'
    """
    rows: tuple[CompareRow, ...] = ()
    words: tuple[str, ...] = ()
    try:
        found = compare(built, standard, hand_force_n=HAND_N)
    except BadInput as error:
        missing = tuple(problem.describe() for problem in error.problems)
    else:
        rows = tuple(_row(each, departures, head.preference) for each in found.rows)
        words, missing = found.words, found.not_worked_out
    return CompareView(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=built.id,
        title=built.title,
        role=built.role.value,
        other=standard.id,
        other_title=standard.title,
        other_role=standard.role.value,
        systems=head.systems,
        rows=rows,
        words=words,
        not_worked_out=missing,
    )


def _row(each: Difference, departures: Mapping[str, str], preference: Preference) -> CompareRow:
    built, standard, together = known(each.built), known(each.standard), known(each.together)
    because = [_because(one, departures, each.quantity, preference) for one in each.because]
    moved = together is not None and abs(together) > _NO_CHANGE
    return CompareRow(
        key=each.key,
        words=each.words,
        quantity=each.quantity,
        built=built,
        standard=standard,
        built_said=said(each.quantity, built, preference),
        standard_said=said(each.quantity, standard, preference),
        because=tuple(one for one in because if one.said),
        together=together,
        together_said=_signed(each.quantity, together, preference) if moved else "",
    )


def said(quantity: str, figure: float | None, preference: Preference = METRIC) -> str:
    """Say a figure of a comparison, to as many digits as anybody would trust.

    Examples
    --------
    >>> said("force", 311.606), said("length", 0.0696), said("share_of_g", 0.7711)
    ('312 N', '70 mm', '0.77 g')
    >>> said("share", 0.649), said("share_of_g", None)
    ('65 %', 'not reached')
    """
    if figure is None:
        return NOT_REACHED
    if quantity == "length" and preference.length == "mm":
        return f"{figure * 1000:.0f} mm"
    if quantity == "share":
        return f"{figure * 100:.0f} %"
    if quantity == "share_of_g":
        return f"{figure:.2f} g"
    return show_quantity(quantity, round(figure) if quantity == "force" else figure, preference)


def _because(
    one: Because, departures: Mapping[str, str], quantity: str, preference: Preference
) -> BecauseView:
    title = departures.get(one.departure, one.words) if one.departure else NO_DEPARTURE
    change = known(one.change)
    alone = _signed(quantity, change, preference) if change is not None else NOT_ALONE
    return BecauseView(one.departure, title, change, alone)


def _signed(quantity: str, figure: float | None, preference: Preference) -> str:
    """Say a change; nothing when nobody would see it."""
    if figure is None:
        return ""
    shown = said(quantity, abs(figure), preference)
    if quantity == "share":
        shown = shown.replace(" %", " points")
    if not re.search(r"[1-9]", shown):
        return ""
    return f"{'+' if figure > 0 else '-'}{shown}"
