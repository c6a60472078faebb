"""Walking through the sessions that took place, filling each with the work that was done in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bareshell.demo.days import GarageDay, spread
from bareshell.demo.order_of_work import PACE, SCATTER
from bareshell.model.job import Job

STAY_UP_HOURS = 0.5
HELPED = 2
_LONGEST_HOURS = 5.0
_QUARTER = 0.25


@dataclass(frozen=True, slots=True)
class Piece:
    """One stretch of work on a job: which, from when, how long, and whether it ended it."""

    job: str
    begins: datetime
    hours: float
    first: bool
    last: bool
    hours_left: float | None = None

    @property
    def ends(self) -> datetime:
        """When it ended, in UTC."""
        return self.begins + timedelta(hours=self.hours)


@dataclass(frozen=True, slots=True)
class Session:
    """A session that took place, with the work done in it."""

    day: GarageDay
    pieces: tuple[Piece, ...]

    @property
    def ends(self) -> datetime:
        """When the light went out: clearing up included."""
        worked = self.pieces[-1].ends if self.pieces else self.day.begins
        return worked + timedelta(minutes=15)


def hours_taken(job: Job, people: int) -> float:
    """Hours that a job took this owner: the likely ones at the system's pace, with scatter."""
    way = max((w for w in job.ways if w.people <= people), key=lambda w: w.people)
    taken = way.hours.likely_hours * PACE[job.system] * (1 + SCATTER * spread(job.id))
    return max(_QUARTER, round(taken / _QUARTER) * _QUARTER)


@dataclass(slots=True)
class _Walk:
    jobs: Mapping[str, Job]
    before: Mapping[str, tuple[str, ...]]
    left: dict[str, float | None]
    only_begun: Mapping[str, tuple[float, float]]
    finished: dict[str, datetime] = field(default_factory=dict)

    def may_start(self, key: str, moment: datetime) -> bool:
        """Whether everything before a job is done and waited for."""
        for other in self.before[key]:
            done = self.finished.get(other)
            if done is None:
                return False
            wait = self.jobs[other].wait
            if wait is not None and moment < done + timedelta(hours=wait.hours):
                return False
        return True

    def enough(self, key: str, people: int) -> bool:
        """Whether one of the ways of a job asks for no more people than are there."""
        return min(way.people for way in self.jobs[key].ways) <= people

    def needed(self, key: str, people: int) -> float:
        """How many hours there are still in a job, for so many people."""
        left = self.left[key]
        if left is not None:
            return left
        if key in self.only_begun:
            return self.only_begun[key][0]
        return hours_taken(self.jobs[key], people)

    def fits(self, key: str, room: float, people: int) -> bool:
        """Whether a useful piece of a job fits into the hours that are left of a session."""
        job, needed = self.jobs[key], self.needed(key, people)
        if needed <= room + STAY_UP_HOURS:
            return True
        # What cannot be split, yet is longer than a Saturday, is split all the same.
        return room >= job.least_piece_hours and (job.splittable or needed > _LONGEST_HOURS)

    def session(self, day: GarageDay) -> Session:
        """Fill one session with the first jobs of the list that could be done in it."""
        clock, room = day.begins + timedelta(minutes=15), day.work_hours
        pieces: list[Piece] = []
        while room >= _QUARTER:
            key = self._next(clock, room, day.people)
            if key is None:
                break
            needed, first = self.needed(key, day.people), self.left[key] is None
            hours = needed if needed <= room + STAY_UP_HOURS else room
            pieces.append(self._piece(key, clock, hours, first=first, over=hours == needed))
            clock, room = clock + timedelta(hours=hours), room - hours
            self.left[key] = needed - hours
            if hours == needed:
                self.finished[key] = clock
                del self.left[key]
        return Session(day, tuple(pieces))

    def _piece(self, key: str, clock: datetime, hours: float, *, first: bool, over: bool) -> Piece:
        """A stretch of work; a job that was only begun never gets its end."""
        if over and key in self.only_begun:
            return Piece(key, clock, hours, first, last=False, hours_left=self.only_begun[key][1])
        return Piece(key, clock, hours, first, over)

    def _next(self, clock: datetime, room: float, people: int) -> str | None:
        """What is begun goes on, but a helper's hours go to what wants two."""
        begun = [k for k, left in self.left.items() if left is not None]
        new = [k for k, left in self.left.items() if left is None and self.may_start(k, clock)]
        able = [k for k in (*begun, *new) if self.enough(k, people)]
        fitting = [k for k in able if self.fits(k, room, people)]
        two = [k for k in fitting if people == HELPED and self._wants_two(k)]
        return next(iter((*two, *fitting)), None)

    def _wants_two(self, key: str) -> bool:
        return any(way.people == HELPED for way in self.jobs[key].ways)


def walk(
    days: Sequence[GarageDay],
    order: Sequence[str],
    jobs: Mapping[str, Job],
    before: Mapping[str, tuple[str, ...]],
    done_before: Sequence[str],
    only_begun: Mapping[str, tuple[float, float]],
) -> tuple[tuple[Session, ...], tuple[str, ...]]:
    """Walk through the sessions, doing the jobs in order as each day allows.

    Parameters
    ----------
    days : sequence of GarageDay
        The sessions, the oldest first.
    order : sequence of str
        The jobs to do, in the order in which the owner meant to take them.
    jobs, before : mapping
        Every job, and what comes straight before it.
    done_before : sequence of str
        Jobs that were done before the first session.
    only_begun : mapping
        Jobs of ``order`` that were taken up and not finished: hours worked, hours left.

    Returns
    -------
    sessions, left : tuples
        The sessions with their work, and the jobs for which there was no time.
    """
    long_ago = days[0].begins - timedelta(days=90)
    earlier = dict.fromkeys(done_before, long_ago)
    state = _Walk(jobs, before, dict.fromkeys(order), only_begun, earlier)
    sessions = tuple(state.session(day) for day in days)
    return sessions, tuple(state.left)
