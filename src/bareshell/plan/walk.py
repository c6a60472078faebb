"""The walk, in plain words: how a restorer walks through the sessions.

Whenever free, take the best of the jobs that can begin now; move the car only when that is worth
it; when nothing can begin, wait for what comes within the session, or else leave the car as the
next session wants it and go home.

In the words of the literature it is a parallel schedule generation scheme under a priority rule
[S:kolisch-1996]; walking it through many fates simulates a policy, not a fixed order, since nobody
stands idle beside a late part.

This is the twin of the compiled walk in `kernel`: the same policy written a second time, straight
from the problem rather than from its columns, to be read, to be compared with sample by sample,
and to draw up the plan move by move.
"""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.plan.arrays import cold_stretch_thousandths, expected_arrival, horizon
from bareshell.plan.hours import least_left
from bareshell.plan.policy import COMES_FIRST, Fate, Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.reach import Reach
from bareshell.plan.schedule import Block, Cause, CauseKind, Schedule
from bareshell.plan.steps import At, Choice, Offer, Walked
from bareshell.plan.supports import NO_WAY, tight_jobs, warm_enough

__all__ = ["choices", "walk"]

SESSIONS_AHEAD = 60
"""As far as any cure reaches: what is written out to see what can be done in the first one."""


def walk(
    problem: PlanProblem,
    policy: Policy,
    fate: Fate | None = None,
    *,
    forced: Sequence[int] = (),
    whole: bool = True,
) -> Walked:
    """Walk through the sessions by the policy.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    policy : Policy
        What to go by.
    fate : Fate, optional
        How it really goes; exactly as estimated when left out.
    forced : sequence of int
        Jobs, by position, to take first in the first session, in this order, as far as they can
        begin when their turn comes.
    whole : bool
        Go on after the goal until every job is done.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.plan.problem import PlanJob, Way
    >>> from bareshell.plan.sessions import SessionSlot, SessionSource
    >>> wax = PlanJob("wax", "Wax", "underbody", (Way(1, 45, 60, 90),))
    >>> evenings = SessionSource.repeating([SessionSlot(60, 150)])
    >>> plan = PlanProblem(datetime(2031, 3, 4, tzinfo=UTC), (wax,), evenings)
    >>> walk(plan, Policy((60,))).finish_minute
    135
    """
    if fate is not None:
        return _Walk(problem, policy, fate, forced).go(whole=whole)
    sessions = horizon(problem)
    walked = _Walk(problem, policy, _as_planned(problem, sessions), forced).go(whole=whole)
    if walked.schedule.left_over:
        # Perhaps there were only too few sessions.
        fate = _as_planned(problem, 4 * sessions)
        walked = _Walk(problem, policy, fate, forced).go(whole=whole)
    return walked


def choices(problem: PlanProblem, policy: Policy, forced: Sequence[int] = ()) -> tuple[Choice, ...]:
    """List what could be taken up in the first session after some jobs were.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    policy : Policy
        What to go by.
    forced : sequence of int
        The jobs, by position, taken up before, in this order.

    Returns
    -------
    choices : tuple of Choice
        What the policy would take first; empty when nothing more can be begun in the session.
    """
    fate = _as_planned(problem, SESSIONS_AHEAD)
    return _Walk(problem, policy, fate, forced).choices()


def _as_planned(problem: PlanProblem, sessions: int) -> Fate:
    slots = problem.sessions.first(sessions)
    return Fate(
        [1.0] * len(problem.jobs),
        [expected_arrival(arrival) for arrival in problem.arrivals],
        [slot.people for slot in slots],
    )


