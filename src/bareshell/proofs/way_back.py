"""The way back to standard: what returning a departure would take, as a network that is ready.

What was put on comes off again, from the outside in; the original goes on; what the work disturbs
is proved anew. Hours of the refit are those the build itself recorded, or the estimate. Taking
apart is taken as quicker than putting together.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model.job import Job, JobStatus, Way
from bareshell.model.network import in_order, predecessors
from bareshell.model.part import Need
from bareshell.model.proof import AboutKind, Proof
from bareshell.model.spec import GoodsSpec, PlainSpec, SealSpec, SplitPinSpec
from bareshell.model.temp import Departure
from bareshell.model.trust import COMMON_PRACTICE, ThreePoint
from bareshell.proofs.way_through import fewest_people

TAKING_OFF = (0.3, 0.5, 0.9)
"""Hours of taking off over hours of fitting: if all goes well, most likely, if it goes badly.
Common practice, no source; seized threads make it worse."""


class ReturnKind(StrEnum):
    """What a step of the way back does."""

    UNCOVER = "uncover"
    TAKE_OFF = "take off"
    FIT = "fit the original"
    PROVE = "prove"
    COVER = "cover again"


@dataclass(frozen=True, slots=True)
class ReturnStep:
    """One step of the way back.

    Parameters
    ----------
    kind : ReturnKind
        What it does.
    job : Job
        The step as a job that may be put into the build.
    from_job : str
        The job of this build that it undoes or repeats.
    """

    kind: ReturnKind
    job: Job
    from_job: str

    @property
    def hours(self) -> ThreePoint:
        """How long it takes, in the way that needs fewest people, in hours."""
        return fewest_people(self.job).hours


@dataclass(frozen=True, slots=True)
class WayBack:
    """What returning one departure would take.

    Parameters
    ----------
    departure : Departure
        The departure.
    steps : tuple of ReturnStep
        In the order of the work.
    originals : str
        Where the original parts are kept.
    needs : tuple of Need
        What is used up by refitting: seals, split pins, fluid and paste.
    proofs : tuple of Proof
        What must be shown again.
    shared_with : tuple of str
        Other departures that the same jobs carry: they would be disturbed too.
    fitted : bool
        False when nothing of it has been put on the car yet, so there is nothing to return.
    unknown : tuple of str
        What nobody has written down and somebody will need.
    """

    departure: Departure
    steps: tuple[ReturnStep, ...]
    originals: str
    needs: tuple[Need, ...]
    proofs: tuple[Proof, ...]
    shared_with: tuple[str, ...]
    fitted: bool
    unknown: tuple[str, ...]

    @property
    def hours(self) -> ThreePoint:
        """Sum of the steps, in hours."""
        return ThreePoint(
            sum(step.hours.optimistic_hours for step in self.steps),
            sum(step.hours.likely_hours for step in self.steps),
            sum(step.hours.pessimistic_hours for step in self.steps),
        )


def way_back(build: Build, departure_id: str) -> WayBack:
    """Work out what returning a departure would take.

    Parameters
    ----------
    build : Build
        The build.
    departure_id : str
        The departure.

    Raises
    ------
    NotFound
        When there is no such departure.

    Examples
    --------
    >>> way_back(Build(), "servo")
    Traceback (most recent call last):
    bareshell.errors.NotFound: there is no departure 'servo' in this build. Departures here: none.
    """
    if departure_id not in build.departures:
        known = ", ".join(build.departures) or "none"
        raise NotFound(
            f"there is no departure '{departure_id}' in this build", f"departures here: {known}"
        )
    departure = build.departures[departure_id]
    jobs = [job for job in departure.jobs if job in build.jobs]
    # A job that is left out still stands here when something of it may be on the car.
    on_car = [job for job in jobs if _has_been_touched(build, job)]
    working = _in_working_order(build, on_car or jobs)
    disturbed = _disturbed(build, working)
    covers = _covers(build, disturbed)
    provers = _provers(build, disturbed, {*working, *covers})
    steps = tuple(_steps(build, departure, covers, working, provers))
    return WayBack(
        departure,
        _chained(steps),
        departure.where_original,
        tuple(_used_up(build, departure, (*working, *covers, *provers))),
        disturbed,
        _shared(build, departure),
        bool(on_car),
        tuple(_unknown(departure, jobs)),
    )


def laid(way: WayBack) -> tuple[tuple[Job, ...], tuple[Need, ...], tuple[Proof, ...]]:
    """Make the jobs, needs and proofs that would enter the build if somebody really went back.

    Ids are new, so that what was done before stays as it was.

    Examples
    --------
    >>> departure = Departure("servo", "Servo left off", "brakes", "servo", "none")
    >>> laid(WayBack(departure, (), "loft", (), (), (), False, ()))
    ((), (), ())
    """
    jobs = tuple(step.job for step in way.steps)
    refits = {
        step.from_job: step.job.id for step in way.steps if step.kind is not ReturnKind.UNCOVER
    }
    refits |= {step.from_job: step.job.id for step in way.steps if step.kind is ReturnKind.FIT}
    proofs = tuple(
        replace(
            proof,
            id=f"back-{way.departure.id}-{proof.id}",
            made_by=tuple(refits[job] for job in proof.made_by if job in refits),
            proven_by=refits.get(proof.proven_by or ""),
            covered_by=tuple(refits[job] for job in proof.covered_by if job in refits),
        )
        for proof in way.proofs
    )
    needs = tuple(
        replace(need, id=f"back-{way.departure.id}-{need.id}", job=refits[need.job])
        for need in way.needs
        if need.job in refits
    )
    return jobs, needs, proofs


def _has_been_touched(build: Build, job: str) -> bool:
    state = build.jobs[job].state
    return state.is_done or state.started_at is not None


def _in_working_order(build: Build, jobs: Iterable[str]) -> tuple[str, ...]:
    """Order by when each was done, what is not done yet last, in the network's order."""
    place = {job: index for index, job in enumerate(_network_order(build))}
    return tuple(sorted(jobs, key=lambda job: place.get(job, len(place))))


