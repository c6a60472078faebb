"""The rules of the garage as constraints, for the solver that `bareshell.plan.exact` loads.

Written a third time, from the problem alone; one method for each rule.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from bareshell.plan.arrays import cold_stretch_thousandths, expected_arrival
from bareshell.plan.hours import planned_minutes
from bareshell.plan.network import network
from bareshell.plan.problem import PlanJob, PlanProblem
from bareshell.plan.schedule import Block
from bareshell.plan.sessions import SessionSlot
from bareshell.plan.supports import NO_WAY, change_times, warm_enough

if TYPE_CHECKING:
    from types import ModuleType

__all__ = ["Model", "Solved"]

Var = Any
"""A variable, a literal or a sum of the solver's own."""

PHASES = 3
"""On how many supports the car may stand in one session, one after another."""

FURTHEST = 45 * 24 * 60
"""A wait that ends later than this after the last session counts as that long. [min]"""


@dataclass(frozen=True, slots=True)
class Solved:
    """The moves that were found; when all is over and before when it cannot be, if asked."""

    blocks: tuple[Block, ...]
    over: int | None
    bound: int | None
    proven: bool


@dataclass(slots=True)
class _Piece:
    """What may be done of a job in one session, in one way, by whom."""

    job: int
    session: int
    people: int
    by_helper: bool
    there: Var
    start: Var
    end: Var
    length: Var
    finishes: Var


@dataclass(slots=True)
class _Phase:
    """A stretch of one session in which the car stands as it does."""

    begin: Var
    end: Var
    on: dict[str, Any]
    """For each support: whether it stands there."""
    change: _Move | None = None
    """How it came to stand so, unless it did before."""


@dataclass(slots=True)
class _Move:
    start: Var
    end: Var
    minutes: Var
    moved: Var
    helped: Var


