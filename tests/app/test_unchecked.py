"""A plan that the checker finds to break a rule reaches nobody, whoever asked for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bareshell.app.door import Door
from bareshell.app.forecasts import levers
from bareshell.app.goods_in import check_in, goods_plan
from bareshell.app.road import grounds, road
from bareshell.app.tonight import Unchecked, tonight, why_not
from bareshell.app.trial import trial
from bareshell.model import changes as c
from bareshell.model.part import GoodsIn
from bareshell.plan import helper_days as plan_helper_days
from bareshell.plan import road as plan_road
from bareshell.plan import side_by_side as plan_side_by_side
from bareshell.plan import tonight as plan_tonight
from bareshell.plan.checker import Violation
from bareshell.whole.sheet_parts import SessionAsked
from tests.stories import NOW, small_car_changes

ASKED: dict[str, Callable[[Door], object]] = {
    "tonight": tonight,
    "tonight, packed": lambda door: tonight(door, SessionAsked(minutes=120, exactly=True)),
    "why not": lambda door: why_not(door, None, "tank"),
    "road": road,
    "grounds": grounds,
    "trial": lambda door: trial(door, ()),
    "the helper's days": levers,
    "what a delivery did": lambda door: goods_plan(door, "o1"),
}


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path / "car", create=True, clock=lambda: NOW, back_up=False) as opened:
        opened.record([*small_car_changes(), c.JobFinished("rear-pipe")])
        check_in(opened, "o1", GoodsIn.RIGHT)
        yield opened


@pytest.mark.parametrize("what", ASKED)
def test_nothing_unchecked_is_shown(door: Door, what: str, monkeypatch: pytest.MonkeyPatch) -> None:
    ASKED[what](door)
    broken = Violation("gate", "tank", "'Tank' passes the gate 'under-car' while it is shut")
    for planner in (plan_tonight, plan_road, plan_side_by_side, plan_helper_days):
        monkeypatch.setattr(planner, "check", lambda *_, **__: [broken])
    with pytest.raises(Unchecked, match="'Tank' passes the gate 'under-car' while it is shut"):
        ASKED[what](door)
