"""The bench ticket of one job: everything the one model knows that belongs on it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from bareshell.model import Build
from bareshell.model.job import Caution, Job
from bareshell.model.position import Place, Zone
from bareshell.model.proof import Limit, Proof, ProofStanding, ProofState
from bareshell.model.standing import need_standings, proof_standings
from bareshell.whole.body_now import body_now
from bareshell.whole.gate_tickets import OF_GATES, gate_ticket
from bareshell.whole.proving import PROVE, READ, held_together
from bareshell.whole.said.lessons import ticket_lessons
from bareshell.whole.sheet_parts import Fetch, ProofLine, Ticket

UNDER_A_RAISED_CAR = Caution(
    "Crush",
    "Car on its locks or rated stands, rock it by hand before anything of you goes beneath; "
    "never under a jack or on hydraulics alone.",
)


class TicketDesk:
    """Makes tickets for one build at one moment; reads each standing once."""

    def __init__(self, build: Build, now: datetime) -> None:
        self.build = build
        self.needs = need_standings(build)
        self.proofs: Mapping[str, ProofStanding] = proof_standings(build, now)
        self._needs_of: dict[str, list[str]] = {}
        for key, need in build.needs.items():
            self._needs_of.setdefault(need.job, []).append(key)

    def ticket(
        self, job_id: str, starts_at: datetime, ends_at: datetime, *, finishes: bool, people: int
    ) -> Ticket:
        """Make the ticket of a job, or of proving, which the plan gives a place like a job.

        Parameters
        ----------
        job_id : str
            A job of the build, a proof's id behind ``prove:`` or ``read:``, or work that only a
            gate asks for (`bareshell.whole.gates_ahead`).
        starts_at, ends_at : datetime
            Its place in the session.
        finishes : bool
            Whether it is expected to be done at the end.
        people : int
            The people of the way that was chosen.
        """
        minutes = round((ends_at - starts_at).total_seconds() / 60)
        for prefix in (PROVE, READ):
            if job_id.startswith(prefix):
                proof = self.build.proofs[job_id.removeprefix(prefix)].proof
                return self._proving(job_id, proof, starts_at, ends_at, minutes)
        if job_id.startswith(OF_GATES):
            return gate_ticket(
                self.build, job_id, starts_at, ends_at, self._line, self.cautions,
                finishes=finishes, people=people,
            )  # fmt: skip
        build, record = self.build, self.build.jobs[job_id]
        job = record.job
        way = next((w for w in job.ways if w.people == people), job.ways[0])
        return Ticket(
            id=job.id,
            title=job.title,
            system=job.system,
            starts_at=starts_at,
            ends_at=ends_at,
            minutes=minutes,
            finishes=finishes,
            people=way.people,
            kit=way.kit,
            hours_done=record.state.hours_done,
            fetch=self.fetch(job_id),
            tools=job.tools,
            tightens=job.tightens,
            cautions=self.cautions(job),
            proves=self._proves(job_id),
            hides=self._hides(job_id),
            raises=tuple(r.temp.title for r in build.temps.values() if r.temp.raised_by == job_id),
            clears=tuple(r.temp.title for r in build.temps.values() if r.temp.cleared_by == job_id),
            lessons=lessons_for(build, job),
            zones=tuple(sorted(str(zone) for zone in job.zones)),
            place=str(job.place),
            easier=" ".join(filter(None, (_easier(build, job), _warmth(job)))),
            then_wait=_then_wait(job),
            note=job.note,
            mark=job.mark,
            version=build.versions.get(f"job:{job_id}"),
        )

    def fetch(self, job_id: str) -> tuple[Fetch, ...]:
        """List what the job wants: where it lies, what is coming, what to look for."""
        lines = []
        for key in self._needs_of.get(job_id, ()):
            need, standing = self.build.needs[key], self.needs[key]
            places = [self.build.holdings[h].where for h in standing.holdings]
            where = ", ".join(dict.fromkeys(place for place in places if place))
            lines.append(
                Fetch(
                    need.title,
                    need.quantity,
                    str(standing.state),
                    where,
                    need.bag,
                    key,
                    job_id,
                )
            )
        return tuple(lines)

    def cautions(self, job: Job) -> tuple[Caution, ...]:
        """List what can hurt in a job: its own cautions and that of a raised car."""
        found = list(job.cautions)
        if Zone.UNDERNEATH in job.zones and all(c.harm != "Crush" for c in found):
            found.append(UNDER_A_RAISED_CAR)
        return tuple(found)

    def _proves(self, job_id: str) -> tuple[ProofLine, ...]:
        lines = []
        for key, record in self.build.proofs.items():
            proof = record.proof
            by = (proof.proven_by,) if proof.proven_by else proof.made_by
            if job_id in by:
                lines.append(self._line(key))
        return tuple(lines)

    def _hides(self, job_id: str) -> tuple[ProofLine, ...]:
        return tuple(
            self._line(key)
            for key, record in self.build.proofs.items()
            if job_id in record.proof.covered_by and self.proofs[key].state is ProofState.COVERED
        )

    def _line(self, key: str) -> ProofLine:
        proof = self.build.proofs[key].proof
        limits = "; ".join(limit_words(limit) for limit in proof.limits)
        return ProofLine(key, proof.title, str(self.proofs[key].state), limits, proof.hold_hours)

    def _proving(
        self, job_id: str, proof: Proof, starts_at: datetime, ends_at: datetime, minutes: int
    ) -> Ticket:
        makers = [j for j in (*proof.made_by, proof.proven_by) if j in self.build.jobs]
        job = self.build.jobs[makers[0]].job if makers and makers[0] else None
        reading = job_id.startswith(READ)
        return Ticket(
            id=job_id,
            title=f"{'Read' if reading else 'Prove'}: {proof.title}",
            system=job.system if job else "commissioning",
            starts_at=starts_at,
            ends_at=ends_at,
            minutes=minutes,
            finishes=True,
            people=1,
            cautions=self.cautions(job) if job else (),
            proves=tuple(
                self._line(key) for key in held_together(self.build, self.proofs, proof.id)
            ),
            zones=tuple(sorted(str(zone) for zone in job.zones)) if job else (),
            place=str(job.place if job else Place.CAR),
            then_wait=(
                f"The hold runs {proof.hold_hours:g} h before it can be read."
                if proof.hold_hours and not reading
                else ""
            ),
        )


def limit_words(limit: Limit) -> str:
    """Say a limit as a person reads it.

    Examples
    --------
    >>> limit_words(Limit("run-out", "mm", high=0.1))
    'run-out at most 0.1 mm'
    >>> limit_words(Limit("nut", "N.m", 13, 16))
    'nut 13 to 16 N.m'
    """
    unit = f" {limit.unit}" if limit.unit else ""
    if limit.low is not None and limit.high is not None:
        return f"{limit.quantity} {limit.low:g} to {limit.high:g}{unit}"
    if limit.low is not None:
        return f"{limit.quantity} at least {limit.low:g}{unit}"
    if limit.high is not None:
        return f"{limit.quantity} at most {limit.high:g}{unit}"
    return limit.quantity


def lessons_for(build: Build, job: Job) -> tuple[str, ...]:
    """Return what was learned, the other side's lessons first: they head the ticket."""
    return tuple(lesson.words for lesson in ticket_lessons(build, job.id))


def _easier(build: Build, job: Job) -> str:
    if not job.off:
        return ""
    missing = sorted(job.off - body_now(build))
    if not missing:
        return ""
    said = " and ".join(missing)
    return f"Needs the {said}." if job.off_is_necessary else f"Easier with the {said}."


def _warmth(job: Job) -> str:
    """Say how warm it must be; what stands on the list may want a heater all the same."""
    cure = job.wait.lowest_temperature_c if job.wait else None
    known = [limit for limit in (job.lowest_temperature_c, cure) if limit is not None]
    if not known:
        return ""
    after = f", and for the {job.wait.hours:g} h after it" if job.wait and cure is not None else ""
    return f"Wants {max(known):g} °C or more{after}."


def _then_wait(job: Job) -> str:
    if job.wait is None or not job.wait.hours:
        return ""
    hours = job.wait.hours
    length = f"{hours:g} h" if hours < 48 else f"{hours / 24:g} days"
    why = f" ({job.wait.why})" if job.wait.why else ""
    longer = ", longer in the cold" if job.wait.stretches_with_cold else ""
    return f"Then {length} before what follows{longer}{why}."
