"""The torque sheet with what each bolt may be tightened to, beside what was given and read.

Thread, grade and what is on the thread come from what the job wants; what is not written there is
read from the one put aside for it on the shelf. A given figure is held against the computed one
only where a proof is about one kind of bolt: a figure that could be for any of several is not
compared, and says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, replace

from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.model.duty import Seat
from bareshell.model.part import Need
from bareshell.model.proof import Limit
from bareshell.model.spec import BoltSpec, UnionSpec
from bareshell.parts.tightening import OWN_FIGURE, Torque, tightening, wrench_for
from bareshell.proofs.rechecks import Due
from bareshell.proofs.torque_sheet import TorqueRow
from bareshell.units import parse_torque
from bareshell.whole.said.figures import figures_of
from bareshell.whole.said.words import tokens_of

__all__ = ["BoltTorque", "again_words", "bolt_torques", "given_torques", "wrenches"]


@dataclass(frozen=True, slots=True)
class BoltTorque:
    """One bolt of a line of the sheet.

    Parameters
    ----------
    need, title : str
        The need, and what a person calls it.
    quantity : int
        How many.
    torque : Torque
        What it may be tightened to, and from what that was reckoned.
    said : tuple of str
        How the given and the read figure stand beside it.
    read_from : str
        Id of the holding that told what the need does not; empty when none did.
    """

    need: str
    title: str
    quantity: int
    torque: Torque
    said: tuple[str, ...] = ()
    read_from: str = ""


def bolt_torques(build: Build, row: TorqueRow) -> tuple[BoltTorque, ...]:
    """Reckon every bolt that a line of the sheet is about.

    Parameters
    ----------
    build : Build
        The build.
    row : TorqueRow
        A line of its torque sheet.
    """
    needs = [build.needs[key] for key in row.fixings]
    alone = len(needs) == 1
    return tuple(_bolt(build, need, row if alone else None) for need in needs)


def _bolt(build: Build, need: Need, row: TorqueRow | None) -> BoltTorque:
    if not isinstance(need.spec, BoltSpec):
        mind = (OWN_FIGURE[Seat.UNION],) if isinstance(need.spec, UnionSpec) else ()
        return BoltTorque(need.id, need.title, need.quantity, Torque(mind=mind))
    spec, read_from = _as_known(build, need, need.spec)
    torque = tightening(spec, need.duty)
    said: list[str] = []
    if row is not None:
        for low, high in given_torques(row):
            said += torque.beside(low, high)
        for read in _read(row.readings):
            said += torque.beside(read, read, "read")
    return BoltTorque(need.id, need.title, need.quantity, torque, tuple(said), read_from)


def _as_known(build: Build, need: Need, spec: BoltSpec) -> tuple[BoltSpec, str]:
    """Fill what the need does not say from the one put aside for it."""
    for key, holding in build.holdings.items():
        its = holding.spec
        if holding.need != need.id or not isinstance(its, BoltSpec) or not holding.quantity:
            continue
        gained = {
            each.name: getattr(its, each.name)
            for each in fields(spec)
            if each.name in _TELLS
            and getattr(spec, each.name) is None
            and getattr(its, each.name) is not None
        }
        if gained:
            return replace(spec, **gained), key
    return spec, ""


_TELLS = frozenset({"thread", "diameter_m", "grade", "finish", "lock", "what"})


def given_torques(row: TorqueRow) -> tuple[tuple[float | None, float | None], ...]:
    """Return the torques that were given for a line, each with its bounds in N.m.

    Those of its proof; where it has none, those that its job's ticket says in words.

    Examples
    --------
    >>> from bareshell.proofs.torque_sheet import FixingState
    >>> said = ("bracket to strut, two M8, 22 N m",)
    >>> row = TorqueRow("p", "Bracket", "j", "brakes", (), FixingState.FITTED, lines=said)
    >>> given_torques(row)
    ((22.0, 22.0),)
    >>> given_torques(replace(row, figures=(Limit("torque", "N m", 20.0, 24.0),)))
    ((20.0, 24.0),)
    """
    return tuple(_of_limits(row.figures)) or tuple(_of_words(row.lines))


def _of_limits(limits: Iterable[Limit]) -> Iterator[tuple[float | None, float | None]]:
    for limit in limits:
        low, high = (_torque(one, limit.unit) for one in (limit.low, limit.high))
        if low is not None or high is not None:
            yield low, high


def _of_words(lines: Iterable[str]) -> Iterator[tuple[float | None, float | None]]:
    for line in lines:
        for figure in figures_of(line, tokens_of(line)):
            if figure.quantity == "torque":
                value = _torque(figure.value, figure.unit)
                yield value, value


def _read(readings: Iterable[str]) -> Iterator[float]:
    for said in readings:
        value, _, unit = said.partition(" ")
        found = _torque(float(value), unit)
        if found is not None:
            yield found


def _torque(value: float | None, unit: str) -> float | None:
    if value is None or not unit:
        return None
    try:
        return parse_torque(f"{value:.12g} {unit}", "torque")
    except BadInput:
        return None  # another quantity, such as a gap


def wrenches(row: TorqueRow, bolts: Iterable[BoltTorque]) -> tuple[str, ...]:
    """Say which torque wrench reads the figures of a line in its upper part.

    A given figure goes before a computed one.
    """
    given = [high or low for low, high in given_torques(row)]
    figures = [one for one in given if one] or [
        bolt.torque.usual_nm for bolt in bolts if bolt.torque.usual_nm is not None
    ]
    return tuple(dict.fromkeys(wrench_for(one) for one in figures))


def again_words(due: Due) -> str:
    """Say when a re-torque falls due.

    Examples
    --------
    >>> from bareshell.proofs.rechecks import RecheckState
    >>> again_words(Due("j", "Hang it", "engine", RecheckState.LATER, at_miles=500.0))
    'again at 500 miles: later'
    """
    when = f"at {due.at_miles:g} miles" if due.at_miles is not None else f"on {due.on:%d %b %Y}"
    return f"again {when}: {due.state}"
