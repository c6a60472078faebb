"""Forecasts that were kept: made from an answer, held against what came since."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bareshell.model import Build
from bareshell.model.forecast import IssuedForecast, IssuedGate, PlannedWork
from bareshell.model.job import JobEventKind, JobRecord
from bareshell.plan.changed import WINDOW_DAYS, Intended
from bareshell.plan.forecast import Forecast
from bareshell.plan.problem import PlanProblem
from bareshell.plan.scoring import Scored, scored
from bareshell.whole.forecast_parts import IssuedLine, ScoreLine
from bareshell.whole.garage_time import monday_of, zone_of

KEEP_EVERY = timedelta(days=6)
"""A forecast is kept again after a session once the last is older than this: about weekly."""

_WORK = frozenset({JobEventKind.WORKED, JobEventKind.FINISHED})


def issued_now(
    build: Build,
    problem: PlanProblem,
    spread: Forecast,
    gates: Mapping[str, Forecast],
    intended: Iterable[Intended],
    *,
    hours_left: float,
    seed: int,
) -> IssuedForecast:
    """Make a forecast that can be kept.

    Parameters
    ----------
    build : Build
        For the owner's days.
    problem : PlanProblem
        What was planned.
    spread : Forecast
        When the road is reached.
    gates : mapping of str to Forecast
        When each gate on the way is.
    intended : iterable of Intended
        What the plan has in the next two weeks.
    hours_left : float
        Likely work left. [h]
    seed : int
        Which futures.
    """
    zone = zone_of(build)

    def day(minute: int) -> date:
        return problem.when(minute).astimezone(zone).date()

    return IssuedForecast(
        id=day(0).isoformat(),
        made_at=problem.origin,
        p50=day(spread.p50.minute),
        p80=day(spread.p80.minute),
        p95=day(spread.p95.minute),
        futures=tuple(day(minute) for minute in spread.futures),
        samples=spread.samples,
        seed=seed,
        hours_left=hours_left,
        gates=tuple(
            IssuedGate(key, day(f.p50.minute), day(f.p80.minute), day(f.p95.minute))
            for key, f in gates.items()
        ),
        planned=tuple(PlannedWork(one.day, one.job_id) for one in intended),
    )


def last_issued(build: Build) -> IssuedForecast | None:
    """Return the forecast that was kept last; None when none was."""
    return max(build.forecasts.values(), key=lambda one: one.made_at, default=None)


def keep_again(build: Build, now: datetime) -> bool:
    """Say whether it is time to keep a forecast again."""
    last = last_issued(build)
    return last is None or now - last.made_at >= KEEP_EVERY


@dataclass(frozen=True, slots=True)
class GivenOut:
    """The plan that was last given out: its jobs with their days, and how far it reached.

    Parameters
    ----------
    intended : tuple of Intended
        What was planned, in order.
    until : date
        The last day that it spoke of.
    taken_up : frozenset of str
        Jobs that are done by now, or were worked on since.
    """

    intended: tuple[Intended, ...]
    until: date
    taken_up: frozenset[str]


def given_out(build: Build, now: datetime) -> GivenOut | None:
    """Return what was planned with the last forecast, as long as its two weeks last."""
    last = last_issued(build)
    if last is None or now - last.made_at > timedelta(days=WINDOW_DAYS) or not last.planned:
        return None
    first = last.made_at.astimezone(zone_of(build)).date()
    return GivenOut(
        tuple(Intended(one.job, one.day) for one in last.planned),
        first + timedelta(days=WINDOW_DAYS - 1),
        frozenset(
            key
            for key, record in build.jobs.items()
            if record.state.is_done or _done_between(record, last.made_at, now)
        ),
    )


def issued_lines(build: Build, now: datetime) -> tuple[IssuedLine, ...]:
    """List the forecasts that were kept, the oldest first, with what came of their plans."""
    zone = zone_of(build)
    lines = []
    for one in sorted(build.forecasts.values(), key=lambda one: one.made_at):
        end = one.made_at + timedelta(days=WINDOW_DAYS)
        # Proving that nobody wrote down as a job leaves no hours to tell.
        jobs = {work.job for work in one.planned if work.job in build.jobs}
        done = sum(_done_between(build.jobs.get(job), one.made_at, end) for job in jobs)
        lines.append(
            IssuedLine(
                one.made_at.astimezone(zone).date(),
                monday_of(one.p50),
                monday_of(one.p80),
                monday_of(one.p95),
                one.hours_left,
                len(jobs),
                done,
                now >= end,
            )
        )
    return tuple(lines)


def _done_between(record: JobRecord | None, start: datetime, end: datetime) -> bool:
    """Whether a job was worked on or finished in a stretch of time."""
    return record is not None and any(
        event.kind in _WORK and start <= event.at <= end for event in record.events
    )


def score_gates(build: Build) -> Scored:
    """Hold the first forecast of each gate that has since been passed against its day.

    The first alone: later ones of the same gate are hardly forecasts of anything else.
    """
    zone = zone_of(build)
    cases = []
    by_time = sorted(build.forecasts.values(), key=lambda one: one.made_at)
    for key, record in build.gates.items():
        if record.passed is None:
            continue
        passed = record.passed.at
        for one in by_time:
            said = next((gate for gate in one.gates if gate.gate == key), None)
            if said is not None and one.made_at < passed:
                came = (passed.astimezone(zone).date() - one.made_at.date()).days
                days = [(when - one.made_at.date()).days for when in _twenty(said)]
                cases.append(([float(day) for day in days], float(came)))
                break
    return scored("day of a gate", "days", cases)


def _twenty(said: IssuedGate) -> list[date]:
    """Spread three quantiles out to twenty evenly likely days: straight lines between them."""
    early = said.p50 - (said.p80 - said.p50)
    corners = [(0.2, early), (0.5, said.p50), (0.8, said.p80), (0.95, said.p95)]
    late = said.p95 + (said.p95 - said.p80) / 3
    corners = [(0.0, early - (said.p80 - said.p50) / 2), *corners, (1.0, late)]
    found = []
    for at in range(20):
        share = (at + 0.5) / 20
        left, right = next((a, b) for a, b in itertools.pairwise(corners) if share <= b[0])
        part = (share - left[0]) / (right[0] - left[0])
        found.append(left[1] + timedelta(days=round((right[1] - left[1]).days * part)))
    return found


def score_line(found: Scored) -> ScoreLine:
    """Put a score into the type of the page."""
    eight = next(one for one in found.coverages if one.share == 0.8)
    p50, p80, p95 = (round(loss, 3) for loss in found.pinballs)
    return ScoreLine(
        what=found.what,
        unit=found.unit,
        cases=found.cases,
        under_p80=eight.under,
        expected=round(eight.expected, 1),
        give_or_take=round(eight.give_or_take, 1),
        word=eight.word,
        pinball_p50=p50,
        pinball_p80=p80,
        pinball_p95=p95,
        crps=round(found.crps, 3),
        plain_crps=None if found.plain_crps is None else round(found.plain_crps, 3),
        words=found.sentence,
    )
