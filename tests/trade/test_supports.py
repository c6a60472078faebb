"""How a car can stand, and what each support opens."""

from __future__ import annotations

import pytest

from bareshell.draw.supports import stance_of
from bareshell.model.car import Layout
from bareshell.model.job import Job
from bareshell.model.position import Place, Support, SupportKind, Wheels, Zone
from bareshell.trade.cautions import HARMS
from bareshell.trade.network import starter
from bareshell.trade.supports import (
    ALWAYS_THERE,
    before_wheels,
    cautions_for,
    default_moves,
    default_supports,
    suits,
)
from tests.trade.checks import begun


def _by_kind(*kinds: SupportKind) -> dict[SupportKind, Support]:
    return {support.kind: support for support in default_supports(kinds)}


def test_a_scissor_lift_is_not_the_same_as_stands() -> None:
    there = _by_kind(SupportKind.SCISSOR_LIFT)
    assert Zone.UNDERNEATH not in there[SupportKind.SCISSOR_LIFT].opens
    assert Zone.UNDERNEATH in there[SupportKind.STANDS].opens
    jobs = {job.id: job for job in starter(Layout.REAR).jobs}
    scissor = there[SupportKind.SCISSOR_LIFT]
    assert not suits(jobs["pipe-under"], scissor)
    assert suits(jobs["pipe-rear"], scissor)
    assert suits(jobs["caliper-fit"], scissor)


def test_road_and_test_station_are_always_there_and_stands_are_counted_on() -> None:
    assert set(_by_kind()) == set(ALWAYS_THERE)


def test_the_floor_opens_the_underside_only_where_nothing_better_does() -> None:
    alone = _by_kind()[SupportKind.LEVEL_FLOOR]
    assert Zone.UNDERNEATH in alone.opens
    assert "blocks" in alone.title
    for kind in (SupportKind.PIT, SupportKind.FOUR_POST_LIFT):
        assert Zone.UNDERNEATH not in _by_kind(kind)[SupportKind.LEVEL_FLOOR].opens
    assert Zone.UNDERNEATH in _by_kind(SupportKind.TWO_POST_LIFT)[SupportKind.LEVEL_FLOOR].opens


def test_pivots_are_torqued_on_the_wheels_on_level_ground() -> None:
    jobs = {job.id: job for job in starter(Layout.FRONT).jobs}
    fit = {s.kind for s in default_supports(list(SupportKind)) if suits(jobs["bush-torque"], s)}
    assert fit == {SupportKind.PIT, SupportKind.FOUR_POST_LIFT}
    assert [s.kind for s in default_supports(()) if suits(jobs["bush-torque"], s)] == [
        SupportKind.LEVEL_FLOOR
    ]


def test_hub_work_wants_the_wheels_hanging() -> None:
    jobs = {job.id: job for job in starter(Layout.FRONT).jobs}
    for job in ("front-arms", "disc-fit", "caliper-fit", "rear-hubs-fwd", "bleed-1"):
        for support in default_supports(list(SupportKind)):
            if suits(jobs[job], support):
                assert support.wheels is Wheels.HANGING


def test_door_seals_ask_for_the_doors_only() -> None:
    job = next(job for job in starter(Layout.FRONT).jobs if job.id == "door-seals")
    assert job.zones == frozenset({Zone.DOORS})
    assert job.wheels is Wheels.EITHER


def test_nothing_but_driving_is_done_on_the_road() -> None:
    there = _by_kind()
    anywhere = Job("note", "Look at it", "commissioning")
    drive = Job("drive", "Drive it", "commissioning", place=Place.ROAD)
    assert not suits(anywhere, there[SupportKind.ROAD])
    assert suits(drive, there[SupportKind.ROAD])
    assert not suits(drive, there[SupportKind.WHEELS])


@pytest.mark.parametrize("kind", SupportKind)
def test_every_kind_has_its_cautions_and_its_picture(kind: SupportKind) -> None:
    assert cautions_for(kind)
    assert all(caution.harm in HARMS for caution in cautions_for(kind))
    assert stance_of(kind.value).word


def test_stands_are_rated_and_lifts_stand_on_their_locks() -> None:
    assert "rated" in cautions_for(SupportKind.STANDS)[0].sentence.lower()
    for kind in (
        SupportKind.SCISSOR_LIFT,
        SupportKind.TWO_POST_LIFT,
        SupportKind.FOUR_POST_LIFT,
    ):
        assert "locks" in cautions_for(kind)[0].sentence


def test_there_is_a_move_between_any_two_supports_for_one_person() -> None:
    supports = default_supports(list(SupportKind))
    moves = {(m.from_support, m.to_support): m for m in default_moves(supports)}
    assert len(moves) == len(supports) * (len(supports) - 1)
    assert all(1 <= move.minutes <= 60 and move.people == 1 for move in moves.values())
    # Going round by a third support is never quicker than going straight.
    ids = [support.id for support in supports]
    for a in ids:
        for b in ids:
            for via in ids:
                if len({a, b, via}) == 3:
                    round_about = moves[a, via].minutes + moves[via, b].minutes
                    assert moves[a, b].minutes <= round_about


def test_a_shell_without_running_gear_cannot_be_on_its_wheels() -> None:
    bare = begun({"name": "it", "layout": "front", "standing": "stands"})
    waits = before_wheels(bare)
    assert {"doors-hang", "pipe-under", "uprights"} <= waits
    assert not {"on-wheels", "hose-sweep", "toe", "road-gate"} & waits
    rolling = begun({"name": "it", "layout": "front", "standing": "wheels"})
    assert before_wheels(rolling) == frozenset()
    without = begun({"name": "it", "layout": "front", "systems": "brakes"})
    assert before_wheels(without) == frozenset()
