"""Whatever the build: every reading answers, and tonight and the road never contradict."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bareshell.app import reading
from bareshell.app.begin import begin, doubts, questions
from bareshell.app.door import Door
from bareshell.app.exchange import export_build_file, export_sheet, preview_import
from bareshell.app.plain import document
from bareshell.app.road import road
from bareshell.app.tonight import tonight, why_not
from bareshell.errors import Refused
from bareshell.io.sheets import SheetKind
from bareshell.model import changes as c
from bareshell.model.network import predecessors
from bareshell.model.standing import open_temps
from bareshell.trade.questions import Question
from bareshell.whole.gates_ahead import CLEAR, THROUGH
from bareshell.whole.sheet_parts import MOODS, SessionAsked, Ticket
from tests.big_build import BigBuild

SAMPLES = 200


@pytest.fixture(params=[(3, 0.1), (8, 0.7)], ids=lambda param: f"{param[1]:.0%} done")
def random_build(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Door]:
    """A random build of any age."""
    seed, share = request.param
    made = BigBuild(seed, jobs=60 + seed, parts=80, changes=500, photos=6, done_share=share)
    history = list(made.history())
    now = history[-1][0] + timedelta(hours=3)
    with Door.open(tmp_path / "car", create=True, clock=lambda: now, back_up=False) as door:
        door.record_dated(history)
        yield door


ZONES = ("Europe/London", "America/New_York", "Pacific/Auckland", "Asia/Kathmandu")


@pytest.fixture(params=[8, 13])
def begun_build(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Door]:
    """A build that was begun from random answers, and worked on for a while."""
    dice = random.Random(request.param)
    answers = {one.id: _answer(one, dice) for one in questions()}
    now = datetime(2031, dice.randint(1, 12), dice.randint(1, 28), dice.randint(0, 23), tzinfo=UTC)
    with begin(tmp_path / "car", answers, clock=lambda: now, zone=dice.choice(ZONES)) as door:
        assert doubts(door)
        for _ in range(dice.randint(5, 25)):
            _work(door, dice)
        yield door


def _answer(question: Question, dice: random.Random) -> str:
    values = [choice.value for choice in question.choices]
    if question.id == "name":
        return dice.choice(["the old saloon", "שלום 🚗", "x" * 200])
    if question.id == "hours":
        return dice.choice(["19:15 to 21:45; 10:00 to 15:00", "22:00 to 01:30", "7pm to 9pm"])
    if question.id == "days":
        return dice.choice(["monday, wednesday, saturday", "sunday", "tuesday, friday"])
    if question.id != "layout" and (not values or dice.random() < 0.25):
        return "not sure"
    if question.kind == "many":
        return ",".join(dice.sample(values, dice.randint(1, len(values))))
    return dice.choice(values)


def _work(door: Door, dice: random.Random) -> None:
    """Do a job that could be done next, or a piece of one."""
    build = door.build()
    after = predecessors(build)
    ready = [
        key
        for key, record in build.jobs.items()
        if record.state.is_open and all(build.jobs[one].state.is_done for one in after[key])
    ]
    if ready:
        job = dice.choice(ready)
        done = c.JobFinished(job, dice.choice([None, 0.5, 2, 7]))
        door.record(done if dice.random() < 0.8 else c.JobWorked(job, 1, dice.choice([None, 3])))


def check_everything_answers(door: Door) -> None:
    """Read all there is to read, ask the plan in several ways, write everything out."""
    build = door.build()
    for one in (reading.proofs, reading.shelf, reading.car, reading.jobs, reading.record):
        assert document(one(door))["format"] == 1
    sheet, ahead = tonight(door), road(door, samples=SAMPLES)
    assert document(sheet)["format"] == document(ahead)["format"] == 1
    here = [(job.id, job.minutes, job.finishes) for job in sheet.jobs]
    there = [(job.id, job.minutes, job.finishes) for job in ahead.sessions[0].jobs]
    assert here == there
    assert sheet.session.starts_at == ahead.sessions[0].starts_at
    if ahead.p50 is not None:
        assert ahead.p80 is not None
        assert ahead.p95 is not None
        assert sheet.session.starts_at.date() - timedelta(days=7) <= ahead.p50
        assert ahead.p50 <= ahead.p80 <= ahead.p95
    for ticket in sheet.jobs:
        _check_open(door, ticket)
    support = min(build.supports)
    for asked in (
        SessionAsked(minutes=90, temperature_c=-5.0, mood=frozenset(MOODS), people=1),
        SessionAsked(people=2, minutes=480, support=support, temperature_c=20.0),
        SessionAsked(starts_at=door.now() + timedelta(days=30), minutes=200),
    ):
        for ticket in tonight(door, asked).jobs:
            _check_open(door, ticket)
    for job in list(build.jobs)[:: len(build.jobs) // 2 + 1]:
        chain = why_not(door, None, job)
        assert chain.rule
    for kind in SheetKind:
        assert export_sheet(door, kind, "csv")
    seen = preview_import(door, export_build_file(door).encode(), "build.toml")
    assert (seen.lines, seen.problems) == ((), ())


def _check_open(door: Door, ticket: Ticket) -> None:
    """A job that tonight names is in the build, and there is work or a proof left in it.

    What only a gate asks for has a ticket too: to go through, to take a temp off.
    """
    build = door.build()
    record = build.jobs.get(ticket.id)
    prefix, _, key = ticket.id.partition(":")
    if record is not None:
        assert record.state.is_open, ticket.id
    elif f"{prefix}:" == THROUGH:
        assert build.gates[key].passed is None, ticket.id
    elif f"{prefix}:" == CLEAR:
        assert key in open_temps(build), ticket.id
    else:
        assert ticket.proves, ticket.id
    assert ticket.minutes > 0


def test_a_random_build_answers_everything(random_build: Door) -> None:
    check_everything_answers(random_build)


def test_a_build_begun_from_any_answers_answers_everything(begun_build: Door) -> None:
    check_everything_answers(begun_build)


def test_a_garage_with_no_known_evenings_asks_how_long_there_is(tmp_path: Path) -> None:
    answers = {"name": "it", "layout": "rear", "days": "not sure"}
    with begin(tmp_path / "car", answers) as door:
        with pytest.raises(Refused, match="Say how long you have, such as 150 minutes"):
            tonight(door)
        assert tonight(door, SessionAsked(minutes=150)).jobs
        assert road(door, samples=SAMPLES).p50 is None