class _Walk(Reach):
    """One walk through the sessions."""

    def __init__(
        self, problem: PlanProblem, policy: Policy, fate: Fate, forced: Sequence[int]
    ) -> None:
        super().__init__(problem, fate)
        self.policy = policy
        self.forced = list(forced)
        self.tight = tight_jobs(problem)
        goal = set(problem.goal) or {job.id for job in self.jobs}
        self.goal_left = {index for index, job in enumerate(self.jobs) if job.id in goal}
        self.unfinished = len(self.jobs)
        self.open: list[int] = []
        self.blocks: list[Block] = []
        self.finish: int | None = None
        self.last_job = -1
        # The session that is on, when it began, and what was done last in it.
        self.at = At(-1, 0, 0)
        self.began = 0
        self.before_this = -1
        # The last session that took place, when it was left, what was done last in it.
        self.left = self.at
        self.left_at = 0
        self.left_job = -1

    def go(self, *, whole: bool) -> Walked:
        self._begin()
        for index in range(len(self.slots)):
            if not self.unfinished or (self.finish is not None and not whole):
                break
            self._go_through(index)
        left = tuple(
            job.id for job, state in zip(self.jobs, self.states, strict=False) if state.finish < 0
        )
        if not self.jobs:
            self.finish = 0
        return Walked(
            self.finish, Schedule(tuple(self.blocks), self.finish, left), tuple(self._chain())
        )

    def choices(self) -> tuple[Choice, ...]:
        """Work through what was asked for in the first session; list what could come next."""
        self._begin()
        now = self._enter(0) if self.slots else None
        while now is not None and now < self.at.end:
            wanted = self.forced[0] if self.forced else -1
            offers = self._offers(now)
            asked = next((offer for offer in offers if offer.job == wanted), None)
            if asked is not None:
                self.forced.pop(0)
                now = self._work(asked, now)
            elif offers:
                found = (
                    Choice(
                        o.job,
                        now,
                        o.change,
                        self._score(o, self.at.people),
                        o.whole,
                    )
                    for o in offers
                )
                return tuple(sorted(found, key=lambda choice: (-choice.score, choice.job)))
            else:
                now = self._next_event(now)
        return ()

    def _begin(self) -> None:
        # Read once before anything is released: a gate that is open already opens others.
        free = [node for node, state in enumerate(self.states) if state.before == 0]
        for node in free:
            if node < len(self.jobs):
                self._open(node)
            else:
                self._pass_gates([node])

    # What is ready -------------------------------------------------------------------------

    def _open(self, job: int) -> None:
        """Put a job whose predecessors are done on the list, with when it can begin."""
        state = self.states[job]
        state.ready, state.ready_by = state.released, state.released_by
        if self.jobs[job].earliest_minute > state.ready:
            state.ready, state.ready_by = self.jobs[job].earliest_minute, Cause("date")
        for part in self.jobs[job].parts_to_start:
            index = self.part_at[part]
            if self.fate.arrives[index] > state.ready:
                state.ready = int(self.fate.arrives[index])
                state.ready_by = Cause("part", part=index)
        for part in self.jobs[job].parts_to_finish:
            index = self.part_at[part]
            if self.fate.arrives[index] > state.finish_ready:
                state.finish_ready, state.finish_part = int(self.fate.arrives[index]), index
        self.open.append(job)

    def _finish(self, job: int, minute: int) -> None:
        state = self.states[job]
        state.finish = minute
        self.open.remove(job)
        self.unfinished -= 1
        self.goal_left.discard(job)
        if not self.goal_left and self.finish is None:
            self.finish, self.last_job = minute, job
        gates: list[int] = []
        for edge in self.after[job]:
            wait = edge.wait_minutes
            if edge.stretch:
                thousandths = cold_stretch_thousandths(self.slots[self.at.session])
                wait = -(-wait * thousandths // 1000)
            cause = Cause("wait" if wait else "job", job)
            self._release(edge.after, minute + wait, cause, gates)
        self._pass_gates(gates)

    def _pass_gates(self, gates: list[int]) -> None:
        """Release what each open gate has blocked, through every gate that opens with it."""
        while gates:
            gate = gates.pop()
            state = self.states[gate]
            for edge in self.after[gate]:
                self._release(edge.after, state.released, state.released_by, gates)

    def _release(self, node: int, minute: int, cause: Cause, gates: list[int]) -> None:
        state = self.states[node]
        if minute > state.released:
            state.released, state.released_by = minute, cause
        state.before -= 1
        if state.before == 0:
            if node < len(self.jobs):
                self._open(node)
            else:
                gates.append(node)

    # A session -----------------------------------------------------------------------------

    def _enter(self, index: int) -> int | None:
        """Come to a session; say when work begins, None when it does not take place."""
        slot = self.slots[index]
        people = int(self.fate.people[index])
        end = slot.end_minute - self.problem.clear_up_minutes
        now = max(slot.start_minute + self.problem.set_up_minutes, self.left_at)
        if not people or now >= end:
            return None
        self.at = At(index, people, end)
        self.began, self.before_this = now, -1
        self.at = At(index, people, max(now, end - self._kept_for_moving()))
        return now

    def _kept_for_moving(self) -> int:
        """Say how long to keep at the end for a move without which the next session is lost."""
        if not any(job in self.tight for job in self.open):
            return 0
        best = self._wanted_next()
        if best is None or best.job not in self.tight or best.target == self.support:
            return 0
        return max(0, self.times.minutes(self.support, best.target, self.at.people))

    def _go_through(self, index: int) -> None:
        now = self._enter(index)
        if now is None:
            return
        while now < self.at.end:
            offer = self._choose(now)
            if offer is not None:
                now = self._work(offer, now)
                continue
            later = self._next_event(now)
            if later is None:
                break
            now = later
        now = self._leave_ready(now)
        self.left, self.left_at, self.left_job = self.at, now, self.before_this

    def _offers(self, now: int) -> list[Offer]:
        """List everything that can begin now."""
        ready = (job for job in self.open if self.states[job].ready <= now)
        offers = (self._offer(job, now, self.at) for job in ready)
        return [offer for offer in offers if offer is not None]

    def _choose(self, now: int) -> Offer | None:
        """Take the best of what can begin now; what was asked for comes first."""
        offers = self._offers(now)
        if self.at.session == 0 and self.forced:
            for offer in offers:
                if offer.job == self.forced[0]:
                    self.forced.pop(0)
                    return offer
        return self._best(offers, self.at.people)

    def _best(self, offers: list[Offer], people: int) -> Offer | None:
        """Pick the offer with the highest score, the lower job number where scores are level."""
        return max(offers, key=lambda o: (self._score(o, people), -o.job), default=None)

    def _score(self, offer: Offer, people: int) -> int:
        job, state, policy = self.jobs[offer.job], self.states[offer.job], self.policy
        score = policy.priority[offer.job] - policy.stickiness * offer.change
        if state.carried or (job.started and not job.splittable):
            score += COMES_FIRST
        elif state.people or job.started:
            score += policy.finish_first
        if people > 1 and 1 not in self.totals[offer.job]:
            score += policy.helper_first
        return score

    def _next_event(self, now: int) -> int | None:
        """Find the next moment in this session at which something more could begin."""
        moments = [self.states[job].ready for job in self.open]
        for job in self.open:
            wanted = self.states[job].finish_ready
            people = self._way(job, self.at.people)
            if wanted > now and people:
                moments.append(wanted - self._left(job, people)[0])
        return min((m for m in moments if now < m < self.at.end), default=None)

    def _leave_ready(self, now: int) -> int:
        """Use the time that is left to put the car as the next session will want it."""
        room = self.slots[self.at.session].end_minute - self.problem.clear_up_minutes - now
        best = self._wanted_next() if room > 0 else None
        if best is None or best.target == self.support:
            return now
        minutes = self.times.minutes(self.support, best.target, self.at.people)
        if minutes == NO_WAY or minutes > room:
            return now
        return self._move(best.job, best.target, minutes, now)

    def _wanted_next(self) -> Offer | None:
        """Say what the next session would begin with, if the car stood as it wants."""
        following = self.at.session + 1
        if following >= len(self.slots):
            return None
        slot = self.slots[following]
        begin = slot.start_minute + self.problem.set_up_minutes
        end = slot.end_minute - self.problem.clear_up_minutes
        at = At(following, slot.people, end, moved=True)
        ready = (job for job in self.open if self.states[job].ready <= begin)
        offers = (self._offer(job, begin, at) for job in ready)
        return self._best([offer for offer in offers if offer is not None], slot.people)

    # Doing it ------------------------------------------------------------------------------

    def _move(self, job: int, target: str, minutes: int, now: int) -> int:
        if target != self.support:
            self.blocks.append(
                Block(
                    "change",
                    self.at.session,
                    now,
                    now + minutes,
                    self.support,
                    target,
                    self._hands(self.support, target, minutes),
                    self.jobs[job].id,
                )
            )
            self.support = target
        return now + minutes

    def _hands(self, before: str, after: str, minutes: int) -> int:
        return 1 if self.times.minutes(before, after, 1) == minutes else 2

    def _work(self, offer: Offer, now: int) -> int:
        """Do a piece of work, however long it really takes; say when the owner is free again."""
        state, job = self.states[offer.job], self.jobs[offer.job]
        begin = now + offer.change
        planned, real = self._left(offer.job, offer.people)
        room = self.at.end - begin
        if offer.whole:
            finishes = real <= room + self.problem.stay_up_minutes
            worked = max(real, state.finish_ready - begin) if finishes else room
        else:
            finishes = real <= offer.minutes
            worked = real if finishes else offer.minutes
            if finishes and self._may_not_finish(offer.job, begin + real, self.at.session):
                finishes, worked = False, real - 1
                if worked < 1:
                    # Only the finish is left, and it has to wait for its part or for warmth.
                    state.ready = max(state.ready + 1, state.finish_ready, self.at.end)
                    return now
        cause = None
        if state.start < 0:
            cause = state.bound_by = self._bound_by(offer.job, now)
            state.start = begin
        self._move(offer.job, offer.target, offer.change, now)
        self.before_this = offer.job
        end = begin + worked
        self.blocks.append(
            Block(
                "work",
                self.at.session,
                begin,
                end,
                self.support,
                self.support,
                offer.people,
                job.id,
                finishes,
                cause,
            )
        )
        state.people = offer.people
        if finishes:
            self._finish(offer.job, end)
        else:
            # What takes longer than planned is taken to have a tenth of it still to go.
            over = least_left(self.totals[offer.job][offer.people])
            state.planned = planned - worked if planned > worked else over
            state.real = real - worked
            state.carried = state.carried or not job.splittable
        return end

    # What bound it -------------------------------------------------------------------------

    def _bound_by(self, job: int, now: int) -> Cause:
        """Say why a job that begins now did not begin sooner."""
        state = self.states[job]
        cause = state.ready_by
        if self.before_this >= 0 and state.ready < now:
            cause = Cause("owner", self.before_this)
        elif state.ready <= self.began and state.ready < self.left_at:
            kind = self._blocked_by(job)
            if kind == "part":
                cause = Cause("part", part=state.finish_part)
            elif kind in ("owner", "session"):
                cause = Cause(kind, self.left_job)
            else:
                cause = Cause(kind, state.ready_by.job)
        lost = 0
        if cause.kind not in ("start", "owner", "job"):
            since = self.states[cause.job].finish if cause.job >= 0 else 0
            if cause.kind == "session":
                since = self.left_at
            lost = max(0, now - max(since, 0))
        return Cause(cause.kind, cause.job, cause.part, lost, job)

    def _blocked_by(self, job: int) -> CauseKind:
        """Say what kept a job that was ready from being done in the last session."""
        people = self._way(job, self.left.people)
        if not people:
            return "helper"
        now_c = self.slots[self.left.session].temperature_c
        if not warm_enough(now_c, self.jobs[job].min_temperature_c):
            return "cold"
        done_by = self.left_at + self._left(job, people)[0]
        kept = self._may_not_finish(job, done_by, self.left.session)
        end = self.slots[self.left.session].end_minute - self.problem.clear_up_minutes
        return kept or ("session" if self.left_at < end else "owner")

    def _chain(self) -> list[Cause]:
        """Follow what bound the finish back to the beginning."""
        causes: list[Cause] = []
        job = self.last_job
        while job >= 0 and len(causes) <= len(self.jobs):
            cause = self.states[job].bound_by
            causes.append(cause)
            job = cause.job
        return causes
