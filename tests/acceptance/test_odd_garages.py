"""Garages at the edge of what a person would say: everything answers, or says what is missing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

import pytest

from bareshell.app import reading
from bareshell.app.door import Door
from bareshell.app.exchange import export_build_file, preview_import
from bareshell.app.plain import document
from bareshell.app.road import road
from bareshell.app.tonight import tonight
from bareshell.errors import Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.car import Car
from bareshell.model.job import Wait, Way
from bareshell.model.part import Need, NeededTo
from bareshell.model.position import Place, Support, SupportKind, Wheels, Zone
from bareshell.model.proof import Proof
from bareshell.model.session import SessionException, SessionPattern
from bareshell.model.temp import Gate, Temp
from bareshell.model.trust import ThreePoint
from bareshell.whole.sheet_parts import SessionAsked, TonightSheet
from tests.stories import NOW, garage_changes, job, small_car_changes

Said = Sequence[c.Change]


def every(minutes: int, rule: str = "FREQ=DAILY", starts: time = time(19)) -> Said:
    """Garage time of one kind only."""
    return [
        c.PatternSet(SessionPattern("eve", "evening", rule, starts, minutes)),
        c.PatternDropped("sat"),
    ]


def other(build: Build, key: str, **fields: object) -> Said:
    """A job defined otherwise."""
    return [c.JobSet(replace(build.jobs[key].job, **fields))]  # type: ignore[arg-type]


FIRST: dict[str, Said] = {
    "nothing at all": [],
    "only a car": [c.CarDescribed(Car("it"))],
    "jobs and no garage": [c.JobSet(job("a", place=Place.BENCH)), c.JobSet(job("b", "a"))],
    "a garage and no jobs": garage_changes(),
}
THEN: dict[str, Callable[[Build], Said]] = {
    "every job left out": lambda build: [c.JobLeftOut(key) for key in build.jobs],
    "every job done": lambda build: [c.JobFinished(key, 1) for key in build.jobs],
    "every job done before": lambda build: [c.JobDoneBefore(key) for key in build.jobs],
    "no garage time": lambda _: [c.PatternDropped("eve"), c.PatternDropped("sat")],
    "sessions of a minute": lambda _: every(1),
    "sessions shorter than setting up": lambda _: every(25),
    "a day without an end": lambda _: every(1440, starts=time()),
    "a day that never comes": lambda _: every(60, "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30"),
    "three evenings and no more": lambda _: every(150, "FREQ=DAILY;UNTIL=20260307"),
    "every day off": lambda _: [
        c.ExceptionSet(SessionException(NOW.date() + timedelta(days=n))) for n in range(400)
    ],
    "work of no hours": lambda build: other(build, "carb", ways=(Way(1, ThreePoint(0, 0, 0)),)),
    "work of a thousand hours": lambda build: other(
        build, "carb", ways=(Way(1, ThreePoint(1000, 1000, 1000)),)
    ),
    "a wait of a year": lambda build: other(build, "hold", wait=Wait(8000)),
    "work that wants it hot": lambda build: other(build, "carb", lowest_temperature_c=90.0),
    "a least piece of weeks": lambda build: other(build, "carb", least_piece_hours=500.0),
    "work that reaches everywhere": lambda build: other(
        build, "carb", place=Place.CAR, zones=frozenset(Zone), wheels=Wheels.LOADED, level=True
    ),
    "stands that open nothing": lambda _: [
        c.SupportSet(Support("stands", "s", SupportKind.STANDS, frozenset(), Wheels.HANGING))
    ],
    "a million of each part": lambda _: [
        c.NeedSet(Need(f"n{n}", "pin", "carb", 1_000_000, NeededTo.START)) for n in range(20)
    ],
    "a temp that no job clears": lambda _: [
        c.TempSet(Temp("strap", "strap", "a catch", "road")),
        c.TempRaised("strap"),
    ],
    "a road gate that asks for nothing": lambda _: [c.GateSet(Gate("road", "road"))],
    "a proof that no job makes": lambda _: [c.ProofSet(Proof("p", "Papers", gates=("road",)))],
    "a failed proof that is buried": lambda _: [
        c.JobFinished("tank", 1),
        c.ProofFailed("rear-joint"),
    ],
}
NIGHTS = {
    "the clocks go forward tonight": ("Europe/London", datetime(2026, 3, 29, 0, 30, tzinfo=UTC)),
    "the clocks go back tonight": ("Europe/London", datetime(2026, 10, 25, 0, 30, tzinfo=UTC)),
    "a day that was left out of the calendar": (
        "Pacific/Apia",
        datetime(2011, 12, 29, 12, tzinfo=UTC),
    ),
}


def check(door: Door) -> None:
    """Everything answers; the plan may say what is missing, and the same to both questions."""
    for one in (reading.proofs, reading.shelf, reading.car, reading.jobs, reading.record):
        document(one(door))
    ahead = road(door, samples=60)
    document(ahead)
    sheet = _next_session(door)
    if sheet is None:
        with pytest.raises(Refused, match="Say how long you have, such as 150 minutes"):
            tonight(door)
        assert ahead.sessions == ()
        document(tonight(door, SessionAsked(minutes=150)))
    else:
        document(sheet)
        first = [one.id for one in ahead.sessions[0].jobs] if ahead.sessions else []
        assert [one.id for one in sheet.jobs] == first
    seen = preview_import(door, export_build_file(door).encode(), "build.toml")
    assert (seen.lines, seen.problems) == ((), ())


def _next_session(door: Door) -> TonightSheet | None:
    try:
        return tonight(door)
    except Refused:
        return None


@pytest.mark.parametrize("what", FIRST)
def test_a_build_of_nearly_nothing(tmp_path: Path, what: str) -> None:
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW, back_up=False) as door:
        if FIRST[what]:
            door.record(FIRST[what])
        check(door)


@pytest.mark.parametrize("what", THEN)
def test_a_small_car_with_one_thing_odd(garage: Path, what: str) -> None:
    with Door.open(garage, clock=lambda: NOW, back_up=False) as door:
        door.record(THEN[what](door.build()))
        check(door)


@pytest.mark.parametrize("what", NIGHTS)
def test_a_night_when_the_clocks_do_not_go_on(tmp_path: Path, what: str) -> None:
    zone, now = NIGHTS[what]
    with Door.open(tmp_path / "car", create=True, clock=lambda: now, back_up=False) as door:
        door.record(small_car_changes())
        first = date(2010, 1, 1)
        door.record(
            [
                c.CarDescribed(Car("Test mule", invented=True, zone=zone)),
                c.PatternSet(
                    SessionPattern("n", "night", "FREQ=DAILY", time(1, 30), 120, 1, first)
                ),
                c.PatternSet(
                    SessionPattern("eve", "late", "FREQ=DAILY", time(23, 30), 180, 1, first)
                ),
            ]
        )
        check(door)
        later = now + timedelta(days=3)
        coming = [one for one in reading.car(door).coming_sessions if one.starts_at > later]
        # From half past eleven to half past three, and Saturday's own five hours.
        assert {one.minutes for one in coming} <= {240, 300}
