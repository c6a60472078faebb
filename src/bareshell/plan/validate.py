"""What stands in the way of planning at all, named before anything is simulated.

Each `Snag` says in one sentence what is wrong and in another what would mend it. What cannot be
planned is set aside with everything that comes after it; the rest is planned all the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Literal

from bareshell.plan import wording
from bareshell.plan.arrays import cold_stretch_thousandths
from bareshell.plan.body import reach, settled, supports_by_body
from bareshell.plan.fitting import Kinds, fitted_in
from bareshell.plan.network import Missing, Network, network
from bareshell.plan.problem import Arrival, PlanJob, PlanProblem
from bareshell.plan.repair import mended
from bareshell.plan.supports import change_times, warm_enough

__all__ = ["Effect", "Prepared", "Snag", "prepare", "validate", "without"]

Effect = Literal["set aside", "planned as if", "note"]
"""What a snag does: jobs are *set aside*, something is *planned as if*, or it is only a *note*."""


@dataclass(frozen=True, slots=True)
class Snag:
    """One thing that stands in the way of planning.

    Parameters
    ----------
    rule : str
        A stable short name: ``"circle"``, ``"no sessions"``, ``"helper"``.
    sentence, remedy : str
        What is wrong, and what would mend it, with titles rather than keys.
    effect : {"set aside", "planned as if", "note"}
        What planning did about it.
    job_ids : tuple of str
        The jobs it touches.
    held_up_ids : tuple of str
        The jobs that come after these and so cannot be planned either.
    """

    rule: str
    sentence: str
    remedy: str
    effect: Effect = "set aside"
    job_ids: tuple[str, ...] = ()
    held_up_ids: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Prepared:
    """A problem that can be planned, and what had to be left out or assumed for it.

    Parameters
    ----------
    problem : PlanProblem
        What is planned: no loose ends, sessions without end, every support reachable.
    asked : PlanProblem
        What was asked.
    snags : tuple of Snag
        What stood in the way.
    set_aside : frozenset of str
        The jobs that are not planned.
    """

    problem: PlanProblem
    asked: PlanProblem
    snags: tuple[Snag, ...]
    set_aside: frozenset[str]


def validate(problem: PlanProblem) -> tuple[Snag, ...]:
    """Name everything that stands in the way of planning, before any simulation.

    Parameters
    ----------
    problem : PlanProblem
        Any problem.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> wax = PlanJob("wax", "Wax the sills", "underbody", (Way(1, 45, 60, 90),))
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), SessionSource())
    >>> [snag.sentence for snag in validate(plan)]
    ['There is no garage session to plan into.']
    """
    return prepare(problem).snags


def prepare(problem: PlanProblem) -> Prepared:
    """Make a problem plannable, saying what was left out or assumed.

    Parameters
    ----------
    problem : PlanProblem
        Any problem.

    Returns
    -------
    prepared : Prepared
        The plannable problem with its snags.
    """
    if not problem.sessions.kinds:
        ids = tuple(job.id for job in problem.jobs)
        snag = Snag(
            "no sessions",
            "There is no garage session to plan into.",
            "Say on which days there is time, and for how long.",
            job_ids=ids,
        )
        return Prepared(replace(problem, jobs=(), goal=()), problem, (snag,), frozenset(ids))
    whole, assumptions = mended(problem)
    links = [(edge.before, edge.after) for edge in network(whole).edges]
    whole = settled(whole, links)
    snags = [Snag(a.rule, a.sentence, a.remedy, "planned as if", a.job_ids) for a in assumptions]
    graph = network(whole)
    stuck = _Stuck(whole, graph)
    stuck.find()
    snags.extend(stuck.snags)
    snags.extend(_notes(whole))
    plannable, split = without(whole, stuck.all_ids)
    snags.extend(split)
    return Prepared(plannable, problem, tuple(snags), frozenset(stuck.all_ids))


class _Stuck:
    """Finds the jobs that can never be done as things are, one rule at a time."""

    def __init__(self, problem: PlanProblem, graph: Network) -> None:
        self.problem = problem
        self.graph = graph
        self.at = {job.id: index for index, job in enumerate(problem.jobs)}
        self.snags: list[Snag] = []
        self.all_ids: set[str] = set()

    def find(self) -> None:
        for missing in self.graph.missing:
            self._set_aside(*_missing_words(self.graph, missing, self.problem), [missing.node])
        self._circles()
        self._parts()
        self._supports()
        for job in self.problem.jobs:
            self._people_and_warmth(job)

    def _set_aside(self, rule: str, sentence: str, remedy: str, nodes: Iterable[int]) -> None:
        direct = set(nodes)
        held = self.graph.downstream(direct) - direct
        named = tuple(self.problem.jobs[n].id for n in sorted(direct) if n < len(self.problem.jobs))
        held_ids = tuple(
            self.problem.jobs[n].id for n in sorted(held) if n < len(self.problem.jobs)
        )
        self.all_ids.update(named, held_ids)
        self.snags.append(Snag(rule, sentence, remedy, "set aside", named, held_ids))

    def _circles(self) -> None:
        for circle in _circles(self.graph):
            names = [self.graph.title(node) for node in circle]
            self._set_aside(
                "circle",
                f"These wait for one another in a circle: {' before '.join([*names, names[0]])}.",
                "Take out the one 'after' that is wrong.",
                circle,
            )

    def _parts(self) -> None:
        arrivals = {arrival.id: arrival for arrival in self.problem.arrivals}
        wanted: dict[str, list[int]] = {}
        for node, job in enumerate(self.problem.jobs):
            for part in dict.fromkeys((*job.parts_to_start, *job.parts_to_finish)):
                arrival = arrivals.get(part)
                if arrival is None or _never_comes(arrival):
                    wanted.setdefault(part, []).append(node)
        for part, nodes in wanted.items():
            title = arrivals[part].title if part in arrivals else part
            jobs = wording.listed(self.graph.title(node) for node in nodes)
            self._set_aside(
                "part",
                f"Nobody knows when {title} comes, and {jobs} "
                f"{'waits' if len(nodes) == 1 else 'wait'} for it.",
                f"Order {title} and say when it is due, or how long it takes to come.",
                nodes,
            )

    def _supports(self) -> None:
        bodies = supports_by_body(self.problem)
        lost: dict[frozenset[str], list[int]] = {}
        for node, job in enumerate(self.problem.jobs):
            if job.supports is not None and not reach(job, bodies):
                lost.setdefault(job.supports, []).append(node)
        for supports, nodes in lost.items():
            jobs = wording.listed(self.graph.title(node) for node in nodes)
            where = wording.support(self.problem, *supports)
            here = wording.support(self.problem, self.problem.support)
            self._set_aside(
                "support",
                f"The car cannot be put on {where} from {here} within one "
                f"session, and {jobs} {'needs' if len(nodes) == 1 else 'need'} it so.",
                f"Say how the car gets from {here} to {where} and how long it "
                "takes, or on what else the work can be done.",
                nodes,
            )

    def _people_and_warmth(self, job: PlanJob) -> None:
        least = min(way.people for way in job.ways)
        least_c = job.min_temperature_c
        template = self.problem.sessions.template
        node = [self.at[job.id]]
        title = self.graph.title(node[0])
        if least > 1 and all(slot.people < least for slot in template):
            self._set_aside(
                "helper",
                f"{title} takes two people and no session has a helper.",
                "Name a session to which the helper comes, or a way of doing it alone.",
                node,
            )
        elif least_c is not None and not _warm_enough(self.problem, job):
            through = " through its cure" if job.cure_minutes else ""
            self._set_aside(
                "temperature",
                f"{title} wants {wording.temperature(least_c)} or more{through}, and no session "
                "is expected to be so warm.",
                "Heat the garage for it and say so in the session, or use a product that cures "
                "colder.",
                node,
            )
        elif least_c is not None and not _warm_enough(self.problem, job, least):
            self._set_aside(
                "helper",
                f"{title} takes two people at {wording.temperature(least_c)} or more, and the "
                "helper never comes when it is so warm.",
                "Ask the helper for a warm day, or heat the garage on a day the helper comes.",
                node,
            )


def _never_comes(arrival: Arrival) -> bool:
    return arrival.known and arrival.expected_minute is None and arrival.lead_minutes is None


def _missing_words(graph: Network, missing: Missing, problem: PlanProblem) -> tuple[str, str, str]:
    who = graph.title(missing.node)
    if missing.kind == "job":
        return (
            "unknown job",
            f"{who} comes after '{missing.ref}', and there is no such job.",
            "Name a job that is on the list, or take the link out.",
        )
    if missing.kind == "gate":
        return (
            "unknown gate",
            f"{who} waits for the gate '{missing.ref}', and there is no such gate.",
            "Name a gate that is on the ladder, or take it out.",
        )
    if missing.kind == "proof":
        return (
            "unknown proof",
            f"{who} asks for the proof '{missing.ref}', and there is no such proof.",
            "Name a proof that is on the list, or take it out.",
        )
    if missing.kind == "body":
        return (
            "body",
            f"{who} asks for '{missing.ref}' to be otherwise, and no job is left that makes it so.",
            "Add the job that does, or say how the car is now.",
        )
    title = next(proof.title for proof in problem.proofs if proof.id == missing.ref)
    return (
        "proof",
        f"{who} is held until '{title}' is proven, and no job is left that would prove it.",
        f"Add a job that proves '{title}', or record the proof if it is held.",
    )


def _circles(graph: Network) -> list[list[int]]:
    """Walk back along edges from each node that no order reaches until one comes again."""
    in_order = set(graph.in_order())
    blocked = [node for node in range(graph.size) if node not in in_order]
    before = {
        node: [edge.before for edge in edges if edge.before not in in_order]
        for node, edges in enumerate(graph.leading_in())
    }
    seen: set[int] = set()
    circles: list[list[int]] = []
    for start in blocked:
        path: list[int] = []
        node = start
        while node not in seen:
            seen.add(node)
            path.append(node)
            node = before[node][0]
        if node in path:
            circles.append(path[path.index(node) :][::-1])
    return circles


def _warm_enough(problem: PlanProblem, job: PlanJob, people: int = 1) -> bool:
    """Whether some repeating session is warm enough, through a cure that follows its end."""
    least_c = job.min_temperature_c
    slots, period = problem.sessions.template, problem.sessions.template_minutes
    for index, slot in enumerate(slots):
        if slot.people < people or not warm_enough(slot.temperature_c, least_c):
            continue
        step, warm, cure = index, True, job.cure_minutes
        while cure and warm:
            turn, at = divmod(step, len(slots))
            if slots[at].start_minute + turn * period >= slot.end_minute + cure:
                break
            warm = warm_enough(slots[at].coldest_c, least_c)
            if job.cure_stretches:
                stretched = job.cure_minutes * cold_stretch_thousandths(slots[at]) // 1000
                cure = max(cure, stretched)
            step += 1
        if warm:
            return True
    return False


def _notes(problem: PlanProblem) -> list[Snag]:
    """Mention what nobody recorded; it blocks nothing."""
    notes: list[Snag] = []
    unknown = {arrival.id: arrival.title for arrival in problem.arrivals if not arrival.known}
    jobs = [
        job
        for job in problem.jobs
        if any(part in unknown for part in (*job.parts_to_start, *job.parts_to_finish))
    ]
    if jobs:
        wanted = dict.fromkeys(
            part
            for job in jobs
            for part in (*job.parts_to_start, *job.parts_to_finish)
            if part in unknown
        )
        notes.append(
            Snag(
                "part not known",
                f"Nobody recorded whether {wording.listed(unknown[part] for part in wanted)} "
                f"{'is' if len(wanted) == 1 else 'are'} on the shelf; planned as if here.",
                "Look on the shelf and say.",
                "note",
                tuple(job.id for job in jobs),
            )
        )
    cold = [job for job in problem.jobs if job.min_temperature_c is not None]
    if cold and any(slot.temperature_c is None for slot in problem.sessions.kinds):
        notes.append(
            Snag(
                "temperature not known",
                "Nobody said how warm some sessions will be; planned as if warm enough.",
                "Give the temperature you expect in the garage, month by month.",
                "note",
                tuple(job.id for job in cold),
            )
        )
    return notes


def without(problem: PlanProblem, left_out: set[str]) -> tuple[PlanProblem, list[Snag]]:
    """Leave jobs out, with what only they refer to; cut what no session can hold into pieces.

    Parameters
    ----------
    problem : PlanProblem
        With its sessions and supports mended.
    left_out : set of str
        Jobs that cannot be planned, and all that come after them.

    Returns
    -------
    problem, snags
        What is left, and what was assumed for it.
    """
    known = {arrival.id for arrival in problem.arrivals if arrival.known}
    times, kinds = change_times(problem), Kinds(problem)
    jobs: list[PlanJob] = []
    snags: list[Snag] = []
    for job in problem.jobs:
        if job.id in left_out:
            continue
        kept = replace(
            job,
            parts_to_start=tuple(part for part in job.parts_to_start if part in known),
            parts_to_finish=tuple(part for part in job.parts_to_finish if part in known),
        )
        kept, words = fitted_in(problem, kept, times, kinds)
        if words is not None:
            snags.append(
                Snag(words.rule, words.sentence, words.remedy, "planned as if", words.job_ids)
            )
        jobs.append(kept)
    here: Callable[[str], bool] = {job.id for job in jobs}.__contains__
    used = {gate_id for job in jobs for gate_id in job.gates_before}
    gates = tuple(
        replace(gate, blocks=tuple(filter(here, gate.blocks)))
        for gate in problem.gates
        if gate.id in used or any(map(here, gate.blocks))
    )
    goal = tuple(filter(here, problem.goal))
    if problem.goal and not goal:
        goal = tuple(job.id for job in jobs)
    arrivals = tuple(arrival for arrival in problem.arrivals if arrival.known)
    return replace(problem, jobs=tuple(jobs), gates=gates, goal=goal, arrivals=arrivals), snags
