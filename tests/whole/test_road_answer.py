"""The road in words: last days to order, the gap, the season; as other pages have them."""

from __future__ import annotations

from datetime import date

from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.part import OrderLine, SourceClass
from bareshell.plan.road import road as plan_road
from bareshell.whole.order_list import order_list
from bareshell.whole.plan_problem import plan_question
from bareshell.whole.road_answer import road_overview
from bareshell.whole.road_parts import RoadOverview
from bareshell.whole.wanted_days import wanted_days
from tests.stories import NOW, later, small_car


def _road(build: Build) -> RoadOverview:
    question = plan_question(build, NOW)
    return road_overview(build, question, plan_road(question.problem, seed=1, samples=20))


def _wanting() -> Build:
    """The pipe nuts were looked for and are not here; they once came from an invented shop."""
    before = OrderLine(
        "o0", "Pipe nuts", "nuts", 4, "Fennimoss", SourceClass.REMADE,
        date(2025, 11, 1), date(2025, 12, 20),
    )  # fmt: skip
    return later(
        small_car(), c.OrderSet(before), c.OrderCancelled("o0", "never came"), c.NeedNotHere("nuts")
    )


def test_the_surer_one_wants_to_be_the_sooner_one_orders() -> None:
    (nuts,) = _road(_wanting()).order_by
    days = [nuts.by(share) for share in (0.8, 0.9, 0.95)]
    assert days[0] > days[1] > days[2]
    assert nuts.order_by == max(NOW.date(), nuts.by(0.9))
    # Where it came from last is where it is taken to come from again: six weeks and late.
    assert (nuts.needed_on - nuts.by(0.8)).days > 42


def test_the_order_list_of_the_parts_desk_says_the_same_days() -> None:
    build = _wanting()
    found = _road(build)
    for share in (0.8, 0.9, 0.95):
        listed = order_list(build, NOW, NOW.date(), wanted_days(build, found), confidence=share)
        by_need = {line.need: line.order_by for group in listed.groups for line in group.lines}
        assert by_need == {one.need: one.by(share) for one in found.order_by}


def test_the_gap_is_what_another_order_could_gain_at_most() -> None:
    found = _road(small_car())
    assert found.gap_days is not None
    assert found.gap_days >= 0
    assert "order of jobs" in found.gap


def test_work_that_waits_for_warmth_is_placed_and_said() -> None:
    (seam,) = _road(small_car()).seasonal
    assert (seam.job, seam.least_c, seam.cure_hours) == ("seam", 10, 24)
    assert seam.opens is not None
    assert seam.opens > date(2026, 3, 20)
    assert seam.planned is not None
    assert seam.planned >= seam.opens
    assert f"expected to be so warm from {seam.opens.day}" in seam.words