def _network_order(build: Build) -> tuple[str, ...]:
    return in_order(predecessors(build))


def _disturbed(build: Build, jobs: Iterable[str]) -> tuple[Proof, ...]:
    """Return the proofs that taking these jobs off spends."""
    working = set(jobs)
    later = _circuits_after(build, working)
    return tuple(
        record.proof
        for key, record in build.proofs.items()
        if working & {*record.proof.made_by, record.proof.proven_by} or key in later
    )


def _circuits_after(build: Build, working: set[str]) -> set[str]:
    """Return the proofs of a circuit that was filled after these jobs: opening it spends them."""
    before = predecessors(build)
    systems = {build.jobs[job].job.system for job in working}
    follows: dict[str, bool] = {job: job in working for job in before}
    for job in _network_order(build):
        follows[job] = follows[job] or any(follows.get(b, False) for b in before[job])
    return {
        key
        for key, record in build.proofs.items()
        if record.proof.about_kind is AboutKind.CIRCUIT
        for job in (*record.proof.made_by, *filter(None, (record.proof.proven_by,)))
        if follows.get(job, False) and build.jobs[job].job.system in systems
    }


def _covers(build: Build, proofs: Iterable[Proof]) -> tuple[str, ...]:
    """Return the finished jobs that hide what is disturbed: they come off first."""
    found: dict[str, None] = {}
    for proof in proofs:
        for job in proof.covered_by:
            if job in build.jobs and build.jobs[job].state.is_done:
                found[job] = None
    return tuple(found)


def _provers(build: Build, proofs: Iterable[Proof], working: set[str]) -> tuple[str, ...]:
    """Return the jobs in which the disturbed things are proved, which come again."""
    found = {p.proven_by: None for p in proofs if p.proven_by and p.proven_by not in working}
    return tuple(job for job in found if job in build.jobs)