class Model:
    """The rules as constraints, one method for each."""

    def __init__(
        self,
        solver: ModuleType,
        problem: PlanProblem,
        slots: tuple[SessionSlot, ...],
        jobs: tuple[int, ...],
    ) -> None:
        self.cp = solver
        self.m = solver.CpModel()
        self.problem = problem
        self.slots = slots
        self.ahead = problem.sessions.first(len(slots) + 200)
        self.jobs = jobs
        self.begins = [slot.start_minute + problem.set_up_minutes for slot in slots]
        self.ends = [slot.end_minute - problem.clear_up_minutes for slot in slots]
        self.last = self.ends[-1] if slots else 0
        self.graph = network(problem)
        self.minutes = {node: planned_minutes(problem, problem.jobs[node]) for node in jobs}
        self.pieces: dict[int, list[_Piece]] = {node: [] for node in jobs}
        self.begun = {node: self.m.new_bool_var(f"begun {node}") for node in jobs}
        self.done = {node: self.m.new_bool_var(f"done {node}") for node in jobs}
        self.first = {node: self._time(f"first {node}") for node in jobs}
        self.finish = {node: self._time(f"finish {node}") for node in jobs}
        self.phases: list[list[_Phase]] = []
        self.over: Var | None = None
        self._somebody_has_the_time()
        self._a_job_is_done_when_its_hours_are()
        self._nobody_is_in_two_places()
        self._what_comes_before_is_done()
        self._parts_are_here()
        self._cures_stay_warm()
        self._the_car_stands_as_it_is_wanted()

    def _time(self, name: str) -> Var:
        return self.m.new_int_var(0, max(self.last, 0), name)

    # Who does what, when -----------------------------------------------------------------------

    def _somebody_has_the_time(self) -> None:
        """Offer each job to each session that is warm enough and has the people."""
        for node in self.jobs:
            job = self.problem.jobs[node]
            twice = job.splittable and (job.parts_to_finish or job.cure_minutes)
            for session, slot in enumerate(self.slots):
                if warm_enough(slot.temperature_c, job.min_temperature_c):
                    for people, by_helper in self._hands(job, slot):
                        for _ in range(2 if twice else 1):
                            self._offer(node, session, people, by_helper=by_helper)

    def _hands(self, job: PlanJob, slot: SessionSlot) -> Iterator[tuple[int, bool]]:
        ways = {way.people for way in job.ways}
        if 1 in ways:
            yield 1, False
        if slot.people > 1 and 2 in ways:
            yield 2, False
        given = job.helper_alone or (slot.beside == "any" and not job.dangerous_alone)
        if slot.people > 1 and slot.beside and 1 in ways and given:
            yield 1, True

    def _offer(self, node: int, session: int, people: int, *, by_helper: bool) -> None:
        begin, end = self.begins[session], self.ends[session]
        job, whole = self.problem.jobs[node], self.minutes[node][people]
        least = whole if not job.splittable else min(whole, 1)
        if end - begin < least:
            return
        name = f"{node} in {session} by {people}{'h' if by_helper else ''}"
        there, finishes = self.m.new_bool_var(name), self.m.new_bool_var(f"{name} finishes")
        start = self.m.new_int_var(begin, end - least, f"{name} starts")
        stop = self.m.new_int_var(begin + least, end, f"{name} ends")
        length = self.m.new_int_var(least, min(whole, end - begin), f"{name} takes")
        self.m.add(start + length == stop)
        self.m.add_implication(finishes, there)
        if not job.splittable:
            self.m.add(finishes == there)
        else:
            useful = min(job.least_piece_minutes, whole)
            self.m.add(length >= useful).only_enforce_if([there, ~finishes])
        piece = _Piece(node, session, people, by_helper, there, start, stop, length, finishes)
        self.pieces[node].append(piece)

    def _a_job_is_done_when_its_hours_are(self) -> None:
        for node, pieces in self.pieces.items():
            begun, done = self.begun[node], self.done[node]
            if not pieces:
                self.m.add(begun == 0)
                self.m.add(done == 0)
                continue
            self.m.add_max_equality(begun, [piece.there for piece in pieces])
            self.m.add(sum(piece.finishes for piece in pieces) == done)
            for piece in pieces:
                self.m.add(self.first[node] <= piece.start).only_enforce_if(piece.there)
                self.m.add(self.finish[node] == piece.end).only_enforce_if(piece.finishes)
                self.m.add(piece.end <= self.finish[node]).only_enforce_if([piece.there, done])
            if not self.problem.jobs[node].splittable:
                self.m.add(sum(piece.there for piece in pieces) == done)
                continue
            # In one way or another: each minute counts for its share of the whole.
            shares = self.minutes[node]
            whole = 1
            for minutes in shares.values():
                whole *= minutes
            worked = []
            for piece in pieces:
                part = self.m.new_int_var(0, shares[piece.people], "part")
                self.m.add(part == piece.length).only_enforce_if(piece.there)
                self.m.add(part == 0).only_enforce_if(~piece.there)
                worked.append(part * (whole // shares[piece.people]))
            self.m.add(sum(worked) >= whole).only_enforce_if(done)
            # Not a minute more than it takes, but for the rounding of a change of ways.
            slack = whole // min(shares.values()) - 1 if len(shares) > 1 else 0
            self.m.add(sum(worked) <= whole + slack)
            self.m.add(sum(worked) <= whole - 1).only_enforce_if(~done)

    def _nobody_is_in_two_places(self) -> None:
        owner, helper = [], []
        for pieces in self.pieces.values():
            own = []
            for piece in pieces:
                span = self.m.new_optional_interval_var(
                    piece.start, piece.length, piece.end, piece.there, "work"
                )
                own.append(span)
                if not piece.by_helper:
                    owner.append(span)
                if piece.by_helper or piece.people > 1:
                    helper.append(span)
            self.m.add_no_overlap(own)
        self.owner, self.helper = owner, helper

    # What comes before -------------------------------------------------------------------------

    def _what_comes_before_is_done(self) -> None:
        jobs = len(self.problem.jobs)
        is_open = dict(self.done)
        since = dict(self.finish)
        for gate in range(jobs, self.graph.size):
            is_open[gate] = self.m.new_bool_var(f"gate {gate}")
            since[gate] = self._time(f"gate {gate}")
        for edge in self.graph.edges:
            before, after = edge.before, edge.after
            asks = self.begun.get(after) if after < jobs else is_open[after]
            if asks is None:
                continue
            if before not in is_open:
                self.m.add(asks == 0)
                continue
            self.m.add_implication(asks, is_open[before])
            begins = self.first[after] if after < jobs else since[after]
            if edge.wait_minutes and edge.stretch:
                self._wait_stretches(before, begins, edge.wait_minutes, asks)
            else:
                ready = since[before] + edge.wait_minutes
                self.m.add(begins >= ready).only_enforce_if(asks)

    def _wait_stretches(self, before: int, begins: Var, wait: int, asks: Var) -> None:
        """Let the coldest that a wait meets count for all of it."""
        for piece in self.pieces[before]:
            choices = []
            for takes, until in self._stretched(piece.session, wait):
                meets = self.m.new_bool_var("meets no colder")
                choices.append(meets)
                if until <= self.last + takes:
                    self.m.add(piece.end + takes <= until).only_enforce_if(meets)
                self.m.add(begins >= piece.end + takes).only_enforce_if([meets, asks])
            self.m.add_bool_or(choices).only_enforce_if([piece.finishes, asks])

    def _stretched(self, session: int, wait: int) -> Iterator[tuple[int, int]]:
        """List how long a wait takes if it is over before each later session begins."""
        worst = 0
        for at in range(session, len(self.ahead) - 1):
            worst = max(worst, cold_stretch_thousandths(self.ahead[at]))
            takes, until = -(-wait * worst // 1000), self.ahead[at + 1].start_minute
            yield takes, until
            if until > self.ends[session] + takes + FURTHEST:
                break

    def _parts_are_here(self) -> None:
        arrives = {a.id: expected_arrival(a) for a in self.problem.arrivals if a.known}
        for node in self.jobs:
            job = self.problem.jobs[node]
            dates = [job.earliest_minute, *(arrives.get(part, 0) for part in job.parts_to_start)]
            late = max((arrives.get(part, 0) for part in job.parts_to_finish), default=0)
            for what, times, lits in (
                (max(dates), self.first[node], [self.begun[node]]),
                (late, self.finish[node], [self.done[node]]),
            ):
                if what > self.last:
                    self.m.add(lits[0] == 0)
                elif what > 0:
                    self.m.add(times >= what).only_enforce_if(lits)

    def _cures_stay_warm(self) -> None:
        for node in self.jobs:
            job = self.problem.jobs[node]
            if not job.cure_minutes or job.min_temperature_c is None:
                continue
            for piece in self.pieces[node]:
                latest = self._last_warm_finish(piece.session, job)
                if latest < self.begins[piece.session]:
                    self.m.add(piece.finishes == 0)
                elif latest < self.ends[piece.session]:
                    self.m.add(piece.end <= latest).only_enforce_if(piece.finishes)

    def _last_warm_finish(self, session: int, job: PlanJob) -> int:
        """Say until when it may be finished in a session so that no cold comes before the end."""
        latest, worst = -1, 1000
        for at in range(session, len(self.ahead) - 1):
            if not warm_enough(self.ahead[at].coldest_c, job.min_temperature_c):
                break
            if job.cure_stretches:
                worst = max(worst, cold_stretch_thousandths(self.ahead[at]))
            takes = -(-job.cure_minutes * worst // 1000)
            latest = max(latest, self.ahead[at + 1].start_minute - takes)
            if latest >= self.ends[session]:
                break
        return latest

    # How the car stands ------------------------------------------------------------------------

    def _the_car_stands_as_it_is_wanted(self) -> None:
        self.times = change_times(self.problem)
        names = self.times.names
        stands = {name: int(name == self.problem.support) for name in names}
        for session in range(len(self.slots)):
            row: list[_Phase] = []
            for _ in range(PHASES):
                phase = self._phase(session, names)
                if not row:
                    for name in names:
                        self.m.add(phase.on[name] == stands[name])
                    self.m.add(phase.begin == self.begins[session])
                else:
                    phase.change = self._moved(session, row[-1], phase)
                row.append(phase)
            self.phases.append(row)
            stands = row[-1].on
        for pieces in self.pieces.values():
            for piece in pieces:
                self._stands_so_for(piece)
                self._moves_while_the_body_is_as_it_is(piece)
        self.m.add_no_overlap(self.owner)
        self.m.add_no_overlap(self.helper)

    def _phase(self, session: int, names: tuple[str, ...]) -> _Phase:
        low, high = self.begins[session], max(self.begins[session], self.ends[session])
        begin = self.m.new_int_var(low, high, "stands from")
        end = self.m.new_int_var(low, high, "stands until")
        self.m.add(begin <= end)
        on = {name: self.m.new_bool_var(f"on {name}") for name in names}
        self.m.add_exactly_one(on.values())
        return _Phase(begin, end, on)

    def _moved(self, session: int, before: _Phase, after: _Phase) -> _Move:
        """Move the car between two phases, alone or with the helper; not at all if it stays."""
        low, high = self.begins[session], max(self.begins[session], self.ends[session])
        start = self.m.new_int_var(low, high, "move from")
        end = self.m.new_int_var(low, high, "move until")
        minutes = self.m.new_int_var(0, high - low, "move takes")
        moved, helped = self.m.new_bool_var("moved"), self.m.new_bool_var("with help")
        self.m.add(start + minutes == end)
        self.m.add(before.end <= start)
        self.m.add(end <= after.begin)
        self.m.add(minutes == 0).only_enforce_if(~moved)
        if self.slots[session].people == 1:
            self.m.add(helped == 0)
        for here, was in before.on.items():
            for there, becomes in after.on.items():
                self._move_takes(here, there, (was, becomes), moved, helped, minutes)
        span = self.m.new_optional_interval_var(start, minutes, end, moved, "move")
        self.owner.append(span)
        two = self.m.new_bool_var("two move it")
        self.m.add_bool_and([moved, helped]).only_enforce_if(two)
        self.m.add_bool_or([~moved, ~helped]).only_enforce_if(~two)
        self.helper.append(
            self.m.new_optional_interval_var(start, minutes, end, two, "move, helped")
        )
        return _Move(start, end, minutes, moved, two)

    def _move_takes(
        self, here: str, there: str, both: tuple[Var, Var], moved: Var, helped: Var, minutes: Var
    ) -> None:
        if here == there:
            self.m.add_implication(both[0], ~both[1]).only_enforce_if(moved)
            return
        self.m.add_bool_or([~both[0], ~both[1], moved])
        for people, with_help in ((1, ~helped), (2, helped)):
            takes = self.times.minutes(here, there, people)
            if takes == NO_WAY:
                self.m.add_bool_or([~both[0], ~both[1], ~with_help])
            else:
                self.m.add(minutes == takes).only_enforce_if([*both, with_help])

    def _stands_so_for(self, piece: _Piece) -> None:
        supports = self.problem.jobs[piece.job].supports
        if supports is None:
            return
        during = []
        for phase in self.phases[piece.session]:
            within = self.m.new_bool_var("within")
            during.append(within)
            self.m.add(piece.start >= phase.begin).only_enforce_if(within)
            self.m.add(piece.end <= phase.end).only_enforce_if(within)
            self.m.add_bool_or(
                [phase.on[name] for name in supports if name in phase.on] + [~within]
            )
        self.m.add_exactly_one([*during, ~piece.there])

    def _moves_while_the_body_is_as_it_is(self, piece: _Piece) -> None:
        """Move the car before what changes how it can be moved, as if it could not be after."""
        job = self.problem.jobs[piece.job]
        if (job.body_begins | job.body_ends).isdisjoint(self.times.states):
            return
        for row in self.phases:
            for phase in row:
                if phase.change is not None:
                    lits = [piece.finishes, phase.change.moved]
                    self.m.add(phase.change.end <= piece.end).only_enforce_if(lits)

    # What is wanted, and what comes out ---------------------------------------------------------

    def fill(self, worth: dict[int, int]) -> None:
        """Want as much done as the sessions hold, what is worth more before what is worth less."""
        gained = []
        for node, pieces in self.pieces.items():
            job, shares = self.problem.jobs[node], self.minutes[node]
            begun_before = job.started and not job.splittable
            for piece in pieces:
                base = min(shares.values()) * worth[node]
                by_minute = base // shares[piece.people]
                part = self.m.new_int_var(0, shares[piece.people], "part")
                self.m.add(part <= piece.length)
                self.m.add(part == 0).only_enforce_if(~piece.there)
                gained.append(part * by_minute)
            first = 1_000_000 if begun_before else 5 * worth[node]
            gained.append(self.done[node] * first)
        moving = [p.change.minutes for row in self.phases for p in row if p.change is not None]
        self.m.maximize(sum(gained) - 10 * sum(moving))

    def reach_the_goal(self) -> None:
        """Want everything that the goal asks for done as soon as may be."""
        goal = set(self.problem.goal) or {job.id for job in self.problem.jobs}
        over = self._time("over")
        for node in self.jobs:
            if self.problem.jobs[node].id in goal:
                self.m.add(self.done[node] == 1)
                self.m.add(over >= self.finish[node])
        self.m.minimize(over)
        self.over = over

    def solved(self, seed: int, effort: float) -> Solved | None:
        """Solve, and write the moves down; None when nothing keeps the rules."""
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.max_deterministic_time = effort
        found = solver.solve(self.m)
        if found not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            return None
        blocks = sorted(self._blocks(solver), key=lambda b: (b.start_minute, b.kind))
        proven = found == self.cp.OPTIMAL
        if self.over is None:
            return Solved(tuple(blocks), None, None, proven=proven)
        bound = round(solver.best_objective_bound)
        return Solved(tuple(blocks), solver.value(self.over), bound, proven=proven)

    def _blocks(self, solver: Var) -> Iterator[Block]:
        stands: list[tuple[int, str]] = [(0, self.problem.support)]
        for session, row in enumerate(self.phases):
            for before, after in pairwise(row):
                here = next(name for name, on in before.on.items() if solver.value(on))
                there = next(name for name, on in after.on.items() if solver.value(on))
                move = after.change
                if here != there and move is not None:
                    start, end = solver.value(move.start), solver.value(move.end)
                    people = 2 if solver.value(move.helped) else 1
                    stands.append((start, there))
                    yield Block("change", session, start, end, here, there, people)
        for node, pieces in self.pieces.items():
            for piece in pieces:
                if not solver.value(piece.there):
                    continue
                start = solver.value(piece.start)
                on = max((at for at in stands if at[0] <= start), key=lambda at: at[0])[1]
                yield Block(
                    "work",
                    piece.session,
                    start,
                    solver.value(piece.end),
                    on,
                    on,
                    piece.people,
                    self.problem.jobs[node].id,
                    bool(solver.value(piece.finishes)),
                    by_helper=piece.by_helper,
                )
