"""The plan's answer about a session in the words and types of the sheet."""

from __future__ import annotations

from bareshell.model import Build
from bareshell.plan.bound import bound
from bareshell.plan.reasons import Chain, most_wanted, why_not
from bareshell.plan.tonight import Alternative, Tonight
from bareshell.whole.garage_time import zone_of
from bareshell.whole.sheet import Answer
from bareshell.whole.sheet_parts import FirstMove, WhyNot, WhyNotLink

CHAINS = 4
"""How many jobs the sheet says "why not" of without being asked."""


def answer_of(build: Build, planned: Tonight) -> Answer:
    """Put the plan's answer into the sheet's types."""
    problem = planned.problem
    return Answer(
        blocks=planned.schedule.in_session(0),
        begin_with=tuple(_first_move(planned, one) for one in planned.alternatives),
        why_not=tuple(_why_not(build, planned, one) for one in most_wanted(planned, CHAINS)),
        stranded=tuple(
            f"{snag.sentence} {snag.remedy}".strip()
            for snag in planned.snags
            if snag.effect != "note"
        ),
        promise=bound(problem).sentence if problem.jobs else "",
        engine=planned.engine,
        samples=planned.samples,
    )


def why_not_of(build: Build, planned: Tonight, job_id: str) -> WhyNot:
    """Say why a job is not tonight; a job with no work left says that."""
    record = build.jobs.get(job_id)
    if record is not None and not record.state.is_open:
        return WhyNot(job_id, record.job.title, "done", f"It is {record.state.status}.")
    return _why_not(build, planned, why_not(planned.prepared.asked, planned, job_id))


def _why_not(build: Build, planned: Tonight, chain: Chain) -> WhyNot:
    zone = zone_of(build)
    links = tuple(
        WhyNotLink(
            link.sentence,
            link.rule,
            link.frees,
            None if link.frees_at is None else planned.problem.when(link.frees_at).astimezone(zone),
            link.job_id or "",
        )
        for link in chain.links
    )
    title = next(
        (job.title for job in planned.prepared.asked.jobs if job.id == chain.job_id), chain.job_id
    )
    root = links[-1]
    return WhyNot(chain.job_id, title, root.rule, root.frees, root.frees_at, links)


def _first_move(planned: Tonight, one: Alternative) -> FirstMove:
    return FirstMove(
        one.job_id,
        one.title,
        planned.problem.job(one.job_id).system,
        one.regret_days,
        one.standard_error_days,
        one.as_good,
        one.sentence,
    )
