"""Inputs for the pictures: an invented demo build, made up to exercise every form."""

from __future__ import annotations

import random
from datetime import UTC, date, datetime, timedelta

from bareshell.draw.forecast import ForecastDots
from bareshell.draw.ladder import Rung
from bareshell.draw.road import (
    GateMark,
    JobSlice,
    Landing,
    Pin,
    RoadAhead,
    RoadWeek,
    SessionBox,
    StanceSlice,
)
from bareshell.draw.rule import SessionRule, Stretch
from bareshell.draw.spans import Bind

MONDAY = date(2026, 11, 23)

_NEAR = (
    (
        ("Mon", 2.5, (("rear pipe", "brakes", 1.5), ("ends", "brakes", 1.0)), 1),
        (
            "Wed",
            2.5,
            (("axle", "brakes", 0.9), ("valve", "brakes", 0.3), ("hold", "brakes", 1.1)),
            1,
        ),
        (
            "Sat",
            5.0,
            (
                ("clips", "brakes", 0.4),
                ("cables", "suspension", 1.1),
                ("fuel pipe", "fuel", 1.5),
                ("tank in", "fuel", 2.0),
            ),
            1,
        ),
    ),
    (
        ("Mon", 2.5, (("loom, engine bay", "electrics", 2.5),), 1),
        ("Wed", 2.5, (("hose", "brakes", 1.0), ("bulkhead", "electrics", 1.5)), 1),
        (
            "Sat",
            5.0,
            (
                ("exhaust", "exhaust", 2.0),
                ("propshaft", "gearbox and clutch", 1.7),
                ("column", "steering", 1.3),
            ),
            2,
        ),
    ),
    (
        ("Mon", 2.5, (("loom, dash plugs", "electrics", 2.5),), 1),
        ("Wed", 2.5, (("heater", "cooling", 1.2), ("clutch", "gearbox and clutch", 1.3)), 1),
        ("Sat", 5.0, (("test end to end", "electrics", 3.0), ("bulkhead pad", "interior", 2.0)), 1),
    ),
    (
        ("Mon", 2.5, (("mounts", "engine", 2.5),), 1),
        ("Wed", 2.5, (("gate", "commissioning", 1.0), ("lift gear", "engine", 1.5)), 1),
        ("Sat", 5.0, (("engine, gearbox in", "engine", 4.2), ("hoses", "fuel", 0.8)), 2),
    ),
)
_DAY = {"Mon": (0, 19), "Wed": (2, 19), "Sat": (5, 10)}
_LATER = ("body fittings", "electrics", "suspension", "glass", "interior", "underbody", "paperwork")
_SUPPORTS = ("stands", "scissor lift", "wheels", "level floor", "two-post lift")


def _session(
    monday: date,
    day: str,
    hours: float,
    jobs: tuple[tuple[str, str, float], ...],
    people: int,
    support: str,
) -> SessionBox:
    offset, hour = _DAY[day]
    on = monday + timedelta(days=offset)
    starts = datetime(on.year, on.month, on.day, hour, 15, tzinfo=UTC)
    return SessionBox(
        starts=starts,
        hours=hours,
        jobs=tuple(JobSlice(*job) for job in jobs),
        stances=(StanceSlice(support, hours),),
        people=people,
        now=starts.date() == date(2026, 11, 25),
        tag="done" if starts.date() == MONDAY else "",
    )


def _near_week(index: int) -> RoadWeek:
    monday = MONDAY + timedelta(weeks=index)
    support = "stands" if index == 3 else "scissor lift"
    pins = {
        0: (Pin("clevis pins", date(2026, 11, 27)), Pin("copper washers", date(2026, 11, 27))),
        1: (Pin("dash plugs", date(2026, 12, 3), date(2026, 12, 9)),),
        2: (Pin("clutch line", date(2026, 12, 8)),),
        3: (Pin("engine mounts, both, with their studs", date(2026, 12, 17), date(2027, 1, 4)),),
    }[index]
    gates = {
        0: (GateMark("under-car", date(2026, 11, 28)),),
        3: (GateMark("engine bay", date(2026, 12, 16)),),
    }
    return RoadWeek(
        monday,
        tuple(
            _session(monday, day, hours, jobs, people, support)
            for day, hours, jobs, people in _NEAR[index]
        ),
        pins,
        gates.get(index, ()),
    )


