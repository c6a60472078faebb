"""What to cut, flare and buy; and the sheet that lies on the bench."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bareshell.brakes.cut_list import CLIP_SPACING_M, Allowances, cut_list
from bareshell.brakes.pipe_sheet import pipe_sheet
from bareshell.brakes.starters import STARTERS, starter
from bareshell.model.brake import BrakeSystem, LineKind
from bareshell.model.trust import Stated, Trust
from tests.brakes import edits as e
from tests.brakes.systems import any_systems

CAR = starter("front-rear tandem", threads="metric")
LONG = "pipe-to-rear-valve"


def cut(system: BrakeSystem, line: str, **figures: Stated) -> float | None:
    system = e.with_line(system, line, figures=figures)
    return {pipe.line: pipe.cut_m for pipe in cut_list(system).pipes}[line]


class TestPipes:
    """Each pipe with its allowances."""

    def test_flares_trim_and_bends_come_on_top(self) -> None:
        """Two convex flares, two trimmed ends, two bends: common practice, added by hand."""
        exact = Stated(2.0, Trust.MEASURED)
        bends = len(CAR.line(LONG).route_m)
        assert bends == 2
        assert cut(CAR, LONG, length_m=exact) == pytest.approx(2.0 + 2 * 3e-3 + 2 * 1e-2 + 2 * 5e-3)

    def test_the_longest_that_is_believed_is_cut(self) -> None:
        """A pipe that comes out short is scrap."""
        sure, unsure = Stated(2.0, Trust.MEASURED), Stated(2.0, Trust.ASSUMED, 1.5, 2.5)
        one, other = cut(CAR, LONG, length_m=sure), cut(CAR, LONG, length_m=unsure)
        assert one is not None
        assert other is not None
        assert other - one == pytest.approx(0.5)

    def test_a_pipe_that_nobody_measured_has_no_length(self) -> None:
        """It is listed all the same, and left out of the stock by name."""
        line = replace(CAR.line(LONG), figures={})
        system = replace(CAR, lines=tuple(line if x.id == LONG else x for x in CAR.lines))
        found = cut_list(system)
        pipe = {each.line: each for each in found.pipes}[LONG]
        assert (pipe.length_m, pipe.cut_m, pipe.clips) == (None, None, None)
        assert found.stock[0].not_measured == (LONG,)

    def test_allowances_are_the_owners_to_change(self) -> None:
        """His flaring tool uses more."""
        mine = Allowances(convex_flare_m=0.006)
        theirs = {p.line: p.cut_m for p in cut_list(CAR).pipes}
        own = {p.line: p.cut_m for p in cut_list(CAR, mine).pipes}
        assert all(
            own[key] == pytest.approx(value + 0.006)
            for key, value in theirs.items()
            if value is not None
        )

    @given(length=st.floats(0.05, 6.0))
    def test_no_gap_between_clips_is_wider_than_the_usual_one(self, length: float) -> None:
        """The joints hold the ends; what is between is clipped at most so far apart."""
        system = e.with_line(CAR, LONG, figures={"length_m": Stated(length, Trust.MEASURED)})
        clips = {pipe.line: pipe.clips for pipe in cut_list(system).pipes}[LONG]
        assert clips is not None
        free = 0.15
        if clips == 0:
            assert length <= 2 * free
        elif clips > 1:
            assert (length - 2 * free) / (clips - 1) <= CLIP_SPACING_M + 1e-9


class TestToBuy:
    """Nuts, flares, washers, hoses, stock."""

    @pytest.mark.parametrize("name", STARTERS)
    def test_every_pipe_has_two_nuts_and_two_flares(self, name: str) -> None:
        """Counted through the groups."""
        found = cut_list(starter(name, threads="inch"))
        pipes = len(found.pipes)
        assert sum(each.count for each in found.of("pipe nut")) == 2 * pipes
        assert sum(each.count for each in found.of("flare")) == 2 * pipes
        assert {each.thread for each in found.of("pipe nut")} == {"3/8-24 UNF"}

    def test_hoses_with_their_washers_and_lock_nuts(self) -> None:
        """Three hoses: a washer to each tail, a lock nut to each bracket."""
        found = cut_list(CAR)
        assert [hose.line for hose in found.hoses] == [
            "hose-front-left",
            "hose-front-right",
            "hose-rear",
        ]
        assert found.hoses[0].ends == ("M10x1, female, on convex", "M10x1, male, on washer")
        [washers] = found.of("sealing washer")
        assert (washers.count, washers.thread) == (3, "M10x1")
        [nuts] = found.of("hose lock nut")
        assert nuts.count == 3
        [screws] = found.of("bleed screw")
        assert screws.count == 4

    def test_nuts_are_told_apart_by_thread_sex_and_pipe(self) -> None:
        """What goes into one bag at the shop does not go onto one pipe."""
        system = e.with_line(CAR, LONG, figures=e.measured(outside_diameter_m=0.00635))
        nut = e.male("M12x1", "convex single")
        system = e.with_end(e.with_end(system, LONG, 0, fitting=nut), LONG, 1, fitting=nut)
        words = {each.words: each.count for each in cut_list(system).of("pipe nut")}
        assert words["M12x1, male, for 6.35 mm pipe"] == 2
        assert words["M10x1, male, pipe size not known"] == 16

    def test_stock_is_what_is_cut_with_waste_to_the_next_half_metre(self) -> None:
        """Steel and copper-nickel are bought apart."""
        system = e.with_line(CAR, "pipe-rear-left", choices={"material": "copper-nickel"})
        stock = {each.material: each for each in cut_list(system).stock}
        assert stock["copper-nickel"].lines == ("pipe-rear-left",)
        for each in stock.values():
            assert each.buy_m >= each.cut_m * 1.15 > each.buy_m - 0.5
            assert math.isclose(each.buy_m * 2, round(each.buy_m * 2))

    def test_a_blank_is_bought_too(self) -> None:
        """The plug of a leg that was shut off."""
        assert sum(each.count for each in cut_list(e.with_blanked_branch(CAR)).of("blank")) == 2

    @settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(system=any_systems())
    def test_any_entry_has_a_cut_list_and_a_sheet(self, system: BrakeSystem) -> None:
        """Every pipe is on both, measured or not."""
        pipes = [line.id for line in system.lines if line.kind is LineKind.PIPE]
        assert [pipe.line for pipe in cut_list(system).pipes] == pipes
        assert [each.pipe.line for each in pipe_sheet(system).pipes] == pipes


class TestSheet:
    """Bend by bend, from above."""

    def test_straights_add_up_to_the_way_from_above(self) -> None:
        """Held against the distance between the points that were drawn."""
        for each in pipe_sheet(CAR).pipes:
            drawn = sum(
                math.dist(*pair) for pair in zip(each.route_m, each.route_m[1:], strict=False)
            )
            assert each.plan_m == pytest.approx(drawn, abs=1e-3)
            assert sum(leg.straight_m for leg in each.legs) == pytest.approx(drawn, abs=1e-2)
            assert [leg.corner_deg for leg in each.legs][-1] is None

    def test_which_way_a_pipe_turns(self) -> None:
        """Rearwards, then to the car's right: as seen going along it, that is to the left."""
        line = replace(CAR.line(LONG), route_m=((1.0, 0.4), (1.0, 0.9)))
        system = replace(CAR, lines=tuple(line if x.id == LONG else x for x in CAR.lines))
        system = e.with_part(system, "shuttle", at_m=(0.0, 0.4))
        system = e.with_part(system, "valve-rear", at_m=(2.0, 0.9))
        [sheet] = [each for each in pipe_sheet(system).pipes if each.pipe.line == LONG]
        assert [leg.turns for leg in sheet.legs] == ["left", "right", ""]
        assert [leg.corner_deg for leg in sheet.legs] == [90.0, 90.0, None]
        assert [leg.from_end_m for leg in sheet.legs] == [1.0, 1.5, 2.5]

    def test_a_mirrored_car_turns_the_other_way(self) -> None:
        """Left for right, the straights alike."""
        ways = {}
        for side in ("right", "left"):
            system = starter("twin cylinders", driver_on=side)
            sheets = {each.pipe.line: each for each in pipe_sheet(system).pipes}
            ways[side] = [leg.turns for leg in sheets["pipe-rear"].legs[:2]]
        mirror = {"left": "right", "right": "left"}
        assert ways["left"] == [mirror[each] for each in ways["right"]]

    def test_rises_are_what_the_plan_does_not_show(self) -> None:
        """The pipe is longer than its way from above."""
        sheets = pipe_sheet(CAR).pipes
        assert all(each.rises_m is not None and each.rises_m > 0 for each in sheets)
