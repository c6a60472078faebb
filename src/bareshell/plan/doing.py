"""Doing a piece of work, in the walk told in plain words: how long, and what it had waited for."""

from __future__ import annotations

from bareshell.plan.hours import least_left
from bareshell.plan.known import Known
from bareshell.plan.policy import Fate, Policy
from bareshell.plan.problem import PlanProblem
from bareshell.plan.reach import Reach
from bareshell.plan.schedule import Block, Cause, CauseKind
from bareshell.plan.steps import NEVER, Look, Offer, Person, Piece
from bareshell.plan.supports import NO_WAY, warm_enough

__all__ = ["Doing"]


class Doing(Reach):
    """The jobs as they come to be done, and every move.

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
        super().__init__(problem, policy, fate, known)
        goal = set(problem.goal) or {job.id for job in self.jobs}
        self.goal_left = {index for index, job in enumerate(self.jobs) if job.id in goal}
        self.unfinished = len(self.jobs)
        self.open: list[int] = []
        self.blocks: list[Block] = []
        self.finish: int | None = None
        self.last_piece: Piece | None = None
        # The session that is on: which, when it began, who is there, until when there is work.
        self.session = -1
        self.began = 0
        self.present = 0
        self.end = 0
        self.owner, self.helper = Person(), Person(wakes=NEVER)
        self.last_at = 0
        self.latest: Piece | None = None
        # The last session that took place: which, who was there, when it was left, the last work.
        self.left_session = -1
        self.left_people = 0
        self.left_at = 0
        self.left_piece: Piece | None = None
        # The last session with a helper, likewise; and every piece of work so far.
        self.helped_at = -1
        self.helped_piece: Piece | None = None
        self.pieces: list[Piece] = []

    # What is ready -------------------------------------------------------------------------

    def begin(self) -> None:
        """Open whatever nothing comes before."""
        # Read once before anything is released: a gate that is open already opens others.
        free = [node for node, state in enumerate(self.states) if state.before == 0]
        for node in free:
            if node < len(self.jobs):
                self._open(node)
            else:
                self._pass_gates([node])

    def _open(self, job: int) -> None:
        """Put a job whose predecessors are done on the list, with when it can begin."""
        state, one = self.states[job], self.jobs[job]
        kind, before = state.released_by
        state.ready, state.ready_by = state.released, Cause(kind, before)
        if one.earliest_minute > state.ready:
            state.ready, state.ready_by = one.earliest_minute, Cause("date")
        for part in one.parts_to_start:
            index = self.part_at[part]
            if self.fate.arrives[index] > state.ready:
                state.ready = int(self.fate.arrives[index])
                state.ready_by = Cause("part", part=index)
        for part in one.parts_to_finish:
            index = self.part_at[part]
            if self.fate.arrives[index] > state.finish_ready:
                state.finish_ready, state.finish_part = int(self.fate.arrives[index]), index
        self.open.append(job)

    def _finish(self, job: int, minute: int) -> None:
        state, one = self.states[job], self.jobs[job]
        state.finish = minute
        self.open.remove(job)
        self.unfinished -= 1
        self.body = (self.body | one.body_begins) - one.body_ends
        if job in self.goal_left:
            self.goal_left.remove(job)
            if self.finish is None or minute > self.finish:
                self.finish, self.last_piece = minute, state.piece
        gates: list[int] = []
        for edge in self.after[job]:
            over = minute + edge.wait_minutes
            if edge.stretch:
                over = self.wait_over(minute, edge.wait_minutes, self.session)
            kind: CauseKind = "wait" if edge.wait_minutes else "job"
            self._release(edge.after, over, (kind, job), gates)
        self._pass_gates(gates)

    def _pass_gates(self, gates: list[int]) -> None:
        """Release what each open gate has blocked, through every gate that opens with it."""
        while gates:
            gate = gates.pop()
            state = self.states[gate]
            for edge in self.after[gate]:
                self._release(edge.after, state.released, state.released_by, gates)

    def _release(
        self, node: int, minute: int, cause: tuple[CauseKind, int], gates: list[int]
    ) -> None:
        state = self.states[node]
        if minute > state.released:
            state.released, state.released_by = minute, cause
        state.before -= 1
        if state.before == 0:
            if node < len(self.jobs):
                self._open(node)
            else:
                gates.append(node)

    # Doing it ------------------------------------------------------------------------------

    def move(self, job: int, target: str, begin: int, minutes: int, hands: int) -> None:
        """Put the car on another support for the sake of a job."""
        if target == self.support:
            return
        helped = hands > 1 and self.change(target, 1) != self.change(target, 2)
        self.blocks.append(
            Block(
                "change",
                self.session,
                begin,
                begin + minutes,
                self.support,
                target,
                2 if helped else 1,
                self.jobs[job].id,
            )
        )
        self.support, self.car_stands = target, begin + minutes
        if helped:
            self.helper.busy = begin + minutes
            if self.helper.wakes < NEVER:
                self.helper.wakes = begin + minutes

    def work(self, offer: Offer, look: Look) -> None:
        """Do a piece of work, however long it really takes."""
        state, one = self.states[offer.job], self.jobs[offer.job]
        begin = look.now + offer.change
        planned, real = self.left(offer.job, offer.people)
        room = self.end - begin
        cut: CauseKind = "owner"
        all_but = False
        if offer.whole:
            finishes = real <= room + self.problem.stay_up_minutes
            worked = max(real, state.finish_ready - begin) if finishes else room
        else:
            finishes = real <= offer.minutes
            worked = real if finishes else offer.minutes
            moment = begin + (real if finishes else planned)
            kept = self.may_not_finish(offer.job, moment, self.session)
            if kept and (finishes or planned <= room):
                cut = kept
            if kept and finishes:
                finishes, all_but, worked = False, True, real - 1
                if worked < 1:
                    # Only the finish is left, and it has to wait for its part or for warmth.
                    state.ready = max(state.ready + 1, state.finish_ready, self.end)
                    return
        first = state.piece is None
        piece = self._piece(offer, look)
        piece.ends = begin + worked
        self.pieces.append(piece)
        state.piece, state.cut_by = piece, cut
        self.move(offer.job, offer.target, look.now, offer.change, look.hands)
        self._keep_busy(offer, look, piece, begin)
        self.blocks.append(
            Block(
                "work",
                self.session,
                begin,
                piece.ends,
                self.support,
                self.support,
                offer.people,
                one.id,
                finishes,
                piece.cause() if first else None,
                by_helper=look.helper,
            )
        )
        state.people = offer.people
        if finishes:
            self._finish(offer.job, piece.ends)
        else:
            # What takes longer than planned is taken to have a tenth of it still to go.
            over = least_left(self.totals[offer.job][offer.people])
            state.planned = planned - worked if planned > worked else over
            state.real = real - worked
            if all_but:
                # Whoever has done all but the finish sees that nothing else is left.
                state.planned = 1
            state.ready = max(state.ready, piece.ends)
            state.carried = state.carried or not one.splittable

    def _keep_busy(self, offer: Offer, look: Look, piece: Piece, begin: int) -> None:
        """Keep whoever does it busy until it ends, and the car where it is."""
        one = self.jobs[offer.job]
        beside = self.helper.wakes < NEVER
        own, other = (self.helper, self.owner) if look.helper else (self.owner, self.helper)
        own.busy = own.wakes = piece.ends
        own.piece = piece
        if offer.people > 1:
            other.busy, other.piece = piece.ends, piece
            if beside:
                other.wakes = piece.ends
        elif beside and other.busy <= look.now:
            # Whoever found nothing to do looks again when something may have changed.
            other.wakes = min(other.wakes, begin if begin > look.now else piece.ends)
        if one.supports is not None or self._turns_body(offer.job):
            self.car_held = max(self.car_held, piece.ends)
        self.last_at = max(self.last_at, piece.ends)
        if self.latest is None or piece.ends >= self.latest.ends:
            self.latest = piece

    def _turns_body(self, job: int) -> bool:
        """Whether a job changes what moving the car depends on."""
        one = self.jobs[job]
        return not (one.body_begins | one.body_ends).isdisjoint(self.times.states)

    # What bound it -------------------------------------------------------------------------

    def _piece(self, offer: Offer, look: Look) -> Piece:
        """Say why a piece of work that begins now did not begin sooner."""
        kind, after, part, since = self._what_bound(offer, look)
        lost = 0 if kind in ("start", "owner", "job") else max(0, look.now - since)
        return Piece(offer.job, kind, after, part, lost, look.now)

    def _what_bound(self, offer: Offer, look: Look) -> tuple[CauseKind, Piece | None, int, int]:
        """Say what held it up, what comes next on the way back, for which part, since when."""
        job, now = offer.job, look.now
        state = self.states[job]
        ready, kind, after, part = self._ready_since(offer, now)
        since = state.piece.ends if state.piece else state.released
        kept: CauseKind | None = None
        if ready <= self.began and (ready < self.left_at or self._left_with_time(ready)):
            kept = self._blocked_by(job)
        if kept == "part":
            return "part", None, state.finish_part, since
        if kept == "helper":
            if self.helped_at > ready:
                return "helper", self.helped_piece, -1, self.helped_at
            return "helper", after, -1, ready
        if kept == "cold":
            warm = self._warm_until(job, ready)
            if warm > ready:
                after = next((p for p in reversed(self.pieces) if p.ends <= warm), None)
            return "cold", after, -1, warm
        busy_with = self._busy_with(offer, look)
        if busy_with is not None and ready < now:
            return "owner", busy_with, -1, now
        if kept in ("owner", "session"):
            return kept, self.left_piece, -1, self.left_at
        if kind == "wait" and after is not None:
            since = after.ends
        return kind, after, part, since

    def _left_with_time(self, ready: int) -> bool:
        """Whether it was ready when the last session was left, and there was time left in that."""
        if self.left_session < 0 or ready != self.left_at:
            return False
        return ready < self.slots[self.left_session].end_minute - self.problem.clear_up_minutes

    def _ready_since(self, offer: Offer, now: int) -> tuple[int, CauseKind, Piece | None, int]:
        """From when a job could begin or go on, by what, after which piece, for which part."""
        state = self.states[offer.job]
        last = state.piece
        if last is None:
            cause = state.ready_by
            after = self.states[cause.job].piece if cause.job >= 0 else None
            return state.ready, cause.kind, after, cause.part
        if state.cut_by == "part":
            could = state.finish_ready - self.left(offer.job, offer.people)[0]
            return max(last.ends, could), "part", None, state.finish_part
        return now if state.cut_by == "cold" else last.ends, state.cut_by, last, -1

    def _busy_with(self, offer: Offer, look: Look) -> Piece | None:
        """Say what whoever does it did before in this session."""
        own = self.helper.piece if look.helper else self.owner.piece
        other = self.helper.piece if offer.people > 1 else None
        if other is not None and (own is None or other.ends > own.ends):
            return other
        return own

    def _blocked_by(self, job: int) -> CauseKind:
        """Say what kept a job that was ready from being done in the last session."""
        slot, one = self.slots[self.left_session], self.jobs[job]
        people = self.way(job, self.left_people, slot)
        if not people or self._cheapest_change(job, self.left_people)[1] == NO_WAY:
            return "helper"
        if not warm_enough(slot.temperature_c, one.min_temperature_c):
            return "cold"
        done_by = self.left_at + self.left(job, people)[0]
        kept = self.may_not_finish(job, done_by, self.left_session)
        end = slot.end_minute - self.problem.clear_up_minutes
        return kept or ("session" if self.left_at < end else "owner")

    def _warm_until(self, job: int, ready: int) -> int:
        """Say when the last session ended that was warm enough for it, if any was since."""
        least = self.jobs[job].min_temperature_c
        for index in range(self.left_session, -1, -1):
            slot = self.slots[index]
            end = slot.end_minute - self.problem.clear_up_minutes
            if end <= ready:
                break
            begin = max(ready, slot.start_minute + self.problem.set_up_minutes)
            warm = warm_enough(slot.temperature_c, least)
            if warm and self.may_not_finish(job, begin, index) != "cold":
                return end
        return ready
