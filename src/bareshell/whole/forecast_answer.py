"""What the record taught, and how forecasts have done, in the words and types that pages show."""

from __future__ import annotations

from datetime import UTC, datetime

from bareshell.model import Build
from bareshell.model.position import Place
from bareshell.plan.foretold import score_hours, score_parts
from bareshell.plan.indices import JobIndex
from bareshell.plan.lateness import OrderOutcome
from bareshell.plan.levers import Effect
from bareshell.plan.moving import Moving
from bareshell.plan.pace_model import PaceBelief, SystemPace
from bareshell.plan.schedule import CAUSES
from bareshell.whole.arrivals import PRIORS, outcome_of
from bareshell.whole.forecast_parts import (
    BindLine,
    IndexLine,
    LeverLine,
    LeversOverview,
    PaceLine,
    ScoreLine,
)
from bareshell.whole.helper_ask import helper_ask
from bareshell.whole.issued import score_gates, score_line
from bareshell.whole.lever_step import lever_step
from bareshell.whole.pace import finished_jobs, pace_belief

LEAVING_OUT: frozenset[str] = frozenset({"body fittings", "interior"})
"""Systems among whose jobs some may wait until after the road (common practice, no source);
whether one may is for the gate and for local law to say."""

DESK_WORK: frozenset[str] = frozenset({"paperwork", "commissioning"})
"""Systems whose jobs nobody else does for the owner."""

SELDOM = 0.005
"""What binds in fewer futures than this, as a share, is not listed."""

INDEX_WORDS = tuple(
    {
        "criticality": "share of futures in which the job is on the chain that binds the date "
        "(Van Slyke 1963; from memory)",
        "cruciality": "size of the rank correlation of the job's hours with the finish, after "
        "your paces are taken out (Williams 1992; from memory)",
        "significance": "mean of hours over hours and float, times finish over mean finish, on "
        "the network alone (Williams 1992; from memory)",
        "schedule sensitivity": "criticality times the spread of the job's hours over that of "
        "the finish (Vanhoucke 2010; from memory)",
    }.items()
)
"""Each index with its published definition."""


def pace_lines(belief: PaceBelief) -> tuple[PaceLine, ...]:
    """List the paces: the common one first, then each system by how many jobs it rests on."""
    systems = sorted(belief.systems, key=lambda one: (-one.jobs, one.system))
    return tuple(_pace(one) for one in (belief.common, *systems))


def _pace(one: SystemPace) -> PaceLine:
    factor, low, high = (round(value, 2) for value in (one.factor, one.low, one.high))
    return PaceLine(one.system, factor, low, high, one.jobs, one.sentence)


def paces_of_build(build: Build) -> tuple[PaceLine, ...]:
    """List the paces that the finished jobs of a build tell.

    Examples
    --------
    >>> paces_of_build(Build())[0].words
    'Hours are planned as estimated, 0.7 to 1.5 times, until jobs are finished.'
    """
    return pace_lines(pace_belief(build))


def score_lines(build: Build, now: datetime) -> tuple[ScoreLine, ...]:
    """Hold against what came what was, or would have been, foretold of jobs, parts and gates."""
    priors = {str(source): prior for source, prior in PRIORS.items()}
    found = (
        score_hours(finished_jobs(build)),
        score_parts(_in_order(build, now), priors),
        score_gates(build),
    )
    return tuple(score_line(one) for one in found if one.cases)


def _in_order(build: Build, now: datetime) -> tuple[OrderOutcome, ...]:
    """List the orders that came, in the order in which they came."""
    today = now.astimezone(UTC).date()
    came = sorted(
        (record for record in build.orders.values() if record.deliveries),
        key=lambda record: (record.deliveries[0].at, record.line.id),
    )
    return tuple(outcome_of(record, today) for record in came)


def may_be_left_out(build: Build) -> frozenset[str]:
    """List the open jobs that a car could go on the road without, as far as the build tells.

    Only trim and fittings; none that a gate asks for, that proves or makes anything that is
    owed, that takes a temporary fix off, or that can hurt.
    """
    held = {job for record in build.gates.values() for job in record.gate.needs_jobs}
    held |= {r.temp.cleared_by for r in build.temps.values() if r.temp.cleared_by}
    for record in build.proofs.values():
        held |= {*record.proof.made_by, record.proof.proven_by or ""}
    return frozenset(
        key
        for key, record in build.jobs.items()
        if record.state.is_open
        and record.job.system in LEAVING_OUT
        and record.job.gate is None
        and not record.job.cautions
        and key not in held
    )


def may_be_lent(build: Build) -> frozenset[str]:
    """List the jobs not begun that are done off the car, so that somebody else could do them."""
    return frozenset(
        key
        for key, record in build.jobs.items()
        if record.state.is_open
        and record.state.started_at is None
        and record.job.place is Place.BENCH
        and record.job.system not in DESK_WORK
        and record.job.gate is None
    )


def levers_overview(build: Build, found: Moving) -> LeversOverview:
    """Put what moves the date into the types of the page."""
    return LeversOverview(
        made_at=found.problem.origin,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        levers=tuple(
            _lever(one, lever_step(build, found.problem, one.lever)) for one in found.effects
        ),
        binds=tuple(
            BindLine(one.kind, _about(one.ref), one.title, round(one.share, 3), round(one.days, 1))
            for one in found.binds
            if one.share >= SELDOM
        ),
        mean_days=round(found.mean_days, 1),
        work_days=round(found.work_days, 1),
        indices=tuple(_index(one) for one in found.indices),
        index_words=INDEX_WORDS,
        lever_samples=found.lever_samples,
        samples=found.samples,
        engine=found.engine,
        seed=found.seed,
        helper=helper_ask(build, found.problem, found.helper),
    )


def _about(ref: str) -> str:
    return "" if ref in CAUSES else ref


def _lever(effect: Effect, trial: str) -> LeverLine:
    lever = effect.lever
    about = lever.ref if lever.kind in ("part", "lent", "left out") else ""
    return LeverLine(
        lever.kind,
        about,
        lever.title,
        round(effect.gain_days, 2),
        round(effect.standard_error_days, 2),
        round(effect.p80_gain_days, 1),
        effect.word,
        effect.sentence,
        round(effect.before_days, 1),
        round(effect.after_days, 1),
        trial,
    )


def _index(one: JobIndex) -> IndexLine:
    return IndexLine(
        one.job_id,
        one.title,
        round(one.criticality, 3),
        round(one.cruciality, 3),
        one.clear,
        round(one.significance, 3),
        round(one.sensitivity, 4),
    )
