"""The plan's answer about a session in the words and types of the sheet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from zoneinfo import ZoneInfo

from bareshell.model import Build
from bareshell.plan.bound import bound
from bareshell.plan.reasons import Chain, most_wanted, why_not
from bareshell.plan.tonight import Alternative, Tonight
from bareshell.whole.garage_time import zone_of
from bareshell.whole.sheet import Answer
from bareshell.whole.sheet_parts import FirstMove, WhyNot, WhyNotLink
from bareshell.whole.stranded import stranded_lines

NO_ODDS = 0.005
"""Less than some minutes a day is no difference in days. [days]"""

CHAINS = 4
"""How many jobs the sheet says "why not" of without being asked, each with its own root."""

LOOKED_AT = 16
"""Among how many of the most wanted jobs those roots are looked for."""


def answer_of(build: Build, planned: Tonight) -> Answer:
    """Put the plan's answer into the sheet's types."""
    problem = planned.problem
    return Answer(
        blocks=planned.schedule.in_session(0),
        begin_with=tuple(_first_move(planned, one) for one in planned.alternatives),
        why_not=by_root(_why_not(build, planned, one) for one in most_wanted(planned, LOOKED_AT)),
        stranded=stranded_lines(
            planned.snags, {job.id: job.title for job in planned.prepared.asked.jobs}
        ),
        promise=bound(problem).sentence if problem.jobs else "",
        engine=planned.engine,
        samples=planned.samples,
    )


def by_root(chains: Iterable[WhyNot]) -> tuple[WhyNot, ...]:
    """Tell each root once: the first job that hangs on it, and the titles of the others.

    Examples
    --------
    >>> waits = WhyNotLink("Tank waits for straps.", "part")
    >>> tank = WhyNot("tank", "Tank", "part", "", None, (waits,))
    >>> after = WhyNotLink("Exhaust comes after Tank.", "order")
    >>> (told,) = by_root([tank, WhyNot("exhaust", "Exhaust", "part", "", None, (after, waits))])
    >>> told.title, told.also
    ('Tank', ('Exhaust',))
    """
    found: dict[tuple[str, str], list[WhyNot]] = {}
    for chain in chains:
        root = chain.links[-1].sentence if chain.links else ""
        found.setdefault((chain.rule, root), []).append(chain)
    told = list(found.values())[:CHAINS]
    return tuple(replace(first, also=tuple(one.title for one in rest)) for first, *rest in told)


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
    at = next((b for b in planned.schedule.blocks if b.job_id == one.job_id), None)
    zone = ZoneInfo(planned.problem.time_zone)
    when = None if at is None else planned.problem.when(at.start_minute).astimezone(zone)
    return FirstMove(
        one.job_id,
        one.title,
        planned.problem.job(one.job_id).system,
        one.regret_days,
        one.standard_error_days,
        one.as_good,
        one.sentence if one.chosen or not one.samples else cost_words(one),
        one.samples,
        when,
    )


def cost_words(one: Alternative) -> str:
    """Say what beginning with a job costs, and whether that is more than chance.

    Examples
    --------
    >>> tie = Alternative("wax", "Wax", False, 0.0, 0.0, 400, True, "")
    >>> cost_words(tie)
    'As good: the same day on the road in each of 400 futures.'
    >>> cost_words(replace(tie, regret_days=0.29, standard_error_days=0.26))
    'As good: 0.3 days later on average, give or take 0.5, which may be chance.'
    >>> cost_words(replace(tie, regret_days=2.4, standard_error_days=0.3, as_good=False))
    'Taking it first puts the road back by 2.4 days, give or take 0.6.'
    """
    days, either_way = abs(one.regret_days), 2 * one.standard_error_days
    if not one.as_good:
        return (
            f"Taking it first puts the road back by {_days(days)}, "
            f"give or take {_figure(either_way)}."
        )
    if days < NO_ODDS and either_way < NO_ODDS:
        return f"As good: the same day on the road in each of {one.samples:,} futures."
    side = "later" if one.regret_days > 0 else "sooner"
    return (
        f"As good: {_days(days)} {side} on average, give or take {_figure(either_way)}, which may "
        "be chance."
    )


def _days(days: float) -> str:
    figure = _figure(days)
    return f"{figure} {'day' if figure == '1' else 'days'}"


def _figure(days: float) -> str:
    # A tenth of a day is fine enough, save where two such figures would look the same.
    return f"{days:.2f}" if days < 0.25 else f"{days:.1f}".removesuffix(".0")
