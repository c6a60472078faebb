"""What a delivery did to the plan: reckoned by the planner, for each of the five outcomes."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from bareshell.app.door import Door
from bareshell.app.goods_in import check_in, goods_plan
from bareshell.cli.main import bareshell
from bareshell.errors import NotFound
from bareshell.model import changes as c
from bareshell.model.part import Exchange, GoodsIn, Need, OrderLine, SourceClass
from bareshell.whole.goods_plan import GoodsPlan
from tests.stories import NOW, small_car_changes

TONIGHT = NOW.date()


class Clock:
    """A clock wound by hand."""

    now = NOW

    def __call__(self) -> datetime:
        """Return the time."""
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def door(tmp_path: Path, clock: Clock) -> Iterator[Door]:
    """The pipe is in, and the hose that comes next is on order."""
    with Door.open(tmp_path / "car", create=True, clock=clock, back_up=False) as opened:
        opened.record([*small_car_changes(), c.JobFinished("rear-pipe")])
        yield opened


def due(door: Door, day: date, **more: object) -> None:
    """Give the order of the hose another day."""
    line = door.build().orders["o1"].line
    door.record(c.OrderSet(replace(line, expected_on=day, **more)))  # type: ignore[arg-type]


def came(door: Door, outcome: GoodsIn) -> GoodsPlan:
    check_in(door, "o1", outcome)
    return goods_plan(door, "o1")


def ids(jobs: tuple[object, ...]) -> list[str]:
    return [job.id for job in jobs]  # type: ignore[attr-defined]


@pytest.mark.parametrize("outcome", [GoodsIn.RIGHT, GoodsIn.UNLIKE])
def test_what_fits_frees_its_job_tonight_and_brings_the_road_nearer(
    door: Door, outcome: GoodsIn
) -> None:
    due(door, TONIGHT + timedelta(days=40))
    found = came(door, outcome)
    assert (ids(found.may_begin), found.lost) == (["rear-hose"], ())
    assert found.session_on == TONIGHT
    assert found.wanted_after == TONIGHT
    assert found.wanted_before is not None
    assert found.wanted_before > TONIGHT + timedelta(days=30)
    assert found.word == "nearer"
    assert found.gain_days is not None
    assert found.gain_days > 20
    assert any("could not before: 'Rear hose'" in one for one in found.says)
    assert any(one.startswith("The road came nearer by") for one in found.says)
    assert found.order_by is None


@pytest.mark.parametrize("outcome", [GoodsIn.WRONG, GoodsIn.DAMAGED])
def test_what_cannot_be_fitted_moves_its_job_and_is_ordered_again(
    door: Door, outcome: GoodsIn
) -> None:
    due(door, TONIGHT)
    found = came(door, outcome)
    assert (found.may_begin, found.lost) == ((), ())
    assert found.wanted_before is not None
    assert found.wanted_after is not None
    assert found.wanted_after > found.wanted_before
    assert found.word == "farther"
    assert found.order_by is not None
    assert found.outstanding == 1
    assert any("later." in one for one in found.says)
    assert any("rder it again" in one for one in found.says)
    assert found.p80_before is not None
    assert found.p80_after is not None
    assert found.p80_after > found.p80_before


def test_short_says_how_the_rest_meets_the_plan(door: Door) -> None:
    due(door, TONIGHT + timedelta(days=6), quantity=3)
    line = door.build().needs["hose"]
    door.record(c.NeedSet(replace(line, quantity=3)))
    check_in(door, "o1", GoodsIn.SHORT, 2)
    found = goods_plan(door, "o1")
    assert (found.outstanding, found.order_by, found.may_begin) == (1, None, ())
    assert any(one.startswith("The other 1 are expected") for one in found.says)


def test_an_old_unit_that_must_go_before_the_new_one_is_proven_is_said(door: Door) -> None:
    door.record(c.NeedSet(Need("sender", "Tank sender", "tank")))
    due(
        door,
        TONIGHT + timedelta(days=40),
        need="sender",
        source=SourceClass.EXCHANGE,
        exchange=Exchange(TONIGHT + timedelta(days=2)),
    )
    found = came(door, GoodsIn.RIGHT)
    (said,) = [one for one in found.says if one.startswith("Old unit: 2 days left")]
    assert "too late. First: prove the new one on the bench" in said


def test_the_answer_stays_what_it_was_whatever_is_written_later(door: Door, clock: Clock) -> None:
    due(door, TONIGHT + timedelta(days=40))
    then = came(door, GoodsIn.RIGHT)
    clock.now += timedelta(days=3)
    door.record(c.JobFinished("rear-hose"))
    assert goods_plan(door, "o1") == then


def test_an_order_for_no_job_moves_nothing(door: Door) -> None:
    door.record(c.OrderSet(OrderLine("cloth", "Polishing cloth", None, 1)))
    check_in(door, "cloth", GoodsIn.RIGHT)
    found = goods_plan(door, "cloth")
    assert (found.job, found.may_begin, found.word) == (None, (), "no clear effect")
    assert "It was ordered for no job of the plan." in found.says


def test_without_a_delivery_there_is_nothing_to_say(door: Door) -> None:
    with pytest.raises(NotFound, match="nothing of 'Rear flexible hose' came yet"):
        goods_plan(door, "o1")
    with pytest.raises(NotFound, match="there is no order 'nonesuch'"):
        goods_plan(door, "nonesuch")


def test_at_the_command_line(door: Door, tmp_path: Path) -> None:
    due(door, TONIGHT + timedelta(days=40))
    run = CliRunner()
    env = {"BARESHELL_BUILD": str(tmp_path / "car")}
    said = run.invoke(bareshell, ["shelf", "goods-in", "o1", "right"], env=env)
    assert said.exit_code == 0
    assert "'Rear flexible hose': 1 right." in said.output
    assert "next session" in said.output
    told = run.invoke(bareshell, ["shelf", "came", "o1", "--json"], env=env)
    assert json.loads(told.output)["outcome"] == "right"
    none = run.invoke(bareshell, ["shelf", "came", "nonesuch"], env=env)
    assert isinstance(none.exception, NotFound)
