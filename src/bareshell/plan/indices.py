"""The standard indices of which jobs matter, beside the levers that say by how much.

They are read off the same fates. In a garage the chain that binds is not the longest path of the
network but the realised one - what each job really waited for, the owner's hands included - so
*criticality* counts that. Hours share the owner's pace, and that alone would tie every job to the
finish; so *cruciality* is taken after the paces are accounted for.

Published definitions (formulas from memory):

*criticality index*
    Share of samples in which the job is on the chain that binds [S:van-slyke-1963].
*significance index*
    Mean of d / (d + f) * T / mean(T), with the job's duration d, its float f and the whole
    duration T [S:williams-1992]. Float is a notion of the network, so here it is taken on the
    network alone, as if there were hands for everything.
*cruciality index*
    Size of the rank correlation of the job's duration with the finish [S:williams-1992].
*schedule sensitivity index*
    Criticality times the spread (standard deviation) of the job's duration over that of the
    finish [S:vanhoucke-2010].
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from bareshell.plan.engine import Outcome
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import network
from bareshell.plan.problem import PlanProblem
from bareshell.plan.sampling import Paces, draw, draw_paces

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Column = NDArray[float64]

__all__ = ["JobIndex", "job_indices", "worked_share"]


@dataclass(frozen=True, slots=True)
class JobIndex:
    """How much one job matters, by the four published indices.

    Parameters
    ----------
    job_id, title : str
        The job.
    criticality : float
        Share of fates in which it was on the chain that bound the date. [-]
    significance : float
        On the network alone. [-]
    cruciality : float
        Rank correlation with the finish, in size, after the owner's paces. [-]
    plain_cruciality : float
        The same with the paces left in, as it is published. [-]
    sensitivity : float
        Criticality times its spread over that of the finish. [-]
    clear : bool
        Whether `cruciality` is beyond twice its standard error; else it says nothing.
    """

    job_id: str
    title: str
    criticality: float
    significance: float
    cruciality: float
    plain_cruciality: float
    sensitivity: float
    clear: bool


def job_indices(problem: PlanProblem, outcome: Outcome, *, seed: int) -> tuple[JobIndex, ...]:
    """Work out the four indices of every job, the most often critical first.

    Parameters
    ----------
    problem : PlanProblem
        As it was walked through.
    outcome : Outcome
        Of walks through the first fates of this seed, none left out.
    seed : int
        Which fates those were.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.engine import Engine
    >>> from bareshell.plan.policy import Policy
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 400, 900, 2000),), splittable=True)
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> walked = Engine(plan, engine="plain").run(Policy((60,)), seed=1, samples=40)
    >>> found = job_indices(plan, walked, seed=1)[0]
    >>> found.criticality, found.significance, found.plain_cruciality > 0.8
    (1.0, 1.0, True)
    """
    import numpy as np

    samples = len(outcome.finish)
    if samples < 3 or not problem.jobs:
        return ()
    factor = draw(problem, 1, seed=seed, samples=samples).factor.astype(np.float64)
    planned = np.array([min(planned_minutes(problem, job).values()) for job in problem.jobs])
    hours = factor * planned
    paces = draw_paces(problem, seed=seed, samples=samples)
    finish = outcome.finish.astype(np.float64)
    significance = _significance(problem, hours)
    left = _without_paces(finish, paces)
    plain = _ranks(finish)
    after = _ranks(left)
    share = worked_share(problem)
    spread = float(finish.std()) * share
    error = 1.0 / sqrt(samples - 1)
    found = []
    for at, job in enumerate(problem.jobs):
        own = np.log(factor[:, at]) - paces.of_system[job.system].astype(np.float64)
        cruciality = abs(_correlation(_ranks(own), after))
        critical = outcome.binding.job_samples[at] / samples
        found.append(
            JobIndex(
                job.id,
                job.title,
                critical,
                significance[at],
                cruciality,
                abs(_correlation(_ranks(hours[:, at]), plain)),
                critical * float(hours[:, at].std()) / spread if spread > 0 else 0.0,
                cruciality > 2 * error,
            )
        )
    found.sort(key=lambda one: (-one.criticality, -one.cruciality, one.job_id))
    return tuple(found)


def worked_share(problem: PlanProblem) -> float:
    """Say how much of all clock time is worked in; 0 when there are no sessions for ever."""
    source = problem.sessions
    if not source.template:
        return 0.0
    taken = problem.set_up_minutes + problem.clear_up_minutes
    return sum(max(0, s.minutes - taken) for s in source.template) / source.template_minutes


def _significance(problem: PlanProblem, hours: Column) -> list[float]:
    """Take heads, tails and floats of the network alone, in every fate at once."""
    import numpy as np

    graph = network(problem)
    share = worked_share(problem)
    zero = np.zeros(hours.shape[0])
    own = [hours[:, node] if node < len(problem.jobs) else zero for node in range(graph.size)]
    out, order = graph.leading_out(), graph.in_order()
    head, tail = [zero] * graph.size, [zero] * graph.size
    for node in order:
        done = head[node] + own[node]
        for edge in out[node]:
            head[edge.after] = np.maximum(head[edge.after], done + edge.wait_minutes * share)
    for node in reversed(order):
        for edge in out[node]:
            behind = tail[edge.after] + own[edge.after] + edge.wait_minutes * share
            tail[node] = np.maximum(tail[node], behind)
    whole = np.max([head[node] + own[node] for node in range(graph.size)], axis=0)
    longer = whole / whole.mean()
    found = []
    for node in range(len(problem.jobs)):
        slack = np.maximum(0.0, whole - head[node] - own[node] - tail[node])
        found.append(float((own[node] / (own[node] + slack) * longer).mean()))
    return found


def _without_paces(finish: Column, paces: Paces) -> Column:
    """Take out of the finish what the paces explain, by least squares."""
    import numpy as np

    columns = [np.ones(len(finish)), paces.common.astype(np.float64)]
    columns += [pace.astype(np.float64) for pace in paces.of_system.values()]
    explaining = np.column_stack(columns)
    weights = np.linalg.lstsq(explaining, finish, rcond=None)[0]
    left: Column = finish - explaining @ weights
    return left


def _ranks(values: Column) -> Column:
    """Rank values; those that are level share their middle rank."""
    import numpy as np

    _, inverse, counts = np.unique(values, return_inverse=True, return_counts=True)
    middle = np.cumsum(counts) - (counts - 1) / 2
    ranked: Column = middle[inverse]
    return ranked


def _correlation(one: Column, other: Column) -> float:
    import numpy as np

    a, b = one - one.mean(), other - other.mean()
    size = float(np.sqrt((a @ a) * (b @ b)))
    return float(a @ b) / size if size > 0 else 0.0
