"""What could be done of one job at some moment, in the walk told in plain words."""

from __future__ import annotations

from typing import Literal

from bareshell.plan.arrays import cold_stretch_thousandths
from bareshell.plan.hours import least_left
from bareshell.plan.known import Known
from bareshell.plan.policy import Fate, Policy
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.steps import Look, Offer, State
from bareshell.plan.supports import NO_WAY, warm_enough

__all__ = ["Reach"]


class Reach:
    """What is within reach: the jobs as they stand, the sessions, how the car stands.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    policy : Policy
        What to go by.
    fate : Fate
        How it really goes.
    known : Known
        The problem read through.
    """

    def __init__(self, problem: PlanProblem, policy: Policy, fate: Fate, known: Known) -> None:
        self.problem = problem
        self.policy = policy
        self.fate = fate
        self.slots = problem.sessions.first(len(fate.people))
        self.jobs = problem.jobs
        self.totals, self.plans, self.times = known.totals, known.plans, known.times
        self.part_at, self.after = known.part_at, known.after
        self.states = [State(count) for count in known.before]
        self.support = problem.support
        self.body = problem.body
        # From when the car stands as it was last put, and until when somebody works on it.
        self.car_stands = 0
        self.car_held = 0

    def offer(self, job: int, look: Look) -> Offer | None:
        """Say what could be done of a job from a moment on; None when nothing can."""
        slot, one = self.slots[look.session], self.jobs[job]
        people = self.way(job, look.hands, slot, helper=look.helper)
        if not people or not warm_enough(slot.temperature_c, one.min_temperature_c):
            return None
        target, change = self._cheapest_change(job, look.movers or look.hands)
        if change == NO_WAY or not (look.movers or self._car_allows(one, target, look)):
            return None
        begin = look.now if look.movers else look.now + change
        planned, room = self.left(job, people)[0], look.end - begin
        whole_only = not (one.splittable or self.states[job].carried)
        if planned > room and whole_only and people < look.hands and 2 in self.totals[job]:
            # One could do it alone in a longer session than this; two get it done in this one.
            people = 2
            planned = self.left(job, people)[0]
        finishable = self.may_not_finish(job, begin + planned, look.session) is None
        if planned <= room and finishable:
            return Offer(job, people, target, change, planned, whole=True)
        if not whole_only:
            least = one.least_piece_minutes
            piece = room if planned > room else planned - min(least, planned)
            if piece >= least:
                return Offer(job, people, target, change, piece, whole=False)
        return None

    def way(self, job: int, hands: int, slot: SessionSlot, *, helper: bool = False) -> int:
        """Pick the way that these people choose; 0 when there is none.

        Where the helper could do a job of their own, two take a job that one could do only if
        that saves enough.
        """
        ways = self.totals[job]
        if helper:
            return 1 if 1 in ways and self._may_be_given(self.jobs[job], slot) else 0
        if hands > 1 and 2 in ways:
            if 1 not in ways:
                return 2
            alone, both = self.left(job, 1)[0], self.left(job, 2)[0]
            if slot.beside:
                return 2 if both * self.policy.together <= alone * 100 else 1
            return 2 if both < alone else 1
        return 1 if 1 in ways else 0

    @staticmethod
    def _may_be_given(job: PlanJob, slot: SessionSlot) -> bool:
        """Whether a helper may do a job alone in such a session."""
        if slot.beside == "any":
            return job.helper_alone or not job.dangerous_alone
        return slot.beside == "marked" and job.helper_alone

    def left(self, job: int, people: int) -> tuple[int, int]:
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

    def change(self, target: str, hands: int) -> int:
        """Say how long it takes to put the car so; `NO_WAY` when these hands cannot."""
        return self.times.minutes(self.support, target, hands, self.body)

    def _cheapest_change(self, job: int, hands: int) -> tuple[str, int]:
        supports = self.jobs[job].supports
        if supports is None or self.support in supports:
            return self.support, 0
        best, best_minutes = self.support, NO_WAY
        for name in self.times.names:
            if name in supports:
                minutes = self.change(name, hands)
                if minutes != NO_WAY and (best_minutes == NO_WAY or minutes < best_minutes):
                    best, best_minutes = name, minutes
        return best, best_minutes

    def _car_allows(self, job: PlanJob, target: str, look: Look) -> bool:
        """Whether the car may be touched, or moved; off the car nothing matters."""
        if job.supports is None:
            return True
        if target == self.support:
            return self.car_stands <= look.now
        return not look.helper and self.car_held <= look.now

    def may_not_finish(self, job: int, minute: int, session: int) -> Literal["part", "cold"] | None:
        """Say what would keep a job from being finished at that minute."""
        if minute < self.states[job].finish_ready:
            return "part"
        return "cold" if self._cold_cure(self.jobs[job], minute, session) else None

    def _cold_cure(self, job: PlanJob, finish: int, session: int) -> bool:
        """Whether it gets too cold between the finish and the end of the cure.

        Where the sessions written out do not reach so far it is not known, and counts as cold.
        """
        if not job.cure_minutes or job.min_temperature_c is None:
            return False
        over = finish + job.cure_minutes
        if job.cure_stretches:
            over = self.wait_over(finish, job.cure_minutes, session)
        for slot in self.slots[session:]:
            if slot.start_minute >= over:
                return False
            if slot.coldest_c is not None and slot.coldest_c < job.min_temperature_c:
                return True
        return True

    def wait_over(self, minute: int, wait: int, session: int) -> int:
        """Say when a wait that stretches with cold is over.

        The coldest it meets counts for all of it; what is met grows with the wait itself.
        """
        worst = cold_stretch_thousandths(self.slots[session])
        over = minute + -(-wait * worst // 1000)
        for slot in self.slots[session + 1 :]:
            if slot.start_minute >= over:
                break
            worst = max(worst, cold_stretch_thousandths(slot))
            over = minute + -(-wait * worst // 1000)
        return over
