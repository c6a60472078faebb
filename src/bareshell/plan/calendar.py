"""When each job could be done at the soonest and at the latest, if it were the only one.

Worked on the owner's own calendar: the sessions with their people, warmth and length, cures that
must stay warm, waits that the cold stretches. Where a rule is left out it is left out in the
job's favour, so that what comes out is a bound: no plan has a job finished sooner than
`Calendar.finish`, and a job begun later than `Calendar.begin` misses the date it was reckoned
back from.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass

from bareshell.plan.arrays import cold_stretch_thousandths, expected_arrival
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import Network, network
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.supports import warm_enough

__all__ = ["Axis", "Calendar", "enough_sessions"]

NEVER = 1 << 50
"""Later than any session. [minutes from the origin]"""


class Axis:
    """Working minutes of some sessions, against the clock.

    Parameters
    ----------
    spans : list of (start, end, hands)
        From when to when there is work, and how many can work side by side.

    Examples
    --------
    >>> axis = Axis([(60, 180, 1), (1000, 1060, 2)])
    >>> axis.worked_by(1030), axis.when(180), axis.total
    (180, 1030, 240)
    """

    def __init__(self, spans: list[tuple[int, int, int]]) -> None:
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.hands: list[int] = []
        self.before: list[int] = []
        worked = 0
        for start, end, hands in spans:
            if end > start:
                self.starts.append(start)
                self.ends.append(end)
                self.hands.append(hands)
                self.before.append(worked)
                worked += (end - start) * hands
        self.total = worked

    def worked_by(self, minute: int) -> int:
        """Say how many working minutes lie before a moment."""
        at = bisect_right(self.starts, minute) - 1
        if at < 0:
            return 0
        return self.before[at] + (min(minute, self.ends[at]) - self.starts[at]) * self.hands[at]

    def when(self, worked: int) -> int | None:
        """Say when so many minutes can have been worked; None when they never are."""
        if worked <= 0:
            return self.starts[0] if self.starts else None
        at = bisect_right(self.before, worked - 1) - 1
        if at < 0 or worked > self.total:
            return None
        return self.starts[at] - (-(worked - self.before[at]) // self.hands[at])

    def latest(self, worked: int) -> int:
        """Say at what latest moment no more than so many minutes have been worked; -1 for never."""
        if worked < 0:
            return -1
        at = bisect_right(self.before, worked) - 1
        if at < 0:
            return -1
        return min(self.ends[at], self.starts[at] + (worked - self.before[at]) // self.hands[at])


@dataclass(frozen=True, slots=True)
class _Kind:
    """What decides which sessions a job can use: its people, warmth and cure."""

    alone: int | None
    both: int | None
    split: bool
    least_c: float | None
    cure: int


class Calendar:
    """The sessions against the jobs, one job at a time.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    slots : tuple of SessionSlot
        The sessions, written out far enough (`enough_sessions`).
    """

    def __init__(self, problem: PlanProblem, slots: tuple[SessionSlot, ...]) -> None:
        self.problem = problem
        self.slots = slots
        self.graph: Network = network(problem)
        self.order = self.graph.in_order()
        self.into = self.graph.leading_in()
        self.out = self.graph.leading_out()
        self.begins = [slot.start_minute + problem.set_up_minutes for slot in slots]
        self.ends = [slot.end_minute - problem.clear_up_minutes for slot in slots]
        self.stretch = [cold_stretch_thousandths(slot) for slot in slots]
        self._cold_from: dict[float, list[int]] = {}
        self._axes: dict[tuple[bool, float | None], Axis] = {}
        self.kinds = [self._kind(job) for job in problem.jobs]
        self.lengths = [min(planned_minutes(problem, job).values()) for job in problem.jobs]

    def _kind(self, job: PlanJob) -> _Kind:
        minutes = planned_minutes(self.problem, job)
        cure = job.cure_minutes if job.min_temperature_c is not None else 0
        both = min(minutes.values())
        return _Kind(minutes.get(1), both, job.splittable, job.min_temperature_c, cure)

    def cold_from(self, least_c: float) -> list[int]:
        """Say for each session when the first one begins, itself included, that is too cold."""
        if least_c not in self._cold_from:
            found = [NEVER] * len(self.slots)
            first = NEVER
            for at in range(len(self.slots) - 1, -1, -1):
                if not warm_enough(self.slots[at].coldest_c, least_c):
                    first = self.slots[at].start_minute
                found[at] = first
            self._cold_from[least_c] = found
        return self._cold_from[least_c]

    def takes(self, at: int, kind: _Kind) -> int | None:
        """Say how long a kind of job takes in a session; None when it cannot be done there."""
        slot = self.slots[at]
        if not warm_enough(slot.temperature_c, kind.least_c):
            return None
        return kind.both if slot.people > 1 else kind.alone

    def last_finish(self, at: int, kind: _Kind) -> int:
        """Say until when it may be finished in a session, so that its cure stays warm."""
        if not kind.cure or kind.least_c is None:
            return self.ends[at]
        return min(self.ends[at], self.cold_from(kind.least_c)[at] - kind.cure)

    def axis(self, kind: _Kind) -> Axis:
        """Give the sessions in which a kind of job can be worked on."""
        key = (kind.alone is None, kind.least_c)
        if key not in self._axes:
            spans = [
                (self.begins[at], self.ends[at], 1)
                for at in range(len(self.slots))
                if self.takes(at, kind) is not None
            ]
            self._axes[key] = Axis(spans)
        return self._axes[key]

    # Forwards --------------------------------------------------------------------------------

    def finish(self, node: int, minute: int) -> int | None:
        """Say when a job begun no sooner than a moment is finished at the soonest."""
        kind = self.kinds[node]
        if not kind.split:
            return self._fits_after(minute, kind)
        axis = self.axis(kind)
        done = axis.when(axis.worked_by(minute) + self.lengths[node])
        return None if done is None else self.may_finish(done, kind)

    def may_finish(self, minute: int, kind: _Kind) -> int | None:
        """Say when a job may be finished that is ready to be from some moment on."""
        for at in range(max(0, bisect_left(self.ends, minute)), len(self.slots)):
            done = max(minute, self.begins[at] + 1)
            if self.takes(at, kind) is not None and done <= self.last_finish(at, kind):
                return done
        return None

    def _fits_after(self, minute: int, kind: _Kind) -> int | None:
        for at in range(max(0, bisect_right(self.ends, minute)), len(self.slots)):
            takes = self.takes(at, kind)
            if takes is not None:
                done = max(minute, self.begins[at]) + takes
                if done <= self.last_finish(at, kind):
                    return done
        return None

    def waited(self, minute: int, wait: int, *, stretch: bool) -> int:
        """Say when a wait is over at the soonest that begins no sooner than some moment."""
        if not stretch or not wait:
            return minute + wait
        best = NEVER
        for at in range(max(0, bisect_left(self.ends, minute)), len(self.slots)):
            begin = max(minute, self.begins[at])
            if begin >= best:
                break
            best = min(best, begin - (-wait * self.stretch[at] // 1000))
        return best if best < NEVER else minute + wait

    def heads(self, wanted: set[int]) -> tuple[dict[int, int], dict[int, int | None]]:
        """Say when each job could begin and be finished if it were the only one.

        Parameters
        ----------
        wanted : set of int
            The jobs it is asked of, with all that come before them.
        """
        arrives = {arrival.id: expected_arrival(arrival) for arrival in self.problem.arrivals}
        ready = [0] * self.graph.size
        heads: dict[int, int] = {}
        finishes: dict[int, int | None] = {}
        for node in self.order:
            begin = max(
                (self.waited(ready[e.before], e.wait_minutes, stretch=e.stretch)
                 for e in self.into[node]),
                default=0,
            )  # fmt: skip
            ready[node] = begin
            if node not in wanted:
                continue
            job = self.problem.jobs[node]
            dates = [job.earliest_minute, *(arrives.get(part, 0) for part in job.parts_to_start)]
            begin = max(begin, *dates)
            finish = self.finish(node, begin)
            late = max((arrives.get(part, 0) for part in job.parts_to_finish), default=0)
            if finish is not None and finish < late:
                finish = self.may_finish(late, self.kinds[node])
            heads[node], finishes[node] = begin, finish
            if finish is not None:
                ready[node] = finish
        return heads, finishes

    # Backwards -------------------------------------------------------------------------------

    def begin(self, node: int, minute: int) -> int:
        """Say when a job that is finished by a moment begins at the latest; -1 for never."""
        kind = self.kinds[node]
        if not kind.split:
            return self._fits_before(minute, kind)
        done = self.finished_by(minute, kind)
        if done < 0:
            return -1
        axis = self.axis(kind)
        return axis.latest(axis.worked_by(done) - self.lengths[node])

    def finished_by(self, minute: int, kind: _Kind) -> int:
        """Say at what latest moment, by another, a job may be finished; -1 for never."""
        for at in range(bisect_left(self.begins, minute) - 1, -1, -1):
            done = min(minute, self.last_finish(at, kind))
            if done > self.begins[at] and self.takes(at, kind) is not None:
                return done
        return -1

    def _fits_before(self, minute: int, kind: _Kind) -> int:
        for at in range(bisect_left(self.begins, minute) - 1, -1, -1):
            takes = self.takes(at, kind)
            if takes is not None:
                begin = min(minute, self.last_finish(at, kind)) - takes
                if begin >= self.begins[at]:
                    return begin
        return -1

    def wait_from(self, minute: int, wait: int, *, stretch: bool) -> int:
        """Say from when at the latest a wait runs that is over by some moment."""
        if not stretch or not wait:
            return minute - wait
        best = -NEVER
        for at in range(bisect_left(self.begins, minute) - 1, -1, -1):
            if self.ends[at] <= best:
                break
            begin = min(self.ends[at], minute - (-(-wait * self.stretch[at] // 1000)))
            if begin >= self.begins[at]:
                best = max(best, begin)
        return best if best > -NEVER else minute - wait

    def tails(
        self, wanted: set[int], finishes: dict[int, int | None], goal: int
    ) -> tuple[dict[int, int], dict[int, int]] | None:
        """Say by when each job must be finished, and begun, for the goal; None when some cannot.

        Parameters
        ----------
        wanted : set of int
            The jobs it is asked of.
        finishes : dict of int to int
            When each is finished at the soonest.
        goal : int
            When all is to be done. [minutes from the origin]
        """
        # What does not lead to the goal has no latest date, and sets none.
        begins = [NEVER] * self.graph.size
        latest: dict[int, int] = {}
        starts: dict[int, int] = {}
        for node in reversed(self.order):
            ends = [
                self.wait_from(begins[edge.after], edge.wait_minutes, stretch=edge.stretch)
                for edge in self.out[node]
                if begins[edge.after] < NEVER
            ]
            if node not in wanted:
                begins[node] = min(ends, default=NEVER) if node >= len(self.kinds) else NEVER
                continue
            end, finish = min([goal, *ends]), finishes[node]
            if finish is None or finish > end:
                return None
            latest[node] = end
            begins[node] = starts[node] = self.begin(node, end)
        return latest, starts


def enough_sessions(problem: PlanProblem, minutes: int) -> tuple[SessionSlot, ...]:
    """Write out sessions for the work itself three times over and for every date there is.

    Parameters
    ----------
    problem : PlanProblem
        A plannable problem.
    minutes : int
        How much work there is. [min]
    """
    dates = [expected_arrival(arrival) for arrival in problem.arrivals]
    dates += [job.earliest_minute for job in problem.jobs]
    latest = max(dates, default=0)
    lost = problem.set_up_minutes + problem.clear_up_minutes
    slots: list[SessionSlot] = []
    worked = 0
    for slot in problem.sessions:
        slots.append(slot)
        if slot.start_minute > latest:
            worked += max(0, slot.minutes - lost)
        if worked > 3 * minutes + 100_000 or len(slots) > 20_000:
            break
    return tuple(slots)
