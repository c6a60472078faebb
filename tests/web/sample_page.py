"""A page that shows every component of the look, for tests only. All of it is invented."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from decimal import Decimal

from fastapi import Request  # noqa: TC002  the framework reads annotations as it runs
from starlette.responses import Response

from bareshell.draw.forecast import ForecastDots
from bareshell.draw.ladder import Rung
from bareshell.draw.marks import MARKS
from bareshell.draw.road import RoadAhead
from bareshell.draw.rule import SessionRule
from bareshell.draw.spans import Arrival, Bind, Span
from bareshell.errors import BadInput, Problem
from bareshell.model.part import NeedState
from bareshell.model.proof import ProofState
from bareshell.web.pieces import Caution, Figure, State, Ticket, Torque, WhyNot
from bareshell.web.twin import PageRouter, done, page
from tests.draw import samples

router = PageRouter()


@dataclass(frozen=True, slots=True)
class Move:
    words: str
    verdict: str
    cost: Span


@dataclass(frozen=True, slots=True)
class SamplePage:
    figures: tuple[Figure, ...]
    road: RoadAhead
    rungs: tuple[Rung, ...]
    evening: SessionRule
    forecast: ForecastDots
    binds: tuple[Bind, ...]
    tickets: tuple[Ticket, ...]
    moves: tuple[Move, ...]
    heard: tuple[State, ...]
    proofs: tuple[State, ...]
    why_not: WhyNot
    coming: Arrival
    problems: tuple[Problem, ...]
    made: datetime
    states: tuple[ProofState | NeedState, ...] = (*ProofState, *NeedState)
    cost: Decimal = Decimal("12.50")
    systems: frozenset[str] = frozenset({"glass", "brakes"})
    marks: tuple[str, ...] = MARKS
    hidden: str = field(default="only for the template", metadata={"twin": False})


def sample(extra: str = "") -> SamplePage:
    return SamplePage(
        figures=(
            Figure("28 Jun", "P50: on the road by this week in half of 2,000 futures"),
            Figure("26 Jul", "P80: eight in ten"),
            Figure("5.9", "at 500 N on the pedal, from 5.1 to 6.6", "m/s²"),
            Figure("232 h", "of work left, from 190 to 305 at your pace"),
        ),
        road=samples.road(),
        rungs=samples.rungs(),
        evening=samples.evening(),
        forecast=samples.forecast(),
        binds=samples.binds(),
        tickets=_tickets(extra),
        moves=(
            Move("The two axle pipes, then valve, then the hold", "as good", Span(0, 0, 0.4)),
            Move("Loom at the dash end, hold moved to Saturday", "dearer", Span(1.6, 2.4, 3.3)),
        ),
        heard=(
            State("done", "1.0 h", "Axle pipes"),
            State("begun", "21:20, 71 bar, 8 °C; read it from 09:20 on", "Overnight hold"),
        ),
        proofs=(
            State("owed", "70 bar or more for 12 h, joints 1 to 14 dry", "Rigid lines held"),
            State("covered, unproven", "carpet down before the loom was tested", "Floor loom"),
            State("spent", "circuit opened 14 November", "Front bay pipes"),
        ),
        why_not=WhyNot(
            "Bleed the brakes",
            ("needs the system filled", "which needs the wheel ends unplugged"),
            "the overnight hold, begun tonight. Freed Thursday 09:20, then two people.",
        ),
        coming=Arrival(date(2026, 12, 3), date(2026, 12, 1), date(2026, 12, 9), date(2026, 12, 7)),
        problems=(Problem("bar at start", "'lots' is no pressure", "write it as 71 bar"),),
        made=datetime(2026, 11, 25, 19, 15, tzinfo=UTC),
    )


def _tickets(extra: str) -> tuple[Ticket, ...]:
    return (
        Ticket(
            number="1",
            name="Finish the two axle pipes" + extra,
            system="brakes",
            starts="19:15",
            ends="20:10",
            minutes=55,
            zones=("rear wheel ends", "underneath"),
            fetch=("Shelf B2: bag 41, four male nuts M10x1", "Flaring tool, bender, file"),
            tighten=(Torque("Pipe nuts into axle tee, dry threads, four", "13-16 N m"),),
            mind=(
                Caution("Eyes", "Glasses on while you cut and flare."),
                Caution("Crush", "Lift down on its locks before you go beneath."),
            ),
            prove=(
                State("owed", "clips at most 300 mm apart; two photographs"),
                State("temp", "six wheel-end plugs, gone before the pushed roll"),
            ),
            field="done-axle-pipes",
            pencil=("start", "end", "finished|one", "marks read|long"),
        ),
        Ticket(
            number="2",
            name="Earth strap",
            system="electrics",
            starts="20:10",
            ends="20:20",
            minutes=10,
            zones=("engine bay",),
            fetch=("Strap, star washers",),
            field="done-earth",
            ticked=True,
        ),
    )


@router.page("/proofs")
def show(request: Request) -> Response:
    return page(request, "sample.html", sample(), part="tickets")


@router.page("/proofs/{proof}")
def one(request: Request, proof: str) -> Response:
    return page(request, "sample.html", sample(f" {proof}"))


@router.post("/proofs")
def write(request: Request) -> Response:
    return done(request, "/proofs", "Written down: axle pipes, finished.", Figure("1.0", "h"))


@router.get("/gives-way")
def gives_way() -> Response:
    raise RuntimeError("a detail nobody should see")


@router.get("/wrong")
def wrong() -> Response:
    raise BadInput.together(
        (
            Problem("bore", "'<wide>' is no length", "write it as 19.05 mm"),
            Problem("stroke", "is zero", "write what you measured"),
        )
    )


@router.get("/number/{number}")
def number(number: int) -> Response:
    return Response(str(number))
