"""What the first answers say was done before the record: only what cannot be otherwise.

An engine on its mounts was assembled and joined to its gearbox; nothing says that the pipes
behind it were held. So what is inferred is done, unproven; what it hides is *covered, unproven*;
and a thing that is made after its cover went on is not hidden by it, whoever makes it sees it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace

from bareshell.model.proof import Proof
from bareshell.trade.answers import Answers
from bareshell.trade.network import WHEELS_JOB, implied_by
from bareshell.trade.supports import ON_ITS_WHEELS

_PEDAL = {"hard": "bleed-1", "soft": "brake-fill"}


def evident_jobs(answers: Answers) -> tuple[str, ...]:
    """Return the jobs whose outcome the owner is looking at.

    Examples
    --------
    >>> from bareshell.model.car import Layout
    >>> evident_jobs(Answers("it", Layout.REAR, glass_in=True))
    ('windscreen', 'rear-screen')
    """
    seen: list[str] = []
    if answers.standing is not None:
        seen.append("shell-mount" if answers.standing not in ON_ITS_WHEELS else WHEELS_JOB)
    if answers.engine_in:
        seen += ["engine-install-fwd", "engine-install-rwd"]
    if answers.pedal in _PEDAL:
        seen.append(_PEDAL[answers.pedal])
    if answers.glass_in:
        seen += ["windscreen", "rear-screen"]
    return tuple(seen)


def done_with(jobs: Iterable[str]) -> frozenset[str]:
    """Return these jobs and all that must be done, or are past doing, once they are done.

    Jobs that the starter network does not know imply nothing but themselves.

    Examples
    --------
    >>> "engine-short" in done_with(["engine-install-rwd"])
    True
    >>> "lines-hold" in done_with(["engine-install-rwd"])
    False
    """
    listed = frozenset(jobs)
    return listed.union(*(implied_by().get(job, frozenset()) for job in listed))


def as_hidden(proof: Proof, done: Collection[str]) -> Proof:
    """Return a proof without the covers that went on before the thing itself was made.

    Parameters
    ----------
    proof : Proof
        As the starter network has it.
    done : collection of str
        The jobs that are done.
    """
    if any(job in done for job in proof.made_by):
        return proof
    covers = tuple(job for job in proof.covered_by if job not in done)
    return proof if covers == proof.covered_by else replace(proof, covered_by=covers)
