"""Invented garages to plan in: small ones that tell a story, and random ones of any size.

Everything here is made up. The random cars follow the shape of real networks: several systems,
each a loose chain, tied across; long jobs may be split; a tenth takes two people.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from bareshell.plan.problem import (
    Arrival,
    Change,
    Gate,
    Link,
    Luck,
    Pace,
    PlanJob,
    PlanProblem,
    Proof,
    Way,
)
from bareshell.plan.sessions import WEEK_MINUTES, Beside, SessionSlot, SessionSource

ORIGIN = datetime(2031, 3, 3, 17, 0, tzinfo=UTC)  # a Monday
DAY = 24 * 60
SYSTEMS = ("brakes", "fuel", "electrics", "underbody", "running gear", "interior")
SUPPORTS = ("lift", "stands", "wheels")
CHANGES = (
    Change("wheels", "stands", 45),
    Change("stands", "wheels", 40),
    Change("wheels", "lift", 20),
    Change("lift", "wheels", 20),
    Change("stands", "lift", 75, people=2),
)
BODY_CHANGES = (
    *(
        replace(change, body_bars=frozenset({"wheels off"}))
        for change in CHANGES
        if "wheels" in (change.before, change.after)
    ),
    Change("stands", "lift", 75, 2, body_needs=frozenset({"engine out"})),
    Change("lift", "stands", 70, 1),
)
# Monthly means of an unheated garage, January to December, in degC: invented.
GARAGE_C = (4, 4, 7, 10, 14, 17, 19, 19, 16, 12, 7, 5)


def hours(likely: float, people: int = 1, spread: float = 1.6) -> Way:
    """A way that takes so many hours, give or take."""
    minutes = max(5, round(likely * 60))
    return Way(people, max(1, round(minutes / spread)), minutes, round(minutes * spread))


def evenings(
    weeks: int = 52,
    *,
    helper_every: int = 2,
    temperatures: bool = True,
    minutes: tuple[int, int, int] = (150, 150, 360),
    beside: Beside = "",
) -> SessionSource:
    """Tuesday and Thursday evenings and a Saturday; the helper comes every few Saturdays."""
    slots: list[SessionSlot] = []
    for week in range(weeks):
        for day, start, length, kind in (
            (1, 19 * 60, minutes[0], "weekday evening"),
            (3, 19 * 60, minutes[1], "weekday evening"),
            (5, 10 * 60, minutes[2], "Saturday"),
        ):
            at = week * WEEK_MINUTES + day * DAY + start - 17 * 60
            month = int(2 + (week * 7 + day) / 30.4) % 12
            celsius = float(GARAGE_C[month] + (3 if day == 5 else 0)) if temperatures else None
            helped = bool(helper_every) and day == 5 and week % helper_every == 0
            slots.append(
                SessionSlot(
                    at,
                    length,
                    2 if helped else 1,
                    celsius,
                    None if celsius is None else celsius - 3,
                    kind,
                    beside=beside,
                )
            )
    return SessionSource.repeating(slots, weeks=weeks)


def bare(*jobs: PlanJob, **changes: object) -> PlanProblem:
    """A garage with nothing but these jobs and quiet evenings; nothing is left to luck."""
    settings: dict[str, object] = {
        "sessions": evenings(temperatures=False),
        "luck": Luck(0.0, 0.0, 0.0, 0.0, 0.0),
        "changes": CHANGES,
        "support": "stands",
    } | changes
    return PlanProblem(ORIGIN, tuple(jobs), **settings)  # type: ignore[arg-type]


def job(job_id: str, likely: float = 1.0, *after: Link | str, **more: object) -> PlanJob:
    """A job of so many hours after some others; alone unless ways are given."""
    links = tuple(link if isinstance(link, Link) else Link(link) for link in after)
    settings: dict[str, object] = {"ways": (hours(likely),), "after": links} | more
    return PlanJob(job_id, f"Job {job_id}", str(settings.pop("system", "fuel")), **settings)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Shape:
    """How a random garage is made."""

    jobs: int = 60
    supports: float = 0.5
    helper: float = 0.1
    parts: float = 0.16
    cold: float = 0.08
    waits: float = 0.1
    gates: int = 2
    proofs: float = 0.1
    helper_every: int = 2
    begun: float = 0.02
    roots: float = 0.1
    beside: Beside = ""
    marked: float = 0.0
    body: bool = False


def garage(seed: int, shape: Shape | None = None) -> PlanProblem:
    """A random garage; the same seed gives the same one."""
    return _Maker(random.Random(seed), shape or Shape()).problem()


class _Maker:
    def __init__(self, dice: random.Random, shape: Shape) -> None:
        self.dice = dice
        self.shape = shape
        self.last: dict[str, list[str]] = {system: [] for system in SYSTEMS}
        self.arrivals: list[Arrival] = []
        self.proofs: list[Proof] = []

    def problem(self) -> PlanProblem:
        jobs = [self._job(number) for number in range(self.shape.jobs)]
        return PlanProblem(
            ORIGIN,
            tuple(jobs),
            evenings(helper_every=self.shape.helper_every, beside=self.shape.beside),
            tuple(self.arrivals),
            tuple(self.proofs),
            tuple(self._gates(jobs)),
            BODY_CHANGES if self.shape.body else CHANGES,
            self.dice.choice(SUPPORTS) if not self.shape.body else "stands",
            goal=(jobs[-1].id, jobs[-2].id) if self.dice.random() < 0.5 else (),
            paces=(Pace("", 1.1), Pace("brakes", 1.3)),
            body=frozenset({"wheels off", "engine out"}) if self.shape.body else frozenset(),
        )

    def _job(self, number: int) -> PlanJob:
        dice, shape = self.dice, self.shape
        job_id = f"j{number:03d}"
        system = (
            SYSTEMS[number * len(SYSTEMS) // shape.jobs]
            if dice.random() < 0.3
            else (dice.choice(SYSTEMS))
        )
        likely = min(10.0, max(0.3, dice.lognormvariate(0.4, 0.75)))
        splittable = likely > 1.9 and dice.random() < 0.8
        cold = dice.random() < shape.cold
        starts, finishes = self._parts(job_id)
        made = PlanJob(
            job_id,
            f"Work {number} on the {system}",
            system,
            self._ways(min(likely, 5.0) if not splittable else likely),
            self._after(system),
            minutes_done=30 if dice.random() < shape.begun else 0,
            started=dice.random() < shape.begun,
            supports=self._supports(),
            splittable=splittable,
            least_piece_minutes=dice.choice((20, 30, 45)),
            min_temperature_c=dice.choice((5.0, 10.0)) if cold else None,
            cure_minutes=dice.choice((0, 12 * 60, 3 * DAY)) if cold else 0,
            parts_to_start=starts,
            parts_to_finish=finishes,
            proofs_before=self._owed(),
            dirty=dice.random() < 0.2,
            dangerous_alone=dice.random() < 0.1,
            earliest_minute=dice.choice((0, 0, 0, 0, 5 * DAY)),
        )
        made = replace(made, **self._more(number, made.supports))
        self.last[system].append(job_id)
        if dice.random() < shape.proofs:
            self.proofs.append(Proof(f"p-{job_id}", f"proof of {made.title}", (job_id,)))
        return made

    def _more(self, number: int, supports: frozenset[str] | None) -> dict[str, Any]:
        """What only some garages ask about; nothing is drawn for the others."""
        dice, shape = self.dice, self.shape
        more: dict[str, Any] = {}
        if shape.marked:
            more["helper_alone"] = dice.random() < shape.marked
            more["cure_stretches"] = dice.random() < 0.5
        if shape.body:
            third = shape.jobs // 3
            if number == third:
                more["body_ends"] = frozenset({"wheels off"})
                more["supports"] = frozenset({"stands"})
            elif number == 2 * third:
                more["body_ends"] = frozenset({"engine out"})
            elif number < third:
                if not (supports is None or "stands" in supports):
                    more["supports"] = frozenset({"stands"})
                if dice.random() < 0.2:
                    more["body_needs"] = frozenset({"engine out"})
            elif number > 2 * third and dice.random() < 0.2:
                more["body_bars"] = frozenset({"engine out"})
        return more

    def _ways(self, likely: float) -> tuple[Way, ...]:
        roll = self.dice.random()
        if roll < self.shape.helper:
            return (hours(likely, people=2),)
        if roll < self.shape.helper * 1.5:
            return (hours(likely), hours(likely * 0.6, people=2))
        return (hours(likely),)

    def _after(self, system: str) -> tuple[Link, ...]:
        dice = self.dice
        if dice.random() < self.shape.roots:
            return ()
        found = dict.fromkeys(self.last[system][-dice.randint(1, 3) :])
        others = [done for name in SYSTEMS if name != system for done in self.last[name]]
        if others and dice.random() < 0.5:
            found |= dict.fromkeys(dice.sample(others, min(len(others), dice.randint(1, 2))))
        return tuple(
            Link(before, dice.choice((12, 24, 72)) * 60, dice.random() < 0.5)
            if dice.random() < self.shape.waits
            else Link(before)
            for before in found
        )

    def _supports(self) -> frozenset[str] | None:
        if self.dice.random() > self.shape.supports:
            return None
        return frozenset(self.dice.sample(SUPPORTS, self.dice.choice((1, 1, 2))))

    def _parts(self, job_id: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        dice = self.dice
        if dice.random() > self.shape.parts:
            return (), ()
        part = f"a-{job_id}"
        roll = dice.random()
        if roll < 0.2:
            arrival = Arrival(part, f"parts for {job_id}", lead_minutes=dice.randint(5, 40) * DAY)
        elif roll < 0.3:
            arrival = Arrival(part, f"parts for {job_id}", known=False)
        else:
            due = dice.randint(-5, 150) * DAY
            arrival = Arrival(part, f"parts for {job_id}", due, late_share=0.3)
        self.arrivals.append(arrival)
        return ((part,), ()) if dice.random() < 0.6 else ((), (part,))

    def _owed(self) -> tuple[str, ...]:
        if not self.proofs or self.dice.random() > self.shape.proofs:
            return ()
        return (self.dice.choice(self.proofs).id,)

    def _gates(self, jobs: list[PlanJob]) -> list[Gate]:
        gates: list[Gate] = []
        for number in range(self.shape.gates if len(jobs) > 6 else 0):
            cut = (number + 1) * len(jobs) // (self.shape.gates + 1)
            gates.append(
                Gate(
                    f"g{number}",
                    ("under-car", "engine bay", "cabin", "road")[number % 4],
                    tuple(j.id for j in self.dice.sample(jobs[:cut], max(1, cut // 3))),
                    (),
                    tuple(
                        j.id for j in self.dice.sample(jobs[cut:], max(1, (len(jobs) - cut) // 4))
                    ),
                )
            )
        return gates
