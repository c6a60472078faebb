"""A simulated restorer: a truth nobody knows, the record it leaves, the finish it comes to.

The truth is drawn from what bareshell believes of an owner it does not know yet, so forecasts made
from the record alone ought to hold as often as they say. Everything is invented.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp, sqrt

import numpy as np

from bareshell.plan.attendance import (
    LOST_SESSION,
    LOST_WEEK,
    NO_SHOW,
    Attendance,
    Attended,
    attendance,
)
from bareshell.plan.engine import EngineName
from bareshell.plan.forecast import Forecast, forecast
from bareshell.plan.hours import spreads
from bareshell.plan.lateness import (
    OWN_WEIGHT,
    Delay,
    OrderOutcome,
    Share,
    SourcePrior,
    learned,
)
from bareshell.plan.pace_model import (
    COMMON_SPREAD,
    SPREAD_SHAPE,
    SYSTEM_SPREAD,
    Finished,
    PaceBelief,
    learn_pace,
)
from bareshell.plan.policy import Fate, Policy
from bareshell.plan.priority import tails
from bareshell.plan.problem import Arrival, Luck, PlanProblem
from bareshell.plan.ready import ready
from bareshell.plan.sessions import WEEK_MINUTES
from bareshell.plan.walk import walk
from tests.plan.garages import DAY, SYSTEMS, Shape, garage

PRIOR = SourcePrior(0.3, 7.0, 0.1, 12.0)
SUPPLIERS = ("the moulder", "the machinist", "the agent")
SESSIONS = 400
"""Long enough for any small garage; a truth that needs more fails loudly."""


@dataclass(frozen=True, slots=True)
class Source:
    """What a supplier is really like."""

    late: float
    days: float
    wrong: float


@dataclass(frozen=True, slots=True)
class Truth:
    """What an owner is really like."""

    wider: float
    common: float
    own: dict[str, float]
    lost_week: float
    lost_session: float
    no_show: float
    sources: dict[str, Source]

    def pace(self, system: str) -> float:
        """Real over estimated hours."""
        return exp(self.common + self.own[system])


@dataclass(frozen=True, slots=True)
class Case:
    """One restorer: the truth, what was learned of it, the forecast, and what came."""

    truth: Truth
    pace: PaceBelief
    forecast: Forecast
    came_minute: int


def a_truth(dice: np.random.Generator) -> Truth:
    """Draw an owner from what is believed of one nobody knows."""
    wider = sqrt((SPREAD_SHAPE - 1.0) / dice.standard_gamma(SPREAD_SHAPE))

    def share(of: Share) -> float:
        return float(dice.beta(of.yes, of.no))

    def source() -> Source:
        late = Share(PRIOR.late_share, 1 - PRIOR.late_share).weighing(OWN_WEIGHT)
        wrong = Share(PRIOR.wrong_share, 1 - PRIOR.wrong_share).weighing(OWN_WEIGHT)
        delay = Delay.about(PRIOR.late_mean_days)
        days = delay.days / float(dice.standard_gamma(delay.shape))
        return Source(share(late), days, share(wrong))

    return Truth(
        wider,
        float(dice.normal(0, COMMON_SPREAD)) * wider,
        {system: float(dice.normal(0, SYSTEM_SPREAD)) * wider for system in SYSTEMS},
        share(LOST_WEEK),
        share(LOST_SESSION),
        share(NO_SHOW),
        {name: source() for name in SUPPLIERS},
    )


def record_of(
    truth: Truth, dice: np.random.Generator, jobs: int = 24, orders: int = 5, weeks: int = 30
) -> tuple[tuple[Finished, ...], tuple[OrderOutcome, ...], Attended]:
    """Let the truth leave a record: finished jobs, orders of each supplier, weeks of sessions."""
    done = []
    for number in range(jobs):
        system = SYSTEMS[number % len(SYSTEMS)]
        spread = float(dice.uniform(0.3, 0.6))
        luck = float(dice.normal(0, spread)) * truth.wider
        minutes = 120.0 * truth.pace(system) * exp(luck)
        done.append(Finished(f"d{number}", "", system, 120.0, minutes, spread, spread))
    outcomes = []
    for name, source in truth.sources.items():
        for _ in range(orders):
            late = float(dice.exponential(source.days)) if dice.random() < source.late else 0.0
            wrong = int(dice.random() < source.wrong)
            outcomes.append(OrderOutcome("any", name, late, 0.0, 1, wrong, PRIOR.lead_days))
    lost = int(dice.binomial(weeks, truth.lost_week))
    left = 3 * (weeks - lost)
    attended = Attended(
        weeks,
        lost,
        left,
        int(dice.binomial(left, truth.lost_session)),
        weeks // 3,
        int(dice.binomial(weeks // 3, truth.no_show)),
    )
    return tuple(done), tuple(outcomes), attended


def a_case(
    seed: int,
    *,
    samples: int,
    shape: Shape | None = None,
    threads: int = 2,
    engine: EngineName | None = None,
) -> Case:
    """Let a restorer leave a record, forecast his road from it, and see when he gets there."""
    dice = np.random.default_rng([seed, 77])
    truth = a_truth(dice)
    done, outcomes, attended = record_of(truth, dice)
    pace, kept = learn_pace(done), attendance(attended)
    asked = _garage(seed, shape or Shape(jobs=25, begun=0.0, parts=0.3), pace, kept, outcomes)
    ids = tuple(job.id for job in asked.jobs)
    rule = Policy(tails(asked), job_ids=ids)
    made = ready(asked, seed=seed, policy=rule, threads=threads, engine=engine)
    problem = made.problem
    outcome = made.engine.run(made.policy, seed=seed, samples=samples)
    fate = _fate(problem, pace, truth, dice)
    came = walk(problem, made.policy, fate, whole=False).finish_minute
    assert came is not None
    return Case(truth, pace, forecast(problem, outcome), came)


def _garage(
    seed: int,
    shape: Shape,
    pace: PaceBelief,
    kept: Attendance,
    outcomes: tuple[OrderOutcome, ...],
) -> PlanProblem:
    problem = garage(seed, shape)
    arrivals = tuple(
        _believed(arrival, learned(outcomes, "any", SUPPLIERS[at % 3], PRIOR))
        for at, arrival in enumerate(one for one in problem.arrivals if one.known)
    )
    known = {arrival.id for arrival in arrivals}
    jobs = tuple(
        replace(
            job,
            parts_to_start=tuple(part for part in job.parts_to_start if part in known),
            parts_to_finish=tuple(part for part in job.parts_to_finish if part in known),
        )
        for job in problem.jobs
    )
    luck = pace.laid_over(kept.laid_over(Luck()))
    return replace(problem, jobs=jobs, arrivals=arrivals, paces=pace.paces, luck=luck)


def _believed(arrival: Arrival, belief: object) -> Arrival:
    due = arrival.expected_minute
    return replace(arrival, expected_minute=None if due is None else max(DAY, due), belief=belief)  # type: ignore[arg-type]


def _fate(problem: PlanProblem, pace: PaceBelief, truth: Truth, dice: np.random.Generator) -> Fate:
    """Let it go as the truth has it."""
    factor = []
    for job in problem.jobs:
        below, above = spreads(job)
        z = float(dice.normal())
        luck = z * (below if z < 0 else above) * truth.wider
        factor.append(truth.pace(job.system) * exp(luck) / pace.of(job.system).factor)
    arrives = []
    for arrival in problem.arrivals:
        assert arrival.belief is not None
        source = truth.sources[arrival.belief.name]
        days = float(dice.exponential(source.days)) if dice.random() < source.late else 0.0
        while dice.random() < source.wrong:
            days += arrival.belief.lead_days
        due = arrival.lead_minutes if arrival.expected_minute is None else arrival.expected_minute
        arrives.append(int(np.ceil((due or 0) + days * DAY)))
    return Fate(factor, arrives, _people(problem, truth, dice))


def _people(problem: PlanProblem, truth: Truth, dice: np.random.Generator) -> list[int]:
    origin = int(problem.origin.timestamp()) // 60
    lost: dict[int, bool] = {}
    people = []
    for slot in problem.sessions.first(SESSIONS):
        week = (origin + slot.start_minute + 3 * DAY) // WEEK_MINUTES
        if week not in lost:
            lost[week] = bool(dice.random() < truth.lost_week)
        there = slot.people
        if there > 1 and dice.random() < truth.no_show:
            there = 1
        gone = lost[week] or dice.random() < truth.lost_session
        people.append(0 if gone else there)
    return people
