"""The proofs that brakes owe: every joint dry, every circuit clear of air, every test made.

A joint is proved by a hold under pressure, and undoing it spends that proof and the air proof of
its circuit. Opening a bleed screw spends only the air proof and the screw's own leak proof; the
pedal test that follows renews both. So the usual order - hold overnight, bleed again, measure the
pedal - reaches every gate. A held proof says what was seen that day; none says that a car stops.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from bareshell.brakes.joints import Joint, JointSchedule, ScrewJoint, joint_schedule
from bareshell.brakes.ways import Ways, ways_of
from bareshell.model import Build
from bareshell.model.brake import BrakeSystem, Part, PartKind
from bareshell.model.network import predecessors
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind
from bareshell.model.trust import COMMON_PRACTICE
from bareshell.whole.brake_jobs import BrakeJobs, Role

__all__ = [
    "air_proof_id",
    "brake_proofs",
    "circuit_names",
    "circuit_words",
    "is_of_brakes",
    "joint_proof_id",
    "screw_proof_id",
    "vent_proof_id",
]

_MOVE, _ROAD, _FIFTY = "first-move", "road", "50-miles"
_HOLD_HOURS: Final = 12.0

_JOINT, _SCREW, _AIR, _VENT = "brake-joint", "brake-screw", "brake-air", "brake-vent"
_TESTS: Final = frozenset(
    {"brake-hold", "brake-pedal", "brake-servo", "brake-parking", "brake-measured"}
)


def _named(what: str, of: str) -> str:
    """Name a proof so that it fits an address, whatever a port is called."""
    return f"{what}.{re.sub(r'[^A-Za-z0-9_.]+', '-', of)}"


def is_of_brakes(proof: str) -> bool:
    """Whether a proof is one that was worked out of the circuit.

    >>> is_of_brakes("brake-joint.pipe-rear-0"), is_of_brakes("pipe-rear.held")
    (True, False)
    """
    return proof in _TESTS or proof.split(".", 1)[0] in (_JOINT, _SCREW, _AIR, _VENT)


def joint_proof_id(joint: str) -> str:
    """Return the id of the leak proof of a joint.

    >>> joint_proof_id("pipe-rear-0")
    'brake-joint.pipe-rear-0'
    """
    return _named(_JOINT, joint)


def screw_proof_id(screw: str) -> str:
    """Return the id of the leak proof of a bleed screw.

    >>> screw_proof_id("caliper-front-left-bleed")
    'brake-screw.caliper-front-left-bleed'
    """
    return _named(_SCREW, screw)


def air_proof_id(circuit: str) -> str:
    """Return the id of the air proof of a circuit.

    >>> air_proof_id("master-primary")
    'brake-air.master-primary'
    """
    return _named(_AIR, circuit)


def vent_proof_id(blank: str) -> str:
    """Return the id of the proof that the far end of a blanked leg was vented.

    >>> vent_proof_id("plug")
    'brake-vent.plug'
    """
    return _named(_VENT, blank)


def brake_proofs(system: BrakeSystem, build: Build) -> tuple[Proof, ...]:
    """Return every proof that a system of brakes owes in a build.

    Tests that the build owes already (the hold of all joints, the measured pedal, the parking
    brake, the inspection's sheet) are not asked for twice.

    Parameters
    ----------
    system : BrakeSystem
        The brakes as built.
    build : Build
        Its jobs and gates, which may be the starter network's or the owner's own.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> found = brake_proofs(starter("single line"), Build())
    >>> [proof.id for proof in found if proof.id.startswith("brake-air")]
    ['brake-air.master-primary']
    """
    desk = _Desk(system, build)
    return tuple(desk.proofs())


@dataclass(slots=True)
class _Desk:
    """One system beside one build: what is looked up again and again."""

    system: BrakeSystem
    build: Build
    jobs: BrakeJobs = field(init=False)

    def __post_init__(self) -> None:
        self.jobs = BrakeJobs(self.build)

    def proofs(self) -> Iterator[Proof]:
        schedule, ways = joint_schedule(self.system), ways_of(self.system)
        for joint in schedule.joints:
            yield self._joint(joint)
        for screw in schedule.screws:
            yield self._screw(screw)
        yield from self._air(schedule, ways)
        yield from self._tests()

    def gates(self, *wanted: str) -> tuple[str, ...]:
        """Return those of some gates that the build has."""
        return tuple(gate for gate in wanted if gate in self.build.gates)

    def circuits(self, joint: Joint | ScrewJoint) -> str:
        """Name the circuits that a joint holds, so that those of one circuit stand together."""
        named = circuit_names(self.system)
        found = [named[each] for each in joint.circuits if each in named]
        return " and ".join(found) or "which no cylinder feeds"

    def makers_of(self, joint: Joint) -> tuple[str, ...]:
        """Return the jobs that make a joint: undoing either spends it."""
        line, part = self.system.line(joint.line), self.system.part(joint.part)
        makers = [self.jobs.of_line(self.system, line), self.jobs.of_part(self.system, part)]
        if part.choices.get("form") == "hose bracket":
            makers += [
                self.jobs.of_line(self.system, other)
                for other in self.system.lines
                if other.id != line.id and any(end.part == part.id for end in other.ends)
            ]
        return tuple(dict.fromkeys(job for job in makers if job is not None))

    # --- leaks -------------------------------------------------------------------------------

    def _joint(self, joint: Joint) -> Proof:
        makers = self.makers_of(joint)
        hold = self._held_in(makers)
        at = self.jobs.of_part(self.system, self.system.part(joint.part))
        # What hides a joint is what hides the place where it is.
        beneath = self._like((at,) if at else (), hold) or self._like(makers, hold)
        covers = tuple(dict.fromkeys(job for proof in beneath for job in proof.covered_by))
        asked = [gate for proof in beneath for gate in proof.gates]
        return Proof(
            joint_proof_id(joint.id),
            f"Joint dry under pressure, {self.circuits(joint)}",
            ProofKind.HELD_PRESSURE,
            AboutKind.JOINT,
            joint.words,
            made_by=makers,
            proven_by=hold if hold not in makers else None,
            covered_by=tuple(job for job in covers if job not in (*makers, hold)),
            gates=tuple(dict.fromkeys((*asked, *self.gates(_MOVE, _ROAD)))),
            hold_hours=_HOLD_HOURS,
            mark=COMMON_PRACTICE,
        )

    def _held_in(self, makers: tuple[str, ...]) -> str | None:
        """Return the hold in which a joint is proved: that of the bare pipes where it can be.

        What is hidden before the brakes are filled must be dry before that.
        """
        pipes_alone, every = self.jobs.find("pipe hold"), self.jobs.find("overnight hold")
        if pipes_alone is not None and makers:
            before = _before(self.build, pipes_alone)
            if all(maker in before for maker in makers):
                return pipes_alone
        return every

    def _like(self, makers: tuple[str, ...], hold: str | None) -> list[Proof]:
        """Return the build's own proofs of the same pipes in the same hold, not of our making."""
        if hold is None or hold == self.jobs.find("overnight hold"):
            return []
        return [
            record.proof
            for record in self.build.proofs.values()
            if record.proof.kind is ProofKind.HELD_PRESSURE
            and record.proof.proven_by == hold
            and not is_of_brakes(record.proof.id)
            and set(record.proof.made_by) & set(makers)
        ]

    def _screw(self, screw: ScrewJoint) -> Proof:
        maker = self.jobs.of_part(self.system, self.system.part(screw.part))
        test = self._renewed_in()
        return Proof(
            screw_proof_id(screw.id),
            f"Bleed screw dry after the pedal test, {self.circuits(screw)}",
            ProofKind.SEEN,
            AboutKind.JOINT,
            screw.words,
            made_by=(maker,) if maker else (),
            proven_by=test if test != maker else None,
            gates=self.gates(_MOVE, _ROAD),
            mark=COMMON_PRACTICE,
            spent_by=self._bleeding(),
        )

    def _bleeding(self) -> tuple[str, ...]:
        """Return the jobs that open every screw, but for the one that renews what that spends."""
        bleeds = self.jobs.every("first bleed", "second bleed")
        return tuple(job for job in bleeds if job != self._renewed_in())

    def _renewed_in(self) -> str | None:
        return (
            self.jobs.find("pedal test")
            or self.jobs.find("second bleed")
            or self.jobs.find("first bleed")
        )

    # --- air ---------------------------------------------------------------------------------

    def _air(self, schedule: JointSchedule, ways: Ways) -> Iterator[Proof]:
        masters = {part.id: part for part in self.system.of_kind(PartKind.MASTER)}
        bleeds = self.jobs.every("first bleed", "second bleed")
        test = self.jobs.find("pedal test")
        spent_by = self._bleeding()
        for part, chamber in ways.sources:
            circuit = f"{part}-{chamber}"
            joints = [joint for joint in schedule.joints if circuit in joint.circuits]
            makers = dict.fromkeys(job for joint in joints for job in self.makers_of(joint))
            made_by = tuple(job for job in (*makers, *bleeds) if job != test)
            yield Proof(
                air_proof_id(circuit),
                "No air by the pedal at two forces",
                ProofKind.MEASURED,
                AboutKind.CIRCUIT,
                circuit_words(masters[part], chamber),
                made_by=made_by,
                proven_by=test,
                gates=self.gates(_MOVE, _ROAD),
                mark=COMMON_PRACTICE,
                spent_by=spent_by,
            )
        for leg in ways.dead:
            for blank in leg.ends_in:
                if leg.hangs_on is not None:
                    yield self._vent(self.system.part(blank))

    def _vent(self, blank: Part) -> Proof:
        bleed = self.jobs.find("first bleed")
        maker = self.jobs.of_part(self.system, blank)
        return Proof(
            vent_proof_id(blank.id),
            f"Far end vented, fluid without a bubble, closed again and dry: {blank.title}",
            ProofKind.SEEN,
            AboutKind.JOINT,
            blank.title,
            made_by=(maker,) if maker else (),
            proven_by=bleed if bleed != maker else None,
            gates=self.gates(_MOVE, _ROAD),
            mark=COMMON_PRACTICE,
        )

    # --- tests -------------------------------------------------------------------------------

    def _tests(self) -> Iterator[Proof]:
        if not self._owed("overnight hold", ProofKind.HELD_PRESSURE):
            yield self._test(
                "brake-hold",
                "Every joint dry after a night under pressure, the cabin side of the cylinder too",
                ProofKind.HELD_PRESSURE,
                "overnight hold",
                (_MOVE, _ROAD),
                hours=_HOLD_HOURS,
            )
        if not self._owed("pedal test", ProofKind.MEASURED):
            yield self._test(
                "brake-pedal",
                "Pedal measured at two forces: travel, reserve, and what explains it",
                ProofKind.MEASURED,
                "pedal test",
                (_MOVE, _ROAD),
                limits=(Limit("reserve, share of travel", "%", low=20, mark=COMMON_PRACTICE),),
            )
        if self.system.of_kind(PartKind.SERVO, PartKind.REMOTE_SERVO):
            yield self._test(
                "brake-servo",
                "Servo emptied, foot on the pedal, engine started: the pedal sinks a little and "
                "stays; engine stopped: some presses are still helped",
                ProofKind.SEEN,
                "first start",
                (_MOVE, _ROAD),
                made="cylinder",
            )
        if self.system.of_kind(PartKind.PARKING) and not self._owed("parking", ProofKind.MEASURED):
            yield self._test(
                "brake-parking",
                "Parking brake: clicks to hold, both sides alike, free when it is off",
                ProofKind.MEASURED,
                "parking",
                (_MOVE, _ROAD),
            )
        if not self._owed("roller test", ProofKind.MEASURED):
            yield self._test(
                "brake-measured",
                "Brake forces read on rollers, or deceleration by an instrument, and written down",
                ProofKind.MEASURED,
                "roller test",
                (_FIFTY,),
            )

    def _owed(self, role: Role, kind: ProofKind) -> bool:
        """Whether the build owes such a test already, by a proof not of our making."""
        job = self.jobs.find(role)
        return job is not None and any(
            record.proof.kind is kind
            and job in (record.proof.proven_by, *record.proof.made_by)
            and not is_of_brakes(record.proof.id)
            for record in self.build.proofs.values()
        )

    def _test(
        self,
        proof_id: str,
        title: str,
        kind: ProofKind,
        role: Role,
        gates: tuple[str, ...],
        *,
        limits: tuple[Limit, ...] = (),
        hours: float | None = None,
        made: Role | None = None,
    ) -> Proof:
        job = self.jobs.find(role)
        maker = self.jobs.find(made) if made else None
        return Proof(
            proof_id,
            title,
            kind,
            AboutKind.ASSEMBLY,
            "brakes",
            made_by=(maker,) if maker else ((job,) if job else ()),
            proven_by=job if maker and job != maker else None,
            gates=self.gates(*gates),
            limits=limits,
            hold_hours=hours,
            mark=COMMON_PRACTICE,
        )


def circuit_names(system: BrakeSystem) -> dict[str, str]:
    """Return what each circuit is called, by its id.

    Parameters
    ----------
    system : BrakeSystem
        The brakes.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> circuit_names(starter("single line"))
    {'master-primary': 'circuit of master cylinder'}
    """
    masters = {part.id: part for part in system.of_kind(PartKind.MASTER)}
    return {
        f"{part}-{chamber}": circuit_words(masters[part], chamber)
        for part, chamber in ways_of(system).sources
    }


def circuit_words(master: Part, chamber: str) -> str:
    """Name the circuit that a chamber of a master cylinder feeds."""
    if sum(1 for each in {port.chamber for port in master.ports} if each) > 1:
        return f"{chamber} circuit of {master.title}"
    return f"circuit of {master.title}"


def _before(build: Build, job: str) -> set[str]:
    """Return every job that comes before a job, however far back."""
    after = predecessors(build)
    seen: set[str] = set()
    waiting = [job]
    while waiting:
        for before in after.get(waiting.pop(), ()):
            if before not in seen:
                seen.add(before)
                waiting.append(before)
    return seen
