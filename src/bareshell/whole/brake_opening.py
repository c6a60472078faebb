"""One joint or bleed screw: both sides, how tight, what is proved of it and what opening spends."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.brakes.joints import Joint, ScrewJoint
from bareshell.model import Build
from bareshell.model.brake import BrakeSystem, Fitting
from bareshell.model.standing import proof_standings
from bareshell.whole.brake_check import Head
from bareshell.whole.brake_parts import SystemName
from bareshell.whole.brake_proofs import circuit_names, joint_proof_id, screw_proof_id
from bareshell.whole.brake_spent import joint_undone, screw_opened

CAUTION = (
    "Pressure off before the spanner touches it: fluid goes through skin and into eyes. Goggles "
    "on, paint covered, a cloth beneath."
)
AFTERWARDS = (
    "New washers where there were washers. Bleed that circuit, look at the joint dry under "
    "pressure, and measure the pedal before the car moves."
)


@dataclass(frozen=True, slots=True)
class SpendsProof:
    """A proof that opening this spends, and how it stands now; empty while nobody asks for it."""

    id: str
    title: str
    state: str
    since: datetime | None


@dataclass(frozen=True, slots=True)
class OpeningView:
    """One joint or bleed screw.

    Parameters
    ----------
    kind : str
        ``joint`` or ``bleed screw``.
    address : str
        What its page is called.
    thing : str
        The id of the line whose end it is, or of the part that the screw is in.
    sides : tuple of str
        What each side is, in words; one only for a screw.
    spends : tuple of SpendsProof
        What opening it spends: its own proof first.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    kind: str
    id: str
    address: str
    number: int
    thing: str
    words: str
    circuits: tuple[str, ...]
    sides: tuple[str, ...]
    tighten: str
    washers: int
    trouble: str
    asked: tuple[str, ...]
    spends: tuple[SpendsProof, ...]
    caution: str = CAUTION
    afterwards: str = AFTERWARDS


def address_of(thing: Joint | ScrewJoint) -> str:
    """Name the page of a joint or screw so that it fits an address.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> from bareshell.brakes.joints import joint_schedule
    >>> address_of(joint_schedule(starter("single line")).screws[0])
    'cylinder-front-left-upper-bleed'
    """
    own = screw_proof_id(thing.id) if isinstance(thing, ScrewJoint) else joint_proof_id(thing.id)
    return own.partition(".")[2]


def opening_view(
    thing: Joint | ScrewJoint, system: BrakeSystem, build: Build, head: Head
) -> OpeningView:
    """Lay one joint or screw of the brakes on the car out.

    Parameters
    ----------
    thing : Joint or ScrewJoint
        From the joint schedule.
    system : BrakeSystem
        The brakes on the car.
    build : Build
        Its proofs.
    head : Head
        Whose they are.
    """
    is_screw = isinstance(thing, ScrewJoint)
    spends = screw_opened(system, thing.id) if is_screw else joint_undone(system, thing.id)
    named = circuit_names(system)
    torque = thing.torque
    tight = f"{torque.low_nm:g} to {torque.high_nm:g} N.m; " if torque else ""
    return OpeningView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        system.id,
        system.title,
        system.role.value,
        head.systems,
        kind="bleed screw" if is_screw else "joint",
        id=thing.id,
        address=address_of(thing),
        number=thing.number,
        thing=thing.part if isinstance(thing, ScrewJoint) else thing.line,
        words=thing.words,
        circuits=tuple(named.get(each, each) for each in thing.circuits),
        sides=_sides(thing),
        tighten=f"{tight}{thing.torque_words}",
        washers=0 if isinstance(thing, ScrewJoint) else thing.washers,
        trouble="" if isinstance(thing, ScrewJoint) else thing.trouble,
        asked=() if isinstance(thing, ScrewJoint) else thing.asked,
        spends=tuple(_spends(build, key, head.made_at) for key in spends),
    )


def _sides(thing: Joint | ScrewJoint) -> tuple[str, ...]:
    if isinstance(thing, ScrewJoint):
        return (f"{thing.thread or 'thread not known'}, seals on its own cone",)
    return tuple(f"{side.words}: {_fitting(side.fitting)}" for side in thing.sides)


def _fitting(fitting: Fitting) -> str:
    said = (fitting.thread, fitting.sex, fitting.seat, fitting.flare)
    return ", ".join(each for each in said if each) or "not known"


def _spends(build: Build, key: str, now: datetime) -> SpendsProof:
    record = build.proofs.get(key)
    if record is None:
        return SpendsProof(key, "not asked for on the record yet", "", None)
    standing = proof_standings(build, now)[key]
    title = f"{record.proof.title}: {record.proof.about}"
    return SpendsProof(key, title, str(standing.state), standing.since)
