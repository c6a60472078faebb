"""What could be done of one job at some moment, in the walk told in plain words."""

from __future__ import annotations

from typing import Literal

from bareshell.plan.hours import least_left, planned_minutes, total_minutes
from bareshell.plan.network import Edge, network
from bareshell.plan.policy import Fate
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.steps import At, Offer, State
from bareshell.plan.supports import NO_WAY, change_times, warm_enough

__all__ = ["Reach"]


class Reach:
    """What is within reach: the jobs as they stand, the sessions, how the car stands.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    fate : Fate
        How it really goes.
    """

    def __init__(self, problem: PlanProblem, fate: Fate) -> None:
        self.problem = problem
        self.fate = fate
        self.slots = problem.sessions.first(len(fate.people))
        self.jobs = problem.jobs
        self.totals = [total_minutes(problem, job) for job in self.jobs]
        self.plans = [planned_minutes(problem, job) for job in self.jobs]
        self.times = change_times(problem)
        self.part_at = {arrival.id: index for index, arrival in enumerate(problem.arrivals)}
        graph = network(problem)
        self.after: list[list[Edge]] = graph.leading_out()
        self.states = [State(len(edges)) for edges in graph.leading_in()]
        self.support = problem.support

    def _offer(self, job: int, now: int, at: At) -> Offer | None:
        """Say what could be done of a job from now on; None when nothing can."""
        people = self._way(job, at.people)
        if not people or not warm_enough(
            self.slots[at.session].temperature_c, self.jobs[job].min_temperature_c
        ):
            return None
        target, change = self._cheapest_change(job, at.people)
        if change == NO_WAY:
            return None
        begin = now if at.moved else now + change
        planned, room = self._left(job, people)[0], at.end - begin
        finishable = self._may_not_finish(job, begin + planned, at.session) is None
        if planned <= room and finishable:
            return Offer(job, people, target, change, planned, whole=True)
        if self.jobs[job].splittable or self.states[job].carried:
            least = self.jobs[job].least_piece_minutes
            piece = room if planned > room else planned - min(least, planned)
            if piece >= least:
                return Offer(job, people, target, change, piece, whole=False)
        return None

    def _way(self, job: int, people: int) -> int:
        """Pick the quicker way that these people allow; 0 when there is none."""
        ways = self.totals[job]
        if people > 1 and 2 in ways:
            if 1 not in ways or self._left(job, 2)[0] < self._left(job, 1)[0]:
                return 2
            return 1
        return 1 if 1 in ways else 0

    def _left(self, job: int, people: int) -> tuple[int, int]:
        """Minutes left to do in this way, planned and real."""
        state, totals = self.states[job], self.totals[job]
        total = totals[people]
        if not state.people:
            done = self.jobs[job].minutes_done
            real = max(1, int(total * float(self.fate.factor[job]) + 0.5))
            if done:
                real = max(real - done, least_left(total))
            return self.plans[job][people], real
        if state.people == people:
            return state.planned, state.real
        other = totals[state.people]
        return -(-state.planned * total // other), -(-state.real * total // other)

    def _cheapest_change(self, job: int, people: int) -> tuple[str, int]:
        supports = self.jobs[job].supports
        if supports is None or self.support in supports:
            return self.support, 0
        best, best_minutes = self.support, NO_WAY
        for name in self.times.names:
            if name in supports:
                minutes = self.times.minutes(self.support, name, people)
                if minutes != NO_WAY and (best_minutes == NO_WAY or minutes < best_minutes):
                    best, best_minutes = name, minutes
        return best, best_minutes

    def _may_not_finish(
        self, job: int, minute: int, session: int
    ) -> Literal["part", "cold"] | None:
        """Say what would keep a job from being finished at that minute."""
        if minute < self.states[job].finish_ready:
            return "part"
        return "cold" if self._cold_cure(self.jobs[job], minute, session) else None

    def _cold_cure(self, job: PlanJob, finish: int, session: int) -> bool:
        """Whether it gets too cold between the finish and the end of the cure."""
        if not job.cure_minutes or job.min_temperature_c is None:
            return False
        for index in range(session, len(self.slots)):
            slot = self.slots[index]
            if slot.start_minute >= finish + job.cure_minutes:
                break
            if slot.coldest_c is not None and slot.coldest_c < job.min_temperature_c:
                return True
        return False
