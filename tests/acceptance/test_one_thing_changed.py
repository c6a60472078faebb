"""One thing said anew, and tonight and the road answer to it: a part, the helper, the support."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from bareshell.app.door import Door
from bareshell.app.road import road
from bareshell.app.tonight import tonight, why_not
from bareshell.model import changes as c
from bareshell.model.part import GoodsIn, Need, NeededTo, OrderLine
from bareshell.model.position import Placement, SupportMove
from bareshell.whole.road_parts import RoadOverview
from tests.stories import NOW

SAMPLES = 300


@pytest.fixture
def door(garage: Path) -> Iterator[Door]:
    with Door.open(garage, clock=lambda: NOW, back_up=False) as opened:
        yield opened


def _day_of(job: str, ahead: RoadOverview) -> date:
    """Return the day on which a job is finished."""
    (day,) = [
        session.starts_at.date()
        for session in ahead.sessions
        for one in session.jobs
        if one.id == job and one.finishes
    ]
    return day


def test_a_part_that_comes_later_moves_its_job_and_the_road(door: Door) -> None:
    before = road(door, samples=SAMPLES)
    door.record(c.OrderExpected("o1", date(2026, 6, 1)))
    after = road(door, samples=SAMPLES)
    assert before.p50 is not None
    assert after.p50 is not None
    assert _day_of("rear-hose", before) < date(2026, 4, 1)
    assert _day_of("rear-hose", after) >= date(2026, 6, 1)
    assert _day_of("carb", after) == _day_of("carb", before), "nobody stands idle beside it"
    assert (after.p50 - before.p50).days > 60
    door.record(c.GoodsChecked("o1", GoodsIn.RIGHT, 1, "bin 3"))
    here = road(door, samples=SAMPLES)
    assert here.p50 is not None
    assert _day_of("rear-hose", here) <= _day_of("rear-hose", before)
    assert here.p50 <= before.p50


def test_a_part_that_is_not_here_tonight_takes_its_job_out_of_tonight(door: Door) -> None:
    assert "rear-pipe" in [job.id for job in tonight(door).jobs]
    door.record(
        [
            c.NeedSet(Need("pipe", "Brake pipe, a coil", "rear-pipe", 1, NeededTo.START)),
            c.OrderSet(
                OrderLine("o2", "Brake pipe, a coil", "pipe", 1, "invented supplier",
                          ordered_on=date(2026, 3, 1), expected_on=date(2026, 3, 20))
            ),
        ]
    )  # fmt: skip
    assert "rear-pipe" not in [job.id for job in tonight(door).jobs]
    chain = why_not(door, None, "rear-pipe")
    assert chain.rule == "part"
    assert "Brake pipe, a coil" in chain.links[-1].sentence
    door.record(c.GoodsChecked("o2", GoodsIn.RIGHT, 1, "bin 3"))
    assert "rear-pipe" in [job.id for job in tonight(door).jobs]


def test_without_the_helper_what_takes_two_is_named_and_waits_for_somebody_to_be_asked(
    door: Door,
) -> None:
    before = tonight(door)
    assert before.jobs[0].id == "rear-pipe"
    helped = road(door, samples=SAMPLES)
    assert helped.p80 is not None
    saturday = door.build().patterns["sat"]
    door.record(c.PatternSet(replace(saturday, people=1)))
    alone = road(door, samples=SAMPLES)
    assert alone.p80 is not None
    assert alone.p80 > helped.p80
    (said,) = [words for words in alone.assumptions if "'Tank' takes two people" in words]
    assert "No session has a helper" in said
    assert "planned as if somebody came" in said
    # Nobody is counted on in the two weeks that one acts on.
    (tank,) = [one for one in alone.sessions if "tank" in [job.id for job in one.jobs]]
    assert tank.starts_at - alone.made_at > timedelta(weeks=2)
    assert why_not(door, None, "tank").links
    door.record(c.PatternSet(saturday))
    assert road(door, samples=SAMPLES).p50 is not None


def test_a_car_that_stands_otherwise_changes_tonight(door: Door) -> None:
    on_stands = tonight(door)
    door.record(c.CarPlaced(Placement("wheels")))
    on_wheels = tonight(door)
    assert on_stands.session.support == "stands"
    assert on_wheels.session.support == "wheels"
    assert "rear-pipe" in [job.id for job in on_stands.jobs]
    assert on_wheels.moves or "rear-pipe" not in [job.id for job in on_wheels.jobs]
    ahead = road(door, samples=SAMPLES)
    first = next(s for s in ahead.sessions if any(job.id == "rear-pipe" for job in s.jobs))
    assert any("stands" in move for move in first.moved), "it must be put on stands for that"


def test_a_change_of_support_that_takes_longer_puts_off_what_needs_it(door: Door) -> None:
    before = road(door, samples=SAMPLES)
    door.record(c.SupportMoveSet(SupportMove("stands", "wheels", 240)))
    after = road(door, samples=SAMPLES)
    assert _day_of("drive", after) > _day_of("drive", before)
    assert _day_of("tank", after) == _day_of("tank", before)