def _steps(
    build: Build,
    departure: Departure,
    covers: tuple[str, ...],
    working: tuple[str, ...],
    provers: tuple[str, ...],
) -> Iterator[ReturnStep]:
    for job in reversed(covers):
        yield _step(build, departure, ReturnKind.UNCOVER, job)
    for job in reversed(working):
        yield _step(build, departure, ReturnKind.TAKE_OFF, job)
    for job in working:
        yield _step(build, departure, ReturnKind.FIT, job)
    for job in provers:
        yield _step(build, departure, ReturnKind.PROVE, job)
    for job in covers:
        yield _step(build, departure, ReturnKind.COVER, job)


_HEADS = {
    ReturnKind.UNCOVER: "Uncover: undo",
    ReturnKind.TAKE_OFF: "Take off again:",
    ReturnKind.FIT: "The original instead of:",
    ReturnKind.PROVE: "Prove again:",
    ReturnKind.COVER: "Cover again:",
}


def _step(build: Build, departure: Departure, kind: ReturnKind, job_id: str) -> ReturnStep:
    record = build.jobs[job_id]
    job = record.job
    apart = kind in (ReturnKind.UNCOVER, ReturnKind.TAKE_OFF)
    known = record.state.hours_done if record.state.status is JobStatus.DONE else 0.0
    ways = tuple(
        replace(way, hours=_hours(way, known if way.people == 1 else 0.0, apart=apart))
        for way in job.ways
    )
    title = job.title[:1].lower() + job.title[1:]
    made = Job(
        id=f"back-{departure.id}-{kind.name.lower().replace('_', '-')}-{job_id}",
        title=f"{_HEADS[kind]} {title}",
        system=job.system,
        ways=ways,
        place=job.place,
        zones=job.zones,
        wheels=job.wheels,
        wait=None if apart else job.wait,
        lowest_temperature_c=None if apart else job.lowest_temperature_c,
        tools=job.tools,
        tightens=() if apart else job.tightens,
        cautions=job.cautions,
        dangerous_alone=job.dangerous_alone,
        mark=COMMON_PRACTICE,
        note=departure.to_return if kind is ReturnKind.FIT else "",
    )
    return ReturnStep(kind, made, job_id)


def _hours(way: Way, recorded_hours: float, *, apart: bool) -> ThreePoint:
    """Take the estimate, moved to what the job really took; a share of it for taking off."""
    hours = way.hours
    if recorded_hours > 0 and hours.likely_hours > 0:
        scale = recorded_hours / hours.likely_hours
        hours = ThreePoint(
            hours.optimistic_hours * scale,
            recorded_hours,
            hours.pessimistic_hours * scale,
        )
    if not apart:
        return hours
    low, likely, high = TAKING_OFF
    return ThreePoint(
        hours.optimistic_hours * low, hours.likely_hours * likely, hours.pessimistic_hours * high
    )


def _chained(steps: tuple[ReturnStep, ...]) -> tuple[ReturnStep, ...]:
    """Put the steps one after the other."""
    found: list[ReturnStep] = []
    for step in steps:
        after = (found[-1].job.id,) if found else ()
        found.append(replace(step, job=replace(step.job, after=after)))
    return tuple(found)


def _used_up(build: Build, departure: Departure, jobs: Iterable[str]) -> Iterator[Need]:
    """Yield what refitting uses up: fluid, paste, seals, split pins; originals are on the shelf."""
    working = set(jobs)
    for need in build.needs.values():
        once = isinstance(need.spec, GoodsSpec | SealSpec | SplitPinSpec)
        if need.job in working and (once or (need.fixing and isinstance(need.spec, PlainSpec))):
            yield replace(need, note=f"for going back: {departure.title}")


def _shared(build: Build, departure: Departure) -> tuple[str, ...]:
    own = set(departure.jobs)
    return tuple(
        other.title
        for key, other in build.departures.items()
        if key != departure.id and own & set(other.jobs)
    )


def _unknown(departure: Departure, jobs: list[str]) -> Iterator[str]:
    if departure.where_original in ("", "not known"):
        yield "where the original is"
    if not departure.what_was:
        yield "what was there"
    if not jobs:
        yield "which jobs put it on the car"
    if not departure.to_return:
        yield "what going back takes, in the owner's words"
