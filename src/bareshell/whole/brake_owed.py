"""What the brakes on the car owe in proof and want of parts, beside what the record has.

When the description of the brakes changes, nothing is written down by itself: what would be new,
what would read otherwise and what is not asked for any more is laid out here, and a person says
whether it shall be so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Final, Literal

from bareshell.brakes.joints import joint_schedule
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem
from bareshell.model.corrected import may_be_corrected
from bareshell.model.proof import Proof, ProofState
from bareshell.model.standing import proof_standings
from bareshell.model.trust import YOURS
from bareshell.whole.brake_check import Head
from bareshell.whole.brake_needs import WantedNeed, brake_needs
from bareshell.whole.brake_parts import SystemName
from bareshell.whole.brake_proofs import (
    brake_proofs,
    is_of_brakes,
    joint_proof_id,
    screw_proof_id,
)
from bareshell.whole.spec_words import spec_words

__all__ = [
    "NeedLine",
    "OwedGroup",
    "OwedProof",
    "OwedView",
    "ProofDifference",
    "Standing",
    "differences",
    "owed_view",
    "standings_of",
    "to_write",
]

What = Literal["new", "reads otherwise", "not asked for any more", "kept as written", "stays"]

NOT_PROVED: Final = (
    "a proof says what was seen on its day and no more; none says that a car stops",
    "what hides what is read from the network's jobs: look whether it is so on this car",
)


@dataclass(frozen=True, slots=True)
class Standing:
    """How the proof of one joint or bleed screw stands.

    Parameters
    ----------
    id : str
        Of the joint or the screw.
    proof : str
        The id of its proof.
    state : str
        How it stands; empty while the record does not ask for it.
    since : datetime or None
        Since when.
    """

    id: str
    proof: str
    state: str
    since: datetime | None = None


@dataclass(frozen=True, slots=True)
class ProofDifference:
    """One proof in which the brakes and the record differ.

    Parameters
    ----------
    id, title, about : str
        The proof as the brakes would have it; as the record has it when they ask for none.
    what : {"new", "reads otherwise", "not asked for any more", "kept as written", "stays"}
        What would be done about it; nothing for the last two.
    words : str
        What differs, or why it stays.
    """

    id: str
    title: str
    about: str
    what: What
    words: str = ""

    @property
    def is_written(self) -> bool:
        """Whether saying yes changes the record."""
        return self.what not in ("kept as written", "stays")


@dataclass(frozen=True, slots=True)
class OwedProof:
    """One proof of the brakes that the record asks for."""

    id: str
    title: str
    about: str
    state: str
    since: datetime | None
    words: str
    proven_by: str
    due: bool


@dataclass(frozen=True, slots=True)
class OwedGroup:
    """Proofs that differ only in what they are about."""

    title: str
    proofs: tuple[OwedProof, ...]
    counts: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class NeedLine:
    """One thing that the brakes want.

    Parameters
    ----------
    comes : str
        ``new``, ``settled``, ``as it stands`` or ``kept as written``.
    short : int
        How many are still to be found or ordered.
    """

    id: str
    title: str
    job: str
    job_title: str
    quantity: int
    what: str
    comes: str
    state: str
    here: int
    free: int
    short: int
    words: str


@dataclass(frozen=True, slots=True)
class OwedView:
    """Everything that the brakes on the car owe and want."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    differences: tuple[ProofDifference, ...]
    groups: tuple[OwedGroup, ...]
    needs: tuple[NeedLine, ...]
    without_job: tuple[str, ...]
    not_proved: tuple[str, ...] = NOT_PROVED

    @property
    def proofs_to_write(self) -> int:
        """How many proofs saying yes would change."""
        return sum(one.is_written for one in self.differences)

    @property
    def needs_to_write(self) -> int:
        """How many needs saying yes would change."""
        return sum(one.comes in ("new", "settled") for one in self.needs)

    @property
    def offer(self) -> str:
        """Say in a sentence what the record lacks; empty when it lacks nothing."""
        said = [
            f"{count} {one if count == 1 else many}"
            for count, one, many in (
                (self.proofs_to_write, "proof", "proofs"),
                (self.needs_to_write, "need", "needs"),
            )
            if count
        ]
        if not said:
            return ""
        return f"The record and these brakes differ in {' and '.join(said)}."


def owed_view(system: BrakeSystem, build: Build, head: Head) -> OwedView:
    """Lay out what brakes owe and want beside what a build's record has.

    Parameters
    ----------
    system : BrakeSystem
        The brakes on the car.
    build : Build
        Its proofs, jobs, needs and shelf.
    head : Head
        Whose they are.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.starters import starter
    >>> made = Head(datetime(2026, 3, 4, tzinfo=UTC))
    >>> view = owed_view(starter("single line"), Build(), made)
    >>> view.proofs_to_write, view.needs_to_write, view.differences[0].what
    (30, 0, 'new')
    """
    needs = brake_needs(system, build)
    return OwedView(
        head.made_at,
        head.seq,
        head.car,
        head.invented,
        system.id,
        system.title,
        system.role.value,
        head.systems,
        differences(system, build),
        tuple(_groups(build, head.made_at)),
        tuple(_need(build, one) for one in needs.wanted),
        needs.without_job,
    )