def _far_week(index: int, dice: random.Random) -> RoadWeek:
    monday = MONDAY + timedelta(weeks=index)
    if index in (4, 5, 21):
        return RoadWeek(monday, away="away", notes=("away: no sessions two weeks",) * (index == 4))
    support = _SUPPORTS[index // 8 % len(_SUPPORTS)]
    sessions = []
    for day, hours in (("Mon", 2.5), ("Wed", 2.5), ("Sat", 5.0)):
        if dice.random() < (0.16 if index < 32 else 0.5):
            continue
        first = dice.choice((0.8, 1.2, 1.7, 2.4))
        jobs = (
            ("a job", dice.choice(_LATER), first),
            ("another", dice.choice(_LATER), hours - first),
        )
        people = 2 if day == "Sat" and index % 4 == 1 else 1
        sessions.append(_session(monday, day, hours, jobs, people, support))
    pins = (Pin("fuse box", monday + timedelta(days=2)),) if index in (8, 12, 19) else ()
    gates = {27: "cabin", 29: "first start", 30: "first move under own power", 31: "road"}
    marks = (GateMark(gates[index], monday + timedelta(days=5)),) if index in gates else ()
    return RoadWeek(monday, tuple(sessions), pins, marks)


def road(weeks: int = 40) -> RoadAhead:
    """Forty weeks with everything that can happen in one."""
    dice = random.Random(7)
    rows = [_near_week(index) for index in range(4)]
    rows += [_far_week(index, dice) for index in range(4, weeks)]
    return RoadAhead(tuple(rows), LANDINGS)


LANDINGS = (
    Landing("P50", date(2027, 6, 28), "half of futures by here"),
    Landing("P80", date(2027, 7, 26), "eight in ten by here"),
    Landing("P95", date(2027, 8, 23), "nineteen in twenty by here"),
)


def rungs() -> tuple[Rung, ...]:
    """The gates in their partial order, with every state of a proof somewhere."""
    return (
        Rung("under-car", "passed", (), "28 Nov", held=5),
        Rung("engine bay", "next", ("under-car",), "16 Dec", held=5, owed=2, spent=1, temps=1),
        Rung("headlining", "next", ("under-car",), "26 Apr", held=2, begun=1),
        Rung("cabin", "later", ("headlining",), "31 May", held=2, owed=4, covered=1),
        Rung("pushed roll", "later", ("engine bay",), "7 Jun", held=1, owed=3, temps=2),
        Rung("first start", "later", ("engine bay",), "14 Jun", held=3, owed=8, failed=1, temps=3),
        Rung(
            "first move under own power",
            "later",
            ("pushed roll", "first start"),
            "21 Jun",
            held=6,
            owed=11,
            spent=1,
            temps=4,
        ),
        Rung(
            "road",
            "later",
            ("first move under own power", "cabin"),
            "28 Jun",
            held=9,
            substituted=1,
            owed=19,
            temps=4,
        ),
        Rung("50 miles", "later", ("road",), "Jul", owed=6),
        Rung("500 miles", "later", ("50 miles",), "Sep", owed=5),
    )


def evening() -> SessionRule:
    """Two and a half hours with a long and some short stretches."""
    return SessionRule(
        datetime(2026, 11, 25, 19, 15, tzinfo=UTC),
        150,
        (
            Stretch("1", "Finish the two axle pipes", "brakes", 0, 55),
            Stretch("2", "Write down the rear valve and mark it", "brakes", 55, 70),
            Stretch("3", "Plug the wheel ends, start the overnight hold", "brakes", 70, 125),
            Stretch("4", "Earth strap", "electrics", 125, 135),
            Stretch("5", "Leave the car", "paperwork", 135, 150),
        ),
    )


def forecast() -> ForecastDots:
    """Twenty futures."""
    weeks = (27, 28, 29, 29, 30, 30, 30, 31, 31, 31, 31, 32, 32, 33, 33, 34, 35, 36, 37, 39)
    return ForecastDots(
        tuple(MONDAY + timedelta(weeks=week, days=5) for week in weeks), LANDINGS, 2000
    )


def binds() -> tuple[Bind, ...]:
    """What holds it up, two of them narrower than their words."""
    return (Bind("helper", 44), Bind("warm days", 28), Bind("hours", 16), Bind("parts", 12))
