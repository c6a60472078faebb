"""Why not tonight: the rule that keeps a job off the list, what would free it, back to the root.

The answers are read off the plan itself, so they cannot contradict it: where a job waits for
another, the chain goes on with why that one is not done, until it ends in something that is not a
job - a part that is due on the 9th, a helper who comes on Saturday, the cold.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from bareshell.plan import wording
from bareshell.plan.arrays import cold_stretch_thousandths, expected_arrival
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import Edge, network
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.schedule import Block
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.supports import NO_WAY, change_times
from bareshell.plan.tonight import Tonight
from bareshell.plan.validate import Snag

__all__ = ["Chain", "ChainLink", "most_wanted", "why_not"]


@dataclass(frozen=True, slots=True)
class ChainLink:
    """One reason.

    Parameters
    ----------
    job_id : str, optional
        The job that is kept; None when the reason is about no job.
    rule : str
        A stable short name: ``"after"``, ``"wait"``, ``"part"``, ``"helper"``, ``"temperature"``,
        ``"cure"``, ``"proof before cover"``, ``"gate"``, ``"time"``, ``"support"``, ``"mood"``,
        ``"order"``, ``"date"``, ``"tonight"``, or the rule of a snag.
    sentence : str
        What keeps it, in plain words.
    frees : str
        What would free it.
    frees_at : int, optional
        When that is planned; None when nobody knows. [minutes from the origin]
    """

    job_id: str | None
    rule: str
    sentence: str
    frees: str
    frees_at: int | None


@dataclass(frozen=True, slots=True)
class Chain:
    """Why a job is not on tonight's list, from the job back to the root.

    Parameters
    ----------
    job_id : str
        The job that was asked about.
    links : tuple of ChainLink
        The reasons, each the reason of the one before it.
    planned_minute : int, optional
        When the job is planned to begin; None when it is not planned. [minutes from the origin]
    """

    job_id: str
    links: tuple[ChainLink, ...]
    planned_minute: int | None

    @property
    def root(self) -> ChainLink:
        """The last reason."""
        return self.links[-1]


def why_not(problem: PlanProblem, tonight: Tonight, job_id: str) -> Chain:
    """Say why a job is not on tonight's list, and what would free it.

    Parameters
    ----------
    problem : PlanProblem
        What tonight's list was made from.
    tonight : Tonight
        The list.
    job_id : str
        The job.

    Raises
    ------
    BadInput
        When there is no such job among those that are not finished.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import Arrival, Way
    >>> from bareshell.plan.sessions import SessionSource
    >>> from bareshell.plan.tonight import tonight
    >>> tank = PlanJob(
    ...     "tank", "Hang the tank", "fuel", (Way(1, 45, 60, 90),), parts_to_start=("straps",)
    ... )
    >>> plan = PlanProblem(
    ...     datetime(2031, 3, 4, 18, tzinfo=UTC),
    ...     (tank,),
    ...     SessionSource.repeating([SessionSlot(60, 150)]),
    ...     arrivals=(Arrival("straps", "tank straps", 5 * 24 * 60),),
    ... )
    >>> why_not(plan, tonight(plan, seed=1, engine="plain"), "tank").root.sentence
    "'Hang the tank' cannot begin without tank straps, due on Sun 9 Mar."
    """
    problem.job(job_id)
    return _Reasons(tonight).chain(job_id)


def most_wanted(tonight: Tonight, most: int = 5) -> tuple[Chain, ...]:
    """Say why the weightiest jobs that are not on the list are not on it.

    Parameters
    ----------
    tonight : Tonight
        The list.
    most : int
        How many at most.
    """
    reasons = _Reasons(tonight)
    weights = zip(tonight.policy.priority, tonight.problem.jobs, strict=False)
    on_list = set(tonight.job_ids)
    wanted = sorted(
        ((-weight, job.id) for weight, job in weights if job.id not in on_list),
    )
    return tuple(reasons.chain(job_id) for _, job_id in wanted[:most])


class _Reasons:
    """Reads the reasons of one evening off its plan."""

    def __init__(self, tonight: Tonight) -> None:
        self.tonight = tonight
        self.problem = tonight.problem
        self.asked = tonight.prepared.asked
        self.graph = network(self.asked)
        self.into = self.graph.leading_in()
        self.at = {job.id: node for node, job in enumerate(self.asked.jobs)}
        self.arrivals = {arrival.id: arrival for arrival in self.asked.arrivals}
        self.start: dict[str, Block] = {}
        self.finish: dict[str, Block] = {}
        for block in tonight.schedule.blocks:
            if block.kind == "work" and block.job_id is not None:
                self.start.setdefault(block.job_id, block)
                if block.finishes:
                    self.finish[block.job_id] = block
        self.planned = {job.id: job for job in self.problem.jobs}
        slots = self.problem.sessions.kinds
        self.slot = tonight.session or (slots[0] if slots else SessionSlot(0, 1))
        self.end = self.slot.end_minute

    def chain(self, job_id: str) -> Chain:
        links: list[ChainLink] = []
        seen: set[str] = set()
        following: str | None = job_id
        while following is not None and following not in seen:
            seen.add(following)
            link, following = self._reason(following)
            links.append(link)
        begin = self.start.get(job_id)
        return Chain(job_id, tuple(links), begin.start_minute if begin else None)

    def _reason(self, job_id: str) -> tuple[ChainLink, str | None]:
        """Give the reason of one job, and the job whose reason is behind it."""
        job = self.asked.jobs[self.at[job_id]]
        if job_id in self.tonight.job_ids:
            return self._on_list(job), None
        if job_id in self.tonight.prepared.set_aside:
            return self._set_aside(job)
        if self.tonight.session is None:
            return self._link(job, "session", "There is no session.", "Plan a session."), None
        before = self._before(job)
        if before is not None:
            return before
        own = (
            self._mood(job)
            or self._date(job)
            or self._part(job)
            or self._people(job)
            or self._cold(job)
            or self._time(job)
            or self._order(job)
        )
        return own, None

    def _link(
        self, job: PlanJob, rule: str, sentence: str, frees: str, at: int | None = None
    ) -> ChainLink:
        return ChainLink(job.id, rule, sentence, frees, at)

    # Reasons that lead on to another job ---------------------------------------------------

    def _on_list(self, job: PlanJob) -> ChainLink:
        finish = self.finish.get(job.id)
        tonight = finish is not None and finish.session == 0
        sentence = f"'{job.title}' is on tonight's list"
        if not tonight:
            sentence += ", and will not be finished tonight"
        at = finish.end_minute if finish else None
        return self._link(job, "tonight", f"{sentence}.", "Do it.", at)

    def _set_aside(self, job: PlanJob) -> tuple[ChainLink, str | None]:
        snags = self.tonight.snags
        direct = next((s for s in snags if s.effect == "set aside" and job.id in s.job_ids), None)
        if direct is not None:
            return self._link(job, direct.rule, direct.sentence, direct.remedy), None
        held = next((s for s in snags if job.id in s.held_up_ids), None)
        for edge in self._edges(job):
            if edge.before < len(self.asked.jobs):
                before = self.asked.jobs[edge.before]
                if before.id in self.tonight.prepared.set_aside:
                    return (
                        self._link(
                            job,
                            "after",
                            f"'{job.title}' comes after '{before.title}', which cannot be planned.",
                            f"Whatever frees '{before.title}'.",
                        ),
                        before.id,
                    )
        return self._held_up(job, held), None

    def _held_up(self, job: PlanJob, held: Snag | None) -> ChainLink:
        if held is None:
            return self._link(job, "after", f"'{job.title}' cannot be planned.", "")
        return self._link(job, held.rule, held.sentence, held.remedy)

    def _edges(self, job: PlanJob) -> list[Edge]:
        """List what comes before a job, looking through gates to the jobs they need."""
        found: list[Edge] = []
        for edge in self.into[self.at[job.id]]:
            if edge.before < len(self.asked.jobs):
                found.append(edge)
            else:
                found += [
                    Edge(need.before, edge.after, 0, kind="gate", ref=edge.ref)
                    for need in self._gate_needs(edge.before)
                ]
        return found

    def _gate_needs(self, gate: int) -> list[Edge]:
        return [edge for edge in self.into[gate] if edge.before < len(self.asked.jobs)]

    def _before(self, job: PlanJob) -> tuple[ChainLink, str | None] | None:
        """Find the job before it that frees it last, if that is not over tonight."""
        last: tuple[int, Edge] | None = None
        for edge in self._edges(job):
            before = self.asked.jobs[edge.before]
            finish = self.finish.get(before.id)
            over = self.end + 1 if finish is None else finish.end_minute + self._wait(edge, finish)
            if finish is None or last is None or over > last[0]:
                last = (over, edge)
        if last is None or last[0] < self.end - self.problem.clear_up_minutes:
            return None
        over, edge = last
        before = self.asked.jobs[edge.before]
        finish = self.finish.get(before.id)
        done_tonight = finish is not None and finish.session == 0
        if done_tonight and finish is not None and over > finish.end_minute:
            return self._waiting(job, before, over, edge), None
        return self._after(job, before, over, edge), before.id

    def _wait(self, edge: Edge, finish: Block) -> int:
        if not edge.stretch:
            return edge.wait_minutes
        slot = self.problem.sessions.first(finish.session + 1)[-1]
        return -(-edge.wait_minutes * cold_stretch_thousandths(slot) // 1000)

    def _waiting(self, job: PlanJob, before: PlanJob, over: int, edge: Edge) -> ChainLink:
        return self._link(
            job,
            "wait",
            f"'{job.title}' has to wait {wording.stretch(edge.wait_minutes)}"
            f"{', longer in the cold,' if edge.stretch else ''} after '{before.title}', which is "
            "on tonight's list.",
            f"The wait is over on {wording.clock(self.problem, over)}.",
            over,
        )

    def _after(self, job: PlanJob, before: PlanJob, over: int, edge: Edge) -> ChainLink:
        frees = f"Finish '{before.title}', planned for {wording.date(self.problem, over)}."
        if edge.kind == "proof":
            title = next(p.title for p in self.asked.proofs if p.id == edge.ref)
            sentence = (
                f"'{job.title}' would cover what '{title}' has to prove, and it is not held yet; "
                f"'{before.title}' proves it."
            )
            return self._link(job, "proof before cover", sentence, frees, over)
        if edge.kind == "gate":
            title = next(g.title for g in self.asked.gates if g.id == edge.ref)
            open_needs = sum(1 for e in self._edges(job) if e.ref == edge.ref) - 1
            more = f" and {open_needs} more" if open_needs else ""
            sentence = (
                f"'{job.title}' waits for the {title} gate, which still needs "
                f"'{before.title}'{more}."
            )
            return self._link(job, "gate", sentence, frees, over)
        finish = self.finish.get(before.id)
        late = finish is not None and finish.session == 0
        state = "which fills tonight's session" if late else "which is not done"
        sentence = f"'{job.title}' comes after '{before.title}', {state}."
        return self._link(job, "after", sentence, frees, over)

    # Reasons of its own --------------------------------------------------------------------

    def _mood(self, job: PlanJob) -> ChainLink | None:
        words = self.tonight.as_it_is.unwanted(job, self.slot.people)
        if not words:
            return None
        return self._link(job, "mood", words, "Ask for it after all, or wait.", self.end)

    def _date(self, job: PlanJob) -> ChainLink | None:
        if job.earliest_minute < self.end - self.problem.clear_up_minutes:
            return None
        when = wording.clock(self.problem, job.earliest_minute)
        return self._link(
            job,
            "wait",
            f"'{job.title}' has to wait until {when} after what was done before it.",
            f"The wait is over on {when}.",
            job.earliest_minute,
        )

    def _part(self, job: PlanJob) -> ChainLink | None:
        for parts, what in ((job.parts_to_start, "begin"), (job.parts_to_finish, "be finished")):
            if what == "be finished" and job.splittable:
                continue
            late = [
                (expected_arrival(a), a)
                for a in (self.arrivals.get(part) for part in parts)
                if a is not None and a.known and expected_arrival(a) >= self.end
            ]
            if late:
                at, arrival = max(late, key=lambda found: found[0])
                due = f"due on {wording.date(self.problem, at)}"
                if arrival.expected_minute is None:
                    due = f"not ordered; ordered now, {due}"
                elif arrival.expected_minute <= 0:
                    due = f"overdue since {wording.date(self.problem, arrival.expected_minute)}"
                return self._link(
                    job,
                    "part",
                    f"'{job.title}' cannot {what} without {arrival.title}, {due}.",
                    f"{arrival.title} on the shelf.",
                    at,
                )
        return None

    def _people(self, job: PlanJob) -> ChainLink | None:
        if any(way.people <= self.slot.people for way in job.ways):
            return None
        return self._link(
            job,
            "helper",
            f"'{job.title}' takes two people and the helper is not here.",
            "The helper.",
            self._next(lambda slot: slot.people > 1),
        )

    def _next(self, suits: Callable[[SessionSlot], bool]) -> int | None:
        """Find when the next session is that would do."""
        count = len(self.problem.sessions.slots) + len(self.problem.sessions.template)
        for slot in self.problem.sessions.first(count + 1)[1:]:
            if suits(slot):
                return slot.start_minute
        return None

    def _cold(self, job: PlanJob) -> ChainLink | None:
        least = job.min_temperature_c
        if least is None:
            return None
        warm = self.slot.temperature_c is None or self.slot.temperature_c >= least
        coldest = self.slot.coldest_c
        if warm and (not job.cure_minutes or coldest is None or coldest >= least):
            return None
        wants = f"'{job.title}' wants {wording.temperature(least)} or more"
        if not warm and self.slot.temperature_c is not None:
            now = wording.temperature(self.slot.temperature_c)
            return self._link(
                job,
                "temperature",
                f"{wants}, and tonight it is {now}.",
                "A warmer garage.",
                self._next(lambda slot: slot.temperature_c is None or slot.temperature_c >= least),
            )
        return self._link(
            job,
            "cure",
            f"{wants} until it has cured, and it will be colder before the next session.",
            "A garage that stays warm.",
            self._planned(job),
        )

    def _time(self, job: PlanJob) -> ChainLink | None:
        """See whether the session is too short for it, however it is begun."""
        room = self.slot.minutes - self.problem.set_up_minutes - self.problem.clear_up_minutes
        ways = planned_minutes(self.problem, self.planned[job.id])
        least = min(minutes for people, minutes in ways.items() if people <= self.slot.people)
        if self.planned[job.id].splittable:
            least = min(least, self.planned[job.id].least_piece_minutes)
        change = self._change(job)
        if change is None:
            return self._link(
                job,
                "support",
                f"'{job.title}' needs the car on {self._where(job)}, and it is not moved there "
                "alone.",
                "The helper.",
                self._next(lambda slot: slot.people > 1),
            )
        if change + least <= room:
            return None
        takes = wording.stretch(least)
        if change:
            takes += f" after {wording.stretch(change)} to put the car on {self._where(job)}"
        return self._link(
            job,
            "support" if least <= room else "time",
            f"'{job.title}' takes {takes}, and tonight has {wording.stretch(room)} of work in it.",
            "A longer session." if least > room else f"The car on {self._where(job)}.",
            self._planned(job),
        )

    def _where(self, job: PlanJob) -> str:
        return wording.support(self.problem, *(job.supports or ()))

    def _change(self, job: PlanJob) -> int | None:
        """Say how long it takes to get the car there from where it stands; None for never."""
        if job.supports is None or self.problem.support in job.supports:
            return 0
        times = change_times(self.problem)
        minutes = [
            times.minutes(self.problem.support, name, self.slot.people)
            for name in job.supports
            if name in times.names
        ]
        return min((m for m in minutes if m != NO_WAY), default=None)

    def _planned(self, job: PlanJob) -> int | None:
        begin = self.start.get(job.id)
        return begin.start_minute if begin else None

    def _order(self, job: PlanJob) -> ChainLink:
        """Say that it could be done, and what is gained by doing other work first."""
        at = self._planned(job)
        when = f", planned for {wording.date(self.problem, at)}" if at is not None else ""
        for other in self.tonight.alternatives:
            if other.job_id == job.id:
                return self._link(
                    job,
                    "order",
                    f"'{job.title}' could be done tonight. {other.sentence}",
                    f"Take it first{when}.",
                    at,
                )
        return self._link(
            job,
            "order",
            f"'{job.title}' could be done tonight; other work brings the road nearer.",
            f"Time left over{when}.",
            at,
        )