def standings_of(system: BrakeSystem, build: Build, now: datetime) -> tuple[Standing, ...]:
    """Say how the proof of every joint and bleed screw stands.

    Parameters
    ----------
    system : BrakeSystem
        The brakes on the car.
    build : Build
        Its proofs.
    now : datetime
        Aware.
    """
    schedule, known = joint_schedule(system), proof_standings(build, now)
    keys = [(one.id, joint_proof_id(one.id)) for one in schedule.joints]
    keys += [(one.id, screw_proof_id(one.id)) for one in schedule.screws]
    return tuple(
        Standing(thing, proof, str(known[proof].state), known[proof].since)
        if proof in known
        else Standing(thing, proof, "")
        for thing, proof in keys
    )


# --- proofs ------------------------------------------------------------------------------------


def differences(system: BrakeSystem, build: Build) -> tuple[ProofDifference, ...]:
    """Say in which proofs brakes and a build's record differ.

    What its owner wrote otherwise stays as it was written. What lies hidden and unproven, or
    failed, is never dropped because a description changed.

    Parameters
    ----------
    system : BrakeSystem
        The brakes on the car.
    build : Build
        The build.
    """
    return tuple(_differences(brake_proofs(system, build), build))


def _differences(wanted: tuple[Proof, ...], build: Build) -> Iterator[ProofDifference]:
    standings = proof_standings(build)
    for proof in wanted:
        record = build.proofs.get(proof.id)
        if record is None:
            yield ProofDifference(proof.id, proof.title, proof.about, "new")
        elif record.proof != proof:
            old, words = record.proof, _what_differs(record.proof, proof, build)
            if old.mark == YOURS:
                words = f"as you wrote it; the circuit says otherwise: {words}"
                yield ProofDifference(proof.id, old.title, old.about, "kept as written", words)
                continue
            if not may_be_corrected(build, proof):
                words = f"it is {standings[proof.id].state.value}: put that right first; {words}"
                yield ProofDifference(proof.id, old.title, old.about, "stays", words)
                continue
            if old.about != proof.about and standings[proof.id].state.is_good:
                words += "; it stands held: write it down as undone if the joint was opened"
            yield ProofDifference(proof.id, proof.title, proof.about, "reads otherwise", words)
    asked = {proof.id for proof in wanted}
    for key, record in build.proofs.items():
        if key in asked or not is_of_brakes(key):
            continue
        proof, state = record.proof, standings[key].state
        if state in (ProofState.COVERED, ProofState.FAILED):
            words = f"it is {state.value}: put that right first"
            yield ProofDifference(key, proof.title, proof.about, "stays", words)
        else:
            yield ProofDifference(key, proof.title, proof.about, "not asked for any more")


def _what_differs(old: Proof, new: Proof, build: Build) -> str:
    """Say in which of its words a proof differs from the one that the brakes ask for."""
    found = []
    if (old.title, old.about) != (new.title, new.about):
        found.append(f"it read '{old.title}: {old.about}'")
    for words, before, after in (
        ("made by", old.made_by, new.made_by),
        ("proved in", (old.proven_by,), (new.proven_by,)),
        ("hidden by", old.covered_by, new.covered_by),
        ("spent by", old.spent_by, new.spent_by),
    ):
        if before != after:
            found.append(f"{words} {_titles(build, after)}, not {_titles(build, before)}")
    if old.gates != new.gates:
        gates = [build.gates[each].gate.title for each in new.gates if each in build.gates]
        found.append(f"asked for at {', '.join(gates) or 'no gate'}")
    return "; ".join(found) or "its limits or its hold differ"


def _titles(build: Build, jobs: tuple[str | None, ...]) -> str:
    known = [f"'{build.jobs[job].job.title}'" for job in jobs if job and job in build.jobs]
    return " and ".join(known) or "no job"


def to_write(
    system: BrakeSystem, build: Build, found: tuple[ProofDifference, ...]
) -> tuple[c.ProofSet | c.ProofDropped, ...]:
    """Return the changes that bring a build's proofs up to what brakes owe.

    Parameters
    ----------
    system, build
        As for `differences`.
    found : tuple of ProofDifference
        Those of them that shall be written.
    """
    wanted = {proof.id: proof for proof in brake_proofs(system, build)}
    return tuple(
        c.ProofSet(wanted[one.id])
        if one.id in wanted
        else c.ProofDropped(one.id, "not there in the brakes as they are described")
        for one in found
        if one.is_written
    )


def _groups(build: Build, now: datetime) -> Iterator[OwedGroup]:
    standings = proof_standings(build, now)
    groups: dict[str, list[OwedProof]] = {}
    for key, record in build.proofs.items():
        if not is_of_brakes(key):
            continue
        proof, standing = record.proof, standings[key]
        made = [build.jobs[job].state.is_done for job in proof.made_by if job in build.jobs]
        groups.setdefault(proof.title, []).append(
            OwedProof(
                key,
                proof.title,
                proof.about,
                str(standing.state),
                standing.since,
                standing.words,
                _title(build, proof.proven_by),
                all(made),
            )
        )
    for title, proofs in groups.items():
        counts: dict[str, int] = {}
        for one in proofs:
            counts[one.state] = counts.get(one.state, 0) + 1
        yield OwedGroup(title, tuple(proofs), tuple(counts.items()))


def _title(build: Build, job: str | None) -> str:
    return build.jobs[job].job.title if job and job in build.jobs else ""


# --- needs -------------------------------------------------------------------------------------


def _need(build: Build, one: WantedNeed) -> NeedLine:
    job = build.jobs.get(one.need.job)
    return NeedLine(
        one.need.id,
        one.need.title,
        one.need.job,
        job.job.title if job else one.need.job,
        one.need.quantity,
        spec_words(one.need.spec),
        one.comes,
        one.state,
        one.here,
        one.free,
        one.short,
        one.words or one.need.note,
    )
