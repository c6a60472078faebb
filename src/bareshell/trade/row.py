"""How a job of the starter network is written down: one row, with what hangs on it.

A row says in one place what the trade knows of a job: where it is done, what it waits for,
what can hurt, what must be shown, what it leaves for later and what it uses up. `network`
turns rows into the model's own jobs, proofs, temps and needs. Ids that belong together are
written as one string with spaces, so that a row reads like a line in a notebook.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from bareshell.model.car import Layout
from bareshell.model.job import Caution, Recheck, Wait
from bareshell.model.part import NeededTo
from bareshell.model.position import Place, Wheels, Zone
from bareshell.model.proof import AboutKind, Limit, ProofKind
from bareshell.model.spec import BoltSpec, GoodsSpec, PlainSpec, Spec
from bareshell.model.trust import COMMON_PRACTICE

ALONE_TAKES = 1.3
"""How much longer a two-person job takes alone with a kit: common practice, no source. [-]"""

FORCED_INDUCTION = "forced induction"
"""The option of cars with a turbocharger or blower, as `Car.options` writes it."""


@dataclass(frozen=True, slots=True)
class Owed:
    """A proof that a row owes.

    Parameters
    ----------
    title : str
        What must be seen or measured.
    kind, about_kind, about
        As `Proof` has them.
    key : str
        Empty for the row's main proof, whose id is the job's; else the id's second half.
    by : str
        The later job that proves it; empty when the row's own job does.
    made : str
        The jobs that make the thing; empty when the row's own job does. With ``made`` the
        row's own job is the one that proves.
    covers : str
        Jobs that would hide it.
    gates : str
        Gates that ask for it, besides those a safety row is asked for anyway.
    limits, hold_hours, valid_days, nipped_until
        As `Proof` has them.
    fixings : str
        Needs of other rows whose bolts it vouches for.
    """

    title: str
    kind: ProofKind = ProofKind.SEEN
    about_kind: AboutKind = AboutKind.ASSEMBLY
    about: str = ""
    key: str = ""
    by: str = ""
    made: str = ""
    covers: str = ""
    gates: str = ""
    limits: tuple[Limit, ...] = ()
    hold_hours: float | None = None
    valid_days: int | None = None
    nipped_until: str | None = None
    fixings: str = ""


@dataclass(frozen=True, slots=True)
class Left:
    """A temporary fix that a row leaves behind: until which job, and before which gate."""

    title: str
    until: str
    gate: str
    replaced_by: str


@dataclass(frozen=True, slots=True)
class Uses:
    """Something that a row uses up or fits."""

    title: str
    quantity: int = 1
    spec: Spec = PlainSpec()
    fixing: bool = False
    needed_to: NeededTo = NeededTo.START
    note: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """One job of the starter network; fields are those of `Job` unless said here.

    Parameters
    ----------
    hours : tuple of float
        If all goes well, most likely, if it goes badly. [h]
    after : str
        Jobs that come first.
    later : str
        Those of ``after`` that could still be done afterwards: that this job is done says
        nothing about them. The others are done, or can no longer be done as they stand.
    implies : str
        Earlier jobs, beyond ``after``, without which this one cannot have been done.
    people : int
        How many it usually takes.
    alone : str
        The kit with which one person manages a two-person job; empty when nobody should.
    split : float or None
        The shortest useful piece when it can be stopped and taken up again. [h]
    safety : bool
        Whether hands and lives hang on it.
    layout, option
        The only drive layout, or the option, that has this job.
    """

    id: str
    title: str
    system: str
    hours: tuple[float, float, float]
    after: str = ""
    later: str = ""
    implies: str = ""
    people: int = 1
    alone: str = ""
    place: Place = Place.CAR
    zones: frozenset[Zone] = frozenset()
    wheels: Wheels = Wheels.EITHER
    level: bool = False
    off: tuple[str, ...] = ()
    split: float | None = None
    wait: Wait | None = None
    lowest_c: float | None = None
    weather: str = ""
    tools: tuple[str, ...] = ()
    tightens: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    safety: bool = False
    dirty: bool = False
    dangerous_alone: bool = False
    rechecks: tuple[Recheck, ...] = ()
    gate: str | None = None
    twin: str | None = None
    layout: Layout | None = None
    option: str = ""
    note: str = ""
    proofs: tuple[Owed, ...] = ()
    temp: Left | None = None
    needs: tuple[Uses, ...] = field(default=())


def cure(hours: float, lowest_c: float | None, why: str) -> Wait:
    """Make a wait that the cold stretches: a cure, a drying-out.

    Examples
    --------
    >>> cure(24, 10, "sealer cures").stretches_with_cold
    True
    """
    return Wait(hours, stretches_with_cold=True, lowest_temperature_c=lowest_c, why=why)


def stand(hours: float, why: str) -> Wait:
    """Make a wait that the clock alone decides: a hold, a cooling-down, a service away.

    Examples
    --------
    >>> stand(12, "overnight hold").stretches_with_cold
    False
    """
    return Wait(hours, why=why)


def at_most(quantity: str, unit: str, high: float) -> Limit:
    """Make an upper limit of common practice.

    Examples
    --------
    >>> at_most("clip gap", "mm", 300).admits(280)
    True
    """
    return Limit(quantity, unit, high=high, mark=COMMON_PRACTICE)


def at_least(quantity: str, unit: str, low: float) -> Limit:
    """Make a lower limit of common practice.

    Examples
    --------
    >>> at_least("air pressure", "bar", 0.3).admits(0.2)
    False
    """
    return Limit(quantity, unit, low=low, mark=COMMON_PRACTICE)


def between(quantity: str, unit: str, low: float, high: float) -> Limit:
    """Make a limit on both sides, of common practice.

    Examples
    --------
    >>> between("door gap", "mm", 4, 5).admits(6)
    False
    """
    return Limit(quantity, unit, low=low, high=high, mark=COMMON_PRACTICE)


def fixing(
    title: str,
    quantity: int = 1,
    spec: Spec | None = None,
    needed_to: NeededTo = NeededTo.FINISH,
    note: str = "",
) -> Uses:
    """Make the need for a fastener, clip or pin; without it a job can begin but not end."""
    return Uses(title, quantity, BoltSpec() if spec is None else spec, True, needed_to, note)


def goods(
    title: str,
    amount: str = "",
    lowest_c: float | None = None,
    shelf_months: int | None = None,
    needed_to: NeededTo = NeededTo.START,
) -> Uses:
    """Make the need for sheet, paste or liquid goods.

    Examples
    --------
    >>> goods("Seam sealer", "3 to 5 tubes", 10).spec.amount
    '3 to 5 tubes'
    """
    spec = GoodsSpec(
        what=title.lower(),
        amount=amount or None,
        shelf_life_months=shelf_months,
        lowest_temperature_c=lowest_c,
    )
    return Uses(title, 1, spec, needed_to=needed_to)
