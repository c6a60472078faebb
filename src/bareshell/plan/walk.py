"""The walk, in plain words: how a restorer walks through the sessions.

Whenever free, take the best of the jobs that can begin now; move the car only when that is worth
it; when nothing can begin, wait for what comes within the session, or else leave the car as the
next session wants it and go home. A helper who may works on a job of their own meanwhile; where
work for two is wanted most, whoever is free first takes only what is over by the time both are.

In the words of the literature it is a parallel schedule generation scheme under a priority rule
[S:kolisch-1996]; walking it through many fates simulates a policy, not a fixed order, since nobody
stands idle beside a late part.

This is the twin of the compiled walk in `kernel`: the same policy written a second time, straight
from the problem rather than from its columns, to be read, to be compared with sample by sample,
and to draw up the plan move by move.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bareshell.plan.arrays import expected_arrival, horizon
from bareshell.plan.doing import Doing
from bareshell.plan.known import Known
from bareshell.plan.known import known as read_through
from bareshell.plan.policy import COMES_FIRST, SESSIONS_AHEAD, Fate, Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Cause, Schedule
from bareshell.plan.steps import NEVER, Choice, Look, Offer, Person, Walked
from bareshell.plan.supports import NO_WAY

__all__ = ["choices", "walk"]

CURE_REACHES = 60
"""So many sessions are written out to see what can be done in the first: as far as any cure."""


def walk(
    problem: PlanProblem,
    policy: Policy,
    fate: Fate | None = None,
    *,
    forced: Sequence[int] = (),
    whole: bool = True,
    known: Known | None = None,
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
        Jobs, by position, that the owner takes first in the first session, in this order, as far
        as they can begin when their turn comes.
    whole : bool
        Go on after the goal until every job is done.
    known : Known, optional
        The problem read through, where it is walked through many times.

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
    read = known or read_through(problem)
    if fate is not None:
        return _Walk(problem, policy, fate, forced, read).go(whole=whole)
    sessions = horizon(problem)
    fate = _as_planned(problem, sessions)
    walked = _Walk(problem, policy, fate, forced, read).go(whole=whole)
    if walked.schedule.left_over:
        # Perhaps there were only too few sessions.
        fate = _as_planned(problem, 4 * sessions)
        walked = _Walk(problem, policy, fate, forced, read).go(whole=whole)
    return walked


def choices(
    problem: PlanProblem,
    policy: Policy,
    forced: Sequence[int] = (),
    *,
    known: Known | None = None,
) -> tuple[Choice, ...]:
    """List what the owner could take up in the first session after some jobs were.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    policy : Policy
        What to go by.
    forced : sequence of int
        The jobs, by position, taken up before, in this order.
    known : Known, optional
        The problem read through, where it is asked many times.

    Returns
    -------
    choices : tuple of Choice
        What the policy would take first; empty when nothing more can be begun in the session.
    """
    fate = _as_planned(problem, CURE_REACHES)
    return _Walk(problem, policy, fate, forced, known or read_through(problem)).choices()


def _as_planned(problem: PlanProblem, sessions: int) -> Fate:
    slots = problem.sessions.first(sessions)
    return Fate(
        [1.0] * len(problem.jobs),
        [expected_arrival(arrival) for arrival in problem.arrivals],
        [slot.people for slot in slots],
    )


class _Walk(Doing):
    """One walk through the sessions."""

    def __init__(
        self,
        problem: PlanProblem,
        policy: Policy,
        fate: Fate,
        forced: Sequence[int],
        known: Known,
    ) -> None:
        super().__init__(problem, policy, fate, known)
        self.forced = list(forced)
        self.tight = known.tight

    def go(self, *, whole: bool) -> Walked:
        self.begin()
        for index in range(len(self.slots)):
            if not self.unfinished or (not self.goal_left and not whole):
                break
            if self._enter(index):
                self._go_through()
        left = tuple(
            job.id for job, state in zip(self.jobs, self.states, strict=False) if state.finish < 0
        )
        if not self.jobs:
            self.finish = 0
        finish = None if self.goal_left else self.finish
        # A helper's own work stands where it begins.
        blocks = tuple(sorted(self.blocks, key=lambda block: block.start_minute))
        return Walked(finish, Schedule(blocks, finish, left), tuple(self._chain()))

    def choices(self) -> tuple[Choice, ...]:
        """Work through what was asked for in the first session; list what could come next."""
        self.begin()
        if not self.slots or not self._enter(0):
            return ()
        while (look := self._look()).now < self.end:
            offers = [] if look.helper else self._offers(look)
            asked = self._asked(look, offers)
            if asked is not None:
                self.work(asked, self._handed_over(asked, look))
            elif offers:
                found = (
                    Choice(o.job, look.now, o.change, self._score(o, look.hands), o.whole)
                    for o in offers
                )
                return tuple(sorted(found, key=lambda choice: (-choice.score, choice.job)))
            else:
                self._go_on(look)
        return ()

    # A session -----------------------------------------------------------------------------

    def _enter(self, index: int) -> bool:
        """Come to a session; say whether it takes place."""
        slot, people = self.slots[index], int(self.fate.people[index])
        end = slot.end_minute - self.problem.clear_up_minutes
        now = max(slot.start_minute + self.problem.set_up_minutes, self.left_at)
        if not people or now >= end:
            return False
        self.session, self.began, self.present, self.end = index, now, people, end
        self.car_stands = self.car_held = 0
        self.last_at, self.latest = now, None
        beside = people > 1 and slot.beside != ""
        self.owner = Person(wakes=now)
        self.helper = Person(wakes=now if beside else NEVER)
        self.end = max(now, end - self._kept_for_moving())
        return True

    def _kept_for_moving(self) -> int:
        """Say how long to keep at the end for a move without which the next session is lost."""
        if not any(job in self.tight for job in self.open):
            return 0
        best = self._wanted_in(self.session + 1)
        if best is None or best.job not in self.tight or best.target == self.support:
            return 0
        return max(0, self.change(best.target, self.present))

    def _go_through(self) -> None:
        while (look := self._look()).now < self.end:
            self._go_on(look)
        self._leave_ready()
        self.left_session, self.left_people = self.session, self.present
        self.left_at, self.left_piece = self.last_at, self.latest
        if self.present > 1:
            self.helped_at, self.helped_piece = self.last_at, self.latest

    def _look(self) -> Look:
        """Say when somebody looks for work next, who, and how many are free then."""
        helper = self.helper.wakes < self.owner.wakes
        now = min(self.helper.wakes, self.owner.wakes)
        other = self.owner if helper else self.helper
        hands, joined = self.present, -1
        if self.present > 1 and self.slots[self.session].beside and other.busy > now:
            hands, joined = 1, other.busy if other.busy < self.end else -1
        return Look(self.session, now, self.end, hands, helper, joined=joined)

    def _go_on(self, look: Look) -> None:
        """Take up the best that can be done now, or wait."""
        offer = self._choose(look)
        if offer is not None:
            self.work(offer, self._handed_over(offer, look))
            return
        person, other = (self.helper, self.owner) if look.helper else (self.owner, self.helper)
        wakes = [self._next_event(look)]
        if self.helper.wakes < NEVER:
            wakes += [at for at in (other.busy, self.car_stands) if at > look.now]
        person.wakes = min(wakes)
        self.last_at = max(self.last_at, look.now)

    def _handed_over(self, offer: Offer, look: Look) -> Look:
        """Leave to a helper who is free what they may do: the owner can do anything else."""
        slot = self.slots[look.session]
        free = self.helper.wakes < NEVER and self.helper.busy <= look.now
        alone = offer.people == 1 and offer.target == self.support
        if free and alone and self.way(offer.job, 1, slot, helper=True):
            return replace(look, helper=True)
        return look

    def _offers(self, look: Look) -> list[Offer]:
        """List everything that can begin now."""
        ready = (job for job in self.open if self.states[job].ready <= look.now)
        offers = (self.offer(job, look) for job in ready)
        return [offer for offer in offers if offer is not None]

    def _asked(self, look: Look, offers: list[Offer]) -> Offer | None:
        """Take what was asked for first, once it can begin."""
        if look.session != 0 or look.helper or not self.forced:
            return None
        for offer in offers:
            if offer.job == self.forced[0]:
                self.forced.pop(0)
                return offer
        return None

    def _choose(self, look: Look) -> Offer | None:
        """Take the best of what can begin now; keep free for what takes two."""
        if look.joined < 0:
            offers = self._offers(look)
            return self._asked(look, offers) or self._best(offers, look.hands)
        together = replace(look, now=look.joined, hands=2, helper=False)
        takes_two = [job for job in self.open if 1 not in self.totals[job]]
        own = [offer for offer in self._offers(look) if offer.job not in takes_two]
        pairs = [offer for offer in self._offers(together) if offer.job in takes_two]
        first = self.forced[0] if self.forced and look.session == 0 and not look.helper else -1
        asked = next((offer for offer in pairs if offer.job == first), None)
        if asked is None and (taken := self._asked(look, own)) is not None:
            return taken
        best, pair = self._best(own, look.hands), asked or self._best(pairs, 2)
        if pair is None:
            return best
        own_score = -1 if best is None else self._score(best, look.hands)
        if best is not None and asked is None and self._score(pair, 2) <= own_score:
            return best
        over = [o for o in own if o.whole and look.now + o.change + o.minutes <= look.joined]
        return self._best(over, look.hands)

    def _best(self, offers: list[Offer], hands: int) -> Offer | None:
        """Pick the offer with the highest score, the lower job number where scores are level."""
        return max(offers, key=lambda o: (self._score(o, hands), -o.job), default=None)

    def _score(self, offer: Offer, hands: int) -> int:
        job, state, policy = self.jobs[offer.job], self.states[offer.job], self.policy
        score = policy.priority[offer.job] - policy.stickiness * offer.change
        if state.carried or (job.started and not job.splittable):
            score += COMES_FIRST
        elif state.people or job.started:
            score += policy.finish_first
        if hands > 1 and 1 not in self.totals[offer.job]:
            score += policy.helper_first
        return score

    def _next_event(self, look: Look) -> int:
        """Find the next moment in this session at which something more could begin."""
        moments = [self.states[job].ready for job in self.open]
        slot = self.slots[look.session]
        for job in self.open:
            wanted = self.states[job].finish_ready
            people = self.way(job, look.hands, slot, helper=look.helper)
            if wanted > look.now and people:
                moments.append(wanted - self.left(job, people)[0])
        return min((m for m in moments if look.now < m < look.end), default=look.end)

    def _leave_ready(self) -> None:
        """Use the time that is left to put the car as the next session will want it.

        Where nothing could be done in that, as the first after it in which something could.
        """
        room = self.slots[self.session].end_minute - self.problem.clear_up_minutes - self.last_at
        following = range(self.session + 1, self.session + 1 + SESSIONS_AHEAD) if room > 0 else ()
        wanted = (self._wanted_in(session) for session in following)
        best = next((offer for offer in wanted if offer is not None), None)
        if best is None or best.target == self.support:
            return
        minutes = self.change(best.target, self.present)
        if minutes != NO_WAY and minutes <= room:
            self.move(best.job, best.target, self.last_at, minutes, self.present)
            self.last_at += minutes

    def _wanted_in(self, following: int) -> Offer | None:
        """Say what a session to come would begin with, if the car stood as it wants."""
        if following >= len(self.slots):
            return None
        slot = self.slots[following]
        begin = slot.start_minute + self.problem.set_up_minutes
        end = slot.end_minute - self.problem.clear_up_minutes
        movers = max(self.present, slot.people)
        look = Look(following, begin, end, slot.people, movers=movers)
        return self._best(self._offers(look), slot.people)

    # What bound it -------------------------------------------------------------------------

    def _chain(self) -> list[Cause]:
        """Follow what bound the finish back to the beginning."""
        causes: list[Cause] = []
        piece = self.last_piece
        while piece is not None:
            causes.append(piece.cause())
            piece = piece.after
        return causes
