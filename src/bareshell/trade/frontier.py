"""Where what is done meets what is not: the few jobs worth a tap, and what a tap changes."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from bareshell.errors import BadInput, NotFound, Problem
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.job import JobStatus
from bareshell.model.network import in_order, predecessors
from bareshell.trade.evidence import as_hidden, done_with
from bareshell.trade.network import rows, starter

MOST_SHOWN = 25
"""How many jobs are put before the owner at once."""


def frontier(build: Build, most: int = MOST_SHOWN) -> tuple[str, ...]:
    """Return the jobs on which a correction resolves the most doubt, the most telling first.

    First come the jobs that everything else was inferred from: one of these read wrongly is all
    wrong. Then jobs that are not known to be done although something after them is, and jobs
    that could be next; of these, those whose correction would turn the most other jobs with
    it, then those that the most is waiting for. Gates are never among them: a person goes
    through a gate by looking.

    Parameters
    ----------
    build : Build
        A build that began from the starter network; jobs the owner added are judged by their
        own predecessors.
    most : int
        At most so many.
    """
    after = predecessors(build)
    order = {job: place for place, job in enumerate(in_order(after))}
    to_do = {
        j for j in order if _status(build, j) is JobStatus.TO_DO and build.jobs[j].job.gate is None
    }
    inferred = {j for j in order if _status(build, j) is JobStatus.DONE_BEFORE}
    implied = {j: _implied(build, j) for j in order}
    waiting = _waiting_for(after, to_do)
    beneath = {before for job in inferred for before in after[job]} & to_do
    could_be_next = {j for j in to_do if not implied[j] & to_do}
    tops = inferred - {below for job in inferred for below in implied[job]}
    turns = {j: len(implied[j] & to_do) for j in beneath | could_be_next | tops}
    chosen = sorted(turns, key=lambda j: (j not in tops, -turns[j], -waiting[j], order[j]))
    return tuple(chosen[:most])


def corrections(
    build: Build, done: Collection[str] = (), not_done: Collection[str] = ()
) -> tuple[c.Change, ...]:
    """Make the changes that taps on the frontier mean.

    A job that is done brings with it what must be done, or is past doing, by then. A job that
    is not done after all takes back what was inferred done because of it. What was finished in
    the record itself is left alone, and nothing is proven by a tap.

    Parameters
    ----------
    build : Build
        The build as it stands.
    done, not_done : collection of str
        The jobs that were tapped.

    Raises
    ------
    NotFound
        When there is no such job.
    BadInput
        When two taps contradict each other, or a job was finished in the record.
    """
    _check(build, done, not_done)
    order = in_order(predecessors(build))
    up = {j for j in _with_implied(build, done) if j in build.jobs and build.jobs[j].state.is_open}
    down = {
        j
        for j in build.jobs
        if _status(build, j) is JobStatus.DONE_BEFORE
        and ((j in not_done) or (_implied(build, j) & set(not_done)))
    }
    now_done = ({j for j, r in build.jobs.items() if r.state.is_done} | up) - down
    return (
        *(c.JobNotDone(j) for j in reversed(order) if j in down),
        *_proof_changes(build, now_done),
        *(c.JobDoneBefore(j) for j in order if j in up),
    )


def _check(build: Build, done: Collection[str], not_done: Collection[str]) -> None:
    for job in (*done, *not_done):
        if job not in build.jobs:
            raise NotFound(f"there is no job '{job}' in this build", "name a job it has")
    problems = []
    for job in not_done:
        title = build.jobs[job].job.title
        if _status(build, job) is JobStatus.DONE:
            problems.append(
                Problem(title, "was finished in the record", "record that it came off again")
            )
        because = [d for d in done if job == d or job in _implied(build, d)]
        if because:
            other = build.jobs[because[0]].job.title
            problems.append(
                Problem(
                    title,
                    f"is said not to be done, and '{other}' cannot be done without it"
                    if because[0] != job
                    else "is said to be done and not to be done",
                    "take one of the two taps back",
                )
            )
    if problems:
        raise BadInput.together(problems)


def _status(build: Build, job: str) -> JobStatus:
    return build.jobs[job].state.status


def _with_implied(build: Build, jobs: Collection[str]) -> frozenset[str]:
    """Add what is implied; a job that the owner added implies what it comes straight after."""
    own = {j for j in jobs if j not in rows()}
    before = {b for j in own for b in build.jobs[j].job.after if b in build.jobs}
    started = frozenset(jobs) | frozenset(before)
    return done_with(started)


def _implied(build: Build, job: str) -> frozenset[str]:
    return _with_implied(build, [job]) - {job}


def _waiting_for(after: dict[str, tuple[str, ...]], to_do: set[str]) -> dict[str, int]:
    """Count for each job the jobs still to do that come after it, near and far."""
    behind: dict[str, set[str]] = {job: set() for job in after}
    for job in reversed(in_order(after)):
        mine = behind[job] | ({job} & to_do)
        for before in after[job]:
            behind[before] |= mine
    return {job: len(found) for job, found in behind.items()}


def _proof_changes(build: Build, now_done: set[str]) -> Iterator[c.Change]:
    """Put covers on or off the starter's proofs, as what is made before or after them says."""
    if build.car is None:
        return
    network = starter(build.car.layout, build.car.systems, build.car.options)
    for proof in network.proofs:
        record = build.proofs.get(proof.id)
        if record is None or not set(record.proof.covered_by) <= set(proof.covered_by):
            continue
        wanted = as_hidden(proof, now_done).covered_by
        wanted = tuple(job for job in wanted if job in build.jobs)
        if wanted != record.proof.covered_by:
            yield c.ProofSet(replace(record.proof, covered_by=wanted))
