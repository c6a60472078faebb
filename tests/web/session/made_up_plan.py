"""A plan made up by hand, so that pages can be looked at without the real one.

It takes open jobs whose predecessors are done, one after the other, and invents every figure
that only a simulation could know.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta

from bareshell.app.door import Door
from bareshell.app.trial import step_words
from bareshell.app.written import Pen, Written, write_down
from bareshell.errors import BadInput, Refused
from bareshell.model import Build
from bareshell.model.changes import ForecastIssued
from bareshell.model.forecast import IssuedForecast
from bareshell.model.job import Caution
from bareshell.model.network import predecessors
from bareshell.whole.forecast_parts import (
    BindLine,
    Grounds,
    GroundsOverview,
    HelperAsk,
    HelperDayLine,
    IndexLine,
    LeverLine,
    LeversOverview,
    PaceLine,
    ScoreLine,
)
from bareshell.whole.garage_time import sessions_between, zone_of
from bareshell.whole.issued import issued_lines
from bareshell.whole.leaving import leaving
from bareshell.whole.road_parts import (
    Bind,
    OrderBy,
    OrderDay,
    RoadArrival,
    RoadGate,
    RoadJob,
    RoadOverview,
    RoadSession,
    RoadStance,
    SeasonLine,
)
from bareshell.whole.sheet_parts import (
    FirstMove,
    SessionAsked,
    SessionFacts,
    SupportLine,
    Ticket,
    TonightSheet,
    WhyNot,
    WhyNotLink,
)
from bareshell.whole.tickets import TicketDesk
from bareshell.whole.trial_answer import untouched
from bareshell.whole.trial_parts import TrialLine, TrialOverview, TwoDays
from bareshell.whole.trial_steps import TrialStep

NAMES = ("minutes", "people", "support", "temperature_c", "starts_at")


@dataclass
class MadeUpPlan:
    """Answers at once, and counts how often it was asked."""

    asked: list[str] = field(default_factory=list)
    moves_the_car: bool = False
    most: int = 4

    def warm_up(self) -> str:
        self.asked.append("warm up")
        return "made up"

    def tonight(self, door: Door, asked: SessionAsked | None) -> TonightSheet:
        self.asked.append("tonight")
        build, now = door.build(), door.now()
        facts = session_facts(build, now, asked or SessionAsked())
        desk = TicketDesk(build, now)
        tickets, moves = self._evening(build, desk, facts)
        owed = next((k for k, r in build.jobs.items() if r.state.is_open and r.job.after), "")
        why = (self.why_not(door, asked, owed),) if owed else ()
        return TonightSheet(
            made_at=now,
            seq=build.seq,
            car=build.car.name if build.car else "",
            invented=bool(build.car and build.car.invented),
            session=facts,
            jobs=tickets,
            moves=moves,
            begin_with=tuple(_first(n, one) for n, one in enumerate(tickets)),
            fetch=tuple(line for ticket in tickets for line in ticket.fetch),
            cautions=tuple(c for ticket in tickets for c in ticket.cautions),
            leave=leaving(build, tickets, facts.support, facts.ends_at),
            why_not=why,
            assumptions=("The temperature is the monthly one",),
            to_settle=len(build.to_settle),
            spare_minutes=20,
            promise="Not before 12 April: so much work is left for one pair of hands",
            engine="made up",
            samples=2000,
        )

    def _evening(
        self, build: Build, desk: TicketDesk, facts: SessionFacts
    ) -> tuple[tuple[Ticket, ...], tuple[SupportLine, ...]]:
        at = facts.starts_at + timedelta(minutes=15)
        moves: list[SupportLine] = []
        if self.moves_the_car and facts.support != "wheels":
            ends = at + timedelta(minutes=20)
            caution = Caution("Crush", "Chocks first, then down; nobody beneath.")
            moves.append(
                SupportLine(at, ends, 20, facts.support_title, "its wheels", "wheels", (caution,))
            )
            at = ends
        tickets: list[Ticket] = []
        last = facts.ends_at - timedelta(minutes=15)
        for job in startable(build):
            ends = at + timedelta(minutes=30)
            if ends > last or len(tickets) == self.most:
                break
            tickets.append(desk.ticket(job, at, ends, finishes=True, people=1))
            at = ends
        return tuple(tickets), tuple(moves)

    def why_not(self, door: Door, _asked: SessionAsked | None, job_id: str) -> WhyNot:
        self.asked.append("why not")
        title = door.build().jobs[job_id].job.title
        links = (
            WhyNotLink("needs the hold under pressure", job="hold"),
            WhyNotLink("the hold runs until tomorrow", "the clock", "Freed tomorrow at 09:20."),
        )
        return WhyNot(job_id, title, "the clock", "Freed tomorrow at 09:20.", links=links)

    def road(self, door: Door) -> RoadOverview:
        self.asked.append("road")
        return made_up_road(door.build(), door.now())

    def levers(self, door: Door) -> LeversOverview:
        self.asked.append("levers")
        return made_up_levers(door.build(), door.now())

    def grounds(self, door: Door) -> GroundsOverview:
        self.asked.append("grounds")
        return made_up_grounds(door.build(), door.now())

    def trial(self, door: Door, steps: tuple[TrialStep, ...]) -> TrialOverview:
        self.asked.append("trial")
        told = tuple(TrialLine(one.code, one.kind, step_words(door, one)) for one in steps)
        return made_up_trial(door.build(), door.now(), told)

    def keep(self, door: Door, pen: Pen) -> Written:
        self.asked.append("keep")
        road = made_up_road(door.build(), door.now())
        assert road.p50 is not None
        assert road.p80 is not None
        assert road.p95 is not None
        said = IssuedForecast(
            road.made_at.date().isoformat(), road.made_at, road.p50, road.p80, road.p95
        )
        return write_down(door, ForecastIssued(said), Pen(pen.author, pen.entry_id), "Kept.")

    def keep_if_due(self, _door: Door) -> Written | None:
        self.asked.append("keep if due")
        return None


def startable(build: Build) -> list[str]:
    after = predecessors(build)
    return [
        job
        for job, record in build.jobs.items()
        if record.state.is_open
        and all(build.jobs[b].state.is_done for b in after.get(job, ()) if b in build.jobs)
    ]


def session_facts(build: Build, now: datetime, asked: SessionAsked) -> SessionFacts:
    if asked.support is not None and asked.support not in build.supports:
        raise BadInput("how the car stands", f"there is no support '{asked.support}'")
    slots = sessions_between(build, now, now + timedelta(weeks=3))
    if not slots and asked.minutes is None:
        raise Refused("no session", "there is no session to come", "say how long you have")
    usual = slots[0] if slots else None
    zone = zone_of(build)
    starts = asked.starts_at or now + timedelta(minutes=usual.start_minute if usual else 0)
    minutes = asked.minutes or (usual.minutes if usual else 0)
    placement = build.placement.support if build.placement else ""
    support = asked.support or placement
    said = [name for name in NAMES if getattr(asked, name) is not None]
    return SessionFacts(
        number=len(build.sessions) + 1,
        starts_at=starts.astimezone(zone),
        ends_at=(starts + timedelta(minutes=minutes)).astimezone(zone),
        minutes=minutes,
        people=asked.people or (usual.people if usual else 1),
        support=support,
        support_title=build.supports[support].title if support else "not known",
        temperature_c=8.0 if asked.temperature_c is None else asked.temperature_c,
        overridden=(*said, *sorted(asked.mood)),
    )


def _first(number: int, ticket: Ticket) -> FirstMove:
    days, error = ((0.0, 0.2), (0.1, 0.2), (2.4, 0.5))[number % 3]
    return FirstMove(ticket.id, ticket.title, ticket.system, days, error, days < 1, "")


def made_up_road(build: Build, now: datetime, weeks: int = 30) -> RoadOverview:
    zone = zone_of(build)
    jobs = [record.job for record in build.jobs.values() if record.state.is_open]
    slots = sessions_between(build, now, now + timedelta(weeks=weeks))
    supports = list(build.supports.values())
    sessions = []
    for number, slot in enumerate(slots):
        starts = (now + timedelta(minutes=slot.start_minute)).astimezone(zone)
        mine = [jobs[(2 * number + k) % len(jobs)] for k in range(2)] if jobs else []
        half = (slot.minutes - 30) // 2
        support = supports[(number // 9) % len(supports)] if supports else None
        sessions.append(
            RoadSession(
                number + 1,
                starts,
                slot.minutes,
                slot.people,
                8.0,
                slot.kind,
                tuple(
                    RoadJob(job.id, job.title, job.system, starts, half, slot.people, k == 0)
                    for k, job in enumerate(mine)
                ),
                (RoadStance(support.id, support.title, str(support.kind), slot.minutes),)
                if support
                else (),
                helper_minutes=half if slot.people > 1 else 0,
            )
        )
    today = now.astimezone(zone).date()
    monday = today - timedelta(days=today.weekday())
    return RoadOverview(
        made_at=now,
        seq=build.seq,
        car=build.car.name if build.car else "",
        invented=bool(build.car and build.car.invented),
        p50=monday + timedelta(weeks=weeks - 8),
        p80=monday + timedelta(weeks=weeks - 5),
        p95=monday + timedelta(weeks=weeks - 1),
        sampling_error_days=1.4,
        futures=tuple(_futures(monday, weeks)),
        hours_left=232,
        helper_hours_left=31,
        proofs_owed=len(build.proofs),
        sessions=tuple(sessions),
        arrivals=(
            RoadArrival("hose", "Rear flexible hose", "Rear hose", today + timedelta(days=5),
                        today + timedelta(days=11)),
            RoadArrival("nuts", "Pipe nuts M10x1", "Rear pipe", None),
        ),
        order_by=(
            OrderBy("nuts", "Clutch hose, 3/8 UNF to M10x1", today + timedelta(days=2),
                    today + timedelta(days=21), "two weeks' lead, to three at worst"),
            OrderBy("hose", "Engine mounts, pair", today + timedelta(days=20),
                    today + timedelta(days=40), days=(
                        OrderDay(0.8, today + timedelta(days=23)),
                        OrderDay(0.9, today + timedelta(days=20)),
                        OrderDay(0.95, today - timedelta(days=1)))),
        ),
        gap_days=24,
        gap="Another order of jobs could gain at most 24 days on this one.",
        seasonal=(
            SeasonLine("seam", "Seam", 10, 24, 1, today + timedelta(days=60), None,
                       today + timedelta(days=63), "wants 10 °C or more; so warm from 3 May."),
        ),
        gates=(
            RoadGate("under-car", "under-car", today + timedelta(days=3)),
            RoadGate("road", "road", monday + timedelta(weeks=weeks - 8, days=5)),
        ),
        binds=(
            Bind("helper", 0.44, "in most futures it waits for a second pair of hands"),
            Bind("warm days", 0.28, "then for a garage above 18 °C"),
            Bind("hours", 0.16, "then for hours"),
            Bind("parts", 0.12, "then for the dash plugs"),
        ),
        away_weeks=(monday + timedelta(weeks=5),),
        support_changes=7,
        promise="Before 12 April no order of jobs gets the car on the road",
        assumptions=("Parts nobody recorded are taken as here",),
        engine="made up",
        samples=2000,
        seed=7,
        paces=(
            PaceLine("", 1.1, 0.9, 1.3, 12, "You run 1.1 times your estimates."),
            PaceLine("brakes", 1.3, 1.1, 1.5, 9, "You run 1.3 times your estimates on brakes."),
        ),
        issued=issued_lines(build, now),
        scores=(
            ScoreLine("hours of a job", "h", 40, 33, 32.0, 5.1, "as often as said", 0.4, 0.3, 0.1,
                      0.5, 0.6, "Of 40 forecasts of the hours of a job, 33 kept under."),
        ),
    )  # fmt: skip


def made_up_levers(build: Build, now: datetime) -> LeversOverview:
    return LeversOverview(
        made_at=now,
        seq=build.seq,
        car=build.car.name if build.car else "",
        invented=True,
        levers=(
            LeverLine("session", "", "one session more a week", 21.4, 1.1, 24.0, "nearer",
                      "One session more a week: the road 21 days nearer.", 200.0, 178.6),
            LeverLine("part", "hose", "rear flexible hose a week earlier", 3.2, 0.4, 3.0, "nearer",
                      "Rear flexible hose a week earlier: the road 3.2 days nearer.",
                      trial="part:hose=-7"),
            LeverLine("helper", "", "the helper on Sat 14 Mar too", 0.1, 0.3, 0.0,
                      "no clear effect", "The helper on Sat 14 Mar too: no clear effect."),
            LeverLine("lent", "carb", "'Carb' done by somebody else in 14 days", -1.9, 0.4, -2.0,
                      "farther", "'Carb' done by somebody else: the road 1.9 days farther."),
        ),
        binds=(
            BindLine("cause", "", "waiting for the helper", 0.44, 12.5),
            BindLine("part", "hose", "Rear flexible hose", 0.2, 2.5),
            BindLine("job", "carb", "Carb", 0.7, 0.0),
            BindLine("job", "prove:rear-joint", "Prove: Rear tee dry", 0.004, 0.0),
        ),
        mean_days=200.0,
        work_days=150.0,
        indices=(IndexLine("carb", "Carb", 0.7, 0.2, True, 0.4, 0.01),
                 IndexLine("prove:rear-joint", "Prove: Rear tee dry", 0.1, 0.0, False, 0.1, 0.0)),
        index_words=(("criticality", "share of futures on the chain that binds"),),
        lever_samples=1000,
        samples=2000,
        engine="made up",
        seed=7,
        helper=HelperAsk(
            (HelperDayLine(now + timedelta(days=3), 2.1, ("tank",), ("Tank",)),),
            (now.date() + timedelta(days=17),),
            31,
            now.date() + timedelta(days=84),
            "Ask for this day: Saturday 7 March. 31 h of two-person work are left.",
        ),
    )  # fmt: skip


def made_up_trial(build: Build, now: datetime, told: tuple[TrialLine, ...]) -> TrialOverview:
    found = untouched(made_up_road(build, now))
    week = timedelta(weeks=1)
    assert found.before.p50 is not None
    return replace(
        found,
        steps=told,
        after=replace(found.before, p50=found.before.p50 - week, p95=None),
        gain_days=7.0,
        standard_error_days=0.5,
        word="nearer",
        words="The road is nearer by 7.0 days, give or take 1.0 days.",
        gates=(TwoDays("road", "road", now.date() + 9 * week, now.date() + 8 * week),),
        orders=(TwoDays("nuts", "Pipe nuts", now.date(), None),),
        moved=(TwoDays("tank", "Tank", now.date() + week, now.date()),),
        moved_in_all=3,
        stranded=("'Seam' wants 40 °C, and no session is expected to be so warm.",),
    )


def made_up_grounds(build: Build, now: datetime) -> GroundsOverview:
    pace = Grounds("pace on brakes", 1.3, "times", "9 finished jobs", "measured")
    return GroundsOverview(
        made_at=now,
        seq=build.seq,
        car=build.car.name if build.car else "",
        invented=True,
        grounds=(
            Grounds(
                "half of futures on the road by",
                date(2026, 9, 1),
                "day",
                "the futures in order",
                "reckoned",
                (Grounds("your pace", 1.1, "times", "12 jobs", "measured", (pace,)),),
            ),
            Grounds("temperature", None, "degC", "nobody said", "assumed"),
        ),
        assumptions=("Parts nobody recorded are taken as here",),
    )  # fmt: skip


def _futures(monday: date, weeks: int) -> Sequence[date]:
    spread = (-4, -3, -3, -2, -2, -2, -1, -1, -1, -1, 0, 0, 0, 1, 1, 2, 3, 4, 5, 7)
    return [monday + timedelta(weeks=weeks - 8 + k) for k in spread]
